//! Statics: what the supports, the steel and the floor's loads do to each other.
//!
//! In: a job (beam, supports, loads). Out: reactions, moments, shears, sags,
//! which supports lift, what settlement does. Rule: one beam of constant EI on
//! two to five knife-edge supports that hold down as well as up; dead load and
//! self-weight always on, live load on any choice of spans and overhangs (a
//! point load goes with its own); exact, by superposition of these segments.
//! The frame is the beam as it ended up: supports and loads stay with the house.
//! Source: three-moment equation (AISC Manual Tables 3-22 and 3-23 are its
//! published cases); load patterns: ASCE 7-16 section 4.3.3 (Memory: the
//! section number).
//!
//! ```text
//!      overhang A    span 1      span 2   overhang B
//!    0 =====^=================^===========^====== length
//!           1                 2           3
//! ```
//!
//! This is a cross-check for the crew: the engineer of record sizes the beam.

mod cautions;
mod deflection;
mod inside;
mod lift;
pub mod loads;
mod model;
mod moments;
mod patterns;
mod reactions;
mod root;
mod settlement;
mod spans;
mod supports;
mod walk;
mod weight;
mod words;

pub use cautions::cautions;
pub use deflection::{DeflectionLimit, SegmentSag, within};
pub use inside::{Envelope, Inside};
pub use lift::{Lift, LiftReason};
pub use model::Model;
pub use patterns::Apart;
pub use reactions::Reaction;
pub use settlement::{Settlement, settled_by};
pub use spans::{SegmentForces, SegmentList};
pub use supports::{Bearing, Bearings};
pub use weight::{OwnWeight, PackingThickness, density};
pub use words::PatternWords;

use crate::force::{Force, Moment};
use crate::frame::FrameError;
use crate::job::{Job, SUPPORTS};
use crate::length::{Length, Rounding};
use heapless::Vec;

/// Spans and overhangs, at most.
pub const SEGMENTS: usize = SUPPORTS + 1;

/// A stretch of the beam between supports, or beyond the last of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Segment {
    /// From end A to the first support.
    OverhangA,
    /// Between two supports, counted from end A, from 1.
    Span(u8),
    /// From the last support to end B.
    OverhangB,
}

/// On which segments the live load stands: one choice of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Pattern(u8);

impl Pattern {
    /// Whether the live load of this segment is on; `supports` is how many the
    /// beam has.
    pub fn holds(self, segment: Segment, supports: usize) -> bool {
        self.has(segment.index(supports))
    }

    /// The segments with live load on, from end A.
    pub fn segments(self, supports: usize) -> impl Iterator<Item = Segment> {
        (0..=supports)
            .filter(move |&index| self.has(index))
            .map(move |index| Segment::at(index, supports))
    }

    /// The same by position from end A.
    fn has(self, index: usize) -> bool {
        self.0.checked_shr(index as u32).unwrap_or(0) & 1 == 1
    }

    /// With one more segment.
    fn with(self, index: usize) -> Pattern {
        Pattern(self.0 | 1_u8.checked_shl(index as u32).unwrap_or(0))
    }

    /// Every choice among the segments of this one, none of them first.
    fn choices(self) -> impl Iterator<Item = Pattern> {
        (0..=self.0)
            .filter(move |choice| choice & !self.0 == 0)
            .map(Pattern)
    }
}

impl Segment {
    /// Position from end A: 0 = overhang A, then the spans, then overhang B.
    fn index(self, supports: usize) -> usize {
        match self {
            Segment::OverhangA => 0,
            Segment::Span(span) => usize::from(span),
            Segment::OverhangB => supports,
        }
    }

    /// The segment at a position from end A.
    fn at(index: usize, supports: usize) -> Segment {
        match index {
            0 => Segment::OverhangA,
            _ if index >= supports => Segment::OverhangB,
            // At most SUPPORTS - 1.
            _ => Segment::Span(index as u8),
        }
    }
}

/// A value and where on the steel it stands: nearest end A where it stands
/// more than once.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Peak<T> {
    /// How much.
    pub value: T,
    /// Station from end A, to the nearest 25 nm.
    pub at: Length,
}

/// Greatest and least value along the beam. At its ends a beam has neither
/// shear nor moment: so the greatest is never below 0, the least never above.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Extremes<T> {
    /// Greatest.
    pub most: Peak<T>,
    /// Least.
    pub least: Peak<T>,
}

/// One result under three loadings.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Loadings<T> {
    /// Dead load and self-weight.
    pub dead: T,
    /// The same and the live load on all segments.
    pub all: T,
    /// The same and the live load on the segments that make it worst.
    pub worst: T,
}

