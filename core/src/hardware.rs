//! Bolts, nuts, washers and holes of a job, keyed or standard.
//!
//! In: a job. Out: [`Hardware`], with a note of what was keyed and what stood
//! in, and R, the distance from a bolt's centre to the outermost metal that
//! must touch nothing. Rule: R takes the nominal washer and the greatest nut
//! corners; rods take the greatest thicknesses. Source: `hardware/standard.rs`.
//!
//! ```text
//!   round, of size s   kept square      may turn          nut
//!      R = s / 2        R = s / 2     R = s / sqrt 2   R = corners / 2
//! ```

pub mod cautions;
mod standard;

pub use cautions::hardware_cautions;
pub use standard::{Pitch, STANDARDS, Standard, StandardNut, StandardWasher, Thickness, Thread};

use crate::job::{Job, Nut, Washer, WasherShape};
use crate::length::{Length, Rounding};
use crate::words::{Side, Units};
use heapless::Vec;

/// A washer as it will be fitted on one side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct FittedWasher {
    /// Outside diameter or side, nominal.
    pub size: Length,
    /// Round, kept square, or square that may turn.
    pub shape: WasherShape,
    /// Keyed (then both alike), or the standard's.
    pub thickness: Thickness,
}

/// A nut as it will be fitted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct FittedNut {
    /// Keyed (then both alike), or the standard's.
    pub thickness: Thickness,
    /// Greatest width across corners.
    pub across_corners: Length,
}

/// Which figures stood in because the card says nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Defaulted {
    /// The hole in the web.
    pub web_hole: bool,
    /// The hole through the wood.
    pub wood_hole: bool,
    /// The washer, by side.
    pub washers: [bool; 2],
    /// The washer's thickness, by side.
    pub washer_thickness: [bool; 2],
    /// The nut.
    pub nut: bool,
}

/// The hardware of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Hardware {
    /// Nominal bolt diameter D.
    pub diameter: Length,
    /// Hole in the web.
    pub web_hole: Length,
    /// Hole through the wood.
    pub wood_hole: Length,
    /// Washer, by side.
    pub washers: [FittedWasher; 2],
    /// Nut.
    pub nut: FittedNut,
    /// What of this is not on the card.
    pub defaulted: Defaulted,
}

impl Hardware {
    /// The hardware of a job; `None` where [`missing`] has something to say.
    pub fn of(job: &Job) -> Option<Hardware> {
        let bolt = job.bolt?;
        let standard = Standard::of(bolt.diameter);
        let [n, s] = job.washers;
        let (washer_n, thickness_n) = fitted_washer(n, standard)?;
        let (washer_s, thickness_s) = fitted_washer(s, standard)?;
        let nut = fitted_nut(job.nut, standard)?;
        Some(Hardware {
            diameter: bolt.diameter,
            web_hole: bolt
                .web_hole
                .unwrap_or(standard_web_hole(bolt.diameter, job.units)),
            wood_hole: bolt
                .wood_hole
                .unwrap_or(usual_wood_hole(bolt.diameter, job.units)),
            washers: [washer_n, washer_s],
            nut,
            defaulted: Defaulted {
                web_hole: bolt.web_hole.is_none(),
                wood_hole: bolt.wood_hole.is_none(),
                washers: [n.is_none(), s.is_none()],
                washer_thickness: [thickness_n, thickness_s],
                nut: job.nut.is_none(),
            },
        })
    }

    /// The washer of a side.
    pub const fn washer(&self, side: Side) -> FittedWasher {
        let [n, s] = self.washers;
        match side {
            Side::N => n,
            Side::S => s,
        }
    }

    /// R of a side: from the bolt's centre to the outermost metal of washer or
    /// nut, rounded up to a count so that nothing is closer than it says.
    pub const fn radius(&self, side: Side) -> Length {
        let washer = self.washer(side);
        self.radius_with(washer.size, washer.shape)
    }

    /// R with another washer: what a way out would give.
    pub const fn radius_with(&self, size: Length, shape: WasherShape) -> Length {
        let washer = washer_radius(size, shape);
        let nut = self.nut.across_corners.half(Rounding::Up);
        if washer.counts() > nut.counts() {
            washer
        } else {
            nut
        }
    }

    /// Sizes of the built-in washers of this bolt that are smaller than `size`,
    /// largest first; none for a bolt that is not in the table.
    pub fn smaller_washers(&self, size: Length) -> impl Iterator<Item = Length> {
        washer_sizes(self.diameter).filter(move |&smaller| smaller < size)
    }
}

/// Sizes of the built-in round washers of a bolt, largest first; none for a
/// bolt that is not in the table.
pub fn washer_sizes(diameter: Length) -> impl Iterator<Item = Length> {
    Standard::of(diameter)
        .into_iter()
        .flat_map(|standard| &standard.washers)
        .map(|washer| washer.size)
}

