//! A card that is put in after a start without one, by the firmware's own code: whatever
//! card it is and whatever happens meanwhile, the job in memory stays that of a handheld
//! without a card until it is on the card, whole and once, beside the jobs that were there.

use super::bench::{
    Crew, DRILLED, Ended, HOLD, Press, TAP, empty_job, in_work, jobs_from, presses, switched_on,
    switched_on_at, with_hazel,
};
use super::fat::{Card, FAT16, FAT32};
use super::room::filled;
use super::slot::{Mishap, Slot};
use crate::handheld::journal::card::{Blocks, Card as JournalCard};
use crate::handheld::journal::crew::found;
use crate::judges::dice::Dice;
use boltbay_board::pages;
use boltbay_core::Job;
use boltbay_handheld::Key;
use std::collections::BTreeMap;

/// Keys by chance, mostly those that lead on.
pub fn by_chance(seed: u64) -> Vec<Press> {
    let mut dice = Dice::new(seed);
    let mut press = || {
        let key = dice.pick(&[Key::Ok, Key::Ok, Key::Ok, Key::Down, Key::Right, Key::Up]);
        (key, if dice.chance(1, 10) { HOLD } else { TAP })
    };
    (0..50).map(|_| press()).collect()
}

/// The script with most entries of some from this job on, and the job after each key where there is
/// no card; the first one is that before any.
pub fn played_from(job: &Job) -> (Vec<Press>, Vec<Box<Job>>) {
    let played = |seed| {
        let script = by_chance(seed);
        let jobs = jobs_from(job, &script);
        (script, jobs)
    };
    let entries = |jobs: &[Box<Job>]| jobs.windows(2).filter(|two| two[0] != two[1]).count();
    let all = (0..200).map(played);
    all.max_by_key(|(_, jobs)| entries(jobs)).unwrap()
}

/// The same from nothing on.
fn played() -> (Vec<Press>, Vec<Box<Job>>) {
    played_from(&empty_job())
}

/// Every job of a card, by number, and which one is opened next.
pub fn jobs_on(card: &Card) -> (BTreeMap<u8, (Job, bool)>, u8) {
    let files = card.files();
    let first = files["BOLTBAY JNL"].clusters[0];
    let mut blocks = Blocks::default();
    for at in 0..16_384 {
        let block = card.get(card.format.first_block(first) + at);
        if block != [0; 512] {
            blocks.put(at, &block);
        }
    }
    let (world, _) = found::<Job>(&JournalCard::of(blocks)).unwrap();
    (world.jobs, world.open)
}

/// A card with two jobs, the later one drilled, its newest edits in records alone.
fn of_another_crew() -> Card {
    let slot = Slot::with(&with_hazel(FAT16));
    let ended = switched_on_at(8, &slot, &[Key::Ok], |crew| {
        for press in presses(DRILLED) {
            crew.press(press);
        }
    });
    assert_eq!(ended, Ended::Off);
    slot.ours()
}

/// No card in it yet; this one will be put in.
fn empty_slot(card: &Card) -> Slot {
    let slot = Slot::with(card);
    slot.let_happen(Mishap::Pulled(0), None);
    slot
}

/// Exactly this job has come to a card.
fn has_come(before: &Card, after: &Card, job: &Job, case: &str) {
    after.check(false);
    let (mut jobs, open) = jobs_on(after);
    assert!(jobs.remove(&open) == Some((job.clone(), false)), "{case}");
    match before.files().contains_key("BOLTBAY JNL") {
        true => assert!(jobs == jobs_on(before).0, "{case}: jobs of the card"),
        false => assert!(jobs.is_empty(), "{case}: jobs of nobody"),
    }
}

/// The job goes on where it was, and is kept.
fn goes_on(slot: &Slot, job: &Job) {
    let ended = switched_on(slot, &[], |crew| {
        assert!(crew.session.job() == job);
        assert!(crew.view().status.left != pages::NOTHING_KEPT);
        crew.tap(Key::Ok);
        assert!(!crew.is_told(), "{}", crew.words());
    });
    assert_eq!(ended, Ended::Off);
}

