//! Forces and what they do: force, line load, area load, stress, moment, sag.
//!
//! In: pounds, kips, newtons and their like by named constructors, or a decimal
//! off a card in the job's units. Out: the same by named getters. Inside is one
//! coherent system, pound and inch, so that no formula holds a factor; only
//! operators that make sense compile. Source of the factors: NIST SP 811,
//! Appendix B.8 (1 lbf = 4.448 221 615 260 5 N, 1 in = 25.4 mm, both exact).
//!
//! ```compile_fail,E0308
//! use boltbay_core::force::{Force, Moment};
//! let nonsense = Force::from_pounds(1.0) + Moment::from_pound_feet(1.0);
//! ```

mod area_load;
mod line_load;
mod moment;
mod sag;
mod stress;

pub use area_load::AreaLoad;
pub use line_load::LineLoad;
pub use moment::Moment;
pub use sag::Sag;
pub use stress::Stress;

use crate::decimal::Decimal;
use crate::length::Length;
use crate::words::Units;
use core::ops::Mul;

/// Newtons in a pound-force. Source: NIST SP 811, Appendix B.8, exact.
const NEWTONS: f64 = 4.448_221_615_260_5;
/// Millimetres in an inch. Source: NIST SP 811, Appendix B.8, exact.
const MILLIMETRES: f64 = 25.4;
/// Inches in a foot.
const INCHES: f64 = 12.0;
/// Pounds in a kip.
const KIP: f64 = 1_000.0;

/// Sum, difference, sign, multiple, part and sum of many of one kind: what
/// every quantity here may do with its like and with plain numbers.
macro_rules! linear {
    ($kind:ident) => {
        impl core::ops::Add for $kind {
            type Output = $kind;
            fn add(self, other: $kind) -> $kind {
                $kind(self.0 + other.0)
            }
        }
        impl core::ops::Sub for $kind {
            type Output = $kind;
            fn sub(self, other: $kind) -> $kind {
                $kind(self.0 - other.0)
            }
        }
        impl core::ops::Neg for $kind {
            type Output = $kind;
            fn neg(self) -> $kind {
                $kind(-self.0)
            }
        }
        impl core::ops::Mul<f64> for $kind {
            type Output = $kind;
            fn mul(self, times: f64) -> $kind {
                $kind(self.0 * times)
            }
        }
        impl core::ops::Div<f64> for $kind {
            type Output = $kind;
            fn div(self, parts: f64) -> $kind {
                $kind(self.0 / parts)
            }
        }
        /// How many times the other goes into this one.
        impl core::ops::Div for $kind {
            type Output = f64;
            fn div(self, other: $kind) -> f64 {
                self.0 / other.0
            }
        }
        impl core::iter::Sum for $kind {
            fn sum<I: Iterator<Item = $kind>>(all: I) -> $kind {
                $kind(all.map(|one| one.0).sum())
            }
        }
        impl $kind {
            /// None of it.
            pub const ZERO: $kind = $kind(0.0);

            /// Size without sign.
            pub fn abs(self) -> $kind {
                $kind(crate::float::abs(self.0))
            }

            /// The greater of two.
            pub fn max(self, other: $kind) -> $kind {
                $kind(crate::float::max(self.0, other.0))
            }

            /// The lesser of two.
            pub fn min(self, other: $kind) -> $kind {
                $kind(crate::float::min(self.0, other.0))
            }
        }
    };
}
use linear;

/// A force; a reaction is positive where the support pushes up.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Force(f64);

linear!(Force);

impl Force {
    /// From pounds-force.
    pub const fn from_pounds(pounds: f64) -> Self {
        Force(pounds)
    }

    /// From kips of 1,000 lb.
    pub fn from_kips(kips: f64) -> Self {
        Force(kips * KIP)
    }

    /// From newtons.
    pub fn from_newtons(newtons: f64) -> Self {
        Force(newtons / NEWTONS)
    }

    /// From kilonewtons.
    pub fn from_kilonewtons(kilonewtons: f64) -> Self {
        Force(kilonewtons * 1e3 / NEWTONS)
    }

    /// As keyed: lb, or kN in a metric job.
    pub fn keyed(figure: Decimal, units: Units) -> Self {
        match units {
            Units::Imperial => Force::from_pounds(figure.value()),
            Units::Metric => Force::from_kilonewtons(figure.value()),
        }
    }

    /// Pounds-force.
    pub const fn as_pounds(self) -> f64 {
        self.0
    }

    /// Kips of 1,000 lb.
    pub fn as_kips(self) -> f64 {
        self.0 / KIP
    }

    /// Newtons.
    pub fn as_newtons(self) -> f64 {
        self.0 * NEWTONS
    }

    /// Kilonewtons.
    pub fn as_kilonewtons(self) -> f64 {
        self.0 * NEWTONS / 1e3
    }

    /// This force spread evenly over a length.
    pub fn over(self, length: Length) -> LineLoad {
        LineLoad::from_pounds_per_inch(self.0 / length.as_inches())
    }
}

/// Force times arm.
impl Mul<Length> for Force {
    type Output = Moment;
    fn mul(self, arm: Length) -> Moment {
        Moment::from_pound_inches(self.0 * arm.as_inches())
    }
}
