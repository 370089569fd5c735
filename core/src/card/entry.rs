//! A row being read: its fields one after the other as typed values.
//!
//! In: the text of a row. Out: lengths, positions, words, names, numbers within
//! their limits, or the error of the field. The limits stand in
//! `limits.rs`.

use super::error::excerpt;
use super::hook::split_hook;
use super::limits::{Number, Span, TAPE};
use super::notes::{Letter, Notes, Twice};
use super::row::Row;
use super::word::Word;
use super::{CardError, Kind, Wrong};
use crate::decimal::Decimal;
use crate::job::{Job, Position};
use crate::length::{Length, LengthError, blank};
use crate::words::{End, Name, Side, Sides};
use heapless::String;

/// Nothing, or the error of a field.
pub(super) type Outcome = Result<(), CardError>;

/// A row, the notes and the job that it goes into.
pub(super) struct Entry<'a> {
    row: &'a Row,
    next: usize,
    pub(super) kind: Kind,
    pub(super) line: u16,
    pub(super) notes: &'a mut Notes,
    pub(super) job: &'a mut Job,
}

impl<'a> Entry<'a> {
    /// A row of this kind, its fields from the second on.
    pub(super) fn new(
        row: &'a Row,
        kind: Kind,
        line: u16,
        notes: &'a mut Notes,
        job: &'a mut Job,
    ) -> Entry<'a> {
        Entry {
            row,
            next: 1,
            kind,
            line,
            notes,
            job,
        }
    }

    /// The next field as text.
    pub(super) fn text(&mut self) -> &'a str {
        let text = self.row.field(self.next);
        self.next += 1;
        text
    }

    /// The error of the field just read.
    pub(super) fn error(&self, field: &'static str, wrong: Wrong) -> CardError {
        let text = self.row.field(self.next.saturating_sub(1));
        CardError {
            row: u32::from(self.line),
            kind: Some(self.kind),
            field,
            found: excerpt(text),
            units: self.notes.units.unwrap_or_default(),
            wrong,
        }
    }

    /// The error of the row as a whole.
    pub(super) fn row_error(&self, wrong: Wrong) -> CardError {
        let units = self.notes.units.unwrap_or_default();
        CardError::of_row(self.line, Some(self.kind), units, wrong)
    }

    /// Nothing may stand behind the last field.
    pub(super) fn done(&mut self) -> Outcome {
        for _ in self.next..=super::row::FIELDS {
            if !self.text().is_empty() {
                return Err(self.error("END OF ROW", Wrong::Extra));
            }
        }
        if self.row.is_crowded() {
            return Err(self.error("END OF ROW", Wrong::Extra));
        }
        Ok(())
    }

    /// A field that must hold something.
    pub(super) fn filled(&mut self, field: &'static str) -> Result<&'a str, CardError> {
        match self.text() {
            "" => Err(self.error(field, Wrong::Missing)),
            text => Ok(text),
        }
    }

    /// A word of a vocabulary; `None` for an empty field.
    pub(super) fn maybe_word<W: Word>(
        &mut self,
        field: &'static str,
    ) -> Result<Option<W>, CardError> {
        match self.text() {
            "" => Ok(None),
            text => self.as_word(field, text).map(Some),
        }
    }

    /// A word of a vocabulary.
    pub(super) fn word<W: Word>(&mut self, field: &'static str) -> Result<W, CardError> {
        let text = self.filled(field)?;
        self.as_word(field, text)
    }

    fn as_word<W: Word>(&self, field: &'static str, text: &str) -> Result<W, CardError> {
        W::read(text).ok_or_else(|| self.error(field, Wrong::NotOneOf(W::WORDS)))
    }

    /// A length; `None` for an empty field.
    pub(super) fn maybe_length(
        &mut self,
        field: &'static str,
        span: Span,
    ) -> Result<Option<Length>, CardError> {
        match self.text() {
            "" => Ok(None),
            text => self.as_length(field, text, span).map(Some),
        }
    }

    /// A length.
    pub(super) fn length(&mut self, field: &'static str, span: Span) -> Result<Length, CardError> {
        let text = self.filled(field)?;
        self.as_length(field, text, span)
    }

    /// The text of a field as a length.
    pub(super) fn as_length(
        &self,
        field: &'static str,
        text: &str,
        span: Span,
    ) -> Result<Length, CardError> {
        let units = self.notes.units;
        let units = units.ok_or_else(|| self.error(field, Wrong::UnitsFirst))?;
        Length::read(text, units)
            .map_err(Wrong::Length)
            .and_then(|length| span.judge(length))
            .map_err(|wrong| self.error(field, wrong))
    }

    /// A reading, and whether it was accepted as guessed (`g` behind it).
    pub(super) fn reading(&mut self, field: &'static str) -> Result<(Length, bool), CardError> {
        let text = self.filled(field)?;
        let plain = text.strip_suffix(['g', 'G']);
        let reading = plain.unwrap_or(text).trim_end_matches(blank);
        let length = self.as_length(field, reading, Span::from_zero(TAPE))?;
        Ok((length, plain.is_some()))
    }

    /// A position; `None` for an empty field.
    pub(super) fn maybe_position(
        &mut self,
        field: &'static str,
    ) -> Result<Option<Position>, CardError> {
        match self.text() {
            "" => Ok(None),
            text => self.as_position(field, text).map(Some),
        }
    }

    /// A position.
    pub(super) fn position(&mut self, field: &'static str) -> Result<Position, CardError> {
        let text = self.filled(field)?;
        self.as_position(field, text)
    }

    /// The text of a field as a position: a length and its hook. A hook alone
    /// is the hook itself.
    pub(super) fn as_position(
        &self,
        field: &'static str,
        text: &str,
    ) -> Result<Position, CardError> {
        let (reading, hook) = split_hook(text);
        if reading.is_empty() {
            return Ok(Position {
                reading: Length::ZERO,
                hook,
            });
        }
        match self.as_length(field, reading, Span::from_zero(TAPE)) {
            Ok(reading) => Ok(Position { reading, hook }),
            Err(CardError {
                wrong: Wrong::Length(LengthError::Strange { .. }),
                ..
            }) => Err(self.error(field, Wrong::Position)),
            Err(error) => Err(error),
        }
    }

    /// A decimal from 0 (or above it) to `most`; `None` for an empty field.
    pub(super) fn maybe_decimal(
        &mut self,
        field: &'static str,
        least: Number,
        most: i32,
    ) -> Result<Option<Decimal>, CardError> {
        match self.text() {
            "" => Ok(None),
            text => self.as_decimal(field, text, least, most).map(Some),
        }
    }

    /// A decimal from 0 (or above it) to `most`.
    pub(super) fn decimal(
        &mut self,
        field: &'static str,
        least: Number,
        most: i32,
    ) -> Result<Decimal, CardError> {
        let text = self.filled(field)?;
        self.as_decimal(field, text, least, most)
    }

    /// The text of a field as a decimal.
    pub(super) fn as_decimal(
        &self,
        field: &'static str,
        text: &str,
        least: Number,
        most: i32,
    ) -> Result<Decimal, CardError> {
        let decimal =
            Decimal::read(text).map_err(|error| self.error(field, Wrong::Decimal(error)))?;
        let millionths = decimal.millionths();
        let wrong = match least {
            _ if millionths < 0 => Wrong::Negative,
            Number::AboveZero if millionths == 0 => Wrong::Zero,
            _ if millionths > i64::from(most) * 1_000_000 => Wrong::NumberAbove { most },
            _ => return Ok(decimal),
        };
        Err(self.error(field, wrong))
    }

    /// A whole number; `None` for an empty field.
    pub(super) fn maybe_count(
        &mut self,
        field: &'static str,
        least: u16,
        most: u16,
    ) -> Result<Option<u16>, CardError> {
        match self.text() {
            "" => Ok(None),
            text => text
                .parse()
                .ok()
                .filter(|count| (least..=most).contains(count))
                .map(Some)
                .ok_or_else(|| self.error(field, Wrong::Count { least, most })),
        }
    }

    /// A whole number.
    pub(super) fn count(
        &mut self,
        field: &'static str,
        least: u16,
        most: u16,
    ) -> Result<u16, CardError> {
        let count = self.maybe_count(field, least, most)?;
        count.ok_or_else(|| self.error(field, Wrong::Missing))
    }

    /// A side by its letter.
    pub(super) fn side(&mut self, field: &'static str) -> Result<Side, CardError> {
        let text = self.filled(field)?;
        self.as_side(field, text)
    }

    /// The text of a field as a side.
    pub(super) fn as_side(&mut self, field: &'static str, text: &str) -> Result<Side, CardError> {
        let letter = match text.as_bytes() {
            [letter] => letter.to_ascii_uppercase(),
            _ => b'?',
        };
        let known = match is_side_letter(letter) {
            true => {
                let (line, kind) = (self.line, self.kind);
                let met = Letter { letter, line, kind };
                self.notes.side(met, self.job)
            }
            false => Err(Wrong::NotASide {
                sides: self.job.sides,
            }),
        };
        known.map_err(|wrong| self.error(field, wrong))
    }

    /// `both` or a side; both for an empty field where `empty` allows it.
    pub(super) fn sides(&mut self, field: &'static str, empty: bool) -> Result<Sides, CardError> {
        match self.text() {
            "" if empty => Ok(Sides::Both),
            "" => Err(self.error(field, Wrong::Missing)),
            text if text.eq_ignore_ascii_case("both") => Ok(Sides::Both),
            text => self.as_side(field, text).map(Sides::One),
        }
    }

    /// A name that must be there.
    pub(super) fn name(&mut self, field: &'static str) -> Result<Name, CardError> {
        let text = self.filled(field)?;
        self.as_name(field, text)
    }

    /// A name that may be empty.
    pub(super) fn maybe_name(&mut self, field: &'static str) -> Result<Name, CardError> {
        let text = self.text();
        self.as_name(field, text)
    }

    /// The text of a field as a name of up to `N` printable ASCII characters.
    /// Quotes, hyphens and spaces that a phone set nicely become plain ones.
    pub(super) fn as_name<const N: usize>(
        &self,
        field: &'static str,
        text: &str,
    ) -> Result<String<N, u8>, CardError> {
        let mut name = String::new();
        for found in text.chars() {
            let plain = match found {
                '\u{2018}' | '\u{2019}' | '\u{2032}' => '\'',
                '\u{201C}' | '\u{201D}' | '\u{2033}' => '"',
                '\u{2010}'..='\u{2015}' | '\u{2212}' => '-',
                '\u{D7}' => 'x',
                _ if found != '\n' && blank(found) => ' ',
                _ => found,
            };
            if !(' '..='~').contains(&plain) {
                return Err(self.error(field, Wrong::NameStrange { found }));
            }
            if name.push(plain).is_err() {
                return Err(self.error(field, Wrong::NameTooLong { limit: N as u8 }));
            }
        }
        Ok(name)
    }

    /// A row that stands once for each end.
    pub(super) fn once_an_end(&mut self, what: Twice, end: End) -> Outcome {
        let once = self.notes.once_an_end(what, end, self.line);
        once.map_err(|wrong| self.error("END", wrong))
    }

    /// A row that stands once for each side.
    pub(super) fn once_a_side(&mut self, what: Twice, side: Side) -> Outcome {
        let once = self.notes.once_a_side(what, side, self.line);
        once.map_err(|wrong| self.error("SIDE", wrong))
    }

    /// The error of the field just read, where a row of `earlier` says the same.
    pub(super) fn not_twice(&self, field: &'static str, earlier: Option<u16>) -> Outcome {
        match earlier {
            None => Ok(()),
            Some(first) => Err(self.error(
                field,
                Wrong::Second {
                    first: u32::from(first),
                },
            )),
        }
    }

    /// The error of the field just read, where it must hold something and does not.
    pub(super) fn required(&self, field: &'static str, there: bool) -> Outcome {
        match there {
            true => Ok(()),
            false => Err(self.error(field, Wrong::Missing)),
        }
    }

    /// The error of one row too many.
    pub(super) fn too_many(&self, limit: usize, what: &'static str) -> CardError {
        self.row_error(Wrong::TooMany {
            limit: limit as u16,
            what,
        })
    }
}

/// A letter that may be painted for a side. A and B are the ends, T and X look
/// like the top flange and like a framer's joist mark.
pub(super) fn is_side_letter(letter: u8) -> bool {
    letter.is_ascii_uppercase() && !matches!(letter, b'A' | b'B' | b'T' | b'X')
}
