//! Placement: which holes to drill, provably the best ones.
//!
//! In: joists, things, packing, the rule. Out: stations and holes, or every
//! stretch that blocks and what would open it.

mod ahead;
mod blocked;
mod build;
mod chunks;
mod cost;
mod course;
mod gates;
mod ground;
mod hole;
mod judge;
mod kind;
mod old;
mod pieces;
mod places;
mod reach;
mod rest;
mod search;
mod settle;
mod spacing;
mod sweep;
mod walk;
mod ways_out;
mod windows;

pub use hole::PlacedHole;
pub(crate) use pieces::Pieces;

use crate::Job;
use crate::frame::FrameError;
use crate::hardware::Hardware;
use crate::job::WasherShape;
use crate::joists::Joists;
use crate::length::Length;
use crate::rule::Rule;
use crate::words::{Row, Side};
use ground::Ground;
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

/// The same in lattice steps: what the planner works on.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Run {
    from: u16,
    to: u16,
}

/// Runs of one row.
pub(crate) type Runs = Vec<Run, WINDOWS, u8>;

/// What the planner needs besides job and plan. Its content means nothing
/// between calls.
pub struct Scratch {
    pieces: Pieces,
    standing: Standing,
}

impl Scratch {
    /// An empty one.
    pub const fn new() -> Self {
        Scratch {
            pieces: Pieces::new(),
            standing: Standing::new(),
        }
    }

    const fn room(&mut self) -> Room<'_> {
        Room::of(&mut self.pieces, &mut self.standing)
    }
}

/// What stands along the beam while it is planned; beside it only pieces are needed.
pub(crate) struct Standing {
    runs: [Runs; 2],
    olds: old::Olds,
    trail: walk::Trail,
}

impl Standing {
    /// Nothing.
    pub(crate) const fn new() -> Self {
        Standing {
            runs: [Vec::new(), Vec::new()],
            olds: old::Olds::new(),
            trail: Vec::new(),
        }
    }
}

/// A scratch, wherever its parts lie.
pub(crate) struct Room<'a> {
    runs: &'a mut [Runs; 2],
    olds: &'a mut old::Olds,
    pieces: &'a mut Pieces,
    trail: &'a mut walk::Trail,
}

impl<'a> Room<'a> {
    pub(crate) const fn of(pieces: &'a mut Pieces, standing: &'a mut Standing) -> Self {
        let Standing { runs, olds, trail } = standing;
        Room {
            runs,
            olds,
            pieces,
            trail,
        }
    }
}

impl Default for Scratch {
    fn default() -> Self {
        Scratch::new()
    }
}

/// Which part of the scratch is full.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Full {
    /// Free stretches of a row.
    Windows,
    /// Keep-outs other than joists.
    Keepouts,
    /// Pieces of a sweep.
    Pieces,
    /// Ways in which marked and drilled holes stand.
    Trail,
}

/// Why there is no answer at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum PlaceError {
    /// A position has no station.
    Frame(FrameError),
    /// No bolt, or one without a built-in washer or nut.
    NoBolt,
    /// More than 65,535 lattice steps on the steel.
    LatticeTooFine,
    /// The scratch is full.
    Full(Full),
}

/// What a way out changes, for a trial plan. Nothing is relaxed otherwise.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Relaxed {
    /// Joists whose hangers have no metal beyond the faces.
    plain: [Option<u8>; 2],
    /// A washer of this size and shape on both sides, where it is smaller.
    washer: Option<(Length, WasherShape)>,
    /// No hanger is higher than this.
    hanger_height: Option<Length>,
    /// Another clear gap.
    gap: Option<Length>,
    /// This one stretch may be wider than s_max.
    stretch: Option<(Length, Length)>,
    /// This one end's first bolt may be farther in.
    end: Option<(EndOf, Length)>,
}

/// One end of one packing piece.
#[derive(Clone, Copy, Debug, PartialEq)]
struct EndOf {
    piece: u8,
    start: bool,
}

impl EndOf {
    fn origin(self) -> gates::Origin {
        gates::Origin::Piece(self.piece)
    }
}

impl Relaxed {
    /// Washer or nut radius on a side: whichever is greater, rounded up.
    fn radius(&self, side: Side, hardware: &Hardware) -> Length {
        let own = hardware.radius(side);
        let Some((size, shape)) = self.washer else {
            return own;
        };
        own.min(hardware.radius_with(size, shape))
    }
}

