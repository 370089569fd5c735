//! Supports as they stand under the beam where it ended up.
//!
//! In: rows `support`, walls, the frame. Out: centres and bearing lengths,
//! sorted from end A. Rule: supports stay with the house, so a beam that went
//! toward B has them nearer to A; a support named A or B lies in the middle of
//! its wall's bearing as placed, and is as long as that, unless its row says
//! otherwise.

use super::Refusal;
use crate::frame::{Frame, FrameError};
use crate::job::{Job, SUPPORTS, Support};
use crate::length::{Length, Rounding};
use crate::list::put_in;
use crate::words::End;
use heapless::Vec;

/// One support.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Bearing {
    /// Index into [`Job::supports`].
    pub row: u8,
    /// Station of its centre on the beam as it ended up.
    pub at: Length,
    /// Bearing length along the beam, as keyed or as placed.
    pub length: Option<Length>,
}

/// Supports from end A.
pub type Bearings = Vec<Bearing, SUPPORTS, u8>;

/// The end whose wall a support is named after.
fn wall_of(support: &Support) -> Option<End> {
    let named = |letter| support.name.eq_ignore_ascii_case(letter);
    match () {
        () if named("A") => Some(End::A),
        () if named("B") => Some(End::B),
        () => None,
    }
}

/// Whether a support takes something from a wall that is not on the card.
pub(super) fn lacks_wall(job: &Job, frame: &Frame) -> bool {
    let needs = |support: &&Support| support.centre.is_none();
    job.supports.iter().filter(needs).any(|support| {
        let wall = wall_of(support).map(|end| frame.face(end));
        !matches!(wall, Some(Ok(_)))
    })
}

/// All supports of a job, sorted from end A.
///
/// # Errors
/// As [`super::solve`].
pub(super) fn stand(job: &Job, frame: &Frame) -> Result<Bearings, Refusal> {
    let mut bearings = Bearings::new();
    for (row, support) in (0_u8..).zip(&job.supports) {
        let bearing = bearing(row, support, frame)?;
        let before = bearings.iter().position(|other| other.at >= bearing.at);
        let place = before.unwrap_or(bearings.len());
        if let Some(other) = bearings.get(place)
            && other.at == bearing.at
        {
            let first = other.row;
            return Err(Refusal::SupportsMeet { first, second: row });
        }
        // As many places as rows.
        let _ = put_in(&mut bearings, place, bearing);
    }
    Ok(bearings)
}

/// One support, on the steel.
fn bearing(row: u8, support: &Support, frame: &Frame) -> Result<Bearing, Refusal> {
    let wall = match wall_of(support) {
        Some(end) => on_wall(end, frame),
        None => None,
    };
    let at = match (support.centre, wall) {
        (Some(centre), _) => frame.as_placed(frame.station(centre)?),
        (None, Some((at, _))) => at,
        (None, None) => {
            let end = wall_of(support).unwrap_or(End::A);
            return Err(FrameError::NoWall(end).into());
        }
    };
    let length = support.length.or(wall.map(|(_, length)| length));
    let starved = length.is_some_and(|length| length <= Length::ZERO);
    if at < Length::ZERO || at > frame.length || starved {
        return Err(Refusal::SupportOffSteel { row });
    }
    Ok(Bearing { row, at, length })
}

/// Centre and length of the bearing in a wall, as placed.
fn on_wall(end: End, frame: &Frame) -> Option<(Length, Length)> {
    let face = frame.as_placed(frame.face(end).ok()?);
    let (from, to) = match end {
        End::A => (Length::ZERO, face),
        End::B => (face, frame.length),
    };
    let length = to.saturating_sub(from);
    Some((from.saturating_add(length.half(Rounding::Down)), length))
}
