//! The sweep: from the far end back to the near one, what does the rest of a
//! chain cost from every legal place?
//!
//! In: a course. Out: pieces, runs of lattice points (or single old stations)
//! from which the rest costs the same. The cost from y is its own plus the
//! least cost among the places at s_min to s_max beyond it that the gates let
//! it go to. Costs are constant over intervals, so a window becomes a few
//! pieces: no lattice scan.

use super::ahead::Ahead;
use super::chunks::Chunk;
use super::cost::Cost;
use super::course::Course;
use super::gates::Seen;
use super::kind::Kind;
use super::old::{Group, Stop};
use super::pieces::{Piece, Pieces, TO_END};
use super::rest::{Best, Onward, Rests, Span};
use super::{Full, PlaceError};
use crate::job::Pattern;
use crate::words::Row;

/// A sweep under way.
pub(super) struct Sweep<'a, 'c> {
    pub course: &'c Course<'a>,
    pub pieces: &'c mut Pieces,
    /// What of the course is still to come.
    ahead: Ahead<'a, 'c>,
    /// Pieces before this are beyond a drilled station: no way past it.
    barrier: usize,
    /// A drilled station lies beyond: the chain cannot end before it.
    bound: bool,
    /// Pieces before this are out of reach.
    head: usize,
    /// No place before this index reaches a piece that went.
    whole_to: i32,
    /// A chain was given up for having more stations than holes may be.
    pub pruned: bool,
    /// Chains of more stations are of no use.
    budget: Option<u32>,
}

impl<'a, 'c> Sweep<'a, 'c> {
    pub fn new(course: &'c Course<'a>, pieces: &'c mut Pieces) -> Self {
        pieces.clear();
        Sweep {
            course,
            pieces,
            ahead: Ahead::of(course),
            barrier: 0,
            bound: false,
            head: 0,
            whole_to: i32::MAX,
            pruned: false,
            budget: None,
        }
    }

    /// One in which chains of more than `budget` stations are of no use. Across a
    /// bare stretch fewer stations than the spacing says may do: there it is not
    /// known how many more a chain will have.
    pub fn within(course: &'c Course<'a>, pieces: &'c mut Pieces, budget: Option<u32>) -> Self {
        let budget = budget.filter(|_| course.steps.is_empty());
        Sweep {
            budget,
            ..Sweep::new(course, pieces)
        }
    }

    /// Sweeps the whole course. The least cost of a chain, if there is one.
    pub fn run(&mut self) -> Result<Option<Cost>, PlaceError> {
        self.run_to(i32::MIN)?;
        // What is left before must not be skipped if drilled.
        if self.ahead.stranded && self.course.olds_left(self.ahead.holes_done) {
            return Ok(None);
        }
        Ok(self.least_start())
    }

    /// Sweeps on until all from index `to` on is done.
    pub fn run_to(&mut self, to: i32) -> Result<(), PlaceError> {
        while !self.ahead.stranded {
            let group = self.course.group(self.ahead.holes_done);
            let group_at = group.map(|g| self.course.group_lo(&g));
            match (self.ahead.chunk, group, group_at) {
                (Some(now), _, at) if at.is_none_or(|at| now.to * self.course.step >= at) => {
                    if now.to < to {
                        return Ok(());
                    }
                    self.next_chunk(now, at)?;
                }
                (_, Some(group), Some(at)) => {
                    if self.course.up(at) < to {
                        return Ok(());
                    }
                    self.group(&group)?;
                    self.ahead.holes_done += group.len();
                }
                _ => return Ok(()),
            }
        }
        Ok(())
    }

    /// Sweeps the chunk that is next, as far as an old station at `at`.
    fn next_chunk(&mut self, now: Chunk, at: Option<i32>) -> Result<(), PlaceError> {
        if self.stranded(now.to) {
            self.ahead.stranded = true;
            return Ok(());
        }
        let now = self.split_at(now, at);
        self.chunk(now)?;
        self.ahead.chunk = self.ahead.chunks.next();
        Ok(())
    }

