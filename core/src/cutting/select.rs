//! Which sticks to open: the least selection that satisfies all that is known.
//!
//! In: an instance and what is known. Out: the selection with the least bought
//! length, then fewest bought sticks, then least offcut length. Since every
//! selection that holds the pieces satisfies what is known, none that holds them
//! costs less.
//!
//! Rule: depth first over the kinds, rods before offcuts, long before short;
//! what is still to be covered, at the cheapest stick's rate, is a lower bound,
//! rounded up to a multiple of what divides all lengths.

use super::covers::{COVERS, Known};
use super::instance::{Instance, KINDS, at, gcd, put, times_over_up};

/// Sticks opened, by kind.
pub(super) type Counts = [u32; KINDS];

/// Bought length, bought sticks, offcut length opened: least is best.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Cost {
    pub(super) bought: i64,
    pub(super) sticks: i64,
    pub(super) offcuts: i64,
}

impl Cost {
    pub(super) fn of(instance: &Instance, counts: &Counts) -> Cost {
        let mut cost = Cost::default();
        for (kind, stick) in instance.each_kind() {
            let count = i64::from(at(counts, kind));
            if stick.rod {
                cost.bought += count * stick.length();
                cost.sticks += count;
            } else {
                cost.offcuts += count * stick.length();
            }
        }
        cost
    }
}

/// What was found.
#[derive(Clone, Copy, Debug)]
pub(super) enum Selected {
    /// The least selection.
    Least(Counts),
    /// A selection, perhaps not the least: the search stopped.
    Some(Counts),
    /// None: there is not enough stock.
    Impossible,
    /// None found: the search stopped.
    Unknown,
}

/// The search.
struct Search<'a> {
    instance: &'a Instance,
    known: &'a Known,
    /// Still to be covered, by cover.
    need: [i64; COVERS],
    /// What all offcuts can cover, by cover.
    offcuts: [i64; COVERS],
    counts: Counts,
    cost: Cost,
    best: Option<(Cost, Counts)>,
    steps: u32,
    /// Divides all rod lengths, and all offcut lengths.
    divisors: [i64; 2],
}

/// The least selection that satisfies all that is known.
/// `steps` is what the search may still take, and is used up by it.
pub(super) fn least(instance: &Instance, known: &Known, steps: &mut u32) -> Selected {
    let mut search = Search::new(instance, known, *steps);
    search.rods(0);
    *steps = search.steps;
    match (search.best, search.steps > 0) {
        (Some((_, counts)), true) => Selected::Least(counts),
        (Some((_, counts)), false) => Selected::Some(counts),
        (None, true) => Selected::Impossible,
        (None, false) => Selected::Unknown,
    }
}

impl<'a> Search<'a> {
    fn new(instance: &'a Instance, known: &'a Known, steps: u32) -> Self {
        let mut need = [0; COVERS];
        let mut offcuts = [0; COVERS];
        let mut supply = [0; KINDS];
        let mut divisors = [0; 2];
        for (kind, stick) in instance.each_kind() {
            let [rods, rest] = divisors;
            if stick.rod {
                divisors = [gcd(rods, stick.length()), rest];
            } else {
                divisors = [rods, gcd(rest, stick.length())];
                put(&mut supply, kind, stick.supply);
            }
        }
        let slots = need.iter_mut().zip(&mut offcuts);
        for ((need, offcuts), cover) in slots.zip(known.covers()) {
            *need = cover.worth(instance.demand.iter().copied());
            *offcuts = cover.held(&supply);
        }
        Search {
            instance,
            known,
            need,
            offcuts,
            counts: [0; KINDS],
            cost: Cost::default(),
            best: None,
            steps,
            divisors,
        }
    }

    /// Chooses how many of each rod from kind `kind` on.
    fn rods(&mut self, kind: usize) {
        if kind >= self.instance.rods {
            return self.offcuts(kind);
        }
        if !self.rods_can_be_better(kind) {
            return;
        }
        let start = self.useful(kind, true);
        self.try_counts(kind, start, Self::rods);
    }

    /// Chooses how many of each offcut from kind `kind` on.
    fn offcuts(&mut self, kind: usize) {
        if !self.offcuts_can_be_better(kind) {
            return;
        }
        if kind >= self.instance.kinds {
            if !self.known.in_vain(self.instance, &self.counts) {
                self.best = Some((self.cost, self.counts));
            }
            return;
        }
        let start = self.useful(kind, false);
        self.try_counts(kind, start, Self::offcuts);
    }

    /// Tries `start` sticks of a kind, then fewer; more only where a selection
    /// was ruled out that would have been enough.
    fn try_counts(&mut self, kind: usize, start: u32, next: fn(&mut Self, usize)) {
        let supply = self.instance.kind.get(kind).map_or(0, |stick| stick.supply);
        for count in (0..=start.min(supply)).rev() {
            self.with(kind, count, next);
        }
        if !self.known.has_vain() {
            return;
        }
        for count in start.saturating_add(1)..=supply {
            if !self.with(kind, count, next) {
                return; // more would cost even more
            }
        }
    }

