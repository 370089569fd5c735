//! Beams for tests, built row by row as a card would say them.

use boltbay_core::Length;
use boltbay_core::decimal::Decimal;
use boltbay_core::job::loads::LoadSide;
use boltbay_core::job::{
    Beam, BeamLength, Job, Load, LoadKind, Material, Position, Shape, Support,
};
use boltbay_core::statics::{Statics, solve};
use boltbay_core::words::Units;

/// Inches to the nearest count.
pub fn inches(inches: f64) -> Length {
    Length::from_counts((inches * 1_016_000.0).round() as i32)
}

/// Feet to the nearest count.
pub fn feet(feet: f64) -> Length {
    inches(feet * 12.0)
}

/// A decimal with as many places as six digits behind the point give.
pub fn decimal(value: f64) -> Decimal {
    let digits = (value * 1e4).round();
    assert!(digits.abs() < 2e9, "{value} has too many digits");
    Decimal::new(digits as i32, 4)
}

/// A job under construction.
#[derive(Clone)]
pub struct Bench(pub Job);

impl Bench {
    /// A shape of the table.
    pub fn shape(designation: &str, length: Length) -> Bench {
        let mut job = Job::new(Units::Imperial);
        job.beam = Some(Beam {
            designation: designation.try_into().expect("short"),
            length,
            measured: BeamLength::Measured,
        });
        Bench(job)
    }

    /// A beam without weight, of this Ix.
    pub fn weightless(ix: f64, length: Length) -> Bench {
        let mut bench = Bench::shape("CUSTOM", length);
        bench.0.shape = Some(Shape {
            depth: inches(8.14),
            width: inches(5.25),
            web: inches(0.23),
            flange: inches(0.33),
            k_design: inches(0.63),
            k_detail: inches(0.8125),
            k1: inches(0.5625),
            weight: Decimal::whole(0),
            ix: Some(decimal(ix)),
            sx: None,
            zx: None,
        });
        bench
    }

    /// Supports by their centres, named P1, P2, ...
    pub fn on(mut self, centres: &[Length]) -> Bench {
        for centre in centres {
            let number = self.0.supports.len() + 1;
            let support = Support {
                name: format!("P{number}").as_str().try_into().expect("short"),
                centre: Some(Position::from_end_a(*centre)),
                length: Some(inches(4.0)),
                width: Some(inches(4.0)),
                material: Material::Steel,
                allowable: None,
            };
            self.0.supports.push(support).expect("room");
        }
        self
    }

    fn load(mut self, kind: LoadKind, dead: f64, live: f64) -> Bench {
        let load = Load {
            kind,
            dead: decimal(dead),
            live: decimal(live),
            side: LoadSide::Halves,
        };
        self.0.loads.push(load).expect("room");
        self
    }

    /// A line load from here to there, plf.
    pub fn line(self, from: Length, to: Length, dead: f64, live: f64) -> Bench {
        let (from, to) = (Position::from_end_a(from), Position::from_end_a(to));
        let kind = LoadKind::Line {
            from: Some(from),
            to: Some(to),
        };
        self.load(kind, dead, live)
    }

    /// A point load, lb.
    pub fn point(self, at: Length, dead: f64, live: f64) -> Bench {
        let at = Position::from_end_a(at);
        self.load(LoadKind::Point { at }, dead, live)
    }

    /// Solved.
    pub fn solve(&self) -> Statics {
        solve(&self.0, [None, None]).expect("statics")
    }
}

/// Reactions under dead load, lb.
pub fn dead(statics: &Statics) -> Vec<f64> {
    let reactions = statics.reactions.iter();
    reactions.map(|r| r.dead.as_pounds()).collect()
}

/// Compares with a tolerance.
pub fn near(found: f64, expected: f64, within: f64, what: &str) {
    assert!(
        (found - expected).abs() <= within,
        "{what}: found {found}, expected {expected} within {within}"
    );
}

/// Compares lists with a tolerance.
pub fn all_near(found: &[f64], expected: &[f64], within: f64, what: &str) {
    assert_eq!(found.len(), expected.len(), "{what}");
    for (found, expected) in found.iter().zip(expected) {
        near(*found, *expected, within, what);
    }
}
