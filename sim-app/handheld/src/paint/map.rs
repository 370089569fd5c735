//! The strip map: the beam from above, one side's joists over it, the other's under.
//!
//! ```text
//!   14..27   joists of the first side, their hangers' metal in grey
//!   28..29   web face of that side
//!   30..47   the web: row TOP at 34, row BOT at 43, a grey line where bolts may stand
//!   48..49   web face of the other side
//!   50..63   its joists
//! ```

use super::WIDTH;
use super::canvas::{Canvas, Claims, FAINT, GREY, WHITE};
use crate::view::{Dot, Drawn, Map};
use boltbay_core::words::Row;
use embedded_graphics::pixelcolor::Gray4;

const UPPER_FACE: i32 = 27;
const LOWER_FACE: i32 = 49;
const RADIUS: i32 = 3;

/// Row of the screen in which a bolt row is drawn.
const fn height(row: Row) -> i32 {
    match row {
        Row::Top => 34,
        Row::Bot => 43,
    }
}

/// Draws the map; the status line stays free.
pub fn draw(map: &Map, canvas: &mut Canvas<'_, impl Claims>) {
    canvas.claim((0, 14), (WIDTH as i32, 50));
    canvas.fill((0, UPPER_FACE), (WIDTH as i32, 2), GREY);
    canvas.fill((0, LOWER_FACE), (WIDTH as i32, 2), GREY);
    // What is chosen may lie off the steel, and out of sight.
    if let Some((x, wide)) = map.cursor.and_then(|x| seen((x, x))) {
        canvas.fill((x, 30), (wide, 18), WHITE);
    }
    for (row, free) in Row::BOTH.into_iter().zip(&map.free) {
        canvas.stripes((height(row), 1), &free.stripes(), GREY);
    }
    for (top, high, columns, colour) in [
        (22, 5, map.metal.first(), FAINT),
        (15, 12, map.joists.first(), WHITE),
        (LOWER_FACE + 2, 5, map.metal.last(), FAINT),
        (LOWER_FACE + 2, 12, map.joists.last(), WHITE),
    ] {
        if let Some(columns) = columns {
            canvas.stripes((top, high), &columns.stripes(), colour);
        }
    }
    for thing in &map.drawn {
        draw_thing(thing, canvas);
    }
    letters(map, canvas);
}

/// Clips a span of columns to the screen; `None` where it is out of sight.
fn seen((from, to): (i16, i16)) -> Option<(i32, i32)> {
    let from = i32::from(from).max(0);
    let to = i32::from(to).min(WIDTH as i32 - 1);
    let wide = to - from + 1;
    (wide > 0).then_some((from, wide))
}

fn draw_thing(thing: &Drawn, canvas: &mut Canvas<'_, impl Claims>) {
    let mut bar = |span: (i16, i16), top: i32, high: i32, colour: Gray4| {
        if let Some((x, wide)) = seen(span) {
            canvas.fill((x, top), (wide, high), colour);
        }
    };
    match *thing {
        Drawn::Obstacle { n, s, span } => {
            if n {
                bar(span, 17, 8, GREY);
            }
            if s {
                bar(span, LOWER_FACE + 4, 8, GREY);
            }
        }
        Drawn::Blocked { span } => {
            bar(span, 31, 1, WHITE);
            bar(span, 46, 1, WHITE);
        }
        Drawn::Hole { row, at, dot } => hole((i32::from(at), height(row)), dot, canvas),
    }
}

fn hole(centre: (i32, i32), dot: Dot, canvas: &mut Canvas<'_, impl Claims>) {
    match dot {
        Dot::Planned => canvas.punch(centre, RADIUS),
        Dot::Marked => canvas.ring(centre, RADIUS, WHITE),
        Dot::Drilled => canvas.disc(centre, RADIUS, WHITE),
        Dot::StruckOut => {
            canvas.ring(centre, RADIUS, GREY);
            let (x, y) = centre;
            for step in -RADIUS..=RADIUS {
                canvas.fill((x + step, y - step), (1, 1), WHITE);
            }
        }
    }
}

/// Letters of the sides and ends, on black, in the corners.
fn letters(map: &Map, canvas: &mut Canvas<'_, impl Claims>) {
    let [upper, lower] = map.sides;
    let [left, right] = map.ends;
    for (letter, x, y) in [
        (upper, 0, 14),
        (lower, 0, 52),
        (left, 0, 33),
        (right, 120, 33),
    ] {
        if letter == 0 {
            continue;
        }
        canvas.fill((x, y), (8, 11), Gray4::new(0));
        let mut buffer = [0; 4];
        let text = char::from(letter).encode_utf8(&mut buffer);
        canvas.plain(text, (x + 1, y - 1));
    }
}
