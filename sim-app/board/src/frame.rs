//! The picture in memory, and which of its rows the glass does not show yet.
//!
//! In: drawing. Out: rows of 64 bytes, two pixels a byte, the left one in the high
//! half, as the OLED's memory has them. The painter clears the screen and draws it
//! whole, so what was touched says nothing; each row's sum is compared with the sum
//! of the row as it was last sent.

use boltbay_handheld::paint::{HEIGHT, WIDTH};
use embedded_graphics::Pixel;
use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{Dimensions, OriginDimensions, Point, Size};
use embedded_graphics::pixelcolor::{Gray4, GrayColor};
use embedded_graphics::primitives::Rectangle;

/// Bytes of a row.
pub const ROW: usize = WIDTH as usize / 2;
/// Rows.
pub const ROWS: usize = HEIGHT as usize;
/// Frames after which all rows are sent again: two rows may have the same sum, and a
/// spark may change what the glass shows.
const ALL_AFTER: u32 = 64;

/// One row.
pub type Row = [u8; ROW];

/// The picture. All zeros at first, so that it costs no flash.
pub struct Frame {
    rows: [Row; ROWS],
    /// Sums of the rows as sent.
    sent: [u32; ROWS],
    /// Frames until all rows are sent; 0 at first.
    until_all: u32,
}

impl Frame {
    /// Black, and nothing sent yet.
    pub const fn new() -> Frame {
        Frame {
            rows: [[0; ROW]; ROWS],
            sent: [0; ROWS],
            until_all: 0,
        }
    }

    /// Gives each row that is not shown yet to `send`, from the top, with its number.
    pub fn flush(&mut self, mut send: impl FnMut(u8, &Row)) {
        let all = self.until_all == 0;
        self.until_all = if all { ALL_AFTER } else { self.until_all - 1 };
        for ((number, row), sent) in (0..).zip(&self.rows).zip(&mut self.sent) {
            let sum = sum(row);
            if all || sum != *sent {
                *sent = sum;
                send(number, row);
            }
        }
    }

    /// Whatever was sent is no longer shown.
    pub fn forget_sent(&mut self) {
        self.until_all = 0;
    }

    fn put(&mut self, x: usize, y: usize, grey: u8) {
        if let Some(byte) = self.rows.get_mut(y).and_then(|row| row.get_mut(x / 2)) {
            *byte = match x % 2 {
                0 => (*byte & 0x0F) | (grey << 4),
                _ => (*byte & 0xF0) | grey,
            };
        }
    }

    /// A stretch of one row, whole bytes at once.
    fn run(&mut self, y: usize, from: usize, to: usize, grey: u8) {
        if from >= to {
            return;
        }
        let (first, last) = (from.div_ceil(2), to / 2);
        if from % 2 == 1 {
            self.put(from, y, grey);
        }
        if to % 2 == 1 && last >= first {
            self.put(to - 1, y, grey);
        }
        let row = self.rows.get_mut(y);
        if let Some(bytes) = row.and_then(|row| row.get_mut(first..last)) {
            bytes.fill((grey << 4) | grey);
        }
    }
}

impl Default for Frame {
    fn default() -> Self {
        Frame::new()
    }
}

/// A sum in which every bit of the row counts. Memory: offset and multiplier of FNV-1a
/// of 32 bits, here taken over words.
fn sum(row: &Row) -> u32 {
    let words = row.as_chunks::<4>().0.iter().copied();
    words
        .map(u32::from_le_bytes)
        .fold(0x811C_9DC5, |sum, word| {
            (sum ^ word).wrapping_mul(0x0100_0193).rotate_left(13)
        })
}

impl OriginDimensions for Frame {
    fn size(&self) -> Size {
        Size::new(WIDTH, HEIGHT)
    }
}

impl DrawTarget for Frame {
    type Color = Gray4;
    type Error = core::convert::Infallible;

    fn draw_iter<I: IntoIterator<Item = Pixel<Gray4>>>(
        &mut self,
        pixels: I,
    ) -> Result<(), Self::Error> {
        for Pixel(Point { x, y }, grey) in pixels {
            if (0..WIDTH as i32).contains(&x) && (0..HEIGHT as i32).contains(&y) {
                self.put(x as usize, y as usize, grey.luma());
            }
        }
        Ok(())
    }

    fn fill_solid(&mut self, area: &Rectangle, colour: Gray4) -> Result<(), Self::Error> {
        let area = area.intersection(&self.bounding_box());
        let from = area.top_left.x.unsigned_abs() as usize;
        let to = from + area.size.width as usize;
        for y in area.rows() {
            self.run(y.unsigned_abs() as usize, from, to, colour.luma());
        }
        Ok(())
    }

    fn clear(&mut self, colour: Gray4) -> Result<(), Self::Error> {
        let byte = (colour.luma() << 4) | colour.luma();
        self.rows.as_flattened_mut().fill(byte);
        Ok(())
    }
}
