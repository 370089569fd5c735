//! Covers: first and last bolts of each piece, bolts near points, pairs only
//! where something asks for them.
//!
//! In: the case. Out: faults. Rule: illegal drilled holes are looked through; a
//! drilled hole whose partner would not be legal counts as the pair.

use super::{Case, Placed, inches, why_not};
use crate::judges::facts::NearFact;
use boltbay_core::job::Pattern;
use boltbay_core::placement::State;

/// Stations that have legal holes, with the places of these.
fn legal(case: &Case) -> Vec<(usize, Vec<i64>)> {
    let places = |station: &Vec<Placed>| -> Vec<i64> {
        station.iter().filter(|h| h.legal).map(|h| h.at).collect()
    };
    let all = case.stations.iter().map(places).enumerate();
    all.filter(|(_, places)| !places.is_empty()).collect()
}

/// Station `n` is a pair within `from..=to`, or all that its drilled hole can be.
fn counts_as_pair(case: &Case, n: usize, from: i64, to: i64) -> bool {
    let station = &case.stations[n];
    let inside = |h: &&Placed| h.legal && h.at >= from && h.at <= to;
    if station.iter().filter(inside).count() == 2 {
        return true;
    }
    let drilled = |h: &&Placed| h.state == State::Drilled;
    let Some(hole) = station.iter().filter(inside).find(drilled) else {
        return false;
    };
    let mate = station.len() == 2;
    mate || why_not(&case.facts, hole.row.other(), hole.at, 0, None).is_some()
}

/// Who must be a pair so far.
struct Asked(Vec<bool>);

impl Asked {
    /// Tests station `n` against a cover.
    fn of(&mut self, case: &mut Case, n: Option<usize>, cover: (i64, i64), pair: bool, what: &str) {
        let (from, to) = cover;
        let words = |fault: &str| format!("{what} {}..{}: {fault}", inches(from), inches(to));
        let inside = |h: &Placed| h.legal && h.at >= from && h.at <= to;
        let Some(n) = n.filter(|n| case.stations[*n].iter().any(inside)) else {
            case.fault(words("no bolt"));
            return;
        };
        if pair && case.facts.pattern != Pattern::Paired {
            let is_pair = counts_as_pair(case, n, from, to);
            case.must(is_pair, || words("no pair"));
            self.0[n] = true;
        }
    }
}

/// Runs the tests.
pub(crate) fn test(case: &mut Case) {
    let mut asked = Asked(vec![false; case.stations.len()]);
    ends(case, &mut asked);
    for near in case.facts.nears.clone() {
        around(case, &mut asked, &near);
    }
    if case.facts.pattern == Pattern::Paired {
        return;
    }
    for (n, asked) in asked.0.iter().enumerate() {
        let station = &case.stations[n];
        let made = station.len() == 2 && station.iter().any(|h| h.state == State::Planned);
        let place = station[0].at;
        case.must(!made || *asked, || {
            format!("nothing asks for a pair at {}", inches(place))
        });
    }
}

/// First and last station of each piece.
fn ends(case: &mut Case, asked: &mut Asked) {
    let (e_min, e_max, paired) = (case.facts.e_min, case.facts.e_max, case.facts.ends_paired);
    for piece in case.facts.pieces.clone() {
        let of_piece: Vec<usize> = legal(case)
            .into_iter()
            .filter(|(_, at)| at.iter().any(|x| *x >= piece.from && *x <= piece.to))
            .map(|(n, _)| n)
            .collect();
        let first = (piece.from + e_min, piece.from + e_max);
        let last = (piece.to - e_max, piece.to - e_min);
        asked.of(case, of_piece.first().copied(), first, paired, "start");
        asked.of(case, of_piece.last().copied(), last, paired, "end");
    }
}

/// One near a point, or one on each side.
fn around(case: &mut Case, asked: &mut Asked, near: &NearFact) {
    let all = legal(case);
    let (at, a, b) = (near.at, near.at - near.within, near.at + near.within);
    if !near.each {
        let distance = |places: &Vec<i64>| places.iter().map(|x| (x - at).abs()).min();
        let nearest = all.iter().min_by_key(|(n, places)| (distance(places), *n));
        asked.of(case, nearest.map(|n| n.0), (a, b), near.paired, "near");
        return;
    }
    let toward_a = all
        .iter()
        .rfind(|(_, places)| places.iter().any(|x| *x <= at));
    let toward_b = all
        .iter()
        .find(|(_, places)| places.iter().any(|x| *x >= at));
    asked.of(case, toward_a.map(|n| n.0), (a, at), near.paired, "near");
    asked.of(case, toward_b.map(|n| n.0), (at, b), near.paired, "near");
}
