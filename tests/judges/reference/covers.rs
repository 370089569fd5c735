//! Covers: what the ends of packing and the `near` rules ask of neighbours.
//!
//! In: two stations that follow one another, illegal drilled ones between them
//! left out; `None` stands for "no station before" or "none after". Out:
//! whether all that is decided by these two being neighbours is kept, and which
//! of them must be a pair. Rule: the first legal station of a piece lies within
//! `e_min..e_max` of its start, the last likewise; `near one` the nearest legal
//! station, tie toward A; `near each` the nearest on each side.

use super::stations::Station;
use crate::judges::facts::{Facts, NearFact, Piece};
use boltbay_core::job::Pattern;

/// Which of two neighbours a rule asks to be a pair.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Asked {
    /// The one toward A.
    pub first: bool,
    /// The one toward B.
    pub second: bool,
}

/// An interval that must hold a station.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cover {
    /// From.
    pub from: i64,
    /// To, included.
    pub to: i64,
    /// The station must be a pair.
    pub paired: bool,
}

/// Where the first station of a piece must be.
pub fn start_cover(facts: &Facts, piece: &Piece) -> Cover {
    Cover {
        from: piece.from + facts.e_min,
        to: (piece.from + facts.farthest_start(piece)).min(piece.to - facts.e_min),
        paired: facts.ends_paired,
    }
}

/// Where the last station of a piece must be.
pub fn end_cover(facts: &Facts, piece: &Piece) -> Cover {
    Cover {
        from: (piece.to - facts.farthest_end(piece)).max(piece.from + facts.e_min),
        to: piece.to - facts.e_min,
        paired: facts.ends_paired,
    }
}

/// The covers of a `near` rule: one, or one toward A and one toward B.
pub fn near_covers(near: &NearFact) -> Vec<Cover> {
    let cover = |from, to| Cover {
        from,
        to,
        paired: near.paired,
    };
    let (a, b) = (near.at - near.within, near.at + near.within);
    match near.each {
        false => vec![cover(a, b)],
        true => vec![cover(a, near.at), cover(near.at, b)],
    }
}

/// Whether `station` does what `cover` asks; it is the one that is asked.
pub fn keeps(facts: &Facts, station: &Station, cover: &Cover) -> bool {
    let inside = |x: i64| x >= cover.from && x <= cover.to;
    let legal_inside = station.legal().filter(|x| inside(*x)).count();
    if !cover.paired || facts.pattern == Pattern::Paired {
        return legal_inside > 0;
    }
    let drilled_inside = station
        .bolts
        .iter()
        .any(|b| b.drilled() && b.slack.is_some() && inside(b.at));
    legal_inside == 2 || (station.may_stay_alone && drilled_inside)
}

/// Where a station stands to a piece: before, in, after.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Place {
    Before,
    In,
    After,
}

/// A station beside a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct AtPiece {
    place: Place,
    keeps_start: bool,
    keeps_end: bool,
}

/// A station beside the point of a `near` rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct AtPoint {
    /// A legal bolt at or before the point, at or after it.
    before: bool,
    after: bool,
    /// Of the nearest legal bolt.
    distance: i64,
    /// Does what the cover toward A, toward B asks (`one`: the same cover).
    keeps_a: bool,
    keeps_b: bool,
}

/// All that the covers need to know of a station.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Profile {
    pieces: Vec<AtPiece>,
    points: Vec<AtPoint>,
}

fn at_piece(facts: &Facts, piece: &Piece, station: &Station) -> AtPiece {
    let place = if station.legal().any(|x| x >= piece.from && x <= piece.to) {
        Place::In
    } else if station.legal().all(|x| x < piece.from) {
        Place::Before
    } else {
        Place::After
    };
    AtPiece {
        place,
        keeps_start: keeps(facts, station, &start_cover(facts, piece)),
        keeps_end: keeps(facts, station, &end_cover(facts, piece)),
    }
}

fn at_point(facts: &Facts, near: &NearFact, station: &Station) -> AtPoint {
    let covers = near_covers(near);
    let does = |cover: Option<&Cover>| cover.is_some_and(|c| keeps(facts, station, c));
    let distances = station.legal().map(|at| (at - near.at).abs());
    AtPoint {
        before: station.legal().any(|at| at <= near.at),
        after: station.legal().any(|at| at >= near.at),
        distance: distances.min().unwrap_or(i64::MAX),
        keeps_a: does(covers.first()),
        keeps_b: does(covers.last()),
    }
}

