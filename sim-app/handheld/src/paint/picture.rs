//! The picture: 128 x 64 pixels of 16 greys, as the memory of an OLED has them.
//!
//! In: filled rectangles, and eight pixels at a time by the bits of a byte; what lies
//! outside is left out. Out: rows of words, or pixels for whoever has another display.

use super::{HEIGHT, WIDTH};
use core::convert::Infallible;
use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{Dimensions, OriginDimensions, Point, Size};
use embedded_graphics::pixelcolor::{Gray4, GrayColor};
use embedded_graphics::prelude::{Drawable, Pixel};
use embedded_graphics::primitives::Rectangle;

/// Pixels of a word.
const PIXELS: i32 = 8;
/// Words of a row.
pub const WORDS: usize = WIDTH as usize / PIXELS as usize;
/// Rows.
pub const ROWS: usize = HEIGHT as usize;

/// A row: eight pixels a word, the leftmost in the highest half byte. In big-endian
/// order its bytes are two pixels each, left to right.
pub type Row = [u32; WORDS];

/// The picture; all zeros is black.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    rows: [Row; ROWS],
}

/// A word full of one grey.
fn word(grey: Gray4) -> u32 {
    u32::from(grey.luma()) * 0x1111_1111
}

/// Each of eight bits four times: the half bytes of the pixels that are meant.
const fn spread(bits: u8) -> u32 {
    let bits = bits as u32;
    let bits = (bits | bits << 12) & 0x000F_000F;
    let bits = (bits | bits << 6) & 0x0303_0303;
    let bits = (bits | bits << 3) & 0x1111_1111;
    bits * 0xF
}

/// Greys the half bytes of a mask.
const fn mix(word: &mut u32, mask: u32, grey: u32) {
    *word = (*word & !mask) | (grey & mask);
}

impl Picture {
    /// Black.
    pub const fn new() -> Picture {
        Picture {
            rows: [[0; WORDS]; ROWS],
        }
    }

    /// All black.
    pub fn clear(&mut self) {
        self.rows.as_flattened_mut().fill(0);
    }

    /// The rows, from the top.
    pub const fn rows(&self) -> &[Row; ROWS] {
        &self.rows
    }

    /// The grey of a pixel, 0 to 15; 0 outside.
    pub fn grey(&self, x: usize, y: usize) -> u8 {
        let row = self.rows.get(y);
        let word = row.and_then(|row| row.get(x / 8)).copied().unwrap_or(0);
        // A half byte fits.
        (word >> (28 - x % 8 * 4)) as u8 & 0xF
    }

    /// The rows from `top` on, as many as there are.
    fn rows_from(&mut self, top: i32) -> &mut [Row] {
        let top = usize::try_from(top).ok();
        top.and_then(|top| self.rows.get_mut(top..))
            .unwrap_or_default()
    }

    /// Pixels from `x` on in the rows from `top` on, a byte a row: those whose bit is
    /// set, the leftmost in the highest.
    pub fn stamp(&mut self, (x, top): (i32, i32), bits: &[u8], grey: Gray4) {
        let (grey, shift) = (word(grey), x.rem_euclid(PIXELS).unsigned_abs() * 4);
        // Before the first word there is none.
        let word_at = |at: i32| usize::try_from(at).unwrap_or(usize::MAX);
        let first = x.div_euclid(PIXELS);
        let (left, right) = (word_at(first), word_at(first + 1));
        for (row, bits) in self.rows_from(top).iter_mut().zip(bits) {
            let mask = spread(*bits);
            if let Some(word) = row.get_mut(left) {
                mix(word, mask >> shift, grey);
            }
            if let Some(word) = row.get_mut(right) {
                mix(word, mask.unbounded_shl(32 - shift), grey);
            }
        }
    }

    /// So many rows from `top` on: in each the same columns of the screen, those whose
    /// bit is set, the leftmost in the highest of the first byte.
    pub fn stripes(&mut self, (top, high): (i32, usize), columns: &[u8; WORDS], grey: Gray4) {
        let grey = word(grey);
        for row in self.rows_from(top).iter_mut().take(high) {
            for (word, bits) in row.iter_mut().zip(columns) {
                mix(word, spread(*bits), grey);
            }
        }
    }

    /// A filled rectangle.
    pub fn fill(&mut self, (x, y): (i32, i32), (wide, high): (i32, i32), grey: Gray4) {
        let (from, to) = (x.max(0), (x + wide).min(WIDTH as i32));
        let (top, bottom) = (y.max(0), (y + high).min(HEIGHT as i32));
        if from >= to || top >= bottom {
            return;
        }
        let grey = word(grey);
        let (first, last) = (from / PIXELS, (to - 1) / PIXELS);
        // What of the first word and of the last one is meant.
        let head = u32::MAX >> (from % PIXELS * 4);
        let tail = u32::MAX << ((PIXELS - 1 - (to - 1) % PIXELS) * 4);
        let (skip, count) = (first.unsigned_abs() as usize, (last - first) as usize);
        for row in self.rows_from(top).iter_mut().take((bottom - top) as usize) {
            match row.get_mut(skip..=skip + count) {
                Some([word]) => mix(word, head & tail, grey),
                Some([first, between @ .., last]) => {
                    mix(first, head, grey);
                    between.fill(grey);
                    mix(last, tail, grey);
                }
                _ => {}
            }
        }
    }
}

impl Default for Picture {
    fn default() -> Self {
        Picture::new()
    }
}

impl OriginDimensions for Picture {
    fn size(&self) -> Size {
        Size::new(WIDTH, HEIGHT)
    }
}

impl DrawTarget for Picture {
    type Color = Gray4;
    type Error = Infallible;

    fn draw_iter<I: IntoIterator<Item = Pixel<Gray4>>>(
        &mut self,
        pixels: I,
    ) -> Result<(), Infallible> {
        for Pixel(Point { x, y }, grey) in pixels {
            self.fill((x, y), (1, 1), grey);
        }
        Ok(())
    }

    fn fill_solid(&mut self, area: &Rectangle, grey: Gray4) -> Result<(), Infallible> {
        let Rectangle { top_left, size } = area.intersection(&self.bounding_box());
        let size = (size.width as i32, size.height as i32);
        Picture::fill(self, (top_left.x, top_left.y), size, grey);
        Ok(())
    }
}

/// Onto another display.
impl Drawable for Picture {
    type Color = Gray4;
    type Output = ();

    fn draw<D: DrawTarget<Color = Gray4>>(&self, target: &mut D) -> Result<(), D::Error> {
        let pixels = (0..ROWS).flat_map(|y| (0..WIDTH as usize).map(move |x| (x, y)));
        let greys = pixels.map(|(x, y)| Gray4::new(self.grey(x, y)));
        target.fill_contiguous(&self.bounding_box(), greys)
    }
}
