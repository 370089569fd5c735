//! Bare web: whether a washer of one side can come to sit on the web itself.
//!
//! In: a job and its hardware. Out: yes or no for a side. Rule: a bolt stands
//! where at least one side is packed; on a side that is not packed there, its
//! centre stays R + g away from that side's packing, and `ends` away from the
//! ends of the packing across the web.

use crate::defaults;
use crate::frame::{Frame, Piece};
use crate::hardware::Hardware;
use crate::job::Job;
use crate::length::Length;
use crate::words::Side;

/// Whether a bolt can stand where `side` is not packed and the other side is.
/// `false` also where the packing cannot be worked out: then there is no plan.
pub fn washer_on_bare_web(job: &Job, hardware: &Hardware, side: Side) -> bool {
    let Ok(pieces) = Frame::of(job).and_then(|frame| frame.packing(job)) else {
        return false;
    };
    let off_packing = hardware.radius(side).saturating_add(defaults::gap(job));
    let off_ends = job.ends.map_or(Length::ZERO, |ends| ends.least);
    pieces
        .iter()
        .filter(|piece| piece.sides.holds(side.other()))
        .any(|across| {
            let first = across.from.saturating_add(off_ends);
            let last = across.to.saturating_sub(off_ends);
            bare_from(&pieces, side, off_packing, first) <= last
        })
}

/// The first station from `at` on that keeps `off` from all packing of `side`.
fn bare_from(pieces: &[Piece], side: Side, off: Length, at: Length) -> Length {
    let mut at = at;
    // Each round passes at least one piece for good; there are few.
    for _ in pieces {
        for piece in pieces.iter().filter(|piece| piece.sides.holds(side)) {
            let from = piece.from.saturating_sub(off);
            let to = piece.to.saturating_add(off);
            if from < at && at < to {
                at = to;
            }
        }
    }
    at
}
