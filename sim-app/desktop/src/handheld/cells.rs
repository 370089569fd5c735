//! The handheld's screen in the cells of a terminal.
//!
//! In: a view and the size of the window. Out: for each cell a character and two
//! greys. Where the window has room, a cell is two pixels one above the other, so
//! that every pixel has its own grey; where it has only 80 x 24, a cell is two by
//! four pixels in Braille dots, light on dark, or dark on light where a line is in
//! reverse.

use boltbay_handheld::View;
use boltbay_handheld::paint::{HEIGHT, Picture, WIDTH, paint};

/// Columns of the screen.
const WIDE: usize = WIDTH as usize;
/// The least grey that counts as light.
const MIDDLE: u8 = 8;
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
pub struct Glass(Box<Picture>);

impl Glass {
    /// A view as it is painted.
    pub fn of(view: &View) -> Glass {
        let mut picture = Box::new(Picture::new());
        paint(view, &mut picture);
        Glass(picture)
    }

    /// The grey of a pixel, 0 to 15.
    pub fn grey(&self, x: usize, y: usize) -> u8 {
        self.0.grey(x, y)
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
            Grain::Braille => self.dots(x, y),
        }
    }

    /// The greys of a Braille cell, left to right, top to bottom.
    fn block(&self, x: usize, y: usize) -> [u8; 8] {
        std::array::from_fn(|at| self.grey(2 * x + at % 2, 4 * y + at / 2))
    }

    /// Whether most of what lies around a Braille cell is light: then its dots are
    /// dark, so that a line in reverse stays one.
    fn is_reversed(&self, x: usize, y: usize) -> bool {
        // A third of the line: as many cells at its ends as in its middle.
        let from = x.saturating_sub(10).min(WIDE / 2 - 21);
        let around = from..from + 21;
        let greys = around.flat_map(|x| self.block(x, y));
        let (light, all) = greys.fold((0, 0), |(light, all), grey| {
            (light + usize::from(grey >= MIDDLE), all + 1)
        });
        light * 20 > all * 11
    }

    /// Eight pixels as dots: those nearer to the lightest grey, or those nearer to
    /// the darkest, each kind in its mean grey.
    fn dots(&self, x: usize, y: usize) -> Cell {
        // Bits of a Braille character, left to right, top to bottom. Source: The
        // Unicode Standard, Braille Patterns U+2800 to U+28FF.
        const BITS: [u8; 8] = [0x01, 0x08, 0x02, 0x10, 0x04, 0x20, 0x40, 0x80];
        let greys = self.block(x, y);
        let reversed = self.is_reversed(x, y);
        let (least, most) = greys.iter().fold((15, 0), |(least, most), grey| {
            (least.min(*grey), most.max(*grey))
        });
        let middle = match least == most {
            true => MIDDLE,
            false => (least + most).div_ceil(2),
        };
        let is_dot = |grey: u8| (grey >= middle) != reversed;
        let mean = |dots: bool, otherwise: u8| {
            let some = greys.iter().filter(|grey| is_dot(**grey) == dots);
            let (sum, count) = some.fold((0, 0), |(sum, count), grey| (sum + grey, count + 1));
            sum.checked_div(count).unwrap_or(otherwise)
        };
        let dots = greys.iter().zip(BITS).filter(|(grey, _)| is_dot(**grey));
        let sign = dots.fold(0, |dots, (_, bit)| dots | bit);
        Cell {
            sign: char::from_u32(0x2800 + u32::from(sign)).unwrap_or(' '),
            ink: mean(true, if reversed { 0 } else { 15 }),
            ground: mean(false, if reversed { 15 } else { 0 }),
        }
    }
}
