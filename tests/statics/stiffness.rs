//! A second opinion on beams: the stiffness method, by a linear-algebra crate.
//!
//! In: supports, loads, EI as plain numbers in lb and in. Out: reactions,
//! moments, shears and sags of one loading. Rule: unknowns are the rotations
//! over the supports, solved at once by LU; loads enter by their fixed-end
//! moments, overhangs by the moment they bring; extremes are searched by
//! sampling and narrowing. Nothing here knows the three-moment equation, the
//! steps of the core, or its choice of patterns: every choice is tried.

use nalgebra::{DMatrix, DVector};

/// A load on the beam; a point load has `to == from` and its weight in lb.
#[derive(Clone, Copy, Debug)]
pub struct Load {
    pub from: f64,
    pub to: f64,
    pub dead: f64,
    pub live: f64,
}

/// A beam as plain numbers.
#[derive(Clone, Debug)]
pub struct Beam {
    pub length: f64,
    pub supports: Vec<f64>,
    pub ei: f64,
    /// Self-weight, lb/in.
    pub own: f64,
    pub loads: Vec<Load>,
}

/// Part of a load within one segment, from the segment's left end.
#[derive(Clone, Copy, Debug)]
struct Part {
    from: f64,
    to: f64,
    weight: f64,
}

impl Part {
    fn is_point(&self) -> bool {
        self.from == self.to
    }
}

/// A segment under one loading: state at its left end and loads along it.
#[derive(Clone, Debug)]
pub struct Piece {
    start: f64,
    length: f64,
    ei: f64,
    shear: f64,
    moment: f64,
    /// dy/dx at the left end and y there, upward.
    turn: f64,
    rise: f64,
    parts: Vec<Part>,
}

/// A solved loading.
#[derive(Clone, Debug)]
pub struct Answer {
    pub reactions: Vec<f64>,
    pub pieces: Vec<Piece>,
}

/// Most and least of a quantity.
pub type Range = (f64, f64);

impl Beam {
    /// Ends of all segments: overhang A, spans, overhang B.
    pub fn segments(&self) -> Vec<(f64, f64)> {
        let mut ends = vec![0.0];
        ends.extend(&self.supports);
        ends.push(self.length);
        ends.windows(2).map(|pair| (pair[0], pair[1])).collect()
    }

    /// Which segment a load at this place belongs to.
    fn holds(&self, segment: usize, at: f64) -> bool {
        let passed = self.supports.iter().filter(|x| **x <= at).count();
        let last = self.segments()[self.supports.len()];
        let passed = if passed == self.supports.len() && last.0 == last.1 {
            passed - 1
        } else {
            passed
        };
        passed == segment
    }

    /// All that one segment carries in a loading.
    fn parts(&self, segment: usize, dead: f64, own: f64, live: bool) -> Vec<Part> {
        let (start, end) = self.segments()[segment];
        let mut parts = vec![Part {
            from: 0.0,
            to: end - start,
            weight: self.own * own,
        }];
        if start == end {
            parts.clear();
        }
        for load in &self.loads {
            let weight = load.dead * dead + if live { load.live } else { 0.0 };
            if load.from == load.to {
                if self.holds(segment, load.from) {
                    let at = load.from - start;
                    parts.push(Part {
                        from: at,
                        to: at,
                        weight,
                    });
                }
                continue;
            }
            let from = load.from.max(start) - start;
            let to = load.to.min(end) - start;
            if from < to {
                parts.push(Part { from, to, weight });
            }
        }
        parts
    }

    /// Solves a loading: parts of the dead load and self-weight, live load on
    /// the segments of the mask.
    pub fn solve(&self, dead: f64, own: f64, mask: u32) -> Answer {
        let count = self.supports.len();
        let segments = self.segments();
        let parts: Vec<Vec<Part>> = (0..segments.len())
            .map(|k| self.parts(k, dead, own, mask >> k & 1 == 1))
            .collect();
        let spans = || (1..count).map(|k| (k, segments[k].1 - segments[k].0));
        let mut stiffness = DMatrix::<f64>::zeros(count, count);
        let mut moments = DVector::<f64>::zeros(count);
        for (k, length) in spans() {
            let (near, far) = (4.0 * self.ei / length, 2.0 * self.ei / length);
            stiffness[(k - 1, k - 1)] += near;
            stiffness[(k, k)] += near;
            stiffness[(k - 1, k)] += far;
            stiffness[(k, k - 1)] += far;
            let (left, right) = fixed_ends(&parts[k], length);
            moments[k - 1] -= left;
            moments[k] -= right;
        }
        let length_a = segments[0].1;
        let tip_a = about(&parts[0], length_a);
        let tip_b = about(&parts[count], 0.0);
        moments[0] += tip_a.1;
        moments[count - 1] -= tip_b.1;
        let turns = stiffness.lu().solve(&moments).expect("a stable beam");
        let mut reactions = vec![0.0; count];
        reactions[0] += tip_a.0;
        reactions[count - 1] += tip_b.0;
        let mut pieces = Vec::new();
        for (k, length) in spans() {
            let (left, right) = fixed_ends(&parts[k], length);
            let (one, two) = (turns[k - 1], turns[k]);
            let stiff = 2.0 * self.ei / length;
            let m1 = stiff * (2.0 * one + two) + left;
            let m2 = stiff * (one + 2.0 * two) + right;
            let (load, moment) = about(&parts[k], length);
            let shear = (moment + m1 + m2) / length;
            reactions[k - 1] += shear;
            reactions[k] += load - shear;
            pieces.push(Piece {
                start: segments[k].0,
                length,
                ei: self.ei,
                shear,
                moment: -m1,
                turn: one,
                rise: 0.0,
                parts: parts[k].clone(),
            });
        }
        let mut first = Piece {
            start: 0.0,
            length: length_a,
            ei: self.ei,
            shear: 0.0,
            moment: 0.0,
            turn: 0.0,
            rise: 0.0,
            parts: parts[0].clone(),
        };
        // Free end: turn and rise are what brings the support to turns[0] and 0.
        let (turn, rise) = (first.turn_at(length_a), first.rise_at(length_a));
        first.turn = turns[0] - turn;
        first.rise = -rise - first.turn * length_a;
        pieces.insert(0, first);
        pieces.push(Piece {
            start: segments[count].0,
            length: segments[count].1 - segments[count].0,
            ei: self.ei,
            shear: tip_b.0,
            moment: -tip_b.1,
            turn: turns[count - 1],
            rise: 0.0,
            parts: parts[count].clone(),
        });
        Answer { reactions, pieces }
    }
}

