//! The sheet of things to do here: OK held opens it, on a blank line, so that a
//! slow OK does nothing. The blank line shows the hint of the screen below.

use super::{Go, LIST, Look, Reply, Screen, ask, begin, form, hung, list, off, proof, readings};
use crate::edit::Edit;
use crate::field::{Field, Kind as FieldKind, List, Value};
use crate::key::{Gesture, Holdings, Key};
use crate::view::{View, Wrapped, text};
use crate::words::hint;
use boltbay_core::Job;
use boltbay_core::defaults;
use boltbay_core::job::{CheckKind, HangerRef, Hole, HoleState, JoistReading};
use boltbay_core::length::Length;
use boltbay_core::placement::State;
use boltbay_core::words::Units;

use super::reading::{Accepted, of_run};
use super::walk::{Walk, row_of};

/// What the sheet lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Of {
    /// A field in the making.
    Field(Field),
    /// A run, and the reading as it would be accepted.
    Reading(u8, Accepted),
    /// The readings of a run, and the chosen one.
    Readings(u8, Option<u8>),
    /// A walk.
    Walk(Walk),
    /// Nothing but leaving.
    Leave,
}

/// One thing to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Do {
    Nothing,
    Double,
    Undo,
    Correct,
    Triple,
    Thickness,
    NoHanger,
    Check,
    Leave,
    Close,
    Clear,
    Insert,
    PutBack,
    Page,
    OffItsMark,
    UndoHole,
    Abandon,
    Turned,
    Hook,
    Burn,
}

impl Do {
    const fn word(self) -> &'static str {
        match self {
            Do::Nothing => "",
            Do::Double => "DOUBLE",
            Do::Undo => "UNDO LAST",
            Do::Correct => "CORRECT ONE",
            Do::Triple => "TRIPLE",
            Do::Thickness => "OTHER THICKNESS",
            Do::NoHanger => "NO HANGER",
            Do::Check => "CHECK, STILL HUNG",
            Do::Leave => "LEAVE",
            Do::Close => "CLOSE THE RUN",
            Do::Clear => "AS IF NOT KEYED",
            Do::Insert => "ONE MORE BEFORE IT",
            Do::PutBack => "PUT BACK",
            Do::Page => "THICKNESS, HANGER",
            Do::OffItsMark => "OFF ITS MARK",
            Do::UndoHole => "UNDO LAST HOLE",
            Do::Abandon => "HOLE ABANDONED",
            Do::Turned => "BEAM TURNED",
            Do::Hook => "OTHER HOOK OR TAPE",
            Do::Burn => "BURN ON OR OFF",
        }
    }
}

/// A sheet and a cursor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sheet {
    of: Of,
    cursor: u8,
    /// The hint of the screen below.
    pub hint: &'static str,
}

impl Sheet {
    /// Opens on the blank line.
    pub fn of(of: Of) -> Sheet {
        Sheet {
            of,
            cursor: 0,
            hint: hint::LIST,
        }
    }

