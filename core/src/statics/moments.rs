//! Moments over the supports, reactions, and how each segment starts.
//!
//! In: a model and a loading. Out: what a walk along each segment needs to
//! start: shear, moment, EI times slope and sag. Rule: the three-moment
//! equation, sagging positive, for neighbouring spans L and R:
//!
//! ```text
//!   M1 L + 2 M2 (L + R) + M3 R = - 6 EI (slope at the right end of L, simply
//!     supported, and at the left end of R, both turning down into the span)
//! ```
//!
//! Overhangs are statically determinate and give the moments at the ends. All
//! of it is linear in the loads, so results of loadings may be added.

use super::model::{Case, Model};
use super::{Pattern, SEGMENTS};
use crate::job::SUPPORTS;
use heapless::Vec;

/// State at the left end of a segment, in lb and in; EI times slope and sag.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Start {
    /// Upward force on the part toward B; point loads at the very start not
    /// yet taken off.
    pub shear: f64,
    /// Sagging positive.
    pub moment: f64,
    /// Downward toward B positive.
    pub slope: f64,
    /// Downward positive.
    pub sag: f64,
}

/// A beam solved under one loading.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Solved {
    /// By support from end A, lb, pushing up positive.
    pub reactions: [f64; SUPPORTS],
    /// By segment from end A.
    pub starts: [Start; SEGMENTS],
}

/// Sums over the load of a segment.
#[derive(Clone, Copy, Debug, Default)]
struct Sums {
    /// Length of the segment.
    length: f64,
    /// All load.
    load: f64,
    /// Its moment about the left end.
    moment: f64,
    /// 6 EI times the slope at the left and right end, simply supported.
    left: f64,
    right: f64,
}

/// What an overhang does at its support.
#[derive(Clone, Copy, Debug, Default)]
struct Overhang {
    /// Length of the overhang.
    length: f64,
    /// All load.
    load: f64,
    /// Its moment about the support.
    moment: f64,
    /// Integral of that moment along the overhang, and the integral of that.
    turn: f64,
    drop: f64,
}

impl Solved {
    /// An unloaded beam.
    pub const NOTHING: Solved = Solved {
        reactions: [0.0; SUPPORTS],
        starts: [Start {
            shear: 0.0,
            moment: 0.0,
            slope: 0.0,
            sag: 0.0,
        }; SEGMENTS],
    };

    /// Adds another loading of the same beam.
    pub fn plus(mut self, other: &Solved) -> Solved {
        for (mine, theirs) in self.reactions.iter_mut().zip(other.reactions) {
            *mine += theirs;
        }
        for (mine, theirs) in self.starts.iter_mut().zip(other.starts) {
            mine.shear += theirs.shear;
            mine.moment += theirs.moment;
            mine.slope += theirs.slope;
            mine.sag += theirs.sag;
        }
        self
    }
}

/// A beam taken apart: what each segment does, and the moments that join them.
struct Joined {
    left: Overhang,
    spans: Vec<Sums, SEGMENTS, u8>,
    right: Overhang,
    /// By support.
    moments: Vec<f64, SUPPORTS, u8>,
}

/// Solves a model under a loading.
#[inline(never)]
pub(super) fn solve(model: &Model, case: Case) -> Solved {
    let last = model.supports();
    let mut joined = Joined {
        left: overhang(model, 0, case),
        spans: Vec::new(),
        right: overhang(model, last, case),
        moments: Vec::new(),
    };
    for span in 1..last {
        // Fewer than segments.
        let _ = joined.spans.push(sums(model, span, case));
    }
    joined.join();
    Solved {
        reactions: joined.reactions(),
        starts: joined.starts(),
    }
}

impl Joined {
    /// Finds the moments over all supports from those at the first and the last.
    #[inline(never)]
    fn join(&mut self) {
        let (first, last) = (-self.left.moment, -self.right.moment);
        self.moments = over_supports(&self.spans, first, last);
    }

    /// Spans from end A with the moments at their ends.
    fn spans(&self) -> impl Iterator<Item = (&Sums, f64, f64)> {
        let ends = self.moments.iter().zip(self.moments.iter().skip(1));
        self.spans
            .iter()
            .zip(ends)
            .map(|(span, (m1, m2))| (span, *m1, *m2))
    }

    /// By support from end A.
    fn reactions(&self) -> [f64; SUPPORTS] {
        let mut reactions = [0.0; SUPPORTS];
        let mut add = |support: usize, force: f64| {
            if let Some(reaction) = reactions.get_mut(support) {
                *reaction += force;
            }
        };
        add(0, self.left.load);
        add(self.spans.len(), self.right.load);
        for (support, (span, m1, m2)) in self.spans().enumerate() {
            add(support, span.start_shear(m1, m2));
            add(support + 1, span.load - span.start_shear(m1, m2));
        }
        reactions
    }

