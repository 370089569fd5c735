//! The most valuable set of pieces that one stick takes.
//!
//! In: a value for each length. Out: the best pattern and an upper bound on any
//! pattern's value, equal to its own unless the search had to stop.
//! Rule: depth first in order of value by weight, cut off by the fractional bound.

use super::instance::{at, put, times_over_down};
use crate::rods::MOST_LENGTHS;

/// Pieces from one stick: how many of each length.
pub(super) type Pattern = [u8; MOST_LENGTHS];

/// The best pattern.
#[derive(Clone, Copy, Debug)]
pub(super) struct Best {
    pub(super) pattern: Pattern,
    pub(super) value: i64,
    /// No pattern is worth more.
    pub(super) upper: i64,
    /// Steps taken.
    pub(super) steps: u32,
}

/// A length worth taking.
#[derive(Clone, Copy, Debug, Default)]
struct Item {
    length: usize,
    value: i64,
    weight: i64,
    most: u32,
}

/// The search.
struct Search {
    items: [Item; MOST_LENGTHS],
    count: usize,
    taken: [u32; MOST_LENGTHS],
    value: i64,
    room: i64,
    best: i64,
    best_taken: [u32; MOST_LENGTHS],
    steps: u32,
}

/// What is worth looking for, and for how long.
#[derive(Clone, Copy, Debug)]
pub(super) struct Limits {
    /// Patterns worth no more than this are not looked for: where there is no
    /// better one, the pattern is empty and its value is this.
    pub(super) floor: i64,
    /// A pattern within this of the upper bound is good enough: the bound then
    /// stands in for it.
    pub(super) enough: i64,
    /// Steps before the search stops and the fractional bound stands in.
    pub(super) steps: u32,
}

/// Best pattern within `room`, at most `most` of each length (and 255).
pub(super) fn best(value: &[u32], weight: &[u32], most: &[u32], room: i64, limits: Limits) -> Best {
    let Limits {
        floor,
        enough,
        steps,
    } = limits;
    let mut search = Search::new(value, weight, most, room);
    search.best = floor;
    let root = search.bound(0);
    let done = root <= floor || search.run(root - enough, steps);
    let done = done && (enough == 0 || search.best <= root - enough);
    let mut pattern = [0; MOST_LENGTHS];
    for (item, &taken) in search
        .items
        .iter()
        .zip(&search.best_taken)
        .take(search.count)
    {
        put(
            &mut pattern,
            item.length,
            u8::try_from(taken).unwrap_or(u8::MAX),
        );
    }
    let capped = most.iter().any(|&most| most > u32::from(u8::MAX));
    Best {
        pattern,
        value: search.best,
        upper: if done && !capped {
            search.best
        } else {
            root.max(floor)
        },
        steps: search.steps,
    }
}

impl Search {
    fn new(value: &[u32], weight: &[u32], most: &[u32], room: i64) -> Self {
        let mut items = [Item::default(); MOST_LENGTHS];
        let mut count = 0;
        for (length, ((&value, &weight), &most)) in value.iter().zip(weight).zip(most).enumerate() {
            let (value, weight) = (i64::from(value), i64::from(weight));
            if value > 0 && most > 0 && weight > 0 && weight <= room {
                let item = Item {
                    length,
                    value,
                    weight,
                    most: most.min(u32::from(u8::MAX)),
                };
                put(&mut items, count, item);
                count += 1;
            }
        }
        if let Some(items) = items.get_mut(..count) {
            items.sort_unstable_by(|a, b| {
                let [left, right] =
                    [(b, a), (a, b)].map(|(x, y)| i128::from(x.value) * i128::from(y.weight));
                left.cmp(&right).then(b.weight.cmp(&a.weight))
            });
        }
        Search {
            items,
            count,
            taken: [0; MOST_LENGTHS],
            value: 0,
            room,
            best: 0,
            best_taken: [0; MOST_LENGTHS],
            steps: 0,
        }
    }

    /// The most that items from `from` on can still add to the value.
    fn bound(&self, from: usize) -> i64 {
        if from >= self.count {
            return self.value;
        }
        let mut room = self.room;
        let mut value = self.value;
        let items = self.items.iter().take(self.count).skip(from);
        for item in items {
            let weight = i64::from(item.most) * item.weight;
            if weight > room {
                return value + times_over_down(room, item.value, item.weight);
            }
            room -= weight;
            value += i64::from(item.most) * item.value;
        }
        value
    }

    /// Walks all patterns that can be better; false = stopped early.
    fn run(&mut self, root: i64, steps: u32) -> bool {
        let mut depth = 0;
        for step in 0..steps {
            self.steps = step + 1;
            depth = self.descend(depth);
            if depth == self.count && self.value > self.best {
                self.best = self.value;
                self.best_taken = self.taken;
                if self.best >= root {
                    return true;
                }
            }
            match self.back(depth) {
                Some(next) => depth = next,
                None => return true,
            }
        }
        false
    }

    /// Takes as many as fit, item by item, while that can be better.
    fn descend(&mut self, mut depth: usize) -> usize {
        while depth < self.count && self.bound(depth) > self.best {
            let item = at_item(&self.items, depth);
            let fits = u32::try_from(self.room / item.weight.max(1)).unwrap_or(u32::MAX);
            let taken = fits.min(item.most);
            put(&mut self.taken, depth, taken);
            self.room -= i64::from(taken) * item.weight;
            self.value += i64::from(taken) * item.value;
            depth += 1;
        }
        depth
    }

    /// Puts back what the last choices took and takes one less of the one
    /// before; `None` when all is walked.
    fn back(&mut self, depth: usize) -> Option<usize> {
        for index in (0..depth).rev() {
            let item = at_item(&self.items, index);
            let taken = at(&self.taken, index);
            // One less of the last item is only worse.
            let put_back = if index + 1 == self.count {
                taken
            } else {
                taken.min(1)
            };
            put(&mut self.taken, index, taken - put_back);
            self.room += i64::from(put_back) * item.weight;
            self.value -= i64::from(put_back) * item.value;
            if put_back > 0 && index + 1 < self.count {
                return Some(index + 1);
            }
        }
        None
    }
}

/// The item, or an empty one.
fn at_item(items: &[Item], index: usize) -> Item {
    items.get(index).copied().unwrap_or(Item {
        weight: 1,
        ..Item::default()
    })
}
