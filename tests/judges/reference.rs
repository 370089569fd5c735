//! Reference: the placement worked out slowly over every lattice point.
//!
//! In: [`Facts`]. Out: the best plan, or what blocks. Rule: a plain dynamic
//! programme whose states are "the last station, the last legal station, the
//! row whose turn it was, whether the last pair has a reason"; every threshold
//! (play, largest spacing) is found by running the whole programme again.
//! It shares no code with the planner.

mod best;
mod blocked;
mod chosen;
mod covers;
mod judge;
mod legal;
mod stations;
mod sweep;

pub use best::{Answer, Outcome, fewest, solve};
pub use blocked::{Stretch, blocked};
pub use judge::{Judgement, gaps, judge, play};
pub use legal::{slack, windows};
pub use stations::{Bolt, Origin};

use crate::judges::facts::Facts;
use boltbay_core::job::Pattern;
use boltbay_core::words::Row;

/// Rows that a pattern may use.
pub fn rows_of(facts: &Facts) -> &'static [Row] {
    match facts.pattern {
        Pattern::Single => &[Row::Top],
        Pattern::Staggered | Pattern::Paired => &Row::BOTH,
    }
}
