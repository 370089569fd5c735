//! The frame: where the wall faces lie on the steel, and what station a
//! position stands for.
//!
//! In: a job. Out: stations from end A. Wall face A lies at the bearing length
//! at A; face B at face A plus the clear distance, or at length less the
//! bearing at B where clear was not measured.

use crate::job::Position;
use crate::length::Length;
use crate::words::End;

/// Stations of the steel's ends and of the wall faces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Frame {
    /// Station of end B.
    pub length: Length,
    /// Whether the length was measured; while ordered nothing is offered from end B.
    pub measured: bool,
    /// Stations of wall faces A and B, where a wall stands (unshifted).
    pub faces: [Option<Length>; 2],
    /// Resulting bearing length at A and B, where a wall stands.
    pub bearings: [Option<Length>; 2],
    /// How far the beam ended up toward B of its mark (row `placed`, else 0).
    pub shift: Length,
}

/// Why a position has no station.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum FrameError {
    /// No row `beam`.
    NoBeam,
    /// Hooked on a wall that is not on the card.
    NoWall(End),
    /// Off the steel, or beyond any length.
    OffSteel(Position),
}
