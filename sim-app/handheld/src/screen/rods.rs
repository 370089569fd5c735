//! Rods: how many of which length, how each stick is cut, what to buy.

use super::{LIST, Look, Reply};
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{Figure, Touch, View, text};
use crate::words::{self, hint, short};
use boltbay_core::job::StickSource;
use boltbay_core::rods::{PieceUse, Pieces, Rods, StickCut};

/// A cursor through pieces, sticks and the shopping list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct RodsScreen {
    pub(super) cursor: u8,
}

impl RodsScreen {
    /// As on a list.
    pub fn holdings(&self, _: Look) -> Holdings {
        Holdings {
            right: None,
            ok: None,
            ..LIST
        }
    }

    /// The cursor stays within what there is.
    pub fn enter(&mut self, look: Look) {
        self.cursor = self.cursor.min(count(look).saturating_sub(1));
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        let last = count(look).saturating_sub(1);
        match gesture {
            Gesture::Tap(Key::Down | Key::Right | Key::Ok) | Gesture::Hold(Key::Down) => {
                self.cursor = self.cursor.saturating_add(1).min(last);
            }
            Gesture::Tap(Key::Up) | Gesture::Hold(Key::Up) => {
                self.cursor = self.cursor.saturating_sub(1);
            }
            Gesture::Tap(Key::Left) => return Reply::back(),
            _ => {}
        }
        Reply::stay()
    }

    /// What is shown.
    pub fn view(&self, look: Look) -> View {
        let mut view = View::of("rods", hint::RODS);
        let Some(rods) = look.plan.rods() else {
            view.status.left = text("RODS");
            view.line("NO RODS YET:", "");
            view.line("THEY FOLLOW PLAN,", "");
            view.line("PACKING AND STOCK", "");
            return view;
        };
        let at = usize::from(self.cursor);
        let stick = at.checked_sub(rods.pieces.len());
        match (
            rods.pieces.get(at),
            stick.and_then(|at| rods.sticks.get(at)),
        ) {
            (Some(pieces), _) => view_pieces(pieces, look, &mut view),
            (None, Some(cut)) => view_stick(stick.unwrap_or(0), cut, rods, look, &mut view),
            (None, None) => shopping(rods, look, &mut view),
        }
        view
    }
}

fn count(look: Look) -> u8 {
    let count = look
        .plan
        .rods()
        .map_or(1, |rods| rods.pieces.len() + rods.sticks.len() + 1);
    u8::try_from(count).unwrap_or(u8::MAX)
}

fn view_pieces(pieces: &Pieces, look: Look, view: &mut View) {
    let units = look.job.units;
    view.status.left = match pieces.piece_use {
        PieceUse::BothSides => text("RODS THROUGH"),
        PieceUse::OneSide(side) => text!("RODS SIDE {}", look.job.letter(side)),
        PieceUse::Other(index) => {
            let name = look.job.pieces.get(usize::from(index));
            words::capitals(name.map_or("", |piece| &piece.name), 12)
        }
    };
    let figure = Figure::length(pieces.length, units, Touch::Keyed);
    // Two digits of pieces and a length fit side by side; more are said below.
    let times = u16::try_from(pieces.count)
        .ok()
        .filter(|times| *times < 100);
    let small = pieces.length < boltbay_core::length::Length::from_inches(10);
    let metric = units == boltbay_core::words::Units::Metric;
    let figure = match (times, small && !metric) {
        (Some(times), true) => Figure {
            times: Some(times),
            ..figure
        },
        _ => figure,
    };
    view.figure = Some(figure);
    let spare = text!("{} SPARE", pieces.spare);
    match figure.times {
        Some(_) => view.line("CUT", &spare),
        None => view.line(&text!("CUT {}", pieces.count), &spare),
    }
}

fn view_stick(number: usize, cut: &StickCut, rods: &Rods, look: Look, view: &mut View) {
    let units = look.job.units;
    view.screen = "stick";
    let source = match (cut.source, cut.count) {
        (StickSource::Rod, 1) => "ROD",
        (StickSource::Rod, _) => "RODS",
        (StickSource::Offcut, 1) => "OFFCUT",
        (StickSource::Offcut, _) => "OFFCUTS",
    };
    view.status.left = text!("{}: {} {source}", number + 1, cut.count);
    view.line("STOCK", &short(cut.stock, units));
    let cuts = || {
        let all = rods.lengths.iter().zip(cut.cuts.iter());
        all.filter(|(_, count)| **count > 0)
    };
    let lengths = cuts().count();
    view.small = lengths > 2;
    for (length, count) in cuts().take(3) {
        view.line(&text!("{count} X"), &short(*length, units));
    }
    let left = words::down(cut.left, units);
    match lengths > 3 {
        true => view.line("MORE CUTS: SEE SHEET", ""),
        false => view.line("LEFT", &left),
    }
}

fn shopping(rods: &Rods, look: Look, view: &mut View) {
    view.screen = "shopping";
    view.alarm = !rods.feasible;
    view.status.left = text(if rods.feasible {
        "TO BUY"
    } else {
        "NOT ALL IS CUT"
    });
    for length in rods.too_long.iter().take(1) {
        view.line("TOO LONG", &short(*length, look.job.units));
    }
    view.line("RODS", &text!("{}", rods.bought_sticks));
    view.line("NUTS", &text!("{}", rods.nuts));
    view.line("WASHERS", &text!("{}", rods.washers));
}
