//! What a screen shows, as plain data that can be compared and sent away.
//!
//! A screen makes a `View`; the painter turns it into pixels and decides
//! nothing. 18 characters of 9 px capitals a line, 21 of 7 px on a page.

use boltbay_core::decimal::Decimal;
use boltbay_core::length::Length;
use boltbay_core::words::{Row, Units};
use heapless::{String, Vec};

/// A line of text. It holds more than fits, so that a test sees what would be cut.
pub type Text = String<32, u8>;

/// Characters of 9 px capitals on one line.
pub const LINE: usize = 18;
/// Characters of 7 px capitals on one line.
pub const SMALL_LINE: usize = 21;

/// The status line: what is worked on at the left, the frame in a tab, a count
/// or a setting at the right.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Status {
    /// At the left.
    pub left: Text,
    /// White on black reversed; empty = none.
    pub tab: Text,
    /// At the right.
    pub right: Text,
}

/// How the large figure is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Touch {
    /// Suggested by the handheld: grey.
    Suggested,
    /// Keyed, or to be read: white.
    Keyed,
    /// Suggested head in grey, this many typed characters at its end in white.
    Tail(u8),
    /// Nothing there yet: a dash.
    Empty,
}

/// What a figure says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Amount {
    /// A length, and how it is written.
    Length(Length, Units),
    /// A number; what it counts stands below it.
    Number(Decimal),
}

/// The large figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Figure {
    /// What it says.
    pub amount: Amount,
    /// Who put it there.
    pub touch: Touch,
    /// In front of the figure: `14 x`.
    pub times: Option<u16>,
}

impl Figure {
    /// A length.
    pub const fn length(length: Length, units: Units, touch: Touch) -> Figure {
        Figure {
            amount: Amount::Length(length, units),
            touch,
            times: None,
        }
    }

    /// A number.
    pub const fn number(number: Decimal, touch: Touch) -> Figure {
        Figure {
            amount: Amount::Number(number),
            touch,
            times: None,
        }
    }
}

/// One line of a list.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Line {
    /// At the left.
    pub left: Text,
    /// At the right.
    pub right: Text,
}

/// What happened to a hole, as the map draws it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dot {
    /// To be marked: a ringed cross.
    Planned,
    /// Marked: a ring.
    Marked,
    /// Drilled: filled.
    Drilled,
    /// No longer valid: a struck ring.
    StruckOut,
}

/// One hole or thing on the strip map, in counts of the map's own columns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drawn {
    /// Something in the way on one side or both.
    Obstacle {
        /// On N.
        n: bool,
        /// On S.
        s: bool,
        /// Columns.
        span: (i16, i16),
    },
    /// A stretch where nothing can be.
    Blocked {
        /// Columns.
        span: (i16, i16),
    },
    /// A hole.
    Hole {
        /// The row.
        row: Row,
        /// Column.
        at: i16,
        /// What happened to it.
        dot: Dot,
    },
}

/// Columns of the screen, each set or not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Columns([u8; 16]);

impl Columns {
    /// Sets those from `from` to `to`, both included, that are in sight.
    pub fn set(&mut self, from: i16, to: i16) {
        for column in from.max(0)..=to.min(127) {
            let (byte, bit) = (usize::from(column.unsigned_abs() / 8), column % 8);
            if let Some(byte) = self.0.get_mut(byte) {
                *byte |= 1 << bit;
            }
        }
    }

    /// A bit a column, the leftmost the highest of the first byte.
    pub fn stripes(&self) -> [u8; 16] {
        self.0.map(u8::reverse_bits)
    }

    /// Those that are set.
    pub fn iter(&self) -> impl Iterator<Item = u8> {
        let bits = |byte: u8| move |bit: &u8| byte & (1 << bit) != 0;
        let bytes = (0_u8..).zip(self.0);
        bytes.flat_map(move |(at, byte)| (0..8).filter(bits(byte)).map(move |bit| 8 * at + bit))
    }
}

/// Most holes and things in the way on one map.
pub const DRAWN: usize = 128;