/// Chooses the holes. `rule` is the engineer's note; the plan goes to `out`.
///
/// Exact on the lattice and deterministic: fewest marks struck out, then the
/// greatest play up to the wanted one in whole steps of 1/8 in (3 mm), fewest
/// marks on the steel, fewest holes, the greatest play, the smallest largest
/// spacing, the earliest marks. Where there is no plan, every blocking stretch.
pub fn place(
    job: &Job,
    joists: &Joists,
    rule: Rule,
    out: &mut Placement,
    scratch: &mut Scratch,
) -> Result<(), PlaceError> {
    place_in(job, joists, rule, out, &mut scratch.room())
}

/// The same in a room.
#[inline(never)]
pub(crate) fn place_in(
    job: &Job,
    joists: &Joists,
    rule: Rule,
    out: &mut Placement,
    scratch: &mut Room<'_>,
) -> Result<(), PlaceError> {
    out.clear();
    Ground::with(job, joists, rule, Relaxed::default(), |ground| {
        match search::search(ground, scratch)? {
            search::Found::Plan(best) => build::build(ground, &best, out, scratch)?,
            search::Found::Nothing { too_many } => {
                out.too_many_holes = too_many;
                if !too_many {
                    out.blocked_more = blocked::find(ground, None, &mut out.blocked, scratch)?;
                }
                build::judge_olds(ground, out, scratch);
            }
        }
        Ok(())
    })
}

/// The blocking stretches that come after `last`, as many as `page` can list,
/// and how many come after those. [`Placement::blocked`] holds the first ones of
/// a job that has no plan.
///
/// # Errors
/// As [`place`].
pub fn more_blocked(
    job: &Job,
    joists: &Joists,
    rule: Rule,
    last: &Blocked,
    page: &mut BlockedPage,
    scratch: &mut Scratch,
) -> Result<u16, PlaceError> {
    more_blocked_in(job, joists, rule, last, page, &mut scratch.room())
}

/// The same in a room.
#[inline(never)]
pub(crate) fn more_blocked_in(
    job: &Job,
    joists: &Joists,
    rule: Rule,
    last: &Blocked,
    page: &mut BlockedPage,
    scratch: &mut Room<'_>,
) -> Result<u16, PlaceError> {
    Ground::with(job, joists, rule, Relaxed::default(), |ground| {
        blocked::find(ground, Some(last), page, scratch)
    })
}

/// Legal lattice points of both rows with the beam on its mark, holes ignored.
pub fn windows(
    job: &Job,
    joists: &Joists,
    rule: Rule,
    out: &mut Windows,
    scratch: &mut Scratch,
) -> Result<(), PlaceError> {
    let [runs, _] = &mut scratch.standing.runs;
    windows_in(job, joists, rule, out, runs)
}

/// The same, with room for the runs of a row.
#[inline(never)]
pub(crate) fn windows_in(
    job: &Job,
    joists: &Joists,
    rule: Rule,
    out: &mut Windows,
    runs: &mut Runs,
) -> Result<(), PlaceError> {
    out.iter_mut().for_each(Vec::clear);
    Ground::with(job, joists, rule, Relaxed::default(), |ground| {
        let single = rule.pattern == crate::job::Pattern::Single;
        for (row, spans) in Row::BOTH.into_iter().zip(out) {
            if row == Row::Bot && single {
                continue;
            }
            windows::lay(ground, row, 0, &windows::Holes::Ignored, runs)?;
            let at = |index: u16| {
                let at = rule.step.checked_mul(i32::from(index));
                at.unwrap_or(Length::MAX)
            };
            for run in runs.iter() {
                // As much room as there are runs.
                let _ = spans.push(Span {
                    from: at(run.from),
                    to: at(run.to),
                });
            }
        }
        Ok(())
    })
}

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
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
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

/// Most blocking stretches listed at a time.
pub const BLOCKED: usize = 8;

/// Blocking stretches in order from end A: see [`more_blocked`].
pub type BlockedPage = Vec<Blocked, BLOCKED, u8>;

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
    ///
    /// The first ones, from end A.
    pub blocked: BlockedPage,
    /// How many more there are: [`more_blocked`] lists them.
    pub blocked_more: u16,
    /// A plan exists only with more than 240 holes.
    pub too_many_holes: bool,
}

impl Placement {
    /// Nothing planned yet.
    pub const fn new() -> Self {
        Placement {
            feasible: false,
            holes: Vec::new(),
            stations: 0,
            play: None,
            largest_spacing: None,
            struck_out: Vec::new(),
            blocked: Vec::new(),
            blocked_more: 0,
            too_many_holes: false,
        }
    }

    /// Empties it in place.
    pub fn clear(&mut self) {
        self.feasible = false;
        self.holes.clear();
        self.stations = 0;
        self.play = None;
        self.largest_spacing = None;
        self.struck_out.clear();
        self.blocked.clear();
        self.blocked_more = 0;
        self.too_many_holes = false;
    }
}

impl Default for Placement {
    fn default() -> Self {
        Placement::new()
    }
}
