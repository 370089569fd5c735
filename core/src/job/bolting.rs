//! The engineer's bolting rules, the hardware, and the holes as they are.

use super::house::{Hook, Position};
use crate::decimal::Decimal;
use crate::length::Length;
use crate::words::{Name, Row};

/// Row `bolt`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Bolt {
    /// Nominal diameter D.
    pub diameter: Length,
    /// Hole in the web; `None` = standard.
    pub web_hole: Option<Length>,
    /// Hole through the wood; `None` = the default.
    pub wood_hole: Option<Length>,
    /// Bending yield strength, ksi or MPa.
    pub fyb: Option<Decimal>,
}

/// Shape of a washer and whether it may turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum WasherShape {
    /// Size is the outside diameter.
    Round,
    /// Size is the side; kept square to the beam.
    Square,
    /// Size is the side; may turn, so its diagonal counts.
    Turns,
}

/// Row `washer`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Washer {
    /// Outside diameter or side, nominal.
    pub size: Length,
    /// Round, square, or square that may turn.
    pub shape: WasherShape,
    /// As keyed; `None` = greatest standard thickness.
    pub thickness: Option<Length>,
}

/// Row `nut`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Nut {
    /// As keyed.
    pub thickness: Length,
    /// Greatest width across corners; `None` = standard of the bolt.
    pub across_corners: Option<Length>,
}

/// Row `pattern`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Pattern {
    /// One row (top).
    Single,
    /// Rows take turns.
    #[default]
    Staggered,
    /// Both rows at every mark.
    Paired,
}

/// Row `rows`: heights above the inside face of the bottom flange.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PatternRows {
    /// Top row.
    pub top: Length,
    /// Bottom row.
    pub bot: Length,
}

/// What the note's spacing counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum SpacingBasis {
    /// A bolt every S.
    Every,
    /// Each row every S.
    Row,
}

/// Row `spacing`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Spacing {
    /// S of the note.
    pub spacing: Length,
    /// Every bolt or each row.
    pub basis: SpacingBasis,
    /// Kept in hand for marking; `None` = the default.
    pub hold_back: Option<Length>,
    /// Least spacing; `None` = 5D.
    pub minimum: Option<Length>,
}

/// Row `ends`: first and last bolt of each packing piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Ends {
    /// Nearest to the end.
    pub least: Length,
    /// Farthest from the end.
    pub most: Length,
    /// Whether they are pairs; `None` = single.
    pub paired: Option<bool>,
}

/// How many stations a `near` rule asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Reach {
    /// One within the distance.
    One,
    /// One on each side.
    Each,
}

/// Row `near`.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Near {
    /// The point.
    pub at: Position,
    /// How near.
    pub within: Length,
    /// One, or one each side.
    pub reach: Reach,
    /// Whether they are pairs.
    pub paired: bool,
    /// May be empty.
    pub name: Name,
}

/// What has happened to a hole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum HoleState {
    /// Punched, not drilled.
    Marked,
    /// Drilled: it stays.
    Drilled,
    /// Drilled and not used: kept clear of.
    Abandoned,
}

/// Rows `marked`, `drilled`, `abandoned`. There may be 240: kept small.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Hole {
    reading: Length,
    hook: Hook,
    /// Its row.
    pub row: Row,
    /// Its state.
    pub state: HoleState,
}

impl Hole {
    /// A hole where it was read.
    pub const fn new(at: Position, row: Row, state: HoleState) -> Hole {
        Hole {
            reading: at.reading,
            hook: at.hook,
            row,
            state,
        }
    }

    /// Where, as read.
    pub const fn at(&self) -> Position {
        Position {
            reading: self.reading,
            hook: self.hook,
        }
    }
}
