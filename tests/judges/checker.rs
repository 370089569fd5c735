//! Checker: is a finished plan allowed, and does it say the truth?
//!
//! In: a job, its joists, a placement. Out: every violation in words; none if
//! all is well. Rule: each sentence of the rules is tested on the finished
//! plan by itself, by moving the house to and fro and looking, not by any
//! window, sweep or table. Best or not is not asked here.

mod covers;
mod gaps;
mod holes;
mod legal;
mod report;
mod spacing;

use crate::judges::facts::Facts;
use boltbay_core::job::{HoleState, Job};
use boltbay_core::joists::Joist;
use boltbay_core::placement::{PlacedHole, Placement, State};
use boltbay_core::words::Row;

pub use legal::why_not;

/// A hole of the plan.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Placed {
    pub(crate) at: i64,
    pub(crate) row: Row,
    pub(crate) state: State,
    /// Its index in the job; `None` for a new one.
    pub(crate) index: Option<usize>,
    /// As reported.
    pub(crate) said: PlacedHole,
    /// Legal where it is now.
    pub(crate) legal: bool,
}

/// What the tests look at.
pub(crate) struct Case<'a> {
    pub(crate) facts: Facts,
    pub(crate) plan: &'a Placement,
    /// Holes by station.
    pub(crate) stations: Vec<Vec<Placed>>,
    pub(crate) faults: Vec<String>,
}

impl Case<'_> {
    /// Notes a violation.
    pub(crate) fn fault(&mut self, words: String) {
        self.faults.push(words);
    }

    /// Tests that something holds.
    pub(crate) fn must(&mut self, holds: bool, words: impl FnOnce() -> String) {
        if !holds {
            self.faults.push(words());
        }
    }
}

/// Inches, for people's eyes.
pub(crate) fn inches(counts: i64) -> f64 {
    counts as f64 / 1_016_000.0
}

/// A hole of the plan beside the one of the job that it is.
fn placed(facts: &Facts, said: &PlacedHole) -> Placed {
    let at = i64::from(said.at.counts());
    let state = match said.state {
        State::Planned => None,
        State::Marked => Some(HoleState::Marked),
        State::Drilled => Some(HoleState::Drilled),
    };
    let index = state.and_then(|state| {
        facts
            .holes
            .iter()
            .find(|h| h.at == at && h.row == said.row && h.state == state)
            .map(|h| h.index)
    });
    Placed {
        at,
        row: said.row,
        state: said.state,
        index,
        said: *said,
        legal: why_not(facts, said.row, at, 0, index).is_none(),
    }
}

/// All violations of a placement.
pub fn check(job: &Job, joists: &[Joist], plan: &Placement) -> Vec<String> {
    let facts = Facts::new(job, joists);
    let mut stations: Vec<Vec<Placed>> = Vec::new();
    let mut last = 0;
    for said in &plan.holes {
        if said.station != last || stations.is_empty() {
            stations.push(Vec::new());
            last = said.station;
        }
        if let Some(station) = stations.last_mut() {
            station.push(placed(&facts, said));
        }
    }
    let mut case = Case {
        facts,
        plan,
        stations,
        faults: Vec::new(),
    };
    if plan.feasible {
        holes::test(&mut case);
        spacing::test(&mut case);
        covers::test(&mut case);
    }
    report::test(&mut case);
    case.faults
}
