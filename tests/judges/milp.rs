//! Milp: the placement as a general mixed integer programme, a third opinion.
//!
//! In: facts and a least play. Out: fewest marks struck out, then stations, then
//! holes, or that there is no plan. Rule: a binary for each legal point and
//! row; neighbours are never spoken of, only windows of points. Solver: the
//! crate `microlp`. Jobs with two holes apart in one station, drilled stations
//! under the least spacing, or drilled holes off the packing are left to the
//! reference.

mod covers;
mod model;
mod points;
mod turns;

use crate::judges::facts::Facts;
use std::time::Duration;

pub use points::speaks_of;

/// What the solver says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Marks struck out, stations, holes.
    Fewest(usize, usize, usize),
    /// No plan keeps all rules.
    NoPlan,
    /// Stopped before it knew.
    OutOfTime,
}

/// Solves the job for a least play, within a time limit.
pub fn fewest(facts: &Facts, play: i64, limit: Duration) -> Verdict {
    let points = points::points(facts, play);
    if points::partner_lacks_play(facts, &points) {
        return Verdict::NoPlan;
    }
    let mut model = model::Model::new(facts, points);
    model.spacing(facts);
    turns::take_turns(&mut model, facts);
    covers::hold(&mut model, facts);
    model.solve(facts, limit)
}
