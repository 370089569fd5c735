//! How many bolts of each kind there are.
//!
//! In: a placement and where packing stands. Out: bolts through packing on both
//! sides, and on one side only. A hole where nothing is packed gets no rod.

use crate::frame::Pieces;
use crate::length::Length;
use crate::placement::Placement;
use crate::words::Side;

/// Bolts by kind.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Bolts {
    /// Through packing on both sides.
    pub both: u16,
    /// Through packing on this side only.
    pub one: [u16; 2],
}

impl Bolts {
    /// All holes of a placement: planned, marked, drilled.
    pub fn of(placement: &Placement, pieces: &Pieces) -> Bolts {
        let mut bolts = Bolts::default();
        for hole in &placement.holes {
            match Side::BOTH.map(|side| is_packed(pieces, side, hole.at)) {
                [true, true] => bolts.both += 1,
                [true, false] => bolts.add_one(Side::N),
                [false, true] => bolts.add_one(Side::S),
                [false, false] => {}
            }
        }
        bolts
    }

    fn add_one(&mut self, side: Side) {
        if let Some(count) = self.one.get_mut(side.index()) {
            *count += 1;
        }
    }

    /// Bolts that go through packing on a side.
    pub fn through(&self, side: Side) -> bool {
        let one = self.one.get(side.index());
        self.both > 0 || one.is_some_and(|&count| count > 0)
    }
}

/// Whether packing stands on a side at a station, its ends included.
fn is_packed(pieces: &Pieces, side: Side, at: Length) -> bool {
    let here = |piece: &&crate::frame::Piece| (piece.from..=piece.to).contains(&at);
    pieces
        .iter()
        .filter(here)
        .any(|piece| piece.sides.holds(side))
}
