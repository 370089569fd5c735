//! Tape runs as read: hooks, edges, burns, raw readings, checks.

use super::house::Position;
use crate::decimal::Decimal;
use crate::length::Length;
use crate::words::{End, Name, Side};

/// What a run's tape hung on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum RunHook {
    /// A wall face: the run goes away from it.
    Wall(End),
    /// An end of the steel: the run goes toward the other.
    Steel(End),
    /// A struck mark; the direction is keyed.
    Mark(Position, End),
}

/// Which edge of each joist was read, as the tape runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Edge {
    /// The edge that the tape meets first.
    Near,
    /// The centre line.
    Centre,
    /// The edge that the tape meets last.
    Far,
}

/// How finely the tape is read: a setting of the keys, not of the arithmetic.
pub type ReadTo = Length;

/// Row `tape`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Run {
    /// The side whose joists are read.
    pub side: Side,
    /// Where the tape hangs and which way it runs.
    pub hook: RunHook,
    /// The edge that is read.
    pub edge: Edge,
    /// The tape's mark held at the hook; `None` = 0.
    pub burn: Option<Length>,
    /// Joist thickness of the run; `None` = the default.
    pub thickness: Option<Length>,
    /// Finest fraction read; `None` = the default.
    pub read_to: Option<ReadTo>,
    /// Row `override`: an out-of-tolerance run that shall stand.
    pub overridden: bool,
}

/// Which hanger a joist has.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum HangerRef {
    /// The first `hanger` row, or the built-in default where there is none.
    #[default]
    Default,
    /// The built-in `none`: no metal beyond the faces.
    None,
    /// The hanger row of this index.
    Row(u8),
}

/// Row `joist`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct JoistReading {
    /// Raw, burn not yet taken off.
    pub reading: Length,
    /// Where it differs from the run's.
    pub thickness: Option<Length>,
    /// Its hanger.
    pub hanger: HangerRef,
    /// Index into [`crate::Job::runs`].
    pub run: u8,
    /// Accepted untouched from a guess: it must not prove itself.
    pub guessed: bool,
}

/// A reading that proves a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum CheckKind {
    /// With the tape still hooked, at a known point.
    Check,
    /// From the last joist's same edge to a known point; never burnt.
    Close,
}

/// Rows `check` and `close`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Check {
    /// Check or close.
    pub kind: CheckKind,
    /// As read.
    pub reading: Length,
    /// The known point.
    pub point: Position,
    /// Index into [`crate::Job::runs`].
    pub run: u8,
    /// Accepted untouched from a guess.
    pub guessed: bool,
}

/// Row `hanger`.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Hanger {
    /// As on the card.
    pub name: Name,
    /// Metal beyond each joist face; `None` = the default.
    pub metal: Option<Length>,
    /// From its seat upward; `None` = counts in every row.
    pub height: Option<Length>,
    /// lb or kN.
    pub rated: Option<Decimal>,
}

/// Row `nail`.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Nail {
    /// As on the card.
    pub name: Name,
    /// Length.
    pub length: Length,
    /// Diameter.
    pub diameter: Length,
    /// Degrees from square to the face.
    pub slant: Option<Decimal>,
}

/// Row `stand`: seen from `side`, which hand end A is at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Stand {
    /// Where one stands, facing the beam.
    pub side: Side,
    /// Whether end A is at the left hand.
    pub a_at_left: bool,
}
