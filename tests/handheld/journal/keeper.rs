//! The keeper: whatever keys are struck and whatever the card does, what is shown
//! is what is on the card.

use super::card::{Card, Mood};
use super::sessions::bytes;
use crate::judges::dice::Dice;
use boltbay_core::Job;
use boltbay_core::words::Units;
use boltbay_handheld::edit::Edit;
use boltbay_handheld::field::{Field, Kind, Value};
use boltbay_handheld::journal::{Journal, Keeper, Kept, Outcome};
use boltbay_handheld::paint::faults;
use boltbay_handheld::{Handheld, Key, Memory, Millis};

const MOODS: [Mood; 6] = [
    Mood::Gone,
    Mood::Locked,
    Mood::Refusing,
    Mood::Dropping,
    Mood::Complaining,
    Mood::Shaky,
];

/// The job that a restart would find.
fn after_restart(keeper: &mut Keeper<Card>) -> Job {
    let blocks = keeper.journal().store().blocks.clone();
    let mut job = Job::new(Units::Imperial);
    let opening = Journal::new(Card::of(blocks)).open(&mut job).unwrap();
    assert_eq!((opening.missing, opening.lost), (None, None));
    job
}

/// A random key, mostly those that lead on.
fn strike(handheld: &mut Handheld<'_>, dice: &mut Dice, now: &mut u64) {
    let key = dice.pick(&[
        Key::Ok,
        Key::Ok,
        Key::Ok,
        Key::Down,
        Key::Down,
        Key::Right,
        Key::Up,
        Key::Left,
        Key::Digit(1),
    ]);
    handheld.press(key, Millis(*now));
    *now += if dice.chance(1, 8) { 1100 } else { 60 };
    handheld.release(key, Millis(*now));
    *now += 1400;
}

#[test]
fn what_is_shown_is_on_the_card() {
    let (mut kept, mut refused) = (0, 0);
    for seed in 0..12 {
        let mut dice = Dice::new(seed);
        let mut memory = Box::new(Memory::new());
        let mut keeper = Keeper::new(Card::default());
        let number = super::crew::OURS;
        keeper.journal().set_up(number, &mut memory.job).unwrap();
        let mut handheld = Handheld::new(&mut memory);
        let mut now = 1000;
        let mut shown = handheld.job().clone();
        for turn in 0..120 {
            let mood = match dice.chance(1, 6) {
                true => dice.pick(&MOODS),
                false => Mood::Well,
            };
            keeper.journal().store().mood = mood;
            strike(&mut handheld, &mut dice, &mut now);
            let mut outcome = keeper.keep(&mut handheld);
            if outcome == Outcome::Waits {
                // The crew sees what is wrong, not what it keyed.
                let view = keeper.view(&handheld);
                assert_eq!(view.screen, "card", "seed {seed}, key {turn}, {mood:?}");
                assert!(faults(&view).is_empty(), "{:?}", faults(&view));
                assert_eq!(after_restart(&mut keeper), shown, "seed {seed}, key {turn}");
                refused += 1;
                keeper.journal().store().mood = Mood::Well;
                outcome = keeper.again(&handheld);
            }
            assert_eq!(outcome, Outcome::Kept);
            assert!(keeper.view(&handheld) == handheld.view());
            kept += usize::from(*handheld.job() != shown);
            shown = handheld.job().clone();
            assert_eq!(after_restart(&mut keeper), shown, "seed {seed}, key {turn}");
        }
        // The screen comes back too, as far as its place is kept.
        keeper.journal().store().mood = Mood::Well;
        strike(&mut handheld, &mut dice, &mut now);
        assert_eq!(keeper.keep(&mut handheld), Outcome::Kept);
        let (place, mut memory) = (handheld.place(), Box::new(Memory::new()));
        let mut back = Keeper::new(Card::of(keeper.journal().store().blocks.clone()));
        back.open(&mut memory.job).unwrap();
        let mut handheld = Handheld::new(&mut memory);
        back.resume(&mut handheld);
        assert_eq!(handheld.place(), place, "seed {seed}");
    }
    assert!(kept > 40 && refused > 5, "{kept} kept, {refused} refused");
}

