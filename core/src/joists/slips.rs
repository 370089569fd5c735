//! Slips: what a reading looks like when it was misread or keyed wrong.
//!
//! In: the readings of a run so far, the new one, what was expected. Out: what
//! to ask before it is accepted. Nothing is refused and nothing corrected.
//!
//! Everything is judged along the tape, so that hook, burn and direction do not
//! matter: of each joist the tape meets first `near`, then `far`.

use super::middle::{held, median_twice};
use crate::defaults;
use crate::job::{Edge, JOISTS, Job, JoistReading};
use crate::length::Length;
use heapless::Vec;

/// What a reading looks like.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Slip {
    /// Not greater than the reading before it.
    NotIncreasing {
        /// The reading before.
        before: Length,
    },
    /// The joist would overlap the one before it.
    Overlap {
        /// By how much.
        by: Length,
    },
    /// A bay above 1.6 times the usual one: joist missed?
    Gap {
        /// Centre to centre.
        gap: Length,
        /// Usual.
        usual: Length,
    },
    /// Off the expected reading by exactly 1, 10 or 12 in, or by 10 cm.
    RoundFigure {
        /// Reading less expected.
        off: Length,
    },
}

/// Everything to ask about one reading.
pub type Slips = Vec<Slip, 4, u8>;

/// What to ask about `new` before it joins its run. `expected` is the reading
/// that was guessed; without one it is the last reading plus the usual step of
/// the run. A first reading without a guess can show nothing.
pub fn slips(job: &Job, new: &JoistReading, expected: Option<Length>) -> Slips {
    let mut found = Slips::new();
    let so_far = || job.joists.iter().filter(|joist| joist.run == new.run);
    let last = so_far().next_back();
    if let Some(last) = last {
        if new.reading <= last.reading {
            let before = last.reading;
            let _ = found.push(Slip::NotIncreasing { before });
        } else {
            bay(job, last, new, &mut found);
        }
    }
    let step = usual_step(so_far().map(|joist| i64::from(joist.reading.counts())));
    let expected_twice = match (expected, last, step) {
        (Some(expected), ..) => Some(2 * i64::from(expected.counts())),
        (None, Some(last), Some(step)) => Some(2 * i64::from(last.reading.counts()) + step),
        _ => None,
    };
    if let Some(expected) = expected_twice {
        let off = 2 * i64::from(new.reading.counts()) - expected;
        if off % 2 == 0 && is_round_slip(off / 2) {
            let off = held(off / 2);
            let _ = found.push(Slip::RoundFigure { off });
        }
    }
    found
}

/// Overlap with the last joist, or a bay far wider than usual.
fn bay(job: &Job, last: &JoistReading, new: &JoistReading, found: &mut Slips) {
    let edge = job.runs.get(usize::from(new.run)).map(|run| run.edge);
    let edge = edge.unwrap_or(Edge::Near);
    let span = |joist: &JoistReading| span_twice(job, joist, edge);
    let (last_near, last_far) = span(last);
    let (near, far) = span(new);
    if near < last_far {
        let by = held((last_far - near).div_euclid(2));
        let _ = found.push(Slip::Overlap { by });
    }
    let so_far = job.joists.iter().filter(|joist| joist.run == new.run);
    let centres = so_far.map(|joist| {
        let (near, far) = span(joist);
        near + far
    });
    let gap = near + far - last_near - last_far;
    if let Some(usual) = usual_step(centres)
        && is_wide(gap, usual)
    {
        let _ = found.push(Slip::Gap {
            gap: held(gap / 4),
            usual: held(usual / 8),
        });
    }
}

/// Twice the places along the tape where it meets and leaves a joist.
fn span_twice(job: &Job, joist: &JoistReading, edge: Edge) -> (i64, i64) {
    let read = 2 * i64::from(joist.reading.counts());
    let thickness = i64::from(defaults::joist_thickness(job, joist).counts());
    match edge {
        Edge::Near => (read, read + 2 * thickness),
        Edge::Centre => (read - thickness, read + thickness),
        Edge::Far => (read - 2 * thickness, read),
    }
}

/// Twice the median step between consecutive values.
fn usual_step(values: impl Iterator<Item = i64>) -> Option<i64> {
    let mut steps: Vec<i64, JOISTS, u8> = Vec::new();
    let mut before = None;
    for value in values {
        if let Some(before) = before {
            let _ = steps.push(value - before);
        }
        before = Some(value);
    }
    median_twice(&mut steps)
}

/// Whether a bay is above 1.6 times the usual one; `usual_twice` is twice the
/// usual bay in the same measure. Practice: no source.
pub(super) fn is_wide(bay: i64, usual_twice: i64) -> bool {
    usual_twice > 0 && 5 * bay > 4 * usual_twice
}

/// Whether a difference in counts is exactly 1, 10 or 12 in or 10 cm: a tape
/// held at its first mark, a digit or a foot misread. Practice: no source.
pub(super) fn is_round_slip(off: i64) -> bool {
    [
        Length::from_inches(1),
        Length::from_inches(10),
        Length::from_inches(12),
        Length::from_millimetres(100),
    ]
    .iter()
    .any(|figure| i64::from(figure.counts()) == off.abs())
}
