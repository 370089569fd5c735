//! The first screen: what is missing next, and the working day in its order.
//!
//! Whoever takes the first line again and again is led from nothing to the first
//! mark: each accepted entry opens the next one, until an entry is left.

use super::begin::Begin;
use super::form::{self, Form, FormScreen};
use super::jobs::new_job;
use super::run::RunSetup;
use super::walk::Kind as WalkKind;
use super::{Go, LIST, Look, Reply, Screen, list};
use crate::edit::Edit;
use crate::field::{Field, Kind, Value};
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{Text, View, text};
use crate::words::{self, DAY, hint};
use boltbay_core::Job;
use boltbay_core::job::HoleState;
use boltbay_core::placement::{PlacedHole, State};
use boltbay_core::words::{Side, Units};
use heapless::Vec;

/// The day's steps and a cursor.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Home {
    pub(super) cursor: u8,
    /// Each accepted entry opens the next missing one.
    pub(crate) led: bool,
    /// Bits of the cautions that were heard in this job.
    pub(crate) heard: u8,
    /// The last field that was opened so.
    pub(super) asked: Option<Kind>,
}

/// One line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Line {
    /// A new job in these units.
    New(Units),
    /// What is missing next.
    Next(Next),
    /// A step of the day.
    Step(u8),
}

/// What an ordinary job needs next, up to its first mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Next {
    Field(Field),
    Run(Side),
    Mark,
}

/// What is missing next; `None` once something is marked.
fn next(job: &Job) -> Option<Next> {
    let fields = |kinds: &[Field]| {
        let missing = |field: &&Field| field.get(job) == Value::Nothing;
        kinds.iter().find(missing).map(|field| Next::Field(*field))
    };
    // One end distance keyed stands for both until the other is.
    let ends = || match job.ends {
        None => Some(Next::Field(Field::of(Kind::EndLeast))),
        Some(ends) if ends.least == ends.most => Some(Next::Field(Field::of(Kind::EndMost))),
        Some(_) => None,
    };
    let bare = |side: &Side| job.runs.iter().all(|run| run.side != *side);
    let runs = || Side::BOTH.into_iter().find(bare).map(Next::Run);
    fields(&[
        Field::of(Kind::Shape),
        Field::at(Kind::Bearing, 0),
        Field::of(Kind::Clear),
        Field::of(Kind::Length),
    ])
    .or_else(runs)
    .or_else(|| fields(&[Field::of(Kind::Bolt), Field::of(Kind::Spacing)]))
    .or_else(ends)
    .or_else(|| match job.holes.is_empty() {
        true => Some(Next::Mark),
        false => None,
    })
}

impl Next {
    fn screen(self, job: &Job) -> Screen {
        match self {
            Next::Field(field) => form::change(field, job),
            Next::Run(_) => Screen::Run(RunSetup::next(job)),
            Next::Mark => Screen::Begin(Begin::of(WalkKind::Mark, job)),
        }
    }

    fn word(self, job: &Job) -> Text {
        match self {
            Next::Field(field) => text(field.kind.about().label),
            Next::Run(side) => text!("TAPE RUN {}", job.letter(side)),
            Next::Mark => text("MARK"),
        }
    }
}

fn lines(job: &Job) -> Vec<Line, 12, u8> {
    let mut lines = Vec::new();
    if job.beam.is_none() && job.runs.is_empty() {
        let _ = lines.push(Line::New(Units::Imperial));
        let _ = lines.push(Line::New(Units::Metric));
    } else if let Some(next) = next(job) {
        let _ = lines.push(Line::Next(next));
    }
    let steps = 0..u8::try_from(DAY.len()).unwrap_or(0);
    steps.for_each(|step| {
        let _ = lines.push(Line::Step(step));
    });
    lines
}

impl Home {
    /// As on a list.
    pub fn holdings(&self, _: Look) -> Holdings {
        LIST
    }

    /// The cursor stays within the list.
    pub fn enter(&mut self, look: Look) {
        let last = lines(look.job).len().saturating_sub(1);
        self.cursor = self.cursor.min(u8::try_from(last).unwrap_or(0));
    }