#[test]
fn put_in_before_any_key_the_job_is_on_it_after_the_next_entry() {
    let (script, jobs) = played();
    let cards = [with_hazel(FAT16), of_another_crew(), with_hazel(FAT32)];
    let mut taken_in = 0;
    for at in 0..script.len() {
        let before = &cards[at % cards.len()];
        let slot = empty_slot(before);
        let mut heard = 0;
        let ended = switched_on(&slot, &[Key::Left], |crew| {
            for (press, job) in script.iter().zip(&jobs[1..]) {
                if heard == at {
                    slot.put_in(Mishap::None, None);
                }
                heard += 1;
                crew.press(*press);
                assert!(*crew.session.job() == **job, "key {heard}");
                assert!(!crew.is_told(), "{}", crew.words());
            }
        });
        // Nothing keyed: the card's own job. No entry any more: nobody looks.
        let is_blank = heard <= at || jobs[..heard].iter().all(|job| *job == jobs[0]);
        let is_last = jobs[at..].iter().all(|job| *job == jobs[at]);
        if is_blank || is_last {
            continue;
        }
        assert_eq!(ended, Ended::Restarts, "put in before key {at}");
        let entered = jobs[at..heard].iter().all(|job| *job == jobs[at]);
        assert!(entered, "before key {at}: not by the first entry");
        has_come(before, &slot.ours(), &jobs[heard], &format!("key {at}"));
        goes_on(&slot, &jobs[heard]);
        taken_in += 1;
    }
    assert!(taken_in > 15, "{taken_in}");
}

/// A page about the card is read, and a key let go.
fn hears(crew: &mut Crew<'_, '_>, case: &str) -> bool {
    let is_told = crew.is_told();
    if is_told {
        let told = crew.words();
        let is_plain = told.contains(pages::NOTHING_KEPT) && told.contains(pages::GO_ON);
        assert!(is_plain, "{case}: {told}");
        crew.tap(Key::Ok);
    }
    assert!(!crew.is_told(), "{case}: {}", crew.words());
    is_told
}

/// The card is put in before an entry in the middle of a script, and something happens.
/// Where that is in vain, the card is put in anew. Whether it has happened, and whether
/// it was in vain.
fn run(card: &Card, mishap: Mishap, other: Option<&Card>) -> (bool, bool) {
    let case = format!("{mishap:?}");
    let (script, jobs) = played();
    let slot = empty_slot(card);
    let is_entry = |at: &usize| jobs[*at] != jobs[*at + 1];
    let put_in = (script.len() / 2..script.len()).find(is_entry).unwrap();
    let (mut heard, mut in_vain) = (0, false);
    let ended = switched_on(&slot, &[], |crew| {
        for (at, press) in script.iter().enumerate() {
            if at == put_in {
                slot.put_in(mishap, other);
            }
            heard = at + 1;
            crew.press(*press);
            assert!(
                *crew.session.job() == *jobs[heard],
                "{case}: lost from memory"
            );
            hears(crew, &case);
            assert!(
                *crew.session.job() == *jobs[heard],
                "{case}: lost by hearing"
            );
            if at == put_in {
                in_vain = true;
                let unheard = other.filter(|other| slot.other().as_ref() != Some(other));
                assert!(unheard.is_none(), "{case}: another card is written");
                slot.ours().check(false);
                slot.put_in(Mishap::None, None);
            }
        }
    });
    assert_eq!(ended, Ended::Restarts, "{case}");
    has_come(card, &slot.ours(), &jobs[heard], &case);
    (in_vain || slot.has_happened(), in_vain)
}

fn at_every_operation(mishap: impl Fn(u32) -> Mishap, other: Option<&Card>) {
    for card in [with_hazel(FAT16), of_another_crew()] {
        let (mut at, mut in_vain) = (1, 0);
        loop {
            let (happened, was_in_vain) = run(&card, mishap(at), other);
            if !happened {
                break;
            }
            in_vain += u32::from(was_in_vain);
            at += 1;
        }
        println!("{:?}: {at} operations, {in_vain} in vain", mishap(0));
        assert!(at > 300 && in_vain > 10, "{at} operations, {in_vain}");
    }
}

#[test]
fn pulled_again_at_every_operation() {
    at_every_operation(Mishap::Pulled, None);
}

#[test]
fn locked_at_every_operation() {
    at_every_operation(Mishap::Locked, None);
}

