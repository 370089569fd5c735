//! Stress and strength: force per area of material; psi, ksi, MPa.

use super::{Force, KIP, MILLIMETRES, NEWTONS, linear};
use crate::decimal::Decimal;
use crate::length::Length;
use crate::words::Units;

/// Force per area of material.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Stress(f64);

linear!(Stress);

/// MPa (N/mm2) in one psi.
const MEGAPASCALS: f64 = NEWTONS / (MILLIMETRES * MILLIMETRES);

impl Stress {
    /// From psi.
    pub const fn from_psi(psi: f64) -> Self {
        Stress(psi)
    }

    /// From ksi.
    pub fn from_ksi(ksi: f64) -> Self {
        Stress(ksi * KIP)
    }

    /// From MPa.
    pub fn from_megapascals(megapascals: f64) -> Self {
        Stress(megapascals / MEGAPASCALS)
    }

    /// A strength of steel as keyed: ksi, or MPa in a metric job.
    pub fn keyed_ksi(figure: Decimal, units: Units) -> Self {
        match units {
            Units::Imperial => Stress::from_ksi(figure.value()),
            Units::Metric => Stress::from_megapascals(figure.value()),
        }
    }

    /// An allowable bearing stress as keyed: psi, or MPa in a metric job.
    pub fn keyed_psi(figure: Decimal, units: Units) -> Self {
        match units {
            Units::Imperial => Stress::from_psi(figure.value()),
            Units::Metric => Stress::from_megapascals(figure.value()),
        }
    }

    /// A force spread evenly over `length` by `width`.
    pub fn over(force: Force, length: Length, width: Length) -> Self {
        Stress(force.as_pounds() / (length.as_inches() * width.as_inches()))
    }

    /// The force that this stress makes on `length` by `width`.
    pub fn on(self, length: Length, width: Length) -> Force {
        Force::from_pounds(self.0 * length.as_inches() * width.as_inches())
    }

    /// psi.
    pub const fn as_psi(self) -> f64 {
        self.0
    }

    /// ksi.
    pub fn as_ksi(self) -> f64 {
        self.0 / KIP
    }

    /// MPa.
    pub fn as_megapascals(self) -> f64 {
        self.0 * MEGAPASCALS
    }
}
