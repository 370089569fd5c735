//! The list of pieces: rods for the bolts with their spares, other pieces.
//!
//! In: bolts by kind, packing, web, hardware, rows `piece`. Out: pieces, nuts
//! and washers. Spare rods are counted per length and stand with the first use
//! of it; other pieces have none. Nuts and washers: two a rod, spares included.

use super::{Bolts, Grip, PieceUse, Pieces, Rods};
use crate::defaults;
use crate::hardware::Hardware;
use crate::job::Job;
use crate::length::Length;
use crate::words::Side;

/// What the rods of the bolts follow from.
#[derive(Clone, Copy, Debug)]
pub struct RodInput<'a> {
    /// Bolts by kind.
    pub bolts: Bolts,
    /// Thickness of packing by side, as it measures.
    pub packing: [Length; 2],
    /// The web.
    pub web: Length,
    /// Washers and nuts.
    pub hardware: &'a Hardware,
}

impl Rods {
    /// Fills the piece list, nuts and washers; what was there is forgotten.
    /// `input`: `None` where there are no bolts to make rods for.
    pub fn list(&mut self, job: &Job, input: Option<&RodInput>) {
        self.pieces.clear();
        (self.nuts, self.washers) = (0, 0);
        if let Some(input) = input {
            self.list_bolts(job, input);
        }
        let rods: u32 = self.pieces.iter().map(|pieces| pieces.count).sum();
        self.nuts = rods.saturating_mul(2);
        self.washers = self.nuts;
        for (row, piece) in (0_u8..).zip(&job.pieces) {
            let _ = self.pieces.push(Pieces {
                length: piece.length,
                count: u32::from(piece.count),
                spare: 0,
                piece_use: PieceUse::Other(row),
                short_stick_out: Length::ZERO,
                long_stick_out: Length::ZERO,
            });
        }
    }

    fn list_bolts(&mut self, job: &Job, input: &RodInput) {
        let [n, s] = input.packing;
        let [only_n, only_s] = input.bolts.one;
        let projection = defaults::projection(job);
        let kinds = [
            (PieceUse::BothSides, n.saturating_add(s), input.bolts.both),
            (PieceUse::OneSide(Side::N), n, only_n),
            (PieceUse::OneSide(Side::S), s, only_s),
        ];
        for (piece_use, packing, count) in kinds.into_iter().filter(|kind| kind.2 > 0) {
            let rod = Grip::new(packing, input.web, input.hardware, projection).rod(job.units);
            let _ = self.pieces.push(Pieces {
                length: rod.length,
                count: u32::from(count),
                spare: 0,
                piece_use,
                short_stick_out: rod.short,
                long_stick_out: rod.long,
            });
        }
        self.add_spares(job);
    }

    /// Spares of each length, with its first use.
    fn add_spares(&mut self, job: &Job) {
        for index in 0..self.pieces.len() {
            let Some(length) = self.pieces.get(index).map(|pieces| pieces.length) else {
                return;
            };
            let same = |pieces: &&Pieces| pieces.length == length;
            if self
                .pieces
                .iter()
                .take(index)
                .any(|pieces| pieces.length == length)
            {
                continue;
            }
            let count: u32 = self.pieces.iter().filter(same).map(|p| p.count).sum();
            let count = u16::try_from(count).unwrap_or(u16::MAX);
            let spare = u32::from(defaults::spare(job, count));
            if let Some(pieces) = self.pieces.get_mut(index) {
                pieces.spare = spare;
                pieces.count = pieces.count.saturating_add(spare);
            }
        }
    }
}
