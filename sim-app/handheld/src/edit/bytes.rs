//! Edits as bytes, for the journal.
//!
//! One byte says which edit, then its parts in order: bytes, little-endian
//! counts of a length, words with their length in front. Every byte is read
//! back or the whole is refused: a record that is damaged must not become
//! another edit. A new kind of edit takes the next number.

use super::Edit;
use crate::field::{Field, List, Value, Words};
use boltbay_core::decimal::Decimal;
use boltbay_core::job::{
    BarsCut, Check, CheckKind, Edge, HangerRef, Hole, HoleState, Hook, JoistReading, Position, Run,
    RunHook,
};
use boltbay_core::length::Length;
use boltbay_core::words::{End, Row, Side, Units};
use heapless::String;

/// No edit is longer: words of 24 letters with field, sort and length.
pub const BYTES: usize = 32;

/// The bytes are no edit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Unreadable;

impl Edit {
    /// Writes the edit to the start of `out`; says how many bytes it took, or
    /// `None` where `out` is too short ([`BYTES`] always suffice).
    pub fn write(&self, out: &mut [u8]) -> Option<usize> {
        let mut to = Writer { out, at: 0 };
        match self {
            Edit::New(units) => {
                to.byte(1)?;
                to.byte(u8::from(*units == Units::Metric))?;
            }
            Edit::Set(field, value) => {
                to.byte(2)?;
                to.byte(field.kind as u8)?;
                to.byte(field.index)?;
                to.value(value)?;
            }
            Edit::Insert(list, at) => to.bytes(&[3, *list as u8, *at])?,
            Edit::Remove(list, at) => to.bytes(&[4, *list as u8, *at])?,
            Edit::Run(run) => {
                to.byte(5)?;
                to.run(run)?;
            }
            Edit::Joist(at, joist) => {
                to.bytes(&[6, *at])?;
                to.joist(joist)?;
            }
            Edit::Check(check) => {
                to.byte(7)?;
                to.check(check)?;
            }
            Edit::Hole(at, hole) => {
                to.bytes(&[8, *at, hole.row as u8, hole.state as u8])?;
                to.position(hole.at())?;
            }
            Edit::StrikeMarks => to.byte(9)?,
            Edit::BarsCut(cut) => {
                to.bytes(&[10, u8::try_from(cut.list.len()).ok()?])?;
                to.bytes(cut.list.as_bytes())?;
                to.bytes(&cut.bars.to_le_bytes())?;
            }
        }
        Some(to.at)
    }

    /// Reads one edit from the start of `bytes`; says how many bytes it took.
    ///
    /// # Errors
    /// [`Unreadable`] where they are no edit.
    pub fn read(bytes: &[u8]) -> Result<(Edit, usize), Unreadable> {
        let mut from = Reader { bytes, at: 0 };
        let edit = from.edit().ok_or(Unreadable)?;
        Ok((edit, from.at))
    }
}

struct Writer<'o> {
    out: &'o mut [u8],
    at: usize,
}

impl Writer<'_> {
    fn byte(&mut self, byte: u8) -> Option<()> {
        *self.out.get_mut(self.at)? = byte;
        self.at += 1;
        Some(())
    }

    fn bytes(&mut self, bytes: &[u8]) -> Option<()> {
        bytes.iter().try_for_each(|byte| self.byte(*byte))
    }

    fn length(&mut self, length: Length) -> Option<()> {
        self.bytes(&length.counts().to_le_bytes())
    }

    fn maybe_length(&mut self, length: Option<Length>) -> Option<()> {
        self.byte(u8::from(length.is_some()))?;
        length.map_or(Some(()), |length| self.length(length))
    }

    fn position(&mut self, at: Position) -> Option<()> {
        self.byte(at.hook as u8)?;
        self.length(at.reading)
    }

    fn value(&mut self, value: &Value) -> Option<()> {
        match value {
            Value::Nothing => self.byte(0),
            Value::Length(length) => {
                self.byte(1)?;
                self.length(*length)
            }
            Value::Number(number) => {
                self.byte(2)?;
                self.bytes(&number.digits().to_le_bytes())?;
                self.byte(number.places())
            }
            Value::Count(count) => {
                self.byte(3)?;
                self.bytes(&count.to_le_bytes())
            }
            Value::Choice(choice) => self.bytes(&[4, *choice]),
            Value::Words(words) => {
                self.bytes(&[5, u8::try_from(words.len()).ok()?])?;
                self.bytes(words.as_bytes())
            }
            Value::At(at) => {
                self.byte(6)?;
                self.position(*at)
            }
        }
    }

    fn run(&mut self, run: &Run) -> Option<()> {
        self.bytes(&[run.side as u8, run.edge as u8, u8::from(run.overridden)])?;
        match run.hook {
            RunHook::Wall(end) => self.bytes(&[0, end as u8])?,
            RunHook::Steel(end) => self.bytes(&[1, end as u8])?,
            RunHook::Mark(at, toward) => {
                self.bytes(&[2, toward as u8])?;
                self.position(at)?;
            }
        }
        self.maybe_length(run.burn)?;
        self.maybe_length(run.thickness)?;
        self.maybe_length(run.read_to)
    }

    fn joist(&mut self, joist: &JoistReading) -> Option<()> {
        let hanger = match joist.hanger {
            HangerRef::Default => 0,
            HangerRef::None => 1,
            HangerRef::Row(row) => row.checked_add(2)?,
        };
        self.bytes(&[joist.run, u8::from(joist.guessed), hanger])?;
        self.length(joist.reading)?;
        self.maybe_length(joist.thickness)
    }

    fn check(&mut self, check: &Check) -> Option<()> {
        self.bytes(&[check.kind as u8, check.run, u8::from(check.guessed)])?;
        self.length(check.reading)?;
        self.position(check.point)
    }
}

