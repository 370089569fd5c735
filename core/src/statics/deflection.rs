//! Deflection of each span and overhang against the usual limits.
//!
//! In: sags and stations. Out: span over deflection, demand and limit. Rule:
//! the span counts from support centre to support centre, an overhang twice; a
//! demand equal to its limit passes. Source: IRC 2021 Table R301.7, floors,
//! L/360 live; IBC 2021 Table 1604.3, floor members, L/240 for dead and live
//! together.

use super::Segment;
use crate::force::Sag;
use crate::length::Length;

/// A demand above its capacity by this part is dust of the sums, not a demand.
const DUST: f64 = 1e-9;

/// How far one span or overhang moves; all sizes without sign.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SegmentSag {
    /// Which.
    pub segment: Segment,
    /// Its end toward A.
    pub from: Length,
    /// Its end toward B.
    pub to: Length,
    /// Greatest downward under dead load and self-weight.
    pub dead: Sag,
    /// The same with live load on all segments.
    pub all: Sag,
    /// The same with live load on the segments that make it worst.
    pub total: Sag,
    /// Greatest downward of live load alone, worst choice of segments.
    pub live: Sag,
    /// Greatest upward of live load alone, worst choice of segments.
    pub live_up: Sag,
}

/// A limit on deflection.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum DeflectionLimit {
    /// L/360 under live load.
    Live,
    /// L/240 under dead and live load.
    Total,
}

impl DeflectionLimit {
    /// What the span is divided by.
    pub const fn divisor(self) -> u16 {
        match self {
            DeflectionLimit::Live => 360,
            DeflectionLimit::Total => 240,
        }
    }

    /// Where it comes from, for lists.
    pub const fn source(self) -> &'static str {
        match self {
            DeflectionLimit::Live => "IRC Table R301.7, floors",
            DeflectionLimit::Total => "IBC Table 1604.3, floors",
        }
    }
}

impl SegmentSag {
    /// The span that limits are taken of, in inches: an overhang counts twice.
    pub fn span(&self) -> f64 {
        let length = self.to.saturating_sub(self.from).as_inches();
        match self.segment {
            Segment::Span(_) => length,
            Segment::OverhangA | Segment::OverhangB => 2.0 * length,
        }
    }

    /// Span over greatest downward live deflection; `None` where that is 0.
    pub fn ratio_live(&self) -> Option<f64> {
        let live = self.live.as_inches();
        (live > 0.0).then(|| self.span() / live)
    }

    /// Span over greatest downward total deflection; `None` where that is 0.
    pub fn ratio_total(&self) -> Option<f64> {
        let total = self.total.as_inches();
        (total > 0.0).then(|| self.span() / total)
    }

    /// Demand and capacity of a limit.
    pub fn limit(&self, limit: DeflectionLimit) -> (Sag, Sag) {
        let demand = match limit {
            DeflectionLimit::Live => self.live,
            DeflectionLimit::Total => self.total,
        };
        let capacity = self.span() / f64::from(limit.divisor());
        (demand, Sag::from_inches(capacity))
    }

    /// Whether a limit is kept.
    pub fn keeps(&self, limit: DeflectionLimit) -> bool {
        let (demand, capacity) = self.limit(limit);
        within(demand.as_inches(), capacity.as_inches())
    }
}

/// Whether a demand stays within its capacity. Equal passes; both are sums of
/// floats, so a billionth above counts as equal. What is no number does not.
pub fn within(demand: f64, capacity: f64) -> bool {
    demand <= capacity + capacity.abs() * DUST
}
