//! The reader of a card: bytes in, in chunks of any size; a job out.
//!
//! In: the bytes of a file. Out: a [`Job`], or the first error. The CSV part
//! (RFC 4180) is `csv-core`'s; before it, this file makes every line end (LF,
//! CRLF, a lone CR) one LF, counts lines, skips a byte order mark and the blanks
//! before a field, and refuses what is no text.

use super::bytes::{self, Utf8};
use super::notes::Notes;
use super::row::{self, Row};
use super::{CardError, Kind, Wrong, rows, validate};
use crate::job::Job;
use csv_core::{ReadFieldResult, ReaderBuilder, Terminator};

/// Lines of a card; more is no card, and this bounds reading from any source.
pub(super) const LINES: u16 = u16::MAX;

/// Reads a card in chunks, as they come from a file or a memory card.
///
/// The job given to [`CardReader::feed`] must be the same each time. After an
/// error it holds part of the card and is good for nothing.
pub struct CardReader {
    csv: csv_core::Reader,
    utf8: Utf8,
    /// Bytes of a byte order mark seen; 3 once that is settled.
    mark: usize,
    /// The line being read, from 1.
    line: u32,
    after_return: bool,
    row: Row,
    /// The line on which the row starts.
    row_line: u16,
    /// The field being read holds something.
    begun: bool,
    notes: Notes,
    failed: Option<CardError>,
}

impl Default for CardReader {
    fn default() -> Self {
        CardReader::new()
    }
}

impl CardReader {
    /// A reader at the start of a card.
    pub fn new() -> CardReader {
        let mut csv = ReaderBuilder::new()
            .terminator(Terminator::Any(b'\n'))
            .comment(Some(b'#'))
            .build();
        // Reading nothing makes the CSV part think that the start is behind it:
        // it would skip a byte order mark only if it came in one chunk.
        let _ = csv.read_field(&[], &mut []);
        CardReader {
            csv,
            utf8: Utf8::default(),
            mark: 0,
            line: 1,
            after_return: false,
            row: Row::new(),
            row_line: 1,
            begun: false,
            notes: Notes::new(),
            failed: None,
        }
    }

    /// Reads the next bytes of the card into `job`. The first call clears it.
    ///
    /// # Errors
    /// The first error of the card; the same again if called again.
    pub fn feed(&mut self, bytes: &[u8], job: &mut Job) -> Result<(), CardError> {
        self.settled()?;
        self.start(job);
        let mut rest = bytes;
        while !rest.is_empty() {
            let (line, behind) = bytes::line_of(rest);
            rest = behind;
            self.take_line(line, job)
                .map_err(|error| self.fail(error))?;
        }
        Ok(())
    }

    /// Ends the card: the last row, and all that one row cannot show.
    ///
    /// # Errors
    /// The first error of the card; the same again if called again.
    pub fn finish(&mut self, job: &mut Job) -> Result<(), CardError> {
        self.settled()?;
        self.start(job);
        self.take_end(job).map_err(|error| self.fail(error))
    }

    /// The error of an earlier call.
    fn settled(&self) -> Result<(), CardError> {
        self.failed.clone().map_or(Ok(()), Err)
    }

    /// Keeps the error for later calls.
    fn fail(&mut self, error: CardError) -> CardError {
        self.failed = Some(error.clone());
        error
    }

    /// Clears the job before the first byte.
    fn start(&mut self, job: &mut Job) {
        if self.notes.cleared {
            return;
        }
        self.notes.cleared = true;
        job.clear();
    }

    /// An error of the line being read.
    fn error(&self, wrong: Wrong) -> CardError {
        let line = self.line.min(u32::from(LINES)) as u16;
        let units = self.notes.units.unwrap_or_default();
        CardError::of_row(line, None, units, wrong)
    }

    /// A line with its end, or the start of one.
    fn take_line(&mut self, line: &[u8], job: &mut Job) -> Result<(), CardError> {
        for &byte in line {
            self.utf8.take(byte).map_err(|wrong| self.error(wrong))?;
        }
        let line = self.without_mark(line, job)?;
        match line {
            [] => Ok(()),
            // The second half of a CRLF.
            [b'\n'] if self.after_return => {
                self.after_return = false;
                Ok(())
            }
            [text @ .., end @ (b'\n' | b'\r')] => {
                self.after_return = *end == b'\r';
                self.push(text, job)?;
                self.end_line(job)
            }
            text => {
                self.after_return = false;
                self.push(text, job)
            }
        }
    }

