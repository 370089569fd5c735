//! Gates: the engineer's covers as conditions on two neighbouring stations.
//!
//! A cover asks for a station (or a pair) in an interval. Seen from the chain
//! it is a gate: whichever two neighbouring legal stations stand on either side
//! of the gate's cut, the nearer ones must lie in the cover, or the cover is
//! empty. So the planner only ever looks at two neighbours.
//!
//! ```text
//!   piece |<- e_min ->|== cover ==|          start: first station beyond the
//!         cut         min        max         cut is at most at max
//! ```

use super::PlaceError;
use super::ground::{FAR, Ground};
use crate::job::Reach;
use heapless::Vec;

/// 8 pieces and 8 near rules make two gates each.
pub(super) const GATES: usize = 32;

/// All gates, sorted by cut.
pub(super) type Gates = Vec<Gate, GATES, u8>;

/// What a gate asks of the two stations beside its cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Ask {
    /// The one beyond is at most at `max`: the first of a piece.
    Land,
    /// The one before is at least at `min`: the last of a piece.
    Leave,
    /// Either is within: a `near` point that asks for one.
    Either,
    /// The nearer one is within, and is the pair; tie to the one before.
    Nearest,
    /// The same on a course seen from end B: tie to the one beyond.
    NearestBack,
}

/// One gate, in counts. A station y stands before it if y < cut. In order by
/// cut, then by all else: every machine sorts them alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Gate {
    pub cut: i32,
    /// Least station before the cut that satisfies (leave, either, nearest).
    pub min: i32,
    /// Greatest station beyond the cut that satisfies (land, either, nearest).
    pub max: i32,
    /// The point of a `near` rule.
    pub at: i32,
    pub ask: Ask,
    pub pair: bool,
    /// Which rule made it.
    pub origin: Origin,
}

/// Where a gate comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Origin {
    /// The piece of this index in the ground's order.
    Piece(u8),
    /// The near rule of this index on the card.
    Near(u8),
}

/// A station as gates see it: the span of its holes that satisfy covers.
#[derive(Clone, Copy, Debug)]
pub(super) struct Seen {
    pub lo: i32,
    pub hi: i32,
    pub pair: bool,
    /// A drilled hole of it has no legal partner: alone it counts as the pair.
    pub lone: bool,
}

impl Seen {
    /// Before every gate: the chain has not begun.
    pub const START: Seen = Seen::at(-FAR, false);
    /// Beyond every gate: the chain has ended.
    pub const END: Seen = Seen::at(FAR, false);

    /// A station with its holes in one place.
    pub const fn at(x: i32, pair: bool) -> Seen {
        Seen {
            lo: x,
            hi: x,
            pair,
            lone: false,
        }
    }

    fn any_in(self, from: i32, to: i32) -> bool {
        let inside = |x: i32| from <= x && x <= to;
        inside(self.lo) || inside(self.hi)
    }

    /// Distance of the nearest hole.
    fn off(self, x: i32) -> i32 {
        self.lo
            .abs_diff(x)
            .min(self.hi.abs_diff(x))
            .min(i32::MAX as u32) as i32
    }
}

impl Gate {
    /// Whether the cut lies between two neighbours. A station with a hole on
    /// either side of it serves both.
    pub fn crosses(&self, before: Seen, beyond: Seen) -> bool {
        if self.ask == Ask::Land {
            return before.hi < self.cut && self.cut <= beyond.hi;
        }
        before.lo < self.cut && self.cut <= beyond.lo
    }

    /// Whether two neighbours on either side of the cut satisfy the gate.
    pub fn lets(&self, before: Seen, beyond: Seen) -> bool {
        match self.ask {
            Ask::Land => self.held_by(beyond),
            Ask::Leave => self.held_by(before),
            Ask::Either => self.held_by(beyond) || self.held_by(before),
            Ask::Nearest | Ask::NearestBack => {
                self.held_by(if self.nearer_is_before(before, beyond) {
                    before
                } else {
                    beyond
                })
            }
        }
    }

    /// Whether it asks for the nearer of two stations.
    pub fn is_nearest(&self) -> bool {
        matches!(self.ask, Ask::Nearest | Ask::NearestBack)
    }

