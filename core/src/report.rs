//! The plan as the text that a foreman pins up, and its holes as CSV.
//!
//! In: a job and its plan. Out: text through `core::fmt::Write`. Every list
//! names its frame (FROM END A). Rounding: marks exact from end A; from end B,
//! where the reading falls between two marks of the tape, the nearest one, and
//! half a step comes off the gap and play printed beside that reading only;
//! gaps and play are shown rounded down, rods are already rounded up. The parts are
//! not inlined into one: each gives its stack back before the next one begins.

mod blocked;
mod cell;
mod checks;
mod csv;
mod figures;
mod head;
mod holes;
mod joists;
mod packing;
mod place;
mod reading;
mod rods;
mod says;
mod statics;
pub mod words;

pub use cell::{Cell, cell};
pub use checks::{BOLTS_TWICE, FOREWORD};
pub use reading::{FromEndB, Reading};

use crate::job::Job;
use crate::plan::{Plan, Scratch};
use core::fmt::{self, Write};

/// A job and its plan, ready to be written.
#[derive(Clone, Copy, Debug)]
pub struct Report<'a> {
    /// What was read.
    pub job: &'a Job,
    /// What follows.
    pub plan: &'a Plan,
}

impl Report<'_> {
    /// The whole plan as text, lines of at most 100 characters where names are
    /// of usual length. `scratch` is the one that the plan was made with, or
    /// any other.
    ///
    /// # Errors
    /// Those of `out` only.
    #[inline(never)]
    pub fn text(&self, scratch: &mut Scratch, out: &mut dyn Write) -> fmt::Result {
        self.first_lines(scratch, out)?;
        self.missing_list(out)?;
        self.trouble(out)?;
        self.strike_out_list(out)?;
        self.holes(out)?;
        self.blocked(scratch, out)?;
        self.joists(out)?;
        self.packing(out)?;
        self.rods(out)?;
        self.last_lists(scratch, out)?;
        self.cautions(out)
    }

    /// Head and alarms. Not inlined, as the lists: 1.2 KiB of statics are given back
    /// before the rest is written, and worked out again for the loads.
    #[inline(never)]
    fn first_lines(&self, scratch: &mut Scratch, out: &mut dyn Write) -> fmt::Result {
        let statics = self.plan.statics(self.job, scratch);
        self.head(statics.as_ref(), out)
    }

    /// Loads and checks.
    #[inline(never)]
    fn last_lists(&self, scratch: &mut Scratch, out: &mut dyn Write) -> fmt::Result {
        let statics = self.plan.statics(self.job, scratch);
        self.loads(statics.as_ref(), scratch, out)?;
        self.checks(statics.as_ref(), scratch, out)
    }

    #[inline(never)]
    fn missing_list(&self, out: &mut dyn Write) -> fmt::Result {
        if self.plan.missing.is_empty() {
            return Ok(());
        }
        heading("MISSING", "no answer without it", out)?;
        for missing in &self.plan.missing {
            out.write_str("  ")?;
            self.missing(*missing, out)?;
            out.write_str(": ")?;
            self.missing_advice(*missing, out)?;
            out.write_str("\n")?;
        }
        Ok(())
    }

    fn trouble(&self, out: &mut dyn Write) -> fmt::Result {
        match self.plan.trouble {
            Some(trouble) => writeln!(out, "\nNO ANSWER: {}", words::trouble(trouble)),
            None => Ok(()),
        }
    }

    fn cautions(&self, out: &mut dyn Write) -> fmt::Result {
        if self.plan.cautions.is_empty() {
            return Ok(());
        }
        heading("CAUTIONS", "look before you drill", out)?;
        for caution in &self.plan.cautions {
            let lead = cell(format_args!("{:>4} ", caution.number()));
            let text = caution.in_full(self.job);
            cell::wrapped(&lead, 6, format_args!("{text}"), out)?;
        }
        Ok(())
    }
}

/// A blank line and a heading, with a remark in small letters.
pub(crate) fn heading(title: &str, remark: &str, out: &mut dyn Write) -> fmt::Result {
    if remark.is_empty() {
        writeln!(out, "\n{title}")
    } else {
        writeln!(out, "\n{title}  ({remark})")
    }
}
