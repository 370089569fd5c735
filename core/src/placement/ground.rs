//! The ground a bolt may stand on: joists, keep-outs and packing, compiled to
//! exact counts once, so that every later question is integer arithmetic.
//!
//! In: a job and its joists. Out: the keep-outs of each row and side, the
//! legality of any point, and its slack: how far the beam may end up off its
//! mark before the point stops being legal.
//!
//! Keep-outs are open intervals: touching a limit is legal, and so is a point
//! where two of them meet. What stays with the house moves by -shift in
//! stations (joists come as placed); packing and what rides does not.

use super::{PlaceError, Relaxed};
use crate::hardware::Hardware;
use crate::job::{Hole, HoleState, KeepoutKind, Stays};
use crate::joists::{Joist, Joists};
use crate::length::Length;
use crate::rule::Rule;
use crate::words::{Row, Side, Sides};
use crate::{Job, frame::Frame};
use heapless::Vec;

/// An open interval of counts.
pub(super) type Open = (i32, i32);

/// Slack above this counts as this: 6 in. Practice: no crew sets a beam worse.
pub(super) const MOST_SLACK: i32 = Length::from_inches(6).counts();

/// Beyond any steel, and far from overflow when lengths are added to it.
pub(super) const FAR: i32 = 1_000_000_000;

/// A packing piece in stations.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    pub from: i32,
    pub to: i32,
    pub sides: Sides,
}

/// An obstacle or zone in stations, already shifted where it stays.
#[derive(Clone, Copy, Debug)]
pub(super) struct Kept {
    pub from: i32,
    pub to: i32,
    pub sides: Sides,
    pub kind: KeepoutKind,
    pub stays: bool,
    /// Index into the job's keep-outs.
    pub index: u8,
}

/// Everything that decides whether a point is legal.
pub(super) struct Ground<'a> {
    pub job: &'a Job,
    pub joists: &'a Joists,
    pub frame: Frame,
    pub rule: Rule,
    /// Washer or nut radius by side, plus clear gap.
    pub reach: [i32; 2],
    /// Washer or nut radius by side.
    pub radius: [i32; 2],
    pub gap: i32,
    pub e_min: i32,
    pub length: i32,
    pub shift: i32,
    pub pieces: Vec<Piece, { crate::job::PACKING_PIECES }, u8>,
    pub kept: Vec<Kept, { crate::job::KEEPOUTS }, u8>,
    /// Height of each row and of the steel's top above the bottom flange's
    /// inside face, where known: a hanger too low for a row does not count in it.
    pub heights: Option<([i32; 2], i32)>,
    pub relaxed: Relaxed,
    /// From a joist's middle to the outermost metal of its hanger, at most.
    pub widest: i32,
    /// Nothing tells the rows apart: no hanger ends below the top row, and no
    /// abandoned hole keeps more off its own row.
    pub alike: bool,
}

