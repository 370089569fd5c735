//! Covers: what ends of packing and points ask, each as sums over an interval.
//!
//! In: a model. Out: its constraints. Rule: an interval holds a station; where
//! pairs are asked, the points of the interval are put in the order in which
//! they are asked (from the piece's end, or away from the point), and the first
//! one that has a station is a pair. A pair that something new makes needs to
//! be the first of some interval.

use super::model::{Model, Sum};
use super::points::May;
use crate::judges::facts::{Facts, NearFact};
use boltbay_core::job::Pattern;

/// Points of an interval in the order in which they are asked.
struct Interval {
    points: Vec<usize>,
    paired: bool,
}

/// Adds the constraints.
pub(crate) fn hold(model: &mut Model, facts: &Facts) {
    let intervals = intervals(model, facts);
    let mut reasons: Vec<Sum> = vec![Vec::new(); model.points.len()];
    for interval in &intervals {
        let all: Sum = interval
            .points
            .iter()
            .flat_map(|n| legal(model, *n, 1.0))
            .collect();
        model.at_least(all, 1.0);
        if interval.paired && facts.pattern == Pattern::Staggered {
            first_is_pair(model, interval, &mut reasons);
        }
    }
    if facts.pattern != Pattern::Staggered {
        return;
    }
    for (n, reasons) in reasons.into_iter().enumerate() {
        if !model.points[n].both_there() {
            let mut sum = model.pair(n, 1.0);
            sum.extend(reasons);
            model.at_most(sum, 0.0);
        }
    }
}

/// One where the station has a legal bolt, times `factor`.
fn legal(model: &Model, n: usize, factor: f64) -> Sum {
    let illegal = |may: &Option<May>| *may == Some(May::Drilled(false));
    let rows = &model.points[n].rows;
    if !rows.iter().any(illegal) {
        return vec![(model.station[n], factor)];
    }
    [0, 1]
        .iter()
        .filter(|row| !illegal(&rows[**row]))
        .filter_map(|row| model.rows[n][*row])
        .map(|row| (row, factor))
        .collect()
}

/// The first point with a station is a pair, and has its reason.
fn first_is_pair(model: &mut Model, interval: &Interval, reasons: &mut [Sum]) {
    let most = interval.points.len() as f64;
    for (k, n) in interval.points.iter().enumerate() {
        let earlier: Sum = interval.points[..k]
            .iter()
            .flat_map(|m| legal(model, *m, 1.0))
            .collect();
        let alone = model.points[*n].drilled() && !model.points[*n].partner_legal;
        if !alone {
            let mut pair = model.pair(*n, 1.0);
            pair.extend(legal(model, *n, -1.0));
            pair.extend(earlier.clone());
            model.at_least(pair, 0.0);
        }
        let first = model.problem.add_binary_var(0.0);
        let mut is_there = legal(model, *n, -1.0);
        is_there.push((first, 1.0));
        model.at_most(is_there, 0.0);
        let mut is_first = earlier;
        is_first.push((first, most));
        model.at_most(is_first, most);
        reasons[*n].push((first, -1.0));
    }
}

/// All intervals of a job.
fn intervals(model: &Model, facts: &Facts) -> Vec<Interval> {
    let mut list = Vec::new();
    for piece in &facts.pieces {
        let (least, most) = (facts.e_min, facts.e_max);
        let start = model.between(
            piece.from + least,
            (piece.from + most).min(piece.to - least),
        );
        let end = model.between((piece.to - most).max(piece.from + least), piece.to - least);
        list.push(Interval {
            points: start.collect(),
            paired: facts.ends_paired,
        });
        list.push(Interval {
            points: end.rev().collect(),
            paired: facts.ends_paired,
        });
    }
    for near in &facts.nears {
        around(model, near, &mut list);
    }
    list
}

/// The intervals of a `near` rule.
fn around(model: &Model, near: &NearFact, list: &mut Vec<Interval>) {
    let (a, b) = (near.at - near.within, near.at + near.within);
    let mut add = |points: Vec<usize>| {
        list.push(Interval {
            points,
            paired: near.paired,
        });
    };
    if near.each {
        add(model.between(a, near.at).rev().collect());
        add(model.between(near.at, b).collect());
        return;
    }
    let mut points: Vec<usize> = model.between(a, b).collect();
    points.sort_by_key(|n| {
        let x = model.points[*n].x;
        ((x - near.at).abs(), x)
    });
    add(points);
}
