//! The strip map: the beam from above, hole by hole or joist by joist, and the
//! numbers of the one that is chosen.

use super::list::{self, LEAF};
use super::walk::{self, plan};
use super::{Look, Reply};
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{Columns, Dot, Drawn, Map, Text, View, text};
use crate::words::{self, hint};
use boltbay_core::defaults;
use boltbay_core::frame::Frame;
use boltbay_core::job::KeepoutKind;
use boltbay_core::length::Length;
use boltbay_core::placement::State;
use boltbay_core::report::FromEndB;
use boltbay_core::words::Side;

/// What is chosen, and how near the view is: 1, 3 or 9 times.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct MapScreen {
    pub(super) cursor: u8,
    pub(super) zoom: u8,
    /// The numbers of what is chosen lie over the map.
    pub(super) numbers: bool,
}

/// Columns that the beam is drawn in, between the letters of its ends.
const WIDE: i64 = 110;
/// Columns left of it.
const MARGIN: i64 = 9;

/// Where the view starts and how many counts a column is.
#[derive(Clone, Copy)]
struct Window {
    from: i64,
    column: i64,
}

impl Window {
    fn x(self, at: Length) -> i16 {
        let x = (i64::from(at.counts()) - self.from).div_euclid(self.column.max(1)) + MARGIN;
        i16::try_from(x.clamp(-1000, 1000)).unwrap_or(0)
    }
}

impl MapScreen {
    /// One by one.
    pub fn holdings(&self, _: Look) -> Holdings {
        LEAF
    }

    /// The cursor stays within what there is.
    pub fn enter(&mut self, look: Look) {
        list::stay_within(&mut self.cursor, count(look));
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        if list::leaf(&mut self.cursor, count(look), gesture) {
            return Reply::stay();
        }
        match gesture {
            Gesture::Tap(Key::Ok) => self.numbers = !self.numbers,
            Gesture::Tap(Key::Left) if self.numbers => self.numbers = false,
            Gesture::Tap(Key::Left) => return Reply::back(),
            Gesture::Tap(Key::Right) if !self.numbers => self.zoom = (self.zoom + 1) % 3,
            _ => {}
        }
        Reply::stay()
    }

    /// Where the chosen thing is.
    fn at(&self, look: Look) -> Option<Length> {
        let index = usize::from(self.cursor);
        match plan(look) {
            Some(plan) => Some(plan.holes.get(index)?.at),
            None => {
                let joist = look.plan.joists.get(index)?;
                Some(Length::from_counts(
                    i32::try_from(joist.centre_twice() / 2).ok()?,
                ))
            }
        }
    }

    fn window(&self, frame: &Frame, look: Look) -> Window {
        let times = [1, 3, 9].get(usize::from(self.zoom)).copied().unwrap_or(1);
        let whole = i64::from(frame.length.counts()).max(WIDE);
        let column = (whole / (WIDE * times).max(1) + 1).max(1);
        let seen = column * WIDE;
        let middle = self.at(look).unwrap_or_default();
        let from = (i64::from(middle.counts()) - seen / 2).clamp(0, (whole - seen).max(0));
        Window { from, column }
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("map", hint::MAP);
        let Some(frame) = look.plan.frame else {
            view.status.left = text("NO STEEL YET");
            return;
        };
        let (left, right) = self.said(look);
        view.status.left = left;
        view.status.right = right;
        if self.numbers {
            self.view_numbers(&frame, look, view);
            return;
        }
        let window = self.window(&frame, look);
        let mut map = Map {
            sides: look.job.sides,
            ends: *b"AB",
            cursor: self.at(look).map(|at| window.x(at)),
            ..Map::default()
        };
        // What matters most first: the map holds only so many.
        draw_joists(window, look, &mut map);
        draw_holes(window, look, &mut map);
        draw_things(window, &frame, look, &mut map);
        for (columns, spans) in map.free.iter_mut().zip(look.free.into_iter().flatten()) {
            for span in spans {
                columns.set(window.x(span.from), window.x(span.to));
            }
        }
        view.map = Some(map);
    }

