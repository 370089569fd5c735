//! Holes near a bearing: marks that the engineer wants to see first.
//!
//! In: marks, bearings, depth of the section. Out: one caution a bearing. Rule:
//! a mark counts that lies nearer to the edge of the bearing than the beam is
//! deep, or over it. Practice: the depth as limit, no source.

use crate::caution::{Caution, Cautions, add};
use crate::length::Length;

/// A stretch of steel on a support.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct BearingStretch {
    /// Index into [`crate::Job::supports`].
    pub row: u8,
    /// Its edge toward A.
    pub from: Length,
    /// Its edge toward B.
    pub to: Length,
}

/// Marks near one bearing: `marks` are station numbers from 1, each with its
/// place.
pub fn near_bearing(
    marks: impl Iterator<Item = (u8, Length)>,
    bearing: BearingStretch,
    depth: Length,
    cautions: &mut Cautions,
) {
    let mut count = 0_u8;
    let mut nearest: Option<(u8, Length)> = None;
    for (station, at) in marks {
        let distance = bearing
            .from
            .saturating_sub(at)
            .max(at.saturating_sub(bearing.to))
            .max(Length::ZERO);
        if distance >= depth {
            continue;
        }
        count = count.saturating_add(1);
        if nearest.is_none_or(|(_, least)| distance < least) {
            nearest = Some((station, distance));
        }
    }
    if let Some((station, distance)) = nearest {
        let caution = Caution::HolesNearBearing {
            row: bearing.row,
            marks: count,
            station,
            distance,
        };
        add(cautions, caution);
    }
}
