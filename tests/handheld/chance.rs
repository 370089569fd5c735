//! Keys by chance: no panic, every view fits its place, every edit survives its
//! bytes, the plan is legal for a judge who shares no code with the planner, and the
//! job that is kept reads back from its own card.

use super::glass::words;
use super::walk::demo;
use crate::judges::checker::check;
use crate::judges::dice::Dice;
use boltbay_core::card;
use boltbay_core::job::Job;
use boltbay_handheld::edit::{BYTES, Edit, apply};
use boltbay_handheld::{Handheld, Key, Memory, Millis, paint};
use std::sync::atomic::{AtomicUsize, Ordering};

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
    assert!(view.hint.len() <= 63, "{}: {}", view.screen, view.hint);
}

/// The plan as it stands, judged; how many holes were looked at. A job whose card
/// would be refused has nothing to be judged by.
fn judged(handheld: &Handheld, seen: &str) -> usize {
    let (job, plan) = (handheld.job(), handheld.plan());
    let Some(placement) = plan.placement().filter(|_| is_a_card(job)) else {
        return 0;
    };
    let faults = check(job, &plan.joists, placement);
    assert!(faults.is_empty(), "{seen}: {faults:#?}\n{}", written(job));
    placement.holes.len()
}

fn written(job: &Job) -> String {
    let mut text = String::new();
    card::write(job, &mut text).unwrap();
    text
}

/// Whether a card may say what this job says.
fn is_a_card(job: &Job) -> bool {
    let mut back = Box::new(Job::new(job.units));
    card::read(written(job).as_bytes(), &mut back).is_ok() && *back == *job
}

fn session(memory: &mut Memory, seed: u64, presses: usize) -> usize {
    let mut twin = memory.job.clone();
    let mut dice = Dice::new(seed);
    let mut handheld = Handheld::new(memory);
    let mut now = 1000;
    let (mut holes, mut changed) = (0, false);
    for number in 0..presses {
        press(&mut handheld, &mut now, &mut dice);
        let edits = handheld.take_edits();
        changed |= !edits.is_empty();
        if number % 40 == 39 && std::mem::take(&mut changed) {
            holes += judged(&handheld, &format!("seed {seed}, press {number}"));
        }
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
    holes + judged(&handheld, &format!("seed {seed}, at the end"))
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

/// So many presses in all: 50,000, or a million with feature `soak`, or what
/// `BOLTBAY_PRESSES` says.
fn presses() -> usize {
    let asked = std::env::var("BOLTBAY_PRESSES").ok();
    asked.map_or(
        if cfg!(feature = "soak") {
            1_000_000
        } else {
            50_000
        },
        |asked| asked.parse().expect("BOLTBAY_PRESSES is a number"),
    )
}

/// Presses of one session.
const SESSION: usize = 2500;

#[test]
fn keys_by_chance_do_no_harm() {
    let sessions = presses().div_ceil(SESSION);
    let next = AtomicUsize::new(0);
    let one_after_the_other = || {
        let mut holes = 0;
        loop {
            let number = next.fetch_add(1, Ordering::Relaxed);
            if number >= sessions {
                return holes;
            }
            let mut memory = match STARTS[number % STARTS.len()] {
                "" => Box::new(Memory::new()),
                card => demo(card),
            };
            holes += session(&mut memory, u64::try_from(number).unwrap(), SESSION);
        }
    };
    let holes = std::thread::scope(|scope| {
        let other = scope.spawn(one_after_the_other);
        one_after_the_other() + other.join().expect("the other half")
    });
    assert!(holes > 5 * sessions, "only {holes} holes were judged");
}

/// Jobs with everything on them, in both systems of units.
#[test]
fn the_fullest_jobs_fit_every_screen() {
    let seeds = if cfg!(feature = "soak") { 400 } else { 24 };
    // Beside them: a long burn, loads of nine digits.
    for seed in (0..seeds).chain([78, 264]) {
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
        let text = written(&memory.job);
        let mut back = Box::new(Job::new(memory.job.units));
        let read = card::read(text.as_bytes(), &mut back);
        // A job in the making may still lack what a card must have.
        if read.is_ok() {
            assert_eq!(*back, memory.job, "seed {seed}\n{text}");
            compared += 1;
        }
    }
    assert!(compared >= 2, "only {compared} jobs were whole");
}
