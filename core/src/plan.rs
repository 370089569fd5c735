//! The plan: everything that follows from a job.
//!
//! In: a job. Out: joists, windows, placement, packing, rods, cautions, and
//! what is missing. Filled through `&mut`: nothing this large crosses the stack.

mod fill;
mod loads;

pub use loads::Standing;

use crate::Job;
use crate::caution::Cautions;
use crate::check::Checks;
use crate::checks::share::Hung;
use crate::cutting;
use crate::frame::Frame;
use crate::job::PatternRows;
use crate::joists::{Joists, RunReports};
use crate::packing::Stack;
use crate::placement::{
    self, Blocked, BlockedPage, PlaceError, PlacedHole, Placement, Verdict, Windows,
};
use crate::rods::Rods;
use crate::rule::Rule;
use crate::statics::{Apart, Model};
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
    /// Why the planner gave no answer at all.
    pub trouble: Option<PlaceError>,
    /// By side; `None`: not asked or missing.
    pub packing: [Option<Stack>; 2],
    /// Filled in place; it counts only where `rods_answered`.
    rods: Rods,
    /// Whether the rods answer this job.
    rods_answered: bool,
    /// What loads and checks came to.
    pub standing: Standing,
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
    /// A plan of nothing.
    pub const fn new() -> Self {
        Plan {
            frame: None,
            joists: Vec::new(),
            runs: Vec::new(),
            rule: None,
            heights: None,
            placement: Placement::new(),
            placed: false,
            trouble: None,
            packing: [None, None],
            rods: Rods::new(),
            rods_answered: false,
            standing: Standing {
                lifts: 0,
                over: 0,
                refused: false,
            },
            asked: Asked {
                holes: false,
                packing: false,
                rods: false,
                statics: false,
            },
            missing: Vec::new(),
            cautions: Cautions::new(),
            code: None,
        }
    }

    /// Holes, or why there are none; `None`: not asked, or something is missing.
    pub fn placement(&self) -> Option<&Placement> {
        self.placed.then_some(&self.placement)
    }

    /// Rods and cuts; `None`: not asked, or something is missing.
    pub fn rods(&self) -> Option<&Rods> {
        self.rods_answered.then_some(&self.rods)
    }

    /// Where bolts may stand with the beam on its mark, other holes left aside;
    /// `None` where that is not asked or something is missing.
    pub fn free_stretches<'s>(&self, job: &Job, scratch: &'s mut Scratch) -> Option<&'s Windows> {
        let rule = self.rule.filter(|_| self.placed)?;
        let (row, free) = (row(&mut scratch.near)?, free(&mut scratch.far)?);
        let laid = placement::windows_in(job, &self.joists, rule, free, row);
        laid.is_ok().then_some(free)
    }

    /// The blocking stretches after `last`, as many as `page` can list, and how
    /// many come after those; 0 and an empty page where there are none.
    pub fn more_blocked(
        &self,
        job: &Job,
        last: &Blocked,
        page: &mut BlockedPage,
        scratch: &mut Scratch,
    ) -> u16 {
        page.clear();
        let rule = self.rule.filter(|_| self.placed);
        let (Some(rule), Some(mut room)) = (rule, scratch.placing()) else {
            return 0;
        };
        placement::more_blocked_in(job, &self.joists, rule, last, page, &mut room).unwrap_or(0)
    }

    /// Whether all that the card asks for is answered: nothing missing, a plan,
    /// packing that fits, every rod cut, no hole that FOULS or breaks the RULE,
    /// nothing that lifts or is over its limit.
    pub fn answered(&self) -> bool {
        self.missing.is_empty()
            && self.trouble.is_none()
            && self.placement().is_none_or(placement_holds)
            && self.packing.iter().flatten().all(|stack| stack.feasible)
            && self.rods().is_none_or(|rods| rods.feasible)
            && self.standing.holds()
    }
}

/// What making a plan needs besides job and plan. Its content means nothing
/// between calls, but for what was listed in it last: checks or free stretches.
/// One memory: holes are placed before rods are cut, then loads are solved, and lists
/// are made when all is done.
///
/// It is in two parts, because some work needs two things of different sorts at once.
/// Their tags take as much as the parts are aligned to: with a gap behind its tag a part
/// is not cleared in place, but made on the stack and copied.
pub struct Scratch {
    near: Near,
    far: Far,
}

