//! A hole off its mark: where it is, what that looks like, what is said of it.

use super::hung;
use super::walk::{Walk, drilled, row_of};
use super::{Go, LIST, Look, Reply, Screen, sheet};
use crate::key::{Gesture, Holdings, Key};
use crate::ladder::{Ladder, Rungs};
use crate::text;
use crate::view::{Figure, LINE, Touch, View, text};
use crate::words::{self, hint, short};
use boltbay_core::defaults;
use boltbay_core::job::Position;
use boltbay_core::length::Length;
use boltbay_core::placement::{PlacedHole, State, Verdict};
use boltbay_core::words::{End, Units};

/// What a hole far off its mark looks like.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Like {
    /// Read from the other end.
    WrongEnd,
    /// Read from the wall instead of the steel's end.
    FromWall(End),
    /// The tape's mark at the hook was not taken off.
    BurnForgotten,
}

/// What is in hand.
#[derive(Clone, Debug, PartialEq)]
enum Stage {
    Reading(Ladder),
    /// Far off, and it looks like this.
    Like(Like, Position),
    /// The hole is in the job, here: its verdict.
    Said(Position),
}

/// A hole that is not where its mark is.
#[derive(Clone, Debug, PartialEq)]
pub struct Off {
    walk: Walk,
    stage: Stage,
}

/// A hole farther off than this is asked about. Practice: design of the walk.
const fn far(units: Units) -> Length {
    match units {
        Units::Imperial => Length::from_sixteenths(8),
        Units::Metric => Length::from_millimetres(12),
    }
}

/// `FITS`, `TIGHT`, `RULE`, `FOULS`.
pub const fn verdict(verdict: Verdict) -> &'static str {
    boltbay_core::report::words::verdict(verdict)
}

impl Off {
    /// Starts on what the tape should read; `None` without a mark in sight.
    pub fn of(walk: Walk, look: Look) -> Option<Off> {
        let hole = walk
            .hole(look)
            .filter(|hole| hole.state != State::Planned)?;
        let (reading, _) = walk.reading(hole.at, look)?;
        let rungs = Rungs::tape(look.job.units, defaults::lattice(look.job));
        Some(Off {
            walk,
            stage: Stage::Reading(Ladder::new(rungs, Some(reading))),
        })
    }

    /// As the ladder or a list wants it.
    pub fn holdings(&self, _: Look) -> Holdings {
        match &self.stage {
            Stage::Reading(ladder) => ladder.rungs().holdings(false),
            _ => LIST,
        }
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        match &mut self.stage {
            Stage::Reading(ladder) => {
                if ladder.on(gesture) {
                    return Reply::stay();
                }
                let read = ladder.value();
                match (gesture, read.and_then(|read| self.walk.station(read, look))) {
                    (Gesture::Tap(Key::Ok), Some(at)) => self.read(at, look),
                    (Gesture::Hold(Key::Ok), _) => {
                        Reply::open(Screen::Sheet(sheet::Sheet::of(sheet::Of::Leave)))
                    }
                    _ => Reply::stay(),
                }
            }
            Stage::Like(_, at) => {
                let at = *at;
                match gesture {
                    Gesture::Tap(Key::Ok) => self.keep(at, look),
                    Gesture::Tap(Key::Left) => Reply::back(),
                    _ => Reply::stay(),
                }
            }
            Stage::Said(_) => match gesture {
                Gesture::Tap(Key::Ok | Key::Left) => Reply::back().deaf(1000),
                _ => Reply::stay(),
            },
        }
    }

    fn read(&mut self, at: Position, look: Look) -> Reply {
        match self.like(at, look) {
            Some(like) => {
                self.stage = Stage::Like(like, at);
                Reply::stay().deaf(300)
            }
            None => self.keep(at, look),
        }
    }

    fn keep(&mut self, at: Position, look: Look) -> Reply {
        let hole = self.walk.hole(look);
        let row = hole
            .zip(look.plan.frame)
            .and_then(|(hole, frame)| row_of(hole, look.job, &frame));
        self.stage = Stage::Said(at);
        match row {
            Some(row) => Reply {
                go: Go::STAY,
                ..drilled(row, Some(at), look.job)
            }
            .deaf(300),
            None => Reply::back(),
        }
    }

