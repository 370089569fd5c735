//! The walk: from the near end, always to the first place from which the rest
//! still costs no more than it must. So the list of stations found is the
//! lexicographically smallest of all that cost the least.
//!
//! In: a finished sweep and the least cost. Out: a trail of stations, each with
//! the ways in which it may stand; [`super::settle`] then picks one of them.

use super::cost::Cost;
use super::gates::Seen;
use super::ground::FAR;
use super::kind::Kind;
use super::old::Stop;
use super::pieces::{Piece, TO_END};
use super::sweep::Sweep;
use super::{Full, PlaceError};
use crate::job::{HOLES, Pattern};
use heapless::Vec;

/// One station of the trail, packed small: there may be 240.
#[derive(Clone, Copy, Debug)]
pub(super) struct Trodden {
    /// New: lattice index. Old: index of the first hole among the olds.
    at: u16,
    /// Number of the first of its pieces.
    hint: u16,
    /// The ways in which it may stand, a bit each, see [`code`]. None: no cover
    /// sees it, an illegal drilled station. And whether it is old.
    bits: u16,
}

/// Set in the bits of an old station.
const OLD: u16 = 1 << 15;

impl Trodden {
    /// No cover sees it: an illegal drilled station.
    pub const fn unseen(&self) -> bool {
        self.ways() == 0
    }

    /// The ways in which it may stand.
    pub const fn ways(&self) -> u16 {
        self.bits & !OLD
    }

    /// Leaves these ways only.
    pub const fn leave(&mut self, ways: u16) {
        self.bits = self.bits & OLD | ways & !OLD;
    }

    /// Lattice index of a new station.
    pub const fn new_at(&self) -> Option<u16> {
        if self.bits & OLD == 0 {
            Some(self.at)
        } else {
            None
        }
    }

    /// Index of an old station's first hole among the olds.
    pub const fn group(&self) -> Option<u8> {
        if self.bits & OLD == 0 {
            None
        } else {
            Some(self.at as u8)
        }
    }

    /// Number of the first of its pieces.
    pub const fn hint(&self) -> u16 {
        self.hint
    }
}

/// The stations of a plan.
pub(super) type Trail = Vec<Trodden, HOLES, u8>;

/// The bit of a way: new stations by turn and pair, old ones by stop and turn.
pub(super) fn code(piece: &Piece) -> u16 {
    let turn = u16::from(piece.kind.turn() == crate::words::Row::Bot);
    // At most five stops, the second and the fourth or third and fifth of them
    // with a partner gained.
    let way = if piece.kind.needs() {
        5 + u16::from(piece.kind.option() >= 3)
    } else if piece.kind.is_stop() {
        u16::from(piece.kind.option())
    } else {
        u16::from(piece.kind.pair())
    };
    1 << (2 * way + turn).min(14)
}

/// A station as it stands: where, how gates see it, what it costs.
#[derive(Clone, Copy)]
pub(super) struct Node {
    pub stop: Stop,
    pub kind: Kind,
    pub cost: Cost,
}

impl Node {
    /// A pair gained that a gate beyond must ask for.
    pub fn gained(&self, sweep: &Sweep<'_, '_>) -> bool {
        let staggered = sweep.course.pattern == Pattern::Staggered;
        self.stop.partner.is_some() && !self.kind.needs() && staggered
    }

    /// What the chain beyond it costs.
    pub fn rest(&self) -> Cost {
        self.cost.less(self.stop.own)
    }
}

/// Where the walk stands: the ways alive at the last seen station, and the
/// vias on the way from it, each with the way it was entered from.
struct Here {
    at: Option<u16>,
    /// The lattice index from which the pieces ahead are looked for.
    index: i32,
    alive: Vec<u16, 16, u8>,
    vias: Vec<(Option<u16>, u16), 32, u8>,
}

/// The next station: its place, and how to get there.
#[derive(Clone, Copy)]
struct Next {
    place: i32,
    index: u16,
    from: Option<u16>,
}

