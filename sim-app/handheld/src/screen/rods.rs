//! Rods: how many of which length, how each stick is cut, what to buy. Bars are
//! ticked off as they are cut.
//!
//! A tick belongs to a cut list: the stick, and what is cut from it. Where a new
//! plan asks for other cuts, bars cut by a list that is no longer there count for
//! nothing; a page in front says so until the crew has seen it.

use super::list::{self, LEAF};
use super::{Go, LIST, Look, Reply};
use crate::edit::{Edit, Edits};
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{Figure, LINE, Touch, View, text};
use crate::words::{self, hint, short};
use boltbay_core::code::cut_list;
use boltbay_core::job::{BarsCut, Job, StickSource};
use boltbay_core::length::Length;
use boltbay_core::list::Listed;
use boltbay_core::rods::{PieceUse, Pieces, Rods, StickCut};
use boltbay_core::words::{Name, Units};

/// A cursor through pieces, sticks and the shopping list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct RodsScreen {
    pub(super) cursor: u8,
}

/// What the cursor stands on.
enum Page<'a> {
    /// Bars that were cut by lists that are gone.
    Gone,
    Pieces(&'a Pieces),
    /// A stick, and its number from 1.
    Stick(usize, &'a StickCut),
    ToBuy,
}

/// Bars cut by this list so far.
fn bars(list: &Name, job: &Job) -> u16 {
    let cut = job.bars_cut.iter().find(|cut| cut.list == *list);
    cut.map_or(0, |cut| cut.bars)
}

/// How many bars of a row of the job no stick asks for.
fn gone(cut: &BarsCut, rods: &Rods) -> u16 {
    let same = |stick: &&StickCut| cut_list(stick, &rods.lengths) == cut.list;
    let wanted = rods.sticks.iter().find(same).map_or(0, |stick| stick.count);
    let wanted = u16::try_from(wanted).unwrap_or(u16::MAX);
    cut.bars.saturating_sub(wanted)
}

/// Bars that count for nothing any more.
fn all_gone(rods: &Rods, job: &Job) -> u32 {
    let each = job.bars_cut.iter().map(|cut| u32::from(gone(cut, rods)));
    each.sum()
}

impl RodsScreen {
    /// As on a list; RIGHT held takes a tick back.
    pub fn holdings(&self, _: Look) -> Holdings {
        Holdings {
            right: LIST.right,
            ..LEAF
        }
    }

    /// The cursor stays within what there is.
    pub fn enter(&mut self, look: Look) {
        list::stay_within(&mut self.cursor, count(look));
    }

    fn page<'a>(&self, rods: &'a Rods, job: &Job) -> Page<'a> {
        let front = usize::from(all_gone(rods, job) > 0);
        let Some(at) = usize::from(self.cursor).checked_sub(front) else {
            return Page::Gone;
        };
        let stick = at.checked_sub(rods.pieces.len());
        match (rods.pieces.get(at), stick) {
            (Some(pieces), _) => Page::Pieces(pieces),
            (None, Some(stick)) => match rods.sticks.get(stick) {
                Some(cut) => Page::Stick(stick + 1, cut),
                None => Page::ToBuy,
            },
            (None, None) => Page::ToBuy,
        }
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        let count = count(look);
        if list::leaf(&mut self.cursor, count, gesture) {
            return Reply::stay();
        }
        let page = look
            .plan
            .rods()
            .map(|rods| (self.page(rods, look.job), rods));
        match (gesture, page) {
            (Gesture::Tap(Key::Left), _) => Reply::back(),
            (Gesture::Tap(Key::Ok), Some((Page::Gone, rods))) => Reply {
                edits: seen(rods, look.job),
                ..Reply::stay()
            }
            .deaf(300),
            (Gesture::Tap(Key::Ok), Some((Page::Stick(_, cut), rods))) => {
                self.tick(cut, rods, look.job, count)
            }
            (Gesture::Hold(Key::Right), Some((Page::Stick(_, cut), rods))) => {
                untick(cut, rods, look.job)
            }
            (Gesture::Tap(Key::Right | Key::Ok), _) => {
                list::leaf(&mut self.cursor, count, Gesture::Tap(Key::Down));
                Reply::stay()
            }
            _ => Reply::stay(),
        }
    }

    /// One bar more is cut; after the last one on to the next page.
    fn tick(&mut self, cut: &StickCut, rods: &Rods, job: &Job, count: u8) -> Reply {
        let list = cut_list(cut, &rods.lengths);
        let bars = bars(&list, job);
        if u32::from(bars) + 1 >= cut.count {
            list::leaf(&mut self.cursor, count, Gesture::Tap(Key::Down));
        }
        if u32::from(bars) >= cut.count {
            return Reply::stay();
        }
        let bars = bars.saturating_add(1);
        Reply::edit(Edit::BarsCut(BarsCut { list, bars }), Go::STAY).deaf(300)
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("rods", hint::RODS);
        let Some(rods) = look.plan.rods() else {
            view.status.left = text("RODS");
            view.line("NO RODS YET:", "");
            view.line("THEY FOLLOW PLAN,", "");
            view.line("PACKING AND STOCK", "");
            return;
        };
        match self.page(rods, look.job) {
            Page::Gone => view_gone(all_gone(rods, look.job), view),
            Page::Pieces(pieces) => view_pieces(pieces, look, view),
            Page::Stick(number, cut) => view_stick(number, cut, rods, look, view),
            Page::ToBuy => shopping(rods, look, view),
        }
    }
}

