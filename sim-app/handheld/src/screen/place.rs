//! Where the user is, in a few bytes: the journal keeps them with each edit, so
//! that after a loss of power the same screen comes back.
//!
//! In: the stack of screens. Out: bytes, and from bytes the stack again. A
//! screen that holds half-typed digits or a question is left out, and so is all
//! that lay on top of it: the user is then one step before. Bytes that say
//! nothing give the first screen.

use super::blocked::NoPlan;
use super::chalk::Chalk;
use super::form::{Form, FormScreen};
use super::home::Home;
use super::hung::Hung;
use super::map::MapScreen;
use super::packing::PackingScreen;
use super::reading::Reading;
use super::readings::Readings;
use super::rods::RodsScreen;
use super::walk::{Kind, Lie, Walk};
use super::{Look, Screen};
use crate::field::List;
use crate::journal::Place;
use boltbay_core::job::Hook;
use boltbay_core::length::Length;
use boltbay_core::words::{End, Side};

/// The first byte: how the rest is written.
const LAYOUT: u8 = 2;

const FORMS: [Form; 13] = [
    Form::Job,
    Form::Measure,
    Form::Steel,
    Form::OwnShape,
    Form::Tips,
    Form::Walls,
    Form::Floor,
    Form::Runs,
    Form::Plan,
    Form::Hardware,
    Form::Pack,
    Form::Bolt,
    Form::Set,
];
/// Numbers of the forms that name a list, and an entry of one.
const LIST: u8 = 100;
const ENTRY: u8 = 101;
/// In place of a hook.
const ON_A_HOLE: u8 = 4;
const HOOKS: [Hook; 4] = [Hook::EndA, Hook::EndB, Hook::WallA, Hook::WallB];

/// The bytes of a stack; as many screens as can be written.
pub fn write<'s>(stack: impl Iterator<Item = &'s Screen>) -> Place {
    let mut place = Place::new();
    let _ = place.push(LAYOUT);
    for screen in stack {
        let before = place.len();
        if put(screen, &mut place).is_none() {
            place.truncate(before);
            break;
        }
    }
    place
}

fn put(screen: &Screen, place: &mut Place) -> Option<()> {
    match screen {
        Screen::Home(home) => bytes(&[0, home.cursor, u8::from(home.led), home.heard], place),
        Screen::Form(form) => put_form(form, place),
        Screen::Reading(reading) if reading.is_next() => bytes(&[2, reading.run], place),
        Screen::Readings(readings) => bytes(&[3, readings.run, readings.cursor], place),
        Screen::Walk(walk) => {
            let on = |hook: Hook| HOOKS.iter().position(|other| *other == hook);
            let (hook, from) = match walk.hung {
                Hung::On(hook) => (u8::try_from(on(hook)?).ok()?, Length::ZERO),
                Hung::Hole(at) => (ON_A_HOLE, at),
            };
            let (left, away) = (walk.lie.left as u8, u8::from(walk.lie.top_away));
            bytes(&[4, walk.kind as u8, left, away, hook, walk.at], place)?;
            let lengths = [walk.burn, walk.tape, from];
            lengths
                .iter()
                .try_for_each(|length| bytes(&length.counts().to_le_bytes(), place))
        }
        Screen::Map(map) => bytes(&[5, map.cursor, map.zoom], place),
        Screen::Chalk(chalk) => {
            let other = u8::from(chalk.hook != Hook::EndA);
            bytes(&[6, chalk.cursor, other, u8::from(chalk.locked)], place)
        }
        Screen::Packing(packing) => bytes(&[7, packing.side as u8, packing.page], place),
        Screen::Rods(rods) => bytes(&[8, rods.cursor], place),
        Screen::NoPlan(plan) => bytes(&[9, plan.stretch, plan.way], place),
        _ => None,
    }
}

fn put_form(form: &FormScreen, place: &mut Place) -> Option<()> {
    let (number, list, at) = match form.form {
        Form::List(list) => (LIST, list as u8, 0),
        Form::Entry(list, at) => (ENTRY, list as u8, at),
        fixed => {
            let number = FORMS.iter().position(|form| *form == fixed)?;
            (u8::try_from(number).ok()?, 0, 0)
        }
    };
    bytes(&[1, number, list, at, form.cursor], place)
}

