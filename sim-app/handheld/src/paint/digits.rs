//! Large digits out of runs of pixels, which `build/digits.rs` makes of strokes.

use super::canvas::{Canvas, Claims};
use embedded_graphics::pixelcolor::{Gray4, GrayColor};

/// A blank run follows.
const BLANK: u8 = 0;
/// A full run follows.
const FULL: u8 = 15;
/// Only the left half of these rows follows.
const MIRRORED: u8 = 8;
/// Greys from dark to full, and one more.
const STEPS: u8 = 16;

/// A set of digits.
pub struct Face {
    /// Columns of a digit.
    pub wide: i32,
    /// Rows of a digit.
    pub high: i32,
    /// Columns between two digits.
    pub gap: i32,
    /// Where each digit begins, then the dash.
    starts: [u16; 11],
    /// All of them.
    runs: &'static [u8],
}

include!(concat!(env!("OUT_DIR"), "/digits.rs"));

/// Half bytes, the higher of a byte first.
#[derive(Clone)]
struct Halves {
    bytes: &'static [u8],
    /// The lower half of the first byte is next.
    lower: bool,
}

impl Halves {
    /// The next one; zeros behind the last.
    fn next(&mut self) -> u8 {
        let byte = self.bytes.first().copied().unwrap_or(0);
        self.lower = !self.lower;
        if self.lower {
            return byte >> 4;
        }
        self.bytes = self.bytes.get(1..).unwrap_or_default();
        byte & 0xF
    }
}

impl Face {
    /// The rows of a digit; of anything else those of a dash.
    fn digit(&self, digit: u8) -> Halves {
        let start = self.starts.get(usize::from(digit)).or(self.starts.last());
        let start = start.map_or(0, |start| usize::from(*start));
        Halves {
            bytes: self.runs.get(start..).unwrap_or_default(),
            lower: false,
        }
    }

    /// Draws one digit with its upper left corner at `at`.
    pub fn draw(
        &self,
        digit: u8,
        (left, top): (i32, i32),
        colour: Gray4,
        canvas: &mut Canvas<'_, impl Claims>,
    ) {
        let mut halves = self.digit(digit);
        let mut y = top;
        while y < top + self.high {
            let head = halves.next();
            let alike = i32::from(head % MIRRORED) + 1;
            let row = Row {
                at: (left, y),
                alike,
                wide: self.wide,
                is_mirrored: head >= MIRRORED,
            };
            row.draw(&mut halves, colour, canvas);
            y += alike;
        }
    }
}

/// Rows of a digit that are alike.
struct Row {
    at: (i32, i32),
    alike: i32,
    wide: i32,
    is_mirrored: bool,
}

impl Row {
    fn draw(&self, halves: &mut Halves, colour: Gray4, canvas: &mut Canvas<'_, impl Claims>) {
        let end = match self.is_mirrored {
            true => (self.wide + 1) / 2,
            false => self.wide,
        };
        let mut x = 0;
        while x < end {
            let grey = halves.next();
            let long = match grey {
                BLANK | FULL => i32::from(halves.next()),
                _ => 1,
            };
            if long == 0 {
                return;
            }
            let luma = u16::from(colour.luma()) * u16::from(grey + 1) / u16::from(STEPS);
            if grey != BLANK && luma > 0 {
                self.run((x, long), Gray4::new(luma as u8), canvas);
            }
            x += long;
        }
    }

    /// One run, and the one that mirrors it.
    fn run(&self, (x, long): (i32, i32), grey: Gray4, canvas: &mut Canvas<'_, impl Claims>) {
        let (left, top) = self.at;
        canvas.fill((left + x, top), (long, self.alike), grey);
        if self.is_mirrored {
            let x = self.wide - x - long;
            canvas.fill((left + x, top), (long, self.alike), grey);
        }
    }
}