/// What the smaller part is laid out for.
#[repr(u64)]
#[expect(
    clippy::large_enum_variant,
    reason = "one memory, as large as the largest of them"
)]
enum Near {
    Pieces(placement::Pieces),
    Row(placement::Runs),
    Known(cutting::Known),
    Model(Model),
}

/// What the larger part is laid out for.
#[repr(u64)]
#[expect(
    clippy::large_enum_variant,
    reason = "one memory, as large as the largest of them"
)]
enum Far {
    Standing(placement::Standing),
    Free(Windows),
    Filling(cutting::Filling),
    Apart(Apart),
    Hung(Hung),
    Listing(Listing),
}

/// Room for a list of checks.
#[derive(Default)]
struct Listing {
    checks: Checks,
    hung: Hung,
}

/// A part as the work of each kind finds it; never `None`. Neither laying it out nor
/// the call is inlined: what laying out needs of the stack is free again before the
/// work begins.
macro_rules! laid_out {
    ($($(#[$doc:meta])* $name:ident: $part:ident as $Part:ident::$kind:ident($memory:ty) = $new:expr;)*) => {
        $(
            $(#[$doc])*
            #[inline(never)]
            fn $name($part: &mut $Part) -> Option<&mut $memory> {
                // Constants of zeros: filled in, not made part by part beside it.
                const ANEW: $memory = $new;
                if !matches!($part, $Part::$kind(_)) {
                    *$part = $Part::$kind(ANEW);
                }
                match $part {
                    $Part::$kind(memory) => Some(memory),
                    _ => None,
                }
            }
        )*
    };
}

laid_out! {
    pieces: near as Near::Pieces(placement::Pieces) = placement::Pieces::new();
    row: near as Near::Row(placement::Runs) = placement::Runs::new();
    known: near as Near::Known(cutting::Known) = cutting::Known::new();
    model: near as Near::Model(Model) = Model::new();
    standing: far as Far::Standing(placement::Standing) = placement::Standing::new();
    free: far as Far::Free(Windows) = [Vec::new(), Vec::new()];
    filling: far as Far::Filling(cutting::Filling) = cutting::Filling::new();
    apart: far as Far::Apart(Apart) = Apart::UNSOLVED;
    hung: far as Far::Hung(Hung) = Hung::new();
    listing: far as Far::Listing(Listing) = Listing::new();
}

impl Listing {
    const fn new() -> Self {
        Listing {
            checks: Checks::new(),
            hung: Hung::new(),
        }
    }
}

impl Scratch {
    /// An empty one.
    pub const fn new() -> Self {
        Scratch {
            near: Near::Pieces(placement::Pieces::new()),
            far: Far::Standing(placement::Standing::new()),
        }
    }

    /// The checks that were listed in it; `None` where it served another work since.
    pub const fn listed(&self) -> Option<&Checks> {
        match &self.far {
            Far::Listing(listing) => Some(&listing.checks),
            _ => None,
        }
    }

    /// The free stretches that were laid out in it; `None` where it served another
    /// work since.
    pub const fn free(&self) -> Option<&Windows> {
        match &self.far {
            Far::Free(free) => Some(free),
            _ => None,
        }
    }

    /// Room for placing holes.
    fn placing(&mut self) -> Option<placement::Room<'_>> {
        let pieces = pieces(&mut self.near)?;
        Some(placement::Room::of(pieces, standing(&mut self.far)?))
    }

    /// Room for cutting rods.
    fn cutting(&mut self) -> Option<cutting::Work<'_>> {
        let known = known(&mut self.near)?;
        Some(cutting::Work::of(known, filling(&mut self.far)?))
    }
}

impl Default for Scratch {
    fn default() -> Self {
        Scratch::new()
    }
}

impl Default for Plan {
    fn default() -> Self {
        Plan::new()
    }
}

/// Feasible, and every drilled hole at least clear and within the rule.
fn placement_holds(placement: &Placement) -> bool {
    let holds =
        |hole: &PlacedHole| !matches!(hole.verdict(), Some(Verdict::Fouls(_) | Verdict::Rule(..)));
    placement.feasible && placement.holes.iter().all(holds)
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
    /// Any `load`.
    pub statics: bool,
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
