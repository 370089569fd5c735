//! What is on hand: packing layers, rods, offcuts.

use crate::decimal::Decimal;
use crate::length::Length;
use crate::words::Name;

/// Whether a layer can take hanger nails on the outside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum LayerKind {
    /// Solid lumber.
    Solid,
    /// Sheet.
    Sheet,
}

/// Moisture of a layer as keyed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Moisture {
    /// Green: taken as 28 %.
    Green,
    /// Percent.
    Percent(Decimal),
}

/// Row `layer`.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Layer {
    /// As on the card.
    pub name: Name,
    /// As measured.
    pub thickness: Length,
    /// Solid or sheet.
    pub kind: LayerKind,
    /// `None` = does not dry.
    pub moisture: Option<Moisture>,
    /// Layers for this beam, both sides together; `None` = as many as needed.
    pub count: Option<u16>,
}

/// Row `face`: how far the packing face may stand off the flange tips.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Face {
    /// Inside the tips.
    pub shy: Length,
    /// Outside the tips.
    pub proud: Length,
    /// Aim, may be negative; `None` = 0.
    pub aim: Option<Length>,
}

/// Row `wood`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Species {
    /// Spruce-pine-fir.
    Spf,
    /// Douglas fir-larch.
    DfL,
    /// Hem-fir.
    Hf,
    /// Southern pine.
    Sp,
}

/// Where a stick comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum StickSource {
    /// Row `rod`: bought.
    Rod,
    /// Row `offcut`: on hand, free.
    Offcut,
}

/// Rows `rod` and `offcut`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Stick {
    /// Stock length.
    pub length: Length,
    /// `None` = as many as needed; an offcut always has a count.
    pub count: Option<u16>,
    /// Bought or on hand.
    pub source: StickSource,
}

/// Row `piece`: another length from the same stock.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct OtherPiece {
    /// Length.
    pub length: Length,
    /// How many.
    pub count: u16,
    /// May be empty.
    pub name: Name,
}

/// Row `cut`: bars that are cut already, all by one cut list.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct BarsCut {
    /// The list's code: [`crate::code::cut_list`]. It counts for no other list.
    pub list: Name,
    /// How many bars; at least 1.
    pub bars: u16,
}
