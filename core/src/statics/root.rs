//! Where a slope passes through zero.
//!
//! In: a step's slope, a cubic in the distance along it, and two places between
//! which it runs one way through zero. Out: that place, to the last bits. Rule:
//! Newton's step where it stays between the two places, else their middle; the
//! count of steps is fixed, so it ends whatever comes in.

use crate::float;

/// Slope along a step of constant load; all times EI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Slope {
    /// At the start of the step.
    pub slope: f64,
    /// Moment at the start.
    pub moment: f64,
    /// Shear at the start.
    pub shear: f64,
    /// Load on the step.
    pub load: f64,
}

/// Steps of the search: halving alone needs 53 for the last bit of most cases.
const STEPS: usize = 80;

impl Slope {
    /// Slope at a distance from the start.
    pub fn at(&self, t: f64) -> f64 {
        self.slope - t * (self.moment + t * (self.shear / 2.0 - t * self.load / 6.0))
    }

    /// Moment there.
    pub fn moment_at(&self, t: f64) -> f64 {
        self.moment + t * (self.shear - t * self.load / 2.0)
    }

    /// Distances inside the step where the moment is zero, in order: there the
    /// slope turns.
    pub fn turns(&self, length: f64) -> [Option<f64>; 2] {
        let inside = |t: f64| (t > 0.0 && t < length).then_some(t);
        if self.load == 0.0 {
            return [inside(-self.moment / self.shear), None];
        }
        let root = float::sqrt(self.shear * self.shear + 2.0 * self.load * self.moment);
        // Adding sizes, never cancelling them.
        let sum = if self.shear < 0.0 {
            self.shear - root
        } else {
            self.shear + root
        };
        // Not a number compares as outside.
        let one = inside(sum / self.load);
        let other = inside(-2.0 * self.moment / sum);
        match (one, other) {
            (Some(one), Some(other)) if other < one => [Some(other), Some(one)],
            (None, other) => [other, None],
            both => [both.0, both.1],
        }
    }

    /// Where the slope is zero between two places, if it passes zero there.
    pub fn zero_between(&self, low: f64, high: f64) -> Option<f64> {
        let (at_low, at_high) = (self.at(low), self.at(high));
        let passes = (at_low < 0.0 && at_high > 0.0) || (at_low > 0.0 && at_high < 0.0);
        passes.then(|| self.search(low, high, at_high > 0.0))
    }

    fn search(&self, mut low: f64, mut high: f64, rising: bool) -> f64 {
        let mut t = (low + high) / 2.0;
        for _ in 0..STEPS {
            let slope = self.at(t);
            if slope == 0.0 {
                break;
            }
            if (slope > 0.0) == rising {
                high = t;
            } else {
                low = t;
            }
            // The slope's own slope is the moment, turned over.
            let newton = t + slope / self.moment_at(t);
            let next = if newton > low && newton < high {
                newton
            } else {
                (low + high) / 2.0
            };
            if next == t {
                break;
            }
            t = next;
        }
        t
    }
}
