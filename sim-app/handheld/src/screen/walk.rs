//! The walks: hole after hole along the beam, to mark them and to drill them.
//!
//! One figure: what the tape reads at the next hole, from what it hangs on. OK
//! does the usual thing, and is then deaf for a second; LEFT shows the hole
//! before and changes nothing; UP and DOWN pick any hole. After a hole that is
//! off its mark the plan is made anew: what no longer stands is struck out
//! first, then what is new is marked, then drilling goes on.

use super::hung::{self, Hung};
use super::{Go, LIST, Look, Reply, Screen, blind, off, sheet};
use crate::edit::Edit;
use crate::field::List;
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{Figure, LINE, Strip, Text, Touch, View, text};
use crate::words::{self, hint, short};
use boltbay_core::defaults;
use boltbay_core::frame::Frame;
use boltbay_core::job::{Hole, HoleState, Hook, Job, Position};
use boltbay_core::length::{Length, Rounding};
use boltbay_core::placement::{PlacedHole, Placement, State, Thing};
use boltbay_core::plan::Missing;
use boltbay_core::report::FromEndB;
use boltbay_core::words::{End, Row};

/// Which walk.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Striking marks.
    Mark,
    /// Drilling them.
    Drill,
}

/// How the beam lies before the user.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lie {
    /// The end at the left hand.
    pub left: End,
    /// The TOP flange is away or up, not near or down.
    pub top_away: bool,
}

impl Default for Lie {
    fn default() -> Self {
        Lie {
            left: End::A,
            top_away: true,
        }
    }
}

/// A place in a walk.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Walk {
    /// Which walk.
    pub kind: Kind,
    /// How the beam lies.
    pub lie: Lie,
    /// What the tape hangs on.
    pub hung: Hung,
    /// The tape's mark at the hook.
    pub burn: Length,
    /// How long the tape is.
    pub tape: Length,
    /// The hole in sight: counted through the plan's holes.
    pub at: u8,
    /// Something was done here: on to the next hole.
    pub done: bool,
    /// The hole's state when the sheet was opened.
    pub seen: Option<State>,
}

/// What is to be done at a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Task {
    /// This mark of the job no longer stands.
    StrikeOut(u8),
    /// This hole of the plan is to be marked.
    Mark(u8),
    /// This hole of the plan is to be drilled.
    Drill(u8),
    /// This hole of the plan needs nothing more in this walk.
    Done(u8),
    /// There is no plan.
    Nothing,
}

/// The plan's holes, if there is a plan.
pub fn plan<'a>(look: Look<'a>) -> Option<&'a Placement> {
    look.plan.placement().filter(|placement| placement.feasible)
}

/// The row of the job that a hole of the plan stands for: the nearest of its state.
pub fn row_of(hole: &PlacedHole, job: &Job, frame: &Frame) -> Option<u8> {
    let wanted = match hole.state {
        State::Marked => HoleState::Marked,
        State::Drilled => HoleState::Drilled,
        State::Planned => return None,
    };
    let of_state = (0_u8..)
        .zip(&job.holes)
        .filter(|(_, row)| row.state == wanted && row.row == hole.row);
    let away = |(_, row): &(u8, &Hole)| {
        let at = frame.station_anywhere(row.at()).unwrap_or_default();
        at.saturating_sub(hole.at).abs()
    };
    of_state.min_by_key(away).map(|(row, _)| row)
}

impl Walk {
    /// Starts at the first hole with something to do.
    pub fn of(kind: Kind, lie: Lie, look: Look) -> Walk {
        let mut walk = Walk {
            kind,
            lie,
            hung: Hung::On(Hook::EndA),
            burn: Length::ZERO,
            tape: hung::usual_tape(look.job.units),
            at: 0,
            done: false,
            seen: None,
        };
        walk.go_on(look);
        walk
    }

    /// As on a list; OK held opens the sheet.
    pub fn holdings(&self, _: Look) -> Holdings {
        Holdings {
            right: None,
            ..LIST
        }
    }

    /// After something was done, on to the next thing to do.
    pub fn enter(&mut self, look: Look) {
        let seen = self.seen.take();
        let now = self.hole(look).map(|hole| hole.state);
        if core::mem::take(&mut self.done) || (seen.is_some() && seen != now) {
            self.go_on(look);
        }
        let last = plan(look).map_or(0, |plan| plan.holes.len().saturating_sub(1));
        self.at = self.at.min(u8::try_from(last).unwrap_or(u8::MAX));
    }