impl<'a> Ground<'a> {
    /// Compiles a job for what is asked of it: most of a kilobyte, made in the one
    /// place where it stays. `relaxed` is what a way out changes, for trial plans.
    pub fn with<T>(
        job: &'a Job,
        joists: &'a Joists,
        rule: Rule,
        relaxed: Relaxed,
        then: impl FnOnce(&Ground<'a>) -> Result<T, PlaceError>,
    ) -> Result<T, PlaceError> {
        let frame = Frame::of(job).map_err(PlaceError::Frame)?;
        let hardware = Hardware::of(job).ok_or(PlaceError::NoBolt)?;
        let gap = relaxed.gap.unwrap_or(rule.gap).counts();
        let radius = Side::BOTH.map(|side| relaxed.radius(side, &hardware).counts());
        let mut ground = Ground {
            job,
            joists,
            frame,
            rule,
            reach: radius.map(|r| r.saturating_add(gap)),
            radius,
            gap,
            e_min: rule.e_min.counts(),
            length: frame.length.counts(),
            shift: frame.shift.counts(),
            pieces: Vec::new(),
            kept: Vec::new(),
            heights: heights(job),
            relaxed,
            widest: widest(joists),
            alike: false,
        };
        ground.resolve()?;
        then(&ground)
    }

    #[inline(never)]
    fn resolve(&mut self) -> Result<(), PlaceError> {
        self.resolve_packing()?;
        self.resolve_keepouts()?;
        self.alike = self.rows_alike();
        Ok(())
    }

    fn rows_alike(&self) -> bool {
        let abandoned = |hole: &Hole| hole.state == HoleState::Abandoned;
        let low = |joist: &Joist| self.passes_over(Row::Top, joist);
        !self.job.holes.iter().any(abandoned) && !self.joists.iter().any(low)
    }

    fn resolve_packing(&mut self) -> Result<(), PlaceError> {
        let packing = self.frame.packing(self.job).map_err(PlaceError::Frame)?;
        for piece in &packing {
            let resolved = Piece {
                from: piece.from.counts(),
                to: piece.to.counts(),
                sides: piece.sides,
            };
            let _ = self.pieces.push(resolved);
        }
        self.pieces
            .sort_unstable_by_key(|piece| (piece.from, piece.to, piece.sides));
        Ok(())
    }

    fn resolve_keepouts(&mut self) -> Result<(), PlaceError> {
        for (index, keepout) in (0_u8..).zip(&self.job.keepouts) {
            let stays = keepout.stays == Stays::Stays;
            let shift = if stays { self.shift } else { 0 };
            let at = |position| {
                self.frame
                    .station_anywhere(position)
                    .map(|x| x.counts().saturating_sub(shift).clamp(-FAR, FAR))
                    .map_err(PlaceError::Frame)
            };
            let resolved = Kept {
                from: at(keepout.from)?,
                to: at(keepout.to)?,
                sides: keepout.sides,
                kind: keepout.kind,
                stays,
                index,
            };
            let _ = self.kept.push(resolved);
        }
        Ok(())
    }

    /// Whether a point lies inside a packing piece of `side`, ends included.
    pub fn packed(&self, side: Side, x: i32) -> bool {
        self.pieces_of(side).any(|p| p.from <= x && x <= p.to)
    }

    /// The packing pieces of one side, from end A.
    pub fn pieces_of(&self, side: Side) -> impl Iterator<Item = &Piece> {
        self.pieces.iter().filter(move |p| p.sides.holds(side))
    }

    /// Metal beyond a joist's faces that counts in `row`.
    pub fn metal(&self, row: Row, index: usize, joist: &Joist) -> i32 {
        if self.relaxed.plain.contains(&u8::try_from(index).ok()) {
            return 0;
        }
        if !self.alike && self.passes_over(row, joist) {
            return 0;
        }
        joist.metal.counts()
    }

    /// Whether the hanger ends low enough for the washers of `row` to pass
    /// above it. The bottom row always counts hangers.
    fn passes_over(&self, row: Row, joist: &Joist) -> bool {
        let (Row::Top, Some((rows, steel_top))) = (row, self.heights) else {
            return false;
        };
        let Some(top) = self.hanger_top(joist, steel_top) else {
            return false;
        };
        let [top_row, _] = rows;
        let [n, s] = self.reach;
        let reach = if joist.side == Side::N { n } else { s };
        top_row.saturating_sub(reach) >= top
    }

    /// Height of the hanger's top above the bottom flange's inside face.
    fn hanger_top(&self, joist: &Joist, steel_top: i32) -> Option<i32> {
        let [n, s] = self.job.floors;
        let floor = if joist.side == Side::N { n } else { s }?;
        let mut height = joist.hanger_height(self.job)?.counts();
        if let Some(cap) = self.relaxed.hanger_height {
            height = height.min(cap.counts());
        }
        let seat = self.seat(&floor, steel_top);
        Some(seat.saturating_add(height))
    }

    /// Height of a side's joist undersides above the bottom flange's inside face.
    pub fn seat(&self, floor: &crate::job::Floor, steel_top: i32) -> i32 {
        steel_top
            .saturating_add(floor.offset.unwrap_or_default().counts())
            .saturating_sub(floor.joist_depth.counts())
    }

    /// The joists of one side with their places in the list, from end A.
    fn on_side(&self, side: Side) -> (usize, &[Joist]) {
        let split = self.joists.partition_point(|joist| joist.side == Side::N);
        let (n, s) = self
            .joists
            .split_at_checked(split)
            .unwrap_or((self.joists, &[]));
        match side {
            Side::N => (0, n),
            Side::S => (split, s),
        }
    }

    /// The joists of one side from which `x` may be nearer than `reach`, metal
    /// of hangers included.
    pub fn joists_near(
        &self,
        side: Side,
        x: i32,
        reach: i32,
    ) -> impl Iterator<Item = (usize, &Joist)> {
        let (offset, joists) = self.on_side(side);
        let reach = reach.saturating_add(self.widest);
        let (from, to) = (x.saturating_sub(reach), x.saturating_add(reach));
        let middle = |joist: &Joist| i32::midpoint(joist.from.counts(), joist.to.counts());
        let first = joists.partition_point(|joist| middle(joist) < from);
        let near = joists.iter().enumerate().skip(first);
        near.take_while(move |(_, joist)| middle(joist) <= to)
            .map(move |(index, joist)| (index + offset, joist))
    }

    /// The keep-out of a joist in `row` with the beam on its mark.
    pub fn joist_keepout(&self, row: Row, index: usize, joist: &Joist) -> Open {
        let out = self
            .metal(row, index, joist)
            .saturating_add(self.reach_of(joist.side));
        let (from, to) = (joist.from.counts(), joist.to.counts());
        (
            from.saturating_sub(out).clamp(-FAR, FAR),
            to.saturating_add(out).clamp(-FAR, FAR),
        )
    }

    /// Washer radius plus clear gap on a side.
    pub fn reach_of(&self, side: Side) -> i32 {
        let [n, s] = self.reach;
        if side == Side::N { n } else { s }
    }

    /// The keep-outs at the ends of a packing piece of `side`: inside by less
    /// than e_min, outside by less than washer and gap, but for what is well
    /// inside the next piece. Where the piece is too short to hold a bolt they
    /// are one.
    pub fn piece_ends(&self, side: Side, piece: &Piece) -> [Open; 2] {
        let out = self.reach_of(side);
        let before = self.pieces_of(side).filter(|p| p.to <= piece.from);
        let before = before.map(|p| p.to.saturating_sub(self.e_min)).max();
        let beyond = self.pieces_of(side).filter(|p| p.from >= piece.to);
        let beyond = beyond.map(|p| p.from.saturating_add(self.e_min)).min();
        let outer_from = (piece.from - out).max(before.unwrap_or(-FAR));
        let outer_to = (piece.to + out).min(beyond.unwrap_or(FAR));
        let (inner_from, inner_to) = (
            piece.from.saturating_add(self.e_min),
            piece.to.saturating_sub(self.e_min),
        );
        if inner_from > inner_to {
            return [(outer_from, outer_to); 2];
        }
        [(outer_from, inner_from), (inner_to, outer_to)]
    }

    /// The widest bare stretch across which the greatest spacing still counts.
    pub fn bare_limit(&self) -> i64 {
        let limit = i64::from(self.rule.s_max.counts()) - 2 * i64::from(self.e_min);
        limit.max(0)
    }

    /// 4D, kept along the beam from abandoned holes in either row.
    pub fn abandoned_reach(&self) -> i32 {
        self.rule.diameter.counts().saturating_mul(4)
    }

    /// The distance kept in `row` from an abandoned hole.
    pub fn abandoned_keep(&self, row: Row, hole: &Hole) -> i32 {
        let wide = self.abandoned_reach();
        if hole.row == row {
            wide.max(self.rule.s_min.counts())
        } else {
            wide
        }
    }

    /// Station of a hole off the card; holes off the steel were refused before.
    pub fn hole_at(&self, hole: &Hole) -> i32 {
        self.frame
            .station(hole.at())
            .map_or(-FAR, |x| x.counts().clamp(-FAR, FAR))
    }

    /// Largest shift either way, at most 6 in, at which `x` stays legal in
    /// `row`; `None` where it is not legal at all. Holes other than abandoned
    /// ones are ignored.
    pub fn slack(&self, row: Row, x: i32) -> Option<i32> {
        if x < 0 || x > self.length || !self.rides_legal(row, x) {
            return None;
        }
        let mut least = MOST_SLACK;
        for side in Side::BOTH {
            least = least.min(self.side_slack(side, row, x)?);
        }
        for kept in self
            .kept
            .iter()
            .filter(|k| k.stays && k.kind == KeepoutKind::Zone)
        {
            least = least.min(outside(x, (kept.from, kept.to))?);
        }
        least = least.min(self.access_slack(x)?);
        Some(least)
    }

    /// Whether `x` is clear of the ends of a side's packing pieces: only pieces
    /// that are near can keep it off.
    fn clears_ends(&self, side: Side, x: i32) -> bool {
        let out = self.reach_of(side);
        let near = |p: &&Piece| p.from - out < x && x < p.to + out;
        self.pieces_of(side)
            .filter(near)
            .flat_map(|piece| self.piece_ends(side, piece))
            .all(|open| outside(x, open).is_some())
    }

    /// What moves with the beam: packing ends, zones and solid things that
    /// ride, abandoned holes, and a side packed at all.
    fn rides_legal(&self, row: Row, x: i32) -> bool {
        let packed = Side::BOTH.iter().any(|&side| self.packed(side, x));
        packed
            && Side::BOTH.iter().all(|&side| self.clears_ends(side, x))
            && self.kept.iter().filter(|k| !k.stays).all(|k| {
                self.kept_opens(k)
                    .into_iter()
                    .flatten()
                    .all(|o| outside(x, o).is_some())
            })
            && self.job.holes.iter().all(|hole| {
                hole.state != HoleState::Abandoned
                    || (x - self.hole_at(hole)).abs() >= self.abandoned_keep(row, hole)
            })
    }

    /// The open intervals that a solid thing or a zone makes on its sides.
    pub fn kept_opens(&self, kept: &Kept) -> [Option<Open>; 2] {
        match kept.kind {
            KeepoutKind::Access => [None; 2],
            KeepoutKind::Zone => [Some((kept.from, kept.to)), None],
            KeepoutKind::Solid => Side::BOTH.map(|side| {
                let out = self.reach_of(side);
                kept.sides
                    .holds(side)
                    .then_some((kept.from - out, kept.to + out))
            }),
        }
    }

    /// Slack against what stays on one side: joists where it is packed, solid
    /// things anywhere.
    fn side_slack(&self, side: Side, row: Row, x: i32) -> Option<i32> {
        let mut least = MOST_SLACK;
        if self.packed(side, x) {
            let reach = self.reach_of(side).saturating_add(MOST_SLACK);
            for (index, joist) in self.joists_near(side, x, reach) {
                least = least.min(outside(x, self.joist_keepout(row, index, joist))?);
            }
        }
        let out = self.reach_of(side);
        for kept in &self.kept {
            if kept.stays && kept.kind == KeepoutKind::Solid && kept.sides.holds(side) {
                least = least.min(outside(x, (kept.from - out, kept.to + out))?);
            }
        }
        Some(least)
    }

    /// Slack against places where neither side lets a drill in.
    fn access_slack(&self, x: i32) -> Option<i32> {
        let mut least = MOST_SLACK;
        for (n, s) in self.access_pairs() {
            let slack = match (n.stays, s.stays) {
                (true, true) | (false, false) => {
                    let both = (n.from.max(s.from), n.to.min(s.to));
                    let clear = outside(x, both)?;
                    if n.stays { clear } else { MOST_SLACK }
                }
                (true, false) => ride_and_stay(x, (s.from, s.to), (n.from, n.to))?,
                (false, true) => ride_and_stay(x, (n.from, n.to), (s.from, s.to))?,
            };
            least = least.min(slack);
        }
        Some(least)
    }

    /// Every thing that blocks access on the first side with every one on the second.
    fn access_pairs(&self) -> impl Iterator<Item = (&Kept, &Kept)> {
        let on = |side: Side| {
            self.kept
                .iter()
                .filter(move |k| k.kind == KeepoutKind::Access && k.sides.holds(side))
        };
        on(Side::N).flat_map(move |n| on(Side::S).map(move |s| (n, s)))
    }
}

/// Distance of a point from an open interval; `None` inside. An empty interval
/// keeps nothing off.
pub(super) fn outside(x: i32, (from, to): Open) -> Option<i32> {
    if from >= to {
        return Some(MOST_SLACK);
    }
    if x <= from {
        return Some(from - x);
    }
    (x >= to).then(|| x - to)
}

/// Slack where one thing rides and one stays: they block where they meet.
fn ride_and_stay(x: i32, ride: Open, stay: Open) -> Option<i32> {
    if outside(x, ride).is_some() {
        return Some(MOST_SLACK);
    }
    outside(x, stay)
}

/// From a joist's middle to the outermost metal of its hanger, at most.
fn widest(joists: &Joists) -> i32 {
    let half = |j: &Joist| {
        j.to.counts()
            .saturating_sub(j.from.counts())
            .saturating_add(1)
            / 2
    };
    let reach = joists
        .iter()
        .map(|j| half(j).saturating_add(j.metal.counts()));
    reach.max().unwrap_or(0).saturating_add(1)
}

/// Row heights and the top of the steel, where the card lets them be known.
fn heights(job: &Job) -> Option<([i32; 2], i32)> {
    let section = crate::shapes::Section::of(job)?;
    let rows = crate::rows::heights(job).ok()?;
    let top = section.depth().checked_sub(section.flange())?;
    Some(([rows.top.counts(), rows.bot.counts()], top.counts()))
}
