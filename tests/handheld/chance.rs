//! Keys by chance: no panic, every view fits its place, every edit survives its
//! bytes, and the job that is kept reads back from its own card.

use super::glass::{Glass, words};
use super::walk::demo;
use boltbay_core::card::{self, CardReader};
use boltbay_core::job::Job;
use boltbay_handheld::edit::{BYTES, Edit, apply};
use boltbay_handheld::{Handheld, Key, Memory, Millis, paint};
use boltbay_tests::dice::Dice;

const KEYS: [Key; 5] = [Key::Up, Key::Down, Key::Left, Key::Right, Key::Ok];

/// A key, held now and then; OK and DOWN a little more often than the rest.
fn press(handheld: &mut Handheld, now: &mut u64, dice: &mut Dice) {
    let key = match dice.between(0, 19) {
        0..=11 => dice.pick(&KEYS),
        12..=14 => Key::Ok,
        15..=16 => Key::Down,
        17 => Key::Separator,
        _ => Key::Digit(u8::try_from(dice.between(0, 9)).unwrap()),
    };
    handheld.press(key, Millis(*now));
    let held = match dice.between(0, 9) {
        0 => dice.between(400, 2500),
        _ => dice.between(20, 200),
    };
    for _ in 0..held / 20 {
        *now += 20;
        handheld.tick(Millis(*now));
    }
    handheld.release(key, Millis(*now));
    *now += u64::try_from(dice.between(0, 1200)).unwrap();
    handheld.tick(Millis(*now));
}

/// What each screen must hold to at any time.
fn holds(handheld: &Handheld, twin: &mut Job, edits: &[Edit], seen: &str) {
    for edit in edits {
        let mut bytes = [0; BYTES];
        let length = edit.write(&mut bytes).expect("an edit fits its bytes");
        let (read, _) = Edit::read(&bytes[..length]).expect("an edit reads back");
        apply(twin, &read).expect("what was made once is made again");
    }
    let view = handheld.view();
    let faults = paint::faults(&view);
    assert!(faults.is_empty(), "{seen}: {faults:?}\n{}", words(&view));
    assert_eq!(Glass::of(&view).outside, 0, "{seen}\n{}", words(&view));
    assert!(view.hint.len() <= 63, "{}: {}", view.screen, view.hint);
}

fn session(memory: &mut Memory, seed: u64, presses: usize) {
    let mut twin = memory.job.clone();
    let mut dice = Dice::new(seed);
    let mut handheld = Handheld::new(memory);
    let mut now = 1000;
    for number in 0..presses {
        press(&mut handheld, &mut now, &mut dice);
        let edits = handheld.take_edits();
        if !edits.is_empty() || number % 7 == 0 {
            holds(
                &handheld,
                &mut twin,
                &edits,
                &format!("seed {seed}, press {number}"),
            );
        }
    }
    assert_eq!(
        twin,
        *handheld.job(),
        "seed {seed}: the edits make the same job"
    );
}

/// Where a session starts: nothing, and jobs in every state.
const STARTS: [&str; 7] = [
    "",
    "01-larch-new-framing.csv",
    "03-rowan-old-doubles.csv",
    "06-mistral-metric.csv",
    "07-hail-impossible.csv",
    "09-hazel-half-drilled.csv",
    "10-juniper-short-back-span.csv",
];

#[test]
fn keys_by_chance_do_no_harm() {
    let presses = if cfg!(feature = "soak") {
        20_000
    } else {
        3_000
    };
    for seed in 0..14 {
        let start = STARTS[usize::try_from(seed).unwrap() % STARTS.len()];
        let mut memory = match start {
            "" => Box::new(Memory::new()),
            card => demo(card),
        };
        session(&mut memory, seed, presses);
    }
}

/// Jobs with everything on them, in both systems of units.
#[test]
fn the_fullest_jobs_fit_every_screen() {
    let seeds = if cfg!(feature = "soak") { 400 } else { 24 };
    for seed in 0..seeds {
        let mut memory = Box::new(Memory::new());
        memory.job = crate::card::jobs::job(seed);
        session(&mut memory, seed, 300);
    }
}

#[test]
fn a_job_keyed_in_reads_back_from_its_card() {
    let mut compared = 0;
    for seed in 100..108 {
        let start = STARTS[usize::try_from(seed).unwrap() % STARTS.len()];
        let mut memory = match start {
            "" => Box::new(Memory::new()),
            card => demo(card),
        };
        session(&mut memory, seed, 150);
        let mut text = String::new();
        card::write(&memory.job, &mut text).unwrap();
        let mut back = Box::new(Job::new(memory.job.units));
        let mut reader = CardReader::new();
        let read = reader
            .feed(text.as_bytes(), &mut back)
            .and_then(|()| reader.finish(&mut back));
        // A job in the making may still lack what a card must have.
        if read.is_ok() {
            assert_eq!(*back, memory.job, "seed {seed}\n{text}");
            compared += 1;
        }
    }
    assert!(compared >= 2, "only {compared} jobs were whole");
}
