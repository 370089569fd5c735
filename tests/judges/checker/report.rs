//! Report: what the plan says of itself is true.
//!
//! In: the case. Out: faults. Rule: gaps are measured again, verdicts judged
//! again, the house is moved by the play and must not touch, by one count more
//! and must.

use super::gaps::gaps_of;
use super::legal::no_access;
use super::{Case, Placed, inches, why_not};
use crate::judges::facts::{Facts, SIX_INCHES};
use boltbay_core::job::{HoleState, Pattern};
use boltbay_core::placement::{Broken, InsertFrom, State, Verdict};
use boltbay_core::words::Side;

/// Runs the tests.
pub(crate) fn test(case: &mut Case) {
    order(case);
    for n in 0..case.stations.len() {
        for hole in case.stations[n].clone() {
            gap(case, &hole);
            verdict(case, &hole);
            insert(case, &hole);
        }
    }
    if case.plan.feasible {
        counts(case);
        play(case);
        let free = case.plan.blocked.is_empty() && !case.plan.too_many_holes;
        case.must(free, || "feasible, yet something blocks".to_string());
    } else {
        refused(case);
    }
}

/// From end A, top first within a place.
fn order(case: &mut Case) {
    let sorted = case.stations.windows(2).all(|two| {
        let first = |s: &Vec<Placed>| s.iter().map(|h| h.at).min();
        first(&two[0]) <= first(&two[1])
    });
    case.must(sorted, || "holes are not in order".to_string());
}

/// The gap and what it is measured to.
fn gap(case: &mut Case, hole: &Placed) {
    let all = gaps_of(&case.facts, hole.row, hole.at);
    let least = all.iter().map(|g| g.0).min();
    let said = hole.said.gap().map(|g| i64::from(g.counts()));
    case.must(said == least, || {
        format!("gap at {} said {said:?}, is {least:?}", inches(hole.at))
    });
    if let Some(thing) = hole.said.nearest() {
        let true_thing = all.iter().any(|g| Some(g.0) == least && g.1 == thing);
        case.must(true_thing, || {
            format!("nearest at {} is not {thing:?}", inches(hole.at))
        });
    }
}

/// The verdict of a drilled hole; none of any other.
fn verdict(case: &mut Case, hole: &Placed) {
    let said = hole.said.verdict();
    if hole.state != State::Drilled {
        case.must(said.is_none(), || {
            format!("{} is judged undrilled", inches(hole.at))
        });
        return;
    }
    let gap = gaps_of(&case.facts, hole.row, hole.at)
        .iter()
        .map(|g| g.0)
        .min()
        .unwrap_or(i64::MAX);
    let note = breaks_note(case, hole);
    let right = match said {
        None => false,
        Some(Verdict::Fouls(by)) => gap < 0 && i64::from(by.counts()) == -gap,
        Some(Verdict::Rule(broken, _)) => gap >= 0 && (note || of_chain(broken)),
        Some(Verdict::Tight) => !note && gap >= 0 && gap < case.facts.gap,
        Some(Verdict::Fits) => !note && gap >= case.facts.gap,
    };
    case.must(right, || {
        format!(
            "{:?} {} said {said:?}, gap {gap}, note {note}",
            hole.row,
            inches(hole.at)
        )
    });
}

/// Rules that depend on the neighbours of a hole, which are not judged here.
fn of_chain(broken: Broken) -> bool {
    matches!(
        broken,
        Broken::LeastSpacing | Broken::GreatestSpacing | Broken::Partner
    )
}

/// Joists and solid things gone, it still may not stand there.
fn breaks_note(case: &Case, hole: &Placed) -> bool {
    let mut alone = case.facts.clone();
    alone.joists.clear();
    alone
        .things
        .retain(|t| t.kind != boltbay_core::job::KeepoutKind::Solid);
    why_not(&alone, hole.row, hole.at, 0, hole.index).is_some()
}

/// The side to insert from.
fn insert(case: &mut Case, hole: &Placed) {
    let blocked = [0, 1].map(|side| no_access(&case.facts, side, hole.at));
    let right = match blocked {
        [false, false] => InsertFrom::Either,
        [true, false] => InsertFrom::Side(Side::S),
        [false, true] => InsertFrom::Side(Side::N),
        [true, true] => return,
    };
    let alone = case
        .stations
        .iter()
        .flatten()
        .filter(|h| h.said.station == hole.said.station)
        .all(|h| h.at == hole.at);
    case.must(!alone || hole.said.insert_from == right, || {
        format!(
            "insert at {} from {:?}",
            inches(hole.at),
            hole.said.insert_from
        )
    });
}

/// Numbers of a feasible plan.
fn counts(case: &mut Case) {
    let (said, is) = (usize::from(case.plan.stations), case.stations.len());
    case.must(said == is, || format!("{said} stations said, {is} listed"));
    if case.facts.pattern == Pattern::Single {
        let pairs = case.stations.iter().any(|s| s.len() > 1);
        case.must(!pairs, || "a pair in one row".to_string());
    }
}

/// All holes may stand with the house moved by `moved`.
fn all_stand(facts: &Facts, stations: &[Vec<Placed>], moved: i64) -> bool {
    stations
        .iter()
        .flatten()
        .all(|h| why_not(facts, h.row, h.at, moved, h.index).is_none())
}

/// Moves the house to and fro.
fn play(case: &mut Case) {
    let Some(play) = case.plan.play.map(|p| i64::from(p.counts())) else {
        case.fault("no play said".to_string());
        return;
    };
    let misfit = |h: &Placed| h.state == State::Drilled && h.said.verdict() != Some(Verdict::Fits);
    if case.stations.iter().flatten().any(misfit) {
        case.must(play == 0, || {
            format!("play {play} with a hole that does not fit")
        });
        return;
    }
    for part in -32..=32 {
        let moved = play * part / 32;
        let stand = all_stand(&case.facts, &case.stations, moved);
        case.must(stand, || format!("touches when moved by {}", inches(moved)));
    }
    let more = [play + 1, -play - 1];
    let touches = more
        .iter()
        .any(|moved| !all_stand(&case.facts, &case.stations, *moved));
    case.must(touches || play == SIX_INCHES, || {
        format!("moves by more than {}", inches(play))
    });
    case.must(play <= SIX_INCHES, || "play above 6 in".to_string());
}

/// What a refusal must hold.
fn refused(case: &mut Case) {
    let plan = case.plan;
    let empty = plan.play.is_none() && plan.largest_spacing.is_none() && plan.struck_out.is_empty();
    case.must(empty, || "a refusal with figures".to_string());
    let why = !plan.blocked.is_empty() || plan.too_many_holes;
    case.must(why, || "a refusal without a reason".to_string());
    let there = |h: &&crate::judges::facts::HoleFact| h.state != HoleState::Abandoned;
    let wanted = case.facts.holes.iter().filter(there).count();
    let listed = case.stations.iter().flatten().count();
    case.must(wanted == listed, || {
        format!("{wanted} holes are there, {listed} listed")
    });
}
