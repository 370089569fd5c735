//! The keeper: whatever keys are struck and whatever the card does, what is shown
//! is what is on the card.

use super::card::{Card, Mood};
use boltbay_core::Job;
use boltbay_core::words::Units;
use boltbay_handheld::journal::{Fault, Journal, Keeper, Outcome, fault_view};
use boltbay_handheld::paint::faults;
use boltbay_handheld::{Handheld, Key, Memory, Millis};
use boltbay_tests::dice::Dice;

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
    }
    assert!(kept > 40 && refused > 5, "{kept} kept, {refused} refused");
}

#[test]
fn what_is_wrong_fits_the_screen() {
    for fault in [
        Fault::NotKept,
        Fault::OtherCard,
        Fault::Damaged,
        Fault::TendFirst,
    ] {
        let view = fault_view(fault);
        assert!(faults(&view).is_empty(), "{:?}", faults(&view));
    }
}