    /// Takes a byte order mark off the start of the card.
    fn without_mark<'b>(&mut self, line: &'b [u8], job: &mut Job) -> Result<&'b [u8], CardError> {
        let mut line = line;
        while let (Some(&due), [byte, behind @ ..]) = (bytes::MARK.get(self.mark), line) {
            if *byte != due {
                // No mark after all: what looked like one is text.
                let seen = core::mem::replace(&mut self.mark, bytes::MARK.len());
                self.push(bytes::MARK.get(..seen).unwrap_or_default(), job)?;
                break;
            }
            self.mark += 1;
            line = behind;
        }
        Ok(line)
    }

    /// A line end, whatever its bytes were.
    fn end_line(&mut self, job: &mut Job) -> Result<(), CardError> {
        self.push(b"\n", job)?;
        // Nothing of a row on this line: it was blank or a remark.
        if self.row.is_fresh() {
            self.begun = false;
        }
        if self.line >= u32::from(LINES) {
            return Err(self.error(Wrong::TooManyLines { limit: LINES }));
        }
        self.line += 1;
        Ok(())
    }

    /// Text within one line, or its end.
    fn push(&mut self, text: &[u8], job: &mut Job) -> Result<(), CardError> {
        let mut rest = text;
        while !rest.is_empty() {
            if !self.begun {
                if let [b' ' | b'\t', behind @ ..] = rest {
                    rest = behind;
                    continue;
                }
                if self.row.is_fresh() {
                    self.row_line = self.line as u16;
                }
            }
            self.begun = true;
            let (result, used, written) = self.csv.read_field(rest, self.row.room());
            rest = rest.get(used..).unwrap_or_default();
            self.row.grow(written);
            match result {
                ReadFieldResult::InputEmpty | ReadFieldResult::End => break,
                ReadFieldResult::OutputFull => self.too_long()?,
                ReadFieldResult::Field { record_end } => {
                    self.begun = false;
                    self.row.end_field();
                    if record_end {
                        self.end_row(job)?;
                    }
                }
            }
        }
        Ok(())
    }

    /// The row's buffer is full: only a remark may go on.
    fn too_long(&mut self) -> Result<(), CardError> {
        if self.row.is_remark() {
            self.row.drop_remark_text();
            return Ok(());
        }
        let wrong = if self.row.holds_line_end() {
            Wrong::QuoteOpen
        } else {
            Wrong::RowTooLong {
                limit: row::TEXT as u16,
            }
        };
        Err(self.row_error(wrong))
    }

    /// An error of the row being read.
    fn row_error(&self, wrong: Wrong) -> CardError {
        let units = self.notes.units.unwrap_or_default();
        CardError::of_row(self.row_line, None, units, wrong).at("KIND", self.row.field(0))
    }

    /// Hands a whole row on.
    fn end_row(&mut self, job: &mut Job) -> Result<(), CardError> {
        let result = if self.row.is_blank() || self.row.is_remark() {
            Ok(())
        } else {
            rows::read(&self.row, self.row_line, &mut self.notes, job)
        };
        self.row.clear();
        result
    }

    /// The end of the card.
    fn take_end(&mut self, job: &mut Job) -> Result<(), CardError> {
        if self.utf8.is_cut() {
            return Err(self.error(Wrong::NotUtf8));
        }
        self.push(b"\n", job)?;
        if !self.row.is_fresh() {
            return Err(self.row_error(Wrong::QuoteOpen));
        }
        let Some(head) = self.notes.first(Kind::Boltbay) else {
            let units = self.notes.units.unwrap_or_default();
            return Err(CardError::of_row(1, None, units, Wrong::NotACard));
        };
        let Some(units) = self.notes.units else {
            // The row that the units belong below.
            let kind = Some(Kind::Boltbay);
            return Err(CardError::of_row(head, kind, job.units, Wrong::NoUnits));
        };
        job.units = units;
        validate::card(&mut self.notes, job)
    }
}
