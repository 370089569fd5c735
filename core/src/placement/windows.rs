//! Windows: the legal lattice points of a row, as runs, at a given shift.
//!
//! In: the ground, a row, a shift t. Out: runs of lattice points that stay
//! legal wherever the beam ends up within +-t. What stays is widened by t
//! before the runs are cut; ends of packing and what rides is not. The sources
//! are each sorted, so one merge finds the runs without a scan of the lattice.

use super::ground::{FAR, Ground, Open};
use super::old::{Old, Olds};
use super::{Full, PlaceError, Run, Runs};
use crate::job::KeepoutKind;
use crate::words::{Row, Side};
use heapless::Vec;

/// Most fixed keep-outs: packing ends, bare stretches, solid things and zones,
/// places without access. 32 things make at most 124 of the last.
const FIXED: usize = 176;

/// A keep-out, and whether it moves when the shift grows.
type Moving = (i32, i32, bool);

/// The same in eight bytes: many of them lie on the stack. In order of where they
/// begin, then of where they end.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Packed {
    from: i32,
    /// Twice the end, and one more if it moves.
    to_moves: i32,
}

impl Packed {
    /// Ends that are off any steel are all alike.
    fn of((from, to, moves): Moving) -> Packed {
        Packed {
            from,
            to_moves: to.clamp(-FAR, FAR) * 2 + i32::from(moves),
        }
    }

    const fn opened(self) -> Moving {
        (self.from, self.to_moves >> 1, self.to_moves & 1 == 1)
    }
}

/// Sorted keep-outs that are not joists.
type Fixed = Vec<Packed, FIXED, u8>;

/// Which holes keep others off.
pub(super) enum Holes<'a> {
    /// None.
    Ignored,
    /// Abandoned ones: drilled ones are stations, and those keep their distance.
    Abandoned(&'a Olds),
    /// Drilled ones too, in their row: for places that are asked about alone.
    Drilled(&'a Olds),
}

/// Lays the runs of `row` at shift `t` into `runs`. Gives back how much t may
/// grow before any run changes.
pub(super) fn lay(
    ground: &Ground<'_>,
    row: Row,
    t: i32,
    holes: &Holes<'_>,
    runs: &mut Runs,
) -> Result<i32, PlaceError> {
    lay_between(ground, (0, ground.length), (row, t), holes, runs)
}

/// The same between two places only, both included, in counts.
pub(super) fn lay_between(
    ground: &Ground<'_>,
    between: Open,
    (row, t): (Row, i32),
    holes: &Holes<'_>,
    runs: &mut Runs,
) -> Result<i32, PlaceError> {
    runs.clear();
    let mut fixed = Fixed::new();
    fixed_keepouts(ground, t, &mut fixed)?;
    let mut laying = Laying {
        runs,
        step: ground.rule.step.counts(),
        idle: i32::MAX,
    };
    let mut clear = (between.0, false);
    for (from, to, moves) in Merge::of(ground, between.0, (row, t), &fixed, holes) {
        if from > between.1 {
            break;
        }
        laying.close(clear, (from, moves))?;
        if to > clear.0 {
            clear = (to, moves);
        } else if to == clear.0 {
            clear.1 |= moves;
        }
        if clear.0 > between.1 {
            return Ok(laying.idle);
        }
    }
    laying.close(clear, (between.1, false))?;
    Ok(laying.idle)
}

/// Runs being laid.
struct Laying<'r> {
    runs: &'r mut Runs,
    step: i32,
    /// How much t may grow before a run changes.
    idle: i32,
}

impl Laying<'_> {
    /// Adds the lattice points of a closed interval of counts, if any. Each end
    /// says whether it moves with t.
    fn close(&mut self, from: (i32, bool), to: (i32, bool)) -> Result<(), PlaceError> {
        if from.0 > to.0 || to.0 < 0 {
            return Ok(());
        }
        let begin = from.0.max(0);
        let first = begin.div_euclid(self.step) + i32::from(begin.rem_euclid(self.step) > 0);
        let last = to.0.div_euclid(self.step);
        if first > last {
            return Ok(());
        }
        if from.1 {
            self.idle = self.idle.min(first * self.step - begin);
        }
        if to.1 {
            self.idle = self.idle.min(to.0.rem_euclid(self.step));
        }
        let (Ok(from), Ok(to)) = (u16::try_from(first), u16::try_from(last)) else {
            return Err(PlaceError::LatticeTooFine);
        };
        self.runs
            .push(Run { from, to })
            .map_err(|_| PlaceError::Full(Full::Windows))
    }
}

