//! Whether given sticks hold given pieces, by filling them one by one.
//!
//! In: an instance, how many sticks of each kind, the covers. Out: a pattern
//! for each stick, or the proof that there is none, or neither.
//!
//! Rule: sticks by room; each gets a pattern to which no remaining piece can be
//! added, most of the longest first, and sticks of one kind never rise (any
//! solution can be brought to that form). A branch ends where the sticks left can
//! no longer satisfy a cover, or where fractions show that they do not hold what
//! is left; that gives a new cover.

use super::covers::{COVERS, Cover, Known};
use super::instance::{Instance, KINDS, at, put};
use super::relax::{Basis, Relaxed};
use super::select::Counts;

/// Most different lengths that are searched for.
pub(super) const LENGTHS: usize = 8;
/// Most sticks, and most pieces, that are searched for.
pub(super) const STICKS_MOST: usize = 120;

/// Pieces from one stick.
pub(super) type Cuts = [u8; LENGTHS];

/// Which sticks are filled first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Order {
    Short,
    Long,
}

/// What came of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Outcome {
    /// The sticks hold the pieces.
    Holds,
    /// They do not: all was searched.
    Never,
    /// The search stopped.
    Stopped,
}

/// The cut list of a solution, and the room that the search needs.
#[derive(Clone, Debug)]
pub(super) struct Sticks {
    cuts: [Cuts; STICKS_MOST],
    kind: [u8; STICKS_MOST],
    count: usize,
}

impl Sticks {
    pub(super) const fn new() -> Self {
        Sticks {
            cuts: [[0; LENGTHS]; STICKS_MOST],
            kind: [0; STICKS_MOST],
            count: 0,
        }
    }

    pub(super) fn clear(&mut self) {
        self.count = 0;
    }

    /// Adds a stick; false when there is no more room.
    pub(super) fn push(&mut self, kind: usize, cuts: Cuts) -> bool {
        let room = self.count < STICKS_MOST;
        put(&mut self.cuts, self.count, cuts);
        put(&mut self.kind, self.count, kind as u8);
        self.count += usize::from(room);
        room
    }

    /// Sticks so far.
    pub(super) fn len(&self) -> usize {
        self.count
    }

    /// Forgets sticks beyond the first `count`.
    pub(super) fn cut_to(&mut self, count: usize) {
        self.count = self.count.min(count);
    }

    /// Kind and pieces of each stick.
    pub(super) fn each(&self) -> impl Iterator<Item = (usize, &Cuts)> {
        let both = self.kind.iter().zip(&self.cuts).take(self.count);
        both.map(|(&kind, cuts)| (usize::from(kind), cuts))
    }

    fn cuts(&self, stick: usize) -> Cuts {
        at(&self.cuts, stick)
    }

    fn kind(&self, stick: usize) -> usize {
        usize::from(at(&self.kind, stick))
    }
}

/// The search.
struct Search<'a> {
    instance: &'a Instance,
    known: &'a mut Known,
    /// Fractions, where each filled stick is to be judged by them.
    basis: Option<&'a mut Basis>,
    sticks: &'a mut Sticks,
    /// Sticks before these are not ours.
    first: usize,
    /// Pieces left.
    left: Cuts,
    /// What the sticks can hold above what the pieces need, by cover.
    spare: [i64; COVERS],
    steps: u32,
}

/// Where the walk over a stick's patterns stands: lengths before `length` have
/// their counts, those from it on have none.
struct Walk {
    cuts: Cuts,
    length: usize,
    forward: bool,
}

/// A stick being filled.
#[derive(Clone, Copy)]
struct Stick {
    kind: usize,
    room: i64,
    /// The stick of the same kind before it.
    before: Option<Cuts>,
}

