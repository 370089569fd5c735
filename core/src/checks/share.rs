//! Shares: which load hangs on which hanger, and which hangers on which mark.
//!
//! In: line and point loads by side, joists, marks. Out: the load of a hanger,
//! the hangers nearest to a mark, the line load beside it. Rule: a hanger takes
//! what hangs from half-way to its neighbours on its side, the first and last
//! all beyond; a mark takes the hangers whose middle is nearer to it than to
//! any other mark packed on that side; half-way goes toward A. Where a side has
//! no joist on the card, its line load goes to the marks the same way.
//! Practice: no source.

use crate::force::{Force, LineLoad};
use crate::frame::Frame;
use crate::job::{Job, LOADS};
use crate::joists::Joist;
use crate::length::{Length, Rounding};
use crate::statics::Refusal;
use crate::statics::loads::{self, Laid};
use crate::words::Side;
use heapless::Vec;

/// An even load along the beam by side, in lb/in; one in lb at one place, where it
/// ends as it begins. Of one make, because a card has as many rows for both.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Load {
    from: Length,
    to: Length,
    size: [f64; 2],
}

impl Load {
    fn is_point(&self) -> bool {
        self.from == self.to
    }

    /// Of an even load: a side's part.
    fn line(&self, side: Side) -> LineLoad {
        LineLoad::from_pounds_per_inch(one(self.size, side))
    }

    /// Of a load at one place: a side's part.
    fn force(&self, side: Side) -> Force {
        Force::from_pounds(one(self.size, side))
    }
}

/// What hangs on the two sides of a beam.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Hung {
    loads: Vec<Load, LOADS, u8>,
}

impl Hung {
    /// Nothing.
    pub const fn new() -> Hung {
        Hung { loads: Vec::new() }
    }

    /// Forgets everything.
    pub fn clear(&mut self) {
        self.loads.clear();
    }

    /// Everything that hangs on the beam of a job as it ended up, dead and live
    /// together; what stands on top hangs on no side.
    ///
    /// # Errors
    /// A load without a place on the steel.
    pub fn of(job: &Job, frame: &Frame) -> Result<Hung, Refusal> {
        let mut hung = Hung::new();
        hung.fill(job, frame)?;
        Ok(hung)
    }

    /// Adds everything that hangs on the beam of a job, in place; see
    /// [`Hung::of`].
    ///
    /// # Errors
    /// A load without a place on the steel.
    pub fn fill(&mut self, job: &Job, frame: &Frame) -> Result<(), Refusal> {
        for (row, load) in (0_u8..).zip(&job.loads) {
            let shares = Side::BOTH.map(|side| loads::share(load, side));
            // As many places of each kind as a card has rows.
            let _ = match loads::lay(job, frame, row, load)? {
                Some(Laid::Spread {
                    from,
                    to,
                    dead,
                    live,
                }) => self.add_spread(from, to, shares.map(|share| (dead + live) * share)),
                Some(Laid::Point { at, dead, live }) => {
                    self.add_point(at, shares.map(|share| (dead + live) * share))
                }
                None => true,
            };
        }
        Ok(())
    }

    /// Adds an even load from here to there, if there is anything between. Beyond as
    /// many loads as a card has rows it is not taken: `false`.
    #[must_use]
    pub fn add_spread(&mut self, from: Length, to: Length, load: [LineLoad; 2]) -> bool {
        let size = load.map(LineLoad::as_pounds_per_inch);
        from >= to || self.loads.push(Load { from, to, size }).is_ok()
    }

    /// Adds a load at one place. Beyond as many as a card has rows it is not
    /// taken: `false`.
    #[must_use]
    pub fn add_point(&mut self, at: Length, load: [Force; 2]) -> bool {
        let size = load.map(Force::as_pounds);
        let (from, to) = (at, at);
        self.loads.push(Load { from, to, size }).is_ok()
    }

    fn spreads(&self) -> impl Iterator<Item = &Load> {
        self.loads.iter().filter(|load| !load.is_point())
    }

    /// What hangs on a side from `from` (left out) to `to` (taken in).
    pub fn between(&self, side: Side, from: Length, to: Length) -> Force {
        let spread = self.spreads().map(|spread| {
            let (from, to) = (from.max(spread.from), to.min(spread.to));
            if from < to {
                spread.line(side) * to.saturating_sub(from)
            } else {
                Force::ZERO
            }
        });
        let points = self.loads.iter().filter(|load| load.is_point());
        let points = points.filter(|point| from < point.from && point.from <= to);
        spread.sum::<Force>() + points.map(|point| point.force(side)).sum()
    }

    /// The line load on both sides at one place; where one load ends and another
    /// begins there, the one toward B.
    pub fn line_at(&self, at: Length) -> [LineLoad; 2] {
        Side::BOTH.map(|side| {
            self.spreads()
                .filter(|spread| spread.from <= at && at < spread.to)
                .map(|spread| spread.line(side))
                .sum()
        })
    }

    /// Where an even load begins: between two of these places, and the ends of
    /// loads, nothing changes.
    pub fn beginnings(&self) -> impl Iterator<Item = Length> {
        self.spreads().map(|spread| spread.from)
    }
}

/// One side's part.
fn one<T: Copy>([n, s]: [T; 2], side: Side) -> T {
    match side {
        Side::N => n,
        Side::S => s,
    }
}

/// Joists of one side, sorted along the beam, and what hangs on their side.
#[derive(Clone, Copy, Debug)]
pub struct Hangers<'a> {
    /// What hangs on the beam.
    pub hung: &'a Hung,
    /// Joists of this side alone, sorted from end A.
    pub joists: &'a [Joist],
    /// The side.
    pub side: Side,
}

impl Hangers<'_> {
    /// Load of the hanger of this index on its side; nothing beyond the last.
    pub fn load(&self, joist: usize) -> Force {
        let Some(here) = self.joists.get(joist).map(middle) else {
            return Force::ZERO;
        };
        let neighbour = |joist: Option<usize>| joist.and_then(|j| self.joists.get(j)).map(middle);
        let before = neighbour(joist.checked_sub(1));
        let after = neighbour(joist.checked_add(1));
        let from = before.map_or(START, |before| half_way(before, here));
        let to = after.map_or(Length::MAX, |after| half_way(here, after));
        self.hung.between(self.side, from, to)
    }

    /// Load of the hangers whose middle lies from `from` (left out) to `to`
    /// (taken in); without joists what hangs there.
    pub fn between(&self, from: Length, to: Length) -> Force {
        if self.joists.is_empty() {
            return self.hung.between(self.side, from, to);
        }
        let within = |joist: &Joist| from < middle(joist) && middle(joist) <= to;
        let hangers = self.joists.iter().enumerate();
        hangers
            .filter(|(_, joist)| within(joist))
            .map(|(index, _)| self.load(index))
            .sum()
    }

    /// Load of the hangers nearest to the mark at `at`, whose neighbours packed
    /// on this side are `before` and `after`.
    pub fn nearest(&self, at: Length, before: Option<Length>, after: Option<Length>) -> Force {
        let from = before.map_or(START, |before| half_way(before, at));
        let to = after.map_or(Length::MAX, |after| half_way(at, after));
        self.between(from, to)
    }
}

/// Before anything on the steel.
const START: Length = Length::from_counts(i32::MIN);

/// Half-way between two places, rounded down to a count.
fn half_way(one: Length, other: Length) -> Length {
    let half = other.saturating_sub(one).half(Rounding::Down);
    one.saturating_add(half)
}

/// Middle of a joist, rounded down to a count.
fn middle(joist: &Joist) -> Length {
    half_way(joist.from, joist.to)
}
