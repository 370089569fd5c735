//! Walks along a segment and keeps the extremes that it meets.
//!
//! In: a solved beam under a loading. Out: greatest and least moment, shear and
//! sag, with their stations. Rule: on a step of constant load shear is straight,
//! moment a parabola, slope a cubic, sag a quartic; extremes lie at the ends of
//! steps and where the shear (for the moment) or the slope (for the sag) passes
//! zero. Of equals the first from end A is kept.

use super::model::{Case, Model};
use super::moments::{Solved, Start};
use super::root::Slope;
use super::{Extremes, Peak, SEGMENTS};
use crate::float;
use crate::force::{Force, Moment};
use crate::length::Length;

/// Counts of 25 nm in an inch.
const COUNTS: f64 = 1_016_000.0;

/// Greatest and least of one thing, and where, in lb and in.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Track {
    pub most: f64,
    pub most_at: f64,
    pub least: f64,
    pub least_at: f64,
    /// Differences up to this are dust: the first one met stays.
    dust: f64,
}

/// What a walk along the whole beam meets.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Met {
    pub moment: Track,
    pub shear: Track,
    /// EI times sag, by segment.
    pub sags: [Track; SEGMENTS],
}

impl Track {
    /// Starts at zero, at a place in inches from end A.
    pub fn new(dust: f64, at: f64) -> Track {
        Track {
            dust,
            most_at: at,
            least_at: at,
            ..Track::default()
        }
    }

    /// Takes one value.
    pub fn see(&mut self, value: f64, at: f64) {
        if value > self.most + self.dust {
            self.most = value;
            self.most_at = at;
        }
        if value < self.least - self.dust {
            self.least = value;
            self.least_at = at;
        }
    }

    /// Takes what another walk met.
    pub fn join(&mut self, other: &Track) {
        self.see(other.most, other.most_at);
        self.see(other.least, other.least_at);
    }

    /// As results.
    pub fn extremes<T>(&self, unit: impl Fn(f64) -> T) -> Extremes<T> {
        Extremes {
            most: Peak {
                value: unit(self.most),
                at: station(self.most_at),
            },
            least: Peak {
                value: unit(self.least),
                at: station(self.least_at),
            },
        }
    }
}

impl Met {
    /// Moments as results.
    pub fn moments(&self) -> Extremes<Moment> {
        self.moment.extremes(Moment::from_pound_inches)
    }

    /// Shears as results.
    pub fn shears(&self) -> Extremes<Force> {
        self.shear.extremes(Force::from_pounds)
    }
}

/// Inches from end A to the nearest count.
fn station(inches: f64) -> Length {
    let counts = float::floor(inches * COUNTS + 0.5);
    // A cast holds at the ends of the range.
    Length::from_counts(counts as i32)
}

/// Walks along the whole beam.
pub(super) fn walk(model: &Model, solved: &Solved, case: Case, total: f64) -> Met {
    let mut met = nothing_met(model, total, 0.0);
    for (segment, start) in solved.starts.iter().enumerate() {
        if segment <= model.supports() {
            along(model, segment, *start, case, &mut met);
        }
    }
    met
}

/// Walks along one segment alone.
pub(super) fn walk_one(
    model: &Model,
    segment: usize,
    solved: &Solved,
    case: Case,
    total: f64,
) -> Met {
    let (left, _) = model.bounds(segment);
    let mut met = nothing_met(model, total, left);
    if let Some(start) = solved.starts.get(segment) {
        along(model, segment, *start, case, &mut met);
    }
    met
}

/// Before a walk that starts at `at` inches from end A.
fn nothing_met(model: &Model, total: f64, at: f64) -> Met {
    // Far above the last bits of the sums, far below anything shown.
    let dust = total * 1e-12;
    Met {
        moment: Track::new(dust * model.length.as_inches(), at),
        shear: Track::new(dust, at),
        sags: [Track::default(); SEGMENTS],
    }
}

/// Walks along one segment.
fn along(model: &Model, segment: usize, start: Start, case: Case, met: &mut Met) {
    let (left, _) = model.bounds(segment);
    let Start {
        mut shear,
        mut moment,
        mut slope,
        mut sag,
    } = start;
    for step in model.steps(segment, case) {
        let (at, length) = (left + step.from, step.to - step.from);
        if length <= 0.0 {
            continue;
        }
        shear -= step.point;
        met.shear.see(shear, at);
        let bend = Slope {
            slope,
            moment,
            shear,
            load: step.load,
        };
        let end_shear = shear - step.load * length;
        met.shear.see(end_shear, at + length);
        met.moment.see(moment, at);
        if (shear > 0.0) != (end_shear > 0.0) && step.load != 0.0 {
            let top = float::max(0.0, float::min(length, shear / step.load));
            met.moment.see(bend.moment_at(top), at + top);
        }
        if let Some(track) = met.sags.get_mut(segment) {
            sags(&bend, sag, length, at, track);
        }
        sag += bend.sag_at(length);
        slope = bend.at(length);
        moment = bend.moment_at(length);
        shear = end_shear;
        met.moment.see(moment, at + length);
    }
}

/// Extremes of the sag along one step.
fn sags(bend: &Slope, sag: f64, length: f64, at: f64, track: &mut Track) {
    let [first, second] = bend.turns(length);
    let mut low = 0.0;
    for high in [first, second, Some(length)].into_iter().flatten() {
        if let Some(t) = bend.zero_between(low, high) {
            track.see(sag + bend.sag_at(t), at + t);
        }
        track.see(sag + bend.sag_at(high), at + high);
        low = high;
    }
    track.see(sag, at);
}

impl Slope {
    /// How far the sag has grown at a distance from the start.
    fn sag_at(&self, t: f64) -> f64 {
        let bent = self.moment / 2.0 + t * (self.shear / 6.0 - t * self.load / 24.0);
        t * (self.slope - t * bent)
    }
}
