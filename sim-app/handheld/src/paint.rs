//! The painter: a view into pixels. It decides nothing.
//!
//! ```text
//!   y  0..12  status      left   [tab]   right
//!     14..50  figure      35 px digits, the fraction stacked, or a list, or a map
//!     51..54  tape ticks, or a bar along the edge next to the painted flange
//!     53..63  strip       9 px capitals
//! ```
//!
//! What is drawn outside the screen, or on top of something else, is a fault
//! that a test asks for: [`faults`].

mod canvas;
mod digits;
mod figure;
mod letters;
mod map;
mod picture;

pub use canvas::{Fault, Faults};
pub use picture::{Picture, ROWS, Row as PixelRow, WORDS};

use crate::view::{Block, Line, Status, Strip, Stuff, View, Wrapped};
use boltbay_core::words::Row;
use canvas::{Boxes, Canvas, Claims, Unclaimed, Weight};

/// Columns of the screen.
pub const WIDTH: u32 = 128;
/// Rows of the screen.
pub const HEIGHT: u32 = 64;

/// Columns, where places are counted.
const WIDE: i32 = WIDTH as i32;
/// The same of the rows.
const HIGH: i32 = HEIGHT as i32;
/// Top of the strip's text.
const STRIP: i32 = 52;
/// From one line of a hint to the next: they have what room a list leaves.
const HINT_PITCH: i32 = 8;
/// First column of the lines beside a section.
const BESIDE: i32 = 59;
/// From one line of a list to the next.
const PITCH: i32 = 13;
/// The same on a page set small.
const SMALL_PITCH: i32 = 10;

/// Paints the whole screen.
pub fn paint(view: &View, picture: &mut Picture) {
    lay_out(view, &mut Canvas::on(picture, &mut Unclaimed));
}

/// What of this view does not fit its place; nothing, on any screen of ours.
pub fn faults(view: &View) -> Faults {
    let (mut picture, mut boxes) = (Picture::new(), Boxes::default());
    lay_out(view, &mut Canvas::on(&mut picture, &mut boxes));
    boxes.faults
}

fn lay_out(view: &View, canvas: &mut Canvas<'_, impl Claims>) {
    canvas.clear();
    status(&view.status, view.alarm, canvas);
    if let Some(map) = &view.map {
        map::draw(map, canvas);
    }
    if let Some(section) = &view.section {
        blocks(section, canvas);
    }
    if let Some(figure) = &view.figure {
        // A bar above the figure pushes it down, one below does not.
        let top = 15 + i32::from(view.flange == Some(Row::Top));
        figure::draw(figure, top, canvas);
        flange(view.flange, canvas);
        if let Some(scale) = &view.scale {
            figure::scale(scale, canvas);
        }
    }
    if let Some(strip) = &view.strip {
        draw_strip(strip, canvas);
    }
    lines(view, canvas)
}

fn status(status: &Status, alarm: bool, canvas: &mut Canvas<'_, impl Claims>) {
    if alarm {
        // A dark row keeps it apart from a line that is chosen.
        canvas.fill((0, 0), (WIDE, 12), canvas::WHITE);
    }
    let weight = if alarm {
        Weight::Reversed
    } else {
        Weight::Bold
    };
    let left = canvas.text(&status.left, (1, 0), weight);
    let right = canvas.text_right(&status.right, (127, 0), weight);
    if status.tab.is_empty() {
        return;
    }
    // The tab stands in the middle of what is left between the two.
    let wide = canvas::text_width(&status.tab) + 4;
    let middle = (left + right - wide) / 2;
    let at = middle.clamp(left + 1, (right - wide - 1).max(left + 1));
    canvas.fill((at, 0), (wide, 13), canvas::WHITE);
    canvas.text(&status.tab, (at + 2, 0), Weight::Reversed);
}