    /// Sees to it that every piece that a station at `index` stands in or can
    /// go on to is here: runs the sweep again if they went.
    pub fn look_back(&mut self, index: i32) -> Result<(), PlaceError> {
        if index >= self.whole_to {
            self.restart();
        }
        self.run_to(index)?;
        if index >= self.whole_to {
            return Err(PlaceError::Full(Full::Pieces));
        }
        Ok(())
    }

    fn restart(&mut self) {
        self.pieces.clear();
        self.ahead = Ahead::of(self.course);
        (self.barrier, self.bound, self.head) = (0, false, 0);
        self.whole_to = i32::MAX;
    }

    /// Whether nothing at or before `to` can reach a piece or end the chain.
    fn stranded(&mut self, to: i32) -> bool {
        self.advance(to);
        let ends = !self.bound && to * self.course.step >= self.course.end_from;
        !ends && self.head >= self.pieces.len()
    }

    /// Cuts a chunk at an old station inside it and gives the rest back.
    fn split_at(&mut self, chunk: Chunk, at: Option<i32>) -> Chunk {
        let Some(at) = at else { return chunk };
        let first = self.course.up(at);
        if chunk.from < first {
            self.ahead.chunks.give_back(first - 1);
            return Chunk {
                from: first,
                ..chunk
            };
        }
        chunk
    }

    /// The least cost of a chain that starts at any piece.
    fn least_start(&self) -> Option<Cost> {
        self.pieces
            .since(self.barrier)
            .iter()
            .filter(|piece| self.starts(piece))
            .map(|piece| piece.cost)
            .min()
    }

    /// Whether a chain may begin with this piece.
    pub fn starts(&self, piece: &Piece) -> bool {
        let new = !piece.kind.is_stop();
        if new && i32::from(piece.from) * self.course.step > self.course.start_to {
            return false;
        }
        self.agrees(Seen::START, piece)
    }

    /// Index of the first piece that no drilled station hides from the start.
    pub fn open_from(&self) -> usize {
        self.barrier
    }

    /// A piece as gates see it: for a via, what it goes on to.
    pub fn seen(&self, piece: &Piece) -> Option<Seen> {
        if piece.kind.is_via() {
            if piece.link == TO_END {
                return Some(Seen::END);
            }
            let next = self.pieces.get(usize::from(piece.link))?;
            return self.seen(next);
        }
        if piece.kind.is_stop() {
            return self.stop(piece)?.seen;
        }
        let x = i32::from(piece.from) * self.course.step;
        Some(Seen::at(x, piece.kind.pair()))
    }

    /// The old station of a piece.
    pub fn stop(&self, piece: &Piece) -> Option<Stop> {
        let group = self.course.group_of(piece.group)?;
        self.course.stop(&group, piece.kind.option())
    }

    /// Whether z may take its turn after y.
    pub fn in_turn(&self, y: Kind, z: Kind) -> bool {
        if !self.course.turns() {
            return true;
        }
        // What binds is the later station on the steel.
        let free = if self.course.mirrored {
            y.free()
        } else {
            z.free()
        };
        free || y.turn() != z.turn()
    }

    /// Sweeps one chunk. Places in it may go on to each other only if it is
    /// longer than s_min; where that could cost less it is swept in short parts.
    fn chunk(&mut self, chunk: Chunk) -> Result<(), PlaceError> {
        let before = self.pieces.len();
        let whole = self.part(chunk)?;
        let short = chunk.to - chunk.from < self.course.least;
        if !short && self.gains_inside(chunk, before, whole) {
            self.pieces.truncate(before);
            self.in_parts(chunk, before)?;
        }
        if let Some(first) = self.pieces.get_mut(before) {
            first.begin_chunk();
        }
        Ok(())
    }

    /// Sweeps a chunk in parts, from its far end.
    fn in_parts(&mut self, chunk: Chunk, before: usize) -> Result<(), PlaceError> {
        let mut to = chunk.to;
        while to >= chunk.from {
            let from = chunk.from.max(to - self.course.least.max(1) + 1);
            let part = self.pieces.len();
            self.part(Chunk { from, to, ..chunk })?;
            self.join(before, part);
            to = from - 1;
        }
        Ok(())
    }

