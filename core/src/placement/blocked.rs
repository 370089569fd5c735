//! Blocked: where there is no plan, every stretch that makes it so.
//!
//! In: the ground and the windows with the beam on its mark. Out: stretches
//! [p, q] by kind, with the limit, the excess and the things that make them.

use super::course::Course;
use super::gates::{Ask, Gate, Gates, Origin, Seen};
use super::ground::{Ground, Open};
use super::old::{Group, Olds};
use super::places::{Closed, InOrder};
use super::sweep::Sweep;
use super::{
    BlockKind, Blocked, BlockedPage, EndOf, Pieces, PlaceError, Room, Runs, Thing, windows,
};
use crate::job::Pattern;
use crate::length::Length;
use crate::list::put_in;
use crate::words::{Row, Side};
use heapless::Vec;

/// A stretch, before its things and ways out are known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Stretch {
    pub kind: BlockKind,
    pub p: i32,
    pub q: i32,
    pub limit: Option<i32>,
    pub excess: Option<i32>,
    /// Of a piece's end.
    pub end: Option<EndOf>,
}

/// The order in which stretches are listed: from end A.
type Order = (i32, i32, BlockKind);

impl Stretch {
    fn order(&self) -> Order {
        (self.p, self.q, self.kind)
    }

    /// Whether it overlaps another one.
    fn beside(&self, (from, to): Closed) -> bool {
        from < self.q && to > self.p
    }
}

/// What is looked for, and found.
#[derive(Default)]
pub(super) struct Stretches {
    /// The first ones, in order.
    pub list: Vec<Stretch, { super::BLOCKED }, u8>,
    /// How many more there are.
    pub more: u16,
    /// Only those behind this one are listed.
    after: Option<Order>,
    /// Only those that overlap this are of interest.
    near: Option<Closed>,
}

impl Stretches {
    /// Two pieces that end together make one stretch.
    fn push(&mut self, stretch: Stretch) {
        let order = stretch.order();
        let listed = self.after.is_some_and(|after| order <= after);
        let apart = |(p, q): Closed| stretch.p >= q || stretch.q <= p;
        if listed || self.near.is_some_and(apart) {
            return;
        }
        let place = self.list.partition_point(|s| s.order() < order);
        if self.list.get(place).is_some_and(|s| s.order() == order) {
            return;
        }
        if self.list.is_full() {
            self.more = self.more.saturating_add(1);
            if place == self.list.len() {
                return;
            }
            self.list.pop();
        }
        let _ = put_in(&mut self.list, place, stretch);
    }
}

/// Finds the blocking stretches behind `after`, as many as `out` can list, who
/// makes them and what would open them. How many more there are.
#[inline(never)]
pub(super) fn find(
    ground: &Ground<'_>,
    after: Option<&Blocked>,
    out: &mut BlockedPage,
    scratch: &mut Room<'_>,
) -> Result<u16, PlaceError> {
    out.clear();
    let mut found = Stretches {
        after: after.map(|b| (b.from.counts(), b.to.counts(), b.kind)),
        ..Stretches::default()
    };
    stretches(ground, &mut found, scratch)?;
    for stretch in &found.list {
        let _ = out.push(Blocked {
            kind: stretch.kind,
            from: Length::from_counts(stretch.p),
            to: Length::from_counts(stretch.q),
            limit: stretch.limit.map(Length::from_counts),
            excess: stretch.excess.map(Length::from_counts),
            by: Vec::new(),
            ways_out: Vec::new(),
        });
        let Some(blocked) = out.last_mut() else { break };
        makers(ground, (stretch.p, stretch.q), &mut blocked.by);
        if let Err(trouble) = super::ways_out::find(ground, stretch, blocked, scratch) {
            out.pop();
            return Err(trouble);
        }
    }
    // The trials wrote over the scratch: the old holes are judged from it next.
    super::old::collect(ground, scratch.olds);
    Ok(found.more)
}

