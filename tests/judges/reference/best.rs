//! Best: the exact optimum of the whole order of objectives.
//!
//! In: facts. Out: the one best plan, or that there is none. Rule, in order:
//! fewest marks struck out; greatest class of play; fewest stations, then
//! holes; greatest play; smallest largest spacing; smallest list of stations,
//! then pairs early, then top first.

use super::chosen::choose;
use super::stations::Station;
use super::sweep::{Limits, NEVER, Sweep};
use crate::judges::facts::{Facts, SIX_INCHES};

/// The best plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// Its stations from end A.
    pub stations: Vec<Station>,
    /// Marks struck out, indices into the job's holes, ascending.
    pub struck_out: Vec<usize>,
    /// t of the objective: bolts not yet drilled only.
    pub play_undrilled: i64,
    /// Largest spacing where the greatest spacing holds.
    pub largest_spacing: Option<i64>,
}

/// What a job comes to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// The best plan.
    Plan(Answer),
    /// No plan keeps all rules.
    NoPlan,
}

/// The last of `list` that passes; all that pass come before all that do not.
fn last_that<T: Copy>(list: &[T], passes: impl Fn(T) -> bool) -> Option<T> {
    let count = list.partition_point(|item| passes(*item));
    count.checked_sub(1).and_then(|n| list.get(n)).copied()
}

/// Distinct amounts of room of all stations, from `least` on.
fn rooms(sweep: &Sweep, least: i64) -> Vec<i64> {
    let mut rooms: Vec<i64> = sweep.stations.iter().map(Station::slack).collect();
    rooms.push(SIX_INCHES);
    rooms.push(least);
    rooms.retain(|room| *room >= least);
    rooms.sort_unstable();
    rooms.dedup();
    rooms
}

/// The smallest greatest spacing at which the cost stays `best`.
fn tightest(sweep: &Sweep, play: i64, best: i64) -> i64 {
    let spacing = sweep.facts.widest();
    let mut descending = sweep.spacings(Limits { play, spacing });
    descending.reverse();
    last_that(&descending, |spacing| {
        sweep.costs(Limits { play, spacing }).best == best
    })
    .unwrap_or(spacing)
}

/// Works out a job.
pub fn solve(facts: &Facts) -> Outcome {
    let sweep = Sweep::new(facts);
    let at = |play: i64| {
        let spacing = facts.widest();
        sweep.costs(Limits { play, spacing }).best
    };
    let any = at(0);
    if any == NEVER {
        return Outcome::NoPlan;
    }
    let (fewest_struck, _, _) = sweep.counts(any);
    let greatest_class = facts.wanted.min(SIX_INCHES) / facts.class_step;
    let classes: Vec<i64> = (0..=greatest_class).collect();
    let class = last_that(&classes, |class| {
        let cost = at(class * facts.class_step);
        cost != NEVER && sweep.counts(cost).0 == fewest_struck
    })
    .unwrap_or(0);
    let best = at(class * facts.class_step);
    let rooms = rooms(&sweep, class * facts.class_step);
    let play = last_that(&rooms, |room| at(room) == best).unwrap_or(0);
    let spacing = tightest(&sweep, play, best);
    Outcome::Plan(choose(&sweep, Limits { play, spacing }))
}

/// Fewest marks struck out, stations and holes of any plan with this play.
pub fn fewest(facts: &Facts, play: i64) -> Option<(usize, usize, usize)> {
    let sweep = Sweep::new(facts);
    let spacing = facts.widest();
    let cost = sweep.costs(Limits { play, spacing }).best;
    (cost != NEVER).then(|| sweep.counts(cost))
}
