//! The search for the best stack, of one side or of both together.
//!
//! In: the stock and the windows. Out: the best candidate, exactly.
//!
//! Rule: all multisets of at most four layers are walked, thickest first, cut
//! off where the total can no longer come as near to the windows as the best
//! one does (at most 4,844 of 16 layers). Two sides: sums of steps keep their
//! order, so the two best stacks by themselves are the best pair unless they
//! ask for more of a layer than there is. If they do, the S side is searched
//! again for every way in which the N side may take of those layers (at most
//! four layers deep), each with the N side's best answer; what cannot beat the
//! best pair is cut off.

use super::order::{Candidate, Steps};
use super::{LAYERS_IN_STACK, PackingInput, Window, outer_least};
use crate::job::{LAYERS, LayerKind, Moisture};
use crate::shrinkage::{self, Across, ONE};
use core::cmp::Ordering;
use heapless::Vec;

/// One kind of layer on hand, measured and dried.
#[derive(Clone, Copy, Debug)]
pub(super) struct Board {
    /// Counts.
    pub(super) thickness: i64,
    /// Counts in 2^-28.
    dried: i64,
    /// Row of the card.
    pub(super) index: u8,
    /// May be the outer layer.
    outer: bool,
    /// Layers for both sides together; `None` = as many as needed.
    count: Option<u16>,
}

/// Most of each layer that a stack may take.
type Limits = [u8; LAYERS];

/// The stock, thickest first, then in card order, and the tolerances.
#[derive(Clone, Debug)]
pub(super) struct Stock {
    pub(super) boards: Vec<Board, LAYERS, u8>,
    shy: i64,
    proud: i64,
    pub(super) aim: i64,
}

impl Stock {
    pub(super) fn of(input: &PackingInput) -> Stock {
        let least = i64::from(outer_least(input.units).counts());
        let service = Moisture::Percent(input.service);
        let mut boards = Vec::new();
        for (index, layer) in (0_u8..).zip(input.layers) {
            let thickness = i64::from(layer.thickness.counts());
            if thickness <= 0 {
                continue;
            }
            let share = layer.moisture.map_or(ONE, |moisture| {
                shrinkage::remaining(moisture, service, Across::Thickness)
            });
            let _ = boards.push(Board {
                thickness,
                dried: thickness * share,
                index,
                outer: layer.kind == LayerKind::Solid && thickness >= least,
                count: layer.count,
            });
        }
        boards.sort_unstable_by_key(|board| (-board.thickness, board.index));
        Stock {
            boards,
            shy: i64::from(input.shy.counts()),
            proud: i64::from(input.proud.counts()),
            aim: i64::from(input.aim.counts()),
        }
    }

    /// Greatest distance of a total from the windows, in counts.
    pub(super) fn miss(&self, window: &Window, total: i64) -> i64 {
        let short = window.greatest - self.shy - total;
        let over = total - window.least - self.proud;
        short.max(over).max(0)
    }

    /// The same for a dried total, in 2^-28 counts.
    fn miss_dried(&self, window: &Window, dried: i64) -> i64 {
        let short = (window.greatest - self.shy) * ONE - dried;
        let over = dried - (window.least + self.proud) * ONE;
        short.max(over).max(0)
    }

    /// What one side may take of each layer.
    fn limits(&self) -> Limits {
        let mut limits = [0; LAYERS];
        for (limit, board) in limits.iter_mut().zip(&self.boards) {
            *limit = most_of(board.count.unwrap_or(u16::MAX));
        }
        limits
    }

    /// What is left to one side after the other took its stack.
    fn limits_beside(&self, other: &Candidate) -> Limits {
        let mut limits = self.limits();
        for (at, (limit, board)) in limits.iter_mut().zip(&self.boards).enumerate() {
            if let Some(count) = board.count {
                *limit = most_of(count.saturating_sub(u16::from(other.uses(at))));
            }
        }
        limits
    }