    const fn all(&self) -> &'static [Do] {
        match self.of {
            Of::Field(_) => &[Do::Nothing, Do::Leave, Do::Clear],
            Of::Reading(..) => &[
                Do::Nothing,
                Do::Double,
                Do::Undo,
                Do::Correct,
                Do::Triple,
                Do::Thickness,
                Do::NoHanger,
                Do::Check,
                Do::Leave,
                Do::Close,
            ],
            Of::Readings(..) => &[Do::Nothing, Do::PutBack, Do::Insert, Do::Page, Do::Leave],
            Of::Walk(_) => &[
                Do::Nothing,
                Do::OffItsMark,
                Do::UndoHole,
                Do::Turned,
                Do::Hook,
                Do::Burn,
                Do::Abandon,
                Do::Leave,
            ],
            Of::Leave => &[Do::Nothing, Do::Leave],
        }
    }

    fn count(&self) -> u8 {
        u8::try_from(self.all().len()).unwrap_or(u8::MAX)
    }

    fn chosen(&self) -> Do {
        let chosen = self.all().get(usize::from(self.cursor));
        chosen.copied().unwrap_or(Do::Nothing)
    }

    /// As on a list.
    pub fn holdings(&self, _: Look) -> Holdings {
        Holdings {
            ok: None,
            right: None,
            ..LIST
        }
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        let count = self.count();
        if list::turn(&mut self.cursor, count, gesture) {
            return Reply::stay();
        }
        match gesture {
            Gesture::Tap(Key::Ok) => self.act(look).deaf(300),
            Gesture::Tap(Key::Left) => Reply::back(),
            _ => Reply::stay(),
        }
    }

    fn act(&self, look: Look) -> Reply {
        match (self.chosen(), self.of) {
            (Do::Nothing, _) => Reply::back(),
            (Do::Leave, _) => Reply::go(Go {
                leave: 2,
                open: None,
            }),
            (Do::Clear, Of::Field(field)) => {
                let go = Go {
                    leave: 2,
                    open: None,
                };
                Reply::edit(Edit::Set(field, Value::Nothing), go)
            }
            (chosen, Of::Reading(run, accepted)) => reading(chosen, run, accepted, look),
            (Do::Insert, Of::Readings(run, Some(at))) => {
                let before = super::reading::Reading::at(run, at, true);
                Reply::go(Go::instead(Screen::Reading(before)))
            }
            (Do::Page, Of::Readings(_, Some(at))) => {
                let page = form::Form::Entry(List::Joists, at);
                Reply::go(Go::instead(Screen::Form(form::FormScreen::of(page))))
            }
            (chosen, Of::Walk(walk)) => in_walk(chosen, walk, look),
            (Do::PutBack, _) => Reply {
                edits: look.undo.clone(),
                ..Reply::back()
            },
            _ => Reply::back(),
        }
    }

    /// What is shown: the hint of the place, or four lines.
    pub fn view(&self, _look: Look, view: &mut View) {
        view.named("sheet", hint::LIST);
        view.status.left = text("THINGS TO DO");
        if self.cursor == 0 {
            view.small = true;
            wrapped(self.hint, view);
            while view.lines.len() < 4 {
                view.line("", "");
            }
            view.line("OK NOTHING", "DOWN MORE");
            return;
        }
        let first = list::first(self.cursor, self.count());
        let first = first
            .max(1)
            .min(self.count().saturating_sub(list::LINES).max(1));
        for thing in self.all().iter().skip(usize::from(first)).take(4) {
            view.line(thing.word(), "");
        }
        view.selected = Some(self.cursor - first);
    }
}

/// Lays words out in small lines.
pub fn wrapped(words: &str, view: &mut View) {
    Wrapped::of(words).for_each(|line| view.line(line, ""));
}

/// Things to do in a tape run.
fn reading(chosen: Do, run: u8, accepted: Accepted, look: Look) -> Reply {
    match chosen {
        Do::Double => accept(times(2, accepted, look.job), look, Go::BACK),
        Do::Triple => accept(times(3, accepted, look.job), look, Go::BACK),
        Do::NoHanger => {
            let hanger = HangerRef::None;
            let joist = accepted.joist.map(|joist| JoistReading { hanger, ..joist });
            accept(Accepted { joist, ..accepted }, look, Go::BACK)
        }
        Do::Thickness => {
            let end = u8::try_from(look.job.joists.len()).unwrap_or(u8::MAX);
            let field = Field::at(FieldKind::JoistThickness, end);
            let usual = usual(run, look.job);
            let entry = super::entry::Entry::of(field, look.job, Some(usual));
            accept(accepted, look, Go::instead(Screen::Entry(entry)))
        }
        Do::Undo => match of_run(look.job, run).next_back() {
            Some((at, _)) => Reply::edit(Edit::Remove(List::Joists, at), Go::BACK),
            None => Reply::back(),
        },
        Do::Correct => {
            let list = readings::Readings::of(run, look.job);
            Reply::go(Go::instead(Screen::Readings(list)))
        }
        Do::Close => prove(run, CheckKind::Close, look),
        Do::Check => prove(run, CheckKind::Check, look),
        _ => Reply::back(),
    }
}

