//! Worked cases of two unequal spans, and deflections of real shapes.
//!
//! Source: the three-moment equation for two spans, 2 M2 (L1 + L2) =
//! -(w1 L1^3 + w2 L2^3) / 4 - P b (L2^2 - b^2) / L2 (AISC Manual, Table 3-22 and
//! the general cases of 3-23); the numbers were worked by that and by a separate
//! stiffness solver, in kip and ft to four decimals.

use super::build::{Bench, all_near, dead, feet, near};
use boltbay_core::statics::{Apart, Model, Statics};

/// Two spans with uniform loads (klf), and a point load (kip) in the second.
struct Case {
    name: &'static str,
    spans: [f64; 2],
    loads: [f64; 2],
    point: Option<(f64, f64)>,
    reactions: [f64; 3],
    moment: f64,
}

const fn case(
    name: &'static str,
    spans: [f64; 2],
    loads: [f64; 2],
    reactions: [f64; 3],
    moment: f64,
) -> Case {
    Case {
        name,
        spans,
        loads,
        point: None,
        reactions,
        moment,
    }
}

#[rustfmt::skip]
const CASES: [Case; 9] = [
    case("S1", [4.0, 16.0], [0.6, 0.6], [-2.7000, 10.8750, 3.8250], -15.6000),
    case("S2", [4.0, 16.0], [0.2, 0.6], [-3.4600, 10.0250, 3.8350], -15.4400),
    case("S3", [4.0, 16.0], [0.6, 0.2], [-0.1400, 4.4750, 1.2650], -5.3600),
    case("S4", [10.0, 14.0], [0.5, 0.5], [1.5250, 7.6714, 2.8036], -9.7500),
    case("S5", [12.0, 12.0], [1.0, 1.0], [4.5000, 15.0000, 4.5000], -18.0000),
    case("S6", [12.0, 12.0], [1.0, 0.0], [5.2500, 7.5000, -0.7500], -9.0000),
    Case { point: Some((7.0, 3.0)), ..case("S7", [6.0, 14.0], [0.45, 0.45], [-0.9562, 9.2946, 3.6616], -13.8375) },
    case("S8", [6.0796, 14.0], [0.5, 0.5], [0.0000, 7.1998, 2.8400], f64::NAN),
    case("S9", [8.0, 16.0], [0.15, 0.55], [-0.9167, 7.2750, 3.6417], -12.1333),
];

fn beam(case: &Case) -> Bench {
    let [first, second] = case.spans;
    let (middle, end) = (feet(first), feet(first + second));
    let mut bench = Bench::weightless(61.9, end).on(&[feet(0.0), middle, end]);
    let [one, other] = case.loads.map(|klf| klf * 1_000.0);
    bench = bench.line(feet(0.0), middle, one, 0.0);
    bench = bench.line(middle, end, other, 0.0);
    if let Some((at, kip)) = case.point {
        bench = bench.point(feet(first + at), kip * 1_000.0, 0.0);
    }
    bench
}

#[test]
fn worked_two_span_cases() {
    for case in &CASES {
        let statics = beam(case).solve();
        let kips: Vec<f64> = dead(&statics).iter().map(|r| r / 1e3).collect();
        all_near(&kips, &case.reactions, 6e-5, case.name);
        if case.moment.is_finite() {
            let least = statics.moments.dead.least;
            near(least.value.as_kip_feet(), case.moment, 6e-5, case.name);
            near(least.at.as_inches(), 12.0 * case.spans[0], 1e-6, case.name);
        }
    }
}

/// Greatest sagging moments of some of them; the station counts from the far end.
/// Two spans of 12 ft, dead 0.5 klf on both, live 1 klf on both.
/// Source: AISC Manual Table 3-23, continuous beams of two equal spans: both
/// loaded 0.070 and -0.125 w L2, shears 0.375 and 0.625 w L; one loaded 0.0957
/// and -0.0625 w L2, shears 0.4375 and 0.5625 w L, in the other span 0.0625 w L.
#[test]
fn each_span_by_itself() {
    let twelve = feet(12.0);
    let bench = Bench::weightless(61.9, feet(24.0)).on(&[feet(0.0), twelve, feet(24.0)]);
    let bench = bench.line(feet(0.0), feet(24.0), 500.0, 1_000.0);
    let model = Model::of(&bench.0, [None, None]).expect("a model");
    let mut apart = Apart::UNSOLVED;
    let spans = model.segments(&mut apart);
    assert_eq!(spans.len(), 2);
    for span in &spans {
        let (moments, shears) = (&span.moments, &span.shears);
        // w L2 = 72 kip-ft of dead load, 144 of live load; 9 / 128 is 0.0703.
        let of = |part: f64, kip_ft: f64| part * kip_ft * 1_000.0;
        let sagging = of(9.0 / 128.0, 72.0);
        near(
            moments.dead.most.value.as_pound_feet(),
            sagging,
            1e-6,
            "dead",
        );
        let all = of(9.0 / 128.0, 216.0);
        near(moments.all.most.value.as_pound_feet(), all, 1e-6, "all");
        // One span alone: its end shear is 0.375 of dead and 0.4375 of live load.
        let (dead, live) = (500.0, 1_000.0);
        let end = (0.375 * dead + 0.4375 * live) * 12.0;
        let sagging = end * end / (2.0 * (dead + live));
        near(
            moments.worst.most.value.as_pound_feet(),
            sagging,
            1e-6,
            "worst",
        );
        let hogging = of(-0.125, 216.0);
        near(
            moments.worst.least.value.as_pound_feet(),
            hogging,
            1e-6,
            "post",
        );
        near(
            shears.dead.size().as_pounds(),
            0.625 * 6_000.0,
            1e-6,
            "dead",
        );
        near(
            shears.worst.size().as_pounds(),
            0.625 * 18_000.0,
            1e-6,
            "post",
        );
    }
}

