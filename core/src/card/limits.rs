//! How small and how great what stands on a card may be.
//!
//! In: a length as read. Out: the same, or what is wrong with it. Every limit
//! is far beyond any real beam; it is there so that sums and small multiples of
//! lengths stay inside the range of a [`Length`] (176 ft) in all that follows.

use super::Wrong;
use crate::decimal::Decimal;
use crate::length::Length;

/// The limits of a length.
#[derive(Clone, Copy)]
pub(super) struct Span {
    least: Least,
    most: Length,
}

/// How small a length may be.
#[derive(Clone, Copy, PartialEq)]
enum Least {
    Signed,
    Zero,
    AboveZero,
}

/// Hardware, thicknesses, holes, clearances: no more than 2 ft.
/// Practice: a reading beyond it is a slip.
pub(super) const SMALL: Length = Length::from_inches(24);
/// Depths, heights, offsets: no more than 10 ft.
/// Practice: a reading beyond it is a slip.
pub(super) const MEDIUM: Length = Length::from_inches(120);
/// What lies along the beam: no more than the longest steel.
pub(super) const LONG: Length = crate::job::LONGEST_STEEL;
/// Readings of a tape: no more than 100 ft. Practice: the longest tape in the
/// trade.
pub(super) const TAPE: Length = Length::from_inches(1_200);

impl Span {
    /// More than 0.
    pub(super) const fn above_zero(most: Length) -> Span {
        Span {
            least: Least::AboveZero,
            most,
        }
    }

    /// 0 or more.
    pub(super) const fn from_zero(most: Length) -> Span {
        Span {
            least: Least::Zero,
            most,
        }
    }

    /// Either sign.
    pub(super) const fn signed(most: Length) -> Span {
        Span {
            least: Least::Signed,
            most,
        }
    }

    /// What is wrong with a length.
    pub(super) fn judge(self, length: Length) -> Result<Length, Wrong> {
        if length < Length::ZERO && self.least != Least::Signed {
            return Err(Wrong::Negative);
        }
        if length == Length::ZERO && self.least == Least::AboveZero {
            return Err(Wrong::Zero);
        }
        if length > self.most {
            return Err(Wrong::LengthAbove { most: self.most });
        }
        if length < -self.most {
            return Err(Wrong::LengthBelow { least: -self.most });
        }
        Ok(length)
    }
}

/// Whether a decimal may be 0.
#[derive(Clone, Copy)]
pub(super) enum Number {
    FromZero,
    AboveZero,
}

impl Number {
    /// A text as a decimal from 0 (or above it) to `most`.
    pub(super) fn judge(self, text: &str, most: i32) -> Result<Decimal, Wrong> {
        let decimal = Decimal::read(text).map_err(Wrong::Decimal)?;
        let millionths = decimal.millionths();
        match self {
            _ if millionths < 0 => Err(Wrong::Negative),
            Number::AboveZero if millionths == 0 => Err(Wrong::Zero),
            _ if millionths > i64::from(most) * 1_000_000 => Err(Wrong::NumberAbove { most }),
            _ => Ok(decimal),
        }
    }
}