/// Adds `counts` sticks that hold the pieces `left` to `sticks`, or leaves it as
/// it was. `steps` is what the search may still take, and is used up by it.
pub(super) fn fill(
    instance: &Instance,
    known: &mut Known,
    (counts, left): (&Counts, Cuts),
    order: Order,
    basis: Option<&mut Basis>,
    sticks: &mut Sticks,
    steps: &mut u32,
) -> Outcome {
    let first = sticks.count;
    let mut kinds: [(i64, u8); KINDS] = [(0, 0); KINDS];
    for (slot, (kind, stick)) in kinds.iter_mut().zip(instance.each_kind()) {
        *slot = (stick.room(), kind as u8);
    }
    if let Some(kinds) = kinds.get_mut(..instance.kinds) {
        kinds.sort_unstable();
        if order == Order::Long {
            kinds.reverse();
        }
    }
    for &(_, kind) in kinds.iter().take(instance.kinds) {
        for _ in 0..at(counts, usize::from(kind)) {
            if !sticks.push(usize::from(kind), [0; LENGTHS]) {
                sticks.count = first;
                return Outcome::Stopped;
            }
        }
    }
    let mut spare = [0; COVERS];
    for (spare, cover) in spare.iter_mut().zip(known.covers()) {
        *spare = cover.held(counts) - cover.worth(left.iter().map(|&count| u32::from(count)));
    }
    let mut search = Search {
        instance,
        known,
        basis,
        sticks,
        first,
        left,
        spare,
        steps: *steps,
    };
    let outcome = search.run();
    *steps = search.steps;
    if outcome != Outcome::Holds {
        sticks.count = first;
    }
    outcome
}

