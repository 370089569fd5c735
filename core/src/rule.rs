//! The engineer's note, compiled: least and greatest spacing, end distances,
//! pattern; and said back in one sentence.
//!
//! In: a job. Out: a [`Rule`], or the kinds of rows that are missing. `every
//! S`: greatest spacing S less hold back. `row S` with staggered rows: S/2
//! (rounded down to a count) less hold back, for each row then has a bolt every
//! S. Source: the engineer's drawing; the defaults' sources are in
//! `defaults.rs`.

mod said;

pub use said::Said;

use crate::defaults;
use crate::job::{Job, Pattern, SpacingBasis};
use crate::length::{Length, Rounding};
use crate::list::Listed;
use heapless::Vec;

/// What the planner obeys.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Rule {
    /// Consecutive stations at least this far apart.
    pub s_min: Length,
    /// At most this far apart, except across bare stretches.
    pub s_max: Length,
    /// Nearest to a packing end.
    pub e_min: Length,
    /// First and last bolt within this.
    pub e_max: Length,
    /// First and last of each packing piece are pairs.
    pub ends_paired: bool,
    /// Rows.
    pub pattern: Pattern,
    /// Clear gap g.
    pub gap: Length,
    /// Lattice step.
    pub step: Length,
    /// Wanted play.
    pub wanted: Length,
    /// Bolt diameter D.
    pub diameter: Length,
}

/// Kinds of rows that a rule lacks, in the order `bolt spacing ends`.
pub type Lacking = Vec<&'static str, 3, u8>;

impl Rule {
    /// The rule of a job.
    ///
    /// # Errors
    /// The kinds of rows that only the engineer can give and that are missing.
    pub fn of(job: &Job) -> Result<Rule, Lacking> {
        let (Some(bolt), Some(_), Some(ends)) = (job.bolt, job.spacing, job.ends) else {
            return Err(lacking(job));
        };
        let (Some(s_min), Some(s_max)) = (defaults::minimum_spacing(job), greatest_spacing(job))
        else {
            return Err(lacking(job));
        };
        Ok(Rule {
            s_min,
            s_max,
            e_min: ends.least,
            e_max: ends.most,
            ends_paired: defaults::ends_paired(job),
            pattern: defaults::pattern(job),
            gap: defaults::gap(job),
            step: defaults::lattice(job),
            wanted: defaults::play(job),
            diameter: bolt.diameter,
        })
    }

    /// The rule said back in one sentence, in the job's units.
    pub const fn said<'a>(&'a self, job: &'a Job) -> Said<'a> {
        Said::new(self, job)
    }
}

/// Greatest spacing of a job's `spacing` row, hold back taken off; `None`
/// without one.
pub fn greatest_spacing(job: &Job) -> Option<Length> {
    let spacing = job.spacing?;
    let staggered = defaults::pattern(job) == Pattern::Staggered;
    let apart = if spacing.basis == SpacingBasis::Row && staggered {
        spacing.spacing.half(Rounding::Down)
    } else {
        spacing.spacing
    };
    Some(apart.saturating_sub(defaults::hold_back(job)))
}

/// Whether any part of the rule asks for two bolts, one above the other.
pub fn asks_for_pairs(job: &Job) -> bool {
    defaults::pattern(job) == Pattern::Paired
        || defaults::ends_paired(job)
        || job.nears.iter().any(|near| near.paired)
}

fn lacking(job: &Job) -> Lacking {
    [
        ("bolt", job.bolt.is_none()),
        ("spacing", job.spacing.is_none()),
        ("ends", job.ends.is_none()),
    ]
    .into_iter()
    .filter_map(|(kind, lacks)| lacks.then_some(kind))
    .listed()
}
