//! Moment: force times arm; lb-ft, kip-ft, kN m.

use super::{INCHES, KIP, MILLIMETRES, NEWTONS, linear};

/// Force times arm. Of a beam: positive where it sags (bottom flange in
/// tension), negative over a support that it hogs across.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Moment(f64);

linear!(Moment);

/// kN m in one lb-in.
const KILONEWTON_METRES: f64 = NEWTONS * MILLIMETRES / 1e6;

impl Moment {
    /// From lb-in.
    pub const fn from_pound_inches(moment: f64) -> Self {
        Moment(moment)
    }

    /// From lb-ft.
    pub fn from_pound_feet(moment: f64) -> Self {
        Moment(moment * INCHES)
    }

    /// From kip-ft.
    pub fn from_kip_feet(moment: f64) -> Self {
        Moment(moment * KIP * INCHES)
    }

    /// From kN m.
    pub fn from_kilonewton_metres(moment: f64) -> Self {
        Moment(moment / KILONEWTON_METRES)
    }

    /// lb-in.
    pub const fn as_pound_inches(self) -> f64 {
        self.0
    }

    /// lb-ft.
    pub fn as_pound_feet(self) -> f64 {
        self.0 / INCHES
    }

    /// kip-ft.
    pub fn as_kip_feet(self) -> f64 {
        self.0 / (KIP * INCHES)
    }

    /// kN m.
    pub fn as_kilonewton_metres(self) -> f64 {
        self.0 * KILONEWTON_METRES
    }
}
