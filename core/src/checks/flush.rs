//! Flush: how joists and steel meet below and above, and what drying does.
//!
//! In: a section, row `floor` of a side, service moisture. Out: how far the
//! steel shows below the joists, how far the joist tops stand above it, and how
//! far joists of 19 % moisture will still come down. Rule: steel does not
//! shrink; old dry joists do not either. Source: shrinkage FPL-RP-489
//! (`shrinkage.rs`); 19 %: PS 20-20, dry lumber.

use crate::check::{Check, Kind, Place};
use crate::decimal::Decimal;
use crate::job::{Floor, Moisture};
use crate::length::Length;
use crate::shapes::Section;
use crate::shrinkage::{self, Across};

/// Moisture of new dry lumber, percent. Source: PS 20-20, at most.
const NEW_PERCENT: Decimal = Decimal::whole(19);

/// How far the steel's underside lies below the joists': d + offset - joist
/// depth; below zero where the joists hang below the steel.
pub fn steel_below_joists(section: &Section, floor: &Floor) -> Length {
    section
        .depth()
        .saturating_add(floor.offset.unwrap_or_default())
        .saturating_sub(floor.joist_depth)
}

/// How far a joist of 19 % moisture loses in depth on its way to service
/// moisture, rounded up to a count; nothing where it would swell.
pub fn still_to_shrink(depth: Length, service: Decimal) -> Length {
    let from = Moisture::Percent(NEW_PERCENT);
    let left = shrinkage::remaining(from, Moisture::Percent(service), Across::Width);
    let lost = i64::from(depth.counts()) * (shrinkage::ONE - left);
    let counts = lost.div_euclid(shrinkage::ONE) + i64::from(lost.rem_euclid(shrinkage::ONE) > 0);
    i32::try_from(counts.max(0)).map_or(Length::MAX, Length::from_counts)
}

/// Both figures of a side; the engineer's and the crew's to judge.
pub fn figures(section: &Section, floor: &Floor, service: Decimal, place: Place) -> [Check; 2] {
    let below = steel_below_joists(section, floor);
    let shrinks = still_to_shrink(floor.joist_depth, service);
    [
        Check::demand_only(Kind::SteelBelowJoists, place, below.as_inches()),
        Check::demand_only(Kind::JoistShrinkage, place, shrinks.as_inches()),
    ]
}