    /// By segment from end A.
    fn starts(&self) -> [Start; SEGMENTS] {
        let mut starts = [Start::default(); SEGMENTS];
        let mut places = starts.iter_mut();
        let overhang_a = places.next();
        let mut end_slope = 0.0;
        for ((span, m1, m2), start) in self.spans().zip(places.by_ref()) {
            *start = Start {
                shear: span.start_shear(m1, m2),
                moment: m1,
                slope: (span.left + (2.0 * m1 + m2) * span.length) / 6.0,
                sag: 0.0,
            };
            end_slope = -(span.right + (m1 + 2.0 * m2) * span.length) / 6.0;
        }
        if let Some(start) = places.next() {
            *start = Start {
                shear: self.right.load,
                moment: -self.right.moment,
                slope: end_slope,
                sag: 0.0,
            };
        }
        if let (Some(start), Some((first, m1, m2))) = (overhang_a, self.spans().next()) {
            // Backward from the support, where the slope is that of span 1.
            let slope = (first.left + (2.0 * m1 + m2) * first.length) / 6.0;
            start.slope = slope - self.left.turn;
            start.sag = -start.slope * self.left.length - self.left.drop;
        }
        starts
    }
}

impl Sums {
    /// Shear at the left end, from the load and the moments at both ends.
    fn start_shear(&self, m1: f64, m2: f64) -> f64 {
        self.load - self.moment / self.length + (m2 - m1) / self.length
    }
}

/// Fills in the loadings with live load on one segment alone, by segment from end A.
pub(super) fn live_apart(model: &Model, apart: &mut [Solved; SEGMENTS]) {
    for (segment, solved) in apart.iter_mut().enumerate() {
        *solved = match model.live.has(segment) {
            true => solve(model, Case::live(Pattern::default().with(segment))),
            false => Solved::NOTHING,
        };
    }
}

/// Sums over a span.
fn sums(model: &Model, span: usize, case: Case) -> Sums {
    let (from, to) = model.bounds(span);
    let length = to - from;
    let square = length * length;
    // Integrals over s of the point load formulas s (L - s) (2 L - s) / L and
    // s (L - s) (L + s) / L.
    let left = |s: f64| s * s * (square - s * (length - s / 4.0)) / length;
    let right = |s: f64| s * s * (square / 2.0 - s * s / 4.0) / length;
    let mut sums = Sums {
        length,
        ..Sums::default()
    };
    for step in model.steps(span, case) {
        let (s, e, rest) = (step.from, step.to, length - step.from);
        sums.load += step.load * (e - s) + step.point;
        sums.moment += step.load * (e - s) * (e + s) / 2.0 + step.point * s;
        sums.left += step.load * (left(e) - left(s));
        sums.left += step.point * s * rest * (length + rest) / length;
        sums.right += step.load * (right(e) - right(s));
        sums.right += step.point * s * rest * (length + s) / length;
    }
    sums
}

/// An overhang: arms count from its support.
fn overhang(model: &Model, segment: usize, case: Case) -> Overhang {
    let (from, to) = model.bounds(segment);
    let mut hang = Overhang {
        length: to - from,
        ..Overhang::default()
    };
    for step in model.steps(segment, case) {
        let (near, far) = if segment == 0 {
            (to - from - step.to, to - from - step.from)
        } else {
            (step.from, step.to)
        };
        // A point load stands at the start of its step.
        let arm = if segment == 0 { far } else { near };
        hang.load += step.load * (far - near) + step.point;
        hang.moment += step.load * (far - near) * (far + near) / 2.0 + step.point * arm;
        let cube = |x: f64| x * x * x;
        hang.turn += step.load * (cube(far) - cube(near)) / 6.0 + step.point * arm * arm / 2.0;
        hang.drop += step.load * (far * cube(far) - near * cube(near)) / 24.0;
        hang.drop += step.point * cube(arm) / 6.0;
    }
    hang
}

/// The same as a list.
fn over_supports(spans: &[Sums], first: f64, last: f64) -> Vec<f64, SUPPORTS, u8> {
    let pairs = spans.iter().zip(spans.iter().skip(1));
    let rows = pairs.map(|(left, right)| Row {
        left: left.length,
        right: right.length,
        sum: -(left.right + right.left),
    });
    three_moments(rows, first, last)
}

/// One three-moment equation: M1 left + 2 M2 (left + right) + M3 right = sum.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Row {
    /// Length of the span toward A.
    pub left: f64,
    /// Length of the span toward B.
    pub right: f64,
    /// Right-hand side.
    pub sum: f64,
}

/// Solves the three-moment equations by elimination toward B and back. Each
/// row's middle term outweighs the other two, so no pivoting is needed.
pub(super) fn three_moments(
    rows: impl Iterator<Item = Row>,
    first: f64,
    last: f64,
) -> Vec<f64, SUPPORTS, u8> {
    // M[i] = known - part * M[i + 1]
    let mut eliminated: Vec<(f64, f64), SUPPORTS, u8> = Vec::new();
    let (mut known, mut part) = (first, 0.0);
    let _ = eliminated.push((known, part));
    for row in rows {
        let pivot = 2.0 * (row.left + row.right) - row.left * part;
        known = (row.sum - row.left * known) / pivot;
        part = row.right / pivot;
        let _ = eliminated.push((known, part));
    }
    let mut moments: Vec<f64, SUPPORTS, u8> = Vec::new();
    let mut next = last;
    let _ = moments.push(next);
    for (known, part) in eliminated.iter().rev() {
        next = known - part * next;
        let _ = moments.push(next);
    }
    moments.reverse();
    moments
}
