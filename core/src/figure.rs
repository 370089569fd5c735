//! Figures as people read them: a number with stated decimals and rounding.
//!
//! In: a computed number. Out: text through `core::fmt`, made of whole numbers
//! (a formatted float would cost 14 KiB on a small device). Rule: the number is
//! scaled by its decimals and rounded once, the way the caller says; a number
//! within a millionth of a step counts as being on it, so that the dust of a
//! sum never turns a figure. What is no number is two dashes.

use crate::float;
use crate::length::Rounding;
use core::fmt::{self, Write};
use heapless::String;

/// Most decimals that are shown.
const MOST_DECIMALS: u8 = 9;
/// A distance from a step that is dust of the sum, in steps.
const DUST: f64 = 1e-6;
/// Scaled figures at or above this are no longer exact in steps of one.
const MOST: f64 = 9_007_199_254_740_992.0;

/// A number and how to write it. Honours width and alignment.
///
/// ```
/// use boltbay_core::figure::Shown;
/// use boltbay_core::length::Rounding;
/// let shown = |value| Shown::new(value, 2, Rounding::Nearest).to_string();
/// assert_eq!(shown(-0.125), "-0.12");
/// assert_eq!(shown(1234.567), "1234.57");
/// assert_eq!(shown(f64::NAN), "--");
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shown {
    value: f64,
    decimals: u8,
    rounding: Rounding,
}

impl Shown {
    /// `value` with `decimals` places (at most 9), rounded as said: `Down` goes
    /// toward the smaller number, `Up` toward the greater, halves of `Nearest`
    /// up.
    pub const fn new(value: f64, decimals: u8, rounding: Rounding) -> Self {
        Shown {
            value,
            decimals: if decimals > MOST_DECIMALS {
                MOST_DECIMALS
            } else {
                decimals
            },
            rounding,
        }
    }

    /// The number in steps of its last decimal; `None` for NaN, infinity, and
    /// sizes from 2^53 steps up.
    pub fn steps(self) -> Option<i64> {
        let scale = 10_i64.pow(u32::from(self.decimals)) as f64;
        let scaled = self.value * scale;
        if !scaled.is_finite() || float::abs(scaled) >= MOST {
            return None;
        }
        let nearest = float::floor(scaled + 0.5);
        let below = float::floor(scaled);
        let picked = match self.rounding {
            _ if float::abs(scaled - nearest) <= DUST => nearest,
            Rounding::Nearest => nearest,
            Rounding::Down => below,
            Rounding::Up => below + 1.0,
        };
        // In range by the test above.
        Some(picked as i64)
    }

    fn compose(self, text: &mut String<40, u8>) -> fmt::Result {
        let Some(steps) = self.steps() else {
            return text.write_str("--");
        };
        if steps < 0 {
            text.write_char('-')?;
        }
        let scale = 10_u64.pow(u32::from(self.decimals)).max(1);
        let size = steps.unsigned_abs();
        write!(text, "{}", size / scale)?;
        if self.decimals > 0 {
            let places = usize::from(self.decimals);
            write!(text, ".{:0places$}", size % scale)?;
        }
        Ok(())
    }
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut text = String::new();
        self.compose(&mut text)?;
        f.pad(&text)
    }
}