#[test]
fn worked_sagging_moments() {
    for (name, most, from_b) in [
        ("S1", 12.192, Some(6.375)),
        ("S2", 12.256, None),
        ("S4", 7.860, None),
        ("S5", 10.125, None),
        ("S7", 14.606, Some(7.0)),
    ] {
        let case = CASES.iter().find(|case| case.name == name).expect("there");
        let peak = beam(case).solve().moments.dead.most;
        near(peak.value.as_kip_feet(), most, 6e-4, name);
        if let Some(from_b) = from_b {
            let at = 12.0 * (case.spans[0] + case.spans[1] - from_b);
            near(peak.at.as_inches(), at, 1e-5, name);
        }
    }
}

/// Dead 0.2 klf everywhere, live 0.4 klf on both spans: the choices of loaded
/// spans are S1, S2, S3 and dead load alone, which is a third of S1.
#[test]
fn the_worst_choice_is_found_among_them() {
    let bench = Bench::weightless(61.9, feet(20.0)).on(&[feet(0.0), feet(4.0), feet(20.0)]);
    let statics = bench.line(feet(0.0), feet(20.0), 200.0, 400.0).solve();
    let kips = |f: fn(&boltbay_core::statics::Reaction) -> f64| -> Vec<f64> {
        statics.reactions.iter().map(|r| f(r) / 1e3).collect()
    };
    all_near(
        &kips(|r| r.dead.as_pounds()),
        &[-0.9, 3.625, 1.275],
        6e-5,
        "dead",
    );
    all_near(
        &kips(|r| r.all.as_pounds()),
        &[-2.7, 10.875, 3.825],
        6e-5,
        "all",
    );
    all_near(
        &kips(|r| r.min.as_pounds()),
        &[-3.46, 3.625, 1.265],
        6e-5,
        "min",
    );
    all_near(
        &kips(|r| r.max.as_pounds()),
        &[-0.14, 10.875, 3.835],
        6e-5,
        "max",
    );
    let moments = statics.moments.worst;
    near(
        moments.least.value.as_kip_feet(),
        -15.6,
        6e-5,
        "both loaded",
    );
    near(
        moments.most.value.as_kip_feet(),
        12.256,
        6e-4,
        "long span loaded",
    );
    let [first, middle, last] = [0, 1, 2].map(|n| statics.reactions[n]);
    let words = |pattern: boltbay_core::statics::Pattern| pattern.words(3).to_string();
    assert_eq!(words(first.min_with), "live load on span 2");
    assert_eq!(words(first.max_with), "live load on span 1");
    assert_eq!(words(middle.max_with), "live load on span 1 and span 2");
    assert_eq!(words(middle.min_with), "no live load");
    assert_eq!(words(last.min_with), "live load on span 1");
}

/// The end of the short span lifts exactly where L1 / L2 is below
/// (sqrt(13) - 1) / 6 = 0.434259: from 3 r^2 + r - 1 = 0.
#[test]
fn the_uplift_limit_of_two_spans() {
    let limit = (13.0_f64.sqrt() - 1.0) / 6.0;
    near(limit, 0.434_259, 5e-7, "limit");
    let long = 336.0;
    let first = |short: f64| -> Statics {
        let (middle, end) = (short, short + long);
        let [a, b, c] = [0.0, middle, end].map(super::build::inches);
        Bench::weightless(100.0, c)
            .on(&[a, b, c])
            .line(a, c, 500.0, 0.0)
            .solve()
    };
    for (off, lifts) in [(-1e-4, true), (-1e-6, true), (1e-6, false), (1e-4, false)] {
        let statics = first((limit + off) * long);
        assert_eq!(statics.reactions[0].lifts(), lifts, "{off}");
        assert_eq!(statics.lifts(), lifts, "{off}");
        assert!(!statics.reactions[2].lifts());
    }
    let at = first(limit * long).reactions[0].dead.as_pounds();
    near(at, 0.0, 1e-3, "next to nothing at the limit");
}

