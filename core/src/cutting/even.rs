//! Filling sticks evenly: finds most cut lists at once.
//!
//! In: an instance, a selection, pieces. Out: a pattern for each stick, or
//! nothing; it proves nothing.
//!
//! Rule: sticks by room, short ones first. Each takes the pattern nearest to its
//! share of what remains among those that waste little, so that the sticks after
//! it still have some of everything to choose from; the last few are searched.

use super::covers::Known;
use super::fill::{self, Cuts, LENGTHS, Order, Outcome, Sticks};
use super::instance::{Instance, at, put};
use super::select::Counts;

/// Sticks at the end that are searched.
const LAST: u32 = 3;
/// Steps of that search.
const LAST_STEPS: u32 = 20_000;
/// Patterns looked at for one stick.
const PATTERNS: u32 = 8_000;
/// Pieces from which on counts are kept near the share.
const MANY: f32 = 6.0;

/// What is still to be cut.
struct Rest<'a> {
    instance: &'a Instance,
    counts: Counts,
    left: Cuts,
    /// How many times its part of the waste a stick may take.
    fair: i64,
}

/// A stick and what it may hold.
struct Stick {
    kind: usize,
    room: i64,
    /// Least weight that it has to hold.
    least: i64,
    /// Share of each length.
    share: [f32; LENGTHS],
    /// Counts looked at, from and to.
    range: [(u8, u8); LENGTHS],
}

/// Adds `counts` sticks that hold the pieces `left` to `sticks`, or leaves it as
/// it was. `fair`: how many times its part of the waste a stick may take.
pub(super) fn fill_evenly(
    instance: &Instance,
    known: &mut Known,
    (counts, left): (&Counts, Cuts),
    fair: i64,
    sticks: &mut Sticks,
    steps: &mut u32,
) -> bool {
    let before = sticks.len();
    let mut rest = Rest {
        instance,
        counts: *counts,
        left,
        fair,
    };
    while rest.sticks() > LAST && rest.left != [0; LENGTHS] {
        let best = rest.stick(known).and_then(|stick| {
            let best = rest.best(&stick, steps)?;
            Some((stick.kind, best))
        });
        let Some((kind, cuts)) = best else {
            sticks.cut_to(before);
            return false;
        };
        rest.take(kind, &cuts);
        if !sticks.push(kind, cuts) {
            sticks.cut_to(before);
            return false;
        }
    }
    let mut last = LAST_STEPS.min(*steps);
    let all = last;
    let what = (&rest.counts, rest.left);
    let outcome = fill::fill(instance, known, what, Order::Short, None, sticks, &mut last);
    *steps -= all - last;
    if outcome != Outcome::Holds {
        sticks.cut_to(before);
    }
    outcome == Outcome::Holds
}

impl Rest<'_> {
    fn sticks(&self) -> u32 {
        self.counts
            .iter()
            .fold(0, |sum, &count| sum.saturating_add(count))
    }

    /// The shortest stick left, with its share.
    fn stick(&self, known: &Known) -> Option<Stick> {
        let kinds = self.instance.each_kind();
        let there = kinds.filter(|&(kind, _)| at(&self.counts, kind) > 0);
        let (kind, stick) = there.min_by_key(|(_, stick)| stick.room())?;
        let all: i64 = self
            .instance
            .each_kind()
            .map(|(kind, stick)| i64::from(at(&self.counts, kind)) * stick.room())
            .sum();
        let by_weight = known.covers().first()?;
        let pieces = || self.left.iter().map(|&left| u32::from(left));
        let waste = by_weight.held(&self.counts) - by_weight.worth(pieces());
        let part = (self.fair * waste) / i64::from(self.sticks()).max(1) + 1;
        let scale = stick.room() as f32 / all.max(1) as f32;
        let near = pieces().sum::<u32>() as f32 * scale >= MANY;
        let mut share = [0.0; LENGTHS];
        let mut range = [(0, 0); LENGTHS];
        let lengths = self.instance.each_length().zip(self.left);
        for ((slot, range), ((_, weight, _), left)) in share.iter_mut().zip(&mut range).zip(lengths)
        {
            *slot = f32::from(left) * scale;
            let most = u8::try_from(stick.room() / weight.max(1))
                .unwrap_or(u8::MAX)
                .min(left);
            let down = *slot as u8;
            *range = if near {
                (
                    down.saturating_sub(2).min(most),
                    down.saturating_add(3).min(most),
                )
            } else {
                (0, most)
            };
        }
        Some(Stick {
            kind,
            room: stick.room(),
            least: by_weight.most(kind) - part.min(waste),
            share,
            range,
        })
    }

    /// The pattern nearest to the share.
    fn best(&self, stick: &Stick, steps: &mut u32) -> Option<Cuts> {
        let mut best: Option<(f32, Cuts)> = None;
        let mut cuts = [0; LENGTHS];
        for (cut, range) in cuts.iter_mut().zip(stick.range) {
            *cut = range.0;
        }
        let shortest = self.instance.lengths.checked_sub(1)?;
        for _ in 0..PATTERNS.min(*steps) {
            *steps -= 1;
            put(&mut cuts, shortest, 0);
            let weight = self.weight(&cuts);
            let each = i64::from(at(&self.instance.weight, shortest)).max(1);
            let fits = (stick.room - weight).div_euclid(each).clamp(0, 255);
            let fits = u8::try_from(fits)
                .unwrap_or(u8::MAX)
                .min(at(&self.left, shortest));
            put(&mut cuts, shortest, fits);
            let weight = weight + i64::from(fits) * each;
            if (stick.least..=stick.room).contains(&weight) {
                let off = self.off(stick, &cuts);
                if best.is_none_or(|(least, _)| off < least) {
                    best = Some((off, cuts));
                }
            }
            if !count_up(&mut cuts, &stick.range, shortest) {
                break;
            }
        }
        best.map(|(_, cuts)| cuts)
    }

    fn weight(&self, cuts: &Cuts) -> i64 {
        let each = cuts.iter().zip(&self.instance.weight);
        each.map(|(&count, &weight)| i64::from(count) * i64::from(weight))
            .sum()
    }

    /// How far a pattern is off the share, squares over what is left.
    fn off(&self, stick: &Stick, cuts: &Cuts) -> f32 {
        let each = cuts.iter().zip(&stick.share).zip(&self.left);
        let off = each.map(|((&cut, share), &left)| {
            let off = f32::from(cut) - share;
            off * off / (f32::from(left) + 1.0)
        });
        off.sum()
    }

    /// Takes a stick and its pieces.
    fn take(&mut self, kind: usize, cuts: &Cuts) {
        let count = at(&self.counts, kind);
        put(&mut self.counts, kind, count.saturating_sub(1));
        for (left, cut) in self.left.iter_mut().zip(cuts) {
            *left = left.saturating_sub(*cut);
        }
    }
}

/// The next counts within their ranges, lengths before `end` only; false when
/// all were there.
fn count_up(cuts: &mut Cuts, range: &[(u8, u8); LENGTHS], end: usize) -> bool {
    for (cut, &(from, to)) in cuts.iter_mut().zip(range).take(end) {
        if *cut < to {
            *cut += 1;
            return true;
        }
        *cut = from;
    }
    false
}