    /// Far off its mark, and near where one slip would have put it.
    fn like(&self, at: Position, look: Look) -> Option<Like> {
        let frame = look.plan.frame?;
        let hole = self.walk.hole(look)?;
        let at = frame.station_anywhere(at).ok()?;
        let far = far(look.job.units);
        let near = |place: Length| at.saturating_sub(place).abs() <= far;
        if near(hole.at) {
            return None;
        }
        if near(frame.length.saturating_sub(hole.at)) {
            return Some(Like::WrongEnd);
        }
        for end in End::BOTH {
            let bearing = frame.bearings.get(end.index()).copied().flatten();
            let shifted = |by: Length| match end {
                End::A => hole.at.saturating_add(by),
                End::B => hole.at.saturating_sub(by),
            };
            if bearing.is_some_and(|bearing| near(shifted(bearing)) || near(shifted(-bearing))) {
                return Some(Like::FromWall(end));
            }
        }
        let burn = match look.job.units {
            Units::Imperial => Length::from_inches(1),
            Units::Metric => Length::from_millimetres(100),
        };
        let burnt = near(hole.at.saturating_add(burn)) || near(hole.at.saturating_sub(burn));
        burnt.then_some(Like::BurnForgotten)
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        let units = look.job.units;
        view.named("off", hint::OFF);
        match &self.stage {
            Stage::Reading(ladder) => {
                view.status.left = text!("HOLE {} AT", u16::from(self.walk.at) + 1);
                let room = LINE - 1 - view.status.left.len();
                view.status.right = hung::said(&self.walk, room, look);
                view.figure = Some(ladder.figure());
                let should = self
                    .walk
                    .hole(look)
                    .and_then(|h| self.walk.reading(h.at, look));
                let should = should.map(|(reading, _)| short(reading, units));
                view.line("MARK", &should.unwrap_or_default());
            }
            Stage::Like(like, at) => {
                view.screen = "like";
                view.alarm = true;
                view.status.left = text(match like {
                    Like::WrongEnd => "WRONG END?",
                    Like::FromWall(_) => "FROM THE WALL?",
                    Like::BurnForgotten => "BURN FORGOTTEN?",
                });
                let mark = self.walk.hole(look).map(|hole| short(hole.at, units));
                view.line("MARK", &mark.unwrap_or_default());
                view.line("READ", &short(at.reading, units));
                view.line("OK: IT IS THERE", "");
                view.line("LEFT: READ AGAIN", "");
            }
            Stage::Said(at) => said(*at, look, view),
        }
    }
}

/// The verdict of the hole that was drilled here.
fn said(at: Position, look: Look, view: &mut View) {
    view.screen = "verdict";
    view.hint = hint::VERDICT;
    let Some((hole, planned)) = drilled_at(at, look) else {
        view.status.left = text("DRILLED");
        view.line("NO PLAN NOW", "");
        return;
    };
    let Some(said) = hole.verdict() else { return };
    let units = look.job.units;
    view.alarm = !matches!(said, Verdict::Fits);
    view.status.left = text!("HOLE {}", words::row(hole.row));
    view.status.right = text(verdict(said));
    view.figure = Some(Figure::length(hole.at, units, Touch::Keyed));
    let (left, right) = match said {
        Verdict::Fouls(by) => (hole.nearest().map(|t| words::thing(t, look)), Some(by)),
        Verdict::Rule(broken, by) => (Some(text(words::broken(broken))), Some(by)),
        _ => (hole.nearest().map(|t| words::thing(t, look)), hole.gap()),
    };
    let right = right.map(|right| short(right, units));
    view.line(&left.unwrap_or_default(), &right.unwrap_or_default());
    if !planned {
        view.status.tab = text("NO PLAN");
    }
}

/// The drilled hole nearest to here, and whether there is a plan.
fn drilled_at<'a>(at: Position, look: Look<'a>) -> Option<(&'a PlacedHole, bool)> {
    let placement = look.plan.placement()?;
    let at = look.plan.frame?.station_anywhere(at).ok()?;
    let drilled = placement
        .holes
        .iter()
        .filter(|hole| hole.state == State::Drilled);
    let nearest = drilled.min_by_key(|hole| hole.at.saturating_sub(at).abs())?;
    Some((nearest, placement.feasible))
}
