//! The first screen: the working day in its order.

use super::{Look, Reply};
use crate::key::{Gesture, Key};
use crate::view::{View, text};

/// The steps of the day.
const STEPS: [&str; 8] = [
    "JOB", "MEASURE", "PLAN", "MARK", "DRILL", "PACK", "BOLT", "SET",
];

/// The day's steps and a cursor.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Home {
    cursor: u8,
}

impl Home {
    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, _look: Look) -> Reply {
        let last = STEPS.len() as u8 - 1;
        match gesture {
            Gesture::Tap(Key::Down) | Gesture::Hold(Key::Down) => {
                self.cursor = if self.cursor == last {
                    0
                } else {
                    self.cursor + 1
                };
            }
            Gesture::Tap(Key::Up) | Gesture::Hold(Key::Up) => {
                self.cursor = if self.cursor == 0 {
                    last
                } else {
                    self.cursor - 1
                };
            }
            _ => {}
        }
        Reply::stay()
    }

    /// What is shown.
    pub fn view(&self, look: Look) -> View {
        let mut view = View::of("home", "UP, DOWN choose a step of the day. OK opens it.");
        view.status.left = text(&look.job.name);
        for step in STEPS.iter().take(4) {
            view.line(step, "");
        }
        view.selected = Some(self.cursor);
        view
    }
}
