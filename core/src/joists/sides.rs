//! Each side by itself: what the crew is asked to look at again.
//!
//! In: the sorted joists and the raw readings. Out: cautions: readings that do
//! not increase, joists that overlap, a gap that looks like a joist missed, a
//! joist that stands off by a round figure, joists off the clear span, a count
//! by eye that differs, readings that were only guessed.

use super::middle::{held, median_twice};
use super::slips::{is_round_slip, is_wide};
use super::{Joist, Joists, number, on_side};
use crate::caution::{self, Caution, Cautions};
use crate::frame::Datum;
use crate::job::{JOISTS, Job};
use crate::length::Length;
use crate::list::Listed;
use crate::words::Side;
use heapless::Vec;

/// Looks at all sides.
pub fn look(job: &Job, datum: &Datum, joists: &Joists, cautions: &mut Cautions) {
    not_increasing(job, cautions);
    for side in Side::BOTH {
        let joists = on_side(joists, side);
        overlaps(joists, cautions);
        bays(joists, cautions);
        off_span(joists, datum, cautions);
        counted(job, side, cautions);
    }
}

/// Readings of a run that do not increase, in the order read.
fn not_increasing(job: &Job, cautions: &mut Cautions) {
    for (run, keyed) in (0_u8..).zip(&job.runs) {
        let readings = job.joists.iter().filter(|j| j.run == run);
        let mut before: Option<Length> = None;
        for reading in readings.map(|j| j.reading) {
            if let Some(before) = before.filter(|before| *before >= reading) {
                caution::add(
                    cautions,
                    Caution::NotIncreasing {
                        side: keyed.side,
                        run: number(job, run),
                        before,
                        reading,
                    },
                );
            }
            before = Some(reading);
        }
    }
}

/// Joists that overlap the one before, or any that reaches further.
fn overlaps(joists: &[Joist], cautions: &mut Cautions) {
    let mut farthest: Option<&Joist> = None;
    for joist in joists {
        if let Some(before) = farthest {
            let by = before.to.saturating_sub(joist.from);
            if by > ROUNDED_OUT {
                caution::add(
                    cautions,
                    Caution::JoistsOverlap {
                        side: joist.side,
                        first: before.number,
                        second: joist.number,
                        by,
                    },
                );
            }
        }
        if farthest.is_none_or(|before| joist.to >= before.to) {
            farthest = Some(joist);
        }
    }
}

/// Two touching joists read to their centres may seem to overlap by one count
/// (25 nm), because half a count goes outward on each.
const ROUNDED_OUT: Length = Length::from_counts(1);

/// Bays against the usual bay of the side.
fn bays(joists: &[Joist], cautions: &mut Cautions) {
    let mut bays: Vec<i64, JOISTS, u8> = joists
        .windows(2)
        .map(|pair| bay_twice(pair).unwrap_or_default())
        .listed();
    let Some(usual) = median_twice(&mut bays) else {
        return;
    };
    for pair in joists.windows(2) {
        let ([before, ..], Some(bay)) = (pair, bay_twice(pair)) else {
            continue;
        };
        if is_wide(bay, usual) {
            caution::add(
                cautions,
                Caution::JoistMissed {
                    side: before.side,
                    after: before.number,
                    gap: held(bay / 2),
                    usual: held(usual / 4),
                },
            );
        }
    }
    for three in joists.windows(3) {
        round_slip(three, usual, cautions);
    }
}

/// A joist that stands between its neighbours off by exactly a round figure.
/// `usual` is four times the usual bay.
fn round_slip(three: &[Joist], usual: i64, cautions: &mut Cautions) {
    let [_, joist, _] = three else { return };
    let (Some(before), Some(after)) = (
        three.get(..2).and_then(bay_twice),
        three.get(1..).and_then(bay_twice),
    ) else {
        return;
    };
    let off = 2 * before - usual;
    if off == usual - 2 * after && off % 4 == 0 && is_round_slip(off / 4) {
        caution::add(
            cautions,
            Caution::ReadingSlip {
                side: joist.side,
                joist: joist.number,
                by: held(off / 4),
            },
        );
    }
}

/// Twice the distance between the centres of two joists.
fn bay_twice(pair: &[Joist]) -> Option<i64> {
    let [one, other] = pair else { return None };
    Some(other.centre_twice() - one.centre_twice())
}

/// Joists partly or wholly off the clear span, off the steel where no wall stands.
fn off_span(joists: &[Joist], datum: &Datum, cautions: &mut Cautions) {
    let (first, last) = datum.span();
    for joist in joists {
        let off = first.is_some_and(|first| joist.from < first)
            || last.is_some_and(|last| joist.to > last);
        if off {
            caution::add(
                cautions,
                Caution::JoistOffSpan {
                    side: joist.side,
                    joist: joist.number,
                },
            );
        }
    }
}

/// Count by eye against readings, and the share of readings only guessed.
fn counted(job: &Job, side: Side, cautions: &mut Cautions) {
    let on_this_side = |run: u8| {
        job.runs
            .get(usize::from(run))
            .is_some_and(|r| r.side == side)
    };
    let (mut read, mut guessed) = (0_u16, 0_u16);
    for joist in job.joists.iter().filter(|j| on_this_side(j.run)) {
        read += 1;
        guessed += u16::from(joist.guessed);
    }
    let [n, s] = job.counts;
    let counted = match side {
        Side::N => n,
        Side::S => s,
    };
    if let Some(counted) = counted.filter(|counted| *counted != read) {
        caution::add(
            cautions,
            Caution::CountDiffers {
                side,
                counted,
                read,
            },
        );
    }
    if guessed > 0 {
        caution::add(
            cautions,
            Caution::Guessed {
                side,
                guessed,
                of: read,
            },
        );
    }
}