impl Profile {
    /// Of a station.
    pub fn of(facts: &Facts, station: &Station) -> Profile {
        let pieces = facts.pieces.iter();
        let nears = facts.nears.iter();
        Profile {
            pieces: pieces.map(|p| at_piece(facts, p, station)).collect(),
            points: nears.map(|n| at_point(facts, n, station)).collect(),
        }
    }

    /// What two neighbours share if nothing is decided between them.
    pub fn zone(&self) -> Vec<u8> {
        let pieces = self.pieces.iter().map(|p| p.place as u8);
        let points = self
            .points
            .iter()
            .map(|p| u8::from(p.before) + 2 * u8::from(p.after));
        pieces.chain(points).collect()
    }
}

/// What a piece asks of two neighbours.
fn piece_asks(paired: bool, first: Option<AtPiece>, second: Option<AtPiece>) -> Option<Asked> {
    let was = first.map_or(Place::Before, |s| s.place);
    let is = second.map_or(Place::After, |s| s.place);
    let mut asked = Asked::default();
    match (was, is) {
        (Place::Before, Place::After) => return None,
        (Place::Before, Place::In) => {
            second?.keeps_start.then_some(())?;
            asked.second = paired;
        }
        (Place::In, Place::After) => {
            first?.keeps_end.then_some(())?;
            asked.first = paired;
        }
        _ => {}
    }
    Some(asked)
}

/// What a `near one` asks of the two neighbours around its point.
fn one_asks(paired: bool, first: Option<AtPoint>, second: Option<AtPoint>) -> Option<Asked> {
    let around = first.is_none_or(|s| s.before) && second.is_none_or(|s| !s.before);
    if !around {
        return Some(Asked::default());
    }
    let from = |s: Option<AtPoint>| s.map_or(i64::MAX, |s| s.distance);
    let first_is_nearest = from(first) <= from(second);
    let nearest = if first_is_nearest { first } else { second };
    nearest?.keeps_a.then_some(Asked {
        first: first_is_nearest && paired,
        second: !first_is_nearest && paired,
    })
}

/// What a `near each` asks of the two neighbours around its point.
fn each_asks(paired: bool, first: Option<AtPoint>, second: Option<AtPoint>) -> Option<Asked> {
    let mut asked = Asked::default();
    if first.is_none_or(|s| s.before) && second.is_none_or(|s| !s.before) {
        first?.keeps_a.then_some(())?;
        asked.first = paired;
    }
    if first.is_none_or(|s| !s.after) && second.is_none_or(|s| s.after) {
        second?.keeps_b.then_some(())?;
        asked.second = paired;
    }
    Some(asked)
}

/// What all rules ask of two neighbours; `None` = not kept.
pub fn asks(facts: &Facts, first: Option<&Profile>, second: Option<&Profile>) -> Option<Asked> {
    let mut all = Asked::default();
    let mut add = |asked: Option<Asked>| -> Option<()> {
        let asked = asked?;
        all.first |= asked.first;
        all.second |= asked.second;
        Some(())
    };
    for n in 0..facts.pieces.len() {
        let [first, second] = [first, second].map(|s| s.map(|s| s.pieces[n]));
        add(piece_asks(facts.ends_paired, first, second))?;
    }
    for (n, near) in facts.nears.iter().enumerate() {
        let [first, second] = [first, second].map(|s| s.map(|s| s.points[n]));
        add(match near.each {
            false => one_asks(near.paired, first, second),
            true => each_asks(near.paired, first, second),
        })?;
    }
    Some(all)
}

/// Whether a cover can no longer be kept: the last legal station is `last`, and
/// no other can stand before `x`.
pub fn lost(facts: &Facts, last: Option<&Profile>, x: i64) -> bool {
    let piece_lost = |n: usize, piece: &Piece| {
        let last = last.map(|s| s.pieces[n]);
        match last.map_or(Place::Before, |s| s.place) {
            Place::Before => start_cover(facts, piece).to < x,
            Place::In => end_cover(facts, piece).to < x && last.is_some_and(|s| !s.keeps_end),
            Place::After => false,
        }
    };
    let near_lost = |n: usize, near: &NearFact| {
        let last = last.map(|s| s.points[n]);
        let toward_a = last.is_none_or(|s| s.before && !s.keeps_a);
        let toward_b = last.is_none_or(|s| !s.after);
        match near.each {
            false => near.at + near.within < x && toward_a,
            true => (near.at < x && toward_a) || (near.at + near.within < x && toward_b),
        }
    };
    let pieces = facts.pieces.iter().enumerate();
    let nears = facts.nears.iter().enumerate();
    pieces.into_iter().any(|(n, p)| piece_lost(n, p))
        || nears.into_iter().any(|(n, r)| near_lost(n, r))
}
