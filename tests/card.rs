//! Tests of the job card: reading, refusing, writing.

mod bytes;
mod capacities;
mod dice;
pub(crate) mod jobs;
mod kinds;
mod messy;
mod refused;
mod round_trip;

use boltbay_core::Job;
use boltbay_core::card::{self, CardError};
use boltbay_core::words::Units;

/// Reads a card from text.
fn read(text: &str) -> Result<Job, CardError> {
    let mut job = Job::new(Units::Imperial);
    card::read(text.as_bytes(), &mut job).map(|()| job)
}

/// Writes a card.
fn written(job: &Job) -> String {
    let mut text = String::new();
    card::write(job, &mut text).expect("a String takes all");
    text
}
