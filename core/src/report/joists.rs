//! Joists as they stand, and how far each tape run is out.
//!
//! In: joists and run reports. Out: three joists a line, FROM END A to centres.

use super::cell::cell;
use super::{Report, heading};
use crate::defaults;
use crate::joists::{Joist, RunReport};
use crate::length::{Length, Rounding};
use crate::words::{Side, Units};
use core::cmp::Ordering;
use core::fmt::{self, Write};

/// Joists on one line.
const ON_A_LINE: usize = 3;

impl Report<'_> {
    /// Nothing where the card has no tape runs.
    #[inline(never)]
    pub(super) fn joists(&self, out: &mut dyn Write) -> fmt::Result {
        if self.plan.runs.is_empty() && self.plan.joists.is_empty() {
            return Ok(());
        }
        heading("JOISTS", "centres FROM END A, and thickness", out)?;
        for side in Side::BOTH {
            self.joists_of(side, out)?;
        }
        self.run_lines(out)
    }

    /// How far each tape run is out: a line each.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn run_lines(&self, out: &mut dyn Write) -> fmt::Result {
        for run in &self.plan.runs {
            self.run(run, out)?;
        }
        Ok(())
    }

    fn joists_of(&self, side: Side, out: &mut dyn Write) -> fmt::Result {
        let of_side = self.plan.joists.iter().filter(|j| j.side == side);
        for (index, joist) in of_side.enumerate() {
            let end = if index == 0 {
                ""
            } else if index % ON_A_LINE == 0 {
                "\n"
            } else {
                "  "
            };
            let name = cell(format_args!("{}{}", self.job.letter(side), joist.number));
            let centre = self.length_cell(centre(joist, self.job.units));
            let thickness = self.length_cell(self.joist_thickness(joist));
            write!(out, "{end}{name:>6}{centre:>15}{thickness:>9}")?;
        }
        let any = self.plan.joists.iter().any(|j| j.side == side);
        out.write_str(if any { "\n" } else { "" })
    }

    /// As read: the faces are rounded out and may be a count farther apart.
    pub fn joist_thickness(&self, joist: &Joist) -> Length {
        match self.job.joists.get(usize::from(joist.reading)) {
            Some(reading) => defaults::joist_thickness(self.job, reading),
            None => joist.to.saturating_sub(joist.from),
        }
    }

    fn run(&self, run: &RunReport, out: &mut dyn Write) -> fmt::Result {
        write!(out, "  Run {}{} ", self.job.letter(run.side), run.number)?;
        let (Some(misclosure), Some(tolerance)) = (run.misclosure, run.tolerance) else {
            return out.write_str("NOT PROVED\n");
        };
        let units = self.job.units;
        write!(
            out,
            "out by {}{}, {} allowed",
            misclosure.abs().shown(units),
            read_how(misclosure),
            tolerance.shown(units)
        )?;
        out.write_str(match (run.ok, run.overridden) {
            (Some(true), _) => "\n",
            (_, true) => ": OVERRIDDEN\n",
            _ => ": READ IT AGAIN\n",
        })
    }
}

/// Middle between the faces, to the nearest 1/64 in or 0.1 mm: for people's
/// eyes, faces are what the planner keeps off.
fn centre(joist: &Joist, units: Units) -> Length {
    let step = match units {
        Units::Imperial => Length::from_sixty_fourths(1),
        Units::Metric => Length::from_tenth_millimetres(1),
    };
    let half = joist.to.saturating_sub(joist.from).half(Rounding::Down);
    joist
        .from
        .saturating_add(half)
        .to_multiple(step, Rounding::Nearest)
}

/// Which way a run is out.
fn read_how(misclosure: Length) -> &'static str {
    match misclosure.cmp(&Length::ZERO) {
        Ordering::Less => " (reads short)",
        Ordering::Equal => "",
        Ordering::Greater => " (reads long)",
    }
}