/// A bar ticked by mistake is not cut.
fn untick(cut: &StickCut, rods: &Rods, job: &Job) -> Reply {
    let list = cut_list(cut, &rods.lengths);
    match bars(&list, job).checked_sub(1) {
        Some(bars) => Reply::edit(Edit::BarsCut(BarsCut { list, bars }), Go::STAY),
        None => Reply::stay(),
    }
}

/// Takes out what counts for nothing, as much as one key can change.
fn seen(rods: &Rods, job: &Job) -> Edits {
    let gone = job.bars_cut.iter().filter_map(|cut| {
        let gone = gone(cut, rods);
        let bars = cut.bars.saturating_sub(gone);
        let list = cut.list.clone();
        (gone > 0).then_some(Edit::BarsCut(BarsCut { list, bars }))
    });
    gone.listed()
}

fn count(look: Look) -> u8 {
    let count = look.plan.rods().map_or(1, |rods| {
        let front = usize::from(all_gone(rods, look.job) > 0);
        front + rods.pieces.len() + rods.sticks.len() + 1
    });
    u8::try_from(count).unwrap_or(u8::MAX)
}

fn view_gone(bars: u32, view: &mut View) {
    view.screen = "cuts-gone";
    view.hint = hint::CUTS_GONE;
    view.alarm = true;
    view.status.left = text("CUT LIST CHANGED");
    let bars_cut = if bars == 1 {
        "BAR IS CUT"
    } else {
        "BARS ARE CUT"
    };
    view.line(&text!("{} {bars_cut}", bars.min(9_999)), "");
    view.line("BY A LIST THAT IS", "");
    view.line("GONE: MEASURE THEM", "");
    view.line("OK: SEEN", "");
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
    let small = pieces.length < Length::from_inches(10);
    let figure = match (times, small && units != Units::Metric) {
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
    view.hint = hint::STICK;
    let source = match cut.source {
        StickSource::Rod => "ROD",
        StickSource::Offcut => "OFFCUT",
    };
    let bars = bars(&cut_list(cut, &rods.lengths), look.job);
    view.status.right = match u32::from(bars) >= cut.count {
        true => text!("ALL {} CUT", cut.count),
        false => text!("{bars}/{} CUT", cut.count),
    };
    view.status.left = text!("{number}: {source}");
    // Of hundreds of offcuts the number says enough.
    if view.status.left.len() + view.status.right.len() >= LINE {
        view.status.left = text!("{number}");
    }
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
