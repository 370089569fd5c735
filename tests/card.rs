//! Tests of the job card: reading, refusing, writing.

mod kinds;

use boltbay_core::Job;
use boltbay_core::card::{self, CardError};
use boltbay_core::words::Units;

/// Reads a card from text.
fn read(text: &str) -> Result<Job, CardError> {
    let mut job = Job::new(Units::Imperial);
    card::read(text.as_bytes(), &mut job).map(|()| job)
}
