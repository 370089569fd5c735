//! A decimal number exactly as keyed: loads, strengths, percentages.
//!
//! In: text such as `12.5`. Out: the same digits again, so that a card loses
//! nothing, or an `f64` for the statics. Nothing here formats a float.

use core::fmt;

/// A keyed decimal: `digits / 10^places`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Decimal {
    digits: i32,
    places: u8,
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
            places: if places > 6 { 6 } else { places },
        }
    }

    /// The value, as near as an `f64` comes.
    pub fn value(self) -> f64 {
        f64::from(self.digits) / f64::from(10_u32.pow(u32::from(self.places)))
    }

    /// The value in millionths, exact.
    pub fn millionths(self) -> i64 {
        i64::from(self.digits) * 10_i64.pow(6 - u32::from(self.places))
    }
}

impl fmt::Display for Decimal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let scale = 10_u32.pow(u32::from(self.places));
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
