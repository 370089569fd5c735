//! Cautions that belong to a step of the day: each is shown once a job, when the
//! step is first opened, and one press goes on. What was heard is kept with the
//! place of the screens.

use super::form::Form;
use super::walk::Kind as WalkKind;
use super::{LIST, Look, Reply, Screen};
use crate::key::{Gesture, Holdings, Key};
use crate::view::{View, text};
use crate::words::{hint, told};

/// The steps that have one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// Taping, often on one's belly under a floor.
    Measure,
    /// Drilling steel.
    Drill,
    /// Packing, and what fastens it.
    Pack,
    /// Lifting the steel in.
    Set,
}

/// A step's caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    step: Step,
}

impl Caution {
    /// What must be heard before this screen, if anything.
    pub fn before(screen: &Screen) -> Option<Caution> {
        let step = match screen {
            Screen::Run(_) => Step::Measure,
            Screen::Walk(walk) if walk.kind == WalkKind::Drill => Step::Drill,
            Screen::Form(form) => match form.form {
                Form::Measure => Step::Measure,
                Form::Pack => Step::Pack,
                Form::Set => Step::Set,
                _ => return None,
            },
            _ => return None,
        };
        Some(Caution { step })
    }

    /// Its bit among those that were heard.
    pub const fn bit(&self) -> u8 {
        1 << self.step as u8
    }

    /// As on a list.
    pub fn holdings(&self, _: Look) -> Holdings {
        LIST
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, _: Look) -> Reply {
        match gesture {
            Gesture::Tap(Key::Ok) => Reply {
                heard: self.bit(),
                ..Reply::back().deaf(300)
            },
            _ => Reply::stay(),
        }
    }

    /// What is shown.
    pub fn view(&self, _: Look, view: &mut View) {
        view.named("caution", hint::CAUTION);
        view.alarm = true;
        let [title, lines @ ..] = match self.step {
            Step::Measure => told::MEASURE,
            Step::Drill => told::DRILL,
            Step::Pack => told::PACK,
            Step::Set => told::SET,
        };
        view.status.left = text(title);
        lines.iter().for_each(|line| view.line(line, ""));
        view.line("OK: GO ON", "");
    }
}
