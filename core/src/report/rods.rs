//! What to cut from which stick, what to buy.
//!
//! In: the rod plan. Out: pieces, cuts, sticks, nuts and washers.

use super::cell::{cell, cell_of};
use super::{Report, heading, words};
use crate::length::Length;
use crate::rods::{Pieces, Rods, StickCut};
use core::fmt::{self, Write};

impl Report<'_> {
    /// Nothing where no rods were asked for or answered.
    #[inline(never)]
    pub(super) fn rods(&self, out: &mut dyn Write) -> fmt::Result {
        let Some(rods) = self.plan.rods() else {
            return Ok(());
        };
        heading("RODS AND CUTS", "", out)?;
        self.rod_lines(rods, out)
    }

    /// Pieces, how to cut them, what to buy: a line each.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn rod_lines(&self, rods: &Rods, out: &mut dyn Write) -> fmt::Result {
        for pieces in &rods.pieces {
            self.pieces(pieces, out)?;
        }
        for length in &rods.too_long {
            let length = length.shown(self.job.units);
            writeln!(
                out,
                "  {length} IS LONGER THAN ANY STICK: bring longer stock"
            )?;
        }
        for (length, count) in &rods.uncut {
            let length = length.shown(self.job.units);
            writeln!(out, "  {count} x {length} NOT CUT: not enough stock")?;
        }
        for stick in &rods.sticks {
            self.stick_cut(rods, stick, out)?;
        }
        self.bought(rods, out)
    }

    fn pieces(&self, pieces: &Pieces, out: &mut dyn Write) -> fmt::Result {
        let length = self.length_cell(pieces.length);
        let what = cell_of(|out| self.piece_use(pieces.piece_use, out));
        write!(out, "  {:>3} x {length:>11}  {what}", pieces.count)?;
        if pieces.spare > 0 {
            write!(out, ", {} of them spare", pieces.spare)?;
        }
        self.stick_out(pieces, out)?;
        out.write_str("\n")
    }

    /// How far a rod stands past its nuts.
    fn stick_out(&self, pieces: &Pieces, out: &mut dyn Write) -> fmt::Result {
        if matches!(pieces.piece_use, crate::rods::PieceUse::Other(_)) {
            return Ok(());
        }
        let short = self.fine(pieces.short_stick_out);
        let long = self.fine(pieces.long_stick_out);
        let units = self.job.units;
        write!(
            out,
            ", {} to {} past the nut",
            short.shown(units),
            long.shown(units)
        )
    }

    fn stick_cut(&self, rods: &Rods, stick: &StickCut, out: &mut dyn Write) -> fmt::Result {
        let units = self.job.units;
        let stock = cell(format_args!("{}", stick.stock.shown(units)));
        let source = words::source(stick.source);
        write!(out, "  {:>3} {source:<7} {stock:>9}: ", stick.count)?;
        let cuts = rods.lengths.iter().zip(stick.cuts.iter());
        let mut first = true;
        for (length, count) in cuts.filter(|(_, count)| **count > 0) {
            out.write_str(if first { "" } else { " + " })?;
            write!(out, "{count} x {}", length.shown(units))?;
            first = false;
        }
        writeln!(out, ", {} left", self.fine(stick.left).shown(units))
    }

    fn bought(&self, rods: &Rods, out: &mut dyn Write) -> fmt::Result {
        let sticks = if rods.bought_sticks == 1 {
            "stick"
        } else {
            "sticks"
        };
        write!(out, "  Buy {} {sticks}", rods.bought_sticks)?;
        if let Ok(counts) = i32::try_from(rods.bought_counts) {
            let length = Length::from_counts(counts).shown(self.job.units);
            write!(out, ", {length} in all")?;
        }
        writeln!(out, ": {}.", words::proof_words(rods.proof))?;
        writeln!(out, "  {} nuts, {} washers.", rods.nuts, rods.washers)
    }
}
