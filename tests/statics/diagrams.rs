//! Beam diagrams: reactions, moments and deflections as published.
//!
//! Sources: AISC Manual, 15th edition, Table 3-23, and AWC Design Aid 6 (2007),
//! the figures named in each case. The formulas of one and two spans are
//! exact; the coefficients of three and four equal spans are published to three
//! decimals (deflections to four; NaN where not remembered) and stand here from
//! memory.

use super::build::{Bench, all_near, dead, feet, near};
use boltbay_core::statics::{Segment, SegmentSag, Statics};

/// Young's modulus of steel, psi. Source: AISC 360-22, Symbols.
const E: f64 = 29_000_000.0;
const IX: f64 = 61.9;
const EI: f64 = E * IX;

fn span(statics: &Statics, n: u8) -> SegmentSag {
    let mut sags = statics.sags.iter();
    *sags
        .find(|sag| sag.segment == Segment::Span(n))
        .expect("a span")
}

/// AISC 1: simple beam, uniform load: wL/2, wL2/8, 5wL4/384EI.
#[test]
fn simple_beam_uniform_load() {
    let (w, l) = (500.0, 14.0);
    let bench = Bench::weightless(IX, feet(l)).on(&[feet(0.0), feet(l)]);
    let statics = bench.line(feet(0.0), feet(l), w, 0.0).solve();
    all_near(&dead(&statics), &[w * l / 2.0; 2], 1e-9, "wL/2");
    let moment = statics.moments.dead.most;
    near(moment.value.as_pound_feet(), w * l * l / 8.0, 1e-8, "wL2/8");
    near(moment.at.as_inches(), l * 6.0, 1e-6, "at mid-span");
    near(
        statics.moments.dead.least.value.as_pound_feet(),
        0.0,
        1e-8,
        "no hogging",
    );
    let shear = statics.shears.dead;
    near(shear.most.value.as_pounds(), w * l / 2.0, 1e-9, "shear");
    near(shear.least.value.as_pounds(), -w * l / 2.0, 1e-9, "shear");
    let sag = 5.0 * (w / 12.0) * (l * 12.0_f64).powi(4) / (384.0 * EI);
    near(span(&statics, 1).dead.as_inches(), sag, 1e-12, "5wL4/384EI");
}

/// AISC 7 and 8: point load at mid-span and at a > b; the deflection formula
/// holds for a > b only, so the load is put on either side.
#[test]
fn simple_beam_point_load() {
    let (p, l) = (4_000.0, 14.0);
    for a in [7.0, 9.0, 13.5] {
        let b = l - a;
        for at in [a, b] {
            let bench = Bench::weightless(IX, feet(l)).on(&[feet(0.0), feet(l)]);
            let statics = bench.point(feet(at), p, 0.0).solve();
            let [r1, r2] = [p * (l - at) / l, p * at / l];
            all_near(&dead(&statics), &[r1, r2], 1e-9, "Pb/L, Pa/L");
            let moment = statics.moments.dead.most;
            near(moment.value.as_pound_feet(), p * a * b / l, 1e-8, "Pab/L");
            near(moment.at.as_inches(), at * 12.0, 1e-6, "at the load");
            let (a, b, l) = (a * 12.0, b * 12.0, l * 12.0);
            let root = (3.0 * a * (a + 2.0 * b)).sqrt();
            let sag = p * a * b * (a + 2.0 * b) * root / (27.0 * EI * l);
            near(span(&statics, 1).dead.as_inches(), sag, 1e-12, "dmax");
        }
    }
}

/// AISC 4: uniform load over a part of the span.
#[test]
fn simple_beam_load_on_a_part() {
    let (w, l, a, b) = (600.0, 20.0, 3.0, 6.0);
    let c = l - a - b;
    let bench = Bench::weightless(IX, feet(l)).on(&[feet(0.0), feet(l)]);
    let statics = bench.line(feet(a), feet(a + b), w, 0.0).solve();
    let r1 = w * b / (2.0 * l) * (2.0 * c + b);
    let r2 = w * b / (2.0 * l) * (2.0 * a + b);
    all_near(&dead(&statics), &[r1, r2], 1e-9, "partial load");
    let moment = statics.moments.dead.most;
    near(
        moment.value.as_pound_feet(),
        r1 * (a + r1 / (2.0 * w)),
        1e-8,
        "M",
    );
    near(
        moment.at.as_inches(),
        12.0 * (a + r1 / w),
        1e-6,
        "at a + R1/w",
    );
}

