//! Judge: the gap around a hole, and what is to be said of a drilled one.
//!
//! In: facts, a hole, its plan. Out: the gap to every thing beside it; the
//! verdict, worst first: fouls, rule, tight, fits. Rule: the gap to a thing
//! `[a, b]` is `max(a - (x + R), (x - R) - b)`; things are joists with the
//! hanger that counts, on a side packed there, and solid obstacles.

use super::covers::{Profile, asks};
use super::legal::slack;
use super::stations::{Bolt, Origin, Station};
use crate::judges::facts::{Facts, SIX_INCHES};
use boltbay_core::job::{HoleState, KeepoutKind, Pattern};
use boltbay_core::placement::{Broken, Thing};
use boltbay_core::words::Row;

/// What is said of a drilled hole.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Judgement {
    /// Clear by the clear gap.
    Fits,
    /// Clear by less.
    Tight,
    /// Every part of the note that it breaks.
    Rule(Vec<Broken>),
    /// Overlaps by this much.
    Fouls(i64),
}

/// The gap from a washer of reach `r` at `x` to `[a, b]`.
fn gap_to(x: i64, r: i64, a: i64, b: i64) -> i64 {
    (a - (x + r)).max((x - r) - b)
}

/// Gaps of a hole to all things beside it.
pub fn gaps(facts: &Facts, row: Row, x: i64) -> Vec<(i64, Thing)> {
    let mut list = Vec::new();
    for side in [0, 1] {
        let r = facts.reach[side];
        let packed = facts
            .pieces
            .iter()
            .any(|p| p.sides[side] && x >= p.from && x <= p.to);
        for (n, joist) in facts.joists.iter().enumerate() {
            if !packed || joist.side != side {
                continue;
            }
            let metal = joist.metal[row.index()];
            let thing = Thing::Joist {
                joist: n as u8,
                hanger: metal > 0,
            };
            list.push((gap_to(x, r, joist.from - metal, joist.to + metal), thing));
        }
        for (n, thing) in facts.things.iter().enumerate() {
            if thing.kind == KeepoutKind::Solid && thing.sides[side] {
                let gap = gap_to(x, r, thing.from, thing.to);
                list.push((gap, Thing::Keepout(n as u8)));
            }
        }
    }
    list
}

/// Which packing rules a hole at `x` breaks.
fn packing_broken(facts: &Facts, x: i64) -> Vec<Broken> {
    let mut packed_somewhere = false;
    let mut broken = Vec::new();
    for side in [0, 1] {
        let off = facts.reach[side] + facts.gap;
        let mut on_side = facts.pieces.iter().filter(|p| p.sides[side]);
        let inside = on_side
            .clone()
            .any(|p| x - p.from >= facts.e_min && p.to - x >= facts.e_min);
        let outside = on_side.all(|p| p.from - x >= off || x - p.to >= off);
        packed_somewhere |= inside || !outside;
        if !inside && !outside {
            broken.push(Broken::EndDistance);
        }
    }
    if !packed_somewhere {
        broken.push(Broken::NotPacked);
    }
    broken
}

/// Zones and blocked access at `x`.
fn things_broken(facts: &Facts, x: i64) -> Vec<Broken> {
    let around = |kind: KeepoutKind, side: usize| {
        facts
            .things
            .iter()
            .any(|t| t.kind == kind && t.sides[side] && t.from < x && x < t.to)
    };
    let mut broken = Vec::new();
    if around(KeepoutKind::Zone, 0) {
        broken.push(Broken::Zone);
    }
    if around(KeepoutKind::Access, 0) && around(KeepoutKind::Access, 1) {
        broken.push(Broken::Access);
    }
    broken
}

/// Holes of its own row that are too near, and abandoned ones.
fn holes_broken(facts: &Facts, row: Row, x: i64, index: usize) -> Vec<Broken> {
    let mut broken = Vec::new();
    let others = facts.holes.iter().filter(|h| h.index != index);
    for hole in others.filter(|h| h.state != HoleState::Marked) {
        let apart = (hole.at - x).abs();
        if hole.row == row && apart < facts.s_min {
            broken.push(Broken::LeastSpacing);
        }
        if hole.state == HoleState::Abandoned && apart < 4 * facts.diameter {
            broken.push(Broken::Abandoned);
        }
    }
    broken
}

/// What the neighbours of station `n` and the rules ask of it.
fn chain_broken(facts: &Facts, plan: &[Station], n: usize) -> Vec<Broken> {
    let mut broken = Vec::new();
    let station = &plan[n];
    let near = |a: &Station, b: &Station| b.near() - a.far() < facts.s_min;
    if n > 0 && near(&plan[n - 1], station) || plan.get(n + 1).is_some_and(|s| near(station, s)) {
        broken.push(Broken::LeastSpacing);
    }
    let legal = |s: &&Station| s.legal().next().is_some();
    let before = plan[..n].iter().rev().find(legal);
    let after = plan[n + 1..].iter().find(legal);
    let profile = |s: &Station| Profile::of(facts, s);
    let (before, it, after) = (before.map(profile), profile(station), after.map(profile));
    let asked = legal(&station)
        && (asks(facts, before.as_ref(), Some(&it)).is_some_and(|a| a.second)
            || asks(facts, Some(&it), after.as_ref()).is_some_and(|a| a.first));
    let wanted = asked || facts.pattern == Pattern::Paired;
    if wanted && !station.pair() {
        broken.push(Broken::Partner);
    }
    broken
}

/// What is said of the drilled bolt `bolt` of station `n` of a plan.
pub fn judge(facts: &Facts, plan: &[Station], n: usize, bolt: &Bolt) -> Judgement {
    let Origin::Drilled(index) = bolt.origin else {
        return Judgement::Fits;
    };
    let gap = gaps(facts, bolt.row, bolt.at).iter().map(|g| g.0).min();
    if let Some(overlap) = gap.filter(|g| *g < 0) {
        return Judgement::Fouls(-overlap);
    }
    let mut broken = packing_broken(facts, bolt.at);
    broken.extend(things_broken(facts, bolt.at));
    broken.extend(holes_broken(facts, bolt.row, bolt.at, index));
    broken.extend(chain_broken(facts, plan, n));
    if !broken.is_empty() {
        return Judgement::Rule(broken);
    }
    match gap {
        Some(gap) if gap < facts.gap => Judgement::Tight,
        _ => Judgement::Fits,
    }
}

/// Play as reported: of all bolts, none if a drilled one does not fit.
pub fn play(facts: &Facts, plan: &[Station]) -> i64 {
    let mut least = SIX_INCHES;
    for (n, station) in plan.iter().enumerate() {
        for bolt in &station.bolts {
            let fits = judge(facts, plan, n, bolt) == Judgement::Fits;
            let index = match bolt.origin {
                Origin::Drilled(index) | Origin::Mark(index) => Some(index),
                Origin::New => None,
            };
            let room = slack(facts, bolt.row, bolt.at, index).unwrap_or(0);
            least = least.min(if fits { room } else { 0 });
        }
    }
    least
}