    /// Where the chosen hole or joist lies, from both ends, and what is about it.
    fn view_numbers(&self, frame: &Frame, look: Look, view: &mut View) {
        view.screen = "map-numbers";
        view.hint = hint::NUMBERS;
        let units = look.job.units;
        let index = usize::from(self.cursor);
        let Some(plan) = plan(look) else {
            if let Some(joist) = look.plan.joists.get(index) {
                let thick = joist.to.saturating_sub(joist.from);
                view.line("FROM A", &words::short(joist.from, units));
                view.line("TO", &words::short(joist.to, units));
                view.line("THICK", &words::short(thick, units));
                view.line("HANGER", &words::signed(joist.metal, units));
            }
            return;
        };
        let Some(hole) = plan.holes.get(index) else {
            return;
        };
        view.line("FROM A", &words::short(hole.at, units));
        let step = defaults::lattice(look.job);
        if let Some(from_b) = FromEndB::new(frame, step) {
            view.line(
                "FROM B",
                &words::short(from_b.reading(hole.at).shown, units),
            );
        }
        match plan.holes.get(index + 1) {
            Some(next) => {
                let bay = next.at.saturating_sub(hole.at);
                view.line("NEXT", &words::bay(bay, units));
            }
            None => view.line("THE LAST HOLE", ""),
        }
        let state = match hole.state {
            State::Planned => "NOT MARKED YET",
            _ => walk::done(hole),
        };
        view.line(state, "");
    }

    /// The chosen hole and its nearest thing; or the chosen joist's place.
    fn said(&self, look: Look) -> (Text, Text) {
        let index = usize::from(self.cursor);
        let units = look.job.units;
        match plan(look) {
            Some(plan) => {
                let Some(hole) = plan.holes.get(index) else {
                    return (text("NO HOLES"), Text::new());
                };
                let left = text!("{} {}", index + 1, words::row(hole.row));
                let right = match hole.gap().zip(hole.nearest()) {
                    Some((gap, thing)) => {
                        let to = words::thing(thing, look);
                        text!("{} {to}", words::down(gap, units))
                    }
                    None => Text::new(),
                };
                (left, right)
            }
            None => match look.plan.joists.get(index) {
                Some(joist) => (
                    words::joist(look.job, joist.side, joist.number),
                    self.at(look)
                        .map(|at| words::short(at, units))
                        .unwrap_or_default(),
                ),
                None => (text("NO JOISTS"), Text::new()),
            },
        }
    }
}

fn count(look: Look) -> u8 {
    let count = match plan(look) {
        Some(plan) => plan.holes.len(),
        None => look.plan.joists.len(),
    };
    u8::try_from(count).unwrap_or(u8::MAX)
}

fn in_sight((from, to): (i16, i16)) -> bool {
    to >= 0 && i64::from(from) < WIDE + 2 * MARGIN
}

fn draw_holes(window: Window, look: Look, map: &mut Map) {
    let Some(placement) = look.plan.placement() else {
        return;
    };
    for blocked in &placement.blocked {
        let span = (window.x(blocked.from), window.x(blocked.to));
        if in_sight(span) {
            let _ = map.drawn.push(Drawn::Blocked { span });
        }
    }
    for hole in &placement.holes {
        let at = window.x(hole.at);
        let dot = match hole.state {
            State::Planned => Dot::Planned,
            State::Marked => Dot::Marked,
            State::Drilled => Dot::Drilled,
        };
        if in_sight((at, at)) {
            let row = hole.row;
            let _ = map.drawn.push(Drawn::Hole { row, at, dot });
        }
    }
}

fn draw_joists(window: Window, look: Look, map: &mut Map) {
    let set = |columns: Option<&mut Columns>, from: Length, to: Length| {
        if let Some(columns) = columns {
            columns.set(window.x(from), window.x(to));
        }
    };
    for joist in &look.plan.joists {
        let side = joist.side.index();
        let from = joist.from.saturating_sub(joist.metal);
        let to = joist.to.saturating_add(joist.metal);
        set(map.metal.get_mut(side), from, to);
        set(map.joists.get_mut(side), joist.from, joist.to);
    }
}

fn draw_things(window: Window, frame: &Frame, look: Look, map: &mut Map) {
    for thing in &look.job.keepouts {
        if thing.kind == KeepoutKind::Zone {
            continue;
        }
        let station = |at| frame.station_anywhere(at).ok();
        let Some((from, to)) = station(thing.from).zip(station(thing.to)) else {
            continue;
        };
        let (from, to) = (from.min(to), from.max(to));
        let span = (window.x(from), window.x(to));
        if in_sight(span) {
            let _ = map.drawn.push(Drawn::Obstacle {
                n: thing.sides.holds(Side::N),
                s: thing.sides.holds(Side::S),
                span,
            });
        }
    }
}
