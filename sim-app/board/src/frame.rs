//! The picture, and which of its rows the glass does not show yet.
//!
//! In: a picture painted whole. Out: the rows that the glass lacks. The painter begins
//! with a black screen, so what was touched says nothing; each row's sum is compared with
//! the sum of the row as it was last sent.

pub use boltbay_handheld::paint::ROWS;
use boltbay_handheld::paint::{Picture, PixelRow, WORDS};

/// Bytes of a row.
pub const ROW: usize = 4 * WORDS;
/// Frames after which all rows are sent again: two rows may have the same sum, and a
/// spark may change what the glass shows.
const ALL_AFTER: u32 = 64;

/// A row as the glass takes it: two pixels a byte, the left one in the high half.
pub type Row = [u8; ROW];

/// The picture. All zeros at first, so that it costs no flash.
pub struct Frame {
    picture: Picture,
    /// Sums of the rows as sent.
    sent: [u32; ROWS],
    /// Frames until all rows are sent; 0 at first.
    until_all: u32,
}

impl Frame {
    /// Black, and nothing sent yet.
    pub const fn new() -> Frame {
        Frame {
            picture: Picture::new(),
            sent: [0; ROWS],
            until_all: 0,
        }
    }

    /// What is painted on.
    pub fn picture(&mut self) -> &mut Picture {
        &mut self.picture
    }

    /// Gives each row that is not shown yet to `send`, from the top, with its number.
    pub fn flush(&mut self, mut send: impl FnMut(u8, &Row)) {
        let all = self.until_all == 0;
        self.until_all = if all { ALL_AFTER } else { self.until_all - 1 };
        let rows = self.picture.rows();
        for ((number, row), sent) in (0..).zip(rows).zip(&mut self.sent) {
            let sum = sum(row);
            if all || sum != *sent {
                *sent = sum;
                send(number, &bytes(row));
            }
        }
    }

    /// Whatever was sent is no longer shown.
    pub fn forget_sent(&mut self) {
        self.until_all = 0;
    }
}

impl Default for Frame {
    fn default() -> Self {
        Frame::new()
    }
}

/// The bytes of a row, left to right.
fn bytes(row: &PixelRow) -> Row {
    let mut bytes = [0; ROW];
    for (bytes, word) in bytes.as_chunks_mut().0.iter_mut().zip(row) {
        *bytes = word.to_be_bytes();
    }
    bytes
}

/// A sum in which every bit of the row counts. Memory: offset and multiplier of FNV-1a
/// of 32 bits, here taken over words.
fn sum(row: &PixelRow) -> u32 {
    row.iter().fold(0x811C_9DC5, |sum, word| {
        (sum ^ word).wrapping_mul(0x0100_0193).rotate_left(13)
    })
}