/// Collects and sorts everything but the joists.
fn fixed_keepouts(ground: &Ground<'_>, t: i32, fixed: &mut Fixed) -> Result<(), PlaceError> {
    let mut full = false;
    let mut keep = |open: Moving| {
        if open.0 < open.1 {
            full |= fixed.push(Packed::of(open)).is_err();
        }
    };
    let still = |(from, to): Open| (from, to, false);
    for side in Side::BOTH {
        for piece in ground.pieces_of(side) {
            let ends = ground.piece_ends(side, piece);
            ends.into_iter().map(still).for_each(&mut keep);
        }
    }
    bare_stretches(ground).map(still).for_each(&mut keep);
    for kept in &ground.kept {
        let widen = if kept.stays { t } else { 0 };
        for (from, to) in ground.kept_opens(kept).into_iter().flatten() {
            keep((
                from.saturating_sub(widen),
                to.saturating_add(widen),
                kept.stays,
            ));
        }
    }
    if ground.kept.iter().any(|k| k.kind == KeepoutKind::Access) {
        no_access(ground, t, &mut keep);
    }
    if full {
        return Err(PlaceError::Full(Full::Keepouts));
    }
    fixed.sort_unstable();
    Ok(())
}

/// Stretches packed on neither side, the space beyond the packing included.
pub(super) fn bare_stretches(ground: &Ground<'_>) -> impl Iterator<Item = Open> {
    let mut packed_to = -FAR;
    let mut pieces = ground.pieces.iter();
    let mut done = false;
    core::iter::from_fn(move || {
        while !done {
            let Some(piece) = pieces.next() else {
                done = true;
                return Some((packed_to, FAR));
            };
            let from = packed_to;
            packed_to = packed_to.max(piece.to);
            if piece.from > from {
                return Some((from, piece.from));
            }
        }
        None
    })
}

/// Which sides' things are meant, and whether they stay.
#[derive(Clone, Copy)]
struct Blockers {
    side: Side,
    stays: bool,
    widen: i32,
}

/// Places where neither side lets a drill in, at some shift within +-t. Things
/// that move together are met first, then widened.
fn no_access(ground: &Ground<'_>, t: i32, keep: &mut impl FnMut(Moving)) {
    let of = |side, stays, widen| Blockers { side, stays, widen };
    meet(ground, of(Side::N, true, 0), of(Side::S, true, 0), t, keep);
    meet(
        ground,
        of(Side::N, false, 0),
        of(Side::S, false, 0),
        0,
        keep,
    );
    meet(ground, of(Side::N, true, t), of(Side::S, false, 0), 0, keep);
    meet(ground, of(Side::N, false, 0), of(Side::S, true, t), 0, keep);
}

/// Every overlap of the first blockers with the second, widened.
fn meet(ground: &Ground<'_>, n: Blockers, s: Blockers, widen: i32, keep: &mut impl FnMut(Moving)) {
    let mut from = -FAR;
    while let Some(a) = next_blocked(ground, n, from) {
        let mut inner = a.0;
        while let Some(b) = next_blocked(ground, s, inner) {
            if b.0 >= a.1 {
                break;
            }
            let both = (a.0.max(b.0), a.1.min(b.1));
            if both.0 < both.1 {
                keep((
                    both.0.saturating_sub(widen),
                    both.1.saturating_add(widen),
                    true,
                ));
            }
            inner = b.1;
        }
        from = a.1;
    }
}

/// The first blocked stretch that ends beyond `from`, things that overlap taken
/// together. Things that only touch leave the point between them open.
fn next_blocked(ground: &Ground<'_>, which: Blockers, from: i32) -> Option<Open> {
    let things = || {
        ground
            .kept
            .iter()
            .filter(move |k| {
                k.kind == KeepoutKind::Access
                    && k.sides.holds(which.side)
                    && k.stays == which.stays
                    && k.from < k.to
            })
            .map(move |k| (k.from - which.widen, k.to + which.widen))
    };
    let first = things().filter(|o| o.1 > from).min()?;
    let mut to = first.1;
    while let Some(longer) = things().filter(|o| o.0 < to && o.1 > to).map(|o| o.1).max() {
        to = longer;
    }
    Some((first.0, to))
}