impl Search<'_> {
    fn run(&mut self) -> Outcome {
        if self.spare.iter().any(|&spare| spare < 0) {
            return Outcome::Never;
        }
        let mut stick = self.first;
        let mut fresh = true;
        loop {
            if self.left == [0; LENGTHS] {
                self.empty_from(stick);
                return Outcome::Holds;
            }
            if self.steps == 0 {
                return Outcome::Stopped;
            }
            let moved = stick < self.sticks.count && self.next_pattern(stick, fresh);
            if moved {
                stick += 1;
                if !self.fits_in_fractions(stick) {
                    stick -= 1;
                    self.take_out(stick);
                    fresh = false;
                    continue;
                }
            } else if self.steps == 0 {
                return Outcome::Stopped; // not searched to its end
            } else if stick == self.first {
                return Outcome::Never;
            } else {
                stick -= 1;
                self.take_out(stick);
            }
            fresh = moved;
        }
    }

    /// Whether sticks from `stick` on hold what is left, in fractions; if they do
    /// not, the cover that shows it is kept.
    fn fits_in_fractions(&mut self, stick: usize) -> bool {
        let Some(basis) = &mut self.basis else {
            return true;
        };
        if stick + 2 > self.sticks.count {
            return true;
        }
        let mut counts = [0; KINDS];
        for index in stick..self.sticks.count {
            let kind = self.sticks.kind(index);
            let more = at(&counts, kind) + 1;
            put(&mut counts, kind, more);
        }
        let relaxed = basis.relax(self.instance, &self.left, &counts);
        self.steps = self.steps.saturating_sub(basis.work());
        let Relaxed::Short(value) = relaxed else {
            return true;
        };
        // Proved for these sticks; as a cover it may hold for others, too.
        let cover = Cover::of(self.instance, &value);
        let spare = cover.held(&counts) - cover.worth(self.left.iter().map(|&c| u32::from(c)));
        if spare < 0 {
            let index = self.known.add(cover);
            put(&mut self.spare, index, spare);
        }
        false
    }

    /// Sticks from `stick` on stay whole.
    fn empty_from(&mut self, stick: usize) {
        for cuts in self.sticks.cuts.iter_mut().skip(stick) {
            *cuts = [0; LENGTHS];
        }
    }

    /// The stick as it is to be filled.
    fn stick(&self, stick: usize) -> Stick {
        let kind = self.sticks.kind(stick);
        let before = stick
            .checked_sub(1)
            .filter(|&before| before >= self.first && self.sticks.kind(before) == kind);
        Stick {
            kind,
            room: self.instance.kind.get(kind).map_or(0, |kind| kind.room()),
            before: before.map(|before| self.sticks.cuts(before)),
        }
    }

    /// Puts the next pattern of a stick in place; false when there is no more.
    fn next_pattern(&mut self, index: usize, fresh: bool) -> bool {
        let stick = self.stick(index);
        let mut walk = Walk {
            cuts: if fresh {
                [0; LENGTHS]
            } else {
                self.sticks.cuts(index)
            },
            length: if fresh { 0 } else { self.instance.lengths },
            forward: fresh,
        };
        while self.steps > 0 {
            if walk.forward && walk.length == self.instance.lengths {
                if self.is_useful(&stick, &walk.cuts) {
                    self.put_in(index, &stick, walk.cuts);
                    return true;
                }
                walk.forward = false;
            }
            if !walk.forward {
                match walk.length.checked_sub(1) {
                    Some(length) => walk.length = length,
                    None => return false,
                }
            }
            self.step(&stick, &mut walk);
        }
        false
    }

    /// Sets the greatest count of the walk's length (forward), or one less; goes
    /// forward from there if that leads anywhere, else back.
    fn step(&mut self, stick: &Stick, walk: &mut Walk) {
        self.steps -= 1;
        let length = walk.length;
        let taken = at(&walk.cuts, length);
        put(&mut walk.cuts, length, 0);
        // The shortest has one choice only: as many as fit.
        let last = length + 1 == self.instance.lengths;
        let mut next = match (walk.forward, last) {
            (true, _) => Some(self.most(stick, &walk.cuts, length)),
            (false, true) => None,
            (false, false) => taken.checked_sub(1),
        };
        while let Some(count) = next {
            put(&mut walk.cuts, length, count);
            if self.can_satisfy(stick, &walk.cuts, length + 1) {
                (walk.length, walk.forward) = (length + 1, true);
                return;
            }
            next = if last { None } else { count.checked_sub(1) };
        }
        put(&mut walk.cuts, length, 0);
        walk.forward = false;
    }

    /// Whether lengths from `from` on can still fill the stick well enough for
    /// the cover by weight.
    fn can_satisfy(&self, stick: &Stick, cuts: &Cuts, from: usize) -> bool {
        let (Some(cover), Some(spare)) = (self.known.covers().first(), self.spare.first()) else {
            return true;
        };
        let later = self.left.iter().enumerate().skip(from);
        let later: i64 = later
            .map(|(length, &left)| i64::from(left) * cover.value(length))
            .sum();
        let worth = cover.worth(cuts.iter().map(|&count| u32::from(count)));
        cover.most(stick.kind) - worth - later <= *spare
    }

    /// Greatest count of a length in a stick that holds `cuts` already.
    fn most(&self, stick: &Stick, cuts: &Cuts, length: usize) -> u8 {
        let free = stick.room - self.weight(cuts);
        let weight = i64::from(at(&self.instance.weight, length)).max(1);
        let fits = u8::try_from(free / weight).unwrap_or(u8::MAX);
        let most = fits.min(at(&self.left, length));
        let tied = |before: &Cuts| before.iter().zip(cuts).take(length).all(|(a, b)| a == b);
        match stick.before.filter(tied) {
            Some(before) => most.min(at(&before, length)),
            None => most,
        }
    }

    fn weight(&self, cuts: &Cuts) -> i64 {
        let each = cuts.iter().zip(&self.instance.weight);
        each.map(|(&count, &weight)| i64::from(count) * i64::from(weight))
            .sum()
    }

    /// Whether no remaining piece could be added and all covers still hold.
    fn is_useful(&self, stick: &Stick, cuts: &Cuts) -> bool {
        let free = stick.room - self.weight(cuts);
        let mut each = cuts.iter().zip(&self.left).zip(&self.instance.weight);
        let more = each.any(|((cut, left), &weight)| cut < left && i64::from(weight) <= free);
        if more {
            return false;
        }
        let mut covers = self.known.covers().iter().zip(&self.spare);
        covers.all(|(cover, &spare)| {
            let worth = cover.worth(cuts.iter().map(|&count| u32::from(count)));
            cover.most(stick.kind) - worth <= spare
        })
    }

    fn put_in(&mut self, index: usize, stick: &Stick, cuts: Cuts) {
        put(&mut self.sticks.cuts, index, cuts);
        self.account(stick, &cuts, 1);
    }

    fn take_out(&mut self, index: usize) {
        let stick = self.stick(index);
        let cuts = self.sticks.cuts(index);
        self.account(&stick, &cuts, -1);
    }

    /// Moves a stick's pieces out of what is left (sign 1) or back (-1).
    fn account(&mut self, stick: &Stick, cuts: &Cuts, sign: i64) {
        for (left, &cut) in self.left.iter_mut().zip(cuts) {
            *left = if sign > 0 {
                left.saturating_sub(cut)
            } else {
                left.saturating_add(cut)
            };
        }
        for (spare, cover) in self.spare.iter_mut().zip(self.known.covers()) {
            let worth = cover.worth(cuts.iter().map(|&count| u32::from(count)));
            *spare -= sign * (cover.most(stick.kind) - worth);
        }
    }
}
