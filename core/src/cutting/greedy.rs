//! Good cutting without the full search: for more pieces or lengths than it
//! takes, and for stock that does not suffice.
//!
//! In: an instance. Out: sticks on the list; its pieces and supplies are used up.
//!
//! Rule: the sticks that the lower bound asks for, each cut as full as it can
//! be, alike as often as the pieces last; as soon as what is left is small
//! enough it is solved exactly. The list is the best only where its cost is the
//! lower bound's, and only then says so.

use super::List;
use super::fill::{LENGTHS, STICKS_MOST};
use super::instance::{Instance, at, put};
use super::knapsack::{self, Limits, Pattern};
use super::select::{self, Cost, Counts, Selected};
use super::solve::{self, Solved, Work};
use crate::rods::{MOST_LENGTHS, Proof};

/// Selections made.
const ROUNDS: u32 = 24;
/// Steps of one selection.
const SELECTING: u32 = 100_000;

/// How far the fullest pattern is looked for.
const LIMITS: Limits = Limits {
    floor: 0,
    enough: 0,
    steps: 4_000,
};

/// Whether an instance is more than the full search takes.
pub(super) fn is_wide(instance: &Instance) -> bool {
    !is_small(instance)
}

/// Cuts a wide instance.
pub(super) fn cut(instance: &mut Instance, work: &mut Work<'_>, list: &mut List) -> Proof {
    work.known.start(instance);
    let bound = match select::least(instance, work.known, &mut { SELECTING }) {
        Selected::Least(counts) => Some(Cost::of(instance, &counts)),
        Selected::Impossible => {
            finish(instance, work, list, false);
            return Proof::BoundMet;
        }
        _ => None,
    };
    finish(instance, work, list, true);
    let cost = Cost {
        bought: list.rods.bought_counts,
        sticks: i64::from(list.rods.bought_sticks),
        offcuts: list.rods.offcut_counts,
    };
    if list.rods.uncut.is_empty() && bound == Some(cost) {
        Proof::BoundMet
    } else {
        Proof::NotProved
    }
}

/// Cuts all that can be cut; what is left over is noted on the list. `exact`:
/// what remains is solved exactly as soon as it is small enough.
pub(super) fn finish(instance: &mut Instance, work: &mut Work<'_>, list: &mut List, exact: bool) {
    let mut exact = exact;
    for _ in 0..ROUNDS {
        if instance.pieces() == 0 {
            return;
        }
        if exact && is_small(instance) {
            if rest(instance, work, list) {
                return;
            }
            exact = false;
        }
        work.known.start(instance);
        let counts = match select::least(instance, work.known, &mut { SELECTING }) {
            Selected::Least(counts) | Selected::Some(counts) => counts,
            _ => supplies(instance),
        };
        if !cut_selected(instance, &counts, list, exact) {
            break;
        }
    }
    for length in 0..instance.lengths {
        list.leave(length, at(&instance.demand, length));
    }
}

/// All sticks there are.
fn supplies(instance: &Instance) -> Counts {
    let mut counts = [0; super::instance::KINDS];
    for (kind, stick) in instance.each_kind() {
        put(&mut counts, kind, stick.supply);
    }
    counts
}

/// Cuts the selected sticks, offcuts first; false where nothing could be cut.
/// `exact`: stops when what is left is small enough for the full search.
fn cut_selected(instance: &mut Instance, counts: &Counts, list: &mut List, exact: bool) -> bool {
    let mut any = false;
    for kind in (0..instance.kinds).rev() {
        let mut sticks = at(counts, kind);
        while sticks > 0 {
            let Some((pattern, most)) = fullest(instance, kind) else {
                break;
            };
            let times = alike(instance, &pattern, sticks.min(most), exact);
            if times == 0 {
                break;
            }
            take(instance, kind, &pattern, times);
            list.add(instance, kind, &pattern, times);
            sticks -= times;
            any = true;
            if exact && is_small(instance) {
                return true;
            }
        }
    }
    any
}

/// The pattern that fills a stick best, and how many such sticks there are.
fn fullest(instance: &Instance, kind: usize) -> Option<(Pattern, u32)> {
    let stick = instance.kind.get(kind)?;
    let weight = &instance.weight;
    let best = knapsack::best(weight, weight, &instance.demand, stick.room(), LIMITS);
    (best.value > 0 && stick.supply > 0).then_some((best.pattern, stick.supply))
}

/// How many sticks can be cut by a pattern; `exact`: leaving enough for the full
/// search to choose from.
fn alike(instance: &Instance, pattern: &Pattern, most: u32, exact: bool) -> u32 {
    let lengths = pattern
        .iter()
        .zip(&instance.demand)
        .filter(|(cut, _)| **cut > 0);
    let times = lengths
        .map(|(&cut, &left)| left / u32::from(cut).max(1))
        .min();
    let times = times.unwrap_or(0).min(most);
    if !exact {
        return times;
    }
    let each: u64 = pattern.iter().map(|&cut| u64::from(cut)).sum();
    let spare = instance.pieces().saturating_sub(STICKS_MOST as u64 / 2);
    let until = u32::try_from(spare / each.max(1)).unwrap_or(u32::MAX);
    times.min(until.max(1))
}

/// Takes pieces and sticks out of the instance.
fn take(instance: &mut Instance, kind: usize, pattern: &Pattern, times: u32) {
    for (left, &cut) in instance.demand.iter_mut().zip(pattern) {
        *left = left.saturating_sub(u32::from(cut).saturating_mul(times));
    }
    if let Some(stick) = instance.kind.get_mut(kind) {
        stick.supply = stick.supply.saturating_sub(times);
    }
}

/// Whether what is left is small enough for the full search.
fn is_small(instance: &Instance) -> bool {
    let lengths = instance.demand.iter().filter(|&&left| left > 0).count();
    lengths <= LENGTHS && instance.pieces() <= STICKS_MOST as u64
}

/// Solves what is left; false where that did not succeed.
fn rest(instance: &mut Instance, work: &mut Work<'_>, list: &mut List) -> bool {
    let mut small = instance.clone();
    let mut index = [0_usize; MOST_LENGTHS];
    small.lengths = 0;
    (small.weight, small.demand) = ([0; MOST_LENGTHS], [0; MOST_LENGTHS]);
    for (length, weight, count) in instance.each_length().filter(|&(_, _, count)| count > 0) {
        put(
            &mut small.weight,
            small.lengths,
            u32::try_from(weight).unwrap_or_default(),
        );
        put(&mut small.demand, small.lengths, count);
        put(&mut index, small.lengths, length);
        small.lengths += 1;
    }
    let Solved::Cut(_) = solve::solve(&small, work) else {
        return false;
    };
    for (kind, cuts) in work.sticks.each() {
        let mut pattern = [0; MOST_LENGTHS];
        for (&cut, &length) in cuts.iter().zip(&index).take(small.lengths) {
            put(&mut pattern, length, cut);
        }
        list.add(instance, kind, &pattern, 1);
    }
    true
}
