//! Choosing one of several words; also what a position hangs on.

use super::{Go, LIST, Look, Reply, list};
use crate::edit::Edit;
use crate::field::{Field, Sort, Value};
use crate::key::{Gesture, Holdings, Key};
use crate::view::{View, text};
use crate::words::{self, hint};
use boltbay_core::Job;
use boltbay_core::job::{Hook, Position};
use boltbay_core::length::Length;

/// The hooks in the order of the list.
const HOOKS: [Hook; 4] = [Hook::EndA, Hook::EndB, Hook::WallA, Hook::WallB];

/// A choice in the making.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choose {
    field: Field,
    cursor: u8,
    /// The reading of a position whose hook is chosen.
    reading: Option<Length>,
}

impl Choose {
    /// Starts on what is chosen now.
    pub fn of(field: Field, job: &Job) -> Choose {
        let cursor = match field.get(job) {
            Value::Choice(choice) => choice,
            _ => 0,
        };
        Choose {
            field,
            cursor,
            reading: None,
        }
    }

    /// The hook of a position that was just read.
    pub fn hook(field: Field, reading: Length, hook: Hook) -> Choose {
        let cursor = HOOKS.iter().position(|h| *h == hook);
        Choose {
            field,
            cursor: cursor.and_then(|c| u8::try_from(c).ok()).unwrap_or(0),
            reading: Some(reading),
        }
    }

    /// As on a list.
    pub fn holdings(&self, _: Look) -> Holdings {
        LIST
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    fn count(&self) -> u8 {
        match (self.reading, self.field.kind.about().sort) {
            (Some(_), _) => HOOKS.len() as u8,
            (None, Sort::Choice(words)) => u8::try_from(words.len()).unwrap_or(u8::MAX),
            _ => 0,
        }
    }

    fn word(&self, choice: u8) -> &'static str {
        let choice = usize::from(choice);
        match (self.reading, self.field.kind.about().sort) {
            (Some(_), _) => HOOKS.get(choice).map_or("", |hook| words::hook(*hook)),
            (None, Sort::Choice(words)) => words.get(choice).copied().unwrap_or(""),
            _ => "",
        }
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, _look: Look) -> Reply {
        let count = self.count();
        if list::turn(&mut self.cursor, count, gesture) {
            return Reply::stay();
        }
        let value = match (self.reading, HOOKS.get(usize::from(self.cursor))) {
            (Some(reading), Some(hook)) => Value::At(Position {
                reading,
                hook: *hook,
            }),
            _ => Value::Choice(self.cursor),
        };
        match gesture {
            Gesture::Tap(Key::Ok) => Reply::edit(Edit::Set(self.field, value), Go::BACK).deaf(300),
            Gesture::Tap(Key::Left) => Reply::back(),
            _ => Reply::stay(),
        }
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("choose", hint::CHOOSE);
        view.status.left = text(match self.reading {
            Some(_) => "FROM",
            None => self.field.kind.about().label,
        });
        view.status.right = match self.reading {
            Some(reading) => words::short(reading, look.job.units),
            None => super::form::which(self.field, look.job),
        };
        let first = list::first(self.cursor, self.count());
        for choice in first..self.count().min(first + list::LINES) {
            view.line(&super::form::said(self.word(choice), look.job), "");
        }
        view.selected = Some(self.cursor - first);
    }
}
