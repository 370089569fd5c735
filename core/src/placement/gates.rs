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
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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

/// One gate, in counts. A station y stands before it if y < cut.
#[derive(Clone, Copy, Debug)]
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
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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
}

impl Seen {
    /// Before every gate: the chain has not begun.
    pub const START: Seen = Seen {
        lo: -FAR,
        hi: -FAR,
        pair: false,
    };
    /// Beyond every gate: the chain has ended.
    pub const END: Seen = Seen {
        lo: FAR,
        hi: FAR,
        pair: false,
    };
}

impl Gate {
    /// Whether two neighbours on either side of the cut satisfy the gate. A
    /// pair must lie in the cover with both holes, a single cover takes any.
    pub fn lets(&self, before: Seen, beyond: Seen) -> bool {
        match self.ask {
            Ask::Land => self.landed(beyond),
            Ask::Leave => self.left(before),
            Ask::Either => self.landed(beyond) || self.left(before),
            Ask::Nearest | Ask::NearestBack => {
                if self.nearer_is_before(before, beyond) {
                    self.left(before)
                } else {
                    self.landed(beyond)
                }
            }
        }
    }

    /// Whether it asks for the nearer of two stations.
    pub fn is_nearest(&self) -> bool {
        matches!(self.ask, Ask::Nearest | Ask::NearestBack)
    }

    /// Whether the one before is the nearer to the point.
    pub fn nearer_is_before(&self, before: Seen, beyond: Seen) -> bool {
        let (back, on) = (self.at - before.hi, beyond.lo - self.at);
        back < on || (self.ask == Ask::Nearest && back == on)
    }

    /// Whether the one beyond satisfies it.
    pub fn landed(&self, beyond: Seen) -> bool {
        let reach = if self.pair { beyond.hi } else { beyond.lo };
        reach <= self.max && (!self.pair || beyond.pair)
    }

    /// Whether the one before satisfies it.
    pub fn left(&self, before: Seen) -> bool {
        let reach = if self.pair { before.lo } else { before.hi };
        reach >= self.min && (!self.pair || before.pair)
    }

    /// Whether a pair standing here can serve this gate.
    pub fn wants_pair_at(&self, x: i32) -> bool {
        self.pair
            && match self.ask {
                Ask::Land => self.cut <= x && x <= self.max,
                Ask::Leave => self.min <= x && x < self.cut,
                Ask::Either | Ask::Nearest | Ask::NearestBack => self.min <= x && x <= self.max,
            }
    }
}

/// Compiles covers into gates.
pub(super) fn gates(ground: &Ground<'_>) -> Result<Gates, PlaceError> {
    let mut gates = Gates::new();
    piece_gates(ground, &mut gates);
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
            (Reach::One, false) => push(&mut gates, gate),
            (Reach::One, true) => push(
                &mut gates,
                Gate {
                    ask: Ask::Nearest,
                    ..gate
                },
            ),
            (Reach::Each, _) => {
                push(
                    &mut gates,
                    Gate {
                        cut: at,
                        ask: Ask::Land,
                        ..gate
                    },
                );
                push(
                    &mut gates,
                    Gate {
                        ask: Ask::Leave,
                        ..gate
                    },
                );
            }
        }
    }
    gates.sort_unstable_by_key(|gate| gate.cut);
    Ok(gates)
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
