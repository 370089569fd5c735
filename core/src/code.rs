//! The plan code: four characters that change whenever a hole changes.
//!
//! In: length of the steel, painted letters, lattice, holes, hole sizes. Out:
//! four characters without 0, 1, I, O. Rule: CRC-32C (polynomial 0x1EDC6F41,
//! RFC 3720 section 12.1) over ASCII `length;side;side;lattice;`, then `at,row;`
//! for each hole in order of `at` (top before bot), then `D,web,wood`; lengths
//! in counts, decimal. The low 20 bits, 5 at a time, high first, pick from the
//! alphabet. A hole that is drilled off its mark is coded at the mark: marking
//! or drilling what the plan says changes no list.
//!
//! A cut list has a code of six, made the same way of its low 30 bits: bars that
//! are ticked off as cut count for the list that they were cut by, and no other.

use crate::frame::Frame;
use crate::hardware::Hardware;
use crate::job::{HOLES, Hole, HoleState, Job, StickSource};
use crate::length::Length;
use crate::placement::{Placement, State};
use crate::plan::PlanCode;
use crate::rods::StickCut;
use crate::rule::Rule;
use crate::words::{Name, Row};
use core::fmt::{self, Write};
use crc::{CRC_32_ISCSI, Crc, Digest, NoTable};
use heapless::{String, Vec};

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
        // The low 20 bits.
        letters(crc.0.finalize(), [15, 10, 5, 0])
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

/// A plan that is to be coded.
#[derive(Clone, Copy, Debug)]
pub struct PlanToCode<'a> {
    /// Its job.
    pub job: &'a Job,
    /// Where its ends and walls lie.
    pub frame: Frame,
    /// Its rule.
    pub rule: Rule,
}

impl PlanToCode<'_> {
    /// The code of a feasible placement; `None` where it is not feasible.
    pub fn code(&self, placement: &Placement) -> Option<PlanCode> {
        if !placement.feasible {
            return None;
        }
        let hardware = Hardware::of(self.job)?;
        let coded = Coded {
            length: self.frame.length,
            sides: self.job.sides,
            lattice: self.rule.step,
            diameter: hardware.diameter,
            web_hole: hardware.web_hole,
            wood_hole: hardware.wood_hole,
        };
        let mut holes = CodedHoles::new();
        for hole in &placement.holes {
            // As many as a placement holds.
            let _ = holes.push((hole.at, hole.row));
        }
        self.back_to_marks(placement, &mut holes);
        Some(coded.code(&mut holes))
    }

    /// Puts each drilled hole back to the mark that it answers: the nearest of
    /// its row within half the least spacing, each mark once, in card order, tie
    /// toward A.
    fn back_to_marks(&self, placement: &Placement, coded: &mut CodedHoles) {
        let mut taken = [false; HOLES];
        for hole in &self.job.holes {
            let Some(at) = self
                .station(hole)
                .filter(|_| hole.state == HoleState::Drilled)
            else {
                continue;
            };
            let Some((index, mark)) = self.answered(at, hole.row, &taken) else {
                continue;
            };
            if let Some(taken) = taken.get_mut(index) {
                *taken = true;
            }
            let place = placement.holes.iter().position(|placed| {
                placed.at == at && placed.row == hole.row && placed.state == State::Drilled
            });
            if let Some(entry) = place.and_then(|place| coded.get_mut(place)) {
                *entry = (mark, hole.row);
            }
        }
    }

    /// The mark that a hole drilled at `at` answers: its index and station.
    fn answered(&self, at: Length, row: Row, taken: &[bool; HOLES]) -> Option<(usize, Length)> {
        let marks = self.job.holes.iter().zip(taken).enumerate();
        marks
            .filter(|(_, (mark, taken))| {
                mark.state == HoleState::Marked && mark.row == row && !**taken
            })
            .filter_map(|(index, (mark, _))| Some((index, self.station(mark)?)))
            .filter(|(_, mark)| {
                let off = i64::from(mark.counts()) - i64::from(at.counts());
                2 * off.abs() <= i64::from(self.rule.s_min.counts())
            })
            .min_by_key(|(_, mark)| (mark.saturating_sub(at).abs(), *mark))
    }

    fn station(&self, hole: &Hole) -> Option<Length> {
        self.frame.station(hole.at()).ok()
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

/// The code of a way of cutting: the stick, bought or on hand, and how many of
/// each length come out of it. `lengths` are those of
/// [`crate::rods::Rods::lengths`].
pub fn cut_list(cut: &StickCut, lengths: &[Length]) -> Name {
    let mut crc = Feed(CRC.digest());
    let bought = cut.source == StickSource::Rod;
    // A digest takes any text: writing to it cannot fail.
    let _ = write!(crc, "{},{bought};", cut.stock.counts());
    for (length, count) in lengths.iter().zip(cut.cuts).filter(|(_, count)| *count > 0) {
        let _ = write!(crc, "{count},{};", length.counts());
    }
    letters(crc.0.finalize(), [25, 20, 15, 10, 5, 0])
}

/// Five bits a character, from these shifts.
fn letters<const LETTERS: usize, const N: usize>(
    crc: u32,
    shifts: [u32; LETTERS],
) -> String<N, u8> {
    let mut code = String::new();
    for shift in shifts {
        let index = usize::try_from((crc >> shift) & 31).unwrap_or(0);
        let letter = ALPHABET.get(index).copied().unwrap_or(b'2');
        // As many characters as places, or fewer.
        let _ = code.push(char::from(letter));
    }
    code
}
