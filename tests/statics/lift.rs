//! Lift: which support, why, which shores first, and what nearly lifts.
//! Expected reactions are of beams on two supports, worked by hand.

use super::build::{Bench, feet, near};
use boltbay_core::caution::{Caution, Cautions};
use boltbay_core::statics::{Apart, LiftReason, Model, Pattern, Segment, Statics, cautions};
use boltbay_core::words::{End, Units};

fn found(bench: &Bench) -> (Statics, Cautions) {
    let model = Model::of(&bench.0, [None, None]).expect("a model");
    let mut apart = Apart::UNSOLVED;
    let statics = model.statics(&mut apart);
    let mut found = Cautions::new();
    cautions(&bench.0, &model, &statics, &mut found);
    (statics, found)
}

/// 10 ft between supports, 5 ft beyond: 100 plf dead all along, 100 plf live on
/// the overhang: dead R1 = 100 (10^2 - 5^2) / 20 = 375, live -100 x 5 x 2.5 / 10.
#[test]
fn an_overhang_that_nearly_tips_the_beam() {
    let beam = |live: f64| {
        let bench = Bench::weightless(100.0, feet(15.0)).on(&[feet(0.0), feet(10.0)]);
        let bench = bench.line(feet(0.0), feet(15.0), 100.0, 0.0);
        bench.line(feet(10.0), feet(15.0), 0.0, live)
    };
    let (statics, found_cautions) = found(&beam(100.0));
    let first = statics.reactions[0];
    near(first.dead.as_pounds(), 375.0, 1e-9, "dead");
    near(first.min.as_pounds(), 250.0, 1e-9, "least");
    near(
        first.reduced.as_pounds(),
        100.0,
        1e-9,
        "0.6 of the dead load",
    );
    assert!(!first.near_lift() && !first.lifts() && !statics.lifts());
    let lifted = |c: &Caution| matches!(c, Caution::Lift { .. } | Caution::NearLift { .. });
    assert!(!found_cautions.iter().any(lifted));
    // Live 180 plf: 375 - 225 = 150 holds, 225 - 225 = 0 with 0.6 still holds.
    let (statics, _) = found(&beam(180.0));
    near(
        statics.reactions[0].reduced.as_pounds(),
        0.0,
        1e-9,
        "at the edge",
    );
    assert!(!statics.reactions[0].near_lift(), "zero does not lift");
    let (statics, found_cautions) = found(&beam(181.0));
    assert!(statics.reactions[0].near_lift() && !statics.lifts());
    let near_lift = Caution::NearLift {
        row: 0,
        least: -2,
        greatest: 375,
    };
    assert!(found_cautions.contains(&near_lift), "{found_cautions:?}");
    // 300 plf: 375 - 375 = 0 does not lift, one more does.
    let (statics, _) = found(&beam(300.0));
    assert!(!statics.lifts() && statics.reactions[0].near_lift());
    let (statics, found_cautions) = found(&beam(301.0));
    assert!(statics.lifts() && !statics.reactions[0].near_lift());
    let expected = Caution::Lift {
        row: 0,
        least: -2,
        with: statics.reactions[0].min_with,
        reason: LiftReason::Overhang { end: End::B },
        first: Segment::Span(1),
        last: Segment::OverhangB,
    };
    assert!(found_cautions.contains(&expected), "{found_cautions:?}");
}

/// Least reaction 50, greatest 1000 (per 2 ft): just 5 % is not under 5 %.
#[test]
fn under_a_twentieth_of_the_greatest_is_near_lift() {
    let beam = |dead: f64, live: f64| {
        let bench = Bench::weightless(100.0, feet(10.0)).on(&[feet(0.0), feet(10.0)]);
        bench.line(feet(0.0), feet(10.0), dead, live).solve()
    };
    assert!(!beam(50.0, 950.0).reactions[0].near_lift());
    assert!(beam(50.0, 951.0).reactions[0].near_lift());
    assert!(beam(0.0, 1.0).reactions[1].near_lift());
}

/// Three equal spans, live load on the middle one: the ends lift by 0.05 wl
/// (AISC Manual Table 3-23, three equal spans), though no span is short.
#[test]
fn a_loaded_span_lifts_from_beyond() {
    let bench = Bench::weightless(100.0, feet(30.0));
    let bench = bench.on(&[feet(0.0), feet(10.0), feet(20.0), feet(30.0)]);
    let bench = bench.line(feet(10.0), feet(20.0), 0.0, 1_000.0);
    let (statics, _) = found(&bench);
    let lifting: Vec<u8> = statics.lifts.iter().map(|lift| lift.support).collect();
    assert_eq!(lifting, [0, 3]);
    near(
        statics.reactions[0].min.as_pounds(),
        -500.0,
        1e-9,
        "0.05 wl",
    );
    for lift in &statics.lifts {
        assert_eq!(lift.reason, LiftReason::LoadedSpan { span: 2 });
        assert_eq!(lift.order.last(), Some(&Segment::Span(2)));
    }
}

