//! Readings from end B: nearest step, and half a step off gap and play.

use super::host::{SMALL, made};
use boltbay_core::frame::Frame;
use boltbay_core::length::Length;
use boltbay_core::report::FromEndB;

fn frame(length: Length, measured: bool) -> Frame {
    Frame {
        length,
        measured,
        faces: [None; 2],
        bearings: [None; 2],
        shift: Length::ZERO,
    }
}

/// Length of the steel, mark, reading from end B, off: in 64ths of an inch,
/// lattice 1/16 in. Worked by hand.
const CASES: [[i32; 4]; 5] = [
    [6400, 640, 5760, 0],
    // 100 1/64 in long: 90 1/64 lies next to 90.
    [6401, 640, 5760, 2],
    // 100 2/64 in long: halfway, up.
    [6402, 640, 5764, 2],
    [6403, 640, 5764, 2],
    [6404, 640, 5764, 0],
];

#[test]
fn a_mark_between_two_steps_is_rounded_and_owns_up_to_it() {
    for [length, at, shown, off] in CASES {
        let frame = frame(Length::from_sixty_fourths(length), true);
        let from_b = FromEndB::new(&frame, Length::from_sixteenths(1)).expect("measured");
        let reading = from_b.reading(Length::from_sixty_fourths(at));
        assert_eq!(reading.shown, Length::from_sixty_fourths(shown), "{length}");
        assert_eq!(reading.off, Length::from_sixty_fourths(off), "{length}");
    }
}

#[test]
fn nothing_is_offered_from_end_b_while_the_steel_is_only_ordered() {
    let frame = frame(Length::from_inches(100), false);
    assert_eq!(FromEndB::new(&frame, Length::from_sixteenths(1)), None);
    let made = made(&SMALL.replace("W10x33,96", "W10x33,96,ordered"));
    let text = made.text();
    assert!(
        text.contains("FROM END A") && !text.contains("FROM END B"),
        "{text}"
    );
}

#[test]
fn half_a_step_comes_off_beside_the_reading_from_end_b_only() {
    let exact = made(SMALL);
    let odd = made(
        &SMALL
            .replace("W10x33,96", "W10x33,96 1/32")
            .replace("check,96", "check,96 1/32"),
    );
    let gaps = |made: &super::host::Made| -> Vec<[String; 2]> {
        let report = made.report();
        let placement = made.plan.placement().expect("a plan");
        let off = report.from_end_b().expect("measured");
        let both = |hole: &boltbay_core::placement::PlacedHole| {
            [Length::ZERO, off.reading(hole.at).off]
                .map(|off| report.gap_cell(hole, off).to_string())
        };
        placement.holes.iter().map(both).collect()
    };
    assert!(gaps(&exact).iter().all(|[a, b]| a == b));
    // Whole sixteenths less half a sixteenth, shown down to a sixteenth.
    assert!(gaps(&odd).iter().any(|[a, b]| a != b));
    let text = odd.text();
    assert!(text.contains("if marked from end B"), "{text}");
    assert!(text.contains("1/32\" is off its gap"), "{text}");
}

#[test]
fn a_hole_list_names_its_frame_in_every_list() {
    let made = made(SMALL);
    let text = made.text();
    for line in text.lines().filter(|line| line.starts_with("JOISTS")) {
        assert!(line.contains("FROM END A"), "{line}");
    }
    assert_eq!(text.matches("FROM END A").count(), 2, "{text}");
}

/// Trap: sixteenths rounded one after the other run away. Each mark is read from
/// the end itself, so it is never off by more than half a step; rounding forty
/// bays of 16 1/64 in to sixteenths on the way would be off by 40/64 in.
#[test]
fn rounded_sixteenths_do_not_chain() {
    let length = Length::from_sixty_fourths(45 * 12 * 64 + 1);
    let from_b = FromEndB::new(&frame(length, true), Length::from_sixteenths(1)).expect("measured");
    let half = Length::from_sixty_fourths(2);
    for bay in 1..=40 {
        let exact = Length::from_sixty_fourths(bay * (16 * 64 + 1));
        let reading = from_b.reading(length.saturating_sub(exact));
        assert!(
            reading.shown.saturating_sub(exact).abs() <= half,
            "bay {bay}"
        );
        assert!(reading.off <= half, "bay {bay}");
    }
    // Sixteen inches forty times, and what the bays are.
    let chained = Length::from_inches(16 * 40);
    let exact = Length::from_sixty_fourths(40 * (16 * 64 + 1));
    assert_eq!(exact.saturating_sub(chained), Length::from_sixteenths(10));
}