    /// Joins the pieces of a part to those beside them in the parts before.
    fn join(&mut self, chunk: usize, part: usize) {
        let mut index = part;
        while let Some(&new) = self.pieces.get(index) {
            let parts = self.pieces.between_mut(chunk, part).iter_mut();
            let mut beside = parts.filter(|piece| {
                piece.kind == new.kind && piece.cost == new.cost && piece.from == new.to + 1
            });
            if let Some(piece) = beside.next() {
                piece.from = new.from;
                self.pieces.remove(index);
            } else {
                index += 1;
            }
        }
    }

    /// Sweeps a part within which no place goes on to another. Whether every
    /// place of every kind found a way on.
    fn part(&mut self, chunk: Chunk) -> Result<bool, PlaceError> {
        let limit = self.pieces.len();
        let mut whole = true;
        for kind in self.kinds(chunk).into_iter().flatten() {
            whole &= self.envelope(chunk, kind, limit)?;
        }
        Ok(whole)
    }

    /// Whether going on to another place of the same chunk could cost less.
    fn gains_inside(&self, chunk: Chunk, before: usize, whole: bool) -> bool {
        let new = || self.pieces.since(before).iter();
        let reached = new()
            .filter(|p| i32::from(p.to) >= chunk.from + self.course.least)
            .map(|p| p.cost)
            .min();
        let Some(reached) = reached else { return false };
        let worst = new().map(|p| p.cost).max();
        let via_inside = reached.then(Cost::of(0, 1, 1));
        !whole || worst.zip(via_inside).is_some_and(|(w, v)| w > v)
    }

    /// The kinds of new stations that a chunk can hold.
    fn kinds(&self, chunk: Chunk) -> [Option<Kind>; 4] {
        let (top, bot) = (Kind::new(Row::Top, false), Kind::new(Row::Bot, false));
        let alike = self.course.alike;
        let both = chunk.top && (chunk.bot || alike);
        match self.course.pattern {
            Pattern::Single => [chunk.top.then_some(top), None, None, None],
            Pattern::Paired => [both.then_some(Kind::new(Row::Top, true)), None, None, None],
            Pattern::Staggered => {
                let x = chunk.from * self.course.step;
                let pair = both && self.course.wants_pair(x);
                [
                    chunk.top.then_some(top),
                    (chunk.bot && !alike).then_some(bot),
                    pair.then_some(Kind::new(Row::Top, true)),
                    (pair && !alike).then_some(Kind::new(Row::Bot, true)),
                ]
            }
        }
    }

    /// Moves past pieces that nothing at or before `to` can reach.
    fn advance(&mut self, to: i32) {
        self.head = self.head.max(self.barrier).max(self.pieces.first());
        while let Some(piece) = self.pieces.get(self.head) {
            if self.reach_from(piece) <= to {
                return;
            }
            self.head += 1;
        }
    }

    /// Where a piece begins, in counts.
    pub fn place(&self, piece: &Piece) -> Option<i32> {
        if piece.kind.is_stop() {
            return self.stop(piece).map(|stop| stop.lo);
        }
        Some(i32::from(piece.from) * self.course.step)
    }

    /// Lays the least cost of one kind of station over a chunk, from its far
    /// end: the lower envelope of constant pieces. Whether it is gapless.
    fn envelope(&mut self, chunk: Chunk, kind: Kind, limit: usize) -> Result<bool, PlaceError> {
        let own = Cost::of(0, 1, if kind.pair() { 2 } else { 1 });
        let mut laid: Option<Piece> = None;
        let mut whole = true;
        let mut y = chunk.to;
        while y >= chunk.from {
            let best = self.best_from(chunk, kind, y, limit);
            let next = best.until().max(chunk.from - 1);
            let cost = self.sum(own, best.cost);
            whole &= cost.is_some();
            let useful = cost.map_or(y, |cost| y.min(self.useful_to(cost)));
            let cost = cost.filter(|_| useful > next);
            laid = self.lay(laid, kind, (next + 1, useful), cost)?;
            y = next;
        }
        self.lay(laid, kind, (0, 0), None)?;
        Ok(whole)
    }