/// Kinds of rows without which there is no hardware: `bolt`; `washer` and
/// `nut` (with thickness and corners) for a bolt that no standard of the table
/// knows.
pub fn missing(job: &Job) -> Vec<&'static str, 3, u8> {
    let mut kinds = Vec::new();
    let Some(bolt) = job.bolt else {
        let _ = kinds.push("bolt");
        return kinds;
    };
    let standard = Standard::of(bolt.diameter);
    let washers = job.washers;
    if washers
        .into_iter()
        .any(|washer| fitted_washer(washer, standard).is_none())
    {
        let _ = kinds.push("washer");
    }
    if fitted_nut(job.nut, standard).is_none() {
        let _ = kinds.push("nut");
    }
    kinds
}

/// From a washer's centre to its outermost point, rounded up to a count.
pub const fn washer_radius(size: Length, shape: WasherShape) -> Length {
    match shape {
        WasherShape::Round | WasherShape::Square => size.half(Rounding::Up),
        WasherShape::Turns => half_diagonal(size),
    }
}

/// Half the diagonal of a square, side / sqrt 2: the least count r with
/// 2 r2 >= side2.
const fn half_diagonal(side: Length) -> Length {
    let side = side.counts().unsigned_abs() as u64;
    let twice = side * side;
    let below = (twice / 2).isqrt();
    let up = if 2 * below * below < twice { 1 } else { 0 };
    Length::from_counts((below + up) as i32)
}

/// Standard hole in the web for a bolt.
///
/// Source: AISC 360-22 Table J3.3 and J3.3M; sizes between and beyond its rows
/// follow its last ones (D + 1/16 in below 1 in, else D + 1/8 in; D + 2 mm
/// below 24 mm, else D + 3 mm); RCSC 2020 Table 3.1 has the same.
pub fn standard_web_hole(diameter: Length, units: Units) -> Length {
    if let Some(standard) = Standard::of(diameter) {
        return standard.web_hole;
    }
    let more = match units {
        Units::Imperial if diameter < Length::from_inches(1) => Length::from_sixteenths(1),
        Units::Imperial => Length::from_sixteenths(2),
        Units::Metric if diameter < Length::from_millimetres(24) => Length::from_millimetres(2),
        Units::Metric => Length::from_millimetres(3),
    };
    diameter.saturating_add(more)
}

/// Hole through the wood: D + 1/16 in, D + 1.5 mm.
/// Source: NDS 2024 12.1.3.2, 1/32 to 1/16 in larger than the bolt.
pub fn usual_wood_hole(diameter: Length, units: Units) -> Length {
    diameter.saturating_add(match units {
        Units::Imperial => Length::from_sixteenths(1),
        Units::Metric => Length::from_tenth_millimetres(15),
    })
}

/// The washer of one side, and whether its thickness stood in.
fn fitted_washer(
    keyed: Option<Washer>,
    standard: Option<&Standard>,
) -> Option<(FittedWasher, bool)> {
    let Some(washer) = keyed else {
        let usual = standard?.usual_washer();
        let fitted = FittedWasher {
            size: usual.size,
            shape: WasherShape::Round,
            thickness: usual.thickness,
        };
        return Some((fitted, true));
    };
    let thickness = match washer.thickness {
        Some(thickness) => Thickness {
            nominal: thickness,
            greatest: thickness,
        },
        None => thickness_of(washer, standard?),
    };
    let fitted = FittedWasher {
        size: washer.size,
        shape: washer.shape,
        thickness,
    };
    Some((fitted, washer.thickness.is_none()))
}

/// Thickness of a keyed washer that has none: that of the built-in washer of
/// its size, else of the usual one.
fn thickness_of(washer: Washer, standard: &Standard) -> Thickness {
    let built_in = standard
        .washers
        .iter()
        .find(|built_in| washer.shape == WasherShape::Round && built_in.size == washer.size);
    built_in.unwrap_or(standard.usual_washer()).thickness
}

/// The nut: keyed, with the standard's corners where none are keyed, or the
/// standard's.
fn fitted_nut(keyed: Option<Nut>, standard: Option<&Standard>) -> Option<FittedNut> {
    let Some(nut) = keyed else {
        let nut = standard?.nut;
        return Some(FittedNut {
            thickness: nut.thickness,
            across_corners: nut.across_corners,
        });
    };
    let across_corners = match nut.across_corners {
        Some(corners) => corners,
        None => standard?.nut.across_corners,
    };
    Some(FittedNut {
        thickness: Thickness {
            nominal: nut.thickness,
            greatest: nut.thickness,
        },
        across_corners,
    })
}