    /// The next hole of the walk from here on, round to the first.
    fn go_on(&mut self, look: Look) {
        let Some(plan) = plan(look) else { return };
        let open = |hole: &PlacedHole| match hole.state {
            State::Planned => true,
            State::Marked => self.kind == Kind::Drill,
            State::Drilled => false,
        };
        let numbered = || (0_u8..).zip(&plan.holes).filter(|(_, hole)| open(hole));
        // New marks come before drilling goes on.
        let fresh = numbered().find(|(_, hole)| hole.state == State::Planned);
        let ahead = numbered().find(|(at, _)| *at >= self.at);
        let next = match self.kind {
            Kind::Drill => fresh.or(ahead),
            Kind::Mark => ahead,
        };
        if let Some((at, _)) = next.or_else(|| numbered().next()) {
            self.at = at;
        }
    }

    /// What is to be done here.
    pub fn task(&self, look: Look) -> Task {
        let Some(plan) = plan(look) else {
            return Task::Nothing;
        };
        if let Some(row) = plan.struck_out.first() {
            return Task::StrikeOut(*row);
        }
        let Some(hole) = plan.holes.get(usize::from(self.at)) else {
            return Task::Nothing;
        };
        match (self.kind, hole.state) {
            (_, State::Planned) => Task::Mark(self.at),
            (Kind::Drill, State::Marked) => Task::Drill(self.at),
            _ => Task::Done(self.at),
        }
    }

