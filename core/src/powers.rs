//! Roots, powers and angles: the one place where float maths goes through
//! `libm`, by full path, so that host and board come to the same bits.
//!
//! In: plain numbers. Out: plain numbers; what has no answer is not a number,
//! and whoever makes a check refuses that (`check.rs`).

/// Square root.
pub fn root(x: f64) -> f64 {
    libm::sqrt(x)
}

/// `x` to the power of `exponent`.
pub fn power(x: f64, exponent: f64) -> f64 {
    libm::pow(x, exponent)
}

/// The whole number at or below `x`.
pub fn whole_below(x: f64) -> f64 {
    libm::floor(x)
}

/// The whole number at or above `x`.
pub fn whole_above(x: f64) -> f64 {
    libm::ceil(x)
}

/// Cosine of an angle in degrees.
pub fn cosine(degrees: f64) -> f64 {
    libm::cos(degrees * core::f64::consts::PI / 180.0)
}

/// The angle in degrees whose cosine this is.
pub fn angle_of_cosine(cosine: f64) -> f64 {
    libm::acos(cosine) * 180.0 / core::f64::consts::PI
}
