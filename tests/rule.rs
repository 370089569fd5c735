//! The engineer's note, the default row heights, and what is said about them.
//! Expected values are worked out by hand from the published dimensions.

use boltbay_core::Job;
use boltbay_core::job::{
    Beam, BeamLength, Bolt, Ends, PackingPiece, Pattern, Position, Spacing, SpacingBasis,
};
use boltbay_core::length::Length;
use boltbay_core::words::{Side, Sides, Units};

mod arbitrary;
mod bare;
mod cautions;
mod compiled;
mod heights;
mod said;

fn sixteenths(figure: i32) -> Length {
    Length::from_sixteenths(figure)
}

fn inches(figure: i32) -> Length {
    Length::from_inches(figure)
}

fn millimetres(figure: i32) -> Length {
    Length::from_millimetres(figure)
}

/// A beam of 200 in (5 m) and a bolt: all that row heights need.
fn job(units: Units, designation: &str, diameter: Length) -> Job {
    let mut job = Job::new(units);
    job.beam = Some(Beam {
        designation: designation.try_into().unwrap(),
        length: match units {
            Units::Imperial => inches(200),
            Units::Metric => millimetres(5_000),
        },
        measured: BeamLength::Measured,
    });
    job.bolt = Some(Bolt {
        diameter,
        web_hole: None,
        wood_hole: None,
        fyb: None,
    });
    job
}

/// The same with a note: 1/2 in bolts every 16 in, first and last 2 to 9 in.
fn noted() -> Job {
    let mut job = job(Units::Imperial, "W10X33", sixteenths(8));
    job.spacing = Some(spacing(inches(16), SpacingBasis::Every));
    job.ends = Some(Ends {
        least: inches(2),
        most: inches(9),
        paired: None,
    });
    job
}

fn spacing(spacing: Length, basis: SpacingBasis) -> Spacing {
    Spacing {
        spacing,
        basis,
        hold_back: None,
        minimum: None,
    }
}

fn piece(from: Length, to: Length, sides: Sides) -> PackingPiece {
    PackingPiece {
        from: Position::from_end_a(from),
        to: Position::from_end_a(to),
        sides,
    }
}

/// Packs side N all along and side S not at all: the washer of S on bare web.
fn pack_one_side(job: &mut Job) {
    job.packing.clear();
    let only = piece(inches(4), inches(190), Sides::One(Side::N));
    job.packing.push(only).unwrap();
}

const PATTERNS: [Pattern; 3] = [Pattern::Single, Pattern::Staggered, Pattern::Paired];