    /// The hole in sight.
    pub fn hole<'a>(&self, look: Look<'a>) -> Option<&'a PlacedHole> {
        plan(look)?.holes.get(usize::from(self.at))
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        let last = plan(look).map_or(0, |plan| plan.holes.len().saturating_sub(1));
        let last = u8::try_from(last).unwrap_or(u8::MAX);
        match gesture {
            Gesture::Tap(Key::Down) | Gesture::Hold(Key::Down) => {
                self.at = self.at.saturating_add(1).min(last);
                Reply::stay()
            }
            Gesture::Tap(Key::Up | Key::Left) | Gesture::Hold(Key::Up) => {
                self.at = self.at.saturating_sub(1);
                Reply::stay()
            }
            Gesture::Tap(Key::Ok) => self.act(look),
            Gesture::Hold(Key::Ok) => {
                self.seen = self.hole(look).map(|hole| hole.state);
                Reply::open(Screen::Sheet(sheet::Sheet::of(sheet::Of::Walk(*self))))
            }
            _ => Reply::stay(),
        }
    }

    /// The usual thing.
    fn act(&mut self, look: Look) -> Reply {
        let frame = look.plan.frame;
        let end = u8::try_from(look.job.holes.len()).unwrap_or(u8::MAX);
        let task = self.task(look);
        if matches!(task, Task::Mark(_) | Task::Drill(_)) && self.must_rehook(look) {
            let rehook = hung::Rehook::of(*self, look);
            return Reply::open(Screen::Hook(rehook)).deaf(300);
        }
        let reply = match (task, self.hole(look), frame) {
            (Task::StrikeOut(row), ..) => {
                let mut reply = Reply::edit(Edit::Remove(List::Holes, row), Go::STAY);
                if let Some(mark) = look.job.holes.get(usize::from(row)) {
                    let _ = reply.undo.push(Edit::Hole(row, *mark));
                }
                reply
            }
            (Task::Mark(_), Some(hole), _) => {
                let mark = Hole::new(Position::from_end_a(hole.at), hole.row, HoleState::Marked);
                let mut reply = Reply::edit(Edit::Hole(end, mark), Go::STAY);
                let _ = reply.undo.push(Edit::Remove(List::Holes, end));
                reply
            }
            (Task::Drill(_), Some(hole), Some(frame)) => {
                let Some(row) = row_of(hole, look.job, &frame) else {
                    return Reply::stay();
                };
                drilled(row, None, look.job)
            }
            (Task::Done(_), ..) => return self.finish(look),
            _ => return Reply::stay(),
        };
        self.done = true;
        reply.deaf(1000)
    }

    /// Nothing left: after marking, the blind readings and then drilling.
    fn finish(&self, look: Look) -> Reply {
        let open = |hole: &PlacedHole| match self.kind {
            Kind::Mark => hole.state == State::Planned,
            Kind::Drill => hole.state != State::Drilled,
        };
        let left = plan(look).is_some_and(|plan| plan.holes.iter().any(open));
        match (left, self.kind) {
            (false, Kind::Mark) => match blind::Blind::first(self.lie, look) {
                Some(blind) => Reply::go(Go::instead(Screen::Blind(blind))),
                None => Reply::back(),
            },
            (false, Kind::Drill) => Reply::back(),
            (true, _) => Reply::stay(),
        }
    }

    /// What the tape reads at a station, and how far off that may be.
    pub fn reading(&self, at: Length, look: Look) -> Option<(Length, Length)> {
        let frame = look.plan.frame?;
        let step = defaults::lattice(look.job);
        let exact = (at, Length::ZERO);
        let rounded = |away: Length| {
            let shown = away.to_multiple(step, Rounding::Nearest);
            let half = step.half(Rounding::Up);
            let off = if shown == away { Length::ZERO } else { half };
            (shown, off)
        };
        let face = |end| Some(frame.as_placed(frame.face(end).ok()?));
        let (reading, off) = match self.hung {
            Hung::On(Hook::EndA) => exact,
            Hung::On(Hook::EndB) => {
                let reading = FromEndB::new(&frame, step)?.reading(at);
                (reading.shown, reading.off)
            }
            Hung::On(Hook::WallA) => rounded(at.checked_sub(face(End::A)?)?),
            Hung::On(Hook::WallB) => rounded(face(End::B)?.checked_sub(at)?),
            Hung::Hole(hole) if hole == at => return None,
            Hung::Hole(hole) => rounded(at.checked_sub(hole)?.abs()),
        };
        Some((reading.checked_add(self.burn)?, off))
    }

    /// Whether the tape ends before the hole in sight.
    pub fn is_past_tape(&self, look: Look) -> bool {
        let reading = self.hole(look).and_then(|hole| self.reading(hole.at, look));
        reading.is_some_and(|(reading, _)| reading > self.tape)
    }

    /// Nothing to read here: the tape hangs on this very hole, or ends before it.
    fn must_rehook(&self, look: Look) -> bool {
        let hole = self.hole(look);
        let no_reading = hole.is_some_and(|hole| self.reading(hole.at, look).is_none());
        no_reading || self.is_past_tape(look)
    }

    /// The station of what was read here.
    pub fn station(&self, reading: Length, look: Look) -> Option<Position> {
        let reading = reading.checked_sub(self.burn)?;
        let hook = match self.hung {
            Hung::On(hook) => hook,
            Hung::Hole(from) => {
                let to_b = self.hole(look)?.at > from;
                let at = match to_b {
                    true => from.checked_add(reading)?,
                    false => from.checked_sub(reading)?,
                };
                return Some(Position::from_end_a(at));
            }
        };
        let position = Position { reading, hook };
        // A wall reading is of the house; the hole rides with the beam.
        match (hook, look.plan.frame) {
            (Hook::WallA | Hook::WallB, Some(frame)) => {
                let at = frame.station_anywhere(position).ok()?;
                Some(Position::from_end_a(frame.as_placed(at)))
            }
            _ => Some(position),
        }
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        match self.kind {
            Kind::Mark => view.named("mark", hint::MARK),
            Kind::Drill => view.named("drill", hint::DRILL),
        }
        let Some(plan) = plan(look) else {
            view.status.left = text("NO PLAN");
            view.alarm = true;
            why_not(look, view);
            return;
        };
        match self.task(look) {
            Task::StrikeOut(row) => strike_out(row, look, view),
            _ => self.view_hole(plan, look, view),
        }
    }

    fn view_hole(&self, plan: &Placement, look: Look, view: &mut View) {
        let Some(hole) = self.hole(look) else { return };
        let units = look.job.units;
        view.status.left = text!("{}/{}", u16::from(self.at) + 1, plan.holes.len());
        view.status.tab = text(words::row(hole.row));
        let room = LINE - 1 - view.status.left.len() - view.status.tab.len();
        view.status.right = hung::said(self, room, look);
        let top_edge = (hole.row == Row::Top) == self.lie.top_away;
        view.flange = Some(if top_edge { Row::Top } else { Row::Bot });
        let reading = self.reading(hole.at, look);
        if let Some((length, _)) = reading {
            view.figure = Some(Figure::length(length, units, Touch::Keyed));
        }
        if self.must_rehook(look) && !matches!(self.task(look), Task::Done(_)) {
            view.screen = "past-tape";
            view.hint = hint::PAST_TAPE;
            view.alarm = true;
            view.line(&text!("TAPE {}", short(self.tape, units)), "OK: HOOK");
            return;
        }
        let off = reading.map(|(_, off)| off).unwrap_or_default();
        view.strip = Some(self.strip(hole, off, look));
    }

    /// The nearest thing on the side on which it lies. On the other what was done,
    /// or the burn, or the row's height; the nearest thing gives way to the first two.
    fn strip(&self, hole: &PlacedHole, off: Length, look: Look) -> Strip {
        let units = look.job.units;
        let height = look.plan.heights.map(|heights| match hole.row {
            Row::Top => heights.top,
            Row::Bot => heights.bot,
        });
        let height = match self.burn == Length::ZERO {
            true => height.map(|height| text!("H {}", short(height, units))),
            false => Some(text!("BURN {}", short(self.burn, units))),
        };
        let done = match self.task(look) {
            Task::Done(_) => Some(text(done(hole))),
            Task::Mark(_) if self.kind == Kind::Drill => Some(text("NEW MARK")),
            _ => None,
        };
        let is_done = done.is_some() || self.burn != Length::ZERO;
        let height = done.or(height).unwrap_or_default();
        let Some((gap, thing)) = hole.gap().zip(hole.nearest()) else {
            return Strip {
                left: height,
                right: Text::new(),
            };
        };
        let gap = words::down(gap.saturating_sub(off), units);
        let name = words::thing(thing, look);
        let toward_a = thing_at(thing, look).is_some_and(|at| at < hole.at);
        let at_left = toward_a == (self.lie.left == End::A);
        let room = name.len() + gap.len() + height.len() + 4 <= 18;
        let other = match room || is_done {
            true => height,
            false => Text::new(),
        };
        let (name, gap) = match room || !is_done {
            true => (name, gap),
            false => (Text::new(), Text::new()),
        };
        match at_left {
            true => Strip {
                left: text!("{name} {gap}"),
                right: other,
            },
            false => Strip {
                left: other,
                right: text!("{gap} {name}"),
            },
        }
    }
}

