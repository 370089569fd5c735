//! Model: variables, spacing, and the objective as one weighted sum.
//!
//! In: points. Out: a solved programme. Rule: at most one station in any window
//! shorter than the least spacing; after each station another within the
//! greatest, or it is the last before a long bare stretch.

use super::Verdict;
use super::points::{May, Point};
use crate::judges::facts::{Facts, HoleFact};
use boltbay_core::job::{HoleState, Pattern};
use microlp::{ComparisonOp, Error, OptimizationDirection, Problem, Variable};
use std::collections::HashMap;
use std::time::Duration;

/// Weight of a station against a hole, and of a mark against a station.
const STATION: f64 = 64.0;
const MARK: f64 = 64.0 * 64.0;

/// A sum of variables.
pub(crate) type Sum = Vec<(Variable, f64)>;

/// Each variable once.
fn gathered(sum: Sum) -> Sum {
    let mut once: Sum = Vec::new();
    let mut place: HashMap<usize, usize> = HashMap::new();
    for (variable, factor) in sum {
        match place.get(&variable.idx()) {
            Some(n) => once[*n].1 += factor,
            None => {
                place.insert(variable.idx(), once.len());
                once.push((variable, factor));
            }
        }
    }
    once.retain(|(_, factor)| *factor != 0.0);
    once
}

/// A programme being built.
pub(crate) struct Model {
    pub(crate) problem: Problem,
    pub(crate) points: Vec<Point>,
    /// There is a station at this point.
    pub(crate) station: Vec<Variable>,
    /// A bolt in the top and the bottom row.
    pub(crate) rows: Vec<[Option<Variable>; 2]>,
}

impl Model {
    /// Variables of all points, and what ties those of one point together.
    pub(crate) fn new(facts: &Facts, points: Vec<Point>) -> Model {
        let mut model = Model {
            problem: Problem::new(OptimizationDirection::Minimize),
            points: Vec::new(),
            station: Vec::new(),
            rows: Vec::new(),
        };
        for point in points {
            let drilled = point.drilled();
            let both_rows = facts.pattern == Pattern::Paired;
            if both_rows && point.rows.contains(&None) && !drilled {
                continue;
            }
            model.add(point, both_rows);
        }
        model
    }

    /// A binary, or a one where it must be.
    fn binary(&mut self, weight: f64, must: bool) -> Variable {
        let least = i32::from(must);
        self.problem.add_integer_var(weight, (least, 1))
    }

    /// Adds a point.
    fn add(&mut self, point: Point, both_rows: bool) {
        let weight = |may: May| match may {
            May::Mark => 1.0 - MARK,
            May::New | May::Drilled(_) => 1.0,
        };
        let station = self.binary(STATION, point.drilled());
        let rows = point.rows.map(|may| {
            may.map(|may| {
                let must = matches!(may, May::Drilled(_));
                self.binary(weight(may), must)
            })
        });
        let bolts: Sum = rows.iter().flatten().map(|row| (*row, 1.0)).collect();
        for row in rows.iter().flatten() {
            let op = if both_rows {
                ComparisonOp::Eq
            } else {
                ComparisonOp::Le
            };
            self.problem
                .add_constraint([(*row, 1.0), (station, -1.0)], op, 0.0);
        }
        let mut some = bolts;
        some.push((station, -1.0));
        self.at_least(some, 0.0);
        if point.off_lattice {
            self.beside_holes(&point, rows);
        }
        self.points.push(point);
        self.station.push(station);
        self.rows.push(rows);
    }

    /// Off the lattice a new bolt needs a hole that is there beside it.
    fn beside_holes(&mut self, point: &Point, rows: [Option<Variable>; 2]) {
        for (new, there) in [(0, 1), (1, 0)] {
            if point.rows[new] != Some(May::New) {
                continue;
            }
            if let [Some(new), Some(there)] = [rows[new], rows[there]] {
                self.at_most(vec![(new, 1.0), (there, -1.0)], 0.0);
            }
        }
    }

    /// `sum <= right`.
    pub(crate) fn at_most(&mut self, sum: Sum, right: f64) {
        self.problem
            .add_constraint(gathered(sum), ComparisonOp::Le, right);
    }

    /// `sum >= right`.
    pub(crate) fn at_least(&mut self, sum: Sum, right: f64) {
        self.problem
            .add_constraint(gathered(sum), ComparisonOp::Ge, right);
    }

    /// One where the station is a pair, times `factor`.
    pub(crate) fn pair(&self, n: usize, factor: f64) -> Sum {
        let mut sum: Sum = self.rows[n]
            .iter()
            .flatten()
            .map(|row| (*row, factor))
            .collect();
        sum.push((self.station[n], -factor));
        sum
    }