    /// The farthest index at which a station with this cost from it on can be
    /// part of a chain within the budget: so many more fit before it.
    fn useful_to(&self, cost: Cost) -> i32 {
        let Some(budget) = self.budget else {
            return i32::MAX;
        };
        let before = i64::from(budget) - i64::from(cost.stations());
        if before < 0 {
            return -1;
        }
        let reach = i64::from(self.course.start_to) + before * i64::from(self.course.s_max);
        i32::try_from(reach.div_euclid(i64::from(self.course.step))).unwrap_or(i32::MAX)
    }

    /// Goes on with the piece being laid where the cost is the same, else adds
    /// it and begins the next.
    fn lay(
        &mut self,
        laid: Option<Piece>,
        kind: Kind,
        span: Span,
        cost: Option<Cost>,
    ) -> Result<Option<Piece>, PlaceError> {
        let begun = cost.map(|cost| (cost, u16::try_from(span.0), u16::try_from(span.1)));
        let begun = match begun {
            None => None,
            Some((cost, Ok(from), Ok(to))) => Some(Piece {
                from,
                to,
                link: self.in_reach(),
                kind,
                group: 0,
                cost,
            }),
            Some(_) => return Err(PlaceError::LatticeTooFine),
        };
        match (laid, begun) {
            (Some(laid), Some(begun))
                if laid.cost == begun.cost && i32::from(laid.from) == i32::from(begun.to) + 1 =>
            {
                return Ok(Some(Piece {
                    from: begun.from,
                    ..laid
                }));
            }
            (Some(laid), _) => self.push(laid)?,
            (None, _) => {}
        }
        Ok(begun)
    }

    /// A station's own cost and the rest; `None` where there is no way on, or
    /// one with too many stations.
    fn sum(&mut self, own: Cost, rest: Option<Cost>) -> Option<Cost> {
        let sum = own.then(rest?);
        self.pruned |= sum.is_none();
        sum
    }

    /// Number of the first piece in reach.
    fn in_reach(&self) -> u16 {
        u16::try_from(self.head).unwrap_or(TO_END)
    }

    fn push(&mut self, piece: Piece) -> Result<(), PlaceError> {
        if self.pieces.is_full() {
            self.forget();
        }
        self.pieces.push(piece)
    }

    /// Lets the oldest pieces go that are out of reach and begin no chain.
    fn forget(&mut self) {
        let begins = |piece: &Piece| {
            self.place(piece)
                .is_none_or(|at| at <= self.course.start_to)
        };
        let start = self.pieces.since(0).iter().position(begins);
        let start = start.map_or(usize::MAX, |kept| kept + self.pieces.first());
        let spare = self.pieces.spare(self.head.min(start));
        let (count, reached) = (spare.len(), spare.iter().map(|p| self.reach_from(p)).min());
        self.whole_to = self.whole_to.min(reached.unwrap_or(i32::MAX));
        self.pieces.drop_oldest(count);
    }

    /// The least rest from y, and how far down it stays the least.
    fn best_from(&self, chunk: Chunk, kind: Kind, y: i32, limit: usize) -> Best {
        let mut best = Best::NONE;
        if self.ends(chunk, kind) {
            best.meet((chunk.from, chunk.to), Cost::ZERO, y);
        }
        for piece in self.pieces.between(self.head, limit) {
            let dearer = best.cost.is_some_and(|cost| cost < piece.cost);
            if !dearer && self.in_turn(kind, piece.kind) {
                self.meet(chunk, kind, piece, y, &mut best);
            }
        }
        best
    }

    /// Whether a chain may end in this chunk.
    fn ends(&self, chunk: Chunk, kind: Kind) -> bool {
        let y = self.at(chunk, kind);
        !self.bound && y.lo >= self.course.end_from && self.course.lets(y, Seen::END)
    }

