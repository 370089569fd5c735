//! One row of a card: its fields as text, in a buffer of fixed size.
//!
//! In: bytes from the CSV reader. Out: fields without the blanks around them.
//! Fields beyond the last that any row has must be empty: spreadsheets pad
//! every row to the width of the widest.

use crate::length::blank;

/// Bytes of all fields of a row together.
pub(super) const TEXT: usize = 384;
/// Kind and fields of the longest row, `shape`.
pub(super) const FIELDS: usize = 12;

/// The fields of one row.
pub(super) struct Row {
    text: [u8; TEXT],
    length: usize,
    ends: [u16; FIELDS],
    fields: usize,
    crowded: bool,
}

impl Row {
    /// An empty row.
    pub(super) const fn new() -> Row {
        Row {
            text: [0; TEXT],
            length: 0,
            ends: [0; FIELDS],
            fields: 0,
            crowded: false,
        }
    }

    /// Forgets everything.
    pub(super) fn clear(&mut self) {
        self.length = 0;
        self.fields = 0;
        self.crowded = false;
    }

    /// Whether nothing of a row has been seen.
    pub(super) fn is_fresh(&self) -> bool {
        self.length == 0 && self.fields == 0 && !self.crowded
    }

    /// Room for more text.
    pub(super) fn room(&mut self) -> &mut [u8] {
        self.text.get_mut(self.length..).unwrap_or_default()
    }

    /// Takes over what was written into [`Row::room`].
    pub(super) fn grow(&mut self, written: usize) {
        self.length = (self.length + written).min(TEXT);
    }

    /// Ends the field that was being written.
    pub(super) fn end_field(&mut self) {
        let start = self.start_of(self.fields);
        match self.ends.get_mut(self.fields) {
            Some(end) => {
                // TEXT fits a u16.
                *end = self.length as u16;
                self.fields += 1;
            }
            None => {
                let empty = trimmed(self.text.get(start..self.length)).is_some_and(str::is_empty);
                self.crowded |= !empty;
                self.length = start;
            }
        }
    }

    /// Whether more fields are filled than any row has.
    pub(super) fn is_crowded(&self) -> bool {
        self.crowded
    }

    /// Where a field starts.
    fn start_of(&self, place: usize) -> usize {
        match place.checked_sub(1).and_then(|last| self.ends.get(last)) {
            Some(end) => usize::from(*end),
            None => 0,
        }
    }

    /// A field without the blanks around it; empty where there is none.
    pub(super) fn field(&self, place: usize) -> &str {
        if place >= self.fields {
            return "";
        }
        let end = self.ends.get(place).map_or(0, |end| usize::from(*end));
        trimmed(self.text.get(self.start_of(place)..end)).unwrap_or("")
    }

    /// Whether all fields are empty.
    pub(super) fn is_blank(&self) -> bool {
        !self.crowded && (0..self.fields).all(|place| self.field(place).is_empty())
    }

    /// Whether the row is a remark, also one that a spreadsheet put in quotes.
    pub(super) fn is_remark(&self) -> bool {
        let first = match self.fields {
            0 => trimmed(self.text.get(..self.length)).unwrap_or(""),
            _ => self.field(0),
        };
        first.starts_with('#')
    }

    /// Whether the text holds a line end, which only an open quote lets in.
    pub(super) fn holds_line_end(&self) -> bool {
        self.text
            .get(..self.length)
            .is_some_and(|text| text.contains(&b'\n'))
    }

    /// Makes room in a remark, whose text nobody reads.
    pub(super) fn drop_remark_text(&mut self) {
        self.fields = 0;
        self.length = 1;
        if let Some(first) = self.text.first_mut() {
            *first = b'#';
        }
    }
}

/// Text without blanks around it; `None` for bytes that are not UTF-8, which
/// the byte stage lets nobody see. A character cut off by a full buffer is
/// left away.
fn trimmed(bytes: Option<&[u8]>) -> Option<&str> {
    let bytes = bytes?;
    let text = match core::str::from_utf8(bytes) {
        Ok(text) => text,
        Err(error) => core::str::from_utf8(bytes.get(..error.valid_up_to())?).ok()?,
    };
    Some(text.trim_matches(blank))
}
