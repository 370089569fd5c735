//! The frame: where the wall faces lie on the steel, and what station a
//! position stands for.
//!
//! In: a job. Out: stations from end A, cautions. Wall face A lies at the
//! bearing length at A; face B at face A plus the clear distance, or at length
//! less the bearing at B where clear was not measured.
//!
//! ```text
//!     wall A |<------------- clear ------------->| wall B
//!   |<- bA ->|                                   |<- bB ->|
//!   [========|===================================|========]  steel
//!   0      face A                              face B   length
//! ```
//!
//! Everything here is unshifted: as if the beam stood where it was meant to.
//! What stays with the house is moved by [`Frame::as_placed`].

mod datum;
mod extents;

use crate::caution::{self, Caution, Cautions};
use crate::job::{BeamLength, Hook, Job, LoadKind, Position, RunHook};
use crate::length::Length;
use crate::words::{End, Units};

pub use datum::Datum;
pub use extents::{Piece, Pieces};

/// Stations of the steel's ends and of the wall faces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Frame {
    /// Station of end B.
    pub length: Length,
    /// Whether the length was measured; while ordered nothing is offered from end B.
    pub measured: bool,
    /// Stations of wall faces A and B, where a wall stands (unshifted).
    pub faces: [Option<Length>; 2],
    /// Resulting bearing length at A and B, where a wall stands; below zero
    /// where the steel does not reach the wall.
    pub bearings: [Option<Length>; 2],
    /// How far the beam ended up toward B of its mark (row `placed`, else 0).
    pub shift: Length,
}

/// Why a position has no station.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum FrameError {
    /// No row `beam`.
    NoBeam,
    /// Hooked on a wall that is not on the card.
    NoWall(End),
    /// Off the steel, or beyond any length.
    OffSteel(Position),
    /// The bearing keyed for this wall is longer than the steel.
    WallOffSteel(End),
    /// The two walls leave no clear distance between them.
    NoClear,
    /// A packing piece that ends where it starts, or before; the default piece
    /// where `piece` is `None`.
    PackingEmpty {
        /// Index into [`crate::Job::packing`].
        piece: Option<u8>,
    },
    /// Two packing pieces overlap on one side.
    PackingOverlap {
        /// The earlier one, an index into [`crate::Job::packing`].
        first: u8,
        /// The later one.
        second: u8,
    },
}

impl Frame {
    /// The frame of a job.
    ///
    /// # Errors
    /// `NoBeam`; `WallOffSteel` for a bearing longer than the steel; `NoClear`
    /// where face B does not lie beyond face A.
    pub fn of(job: &Job) -> Result<Frame, FrameError> {
        let beam = job.beam.as_ref().ok_or(FrameError::NoBeam)?;
        let faces = faces(job, Some(beam.length))?;
        let [face_a, face_b] = faces;
        if face_a.is_some_and(|face| face > beam.length) {
            return Err(FrameError::WallOffSteel(End::A));
        }
        if face_b.is_some_and(|face| face < Length::ZERO) {
            return Err(FrameError::WallOffSteel(End::B));
        }
        Ok(Frame {
            length: beam.length,
            measured: beam.measured == BeamLength::Measured,
            faces,
            bearings: [face_a, face_b.map(|face| beam.length.saturating_sub(face))],
            shift: job.placed.unwrap_or_default(),
        })
    }

    /// Station of the wall face at `end`.
    ///
    /// # Errors
    /// `NoWall` where no wall stands.
    pub fn face(&self, end: End) -> Result<Length, FrameError> {
        let [a, b] = self.faces;
        match end {
            End::A => a,
            End::B => b,
        }
        .ok_or(FrameError::NoWall(end))
    }

    /// Station of a position on the steel; its ends count as on it.
    ///
    /// # Errors
    /// `NoWall`, or `OffSteel` with the position.
    pub fn station(&self, position: Position) -> Result<Length, FrameError> {
        let station = self.station_anywhere(position)?;
        if station < Length::ZERO || station > self.length {
            return Err(FrameError::OffSteel(position));
        }
        Ok(station)
    }

    /// Station of a position that may lie off the steel (joists, struck marks,
    /// what stands beside a wall).
    ///
    /// # Errors
    /// `NoWall`, or `OffSteel` where the sum is beyond any length.
    pub fn station_anywhere(&self, position: Position) -> Result<Length, FrameError> {
        let reading = position.reading;
        let station = match position.hook {
            Hook::EndA => Some(reading),
            Hook::EndB => self.length.checked_sub(reading),
            Hook::WallA => self.face(End::A)?.checked_add(reading),
            Hook::WallB => self.face(End::B)?.checked_sub(reading),
        };
        station.ok_or(FrameError::OffSteel(position))
    }

