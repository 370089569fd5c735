//! The datum: what tape runs hang on. A whole frame where there is a beam; as
//! much of one as there is where the card has only walls and joists.
//!
//! In: a job. Out: stations of hooks and known points, unshifted. Without row
//! `beam` face A lies at its bearing, or at 0 where none is keyed (readings then
//! count from wall face A), face B at face A plus clear; end B is not known.

use super::{Frame, FrameError, faces};
use crate::job::{Hook, Job, Position, RunHook, Square};
use crate::length::Length;
use crate::words::{End, Side};
use heapless::Vec;

/// What tape runs hang on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Datum {
    /// Station of end B, where there is a beam.
    length: Option<Length>,
    /// Stations of the wall faces in the plane of the beam.
    faces: [Option<Length>; 2],
    /// Rows `square`.
    squares: Vec<Square, 4, u8>,
    /// How far the beam ended up toward B.
    shift: Length,
    /// Face A stands at 0 only because nothing says where it stands.
    assumed: bool,
}

impl Datum {
    /// The datum of a job.
    ///
    /// # Errors
    /// As [`Frame::of`], except that a missing beam is none.
    pub fn of(job: &Job) -> Result<Datum, FrameError> {
        let squares = job.squares.clone();
        if job.beam.is_some() {
            let frame = Frame::of(job)?;
            return Ok(Datum {
                length: Some(frame.length),
                faces: frame.faces,
                squares,
                shift: frame.shift,
                assumed: false,
            });
        }
        let [face_a, face_b] = faces(job, None)?;
        let a = face_a.unwrap_or_default();
        let b = match (face_b, job.clear) {
            (None, Some(clear)) => a.checked_add(clear),
            (known, _) => known,
        };
        if b.is_some_and(|b| b <= a) {
            return Err(FrameError::NoClear);
        }
        Ok(Datum {
            length: None,
            faces: [Some(a), b],
            squares,
            shift: job.placed.unwrap_or_default(),
            assumed: face_a.is_none(),
        })
    }

    /// Whether a run hangs on a wall face that was put at 0 because neither a
    /// beam nor a bearing says where it stands.
    pub fn assumes_face_a(&self, hook: RunHook) -> bool {
        let on_wall = |hook| hook != Hook::EndA;
        self.assumed
            && match hook {
                RunHook::Wall(_) => true,
                RunHook::Steel(_) => false,
                RunHook::Mark(position, _) => on_wall(position.hook),
            }
    }

    /// Station of a position read on `side`: a position on a wall counts from
    /// the face as hooked there, which row `square` puts off the wall plane at
    /// the beam.
    ///
    /// # Errors
    /// `NoWall`; `NoBeam` for end B without a beam; `OffSteel` beyond any length.
    pub fn station(&self, side: Side, position: Position) -> Result<Length, FrameError> {
        let reading = position.reading;
        let station = match position.hook {
            Hook::EndA => Some(reading),
            Hook::EndB => self.end_b()?.checked_sub(reading),
            Hook::WallA => self.face_as_hooked(side, End::A)?.checked_add(reading),
            Hook::WallB => self.face_as_hooked(side, End::B)?.checked_sub(reading),
        };
        station.ok_or(FrameError::OffSteel(position))
    }

    /// Station of a run's hook, and the end that its tape runs toward.
    ///
    /// # Errors
    /// As [`Datum::station`].
    pub fn hook(&self, side: Side, hook: RunHook) -> Result<(Length, End), FrameError> {
        Ok(match hook {
            RunHook::Wall(end) => (self.face_as_hooked(side, end)?, end.other()),
            RunHook::Steel(End::A) => (Length::ZERO, End::B),
            RunHook::Steel(End::B) => (self.end_b()?, End::A),
            RunHook::Mark(position, toward) => (self.station(side, position)?, toward),
        })
    }

    /// Where a thing of the house lies on the beam as it ended up; `None` beyond
    /// any length.
    pub fn as_placed(&self, station: Length) -> Option<Length> {
        station.checked_sub(self.shift)
    }

    /// From where to where joists can stand on the beam as it ended up: wall
    /// face to wall face, at an end without wall the steel's end.
    pub fn span(&self) -> (Option<Length>, Option<Length>) {
        let [a, b] = self.faces.map(|face| self.as_placed(face?));
        (a.or(self.length.map(|_| Length::ZERO)), b.or(self.length))
    }

    /// Station of end B.
    fn end_b(&self) -> Result<Length, FrameError> {
        self.length.ok_or(FrameError::NoBeam)
    }

    /// Wall face as the tape hangs on it on one side.
    fn face_as_hooked(&self, side: Side, end: End) -> Result<Length, FrameError> {
        let [a, b] = self.faces;
        let face = match end {
            End::A => a,
            End::B => b,
        }
        .ok_or(FrameError::NoWall(end))?;
        let square = self.squares.iter().find(|s| s.side == side && s.end == end);
        face.checked_add(square.map_or(Length::ZERO, |s| s.offset))
            .ok_or(FrameError::WallOffSteel(end))
    }
}
