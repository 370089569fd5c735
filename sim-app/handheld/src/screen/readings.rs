//! The readings of a run, in the order of the tape: to correct one, to put one
//! in between, to take one out.

use super::{Go, LIST, Look, Reply, Screen, list, reading, sheet};
use crate::edit::Edit;
use crate::field::List;
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{View, text};
use crate::words::{self, hint};
use boltbay_core::Job;
use boltbay_core::job::JoistReading;

/// A cursor in the readings of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Readings {
    pub(super) run: u8,
    pub(super) cursor: u8,
}

impl Readings {
    /// Starts on the last reading.
    pub fn of(run: u8, job: &Job) -> Readings {
        let count = reading::of_run(job, run).count();
        Readings {
            run,
            cursor: u8::try_from(count.saturating_sub(1)).unwrap_or(0),
        }
    }

    /// As on a list.
    pub fn holdings(&self, _: Look) -> Holdings {
        LIST
    }

    /// The cursor stays within the list.
    pub fn enter(&mut self, look: Look) {
        let last = self.count(look.job).saturating_sub(1);
        self.cursor = self.cursor.min(last);
    }

    fn count(&self, job: &Job) -> u8 {
        u8::try_from(reading::of_run(job, self.run).count()).unwrap_or(u8::MAX)
    }

    /// The chosen reading and its place in the job.
    fn chosen(&self, job: &Job) -> Option<(u8, JoistReading)> {
        let mut all = reading::of_run(job, self.run);
        all.nth(usize::from(self.cursor))
            .map(|(at, joist)| (at, *joist))
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        let count = self.count(look.job);
        if list::turn(&mut self.cursor, count, gesture) {
            return Reply::stay();
        }
        let chosen = self.chosen(look.job);
        match (gesture, chosen) {
            (Gesture::Tap(Key::Left), _) => Reply::back(),
            (Gesture::Tap(Key::Ok), Some((at, _))) => {
                Reply::open(Screen::Reading(reading::Reading::at(self.run, at, false)))
            }
            (Gesture::Hold(Key::Ok), chosen) => {
                let at = chosen.map(|(at, _)| at);
                let of = sheet::Of::Readings(self.run, at);
                Reply::open(Screen::Sheet(sheet::Sheet::of(of)))
            }
            (Gesture::Hold(Key::Right), Some((at, joist))) => {
                let mut reply = Reply::edit(Edit::Remove(List::Joists, at), Go::STAY);
                let _ = reply.undo.push(Edit::Joist(at, joist));
                reply
            }
            _ => Reply::stay(),
        }
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("readings", hint::READINGS);
        let units = look.job.units;
        if let Some(run) = look.job.runs.get(usize::from(self.run)) {
            view.status.left = text!("RUN {}", look.job.letter(run.side));
            view.status.right = text(words::run_hook(run.hook));
            let first = list::first(self.cursor, self.count(look.job));
            let all = (1_u8..).zip(reading::of_run(look.job, self.run));
            for (number, (_, joist)) in all.skip(usize::from(first)).take(4) {
                let left = words::joist(look.job, run.side, number);
                let double = if joist.thickness.is_some() { "*" } else { "" };
                let right = text!("{}{double}", words::short(joist.reading, units));
                view.line(&left, &right);
            }
            view.selected = Some(self.cursor - first);
        }
        if !look.undo.is_empty() {
            view.status.tab = text("TAKEN OUT");
            view.status.right.clear();
        }
    }
}