/// Deflections of real shapes with their own weight inside the load.
/// Source: AISC Manual Table 3-23 cases 1, 7 and 8, E = 29,000 ksi.
#[test]
fn deflections_of_table_shapes() {
    #[rustfmt::skip]
    let uniform = [
        ("W8X18", 18.0, 500.0, 14.0, 3_500.0, 12_250.0, 0.2408),
        ("W10X33", 33.0, 900.0, 16.0, 7_200.0, 28_800.0, 0.2676),
        ("W12X26", 26.0, 600.0, 20.0, 6_000.0, 30_000.0, 0.3651),
        ("W6X20", 20.0, 400.0, 10.0, 2_000.0, 5_000.0, 0.0750),
    ];
    for (shape, own, load, l, reaction, moment, sag) in uniform {
        let bench = Bench::shape(shape, feet(l)).on(&[feet(0.0), feet(l)]);
        let statics = bench.line(feet(0.0), feet(l), load - own, 0.0).solve();
        all_near(&dead(&statics), &[reaction; 2], 1e-8, shape);
        near(
            statics.moments.dead.most.value.as_pound_feet(),
            moment,
            1e-7,
            shape,
        );
        near(statics.sags[0].dead.as_inches(), sag, 6e-5, shape);
    }
    let points = [
        (7.0, 14_000.0, 0.2201, 5e-5),
        (5.0, 12_857.1, 0.197_26, 5e-6),
    ];
    for (at, moment, sag, within) in points {
        let bench = Bench::weightless(61.9, feet(14.0)).on(&[feet(0.0), feet(14.0)]);
        let statics = bench.point(feet(at), 4_000.0, 0.0).solve();
        near(
            statics.moments.dead.most.value.as_pound_feet(),
            moment,
            0.06,
            "point",
        );
        near(statics.sags[0].dead.as_inches(), sag, within, "point");
    }
    let bench = Bench::weightless(61.9, feet(17.0)).on(&[feet(0.0), feet(14.0)]);
    let statics = bench.point(feet(17.0), 2_000.0, 2_000.0).solve();
    near(statics.sags[1].live.as_inches(), 0.098_19, 5e-6, "tip");
    near(statics.sags[0].live_up.as_inches(), 0.072_62, 5e-6, "bow");
}

/// Settlement of 1/4 in at the middle support, worked from
/// 3 EI D (1/L1 + 1/L2) / (L1 + L2); ours is for 1/8 in, half of it.
#[test]
fn settlement_of_the_middle_support() {
    #[rustfmt::skip]
    let cases = [
        ("W8X18", [12.0, 12.0], 5.4106, [0.4509, -0.9018, 0.4509]),
        ("W10X33", [4.0, 16.0], 33.630, [8.408, -10.510, 2.102]),
    ];
    for (shape, [first, second], moment, reactions) in cases {
        let (middle, end) = (feet(first), feet(first + second));
        let bench = Bench::shape(shape, end).on(&[feet(0.0), middle, end]);
        let statics = bench.line(feet(0.0), end, 100.0, 0.0).solve();
        let settlement = statics.settlement.expect("Ix is known");
        near(settlement.by.as_inches(), 0.125, 0.0, "1/8 in");
        near(
            settlement.moment(1).as_kip_feet() * 2.0,
            moment,
            6e-4,
            shape,
        );
        let found = [0, 1, 2].map(|n| settlement.reaction(1, n).as_kips() * 2.0);
        all_near(&found, &reactions, 6e-4, shape);
        // What one support does to another, that one does to it.
        let forth = settlement.reaction(0, 2).as_pounds();
        near(
            settlement.reaction(2, 0).as_pounds(),
            forth,
            1e-6,
            "Maxwell",
        );
        let sum: f64 = [0, 1, 2]
            .map(|n| settlement.reaction(0, n).as_pounds())
            .iter()
            .sum();
        near(sum, 0.0, 1e-7, "no load was added");
    }
    let bench = Bench::shape("W8X18", feet(12.0)).on(&[feet(0.0), feet(12.0)]);
    let settlement = bench
        .line(feet(0.0), feet(12.0), 1.0, 0.0)
        .solve()
        .settlement;
    let settlement = settlement.expect("Ix is known");
    assert_eq!(
        settlement.reaction(0, 1).as_pounds(),
        0.0,
        "nothing on two supports"
    );
}
