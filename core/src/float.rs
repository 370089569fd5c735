//! Float arithmetic: the one place where the core calls libm.
//!
//! In: plain numbers. Out: plain numbers, the same bits on every host. Rule:
//! nothing else calls a float method that std would replace by its own; where a
//! root or a power is needed it is taken from here by full path.

/// Square root; NaN of a negative number.
pub(crate) fn sqrt(value: f64) -> f64 {
    libm::sqrt(value)
}

/// Size without sign.
pub(crate) fn abs(value: f64) -> f64 {
    libm::fabs(value)
}

/// The whole number at or below.
pub(crate) fn floor(value: f64) -> f64 {
    libm::floor(value)
}

/// The greater of two; the other one where one is NaN.
pub(crate) fn max(one: f64, other: f64) -> f64 {
    libm::fmax(one, other)
}

/// The lesser of two; the other one where one is NaN.
pub(crate) fn min(one: f64, other: f64) -> f64 {
    libm::fmin(one, other)
}

/// Square root; of less than nothing: NaN.
pub(crate) fn root(value: f64) -> f64 {
    libm::sqrt(value)
}

/// The whole number at or above.
pub(crate) fn ceil(value: f64) -> f64 {
    libm::ceil(value)
}

/// Cosine of an angle of -90 to 90 degrees, by its series; the first term left out
/// is below 10^-18. (`libm::cos` takes any angle, and 5 KiB of flash.)
pub(crate) fn cosine(degrees: f64) -> f64 {
    let angle = degrees * core::f64::consts::PI / 180.0;
    let (mut term, mut sum) = (1.0, 1.0);
    for half in 1..=11 {
        let n = 2.0 * f64::from(half);
        term *= -angle * angle / (n * (n - 1.0));
        sum += term;
    }
    sum
}

/// The angle in degrees whose cosine this is; NaN outside -1 to 1.
pub(crate) fn angle_of_cosine(cosine: f64) -> f64 {
    libm::acos(cosine) * 180.0 / core::f64::consts::PI
}
