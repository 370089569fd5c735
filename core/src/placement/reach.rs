//! Reach: which place may come next after which, by spacing and gates.
//!
//! In: two neighbours, at least one of them a run of lattice points. Out: the
//! part of the run from which, or the first point at which, the step is legal.
//! Gates are the same all over a run, but for those that ask which of the two
//! neighbours is nearer to a point: there y + z decides, and with the gates in
//! order along the beam the first few go to y, the rest to z.

use super::chunks::Chunk;
use super::course::Course;
use super::gates::{Ask, Gate, Seen};
use super::ground::FAR;
use super::kind::Kind;
use super::old::Stop;
use super::pieces::Piece;
use super::rest::{Best, Span};
use super::sweep::Sweep;
use heapless::Vec;

/// Gates on the nearer of two neighbours that lie between them.
type Nearer<'g> = Vec<&'g Gate, 8, u8>;

/// Where a neighbour may stand, in counts, and how gates see it.
#[derive(Clone, Copy)]
pub(super) struct Beyond {
    from: i32,
    to: i32,
    seen: Seen,
    /// A new station: it moves along the lattice with the one before.
    free: bool,
}

impl Course<'_> {
    /// The gates between two neighbours: `None` if one forbids the step for
    /// good, else those that ask for the nearer one.
    fn between(&self, before: Seen, beyond: Seen) -> Option<Nearer<'_>> {
        let mut nearer = Nearer::new();
        for gate in self.crossed(before, beyond) {
            match gate.ask {
                Ask::Nearest | Ask::NearestBack => {
                    let _ = nearer.push(gate);
                }
                _ if !gate.lets(before, beyond) => return None,
                _ => {}
            }
        }
        Some(nearer)
    }

    /// Whether a gate between asks for a pair at the station before it.
    pub fn asks_before(&self, before: Seen, beyond: Seen) -> bool {
        self.leaves_pair(before, beyond)
            || self
                .crossed(before, beyond)
                .any(|gate| gate.pair && gate.is_nearest() && gate.nearer_is_before(before, beyond))
    }

    /// Whether a gate between asks for a pair at the station beyond it.
    pub fn asks_beyond(&self, before: Seen, beyond: Seen) -> bool {
        self.crossed(before, beyond).any(|gate| {
            let nearest = gate.is_nearest() && !gate.nearer_is_before(before, beyond);
            gate.pair && (gate.ask == Ask::Land || nearest)
        })
    }

    /// Whether the last station of a piece, or before a point, is asked to be a
    /// pair.
    fn leaves_pair(&self, before: Seen, beyond: Seen) -> bool {
        self.crossed(before, beyond)
            .any(|gate| gate.pair && gate.ask == Ask::Leave)
    }

    /// The gates between two neighbours.
    fn crossed(&self, before: Seen, beyond: Seen) -> impl Iterator<Item = &Gate> {
        self.gates
            .iter()
            .filter(move |gate| gate.crosses(before, beyond))
    }

    /// Whether y serves the first `split` gates and z the others.
    fn shared(nearer: &Nearer<'_>, split: usize, before: Seen, beyond: Seen) -> bool {
        let (first, rest) = nearer.split_at_checked(split).unwrap_or((nearer, &[]));
        first.iter().all(|gate| gate.held_by(before))
            && rest.iter().all(|gate| gate.held_by(beyond))
    }

    /// Least y + z, in lattice steps when taken off a lattice point, with which
    /// y is the nearer one: `2 at`, or one count more where a tie goes to z.
    fn sum(gate: &Gate) -> i64 {
        2 * i64::from(gate.at) + i64::from(gate.ask == Ask::NearestBack)
    }

    /// First lattice index at or beyond a sum less a place.
    fn index_up(&self, x: i64) -> i32 {
        let step = i64::from(self.step);
        let index = x.div_euclid(step) + i64::from(x.rem_euclid(step) > 0);
        i32::try_from(index.clamp(-i64::from(FAR), i64::from(FAR))).unwrap_or(FAR)
    }
}

impl Sweep<'_, '_> {
    /// The farthest index from which a piece may yet be reached.
    pub fn reach_from(&self, piece: &Piece) -> i32 {
        let from = if piece.kind.is_stop() {
            i32::from(piece.from)
        } else {
            i32::from(piece.from) - self.course.most
        };
        let slack = self
            .course
            .ground
            .rule
            .e_max
            .counts()
            .saturating_add(self.course.s_max);
        let mut least = from;
        for step in &self.course.steps {
            if self.place(piece).is_none_or(|z| z > step.p) {
                let before = self.course.down(step.p.saturating_sub(slack));
                least = least.min(if step.asked {
                    self.course.down(step.p)
                } else {
                    before
                });
            }
        }
        least
    }