impl Beam {
    /// Reactions of the beam without load when one support goes down by so much:
    /// the chords turn, which bends fixed ends by 6 EI / L times that turn.
    pub fn settled(&self, down: usize, by: f64) -> Vec<f64> {
        let count = self.supports.len();
        let sunk = |k: usize| if k == down { by } else { 0.0 };
        let length = |k: usize| self.supports[k + 1] - self.supports[k];
        let bent = |k: usize| {
            let chord = (sunk(k) - sunk(k + 1)) / length(k);
            -6.0 * self.ei / length(k) * chord
        };
        let mut stiffness = DMatrix::<f64>::zeros(count, count);
        let mut moments = DVector::<f64>::zeros(count);
        for k in 0..count - 1 {
            for (at, other) in [(k, k + 1), (k + 1, k)] {
                stiffness[(at, at)] += 4.0 * self.ei / length(k);
                stiffness[(at, other)] += 2.0 * self.ei / length(k);
                moments[at] -= bent(k);
            }
        }
        let turns = stiffness.lu().solve(&moments).expect("a stable beam");
        let mut reactions = vec![0.0; count];
        for k in 0..count - 1 {
            let both = 6.0 * self.ei / length(k) * (turns[k] + turns[k + 1]) + 2.0 * bent(k);
            reactions[k] += both / length(k);
            reactions[k + 1] -= both / length(k);
        }
        reactions
    }
}

/// Fixed-end moments, counter-clockwise positive, of all parts of a span.
fn fixed_ends(parts: &[Part], length: f64) -> (f64, f64) {
    let square = length * length;
    let mut ends = (0.0, 0.0);
    for part in parts {
        let (a, e, w) = (part.from, part.to, part.weight);
        if part.is_point() {
            let b = length - a;
            ends.0 += w * a * b * b / square;
            ends.1 -= w * a * a * b / square;
            continue;
        }
        // The same over every point of the stretch.
        let left =
            |x: f64| x * x / 2.0 - 2.0 * x.powi(3) / (3.0 * length) + x.powi(4) / (4.0 * square);
        let right = |x: f64| x.powi(3) / (3.0 * length) - x.powi(4) / (4.0 * square);
        ends.0 += w * (left(e) - left(a));
        ends.1 -= w * (right(e) - right(a));
    }
    ends
}

/// Weight of all parts, and its moment about a place, arms without sign.
fn about(parts: &[Part], place: f64) -> (f64, f64) {
    parts.iter().fold((0.0, 0.0), |(load, moment), part| {
        let run = if part.is_point() {
            1.0
        } else {
            part.to - part.from
        };
        let arm = ((part.from + part.to) / 2.0 - place).abs();
        (load + part.weight * run, moment + part.weight * run * arm)
    })
}

/// x^n beyond a place, 0 before it.
fn beyond(x: f64, place: f64, power: i32) -> f64 {
    if x > place {
        (x - place).powi(power)
    } else {
        0.0
    }
}

impl Piece {
    /// Sum over all parts of the load's n-th integral from the left, at x.
    fn loaded(&self, x: f64, order: i32) -> f64 {
        let factorial = |n: i32| [1.0, 1.0, 2.0, 6.0, 24.0][n as usize];
        self.parts
            .iter()
            .map(|part| {
                if part.is_point() {
                    part.weight * beyond(x, part.from, order) / factorial(order)
                } else {
                    let power = order + 1;
                    part.weight * (beyond(x, part.from, power) - beyond(x, part.to, power))
                        / factorial(power)
                }
            })
            .sum()
    }