/// AISC 24 and 26: overhang with uniform load all along, and a load on its tip.
#[test]
fn one_overhang() {
    let (w, l, a) = (500.0, 14.0, 3.0);
    let beam = || Bench::weightless(IX, feet(l + a)).on(&[feet(0.0), feet(l)]);
    let statics = beam().line(feet(0.0), feet(l + a), w, 0.0).solve();
    let r1 = w / (2.0 * l) * (l * l - a * a);
    let r2 = w / (2.0 * l) * (l + a) * (l + a);
    all_near(&dead(&statics), &[r1, r2], 1e-9, "overhang");
    let extremes = statics.moments.dead;
    near(
        extremes.least.value.as_pound_feet(),
        -w * a * a / 2.0,
        1e-8,
        "wa2/2",
    );
    near(
        extremes.least.at.as_inches(),
        l * 12.0,
        1e-6,
        "over the support",
    );
    let most = w / (8.0 * l * l) * (l + a) * (l + a) * (l - a) * (l - a);
    near(extremes.most.value.as_pound_feet(), most, 1e-8, "between");
    let at = 12.0 * l / 2.0 * (1.0 - a * a / (l * l));
    near(
        extremes.most.at.as_inches(),
        at,
        1e-6,
        "x = l/2 (1 - a2/l2)",
    );

    let p = 2_000.0;
    let statics = beam().point(feet(l + a), p, p).solve();
    all_near(
        &dead(&statics),
        &[-p * a / l, p * (l + a) / l],
        1e-9,
        "tip load",
    );
    let (l, a) = (l * 12.0, a * 12.0);
    let tip = p * a * a / (3.0 * EI) * (l + a);
    let bow = p * a * l * l / (9.0 * 3.0_f64.sqrt() * EI);
    let between = span(&statics, 1);
    near(between.live_up.as_inches(), bow, 1e-12, "bow");
    // Equal because it never goes down, not because it was not looked at.
    assert_eq!(between.live.as_inches(), 0.0);
    assert_eq!(between.total.as_inches(), 0.0);
    assert_eq!(between.ratio_live(), None);
    let overhang = statics.sags.last().expect("an overhang");
    assert_eq!(overhang.segment, Segment::OverhangB);
    near(overhang.live.as_inches(), tip, 1e-12, "tip");
    near(overhang.total.as_inches(), 2.0 * tip, 1e-12, "tip, both");
    let ratio = overhang.ratio_live().expect("it moves");
    near(
        ratio,
        2.0 * a / tip,
        1e-7,
        "twice the overhang over its sag",
    );
}

/// The same beam turned end for end gives the mirrored results.
#[test]
fn overhang_at_a_mirrors_overhang_at_b() {
    let (l, a) = (14.0, 3.0);
    let beam = Bench::weightless(IX, feet(l + a));
    let right = beam.clone().on(&[feet(0.0), feet(l)]);
    let right = right.point(feet(16.0), 900.0, 300.0);
    let right = right.line(feet(12.5), feet(17.0), 100.0, 700.0).solve();
    let left = beam.on(&[feet(a), feet(l + a)]);
    let left = left.point(feet(1.0), 900.0, 300.0);
    let left = left.line(feet(0.0), feet(4.5), 100.0, 700.0).solve();
    for (one, other) in right.reactions.iter().zip(left.reactions.iter().rev()) {
        near(one.max.as_pounds(), other.max.as_pounds(), 1e-9, "max");
        near(one.min.as_pounds(), other.min.as_pounds(), 1e-9, "min");
    }
    for (one, other) in right.sags.iter().zip(left.sags.iter().rev()) {
        near(
            one.total.as_inches(),
            other.total.as_inches(),
            1e-12,
            "total",
        );
        near(
            one.live_up.as_inches(),
            other.live_up.as_inches(),
            1e-12,
            "up",
        );
    }
    let (one, other) = (right.moments.worst, left.moments.worst);
    near(
        one.least.value.as_pound_feet(),
        other.least.value.as_pound_feet(),
        1e-8,
        "M-",
    );
    near(
        one.most.value.as_pound_feet(),
        other.most.value.as_pound_feet(),
        1e-8,
        "M+",
    );
    let (one, other) = (right.shears.worst, left.shears.worst);
    near(
        one.most.value.as_pounds(),
        -other.least.value.as_pounds(),
        1e-9,
        "V",
    );
}

