//! A host that shows a frame before the plan: what it shows first, and that it then
//! shows what every other host shows.

use super::crew::Crew;
use super::glass::golden;
use super::walk::{begin, demo, key_in};
use crate::judges::dice::Dice;
use boltbay_handheld::paint::faults;
use boltbay_handheld::{Handheld, Key, Millis};

const KEYS: [Key; 5] = [Key::Up, Key::Down, Key::Left, Key::Right, Key::Ok];

/// One that plans later beside one that plans at once, the same keys to both.
#[test]
fn the_plan_that_comes_later_is_the_same() {
    let mut planned = 0;
    for (seed, card) in (1..).zip([
        "01-larch-new-framing.csv",
        "06-mistral-metric.csv",
        "09-hazel-half-drilled.csv",
        "10-juniper-short-back-span.csv",
    ]) {
        let (mut first, mut second) = (demo(card), demo(card));
        let mut at_once = Handheld::new(&mut first);
        let mut later = Handheld::new(&mut second);
        later.works_later();
        let mut dice = Dice::new(seed);
        let mut now = 1000;
        for _ in 0..600 {
            let key = match dice.between(0, 3) {
                0 => Key::Ok,
                _ => dice.pick(&KEYS),
            };
            let held = 10 * dice.between(1, 90);
            at_once.press(key, Millis(now));
            later.press(key, Millis(now));
            for _ in 0..held / 10 {
                now += 10;
                planned += usize::from(ticked(&mut at_once, &mut later, now));
            }
            at_once.release(key, Millis(now));
            later.release(key, Millis(now));
            planned += usize::from(settled(&mut at_once, &mut later));
            now += 1100;
        }
    }
    assert!(planned > 100, "{planned} keys changed a job");
}

fn ticked(at_once: &mut Handheld, later: &mut Handheld, now: u64) -> bool {
    at_once.tick(Millis(now));
    later.tick(Millis(now));
    settled(at_once, later)
}

/// Whether it was planned only now. What the journal is told is the same as well.
fn settled(at_once: &mut Handheld, later: &mut Handheld) -> bool {
    let is_unfinished = later.is_unfinished();
    assert_eq!(at_once.take_edits(), later.take_edits());
    if is_unfinished {
        let view = later.view();
        assert!(["planning", "working"].contains(&view.screen), "{view:?}");
        assert!(faults(&view).is_empty());
        later.finish();
        assert!(!later.is_unfinished());
    }
    assert!(later.take_edits().is_empty());
    assert_eq!(at_once.view(), later.view());
    assert_eq!(at_once.place(), later.place());
    assert_eq!(at_once.job(), later.job());
    is_unfinished
}

/// The reading as it was taken, white, until the next one is asked for.
#[test]
fn a_reading_is_shown_while_it_is_planned() {
    let mut memory = demo("01-larch-new-framing.csv");
    let mut crew = Crew::new(&mut memory);
    crew.handheld.works_later();
    crew.open("MEASURE");
    crew.open("TAPE RUNS");
    crew.open("NEW TAPE RUN");
    crew.open("START");
    crew.rest(1000);
    key_in(&mut crew, "010405");
    golden("planning", &crew.view());
    crew.handheld.finish();
    assert_eq!(crew.view().screen, "reading");
}

/// A key that comes before the plan does not act on the old one.
#[test]
fn the_next_key_waits_for_the_plan() {
    let mut memory = demo("01-larch-new-framing.csv");
    let mut crew = Crew::new(&mut memory);
    crew.handheld.works_later();
    begin(&mut crew, "MARK");
    crew.tap(Key::Ok);
    assert!(crew.handheld.is_unfinished());
    golden("planning-mark", &crew.view());
    crew.rest(1000);
    crew.tap(Key::Ok);
    assert_eq!(crew.job().holes.len(), 2);
    assert_ne!(crew.job().holes[0], crew.job().holes[1]);
}