struct Reader<'b> {
    bytes: &'b [u8],
    at: usize,
}

impl Reader<'_> {
    fn byte(&mut self) -> Option<u8> {
        let byte = *self.bytes.get(self.at)?;
        self.at += 1;
        Some(byte)
    }

    fn one_of<T: Copy>(&mut self, all: &[T]) -> Option<T> {
        let index = self.byte()?;
        all.get(usize::from(index)).copied()
    }

    fn flag(&mut self) -> Option<bool> {
        self.one_of(&[false, true])
    }

    fn four(&mut self) -> Option<[u8; 4]> {
        Some([self.byte()?, self.byte()?, self.byte()?, self.byte()?])
    }

    fn length(&mut self) -> Option<Length> {
        let counts = i32::from_le_bytes(self.four()?);
        (counts != i32::MIN).then_some(Length::from_counts(counts))
    }

    fn maybe_length(&mut self) -> Option<Option<Length>> {
        Some(match self.flag()? {
            true => Some(self.length()?),
            false => None,
        })
    }

    fn position(&mut self) -> Option<Position> {
        let hook = self.one_of(&[Hook::EndA, Hook::EndB, Hook::WallA, Hook::WallB])?;
        let reading = self.length()?;
        Some(Position { reading, hook })
    }

    fn list(&mut self) -> Option<List> {
        List::of(self.byte()?)
    }

    fn edit(&mut self) -> Option<Edit> {
        Some(match self.byte()? {
            1 => Edit::New(self.one_of(&[Units::Imperial, Units::Metric])?),
            2 => {
                let kind = Field::kind(self.byte()?)?;
                let field = Field::at(kind, self.byte()?);
                Edit::Set(field, self.value()?)
            }
            3 => Edit::Insert(self.list()?, self.byte()?),
            4 => Edit::Remove(self.list()?, self.byte()?),
            5 => Edit::Run(self.run()?),
            6 => Edit::Joist(self.byte()?, self.joist()?),
            7 => Edit::Check(self.check()?),
            8 => {
                let at = self.byte()?;
                let row = self.one_of(&Row::BOTH)?;
                let states = [HoleState::Marked, HoleState::Drilled, HoleState::Abandoned];
                let state = self.one_of(&states)?;
                Edit::Hole(at, Hole::new(self.position()?, row, state))
            }
            9 => Edit::StrikeMarks,
            10 => Edit::BarsCut(BarsCut {
                list: self.letters()?,
                bars: u16::from_le_bytes([self.byte()?, self.byte()?]),
            }),
            _ => return None,
        })
    }

    fn value(&mut self) -> Option<Value> {
        Some(match self.byte()? {
            0 => Value::Nothing,
            1 => Value::Length(self.length()?),
            2 => {
                let digits = i32::from_le_bytes(self.four()?);
                Value::Number(Decimal::new(digits, self.byte()?))
            }
            3 => Value::Count(u16::from_le_bytes([self.byte()?, self.byte()?])),
            4 => Value::Choice(self.byte()?),
            5 => {
                let words: Words = self.letters()?;
                Value::Words(words)
            }
            6 => Value::At(self.position()?),
            _ => return None,
        })
    }

    /// Printable letters, as many as the byte before them says.
    fn letters<const N: usize>(&mut self) -> Option<String<N, u8>> {
        let mut words = String::new();
        for _ in 0..self.byte()? {
            let letter = self.byte()?;
            let printable = (b' '..=b'~').contains(&letter);
            let fits = printable && words.push(char::from(letter)).is_ok();
            fits.then_some(())?;
        }
        Some(words)
    }

    fn run(&mut self) -> Option<Run> {
        let side = self.one_of(&Side::BOTH)?;
        let edge = self.one_of(&[Edge::Near, Edge::Centre, Edge::Far])?;
        let overridden = self.flag()?;
        let hook = match self.byte()? {
            0 => RunHook::Wall(self.one_of(&End::BOTH)?),
            1 => RunHook::Steel(self.one_of(&End::BOTH)?),
            2 => {
                let toward = self.one_of(&End::BOTH)?;
                RunHook::Mark(self.position()?, toward)
            }
            _ => return None,
        };
        Some(Run {
            side,
            hook,
            edge,
            burn: self.maybe_length()?,
            thickness: self.maybe_length()?,
            read_to: self.maybe_length()?,
            overridden,
        })
    }

    fn joist(&mut self) -> Option<JoistReading> {
        let (run, guessed) = (self.byte()?, self.flag()?);
        let hanger = match self.byte()? {
            0 => HangerRef::Default,
            1 => HangerRef::None,
            row => HangerRef::Row(row - 2),
        };
        Some(JoistReading {
            reading: self.length()?,
            thickness: self.maybe_length()?,
            hanger,
            run,
            guessed,
        })
    }

    fn check(&mut self) -> Option<Check> {
        let kind = self.one_of(&[CheckKind::Check, CheckKind::Close])?;
        let (run, guessed) = (self.byte()?, self.flag()?);
        Some(Check {
            kind,
            reading: self.length()?,
            point: self.position()?,
            run,
            guessed,
        })
    }
}
