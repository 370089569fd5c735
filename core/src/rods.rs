//! Rods: how long, how many, and how to cut them from what there is.
//!
//! In: stations, stacks, hardware, sticks. Out: a piece list, a cut list with
//! its proof, nuts and washers.

mod bolts;
mod length;
mod list;

pub use bolts::Bolts;
pub use length::{Grip, RodLength};
pub use list::RodInput;

use crate::cutting::{self, CuttingInput, Wanted};
use crate::defaults;
use crate::job::{Job, StickSource};
use crate::length::Length;
use crate::list::Listed;
use heapless::Vec;

/// What a piece is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum PieceUse {
    /// Bolts through packing on both sides.
    BothSides,
    /// Bolts where only this side is packed, washer on bare web.
    OneSide(crate::words::Side),
    /// Row `piece` of this index.
    Other(u8),
}

/// Pieces of one length for one use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Pieces {
    /// Length to cut.
    pub length: Length,
    /// How many, spares included.
    pub count: u32,
    /// Spares among them.
    pub spare: u32,
    /// What for.
    pub piece_use: PieceUse,
    /// Least projection past the nut, both ends alike, with greatest hardware.
    pub short_stick_out: Length,
    /// Greatest projection, all rounding on one end and nominal hardware.
    pub long_stick_out: Length,
}

/// One way of cutting a stick, and how many sticks are cut so.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct StickCut {
    /// Length of the stick.
    pub stock: Length,
    /// Bought, or an offcut on hand.
    pub source: StickSource,
    /// Sticks cut so.
    pub count: u32,
    /// How many of each length of [`Rods::lengths`].
    pub cuts: [u8; MOST_LENGTHS],
    /// What is left of each.
    pub left: Length,
}

/// Most different lengths in one cutting.
pub const MOST_LENGTHS: usize = 16;
/// Most different cuts listed.
pub const MOST_CUTS: usize = 64;

/// Why the cut list is the best; where `uncut` holds something: why not all of
/// it can be cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Proof {
    /// A lower bound is met.
    BoundMet,
    /// Every alternative was searched.
    SearchComplete,
    /// Stopped early: good, not proved.
    NotProved,
}

/// Rods, cuts and hardware to buy.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Rods {
    /// Every piece can be cut.
    pub feasible: bool,
    /// Pieces of these lengths are not cut: there is not enough stock, or the
    /// list is full. Not too long: see `too_long`.
    pub uncut: Vec<(Length, u32), MOST_LENGTHS, u8>,
    /// Lengths longer than any stick, each once.
    pub too_long: Vec<Length, MOST_LENGTHS, u8>,
    /// What is cut.
    pub pieces: Vec<Pieces, MOST_LENGTHS, u8>,
    /// Different lengths among the pieces that are cut, longest first.
    pub lengths: Vec<Length, MOST_LENGTHS, u8>,
    /// How the sticks are cut.
    pub sticks: Vec<StickCut, MOST_CUTS, u8>,
    /// Bought length. Counts of 25 nm: the sum may pass the range of a `Length`.
    pub bought_counts: i64,
    /// Bought sticks.
    pub bought_sticks: u32,
    /// Offcut length opened, in counts.
    pub offcut_counts: i64,
    /// Why it is the best.
    pub proof: Proof,
    /// Two a rod, spares included.
    pub nuts: u32,
    /// Two a rod, spares included.
    pub washers: u32,
}

impl Rods {
    /// Nothing to cut.
    pub const fn new() -> Self {
        Rods {
            feasible: true,
            uncut: Vec::new(),
            too_long: Vec::new(),
            pieces: Vec::new(),
            lengths: Vec::new(),
            sticks: Vec::new(),
            bought_counts: 0,
            bought_sticks: 0,
            offcut_counts: 0,
            proof: Proof::BoundMet,
            nuts: 0,
            washers: 0,
        }
    }
}

impl Rods {
    /// Cuts all listed pieces from the job's sticks.
    pub(crate) fn cut(&mut self, job: &Job, work: cutting::Work<'_>) {
        let wanted = self.pieces.iter().map(|pieces| Wanted {
            length: pieces.length,
            count: pieces.count,
        });
        let wanted: Vec<Wanted, MOST_LENGTHS, u8> = wanted.listed();
        let input = CuttingInput {
            pieces: &wanted,
            sticks: &job.sticks,
            kerf: defaults::kerf(job),
            trim: defaults::trim(job),
        };
        cutting::cut_in(&input, work, self);
    }
}

impl Default for Rods {
    fn default() -> Self {
        Rods::new()
    }
}