fn bytes(bytes: &[u8], place: &mut Place) -> Option<()> {
    place.extend_from_slice(bytes).ok()
}

/// The screens of a place, from the first one up, each handed to `push`.
pub fn read(place: &[u8], look: Look, mut push: impl FnMut(Screen)) {
    let Some((&LAYOUT, mut rest)) = place.split_first() else {
        return;
    };
    while let Some((screen, behind)) = take(rest, look) {
        push(screen);
        rest = behind;
    }
}

fn take<'b>(place: &'b [u8], look: Look) -> Option<(Screen, &'b [u8])> {
    Some(match *place {
        [0, cursor, led, heard, ref rest @ ..] => {
            let home = Home {
                cursor,
                led: led == 1,
                heard,
                ..Home::default()
            };
            (Screen::Home(home), rest)
        }
        [1, number, list, at, cursor, ref rest @ ..] => {
            let form = form(number, list, at)?;
            (Screen::Form(FormScreen { form, cursor }), rest)
        }
        [2, run, ref rest @ ..] => {
            look.job.runs.get(usize::from(run))?;
            (Screen::Reading(Reading::of(run)), rest)
        }
        [3, run, cursor, ref rest @ ..] => {
            look.job.runs.get(usize::from(run))?;
            (Screen::Readings(Readings { run, cursor }), rest)
        }
        [4, kind, left, away, hook, at, ref rest @ ..] => {
            let (burn, rest) = length(rest)?;
            let (tape, rest) = length(rest)?;
            let (from, rest) = length(rest)?;
            let kind = [Kind::Mark, Kind::Drill].get(usize::from(kind)).copied()?;
            let left = End::BOTH.get(usize::from(left)).copied()?;
            let top_away = away == 1;
            let walk = Walk {
                kind,
                lie: Lie { left, top_away },
                hung: match hook {
                    ON_A_HOLE => Hung::Hole(from),
                    hook => Hung::On(HOOKS.get(usize::from(hook)).copied()?),
                },
                burn,
                tape,
                at,
                done: false,
                seen: None,
            };
            (Screen::Walk(walk), rest)
        }
        [5, cursor, zoom @ 0..=2, ref rest @ ..] => {
            let numbers = false;
            let map = MapScreen {
                cursor,
                zoom,
                numbers,
            };
            (Screen::Map(map), rest)
        }
        [6, cursor, other, locked, ref rest @ ..] => {
            let hook = if other == 1 { Hook::EndB } else { Hook::EndA };
            let locked = locked == 1;
            let chalk = Chalk {
                cursor,
                hook,
                locked,
                ..Chalk::default()
            };
            (Screen::Chalk(chalk), rest)
        }
        [7, side, page @ 0..=3, ref rest @ ..] => {
            let side = Side::BOTH.get(usize::from(side)).copied()?;
            (Screen::Packing(PackingScreen { side, page }), rest)
        }
        [8, cursor, ref rest @ ..] => (Screen::Rods(RodsScreen { cursor }), rest),
        [9, stretch, way, ref rest @ ..] => {
            let tried = false;
            let plan = NoPlan {
                stretch,
                way,
                tried,
            };
            (Screen::NoPlan(plan), rest)
        }
        _ => return None,
    })
}

fn length(bytes: &[u8]) -> Option<(Length, &[u8])> {
    let (length, rest) = bytes.split_first_chunk()?;
    let counts = i32::from_le_bytes(*length);
    // No length: its opposite would be out of range.
    (counts != i32::MIN).then_some((Length::from_counts(counts), rest))
}

fn form(number: u8, list: u8, at: u8) -> Option<Form> {
    match number {
        LIST => Some(Form::List(List::of(list)?)),
        ENTRY => Some(Form::Entry(List::of(list)?, at)),
        fixed => FORMS.get(usize::from(fixed)).copied(),
    }
}