    /// Shear just beyond x.
    pub fn shear_at(&self, x: f64) -> f64 {
        let points = self.parts.iter().filter(|p| p.is_point() && p.from <= x);
        let spread = self.parts.iter().filter(|p| !p.is_point());
        let points: f64 = points.map(|p| p.weight).sum();
        let spread: f64 = spread
            .map(|p| p.weight * (x.min(p.to) - p.from.min(x)))
            .sum();
        self.shear - points - spread
    }

    /// Shear just before x.
    pub fn shear_before(&self, x: f64) -> f64 {
        let here = self.parts.iter().filter(|p| p.is_point() && p.from == x);
        self.shear_at(x) + here.map(|p| p.weight).sum::<f64>()
    }

    pub fn moment_at(&self, x: f64) -> f64 {
        self.moment + self.shear * x - self.loaded(x, 1)
    }

    fn turn_at(&self, x: f64) -> f64 {
        let bent = self.moment * x + self.shear * x * x / 2.0 - self.loaded(x, 2);
        self.turn + bent / self.ei
    }

    /// Upward.
    pub fn rise_at(&self, x: f64) -> f64 {
        let bent = self.moment * x * x / 2.0 + self.shear * x.powi(3) / 6.0 - self.loaded(x, 3);
        self.rise + self.turn * x + bent / self.ei
    }

    /// Places where something about the load changes.
    fn places(&self) -> Vec<f64> {
        let mut places = vec![0.0, self.length];
        places.extend(self.parts.iter().flat_map(|part| [part.from, part.to]));
        places.sort_by(f64::total_cmp);
        places.dedup();
        places
    }

    /// Whether a station lies on it; a segment without length holds none.
    pub fn holds(&self, station: f64) -> bool {
        let end = self.start + self.length;
        self.length > 0.0 && station >= self.start && station <= end
    }

    /// Shears just before and just beyond x, those inside the piece.
    pub fn shears_around(&self, x: f64) -> Vec<f64> {
        let mut shears = Vec::new();
        if x > 0.0 {
            shears.push(self.shear_before(x));
        }
        if x < self.length {
            shears.push(self.shear_at(x));
        }
        shears
    }

    pub fn start(&self) -> f64 {
        self.start
    }

    pub fn shears(&self) -> Range {
        let mut range = (0.0_f64, 0.0_f64);
        for pair in self.places().windows(2) {
            for shear in [self.shear_at(pair[0]), self.shear_before(pair[1])] {
                range = (range.0.max(shear), range.1.min(shear));
            }
        }
        range
    }

    pub fn moments(&self) -> Range {
        self.search(|x| self.moment_at(x))
    }

    /// Downward.
    pub fn sags(&self) -> Range {
        self.search(|x| -self.rise_at(x))
    }

    /// Most and least of a function that is smooth between places.
    fn search(&self, f: impl Fn(f64) -> f64) -> Range {
        let most = self.greatest(&f);
        let least = -self.greatest(|x| -f(x));
        (most, least)
    }

    /// Greatest value, 0 included. Samples stand closer toward the ends of each
    /// stretch, where a beam that hogs may still dip a little; only tops
    /// that can come near the best of all are searched further: between samples
    /// a beam rises by far less than a twentieth of what it spans over all.
    fn greatest(&self, f: impl Fn(f64) -> f64) -> f64 {
        const SAMPLES: usize = 24;
        let mut tops = Vec::new();
        for pair in self.places().windows(2) {
            let turn = std::f64::consts::PI / SAMPLES as f64;
            let half = (pair[1] - pair[0]) / 2.0;
            let at = |n: usize| pair[0] + half * (1.0 - (turn * n as f64).cos());
            let samples: Vec<f64> = (0..=SAMPLES).map(|n| f(at(n))).collect();
            let least = samples.iter().copied().fold(f64::INFINITY, f64::min);
            let most = samples.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            for (n, value) in samples.iter().enumerate() {
                let (before, beyond) = (n.saturating_sub(1), (n + 1).min(SAMPLES));
                if *value >= samples[before] && *value >= samples[beyond] {
                    let may = value + (most - least) / 20.0;
                    tops.push((*value, may, at(before), at(beyond)));
                }
            }
        }
        let best = tops.iter().map(|top| top.0).fold(0.0, f64::max);
        let near = tops.iter().filter(|top| top.1 >= 0.9 * best);
        let searched = near.map(|(value, _, low, high)| narrow(&f, *low, *high).max(*value));
        searched.fold(0.0, f64::max)
    }
}

/// Greatest value of a function with one top between two places, by the golden section.
/// What is left at the end is 2e-6 of what was there, and near a top the square of that
/// is missed: 4e-12 of what the function rises by.
fn narrow(f: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
    let (mut left, mut right) = (high - golden * (high - low), low + golden * (high - low));
    let (mut at_left, mut at_right) = (f(left), f(right));
    for _ in 0..27 {
        if at_left < at_right {
            (low, left, at_left) = (left, right, at_right);
            right = low + golden * (high - low);
            at_right = f(right);
        } else {
            (high, right, at_right) = (right, left, at_left);
            left = high - golden * (high - low);
            at_left = f(left);
        }
    }
    at_left.max(at_right)
}
