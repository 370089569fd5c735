//! Building: a settled trail becomes holes, judged and counted.
//!
//! In: the trail of the best plan, or only the old holes where there is no
//! plan. Out: the placement.

use super::course::Course;
use super::ground::{Ground, MOST_SLACK};
use super::old::{Group, Old, Olds, Stop};
use super::search::Optimum;
use super::settle::Ways;
use super::sweep::Sweep;
use super::walk::{Trail, Trodden};
use super::{Full, PlaceError, PlacedHole, Placement, Room, State, Verdict};
use crate::job::Pattern;
use crate::length::Length;
use crate::words::Row;

/// Fills the placement from a finished search: its last sweep stands in the
/// scratch. Not inlined: the search has given its stack back.
#[inline(never)]
pub(super) fn build(
    ground: &Ground<'_>,
    best: &Optimum,
    out: &mut Placement,
    scratch: &mut Room<'_>,
) -> Result<(), PlaceError> {
    let Room {
        runs,
        olds,
        pieces,
        trail,
    } = scratch;
    olds.bear(best.t);
    Course::with(ground, olds, runs, |course| {
        course.allow(best.s_max);
        let mut sweep = Sweep::within(course, pieces, Some(best.cost.stations()));
        let Some(cost) = sweep.run()? else {
            return Err(PlaceError::Full(Full::Trail));
        };
        sweep.walk(cost, trail)?;
        sweep.settle(trail)?;
        make_holes(&mut sweep, trail, out)
    })?;
    out.feasible = true;
    out.stations = u16::try_from(trail.len()).unwrap_or(u16::MAX);
    strike_out(olds, out);
    Ok(())
}

/// The holes of a settled trail, the play and the largest spacing.
#[inline(never)]
fn make_holes(
    sweep: &mut Sweep<'_, '_>,
    trail: &Trail,
    out: &mut Placement,
) -> Result<(), PlaceError> {
    let course = sweep.course;
    let mut building = Building {
        course,
        ground: course.ground,
        out,
        play: MOST_SLACK,
        last: None,
        turn: Row::Top,
        largest: None,
    };
    for (number, trodden) in (1_u8..).zip(trail.iter()) {
        let (stop, group) = stand(sweep, trodden)?;
        let Some(stop) = stop else { continue };
        building.station(number, &stop, group)?;
    }
    let (play, largest) = (building.play, building.largest);
    out.play = Some(Length::from_counts(play.min(MOST_SLACK)));
    out.largest_spacing = largest.map(Length::from_counts);
    Ok(())
}

/// How a station of the trail stands, and its old holes.
fn stand(
    sweep: &mut Sweep<'_, '_>,
    trodden: &Trodden,
) -> Result<(Option<Stop>, Option<Group>), PlaceError> {
    let group = trodden.group().and_then(|g| sweep.course.group_of(g));
    if trodden.unseen() {
        return Ok((sweep.unseen_stop(trodden), group));
    }
    let mut ways = Ways::new();
    sweep.ways(trodden, &mut ways)?;
    Ok((ways.first().map(|(_, node)| node.stop), group))
}

/// A placement being filled.
struct Building<'a, 'g> {
    course: &'a Course<'g>,
    ground: &'a Ground<'g>,
    out: &'a mut Placement,
    play: i32,
    /// Span of the station before.
    last: Option<(i32, i32)>,
    /// Row that is next in turn.
    turn: Row,
    largest: Option<i32>,
}

impl Building<'_, '_> {
    fn station(&mut self, number: u8, stop: &Stop, group: Option<Group>) -> Result<(), PlaceError> {
        let course = self.course;
        if let Some((lo, hi)) = self.last
            && course.waiver(hi, stop.lo).is_none()
        {
            let spacing = stop.hi - lo;
            self.largest = Some(self.largest.map_or(spacing, |l| l.max(spacing)));
        }
        self.last = Some((stop.lo, stop.hi));
        let first = self.out.holes.len();
        match group {
            None => self.new_holes(
                number,
                stop,
                course.pattern == Pattern::Staggered && course.alike,
            )?,
            Some(group) => self.old_holes(number, stop, &group)?,
        }
        self.turn_on(stop, group.is_none());
        if let Some(holes) = self.out.holes.get_mut(first..) {
            holes.sort_unstable_by_key(|hole| hole.row);
        }
        Ok(())
    }

    fn new_holes(&mut self, number: u8, stop: &Stop, alike: bool) -> Result<(), PlaceError> {
        let next = if alike {
            self.turn
        } else {
            stop.single.unwrap_or(Row::Top)
        };
        let rows: &[Row] = match (stop.single, next) {
            (None, _) => &Row::BOTH,
            (Some(_), Row::Top) => &[Row::Top],
            (Some(_), Row::Bot) => &[Row::Bot],
        };
        rows.iter()
            .try_for_each(|&row| self.new_hole(number, row, stop.lo))
    }

