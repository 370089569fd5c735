//! One hole of a plan, packed small: there may be 240.

use super::{Broken, InsertFrom, State, Thing, Verdict};
use crate::length::Length;
use crate::words::Row;

/// A gap that stands for "nothing near".
const NO_GAP: i32 = i32::MAX;

/// One hole of the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PlacedHole {
    /// Station.
    pub at: Length,
    gap: i32,
    amount: Length,
    nearest: Option<Thing>,
    judged: Judged,
    /// Its row.
    pub row: Row,
    /// Planned, marked or drilled.
    pub state: State,
    /// Number of its station, from 1.
    pub station: u8,
    /// Which side the rod goes in from.
    pub insert_from: InsertFrom,
}

/// A verdict without its amount.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
enum Judged {
    Not,
    Fits,
    Tight,
    Rule(Broken),
    Fouls,
}

impl PlacedHole {
    /// A hole that is not yet judged.
    pub const fn new(at: Length, row: Row, state: State, station: u8) -> Self {
        PlacedHole {
            at,
            gap: NO_GAP,
            amount: Length::ZERO,
            nearest: None,
            judged: Judged::Not,
            row,
            state,
            station,
            insert_from: InsertFrom::Either,
        }
    }

    /// Least gap over both sides to joists with counted hangers on packed sides
    /// and to solid obstacles; `None` = nothing there. Negative = overlap.
    pub fn gap(&self) -> Option<Length> {
        (self.gap != NO_GAP).then_some(Length::from_counts(self.gap))
    }

    /// The thing that [`PlacedHole::gap`] is measured to.
    pub fn nearest(&self) -> Option<Thing> {
        self.nearest
    }

    /// What is said of it; only drilled holes are judged.
    pub fn verdict(&self) -> Option<Verdict> {
        match self.judged {
            Judged::Not => None,
            Judged::Fits => Some(Verdict::Fits),
            Judged::Tight => Some(Verdict::Tight),
            Judged::Rule(broken) => Some(Verdict::Rule(broken, self.amount)),
            Judged::Fouls => Some(Verdict::Fouls(self.amount)),
        }
    }

    /// Notes the gap and what it is measured to.
    pub fn set_gap(&mut self, gap: Option<(Length, Thing)>) {
        self.gap = gap.map_or(NO_GAP, |(gap, _)| gap.counts());
        self.nearest = gap.map(|(_, thing)| thing);
    }

    /// Notes the verdict.
    pub fn set_verdict(&mut self, verdict: Verdict) {
        (self.judged, self.amount) = match verdict {
            Verdict::Fits => (Judged::Fits, Length::ZERO),
            Verdict::Tight => (Judged::Tight, Length::ZERO),
            Verdict::Rule(broken, by) => (Judged::Rule(broken), by),
            Verdict::Fouls(by) => (Judged::Fouls, by),
        };
    }
}
