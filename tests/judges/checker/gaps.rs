//! Gaps: a ruler laid from the washer's edge to each thing beside it.
//!
//! In: facts, row, station. Out: every gap and what it is to. Rule: joists with
//! the hanger that counts where their side is packed, solid things on their
//! side; overlap is negative.

use crate::judges::facts::Facts;
use boltbay_core::job::KeepoutKind;
use boltbay_core::placement::Thing;
use boltbay_core::words::Row;

/// From the washer `[x - r, x + r]` to `[a, b]`.
fn ruler(x: i64, r: i64, a: i64, b: i64) -> i64 {
    let (left, right) = (x - r, x + r);
    if right <= a {
        a - right
    } else if left >= b {
        left - b
    } else {
        -(right - a).min(b - left)
    }
}

/// Every gap of a hole.
pub(crate) fn gaps_of(facts: &Facts, row: Row, x: i64) -> Vec<(i64, Thing)> {
    let mut found = Vec::new();
    for (n, joist) in facts.joists.iter().enumerate() {
        let holds =
            |p: &crate::judges::facts::Piece| p.sides[joist.side] && p.from <= x && x <= p.to;
        if facts.pieces.iter().any(holds) {
            let metal = joist.metal[row.index()];
            let reach = facts.reach[joist.side];
            let gap = ruler(x, reach, joist.from - metal, joist.to + metal);
            let joist = n as u8;
            let hanger = metal > 0;
            found.push((gap, Thing::Joist { joist, hanger }));
        }
    }
    for (n, thing) in facts.things.iter().enumerate() {
        for side in [0, 1] {
            if thing.kind == KeepoutKind::Solid && thing.sides[side] {
                let gap = ruler(x, facts.reach[side], thing.from, thing.to);
                found.push((gap, Thing::Keepout(n as u8)));
            }
        }
    }
    found
}
