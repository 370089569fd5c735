//! The slow, obvious twin: a table over what is still to be cut, stick by stick.
//!
//! In: a cutting job. Out: the least cost, or that the stock does not suffice.
//! Rule: every single stick is taken in turn; for every state every set of
//! pieces that it can yield is tried. Shares no code with the core.

use super::{Cost, Cutting};
use boltbay_core::job::StickSource;
use std::collections::HashMap;

/// Pieces of each length still to be cut.
type State = Vec<u32>;

/// The least cost of cutting all pieces that some stick is long enough for;
/// `None`: the stock does not suffice.
pub fn least(job: &Cutting) -> Option<Cost> {
    let pieces = job.cuttable();
    let all: State = pieces.iter().map(|piece| piece.count).collect();
    let mut best: HashMap<State, Cost> = HashMap::from([(all.clone(), (0, 0, 0))]);
    for (length, source) in single_sticks(job, all.iter().sum()) {
        let yields = yields(job, length, &all);
        let mut next = best.clone();
        for (state, cost) in &best {
            let (bought, sticks, offcuts) = *cost;
            let cost = match source {
                StickSource::Rod => (bought + length, sticks + 1, offcuts),
                StickSource::Offcut => (bought, sticks, offcuts + length),
            };
            for cut in &yields {
                let rest: Option<State> = state
                    .iter()
                    .zip(cut)
                    .map(|(left, cut)| left.checked_sub(*cut))
                    .collect();
                let Some(rest) = rest else { continue };
                let known = next.entry(rest).or_insert(cost);
                *known = (*known).min(cost);
            }
        }
        best = next;
    }
    best.get(&vec![0; all.len()]).copied()
}

/// Every stick there is, one by one; unlimited rods once for each piece.
fn single_sticks(job: &Cutting, pieces: u32) -> Vec<(i64, StickSource)> {
    let mut list = Vec::new();
    for stick in &job.sticks {
        let count = stick
            .count
            .map_or(pieces, |count| u32::from(count).min(pieces));
        for _ in 0..count {
            list.push((i64::from(stick.length.counts()), stick.source));
        }
    }
    list
}

/// Every set of pieces that one stick can yield.
fn yields(job: &Cutting, stock: i64, all: &State) -> Vec<State> {
    let pieces = job.cuttable();
    let mut list: Vec<State> = vec![Vec::new()];
    for (piece, &most) in pieces.iter().zip(all) {
        let _ = piece;
        list = list
            .into_iter()
            .flat_map(|set| {
                (0..=most).map(move |count| {
                    let mut longer = set.clone();
                    longer.push(count);
                    longer
                })
            })
            .collect();
    }
    list.retain(|set| {
        let count: i64 = set.iter().map(|&count| i64::from(count)).sum();
        let sum: i64 = set
            .iter()
            .zip(&pieces)
            .map(|(&count, piece)| i64::from(count) * i64::from(piece.length.counts()))
            .sum();
        let cuts = count - 1 + i64::from(job.trim);
        count > 0 && sum + cuts * i64::from(job.kerf.counts()) <= stock
    });
    list
}
