//! The engineer's note, compiled: least and greatest spacing, end distances,
//! pattern; and said back in one sentence.
//!
//! In: a job. Out: a [`Rule`]. `every S`: greatest spacing S less hold back.
//! `row S` with staggered rows: S/2 less hold back.

use crate::job::Pattern;
use crate::length::Length;

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