/// Whether a job that has no plan still has a blocking stretch that overlaps
/// this one.
#[inline(never)]
pub(super) fn still_blocks(
    ground: &Ground<'_>,
    stretch: &Stretch,
    scratch: &mut Room<'_>,
) -> Result<bool, PlaceError> {
    let mut found = Stretches {
        near: Some((stretch.p, stretch.q)),
        ..Stretches::default()
    };
    stretches(ground, &mut found, scratch)?;
    Ok(!found.list.is_empty())
}

/// Whether a stretch surely blocks as before, looked at by itself and not along
/// the whole beam: `false` is no answer. What was legal stays so when a rule is
/// relaxed, so all that can block lies in it or in a cover that overlaps it.
#[inline(never)]
pub(super) fn blocks_alone(
    ground: &Ground<'_>,
    stretch: &Stretch,
    scratch: &mut Room<'_>,
) -> Result<bool, PlaceError> {
    let around = around(ground, stretch)?;
    super::old::collect(ground, scratch.olds);
    lay_places(ground, around, scratch)?;
    blocks_within(ground, stretch, around, scratch)
}

/// The same, once the places around it are laid.
#[inline(never)]
fn blocks_within(
    ground: &Ground<'_>,
    stretch: &Stretch,
    around: Closed,
    scratch: &mut Room<'_>,
) -> Result<bool, PlaceError> {
    scratch.olds.bear(0);
    Course::with(ground, scratch.olds, scratch.runs, |course| {
        let places = Places { course };
        let mut blocks = false;
        places.reaches(&mut |s| {
            let seen = s.p >= around.0 && s.q <= around.1;
            blocks |= seen && stretch.beside((s.p, s.q));
        });
        let gates = course.gates.iter();
        for gate in gates.filter(|gate| stretch.beside(gate.cover())) {
            places.cover(gate, &mut |s| blocks |= stretch.beside((s.p, s.q)));
        }
        Ok(blocks)
    })
}

/// A stretch with a step on either side, and the covers that overlap it.
#[inline(never)]
fn around(ground: &Ground<'_>, stretch: &Stretch) -> Result<Closed, PlaceError> {
    let step = ground.rule.step.counts();
    let mut around = (
        stretch.p.saturating_sub(step),
        stretch.q.saturating_add(step),
    );
    let mut gates = Gates::new();
    super::gates::gates(ground, &mut gates)?;
    let covers = gates.iter().map(Gate::cover);
    for cover in covers.filter(|cover| stretch.beside(*cover)) {
        around = (around.0.min(cover.0), around.1.max(cover.1));
    }
    Ok((around.0.max(0), around.1.min(ground.length)))
}

/// The blocking stretches of a job that has no plan, from end A: those that
/// `found` is to take.
#[inline(never)]
fn stretches(
    ground: &Ground<'_>,
    found: &mut Stretches,
    scratch: &mut Room<'_>,
) -> Result<(), PlaceError> {
    super::old::collect(ground, scratch.olds);
    lay_places(ground, (0, ground.length), scratch)?;
    let any = steps_and_covers(ground, scratch, found)?;
    if !any {
        found.push(chain(ground, scratch)?);
    }
    Ok(())
}

/// The legal places between two, with the beam on its mark.
fn lay_places(
    ground: &Ground<'_>,
    between: Closed,
    scratch: &mut Room<'_>,
) -> Result<(), PlaceError> {
    let [top, bot] = scratch.runs;
    let holes = windows::Holes::Drilled(scratch.olds);
    windows::lay_between(ground, between, (Row::Top, 0), &holes, top)?;
    if ground.rule.pattern == Pattern::Single {
        bot.clear();
        return Ok(());
    }
    windows::lay_between(ground, between, (Row::Bot, 0), &holes, bot)?;
    Ok(())
}

