//! Cutting pieces from sticks: the least bought length, proved.
//!
//! In: pieces, sticks (bought or on hand, limited or not), kerf, whether ends
//! are trimmed. Out: a cut list with the least bought length, then the fewest
//! bought sticks, then the least offcut length opened, and the proof.
//!
//! Rule: a stick S yields m pieces if their sum + (m - 1) kerf <= S, one kerf
//! more if its end is trimmed. Exact up to 120 pieces of up to 8 lengths; beyond
//! that, and where a search reaches its limit, a good list is given and its
//! proof says so. Nothing here grows: all memory is in [`Scratch`], and every
//! search has a limit on its steps.
//!
//! ```text
//!   S |--- L ---|k|--- L ---|k|-- L' --|k|/// left ///|
//! ```

mod covers;
mod even;
mod fill;
mod greedy;
mod instance;
mod knapsack;
mod relax;
mod select;
mod solve;

use crate::job::{Stick, StickSource};
use crate::length::Length;
use crate::rods::{MOST_LENGTHS, Proof, Rods, StickCut};
use core::cmp::Reverse;
pub(crate) use covers::Known;
use heapless::Vec;
use instance::{Instance, Kind, at, room};
use knapsack::Pattern;
use solve::Solved;
pub(crate) use solve::{Filling, Work};

/// Pieces of one length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Wanted {
    /// Length of a piece.
    pub length: Length,
    /// How many.
    pub count: u32,
}

/// What is to be cut from what.
#[derive(Clone, Copy, Debug)]
pub struct CuttingInput<'a> {
    /// Pieces; a length may stand more than once. Zero lengths are passed over.
    pub pieces: &'a [Wanted],
    /// Sticks.
    pub sticks: &'a [Stick],
    /// Width of a cut.
    pub kerf: Length,
    /// The end of each stick is cut off first: one kerf more.
    pub trim: bool,
}

/// The memory that a cutting works in. Its contents mean nothing before and after.
#[derive(Clone, Debug)]
pub struct Scratch {
    known: Known,
    filling: Filling,
}

impl Scratch {
    /// Room for any cutting.
    pub const fn new() -> Self {
        Scratch {
            known: Known::new(),
            filling: Filling::new(),
        }
    }
}

impl Default for Scratch {
    fn default() -> Self {
        Scratch::new()
    }
}

/// Cuts the pieces from the sticks. Fills the fields of `rods` that tell of the
/// cutting; its pieces, nuts and washers are left alone.
pub fn cut(input: &CuttingInput, scratch: &mut Scratch, rods: &mut Rods) {
    let Scratch { known, filling } = scratch;
    cut_in(input, Work::of(known, filling), rods);
}

/// The same, wherever its memory lies.
pub(crate) fn cut_in(input: &CuttingInput, mut work: Work<'_>, rods: &mut Rods) {
    let (work, instance) = (&mut work, &mut Instance::new());
    let kerf = input.kerf.max(Length::ZERO);
    let mut list = List::new(rods, kerf, input.trim);
    list.take_in(input, instance);
    instance.add_sticks(input.sticks, kerf, input.trim);
    if instance.lengths == 0 {
        return;
    }
    list.rods.proof = if greedy::is_wide(instance) {
        greedy::cut(instance, work, &mut list)
    } else {
        exact(instance, work, &mut list)
    };
    list.close();
}

/// Solves exactly; falls back on a good list.
fn exact(instance: &mut Instance, work: &mut Work<'_>, list: &mut List) -> Proof {
    match solve::solve(instance, work) {
        Solved::Cut(proof) => {
            for (kind, cuts) in work.sticks.each() {
                let mut pattern = [0; MOST_LENGTHS];
                for (slot, &cut) in pattern.iter_mut().zip(cuts) {
                    *slot = cut;
                }
                list.add(instance, kind, &pattern, 1);
            }
            proof
        }
        Solved::Short(proof) => {
            greedy::finish(instance, work, list, false);
            proof
        }
        Solved::GivenUp => {
            greedy::finish(instance, work, list, false);
            Proof::NotProved
        }
    }
}

/// The cut list as it grows.
struct List<'a> {
    rods: &'a mut Rods,
    kerf: Length,
    trim: bool,
}

impl<'a> List<'a> {
    fn new(rods: &'a mut Rods, kerf: Length, trim: bool) -> Self {
        rods.feasible = true;
        rods.uncut.clear();
        rods.too_long.clear();
        rods.lengths.clear();
        rods.sticks.clear();
        (rods.bought_counts, rods.bought_sticks, rods.offcut_counts) = (0, 0, 0);
        rods.proof = Proof::BoundMet;
        List { rods, kerf, trim }
    }

