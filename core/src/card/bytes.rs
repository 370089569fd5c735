//! The bytes of a card: text or not, and where its lines end.
//!
//! In: bytes in chunks of any size. Out: the same judgement however they were
//! split. A NUL or a byte that is not UTF-8 means that the file is no text.

use super::Wrong;

/// The byte order mark that some programs put before UTF-8.
pub(super) const MARK: [u8; 3] = [0xEF, 0xBB, 0xBF];

/// Follows UTF-8 through chunks.
/// Source: RFC 3629, section 4 (syntax of UTF-8 byte sequences).
#[derive(Clone, Copy, Default)]
pub(super) struct Utf8 {
    /// Continuation bytes still due.
    due: u8,
    /// Least and most of the next one.
    next: (u8, u8),
}

impl Utf8 {
    /// Judges the next byte.
    pub(super) fn take(&mut self, byte: u8) -> Result<(), Wrong> {
        if self.due > 0 {
            let (least, most) = self.next;
            if byte < least || byte > most {
                return Err(Wrong::NotUtf8);
            }
            self.due -= 1;
            self.next = (0x80, 0xBF);
            return Ok(());
        }
        (self.due, self.next) = match byte {
            0 => return Err(Wrong::Nul),
            0x01..=0x7F => (0, (0x80, 0xBF)),
            0xC2..=0xDF => (1, (0x80, 0xBF)),
            0xE0 => (2, (0xA0, 0xBF)),
            0xED => (2, (0x80, 0x9F)),
            0xE1..=0xEF => (2, (0x80, 0xBF)),
            0xF0 => (3, (0x90, 0xBF)),
            0xF1..=0xF3 => (3, (0x80, 0xBF)),
            0xF4 => (3, (0x80, 0x8F)),
            _ => return Err(Wrong::NotUtf8),
        };
        Ok(())
    }

    /// Whether a character is cut off here.
    pub(super) fn is_cut(self) -> bool {
        self.due > 0
    }
}

/// Splits off the bytes up to and with the next line end.
pub(super) fn line_of(bytes: &[u8]) -> (&[u8], &[u8]) {
    let end = bytes.iter().position(|byte| matches!(byte, b'\n' | b'\r'));
    match end {
        Some(end) => bytes.split_at_checked(end + 1).unwrap_or((bytes, &[])),
        None => (bytes, &[]),
    }
}
