//! Loads as they lie on the beam where it ended up.
//!
//! In: rows `load` and the frame. Out: line loads from here to there and point
//! loads, each with its dead and live part. Rule: area loads times their
//! tributary width; loads come through the floor, so they stay with the house;
//! extents default to wall face to wall face, at an end without wall the
//! steel's end. What a shift would put past the steel is held at its end.

use super::Refusal;
use crate::force::{AreaLoad, Force, LineLoad};
use crate::frame::Frame;
use crate::job::loads::LoadSide;
use crate::job::{Job, Load, LoadKind, Position};
use crate::length::Length;
use crate::words::{End, Side};

/// A load on the beam.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Laid {
    /// Evenly spread.
    Spread {
        /// Station where it starts.
        from: Length,
        /// Station where it ends, beyond `from`.
        to: Length,
        /// Dead part.
        dead: LineLoad,
        /// Live part.
        live: LineLoad,
    },
    /// At one point.
    Point {
        /// Its station.
        at: Length,
        /// Dead part.
        dead: Force,
        /// Live part.
        live: Force,
    },
}

/// The share of a load that hangs on one side of the beam: half where the card
/// does not say (lists say so), none of what stands on top.
pub fn share(load: &Load, side: Side) -> f64 {
    match load.side {
        LoadSide::Halves => 0.5,
        LoadSide::On(on) if on == side => 1.0,
        LoadSide::On(_) | LoadSide::Top => 0.0,
    }
}

/// A load of the job on the beam as it ended up; `None` where the shift took
/// the beam from under all of it.
///
/// # Errors
/// `Frame` for a position without a station, `LoadEmpty` for a spread load that
/// ends where it starts, or before.
pub fn lay(job: &Job, frame: &Frame, row: u8, load: &Load) -> Result<Option<Laid>, Refusal> {
    let (from, to, dead, live) = match load.kind {
        LoadKind::Point { at } => {
            return Ok(Some(Laid::Point {
                at: placed(frame, frame.station(at)?),
                dead: Force::keyed(load.dead, job.units),
                live: Force::keyed(load.live, job.units),
            }));
        }
        LoadKind::Line { from, to } => (
            from,
            to,
            LineLoad::keyed(load.dead, job.units),
            LineLoad::keyed(load.live, job.units),
        ),
        LoadKind::Area {
            tributary,
            from,
            to,
        } => (
            from,
            to,
            AreaLoad::keyed(load.dead, job.units) * tributary,
            AreaLoad::keyed(load.live, job.units) * tributary,
        ),
    };
    let (from, to) = reach(frame, from, to, row)?;
    Ok((from < to).then_some(Laid::Spread {
        from,
        to,
        dead,
        live,
    }))
}

/// Whether a shift puts a part of a load past the end of the steel.
pub fn passes_end(frame: &Frame, load: &Load) -> bool {
    let past = |position: Position| {
        let station = frame.station(position).map(|at| frame.as_placed(at));
        station.is_ok_and(|at| at < Length::ZERO || at > frame.length)
    };
    match load.kind {
        LoadKind::Point { at } => past(at),
        LoadKind::Line { from, to } | LoadKind::Area { from, to, .. } => {
            from.is_some_and(past) || to.is_some_and(past)
        }
    }
}

/// Held on the steel, as the beam ended up.
fn placed(frame: &Frame, station: Length) -> Length {
    frame
        .as_placed(station)
        .clamp(Length::ZERO, frame.length.max(Length::ZERO))
}

/// Start and end of a spread load, keyed or default.
fn reach(
    frame: &Frame,
    from: Option<Position>,
    to: Option<Position>,
    row: u8,
) -> Result<(Length, Length), Refusal> {
    let keyed =
        |position: Option<Position>| position.map(|position| frame.station(position)).transpose();
    let face = |end| frame.face(end).ok();
    let (from, to) = (keyed(from)?, keyed(to)?);
    let (default_from, default_to) = frame.load_extents();
    if from.unwrap_or(default_from) >= to.unwrap_or(default_to) {
        return Err(Refusal::LoadEmpty { row });
    }
    // The end of the steel itself rides with the beam; a wall face does not.
    let start = from.or(face(End::A)).map(|at| placed(frame, at));
    let end = to.or(face(End::B)).map(|at| placed(frame, at));
    Ok((start.unwrap_or(Length::ZERO), end.unwrap_or(frame.length)))
}