    /// The points from `from` to `to`, both included.
    pub(crate) fn between(&self, from: i64, to: i64) -> std::ops::Range<usize> {
        let start = self.points.partition_point(|p| p.x < from);
        let end = self.points.partition_point(|p| p.x <= to);
        start..end.max(start)
    }

    /// Stations of a range of points, summed.
    pub(crate) fn stations(&self, range: std::ops::Range<usize>) -> Sum {
        self.station[range].iter().map(|s| (*s, 1.0)).collect()
    }

    /// Least and greatest spacing.
    pub(crate) fn spacing(&mut self, facts: &Facts) {
        for n in 0..self.points.len() {
            let x = self.points[n].x;
            let near = self.stations(self.between(x, x + facts.s_min - 1));
            self.at_most(near, 1.0);
        }
        let mut from = 0;
        for (end, next) in bare(facts) {
            self.chain(facts, from, end);
            from = next;
        }
    }

    /// A chain of its own from `from` to `to`.
    fn chain(&mut self, facts: &Facts, from: i64, to: i64) {
        let all = self.between(from, to);
        let last_point = self.points[all.clone()].last().map_or(from, |p| p.x);
        let settled = self.settled(facts, from, to);
        for n in all.clone() {
            let x = self.points[n].x;
            if x >= settled && last_point - settled <= facts.s_max {
                continue;
            }
            let mut within = self.stations(n + 1..self.between(x, (x + facts.s_max).min(to)).end);
            within.push((self.station[n], -1.0));
            if x >= settled {
                within.push((self.may_be_last(facts, n, all.end), 1.0));
            }
            self.at_least(within, 0.0);
        }
    }

    /// Where the last station of a chain is at the earliest: the end cover of
    /// the piece that ends last, or the last drilled hole.
    fn settled(&self, facts: &Facts, from: i64, to: i64) -> i64 {
        let inside = |p: &&crate::judges::facts::Piece| p.from >= from && p.to <= to;
        let piece = facts.pieces.iter().filter(inside).max_by_key(|p| p.to);
        let end = piece.map_or(to, |p| (p.to - facts.e_max).max(p.from + facts.e_min));
        let drilled = self.points[self.between(from, to)]
            .iter()
            .filter(|p| p.drilled())
            .map(|p| p.x)
            .max();
        drilled.map_or(end, |x| x.max(end))
    }

    /// A binary that is one only if nothing follows point `n` up to `end`.
    fn may_be_last(&mut self, facts: &Facts, n: usize, end: usize) -> Variable {
        let last = self.binary(0.0, false);
        let far = self.points[end - 1].x - self.points[n].x;
        let most = (far / facts.s_min.max(1) + 2) as f64;
        let mut beyond = self.stations(n + 1..end);
        beyond.push((last, most));
        self.at_most(beyond, most);
        last
    }

    /// Runs the solver.
    pub(crate) fn solve(mut self, facts: &Facts, limit: Duration) -> Verdict {
        self.problem.set_time_limit(limit);
        let solution = match self.problem.solve() {
            Err(Error::Infeasible) => return Verdict::NoPlan,
            Err(error) => panic!("the solver failed: {error}"),
            Ok(outcome) if !outcome.is_optimal() => return Verdict::OutOfTime,
            Ok(outcome) => outcome.into_solution().expect("an optimal solution"),
        };
        let one = |variable: &Variable| solution.var_value(*variable) > 0.5;
        let stations = self.station.iter().filter(|s| one(s)).count();
        let holes = self.rows.iter().flatten().flatten();
        let holes = holes.filter(|row| one(row)).count();
        let mut kept = 0;
        for (point, rows) in self.points.iter().zip(&self.rows) {
            for row in [0, 1] {
                let mark = point.rows[row] == Some(May::Mark);
                kept += usize::from(mark && rows[row].as_ref().is_some_and(one));
            }
        }
        let mark = |h: &&HoleFact| h.state == HoleState::Marked;
        let marks = facts.holes.iter().filter(mark).count();
        Verdict::Fewest(marks - kept, stations, holes)
    }
}

/// Long bare stretches, and one from the end of the steel on.
fn bare(facts: &Facts) -> Vec<(i64, i64)> {
    let mut pieces: Vec<(i64, i64)> = facts.pieces.iter().map(|p| (p.from, p.to)).collect();
    pieces.sort_unstable();
    let mut list = Vec::new();
    let mut packed_to = 0;
    for (from, to) in pieces {
        if from > packed_to && from - packed_to > facts.s_max - 2 * facts.e_min {
            list.push((packed_to, from));
        }
        packed_to = packed_to.max(to);
    }
    list.push((facts.length, facts.length));
    list
}
