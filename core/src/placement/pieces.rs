//! Pieces: what a sweep found, as far as the memory reaches.
//!
//! Pieces are numbered in the order found, from the far end. When the memory is
//! full the oldest go, and keep their numbers: a sweep only ever looks at those
//! in reach. Who needs one that went (the walk back along the beam) lets the
//! sweep run again, up to where it is needed.
//!
//! ```text
//!   0 .. gone | kept, in numbers .. len |
//! ```

use super::cost::Cost;
use super::kind::Kind;
use super::{Full, PlaceError};
use heapless::Vec;

/// Most pieces kept at a time.
const KEPT: usize = 288;

/// How many go at once: the fewer, the further the sweep can be looked back on.
const GO: usize = KEPT / 4;

/// No link: the chain ends beyond.
pub(super) const TO_END: u16 = u16::MAX;

/// Places from which the rest of the chain costs the same.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    /// New stations: lattice indices. Old ones: the indices from which the
    /// spacing reaches them (from > to: none).
    pub from: u16,
    pub to: u16,
    /// What a via goes on to: a piece, or the end. Otherwise the first piece
    /// that was still in reach when this one was found.
    pub link: u16,
    pub kind: Kind,
    /// Old stations: index of the first hole among the olds. New ones: whether
    /// it is the first of its chunk.
    pub group: u8,
    /// Of this station and all beyond.
    pub cost: Cost,
}

/// The group of a new station's piece that is the first of its chunk.
const FIRST: u8 = 1;

impl Piece {
    /// Notes that a new station's piece is the first of its chunk.
    pub const fn begin_chunk(&mut self) {
        self.group = FIRST;
    }

    /// Whether a new station's piece is the first of its chunk.
    pub const fn begins_chunk(&self) -> bool {
        self.group == FIRST
    }
}

/// See the module.
pub(crate) struct Pieces {
    kept: Vec<Piece, KEPT, u16>,
    gone: u16,
}

impl Pieces {
    pub(crate) const fn new() -> Self {
        Pieces {
            kept: Vec::new(),
            gone: 0,
        }
    }

    pub(super) fn clear(&mut self) {
        self.kept.clear();
        self.gone = 0;
    }

    /// How many were found, those that went included.
    pub(super) fn len(&self) -> usize {
        usize::from(self.gone) + self.kept.len()
    }

    /// Number of the first one that is still here.
    pub(super) fn first(&self) -> usize {
        usize::from(self.gone)
    }

    fn slot(&self, number: usize) -> Option<usize> {
        number.checked_sub(usize::from(self.gone))
    }

    /// The piece of this number, if it is still here.
    pub(super) fn get(&self, number: usize) -> Option<&Piece> {
        self.kept.get(self.slot(number)?)
    }

    pub(super) fn get_mut(&mut self, number: usize) -> Option<&mut Piece> {
        let slot = self.slot(number)?;
        self.kept.get_mut(slot)
    }

    /// Those still here from a number on.
    pub(super) fn since(&self, number: usize) -> &[Piece] {
        let slot = self.slot(number).unwrap_or(0).min(self.kept.len());
        self.kept.get(slot..).unwrap_or(&[])
    }

    /// Those still here from one number to before another.
    pub(super) fn between(&self, from: usize, to: usize) -> &[Piece] {
        let all = self.since(from);
        let count = to.saturating_sub(from.max(self.first()));
        all.get(..count).unwrap_or(all)
    }

    /// The same, to be changed.
    pub(super) fn between_mut(&mut self, from: usize, to: usize) -> &mut [Piece] {
        let slot = |number: usize| self.slot(number).unwrap_or(0).min(self.kept.len());
        let (from, to) = (slot(from), slot(to));
        self.kept.get_mut(from..to).unwrap_or(&mut [])
    }

    /// Those still here with their numbers, from a number on.
    pub(super) fn numbered(&self, from: usize) -> impl Iterator<Item = (u16, &Piece)> {
        let first = from.max(self.first());
        let numbers = first..self.len();
        numbers
            .zip(self.since(first))
            .map(|(number, piece)| (u16::try_from(number).unwrap_or(TO_END), piece))
    }

    pub(super) fn is_full(&self) -> bool {
        self.kept.is_full()
    }

    /// Adds one.
    ///
    /// # Errors
    /// The memory is full, or the numbers are at their end.
    pub(super) fn push(&mut self, piece: Piece) -> Result<(), PlaceError> {
        let numbered = self.len() < usize::from(TO_END);
        let full = Err(PlaceError::Full(Full::Pieces));
        if !numbered {
            return full;
        }
        self.kept.push(piece).or(full)
    }

    /// Forgets the last ones, down to a length.
    pub(super) fn truncate(&mut self, len: usize) {
        let slot = self.slot(len).unwrap_or(0);
        self.kept.truncate(slot);
    }

    /// Takes one out of the last ones.
    pub(super) fn remove(&mut self, number: usize) {
        if let Some(slot) = self.slot(number).filter(|slot| *slot < self.kept.len()) {
            self.kept.remove(slot);
        }
    }

    /// The oldest that may go now, if those from `needed` on must stay; and
    /// whatever a via among those links to.
    pub(super) fn spare(&self, needed: usize) -> &[Piece] {
        let mut needed = needed;
        loop {
            let links = self.since(needed).iter().filter(|p| p.kind.is_via());
            let least = links.map(|p| usize::from(p.link)).min();
            match least {
                Some(link) if link < needed => needed = link,
                _ => break,
            }
        }
        let spare = self.between(self.first(), needed);
        spare.get(..GO).unwrap_or(spare)
    }

    /// Lets the oldest go.
    pub(super) fn drop_oldest(&mut self, count: usize) {
        let count = count.min(self.kept.len());
        self.kept.rotate_left(count);
        self.kept.truncate(self.kept.len() - count);
        self.gone = self.gone.saturating_add(u16::try_from(count).unwrap_or(0));
    }
}
