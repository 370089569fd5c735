//! A row being read: its fields one after the other as typed values.
//!
//! In: the text of a row. Out: lengths, positions, words, names, numbers within
//! their limits, or the error of the field. The limits stand in
//! `limits.rs` of the core.

use super::hook::split_hook;
use super::notes::{Letter, Notes, Twice};
use super::row::Row;
use super::word::{self, Word};
use super::{CardError, Kind, Wrong};
use crate::decimal::Decimal;
use crate::job::{Job, Position};
use crate::length::{Length, LengthError, blank};
use crate::limits::{Amounts, Span, TAPE};
use crate::words::{End, Name, Side, Sides};
use heapless::String;

/// A row, the notes and the job that it goes into.
///
/// Every field gives a value. Where it is refused, the first refusal is kept and
/// some value stands in: whoever reads a row reads straight through, and asks
/// once at its end. The job is good for nothing then.
pub(super) struct Entry<'a> {
    row: &'a Row,
    next: usize,
    pub(super) kind: Kind,
    pub(super) line: u16,
    pub(super) notes: &'a mut Notes,
    pub(super) job: &'a mut Job,
    refused: Option<CardError>,
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
            refused: None,
        }
    }

    /// The next field as text.
    pub(super) fn text(&mut self) -> &'a str {
        let text = self.row.field(self.next);
        self.next += 1;
        text
    }

    /// The next field as text; `None` where it is empty.
    fn maybe_text(&mut self) -> Option<&'a str> {
        Some(self.text()).filter(|text| !text.is_empty())
    }

    /// Refuses the field just read.
    pub(super) fn refuse(&mut self, field: &'static str, wrong: Wrong) {
        let text = self.row.field(self.next.saturating_sub(1));
        self.refuse_at(field, text, wrong);
    }

    /// Refuses the row as a whole.
    pub(super) fn refuse_row(&mut self, wrong: Wrong) {
        self.refuse_at("KIND", "", wrong);
    }

    /// Refuses a field that says this.
    #[inline(never)]
    pub(super) fn refuse_at(&mut self, field: &'static str, found: &str, wrong: Wrong) {
        if self.refused.is_none() {
            let units = self.notes.units.unwrap_or_default();
            let error = CardError::of_row(self.line, Some(self.kind), units, wrong);
            self.refused = Some(error.at(field, found));
        }
    }

    /// Nothing was refused; nothing may stand behind the last field.
    ///
    /// # Errors
    /// The first refusal.
    pub(super) fn done(mut self) -> Result<(), CardError> {
        for _ in self.next..=super::row::FIELDS {
            if !self.text().is_empty() {
                self.refuse("END OF ROW", Wrong::Extra);
            }
        }
        if self.row.is_crowded() {
            self.refuse("END OF ROW", Wrong::Extra);
        }
        self.refused.map_or(Ok(()), Err)
    }

    /// A field that must hold something.
    pub(super) fn filled(&mut self, field: &'static str) -> &'a str {
        let text = self.text();
        self.required(field, !text.is_empty());
        text
    }

    /// A word of a vocabulary; `None` for an empty field.
    pub(super) fn maybe_word<W: Word>(&mut self, field: &'static str) -> Option<W> {
        let text = self.maybe_text()?;
        let place = self.place_of(field, text, W::WORDS);
        W::ALL.get(place).copied()
    }

    /// A word of a vocabulary.
    pub(super) fn word<W: Word>(&mut self, field: &'static str) -> W {
        let text = self.filled(field);
        let place = self.place_of(field, text, W::WORDS);
        W::ALL.get(place).copied().unwrap_or(W::FIRST)
    }

    /// Where the text of a field stands among these words.
    fn place_of(
        &mut self,
        field: &'static str,
        text: &str,
        words: &'static [&'static str],
    ) -> usize {
        word::place(text, words).unwrap_or_else(|| {
            self.refuse(field, Wrong::NotOneOf(words));
            0
        })
    }

    /// A length; `None` for an empty field.
    pub(super) fn maybe_length(&mut self, field: &'static str, span: Span) -> Option<Length> {
        let text = self.maybe_text()?;
        Some(self.as_length(field, text, span))
    }

    /// A length.
    pub(super) fn length(&mut self, field: &'static str, span: Span) -> Length {
        let text = self.filled(field);
        self.as_length(field, text, span)
    }

    /// The text of a field as a length.
    fn as_length(&mut self, field: &'static str, text: &str, span: Span) -> Length {
        self.measure(text, span).unwrap_or_else(|wrong| {
            self.refuse(field, wrong);
            Length::ZERO
        })
    }

    /// A text as a length within its limits.
    fn measure(&self, text: &str, span: Span) -> Result<Length, Wrong> {
        let units = self.notes.units.ok_or(Wrong::UnitsFirst)?;
        let length = Length::read(text, units).map_err(Wrong::Length)?;
        judged(length, span)
    }

    /// A reading, and whether it was accepted as guessed (`g` behind it).
    pub(super) fn reading(&mut self, field: &'static str) -> (Length, bool) {
        let text = self.filled(field);
        let plain = text.strip_suffix(['g', 'G']);
        let reading = plain.unwrap_or(text).trim_end_matches(blank);
        let length = self.as_length(field, reading, Span::from_zero(TAPE));
        (length, plain.is_some())
    }

    /// A position; `None` for an empty field.
    pub(super) fn maybe_position(&mut self, field: &'static str) -> Option<Position> {
        let text = self.maybe_text()?;
        Some(self.as_position(field, text))
    }

    /// A position.
    pub(super) fn position(&mut self, field: &'static str) -> Position {
        let text = self.filled(field);
        self.as_position(field, text)
    }

    /// The text of a field as a position: a length and its hook. A hook alone
    /// is the hook itself.
    pub(super) fn as_position(&mut self, field: &'static str, text: &str) -> Position {
        let (reading, hook) = split_hook(text);
        let measured = match reading {
            "" => Ok(Length::ZERO),
            _ => self.measure(reading, Span::from_zero(TAPE)),
        };
        let reading = measured.unwrap_or_else(|wrong| {
            let strange = matches!(wrong, Wrong::Length(LengthError::Strange { .. }));
            self.refuse(field, if strange { Wrong::Position } else { wrong });
            Length::ZERO
        });
        Position { reading, hook }
    }

    /// A decimal; `None` for an empty field.
    pub(super) fn maybe_decimal(
        &mut self,
        field: &'static str,
        limits: Amounts,
    ) -> Option<Decimal> {
        let text = self.maybe_text()?;
        Some(self.as_decimal(field, text, limits))
    }

    /// A decimal.
    pub(super) fn decimal(&mut self, field: &'static str, limits: Amounts) -> Decimal {
        let text = self.filled(field);
        self.as_decimal(field, text, limits)
    }

    /// The text of a field as a decimal.
    pub(super) fn as_decimal(
        &mut self,
        field: &'static str,
        text: &str,
        limits: Amounts,
    ) -> Decimal {
        as_amount(text, limits).unwrap_or_else(|wrong| {
            self.refuse(field, wrong);
            Decimal::default()
        })
    }

    /// A whole number; `None` for an empty field.
    pub(super) fn maybe_count(
        &mut self,
        field: &'static str,
        least: u16,
        most: u16,
    ) -> Option<u16> {
        let count = self.maybe_text()?.parse().ok();
        let count = count.filter(|count| (least..=most).contains(count));
        if count.is_none() {
            self.refuse(field, Wrong::Count { least, most });
        }
        count
    }

    /// A whole number.
    pub(super) fn count(&mut self, field: &'static str, least: u16, most: u16) -> u16 {
        let count = self.maybe_count(field, least, most);
        self.required(field, count.is_some());
        count.unwrap_or(least)
    }

    /// A side by its letter.
    pub(super) fn side(&mut self, field: &'static str) -> Side {
        let text = self.filled(field);
        self.as_side(field, text)
    }

    /// The text of a field as a side.
    pub(super) fn as_side(&mut self, field: &'static str, text: &str) -> Side {
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
        known.unwrap_or_else(|wrong| {
            self.refuse(field, wrong);
            Side::N
        })
    }

    /// `both` or a side; both for an empty field where `empty` allows it.
    pub(super) fn sides(&mut self, field: &'static str, empty: bool) -> Sides {
        let text = self.text();
        self.required(field, empty || !text.is_empty());
        match text {
            "" => Sides::Both,
            text if text.eq_ignore_ascii_case("both") => Sides::Both,
            text => Sides::One(self.as_side(field, text)),
        }
    }

    /// A name that must be there.
    pub(super) fn name(&mut self, field: &'static str) -> Name {
        let text = self.filled(field);
        self.as_name(field, text)
    }

    /// A name that may be empty.
    pub(super) fn maybe_name(&mut self, field: &'static str) -> Name {
        let text = self.text();
        self.as_name(field, text)
    }

    /// The text of a field as a name of up to `N` printable ASCII characters.
    /// Quotes, hyphens and spaces that a phone set nicely become plain ones.
    pub(super) fn as_name<const N: usize>(
        &mut self,
        field: &'static str,
        text: &str,
    ) -> String<N, u8> {
        let mut name = String::new();
        for found in text.chars() {
            let plain = plain(found);
            if !(' '..='~').contains(&plain) {
                self.refuse(field, Wrong::NameStrange { found });
            }
            if name.push(plain).is_err() {
                self.refuse(field, Wrong::NameTooLong { limit: N as u8 });
            }
        }
        name
    }

    /// A row that stands once for each end.
    pub(super) fn once_an_end(&mut self, what: Twice, end: End) {
        if let Err(wrong) = self.notes.once_an_end(what, end, self.line) {
            self.refuse("END", wrong);
        }
    }

    /// A row that stands once for each side.
    pub(super) fn once_a_side(&mut self, what: Twice, side: Side) {
        if let Err(wrong) = self.notes.once_a_side(what, side, self.line) {
            self.refuse("SIDE", wrong);
        }
    }

    /// Refuses the field just read, where a row of `earlier` says the same.
    pub(super) fn not_twice(&mut self, field: &'static str, earlier: Option<u16>) {
        if let Some(first) = earlier.map(u32::from) {
            self.refuse(field, Wrong::Second { first });
        }
    }

    /// Refuses the field just read, where it must hold something and does not.
    pub(super) fn required(&mut self, field: &'static str, there: bool) {
        if !there {
            self.refuse(field, Wrong::Missing);
        }
    }

    /// Refuses one row too many.
    pub(super) fn fits<T>(&mut self, pushed: Result<(), T>, limit: usize, what: &'static str) {
        if pushed.is_err() {
            let limit = limit as u16;
            self.refuse_row(Wrong::TooMany { limit, what });
        }
    }
}

