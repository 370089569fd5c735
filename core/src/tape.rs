//! Tape runs: from raw readings to stations.
//!
//! In: a run as keyed and the datum. Out: the edge that a reading stands for,
//! the two faces of the joist, what a check should read. The tape's mark at the
//! hook is the burn: a reading `r` lies `r - burn` from the hook.
//!
//! ```text
//!   toward B:  hook |------ r - burn ------>|near  |far
//!                                           [joist ]
//!   toward A:           far|  near|<------ r - burn ------| hook
//!                          [joist ]
//! ```
//!
//! Half a thickness that is no count goes outward, so that a joist is never
//! thinner than it is. Nothing derived is kept: a corrected hook, edge, burn or
//! thickness re-reads the raw readings.

use crate::defaults;
use crate::frame::{Datum, FrameError};
use crate::job::{Edge, Run};
use crate::length::{Length, Rounding};
use crate::words::{End, Units};

/// A tape as it hangs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Tape {
    /// Station of the hook.
    pub hook: Length,
    /// The end that the tape runs toward.
    pub toward: End,
    /// The tape's mark at the hook.
    pub burn: Length,
    /// The edge that is read.
    pub edge: Edge,
}

impl Tape {
    /// The tape of a run.
    ///
    /// # Errors
    /// What [`Datum::hook`] finds wrong with the hook.
    pub fn of(run: &Run, datum: &Datum) -> Result<Tape, FrameError> {
        let (hook, toward) = datum.hook(run.side, run.hook)?;
        Ok(Tape {
            hook,
            toward,
            burn: defaults::burn(run),
            edge: run.edge,
        })
    }

    /// Station that a reading stands for; `None` beyond any length.
    pub fn station(&self, reading: Length) -> Option<Length> {
        let along = reading.checked_sub(self.burn)?;
        match self.toward {
            End::B => self.hook.checked_add(along),
            End::A => self.hook.checked_sub(along),
        }
    }

    /// Faces of a joist of this thickness, the one toward A first; `None` beyond
    /// any length.
    pub fn faces(&self, reading: Length, thickness: Length) -> Option<(Length, Length)> {
        let edge = self.station(reading)?;
        let half = thickness.half(Rounding::Up);
        match (self.edge, self.toward) {
            (Edge::Near, End::B) | (Edge::Far, End::A) => {
                Some((edge, edge.checked_add(thickness)?))
            }
            (Edge::Far, End::B) | (Edge::Near, End::A) => {
                Some((edge.checked_sub(thickness)?, edge))
            }
            (Edge::Centre, _) => Some((edge.checked_sub(half)?, edge.checked_add(half)?)),
        }
    }

    /// What the tape should read at a point; `None` beyond any length.
    pub fn should_read(&self, point: Length) -> Option<Length> {
        let along = match self.toward {
            End::B => point.checked_sub(self.hook)?,
            End::A => self.hook.checked_sub(point)?,
        };
        along.checked_add(self.burn)
    }
}

/// How far a check may be out, by the distance from the hook to the point.
/// Practice: 1/8 in up to 16 ft, 1/4 in above; 3 mm up to 4.88 m, 6 mm above.
pub const fn tolerance(units: Units, distance: Length) -> Length {
    let (reach, short, long) = match units {
        Units::Imperial => (
            Length::from_inches(16 * 12),
            Length::from_sixteenths(2),
            Length::from_sixteenths(4),
        ),
        Units::Metric => (
            Length::from_millimetres(4880),
            Length::from_millimetres(3),
            Length::from_millimetres(6),
        ),
    };
    if distance.counts() <= reach.counts() {
        short
    } else {
        long
    }
}