/// The bar is two pixels thick and runs along the figure's edge.
fn flange(flange: Option<Row>, canvas: &mut Canvas<'_, impl Claims>) {
    match flange {
        Some(Row::Top) => canvas.fill((0, 13), (WIDE, 2), canvas::WHITE),
        Some(Row::Bot) => canvas.fill((0, 51), (WIDE, 2), canvas::WHITE),
        None => {}
    }
}

/// What is nearest on both sides of a hole, the hole between.
fn draw_strip(strip: &Strip, canvas: &mut Canvas<'_, impl Claims>) {
    let left = canvas.text(&strip.left, (1, STRIP), Weight::Bold);
    let right = canvas.text_right(&strip.right, (127, STRIP), Weight::Bold);
    let middle = (left + right) / 2;
    if right - left >= 10 {
        canvas.punch((middle, 58), 4);
    }
}

/// Steel grey, the layers in question white, those of the other side faint.
fn blocks(section: &[Block], canvas: &mut Canvas<'_, impl Claims>) {
    canvas.claim((0, 14), (BESIDE, HIGH - 14));
    for block in section {
        let (x, y) = block.at;
        let (wide, high) = block.size;
        let colour = match block.stuff {
            Stuff::Steel => canvas::GREY,
            Stuff::Layer => canvas::WHITE,
            Stuff::OtherLayer => canvas::FAINT,
        };
        canvas.fill((x.into(), y.into()), (wide.into(), high.into()), colour);
    }
}

/// Lines at the right of a section.
fn beside(view: &View, canvas: &mut Canvas<'_, impl Claims>) {
    let pitch = if view.lines.len() > 5 { 8 } else { SMALL_PITCH };
    let mut top = 14;
    for line in &view.lines {
        canvas.text(&line.left, (BESIDE, top), Weight::Small);
        canvas.text_right(&line.right, (127, top), Weight::Small);
        top += pitch;
    }
}

fn lines(view: &View, canvas: &mut Canvas<'_, impl Claims>) {
    if view.section.is_some() {
        return beside(view, canvas);
    }
    let (pitch, mut top) = match (view.small, view.figure.is_some() || view.map.is_some()) {
        (_, true) => (PITCH, STRIP),
        (true, false) => (SMALL_PITCH, 14),
        (false, false) => (PITCH, 13),
    };
    let mut used = top;
    for (number, line) in (0_u8..).zip(&view.lines) {
        let chosen = view.selected == Some(number);
        draw_line(line, top, chosen, view.small, canvas);
        top += pitch;
        // Blank lines below the words are room.
        if chosen || !(line.left.is_empty() && line.right.is_empty()) {
            used = top;
        }
    }
    if !(view.figure.is_some() || view.map.is_some() || view.small) {
        hint(view.hint, used, canvas);
    }
}

/// The hint, small and grey, where a list leaves room for all of it.
fn hint(hint: &str, from: i32, canvas: &mut Canvas<'_, impl Claims>) {
    let lines = Wrapped::of(hint);
    let high = HINT_PITCH * i32::try_from(lines.clone().count()).unwrap_or(i32::MAX);
    // A comma reaches one row below its line.
    let mut top = HIGH - high - 1;
    if top < from + 2 {
        return;
    }
    for line in lines {
        canvas.text(line, (1, top), Weight::Hint);
        top += HINT_PITCH;
    }
}

fn draw_line(
    line: &Line,
    top: i32,
    chosen: bool,
    small: bool,
    canvas: &mut Canvas<'_, impl Claims>,
) {
    let weight = match (small, chosen) {
        (true, _) => Weight::Small,
        (false, true) => Weight::Reversed,
        (false, false) => Weight::Bold,
    };
    if chosen {
        let high = if small { SMALL_PITCH } else { PITCH };
        let high = high.min(HIGH - top);
        canvas.fill((0, top), (WIDE, high), canvas::WHITE);
    }
    let weight = match (small, chosen) {
        (true, true) => Weight::SmallReversed,
        _ => weight,
    };
    canvas.text(&line.left, (1, top), weight);
    canvas.text_right(&line.right, (127, top), weight);
}
