//! Stations: everything that can stand at a place, new or there already.
//!
//! In: facts. Out: every possible station in order from end A: new singles and
//! pairs on the lattice, marks kept with or without a new partner, drilled
//! holes likewise, and two holes there already that are one station. Rule: two
//! drilled or marked holes of different rows at most D apart are one station.

use super::covers::{Cover, end_cover, near_covers, start_cover};
use super::legal::slack;
use crate::judges::facts::{Facts, HoleFact, SIX_INCHES};
use boltbay_core::job::{HoleState, Pattern};
use boltbay_core::words::Row;

/// Where a bolt of a station comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// New on the lattice, or the new partner of a hole.
    New,
    /// A mark that is kept: its index in the job.
    Mark(usize),
    /// Drilled: its index in the job.
    Drilled(usize),
}

/// One bolt of a station.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bolt {
    /// Station.
    pub at: i64,
    /// Row.
    pub row: Row,
    /// Where it comes from.
    pub origin: Origin,
    /// Room to shift; `None` = not legal, which only a drilled one may be.
    pub slack: Option<i64>,
}

impl Bolt {
    /// Drilled already.
    pub fn drilled(&self) -> bool {
        matches!(self.origin, Origin::Drilled(_))
    }
}

/// Something that can stand at a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Station {
    /// One bolt, or two of different rows, nearest end A first, then top first.
    pub bolts: Vec<Bolt>,
    /// Drilled holes before it, and before what follows it.
    pub drilled_before: usize,
    /// See `drilled_before`.
    pub drilled_after: usize,
    /// A pair that the planner makes, so that a rule must ask for it.
    pub made_pair: bool,
    /// Asked to be a pair, its drilled hole may stay alone.
    pub may_stay_alone: bool,
}

impl Station {
    /// The bolt nearest end A.
    pub fn near(&self) -> i64 {
        self.bolts.iter().map(|b| b.at).min().unwrap_or(0)
    }

    /// The bolt farthest from end A.
    pub fn far(&self) -> i64 {
        self.bolts.iter().map(|b| b.at).max().unwrap_or(0)
    }

    /// Two bolts.
    pub fn pair(&self) -> bool {
        self.bolts.len() == 2
    }

    /// Whether it holds a drilled hole.
    pub fn drilled(&self) -> bool {
        self.bolts.iter().any(Bolt::drilled)
    }

    /// Marks that it keeps.
    pub fn marks(&self) -> usize {
        let mark = |b: &&Bolt| matches!(b.origin, Origin::Mark(_));
        self.bolts.iter().filter(mark).count()
    }

    /// Room to shift of what is not yet drilled.
    pub fn slack(&self) -> i64 {
        self.bolts
            .iter()
            .filter(|b| !b.drilled())
            .map(|b| b.slack.unwrap_or(-1))
            .min()
            .unwrap_or(SIX_INCHES)
    }

    /// Where its legal bolts stand.
    pub fn legal(&self) -> impl Iterator<Item = i64> + '_ {
        self.bolts
            .iter()
            .filter(|b| b.slack.is_some())
            .map(|b| b.at)
    }

    /// A single that is new, so that the turns bind it.
    pub fn bound_by_turn(&self) -> bool {
        !self.pair() && self.bolts.iter().all(|b| b.origin == Origin::New)
    }
}

/// A drilled or marked hole, judged, with the number of drilled ones before it.
struct Existing {
    bolt: Bolt,
    drilled_before: usize,
}

/// Drilled holes and legal marks, in order from end A, top first.
fn existing(facts: &Facts) -> Vec<Existing> {
    let mut holes: Vec<&HoleFact> = facts
        .holes
        .iter()
        .filter(|h| h.state != HoleState::Abandoned)
        .collect();
    holes.sort_by_key(|h| (h.at, h.row));
    let mut drilled = 0;
    let mut list = Vec::new();
    for hole in holes {
        let slack = slack(facts, hole.row, hole.at, Some(hole.index));
        let (at, row) = (hole.at, hole.row);
        let origin = match hole.state {
            HoleState::Drilled => Origin::Drilled(hole.index),
            _ if slack.is_none() => continue,
            _ if !super::rows_of(facts).contains(&row) => continue,
            _ => Origin::Mark(hole.index),
        };
        list.push(Existing {
            bolt: Bolt {
                at,
                row,
                origin,
                slack,
            },
            drilled_before: drilled,
        });
        drilled += usize::from(hole.state == HoleState::Drilled);
    }
    list
}

