//! What every selection of sticks must satisfy.
//!
//! In: values for the lengths. Out: covers, `sum of most over the sticks >= sum
//! of value over the pieces`, and selections known to be in vain.
//!
//! Rule: give each length a value; if no pattern of a stick is worth more than
//! its `most`, then no selection can hold the pieces unless its sticks' most
//! come to at least what the pieces are worth. True for any values at all, so
//! values may come from floating point: `most` is found in whole numbers.

use super::instance::{Instance, KINDS, at, put};
use super::knapsack::{self, Limits};
use super::select::Counts;
use crate::rods::MOST_LENGTHS;

/// Most covers kept.
pub(super) const COVERS: usize = 12;
/// Most selections kept that are known to be in vain.
const VAIN: usize = 24;
/// How far a cover's most is looked for.
const LIMITS: Limits = Limits {
    floor: 0,
    enough: 0,
    steps: 4_000,
};
/// The first covers stay: by weight, and by number of pieces.
const KEPT: usize = 2;

/// One cover.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cover {
    /// Worth of a piece, by length.
    value: [u32; MOST_LENGTHS],
    /// No pattern of a stick is worth more, by kind.
    most: [u32; KINDS],
}

impl Cover {
    const NONE: Cover = Cover {
        value: [0; MOST_LENGTHS],
        most: [0; KINDS],
    };

    /// The cover of these values.
    pub(super) fn of(instance: &Instance, value: &[u32; MOST_LENGTHS]) -> Cover {
        let mut most = [0; KINDS];
        for (kind, stick) in instance.each_kind() {
            let best = knapsack::best(
                value,
                &instance.weight,
                &instance.demand,
                stick.room(),
                LIMITS,
            );
            put(
                &mut most,
                kind,
                u32::try_from(best.upper).unwrap_or(u32::MAX),
            );
        }
        Cover {
            value: *value,
            most,
        }
    }

    /// Worth of one piece of a length.
    pub(super) fn value(&self, length: usize) -> i64 {
        i64::from(at(&self.value, length))
    }

    /// What no pattern of a stick of this kind is worth more than.
    pub(super) fn most(&self, kind: usize) -> i64 {
        i64::from(at(&self.most, kind))
    }

    /// What these pieces are worth.
    pub(super) fn worth(&self, pieces: impl Iterator<Item = u32>) -> i64 {
        let each = self.value.iter().zip(pieces);
        each.map(|(&value, count)| i64::from(value).saturating_mul(i64::from(count)))
            .fold(0, i64::saturating_add)
    }

    /// The most that these sticks can hold of it.
    pub(super) fn held(&self, counts: &Counts) -> i64 {
        let each = self.most.iter().zip(counts);
        each.map(|(&most, &count)| i64::from(most).saturating_mul(i64::from(count)))
            .fold(0, i64::saturating_add)
    }
}

/// A selection that is known not to hold the pieces, or is to be left out.
#[derive(Clone, Copy, Debug)]
struct Vain {
    /// Sticks with at least the room of each kind.
    upto: [u16; KINDS],
    /// Only this selection, not what it dominates: nothing was proved.
    alone: bool,
}

/// All that is known about selections.
#[derive(Clone, Debug)]
pub(crate) struct Known {
    covers: [Cover; COVERS],
    count: usize,
    /// Where the next cover goes when there is no more room.
    next: usize,
    vain: [Vain; VAIN],
    vain_count: usize,
}

impl Known {
    pub(crate) const fn new() -> Self {
        Known {
            covers: [Cover::NONE; COVERS],
            count: 0,
            next: 0,
            vain: [Vain {
                upto: [0; KINDS],
                alone: false,
            }; VAIN],
            vain_count: 0,
        }
    }

    /// Forgets all and starts with the covers by weight and by number.
    pub(super) fn start(&mut self, instance: &Instance) {
        (self.count, self.next, self.vain_count) = (0, KEPT, 0);
        self.add(Cover::of(instance, &instance.weight));
        self.add(Cover::of(instance, &[1; MOST_LENGTHS]));
    }

    pub(super) fn covers(&self) -> &[Cover] {
        self.covers.get(..self.count).unwrap_or_default()
    }

    /// Keeps a cover; the oldest found one gives way.
    /// Gives its place.
    pub(super) fn add(&mut self, cover: Cover) -> usize {
        let place = if self.count < COVERS {
            self.count += 1;
            self.count - 1
        } else {
            let place = self.next;
            self.next = if place + 1 < COVERS { place + 1 } else { KEPT };
            place
        };
        put(&mut self.covers, place, cover);
        place
    }

    /// Notes a selection in vain; `alone`: nothing proved, leave it out only.
    /// False when there is no more room.
    pub(super) fn add_vain(&mut self, instance: &Instance, counts: &Counts, alone: bool) -> bool {
        let upto = upto(instance, counts);
        put(&mut self.vain, self.vain_count, Vain { upto, alone });
        let room = self.vain_count < VAIN;
        self.vain_count += usize::from(room);
        room
    }

    /// Whether a selection is known to be in vain: each of its sticks has its
    /// match of no less room in a selection that is.
    pub(super) fn in_vain(&self, instance: &Instance, counts: &Counts) -> bool {
        if self.vain_count == 0 {
            return false;
        }
        let mine = upto(instance, counts);
        let mut known = self.vain.iter().take(self.vain_count);
        known.any(|vain| {
            if vain.alone {
                vain.upto == mine
            } else {
                mine.iter()
                    .zip(&vain.upto)
                    .all(|(mine, theirs)| mine <= theirs)
            }
        })
    }

    /// Whether any selection is left out.
    pub(super) fn has_vain(&self) -> bool {
        self.vain_count > 0
    }
}

/// For each kind, how many sticks of a selection have at least its room.
fn upto(instance: &Instance, counts: &Counts) -> [u16; KINDS] {
    let mut upto = [0; KINDS];
    for (kind, stick) in instance.each_kind() {
        let sticks = instance
            .each_kind()
            .filter(|(_, other)| other.room() >= stick.room());
        let sum = sticks
            .map(|(other, _)| at(counts, other))
            .fold(0, u32::saturating_add);
        put(&mut upto, kind, u16::try_from(sum).unwrap_or(u16::MAX));
    }
    upto
}
