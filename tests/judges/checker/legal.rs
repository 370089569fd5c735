//! Legal: looks at one bolt with the house moved, and says what is wrong.
//!
//! In: facts, row, station, how far everything that stays is moved. Out: the
//! first thing that forbids it, in words; nothing if it may stand. Rule: the
//! washer with its clear gap is laid on the face of the packing and compared
//! with each thing; touching is allowed.

use super::inches;
use crate::judges::facts::Facts;
use boltbay_core::job::{HoleState, KeepoutKind};
use boltbay_core::words::Row;

/// How a side is at `x`: packed, bare, or neither.
enum Side {
    Packed,
    Bare,
    TooNearAnEnd,
}

fn side(facts: &Facts, side: usize, x: i64) -> Side {
    let mut bare = true;
    for piece in facts.pieces.iter().filter(|p| p.sides[side]) {
        let to_ends = (x - piece.from).min(piece.to - x);
        if to_ends >= facts.e_min {
            return Side::Packed;
        }
        if -to_ends < facts.reach[side] + facts.gap {
            bare = false;
        }
    }
    if bare { Side::Bare } else { Side::TooNearAnEnd }
}

/// The washer at `x` with its clear gap overlaps `[a, b]`.
fn overlaps(facts: &Facts, side: usize, x: i64, a: i64, b: i64) -> bool {
    let washer = facts.reach[side] + facts.gap;
    let (left, right) = (x - washer, x + washer);
    left < b && right > a
}

/// Joists and solid things of a side.
fn on_side(
    facts: &Facts,
    row: Row,
    side: usize,
    x: i64,
    moved: i64,
    packed: bool,
) -> Option<String> {
    for joist in facts.joists.iter().filter(|j| packed && j.side == side) {
        let metal = joist.metal[row.index()];
        let (a, b) = (joist.from + moved - metal, joist.to + moved + metal);
        if overlaps(facts, side, x, a, b) {
            return Some(format!("joist at {}", inches(joist.from)));
        }
    }
    for thing in &facts.things {
        let moved = if thing.stays { moved } else { 0 };
        let solid = thing.kind == KeepoutKind::Solid && thing.sides[side];
        if solid && overlaps(facts, side, x, thing.from + moved, thing.to + moved) {
            return Some(format!("solid thing at {}", inches(thing.from)));
        }
    }
    None
}

/// Inside a thing of this kind on `side`.
fn inside(facts: &Facts, kind: KeepoutKind, side: usize, x: i64, moved: i64) -> bool {
    facts.things.iter().any(|thing| {
        let moved = if thing.stays { moved } else { 0 };
        thing.kind == kind && thing.sides[side] && thing.from + moved < x && x < thing.to + moved
    })
}

/// Access of `side` is blocked at `x`, nothing moved.
pub(crate) fn no_access(facts: &Facts, side: usize, x: i64) -> bool {
    inside(facts, KeepoutKind::Access, side, x, 0)
}

/// Too near a hole that is there for good.
fn too_near_a_hole(facts: &Facts, row: Row, x: i64, itself: Option<usize>) -> bool {
    facts.holes.iter().any(|hole| {
        let apart = (hole.at - x).abs();
        let there = hole.state != HoleState::Marked && Some(hole.index) != itself;
        let abandoned = hole.state == HoleState::Abandoned;
        there
            && ((hole.row == row && apart < facts.s_min)
                || (abandoned && apart < 4 * facts.diameter))
    })
}

/// Why a bolt of `row` may not stand at `x` when all that stays is `moved`
/// toward B; `None` = it may.
pub fn why_not(
    facts: &Facts,
    row: Row,
    x: i64,
    moved: i64,
    itself: Option<usize>,
) -> Option<String> {
    let mut packed_sides = 0;
    for which in [0, 1] {
        let packed = match side(facts, which, x) {
            Side::Packed => true,
            Side::Bare => false,
            Side::TooNearAnEnd => return Some("too near an end of packing".to_string()),
        };
        packed_sides += usize::from(packed);
        if let Some(words) = on_side(facts, row, which, x, moved, packed) {
            return Some(words);
        }
    }
    if packed_sides == 0 {
        return Some("no packing here".to_string());
    }
    if inside(facts, KeepoutKind::Zone, 0, x, moved) {
        return Some("inside a zone".to_string());
    }
    let access = |which| inside(facts, KeepoutKind::Access, which, x, moved);
    if access(0) && access(1) {
        return Some("no access from either side".to_string());
    }
    too_near_a_hole(facts, row, x, itself).then(|| "too near a hole".to_string())
}