impl Sweep<'_, '_> {
    /// Walks the whole course at the least cost.
    #[inline(never)]
    pub fn walk(&mut self, least: Cost, trail: &mut Trail) -> Result<(), PlaceError> {
        trail.clear();
        let mut here = Here {
            at: None,
            index: i32::MIN,
            alive: Vec::new(),
            vias: Vec::new(),
        };
        loop {
            self.look_back(here.index)?;
            let mut first: Option<i32> = None;
            self.each_next(&here, least, |next| {
                first = Some(first.map_or(next.place, |f: i32| f.min(next.place)));
            });
            match first {
                Some(place) if place < FAR => here = self.go(&here, least, place, trail)?,
                _ if trail.len() == usize::try_from(least.stations()).unwrap_or(0) => return Ok(()),
                _ => return Err(PlaceError::Full(Full::Trail)),
            }
        }
    }

    /// Goes to the station at `place` and notes it.
    #[inline(never)]
    fn go(
        &self,
        here: &Here,
        least: Cost,
        place: i32,
        trail: &mut Trail,
    ) -> Result<Here, PlaceError> {
        let mut alive = Vec::new();
        let mut vias = Vec::new();
        let mut full = false;
        self.each_next(here, least, |next| {
            let Some(piece) = self.pieces.get(usize::from(next.index)) else {
                return;
            };
            if next.place != place {
                return;
            }
            if piece.kind.is_via() {
                full |= vias.push((next.from, next.index)).is_err();
            } else if !alive.contains(&next.index) {
                full |= alive.push(next.index).is_err();
            }
        });
        let unseen = alive.is_empty();
        let hint = if unseen {
            vias.iter().map(|via: &(Option<u16>, u16)| via.1).min()
        } else {
            alive.iter().copied().min()
        };
        let hint = hint.unwrap_or(TO_END);
        let Some(piece) = self.pieces.get(usize::from(hint)) else {
            return Err(PlaceError::Full(Full::Trail));
        };
        let new = !piece.kind.is_stop();
        let ways = alive
            .iter()
            .filter_map(|&i| self.pieces.get(usize::from(i)));
        let ways = ways.map(code).fold(0, |a, b| a | b);
        let index = self.course.up(place);
        let trodden = Trodden {
            at: if new {
                u16::try_from(index).unwrap_or(0)
            } else {
                u16::from(piece.group)
            },
            hint,
            bits: if new { ways } else { ways | OLD },
        };
        full |= trail.push(trodden).is_err();
        if full {
            return Err(PlaceError::Full(Full::Trail));
        }
        if unseen && !here.alive.is_empty() {
            return Ok(Here {
                alive: here.alive.clone(),
                vias,
                ..*here
            });
        }
        Ok(Here {
            at: trodden.new_at(),
            index,
            alive,
            vias,
        })
    }

    /// Every next station that keeps the cost least.
    fn each_next(&self, here: &Here, least: Cost, mut each: impl FnMut(Next)) {
        if !here.vias.is_empty() {
            for &(from, via) in &here.vias {
                self.past_via(here, from, via, &mut each);
            }
            return;
        }
        if here.alive.is_empty() {
            for (index, piece) in self.pieces.numbered(self.open_from()) {
                if piece.cost == least && self.starts(piece) {
                    self.place(piece).into_iter().for_each(|place| {
                        each(Next {
                            place,
                            index,
                            from: None,
                        });
                    });
                }
            }
            return;
        }
        for &from in &here.alive {
            if let Some(node) = self.node(from, here.at) {
                self.after(&node, from, &mut each);
            }
        }
    }

    /// Every station that may follow a seen one at no more than its rest.
    fn after(&self, node: &Node, from: u16, each: &mut impl FnMut(Next)) {
        let rest = node.rest();
        if rest == Cost::ZERO {
            return;
        }
        for (index, piece) in self.ahead_of(from) {
            if piece.cost == rest
                && self.in_turn(node.kind, piece.kind)
                && let Some(place) = self.first_place(node, piece)
            {
                each(Next {
                    place,
                    index,
                    from: Some(from),
                });
            }
        }
    }

