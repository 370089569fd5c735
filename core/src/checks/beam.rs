//! The beam as planned, and every check of it.
//!
//! In: a job, what its plan came to, the statics. Out: checks, cautions, the way
//! in. Rule: each check takes its figures
//! from the card or from the plan; what neither has makes it "not made". What a
//! card does not ask for is not checked: loads ask for all, a pocket asks whether
//! the steel goes in, a nail whether it reaches.
//!
//! All places are stations on the beam as it ended up: what stays with the house
//! has moved by its shift.

mod bolts;
mod entry;
mod nails;
mod packing;
mod seats;
mod steel;

pub use entry::{LeftOut, WayIn};

use super::share::{Hangers, Hung};
use super::work;
use crate::caution::Cautions;
use crate::check::{Checklist, Lack};
use crate::defaults;
use crate::force::Stress;
use crate::frame::{Frame, Pieces};
use crate::job::{Job, PatternRows};
use crate::joists::Joist;
use crate::length::Length;
use crate::packing::{Space, Stack};
use crate::placement::Placement;
use crate::shapes::Section;
use crate::statics::{Model, Statics};
use crate::words::Side;

/// A beam as planned: what its checks look at.
#[derive(Debug)]
pub struct Beam<'a> {
    /// What was read.
    pub job: &'a Job,
    /// Where walls and ends lie.
    pub frame: Frame,
    /// The steel.
    pub section: Section,
    /// All joists: side N then side S, each sorted from end A.
    pub joists: &'a [Joist],
    /// The holes of a feasible plan.
    pub placement: Option<&'a Placement>,
    /// Chosen packing by side.
    pub stacks: &'a [Option<Stack>; 2],
    /// Heights of the bolt rows.
    pub heights: Option<PatternRows>,
    /// Where packing stands.
    pub pieces: Pieces,
}

/// The loads of a beam, solved.
#[derive(Clone, Copy, Debug)]
pub struct Carried<'a> {
    /// The beam that was solved.
    pub model: &'a Model,
    /// What came out.
    pub statics: &'a Statics,
    /// What hangs on its sides.
    pub hung: &'a Hung,
}

impl Beam<'_> {
    /// Makes every check that the card asks for; without `carried` those that
    /// need no loads. The parts are not inlined into one: each gives its stack back
    /// before the next one begins.
    pub fn add_checks(&self, carried: Option<&Carried>, checks: &mut dyn Checklist) {
        self.entry_checks(carried.is_some(), checks);
        if let Some(carried) = carried {
            self.seat_checks(carried, checks);
            self.steel_checks(carried, checks);
            self.packing_checks(carried, checks);
            self.bolt_checks(carried, checks);
            self.hanger_checks(carried, checks);
        }
        self.nail_checks(carried.is_some(), checks);
        if carried.is_some() {
            self.flush_figures(checks);
        }
    }

    /// What no figure can say; call it last, shores are spoken of once.
    pub fn cautions(&self, carried: Option<&Carried>, cautions: &mut Cautions) {
        if let Some(carried) = carried {
            self.hole_cautions(carried, cautions);
        }
        self.nail_cautions(cautions);
        work::cautions(self.job, cautions);
    }

    /// Joists of one side with what hangs there.
    fn hangers<'h>(&'h self, hung: &'h Hung, side: Side) -> Hangers<'h> {
        let first = self.joists.iter().position(|joist| joist.side == side);
        let of_side = self.joists.iter().filter(|joist| joist.side == side);
        let from = first.unwrap_or_default();
        let joists = self.joists.get(from..from + of_side.count());
        Hangers {
            hung,
            joists: joists.unwrap_or_default(),
            side,
        }
    }

    /// The chosen packing of a side.
    fn stack(&self, side: Side) -> Option<&Stack> {
        self.stacks.get(side.index())?.as_ref()
    }

    /// Thickness of the chosen packing of a side.
    fn thickness(&self, side: Side) -> Option<Length> {
        self.stack(side).and_then(Stack::thickness)
    }

    /// Whether any packing stands on a side.
    fn packs(&self, side: Side) -> bool {
        self.pieces.iter().any(|piece| piece.sides.holds(side))
    }

    /// Lower and upper edge of the packing on a side, where the hangers nail:
    /// the outer layer's, standing on the flange.
    ///
    /// # Errors
    /// `layer` without chosen packing.
    fn edges(&self, side: Side) -> Result<[Length; 2], Lack> {
        let stack = self.stack(side).ok_or(Lack::Row("layer"))?;
        let outer = stack.layers.last().ok_or(Lack::Row("layer"))?;
        let space = Space::of(&self.section, self.job.units);
        Ok([Length::ZERO, outer.rip.unwrap_or(space.full)])
    }

    /// Yield strength of the beam.
    fn fy(&self) -> Stress {
        Stress::keyed_ksi(defaults::yield_strength(self.job), self.job.units)
    }

    /// Tensile strength of the beam.
    fn fu(&self) -> Stress {
        Stress::keyed_ksi(defaults::tensile_strength(self.job), self.job.units)
    }
}
