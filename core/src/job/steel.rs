//! The beam itself, and how the floor meets it.

use crate::decimal::Decimal;
use crate::length::Length;
use heapless::String;

/// A designation as keyed, upper case: `W10X33`, `W250X49.1` or `CUSTOM`.
pub type Designation = String<12, u8>;

/// Whether the length was measured on delivered steel.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum BeamLength {
    /// As ordered: nothing is offered from end B.
    Ordered,
    /// Measured.
    #[default]
    Measured,
}

/// Row `beam`.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Beam {
    /// Of the built-in table, or `CUSTOM`.
    pub designation: Designation,
    /// End A to end B.
    pub length: Length,
    /// Ordered or measured.
    pub measured: BeamLength,
}

/// Row `shape`: a W-shape that is not in the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Shape {
    /// Overall depth d.
    pub depth: Length,
    /// Flange width bf.
    pub width: Length,
    /// Web thickness tw.
    pub web: Length,
    /// Flange thickness tf.
    pub flange: Length,
    /// Outer flange face to web toe of the fillet, for strength.
    pub k_design: Length,
    /// The same for fit.
    pub k_detail: Length,
    /// Web centre line to flange toe of the fillet.
    pub k1: Length,
    /// lb/ft or kg/m, as the job's units say.
    pub weight: Decimal,
    /// in4 or 10^6 mm4.
    pub ix: Option<Decimal>,
    /// in3 or 10^3 mm3.
    pub sx: Option<Decimal>,
    /// in3 or 10^3 mm3.
    pub zx: Option<Decimal>,
}

/// Row `steel`: strengths in ksi or MPa.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Steel {
    /// Yield.
    pub fy: Decimal,
    /// Tensile.
    pub fu: Option<Decimal>,
}

/// A flange by its paint.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Flange {
    /// The flange painted TOP.
    Top,
    /// The flange painted BOT.
    Bottom,
}

/// Row `floor`: how the joists of a side meet the steel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Floor {
    /// Joist depth.
    pub joist_depth: Length,
    /// Joist top above (+) or below (-) the top of the steel; default 0.
    pub offset: Option<Length>,
    /// Subfloor thickness.
    pub subfloor: Option<Length>,
}
