//! A column of text under the strips.
//!
//! In: headings, lines, paragraphs. Out: the same, wrapped to the column; what
//! does not fit is counted, and the last line says so: nothing runs off the page
//! unseen.

use super::letters;
use super::page::{Page, bold, plain};

/// Sizes of the text, the first at which nothing is lost is taken.
pub const SIZES: [f64; 4] = [9.2, 8.6, 8.1, 7.6];

/// A column being filled.
pub struct Column {
    /// Left edge in points.
    pub left: f64,
    /// Width in points.
    pub width: f64,
    /// Base line of the next line.
    pub y: f64,
    /// Nothing stands below this.
    pub bottom: f64,
    /// Size of the text.
    pub size: f64,
    /// Something did not fit.
    pub lost: bool,
    /// A drawing was left out.
    pub squeezed: bool,
}

impl Column {
    /// An empty column.
    pub fn new([left, width]: [f64; 2], [top, bottom]: [f64; 2], size: f64) -> Self {
        Column {
            left,
            width,
            y: top + size,
            bottom,
            size,
            lost: false,
            squeezed: false,
        }
    }

    /// From line to line.
    pub fn leading(&self) -> f64 {
        self.size * 1.21
    }

    /// A heading.
    pub fn heading(&mut self, page: &mut Page, text: &str) {
        if self.room(page) {
            page.text([self.left, self.y], bold(self.size + 1.0), text);
            self.y += self.leading() + 1.5;
        }
    }

    /// One line, cut off where it is too long.
    pub fn line(&mut self, page: &mut Page, text: &str) {
        if self.room(page) {
            let text = letters::cut(text, self.size, false, self.width);
            page.text([self.left, self.y], plain(self.size), &text);
            self.y += self.leading();
        }
    }

    /// As many lines as it takes, further ones indented.
    pub fn paragraph(&mut self, page: &mut Page, text: &str) {
        let indent = self.size;
        let lines = letters::lines(text, self.size, self.width - indent);
        let needed = self.leading() * lines.len().saturating_sub(1) as f64;
        if self.y + needed > self.bottom - self.leading() && lines.len() > 1 {
            self.lose(page);
            return;
        }
        for (index, line) in lines.iter().enumerate() {
            if self.room(page) {
                let left = self.left + if index == 0 { 0.0 } else { indent };
                page.text([left, self.y], plain(self.size), line);
                self.y += self.leading();
            }
        }
    }

    /// A paragraph that belongs to the one above it.
    pub fn inset(&mut self, page: &mut Page, text: &str) {
        let inset = 1.5 * self.size;
        self.left += inset;
        self.width -= inset;
        self.paragraph(page, text);
        self.left -= inset;
        self.width += inset;
    }

    /// Leaves some points free.
    pub fn skip(&mut self, points: f64) {
        self.y += points;
    }

    /// Whether there is room for a line; the last line is kept to say that
    /// there is more.
    fn room(&mut self, page: &mut Page) -> bool {
        if self.lost {
            return false;
        }
        if self.y > self.bottom - self.leading() {
            self.lose(page);
            return false;
        }
        true
    }

    fn lose(&mut self, page: &mut Page) {
        if !self.lost && self.y <= self.bottom {
            let text = letters::cut("more on the printed list", self.size, true, self.width);
            page.text([self.left, self.y], bold(self.size), &text);
        }
        self.lost = true;
    }
}
