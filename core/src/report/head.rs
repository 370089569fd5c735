//! The head of every list: plan code, job, steel, the rule said back.
//!
//! In: job and plan. Out: five to eight lines.

use super::cell::{cell, wrapped};
use super::{FromEndB, Report, words};
use crate::defaults;
use crate::job::{BeamLength, Pattern, PatternRows};
use crate::length::{Length, Rounding};
use crate::plan::Missing;
use crate::statics::Statics;
use crate::words::{End, Row, Units};
use core::fmt::{self, Write};

impl Report<'_> {
    /// Title, what lifts or is over its limit, what was found, steel, walls,
    /// rule, rows.
    #[inline(never)]
    pub(super) fn head(&self, statics: Option<&Statics>, out: &mut dyn Write) -> fmt::Result {
        write!(out, "BOLT PLAN {}", self.code())?;
        if !self.job.name.is_empty() {
            write!(out, "   {}", self.job.name)?;
        }
        out.write_str("\n")?;
        self.alarms(statics, out)?;
        self.found(out)?;
        self.steel(out)?;
        self.walls(out)?;
        self.rule_line(out)?;
        self.hardware_line(out)?;
        self.rows_line(out)
    }

    /// The plan code, or dashes where there is none.
    pub fn code(&self) -> &str {
        self.plan.code.as_deref().unwrap_or("----")
    }

    fn found(&self, out: &mut dyn Write) -> fmt::Result {
        let Some(placement) = self.plan.placement() else {
            return Ok(());
        };
        if !placement.feasible {
            return out.write_str("NO PLAN: the engineer's rule cannot be kept here, see below\n");
        }
        write!(
            out,
            "{} holes at {} marks",
            placement.holes.len(),
            placement.stations
        )?;
        if let Some(play) = placement.play {
            write!(out, ", play {} either way", self.play_cell(play))?;
            if let Some(off) = self.end_b_off(placement) {
                let less = play.saturating_sub(off).max(Length::ZERO);
                write!(out, " ({} if marked from end B)", self.play_cell(less))?;
            }
        }
        if let Some(largest) = placement.largest_spacing {
            let largest = largest.shown(self.job.units);
            write!(out, ", largest spacing {largest}")?;
        }
        out.write_str("\n")
    }

    pub(super) fn steel(&self, out: &mut dyn Write) -> fmt::Result {
        let Some(beam) = &self.job.beam else {
            return Ok(());
        };
        let measured = match beam.measured {
            BeamLength::Measured => "as measured",
            BeamLength::Ordered => "as ordered, nothing is given from end B",
        };
        let [first, second] = self.job.sides.map(char::from);
        writeln!(
            out,
            "Steel   {} {} {measured}; paint A, B, TOP, BOT, and {first} and {second} on the web",
            beam.designation,
            beam.length.shown(self.job.units)
        )
    }

    pub(super) fn walls(&self, out: &mut dyn Write) -> fmt::Result {
        let Some(frame) = &self.plan.frame else {
            return Ok(());
        };
        let [a, b] = frame.bearings;
        if a.is_none() && b.is_none() {
            return Ok(());
        }
        out.write_str("Walls   ")?;
        for (end, bearing) in [(End::A, a), (End::B, b)] {
            let name = match end {
                End::A => "A",
                End::B => "; B",
            };
            match bearing {
                Some(bearing) => write!(out, "{name}: bearing {}", bearing.shown(self.job.units))?,
                None => write!(out, "{name}: no wall")?,
            }
        }
        if frame.shift != Length::ZERO {
            let toward = if frame.shift > Length::ZERO { 'B' } else { 'A' };
            let shift = frame.shift.abs().shown(self.job.units);
            write!(out, "; the beam ended up {shift} toward {toward}")?;
        }
        out.write_str("\n")
    }

    pub(super) fn rule_line(&self, out: &mut dyn Write) -> fmt::Result {
        let Some(rule) = &self.plan.rule else {
            return Ok(());
        };
        wrapped("Rule    ", 8, format_args!("{}", rule.said(self.job)), out)
    }

    fn rows_line(&self, out: &mut dyn Write) -> fmt::Result {
        if self.plan.heights.is_none() {
            return Ok(());
        }
        out.write_str("Rows   ")?;
        for row in Row::BOTH {
            if let Some(height) = self.row_height(row) {
                let height = height.shown(self.job.units);
                write!(out, " {} {height}", words::row(row))?;
            }
        }
        out.write_str(" above the inside face of the bottom flange")?;
        out.write_str(if self.job.rows.is_some() {
            "\n"
        } else {
            " (usual, not on the card)\n"
        })
    }

    /// Height of a row above the inside face of the bottom flange; `None`
    /// where it is not known or the pattern has no such row.
    pub fn row_height(&self, row: Row) -> Option<Length> {
        let PatternRows { top, bot } = self.plan.heights?;
        match row {
            Row::Top => Some(top),
            Row::Bot => (defaults::pattern(self.job) != Pattern::Single).then_some(bot),
        }
    }

    pub(super) fn height(&self, row: Row) -> super::Cell {
        match self.row_height(row) {
            Some(height) => self.length_cell(height),
            None => cell(format_args!("-")),
        }
    }

    /// Readings from end B, where they are offered.
    pub fn from_end_b(&self) -> Option<FromEndB> {
        FromEndB::new(self.plan.frame.as_ref()?, defaults::lattice(self.job))
    }

    /// Station and row of a hole on the card.
    pub fn mark(&self, index: u8) -> Option<(Length, Row)> {
        let hole = self.job.holes.get(usize::from(index))?;
        let at = self.plan.frame.as_ref()?.station(hole.at()).ok()?;
        Some((at, hole.row))
    }

    /// What a missing row is, in words.
    pub fn missing_advice(&self, missing: Missing, out: &mut dyn Write) -> fmt::Result {
        match missing {
            Missing::Row(kind) => out.write_str(words::missing(kind)),
            Missing::Run(..) => {
                out.write_str("out of tolerance: read it again, or say that it shall stand")
            }
        }
    }

    /// To the nearest 1/64 in or 0.1 mm, for figures that nobody marks by.
    pub(super) fn fine(&self, length: Length) -> Length {
        length.to_multiple(self.fine_step(), Rounding::Nearest)
    }

    /// An overlap or a breach, rounded up to 1/16 in or 1 mm.
    pub(super) fn rounded_up(&self, length: Length) -> super::Cell {
        self.length_cell(length.to_multiple(self.coarse_step(), Rounding::Up))
    }

    /// The finest step of a tape: 1/16 in, 1 mm.
    pub(super) const fn coarse_step(&self) -> Length {
        match self.job.units {
            Units::Imperial => Length::from_sixteenths(1),
            Units::Metric => Length::from_millimetres(1),
        }
    }

    fn fine_step(&self) -> Length {
        match self.job.units {
            Units::Imperial => Length::from_sixty_fourths(1),
            Units::Metric => Length::from_tenth_millimetres(1),
        }
    }
}
