//! A mark as it is read off the tape from end A and from end B.
//!
//! In: a station, the length of the steel, the lattice. Out: readings. From end
//! A a mark is exact. From end B it need not fall on the tape: it is shown to
//! the nearest step, and half a step comes off the gap and the play that stand
//! beside that reading. While the length is as ordered, nothing is offered from
//! end B.

use crate::frame::Frame;
use crate::length::{Length, Rounding};
use crate::words::Units;

/// What the tape shows, and how far from the true mark that may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reading {
    /// On the tape.
    pub shown: Length,
    /// Half a step where the mark falls between two steps, else 0.
    pub off: Length,
}

/// Reads marks from end B.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FromEndB {
    length: Length,
    step: Length,
}

impl FromEndB {
    /// `None` while the length of the steel is not measured.
    pub fn new(frame: &Frame, step: Length) -> Option<Self> {
        frame.measured.then_some(FromEndB {
            length: frame.length,
            step,
        })
    }

    /// The reading of the mark at station `at`.
    pub fn reading(self, at: Length) -> Reading {
        let exact = self.length.saturating_sub(at);
        let shown = exact.to_multiple(self.step, Rounding::Nearest);
        let off = if shown == exact {
            Length::ZERO
        } else {
            self.step.half(Rounding::Up)
        };
        Reading { shown, off }
    }

    /// Half a step if any of these marks falls between two steps.
    pub fn worst_off(self, mut marks: impl Iterator<Item = Length>) -> Length {
        match marks.find(|at| self.reading(*at).off > Length::ZERO) {
            Some(_) => self.step.half(Rounding::Up),
            None => Length::ZERO,
        }
    }
}

/// A gap or play as it is printed: rounded down to 1/16 in or 1 mm, so that
/// nobody counts on room that is not there.
pub fn rounded_down(length: Length, units: Units) -> Length {
    let step = match units {
        Units::Imperial => Length::from_sixteenths(1),
        Units::Metric => Length::from_millimetres(1),
    };
    length.to_multiple(step, Rounding::Down)
}