/// The beam from above, a stretch of it: first side above, second below.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Map {
    /// Everything that is in sight.
    pub drawn: Vec<Drawn, DRAWN, u8>,
    /// Joists, by side.
    pub joists: [Columns; 2],
    /// Hangers' metal beyond their faces, by side; joists lie over it.
    pub metal: [Columns; 2],
    /// Where bolts may stand, by row.
    pub free: [Columns; 2],
    /// Column of what is selected.
    pub cursor: Option<i16>,
    /// Letters of the sides, above and below.
    pub sides: [u8; 2],
    /// The end at the left edge of the screen.
    pub ends: [u8; 2],
}

/// What a block of a drawing is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stuff {
    /// Web or flange.
    Steel,
    /// A layer of the side that the screen is about.
    Layer,
    /// A layer of the other side.
    OtherLayer,
}

/// One rectangle of a drawing, in pixels of the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Block {
    /// Left upper corner.
    pub at: (u8, u8),
    /// Columns and rows.
    pub size: (u8, u8),
    /// What it is.
    pub stuff: Stuff,
}

/// The beam cut across, at the left of the screen: two flanges, web, layers.
pub type CrossSection = Vec<Block, 11, u8>;

/// The strip under a mark's figure: what is nearest on either side of the hole.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Strip {
    /// Toward the left of the screen.
    pub left: Text,
    /// Toward the right.
    pub right: Text,
}

/// A scale under the figure: the tape around the reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Scale {
    /// The place under the pointer.
    pub at: Length,
    /// Inches or millimetres.
    pub units: Units,
}

/// Everything on the screen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct View {
    /// The screen's name, for scripts and tests; never shown.
    pub screen: &'static str,
    /// The top line.
    pub status: Status,
    /// The figure that matters.
    pub figure: Option<Figure>,
    /// A bar along the edge of the figure next to the painted flange.
    pub flange: Option<Row>,
    /// The tape's ticks under the figure.
    pub scale: Option<Scale>,
    /// Nearest things on both sides of a hole.
    pub strip: Option<Strip>,
    /// The beam from above.
    pub map: Option<Map>,
    /// The beam cut across; lines then stand at its right, set small.
    pub section: Option<CrossSection>,
    /// Lines below figure or map, or the list.
    pub lines: Vec<Line, 6, u8>,
    /// The selected line of a list.
    pub selected: Option<u8>,
    /// Lines are set small, for a page that is read close by.
    pub small: bool,
    /// The status line is turned white: stop and look.
    pub alarm: bool,
    /// What the keys do here, and the caution that belongs to the step.
    pub hint: &'static str,
}

impl View {
    /// An empty screen of this name.
    pub fn of(screen: &'static str, hint: &'static str) -> View {
        let mut view = View::default();
        view.named(screen, hint);
        view
    }

    /// The screen's name, and what the keys do on it.
    pub fn named(&mut self, screen: &'static str, hint: &'static str) {
        self.screen = screen;
        self.hint = hint;
    }

    /// One more line; a seventh is left out.
    pub fn line(&mut self, left: &str, right: &str) {
        let _ = self.lines.push(Line {
            left: text(left),
            right: text(right),
        });
    }
}

/// Words in lines of 21 small letters, broken between words.
#[derive(Clone, Debug)]
pub struct Wrapped<'w>(&'w str);

impl<'w> Wrapped<'w> {
    /// The lines of these words.
    pub fn of(words: &'w str) -> Wrapped<'w> {
        Wrapped(words)
    }
}

impl<'w> Iterator for Wrapped<'w> {
    type Item = &'w str;

    fn next(&mut self) -> Option<&'w str> {
        let words = self.0.trim_start();
        let first = words.split(' ').next().filter(|word| !word.is_empty())?;
        // As many whole words as fit, one in any case.
        let ends = words
            .match_indices(' ')
            .map(|(at, _)| at)
            .chain([words.len()]);
        let end = ends.take_while(|end| *end <= SMALL_LINE).last();
        let (line, rest) = words.split_at_checked(end.unwrap_or(first.len()))?;
        self.0 = rest;
        Some(line)
    }
}

/// A text; what does not fit its 32 characters is left out.
pub fn text(words: &str) -> Text {
    let mut text = Text::new();
    for letter in words.chars() {
        let _ = text.push(letter);
    }
    text
}

/// A formatted text, cut at 32 characters.
#[macro_export]
macro_rules! text {
    ($($argument:tt)*) => {{
        let mut text = $crate::view::Text::new();
        let _ = core::fmt::Write::write_fmt(&mut text, core::format_args!($($argument)*));
        text
    }};
}
