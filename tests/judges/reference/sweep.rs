//! Sweep: the dynamic programme for one least play and one greatest spacing.
//!
//! In: facts and stations. Out: for every state the least cost of reaching the
//! end, cost = marks struck out, then stations, then holes. Rule: a plan is a
//! chain of stations; what may follow what is decided here and nowhere else.

use super::covers::{Asked, Profile, asks, lost};
use super::stations::{Station, drilled, stations};
use crate::judges::facts::Facts;
use boltbay_core::job::Pattern;
use boltbay_core::words::Row;
use std::collections::{BTreeSet, HashMap};
use std::ops::Range;

/// Cost of a kept mark (a gain), a station, a hole.
const MARK: i64 = 1 << 40;
const STATION: i64 = 1 << 20;
/// No way.
pub const NEVER: i64 = i64::MAX;

/// A state: what stands last, and what of the past still matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Node {
    /// The last station.
    pub last: usize,
    /// The last station that has a legal bolt.
    pub legal: Option<usize>,
    /// The turn row after it: 0 top, 1 bot.
    pub turn: u8,
    /// The pair at `legal` has its reason already, or needs none.
    pub reason: bool,
}

/// Facts with all their stations.
pub struct Sweep<'a> {
    /// The job.
    pub facts: &'a Facts,
    /// All that can stand anywhere.
    pub stations: Vec<Station>,
    near: Vec<i64>,
    far: Vec<i64>,
    slack: Vec<i64>,
    has_legal: Vec<bool>,
    profiles: Vec<Profile>,
    zone: Vec<usize>,
    bare: Vec<(i64, i64)>,
    drilled_at: Vec<i64>,
    /// Marks on the card that are not answered.
    pub marks: usize,
}

/// Stretches packed on neither side.
fn bare_stretches(facts: &Facts) -> Vec<(i64, i64)> {
    let mut pieces: Vec<(i64, i64)> = facts.pieces.iter().map(|p| (p.from, p.to)).collect();
    pieces.sort_unstable();
    let mut bare = Vec::new();
    let mut packed_to = 0;
    for (from, to) in pieces {
        if from > packed_to {
            bare.push((packed_to, from));
        }
        packed_to = packed_to.max(to);
    }
    if packed_to < facts.length {
        bare.push((packed_to, facts.length));
    }
    bare
}

/// Numbers the zones.
fn number(zones: Vec<Vec<u8>>) -> Vec<usize> {
    let mut known: HashMap<Vec<u8>, usize> = HashMap::new();
    zones
        .into_iter()
        .map(|zone| {
            let next = known.len();
            *known.entry(zone).or_insert(next)
        })
        .collect()
}

/// Limits of one run of the programme.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// Every bolt not yet drilled has at least this room.
    pub play: i64,
    /// Spacings, where the greatest spacing holds, at most this.
    pub spacing: i64,
}

/// Least costs to the end from each state whose last station is legal.
pub struct Costs {
    of: Vec<i64>,
    /// Of the whole plan.
    pub best: i64,
    limits: Limits,
}

impl<'a> Sweep<'a> {
    /// Lists all stations of a job.
    pub fn new(facts: &'a Facts) -> Self {
        let stations = stations(facts);
        let profiles: Vec<Profile> = stations.iter().map(|s| Profile::of(facts, s)).collect();
        let mark =
            |h: &&crate::judges::facts::HoleFact| h.state == boltbay_core::job::HoleState::Marked;
        Sweep {
            facts,
            near: stations.iter().map(Station::near).collect(),
            far: stations.iter().map(Station::far).collect(),
            slack: stations.iter().map(Station::slack).collect(),
            has_legal: stations
                .iter()
                .map(|s| s.legal().next().is_some())
                .collect(),
            zone: number(profiles.iter().map(Profile::zone).collect()),
            profiles,
            bare: bare_stretches(facts),
            drilled_at: drilled(facts),
            marks: facts.holes.iter().filter(mark).count(),
            stations,
        }
    }

