//! Lift: a support that has to hold the beam down.
//!
//! In: reactions. Out: for each support that lifts, why, and in which order the
//! shores may come away. Rule: the segment that lifts most is the
//! reason; segments come off their shores in the order in which they hold the
//! support down, the one that lifts most last. Practice: the order of
//! unloading, no source; the engineer's sequence rules.

use super::model::{Case, Model};
use super::moments::solve;
use super::reactions::{Reaction, at};
use super::{Pattern, SEGMENTS, Segment};
use crate::job::SUPPORTS;
use crate::list::{Listed, put_in};
use crate::words::End;
use heapless::Vec;

/// Why a support lifts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum LiftReason {
    /// Span `short` is short beside span `beside`, whose load lifts it.
    ShortSpan {
        /// From 1.
        short: u8,
        /// From 1.
        beside: u8,
    },
    /// The load of span `span` lifts it across the spans between.
    LoadedSpan {
        /// From 1.
        span: u8,
    },
    /// The overhang at an end tips the beam over its support.
    Overhang {
        /// At which end.
        end: End,
    },
}

/// A support that lifts: the force is the least of its reaction.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Lift {
    /// Position in [`super::Statics::reactions`].
    pub support: u8,
    /// Why.
    pub reason: LiftReason,
    /// Spans, and overhangs with keyed load, in the order in which their shores
    /// may come away.
    pub order: Vec<Segment, SEGMENTS, u8>,
}

/// All supports that lift.
#[inline(never)]
pub(super) fn lifts(model: &Model, reactions: &[Reaction]) -> Vec<Lift, SUPPORTS, u8> {
    let mut lifts = Vec::new();
    for (support, reaction) in reactions.iter().enumerate() {
        if !reaction.lifts() {
            continue;
        }
        let shares = shares(model, support);
        if let Some(lift) = lift(model, support, &shares) {
            // As many places as supports.
            let _ = lifts.push(lift);
        }
    }
    lifts
}

/// What each segment, fully loaded, adds to a reaction: most first; of equals
/// the one toward A.
fn shares(model: &Model, support: usize) -> Vec<(usize, f64), SEGMENTS, u8> {
    let mut shares: Vec<(usize, f64), SEGMENTS, u8> = Vec::new();
    for segment in 0..=model.supports() {
        let only = Pattern::default().with(segment);
        let case = Case {
            on: only,
            ..Case::dead_and(only)
        };
        let share = at(&solve(model, case), support);
        let before = shares.iter().position(|(_, other)| *other < share);
        // As many places as segments.
        let place = before.unwrap_or(shares.len());
        let _ = put_in(&mut shares, place, (segment, share));
    }
    shares
}

fn lift(model: &Model, support: usize, shares: &[(usize, f64)]) -> Option<Lift> {
    let (worst, _) = shares.last()?;
    // Shores stand under every span, and under an overhang that carries a floor.
    let shored = |at: usize| {
        let span = matches!(model.segment(at), Segment::Span(_));
        span || model.carries.has(at)
    };
    let shores = shares.iter().filter(|(at, _)| shored(*at));
    Some(Lift {
        // At most SUPPORTS.
        support: support as u8,
        reason: reason(model, support, *worst),
        order: shores.map(|(at, _)| model.segment(*at)).listed(),
    })
}

/// Why a support lifts that this segment lifts most.
fn reason(model: &Model, support: usize, worst: usize) -> LiftReason {
    match model.segment(worst) {
        Segment::OverhangA => LiftReason::Overhang { end: End::A },
        Segment::OverhangB => LiftReason::Overhang { end: End::B },
        Segment::Span(span) => {
            // The span at the support that lies toward the one that lifts.
            let near = if worst > support {
                support + 1
            } else {
                support
            };
            let length = |segment: usize| {
                let (from, to) = model.bounds(segment);
                to - from
            };
            match model.segment(near) {
                Segment::Span(short) if length(near) < length(worst) => LiftReason::ShortSpan {
                    short,
                    beside: span,
                },
                _ => LiftReason::LoadedSpan { span },
            }
        }
    }
}