/// All that follows from supports and loads.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Statics {
    /// From end A.
    pub reactions: Vec<Reaction, SUPPORTS, u8>,
    /// Moments, sagging positive.
    pub moments: Loadings<Extremes<Moment>>,
    /// Shears; positive where the part toward A pushes the part toward B up.
    pub shears: Loadings<Extremes<Force>>,
    /// Spans and overhangs from end A; empty where Ix is not known.
    pub sags: Vec<SegmentSag, SEGMENTS, u8>,
    /// What settlement does; `None` where Ix is not known.
    pub settlement: Option<Settlement>,
    /// Supports that lift, from end A.
    pub lifts: Vec<Lift, SUPPORTS, u8>,
    /// What the beam itself weighs.
    pub weight: OwnWeight,
}

/// Kinds of rows that statics need and the card has not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Lacking {
    /// No row `beam`.
    pub beam: bool,
    /// The beam's shape is neither in the table nor in a row `shape`.
    pub shape: bool,
    /// Fewer than two rows `support`.
    pub support: bool,
    /// A support that takes its place from a wall that is not on the card.
    pub wall: bool,
    /// No row `load`.
    pub load: bool,
}

impl Lacking {
    /// Whether nothing is missing.
    pub fn is_empty(&self) -> bool {
        self.kinds().next().is_none()
    }

    /// The kinds as cards write them.
    pub fn kinds(&self) -> impl Iterator<Item = &'static str> {
        let kinds = [
            (self.beam, "beam"),
            (self.shape, "shape"),
            (self.wall, "wall"),
            (self.support, "support"),
            (self.load, "load"),
        ];
        let lacking = kinds.into_iter().filter(|(lacks, _)| *lacks);
        lacking.map(|(_, kind)| kind)
    }
}

/// Why there are no statics.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Refusal {
    /// Kinds of rows that are missing.
    Missing(Lacking),
    /// A position without a station.
    Frame(FrameError),
    /// A support that does not lie under the steel as it ended up.
    SupportOffSteel {
        /// Index into [`Job::supports`].
        row: u8,
    },
    /// Two supports with one centre.
    SupportsMeet {
        /// Index into [`Job::supports`].
        first: u8,
        /// The later row.
        second: u8,
    },
    /// A load that ends where it starts, or before.
    LoadEmpty {
        /// Index into [`Job::loads`].
        row: u8,
    },
}

impl From<FrameError> for Refusal {
    fn from(error: FrameError) -> Self {
        Refusal::Frame(error)
    }
}

/// Solves the beam of a job. `thickness`: how thick the chosen packing is on
/// each side, `None` where no stack was chosen (its weight is then taken from
/// the measured flange tips, or the table).
///
/// # Errors
/// [`Refusal`]: all kinds of missing rows together, or the first contradiction.
pub fn solve(job: &Job, thickness: [Option<Length>; 2]) -> Result<Statics, Refusal> {
    let mut apart = Apart::UNSOLVED;
    Ok(Model::of(job, thickness)?.statics(&mut apart))
}

impl Statics {
    /// Nothing but what the beam weighs.
    fn of_weight(weight: OwnWeight) -> Statics {
        Statics {
            reactions: Vec::new(),
            moments: Loadings::default(),
            shears: Loadings::default(),
            sags: Vec::new(),
            settlement: None,
            lifts: Vec::new(),
            weight,
        }
    }

    /// Whether Ix is not known, so that sags and settlement are not answered:
    /// row `shape` lacks IX.
    pub fn lacks_ix(&self) -> bool {
        self.settlement.is_none()
    }

    /// Sags with their place in [`Statics::sags`], but for overhangs that end
    /// over their own bearing.
    pub fn free_sags(&self) -> impl Iterator<Item = (u8, &SegmentSag)> {
        let sags = (0_u8..).zip(&self.sags);
        sags.filter(|(_, sag)| !self.over_bearing(sag.segment, sag.from, sag.to))
    }

    /// Whether a segment is an overhang that ends over its own bearing.
    pub fn over_bearing(&self, segment: Segment, from: Length, to: Length) -> bool {
        let support = match segment {
            Segment::OverhangA => self.reactions.first(),
            Segment::OverhangB => self.reactions.last(),
            Segment::Span(_) => return false,
        };
        let bearing = support.and_then(|reaction| reaction.length);
        to.saturating_sub(from) <= bearing.unwrap_or_default().half(Rounding::Up)
    }

    /// Whether any support lifts.
    pub fn lifts(&self) -> bool {
        !self.lifts.is_empty()
    }
}