    /// The lattice indices from which the spacing reaches an old station.
    pub fn reached_from(&self, stop: &Stop) -> (u16, u16) {
        let course = self.course;
        let from = course.up(stop.hi.saturating_sub(course.s_max)).max(0);
        let to = course.down(stop.lo.saturating_sub(course.s_min));
        let fits = |index: i32| u16::try_from(index).unwrap_or(u16::MAX);
        if to < 0 {
            // No lattice point, but maybe a drilled hole nearer than s_min.
            return (fits(from).max(1), 0);
        }
        (fits(from), fits(to))
    }

    /// Lets `best` meet a candidate from wherever in the chunk it is reached.
    pub fn meet(&self, chunk: Chunk, kind: Kind, piece: &Piece, y: i32, best: &mut Best) {
        let course = self.course;
        let (from, to) = (i32::from(piece.from), i32::from(piece.to));
        let (mut low, high) = if piece.kind.is_stop() {
            (from, to)
        } else {
            (from - course.most, to - course.least)
        };
        let waived = !course.steps.is_empty() && self.waived(chunk, piece);
        if waived {
            low = chunk.from;
        }
        let span = (low.max(chunk.from), high.min(chunk.to));
        if span.0 > span.1 {
            return;
        }
        let before = self.at(chunk, kind);
        if !piece.kind.is_stop() && from * course.step < chunk.gate {
            return best.meet(span, piece.cost, y);
        }
        let Some(beyond) = self.beyond(piece) else {
            return;
        };
        let Some(nearer) = course.between(before, beyond.seen) else {
            return;
        };
        let landed = !piece.kind.needs() || self.lands_pair(before, beyond.seen);
        for split in 0..=nearer.len() {
            let asked = landed || split < nearer.len();
            if asked && Course::shared(&nearer, split, before, beyond.seen) {
                let part = self.split_span(&nearer, split, beyond, waived);
                best.meet((span.0.max(part.0), span.1.min(part.1)), piece.cost, y);
            }
        }
    }

    fn lands_pair(&self, before: Seen, beyond: Seen) -> bool {
        let mut crossed = self.course.crossed(before, beyond);
        crossed.any(|gate| gate.pair && gate.ask == Ask::Land)
    }

    fn waived(&self, chunk: Chunk, piece: &Piece) -> bool {
        let y = chunk.to * self.course.step;
        self.place(piece)
            .is_some_and(|z| self.course.waiver(y, z).is_some())
    }

    /// From where y is nearer than z to the first `split` gates only.
    fn split_span(&self, nearer: &Nearer<'_>, split: usize, beyond: Beyond, waived: bool) -> Span {
        let course = self.course;
        let (mut low, mut high) = (-FAR, FAR);
        if let Some(gate) = split.checked_sub(1).and_then(|last| nearer.get(last)) {
            let sum = Course::sum(gate);
            low = course.index_up(sum - i64::from(beyond.to));
            if beyond.free && !waived {
                let rest = course.index_up(sum) - course.most;
                low = low.max(rest.div_euclid(2) + rest.rem_euclid(2));
            }
        }
        if let Some(gate) = nearer.get(split) {
            let sum = Course::sum(gate);
            high = course.index_up(sum - i64::from(beyond.from)) - 1;
            if beyond.free {
                high = high.min((course.index_up(sum) - 1 - course.least).div_euclid(2));
            }
        }
        (low, high)
    }

    /// Where the station after this one may stand, and how gates see it.
    fn beyond(&self, piece: &Piece) -> Option<Beyond> {
        let seen = self.seen(piece)?;
        let fixed = Beyond {
            from: seen.lo,
            to: seen.lo,
            seen,
            free: false,
        };
        if !piece.kind.is_stop() {
            let step = self.course.step;
            let (from, to) = (i32::from(piece.from) * step, i32::from(piece.to) * step);
            return Some(Beyond {
                from,
                to,
                free: true,
                ..fixed
            });
        }
        if !piece.kind.is_via() {
            return Some(fixed);
        }
        let Some((stop, next)) = self.through(piece) else {
            return Some(fixed);
        };
        if next.kind.is_stop() {
            return Some(fixed);
        }
        let (from, to) = self.reach(&stop, &next);
        let step = self.course.step;
        Some(Beyond {
            from: from * step,
            to: to * step,
            ..fixed
        })
    }

    /// The last illegal station that a via passes, and the new stations beyond;
    /// `None` where a legal old station or the end follows.
    pub fn through(&self, via: &Piece) -> Option<(Stop, Piece)> {
        let mut via = *via;
        loop {
            let next = *self.pieces.get(usize::from(via.link))?;
            if !next.kind.is_via() {
                return Some((self.stop(&via)?, next));
            }
            via = next;
        }
    }

    /// The lattice points of a new station's piece that an old station reaches.
    pub fn reach(&self, stop: &Stop, next: &Piece) -> Span {
        let course = self.course;
        let (from, to) = (i32::from(next.from), i32::from(next.to));
        let near = course.up(stop.hi.saturating_add(course.s_min));
        let far = stop.lo.saturating_add(course.s_max);
        let waiver = course.waiver(stop.hi, from * course.step);
        let far = course.down(waiver.unwrap_or(far).max(far));
        (from.max(near), to.min(far))
    }