/// The short span at A: everything mirrored.
#[test]
fn a_short_span_at_end_a() {
    let bench = Bench::shape("W8X31", feet(20.0)).on(&[feet(0.0), feet(4.0), feet(20.0)]);
    let bench = bench.line(feet(0.0), feet(20.0), 200.0, 400.0);
    let (statics, found) = found(&bench);
    let lift = &statics.lifts[0];
    let reason = LiftReason::ShortSpan {
        short: 1,
        beside: 2,
    };
    assert_eq!((lift.support, lift.reason), (0, reason));
    assert_eq!(lift.order, [Segment::Span(1), Segment::Span(2)]);
    let caution = found.iter().find(|c| matches!(c, Caution::Lift { .. }));
    let text = caution.expect("a caution").in_full(&bench.0).to_string();
    for words in [
        "LIFT at P1",
        "under live load on span 2",
        "span 1 is short beside span 2",
        "hold-down",
        "fitted and cured before any shore comes away",
        "the shores of span 1 first, those of span 2 last",
        "engineer",
    ] {
        assert!(text.contains(words), "{words} in {text}");
    }
    // S2 of the worked cases, with 31 plf of steel more dead load: the force is
    // never shown smaller than it is.
    let pounds = -statics.reactions[0].min.as_pounds();
    let shown = format!("down with {} lb", pounds.ceil());
    assert!(text.contains(&shown), "{shown} in {text}");
    let screen = caution.expect("a caution").on_screen(&bench.0).to_string();
    assert!(screen.starts_with("!! LIFTS\nP1\n-"), "{screen}");
}

/// The same caution of a metric job speaks kilonewtons, rounded away from zero:
/// 1,001 lb are 4.4527 kN.
#[test]
fn lift_in_metric_words() {
    let mut bench = Bench::shape("W8X31", feet(20.0)).on(&[feet(0.0), feet(20.0)]);
    bench.0.units = Units::Metric;
    let caution = Caution::Lift {
        row: 1,
        least: -1_001,
        with: Pattern::default(),
        reason: LiftReason::LoadedSpan { span: 1 },
        first: Segment::Span(1),
        last: Segment::Span(1),
    };
    let text = caution.in_full(&bench.0).to_string();
    assert!(
        text.contains("hold the beam down with 4.5 kN under no live load"),
        "{text}"
    );
    assert!(caution.on_screen(&bench.0).to_string().contains("-4.5 kN"));
}

/// A lift that no live load makes: the point of the dead load on the overhang.
#[test]
fn dead_load_alone_can_lift() {
    let bench = Bench::weightless(100.0, feet(14.0)).on(&[feet(0.0), feet(10.0)]);
    let (statics, _) = found(&bench.point(feet(14.0), 1_000.0, 0.0));
    let first = statics.reactions[0];
    near(first.min.as_pounds(), -400.0, 1e-9, "dead");
    near(first.max.as_pounds(), -400.0, 1e-9, "always");
    assert_eq!(first.min_with, Pattern::default());
    assert!(first.lifts() && statics.lifts.len() == 1);
}

/// Words of patterns.
#[test]
fn patterns_in_words() {
    let bench = Bench::weightless(100.0, feet(30.0));
    let bench = bench.on(&[feet(2.0), feet(10.0), feet(20.0), feet(28.0)]);
    let statics = bench.line(feet(0.0), feet(30.0), 100.0, 100.0).solve();
    let words: Vec<String> = statics
        .reactions
        .iter()
        .map(|r| r.max_with.words(4).to_string())
        .collect();
    assert_eq!(
        words[0],
        "live load on the overhang at A, span 1 and span 3"
    );
    assert_eq!(
        words[3],
        "live load on span 1, span 3 and the overhang at B"
    );
    let first = statics.reactions[0];
    assert!(first.max_with.holds(Segment::OverhangA, 4));
    assert!(!first.max_with.holds(Segment::Span(2), 4));
    assert!(first.min_with.holds(Segment::Span(2), 4));
}

/// An overhang longer than the span beside it is asked about.
#[test]
fn a_long_overhang() {
    let bench = Bench::weightless(100.0, feet(20.0)).on(&[feet(0.0), feet(9.0)]);
    let bench = bench.line(feet(0.0), feet(9.0), 100.0, 0.0);
    let (_, found_cautions) = found(&bench);
    let expected = Caution::OverhangLong {
        end: End::B,
        overhang: feet(11.0),
        span: feet(9.0),
    };
    assert!(found_cautions.contains(&expected), "{found_cautions:?}");
    assert!(found_cautions.contains(&Caution::LoadHalved));
    assert!(found_cautions.contains(&Caution::PackingNotWeighed));
    let bench = Bench::weightless(100.0, feet(18.0)).on(&[feet(0.0), feet(9.0)]);
    let (_, found_cautions) = found(&bench.line(feet(0.0), feet(9.0), 100.0, 0.0));
    let long = |c: &Caution| matches!(c, Caution::OverhangLong { .. });
    assert!(!found_cautions.iter().any(long), "equal is not longer");
}
