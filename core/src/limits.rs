//! How small and how great what is keyed or stands on a card may be.
//!
//! Every limit is far beyond any real beam; it is there so that sums and small
//! multiples of lengths stay inside the range of a [`Length`] (176 ft) in all that
//! follows, and so that nothing is divided by what may not be zero.

use crate::decimal::Decimal;
use crate::length::Length;

/// Hardware, thicknesses, holes, clearances: no more than 2 ft.
/// Practice: a reading beyond it is a slip.
pub const SMALL: Length = Length::from_inches(24);
/// Depths, heights, offsets: no more than 10 ft.
/// Practice: a reading beyond it is a slip.
pub const MEDIUM: Length = Length::from_inches(120);
/// What lies along the beam: no more than the longest steel.
pub const LONG: Length = crate::job::LONGEST_STEEL;
/// Readings of a tape: no more than 100 ft. Practice: the longest tape in the
/// trade.
pub const TAPE: Length = Length::from_inches(1_200);
/// The thickest bolt; five times it still is a short length. Practice: far above
/// what is bolted through a web.
pub const THICKEST_BOLT: Length = Length::from_inches(4);
/// The finest and the coarsest step of hole marks that a tape and a planner can
/// use: 1/64 in and 1 ft. Practice: no source.
pub const FINEST_STEP: Length = Length::from_sixty_fourths(1);
/// See above. Practice: no source.
pub const COARSEST_STEP: Length = Length::from_inches(12);

/// The limits of a length, both within.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Span {
    /// The least.
    pub least: Length,
    /// The greatest.
    pub most: Length,
}

impl Span {
    /// More than 0.
    pub const fn above_zero(most: Length) -> Span {
        Span::between(Length::from_counts(1), most)
    }

    /// 0 or more.
    pub const fn from_zero(most: Length) -> Span {
        Span::between(Length::ZERO, most)
    }

    /// Either sign.
    pub const fn signed(most: Length) -> Span {
        Span::between(Length::from_counts(-most.counts()), most)
    }

    /// From one length to another.
    pub const fn between(least: Length, most: Length) -> Span {
        Span { least, most }
    }

    /// Whether a length is within.
    pub fn holds(self, length: Length) -> bool {
        (self.least..=self.most).contains(&length)
    }
}

/// The limits of a decimal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Amounts {
    /// Whether it may be 0; it is never less.
    pub zero: bool,
    /// The greatest, a whole number.
    pub most: i32,
}

impl Amounts {
    /// More than 0.
    pub const fn above_zero(most: i32) -> Amounts {
        Amounts { zero: false, most }
    }

    /// 0 or more.
    pub const fn from_zero(most: i32) -> Amounts {
        Amounts { zero: true, most }
    }

    /// Whether a decimal is within.
    pub fn holds(self, decimal: Decimal) -> bool {
        let millionths = decimal.millionths();
        let least = i64::from(!self.zero);
        (least..=i64::from(self.most) * 1_000_000).contains(&millionths)
    }
}

/// Strengths of steel and of bolts, ksi or MPa. Practice: beyond any that is made.
pub const STRONGEST: i32 = 2_000;
/// Loads and allowable loads, in any unit that is keyed.
/// Practice: a figure beyond it is a slip.
pub const HEAVIEST: i32 = 10_000_000;
/// Weight of a shape, lb/ft or kg/m. Practice: a figure beyond it is a slip.
pub const HEAVIEST_SHAPE: i32 = 10_000;
/// Section properties in the units they are keyed in, and what a hanger is rated for.
/// Practice: a figure beyond it is a slip.
pub const MILLION: i32 = 1_000_000;
/// Load duration factor. Source: NDS 2018 Table 2.3.2, 2.0 for impact.
pub const LONGEST_DURATION: i32 = 2;
/// A nail's slant in degrees: never along the face.
pub const STEEPEST: i32 = 89;
/// Moisture in percent of dry weight. Practice: green wood is below it.
pub const WETTEST: i32 = 300;
/// Counts of layers, sticks, pieces. Practice: a count beyond it is a slip.
pub const MANY: u16 = 9_999;
/// Joists counted on a side. Practice: a count beyond it is a slip.
pub const MOST_JOISTS: u16 = 999;
