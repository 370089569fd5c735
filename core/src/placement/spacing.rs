//! Spacing: the smallest greatest spacing at which a plan costs no more.
//!
//! In: a ground, and the cost and the shift of its best plan, whose windows are
//! laid. Out: the spacing. A plan costs more the smaller it is, so it is found
//! by bisection, between the rule's and what the stations cannot span with less.

use super::cost::Cost;
use super::course::Course;
use super::ground::Ground;
use super::pieces::Pieces;
use super::search::Optimum;
use super::sweep::Sweep;
use super::{PlaceError, Room, windows};

/// The smallest greatest spacing; the windows at the plan's shift are laid.
#[inline(never)]
pub(super) fn smallest(
    ground: &Ground<'_>,
    best: &Optimum,
    scratch: &mut Room<'_>,
) -> Result<i32, PlaceError> {
    scratch.olds.bear(best.t);
    Course::with(ground, scratch.olds, scratch.runs, |course| {
        let mut spacing = Spacing {
            course,
            pieces: scratch.pieces,
            cost: best.cost,
        };
        spacing.smallest()
    })
}

/// The search for a spacing.
struct Spacing<'s, 'a> {
    course: &'s mut Course<'a>,
    pieces: &'s mut Pieces,
    cost: Cost,
}

impl Spacing<'_, '_> {
    /// The smallest greatest spacing at which the cost is still `cost`.
    fn smallest(&mut self) -> Result<i32, PlaceError> {
        let lattice = self.course.ground.rule.step.counts();
        let s_max = self.course.ground.rule.s_max.counts();
        let all_stand = self.course.olds.all_stand(self.cost.kept());
        let least = self.least_possible(all_stand).min(s_max);
        // With all old holes in place the least possible is most likely it.
        if all_stand && !self.course.olds.is_empty() && least > 0 && self.holds(least)? {
            return Ok(least);
        }
        let on_lattice = self.course.olds.on_lattice(lattice);
        let mut high = s_max.div_euclid(lattice);
        let mut low = (least - 1).div_euclid(lattice).min(high - 1);
        // Old holes off the lattice may need the rest of the last step.
        if !on_lattice && !self.holds(high.saturating_mul(lattice))? {
            return self.between(high.saturating_mul(lattice), s_max);
        }
        while high - low > 1 {
            let next = low + (high - low) / 2;
            if self.holds(next.saturating_mul(lattice))? {
                high = next;
            } else {
                low = next;
            }
        }
        let (low, high) = (low.saturating_mul(lattice), high.saturating_mul(lattice));
        if on_lattice {
            return Ok(high);
        }
        self.between(low, high)
    }

    /// Whether a greatest spacing costs no more.
    fn holds(&mut self, s_max: i32) -> Result<bool, PlaceError> {
        self.course.allow(s_max);
        let budget = Some(self.cost.stations());
        let cost = Sweep::within(self.course, self.pieces, budget).run()?;
        Ok(cost == Some(self.cost))
    }

    /// Bisection in counts between a spacing that fails and one that holds.
    fn between(&mut self, fails: i32, holds: i32) -> Result<i32, PlaceError> {
        let (mut low, mut high) = (fails, holds);
        while high - low > 1 {
            let next = low + (high - low) / 2;
            if self.holds(next)? {
                high = next;
            } else {
                low = next;
            }
        }
        Ok(high)
    }

    /// A spacing below which no plan of this many stations spans the packing:
    /// the average, and what old holes that all stand leave.
    fn least_possible(&self, all_stand: bool) -> i32 {
        let spanned = self.spanned();
        let gaps = i32::try_from(self.cost.stations()).unwrap_or(0) - spanned.stretches;
        // An illegal hole is no station at the end of the packing.
        if gaps < 1 || !self.course.olds.all_legal() {
            return 0;
        }
        let average = spanned.length / gaps;
        if !all_stand || spanned.stretches > 1 {
            return average;
        }
        let between = self
            .course
            .olds
            .least_spacing(self.cost.stations())
            .unwrap_or(0);
        let least = average.max(between);
        let lattice = self.course.ground.rule.step.counts();
        if !self.course.olds.on_lattice(lattice) {
            return least;
        }
        let steps = least.saturating_add(lattice - 1).div_euclid(lattice);
        steps.saturating_mul(lattice)
    }

    /// What the stations have to span, from the farthest that the first one of
    /// each stretch may stand in to the same for the last one. A stretch ends where
    /// the greatest spacing does not count.
    fn spanned(&self) -> Spanned {
        let ends = self.course.ground.rule.e_max.counts().saturating_mul(2);
        let limit = self.course.ground.bare_limit();
        let mut spanned = Spanned::default();
        let mut from = None;
        for (p, q) in windows::bare_stretches(self.course.ground) {
            if i64::from(q) - i64::from(p) <= limit {
                continue;
            }
            if let Some(from) = from.replace(q) {
                let length = p.saturating_sub(from).saturating_sub(ends);
                spanned.stretches += 1;
                spanned.length = spanned.length.saturating_add(length.max(0));
            }
        }
        spanned
    }
}

/// What stations have to span.
#[derive(Clone, Copy, Default)]
struct Spanned {
    /// In all.
    length: i32,
    /// In so many stretches.
    stretches: i32,
}
