//! Legal: may a bolt of this row stand here, and how far may the beam shift?
//!
//! In: facts, a row, a station. Out: `None` where it may not stand, else the
//! largest shift either way at which it still may, at most 6 in. Touching a
//! limit is legal. Marks keep no distance here: the chain sees to those.

use crate::judges::facts::{Facts, Piece, SIX_INCHES, ThingFact};
use boltbay_core::job::{HoleState, KeepoutKind};
use boltbay_core::words::Row;

/// Packed, bare, or too near a packing end.
fn packed(facts: &Facts, side: usize, x: i64) -> Option<bool> {
    let inside = |p: &Piece| p.sides[side] && x >= p.from + facts.e_min && x <= p.to - facts.e_min;
    if facts.pieces.iter().any(inside) {
        return Some(true);
    }
    let off = facts.reach[side] + facts.gap;
    let clear = |p: &Piece| !p.sides[side] || x <= p.from - off || x >= p.to + off;
    facts.pieces.iter().all(clear).then_some(false)
}

/// What is left of `slack` beside something that stays from `a` to `b`.
fn beside(slack: Option<i64>, a: i64, b: i64, x: i64) -> Option<i64> {
    if a >= b {
        return slack;
    }
    let room = (a - x).max(x - b);
    slack.filter(|_| room >= 0).map(|s| s.min(room))
}

/// The same beside something that rides: only whether, not how far.
fn outside(slack: Option<i64>, a: i64, b: i64, x: i64) -> Option<i64> {
    slack.filter(|_| x <= a || x >= b)
}

/// Joists, on packed sides.
fn joists(facts: &Facts, row: Row, x: i64, packed: [bool; 2]) -> Option<i64> {
    let mut slack = Some(SIX_INCHES);
    for joist in facts.joists.iter().filter(|j| packed[j.side]) {
        let keep = joist.metal[row.index()] + facts.reach[joist.side] + facts.gap;
        slack = beside(slack, joist.from - keep, joist.to + keep, x);
    }
    slack
}

/// Solid things and zones.
fn things(facts: &Facts, x: i64, mut slack: Option<i64>) -> Option<i64> {
    for thing in &facts.things {
        let keep = match thing.kind {
            KeepoutKind::Access => continue,
            KeepoutKind::Zone => 0,
            KeepoutKind::Solid => [0, 1]
                .iter()
                .filter(|s| thing.sides[**s])
                .map(|s| facts.reach[*s] + facts.gap)
                .max()
                .unwrap_or(0),
        };
        let (a, b) = (thing.from - keep, thing.to + keep);
        slack = if thing.stays {
            beside(slack, a, b, x)
        } else {
            outside(slack, a, b, x)
        };
    }
    slack
}

/// Access blocked on both sides: every thing of N against every thing of S.
fn access(facts: &Facts, x: i64, mut slack: Option<i64>) -> Option<i64> {
    let on = |side: usize| {
        facts
            .things
            .iter()
            .filter(move |t| t.kind == KeepoutKind::Access && t.sides[side])
    };
    for n in on(0) {
        for s in on(1) {
            let (a, b) = (n.from.max(s.from), n.to.min(s.to));
            slack = match (n.stays, s.stays) {
                (true, true) => beside(slack, a, b, x),
                (false, false) if a < b => outside(slack, a, b, x),
                (false, false) => slack,
                (true, false) => where_they_meet(slack, n, s, x),
                (false, true) => where_they_meet(slack, s, n, x),
            };
        }
    }
    slack
}

/// One that stays and one that rides block where they meet at some shift.
fn where_they_meet(
    slack: Option<i64>,
    stays: &ThingFact,
    rides: &ThingFact,
    x: i64,
) -> Option<i64> {
    if x <= rides.from || x >= rides.to {
        return slack;
    }
    beside(slack, stays.from, stays.to, x)
}

/// Far enough from holes that are there for good.
fn clear_of_holes(facts: &Facts, row: Row, x: i64, itself: Option<usize>) -> bool {
    facts
        .holes
        .iter()
        .filter(|h| Some(h.index) != itself && h.state != HoleState::Marked)
        .all(|h| {
            let apart = (h.at - x).abs();
            let own_row = h.row != row || apart >= facts.s_min;
            let abandoned = h.state != HoleState::Abandoned || apart >= 4 * facts.diameter;
            own_row && abandoned
        })
}

/// The largest shift either way at which a bolt of `row` at `x` stays legal;
/// `None` if it is not legal where it is. `itself` is the hole that stands
/// there already.
pub fn slack(facts: &Facts, row: Row, x: i64, itself: Option<usize>) -> Option<i64> {
    if !clear_of_holes(facts, row, x, itself) {
        return None;
    }
    slack_without_holes(facts, row, x)
}

/// The same, holes ignored.
fn slack_without_holes(facts: &Facts, row: Row, x: i64) -> Option<i64> {
    let sides = [packed(facts, 0, x)?, packed(facts, 1, x)?];
    if sides == [false, false] {
        return None;
    }
    let slack = joists(facts, row, x, sides);
    access(facts, x, things(facts, x, slack))
}

/// Runs of consecutive legal lattice points, holes ignored.
pub fn windows(facts: &Facts, row: Row) -> Vec<(i64, i64)> {
    let mut runs: Vec<(i64, i64)> = Vec::new();
    for n in 0..=facts.length / facts.step {
        let x = n * facts.step;
        if slack_without_holes(facts, row, x).is_none() {
            continue;
        }
        match runs.last_mut() {
            Some(run) if run.1 == x - facts.step => run.1 = x,
            _ => runs.push((x, x)),
        }
    }
    runs
}
