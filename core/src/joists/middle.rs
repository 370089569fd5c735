//! The median: what is usual among readings, unmoved by a few wild ones.
//!
//! In: values. Out: twice their median, so that the mean of two middle ones
//! needs no rounding.

use crate::length::Length;

/// Twice the median: the middle value twice, or the sum of the two middle ones.
/// Sorts `values`; `None` where there is none.
pub fn median_twice(values: &mut [i64]) -> Option<i64> {
    values.sort_unstable();
    let upper = values.get(values.len() / 2)?;
    let lower = values.get(values.len().checked_sub(1)? / 2)?;
    lower.checked_add(*upper)
}

/// The middle value, the smaller of two middle ones: always one of them.
pub fn lower_median(values: &mut [i64]) -> Option<i64> {
    values.sort_unstable();
    values.get(values.len().checked_sub(1)? / 2).copied()
}

/// Counts as a length, held at the ends of the range; a fraction that a caller
/// divided off is gone (25 nm).
pub fn held(counts: i64) -> Length {
    let held = counts.clamp(i64::from(i32::MIN), i64::from(i32::MAX));
    Length::from_counts(i32::try_from(held).unwrap_or_default())
}
