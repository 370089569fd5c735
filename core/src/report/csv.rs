//! The holes as CSV (RFC 4180), for a spreadsheet.
//!
//! In: the placement. Out: a header and a record for each hole, struck-out
//! marks last. Lengths are plain numbers in inches or millimetres, as the
//! header says, to a millionth: exact in 1/64 in and in counts of a millimetre.

use super::cell::cell_of;
use super::{FromEndB, Report, words};
use crate::length::Length;
use crate::placement::PlacedHole;
use crate::words::{Row, Units};
use core::fmt::{self, Write};

impl Report<'_> {
    /// One record a hole; only the header where there is no placement.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn csv(&self, out: &mut dyn Write) -> fmt::Result {
        let unit = match self.job.units {
            Units::Imperial => "in",
            Units::Metric => "mm",
        };
        write!(
            out,
            "plan,mark,row,state,from_end_a_{unit},from_end_b_{unit},up_{unit},gap_{unit},to,insert,verdict\r\n"
        )?;
        let Some(placement) = self.plan.placement() else {
            return Ok(());
        };
        for hole in &placement.holes {
            self.record(hole, out)?;
        }
        for index in &placement.struck_out {
            if let Some((at, row)) = self.mark(*index) {
                self.struck_out_record(at, row, out)?;
            }
        }
        Ok(())
    }

    fn record(&self, hole: &PlacedHole, out: &mut dyn Write) -> fmt::Result {
        write!(out, "{},{},", self.code(), hole.station)?;
        write!(
            out,
            "{},{},",
            words::row(hole.row),
            words::state(hole.state)
        )?;
        self.both_ends(hole.at, out)?;
        if let Some(height) = self.row_height(hole.row) {
            self.number(height, out)?;
        }
        out.write_str(",")?;
        if let Some(gap) = hole.gap() {
            self.number(gap, out)?;
        }
        let nearest = cell_of(|out| match hole.nearest() {
            Some(thing) => self.thing(thing, out),
            None => Ok(()),
        });
        out.write_str(",")?;
        quoted(&nearest, out)?;
        let insert = cell_of(|out| self.insert_from(hole.insert_from, out));
        out.write_str(",")?;
        quoted(&insert, out)?;
        let verdict = hole.verdict().map_or("", words::verdict);
        write!(out, ",{verdict}\r\n")
    }

    fn struck_out_record(&self, at: Length, row: Row, out: &mut dyn Write) -> fmt::Result {
        write!(out, "{},,{},struck out,", self.code(), words::row(row))?;
        self.both_ends(at, out)?;
        out.write_str(",,,,\r\n")
    }

    fn both_ends(&self, at: Length, out: &mut dyn Write) -> fmt::Result {
        self.number(at, out)?;
        out.write_str(",")?;
        if let Some(from_b) = self.from_end_b() {
            self.number(FromEndB::reading(from_b, at).shown, out)?;
        }
        out.write_str(",")
    }

    /// A plain number, rounded to the nearest millionth of the unit.
    fn number(&self, length: Length, out: &mut dyn Write) -> fmt::Result {
        let counts_in_unit = match self.job.units {
            Units::Imperial => Length::from_inches(1),
            Units::Metric => Length::from_millimetres(1),
        };
        let unit = i64::from(counts_in_unit.counts());
        let doubled = i64::from(length.counts().unsigned_abs()) * 2_000_000 / unit;
        let millionths = (doubled + 1) / 2;
        let sign = if length < Length::ZERO { "-" } else { "" };
        write!(out, "{sign}{}", millionths / 1_000_000)?;
        fraction(millionths % 1_000_000, out)
    }
}

/// `.0625` without trailing noughts, nothing for a whole number.
fn fraction(mut millionths: i64, out: &mut dyn Write) -> fmt::Result {
    if millionths == 0 {
        return Ok(());
    }
    let mut width = 6;
    while millionths % 10 == 0 {
        millionths /= 10;
        width -= 1;
    }
    write!(out, ".{millionths:0width$}")
}

/// A field in quotes where it holds what CSV gives a meaning.
fn quoted(text: &str, out: &mut dyn Write) -> fmt::Result {
    if !text.contains([',', '"', '\r', '\n']) {
        return out.write_str(text);
    }
    out.write_str("\"")?;
    for letter in text.chars() {
        if letter == '"' {
            out.write_str("\"")?;
        }
        out.write_char(letter)?;
    }
    out.write_str("\"")
}