/// AISC 29, 30, 31 (AWC DA6 figures 29 to 31): two equal spans, one loaded,
/// a point load in the middle and at any place of one.
#[test]
fn two_equal_spans() {
    let (w, l) = (1_000.0, 12.0);
    let beam = || {
        let bench = Bench::weightless(IX, feet(2.0 * l));
        bench.on(&[feet(0.0), feet(l), feet(2.0 * l)])
    };
    let wl = w * l;
    let statics = beam().line(feet(0.0), feet(l), w, 0.0).solve();
    let expected = [7.0 / 16.0 * wl, 5.0 / 8.0 * wl, -wl / 16.0];
    all_near(&dead(&statics), &expected, 1e-9, "one loaded");
    let (inches, load) = (l * 12.0, w / 12.0);
    near(
        span(&statics, 1).dead.as_inches() / (load * inches.powi(4) / EI),
        0.0092,
        5e-5,
        "0.472 l from R1: 0.0092 wl4/EI",
    );
    let statics = beam().line(feet(0.0), feet(2.0 * l), w, 0.0).solve();
    all_near(
        &dead(&statics),
        &[0.375 * wl, 1.25 * wl, 0.375 * wl],
        1e-9,
        "both",
    );
    // Published to three figures.
    let part = load * inches.powi(4) / EI / span(&statics, 2).dead.as_inches();
    near(part, 185.0, 0.5, "wl4/185EI");
    let moments = statics.moments.dead;
    near(
        moments.least.value.as_pound_feet(),
        -wl * l / 8.0,
        1e-8,
        "wl2/8",
    );
    near(
        moments.most.value.as_pound_feet(),
        9.0 / 128.0 * wl * l,
        1e-8,
        "9wl2/128",
    );
    near(
        moments.most.at.as_inches(),
        12.0 * 3.0 / 8.0 * l,
        1e-6,
        "at 3l/8, nearest A",
    );

    let p = 3_000.0;
    let statics = beam().point(feet(l / 2.0), p, 0.0).solve();
    let expected = [13.0 / 32.0 * p, 11.0 / 16.0 * p, -3.0 / 32.0 * p];
    all_near(&dead(&statics), &expected, 1e-9, "in the middle of one");
    let (a, b) = (4.0, 8.0);
    let statics = beam().point(feet(a), p, 0.0).solve();
    let cube = 4.0 * l * l * l;
    let r1 = p * b / cube * (4.0 * l * l - a * (l + a));
    let r2 = p * a / (2.0 * l * l * l) * (2.0 * l * l + b * (l + a));
    let r3 = -p * a * b / cube * (l + a);
    all_near(&dead(&statics), &[r1, r2, r3], 1e-9, "at any point of one");
    let over = statics.moments.dead.least.value.as_pound_feet();
    near(over, -p * a * b / (4.0 * l * l) * (l + a), 1e-8, "M1");
}

/// Loads on chosen spans of equal length, as multiples of wl.
fn equal_spans(loaded: &[bool]) -> (Vec<f64>, f64) {
    let (w, l) = (1_000.0, 10.0);
    let count = loaded.len() as f64;
    let supports: Vec<_> = (0..=loaded.len()).map(|n| feet(l * n as f64)).collect();
    let mut bench = Bench::weightless(IX, feet(l * count)).on(&supports);
    for (n, _) in loaded.iter().enumerate().filter(|(_, on)| **on) {
        let from = l * n as f64;
        bench = bench.line(feet(from), feet(from + l), w, 0.0);
    }
    let statics = bench.solve();
    let reactions = dead(&statics).iter().map(|r| r / (w * l)).collect();
    let sags = statics.sags.iter().map(|sag| sag.dead.as_inches());
    let most = sags.fold(0.0, f64::max);
    (reactions, most / (w / 12.0 * (l * 12.0).powi(4) / EI))
}

/// AISC 36 to 42 (AWC DA6 figures 34 to 40): three and four equal spans.
#[test]
fn three_and_four_equal_spans() {
    type Published = (&'static [bool], &'static [f64], f64);
    const ON: bool = true;
    const OFF: bool = false;
    let published: [Published; 6] = [
        (&[ON, ON, OFF], &[0.383, 1.200, 0.450, -0.033], 0.0059),
        (&[ON, OFF, ON], &[0.450, 0.550, 0.550, 0.450], 0.0099),
        (&[ON, ON, ON], &[0.400, 1.100, 1.100, 0.400], 0.0069),
        (
            &[ON, ON, OFF, ON],
            &[0.380, 1.223, 0.357, 0.598, 0.442],
            0.0094,
        ),
        (
            &[OFF, ON, ON, OFF],
            &[-0.036, 0.464, 1.143, 0.464, -0.036],
            f64::NAN,
        ),
        (
            &[ON, ON, ON, ON],
            &[0.393, 1.143, 0.928, 1.143, 0.393],
            0.0065,
        ),
    ];
    for (loaded, reactions, sag) in published {
        let (found, most) = equal_spans(loaded);
        // The source cuts or rounds the third decimal, as the case may be.
        all_near(&found, reactions, 0.001, &format!("{loaded:?}"));
        if sag.is_finite() {
            near(most, sag, 1.0e-4, &format!("deflection of {loaded:?}"));
        }
    }
}

/// Fractions of wl for four equal spans, all loaded: 11/28, 32/28, 26/28.
/// Source: Civil Engineering Formulas (Hicks), Table 2.1.
#[test]
fn four_equal_spans_as_fractions() {
    let (found, _) = equal_spans(&[true; 4]);
    let expected = [11.0, 32.0, 26.0, 32.0, 11.0].map(|n| n / 28.0);
    all_near(&found, &expected, 1e-12, "four spans");
    let (found, _) = equal_spans(&[true; 3]);
    let expected = [4.0, 11.0, 11.0, 4.0].map(|n| n / 10.0);
    all_near(&found, &expected, 1e-12, "three spans");
}