/// The bytes of a key that renames the job.
fn rename(turn: usize) -> Vec<u8> {
    let name = Value::of_words(&format!("name {turn}"));
    bytes(&[Edit::Set(Field::of(Kind::JobName), name)])
}

fn shown(keeper: &Keeper<Card>, handheld: &Handheld<'_>) -> String {
    let view = keeper.view(handheld);
    assert!(faults(&view).is_empty(), "{:?}", faults(&view));
    let lines = view.lines.iter().map(|line| line.left.as_str());
    lines.collect::<Vec<_>>().join(" ")
}

#[test]
fn what_is_missing_on_a_card_is_seen_before_anything_else() {
    let mut memory = Box::new(Memory::new());
    let mut journal = Journal::new(Card::default());
    let job = &mut memory.job;
    journal.set_up(super::crew::OURS, job).unwrap();
    for turn in 0..100 {
        journal.record(&rename(turn), b"").unwrap();
        job.apply(&rename(turn)).unwrap();
    }
    let mut blocks = journal.store().blocks.clone();
    for number in 12..=61_u32 {
        blocks.lose(if number % 2 == 0 { 1 } else { 8193 } + number / 2);
    }
    let mut keeper = Keeper::new(Card::of(blocks));
    keeper.open(&mut memory.job).unwrap();
    assert_eq!(memory.job.name, "name 9");
    let mut handheld = Handheld::new(&mut memory);
    assert_eq!(shown(&keeper, &handheld), "90 ENTRIES ARE MISSING");
    assert_eq!(keeper.again(&handheld), Outcome::Kept);
    assert_eq!(keeper.keep(&mut handheld), Outcome::Kept);
    assert!(keeper.view(&handheld) == handheld.view());
}

#[test]
fn a_card_that_can_only_be_read_is_read() {
    let mut journal = Journal::new(Card::default());
    let mut job = Job::new(Units::Imperial);
    journal.set_up(super::crew::OURS, &mut job).unwrap();
    journal.record(&rename(1), b"").unwrap();
    let mut card = Card::of(journal.store().blocks.clone());
    card.mood = Mood::Locked;
    let mut keeper = Keeper::new(card);
    let mut memory = Box::new(Memory::new());
    keeper.open(&mut memory.job).unwrap();
    let handheld = Handheld::new(&mut memory);
    assert_eq!(
        shown(&keeper, &handheld),
        "CARD IS LOCKED SLIDE ITS LOCK, OK"
    );
    assert_eq!(keeper.again(&handheld), Outcome::Kept);
    assert_eq!(handheld.job().name, "name 1");
}

#[test]
fn a_damaged_job_is_said_and_another_opened() {
    let mut journal = Journal::new(Card::default());
    let mut job = Job::new(Units::Imperial);
    journal.set_up(super::crew::OURS, &mut job).unwrap();
    journal
        .make_job(&mut job, |job| job.apply(&rename(2)))
        .unwrap();
    journal.record(&rename(3), b"").unwrap();
    let mut blocks = journal.store().blocks.clone();
    for region in [0, 8192] {
        blocks.spoil_group(region + 256 + 32, 32, 3);
    }
    let mut keeper = Keeper::new(Card::of(blocks));
    let mut memory = Box::new(Memory::new());
    keeper.open(&mut memory.job).unwrap();
    let handheld = Handheld::new(&mut memory);
    assert_eq!(
        shown(&keeper, &handheld),
        "JOB 2 CANNOT BE READ, ANOTHER IS OPEN"
    );
    assert_eq!(keeper.again(&handheld), Outcome::Kept);
    assert_eq!(handheld.job().name, "");
}