/// Four sorted sources of keep-outs: the joists of each side, holes, the rest.
struct Merge<'a> {
    joists: [SideJoists<'a>; 2],
    holes: HoleKeepouts<'a>,
    fixed: core::slice::Iter<'a, Packed>,
    heads: [Option<Moving>; 4],
}

impl<'a> Merge<'a> {
    fn of(
        ground: &'a Ground<'a>,
        from: i32,
        (row, t): (Row, i32),
        fixed: &'a Fixed,
        holes: &'a Holes<'a>,
    ) -> Self {
        let joists = Side::BOTH.map(|side| SideJoists::of(ground, from, (row, side), t));
        let mut merge = Merge {
            joists,
            holes: HoleKeepouts::of(ground, row, holes),
            fixed: fixed.iter(),
            heads: [None; 4],
        };
        let [n, s] = &mut merge.joists;
        let holes = merge.holes.next();
        let fixed = merge.fixed.next().copied().map(Packed::opened);
        merge.heads = [moving(n.next()), moving(s.next()), holes, fixed];
        merge
    }
}

impl Iterator for Merge<'_> {
    type Item = Moving;

    fn next(&mut self) -> Option<Moving> {
        let [n, s, holes, fixed] = self.heads.map(|head| head.map_or(i32::MAX, |o| o.0));
        let [n_joists, s_joists] = &mut self.joists;
        let [n_head, s_head, hole_head, fixed_head] = &mut self.heads;
        let rest = holes.min(fixed);
        if n <= s && n <= rest {
            core::mem::replace(n_head, moving(n_joists.next()))
        } else if s <= rest {
            core::mem::replace(s_head, moving(s_joists.next()))
        } else if holes <= fixed {
            core::mem::replace(hole_head, self.holes.next())
        } else {
            core::mem::replace(fixed_head, self.fixed.next().copied().map(Packed::opened))
        }
    }
}

/// Holes of one kind keep one distance, so each kind is sorted.
struct Kept<'a> {
    holes: &'a [Old],
    row: Row,
    drilled: bool,
    off: i32,
}

impl Kept<'_> {
    /// The next one's keep-out, left in place.
    fn head(&mut self) -> Option<Moving> {
        while let Some((old, rest)) = self.holes.split_first() {
            let counts = self.row == old.row() && old.drilled() == self.drilled;
            if counts {
                let (x, off) = (old.x, self.off);
                return Some((x.saturating_sub(off), x.saturating_add(off), false));
            }
            self.holes = rest;
        }
        None
    }

    fn skip(&mut self) {
        self.holes = self.holes.split_first().map_or(&[], |(_, rest)| rest);
    }
}

/// Keep-outs of holes for one row, sorted.
struct HoleKeepouts<'a> {
    kinds: [Kept<'a>; 3],
}

impl<'a> HoleKeepouts<'a> {
    fn of(ground: &Ground<'_>, row: Row, holes: &'a Holes<'a>) -> Self {
        let (abandoned, drilled): (&[Old], &[Old]) = match holes {
            Holes::Ignored => (&[], &[]),
            Holes::Abandoned(olds) => (olds.abandoned(), &[]),
            Holes::Drilled(olds) => (olds.abandoned(), olds),
        };
        let (wide, s_min) = (ground.abandoned_reach(), ground.rule.s_min.counts());
        let kept = |holes, row, drilled, off| Kept {
            holes,
            row,
            drilled,
            off,
        };
        HoleKeepouts {
            kinds: [
                kept(drilled, row, true, s_min),
                kept(abandoned, row, false, wide.max(s_min)),
                kept(abandoned, row.other(), false, wide),
            ],
        }
    }
}

impl Iterator for HoleKeepouts<'_> {
    type Item = Moving;

    fn next(&mut self) -> Option<Moving> {
        let mut first: Option<(Moving, usize)> = None;
        for (place, kind) in self.kinds.iter_mut().enumerate() {
            if let Some(head) = kind.head()
                && first.is_none_or(|(f, _)| head.0 < f.0)
            {
                first = Some((head, place));
            }
        }
        let (head, place) = first?;
        if let Some(kind) = self.kinds.get_mut(place) {
            kind.skip();
        }
        Some(head)
    }
}

