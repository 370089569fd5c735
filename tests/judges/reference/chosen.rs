//! Chosen: the one plan among all that are equally good so far.
//!
//! In: a sweep and the limits that the best plans keep. Out: the plan with the
//! lexicographically smallest list of stations, then pairs as early as
//! possible, then top first. Rule: walk all best plans at once, keep only those
//! that do best at each step, then drop what came to a dead end.

use super::best::Answer;
use super::stations::{Origin, Station};
use super::sweep::{Costs, Limits, NEVER, Node, Sweep};
use boltbay_core::job::HoleState;
use std::collections::BTreeMap;

/// States of all best plans at the n-th station, with what they cost so far.
type Layer = BTreeMap<(Node, i64), Vec<(Node, i64)>>;

/// States after `reached` that still lead to the best cost, by station.
fn onward(
    sweep: &Sweep,
    costs: &Costs,
    limits: Limits,
    reached: &[(Node, i64)],
) -> BTreeMap<i64, Layer> {
    let mut by_place: BTreeMap<i64, Layer> = BTreeMap::new();
    let mut add = |from: Option<(Node, i64)>, next: Node, spent: i64| {
        let rest = sweep.cost_from(&next, costs);
        if rest != NEVER && spent + rest == costs.best {
            let layer = by_place
                .entry(sweep.stations[next.last].near())
                .or_default();
            layer.entry((next, spent)).or_default().extend(from);
        }
    };
    if reached.is_empty() {
        sweep.next(None, limits, |next, cost| add(None, next, cost));
    }
    for (node, spent) in reached {
        sweep.next(Some(node), limits, |next, cost| {
            add(Some((*node, *spent)), next, spent + cost);
        });
    }
    by_place
}

/// Layers with the smallest list of stations.
fn smallest_list(sweep: &Sweep, costs: &Costs, limits: Limits) -> Vec<Layer> {
    let mut layers: Vec<Layer> = Vec::new();
    let mut reached: Vec<(Node, i64)> = Vec::new();
    while let Some((_, layer)) = onward(sweep, costs, limits, &reached).pop_first() {
        reached = layer.keys().copied().collect();
        layers.push(layer);
    }
    layers
}

/// Drops what does not lead to the end of the last layer.
fn without_dead_ends(layers: &mut [Layer]) {
    for n in (1..layers.len()).rev() {
        let alive: Vec<(Node, i64)> = layers[n].values().flatten().copied().collect();
        layers[n - 1].retain(|state, _| alive.contains(state));
    }
}

/// Keeps at each layer in turn only the states of least `rank` that follow from
/// what was kept before.
fn keep_least(layers: &mut [Layer], rank: impl Fn(&Node) -> usize) {
    without_dead_ends(layers);
    for n in 0..layers.len() {
        if n > 0 {
            let before: Vec<(Node, i64)> = layers[n - 1].keys().copied().collect();
            layers[n].retain(|_, from| {
                from.retain(|state| before.contains(state));
                !from.is_empty()
            });
        }
        let least = layers[n].keys().map(|(node, _)| rank(node)).min();
        layers[n].retain(|(node, _), _| Some(rank(node)) == least);
    }
    without_dead_ends(layers);
}

/// Largest spacing where the greatest spacing holds.
fn largest_spacing(sweep: &Sweep, plan: &[Station]) -> Option<i64> {
    plan.windows(2)
        .filter_map(|two| {
            let [first, second] = two else { return None };
            let spacing = second.far() - first.near();
            (!sweep.exempt(first.far(), second.near())).then_some(spacing)
        })
        .max()
}

/// Picks the plan.
pub fn choose(sweep: &Sweep, limits: Limits) -> Answer {
    let costs = sweep.costs(limits);
    let mut layers = smallest_list(sweep, &costs, limits);
    keep_least(&mut layers, |n| usize::from(!sweep.stations[n.last].pair()));
    keep_least(&mut layers, |n| usize::from(n.turn));
    keep_least(&mut layers, |n| n.last);
    let plan: Vec<Station> = layers
        .iter()
        .filter_map(|layer| layer.keys().next())
        .map(|(node, _)| sweep.stations[node.last].clone())
        .collect();
    let kept: Vec<usize> = plan
        .iter()
        .flat_map(|s| &s.bolts)
        .filter_map(|b| match b.origin {
            Origin::Mark(index) => Some(index),
            _ => None,
        })
        .collect();
    let mut struck_out: Vec<usize> = sweep
        .facts
        .holes
        .iter()
        .filter(|h| h.state == HoleState::Marked && !kept.contains(&h.index))
        .map(|h| h.index)
        .collect();
    struck_out.sort_unstable();
    Answer {
        struck_out,
        play_undrilled: limits.play,
        largest_spacing: largest_spacing(sweep, &plan),
        stations: plan,
    }
}
