//! The jobs of the card: open one, start one, take one off the list, put it back.
//!
//! The list is the journal's; the handheld only wishes. A job that is taken off
//! stays on the card until a new one needs its room, and that is asked.

use super::list;
use super::{Go, LIST, Look, Reply, Screen, ask};
use crate::journal::{JOBS, Listed};
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{Text, View, text};
use crate::words::{self, hint};
use boltbay_core::words::Units;
use heapless::Vec;

/// The jobs of a card: the open one, then the latest first, then those taken off.
pub type JobList = Vec<Listed, JOBS, u8>;

/// What only the journal can do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wish {
    /// The list of jobs.
    List,
    /// Another job in place of this one, which is kept.
    Open(crate::journal::JobNumber),
    /// A new job in place of this one, which is kept.
    Make(Units),
    /// A job off the list.
    Remove(crate::journal::JobNumber),
    /// One that was taken off back on the list.
    Restore(crate::journal::JobNumber),
}

/// A cursor through the jobs and the two lines below them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Jobs {
    pub(super) cursor: u8,
}

/// One line.
enum Line<'a> {
    Job(&'a Listed, bool),
    New(Units),
}

impl Jobs {
    fn line<'a>(at: u8, look: Look<'a>) -> Option<Line<'a>> {
        let jobs = look.jobs.len();
        match usize::from(at).checked_sub(jobs) {
            None => {
                let job = look.jobs.get(usize::from(at))?;
                Some(Line::Job(job, at == 0))
            }
            Some(0) => Some(Line::New(Units::Imperial)),
            Some(1) => Some(Line::New(Units::Metric)),
            Some(_) => None,
        }
    }

    fn count(look: Look) -> u8 {
        match look.jobs.is_empty() {
            true => 0,
            false => u8::try_from(look.jobs.len() + 2).unwrap_or(u8::MAX),
        }
    }

    /// As on a list.
    pub fn holdings(&self, _: Look) -> Holdings {
        LIST
    }

    /// The cursor stays within the list.
    pub fn enter(&mut self, look: Look) {
        list::stay_within(&mut self.cursor, Jobs::count(look));
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        if list::turn(&mut self.cursor, Jobs::count(look), gesture) {
            return Reply::stay();
        }
        match (gesture, Jobs::line(self.cursor, look)) {
            (Gesture::Tap(Key::Left), _) => Reply::back(),
            (Gesture::Tap(Key::Ok | Key::Right), Some(line)) => chosen(line, look),
            (Gesture::Hold(Key::Right), Some(Line::Job(job, false))) if !job.removed => {
                Reply::open(Screen::Ask(ask::Ask::DeleteJob(self.cursor)))
            }
            _ => Reply::stay(),
        }
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("jobs", hint::JOBS);
        view.status.left = text("JOBS ON THE CARD");
        let count = Jobs::count(look);
        if count == 0 {
            view.hint = hint::NO_JOBS;
            view.line("NO CARD: THIS JOB", "");
            view.line("IS THE ONLY ONE", "");
            return;
        }
        let first = list::first(self.cursor, count);
        for at in first..count.min(first + list::LINES) {
            match Jobs::line(at, look) {
                Some(Line::Job(job, open)) => {
                    let state = match (open, job.removed) {
                        (true, _) => "OPEN",
                        (_, true) => "OFF",
                        _ => "",
                    };
                    view.line(&called(job), state);
                }
                Some(Line::New(units)) => view.line(new_job(units), ""),
                None => {}
            }
        }
        view.selected = Some(self.cursor - first);
    }
}

/// The words of a line that starts a job.
pub fn new_job(units: Units) -> &'static str {
    match units {
        Units::Imperial => "NEW JOB, INCHES",
        Units::Metric => "NEW JOB, MM",
    }
}

/// A job's name, as much as there is room for.
pub fn called(job: &Listed) -> Text {
    match job.title.is_empty() {
        true => text!("NO NAME {}", job.job.get() + 1),
        false => words::capitals(&job.title, 13),
    }
}

/// The job that gives its room to a new one, where no other room is left: the
/// oldest that was taken off.
pub fn gives_room<'a>(look: Look<'a>) -> Option<&'a Listed> {
    let full = look.jobs.is_full();
    let off = look.jobs.iter().filter(|job| full && job.removed);
    off.min_by_key(|job| job.number)
}

fn chosen(line: Line, look: Look) -> Reply {
    match line {
        Line::Job(_, true) => Reply::go(Go::HOME),
        Line::Job(job, _) if job.removed => Reply::wish(Wish::Restore(job.job)),
        Line::Job(job, _) => Reply::wish(Wish::Open(job.job)),
        Line::New(units) if gives_room(look).is_some() => {
            Reply::open(Screen::Ask(ask::Ask::TakeRoom(units)))
        }
        Line::New(units) => Reply::wish(Wish::Make(units)),
    }
}