    /// No stack at all: worse than any stack.
    fn nothing(&self, window: &Window) -> Candidate {
        let middle = window.least + window.greatest + 2 * self.aim;
        let miss = self.miss(window, 0);
        let dried = self.miss_dried(window, 0);
        Candidate {
            steps: Steps([1, miss, dried, middle.abs(), 0, 0, 0, 0, 0, 0]),
            at: [0; LAYERS_IN_STACK],
            rows: [0; LAYERS_IN_STACK],
            count: 0,
            total: 0,
            dried: 0,
        }
    }
}

/// A count as what one stack can take.
fn most_of(count: u16) -> u8 {
    u8::try_from(count)
        .unwrap_or(u8::MAX)
        .min(LAYERS_IN_STACK as u8)
}

/// Best stack of one side by itself.
pub(super) fn one(stock: &Stock, window: &Window) -> Candidate {
    best(stock, window, stock.limits(), i64::MAX)
}

/// Best stack within `limits`; stacks that miss by more than `miss` may be
/// left out (then, perhaps, no stack at all comes back).
fn best(stock: &Stock, window: &Window, limits: Limits, miss: i64) -> Candidate {
    let mut walk = Walk {
        stock,
        window,
        limits,
        miss,
        best: stock.nothing(window),
        at: Vec::new(),
        total: 0,
        dried: 0,
    };
    walk.extend(0);
    walk.best
}

/// A walk over the multisets of layers.
struct Walk<'a> {
    stock: &'a Stock,
    window: &'a Window,
    limits: Limits,
    /// No stack may miss by more.
    miss: i64,
    best: Candidate,
    /// Positions picked, never falling.
    at: Vec<u8, LAYERS_IN_STACK, u8>,
    total: i64,
    dried: i64,
}

impl Walk<'_> {
    /// Tries every layer from position `first` on as the next one.
    fn extend(&mut self, first: usize) {
        let stock = self.stock;
        let room = (LAYERS_IN_STACK - self.at.len()) as i64;
        for (at, board) in stock.boards.iter().enumerate().skip(first) {
            let most = self.total + room * board.thickness;
            if self.window.greatest - stock.shy - most > self.miss {
                return; // thinner ones reach even less far
            }
            let total = self.total + board.thickness;
            let over = total - self.window.least - stock.proud;
            if over > self.miss || self.used(at) >= self.limit(at) {
                continue;
            }
            let dried = self.dried;
            (self.total, self.dried) = (total, dried + board.dried);
            let _ = self.at.push(at as u8);
            self.offer();
            if self.at.len() < LAYERS_IN_STACK {
                self.extend(at);
            }
            self.at.pop();
            (self.total, self.dried) = (total - board.thickness, dried);
        }
    }

    fn used(&self, at: usize) -> usize {
        self.at
            .iter()
            .filter(|&&used| usize::from(used) == at)
            .count()
    }

    fn limit(&self, at: usize) -> usize {
        self.limits.get(at).copied().map_or(0, usize::from)
    }

    /// Keeps what is picked if it is better.
    fn offer(&mut self) {
        let Some(candidate) = self.candidate() else {
            return;
        };
        if candidate.compare(&self.best) == Ordering::Less {
            let (_, miss) = candidate.steps.head();
            self.miss = self.miss.min(miss);
            self.best = candidate;
        }
    }

    /// What is picked as a candidate; `None` where no layer may be outer.
    fn candidate(&self) -> Option<Candidate> {
        let stock = self.stock;
        let board = |at: u8| stock.boards.get(usize::from(at));
        let outer = self
            .at
            .iter()
            .position(|&at| board(at).is_some_and(|board| board.outer))?;
        let mut at = [0; LAYERS_IN_STACK];
        let mut rows = [0; LAYERS_IN_STACK];
        let mut thick = [0; LAYERS_IN_STACK];
        let first = self.at.get(outer);
        let rest = self.at.iter().enumerate().filter(|&(n, _)| n != outer);
        let picks = first.into_iter().chain(rest.map(|(_, at)| at));
        let slots = at.iter_mut().zip(&mut rows).zip(&mut thick);
        for (((slot, row), thickness), &pick) in slots.zip(picks) {
            *slot = pick;
            *row = board(pick)?.index;
            *thickness = board(pick)?.thickness;
        }
        let [outer, second, third, fourth] = thick;
        let miss = stock.miss(self.window, self.total);
        let dried = stock.miss_dried(self.window, self.dried);
        let middle = self.window.least + self.window.greatest + 2 * stock.aim;
        let off = (2 * self.total - middle).abs();
        let layers = self.at.len() as i64;
        Some(Candidate {
            steps: Steps([
                0, miss, dried, off, layers, -outer, self.total, -second, -third, -fourth,
            ]),
            at,
            rows,
            count: self.at.len(),
            total: self.total,
            dried: self.dried,
        })
    }
}