    /// The first lattice point of `span` at which the gates let a station of
    /// this kind follow `before`; with `asked` only where one of them asks for
    /// a pair at `before`.
    pub fn first_after(&self, before: Seen, kind: Kind, span: Span, asked: bool) -> Option<i32> {
        let course = self.course;
        if span.0 > span.1 {
            return None;
        }
        let x = span.0 * course.step;
        let beyond = Seen::at(x, kind.pair());
        let nearer = course.between(before, beyond)?;
        let anyway = !asked || course.leaves_pair(before, beyond);
        (0..=nearer.len()).find_map(|split| {
            let ok = Course::shared(&nearer, split, before, beyond) && (anyway || split > 0);
            if !ok {
                return None;
            }
            let y = i64::from(before.hi);
            let low = split.checked_sub(1).and_then(|last| nearer.get(last));
            let low = low.map_or(span.0, |gate| course.index_up(Course::sum(gate) - y));
            let high = nearer.get(split);
            let high = high.map_or(span.1, |gate| course.index_up(Course::sum(gate) - y) - 1);
            let first = span.0.max(low);
            (first <= span.1.min(high)).then_some(first)
        })
    }

    /// Whether the station of `next` may follow an illegal old one, the gates
    /// left to who came before.
    fn follows_spaced(&self, stop: &Stop, kind: Kind, next: &Piece) -> Option<Span> {
        if !self.in_turn(kind, next.kind) {
            return None;
        }
        if next.kind.is_stop() {
            let beyond = self.stop(next)?;
            return self.spaced(stop, &beyond).then_some((0, 0));
        }
        let span = self.reach(stop, next);
        (span.0 <= span.1).then_some(span)
    }

    /// See [`Self::follows_spaced`].
    pub fn follows(&self, stop: &Stop, kind: Kind, next: &Piece) -> bool {
        self.follows_spaced(stop, kind, next).is_some()
    }

    /// Whether the station of `next` may follow a legal old one, and whether a
    /// gate between can ask for a pair at the old one.
    pub fn follows_asked(&self, stop: &Stop, seen: Seen, kind: Kind, next: &Piece) -> Option<bool> {
        if next.kind.is_stop() && !next.kind.is_via() {
            let beyond = self.stop(next)?;
            let spaced = self.in_turn(kind, next.kind) && self.spaced(stop, &beyond);
            return self.lets_asked(seen, beyond.seen.filter(|_| spaced)?, next.kind.needs());
        }
        let span = self.follows_spaced(stop, kind, next)?;
        if next.kind.is_stop() {
            return self.agrees_asked(seen, next);
        }
        let at = |asked| self.first_after(seen, next.kind, span, asked).is_some();
        at(false).then(|| at(true))
    }

    /// Whether the gates let an old station, or what a via goes on to, follow;
    /// and whether one of them can ask for a pair at the one before.
    fn agrees_asked(&self, before: Seen, next: &Piece) -> Option<bool> {
        if let Some((stop, last)) = next.kind.is_via().then(|| self.through(next)).flatten()
            && !last.kind.is_stop()
        {
            let span = self.reach(&stop, &last);
            let at = |asked| self.first_after(before, last.kind, span, asked).is_some();
            return at(false).then(|| at(true));
        }
        let beyond = self.seen(next)?;
        let needs = self.last_of(next).is_some_and(|last| last.kind.needs());
        self.lets_asked(before, beyond, needs)
    }

    /// Whether the gates let `beyond` follow, which `needs` one that asks for a
    /// pair there; and whether one of them asks for a pair at `before`.
    fn lets_asked(&self, before: Seen, beyond: Seen, needs: bool) -> Option<bool> {
        let course = self.course;
        let lets = course.lets(before, beyond) && (!needs || course.asks_beyond(before, beyond));
        lets.then(|| course.asks_before(before, beyond))
    }

    /// Whether the gates let an old station, or what a via goes on to, follow.
    pub fn agrees(&self, before: Seen, next: &Piece) -> bool {
        self.agrees_asked(before, next).is_some()
    }

    /// The piece that a via leads to in the end; a piece itself otherwise.
    fn last_of(&self, piece: &Piece) -> Option<Piece> {
        if piece.kind.is_via() {
            return self.through(piece).map(|(_, last)| last);
        }
        Some(*piece)
    }

    /// Whether two old stations keep the spacing.
    pub fn spaced(&self, stop: &Stop, next: &Stop) -> bool {
        let far = next.hi.saturating_sub(stop.lo) <= self.course.s_max;
        let waived = || {
            let waiver = self.course.waiver(stop.hi, next.lo);
            waiver.is_some_and(|z| next.hi <= z)
        };
        stop.clears(next, self.course.s_min) && (far || waived())
    }
}
