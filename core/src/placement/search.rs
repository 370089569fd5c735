//! The search: which shift and which spacing the best plan bears.
//!
//! In: the ground. Out: the cost, the shift t and the greatest spacing of the
//! best plan, in the order of the objective. Costs only grow with the shift and
//! with a smaller spacing, so both are found by bisection, each probe a sweep.

use super::cost::Cost;
use super::course::Course;
use super::ground::{Ground, MOST_SLACK};
use super::pieces::Pieces;
use super::sweep::Sweep;
use super::{PlaceError, Runs, Scratch, old, windows};
use crate::job::Pattern;
use crate::length::Length;
use crate::words::{Row, Units};

/// The best plan, but for its stations.
#[derive(Clone, Copy, Debug)]
pub(super) struct Optimum {
    pub cost: Cost,
    /// Shift that every hole not yet drilled bears.
    pub t: i32,
    /// Smallest greatest spacing.
    pub s_max: i32,
}

/// What the search came to.
pub(super) enum Found {
    Plan(Optimum),
    /// No plan; `too_many`: none with at most 240 holes.
    Nothing {
        too_many: bool,
    },
}

/// One sweep's answer.
struct Probe {
    cost: Option<Cost>,
    pruned: bool,
    /// The answer is the same up to this shift.
    same_to: i32,
}

/// A search under way.
struct Search<'a> {
    ground: &'a Ground<'a>,
    olds: &'a mut old::Olds,
    runs: &'a mut [Runs; 2],
    pieces: &'a mut Pieces,
}

/// Finds the best plan's shift, spacing and cost.
pub(super) fn search(ground: &Ground<'_>, scratch: &mut Scratch) -> Result<Found, PlaceError> {
    let Scratch {
        runs, olds, pieces, ..
    } = scratch;
    old::collect(ground, olds);
    let mut search = Search {
        ground,
        olds,
        runs,
        pieces,
    };
    match search.shift()? {
        Found::Plan(best) => {
            let s_max = search.smallest_spacing(best.t, best.cost)?;
            Ok(Found::Plan(Optimum { s_max, ..best }))
        }
        nothing => Ok(nothing),
    }
}

/// The same for a trial: the spacing is left as the rule has it.
pub(super) fn trial(ground: &Ground<'_>, scratch: &mut Scratch) -> Result<Found, PlaceError> {
    let Scratch {
        runs, olds, pieces, ..
    } = scratch;
    old::collect(ground, olds);
    let mut search = Search {
        ground,
        olds,
        runs,
        pieces,
    };
    search.shift()
}

/// Play of a plan that bears `t`: drilled holes count, and one that does not
/// fit leaves none.
pub(super) fn play_of(ground: &Ground<'_>, t: i32, scratch: &Scratch) -> i32 {
    let olds = &scratch.olds;
    let drilled = olds.iter().filter(|old| old.drilled());
    let slack = drilled.map(|old| match ground.verdict(olds, old, false) {
        super::Verdict::Fits => old.slack(),
        _ => 0,
    });
    slack.min().unwrap_or(MOST_SLACK).min(t)
}

/// Holes that a plan may have beside the abandoned ones.
fn holes_left(ground: &Ground<'_>) -> usize {
    let abandoned = |h: &&crate::job::Hole| h.state == crate::job::HoleState::Abandoned;
    crate::job::HOLES.saturating_sub(ground.job.holes.iter().filter(abandoned).count())
}