/// Steps that are too wide and covers with nothing in them. Whether there is
/// any, asked for or not.
#[inline(never)]
fn steps_and_covers(
    ground: &Ground<'_>,
    scratch: &mut Room<'_>,
    found: &mut Stretches,
) -> Result<bool, PlaceError> {
    scratch.olds.bear(0);
    Course::with(ground, scratch.olds, scratch.runs, |course| {
        let places = Places { course };
        let mut any = false;
        let mut each = |stretch: Stretch| {
            any = true;
            found.push(stretch);
        };
        places.reaches(&mut each);
        for gate in &course.gates {
            places.cover(gate, &mut each);
        }
        Ok(any)
    })
}

/// The windows that the search for a plan ran through.
fn lay_as_searched(
    ground: &Ground<'_>,
    olds: &Olds,
    runs: &mut [Runs; 2],
) -> Result<(), PlaceError> {
    let [top, bot] = runs;
    let holes = windows::Holes::Abandoned(olds);
    windows::lay(ground, Row::Top, 0, &holes, top)?;
    bot.clear();
    let both = ground.rule.pattern == Pattern::Paired
        || (ground.rule.pattern == Pattern::Staggered && !ground.alike);
    if both {
        windows::lay(ground, Row::Bot, 0, &holes, bot)?;
    }
    Ok(())
}

/// Legal places of the pattern, and what is asked of them.
struct Places<'a, 'c> {
    course: &'c Course<'a>,
}

impl Places<'_, '_> {
    /// Calls with every run of legal places, both rows apart and in no order:
    /// singles, or pairs where a pair is asked for. Old holes are places too.
    fn each(&self, pair: bool, mut each: impl FnMut(Closed)) {
        let course = self.course;
        let step = course.step;
        let [top, bot] = course.runs;
        let counts = |run: &super::Run| (i32::from(run.from) * step, i32::from(run.to) * step);
        if pair || course.pattern == Pattern::Paired {
            for a in top {
                for b in bot.iter().filter(|b| b.from <= a.to && a.from <= b.to) {
                    let both = super::Run {
                        from: a.from.max(b.from),
                        to: a.to.min(b.to),
                    };
                    each(counts(&both));
                }
            }
        } else {
            top.iter().chain(bot).map(counts).for_each(&mut each);
        }
        self.each_group(|group| {
            for (_, stop) in course.stops(&group) {
                let seen = stop.seen.filter(|seen| !pair || seen.pair);
                // An illegal drilled hole is a place for the spacing only.
                if let Some(seen) = seen {
                    each((seen.lo, seen.hi));
                }
            }
        });
    }

    fn each_group(&self, mut each: impl FnMut(Group)) {
        let mut done = 0;
        while let Some(group) = self.course.group(done) {
            done += group.len();
            each(group);
        }
    }

    /// Two neighbouring places too far apart, where a chain must cross.
    fn reaches(&self, found: &mut impl FnMut(Stretch)) {
        let course = self.course;
        let mut last: Option<i32> = None;
        for (q, to) in InOrder::of(course) {
            if let Some(p) = last
                && i64::from(q) - i64::from(p) > i64::from(course.s_max)
                && course.waiver(p, q).is_none()
                && self.must_cross(p, q)
            {
                found(Stretch {
                    kind: BlockKind::Reach,
                    p,
                    q,
                    limit: Some(course.s_max),
                    excess: Some(q - p - course.s_max),
                    end: None,
                });
            }
            last = last.max(Some(to));
        }
    }

    /// Whether no chain can begin at q or end at p.
    fn must_cross(&self, p: i32, q: i32) -> bool {
        let pair = |x: i32| Seen::at(x, true);
        let bound = || self.course.olds.iter().filter(|old| old.drilled());
        let begins = !bound().any(|old| old.x <= p) && self.course.lets(Seen::START, pair(q));
        let ends = !bound().any(|old| old.x >= q) && self.course.lets(pair(p), Seen::END);
        !begins && !ends
    }

