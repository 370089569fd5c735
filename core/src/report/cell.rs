//! Cells and wrapped lines: text in columns without an allocator.
//!
//! In: format arguments. Out: a short string that can be padded, or lines that
//! break at blanks.

use core::fmt::{self, Write};
use heapless::String;

/// One cell of a table, cut off at its capacity.
pub type Cell = String<48, u8>;

/// The longest line.
const WIDTH: usize = 96;

/// The text of a cell; what does not fit is cut off.
pub fn cell(arguments: fmt::Arguments<'_>) -> Cell {
    let mut cut = Cut(Cell::new());
    // A cut cell is what is wanted: the error only says that it was cut.
    let _ = cut.write_fmt(arguments);
    cut.0
}

/// The same from a function that writes.
pub fn cell_of(write: impl FnOnce(&mut dyn Write) -> fmt::Result) -> Cell {
    let mut cut = Cut(Cell::new());
    let _ = write(&mut cut);
    cut.0
}

/// Takes as many characters as fit.
struct Cut(Cell);

impl Write for Cut {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        for letter in text.chars() {
            if self.0.push(letter).is_err() {
                return Err(fmt::Error);
            }
        }
        Ok(())
    }
}

/// Writes `lead`, then the text wrapped at blanks, further lines indented.
pub fn wrapped(
    lead: &str,
    indent: usize,
    arguments: fmt::Arguments<'_>,
    out: &mut dyn Write,
) -> fmt::Result {
    out.write_str(lead)?;
    let mut wrap = Wrap {
        out,
        word: String::new(),
        column: lead.len(),
        indent,
        fresh: true,
        blank: false,
    };
    wrap.write_fmt(arguments)?;
    wrap.flush()?;
    out.write_str("\n")
}

/// Breaks lines at blanks, but not inside `14' 3 5/16"`.
struct Wrap<'a> {
    out: &'a mut dyn Write,
    word: String<64, u8>,
    column: usize,
    indent: usize,
    fresh: bool,
    blank: bool,
}

impl Wrap<'_> {
    fn flush(&mut self) -> fmt::Result {
        if self.word.is_empty() {
            return Ok(());
        }
        let length = self.word.chars().count();
        if self.column + 1 + length > WIDTH {
            write!(self.out, "\n{:width$}", "", width = self.indent)?;
            self.column = self.indent;
        } else if !self.fresh {
            self.out.write_str(" ")?;
            self.column += 1;
        }
        self.out.write_str(&self.word)?;
        self.column += length;
        self.fresh = false;
        self.word.clear();
        Ok(())
    }
}

impl Wrap<'_> {
    /// Whether a blank was met that may stand inside a length.
    fn inside_length(&self, next: char) -> bool {
        let last = self.word.chars().last();
        self.blank && next.is_ascii_digit() && last.is_some_and(|l| l.is_ascii_digit() || l == '\'')
    }

    fn push(&mut self, letter: char) -> fmt::Result {
        if self.word.push(letter).is_err() {
            self.flush()?;
            // An empty word has room.
            let _ = self.word.push(letter);
        }
        Ok(())
    }
}

impl Write for Wrap<'_> {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        for letter in text.chars() {
            if letter == ' ' {
                self.blank = true;
                continue;
            }
            if self.inside_length(letter) {
                self.push(' ')?;
            } else if self.blank {
                self.flush()?;
            }
            self.blank = false;
            self.push(letter)?;
        }
        Ok(())
    }
}