/// Joists stay with the house.
fn moving(open: Option<Open>) -> Option<Moving> {
    open.map(|(from, to)| (from, to, true))
}

/// Keep-outs of one side's joists where that side is packed, sorted.
struct SideJoists<'a> {
    ground: &'a Ground<'a>,
    row: Row,
    side: Side,
    t: i32,
    /// Nothing before this is asked for.
    start: i32,
    /// Next joist to look at, index into all joists.
    next: usize,
    /// First joist that may reach into the piece.
    piece_first: usize,
    /// Which piece of this side.
    piece: usize,
    /// Widest reach beyond a joist's face on this side.
    widest: i32,
    /// Keep-outs come out by start, though a wide hanger may reach back before
    /// its neighbour's: the one held back.
    held: Option<Open>,
}

impl<'a> SideJoists<'a> {
    fn of(ground: &'a Ground<'a>, start: i32, (row, side): (Row, Side), t: i32) -> Self {
        let first = ground
            .joists
            .iter()
            .position(|j| j.side == side)
            .unwrap_or(ground.joists.len());
        let metal = ground
            .joists
            .iter()
            .skip(first)
            .map(|j| j.metal.counts())
            .max();
        SideJoists {
            ground,
            row,
            side,
            t,
            widest: metal
                .unwrap_or(0)
                .saturating_add(ground.reach_of(side))
                .saturating_add(t),
            start,
            next: first,
            piece_first: first,
            piece: 0,
            held: None,
        }
    }

    /// The next keep-out inside the current piece, in joist order: joists lie in
    /// order of their middles.
    fn raw(&mut self, piece_from: i32, piece_to: i32) -> Option<Open> {
        let reach = self
            .ground
            .widest
            .saturating_add(self.ground.reach_of(self.side));
        let reach = reach.saturating_add(self.t);
        let piece_from = piece_from.max(self.start);
        while let Some(joist) = self.ground.joists.get(self.next) {
            let middle = i32::midpoint(joist.from.counts(), joist.to.counts());
            if joist.side != self.side || middle.saturating_sub(reach) >= piece_to {
                return None;
            }
            self.next += 1;
            if middle.saturating_add(reach) <= piece_from {
                self.piece_first = self.next;
                continue;
            }
            let (from, to) = self.ground.joist_keepout(self.row, self.next - 1, joist);
            let (from, to) = (from.saturating_sub(self.t), to.saturating_add(self.t));
            if to > piece_from && from < piece_to {
                return Some((from.max(piece_from), to.min(piece_to)));
            }
        }
        None
    }
}

impl SideJoists<'_> {
    /// A keep-out about to come out, together with any later one that reaches
    /// back over it: what has come out is never cut again.
    fn covered(&self, held: Open, piece_from: i32) -> Open {
        let (mut from, mut to) = held;
        let later = self.ground.joists.iter().enumerate().skip(self.next);
        for (index, joist) in later {
            let face = joist.from.counts();
            if joist.side != self.side || face.saturating_sub(self.widest) >= to {
                break;
            }
            let open = self.ground.joist_keepout(self.row, index, joist);
            let start = open.0.saturating_sub(self.t);
            if start < to {
                from = from.min(start.max(piece_from));
                to = to.max(open.1.saturating_add(self.t));
            }
        }
        (from, to)
    }
}

impl Iterator for SideJoists<'_> {
    type Item = Open;

    fn next(&mut self) -> Option<Open> {
        loop {
            let (piece_from, piece_to) = {
                let piece = self.ground.pieces_of(self.side).nth(self.piece)?;
                (piece.from, piece.to)
            };
            match (self.held.take(), self.raw(piece_from, piece_to)) {
                (None, Some(first)) => self.held = Some(first),
                (Some(held), Some(next)) => {
                    if next.0 < held.1 {
                        self.held = Some((held.0.min(next.0), held.1.max(next.1)));
                    } else {
                        self.held = Some(next);
                        return Some(self.covered(held, piece_from));
                    }
                }
                (Some(held), None) => return Some(held),
                (None, None) => {
                    self.piece += 1;
                    self.next = self.piece_first;
                }
            }
        }
    }
}
