//! The canvas: where texts and shapes go, and whether they fit there.
//!
//! Whoever asks for faults has every text and figure leave its box behind. A box that
//! reaches out of the screen, or over another, is a fault; so is any pixel outside.

use super::letters::{BOLD, Font, REGULAR, SMALL};
use super::picture::Picture;
use super::{HEIGHT, WIDTH};
use embedded_graphics::geometry::{Point, Size};
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::prelude::GrayColor;
use embedded_graphics::primitives::Rectangle;
use heapless::Vec;

/// Full light.
pub const WHITE: Gray4 = Gray4::WHITE;
/// What the handheld suggests, and what is only ground.
pub const GREY: Gray4 = Gray4::new(7);
/// Words that may be left unread.
pub const HINT: Gray4 = Gray4::new(10);
/// Fainter ground: hangers, free stretches.
pub const FAINT: Gray4 = Gray4::new(4);

/// How a text is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// White, bold, 9 px capitals.
    Bold,
    /// Black in regular weight on a white ground that is already there: bold
    /// letters clog when reversed.
    Reversed,
    /// White, 7 px capitals: pages read close by.
    Small,
    /// The same, black on white.
    SmallReversed,
    /// Small and grey: what the keys do.
    Hint,
}

impl Weight {
    const fn font(self) -> &'static Font {
        match self {
            Weight::Bold => &BOLD,
            Weight::Reversed => &REGULAR,
            Weight::Small | Weight::SmallReversed | Weight::Hint => &SMALL,
        }
    }

    const fn colour(self) -> Gray4 {
        match self {
            Weight::Bold | Weight::Small => WHITE,
            Weight::Hint => HINT,
            Weight::Reversed | Weight::SmallReversed => Gray4::BLACK,
        }
    }
}

/// Width of a text in 9 px capitals.
pub fn text_width(text: &str) -> i32 {
    BOLD.width(text)
}

/// Something that does not fit its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// This box reaches out of the screen.
    Outside(Rectangle),
    /// These two boxes overlap.
    Overlap(Rectangle, Rectangle),
    /// More things than can be kept apart.
    TooMany,
}

/// All that was found, up to eight.
pub type Faults = Vec<Fault, 8, u8>;

/// Who is told of what is drawn where.
pub trait Claims {
    /// A box that nothing else may touch.
    fn claim(&mut self, area: impl FnOnce() -> Rectangle);

    /// Something drawn on ground that others may share.
    fn touch(&mut self, area: impl FnOnce() -> Rectangle);
}

/// Nobody: the picture is all that is wanted.
pub struct Unclaimed;

impl Claims for Unclaimed {
    fn claim(&mut self, _: impl FnOnce() -> Rectangle) {}

    fn touch(&mut self, _: impl FnOnce() -> Rectangle) {}
}

/// Boxes so far, and what was wrong with them.
#[derive(Default)]
pub struct Boxes {
    boxes: Vec<Rectangle, 32, u8>,
    /// What did not fit.
    pub faults: Faults,
}

impl Claims for Boxes {
    fn claim(&mut self, area: impl FnOnce() -> Rectangle) {
        let new = area();
        self.touch(|| new);
        let over = |old: &&Rectangle| !old.intersection(&new).is_zero_sized();
        if let Some(old) = self.boxes.iter().find(over) {
            let _ = self.faults.push(Fault::Overlap(*old, new));
        }
        if self.boxes.push(new).is_err() {
            let _ = self.faults.push(Fault::TooMany);
        }
    }

    fn touch(&mut self, area: impl FnOnce() -> Rectangle) {
        let area = area();
        let screen = Rectangle::new(Point::zero(), Size::new(WIDTH, HEIGHT));
        if area.intersection(&screen) != area {
            let _ = self.faults.push(Fault::Outside(area));
        }
    }
}

fn area((x, y): (i32, i32), (wide, high): (i32, i32)) -> Rectangle {
    let size = Size::new(wide.max(0).unsigned_abs(), high.max(0).unsigned_abs());
    Rectangle::new(Point::new(x, y), size)
}

