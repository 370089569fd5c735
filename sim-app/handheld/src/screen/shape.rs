//! Picking the steel: by nominal depth, then by weight.

use super::{Go, LIST, Look, Reply};
use crate::edit::Edit;
use crate::field::{Field, Kind, Value};
use crate::key::{Gesture, Holding, Holdings, Key};
use crate::view::{Text, View, text};
use crate::words::{hint, short};
use crate::{ladder, text};
use boltbay_core::Job;
use boltbay_core::length::{Length, Rounding};
use boltbay_core::shapes::{self, Section};
use boltbay_core::words::Units;
use core::fmt::Write;

/// The designation of a shape that is not in the table.
const CUSTOM: &str = "CUSTOM";

/// Nominal depth in inches that the picker starts on. Practice: what floors of
/// houses take most; no source.
const USUAL: u16 = 10;

/// A depth and a weight in the making, by their places in the table; behind the
/// deepest stands a shape of one's own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shape {
    depth: u8,
    weight: u8,
}

impl Shape {
    /// Starts on what is keyed, or on the lightest of the usual depth.
    pub fn of(job: &Job) -> Shape {
        let keyed = job.beam.as_ref().map(|beam| beam.designation.as_str());
        let section = keyed.and_then(shapes::find);
        let mut start = Shape {
            depth: 0,
            weight: 0,
        };
        for (depth, nominal) in (0_u8..).zip(shapes::nominal_depths()) {
            for (weight, of_depth) in (0_u8..).zip(shapes::of_depth(nominal)) {
                let usual = section.is_none() && nominal == USUAL && weight == 0;
                if Some(of_depth) == section || usual {
                    start = Shape { depth, weight };
                }
            }
        }
        if keyed.is_some_and(|keyed| keyed.eq_ignore_ascii_case(CUSTOM)) {
            start.depth = depths();
        }
        start
    }

    fn section(&self) -> Option<Section> {
        let nominal = shapes::nominal_depths().nth(usize::from(self.depth))?;
        shapes::of_depth(nominal).nth(usize::from(self.weight))
    }

    /// The depths run while held, the weights too.
    pub fn holdings(&self, _: Look) -> Holdings {
        let run = Some(Holding::again(ladder::HOLD, 200));
        Holdings {
            left: run,
            right: run,
            ..LIST
        }
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        let (Gesture::Tap(key) | Gesture::Hold(key)) = gesture;
        match key {
            Key::Down => self.deepen(self.depth.saturating_add(1)),
            Key::Up => self.deepen(self.depth.saturating_sub(1)),
            Key::Right => self.weigh(self.weight.saturating_add(1)),
            // Already the lightest: nothing left to change, so back it is.
            Key::Left if self.weight == 0 && gesture == Gesture::Tap(Key::Left) => {
                return Reply::back();
            }
            Key::Left => self.weight = self.weight.saturating_sub(1),
            Key::Ok if gesture == Gesture::Tap(Key::Ok) => return self.keep(look),
            _ => {}
        }
        Reply::stay()
    }

    fn deepen(&mut self, depth: u8) {
        self.depth = depth.min(depths());
        self.weight = 0;
    }

    fn weigh(&mut self, weight: u8) {
        let before = self.weight;
        self.weight = weight;
        if self.section().is_none() {
            self.weight = before;
        }
    }

    fn keep(&self, look: Look) -> Reply {
        let mut designation = crate::field::Words::new();
        let _ = match self.section() {
            Some(section) => write!(designation, "{}", section.designation(look.job.units)),
            None => designation.write_str(CUSTOM),
        };
        designation.make_ascii_uppercase();
        let field = Field::of(Kind::Shape);
        Reply::edit(Edit::Set(field, Value::Words(designation)), Go::BACK).deaf(300)
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("shape", hint::SHAPE);
        view.status.left = text("STEEL");
        let units = look.job.units;
        let Some(section) = self.section() else {
            view.status.tab = text("ITS OWN");
            view.line("NOT IN THE TABLE", "");
            view.line("KEY ITS SIZES", "");
            return;
        };
        view.status.tab = text!("{}", section.designation(units));
        view.line("DEEP", &rounded(section.depth(), units));
        view.line("WIDE", &rounded(section.width(), units));
        view.line("WEB", &rounded(section.web(), units));
        view.line("FLANGE", &rounded(section.flange(), units));
    }
}

/// To 1/16 in or 1 mm: to know the steel by, not to work from.
fn rounded(length: Length, units: Units) -> Text {
    let step = match units {
        Units::Imperial => Length::from_sixteenths(1),
        Units::Metric => Length::from_millimetres(1),
    };
    short(length.to_multiple(step, Rounding::Nearest), units)
}

fn depths() -> u8 {
    u8::try_from(shapes::nominal_depths().count()).unwrap_or(u8::MAX)
}
