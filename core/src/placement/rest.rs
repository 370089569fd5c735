//! Rest: what a chain still costs beyond a station, as candidates come in.
//!
//! In: costs of ways on, one after the other. Out: the least; for a new station
//! also down to where it stays the least, for an old one also the least on
//! which a gate asks for a pair.

use super::cost::Cost;

/// Where a candidate can be reached from, within a chunk.
pub(super) type Span = (i32, i32);

/// What an old station may go on to.
#[derive(Clone, Copy)]
pub(super) struct Onward {
    /// Pieces before this number.
    pub limit: usize,
    /// The end of the chain.
    pub ended: bool,
    /// Its hole gained a partner, which a gate must ask for.
    pub gained: bool,
}

/// The least rest from an old station.
#[derive(Clone, Copy, Default)]
pub(super) struct Rests {
    pub any: Option<Cost>,
    /// The least one on which a gate asks for a pair here: what a hole that
    /// gained a partner needs.
    pub asked: Option<Cost>,
}

impl Rests {
    /// Takes a way on into account.
    pub fn meet(&mut self, cost: Cost, asked: bool) {
        let less = |rest: Option<Cost>| rest.is_none_or(|rest| cost < rest);
        if less(self.any) {
            self.any = Some(cost);
        }
        if asked && less(self.asked) {
            self.asked = Some(cost);
        }
    }

    /// Whether a way on at this cost can make less of what counts.
    pub fn can_fall_to(&self, cost: Cost, gained: bool) -> bool {
        let dearest = if gained { self.asked } else { self.any };
        dearest.is_none_or(|rest| cost < rest)
    }
}

/// The least rest so far, and down to where it stays the least.
pub(super) struct Best {
    pub cost: Option<Cost>,
    /// Lowest place that the best still serves.
    low: i32,
    /// Highest place below y where one that may be cheaper begins to serve.
    upcoming: i32,
}

impl Best {
    pub const NONE: Best = Best {
        cost: None,
        low: i32::MIN,
        upcoming: i32::MIN,
    };

    /// Takes a candidate into account that serves `span` at `cost`.
    pub fn meet(&mut self, span: Span, cost: Cost, y: i32) {
        if span.0 > span.1 || span.0 > y {
            return;
        }
        if span.1 < y {
            if self.cost.is_none_or(|best| cost < best) {
                self.upcoming = self.upcoming.max(span.1);
            }
            return;
        }
        match self.cost {
            Some(best) if best < cost => {}
            Some(best) if best == cost => self.low = self.low.min(span.0),
            _ => {
                self.cost = Some(cost);
                self.low = span.0;
            }
        }
    }

    /// The first place below y where the least rest may change.
    pub fn until(&self) -> i32 {
        if self.cost.is_some() {
            self.upcoming.max(self.low - 1)
        } else {
            self.upcoming
        }
    }
}
