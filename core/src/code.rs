//! The plan code: four characters that change whenever a hole changes.
//!
//! In: length of the steel, painted letters, lattice, holes, hole sizes. Out:
//! four characters without 0, 1, I, O. Rule: CRC-32C (polynomial 0x1EDC6F41,
//! RFC 3720 section 12.1) over ASCII `length;side;side;lattice;`, then `at,row;`
//! for each hole in order of `at` (top before bot), then `D,web,wood`; lengths
//! in counts, decimal. The low 20 bits, 5 at a time, high first, pick from the
//! alphabet. A hole that is drilled off its mark is coded at the mark: marking
//! or drilling what the plan says changes no list.

use crate::job::HOLES;
use crate::length::Length;
use crate::plan::PlanCode;
use crate::words::Row;
use core::fmt::{self, Write};
use crc::{CRC_32_ISCSI, Crc, Digest, NoTable};
use heapless::Vec;

/// Without the characters that look alike on a chalked board.
const ALPHABET: &[u8; 32] = b"23456789ABCDEFGHJKLMNPQRSTUVWXYZ";

/// CRC-32C is listed as "ISCSI". Without a table: a plan code is a kilobyte or
/// two of text, and flash is dearer than the time.
static CRC: Crc<u32, NoTable> = Crc::<u32, NoTable>::new(&CRC_32_ISCSI);

/// Holes as coded: where, and in which row.
pub type CodedHoles = Vec<(Length, Row), HOLES, u8>;

/// What a plan code stands for, besides the holes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Coded {
    /// Length of the steel.
    pub length: Length,
    /// The painted letters.
    pub sides: [u8; 2],
    /// Lattice step.
    pub lattice: Length,
    /// Bolt diameter.
    pub diameter: Length,
    /// Hole in the web, keyed or by default.
    pub web_hole: Length,
    /// Hole in the wood, keyed or by default.
    pub wood_hole: Length,
}

impl Coded {
    /// The code of these holes; they are sorted in place.
    pub fn code(&self, holes: &mut CodedHoles) -> PlanCode {
        holes.sort_unstable();
        let mut crc = Feed(CRC.digest());
        // A digest takes any text: writing to it cannot fail.
        let _ = self.feed(holes, &mut crc);
        letters(crc.0.finalize())
    }

    fn feed(&self, holes: &CodedHoles, crc: &mut Feed<'_>) -> fmt::Result {
        let [first, second] = self.sides.map(char::from);
        let [length, lattice] = [self.length, self.lattice].map(Length::counts);
        write!(crc, "{length};{first};{second};{lattice};")?;
        for (at, row) in holes {
            write!(crc, "{},{};", at.counts(), row.word())?;
        }
        let sizes = [self.diameter, self.web_hole, self.wood_hole];
        let [diameter, web, wood] = sizes.map(Length::counts);
        write!(crc, "{diameter},{web},{wood}")
    }
}

/// Text into a digest.
struct Feed<'a>(Digest<'a, u32, NoTable>);

impl Write for Feed<'_> {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        self.0.update(text.as_bytes());
        Ok(())
    }
}

/// The low 20 bits as four characters, high bits first.
fn letters(crc: u32) -> PlanCode {
    let mut code = PlanCode::new();
    for shift in [15, 10, 5, 0] {
        let index = usize::try_from((crc >> shift) & 31).unwrap_or(0);
        let letter = ALPHABET.get(index).copied().unwrap_or(b'2');
        // Four characters fit in four places.
        let _ = code.push(char::from(letter));
    }
    code
}