    /// Every spacing that two neighbours can have, ascending.
    pub fn spacings(&self, limits: Limits) -> Vec<i64> {
        let mut all = BTreeSet::from([0]);
        for y in 0..self.stations.len() {
            for z in y + 1..self.stations.len() {
                if self.near[z] - self.near[y] > self.facts.widest() {
                    break;
                }
                if self.slack[y].min(self.slack[z]) >= limits.play {
                    all.insert(self.far[z] - self.near[y]);
                }
            }
        }
        all.into_iter().filter(|s| *s <= limits.spacing).collect()
    }

    /// Cost of a station by itself.
    fn cost(&self, station: usize) -> i64 {
        let s = &self.stations[station];
        STATION + s.bolts.len() as i64 - MARK * s.marks() as i64
    }

    /// Marks struck out, stations and holes of a whole plan's cost.
    pub fn counts(&self, cost: i64) -> (usize, usize, usize) {
        let kept = -(cost.div_euclid(MARK));
        let rest = cost.rem_euclid(MARK);
        (
            self.marks - kept as usize,
            (rest / STATION) as usize,
            (rest % STATION) as usize,
        )
    }

    /// A stretch packed on neither side, and long, lies between.
    pub fn exempt(&self, from: i64, to: i64) -> bool {
        self.bare.iter().any(|(p, q)| {
            let between = (*q).min(to) - (*p).max(from);
            between > 0 && between > self.facts.s_max - 2 * self.facts.e_min
        })
    }

    /// Whether `z` may be the next station after `y`, spacing alone.
    fn spaced(&self, y: usize, z: usize, limits: Limits) -> bool {
        let (first, second) = (&self.stations[y], &self.stations[z]);
        let least = self.near[z] - self.far[y];
        let both_drilled = first.drilled() && second.drilled();
        if least < self.facts.s_min && !(both_drilled && least >= 0) {
            return false;
        }
        if self.one_station(first, second) {
            return false;
        }
        let most = self.far[z] - self.near[y];
        most <= self.facts.s_max.min(limits.spacing)
            || self.exempt(self.far[y], self.near[z])
            || (self.facts.allows_step(self.near[y], self.far[z]) && most <= limits.spacing)
    }

    /// Two singles there already that are really one station.
    fn one_station(&self, first: &Station, second: &Station) -> bool {
        let new = |s: &Station| s.bolts.iter().any(|b| b.origin == super::Origin::New);
        let [last] = first.bolts.as_slice() else {
            return false;
        };
        let Some(next) = second.bolts.first() else {
            return false;
        };
        !new(first)
            && !new(second)
            && last.row != next.row
            && next.at - last.at <= self.facts.diameter
    }