    /// A cover with nothing legal in it.
    fn cover(&self, gate: &Gate, found: &mut impl FnMut(Stretch)) {
        match gate.origin {
            Origin::Piece(piece) => self.end_cover(gate, piece, found),
            Origin::Near(_) => self.near_cover(gate, found),
        }
    }

    fn end_cover(&self, gate: &Gate, index: u8, found: &mut impl FnMut(Stretch)) {
        let ground = self.course.ground;
        let Some(piece) = ground.pieces.get(usize::from(index)) else {
            return;
        };
        let start = gate.ask == Ask::Land;
        let cover = if start {
            (piece.from.saturating_add(ground.e_min), gate.max)
        } else {
            (gate.min, piece.to.saturating_sub(ground.e_min))
        };
        if self.any_in(cover, gate.pair) {
            return;
        }
        let within = (piece.from, piece.to);
        let nearest = self.nearest_in(within, start, gate.pair);
        let (p, q) = match (start, nearest) {
            (true, Some(q)) => (piece.from, q),
            (false, Some(p)) => (p, piece.to),
            (_, None) => within,
        };
        let e_max = ground.rule.e_max.counts();
        found(Stretch {
            kind: if start {
                BlockKind::Start
            } else {
                BlockKind::End
            },
            p,
            q,
            limit: Some(e_max),
            excess: Some(q - p - e_max),
            end: Some(EndOf {
                piece: index,
                start,
            }),
        });
    }

    fn near_cover(&self, gate: &Gate, found: &mut impl FnMut(Stretch)) {
        let (p, q) = match gate.ask {
            Ask::Land => (gate.at, gate.max),
            Ask::Leave => (gate.min, gate.at),
            Ask::Either | Ask::Nearest | Ask::NearestBack => (gate.min, gate.max),
        };
        if self.any_in((p, q), gate.pair) {
            return;
        }
        let mut excess: Option<i32> = None;
        self.each(gate.pair, |(from, to)| {
            let off = if to < p { p - to } else { from - q };
            excess = Some(excess.map_or(off, |e: i32| e.min(off)));
        });
        found(Stretch {
            kind: BlockKind::Cover,
            p,
            q,
            limit: None,
            excess,
            end: None,
        });
    }

    fn any_in(&self, (from, to): Closed, pair: bool) -> bool {
        let mut any = false;
        self.each(pair, |(a, b)| {
            any |= self.lattice_in((a, b), (from, to));
        });
        any
    }

    /// Whether a run of places (a single one for old holes) meets an interval
    /// in a place and not only between two.
    fn lattice_in(&self, (a, b): Closed, (from, to): Closed) -> bool {
        if a == b {
            return from <= a && a <= to;
        }
        let step = self.course.step;
        if a.rem_euclid(step) != 0 || b.rem_euclid(step) != 0 {
            return (from <= a && a <= to) || (from <= b && b <= to);
        }
        self.course.up(from.max(a)) <= self.course.down(to.min(b))
    }

    /// The legal place of a piece that is nearest to its start (or end).
    fn nearest_in(&self, (from, to): Closed, start: bool, pair: bool) -> Option<i32> {
        let mut nearest: Option<i32> = None;
        self.each(pair, |(a, b)| {
            if !self.lattice_in((a, b), (from, to)) {
                return;
            }
            let step = self.course.step;
            let place = match (start, a == b) {
                (_, true) => a,
                (true, false) => self.course.up(a.max(from)) * step,
                (false, false) => self.course.down(b.min(to)) * step,
            };
            nearest = Some(match nearest {
                None => place,
                Some(n) if start => n.min(place),
                Some(n) => n.max(place),
            });
        });
        nearest
    }
}

/// Each step is possible and still there is no chain: from the farthest station
/// that a chain from end A gets to, to the nearest beyond it that gets to end B.
fn chain(ground: &Ground<'_>, scratch: &mut Room<'_>) -> Result<Stretch, PlaceError> {
    lay_as_searched(ground, scratch.olds, scratch.runs)?;
    let (p, q) = parted(ground, scratch)?;
    Ok(Stretch {
        kind: BlockKind::Chain,
        p,
        q,
        limit: None,
        excess: None,
        end: None,
    })
}