    /// Where a thing that stays with the house lies on the beam as it ended up:
    /// the beam went `shift` toward B, so the thing went as far toward A.
    pub fn as_placed(&self, station: Length) -> Length {
        station.saturating_sub(self.shift)
    }

    /// What the crew must look at: clear not measured, keyed and resulting
    /// bearing apart by more than 1/16 in (1 mm), steel that does not reach a
    /// wall, something read from end B while the length is only ordered.
    pub fn cautions(&self, job: &Job, cautions: &mut Cautions) {
        let [_, wall_b] = job.walls;
        if wall_b.is_some() && job.clear.is_none() {
            caution::add(cautions, Caution::ClearNotMeasured);
        }
        for (end, (keyed, resulting)) in End::BOTH
            .into_iter()
            .zip(job.walls.into_iter().zip(self.bearings))
        {
            self.bearing_cautions(job.units, end, keyed, resulting, cautions);
        }
        if !self.measured && reads_from_end_b(job) {
            caution::add(cautions, Caution::LengthOrdered);
        }
    }

    /// Bearing keyed against bearing that results, at one end.
    fn bearing_cautions(
        &self,
        units: Units,
        end: End,
        keyed: Option<Length>,
        resulting: Option<Length>,
        cautions: &mut Cautions,
    ) {
        let Some(resulting) = resulting else { return };
        if resulting < Length::ZERO {
            caution::add(
                cautions,
                Caution::SteelShort {
                    end,
                    by: -resulting,
                },
            );
        }
        let Some(keyed) = keyed else { return };
        if keyed.saturating_sub(resulting).abs() > bearing_slack(units) {
            caution::add(
                cautions,
                Caution::BearingDiffers {
                    end,
                    keyed,
                    resulting,
                },
            );
        }
    }
}

/// Wall faces of a job; `length` is `None` where there is no row `beam`, and
/// face B is then known only from the clear distance.
pub(crate) fn faces(job: &Job, length: Option<Length>) -> Result<[Option<Length>; 2], FrameError> {
    let [bearing_a, bearing_b] = job.walls;
    let from_b = |bearing: Length| {
        length
            .map(|length| {
                length
                    .checked_sub(bearing)
                    .ok_or(FrameError::WallOffSteel(End::B))
            })
            .transpose()
    };
    let faces = match (bearing_a, bearing_b, job.clear) {
        (Some(a), _, Some(clear)) => {
            let b = a
                .checked_add(clear)
                .ok_or(FrameError::WallOffSteel(End::B))?;
            [Some(a), Some(b)]
        }
        (Some(a), Some(b), None) => [Some(a), from_b(b)?],
        (Some(a), None, None) => [Some(a), None],
        (None, Some(b), Some(clear)) => {
            let b = from_b(b)?;
            let a = b
                .map(|b| b.checked_sub(clear).ok_or(FrameError::WallOffSteel(End::A)))
                .transpose()?;
            [a, b]
        }
        (None, Some(b), None) => [None, from_b(b)?],
        (None, None, _) => [None, None],
    };
    if let [Some(a), Some(b)] = faces
        && b <= a
    {
        return Err(FrameError::NoClear);
    }
    Ok(faces)
}

/// Keyed and resulting bearing may differ by this: the reading of the tape.
/// Practice: the tape is read to 1/16 in or 1 mm.
const fn bearing_slack(units: Units) -> Length {
    match units {
        Units::Imperial => Length::from_sixteenths(1),
        Units::Metric => Length::from_millimetres(1),
    }
}

/// Whether anything on the card hangs on end B of the steel.
fn reads_from_end_b(job: &Job) -> bool {
    let from_b = |position: &Position| position.hook == Hook::EndB;
    let run = |hook: RunHook| match hook {
        RunHook::Steel(end) => end == End::B,
        RunHook::Mark(position, _) => from_b(&position),
        RunHook::Wall(_) => false,
    };
    job.runs.iter().any(|r| run(r.hook))
        || job.checks.iter().any(|c| from_b(&c.point))
        || job
            .keepouts
            .iter()
            .any(|k| from_b(&k.from) || from_b(&k.to))
        || job.packing.iter().any(|p| from_b(&p.from) || from_b(&p.to))
        || job.nears.iter().any(|n| from_b(&n.at))
        || job.holes.iter().any(|h| from_b(&h.at()))
        || job
            .supports
            .iter()
            .any(|s| s.centre.as_ref().is_some_and(from_b))
        || job.loads.iter().any(|l| load_from_end_b(&l.kind))
}

/// The same for one load.
fn load_from_end_b(kind: &LoadKind) -> bool {
    let from_b = |position: &Position| position.hook == Hook::EndB;
    match kind {
        LoadKind::Area { from, to, .. } | LoadKind::Line { from, to } => {
            from.as_ref().is_some_and(from_b) || to.as_ref().is_some_and(from_b)
        }
        LoadKind::Point { at } => from_b(at),
    }
}
