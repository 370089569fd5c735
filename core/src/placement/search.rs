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
use super::{PlaceError, Room, Runs, old, spacing, windows};
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

/// The best class of shifts.
#[derive(Clone, Copy)]
struct Class {
    /// The least shift in it.
    t: i32,
    /// What the best plan costs there.
    cost: Cost,
    /// The greatest shift that the marks it keeps bear.
    borne: i32,
    /// A shift beyond: there a plan costs more.
    fails: i32,
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
    /// The shift whose windows are laid, and how much it may grow with no change.
    laid: Option<(i32, i32)>,
}

/// Finds the best plan's shift, spacing and cost.
pub(super) fn search(ground: &Ground<'_>, scratch: &mut Room<'_>) -> Result<Found, PlaceError> {
    match trial(ground, scratch)? {
        Found::Plan(best) => {
            let s_max = spacing::smallest(ground, &best, scratch)?;
            Ok(Found::Plan(Optimum { s_max, ..best }))
        }
        nothing => Ok(nothing),
    }
}

/// The same for a trial: the spacing is left as the rule has it.
#[inline(never)]
pub(super) fn trial(ground: &Ground<'_>, scratch: &mut Room<'_>) -> Result<Found, PlaceError> {
    old::collect(ground, scratch.olds);
    let mut search = Search {
        ground,
        olds: scratch.olds,
        runs: scratch.runs,
        pieces: scratch.pieces,
        laid: None,
    };
    search.shift()
}

