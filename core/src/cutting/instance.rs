//! A cutting job in bare numbers: weights, rooms, supplies.
//!
//! In: pieces, sticks, kerf. Out: an [`Instance`] in which a stick takes pieces
//! if the sum of their weights is at most its room.
//!
//! Rule: m pieces need sum + (m - 1) kerf, one kerf more if the end is trimmed.
//! So a piece weighs its length + kerf, and a stick's room is its length + kerf
//! (trimmed: its length). All weights are divided by what divides them all.

use crate::job::{STICKS, Stick, StickSource};
use crate::length::Length;
use crate::rods::MOST_LENGTHS;

/// Most kinds of stick.
pub(super) const KINDS: usize = STICKS;

/// The element, or zero.
pub(super) fn at<T: Copy + Default>(list: &[T], index: usize) -> T {
    list.get(index).copied().unwrap_or_default()
}

/// Sets the element, if there is one.
pub(super) fn put<T>(list: &mut [T], index: usize, value: T) {
    if let Some(slot) = list.get_mut(index) {
        *slot = value;
    }
}

/// One kind of stick.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Kind {
    /// Counts of 25 nm.
    length: i32,
    /// Sum of weights that it takes.
    room: u32,
    /// How many there are, never more than there are pieces.
    pub(super) supply: u32,
    /// Bought, not on hand.
    pub(super) rod: bool,
}

impl Kind {
    /// Counts of 25 nm.
    pub(super) fn length(&self) -> i64 {
        i64::from(self.length)
    }

    /// Sum of weights that it takes.
    pub(super) fn room(&self) -> i64 {
        i64::from(self.room)
    }
}

/// What must be cut from what.
#[derive(Clone, Debug)]
pub(super) struct Instance {
    /// Different lengths.
    pub(super) lengths: usize,
    /// Of each length, longest first.
    pub(super) weight: [u32; MOST_LENGTHS],
    /// Pieces of each length.
    pub(super) demand: [u32; MOST_LENGTHS],
    /// Kinds of stick: rods first, each group longest first.
    pub(super) kinds: usize,
    /// Rods among the kinds.
    pub(super) rods: usize,
    pub(super) kind: [Kind; KINDS],
}

impl Instance {
    pub(super) const fn new() -> Self {
        Instance {
            lengths: 0,
            weight: [0; MOST_LENGTHS],
            demand: [0; MOST_LENGTHS],
            kinds: 0,
            rods: 0,
            kind: [Kind {
                length: 0,
                room: 0,
                supply: 0,
                rod: false,
            }; KINDS],
        }
    }

    /// Pieces in all.
    pub(super) fn pieces(&self) -> u64 {
        self.demand.iter().map(|&count| u64::from(count)).sum()
    }

    /// All lengths with their weight and count.
    pub(super) fn each_length(&self) -> impl Iterator<Item = (usize, i64, u32)> {
        let both = self.weight.iter().zip(&self.demand).take(self.lengths);
        both.enumerate()
            .map(|(i, (&weight, &count))| (i, i64::from(weight), count))
    }

    /// All kinds of stick.
    pub(super) fn each_kind(&self) -> impl Iterator<Item = (usize, &Kind)> {
        self.kind.iter().take(self.kinds).enumerate()
    }

    /// Adds a length; they come longest first.
    pub(super) fn add_length(&mut self, length: Length, kerf: Length, count: u32) {
        let weight = length.counts().unsigned_abs() + kerf.counts().unsigned_abs();
        put(&mut self.weight, self.lengths, weight);
        put(&mut self.demand, self.lengths, count);
        self.lengths += 1;
    }

    /// Adds the sticks that take at least one piece, then divides all weights by
    /// their common divisor.
    pub(super) fn add_sticks(&mut self, sticks: &[Stick], kerf: Length, trim: bool) {
        let least = self.each_length().map(|(_, weight, _)| weight).min();
        let Some(least) = least else { return };
        for source in [StickSource::Rod, StickSource::Offcut] {
            for stick in sticks.iter().filter(|stick| stick.source == source) {
                let room = room(stick.length, kerf, trim);
                if room >= least {
                    self.add_stick(stick, u32::try_from(room).unwrap_or_default());
                }
            }
            if source == StickSource::Rod {
                self.rods = self.kinds;
            }
        }
        if let Some((rods, offcuts)) = self.kind.split_at_mut_checked(self.rods) {
            rods.sort_unstable_by_key(|kind| -kind.length());
            let offcuts_count = self.kinds - self.rods;
            if let Some(offcuts) = offcuts.get_mut(..offcuts_count) {
                offcuts.sort_unstable_by_key(|kind| -kind.length());
            }
        }
        self.reduce();
    }

