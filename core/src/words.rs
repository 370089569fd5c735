//! The small closed vocabularies that the whole core speaks: units, ends,
//! sides, rows, names.

use heapless::String;

/// A name off the card: printable ASCII, at most 12 characters.
pub type Name = String<12, u8>;

/// The unit system in which a job is keyed and shown. It changes no stored value.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Units {
    /// Feet, inches and fractions.
    #[default]
    Imperial,
    /// Millimetres.
    Metric,
}

/// An end of the steel. Stations run from A (0) to B (length).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum End {
    /// Where stations start.
    A,
    /// Where stations end.
    B,
}

impl End {
    /// Both ends, A first.
    pub const BOTH: [End; 2] = [End::A, End::B];

    /// Position in a two-element array.
    pub const fn index(self) -> usize {
        match self {
            End::A => 0,
            End::B => 1,
        }
    }

    /// The other end.
    pub const fn other(self) -> End {
        match self {
            End::A => End::B,
            End::B => End::A,
        }
    }
}

/// A side of the beam. The crew paints a letter on the web for each; the
/// letters are [`crate::Job::sides`], by default `N` for the first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Side {
    /// The first painted letter (default `N`).
    N,
    /// The second painted letter (default `S`).
    S,
}

impl Side {
    /// Both sides in card order.
    pub const BOTH: [Side; 2] = [Side::N, Side::S];

    /// Position in a two-element array.
    pub const fn index(self) -> usize {
        match self {
            Side::N => 0,
            Side::S => 1,
        }
    }

    /// The side across the web.
    pub const fn other(self) -> Side {
        match self {
            Side::N => Side::S,
            Side::S => Side::N,
        }
    }
}

/// One side, or both.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Sides {
    /// Both sides of the beam.
    #[default]
    Both,
    /// One of them.
    One(Side),
}

impl Sides {
    /// Whether `side` is meant.
    pub fn holds(self, side: Side) -> bool {
        self == Sides::Both || self == Sides::One(side)
    }
}

/// A row of bolts, named after the painted flange it is nearest to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Row {
    /// Next to the top flange.
    Top,
    /// Next to the bottom flange.
    Bot,
}

impl Row {
    /// Both rows, top first.
    pub const BOTH: [Row; 2] = [Row::Top, Row::Bot];

    /// Position in a two-element array.
    pub const fn index(self) -> usize {
        match self {
            Row::Top => 0,
            Row::Bot => 1,
        }
    }

    /// The other row.
    pub const fn other(self) -> Row {
        match self {
            Row::Top => Row::Bot,
            Row::Bot => Row::Top,
        }
    }

    /// `top` or `bot`, as on the card.
    pub const fn word(self) -> &'static str {
        match self {
            Row::Top => "top",
            Row::Bot => "bot",
        }
    }
}
