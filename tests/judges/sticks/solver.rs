//! The general solver: patterns as integer variables, three solves one after
//! the other for the three steps of the objective.
//!
//! In: a cutting job in eighths of an inch or pairs of millimetres. Out: the
//! least cost. Rule: a variable for each pattern of each stick; pieces covered,
//! supplies kept; then bought length, bought sticks and offcut length are each
//! minimised and held. Solver: the crate `microlp`.

use super::{Cost, Cutting};
use boltbay_core::job::StickSource;
use microlp::{ComparisonOp, Error, OptimizationDirection, Problem, Variable};
use std::time::Duration;

/// One pattern of one stick row.
struct Pattern {
    stick: usize,
    cuts: Vec<u32>,
}

/// What the solver says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Opinion {
    /// The least cost.
    Least(Cost),
    /// The stock does not suffice.
    Impossible,
    /// Stopped before it knew.
    OutOfTime,
}

/// The least cost, with a time limit for each of the three solves.
pub fn least(job: &Cutting, unit: i64, limit: Duration) -> Opinion {
    let patterns = patterns(job);
    let mut held: Vec<(usize, f64)> = Vec::new();
    for step in 0..3 {
        match solve(job, &patterns, unit, step, &held, limit) {
            Ok(value) => held.push((step, value)),
            Err(opinion) => return opinion,
        }
    }
    let whole = |step: usize| held[step].1.round() as i64;
    Opinion::Least((
        whole(0) * unit,
        u64::try_from(whole(1)).expect("not negative"),
        whole(2) * unit,
    ))
}

/// Minimises one step of the objective with the steps before it held.
fn solve(
    job: &Cutting,
    patterns: &[Pattern],
    unit: i64,
    step: usize,
    held: &[(usize, f64)],
    limit: Duration,
) -> Result<f64, Opinion> {
    let pieces = job.cuttable();
    let mut problem = Problem::new(OptimizationDirection::Minimize);
    problem.set_time_limit(limit);
    let variables: Vec<Variable> = patterns
        .iter()
        .map(|pattern| problem.add_integer_var(weight(job, pattern, unit, step), (0, 200)))
        .collect();
    for (n, piece) in pieces.iter().enumerate() {
        let sum = patterns.iter().zip(&variables);
        let sum = sum.map(|(pattern, &variable)| (variable, f64::from(pattern.cuts[n])));
        let sum: Vec<_> = sum.filter(|(_, times)| *times > 0.0).collect();
        problem.add_constraint(sum, ComparisonOp::Ge, f64::from(piece.count));
    }
    for (row, stick) in job.sticks.iter().enumerate() {
        let mine = patterns
            .iter()
            .zip(&variables)
            .filter(|(p, _)| p.stick == row);
        let mine: Vec<_> = mine.map(|(_, &variable)| (variable, 1.0)).collect();
        if let (Some(count), false) = (stick.count, mine.is_empty()) {
            problem.add_constraint(mine, ComparisonOp::Le, f64::from(count));
        }
    }
    for &(step, value) in held {
        let sum = patterns.iter().zip(&variables);
        let sum = sum.map(|(pattern, &variable)| (variable, weight(job, pattern, unit, step)));
        let sum: Vec<_> = sum.filter(|(_, times)| *times > 0.0).collect();
        if !sum.is_empty() {
            problem.add_constraint(sum, ComparisonOp::Le, value + 0.25);
        }
    }
    match problem.solve() {
        Err(Error::Infeasible) => Err(Opinion::Impossible),
        Err(error) => panic!("the solver failed: {error}"),
        Ok(outcome) if !outcome.is_optimal() => Err(Opinion::OutOfTime),
        Ok(outcome) => {
            let solution = outcome.into_solution().expect("optimal");
            let each = patterns.iter().zip(&variables);
            let each = each.map(|(pattern, &variable)| {
                solution.var_value(variable).round() * weight(job, pattern, unit, step)
            });
            Ok(each.sum())
        }
    }
}

/// What a stick costs at a step of the objective.
fn weight(job: &Cutting, pattern: &Pattern, unit: i64, step: usize) -> f64 {
    let stick = &job.sticks[pattern.stick];
    let length = i64::from(stick.length.counts()) / unit;
    match (step, stick.source) {
        (0, StickSource::Rod) | (2, StickSource::Offcut) => length as f64,
        (1, StickSource::Rod) => 1.0,
        _ => 0.0,
    }
}

/// Every pattern that nothing can be added to, of every stick row.
fn patterns(job: &Cutting) -> Vec<Pattern> {
    let mut all = Vec::new();
    for (stick, row) in job.sticks.iter().enumerate() {
        let kerf = i64::from(job.kerf.counts());
        let room = i64::from(row.length.counts()) + if job.trim { 0 } else { kerf };
        let weights: Vec<(i64, u32)> = job
            .cuttable()
            .iter()
            .map(|piece| (i64::from(piece.length.counts()) + kerf, piece.count))
            .collect();
        let mut cuts = Vec::new();
        extend(&weights, room, &mut cuts, &mut |cuts| {
            all.push(Pattern {
                stick,
                cuts: cuts.to_vec(),
            });
        });
    }
    all
}

fn extend(weights: &[(i64, u32)], room: i64, cuts: &mut Vec<u32>, found: &mut impl FnMut(&[u32])) {
    let Some(&(weight, most)) = weights.get(cuts.len()) else {
        let more = weights.iter().zip(cuts.iter());
        let maximal = more
            .into_iter()
            .all(|(&(w, most), &cut)| cut == most || w > room);
        if maximal && cuts.iter().any(|&cut| cut > 0) {
            found(cuts);
        }
        return;
    };
    for count in 0..=most.min(u32::try_from(room / weight).unwrap_or(0)) {
        cuts.push(count);
        extend(weights, room - i64::from(count) * weight, cuts, found);
        cuts.pop();
    }
}
