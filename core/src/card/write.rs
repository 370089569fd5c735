//! The writer of a card: a job in, text out.
//!
//! In: a job. Out: rows that read back to the same job; optional fields that
//! are not on the job stay empty, and rows that say nothing are left out.
//! Joists, checks and closes stand below their run, each kind in its own order.
//! Names keep their quote marks and commas (RFC 4180), but blanks at their ends
//! are lost, because a reader takes those for blanks around the field.

mod bolting;
mod house;
mod stock;

use super::Kind;
use super::hook::PositionShown;
use super::word::Word;
use crate::decimal::Decimal;
use crate::job::{Job, Position};
use crate::length::Length;
use crate::words::{Side, Sides};
use core::fmt::{self, Display, Write};

/// Writes the card of a job.
///
/// # Errors
/// Those of `out`.
pub fn write(job: &Job, out: &mut impl Write) -> fmt::Result {
    let mut card = Out { out, job, empty: 0 };
    card.header()?;
    card.steel()?;
    card.house()?;
    card.runs()?;
    card.hangers()?;
    card.keepouts()?;
    card.packing()?;
    card.loads()?;
    card.hardware()?;
    card.rules()?;
    card.stock()?;
    card.rods()?;
    card.holes()
}

/// A card being written.
struct Out<'a, W: Write> {
    out: &'a mut W,
    job: &'a Job,
    /// Empty fields not yet written: those at the end of a row never are.
    empty: usize,
}

impl<W: Write> Out<'_, W> {
    fn header(&mut self) -> fmt::Result {
        let job = self.job;
        self.kind(Kind::Boltbay)?;
        self.field(&"1")?;
        self.end()?;
        if !job.name.is_empty() {
            self.kind(Kind::Job)?;
            self.name(&job.name)?;
            self.end()?;
        }
        self.kind(Kind::Units)?;
        self.word(Some(job.units))?;
        self.end()?;
        if job.sides != *b"NS" {
            let [first, second] = job.sides.map(char::from);
            self.kind(Kind::Sides)?;
            self.field(&first)?;
            self.field(&second)?;
            self.end()?;
        }
        Ok(())
    }

    /// Starts a row.
    fn kind(&mut self, kind: Kind) -> fmt::Result {
        self.out.write_str(kind.word())
    }

    /// Ends a row.
    fn end(&mut self) -> fmt::Result {
        self.empty = 0;
        self.out.write_char('\n')
    }

    /// An empty field.
    fn none(&mut self) -> fmt::Result {
        self.empty += 1;
        Ok(())
    }

    /// A field that needs no quotes.
    fn field(&mut self, value: &dyn Display) -> fmt::Result {
        self.comma()?;
        write!(self.out, "{value}")
    }

    /// The commas before a field, also of the empty ones before it.
    fn comma(&mut self) -> fmt::Result {
        for _ in 0..=core::mem::take(&mut self.empty) {
            self.out.write_char(',')?;
        }
        Ok(())
    }

    /// A field that may be missing.
    fn maybe(&mut self, value: Option<impl Display>) -> fmt::Result {
        match value {
            Some(value) => self.field(&value),
            None => self.none(),
        }
    }

    fn length(&mut self, length: Length) -> fmt::Result {
        self.maybe_length(Some(length))
    }

    fn maybe_length(&mut self, length: Option<Length>) -> fmt::Result {
        let units = self.job.units;
        self.maybe(length.map(|length| length.shown_on_card(units)))
    }

    fn position(&mut self, position: Position) -> fmt::Result {
        self.maybe_position(Some(position))
    }

    fn maybe_position(&mut self, position: Option<Position>) -> fmt::Result {
        let units = self.job.units;
        self.maybe(position.map(|position| PositionShown(position, units)))
    }

    fn decimal(&mut self, decimal: Option<Decimal>) -> fmt::Result {
        self.maybe(decimal)
    }

    fn count(&mut self, count: Option<u16>) -> fmt::Result {
        self.maybe(count)
    }

    fn word<T: Word>(&mut self, value: Option<T>) -> fmt::Result {
        self.maybe(value.map(Word::word))
    }

    fn side(&mut self, side: Side) -> fmt::Result {
        let letter = self.job.letter(side);
        self.field(&letter)
    }

    fn sides(&mut self, sides: Sides) -> fmt::Result {
        match sides {
            Sides::Both => self.field(&"both"),
            Sides::One(side) => self.side(side),
        }
    }

    /// A name, in quotes where it must be; empty names are empty fields.
    fn name(&mut self, name: &str) -> fmt::Result {
        if name.is_empty() {
            return self.none();
        }
        self.comma()?;
        if !name.contains([',', '"']) {
            return self.out.write_str(name);
        }
        self.out.write_char('"')?;
        for letter in name.chars() {
            if letter == '"' {
                self.out.write_char('"')?;
            }
            self.out.write_char(letter)?;
        }
        self.out.write_char('"')
    }

    /// A row of one optional length.
    fn length_row(&mut self, kind: Kind, length: Option<Length>) -> fmt::Result {
        let Some(length) = length else { return Ok(()) };
        self.kind(kind)?;
        self.length(length)?;
        self.end()
    }

    /// A row of one optional word.
    fn word_row<T: Word>(&mut self, kind: Kind, value: Option<T>) -> fmt::Result {
        if value.is_none() {
            return Ok(());
        }
        self.kind(kind)?;
        self.word(value)?;
        self.end()
    }

    /// A row of one optional number.
    fn number_row(&mut self, kind: Kind, value: Option<impl Display>) -> fmt::Result {
        let Some(value) = value else { return Ok(()) };
        self.kind(kind)?;
        self.field(&value)?;
        self.end()
    }
}