/// Why there is no plan: what is missing, or that something blocks.
pub fn why_not(look: Look, view: &mut View) {
    view.hint = hint::NEEDS;
    for missing in look.plan.missing.iter().take(4) {
        match missing {
            Missing::Row(kind) => {
                view.line("NEEDS", &words::capitals(kind, 12));
            }
            Missing::Run(side, run) => {
                view.line(&text!("RUN {}{run} IS OUT", look.job.letter(*side)), "");
            }
        }
    }
    if view.lines.is_empty() {
        view.hint = hint::WAYS_OUT;
        view.line("NO BOLTS FIT", "");
        view.line("SEE PLAN FOR WHY", "");
    }
}

/// A mark becomes a drilled hole: where it was read, or where the mark is.
pub fn drilled(row: u8, at: Option<Position>, job: &Job) -> Reply {
    let Some(mark) = job.holes.get(usize::from(row)) else {
        return Reply::stay();
    };
    let hole = Hole::new(at.unwrap_or(mark.at()), mark.row, HoleState::Drilled);
    let mut reply = Reply::edit(Edit::Remove(List::Holes, row), Go::STAY);
    let _ = reply.edits.push(Edit::Hole(row, hole));
    let _ = reply.undo.push(Edit::Remove(List::Holes, row));
    let _ = reply.undo.push(Edit::Hole(row, *mark));
    reply
}

/// `MARKED`, or the verdict of a drilled hole.
pub fn done(hole: &PlacedHole) -> &'static str {
    match hole.verdict() {
        Some(verdict) => off::verdict(verdict),
        None => "MARKED",
    }
}

/// A mark that no longer stands.
fn strike_out(row: u8, look: Look, view: &mut View) {
    view.screen = "strike";
    view.hint = hint::STRIKE;
    view.alarm = true;
    view.status.left = text("STRIKE OUT");
    let Some(mark) = look.job.holes.get(usize::from(row)) else {
        return;
    };
    view.status.right = text(words::hook(mark.at().hook));
    let reading = mark.at().reading;
    view.figure = Some(Figure::length(reading, look.job.units, Touch::Keyed));
    view.line(words::row(mark.row), "OK: STRUCK OUT");
}

/// Where a thing's middle is, along the beam.
fn thing_at(thing: Thing, look: Look) -> Option<Length> {
    let middle = |from: Length, to: Length| {
        let half = to.saturating_sub(from).half(Rounding::Down);
        from.saturating_add(half)
    };
    match thing {
        Thing::Joist { joist, .. } => {
            let joist = look.plan.joists.get(usize::from(joist))?;
            Some(middle(joist.from, joist.to))
        }
        Thing::Keepout(index) => {
            let keepout = look.job.keepouts.get(usize::from(index))?;
            let frame = look.plan.frame?;
            let from = frame.station_anywhere(keepout.from).ok()?;
            Some(middle(from, frame.station_anywhere(keepout.to).ok()?))
        }
        _ => None,
    }
}
