//! Supports and loads as keyed, for the statics.

use super::house::Position;
use crate::decimal::Decimal;
use crate::length::Length;
use crate::words::{Name, Side};

/// What a support is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Material {
    /// Concrete.
    Concrete,
    /// Masonry.
    Masonry,
    /// Wood.
    Wood,
    /// Steel.
    Steel,
}

/// Row `support`.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Support {
    /// `A` and `B` take centre and length from their wall.
    pub name: Name,
    /// Centre; `None` = from the wall.
    pub centre: Option<Position>,
    /// Bearing length along the beam; `None` = from the wall.
    pub length: Option<Length>,
    /// Bearing width across the beam; `None` = not keyed.
    pub width: Option<Length>,
    /// Its material.
    pub material: Material,
    /// Allowable bearing stress, psi or MPa.
    pub allowable: Option<Decimal>,
}

/// What row `post` says of the footing.
pub type Footing = Decimal;

/// Row `post`.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Post {
    /// Name of its support.
    pub support: Name,
    /// Allowable load, lb or kN.
    pub allowable: Decimal,
    /// Allowable of the footing, lb or kN.
    pub footing: Option<Footing>,
}

/// The three kinds of load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum LoadKind {
    /// psf or kPa over a tributary width; extents default to the wall faces.
    Area {
        /// Tributary width.
        tributary: Length,
        /// Start.
        from: Option<Position>,
        /// End.
        to: Option<Position>,
    },
    /// plf or kN/m.
    Line {
        /// Start.
        from: Option<Position>,
        /// End.
        to: Option<Position>,
    },
    /// lb or kN.
    Point {
        /// Where.
        at: Position,
    },
}

/// Where across the beam a load comes down.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum LoadSide {
    /// Not keyed: half to each side, said so.
    #[default]
    Halves,
    /// Hung on one side.
    On(Side),
    /// On top of the steel (point loads).
    Top,
}

/// Row `load`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Load {
    /// Area, line or point.
    pub kind: LoadKind,
    /// Dead part.
    pub dead: Decimal,
    /// Live part.
    pub live: Decimal,
    /// Where across the beam.
    pub side: LoadSide,
}