    /// Goes on with `count` sticks of a kind opened; false where these alone
    /// cost too much, or the search has stopped.
    fn with(&mut self, kind: usize, count: u32, next: fn(&mut Self, usize)) -> bool {
        self.steps = self.steps.saturating_sub(1);
        let Some(stick) = self.instance.kind.get(kind) else {
            return false;
        };
        let cost = self.cost;
        let count_wide = i64::from(count);
        if stick.rod {
            self.cost.bought += count_wide * stick.length();
            self.cost.sticks += count_wide;
        } else {
            self.cost.offcuts += count_wide * stick.length();
        }
        let goes_on = self.steps > 0 && self.could_beat(self.cost);
        if goes_on {
            self.cover(kind, -count_wide);
            put(&mut self.counts, kind, count);
            next(self, kind + 1);
            put(&mut self.counts, kind, 0);
            self.cover(kind, count_wide);
        }
        self.cost = cost;
        goes_on
    }

    /// Adds `count` sticks' worth to what is needed.
    fn cover(&mut self, kind: usize, count: i64) {
        for (need, cover) in self.need.iter_mut().zip(self.known.covers()) {
            *need += cover.most(kind) * count;
        }
    }

    /// Sticks of a kind that would cover all by themselves; with rods, what the
    /// offcuts can cover is left to them.
    fn useful(&self, kind: usize, rods: bool) -> u32 {
        let each = self.need.iter().zip(&self.offcuts).zip(self.known.covers());
        let counts = each.map(|((&need, &offcuts), cover)| {
            let open = need - if rods { offcuts } else { 0 };
            match (open, cover.most(kind)) {
                (..=0, _) => 0,
                (_, ..=0) => 0,
                (open, most) => open / most + i64::from(open % most != 0),
            }
        });
        u32::try_from(counts.max().unwrap_or(0)).unwrap_or(u32::MAX)
    }

    /// Whether rods from `kind` on can lead to less than the best known.
    fn rods_can_be_better(&self, kind: usize) -> bool {
        let all = 0..self.instance.rods;
        let mut least = (0, 0);
        let each = self.need.iter().zip(&self.offcuts);
        for (cover, (need, offcuts)) in each.enumerate().take(self.known.covers().len()) {
            let open = need - offcuts;
            if open <= 0 {
                continue;
            }
            let Some((length, sticks)) = self.rate(cover, open, kind..all.end) else {
                return false;
            };
            least = (length.max(least.0), sticks.max(least.1));
        }
        let [divisor, _] = self.divisors;
        self.could_beat(Cost {
            bought: self.cost.bought + up(least.0, divisor),
            sticks: self.cost.sticks + least.1,
            offcuts: self.cost.offcuts,
        })
    }

    /// Whether offcuts from `kind` on can lead to less than the best known.
    fn offcuts_can_be_better(&self, kind: usize) -> bool {
        let mut least = 0;
        for (cover, &need) in self.need.iter().enumerate().take(self.known.covers().len()) {
            if need <= 0 {
                continue;
            }
            let Some((length, _)) = self.rate(cover, need, kind..self.instance.kinds) else {
                return false;
            };
            least = least.max(length);
        }
        let [_, divisor] = self.divisors;
        let offcuts = self.cost.offcuts + up(least, divisor);
        self.could_beat(Cost {
            offcuts,
            ..self.cost
        })
    }

    fn could_beat(&self, cost: Cost) -> bool {
        self.best.is_none_or(|(best, _)| cost < best)
    }

    /// Least length and least number of sticks of these kinds that cover `open`;
    /// `None` where all of them do not.
    fn rate(&self, cover: usize, open: i64, kinds: core::ops::Range<usize>) -> Option<(i64, i64)> {
        let cover = self.known.covers().get(cover)?;
        let mut cheapest: Option<(i64, i64)> = None;
        let (mut greatest, mut all) = (0, 0_i64);
        for kind in kinds {
            let (stick, most) = (self.instance.kind.get(kind)?, cover.most(kind));
            if most <= 0 || stick.supply == 0 {
                continue;
            }
            all = all.saturating_add(most.saturating_mul(i64::from(stick.supply)));
            greatest = most.max(greatest);
            let cheaper = cheapest.is_none_or(|(length, per)| {
                i128::from(stick.length()) * i128::from(per) < i128::from(length) * i128::from(most)
            });
            if cheaper {
                cheapest = Some((stick.length(), most));
            }
        }
        let (length, per) = cheapest?;
        let greatest = greatest.max(1);
        if all < open {
            return None;
        }
        let sticks = open / greatest + i64::from(open % greatest != 0);
        Some((times_over_up(open, length, per), sticks))
    }
}

/// The multiple of `divisor` at or above `length`.
fn up(length: i64, divisor: i64) -> i64 {
    if divisor <= 1 {
        return length;
    }
    let rest = length % divisor;
    if rest == 0 {
        length
    } else {
        length + (divisor - rest)
    }
}
