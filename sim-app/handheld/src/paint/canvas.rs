//! The canvas: where texts and shapes go, and whether they fit there.
//!
//! Every text and figure leaves its box behind. A box that reaches out of the
//! screen, or over another, is a fault.

use super::{HEIGHT, WIDTH};
use core::convert::Infallible;
use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{OriginDimensions, Point, Size};
use embedded_graphics::mono_font::ascii::{FONT_6X10, FONT_7X13, FONT_7X13_BOLD};
use embedded_graphics::mono_font::{MonoFont, MonoTextStyle};
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::prelude::{Drawable, GrayColor, Pixel};
use embedded_graphics::primitives::Rectangle;
use embedded_graphics::text::{Baseline, Text};
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
    const fn font(self) -> &'static MonoFont<'static> {
        match self {
            Weight::Bold => &FONT_7X13_BOLD,
            Weight::Reversed => &FONT_7X13,
            Weight::Small | Weight::SmallReversed | Weight::Hint => &FONT_6X10,
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
    width_in(text, &FONT_7X13_BOLD)
}

fn width_in(text: &str, font: &MonoFont) -> i32 {
    let letters = i32::try_from(text.chars().count()).unwrap_or(i32::MAX);
    let letter = i32::try_from(font.character_size.width).unwrap_or(i32::MAX);
    letters.saturating_mul(letter)
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

/// A target that swallows everything.
pub struct Nowhere;

impl OriginDimensions for Nowhere {
    fn size(&self) -> Size {
        Size::new(WIDTH, HEIGHT)
    }
}

impl DrawTarget for Nowhere {
    type Color = Gray4;
    type Error = Infallible;

    fn draw_iter<I: IntoIterator<Item = Pixel<Gray4>>>(&mut self, _: I) -> Result<(), Infallible> {
        Ok(())
    }
}

/// A target, and the boxes drawn on it so far.
pub struct Canvas<'t, D> {
    target: &'t mut D,
    boxes: Vec<Rectangle, 32, u8>,
    faults: Faults,
}

impl<'t, D: DrawTarget<Color = Gray4>> Canvas<'t, D> {
    /// A canvas with nothing on it.
    pub fn on(target: &'t mut D) -> Self {
        Canvas {
            target,
            boxes: Vec::new(),
            faults: Faults::new(),
        }
    }

    /// All black.
    pub fn clear(&mut self) -> Result<(), D::Error> {
        self.target.clear(Gray4::BLACK)
    }

    /// What did not fit.
    pub fn faults(self) -> Faults {
        self.faults
    }

    /// Notes a box that nothing else may touch.
    pub fn claim(&mut self, (x, y): (i32, i32), (wide, high): (u32, u32)) {
        let new = Rectangle::new(Point::new(x, y), Size::new(wide, high));
        let screen = Rectangle::new(Point::zero(), Size::new(WIDTH, HEIGHT));
        if new.intersection(&screen) != new {
            let _ = self.faults.push(Fault::Outside(new));
        }
        let over = |old: &&Rectangle| !old.intersection(&new).is_zero_sized();
        if let Some(old) = self.boxes.iter().find(over) {
            let _ = self.faults.push(Fault::Overlap(*old, new));
        }
        if self.boxes.push(new).is_err() {
            let _ = self.faults.push(Fault::TooMany);
        }
    }

    /// A filled rectangle: ground that things stand on, so it claims no box.
    pub fn fill(
        &mut self,
        (x, y): (i32, i32),
        (wide, high): (u32, u32),
        colour: Gray4,
    ) -> Result<(), D::Error> {
        let area = Rectangle::new(Point::new(x, y), Size::new(wide, high));
        self.target.fill_solid(&area, colour)
    }

    /// Single pixels.
    pub fn pixels<I: IntoIterator<Item = Pixel<Gray4>>>(
        &mut self,
        pixels: I,
    ) -> Result<(), D::Error> {
        self.target.draw_iter(pixels)
    }

    /// A text from its upper left corner; gives the column behind it.
    pub fn text(&mut self, text: &str, at: Point, weight: Weight) -> Result<i32, D::Error> {
        let font = weight.font();
        let wide = width_in(text, font);
        if text.is_empty() {
            return Ok(at.x);
        }
        // Capitals and digits alone need no room below the line.
        let high = font.baseline + 1;
        self.claim((at.x, at.y), (wide.unsigned_abs(), high));
        let style = MonoTextStyle::new(font, weight.colour());
        Text::with_baseline(text, at, style, Baseline::Top).draw(self.target)?;
        Ok(at.x + wide)
    }

    /// A text on ground of its own, which claims no box.
    pub fn plain(&mut self, text: &str, at: Point) -> Result<(), D::Error> {
        let style = MonoTextStyle::new(&FONT_7X13_BOLD, WHITE);
        Text::with_baseline(text, at, style, Baseline::Top).draw(self.target)?;
        Ok(())
    }

    /// A text that ends before `at`; gives its first column.
    pub fn text_right(&mut self, text: &str, at: Point, weight: Weight) -> Result<i32, D::Error> {
        let left = at.x - width_in(text, weight.font());
        self.text(text, Point::new(left, at.y), weight)?;
        Ok(left)
    }

    /// A ringed cross: where a centre punch goes. An X between two lines would
    /// mean a joist to a framer.
    pub fn punch(&mut self, centre: (i32, i32), radius: i32) -> Result<(), D::Error> {
        self.ring(centre, radius, WHITE)?;
        let (x, y) = centre;
        let arm = (radius - 2).max(1);
        let long = (2 * arm + 1).unsigned_abs();
        // At the edge of a map the cross is left out: the ring shows in part.
        if x - arm < 0 || x + arm >= WIDTH as i32 {
            return Ok(());
        }
        self.fill((x - arm, y), (long, 1), WHITE)?;
        self.fill((x, y - arm), (1, long), WHITE)
    }

    /// A ring, one pixel thick.
    pub fn ring(&mut self, centre: (i32, i32), radius: i32, colour: Gray4) -> Result<(), D::Error> {
        let inner = 4 * radius * radius - 4 * radius + 1;
        let outer = 4 * radius * radius + 4 * radius + 1;
        self.round(centre, radius, colour, |away| away > inner && away <= outer)
    }

    /// A filled disc.
    pub fn disc(&mut self, centre: (i32, i32), radius: i32, colour: Gray4) -> Result<(), D::Error> {
        let outer = 4 * radius * radius + 4 * radius + 1;
        self.round(centre, radius, colour, |away| away <= outer)
    }

    /// All pixels about a centre whose squared distance, in half pixels, is wanted.
    fn round(
        &mut self,
        (x, y): (i32, i32),
        radius: i32,
        colour: Gray4,
        wanted: impl Fn(i32) -> bool,
    ) -> Result<(), D::Error> {
        let square = (-radius..=radius).flat_map(|dy| (-radius..=radius).map(move |dx| (dx, dy)));
        // A hole at the edge of a map is seen in part.
        let seen = move |dx: i32| (0..WIDTH as i32).contains(&(x + dx));
        let inside = square.filter(|(dx, dy)| seen(*dx) && wanted(4 * (dx * dx + dy * dy)));
        self.pixels(inside.map(|(dx, dy)| Pixel(Point::new(x + dx, y + dy), colour)))
    }
}
