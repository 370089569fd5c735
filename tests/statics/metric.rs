//! A job keyed in metric gives what the same job keyed in pounds and feet gives.
//!
//! Source: NIST SP 811, Appendix B.8, for the factors; loads and lengths are
//! chosen in metric and converted here, by hand.

use super::build::{Bench, near};
use boltbay_core::Length;
use boltbay_core::decimal::Decimal;
use boltbay_core::job::loads::LoadSide;
use boltbay_core::job::{Job, Load, LoadKind, Position};
use boltbay_core::statics::{Statics, solve};
use boltbay_core::words::Units;

const NEWTONS: f64 = 4.448_221_615_260_5;

fn at(mm: i32) -> Position {
    Position::from_end_a(Length::from_millimetres(mm))
}

/// To six places, as a card can hold it.
fn six(value: f64) -> Decimal {
    Decimal::new((value * 1e6).round() as i32, 6)
}

fn load(kind: LoadKind, dead: Decimal, live: Decimal) -> Load {
    Load {
        kind,
        dead,
        live,
        side: LoadSide::Halves,
    }
}

/// 2.4 and 7.2 kN/m; 1.2 and 1.9 kPa over 3 m; 9 and 4 kN.
fn job(units: Units) -> Job {
    let designation = match units {
        Units::Imperial => "W10X33",
        Units::Metric => "W250X49.1",
    };
    let mm = Length::from_millimetres;
    let bench = Bench::shape(designation, mm(9_000));
    let mut job = bench.on(&[mm(150), mm(5_200), mm(8_000)]).0;
    job.units = units;
    let (line, area, point) = match units {
        Units::Metric => (1.0, 1.0, 1.0),
        // kN/m to plf, kPa to psf, kN to lb.
        Units::Imperial => (
            1e3 / NEWTONS * 0.3048,
            1e3 / NEWTONS * 0.3048 * 0.3048,
            1e3 / NEWTONS,
        ),
    };
    let loads = [
        load(
            LoadKind::Line {
                from: Some(at(500)),
                to: Some(at(8_700)),
            },
            six(2.4 * line),
            six(7.2 * line),
        ),
        load(
            LoadKind::Area {
                tributary: mm(3_000),
                from: None,
                to: Some(at(5_000)),
            },
            six(1.2 * area),
            six(1.9 * area),
        ),
        // Points have more digits than six places hold.
        load(
            LoadKind::Point { at: at(6_400) },
            Decimal::new((9.0 * point * 1e5).round() as i32, 5),
            Decimal::new((4.0 * point * 1e5).round() as i32, 5),
        ),
    ];
    for load in loads {
        job.loads.push(load).expect("room");
    }
    job
}

fn solved(units: Units) -> Statics {
    solve(&job(units), [None, None]).expect("statics")
}

#[test]
fn metric_and_us_agree() {
    let (us, si) = (solved(Units::Imperial), solved(Units::Metric));
    let near = |found: f64, expected: f64, what: &str| {
        near(found, expected, expected.abs() * 1e-6 + 1e-9, what);
    };
    for (one, other) in us.reactions.iter().zip(&si.reactions) {
        near(
            one.dead.as_kilonewtons(),
            other.dead.as_kilonewtons(),
            "dead",
        );
        near(one.max.as_pounds(), other.max.as_pounds(), "max");
        near(one.min.as_newtons(), other.min.as_newtons(), "min");
        assert_eq!(one.min_with, other.min_with);
    }
    let (one, other) = (us.moments.worst, si.moments.worst);
    near(
        one.most.value.as_pound_feet(),
        other.most.value.as_pound_feet(),
        "M+",
    );
    near(
        one.least.value.as_kilonewton_metres(),
        other.least.value.as_kilonewton_metres(),
        "M-",
    );
    near(one.most.at.as_inches(), other.most.at.as_inches(), "where");
    for (one, other) in us.sags.iter().zip(&si.sags) {
        near(
            one.total.as_millimetres(),
            other.total.as_millimetres(),
            "total",
        );
        near(one.live.as_inches(), other.live.as_inches(), "live");
        near(one.live_up.as_inches(), other.live_up.as_inches(), "up");
    }
    // 3 mm against 1/8 in: linear in it.
    let (us, si) = (us.settlement.expect("Ix"), si.settlement.expect("Ix"));
    let part = 3.0 / 3.175;
    near(
        us.reaction(1, 0).as_pounds() * part,
        si.reaction(1, 0).as_pounds(),
        "settled",
    );
}

/// The metric worked load, all by hand: 9 m steel at 33 lb/ft, 2.4 kN/m over
/// 8.2 m, 1.2 kPa x 3 m over 5 m, 9 kN.
#[test]
fn the_sum_of_the_metric_loads() {
    let steel = 33.0 * NEWTONS / 0.3048 * 9.0 / 1e3;
    let sum = steel + 2.4 * 8.2 + 3.6 * 5.0 + 9.0;
    let statics = solved(Units::Metric);
    let found: f64 = statics
        .reactions
        .iter()
        .map(|r| r.dead.as_kilonewtons())
        .sum();
    near(found, sum, 1e-9, "kN");
}
