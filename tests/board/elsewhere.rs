//! A card that was taken out of a handheld that runs, used in another one, and put back:
//! what was entered in both is on it afterwards, as two jobs.

use super::bench::{Ended, Press, in_work, kept_on, switched_on, switched_on_at};
use super::fat::{Card, FAT16};
use super::late::{by_chance, jobs_on, played_from};
use super::slot::{Mishap, Slot};
use boltbay_core::Job;
use boltbay_handheld::Key;

/// What another handheld makes of the card by so many keys; its job, and whether an entry
/// was among them.
fn used(card: &Card, seed: u64, keys: usize) -> (Card, Box<Job>, bool) {
    let slot = Slot::with(card);
    let before = kept_on(card).unwrap();
    let mut job = before.clone();
    let ended = switched_on_at(9, &slot, &[], |crew| {
        for press in by_chance(seed).iter().take(keys) {
            crew.press(*press);
            assert!(!crew.is_told(), "{}", crew.words());
        }
        *job = crew.session.job().clone();
    });
    assert_eq!(ended, Ended::Off);
    let is_used = job != before;
    (slot.ours(), job, is_used)
}

/// Both jobs are there, and nothing else; the one that came back last is open.
fn both_are_there(card: &Card, elsewhere: &Job, here: &Job, case: &str) {
    card.check(false);
    let (mut jobs, open) = jobs_on(card);
    assert!(
        jobs.remove(&open) == Some((here.clone(), false)),
        "{case}: here"
    );
    let others: Vec<&(Job, bool)> = jobs.values().filter(|(job, _)| job == elsewhere).collect();
    assert_eq!(others.len(), 1, "{case}: elsewhere");
    assert!(!others[0].1, "{case}: removed");
}

/// The card goes out between two keys of a script, is used elsewhere, and is there again
/// before the next one, or some keys later. Whether it came to two jobs.
fn run(
    card: &Card,
    (script, jobs): &(Vec<Press>, Vec<Box<Job>>),
    (at, away): (usize, usize),
    (seed, keys): (u64, usize),
) -> bool {
    let case = format!("out before key {at} for {away}, {keys} keys elsewhere");
    let slot = Slot::with(card);
    let (mut elsewhere, mut heard) = (None, 0);
    let ended = switched_on(&slot, &[], |crew| {
        for (press, job) in script.iter().zip(&jobs[1..]) {
            if heard == at {
                elsewhere = Some(used(&slot.ours(), seed, keys));
                slot.let_happen(Mishap::Pulled(0), None);
            }
            if let Some((card, ..)) = elsewhere.as_ref().filter(|_| heard == at + away) {
                slot.comes_back(card);
            }
            heard += 1;
            crew.press(*press);
            if crew.is_told() {
                crew.tap(Key::Left);
            }
            assert!(*crew.session.job() == **job, "{case}: key {heard}");
        }
    });
    let (card, theirs, is_used) = elsewhere.expect("the card goes out");
    if ended == Ended::Restarts {
        both_are_there(&slot.ours(), &theirs, &jobs[heard], &case);
        return true;
    }
    assert_eq!(ended, Ended::Off, "{case}");
    // An entry since it came back is a moment to notice.
    let is_entered = jobs[at + away..].iter().any(|job| *job != jobs[at + away]);
    if is_used {
        assert!(!is_entered, "{case}: an entry, and not taken in");
        assert!(
            jobs_on(&slot.ours()) == jobs_on(&card),
            "{case}: written over"
        );
    } else if is_entered {
        let kept = kept_on(&slot.ours()).unwrap();
        assert!(kept == *jobs.last().unwrap(), "{case}: lost");
    }
    false
}

#[test]
fn what_was_entered_elsewhere_and_here_are_two_jobs() {
    let card = in_work(FAT16);
    let played = played_from(&kept_on(&card).unwrap());
    let mut came = 0;
    for at in (0..40).step_by(3) {
        for away in [0, 1, 7] {
            for (seed, keys) in [(2, 1), (3, 12), (4, 50)] {
                came += u32::from(run(&card, &played, (at, away), (seed, keys)));
            }
        }
    }
    assert!(came > 30, "{came}");
}
