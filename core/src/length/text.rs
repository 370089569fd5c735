//! Lengths as text: what people write on cards and tapes, read and written.
use super::Length;
use crate::words::Units;
use core::fmt;

/// Why a text is no length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum LengthError {
    /// Nothing there.
    Empty,
}

/// A length and the units to write it in.
#[derive(Clone, Copy, Debug)]
pub struct Shown(Length, Units);

impl Length {
    /// Writes `14' 3 5/16"` or `4351 mm`.
    pub const fn shown(self, units: Units) -> Shown {
        Shown(self, units)
    }
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?} {:?}", self.0, self.1)
    }
}
