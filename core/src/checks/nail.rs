//! Nails: how deep they go, and whether they stop short of the web.
//!
//! In: a nail, the packing that it goes into. Out: its depth, the longest that
//! fits, penetration against 6D and 10D, checks. Rule: a nail of the card that
//! has a slant fastens layers and is driven through the outer one; one without
//! is a hanger nail and goes in straight, never at a slant, for the hanger's
//! holes are square to it. The hanger's own steel is left in hand. Touching the
//! web is still short of it. Source: NDS 2024 12.1.6 (penetration); the depth is
//! geometry, length x cosine of the slant.
//!
//! ```text
//!    web |  inner | outer | face
//!        |    <---+-------|=   straight: depth = length
//!        |     \          |
//!        |       \ -------|    slant: depth = length x cos
//! ```

use crate::caution::{self, Caution, Cautions};
use crate::check::{Check, Checklist, Kind, Lack, Needs, Place};
use crate::decimal::Decimal;
use crate::float;
use crate::job::Nail;
use crate::length::Length;
use crate::words::Side;

/// What crews drive into hangers: 1 1/2 in. Practice: no source.
pub const USUAL_HANGER_NAIL: Length = Length::from_sixteenths(24);
/// What crews drive through the outer layer, at a slight slant so that it
/// stays off the steel: 3 1/4 in. Practice: no source.
pub const USUAL_LAYER_NAIL: Length = Length::from_sixteenths(52);
/// Penetration for the full value, in diameters. Source: NDS 2024 12.1.6.
const FULL: f64 = 10.0;
/// Least penetration, in diameters. Source: NDS 2024 12.1.6.
const LEAST: f64 = 6.0;
/// The steepest slant at which a nail is driven, degrees from square.
/// Practice: no source.
const STEEPEST_DEGREES: f64 = 45.0;

/// Packing as a nail meets it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct NailedPacking {
    /// All layers together, as measured.
    pub total: Length,
    /// The outer layer.
    pub outer: Length,
}

/// How deep a nail of this length goes square to the face, in.
///
/// # Errors
/// Outside for a slant below nothing or so steep that nobody drives it (80
/// degrees).
pub fn depth(length: Length, slant: Option<Decimal>) -> Result<f64, Lack> {
    Ok(length.as_inches() * cosine_of(slant)?)
}

fn cosine_of(slant: Option<Decimal>) -> Result<f64, Lack> {
    let degrees = slant.map_or(0.0, Decimal::value);
    if !(0.0..=80.0).contains(&degrees) {
        return Err(Lack::Outside("nobody drives a nail at that slant"));
    }
    Ok(float::cosine(degrees))
}

/// Part of its table value that a nail keeps: all from 10D on, p / 10D from 6D
/// on, nothing below. Source: NDS 2024 12.1.6 and the tables' footnotes.
pub fn penetration_factor(penetration_in: f64, diameter: Length) -> f64 {
    let diameters = penetration_in / diameter.as_inches();
    if diameters < LEAST - 1e-9 {
        0.0
    } else {
        float::min(diameters / FULL, 1.0)
    }
}

/// The least slant at which a nail this long stays off the web, hundredths of
/// a degree, rounded up; `None` where 45 degrees do not do.
pub fn least_slant(length: Length, packing: Length) -> Option<u16> {
    if length <= packing {
        return Some(0);
    }
    let degrees = float::angle_of_cosine(packing.as_inches() / length.as_inches());
    let driven = degrees.is_finite() && degrees <= STEEPEST_DEGREES;
    // In range: at most 4,500.
    driven.then(|| float::ceil(degrees * 100.0) as u16)
}

/// Both checks of one nail in one side's packing.
pub fn add_checks(nail: &Nail, packing: NailedPacking, place: Place, checks: &mut dyn Checklist) {
    let layer_nail = nail.slant.is_some();
    let (reach, hold) = if layer_nail {
        (Kind::LayerNailDepth, Kind::LayerNailHold)
    } else {
        (Kind::NailDepth, Kind::NailHold)
    };
    match depth(nail.length, nail.slant) {
        Ok(depth_in) => {
            checks.add(stops_short(nail, reach, depth_in, packing, place));
            checks.add(holds(nail, hold, depth_in, packing, place));
        }
        Err(lack) => {
            checks.lack(reach, place, lack);
            checks.lack(hold, place, lack);
        }
    }
}

/// A nail that keeps only a part of its table value in the packing of a side.
/// `row` is its index on the card.
pub fn cautions(
    (row, nail): (u8, &Nail),
    packing: NailedPacking,
    side: Side,
    cautions: &mut Cautions,
) {
    let Ok(depth_in) = depth(nail.length, nail.slant) else {
        return;
    };
    let factor = penetration_factor(behind(nail, depth_in, packing), nail.diameter);
    // In range: a factor is between 0 and 1.
    let percent = float::floor(factor * 100.0 + 1e-9) as u8;
    if (1..100).contains(&percent) {
        let caution = Caution::NailKeepsLess {
            nail: row,
            side,
            percent,
        };
        caution::add(cautions, caution);
    }
}

/// Wood that holds the nail, in: all the packing for a hanger nail, what is
/// behind the outer layer for a nail that fastens it.
fn behind(nail: &Nail, depth_in: f64, packing: NailedPacking) -> f64 {
    let in_wood = float::min(depth_in, packing.total.as_inches());
    match nail.slant {
        Some(_) => in_wood - packing.outer.as_inches(),
        None => in_wood,
    }
}

/// Depth against the packing; a hanger nail that is too long needs a shorter
/// one, a layer nail may be slanted instead.
fn stops_short(
    nail: &Nail,
    kind: Kind,
    depth_in: f64,
    packing: NailedPacking,
    place: Place,
) -> Check {
    let check = Check::new(kind, place, depth_in, packing.total.as_inches());
    if check.ok() != Some(false) {
        return check;
    }
    let slant = nail
        .slant
        .and_then(|_| least_slant(nail.length, packing.total));
    check.with(match slant {
        Some(slant) => Needs::Slant(slant),
        None => Needs::NailAtMost(packing.total),
    })
}

/// Penetration against 6D.
fn holds(nail: &Nail, kind: Kind, depth_in: f64, packing: NailedPacking, place: Place) -> Check {
    let least_in = LEAST * nail.diameter.as_inches();
    Check::new(kind, place, least_in, behind(nail, depth_in, packing))
}