impl Search<'_> {
    /// The cost of the best plan and the shift that it bears.
    fn shift(&mut self) -> Result<Found, PlaceError> {
        let first = self.probe(0, None)?;
        let Some(cost) = first.cost else {
            return Ok(Found::Nothing {
                too_many: first.pruned,
            });
        };
        // No shift strikes marks out: what so many of them bear is the limit.
        let borne = self.olds.borne_by(cost.kept());
        let (class, cost) = self.best_class(cost, borne)?;
        if usize::try_from(cost.holes()).unwrap_or(usize::MAX) > holes_left(self.ground) {
            return Ok(Found::Nothing { too_many: true });
        }
        let t = self.greatest_shift(class, cost, borne)?;
        let s_max = self.ground.rule.s_max.counts();
        Ok(Found::Plan(Optimum { cost, t, s_max }))
    }

    /// The cost at shift `t`, with the rule's greatest spacing or a smaller one.
    fn probe(&mut self, t: i32, s_max: Option<i32>) -> Result<Probe, PlaceError> {
        let idle = if s_max.is_none() { self.lay(t)? } else { 0 };
        self.sweep(t, s_max, idle, None)
    }

    /// Lays the windows of both rows; how much t may grow with no change.
    fn lay(&mut self, t: i32) -> Result<i32, PlaceError> {
        let [top, bot] = &mut *self.runs;
        let holes = windows::Holes::Abandoned(self.olds);
        let idle = windows::lay(self.ground, Row::Top, t, &holes, top)?;
        match self.ground.rule.pattern {
            Pattern::Single => bot.clear(),
            Pattern::Staggered if self.ground.alike => bot.clear(),
            Pattern::Paired if self.ground.alike => bot.clone_from(top),
            _ => return Ok(idle.min(windows::lay(self.ground, Row::Bot, t, &holes, bot)?)),
        }
        Ok(idle)
    }

    fn sweep(
        &mut self,
        t: i32,
        s_max: Option<i32>,
        idle: i32,
        budget: Option<u32>,
    ) -> Result<Probe, PlaceError> {
        let bears_to = self.olds.bear(t);
        let mut course = Course::of(self.ground, self.olds, self.runs)?;
        if let Some(s_max) = s_max {
            course.allow(s_max);
        }
        let mut sweep = Sweep::new(&course, self.pieces);
        // Across a bare stretch fewer stations than the spacing says may do.
        sweep.budget = budget.filter(|_| course.steps.is_empty());
        let cost = sweep.run()?;
        let pruned = sweep.pruned;
        Ok(Probe {
            cost,
            pruned,
            same_to: t.saturating_add(idle).min(bears_to).min(MOST_SLACK),
        })
    }

    /// The greatest class of min(t, wanted play) that strikes no more marks, in
    /// steps of 1/8 in or 3 mm. Practice: what a crew can tell apart.
    fn best_class(&mut self, at_rest: Cost, borne: i32) -> Result<(i32, Cost), PlaceError> {
        let step = match self.ground.job.units {
            Units::Imperial => Length::from_sixteenths(2),
            Units::Metric => Length::from_millimetres(3),
        };
        let wanted = self.ground.rule.wanted.counts().clamp(0, borne);
        let step = step.counts();
        let (mut low, mut high) = (0, wanted.div_euclid(step) + 1);
        let mut best = at_rest;
        let mut next = high - 1;
        while high - low > 1 {
            let probe = self.probe(next * step, None)?;
            match probe.cost {
                Some(cost) if cost.kept() == at_rest.kept() => (low, best) = (next, cost),
                _ => high = next,
            }
            next = low + (high - low) / 2;
        }
        Ok((low * step, best))
    }

    /// The greatest shift at which the cost is still `cost`.
    fn greatest_shift(&mut self, class: i32, cost: Cost, borne: i32) -> Result<i32, PlaceError> {
        let lattice = self.ground.rule.step.counts();
        let (mut low, mut high) = (class, borne + 1);
        // Where marks are the limit, that is most likely the answer.
        if class < borne && borne < MOST_SLACK && self.bears(borne, cost)?.is_some() {
            low = borne;
        }
        while high - low > 1 {
            // Far apart: halve. Within a mark: what is just beyond the shifts
            // that are known to be the same is most likely the end.
            let next = if high - low > lattice {
                low + (high - low) / 2
            } else {
                low + 1
            };
            match self.bears(next, cost)? {
                Some(same_to) => low = same_to.max(next).min(high - 1),
                None => high = next,
            }
        }
        self.lay(low)?;
        Ok(low)
    }

    /// Whether a shift costs no more; then up to which one that is so.
    fn bears(&mut self, t: i32, cost: Cost) -> Result<Option<i32>, PlaceError> {
        let idle = self.lay(t)?;
        let probe = self.sweep(t, None, idle, Some(cost.stations()))?;
        Ok((probe.cost == Some(cost)).then_some(probe.same_to))
    }

    /// The smallest greatest spacing at which the cost is still `cost`.
    fn smallest_spacing(&mut self, t: i32, cost: Cost) -> Result<i32, PlaceError> {
        let lattice = self.ground.rule.step.counts();
        let s_max = self.ground.rule.s_max.counts();
        let all_stand = self.olds.all_stand(cost.kept());
        let least = self.least_possible(cost, all_stand).min(s_max);
        // With all old holes in place the least possible is most likely it.
        if all_stand && !self.olds.is_empty() && least > 0 && self.holds(t, least, cost)? {
            return Ok(least);
        }
        let mut high = s_max.div_euclid(lattice);
        let mut low = (least - 1).div_euclid(lattice).min(high - 1);
        if !self.holds(t, high.saturating_mul(lattice), cost)? {
            // Old holes off the lattice need the rest of the last step.
            return self.between(t, cost, high.saturating_mul(lattice), s_max);
        }
        while high - low > 1 {
            let next = low + (high - low) / 2;
            if self.holds(t, next.saturating_mul(lattice), cost)? {
                high = next;
            } else {
                low = next;
            }
        }
        let (low, high) = (low.saturating_mul(lattice), high.saturating_mul(lattice));
        if self.olds.on_lattice(lattice) {
            return Ok(high);
        }
        self.between(t, cost, low, high)
    }

    /// Whether a greatest spacing costs no more.
    fn holds(&mut self, t: i32, s_max: i32, cost: Cost) -> Result<bool, PlaceError> {
        let probe = self.sweep(t, Some(s_max), 0, Some(cost.stations()))?;
        Ok(probe.cost == Some(cost))
    }

    /// Bisection in counts between a spacing that fails and one that holds.
    fn between(&mut self, t: i32, cost: Cost, fails: i32, holds: i32) -> Result<i32, PlaceError> {
        let (mut low, mut high) = (fails, holds);
        while high - low > 1 {
            let next = low + (high - low) / 2;
            if self.holds(t, next, cost)? {
                high = next;
            } else {
                low = next;
            }
        }
        Ok(high)
    }

    /// A spacing below which no plan of this many stations spans the packing:
    /// the average, and what old holes that all stand leave.
    fn least_possible(&self, cost: Cost, all_stand: bool) -> i32 {
        let bare = windows::bare_stretches(self.ground).count() > 2;
        let gaps = i32::try_from(cost.stations()).unwrap_or(1) - 1;
        // An illegal hole is no station at the end of the packing.
        if bare || gaps < 1 || !self.olds.all_legal() {
            return 0;
        }
        let e_max = self.ground.rule.e_max.counts();
        let from = self.ground.pieces.iter().map(|p| p.from).min().unwrap_or(0);
        let to = self.ground.pieces.iter().map(|p| p.to).max().unwrap_or(0);
        let span = to
            .saturating_sub(from)
            .saturating_sub(e_max)
            .saturating_sub(e_max);
        let average = span.max(0) / gaps;
        if !all_stand {
            return average;
        }
        let between = self.olds.least_spacing(cost.stations()).unwrap_or(0);
        let least = average.max(between);
        let lattice = self.ground.rule.step.counts();
        if !self.olds.on_lattice(lattice) {
            return least;
        }
        let steps = least.saturating_add(lattice - 1).div_euclid(lattice);
        steps.saturating_mul(lattice)
    }
}
