//! Area load: force per floor area; psf, kPa.

use super::{INCHES, LineLoad, MILLIMETRES, NEWTONS, linear};
use crate::decimal::Decimal;
use crate::length::Length;
use crate::words::Units;
use core::ops::Mul;

/// Force per floor area; positive is downward.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct AreaLoad(f64);

linear!(AreaLoad);

impl AreaLoad {
    /// From psf, lb/ft2.
    pub fn from_pounds_per_square_foot(pounds: f64) -> Self {
        AreaLoad(pounds / (INCHES * INCHES))
    }

    /// From kPa, kN/m2.
    pub fn from_kilopascals(kilopascals: f64) -> Self {
        AreaLoad(kilopascals * MILLIMETRES * MILLIMETRES / (1e3 * NEWTONS))
    }

    /// As keyed: psf, or kPa in a metric job.
    pub fn keyed(figure: Decimal, units: Units) -> Self {
        match units {
            Units::Imperial => AreaLoad::from_pounds_per_square_foot(figure.value()),
            Units::Metric => AreaLoad::from_kilopascals(figure.value()),
        }
    }

    /// psf, lb/ft2.
    pub fn as_pounds_per_square_foot(self) -> f64 {
        self.0 * INCHES * INCHES
    }

    /// kPa, kN/m2.
    pub fn as_kilopascals(self) -> f64 {
        self.0 * 1e3 * NEWTONS / (MILLIMETRES * MILLIMETRES)
    }
}

/// Area load times the tributary width.
impl Mul<Length> for AreaLoad {
    type Output = LineLoad;
    fn mul(self, tributary: Length) -> LineLoad {
        LineLoad::from_pounds_per_inch(self.0 * tributary.as_inches())
    }
}
