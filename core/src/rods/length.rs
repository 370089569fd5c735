//! How long a rod is, and how far it sticks out.
//!
//! In: what it goes through and what is on it. Out: the length to cut.
//!
//! Rule: packing as it measures + web + washers and nuts at their greatest
//! standard thickness + projection at both ends, rounded up to 1/8 in (2 mm).
//! Source: the sum is geometry; RCSC 2020, 2.3.2 wants the end flush with the
//! nut or past it. Practice: the projection.
//!
//! ```text
//!   proj|nut|washer|  packing  |web|  packing  |washer|nut|proj
//! ```

use crate::hardware::{Hardware, Thickness};
use crate::length::{Length, Rounding};
use crate::words::Units;

/// What a rod goes through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Grip {
    /// Packing of the sides that are packed, as it measures.
    pub packing: Length,
    /// The web.
    pub web: Length,
    /// Washers of both sides; on a bare side the washer lies on the web.
    pub washers: [Thickness; 2],
    /// One of the two nuts.
    pub nut: Thickness,
    /// Wanted beyond each nut.
    pub projection: Length,
}

/// A rod length with what it comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct RodLength {
    /// Length to cut, rounded up.
    pub length: Length,
    /// Least beyond each nut: greatest hardware, both ends alike, rounded down.
    pub short: Length,
    /// Greatest beyond one nut: nominal hardware, the other end at the wanted
    /// projection.
    pub long: Length,
}

impl Grip {
    /// Through packing of this thickness, with the hardware of a job.
    pub const fn new(
        packing: Length,
        web: Length,
        hardware: &Hardware,
        projection: Length,
    ) -> Grip {
        let [n, s] = hardware.washers;
        Grip {
            packing,
            web,
            washers: [n.thickness, s.thickness],
            nut: hardware.nut.thickness,
            projection,
        }
    }

    /// The length to cut: up to 1/8 in, or 2 mm.
    pub fn rod(&self, units: Units) -> RodLength {
        let step = match units {
            Units::Imperial => Length::from_sixteenths(2),
            Units::Metric => Length::from_millimetres(2),
        };
        let greatest = self.through(|part| part.greatest);
        let nominal = self.through(|part| part.nominal);
        let ends = self.projection.saturating_add(self.projection);
        let length = greatest
            .saturating_add(ends)
            .to_multiple(step, Rounding::Up);
        RodLength {
            length,
            short: length.saturating_sub(greatest).half(Rounding::Down),
            long: length
                .saturating_sub(nominal)
                .saturating_sub(self.projection),
        }
    }

    /// From the outer face of one nut to that of the other.
    fn through(&self, pick: fn(Thickness) -> Length) -> Length {
        let [n, s] = self.washers.map(pick);
        let nut = pick(self.nut);
        [self.web, n, s, nut, nut]
            .into_iter()
            .fold(self.packing, Length::saturating_add)
    }
}