#[test]
fn one_operation_fails_whichever() {
    at_every_operation(Mishap::Fails, None);
    at_every_operation(Mishap::FailsLate, None);
}

#[test]
fn loose_at_every_operation() {
    at_every_operation(|at| Mishap::Loose(at, 2), None);
}

/// A card whose blocks are all taken, by a file of zeros.
pub fn taken_by_zeros() -> Card {
    let mut card = Card::formatted(FAT16);
    let clusters: Vec<u32> = (2..FAT16.clusters + 2).collect();
    card.put_file(b"ZEROS   BIN", &vec![0; clusters.len() * 4096], &clusters);
    card
}

#[test]
fn swapped_at_every_operation_the_other_card_is_never_written() {
    at_every_operation(Mishap::Swapped, Some(&taken_by_zeros()));
}

/// What is said of a card that cannot take it, and that nothing happens to it: not at
/// the next entries either.
#[test]
fn a_card_that_cannot_take_it_is_told_once_and_left_alone() {
    let (script, jobs) = played();
    let mut jobs_full = in_work(FAT16);
    // The first one is off the list, and gives way at last.
    for _ in 1..16 {
        jobs_full = with_one_more(&jobs_full, &script);
    }
    let mut unformatted = with_hazel(FAT16);
    unformatted.put(0, &[0; 512]);
    let mut folder = with_hazel(FAT16);
    folder.put_folder(b"BOLTBAY JNL", 4000);
    let mut damaged = in_work(FAT16);
    let first = damaged.files()["BOLTBAY JNL"].clusters[0];
    damaged.put(damaged.format.first_block(first) + 256, &[7; 512]);
    let cards = [
        (filled(&with_hazel(FAT16), 100), "CARD IS FULL"),
        (unformatted, "CARD IS NOT FORMATTED"),
        (folder, "BOLTBAY.JNL: A FOLDER"),
        (jobs_full, "CARD HOLDS 16 JOBS | TAKE ANOTHER CARD"),
        (damaged, "CARD IS DAMAGED"),
    ];
    for (card, words) in cards {
        let slot = empty_slot(&card);
        let mut told = 0;
        let ended = switched_on(&slot, &[], |crew| {
            for (at, (press, job)) in script.iter().zip(&jobs[1..]).enumerate() {
                if at == script.len() / 2 {
                    slot.put_in(Mishap::None, None);
                }
                crew.press(*press);
                let says = crew.words();
                if hears(crew, words) {
                    assert!(says.contains(words), "{says}");
                    told += 1;
                }
                assert!(*crew.session.job() == **job, "{words}");
            }
        });
        assert_eq!(told, 1, "{words}");
        assert!(matches!(ended, Ended::NotKept(_)), "{words}: {ended:?}");
        assert!(slot.ours() == card, "{words}: written");
    }
}

/// The card, once it came late to this script.
fn with_one_more(card: &Card, script: &[Press]) -> Card {
    let slot = empty_slot(card);
    let ended = switched_on(&slot, &[], |crew| {
        for (at, press) in script.iter().enumerate() {
            if at == script.len() / 2 {
                slot.put_in(Mishap::None, None);
            }
            crew.press(*press);
            assert!(!crew.is_told(), "{}", crew.words());
        }
    });
    assert_eq!(ended, Ended::Restarts);
    slot.ours()
}

/// Nothing keyed: what the crew expects is the card's own job.
#[test]
fn with_nothing_keyed_the_cards_own_job_is_opened() {
    for card in [of_another_crew(), with_hazel(FAT16)] {
        let slot = empty_slot(&card);
        let ended = switched_on(&slot, &[], |crew| {
            assert_eq!(crew.view().status.left, pages::NOTHING_KEPT);
            crew.tap(Key::Down);
            slot.put_in(Mishap::None, None);
            // A key on the first screen is a moment to notice.
            crew.tap(Key::Up);
        });
        assert_eq!(ended, Ended::Restarts);
        if card.files().contains_key("BOLTBAY JNL") {
            assert!(slot.ours() == card, "nothing is written");
        }
        let ended = switched_on(&slot, &[Key::Ok], |crew| {
            assert_eq!(crew.session.job().name, "Hazel: half drilled");
        });
        assert_eq!(ended, Ended::Off);
    }
}
