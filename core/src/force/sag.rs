//! Sag: how far a loaded beam moves; inches, millimetres. Far below a tape's
//! marks, so it is no [`crate::Length`]: nothing is laid out by it.

use super::{MILLIMETRES, linear};

/// A computed movement of the beam; positive is downward.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Sag(f64);

linear!(Sag);

impl Sag {
    /// From inches.
    pub const fn from_inches(inches: f64) -> Self {
        Sag(inches)
    }

    /// From millimetres.
    pub fn from_millimetres(millimetres: f64) -> Self {
        Sag(millimetres / MILLIMETRES)
    }

    /// Inches.
    pub const fn as_inches(self) -> f64 {
        self.0
    }

    /// Millimetres.
    pub fn as_millimetres(self) -> f64 {
        self.0 * MILLIMETRES
    }
}