/// Best stacks of both sides, within what there is for both together.
pub(super) fn both(stock: &Stock, n: &Window, s: &Window) -> [Candidate; 2] {
    let alone = one(stock, n);
    let mut pair = Pair {
        stock,
        windows: [n, s],
        alone,
        best: [stock.nothing(n), stock.nothing(s)],
    };
    pair.explore(stock.limits(), LAYERS_IN_STACK as i64);
    pair.best
}

/// The search for the best pair.
struct Pair<'a> {
    stock: &'a Stock,
    windows: [&'a Window; 2],
    /// The N side's best where S takes nothing: no N stack is better.
    alone: Candidate,
    best: [Candidate; 2],
}

impl Pair<'_> {
    /// Finds the best S stack within `limits` and the best N stack beside it.
    /// Then, for each layer of that S stack that N may want: S again with less.
    /// `free`: layers of the N stack that the limits do not yet stand for.
    fn explore(&mut self, limits: Limits, free: i64) {
        let [n, s] = self.windows;
        let own = best(self.stock, s, limits, self.cap());
        let [n_best, s_best] = &self.best;
        let known = n_best.steps.plus(s_best.steps);
        if self.alone.steps.plus(own.steps) > known {
            return;
        }
        let beside = best(self.stock, n, self.stock.limits_beside(&own), i64::MAX);
        self.keep([beside, own]);
        for (at, board) in self.stock.boards.iter().enumerate() {
            let (Some(count), uses) = (board.count, own.uses(at)) else {
                continue;
            };
            let count = i64::from(count);
            for left in (count - free).max(0)..i64::from(uses) {
                let mut less = limits;
                if let Some(limit) = less.get_mut(at) {
                    *limit = left as u8;
                }
                self.explore(less, free - (count - left));
            }
        }
    }

    /// The most that an S stack may miss by and still be of use.
    fn cap(&self) -> i64 {
        let [n, s] = &self.best;
        let (none, miss) = n.steps.plus(s.steps).head();
        let (alone_none, alone) = self.alone.steps.head();
        if none == alone_none {
            miss - alone
        } else {
            i64::MAX
        }
    }

    /// Keeps the better pair: steps summed, then N's rows, then S's.
    fn keep(&mut self, found: [Candidate; 2]) {
        let steps = |pair: &[Candidate; 2]| {
            let [n, s] = pair;
            n.steps.plus(s.steps)
        };
        let by_rows = || {
            let [(n, n_best), (s, s_best)] = [0, 1].map(|side: usize| {
                let pick = |pair: &[Candidate; 2]| {
                    let [n, s] = *pair;
                    if side == 0 { n } else { s }
                };
                (pick(&found), pick(&self.best))
            });
            n.compare_rows(&n_best).then(s.compare_rows(&s_best))
        };
        let order = steps(&found).cmp(&steps(&self.best));
        if order.then_with(by_rows) == Ordering::Less {
            self.best = found;
        }
    }
}
