//! Reactions: what each support pushes, or has to hold down.
//!
//! In: a beam solved part by part. Out: for each support the reaction under
//! dead load, under all of it, the greatest and the least, and with which
//! segments loaded. Rule: a support lifts where its least reaction is below
//! zero; it is near lift where it would lift with 0.6 of the keyed dead load
//! (self-weight in full), or where its least is under 5 % of its greatest.
//! Source: ASCE 7-16 section 2.4.1, 0.6 D in the combinations against uplift.
//! Practice: the 5 %, no source.

use super::model::{Case, Model};
use super::moments::{Solved, solve};
use super::patterns::Apart;
use super::{Pattern, SEGMENTS, within};
use crate::float;
use crate::force::Force;
use crate::job::SUPPORTS;
use crate::length::Length;
use crate::list::Listed;
use heapless::Vec;

/// Part of the keyed dead load that is sure to be there.
const SURE: f64 = 0.6;
/// A least reaction under this part of the greatest is near lift.
const NEAR: f64 = 0.05;
/// Reactions below this part of all load are dust of the sums.
const DUST: f64 = 1e-11;

/// One support's reactions, pushing up positive.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Reaction {
    /// Index into [`crate::Job::supports`].
    pub row: u8,
    /// Station of the centre.
    pub at: Length,
    /// Bearing length as keyed or as placed.
    pub length: Option<Length>,
    /// Dead load and self-weight.
    pub dead: Force,
    /// The same and the live load on all segments.
    pub all: Force,
    /// Greatest of any choice of loaded segments.
    pub max: Force,
    /// Least of any choice.
    pub min: Force,
    /// Least with 0.6 of the keyed dead load.
    pub reduced: Force,
    /// Live load of the greatest.
    pub max_with: Pattern,
    /// Live load of the least.
    pub min_with: Pattern,
}

impl Reaction {
    /// Whether the support has to hold the beam down.
    pub fn lifts(&self) -> bool {
        self.min < Force::ZERO
    }

    /// Whether it holds by little: it does not lift, but would with 0.6 of the
    /// keyed dead load, or its least is under 5 % of its greatest.
    pub fn near_lift(&self) -> bool {
        // Just 5 % is not under it, dust or not.
        let near = !within((self.max * NEAR).as_pounds(), self.min.as_pounds());
        !self.lifts() && (self.reduced < Force::ZERO || near)
    }
}

/// Reactions of all supports from end A.
#[inline(never)]
pub(super) fn reactions(model: &Model, apart: &Apart) -> Vec<Reaction, SUPPORTS, u8> {
    let sure = Case {
        keyed: SURE,
        ..Case::dead_and(Pattern::default())
    };
    let sure = solve(model, sure);
    let bearings = model.bearings.iter().enumerate();
    bearings
        .map(|(index, bearing)| {
            let live = live(&apart.live, index, apart.total);
            let force = |pounds: f64| Force::from_pounds(clean(pounds, apart.total));
            let dead = at(&apart.dead, index);
            let (up, max_with) = sum(&live, |part| part > 0.0);
            let (down, min_with) = sum(&live, |part| part < 0.0);
            Reaction {
                row: bearing.row,
                at: bearing.at,
                length: bearing.length,
                dead: force(dead),
                all: force(dead + up + down),
                max: force(dead + up),
                min: force(dead + down),
                reduced: force(at(&sure, index) + down),
                max_with,
                min_with,
            }
        })
        .listed()
}

/// The reaction of one support.
pub(super) fn at(solved: &Solved, support: usize) -> f64 {
    solved.reactions.get(support).copied().unwrap_or_default()
}

/// What each segment's live load does to a support.
fn live(parts: &[Solved; SEGMENTS], support: usize, total: f64) -> [f64; SEGMENTS] {
    parts.each_ref().map(|part| clean(at(part, support), total))
}

/// Zero where only dust is left.
pub(super) fn clean(pounds: f64, total: f64) -> f64 {
    if float::abs(pounds) < total * DUST {
        0.0
    } else {
        pounds
    }
}

/// The sum of some parts, and which they are.
fn sum(parts: &[f64], wanted: impl Fn(f64) -> bool) -> (f64, Pattern) {
    let parts = parts.iter().enumerate();
    parts
        .filter(|(_, part)| wanted(**part))
        .fold((0.0, Pattern::default()), |(sum, with), (segment, part)| {
            (sum + part, with.with(segment))
        })
}
