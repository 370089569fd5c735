//! The exact solution: select, test, learn, until the least selection holds.
//!
//! In: an instance of at most 120 pieces of at most 8 lengths. Out: the least
//! sticks that hold them with a pattern for each, and why there are no lesser.
//!
//! Rule: the least selection that satisfies all that is known is tried. If it
//! holds the pieces it is the answer: nothing that holds them costs less. If it
//! does not even in fractions, that gives a new cover; if it does not after a
//! full search, it and all that it dominates are in vain. Every search has a
//! limit; beyond it the answer is given as not proved.

use super::covers::{Cover, Known};
use super::even;
use super::fill::{self, Cuts, LENGTHS, Order, Outcome, Sticks};
use super::instance::{Instance, at, put};
use super::relax::{Basis, Relaxed};
use super::select::{self, Counts, Selected};
use crate::rods::Proof;

/// Selections tried.
const ROUNDS: u32 = 400;
/// Steps of all fillings together.
const STEPS: u32 = 10_000_000;
/// Steps of all selections together.
const SELECTING: u32 = 2_000_000;

/// Searches of a selection, one after the other: order and steps.
const SEARCHES: [(Order, u32); 6] = [
    (Order::Short, 120_000),
    (Order::Long, 240_000),
    (Order::Short, 1_000_000),
    (Order::Long, 1_500_000),
    (Order::Short, 4_000_000),
    (Order::Long, 4_000_000),
];

/// What came of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Solved {
    /// The cut list is in the scratch.
    Cut(Proof),
    /// There is not enough stock.
    Short(Proof),
    /// Given up.
    GivenUp,
}

/// What filling the sticks of a selection needs, and where it leaves them.
#[derive(Clone, Debug)]
pub(crate) struct Filling {
    basis: Basis,
    sticks: Sticks,
}

impl Filling {
    /// Nothing filled.
    pub(crate) const fn new() -> Self {
        Filling {
            basis: Basis::new(),
            sticks: Sticks::new(),
        }
    }
}

/// What the solution works in, wherever it lies.
pub(crate) struct Work<'a> {
    pub(super) known: &'a mut Known,
    basis: &'a mut Basis,
    pub(super) sticks: &'a mut Sticks,
}

impl<'a> Work<'a> {
    pub(crate) const fn of(known: &'a mut Known, filling: &'a mut Filling) -> Self {
        let Filling { basis, sticks } = filling;
        Work {
            known,
            basis,
            sticks,
        }
    }
}

/// What a trial says about a selection.
enum Trial {
    Holds,
    /// It breaks this cover.
    Breaks(Cover),
    Never,
    Stopped,
}

/// Solves the instance. The sticks are left in `work.sticks`.
pub(super) fn solve(instance: &Instance, work: &mut Work<'_>) -> Solved {
    let mut proof = Proof::BoundMet;
    let (mut steps, mut selecting) = (STEPS, SELECTING);
    work.known.start(instance);
    for _ in 0..ROUNDS {
        let counts = match select::least(instance, work.known, &mut selecting) {
            Selected::Least(counts) => counts,
            Selected::Some(counts) => {
                proof = Proof::NotProved;
                counts
            }
            Selected::Impossible if proof == Proof::NotProved => return Solved::GivenUp,
            Selected::Impossible => return Solved::Short(proof),
            Selected::Unknown => return Solved::GivenUp,
        };
        let alone = match work.trial(instance, &counts, &mut steps) {
            Trial::Holds => return Solved::Cut(proof),
            Trial::Breaks(cover) => {
                work.known.add(cover);
                continue;
            }
            Trial::Never => false,
            Trial::Stopped => true,
        };
        proof = match (proof, alone) {
            (Proof::NotProved, _) | (_, true) => Proof::NotProved,
            _ => Proof::SearchComplete,
        };
        if !work.known.add_vain(instance, &counts, alone) || steps == 0 {
            return Solved::GivenUp;
        }
    }
    Solved::GivenUp
}

