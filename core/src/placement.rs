//! Placement: which holes to drill, provably the best ones.
//!
//! In: joists, things, packing, the rule. Out: stations and holes, or every
//! stretch that blocks and what would open it.

mod hole;

pub use hole::PlacedHole;

use crate::length::Length;
use heapless::Vec;

/// Most windows in a row.
pub const WINDOWS: usize = 208;

/// Legal lattice points from `from` to `to`, both included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Span {
    /// First.
    pub from: Length,
    /// Last.
    pub to: Length,
}

/// Windows of both rows, top then bot.
pub type Windows = [Vec<Span, WINDOWS, u8>; 2];

/// State of a hole in a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum State {
    /// New.
    Planned,
    /// Marked on the steel and kept.
    Marked,
    /// Drilled.
    Drilled,
}

/// The thing that a gap is measured to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Thing {
    /// Index into the plan's joists; `hanger`: its metal counted.
    Joist {
        /// Index into [`crate::joists::Joists`].
        joist: u8,
        /// The hanger's metal is what is nearest.
        hanger: bool,
    },
    /// Index into [`crate::Job::keepouts`].
    Keepout(u8),
    /// A packing piece's end: index, in card order.
    Packing(u8),
    /// A hole: index into [`crate::Job::holes`].
    Hole(u8),
}

/// Which part of the engineer's note a drilled hole breaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Broken {
    /// Nearer to a packing end than e_min, or across one.
    EndDistance,
    /// Inside a zone.
    Zone,
    /// No access from either side.
    Access,
    /// Nearer than s_min to another hole.
    LeastSpacing,
    /// Nearer than 4D to an abandoned hole.
    Abandoned,
    /// Farther than s_max from its neighbour.
    GreatestSpacing,
    /// A pair is asked for and there is no legal partner.
    Partner,
    /// Packed on neither side here.
    NotPacked,
}

/// What is said of a drilled hole, best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Verdict {
    /// Clear by at least the clear gap.
    Fits,
    /// Clear, by less than the clear gap.
    Tight,
    /// Clear, but the engineer's note is broken by this much.
    Rule(Broken, Length),
    /// Overlaps by this much.
    Fouls(Length),
}

/// Which side a rod goes in from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum InsertFrom {
    /// Either.
    Either,
    /// Only from this one.
    Side(crate::words::Side),
}

/// Kinds of blocking stretches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum BlockKind {
    /// Two neighbouring legal points too far apart.
    Reach,
    /// Nothing legal in the cover at a piece's start.
    Start,
    /// Nothing legal in the cover at a piece's end.
    End,
    /// Nothing legal in a `near` cover.
    Cover,
    /// Each step possible, no chain.
    Chain,
}

/// What would open a blocking stretch. Tried and true.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Change {
    /// A hanger without flanges at this joist (index into the plan's joists).
    PlainHanger(u8),
    /// Hangers without flanges at two joists.
    PlainHangers(u8, u8),
    /// A smaller washer, round, of this outside diameter.
    Washer(Length),
    /// The washer kept square instead of free to turn.
    KeptSquare,
    /// Hangers no higher than this.
    HangerHeight(Length),
    /// The engineer allows this one stretch.
    Stretch(Length),
    /// A clear gap of this.
    Gap(Length),
}

/// A way out, and what it gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct WayOut {
    /// What to change.
    pub change: Change,
    /// Stations then; `None` while other stretches still block.
    pub stations: Option<u16>,
    /// Play then.
    pub play: Option<Length>,
}

/// One blocking stretch.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Blocked {
    /// Which kind.
    pub kind: BlockKind,
    /// p.
    pub from: Length,
    /// q.
    pub to: Length,
    /// s_max or e_max.
    pub limit: Option<Length>,
    /// Over the limit by.
    pub excess: Option<Length>,
    /// Who makes it.
    pub by: Vec<Thing, 8, u8>,
    /// At most five.
    pub ways_out: Vec<WayOut, 5, u8>,
}

/// Most blocking stretches listed in full; further ones are counted.
pub const BLOCKED: usize = 12;

/// What the planner found.
#[derive(Debug, PartialEq)]
pub struct Placement {
    /// A plan was found.
    pub feasible: bool,
    /// Planned, marked and drilled holes in order of station, top first; not
    /// feasible: only the marked and drilled ones, judged.
    pub holes: Vec<PlacedHole, { crate::job::HOLES }, u8>,
    /// Stations of a feasible plan.
    pub stations: u16,
    /// Reported play, at most 6 in; `None` when not feasible.
    pub play: Option<Length>,
    /// Largest spacing where the greatest spacing holds.
    pub largest_spacing: Option<Length>,
    /// Marks that no longer stand.
    ///
    /// Indices into [`crate::Job::holes`].
    pub struck_out: Vec<u8, { crate::job::HOLES }, u8>,
    /// Not feasible: what blocks.
    pub blocked: Vec<Blocked, BLOCKED, u8>,
    /// Blocking stretches beyond those listed.
    pub blocked_more: u16,
    /// A plan exists only with more than 240 holes.
    pub too_many_holes: bool,
}