    /// The pieces that may lie ahead of one: from the first that was in reach
    /// when it was found to the last of its chunk or old station.
    fn ahead_of(&self, own: u16) -> impl Iterator<Item = (u16, &Piece)> {
        let from = self.pieces.get(usize::from(own));
        let first = from.map_or(usize::MAX, |piece| usize::from(piece.link));
        let group = from.filter(|p| p.kind.is_stop()).map(|p| p.group);
        let ahead = move |(index, piece): &(u16, &Piece)| {
            *index <= own
                || match group {
                    Some(group) => piece.kind.is_stop() && piece.group == group,
                    None => !piece.kind.is_stop() && !piece.begins_chunk(),
                }
        };
        self.pieces.numbered(first).take_while(ahead)
    }

    /// The first place of a piece that may follow a station.
    fn first_place(&self, node: &Node, piece: &Piece) -> Option<i32> {
        let seen = node.stop.seen?;
        let asked = node.gained(self);
        if piece.kind.is_stop() {
            let stop = self.stop(piece)?;
            let agrees = self.follows_asked(&node.stop, seen, node.kind, piece)?;
            let ok = (agrees || !asked) && !self.passes_bound(node, piece, stop.lo);
            return ok.then_some(stop.lo);
        }
        let span = self.reach(&node.stop, piece);
        let index = self.first_after(seen, piece.kind, span, asked)?;
        let place = index * self.course.step;
        (!self.passes_bound(node, piece, place)).then_some(place)
    }

    /// Whether a drilled station that every plan must hold lies between.
    fn passes_bound(&self, node: &Node, piece: &Piece, place: i32) -> bool {
        let own = |index: usize| piece.kind.is_stop() && usize::from(piece.group) == index;
        let olds = self.course.olds;
        let first = olds.partition_point(|old| old.x <= node.stop.hi);
        let end = olds.partition_point(|old| old.x <= place);
        (first..end).any(|index| self.course.bound_at(index).is_some() && !own(index))
    }

    /// What a via goes on to, seen from the station before it.
    fn past_via(&self, here: &Here, from: Option<u16>, via: u16, each: &mut impl FnMut(Next)) {
        let Some(via) = self.pieces.get(usize::from(via)) else {
            return;
        };
        if via.link == TO_END {
            return;
        }
        let Some(next) = self.pieces.get(usize::from(via.link)) else {
            return;
        };
        let Some(stop) = self.stop(via) else { return };
        let place = if next.kind.is_stop() {
            self.stop(next).map(|s| s.lo)
        } else {
            let before = match from {
                Some(from) => self.node(from, here.at).and_then(|n| n.stop.seen),
                None => Some(Seen::START),
            };
            before
                .and_then(|seen| self.first_after(seen, next.kind, self.reach(&stop, next), false))
                .map(|index| index * self.course.step)
        };
        if let Some(place) = place {
            each(Next {
                place,
                index: via.link,
                from,
            });
        }
    }

    /// A piece as the station that stands in it: at lattice index `at` if new.
    pub fn node(&self, index: u16, at: Option<u16>) -> Option<Node> {
        let piece = self.pieces.get(usize::from(index))?;
        if piece.kind.is_stop() {
            let stop = self.stop(piece)?;
            return Some(Node {
                stop,
                kind: piece.kind,
                cost: piece.cost,
            });
        }
        let x = i32::from(at?) * self.course.step;
        let pair = piece.kind.pair();
        let stop = Stop {
            lo: x,
            hi: x,
            free_lo: x,
            free_hi: x,
            seen: Some(Seen::at(x, pair)),
            single: (!pair).then_some(piece.kind.turn()),
            partner: None,
            keeps: [false; 2],
            own: Cost::of(0, 1, if pair { 2 } else { 1 }),
        };
        Some(Node {
            stop,
            kind: piece.kind,
            cost: piece.cost,
        })
    }
}
