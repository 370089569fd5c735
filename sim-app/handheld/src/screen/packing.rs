//! The packing of a side: what its layers come to, now and dry; the beam cut
//! across with both sides' layers to scale; layers from web to face by name, and
//! how high to rip them.

use super::list::LEAF;
use super::{Look, Reply};
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{Block, CrossSection, LINE, Stuff, Text, View, text};
use crate::words::{self, hint, short, signed};
use boltbay_core::length::Length;
use boltbay_core::packing::{Stack, StackLayer, rip_shown};
use boltbay_core::shapes::Section;
use boltbay_core::words::{Side, Units};

/// The side, and which page of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PackingScreen {
    pub(super) side: Side,
    pub(super) page: u8,
}

impl Default for PackingScreen {
    fn default() -> Self {
        PackingScreen {
            side: Side::N,
            page: 0,
        }
    }
}

/// Sum, section, layers, rip heights.
const PAGES: u8 = 4;

impl PackingScreen {
    /// One by one.
    pub fn holdings(&self, _: Look) -> Holdings {
        LEAF
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, _look: Look) -> Reply {
        match gesture {
            Gesture::Tap(Key::Up | Key::Down) => self.side = self.side.other(),
            Gesture::Tap(Key::Right | Key::Ok) => self.page = (self.page + 1) % PAGES,
            Gesture::Tap(Key::Left) => return Reply::back(),
            _ => {}
        }
        Reply::stay()
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("packing", hint::PACKING);
        let letter = look.job.letter(self.side);
        view.status.left = text!("PACK {letter}");
        let stack = look.plan.packing.get(self.side.index());
        let Some(stack) = stack.and_then(Option::as_ref) else {
            view.line("NO STACK YET:", "");
            view.line("KEY BOARDS AND", "");
            view.line("WEB TO TIPS", "");
            return;
        };
        match self.page {
            0 => sum(stack, look, view),
            1 => section(self.side, stack, look, view),
            page => layers(stack, page, look, view),
        }
    }
}

/// The total large, the errors now and dry below.
fn sum(stack: &Stack, look: Look, view: &mut View) {
    let units = look.job.units;
    view.alarm = !stack.feasible;
    view.status.right = match stack.feasible {
        true => text!("AIM {}", short(stack.target, units)),
        false => text("MISSES"),
    };
    if view.status.left.len() + view.status.right.len() >= LINE {
        view.status.right = short(stack.target, units);
    }
    view.figure = Some(crate::view::Figure::length(
        stack.total,
        units,
        crate::view::Touch::Keyed,
    ));
    let now = signed(stack.error, units);
    let dry = signed(stack.error_dry, units);
    match now.len() + dry.len() < 10 {
        true => view.line(&text!("NOW {now}"), &text!("DRY {dry}")),
        false if now.len() + dry.len() < 14 => view.line(&now, &text!("DRY {dry}")),
        // So far off, drying does not matter.
        false => view.line("NOW", &now),
    }
}

/// Web to face: thickness, or what to rip to.
fn layers(stack: &Stack, page: u8, look: Look, view: &mut View) {
    let units = look.job.units;
    view.status.right = text(if page == 2 { "WEB 1ST" } else { "RIP WEB 1ST" });
    for layer in &stack.layers {
        let name = look.job.layers.get(usize::from(layer.layer));
        let right = match (page, layer.rip) {
            (2, _) => short(layer.thickness, units),
            _ => rip(layer, units),
        };
        // The figure matters more than the end of a name.
        let room = LINE.saturating_sub(right.len() + 1).min(10);
        let name = words::capitals(name.map_or("", |layer| &layer.name), room);
        view.line(&name, &right);
    }
}

/// What to rip a layer to, after a C where its arris is chamfered.
fn rip(layer: &StackLayer, units: Units) -> Text {
    match layer.rip {
        Some(rip) => {
            let arris = if layer.chamfered { "C" } else { "" };
            text!("{arris}{}", short(rip_shown(rip, units), units))
        }
        None => text(words::NOT_KEYED),
    }
}

