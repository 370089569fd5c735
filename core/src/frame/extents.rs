//! What reaches from here to there when the card does not say: packing and
//! loads.
//!
//! In: a frame and the rows `packing`. Out: packing pieces as stations, sorted
//! as on the card; the reach of a load. Default packing: from 1/2 in (12 mm)
//! inside wall face A to 1/2 in inside face B, at an end without wall to 1/4 in
//! (6 mm) short of the steel, both sides. Default load: wall face to wall face,
//! at an end without wall the steel's end.

use super::{Frame, FrameError};
use crate::defaults;
use crate::job::{Job, PACKING_PIECES};
use crate::length::Length;
use crate::words::{End, Side, Sides};
use heapless::Vec;

/// One piece of packing, as stations.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Piece {
    /// End toward A.
    pub from: Length,
    /// End toward B, beyond `from`.
    pub to: Length,
    /// Both sides or one.
    pub sides: Sides,
    /// Index into [`crate::Job::packing`]; `None` = the default piece, which
    /// lists show as such.
    pub row: Option<u8>,
}

/// All pieces in card order.
pub type Pieces = Vec<Piece, PACKING_PIECES, u8>;

impl Frame {
    /// Packing pieces as stations, or the default piece where the card has none.
    /// Packing rides with the beam: it is never shifted.
    ///
    /// # Errors
    /// `OffSteel`, `NoWall`, `PackingEmpty`, `PackingOverlap` (the later row is
    /// named second).
    pub fn packing(&self, job: &Job) -> Result<Pieces, FrameError> {
        let mut pieces = Pieces::new();
        if job.packing.is_empty() {
            let _ = pieces.push(self.default_piece(job)?);
        }
        for (row, keyed) in (0_u8..).zip(&job.packing) {
            let piece = Piece {
                from: self.station(keyed.from)?,
                to: self.station(keyed.to)?,
                sides: keyed.sides,
                row: Some(row),
            };
            if piece.from >= piece.to {
                return Err(FrameError::PackingEmpty { piece: Some(row) });
            }
            if let Some(first) = pieces.iter().find(|p| overlap(p, &piece)) {
                return Err(FrameError::PackingOverlap {
                    first: first.row.unwrap_or_default(),
                    second: row,
                });
            }
            let _ = pieces.push(piece);
        }
        Ok(pieces)
    }

    /// The piece that stands in where the card has no row `packing`.
    fn default_piece(&self, job: &Job) -> Result<Piece, FrameError> {
        let inside = defaults::packing_off_wall(job);
        let short = defaults::packing_off_end(job);
        let first = short;
        let last = self.length.saturating_sub(short);
        let from = self
            .face(End::A)
            .map_or(first, |face| face.saturating_add(inside).max(first));
        let to = self
            .face(End::B)
            .map_or(last, |face| face.saturating_sub(inside).min(last));
        if from >= to {
            return Err(FrameError::PackingEmpty { piece: None });
        }
        Ok(Piece {
            from,
            to,
            sides: Sides::Both,
            row: None,
        })
    }

    /// How far a load reaches where the card does not say, unshifted: wall face
    /// to wall face, at an end without wall the steel's end, never off the steel.
    pub fn load_extents(&self) -> (Length, Length) {
        let from = self.face(End::A).unwrap_or_default().max(Length::ZERO);
        let to = self.face(End::B).unwrap_or(self.length).min(self.length);
        (from, to)
    }
}

/// Whether two pieces share more than an end on any side.
fn overlap(one: &Piece, other: &Piece) -> bool {
    let shared = Side::BOTH
        .into_iter()
        .any(|side| one.sides.holds(side) && other.sides.holds(side));
    shared && one.from < other.to && other.from < one.to
}