    /// Turn rows after `station`, given the one before it.
    fn turns(&self, station: usize, before: Option<u8>) -> &'static [u8] {
        let s = &self.stations[station];
        if self.facts.pattern != Pattern::Staggered {
            return &[0];
        }
        let one: &'static [u8] = &[0];
        let other: &'static [u8] = &[1];
        if s.pair() {
            return match before {
                None => &[0, 1],
                Some(0) => other,
                Some(_) => one,
            };
        }
        let row = match s.bolts.first().map(|b| b.row) {
            Some(Row::Bot) => 1,
            _ => 0,
        };
        if s.bound_by_turn() && before == Some(row) {
            return &[];
        }
        if row == 0 { one } else { other }
    }

    /// A pair that needs a reason and has none yet.
    fn wants_reason(&self, node: &Node) -> bool {
        !node.reason && node.legal.is_some_and(|l| self.stations[l].made_pair)
    }

    /// What is asked between the last legal station of `node` and `z`.
    fn asked(&self, node: Option<&Node>, z: Option<usize>) -> Option<Asked> {
        let y = node.and_then(|n| n.legal);
        if let (Some(y), Some(z)) = (y, z)
            && self.zone[y] == self.zone[z]
        {
            return Some(Asked::default());
        }
        let profile = |n: Option<usize>| n.map(|n| &self.profiles[n]);
        asks(self.facts, profile(y), profile(z))
    }

    /// The states that follow when `z` is next, and what `z` costs.
    fn step(&self, node: Option<&Node>, z: usize, each: &mut impl FnMut(Node, i64)) {
        let legal = self.has_legal[z];
        let mut reason = node.is_some_and(|n| n.reason);
        if legal {
            let Some(asked) = self.asked(node, Some(z)) else {
                return;
            };
            if !asked.first && node.is_some_and(|n| self.wants_reason(n)) {
                return;
            }
            reason = asked.second || !self.stations[z].made_pair;
        } else if node.is_none() {
            reason = true;
        }
        let last_legal = if legal {
            Some(z)
        } else {
            node.and_then(|n| n.legal)
        };
        for turn in self.turns(z, node.map(|n| n.turn)) {
            let next = Node {
                last: z,
                legal: last_legal,
                turn: *turn,
                reason,
            };
            each(next, self.cost(z));
        }
    }

    /// Every state that may follow `node` (`None`: the start of the steel).
    pub fn next(&self, node: Option<&Node>, limits: Limits, mut each: impl FnMut(Node, i64)) {
        let after = node.map_or(0, |n| self.stations[n.last].drilled_after);
        for range in self.within_reach(node, after) {
            for z in range {
                if self.slack[z] < limits.play || self.stations[z].drilled_before != after {
                    continue;
                }
                if node.is_none_or(|n| self.spaced(n.last, z, limits)) {
                    self.step(node, z, &mut each);
                }
            }
        }
    }

    /// Where the next station may be looked for: nothing outside can follow,
    /// for it is too far, or a drilled hole or a piece's start is passed over.
    fn within_reach(&self, node: Option<&Node>, after: usize) -> [Range<usize>; 2] {
        let up_to = |x: i64| self.near.partition_point(|near| *near <= x);
        let end = up_to(self.drilled_at.get(after).copied().unwrap_or(i64::MAX));
        let Some(node) = node else {
            return [0..end, 0..0];
        };
        let y = node.last;
        let near = up_to(self.near[y] + self.facts.widest()).min(end);
        let beyond = self.beyond_bare(self.far[y]).map_or(0..0, |(from, to)| {
            let from = self.near.partition_point(|near| *near < from);
            from.max(near)..up_to(to).min(end)
        });
        [y + 1..near, beyond]
    }

    /// Across the first long bare stretch after `y`: from where enough of it
    /// lies behind to where the next piece's first station must be.
    fn beyond_bare(&self, y: i64) -> Option<(i64, i64)> {
        let enough = (self.facts.s_max - 2 * self.facts.e_min).max(0) + 1;
        let mut behind = self.bare.iter().map(|(p, q)| ((*p).max(y) + enough, *q));
        let (from, _) = behind.find(|(from, q)| from <= q)?;
        let later = self.facts.pieces.iter().filter(|p| p.from > y);
        let to = later
            .map(|p| p.from + self.facts.farthest_start(p))
            .min()
            .unwrap_or(self.facts.length);
        Some((from, to))
    }

    /// Whether a plan may end in this state.
    pub fn ends(&self, node: &Node) -> bool {
        if self.stations[node.last].drilled_after != self.drilled_at.len() {
            return false;
        }
        match self.asked(Some(node), None) {
            None => false,
            Some(asked) => asked.first || !self.wants_reason(node),
        }
    }

    /// Runs the programme.
    pub fn costs(&self, limits: Limits) -> Costs {
        let mut costs = Costs {
            of: vec![NEVER; self.stations.len() * 4],
            best: NEVER,
            limits,
        };
        let mut beside = HashMap::new();
        for last in (0..self.stations.len()).rev() {
            if !self.has_legal[last] || self.slack[last] < limits.play {
                continue;
            }
            for node in self.states(last) {
                costs.of[place(&node)] = self.from(Some(&node), &costs, &mut beside);
            }
        }
        costs.best = self.from(None, &costs, &mut beside);
        costs
    }

    /// Stations that a chain from the start of the steel can reach, and those
    /// from which one can get to the end.
    pub fn reachable(&self, limits: Limits) -> (Vec<usize>, Vec<usize>) {
        let mut reached: BTreeSet<Node> = BTreeSet::new();
        self.next(None, limits, |next, _| {
            reached.insert(next);
        });
        let mut forward = Vec::new();
        while let Some(node) = reached.pop_first() {
            if self.lost(&node) {
                continue;
            }
            self.next(Some(&node), limits, |next, _| {
                reached.insert(next);
            });
            forward.push(node.last);
        }
        let costs = self.costs(limits);
        let gets_there = |n: &usize| self.gets_there(*n, &costs);
        let backward = (0..self.stations.len()).filter(gets_there).collect();
        (forward, backward)
    }

    /// A drilled hole that is not legal stands last, and some cover before it
    /// can no longer be kept.
    fn lost(&self, node: &Node) -> bool {
        let last_legal = node.legal.map(|n| &self.profiles[n]);
        !self.has_legal[node.last] && lost(self.facts, last_legal, self.near[node.last])
    }

    /// From a station one can get to the end, whatever came before.
    fn gets_there(&self, n: usize, costs: &Costs) -> bool {
        if self.has_legal[n] {
            return costs.of[n * 4..n * 4 + 4].iter().any(|c| *c != NEVER);
        }
        let before = |l: &usize| {
            let apart = self.near[n] - self.far[*l];
            self.has_legal[*l] && (apart >= self.facts.s_min || self.stations[*l].drilled())
        };
        let legal = (0..n).filter(before).map(Some);
        legal.chain([None]).any(|legal| {
            self.turns(n, None).iter().any(|turn| {
                let node = Node {
                    last: n,
                    legal,
                    turn: *turn,
                    reason: true,
                };
                self.cost_from(&node, costs) != NEVER
            })
        })
    }

    /// The states in which a legal station can be.
    fn states(&self, last: usize) -> Vec<Node> {
        let reasons: &[bool] = if self.stations[last].made_pair {
            &[false, true]
        } else {
            &[true]
        };
        let turns = self.turns(last, None).iter();
        turns
            .flat_map(|turn| {
                reasons.iter().map(|reason| Node {
                    last,
                    legal: Some(last),
                    turn: *turn,
                    reason: *reason,
                })
            })
            .collect()
    }

    /// Least cost to the end from `node`, all later ones known.
    fn from(&self, node: Option<&Node>, costs: &Costs, beside: &mut HashMap<Node, i64>) -> i64 {
        let mut best = match node {
            Some(node) if self.ends(node) => 0,
            _ => NEVER,
        };
        self.next(node, costs.limits, |next, cost| {
            let rest = self.to_end(&next, costs, beside);
            if rest != NEVER {
                best = best.min(cost + rest);
            }
        });
        best
    }

    /// Least cost to the end from a state after the one at hand.
    fn to_end(&self, node: &Node, costs: &Costs, beside: &mut HashMap<Node, i64>) -> i64 {
        if node.legal == Some(node.last) {
            return costs.of[place(node)];
        }
        if let Some(known) = beside.get(node) {
            return *known;
        }
        let cost = self.from(Some(node), costs, beside);
        beside.insert(*node, cost);
        cost
    }

    /// Least cost to the end from any state.
    pub fn cost_from(&self, node: &Node, costs: &Costs) -> i64 {
        self.to_end(node, costs, &mut HashMap::new())
    }
}

/// Where a state's cost is kept.
fn place(node: &Node) -> usize {
    node.last * 4 + usize::from(node.turn) * 2 + usize::from(node.reason)
}