    /// Adds a stick; one of the same length and source adds to its supply.
    fn add_stick(&mut self, stick: &Stick, room: u32) {
        let pieces = u32::try_from(self.pieces()).unwrap_or(u32::MAX);
        let supply = stick
            .count
            .map_or(pieces, |count| u32::from(count).min(pieces));
        let length = stick.length.counts();
        let rod = stick.source == StickSource::Rod;
        let same = self.kind.iter_mut().take(self.kinds);
        let mut same = same.filter(|kind| kind.length == length && kind.rod == rod);
        if let Some(kind) = same.next() {
            kind.supply = kind.supply.saturating_add(supply).min(pieces);
        } else if supply > 0 {
            let kind = Kind {
                length,
                room,
                supply,
                rod,
            };
            put(&mut self.kind, self.kinds, kind);
            self.kinds += 1;
        }
    }

    /// Divides weights and rooms by the greatest common divisor of the weights:
    /// no sum of weights lies between two of its multiples.
    fn reduce(&mut self) {
        let divisor = self
            .each_length()
            .fold(0, |g, (_, weight, _)| gcd(g, weight));
        if divisor < 2 {
            return;
        }
        for weight in self.weight.iter_mut().take(self.lengths) {
            *weight /= divisor.unsigned_abs() as u32;
        }
        for kind in self.kind.iter_mut().take(self.kinds) {
            kind.room /= divisor.unsigned_abs() as u32;
        }
    }
}

/// What the weights of the pieces from one stick may come to.
pub(super) fn room(length: Length, kerf: Length, trim: bool) -> i64 {
    let more = if trim { 0 } else { i64::from(kerf.counts()) };
    i64::from(length.counts()) + more
}

/// Greatest common divisor; of zero and a number, that number.
pub(super) fn gcd(a: i64, b: i64) -> i64 {
    let (mut a, mut b) = (a.unsigned_abs(), b.unsigned_abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    i64::try_from(a).unwrap_or(i64::MAX)
}

/// `a * b / c`, rounded up, for values that are not negative and c above 0.
pub(super) fn times_over_up(a: i64, b: i64, c: i64) -> i64 {
    let (quotient, rest) = times_over(a, b, c);
    quotient.saturating_add(i64::from(rest != 0))
}

/// `a * b / c`, rounded down, for values that are not negative and c above 0.
pub(super) fn times_over_down(a: i64, b: i64, c: i64) -> i64 {
    times_over(a, b, c).0
}

/// `a * b / c` and what is left over; a quotient beyond an i64 is its greatest.
fn times_over(a: i64, b: i64, c: i64) -> (i64, i64) {
    // It is; with this the compiler knows.
    let c = c.max(1);
    match a.checked_mul(b) {
        Some(product) => (product / c, product % c),
        None => long_times_over(a, b, c),
    }
}

/// The same bit by bit of `b`, highest first, where the product is beyond an i64.
#[cold]
fn long_times_over(a: i64, b: i64, c: i64) -> (i64, i64) {
    let (whole, part) = (a / c, a % c);
    let (mut quotient, mut rest) = (0_i64, 0);
    for bit in (0..i64::BITS).rev() {
        let times = b >> bit & 1;
        let carry;
        (rest, carry) = over(rest, rest, c);
        quotient = quotient.saturating_mul(2).saturating_add(carry);
        if times == 1 {
            let carry;
            (rest, carry) = over(rest, part, c);
            quotient = quotient.saturating_add(whole).saturating_add(carry);
        }
    }
    (quotient, rest)
}

/// `a + b`, both below c, less c where it reaches c; and whether it did.
fn over(a: i64, b: i64, c: i64) -> (i64, i64) {
    let left = c - b;
    match a >= left {
        true => (a - left, 1),
        false => (a + b, 0),
    }
}
