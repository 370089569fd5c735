//! The order in which stacks are better or worse.
//!
//! In: layers picked from the stock. Out: a [`Candidate`] with its steps, so
//! that stacks compare step by step and the steps of two sides add up.

use super::LAYERS_IN_STACK;
use core::cmp::Ordering;

/// Steps of the order before card order.
const STEPS: usize = 10;

/// The steps, least is best: no stack; miss now; miss when dry (2^-28 counts);
/// twice the distance from the aim; layers; outer layer (negative); total;
/// remaining layers from the thickest (negative).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Steps(pub(super) [i64; STEPS]);

impl Steps {
    /// Both sides together. The parts stay below 2^62, so that nothing overflows.
    pub(super) fn plus(self, other: Steps) -> Steps {
        let mut sum = self.0;
        for (step, more) in sum.iter_mut().zip(other.0) {
            *step = step.saturating_add(more);
        }
        Steps(sum)
    }

    /// Whether this is no stack, and the miss.
    pub(super) fn head(self) -> (i64, i64) {
        let [none, miss, ..] = self.0;
        (none, miss)
    }
}

/// Layers picked, outer first, then from the thickest.
#[derive(Clone, Copy, Debug)]
pub(super) struct Candidate {
    pub(super) steps: Steps,
    /// Positions in the sorted stock.
    pub(super) at: [u8; LAYERS_IN_STACK],
    /// The same as rows of the card, for the last step.
    pub(super) rows: [u8; LAYERS_IN_STACK],
    pub(super) count: usize,
    pub(super) total: i64,
    pub(super) dried: i64,
}

impl Candidate {
    /// Positions in the sorted stock, outer layer first.
    pub(super) fn picks(&self) -> impl DoubleEndedIterator<Item = usize> {
        self.at.iter().take(self.count).map(|&at| usize::from(at))
    }

    /// How often a position of the stock is used.
    pub(super) fn uses(&self, position: usize) -> u8 {
        let uses = self.picks().filter(|&at| at == position).count();
        u8::try_from(uses).unwrap_or(u8::MAX)
    }

    /// Least is best, to the last step.
    pub(super) fn compare(&self, other: &Candidate) -> Ordering {
        let by_steps = self.steps.cmp(&other.steps);
        by_steps.then_with(|| self.compare_rows(other))
    }

    /// Card order: the lists of rows, outer layer first.
    pub(super) fn compare_rows(&self, other: &Candidate) -> Ordering {
        let mine = self.rows.iter().take(self.count);
        mine.cmp(other.rows.iter().take(other.count))
    }
}
