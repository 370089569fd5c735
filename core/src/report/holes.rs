//! The list to mark and drill from: running dimensions from both ends.
//!
//! In: the placement. Out: a line for each hole, with row and height, gap and
//! to what, the side to put the rod in from, state and verdict.

use super::cell::{Cell, cell, cell_of};
use super::reading::rounded_down;
use super::{Reading, Report, heading, words};
use crate::length::Length;
use crate::placement::{PlacedHole, Placement, Verdict};
use core::fmt::{self, Write};

/// From this play on nobody needs to know more. Practice: no source.
pub const PLAY_ENOUGH: Length = Length::from_inches(6);

impl Report<'_> {
    /// The hole list, or the holes that are there where there is no plan.
    #[inline(never)]
    pub(super) fn holes(&self, out: &mut dyn Write) -> fmt::Result {
        let Some(placement) = self.plan.placement() else {
            return Ok(());
        };
        if placement.holes.is_empty() {
            return Ok(());
        }
        let title = if placement.feasible {
            "HOLES"
        } else {
            "HOLES AS THEY ARE"
        };
        heading(title, "running dimensions", out)?;
        self.hole_columns(out)?;
        for hole in &placement.holes {
            self.hole_line(hole, out)?;
        }
        self.hole_notes(placement, out)
    }

    fn hole_columns(&self, out: &mut dyn Write) -> fmt::Result {
        write!(
            out,
            "{:>3}  {:<4}{:>9}{:>15}{:>12}",
            "", "row", "up", "FROM END A", "gap"
        )?;
        if self.from_end_b().is_some() {
            write!(out, "{:>15}{:>12}", "FROM END B", "gap")?;
        }
        writeln!(out, "  {:<13}{:<7}state", "to", "insert")
    }

    fn hole_line(&self, hole: &PlacedHole, out: &mut dyn Write) -> fmt::Result {
        let height = self.height(hole.row);
        let a = self.length_cell(hole.at);
        let gap = self.gap_cell(hole, Length::ZERO);
        let row = words::row(hole.row);
        write!(
            out,
            "{:>3}  {row:<4}{height:>9}{a:>15}{gap:>12}",
            hole.station
        )?;
        if let Some(from_b) = self.from_end_b() {
            let Reading { shown, off } = from_b.reading(hole.at);
            let b = self.length_cell(shown);
            write!(out, "{b:>15}{:>12}", self.gap_cell(hole, off))?;
        }
        let nearest = cell_of(|out| match hole.nearest() {
            Some(thing) => self.thing(thing, out),
            None => Ok(()),
        });
        let insert = cell_of(|out| self.insert_from(hole.insert_from, out));
        write!(
            out,
            "  {nearest:<13}{insert:<7}{}",
            words::state(hole.state)
        )?;
        self.verdict(hole, out)?;
        out.write_str("\n")
    }

    /// ` FITS`, ` FOULS by 1/8"`, nothing for holes that are not drilled.
    fn verdict(&self, hole: &PlacedHole, out: &mut dyn Write) -> fmt::Result {
        let Some(verdict) = hole.verdict() else {
            return Ok(());
        };
        write!(out, " {}", words::verdict(verdict))?;
        match verdict {
            Verdict::Fits | Verdict::Tight => Ok(()),
            Verdict::Fouls(by) => write!(out, " by {}", self.rounded_up(by)),
            Verdict::Rule(broken, by) if words::broken_by_a_length(broken) => {
                write!(
                    out,
                    ": {} by {}",
                    words::broken(broken),
                    self.rounded_up(by)
                )
            }
            Verdict::Rule(broken, _) => write!(out, ": {}", words::broken(broken)),
        }
    }

    fn hole_notes(&self, placement: &Placement, out: &mut dyn Write) -> fmt::Result {
        out.write_str("  up: above the inside face of the bottom flange. gap: washer or nut to the next joist, hanger or\n  obstacle, rounded down. insert: the side to put the rod in from.\n")?;
        if let Some(off) = self.end_b_off(placement) {
            writeln!(
                out,
                "  The steel's length does not fall on the tape: from end B the nearest mark is shown and {} is off its gap.",
                cell(format_args!("{}", off.shown(self.job.units)))
            )?;
        }
        Ok(())
    }

    /// Half a step, if it comes off readings from end B.
    pub(super) fn end_b_off(&self, placement: &Placement) -> Option<Length> {
        let marks = placement.holes.iter().map(|hole| hole.at);
        let off = self.from_end_b()?.worst_off(marks);
        (off > Length::ZERO).then_some(off)
    }

    /// Marks that no longer stand.
    pub(super) fn strike_out_list(&self, out: &mut dyn Write) -> fmt::Result {
        let Some(placement) = self.plan.placement() else {
            return Ok(());
        };
        if placement.struck_out.is_empty() {
            return Ok(());
        }
        heading(
            "STRIKE OUT THESE MARKS",
            "FROM END A, before anything is drilled",
            out,
        )?;
        for index in &placement.struck_out {
            if let Some((at, row)) = self.mark(*index) {
                writeln!(out, "  {}  {}", words::row(row), self.length_cell(at))?;
            }
        }
        Ok(())
    }

    /// `2 1/8"` after `off` came off, rounded down; `clear` where nothing is near.
    pub fn gap_cell(&self, hole: &PlacedHole, off: Length) -> Cell {
        match hole.gap() {
            Some(gap) => {
                let gap = rounded_down(gap.saturating_sub(off), self.job.units);
                self.length_cell(gap)
            }
            None => cell(format_args!("clear")),
        }
    }

    /// `1 1/8"`, or `6" or more`.
    pub fn play_cell(&self, play: Length) -> Cell {
        if play >= PLAY_ENOUGH {
            return cell(format_args!(
                "{} or more",
                PLAY_ENOUGH.shown(self.job.units)
            ));
        }
        self.length_cell(rounded_down(play, self.job.units))
    }

    /// A length in the job's units.
    pub fn length_cell(&self, length: Length) -> Cell {
        cell(format_args!("{}", length.shown(self.job.units)))
    }
}