#[inline(never)]
fn parted(ground: &Ground<'_>, scratch: &mut Room<'_>) -> Result<Closed, PlaceError> {
    let Room {
        olds, runs, pieces, ..
    } = scratch;
    Course::with(ground, olds, runs, |course| parted_on(course, pieces))
}

/// From where a chain from end A ends to where one from end B does; where none
/// begins, the whole packing.
fn parted_on(course: &mut Course<'_>, pieces: &mut Pieces) -> Result<Closed, PlaceError> {
    let whole = whole_piece(course.ground);
    course.mirror();
    let flip = course.last * course.step;
    let mut sweep = Sweep::new(course, pieces);
    sweep.run()?;
    let reached = sweep.pieces.since(0).iter();
    let farthest = reached.filter_map(|piece| sweep.place(piece)).min();
    let Some(p) = farthest.map(|x| flip - x) else {
        return Ok(whole);
    };
    course.mirror();
    let mut sweep = Sweep::new(course, pieces);
    sweep.run_to(course.up(p))?;
    let step = course.step;
    let beyond = |piece: &super::pieces::Piece| {
        if piece.kind.is_via() {
            return None;
        }
        if piece.kind.is_stop() {
            return sweep.place(piece).filter(|x| *x > p);
        }
        let first = i32::from(piece.from).max(course.down(p) + 1);
        (first <= i32::from(piece.to)).then_some(first * step)
    };
    let found = sweep.pieces.since(0).iter();
    Ok((p, found.filter_map(beyond).min().unwrap_or(whole.1)))
}

fn whole_piece(ground: &Ground<'_>) -> Closed {
    let from = ground.pieces.iter().map(|p| p.from).min().unwrap_or(0);
    let to = ground
        .pieces
        .iter()
        .map(|p| p.to)
        .max()
        .unwrap_or(ground.length);
    (from, to)
}

/// The joists and things whose keep-outs lie in a stretch.
fn makers(ground: &Ground<'_>, (p, q): Open, by: &mut Vec<Thing, 8, u8>) {
    let meets = |(from, to): Open| from < q && to > p;
    let row = if ground.rule.pattern == Pattern::Single {
        Row::Top
    } else {
        Row::Bot
    };
    for (index, joist) in ground.joists.iter().enumerate() {
        let middle = i32::midpoint(joist.from.counts(), joist.to.counts());
        let packed = ground.packed(joist.side, middle);
        if packed && meets(ground.joist_keepout(row, index, joist)) {
            let joist_index = u8::try_from(index).unwrap_or(u8::MAX);
            let hanger = ground.metal(row, index, joist) > 0;
            let _ = by.push(Thing::Joist {
                joist: joist_index,
                hanger,
            });
        }
    }
    for kept in &ground.kept {
        let opens = ground.kept_opens(kept).into_iter().flatten();
        let access = meets((kept.from, kept.to)) && kept.kind == crate::job::KeepoutKind::Access;
        if access || opens.into_iter().any(meets) {
            let _ = by.push(Thing::Keepout(kept.index));
        }
    }
    for (index, piece) in (0_u8..).zip(&ground.pieces) {
        let inner = |x: i32| x > p && x < q;
        let beside = Side::BOTH.iter().any(|&s| piece.sides.holds(s));
        if beside && (inner(piece.from) || inner(piece.to)) {
            let _ = by.push(Thing::Packing(index));
        }
    }
    for (index, hole) in (0_u8..).zip(&ground.job.holes) {
        let x = ground.hole_at(hole);
        let abandoned = hole.state == crate::job::HoleState::Abandoned;
        let keep = ground.abandoned_keep(row, hole);
        if abandoned && meets((x - keep, x + keep)) {
            let _ = by.push(Thing::Hole(index));
        }
    }
}