    /// A new station of a chunk as gates see it: they are the same all over it.
    pub fn at(&self, chunk: Chunk, kind: Kind) -> Seen {
        let x = chunk.from * self.course.step;
        Seen::at(x, kind.pair())
    }

    /// Adds an old station in every way in which it can stand.
    fn group(&mut self, group: &Group) -> Result<(), PlaceError> {
        self.advance(self.course.up(self.course.group_lo(group)));
        let limit = self.pieces.len();
        let index = self.course.index_of(group, self.ahead.holes_done);
        let ended = !self.bound;
        for (option, stop) in self.course.stops_of_use(group) {
            let stop = &stop;
            let turns: &[Row] = match stop.single {
                Some(Row::Top) => &[Row::Top],
                Some(Row::Bot) => &[Row::Bot],
                None if self.course.turns() => &Row::BOTH,
                None => &[Row::Top],
            };
            for &turn in turns {
                let (from, to) = self.reached_from(stop);
                let kind = Kind::stop(turn, stop.single.is_some(), option);
                let piece = Piece {
                    from,
                    to,
                    link: self.in_reach(),
                    kind,
                    group: index,
                    cost: stop.own,
                };
                match stop.seen {
                    Some(seen) => self.legal(stop, seen, piece, limit, ended)?,
                    None => self.vias(stop, piece, limit, ended)?,
                }
            }
        }
        if group.bound() {
            self.barrier = limit;
            self.bound = true;
        }
        Ok(())
    }

    /// A legal old station: the least rest from it. Where a hole gained a
    /// partner, a cover must have asked for the pair: one beyond, or else one
    /// before, which is left to who comes before.
    fn legal(
        &mut self,
        stop: &Stop,
        seen: Seen,
        piece: Piece,
        limit: usize,
        ended: bool,
    ) -> Result<(), PlaceError> {
        let gained = stop.partner.is_some() && self.course.pattern == Pattern::Staggered;
        let onward = Onward {
            limit,
            ended,
            gained,
        };
        let Rests { any, asked } = self.rests(stop, seen, piece.kind, onward);
        if !gained {
            return self.add(piece, stop.own, any);
        }
        self.add(piece, stop.own, asked)?;
        let kind = piece.kind.needing();
        self.add(Piece { kind, ..piece }, stop.own, any)
    }

    fn add(&mut self, piece: Piece, own: Cost, rest: Option<Cost>) -> Result<(), PlaceError> {
        match self.sum(own, rest) {
            Some(cost) => self.push(Piece { cost, ..piece }),
            None => Ok(()),
        }
    }

    /// The least rests from an old station.
    fn rests(&self, stop: &Stop, seen: Seen, kind: Kind, onward: Onward) -> Rests {
        let mut rests = Rests::default();
        if onward.ended && self.course.lets(seen, Seen::END) {
            rests.meet(Cost::ZERO, self.course.asks_before(seen, Seen::END));
        }
        for next in self.pieces.between(self.head, onward.limit) {
            if rests.can_fall_to(next.cost, onward.gained)
                && let Some(asked) = self.follows_asked(stop, seen, kind, next)
            {
                rests.meet(next.cost, asked);
            }
        }
        rests
    }

    /// An illegal drilled station: no cover sees it, so whoever comes before it
    /// must agree with whoever comes after. One via for each way on.
    fn vias(
        &mut self,
        stop: &Stop,
        piece: Piece,
        limit: usize,
        ended: bool,
    ) -> Result<(), PlaceError> {
        let kind = piece.kind.via();
        if ended {
            let link = TO_END;
            self.push(Piece {
                kind,
                link,
                ..piece
            })?;
        }
        for link in self.head..limit {
            let Some(&next) = self.pieces.get(link) else {
                break;
            };
            if !self.follows(stop, piece.kind, &next) {
                continue;
            }
            let link = u16::try_from(link).unwrap_or(TO_END);
            if let Some(cost) = self.sum(stop.own, Some(next.cost)) {
                self.push(Piece {
                    kind,
                    link,
                    cost,
                    ..piece
                })?;
            }
        }
        Ok(())
    }
}
