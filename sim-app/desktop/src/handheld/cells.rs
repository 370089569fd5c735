//! The handheld's screen in the cells of a terminal.
//!
//! In: a view and the size of the window. Out: for each cell a character and two
//! greys. Where the window has room, a cell is two pixels one above the other, so
//! that every pixel has its own grey; where it has only 80 x 24, a cell is two by
//! four pixels in Braille dots, light on dark or dark on light.

use boltbay_handheld::View;
use boltbay_handheld::paint::{HEIGHT, WIDTH, paint};
use embedded_graphics::Pixel;
use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{OriginDimensions, Point, Size};
use embedded_graphics::pixelcolor::{Gray4, GrayColor};

/// Columns and rows of the screen.
const WIDE: usize = WIDTH as usize;
/// See above.
const HIGH: usize = HEIGHT as usize;
/// Lines for the hint and for the keys below the screen.
pub const BELOW: u16 = 4;

/// A cell: its character, and greys 0 to 15 of the character and behind it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell {
    /// The character.
    pub sign: char,
    /// Its grey.
    pub ink: u8,
    /// The grey behind it.
    pub ground: u8,
}

/// How many pixels a cell is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grain {
    /// One wide, two high, each with its grey.
    Half,
    /// Two wide, four high, two greys together.
    Braille,
}

impl Grain {
    /// The finest for a window of so many columns and rows; `None` if none fits.
    pub fn of(columns: u16, rows: u16) -> Option<Grain> {
        [Grain::Half, Grain::Braille].into_iter().find(|grain| {
            let (wide, high) = grain.size();
            columns >= wide && rows >= high + BELOW
        })
    }

    /// Columns and rows of the whole screen.
    pub const fn size(self) -> (u16, u16) {
        match self {
            Grain::Half => (WIDTH as u16, HEIGHT as u16 / 2),
            Grain::Braille => (WIDTH as u16 / 2, HEIGHT as u16 / 4),
        }
    }
}

/// The painted screen, grey by grey.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Glass(Vec<u8>);

impl Glass {
    /// A view as it is painted.
    pub fn of(view: &View) -> Glass {
        let mut glass = Glass(vec![0; WIDE * HIGH]);
        match paint(view, &mut glass) {
            Ok(()) => glass,
            Err(never) => match never {},
        }
    }

    /// The grey of a pixel, 0 to 15.
    pub fn grey(&self, x: usize, y: usize) -> u8 {
        self.0.get(y * WIDE + x).copied().unwrap_or(0)
    }

    /// The screen in cells, row by row.
    pub fn cells(&self, grain: Grain) -> Vec<Vec<Cell>> {
        let (wide, high) = grain.size();
        let row = |y: u16| (0..wide).map(move |x| self.cell(grain, x.into(), y.into()));
        (0..high).map(|y| row(y).collect()).collect()
    }

    fn cell(&self, grain: Grain, x: usize, y: usize) -> Cell {
        match grain {
            Grain::Half => Cell {
                sign: '\u{2580}',
                ink: self.grey(x, 2 * y),
                ground: self.grey(x, 2 * y + 1),
            },
            Grain::Braille => self.dots(2 * x, 4 * y),
        }
    }

    /// Eight pixels as dots: those nearer to the lightest grey against those nearer
    /// to the darkest, each kind in its mean grey; the fewer are the dots.
    fn dots(&self, left: usize, top: usize) -> Cell {
        // Bits of a Braille character, row by row. Source: The Unicode Standard,
        // Braille Patterns U+2800 to U+28FF.
        const BITS: [[u8; 2]; 4] = [[0x01, 0x08], [0x02, 0x10], [0x04, 0x20], [0x40, 0x80]];
        let pixels: Vec<(u8, u8)> = BITS
            .iter()
            .enumerate()
            .flat_map(|(y, bits)| {
                let grey = move |(x, bit): (usize, &u8)| (*bit, self.grey(left + x, top + y));
                bits.iter().enumerate().map(grey)
            })
            .collect();
        let greys = pixels.iter().map(|(_, grey)| *grey);
        let (least, most) = (greys.clone().min().unwrap_or(0), greys.max().unwrap_or(0));
        let middle = (u16::from(least) + u16::from(most)).div_ceil(2);
        let is_light = |grey: u8| u16::from(grey) >= middle && most > least;
        let lights = pixels.iter().filter(|(_, grey)| is_light(*grey)).count();
        let dots_are_light = lights <= 4;
        let of = |light: bool| {
            let some = pixels.iter().filter(|(_, grey)| is_light(*grey) == light);
            let (sum, count) = some.fold((0, 0), |(sum, count), (_, grey)| {
                (sum + u16::from(*grey), count + 1)
            });
            (sum / count.max(1)) as u8
        };
        let dots = pixels
            .iter()
            .filter(|(_, grey)| is_light(*grey) == dots_are_light && most > least)
            .fold(0, |dots, (bit, _)| dots | bit);
        Cell {
            sign: char::from_u32(0x2800 + u32::from(dots)).unwrap_or(' '),
            ink: if most > least {
                of(dots_are_light)
            } else {
                most
            },
            ground: if most > least {
                of(!dots_are_light)
            } else {
                most
            },
        }
    }
}

impl OriginDimensions for Glass {
    fn size(&self) -> Size {
        Size::new(WIDTH, HEIGHT)
    }
}

impl DrawTarget for Glass {
    type Color = Gray4;
    type Error = std::convert::Infallible;

    fn draw_iter<I: IntoIterator<Item = Pixel<Gray4>>>(
        &mut self,
        pixels: I,
    ) -> Result<(), Self::Error> {
        for Pixel(Point { x, y }, grey) in pixels {
            let (Ok(x), Ok(y)) = (usize::try_from(x), usize::try_from(y)) else {
                continue;
            };
            if x < WIDE
                && let Some(place) = self.0.get_mut(y * WIDE + x)
            {
                *place = grey.luma();
            }
        }
        Ok(())
    }
}