/// A station of holes that are there, or with a new partner.
fn of(bolts: Vec<Bolt>, drilled_before: usize, made_pair: bool, alone: bool) -> Station {
    let drilled = bolts.iter().filter(|b| b.drilled()).count();
    Station {
        bolts,
        drilled_before,
        drilled_after: drilled_before + drilled,
        made_pair,
        may_stay_alone: alone,
    }
}

/// The new bolt in the other row at the same place, where legal.
fn partner(facts: &Facts, bolt: &Bolt) -> Option<Bolt> {
    let row = bolt.row.other();
    let slack = slack(facts, row, bolt.at, None)?;
    Some(Bolt {
        at: bolt.at,
        row,
        origin: Origin::New,
        slack: Some(slack),
    })
}

/// What one existing hole can be without a mate.
fn by_itself(facts: &Facts, hole: &Existing, list: &mut Vec<Station>) {
    let partner = match facts.pattern {
        Pattern::Single => None,
        _ => partner(facts, &hole.bolt),
    };
    let before = hole.drilled_before;
    let drilled = hole.bolt.drilled();
    let both_rows = facts.pattern == Pattern::Paired;
    let alone_allowed = !both_rows || (drilled && partner.is_none());
    if alone_allowed {
        let alone = drilled && partner.is_none();
        list.push(of(vec![hole.bolt], before, false, alone));
    }
    if let Some(partner) = partner {
        let mut bolts = vec![hole.bolt, partner];
        bolts.sort_by_key(|b| b.row);
        list.push(of(bolts, before, !both_rows, false));
    }
}

/// What two existing holes can be together.
fn together(facts: &Facts, holes: &[Existing], list: &mut Vec<Station>) {
    let Some((first, rest)) = holes.split_first() else {
        return;
    };
    for second in rest {
        if second.bolt.at - first.bolt.at > facts.diameter {
            break;
        }
        if second.bolt.row != first.bolt.row {
            let bolts = vec![first.bolt, second.bolt];
            let drilled = bolts.iter().any(Bolt::drilled);
            list.push(of(bolts, first.drilled_before, false, drilled));
        }
        if second.bolt.drilled() {
            break;
        }
    }
}

/// New singles and pairs at a lattice point.
fn new_at(facts: &Facts, x: i64, drilled_before: usize, list: &mut Vec<Station>) {
    let bolt = |row: Row| {
        slack(facts, row, x, None).map(|slack| Bolt {
            at: x,
            row,
            origin: Origin::New,
            slack: Some(slack),
        })
    };
    let top = bolt(Row::Top);
    let bot = match facts.pattern {
        Pattern::Single => None,
        _ => bolt(Row::Bot),
    };
    let staggered = facts.pattern == Pattern::Staggered;
    let pair = !staggered || paired_covers(facts).any(|c| x >= c.from && x <= c.to);
    if facts.pattern != Pattern::Paired {
        for single in [top, bot].into_iter().flatten() {
            list.push(of(vec![single], drilled_before, false, false));
        }
    }
    if let (true, Some(top), Some(bot)) = (pair, top, bot) {
        list.push(of(vec![top, bot], drilled_before, staggered, false));
    }
}

/// Covers that ask for a pair: elsewhere nothing ever does.
fn paired_covers(facts: &Facts) -> impl Iterator<Item = Cover> + '_ {
    let ends = facts
        .pieces
        .iter()
        .flat_map(|p| [start_cover(facts, p), end_cover(facts, p)]);
    let nears = facts.nears.iter().flat_map(near_covers);
    ends.chain(nears).filter(|c| c.paired)
}

/// Everything that can stand anywhere, in order from end A.
pub fn stations(facts: &Facts) -> Vec<Station> {
    let existing = existing(facts);
    let mut list = Vec::new();
    for n in 0..=facts.length / facts.step {
        let x = n * facts.step;
        let before = |e: &&Existing| e.bolt.drilled() && e.bolt.at <= x;
        let drilled_before = existing.iter().filter(before).count();
        new_at(facts, x, drilled_before, &mut list);
    }
    for n in 0..existing.len() {
        by_itself(facts, &existing[n], &mut list);
        together(facts, &existing[n..], &mut list);
    }
    list.sort_by_key(Station::near);
    list
}

/// Where the drilled holes are that every plan must hold, in order.
pub fn drilled(facts: &Facts) -> Vec<i64> {
    let drilled = |h: &&HoleFact| h.state == HoleState::Drilled;
    let mut list: Vec<i64> = facts.holes.iter().filter(drilled).map(|h| h.at).collect();
    list.sort_unstable();
    list
}
