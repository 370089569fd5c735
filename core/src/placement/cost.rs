//! What a plan costs, in the order that counts: marks struck out, then
//! stations, then holes.
//!
//! All marks less the kept ones are struck out, so a kept mark is a saving, and
//! costs simply add along the chain. Packed into one integer that compares in
//! that order.

/// A cost, or a cost still to come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Cost(i32);

/// Bits for holes, and again for stations.
const FIELD: u32 = 10;

impl Cost {
    /// Nothing more to come.
    pub const ZERO: Cost = Cost(0);

    /// Beyond this many stations no plan is of use: 240 holes are the limit.
    pub const MOST_STATIONS: u32 = 256;

    /// Kept marks, stations, holes.
    pub const fn of(kept: u32, stations: u32, holes: u32) -> Cost {
        Cost(((stations << FIELD) | holes) as i32 - ((kept as i32) << (2 * FIELD)))
    }

    /// One after the other; `None` beyond the most stations of use.
    pub fn then(self, rest: Cost) -> Option<Cost> {
        let sum = Cost(self.0.wrapping_add(rest.0));
        (sum.stations() <= Self::MOST_STATIONS).then_some(sum)
    }

    /// What is left once `own` is paid.
    pub const fn less(self, own: Cost) -> Cost {
        Cost(self.0.wrapping_sub(own.0))
    }

    /// Stations in it.
    pub const fn stations(self) -> u32 {
        (self.0.rem_euclid(1 << (2 * FIELD)) >> FIELD) as u32
    }

    /// Holes in it.
    pub const fn holes(self) -> u32 {
        (self.0.rem_euclid(1 << FIELD)) as u32
    }

    /// Kept marks in it.
    pub const fn kept(self) -> i32 {
        -self.0.div_euclid(1 << (2 * FIELD))
    }
}