    /// Whether the one before is the nearer to the point.
    pub fn nearer_is_before(&self, before: Seen, beyond: Seen) -> bool {
        let (back, on) = (before.off(self.at), beyond.off(self.at));
        back < on || (self.ask == Ask::Nearest && back == on)
    }

    /// The interval that must hold a station.
    pub fn cover(&self) -> (i32, i32) {
        match self.ask {
            Ask::Land => (self.cut, self.max),
            Ask::Leave => (self.min, self.cut - 1),
            Ask::Either | Ask::Nearest | Ask::NearestBack => (self.min, self.max),
        }
    }

    /// Whether a station does what the cover asks: any hole in it, or for a
    /// pair both, or a drilled one without a legal partner.
    pub fn held_by(&self, station: Seen) -> bool {
        let (from, to) = self.cover();
        if !self.pair || station.lone {
            return station.any_in(from, to);
        }
        station.pair && from <= station.lo && station.hi <= to
    }

    /// Whether a pair standing here can serve this gate.
    pub fn wants_pair_at(&self, x: i32) -> bool {
        if !self.pair {
            return false;
        }
        let (from, to) = self.cover();
        from <= x && x <= to
    }
}

/// Compiles covers into gates.
pub(super) fn gates(ground: &Ground<'_>, gates: &mut Gates) -> Result<(), PlaceError> {
    gates.clear();
    piece_gates(ground, gates);
    for (index, near) in (0_u8..).zip(&ground.job.nears) {
        let at = ground.frame.station(near.at).map_err(PlaceError::Frame)?;
        let at = at.counts();
        let within = near.within.counts();
        let gate = Gate {
            cut: at.saturating_add(1),
            min: at.saturating_sub(within).max(-FAR),
            max: at.saturating_add(within).min(FAR),
            at,
            ask: Ask::Either,
            pair: near.paired,
            origin: Origin::Near(index),
        };
        match (near.reach, gate.pair) {
            (Reach::One, false) => push(gates, gate),
            (Reach::One, true) => push(
                gates,
                Gate {
                    ask: Ask::Nearest,
                    ..gate
                },
            ),
            (Reach::Each, _) => {
                push(
                    gates,
                    Gate {
                        cut: at,
                        ask: Ask::Land,
                        ..gate
                    },
                );
                push(
                    gates,
                    Gate {
                        ask: Ask::Leave,
                        ..gate
                    },
                );
            }
        }
    }
    gates.sort_unstable();
    Ok(())
}

/// First and last station of every packing piece.
fn piece_gates(ground: &Ground<'_>, gates: &mut Gates) {
    let pair = ground.rule.ends_paired;
    let e_max = ground.rule.e_max.counts();
    for (index, piece) in (0_u8..).zip(&ground.pieces) {
        let (inner_from, inner_to) = (
            piece.from.saturating_add(ground.e_min),
            piece.to.saturating_sub(ground.e_min),
        );
        let gate = Gate {
            cut: piece.from,
            min: piece
                .to
                .saturating_sub(ground.end_limit(Origin::Piece(index), false, e_max)),
            max: piece
                .from
                .saturating_add(ground.end_limit(Origin::Piece(index), true, e_max)),
            at: piece.from,
            ask: Ask::Land,
            pair,
            origin: Origin::Piece(index),
        };
        push(
            gates,
            Gate {
                max: gate.max.min(inner_to),
                ..gate
            },
        );
        push(
            gates,
            Gate {
                cut: piece.to.saturating_add(1),
                min: gate.min.max(inner_from),
                ask: Ask::Leave,
                ..gate
            },
        );
    }
}

impl Ground<'_> {
    /// The farthest that a first (or last) bolt may stand from a piece's end:
    /// e_max, unless the engineer is asked to allow more at this one end.
    fn end_limit(&self, origin: Origin, start: bool, e_max: i32) -> i32 {
        match self.relaxed.end {
            Some((end, limit)) if (end.origin(), end.start) == (origin, start) => {
                limit.counts().max(e_max)
            }
            _ => e_max,
        }
    }
}

fn push(gates: &mut Gates, gate: Gate) {
    // 8 pieces and 8 rules of two gates each always fit.
    let _ = gates.push(gate);
}
