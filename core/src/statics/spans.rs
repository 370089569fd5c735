//! Moments and shears of each span and overhang.
//!
//! In: a model. Out: for each segment the greatest and least under dead load,
//! under all of it, and under the live load on the segments that make it worst.
//! Rule: as for the whole beam, each segment walked by itself; where it is bent
//! or sheared one way only, the other way is 0. Worked out when it is asked for:
//! the results keep those of the whole beam alone.

use super::model::{Case, EVERYWHERE, Model};
use super::patterns::Apart;
use super::walk::walk_one;
use super::{Extremes, Loadings, Pattern, SEGMENTS, Segment};
use crate::force::{Force, Moment};
use crate::length::Length;
use core::convert::Infallible;
use heapless::Vec;

/// Moments and shears of one span or overhang.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SegmentForces {
    /// Which.
    pub segment: Segment,
    /// Its end toward A.
    pub from: Length,
    /// Its end toward B.
    pub to: Length,
    /// Moments, sagging positive.
    pub moments: Loadings<Extremes<Moment>>,
    /// Shears, signed as those of the whole beam.
    pub shears: Loadings<Extremes<Force>>,
}

/// All spans and overhangs that have a length.
pub type SegmentList = Vec<SegmentForces, SEGMENTS, u8>;

impl Model {
    /// Moments and shears by span and overhang, from end A, in the room of `apart`.
    pub fn segments(&self, apart: &mut Apart) -> SegmentList {
        let mut list = SegmentList::new();
        let each = self.each_segment(apart, &mut |forces| {
            // As many places as segments.
            let _ = list.push(*forces);
            Ok::<(), Infallible>(())
        });
        match each {
            Ok(()) => list,
            Err(never) => match never {},
        }
    }

    /// The same, one after the other.
    ///
    /// # Errors
    /// Those of `say` only.
    pub fn each_segment<E>(
        &self,
        apart: &mut Apart,
        say: &mut dyn FnMut(&SegmentForces) -> Result<(), E>,
    ) -> Result<(), E> {
        apart.solve(self);
        for index in 0..=self.supports() {
            let (from, to) = self.stations(index);
            if from < to {
                say(&self.segment_forces(apart, index))?;
            }
        }
        Ok(())
    }

    #[inline(never)]
    fn segment_forces(&self, apart: &Apart, index: usize) -> SegmentForces {
        let walked = |choice: Pattern| {
            let solved = apart.with_live(apart.dead, choice);
            walk_one(self, index, &solved, Case::dead_and(choice), apart.total)
        };
        let (dead, all) = (walked(Pattern::default()), walked(EVERYWHERE));
        let mut worst = dead;
        for choice in self.live.choices() {
            let total = walked(choice);
            worst.moment.join(&total.moment);
            worst.shear.join(&total.shear);
        }
        let (from, to) = self.stations(index);
        SegmentForces {
            segment: self.segment(index),
            from,
            to,
            moments: Loadings {
                dead: dead.moments(),
                all: all.moments(),
                worst: worst.moments(),
            },
            shears: Loadings {
                dead: dead.shears(),
                all: all.shears(),
                worst: worst.shears(),
            },
        }
    }
}

impl Extremes<Force> {
    /// The greater of both, without sign.
    pub fn size(&self) -> Force {
        self.most.value.abs().max(self.least.value.abs())
    }
}
