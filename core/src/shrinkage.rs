//! Shrinkage: what is left of a board's thickness at another moisture.
//!
//! In: two moistures. Out: the share of the thickness that remains, in 2^-28.
//! Rule: percent shrink from green to M is 5.062 - 0.181 M for thickness and
//! 6.031 - 0.215 M for width; green is taken as 28 %, where the lines end at
//! (nearly) nothing, and shrink is never below 0. The lines were drawn for 8 to
//! 19 %; below and between they are carried on (Practice). A board drier than
//! where it goes swells by the same lines.
//! Source: USDA Forest Products Laboratory, Research Paper FPL-RP-489
//! (dimensional changes of dimension lumber).

use crate::decimal::Decimal;
use crate::job::Moisture;

/// Which way across the grain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Across {
    /// The thin way of a board.
    Thickness,
    /// The wide way of a board.
    Width,
}

/// Percent at and above which wood has not begun to shrink.
/// Source: FPL-RP-489.
const GREEN: Decimal = Decimal::whole(28);

/// Fixed point of [`remaining`]: 1 = 2^28.
pub const ONE: i64 = 1 << 28;

/// Percent shrink from green to `moisture`, in 10^-9 percent, exact.
///
/// ```
/// use boltbay_core::{decimal::Decimal, job::Moisture, shrinkage};
/// let dry = Moisture::Percent(Decimal::whole(12));
/// // 5.062 - 0.181 x 12 = 2.89 %
/// assert_eq!(shrinkage::shrink(dry, shrinkage::Across::Thickness), 2_890_000_000);
/// ```
pub fn shrink(moisture: Moisture, across: Across) -> i64 {
    let percent = match moisture {
        Moisture::Green => GREEN,
        Moisture::Percent(percent) => percent,
    };
    let millionths = percent.millionths().clamp(0, GREEN.millionths());
    if millionths == GREEN.millionths() {
        return 0;
    }
    // 5.062 % and 0.181 % a percent, in 10^-9 %.
    let (at_nothing, slope) = match across {
        Across::Thickness => (5_062_000_000, 181),
        Across::Width => (6_031_000_000, 215),
    };
    (at_nothing - slope * millionths).max(0)
}

/// The share of a dimension that is left when a board goes from one moisture to
/// another, in 2^-28 (above [`ONE`]: it swells), rounded to the nearest.
pub fn remaining(from: Moisture, to: Moisture, across: Across) -> i64 {
    const WHOLE: i64 = 100_000_000_000; // 100 %, in 10^-9 %
    let before = WHOLE - shrink(from, across);
    let after = WHOLE - shrink(to, across);
    // The difference is below 6.04 %: times ONE it is 1.7 x 10^18, within an i64.
    ONE + ((after - before) * ONE + before / 2).div_euclid(before)
}
