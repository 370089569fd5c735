//! A column of text under the strips.
//!
//! In: headings, lines, paragraphs. Out: the same, wrapped to the column; what
//! does not fit goes on in the next column, and where there is none the last
//! line says so: nothing runs off the page unseen.

use super::letters;
use super::page::{Page, bold, plain};

/// Sizes of the text, the first at which nothing is lost is taken.
pub const SIZES: [f64; 5] = [9.2, 8.6, 8.1, 7.6, 7.1];

/// A column being filled.
pub struct Column {
    /// Left edge in points.
    pub left: f64,
    /// Width in points.
    pub width: f64,
    /// Base line of the next line.
    pub y: f64,
    /// Nothing stands above or below these.
    room: [f64; 2],
    /// Left edges and widths of the columns in which it goes on.
    next: Vec<[f64; 2]>,
    /// Size of the text.
    pub size: f64,
    /// Something did not fit.
    pub lost: bool,
    /// A drawing was left out.
    pub squeezed: bool,
}

impl Column {
    /// An empty column.
    pub fn new([left, width]: [f64; 2], room: [f64; 2], size: f64) -> Self {
        Column {
            left,
            width,
            y: room[0] + size,
            room,
            next: Vec::new(),
            size,
            lost: false,
            squeezed: false,
        }
    }

    /// The same, going on in further columns, the first of them first.
    pub fn then(mut self, mut next: Vec<[f64; 2]>) -> Self {
        next.reverse();
        self.next = next;
        self
    }

    /// Points left in this column.
    pub fn left_over(&self) -> f64 {
        self.room[1] - self.y
    }

    /// From line to line.
    pub fn leading(&self) -> f64 {
        self.size * 1.21
    }

    /// A heading; neither it nor what it heads stands alone at the foot of a
    /// column.
    pub fn heading(&mut self, page: &mut Page, text: &str) {
        if self.y > self.room[0] + self.size {
            self.y += 4.0;
        }
        if self.has_room_for(page, 3) {
            let text = letters::cut(text, self.size + 1.0, true, self.width);
            page.text([self.left, self.y], bold(self.size + 1.0), &text);
            self.y += self.leading() + 1.5;
        }
    }

    /// One line, cut off where it is too long.
    pub fn line(&mut self, page: &mut Page, text: &str) {
        if self.has_room_for(page, 1) {
            let text = letters::cut(text, self.size, false, self.width);
            page.text([self.left, self.y], plain(self.size), &text);
            self.y += self.leading();
        }
    }

    /// As many lines as it takes, further ones indented.
    pub fn paragraph(&mut self, page: &mut Page, text: &str) {
        self.indented(page, text, 0.0);
    }

    /// A line of cells: the first starts at the left, the others end at their
    /// part of the width.
    pub fn cells(&mut self, page: &mut Page, first: &str, others: &[(f64, &str)], heavy: bool) {
        if !self.has_room_for(page, 1) {
            return;
        }
        let face = if heavy { bold } else { plain }(self.size);
        let start = others.first().map_or(self.width, |(part, text)| {
            part * self.width - letters::width(text, self.size, heavy) - 2.0
        });
        let inset = self.size * 0.6;
        let first = letters::cut(first, self.size, heavy, start - inset);
        page.text([self.left + inset, self.y], face, &first);
        for (part, text) in others {
            let at = [self.left + part * self.width, self.y];
            page.text(at, face.ending(), text);
        }
        self.y += self.leading();
    }

    /// One bold line.
    pub fn bold_line(&mut self, page: &mut Page, text: &str) {
        if self.has_room_for(page, 2) {
            let text = letters::cut(text, self.size, true, self.width);
            page.text([self.left, self.y], bold(self.size), &text);
            self.y += self.leading();
        }
    }

    /// A paragraph that belongs to the one above it.
    pub fn inset(&mut self, page: &mut Page, text: &str) {
        self.indented(page, text, 1.5 * self.size);
    }

    fn indented(&mut self, page: &mut Page, text: &str, inset: f64) {
        let indent = self.size;
        let lines = letters::lines(text, self.size, self.width - inset - indent);
        if !self.has_room_for(page, lines.len()) {
            return;
        }
        for (index, line) in lines.iter().enumerate() {
            let left = self.left + inset + if index == 0 { 0.0 } else { indent };
            page.text([left, self.y], plain(self.size), line);
            self.y += self.leading();
        }
    }

    /// Whether so many lines fit, here or at the top of the next column. In the
    /// last column a line is kept to say that there is more.
    fn has_room_for(&mut self, page: &mut Page, lines: usize) -> bool {
        if self.lost {
            return false;
        }
        let kept = if self.next.is_empty() { 1.0 } else { 0.0 };
        let height = self.leading() * (lines as f64 - 1.0 + kept);
        if self.y + height <= self.room[1] {
            return true;
        }
        match self.next.pop() {
            Some([left, width]) => {
                (self.left, self.width) = (left, width);
                self.y = self.room[0] + self.size;
                self.has_room_for(page, lines)
            }
            None => {
                self.lose(page);
                false
            }
        }
    }

    fn lose(&mut self, page: &mut Page) {
        if self.y <= self.room[1] {
            let text = letters::cut("more on the printed list", self.size, true, self.width);
            page.text([self.left, self.y], bold(self.size), &text);
        }
        self.lost = true;
    }
}
