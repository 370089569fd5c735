//! Forces inside the beam at one place: what a hole in the web meets.
//!
//! In: a model and a station. Out: greatest and least shear and moment there.
//! Rule: superposition at the place itself, live load counted where it adds;
//! both sides of a point load and of a support are looked at.

use super::Pattern;
use super::SEGMENTS;
use super::model::{Case, Model};
use super::moments::Solved;
use super::patterns::Apart;
use crate::float;
use crate::force::{Force, Moment};
use crate::length::Length;

/// Places that one station can be: the end of one step and the start of the
/// next.
const LIMITS: usize = 2;

/// Shear and moment at a station.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Inside {
    /// Greatest shear.
    pub shear_most: Force,
    /// Least shear.
    pub shear_least: Force,
    /// Greatest moment, sagging positive.
    pub moment_most: Moment,
    /// Least moment.
    pub moment_least: Moment,
}

/// A solved beam that can be asked at any station.
pub struct Envelope<'a> {
    model: &'a Model,
    apart: &'a Apart,
}

/// Sums at one of the places.
#[derive(Clone, Copy, Debug, Default)]
struct Sum {
    shear_most: f64,
    shear_least: f64,
    moment_most: f64,
    moment_least: f64,
}

impl Model {
    /// Solves the beam for questions at many stations, in the room of `apart`.
    pub fn envelope<'a>(&'a self, apart: &'a mut Apart) -> Envelope<'a> {
        apart.solve(self);
        Envelope { model: self, apart }
    }
}

impl Inside {
    /// The greater of both shears, without sign.
    pub fn shear(&self) -> Force {
        self.shear_most.abs().max(self.shear_least.abs())
    }
}

impl Envelope<'_> {
    /// Shear and moment at a station; zero off the steel.
    pub fn at(&self, station: Length) -> Inside {
        let mut sums = [Sum::default(); LIMITS];
        let mut used = 0;
        let dead = Case::dead_and(Pattern::default());
        self.visit(&self.apart.dead, dead, station, |place, shear, moment| {
            used = place + 1;
            if let Some(sum) = sums.get_mut(place) {
                *sum = Sum {
                    shear_most: shear,
                    shear_least: shear,
                    moment_most: moment,
                    moment_least: moment,
                };
            }
        });
        for (segment, solved) in self.apart.live.iter().enumerate().take(SEGMENTS) {
            let live = Case::live(Pattern::default().with(segment));
            self.visit(solved, live, station, |place, shear, moment| {
                if let Some(sum) = sums.get_mut(place) {
                    sum.shear_most += float::max(shear, 0.0);
                    sum.shear_least += float::min(shear, 0.0);
                    sum.moment_most += float::max(moment, 0.0);
                    sum.moment_least += float::min(moment, 0.0);
                }
            });
        }
        let mut places = sums.iter().take(used);
        let first = places.next().map_or(Inside::default(), Sum::inside);
        places.fold(first, |inside, sum| inside.and(sum.inside()))
    }

    /// Says shear and moment at each place that a station is.
    fn visit(
        &self,
        solved: &Solved,
        case: Case,
        station: Length,
        mut say: impl FnMut(usize, f64, f64),
    ) {
        let at = station.as_inches();
        let mut place = 0;
        let mut say = |shear: f64, moment: f64| {
            say(place, shear, moment);
            place += 1;
        };
        for (segment, start) in solved.starts.iter().enumerate() {
            let (left, right) = self.model.bounds(segment);
            let apart = segment > self.model.supports() || left >= right;
            if apart || at < left || at > right {
                continue;
            }
            let t = at - left;
            let (mut shear, mut moment) = (start.shear, start.moment);
            for step in self.model.steps(segment, case) {
                shear -= step.point;
                // Off end B, beyond a load on the very tip, there is no steel.
                let steel = step.from < step.to;
                if steel && t >= step.from && t <= step.to {
                    let run = t - step.from;
                    let bent = run * (shear - step.load * run / 2.0);
                    say(shear - step.load * run, moment + bent);
                }
                let run = step.to - step.from;
                moment += run * (shear - step.load * run / 2.0);
                shear -= step.load * run;
            }
        }
    }
}

impl Sum {
    fn inside(&self) -> Inside {
        Inside {
            shear_most: Force::from_pounds(self.shear_most),
            shear_least: Force::from_pounds(self.shear_least),
            moment_most: Moment::from_pound_inches(self.moment_most),
            moment_least: Moment::from_pound_inches(self.moment_least),
        }
    }
}

impl Inside {
    /// The wider of two.
    fn and(self, other: Inside) -> Inside {
        Inside {
            shear_most: self.shear_most.max(other.shear_most),
            shear_least: self.shear_least.min(other.shear_least),
            moment_most: self.moment_most.max(other.moment_most),
            moment_least: self.moment_least.min(other.moment_least),
        }
    }
}
