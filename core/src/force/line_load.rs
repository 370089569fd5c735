//! Line load: force per length along the beam; plf, kN/m.

use super::{Force, INCHES, MILLIMETRES, NEWTONS, linear};
use crate::decimal::Decimal;
use crate::length::Length;
use crate::words::Units;
use core::ops::Mul;

/// Force per length along the beam; positive is downward.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct LineLoad(f64);

linear!(LineLoad);

impl LineLoad {
    /// From lb/in.
    pub const fn from_pounds_per_inch(pounds: f64) -> Self {
        LineLoad(pounds)
    }

    /// From plf, lb/ft.
    pub fn from_pounds_per_foot(pounds: f64) -> Self {
        LineLoad(pounds / INCHES)
    }

    /// From kN/m, the same as N/mm.
    pub fn from_kilonewtons_per_metre(kilonewtons: f64) -> Self {
        LineLoad(kilonewtons * MILLIMETRES / NEWTONS)
    }

    /// As keyed: plf, or kN/m in a metric job.
    pub fn keyed(figure: Decimal, units: Units) -> Self {
        match units {
            Units::Imperial => LineLoad::from_pounds_per_foot(figure.value()),
            Units::Metric => LineLoad::from_kilonewtons_per_metre(figure.value()),
        }
    }

    /// lb/in.
    pub const fn as_pounds_per_inch(self) -> f64 {
        self.0
    }

    /// plf, lb/ft.
    pub fn as_pounds_per_foot(self) -> f64 {
        self.0 * INCHES
    }

    /// kN/m.
    pub fn as_kilonewtons_per_metre(self) -> f64 {
        self.0 * NEWTONS / MILLIMETRES
    }
}

/// Line load times the length it stands on.
impl Mul<Length> for LineLoad {
    type Output = Force;
    fn mul(self, length: Length) -> Force {
        Force::from_pounds(self.0 * length.as_inches())
    }
}