impl Work<'_> {
    /// Whether a selection holds the pieces: quick tries, fractions, a rounding of
    /// the fractions, then searches, each longer than the one before.
    fn trial(&mut self, instance: &Instance, counts: &Counts, steps: &mut u32) -> Trial {
        let mut all = [0; LENGTHS];
        for (slot, &count) in all.iter_mut().zip(&instance.demand) {
            *slot = u8::try_from(count).unwrap_or(u8::MAX);
        }
        let what = (counts, all);
        self.sticks.clear();
        if self.evenly(instance, what, &[2], steps) {
            return Trial::Holds;
        }
        let relaxed = self.basis.relax(instance, &all, counts);
        *steps = steps.saturating_sub(self.basis.work());
        if let Relaxed::Short(value) = relaxed {
            let cover = Cover::of(instance, &value);
            if cover.worth(instance.demand.iter().copied()) > cover.held(counts) {
                return Trial::Breaks(cover);
            }
        }
        if let Some(trial) = self.search(instance, what, (Order::Short, 2_000, false), steps) {
            return trial;
        }
        let rounded = matches!(relaxed, Relaxed::Fits) && self.round(instance, counts, all, steps);
        if rounded || self.evenly(instance, what, &[1, 4, 8], steps) {
            return Trial::Holds;
        }
        for (order, most) in SEARCHES {
            if let Some(trial) = self.search(instance, what, (order, most, true), steps) {
                return trial;
            }
        }
        Trial::Stopped
    }

    /// Fills evenly, with each of these fair parts of the waste.
    fn evenly(
        &mut self,
        instance: &Instance,
        what: (&Counts, Cuts),
        fair: &[i64],
        steps: &mut u32,
    ) -> bool {
        let (known, sticks) = (&mut *self.known, &mut *self.sticks);
        let mut fair = fair.iter();
        fair.any(|&fair| even::fill_evenly(instance, known, what, fair, sticks, steps))
    }

    /// Searches in an order, for so many steps, with or without fractions;
    /// `None` = stopped.
    fn search(
        &mut self,
        instance: &Instance,
        what: (&Counts, Cuts),
        (order, most, fractions): (Order, u32, bool),
        steps: &mut u32,
    ) -> Option<Trial> {
        let mut limit = most.min(*steps);
        let before = limit;
        let basis = fractions.then_some(&mut *self.basis);
        let (known, sticks) = (&mut *self.known, &mut *self.sticks);
        let outcome = fill::fill(instance, known, what, order, basis, sticks, &mut limit);
        *steps -= before - limit;
        match outcome {
            Outcome::Holds => Some(Trial::Holds),
            Outcome::Never => Some(Trial::Never),
            Outcome::Stopped => None,
        }
    }

    /// Cuts whole sticks by the patterns of the fractional solution, solves the
    /// rest again, and tries to fill what is left in between. True = all is cut.
    fn round(&mut self, instance: &Instance, counts: &Counts, all: Cuts, steps: &mut u32) -> bool {
        let (mut counts, mut left) = (*counts, all);
        loop {
            self.cut_whole(&mut counts, &mut left);
            let what = (&counts, left);
            let found = self.search(instance, what, (Order::Short, 1_500, false), steps);
            if matches!(found, Some(Trial::Holds)) || self.evenly(instance, what, &[2], steps) {
                return true;
            }
            let fits = matches!(self.basis.relax(instance, &left, &counts), Relaxed::Fits);
            *steps = steps.saturating_sub(self.basis.work());
            if !fits || *steps == 0 || !self.any_pattern() {
                self.sticks.clear();
                return false;
            }
        }
    }

    fn any_pattern(&self) -> bool {
        self.basis.patterns().any(|(_, _, level)| level > 0.01)
    }

    /// Cuts each pattern as often as its whole part says; where none has one,
    /// the fullest once.
    fn cut_whole(&mut self, counts: &mut Counts, left: &mut Cuts) {
        let mut any = false;
        for (kind, cuts, level) in self.basis.patterns() {
            let mut whole = (level + 0.001) as u32;
            while whole > 0 && cut(self.sticks, counts, left, kind, &cuts) {
                whole -= 1;
                any = true;
            }
        }
        if any {
            return;
        }
        let fullest = self.basis.patterns().max_by(|a, b| a.2.total_cmp(&b.2));
        if let Some((kind, cuts, _)) = fullest {
            cut(self.sticks, counts, left, kind, &cuts);
        }
    }
}

/// Cuts one stick, with no more than is left of each length; false where the
/// stick is not there or nothing is left for it.
fn cut(
    sticks: &mut Sticks,
    counts: &mut Counts,
    left: &mut Cuts,
    kind: usize,
    cuts: &Cuts,
) -> bool {
    let count = at(&*counts, kind);
    let mut taken = *cuts;
    for (taken, left) in taken.iter_mut().zip(left.iter()) {
        *taken = (*taken).min(*left);
    }
    if count == 0 || taken == [0; LENGTHS] || !sticks.push(kind, taken) {
        return false;
    }
    put(counts, kind, count - 1);
    for (left, taken) in left.iter_mut().zip(taken) {
        *left -= taken;
    }
    true
}
