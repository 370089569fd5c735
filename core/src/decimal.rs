//! A decimal number exactly as keyed: loads, strengths, percentages.
//!
//! In: text such as `12.5`. Out: the same digits again, so that a card loses
//! nothing, or an `f64` for the statics. Nothing here formats or reads a float,
//! and nothing is rounded: at most 6 places behind the point, at most
//! 2,147,483,647 without it.

use core::fmt;

/// Places behind the point that are kept.
const MOST_PLACES: u8 = 6;

/// A keyed decimal: `digits / 10^places`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Decimal {
    digits: i32,
    places: u8,
}

/// Why a text is no decimal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum DecimalError {
    /// Nothing there.
    Empty,
    /// A character that no number holds.
    Strange {
        /// That character.
        found: char,
    },
    /// A comma where a decimal point belongs.
    Comma,
    /// A point without digits on both sides of it, or a second one.
    Point,
    /// More than 6 places behind the point.
    Places,
    /// More digits than fit.
    OutOfRange,
}

impl fmt::Display for DecimalError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            DecimalError::Empty => f.write_str("no number there: write one like 12.5"),
            DecimalError::Strange { found } => {
                write!(f, "{found:?} is in no number: write one like 12.5")
            }
            DecimalError::Comma => f.write_str("a comma splits it: write the decimal point as ."),
            DecimalError::Point => f.write_str("not one number: write one point, digits behind it"),
            DecimalError::Places => f.write_str("more than 6 places: write at most 6"),
            DecimalError::OutOfRange => {
                f.write_str("more digits than are kept: write at most 9, point or not")
            }
        }
    }
}

impl Decimal {
    /// A whole number.
    pub const fn whole(digits: i32) -> Self {
        Decimal { digits, places: 0 }
    }

    /// `digits / 10^places`; at most 6 places are kept, more are an error of
    /// the caller and are cut to 6.
    pub const fn new(digits: i32, places: u8) -> Self {
        Decimal {
            digits,
            places: if places > MOST_PLACES {
                MOST_PLACES
            } else {
                places
            },
        }
    }

    /// All digits as keyed, the point left out.
    pub const fn digits(self) -> i32 {
        self.digits
    }

    /// How many of them stand behind the point.
    pub const fn places(self) -> u8 {
        self.places
    }

    /// Reads `12`, `12.50`, `.5`, `-3`; the places are kept as keyed.
    ///
    /// # Errors
    /// A [`DecimalError`] that says what to write instead; nothing is rounded.
    pub fn read(text: &str) -> Result<Decimal, DecimalError> {
        let text = text.trim();
        let (negative, size) = match text.strip_prefix(['-', '\u{2212}']) {
            Some(size) => (true, size),
            None => (false, text.strip_prefix('+').unwrap_or(text)),
        };
        if size.is_empty() {
            return Err(DecimalError::Empty);
        }
        let sign = if negative { -1 } else { 1 };
        let (whole, places) = match size.split_once('.') {
            Some((_, "")) => return Err(DecimalError::Point),
            Some((whole, places)) => (whole, places),
            None => (size, ""),
        };
        let digits = push_digits(push_digits(0, whole, sign)?, places, sign)?;
        match u8::try_from(places.len()) {
            Ok(places) if places <= MOST_PLACES => Ok(Decimal { digits, places }),
            _ => Err(DecimalError::Places),
        }
    }

    /// The value, as near as an `f64` comes.
    pub fn value(self) -> f64 {
        f64::from(self.digits) / f64::from(10_u32.pow(u32::from(self.places)))
    }

    /// The value in millionths, exact.
    pub fn millionths(self) -> i64 {
        i64::from(self.digits) * 10_i64.pow(u32::from(MOST_PLACES - self.places))
    }
}

/// `so_far` with the digits of `text` behind it.
fn push_digits(so_far: i32, text: &str, sign: i32) -> Result<i32, DecimalError> {
    text.chars().try_fold(so_far, |so_far, found| match found {
        '0'..='9' => so_far
            .checked_mul(10)
            .and_then(|tens| tens.checked_add(sign * (found as i32 - '0' as i32)))
            .ok_or(DecimalError::OutOfRange),
        ',' => Err(DecimalError::Comma),
        '.' => Err(DecimalError::Point),
        _ => Err(DecimalError::Strange { found }),
    })
}

impl fmt::Display for Decimal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let scale = 10_u32.pow(u32::from(self.places)).max(1);
        let size = self.digits.unsigned_abs();
        if self.digits < 0 {
            f.write_str("-")?;
        }
        write!(f, "{}", size / scale)?;
        if self.places > 0 {
            write!(
                f,
                ".{:0width$}",
                size % scale,
                width = usize::from(self.places)
            )?;
        }
        Ok(())
    }
}