/// A picture, and who is told of what is drawn on it.
pub struct Canvas<'p, C> {
    picture: &'p mut Picture,
    claims: &'p mut C,
}

impl<'p, C: Claims> Canvas<'p, C> {
    /// On this picture.
    pub fn on(picture: &'p mut Picture, claims: &'p mut C) -> Self {
        Canvas { picture, claims }
    }

    /// All black.
    pub fn clear(&mut self) {
        self.picture.clear();
    }

    /// Notes a box that nothing else may touch.
    pub fn claim(&mut self, at: (i32, i32), size: (i32, i32)) {
        self.claims.claim(|| area(at, size));
    }

    /// A filled rectangle: ground that things stand on, so it claims no box.
    pub fn fill(&mut self, at: (i32, i32), size: (i32, i32), colour: Gray4) {
        self.claims.touch(|| area(at, size));
        self.picture.fill(at, size, colour);
    }

    /// The same columns of the screen in so many rows; claims no box.
    pub fn stripes(&mut self, rows: (i32, usize), columns: &[u8; 16], colour: Gray4) {
        self.picture.stripes(rows, columns, colour);
    }

    /// A text from its upper left corner; gives the column behind it.
    pub fn text(&mut self, text: &str, at: (i32, i32), weight: Weight) -> i32 {
        let font = weight.font();
        let (x, y) = at;
        if text.is_empty() {
            return x;
        }
        let wide = font.width(text);
        // Capitals and digits alone need no room below the line.
        self.claims.claim(|| area(at, (wide, font.base + 1)));
        self.claims.touch(|| area(at, (wide, font.height(text))));
        font.draw(text, (x, y), weight.colour(), self.picture);
        x + wide
    }

    /// A text on ground of its own, which claims no box.
    pub fn plain(&mut self, text: &str, at: (i32, i32)) {
        self.claims
            .touch(|| area(at, (BOLD.width(text), BOLD.height(text))));
        BOLD.draw(text, at, WHITE, self.picture);
    }

    /// A text that ends before `at`; gives its first column.
    pub fn text_right(&mut self, text: &str, (x, y): (i32, i32), weight: Weight) -> i32 {
        let left = x - weight.font().width(text);
        self.text(text, (left, y), weight);
        left
    }

    /// A ringed cross: where a centre punch goes. An X between two lines would
    /// mean a joist to a framer.
    pub fn punch(&mut self, centre: (i32, i32), radius: i32) {
        self.ring(centre, radius, WHITE);
        let (x, y) = centre;
        let arm = (radius - 2).max(1);
        let long = 2 * arm + 1;
        // At the edge of a map the cross is left out: the ring shows in part.
        if x - arm < 0 || x + arm >= WIDTH as i32 {
            return;
        }
        self.fill((x - arm, y), (long, 1), WHITE);
        self.fill((x, y - arm), (1, long), WHITE);
    }

    /// A ring, one pixel thick.
    pub fn ring(&mut self, centre: (i32, i32), radius: i32, colour: Gray4) {
        let inner = 4 * radius * radius - 4 * radius + 1;
        self.round(centre, radius, inner, colour);
    }

    /// A filled disc.
    pub fn disc(&mut self, centre: (i32, i32), radius: i32, colour: Gray4) {
        self.round(centre, radius, -1, colour);
    }

    /// All pixels about a centre whose squared distance, in half pixels, is beyond the
    /// inner one; 16 columns at most. A hole at the edge of a map is seen in part.
    fn round(&mut self, (x, y): (i32, i32), radius: i32, inner: i32, colour: Gray4) {
        let outer = 4 * radius * radius + 4 * radius + 1;
        for dy in -radius..=radius {
            let row = (-radius..=radius).fold(0_u16, |row, dx| {
                let away = 4 * (dx * dx + dy * dy);
                row << 1 | u16::from(away > inner && away <= outer)
            });
            let [first, second] = (row << (15 - 2 * radius).max(0)).to_be_bytes();
            self.claims.touch(|| area((0, y + dy), (1, 1)));
            let at = (x - radius, y + dy);
            self.picture.stamp(at, &[first], colour);
            self.picture.stamp((at.0 + 8, at.1), &[second], colour);
        }
    }
}
