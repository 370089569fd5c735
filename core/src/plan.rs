//! The plan: everything that follows from a job.
//!
//! In: a job. Out: joists, windows, placement, packing, rods, cautions, and
//! what is missing. Filled through `&mut`: nothing this large crosses the stack.

use crate::caution::Cautions;
use crate::frame::Frame;
use crate::job::PatternRows;
use crate::joists::{Joists, RunReports};
use crate::packing::Stack;
use crate::placement::Placement;
use crate::rods::Rods;
use crate::rule::Rule;
use crate::words::Side;
use heapless::{String, Vec};

/// What follows from a job.
#[derive(Debug)]
pub struct Plan {
    /// Where walls and ends lie; `None` without a beam or with a contradiction.
    pub frame: Option<Frame>,
    /// From `joist` rows alone.
    pub joists: Joists,
    /// One a run.
    pub runs: RunReports,
    /// The engineer's rule as compiled, once `bolt`, `spacing` and `ends` are there.
    pub rule: Option<Rule>,
    /// Heights of the bolt rows, where the shape or the card gives them.
    pub heights: Option<PatternRows>,
    /// Filled in place; it counts only where `placed`.
    placement: Placement,
    /// Whether the placement answers this job.
    placed: bool,
    /// By side; `None`: not asked or missing.
    pub packing: [Option<Stack>; 2],
    /// `None`: not asked or missing.
    pub rods: Option<Rods>,
    /// Whether holes, packing, rods were asked for.
    pub asked: Asked,
    /// Kinds of rows that what is asked lacks.
    pub missing: Vec<Missing, 24, u8>,
    /// What the crew must look at.
    pub cautions: Cautions,
    /// `None` without a feasible placement.
    pub code: Option<PlanCode>,
}

impl Plan {
    /// Holes, or why there are none; `None`: not asked, or something is missing.
    pub fn placement(&self) -> Option<&Placement> {
        self.placed.then_some(&self.placement)
    }
}

/// What a card asks for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Asked {
    /// Any of `pattern spacing ends near bolt marked drilled abandoned`.
    pub holes: bool,
    /// Any `layer`.
    pub packing: bool,
    /// Any of `rod offcut piece`.
    pub rods: bool,
}

/// A kind of row that is missing, or a run that must be proved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Missing {
    /// A row kind: `bolt`, `outstand`, ...
    Row(&'static str),
    /// A run out of tolerance and not overridden: `run S2`.
    Run(Side, u8),
}

/// Four characters that stand on every list and sheet.
pub type PlanCode = String<4, u8>;
