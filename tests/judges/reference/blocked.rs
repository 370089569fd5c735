//! Blocked: every stretch that no plan can cross.
//!
//! In: facts of a job without a plan. Out: the stretches, each with its limit
//! and by how much it is over. Rule: `reach` two neighbouring legal points too
//! far apart (drilled ones, and marks that may stay, are legal points); `start`
//! and `end` nothing legal where a piece's first or last station must be;
//! `cover` nothing legal near a point; `chain` each step possible, no chain. No
//! play is asked for; marks keep no distance.

use super::covers::{Cover, end_cover, near_covers, start_cover};
use super::legal::slack;
use super::stations::{Bolt, Origin, Station};
use super::sweep::{Limits, Sweep};
use crate::judges::facts::{Facts, Piece};
use boltbay_core::job::{HoleState, Pattern};
use boltbay_core::placement::BlockKind;
use boltbay_core::words::Row;

/// One blocking stretch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// Its kind.
    pub kind: BlockKind,
    /// p.
    pub from: i64,
    /// q.
    pub to: i64,
    /// s_max or e_max.
    pub limit: Option<i64>,
    /// Over the limit by.
    pub excess: Option<i64>,
}

/// Lattice points and holes legal as a single or a pair is asked, ascending.
struct Points {
    /// Legal in any row that the pattern may use there.
    any: Vec<i64>,
    /// Legal as a cover asks for one station.
    single: Vec<i64>,
    /// Legal as a cover asks for a pair.
    pair: Vec<i64>,
}

fn points(facts: &Facts, sweep: &Sweep) -> Points {
    let mut any = Vec::new();
    let mut single = Vec::new();
    let mut pair = Vec::new();
    for n in 0..=facts.length / facts.step {
        let x = n * facts.step;
        let legal = |row: Row| slack(facts, row, x, None).is_some();
        let (top, bot) = (legal(Row::Top), legal(Row::Bot));
        let one = match facts.pattern {
            Pattern::Single => top,
            Pattern::Staggered => top || bot,
            Pattern::Paired => top && bot,
        };
        if one {
            any.push(x);
            single.push(x);
        }
        if top && bot {
            pair.push(x);
        }
    }
    for hole in facts.holes.iter().filter(|h| h.state == HoleState::Drilled) {
        any.push(hole.at);
    }
    for station in &sweep.stations {
        let mark = |b: &&Bolt| matches!(b.origin, Origin::Mark(_));
        any.extend(station.bolts.iter().filter(mark).map(|b| b.at));
        single.extend(station.legal());
        if station.pair() || station.may_stay_alone {
            pair.extend(station.legal());
        }
    }
    for list in [&mut any, &mut single, &mut pair] {
        list.sort_unstable();
        list.dedup();
    }
    Points { any, single, pair }
}

impl Points {
    /// Legal as `cover` asks.
    fn asked(&self, cover: &Cover) -> &[i64] {
        if cover.paired {
            &self.pair
        } else {
            &self.single
        }
    }

    /// Nothing legal in `cover`.
    fn none_in(&self, cover: &Cover) -> bool {
        let inside = |x: &&i64| **x >= cover.from && **x <= cover.to;
        self.asked(cover).iter().find(inside).is_none()
    }
}

/// A blocked end of a piece.
fn end_blocked(facts: &Facts, points: &Points, piece: &Piece, start: bool) -> Option<Stretch> {
    let cover = if start {
        start_cover(facts, piece)
    } else {
        end_cover(facts, piece)
    };
    if !points.none_in(&cover) {
        return None;
    }
    let of_piece = points
        .asked(&cover)
        .iter()
        .filter(|x| **x >= piece.from && **x <= piece.to);
    let (from, to) = if start {
        (piece.from, of_piece.min().copied().unwrap_or(piece.to))
    } else {
        (of_piece.max().copied().unwrap_or(piece.from), piece.to)
    };
    Some(Stretch {
        kind: if start {
            BlockKind::Start
        } else {
            BlockKind::End
        },
        from,
        to,
        limit: Some(facts.e_max),
        excess: Some(to - from - facts.e_max),
    })
}

/// A blocked `near` cover.
fn near_blocked(points: &Points, cover: &Cover) -> Option<Stretch> {
    let away = |x: &i64| (cover.from - x).max(x - cover.to);
    points.none_in(cover).then(|| Stretch {
        kind: BlockKind::Cover,
        from: cover.from,
        to: cover.to,
        limit: None,
        excess: points.asked(cover).iter().map(away).min(),
    })
}

/// Places where a plan must have a station: covers, and drilled holes.
fn musts(facts: &Facts) -> Vec<(i64, i64, bool)> {
    let of = |c: Cover| (c.from, c.to, c.paired);
    let ends = facts
        .pieces
        .iter()
        .flat_map(|p| [start_cover(facts, p), end_cover(facts, p)]);
    let nears = facts.nears.iter().flat_map(near_covers);
    let drilled = facts
        .holes
        .iter()
        .filter(|h| h.state == HoleState::Drilled)
        .map(|h| (h.at, h.at, false));
    ends.chain(nears).map(of).chain(drilled).collect()
}

/// Two neighbouring legal points that a chain has to step between and cannot.
fn reaches(facts: &Facts, points: &Points, sweep: &Sweep) -> Vec<Stretch> {
    let musts = musts(facts);
    points
        .any
        .windows(2)
        .filter_map(|two| {
            let [p, q] = *two else { return None };
            let toward_a = |m: &(i64, i64, bool)| m.0 <= p && m.1 < q;
            let toward_b = |m: &(i64, i64, bool)| m.1 >= q && m.0 > p;
            let crossed = musts.iter().any(toward_a) && musts.iter().any(toward_b);
            let over = q - p > facts.s_max && !sweep.exempt(p, q) && !facts.allows_step(p, q);
            (over && crossed).then_some(Stretch {
                kind: BlockKind::Reach,
                from: p,
                to: q,
                limit: Some(facts.s_max),
                excess: Some(q - p - facts.s_max),
            })
        })
        .collect()
}

/// Where the forward sweep ends, and what the backward sweep then meets first.
fn chain(facts: &Facts, sweep: &Sweep) -> Stretch {
    let limits = Limits {
        play: 0,
        spacing: facts.widest(),
    };
    let (forward, backward) = sweep.reachable(limits);
    let whole = facts.pieces.first().map_or((0, 0), |p| (p.from, p.to));
    let near = |n: &usize| sweep.stations.get(*n).map(Station::near);
    let farthest = forward.iter().filter_map(near).max();
    let nearest = backward
        .iter()
        .filter_map(near)
        .filter(|x| farthest.is_none_or(|p| *x > p))
        .min();
    Stretch {
        kind: BlockKind::Chain,
        from: farthest.unwrap_or(whole.0),
        to: nearest.unwrap_or(whole.1),
        limit: None,
        excess: None,
    }
}

/// All stretches that block a job without a plan, from end A; `chain` only
/// where nothing else blocks.
pub fn blocked(facts: &Facts) -> Vec<Stretch> {
    let sweep = Sweep::new(facts);
    let points = points(facts, &sweep);
    let mut list = reaches(facts, &points, &sweep);
    for piece in &facts.pieces {
        list.extend(end_blocked(facts, &points, piece, true));
        list.extend(end_blocked(facts, &points, piece, false));
    }
    for cover in facts.nears.iter().flat_map(near_covers) {
        list.extend(near_blocked(&points, &cover));
    }
    if list.is_empty() {
        list.push(chain(facts, &sweep));
    }
    list.sort_by_key(|s| (s.from, s.to, s.kind as u8));
    list.dedup();
    list
}