/// The run's joist thickness.
fn usual(run: u8, job: &Job) -> Length {
    let keyed = job.runs.get(usize::from(run)).and_then(|run| run.thickness);
    keyed.unwrap_or(defaults::thickness(job))
}

/// So many plies side by side.
fn times(plies: i32, accepted: Accepted, job: &Job) -> Accepted {
    let joist = accepted.joist.map(|joist| {
        let thickness = usual(joist.run, job).checked_mul(plies);
        JoistReading { thickness, ..joist }
    });
    Accepted { joist, ..accepted }
}

/// Into the job, or a question first.
fn accept(accepted: Accepted, look: Look, go: Go) -> Reply {
    let Some(joist) = accepted.joist else {
        return Reply::back();
    };
    let end = u8::try_from(look.job.joists.len()).unwrap_or(u8::MAX);
    match accepted.slips(look.job).first() {
        Some(slip) => Reply::go(Go::instead(Screen::Ask(ask::Ask::Slip(*slip, joist, end)))),
        None => Reply::edit(Edit::Joist(end, joist), go),
    }
}

/// The sheet and the reading screen give way to the proof.
fn prove(run: u8, kind: CheckKind, look: Look) -> Reply {
    match proof::Proof::of(run, kind, look.job) {
        Some(proof) => Reply::go(Go::instead_of(2, Screen::Proof(proof))),
        None => Reply::back(),
    }
}

/// Things to do in a walk.
fn in_walk(chosen: Do, walk: Walk, look: Look) -> Reply {
    match chosen {
        Do::OffItsMark => match off::Off::of(walk, look) {
            Some(off) => {
                let walk = Screen::Off(off);
                Reply::go(Go::instead(walk))
            }
            None => Reply::back(),
        },
        Do::UndoHole => {
            let (at, done) = (0, true);
            let walk = Screen::Walk(Walk { at, done, ..walk });
            Reply {
                edits: look.undo.clone(),
                ..Reply::go(Go::instead_of(2, walk))
            }
        }
        Do::Turned => {
            let begin = begin::Begin::turned(walk.kind, walk.lie);
            Reply::go(Go::instead_of(2, Screen::Begin(begin)))
        }
        Do::Hook => Reply::go(Go::instead(Screen::Hook(hung::Rehook::of(walk, look)))),
        Do::Burn => {
            let burn = match (walk.burn == Length::ZERO, look.job.units) {
                (true, Units::Imperial) => Length::from_inches(1),
                (true, Units::Metric) => Length::from_millimetres(100),
                (false, _) => Length::ZERO,
            };
            Reply::go(Go::instead_of(2, Screen::Walk(Walk { burn, ..walk })))
        }
        Do::Abandon => abandon(walk, look),
        _ => Reply::back(),
    }
}

/// A drilled hole that is not used: it is kept clear of.
fn abandon(walk: Walk, look: Look) -> Reply {
    let hole = walk.hole(look).filter(|hole| hole.state == State::Drilled);
    let found = hole
        .zip(look.plan.frame)
        .and_then(|(hole, frame)| row_of(hole, look.job, &frame));
    let Some((row, drilled)) =
        found.and_then(|row| Some((row, look.job.holes.get(usize::from(row))?)))
    else {
        return Reply::back();
    };
    let abandoned = Hole::new(drilled.at(), drilled.row, HoleState::Abandoned);
    let mut reply = Reply::edit(Edit::Remove(List::Holes, row), Go::BACK);
    let _ = reply.edits.push(Edit::Hole(row, abandoned));
    let _ = reply.undo.push(Edit::Remove(List::Holes, row));
    let _ = reply.undo.push(Edit::Hole(row, *drilled));
    reply
}
