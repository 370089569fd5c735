//! Short ways to write a job down in a test.

use boltbay_core::Job;
use boltbay_core::job::{Beam, BeamLength, Designation, Hook, Position};
use boltbay_core::length::Length;
use boltbay_core::words::Units;

/// Sixteenths of an inch.
pub fn x16(sixteenths: i32) -> Length {
    Length::from_sixteenths(sixteenths)
}

/// Inches and sixteenths.
pub fn inch(whole: i32, sixteenths: i32) -> Length {
    x16(whole * 16 + sixteenths)
}

/// Millimetres.
pub fn mm(millimetres: i32) -> Length {
    Length::from_millimetres(millimetres)
}

/// A position on a hook.
pub fn at(reading: Length, hook: Hook) -> Position {
    Position { reading, hook }
}

/// A job with a measured beam.
pub fn job(units: Units, length: Length) -> Job {
    let mut job = Job::new(units);
    job.beam = Some(Beam {
        designation: Designation::try_from("W10X33").expect("short"),
        length,
        measured: BeamLength::Measured,
    });
    job
}

/// A job with a measured beam, a wall at each end, clear distance measured.
pub fn walled(units: Units, bearing: Length, clear: Length) -> Job {
    let length = clear
        .checked_add(bearing)
        .and_then(|l| l.checked_add(bearing));
    let mut job = job(units, length.expect("in range"));
    job.walls = [Some(bearing); 2];
    job.clear = Some(clear);
    job
}
