//! Letters: three fonts, drawn eight pixels at a time.

mod table;

use super::picture::Picture;
use embedded_graphics::pixelcolor::Gray4;

/// The first letter of a font.
const FIRST: u8 = b' ';
/// Letters of a font, up to the tilde.
const LETTERS: usize = (b'~' - FIRST) as usize + 1;

/// Letters of one size.
pub struct Font {
    /// Columns of a letter.
    pub wide: i32,
    /// The lowest row of a capital.
    pub base: i32,
    /// Rows of a letter.
    high: usize,
    /// Those of all letters.
    rows: &'static [u8],
}

/// White on black, 9 px capitals.
pub static BOLD: Font = Font {
    wide: 7,
    base: 10,
    high: 13,
    rows: table::BOLD.as_flattened(),
};
/// The same in regular weight.
pub static REGULAR: Font = Font {
    wide: 7,
    base: 10,
    high: 13,
    rows: table::REGULAR.as_flattened(),
};
/// 7 px capitals.
pub static SMALL: Font = Font {
    wide: 6,
    base: 7,
    high: 10,
    rows: table::SMALL.as_flattened(),
};

impl Font {
    /// The rows of a letter; of one that the font has not, those of `?`.
    fn letter(&self, letter: char) -> &'static [u8] {
        let rows = |letter: char| {
            let at = usize::try_from(u32::from(letter)).ok()?;
            let start = at.checked_sub(usize::from(FIRST))? * self.high;
            self.rows.get(start..start + self.high)
        };
        rows(letter).or_else(|| rows('?')).unwrap_or_default()
    }

    /// Columns of a text.
    pub fn width(&self, text: &str) -> i32 {
        let letters = i32::try_from(text.chars().count()).unwrap_or(i32::MAX);
        letters.saturating_mul(self.wide)
    }

    /// Rows that its letters take, those below the line too.
    pub fn height(&self, text: &str) -> i32 {
        let lowest = |letter| {
            let ink = self.letter(letter).iter().rposition(|row| *row != 0);
            ink.and_then(|lowest| i32::try_from(lowest + 1).ok())
        };
        text.chars().filter_map(lowest).max().unwrap_or(0)
    }

    /// Draws a text; nothing behind it changes.
    pub fn draw(&self, text: &str, (mut x, y): (i32, i32), grey: Gray4, picture: &mut Picture) {
        for letter in text.chars() {
            picture.stamp((x, y), self.letter(letter), grey);
            x += self.wide;
        }
    }
}
