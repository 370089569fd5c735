//! Ripping: how high each layer of packing is cut.
//!
//! In: the pocket, where a layer starts off the web, its thickness. Out: its
//! height, and whether it stands on the bottom flange.
//!
//! Rule: the full clear height less 1/16 in (1.5 mm). A layer that starts
//! nearer to the web than the fillet reaches meets the fillet: its inside
//! arrises are chamfered; where the whole layer lies within the fillet's reach
//! nothing would be left to stand on, so it is ripped to the flat of the web
//! and does not seat on the flange. Practice: no published source.
//!
//! ```text
//!        web |  ___________  flange
//!            | /|  chamfered |
//!   fillet   |( |            |
//!            |  |<- start    |
//! ```

use crate::length::Length;
use crate::shapes::Section;
use crate::words::Units;

/// The pocket that packing goes into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Space {
    /// Clear height between the flanges less 1/16 in (1.5 mm).
    pub full: Length,
    /// Flat of the web, T.
    pub flat: Length,
    /// How far the fillet runs out along the flange, k1 - tw / 2, rounded up.
    pub reach: Length,
}

/// How one layer is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Ripped {
    /// Height, exact.
    pub height: Length,
    /// Stands on the bottom flange.
    pub seats: bool,
    /// Its inside arrises are taken off for the fillet.
    pub chamfered: bool,
}

impl Space {
    /// The pocket of a section.
    pub const fn of(section: &Section, units: Units) -> Space {
        let less = match units {
            Units::Imperial => Length::from_sixteenths(1),
            Units::Metric => Length::from_tenth_millimetres(15),
        };
        Space {
            full: section.clear_height().saturating_sub(less),
            flat: section.flat(),
            reach: section.fillet_reach(),
        }
    }
}

/// How to rip a layer that starts `start` off the web.
pub fn rip(space: &Space, start: Length, thickness: Length) -> Ripped {
    let meets = start < space.reach;
    let within = start.saturating_add(thickness) <= space.reach;
    if meets && within {
        return Ripped {
            height: space.flat,
            seats: false,
            chamfered: false,
        };
    }
    Ripped {
        height: space.full,
        seats: true,
        chamfered: meets,
    }
}