    /// After an accepted entry: the next one, as long as the user is led.
    pub fn follow(&mut self, edited: bool, look: Look) -> Option<Screen> {
        self.led &= edited;
        let next = next(look.job).filter(|_| self.led);
        let asked = match next {
            Some(Next::Field(field)) => Some(field.kind),
            _ => None,
        };
        // A field that was just answered is not asked again.
        let again = asked.is_some() && asked == self.asked;
        self.asked = asked;
        self.led = next.is_some() && !again;
        next.filter(|_| !again).map(|next| next.screen(look.job))
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        let lines = lines(look.job);
        let count = u8::try_from(lines.len()).unwrap_or(u8::MAX);
        if list::turn(&mut self.cursor, count, gesture) {
            return Reply::stay();
        }
        let line = lines.get(usize::from(self.cursor));
        match (gesture, line) {
            (Gesture::Tap(Key::Ok | Key::Right), Some(line)) => self.open(*line, look.job),
            _ => Reply::stay(),
        }
    }

    fn open(&mut self, line: Line, job: &Job) -> Reply {
        match line {
            Line::New(units) => {
                self.led = true;
                self.cursor = 0;
                Reply::edit(Edit::New(units), Go::STAY).deaf(300)
            }
            Line::Next(next) => {
                self.led = true;
                Reply::open(next.screen(job))
            }
            Line::Step(step) => Reply::open(step_screen(step, job)),
        }
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("home", hint::HOME);
        view.status.left = match look.job.name.is_empty() {
            true => text("NO NAME"),
            false => words::capitals(&look.job.name, 12),
        };
        if let Some(code) = &look.plan.code {
            view.status.right = text(code);
        }
        // What lifts must not be overlooked.
        if let Some(lifts) = super::page::lifts(look) {
            view.alarm = true;
            view.status.right = lifts;
        }
        let lines = lines(look.job);
        let first = list::first(self.cursor, u8::try_from(lines.len()).unwrap_or(0));
        for line in lines.iter().skip(usize::from(first)).take(4) {
            match *line {
                Line::New(units) => view.line(new_job(units), ""),
                Line::Next(next) => view.line("NEXT", &next.word(look.job)),
                Line::Step(step) => {
                    let name = DAY.get(usize::from(step)).copied().unwrap_or("");
                    view.line(name, &done(step, look));
                }
            }
        }
        view.selected = Some(self.cursor - first);
    }
}

fn step_screen(step: u8, job: &Job) -> Screen {
    let form = match step {
        0 => Form::Job,
        1 => Form::Measure,
        2 => Form::Plan,
        3 => return Screen::Begin(Begin::of(WalkKind::Mark, job)),
        4 => return Screen::Begin(Begin::of(WalkKind::Drill, job)),
        5 => Form::Pack,
        6 => Form::Bolt,
        _ => Form::Set,
    };
    Screen::Form(FormScreen::of(form))
}

/// How far a step has come.
fn done(step: u8, look: Look) -> Text {
    let holes = |state: HoleState| look.job.holes.iter().filter(|h| h.state == state).count();
    let feasible = look.plan.placement().filter(|placement| placement.feasible);
    match (step, feasible) {
        (1, _) => text!("{} JOISTS", look.plan.joists.len()),
        (2, _) => planned(look),
        (3, Some(placement)) => {
            // Marks to be struck out are none of the plan's.
            let on_steel = |hole: &&PlacedHole| hole.state != State::Planned;
            let on_steel = placement.holes.iter().filter(on_steel).count();
            text!("{on_steel}/{}", placement.holes.len())
        }
        (4, Some(placement)) => text!("{}/{}", holes(HoleState::Drilled), placement.holes.len()),
        _ => Text::new(),
    }
}

/// How many holes are planned, or that there is no plan; nothing while the note
/// is not keyed.
pub fn planned(look: Look) -> Text {
    match look.plan.placement() {
        Some(placement) if placement.feasible => text!("{} HOLES", placement.holes.len()),
        Some(_) => text("NO PLAN"),
        None => Text::new(),
    }
}
