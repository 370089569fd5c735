//! The first screen: the working day in its order.

use super::form::{Form, FormScreen};
use super::{LIST, Look, Reply, Screen, list};
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{Text, View, text};
use crate::words::{DAY, hint};
use boltbay_core::job::HoleState;

/// The day's steps and a cursor.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Home {
    cursor: u8,
}

impl Home {
    /// As on a list.
    pub fn holdings(&self, _: Look) -> Holdings {
        LIST
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, _look: Look) -> Reply {
        if list::turn(&mut self.cursor, DAY.len() as u8, gesture) {
            return Reply::stay();
        }
        match gesture {
            Gesture::Tap(Key::Ok) => match self.form() {
                Some(form) => Reply::open(Screen::Form(FormScreen::of(form))),
                None => Reply::stay(),
            },
            _ => Reply::stay(),
        }
    }

    fn form(&self) -> Option<Form> {
        Some(match self.cursor {
            0 => Form::Job,
            1 => Form::Measure,
            2 => Form::Plan,
            5 => Form::Pack,
            6 => Form::Bolt,
            7 => Form::Set,
            _ => return None,
        })
    }

    /// What is shown.
    pub fn view(&self, look: Look) -> View {
        let mut view = View::of("home", hint::HOME);
        view.status.left = match look.job.name.is_empty() {
            true => text("NO NAME"),
            false => text!("{:.12}", look.job.name),
        };
        if let Some(code) = &look.plan.code {
            view.status.right = text(code);
        }
        let first = list::first(self.cursor, DAY.len() as u8);
        for (step, name) in (0..).zip(DAY).skip(usize::from(first)).take(4) {
            view.line(name, &done(step, look));
        }
        view.selected = Some(self.cursor - first);
        view
    }
}

/// How far a step has come.
fn done(step: u8, look: Look) -> Text {
    let holes = |state: HoleState| look.job.holes.iter().filter(|h| h.state == state).count();
    let planned = look.plan.placement().filter(|placement| placement.feasible);
    match (step, planned) {
        (1, _) => text!("{} JOISTS", look.plan.joists.len()),
        (2, Some(placement)) => text!("{} HOLES", placement.holes.len()),
        (2, None) => text(match look.plan.placement() {
            Some(_) => "NO PLAN",
            None => "",
        }),
        (3, Some(placement)) => {
            let struck = holes(HoleState::Marked) + holes(HoleState::Drilled);
            text!("{struck}/{}", placement.holes.len())
        }
        (4, Some(placement)) => text!("{}/{}", holes(HoleState::Drilled), placement.holes.len()),
        _ => Text::new(),
    }
}