/// Play of a plan that bears `t`: drilled holes count, and one that does not
/// fit leaves none.
pub(super) fn play_of(ground: &Ground<'_>, t: i32, scratch: &Room<'_>) -> i32 {
    let olds = &*scratch.olds;
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
        let class = match self.class()? {
            Ok(class) => class,
            Err(too_many) => return Ok(Found::Nothing { too_many }),
        };
        let cost = class.cost;
        if usize::try_from(cost.holes()).unwrap_or(usize::MAX) > holes_left(self.ground) {
            return Ok(Found::Nothing { too_many: true });
        }
        let t = self.greatest_shift(class)?;
        let s_max = self.ground.rule.s_max.counts();
        Ok(Found::Plan(Optimum { cost, t, s_max }))
    }

    /// The greatest class of min(t, wanted play) that strikes no more marks than a
    /// plan must; where there is no plan, whether that is for too many stations.
    /// Most likely it is the top one, with every mark kept: that is tried first.
    fn class(&mut self) -> Result<Result<Class, bool>, PlaceError> {
        let marks = self.olds.marks();
        let borne = self.olds.borne_by(marks);
        let fails = borne.saturating_add(1);
        let all_kept = |t, cost| Class {
            t,
            cost,
            borne,
            fails,
        };
        // With nothing but the holes that are there no plan costs less, at any shift.
        if borne < MOST_SLACK && self.probe(borne)?.cost == Some(self.olds.cost()) {
            return Ok(Ok(all_kept(borne, self.olds.cost())));
        }
        let top = self.top_class(borne);
        let first = self.probe(top)?;
        if let Some(cost) = first.cost.filter(|cost| cost.kept() == marks) {
            return Ok(Ok(all_kept(top, cost)));
        }
        let at_rest = if top == 0 { first } else { self.probe(0)? };
        let Some(cost) = at_rest.cost else {
            return Ok(Err(at_rest.pruned));
        };
        let fails = (cost.kept() == marks).then_some(top);
        self.best_class(cost, fails).map(Ok)
    }

    /// The cost at shift `t`.
    fn probe(&mut self, t: i32) -> Result<Probe, PlaceError> {
        let idle = self.lay(t)?;
        self.sweep(t, idle, None)
    }

    /// Lays the windows of both rows, if they are not; how much t may grow with no
    /// change.
    fn lay(&mut self, t: i32) -> Result<i32, PlaceError> {
        if let Some((at, idle)) = self.laid
            && at == t
        {
            return Ok(idle);
        }
        let idle = self.lay_anew(t)?;
        self.laid = Some((t, idle));
        Ok(idle)
    }

    fn lay_anew(&mut self, t: i32) -> Result<i32, PlaceError> {
        let [top, bot] = &mut *self.runs;
        let holes = windows::Holes::Abandoned(self.olds);
        let idle = windows::lay(self.ground, Row::Top, t, &holes, top)?;
        match self.ground.rule.pattern {
            Pattern::Single => bot.clear(),
            Pattern::Staggered if self.ground.alike => bot.clear(),
            // As a slice, because a clone would cross the stack; both hold as many.
            Pattern::Paired if self.ground.alike => {
                bot.clear();
                let _ = bot.extend_from_slice(top);
            }
            _ => return Ok(idle.min(windows::lay(self.ground, Row::Bot, t, &holes, bot)?)),
        }
        Ok(idle)
    }

    fn sweep(&mut self, t: i32, idle: i32, budget: Option<u32>) -> Result<Probe, PlaceError> {
        let bears_to = self.olds.bear(t);
        Course::with(self.ground, self.olds, self.runs, |course| {
            let mut sweep = Sweep::within(course, self.pieces, budget);
            Ok(Probe {
                cost: sweep.run()?,
                pruned: sweep.pruned,
                same_to: t.saturating_add(idle).min(bears_to).min(MOST_SLACK),
            })
        })
    }

    /// Steps of classes: 1/8 in or 3 mm. Practice: what a crew can tell apart.
    fn class_step(&self) -> i32 {
        let step = match self.ground.job.units {
            Units::Imperial => Length::from_sixteenths(2),
            Units::Metric => Length::from_millimetres(3),
        };
        step.counts()
    }

    /// The least shift of the greatest class that is wanted and that marks bear.
    fn top_class(&self, borne: i32) -> i32 {
        let wanted = self.ground.rule.wanted.counts().min(borne).max(0);
        wanted.div_euclid(self.class_step()) * self.class_step()
    }

    /// The greatest class that strikes out no more marks than at rest. `fails`: the
    /// top one, where it is known to cost more.
    fn best_class(&mut self, at_rest: Cost, fails: Option<i32>) -> Result<Class, PlaceError> {
        // No shift strikes marks out: what so many of them bear is the limit.
        let borne = self.olds.borne_by(at_rest.kept());
        let step = self.class_step();
        let beyond = fails.unwrap_or_else(|| self.top_class(borne).saturating_add(step));
        let (mut low, mut high) = (0, beyond.div_euclid(step));
        let mut class = Class {
            t: 0,
            cost: at_rest,
            borne,
            fails: fails.unwrap_or(borne.saturating_add(1)),
        };
        while high - low > 1 {
            // Untried, the top one is the most likely.
            let next = match high * step == class.fails {
                true => low + (high - low) / 2,
                false => high - 1,
            };
            match self.probe(next * step)?.cost {
                Some(cost) if cost.kept() == at_rest.kept() => {
                    (low, class.t, class.cost) = (next, next * step, cost);
                }
                _ => (high, class.fails) = (next, next * step),
            }
        }
        Ok(class)
    }

    /// The greatest shift at which the cost is still that of the class.
    fn greatest_shift(&mut self, class: Class) -> Result<i32, PlaceError> {
        let lattice = self.ground.rule.step.counts();
        let (mut low, mut high) = (class.t, class.fails);
        // Where marks are the limit, that is most likely the answer.
        let by_marks = low < class.borne && class.borne < high.min(MOST_SLACK);
        if by_marks && self.bears(class.borne, class.cost)?.is_some() {
            low = class.borne;
        }
        while high - low > 1 {
            // Far apart: halve. Within a mark: what is just beyond the shifts
            // that are known to be the same is most likely the end.
            let next = if high - low > lattice {
                low + (high - low) / 2
            } else {
                low + 1
            };
            match self.bears(next, class.cost)? {
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
        let probe = self.sweep(t, idle, Some(cost.stations()))?;
        Ok((probe.cost == Some(cost)).then_some(probe.same_to))
    }
}