/// The beam cut across, rip heights beside it, web first, and the errors.
fn section(side: Side, stack: &Stack, look: Look, view: &mut View) {
    view.screen = "packing-section";
    view.alarm = !stack.feasible;
    view.status.right = text("RIP WEB 1ST");
    view.section = Section::of(look.job).map(|steel| drawn(&steel, side, look));
    if view.section.is_none() {
        view.line("NO STEEL YET", "");
        return;
    }
    let units = look.job.units;
    for (number, layer) in (1_u8..).zip(&stack.layers) {
        view.line(&text!("{number}"), &rip(layer, units));
    }
    let errors = [stack.error, stack.error_dry].map(|error| signed(error, units));
    let [now, dry] = &errors;
    match errors.iter().all(|error| error.len() <= 7) {
        true => {
            view.line("NOW", now);
            view.line("DRY", dry);
        }
        // So far off, drying does not matter.
        false => {
            view.line("OFF BY", "");
            view.line("", now);
        }
    }
}

/// Columns and rows that the drawing has.
const ROOM: (i64, i64) = (56, 48);
/// Its middle column and its first row.
const MIDDLE: i64 = 29;
const TOP: i64 = 15;

/// Counts to whole pixels, the same for both directions.
struct Scale {
    pixels: i64,
    counts: i64,
}

impl Scale {
    /// As large as the steel fits, a little packing beyond the tips included.
    fn of(steel: &Section) -> Scale {
        let [wide, high] = [steel.width(), steel.depth()].map(|size| i64::from(size.counts()));
        match wide * ROOM.1 > high * (ROOM.0 - 4) {
            true => Scale {
                pixels: ROOM.0 - 4,
                counts: wide.max(1),
            },
            false => Scale {
                pixels: ROOM.1,
                counts: high.max(1),
            },
        }
    }

    fn pixels(&self, length: Length) -> i64 {
        let counts = i64::from(length.counts());
        (2 * counts * self.pixels + self.counts) / (2 * self.counts).max(1)
    }
}

/// A block between two columns and two rows, kept within the drawing.
fn block(columns: (i64, i64), rows: (i64, i64), stuff: Stuff) -> Block {
    let column = |x: i64| u8::try_from(x.clamp(MIDDLE - 28, MIDDLE + 28)).unwrap_or(0);
    let row = |y: i64| u8::try_from(y.clamp(TOP, TOP + ROOM.1)).unwrap_or(0);
    let (left, right) = (column(columns.0), column(columns.1));
    let (top, bottom) = (row(rows.0), row(rows.1));
    Block {
        at: (left, top),
        size: (right.saturating_sub(left), bottom.saturating_sub(top)),
        stuff,
    }
}

/// Both flanges, the web, the layers of both sides; side N at the left.
fn drawn(steel: &Section, side: Side, look: Look) -> CrossSection {
    let scale = Scale::of(steel);
    let [width, web, flange, depth] =
        [steel.width(), steel.web(), steel.flange(), steel.depth()].map(|size| scale.pixels(size));
    let (web, flange) = (web.max(1), flange.max(1));
    let across = (MIDDLE - width / 2, MIDDLE - width / 2 + width);
    let web_at = (MIDDLE - web / 2, MIDDLE - web / 2 + web);
    let (inside, floor) = (TOP + flange, TOP + depth - flange);
    let mut drawn = CrossSection::new();
    let mut add = |columns, rows, stuff| {
        let _ = drawn.push(block(columns, rows, stuff));
    };
    add(across, (TOP, inside), Stuff::Steel);
    add(across, (floor, TOP + depth), Stuff::Steel);
    add(web_at, (inside, floor), Stuff::Steel);
    for (of, stack) in Side::BOTH.into_iter().zip(&look.plan.packing) {
        let stuff = if of == side {
            Stuff::Layer
        } else {
            Stuff::OtherLayer
        };
        let mut reach = Length::ZERO;
        for layer in stack.iter().flat_map(|stack| &stack.layers) {
            let from = scale.pixels(reach);
            reach = reach.saturating_add(layer.thickness);
            let to = scale.pixels(reach);
            // A dark line between two layers.
            let columns = match of {
                Side::N => (web_at.0 - to, web_at.0 - from - 1),
                Side::S => (web_at.1 + from + 1, web_at.1 + to),
            };
            let clear = steel.clear_height();
            let rip = layer.rip.unwrap_or(clear);
            let lift = match layer.seats {
                true => 0,
                false => scale.pixels(clear.saturating_sub(rip)) / 2,
            };
            let bottom = floor - lift;
            add(columns, (bottom - scale.pixels(rip), bottom), stuff);
        }
    }
    drawn
}