    fn new_hole(&mut self, number: u8, row: Row, x: i32) -> Result<(), PlaceError> {
        let slack = self.ground.slack(row, x).unwrap_or(0);
        self.push((row, x), State::Planned, number, None, slack)
    }

    /// After a single it is the other row's turn; a pair takes the turn it finds.
    fn turn_on(&mut self, stop: &Stop, new: bool) {
        self.turn = match stop.single {
            Some(row) if !new => row.other(),
            _ => self.turn.other(),
        };
    }

    fn old_holes(&mut self, number: u8, stop: &Stop, group: &Group) -> Result<(), PlaceError> {
        let holes = [Some(group.first), group.second];
        let alone = stop.partner.is_none() && stop.single.is_some();
        for (old, kept) in holes.into_iter().zip(stop.keeps) {
            let (Some(old), true) = (old, kept) else {
                continue;
            };
            let state = if old.drilled() {
                State::Drilled
            } else {
                State::Marked
            };
            let lonely = alone && old.drilled() && self.asked_for_a_pair(stop);
            let verdict = old
                .drilled()
                .then(|| self.ground.verdict(self.course.olds, &old, lonely));
            let fits = matches!(verdict, None | Some(Verdict::Fits));
            let slack = if fits { old.slack() } else { 0 };
            self.push((old.row(), old.x), state, number, verdict, slack)?;
        }
        match stop.partner {
            Some((row, x)) => self.new_hole(number, row, x),
            None => Ok(()),
        }
    }

    /// Whether a single drilled hole had to serve as a pair.
    fn asked_for_a_pair(&self, stop: &Stop) -> bool {
        if self.ground.rule.pattern == Pattern::Paired {
            return true;
        }
        let Some(seen) = stop.seen else { return false };
        seen.pair && self.serves_as_pair(stop)
    }

    /// Whether a pair cover has no other station: the hole stands in it as one.
    fn serves_as_pair(&self, stop: &Stop) -> bool {
        self.course.wants_pair(stop.lo)
    }

    fn push(
        &mut self,
        place: (Row, i32),
        state: State,
        number: u8,
        verdict: Option<Verdict>,
        slack: i32,
    ) -> Result<(), PlaceError> {
        self.play = self.play.min(slack);
        self.out
            .holes
            .push(judged(self.ground, place, state, number, verdict))
            .map_err(|_| PlaceError::Full(Full::Trail))
    }
}

/// A hole with its gap, what it is to, and what is said of it.
fn judged(
    ground: &Ground<'_>,
    (row, x): (Row, i32),
    state: State,
    number: u8,
    verdict: Option<Verdict>,
) -> PlacedHole {
    let mut hole = PlacedHole::new(Length::from_counts(x), row, state, number);
    let gap = ground.gap_at(row, x);
    hole.set_gap(gap.map(|(gap, thing)| (Length::from_counts(gap), thing)));
    hole.insert_from = ground.insert_from(x);
    if let Some(verdict) = verdict {
        hole.set_verdict(verdict);
    }
    hole
}

/// Marks that the plan does not hold.
fn strike_out(olds: &Olds, out: &mut Placement) {
    for old in olds.iter().filter(|old| !old.drilled()) {
        let held = out.holes.iter().any(|hole| {
            hole.row == old.row() && hole.at.counts() == old.x && hole.state == State::Marked
        });
        if !held {
            let _ = out.struck_out.push(old.hole());
        }
    }
}

/// Where there is no plan: the old holes, judged.
#[inline(never)]
pub(super) fn judge_olds(ground: &Ground<'_>, out: &mut Placement, scratch: &Room<'_>) {
    out.holes.clear();
    let olds = &*scratch.olds;
    let mut number: u8 = 0;
    let mut joined = false;
    for old in olds.iter() {
        if !joined {
            number = number.saturating_add(1);
        }
        joined = old.joined();
        let (state, verdict) = if old.drilled() {
            (
                State::Drilled,
                Some(ground.verdict(olds, old, lonely(ground, olds, old))),
            )
        } else {
            (State::Marked, None)
        };
        let _ = out
            .holes
            .push(judged(ground, (old.row(), old.x), state, number, verdict));
    }
    out.holes
        .sort_unstable_by_key(|hole| (hole.station, hole.row));
}

/// Whether a drilled hole stands alone where every station is a pair and no
/// partner is legal.
fn lonely(ground: &Ground<'_>, olds: &Olds, old: &Old) -> bool {
    let alone = !old.joined()
        && !olds
            .iter()
            .any(|o| o.joined() && o.x <= old.x && partner(ground, o, old));
    ground.rule.pattern == Pattern::Paired && alone && !old.mate()
}

fn partner(ground: &Ground<'_>, first: &Old, second: &Old) -> bool {
    second.x - first.x <= ground.rule.diameter.counts() && first.row() != second.row()
}
