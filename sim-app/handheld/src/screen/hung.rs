//! What the tape hangs on in a walk, how long it is, and what else would do.
//!
//! A tape hangs on an end of the steel, on a wall, or on a hole that is already on
//! the steel, centre to centre. Where it ends before the next mark the walk asks
//! for another hook or another tape.

use super::list;
use super::walk::{Walk, plan};
use super::{Go, LIST, Look, Reply, Screen};
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{Text, View, text};
use crate::words::{self, hint, short};
use boltbay_core::job::Hook;
use boltbay_core::length::Length;
use boltbay_core::list::Listed;
use boltbay_core::placement::State;
use boltbay_core::words::{End, Units};
use heapless::Vec;

/// What the tape hangs on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hung {
    /// An end of the steel, or a wall.
    On(Hook),
    /// The centre of a mark or hole, at this station.
    Hole(Length),
}

/// The tape that a walk starts with. Practice: 25 ft (8 m), what most belts carry.
pub const fn usual_tape(units: Units) -> Length {
    match units {
        Units::Imperial => Length::from_inches(25 * 12),
        Units::Metric => Length::from_millimetres(8000),
    }
}

/// The next longer tape, and after the longest the shortest. Practice: 16, 25, 30,
/// 35, 100 ft; 5, 8, 10, 30 m.
fn other_tape(tape: Length, units: Units) -> Length {
    let feet = [16, 25, 30, 35, 100].map(|feet| Length::from_inches(12 * feet));
    let metres = [5, 8, 10, 30].map(|metres| Length::from_millimetres(1000 * metres));
    let tapes: &[Length] = match units {
        Units::Imperial => &feet,
        Units::Metric => &metres,
    };
    let longer = tapes.iter().find(|other| **other > tape);
    longer.or(tapes.first()).copied().unwrap_or(tape)
}

/// What a reading is called: `END A`; from a hole, which one and which way, where
/// that fits into so many letters: `HOLE 9>B`.
pub fn said(walk: &Walk, room: usize, look: Look) -> Text {
    let hole = match walk.hung {
        Hung::On(hook) => return text(words::hook(hook)),
        Hung::Hole(hole) => hole,
    };
    let to_b = walk.hole(look).is_some_and(|walked| walked.at > hole);
    let toward = words::end(if to_b { End::B } else { End::A });
    let numbered = match number(hole, look) {
        Some(number) => text!("HOLE {number}>{toward}"),
        None => Text::new(),
    };
    match numbered.is_empty() || numbered.len() > room {
        true => text!("HOLE>{toward}"),
        false => numbered,
    }
}

/// The plan's number of the hole here.
fn number(at: Length, look: Look) -> Option<u16> {
    let mut holes = (1..).zip(&plan(look)?.holes);
    holes
        .find(|(_, hole)| hole.at == at)
        .map(|(number, _)| number)
}

/// What can be chosen: hooks that can be read from, then another tape.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Choice {
    Hung(Hung),
    Tape,
}

/// Ends, walls, a hole on either side, the tape.
type Choices = Vec<Choice, 7, u8>;

fn count(choices: &Choices) -> u8 {
    u8::try_from(choices.len()).unwrap_or(u8::MAX)
}

/// The choice of a hook and a tape.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rehook {
    walk: Walk,
    cursor: u8,
}

impl Rehook {
    /// Starts on the first hook that the tape reaches from.
    pub fn of(walk: Walk, look: Look) -> Rehook {
        let mut rehook = Rehook { walk, cursor: 0 };
        let reaches = |choice: &Choice| match choice {
            Choice::Hung(hung) => !Walk {
                hung: *hung,
                ..walk
            }
            .is_past_tape(look),
            Choice::Tape => true,
        };
        let first = rehook.choices(look).iter().position(reaches);
        rehook.cursor = u8::try_from(first.unwrap_or(0)).unwrap_or(0);
        rehook
    }

    fn choices(&self, look: Look) -> Choices {
        let hooks = [Hook::EndA, Hook::EndB, Hook::WallA, Hook::WallB];
        let here = self.walk.hole(look).map(|hole| hole.at).unwrap_or_default();
        let done = |toward: End| {
            let holes = plan(look)
                .map(|plan| plan.holes.iter())
                .into_iter()
                .flatten();
            let on_steel = holes
                .filter(|hole| hole.state != State::Planned)
                .map(|hole| hole.at);
            match toward {
                End::A => on_steel.filter(|at| *at < here).max(),
                End::B => on_steel.filter(|at| *at > here).min(),
            }
        };
        let holes = End::BOTH.into_iter().filter_map(done).map(Hung::Hole);
        let all = hooks.map(Hung::On).into_iter().chain(holes);
        let other = |hung: &Hung| *hung != self.walk.hung;
        let readable = |hung: &Hung| self.reading(*hung, look).is_some();
        let hung = all.filter(other).filter(readable).map(Choice::Hung);
        hung.chain([Choice::Tape]).listed()
    }

    /// What the tape reads at the hole in sight, hung there.
    fn reading(&self, hung: Hung, look: Look) -> Option<Length> {
        let walk = Walk { hung, ..self.walk };
        let (reading, _) = walk.reading(walk.hole(look)?.at, look)?;
        Some(reading)
    }

    /// As on a list.
    pub fn holdings(&self, _: Look) -> Holdings {
        LIST
    }

    /// The cursor stays within the list.
    pub fn enter(&mut self, look: Look) {
        let count = count(&self.choices(look));
        list::stay_within(&mut self.cursor, count);
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        let choices = self.choices(look);
        if list::turn(&mut self.cursor, count(&choices), gesture) {
            return Reply::stay();
        }
        match (gesture, choices.get(usize::from(self.cursor))) {
            (Gesture::Tap(Key::Left), _) => self.back(),
            (Gesture::Tap(Key::Ok | Key::Right), Some(Choice::Tape)) => {
                self.walk.tape = other_tape(self.walk.tape, look.job.units);
                Reply::stay()
            }
            (Gesture::Tap(Key::Ok | Key::Right), Some(Choice::Hung(hung))) => {
                self.walk.hung = *hung;
                self.back()
            }
            _ => Reply::stay(),
        }
    }

    /// To the walk, deaf for a while: its OK marks steel.
    fn back(&self) -> Reply {
        Reply::go(Go::instead_of(2, Screen::Walk(self.walk))).deaf(1000)
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        let units = look.job.units;
        view.named("hook", hint::REHOOK);
        view.status.left = text("HOOK IT ON");
        let choices = self.choices(look);
        let first = list::first(self.cursor, count(&choices));
        for choice in choices.iter().skip(usize::from(first)).take(4) {
            match *choice {
                Choice::Tape => view.line("OTHER TAPE", &short(self.walk.tape, units)),
                Choice::Hung(hung) => {
                    let walk = Walk { hung, ..self.walk };
                    let reading = self.reading(hung, look).unwrap_or_default();
                    let reading = match reading > self.walk.tape {
                        true => text("TOO FAR"),
                        false => short(reading, units),
                    };
                    view.line(&said(&walk, 8, look), &reading);
                }
            }
        }
        view.selected = Some(self.cursor - first);
    }
}
