//! Spacing: neighbours neither too near nor too far, and rows take turns.
//!
//! In: the case. Out: faults. Rule: least spacing always but between two
//! drilled stations; greatest unless a long bare stretch lies between; new
//! singles take the other row than the turn row before them.

use super::{Case, Placed, inches};
use crate::judges::facts::Facts;
use boltbay_core::job::Pattern;
use boltbay_core::placement::State;
use boltbay_core::words::Row;

/// Nearest and farthest from end A.
fn extent(station: &[Placed]) -> (i64, i64) {
    let at = station.iter().map(|h| h.at);
    (at.clone().min().unwrap_or(0), at.max().unwrap_or(0))
}

/// Every place between `from` and `to` that starts a stretch packed on neither
/// side, with the length of the stretch.
pub(crate) fn longest_bare(facts: &Facts, from: i64, to: i64) -> i64 {
    let mut starts: Vec<i64> = vec![from];
    starts.extend(facts.pieces.iter().map(|p| p.to));
    let mut longest = 0;
    for start in starts.into_iter().filter(|s| *s >= from && *s < to) {
        let packed = facts.pieces.iter().any(|p| p.from <= start && start < p.to);
        if packed {
            continue;
        }
        let next = facts.pieces.iter().map(|p| p.from).filter(|f| *f > start);
        longest = longest.max(next.min().unwrap_or(to).min(to) - start);
    }
    longest
}

/// The greatest spacing does not hold between these two places.
pub(crate) fn across_bare(facts: &Facts, from: i64, to: i64) -> bool {
    let bare = longest_bare(facts, from, to);
    bare > 0 && bare > facts.s_max - 2 * facts.e_min
}

/// Runs the tests.
pub(crate) fn test(case: &mut Case) {
    neighbours(case);
    turns(case);
    let both = case.facts.pattern == Pattern::Paired;
    for station in case.stations.clone() {
        let new = station.iter().all(|h| h.state == State::Planned);
        let place = extent(&station).0;
        let kept = station.iter().any(|h| h.state == State::Marked);
        let right = !both || station.len() == 2 || !(new || kept);
        case.must(right, || format!("single at {} in pairs", inches(place)));
        let bottom = case.facts.pattern == Pattern::Single
            && station
                .iter()
                .any(|h| h.row == Row::Bot && h.state != State::Drilled);
        case.must(!bottom, || format!("bottom row at {}", inches(place)));
    }
}

/// Distances between neighbours, and the largest as reported.
fn neighbours(case: &mut Case) {
    let mut largest = None;
    for n in 1..case.stations.len() {
        let (first, second) = (case.stations[n - 1].clone(), case.stations[n].clone());
        let ((a, b), (c, d)) = (extent(&first), extent(&second));
        let drilled = |s: &[Placed]| s.iter().any(|h| h.state == State::Drilled);
        let waived = drilled(&first) && drilled(&second) && c >= b;
        case.must(waived || c - b >= case.facts.s_min, || {
            format!(
                "only {} between {} and {}",
                inches(c - b),
                inches(b),
                inches(c)
            )
        });
        case.must(!really_one(case, &first, &second), || {
            format!("{} and {} are one station", inches(b), inches(c))
        });
        if across_bare(&case.facts, b, c) {
            continue;
        }
        largest = largest.max(Some(d - a));
        case.must(d - a <= case.facts.s_max, || {
            format!("{} between {} and {}", inches(d - a), inches(a), inches(d))
        });
    }
    let said = case.plan.largest_spacing.map(|l| i64::from(l.counts()));
    case.must(said == largest, || {
        format!("largest spacing said {said:?}, is {largest:?}")
    });
}

/// Two single holes that were there and are at most D apart in two rows.
fn really_one(case: &Case, first: &[Placed], second: &[Placed]) -> bool {
    let ([one], [two]) = (first, second) else {
        return false;
    };
    let there = one.state != State::Planned && two.state != State::Planned;
    there && one.row != two.row && two.at - one.at <= case.facts.diameter
}

/// Some choice of the first turn row explains all new singles.
fn turns(case: &mut Case) {
    if case.facts.pattern != Pattern::Staggered {
        return;
    }
    let explained = [Row::Top, Row::Bot]
        .iter()
        .any(|first| keeps_turns(&case.stations, *first));
    case.must(explained, || "rows do not take turns".to_string());
}

/// Walks the plan; `turn` is the turn row that a first pair would have.
fn keeps_turns(stations: &[Vec<Placed>], first: Row) -> bool {
    let mut turn = None;
    for station in stations {
        match station.as_slice() {
            [one] => {
                if one.state == State::Planned && turn == Some(one.row) {
                    return false;
                }
                turn = Some(one.row);
            }
            _ => turn = Some(turn.map_or(first, Row::other)),
        }
    }
    true
}