/// A character as a plain one means it.
fn plain(found: char) -> char {
    match found {
        '\u{2018}' | '\u{2019}' | '\u{2032}' => '\'',
        '\u{201C}' | '\u{201D}' | '\u{2033}' => '"',
        '\u{2010}'..='\u{2015}' | '\u{2212}' => '-',
        '\u{D7}' => 'x',
        _ if found != '\n' && blank(found) => ' ',
        _ => found,
    }
}

/// A letter that may be painted for a side. A and B are the ends, T and X look
/// like the top flange and like a framer's joist mark.
pub(super) fn is_side_letter(letter: u8) -> bool {
    letter.is_ascii_uppercase() && !matches!(letter, b'A' | b'B' | b'T' | b'X')
}

/// A length within its limits, or what is wrong with it.
fn judged(length: Length, span: Span) -> Result<Length, Wrong> {
    let Span { least, most } = span;
    match length {
        length if span.holds(length) => Ok(length),
        length if length > most => Err(Wrong::LengthAbove { most }),
        length if length < Length::ZERO && least >= Length::ZERO => Err(Wrong::Negative),
        Length::ZERO => Err(Wrong::Zero),
        _ => Err(Wrong::LengthBelow { least }),
    }
}

/// A text as a decimal within its limits, or what is wrong with it.
fn as_amount(text: &str, limits: Amounts) -> Result<Decimal, Wrong> {
    let decimal = Decimal::read(text).map_err(Wrong::Decimal)?;
    let most = limits.most;
    match decimal.millionths() {
        _ if limits.holds(decimal) => Ok(decimal),
        0 => Err(Wrong::Zero),
        millionths if millionths < 0 => Err(Wrong::Negative),
        _ => Err(Wrong::NumberAbove { most }),
    }
}
