//! Points: where a bolt may stand, by row, for a least play.
//!
//! In: facts, play. Out: lattice points and holes in order from end A, each with
//! what may stand there. Rule: marks need the play, drilled holes stay.

use crate::judges::facts::{Facts, HoleFact, Piece};
use crate::judges::reference::{rows_of, slack};
use boltbay_core::job::{HoleState, Pattern};
use boltbay_core::words::Row;
use std::collections::BTreeMap;

/// What may stand in a row of a point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum May {
    New,
    Mark,
    /// Drilled; legal or not.
    Drilled(bool),
}

/// A point.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Point {
    pub(crate) x: i64,
    /// Top, bot.
    pub(crate) rows: [Option<May>; 2],
    /// Off the lattice: a new bolt only beside a hole that is there.
    pub(crate) off_lattice: bool,
    /// A drilled hole here would have a legal partner.
    pub(crate) partner_legal: bool,
}

impl Point {
    /// A drilled hole stands here.
    pub(crate) fn drilled(&self) -> bool {
        self.rows
            .iter()
            .any(|may| matches!(may, Some(May::Drilled(_))))
    }

    /// Both rows are holes that are there.
    pub(crate) fn both_there(&self) -> bool {
        self.rows
            .iter()
            .all(|may| matches!(may, Some(May::Drilled(_) | May::Mark)))
    }
}

/// All points of a job.
pub(crate) fn points(facts: &Facts, play: i64) -> Vec<Point> {
    let may_new = |row: Row, x: i64| {
        let usable = rows_of(facts).contains(&row);
        let legal = slack(facts, row, x, None).is_some_and(|s| s >= play);
        (usable && legal).then_some(May::New)
    };
    let mut all: BTreeMap<i64, [Option<May>; 2]> = BTreeMap::new();
    for n in 0..=facts.length / facts.step {
        let x = n * facts.step;
        all.insert(x, Row::BOTH.map(|row| may_new(row, x)));
    }
    for hole in &facts.holes {
        if hole.state == HoleState::Abandoned {
            continue;
        }
        let room = slack(facts, hole.row, hole.at, Some(hole.index));
        let rows = all
            .entry(hole.at)
            .or_insert_with(|| Row::BOTH.map(|row| may_new(row, hole.at)));
        let usable = rows_of(facts).contains(&hole.row);
        rows[hole.row.index()] = match hole.state {
            HoleState::Drilled => Some(May::Drilled(room.is_some())),
            _ => room.filter(|r| usable && *r >= play).map(|_| May::Mark),
        };
    }
    all.into_iter()
        .filter(|(_, rows)| rows.iter().any(Option::is_some))
        .map(|(x, rows)| point(facts, x, rows))
        .filter(stands)
        .collect()
}

fn point(facts: &Facts, x: i64, rows: [Option<May>; 2]) -> Point {
    let drilled = |h: &&HoleFact| h.state == HoleState::Drilled && h.at == x;
    let partner = |h: &HoleFact| slack(facts, h.row.other(), x, None).is_some();
    let both = facts.pattern != Pattern::Single;
    Point {
        x,
        rows,
        off_lattice: x % facts.step != 0,
        partner_legal: both && facts.holes.iter().filter(drilled).any(partner),
    }
}

/// Off the lattice something must be there already.
fn stands(point: &Point) -> bool {
    let there = |may: &Option<May>| matches!(may, Some(May::Drilled(_) | May::Mark));
    !point.off_lattice || point.rows.iter().any(there)
}

/// With both rows at every station, a drilled hole whose partner is legal but
/// lacks the play.
pub(crate) fn partner_lacks_play(facts: &Facts, points: &[Point]) -> bool {
    facts.pattern == Pattern::Paired
        && points
            .iter()
            .any(|p| p.drilled() && p.partner_legal && p.rows.contains(&None))
}

/// Whether the programme can speak of this job.
pub fn speaks_of(facts: &Facts) -> bool {
    let there: Vec<&HoleFact> = facts
        .holes
        .iter()
        .filter(|h| h.state != HoleState::Abandoned)
        .collect();
    let drilled = |h: &HoleFact| h.state == HoleState::Drilled;
    let packed = |x: i64| {
        let around = |p: &Piece| p.from <= x && x <= p.to;
        facts.pieces.iter().any(around)
    };
    there.iter().all(|a| {
        let apart_from = |b: &&HoleFact| {
            let apart = (a.at - b.at).abs();
            let one_station = a.row != b.row && apart > 0 && apart <= facts.diameter;
            let too_near = drilled(a) && drilled(b) && apart > 0 && apart < facts.s_min;
            !one_station && !too_near
        };
        there.iter().all(apart_from) && (!drilled(a) || packed(a.at))
    })
}
