//! Entering a length: the ladder on one field. A position asks then for its hook.

use super::{Go, Look, Reply, Screen, choose, sheet};
use crate::edit::Edit;
use crate::field::{Field, Sort, Value};
use crate::key::{Gesture, Holdings, Key};
use crate::ladder::{Beyond, Ladder, Rungs};
use crate::view::{Text, View, text};
use crate::words::{HOLD_OK_LEAVES, hint, short};
use boltbay_core::Job;
use boltbay_core::job::{Hook, Position};
use boltbay_core::length::Length;
use boltbay_core::words::Units;

/// A length of one field in the making.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    field: Field,
    ladder: Ladder,
    hook: Hook,
}

/// The rungs for a field, as fine as it is read, within its limits.
fn rungs(field: Field, units: Units) -> Rungs {
    let tape = match units {
        Units::Imperial => Rungs::tape(units, Length::from_sixteenths(1)),
        Units::Metric => Rungs::tape(units, Length::from_millimetres(1)),
    };
    let rungs = match field.kind.about().sort {
        Sort::Fine => Rungs::fine(units),
        _ => tape,
    };
    rungs.within(field.kind.span())
}

impl Entry {
    /// Starts from what is keyed, or from a suggestion, or from nothing.
    pub fn of(field: Field, job: &Job, suggested: Option<Length>) -> Entry {
        let rungs = rungs(field, job.units);
        let (ladder, hook) = match field.get(job) {
            Value::Length(length) => (Ladder::keyed(rungs, length), Hook::EndA),
            Value::At(Position { reading, hook }) => (Ladder::keyed(rungs, reading), hook),
            _ => (Ladder::new(rungs, suggested), Hook::EndA),
        };
        Entry {
            field,
            ladder,
            hook,
        }
    }

    /// As the ladder wants it.
    pub fn holdings(&self, _: Look) -> Holdings {
        self.ladder.rungs().holdings(false)
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, _look: Look) -> Reply {
        if self.ladder.on(gesture) {
            return Reply::stay();
        }
        match (gesture, self.ladder.value()) {
            (Gesture::Tap(Key::Ok), Some(length)) => self.keep(length),
            (Gesture::Hold(Key::Ok), _) => {
                let sheet = sheet::Sheet::of(sheet::Of::Field(self.field));
                Reply::open(Screen::Sheet(sheet))
            }
            _ => Reply::stay(),
        }
    }

    fn keep(&self, length: Length) -> Reply {
        match self.field.kind.about().sort {
            Sort::At => {
                let hook = choose::Choose::hook(self.field, length, self.hook);
                Reply::go(Go::instead(Screen::Choose(hook)))
            }
            _ => Reply::edit(Edit::Set(self.field, Value::Length(length)), Go::BACK).deaf(300),
        }
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        let words = match look.job.units {
            Units::Imperial => hint::LENGTH,
            Units::Metric => hint::LENGTH_METRIC,
        };
        view.named("length", words);
        view.status.left = text(self.field.kind.about().label);
        view.status.right = super::form::which(self.field, look.job);
        view.figure = Some(self.ladder.figure());
        let units = look.job.units;
        match (self.ladder.beyond(), self.ladder.half_typed_digits()) {
            (Some(Beyond::Least(least)), _) => view.line("AT LEAST", &short(least, units)),
            (Some(Beyond::Most(most)), _) => view.line("AT MOST", &short(most, units)),
            (None, Some(digits)) => view.line(&in_digits(digits), ".."),
            (None, None) => view.line(HOLD_OK_LEAVES, ""),
        }
    }
}

fn in_digits(digits: &[u8]) -> Text {
    let mut line = Text::new();
    for digit in digits {
        let _ = line.push(char::from(b'0' + digit));
    }
    line
}