    /// Sorts the pieces into the instance, longest first, each length once;
    /// those that are too long for every stick are listed as such.
    fn take_in(&mut self, input: &CuttingInput, instance: &mut Instance) {
        let mut all: Vec<Wanted, MOST_LENGTHS, u8> = Vec::new();
        let wanted = input.pieces.iter();
        for piece in wanted.filter(|piece| piece.length > Length::ZERO && piece.count > 0) {
            if let Some(same) = all.iter_mut().find(|same| same.length == piece.length) {
                same.count = same.count.saturating_add(piece.count);
            } else if all.push(*piece).is_err() {
                self.rods.feasible = false;
            }
        }
        all.sort_unstable_by_key(|piece| Reverse(piece.length));
        let sticks = input.sticks.iter().filter(|stick| stick.count != Some(0));
        let longest = sticks
            .map(|stick| room(stick.length, self.kerf, self.trim))
            .max();
        for piece in all {
            let weight = i64::from(piece.length.counts()) + i64::from(self.kerf.counts());
            if longest.is_some_and(|longest| weight <= longest) {
                let _ = self.rods.lengths.push(piece.length);
                instance.add_length(piece.length, self.kerf, piece.count);
            } else {
                self.rods.feasible = false;
                let _ = self.rods.too_long.push(piece.length);
            }
        }
    }

    /// Adds `count` sticks of a kind that are cut alike. False where the list is
    /// full: their pieces are then uncut.
    fn add(&mut self, instance: &Instance, kind: usize, pattern: &Pattern, count: u32) -> bool {
        let Some(stick) = instance.kind.get(kind) else {
            return false;
        };
        if count == 0 || pattern.iter().all(|&cut| cut == 0) {
            return true;
        }
        let cut = self.stick_cut(stick, pattern, count);
        let mut same = self.rods.sticks.iter_mut();
        let same = same
            .find(|same| (same.stock, same.source, same.cuts) == (cut.stock, cut.source, cut.cuts));
        if let Some(same) = same {
            same.count = same.count.saturating_add(count);
        } else if self.rods.sticks.push(cut).is_err() {
            for (length, &each) in pattern.iter().enumerate() {
                self.leave(length, u32::from(each).saturating_mul(count));
            }
            return false;
        }
        let total = stick.length().saturating_mul(i64::from(count));
        if stick.rod {
            self.rods.bought_counts = self.rods.bought_counts.saturating_add(total);
            self.rods.bought_sticks = self.rods.bought_sticks.saturating_add(count);
        } else {
            self.rods.offcut_counts = self.rods.offcut_counts.saturating_add(total);
        }
        true
    }

    /// A stick, and what is left of it: its length less the pieces, less a kerf
    /// for each cut made, never below nothing.
    fn stick_cut(&self, stick: &Kind, pattern: &Pattern, count: u32) -> StickCut {
        let kerf = i64::from(self.kerf.counts());
        let mut left = stick.length() - if self.trim { kerf } else { 0 };
        for (length, &cuts) in self.rods.lengths.iter().zip(pattern) {
            left -= i64::from(cuts) * (i64::from(length.counts()) + kerf);
        }
        let as_length = |counts: i64| Length::from_counts(i32::try_from(counts).unwrap_or(0));
        StickCut {
            stock: as_length(stick.length()),
            source: if stick.rod {
                StickSource::Rod
            } else {
                StickSource::Offcut
            },
            count,
            cuts: *pattern,
            left: as_length(left.max(0)),
        }
    }

    /// Notes pieces that are not cut.
    fn leave(&mut self, length: usize, count: u32) {
        if count == 0 {
            return;
        }
        self.rods.feasible = false;
        let length = at(&self.rods.lengths, length);
        let mut known = self.rods.uncut.iter_mut();
        if let Some((_, uncut)) = known.find(|(uncut, _)| *uncut == length) {
            *uncut = uncut.saturating_add(count);
        } else {
            let _ = self.rods.uncut.push((length, count));
        }
    }

    /// Puts the list in order: bought before offcuts, long sticks first.
    fn close(&mut self) {
        self.rods
            .uncut
            .sort_unstable_by_key(|&(length, _)| Reverse(length));
        self.rods.sticks.sort_unstable_by_key(|cut| {
            let offcut = cut.source == StickSource::Offcut;
            (offcut, Reverse(cut.stock), Reverse(cut.cuts))
        });
    }
}
