//! What surrounds the beam: positions and their hooks, walls, pockets,
//! obstacles, zones, packing.

use crate::length::Length;
use crate::words::{End, Name, Side, Sides};

/// Where a position was read from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Hook {
    /// End A of the steel, measured toward B: a bare position.
    #[default]
    EndA,
    /// End B of the steel, measured toward A.
    EndB,
    /// Wall face A, measured toward B.
    WallA,
    /// Wall face B, measured toward A.
    WallB,
}

/// A position as read: `50 1/4 wall A`. Turned into a station only when used.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Position {
    /// The reading.
    pub reading: Length,
    /// What the tape hung on.
    pub hook: Hook,
}

impl Position {
    /// A station: a position read from end A.
    pub const fn from_end_a(reading: Length) -> Self {
        Position {
            reading,
            hook: Hook::EndA,
        }
    }
}

/// Whether a thing stays with the house or rides with the beam when the beam
/// ends up off its mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Stays {
    /// With the house.
    Stays,
    /// With the beam.
    Rides,
}

/// Row `square`: on that side the wall face as hooked lies `offset` toward B of
/// the wall plane at the beam.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Square {
    /// The side whose runs are meant.
    pub side: Side,
    /// The wall.
    pub end: End,
    /// Toward B, may be negative.
    pub offset: Length,
}

/// Row `pocket`: the recess in the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Pocket {
    /// From the wall face inward.
    pub depth: Length,
    /// Clear height.
    pub height: Option<Length>,
    /// Clear width.
    pub width: Option<Length>,
}

/// What a keep-out does to a bolt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum KeepoutKind {
    /// Row `obstacle`, solid: touches the packing face; washer and clear gap
    /// stay off it.
    Solid,
    /// Row `obstacle`, access: drill and wrench cannot get there from that side.
    Access,
    /// Row `zone`: a rule; no bolt centre strictly inside. Its sides are both.
    Zone,
}

/// Rows `obstacle` and `zone`, in card order.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Keepout {
    /// Where it stands; both for a zone.
    pub sides: Sides,
    /// Start, as read.
    pub from: Position,
    /// End, as read.
    pub to: Position,
    /// Solid, access or zone.
    pub kind: KeepoutKind,
    /// With the house or with the beam.
    pub stays: Stays,
    /// May be empty.
    pub name: Name,
}

/// Row `packing`: one piece of packing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PackingPiece {
    /// Start, as read.
    pub from: Position,
    /// End, as read.
    pub to: Position,
    /// Both sides or one.
    pub sides: Sides,
}
