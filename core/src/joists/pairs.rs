//! The pair check: each N joist to its nearest S joist, against the median.
//!
//! In: sorted joists. Out: cautions: a pair off the median by more than 3/8 in
//! (10 mm), a whole side that looks off by a burn. Lapped joists stand one
//! thickness apart, always to the same side; doubled ones differ by half a
//! thickness, so a caution asks and never refuses.
//!
//! A joist has a partner only within half a usual bay: beside an opening the
//! nearest joist of the other side is another one. A reading accepted untouched
//! from a guess takes no part in the median: it must not prove itself.

use super::middle::{held, lower_median, median_twice};
use super::{Joist, Joists, on_side};
use crate::caution::{self, Caution, Cautions};
use crate::defaults;
use crate::job::{JOISTS, Job, Run, RunHook};
use crate::length::Length;
use crate::list::Listed;
use crate::words::{End, Side, Units};
use heapless::Vec;

/// Looks across the web.
pub fn look(job: &Job, joists: &Joists, cautions: &mut Cautions) {
    let sides = Sides {
        job,
        s: on_side(joists, Side::S),
        reach: half_bay_twice(on_side(joists, Side::N)),
    };
    let n = on_side(joists, Side::N);
    let mut offsets: Vec<i64, JOISTS, u8> = Vec::new();
    let mut lapped: Vec<i64, JOISTS, u8> = Vec::new();
    for pair in n.iter().filter_map(|joist| sides.pair(joist)) {
        if !pair.guessed {
            let _ = offsets.push(pair.offset_twice);
            let _ = lapped.push(pair.lapped_twice());
        }
    }
    let Some(median) = median_twice(&mut offsets) else {
        return;
    };
    if offsets.len() > 1
        && let Some(lapped) = lower_median(&mut lapped)
        && let Some(side) = side_off_by_burn(job, median, lapped)
    {
        let offset = held(median / 4);
        caution::add(cautions, Caution::SideOffByBurn { side, offset });
    }
    for pair in n.iter().filter_map(|joist| sides.pair(joist)) {
        outlier(job.units, &pair, median, cautions);
    }
}

/// A pair that stands off the median; `median` is four times the offset.
fn outlier(units: Units, pair: &Pair, median: i64, cautions: &mut Cautions) {
    let off = (2 * pair.offset_twice - median).abs();
    if off <= 4 * i64::from(outlier_limit(units).counts()) {
        return;
    }
    caution::add(
        cautions,
        Caution::PairOutlier {
            n: pair.n.number,
            s: pair.s.number,
            offset: held(pair.offset_twice / 2),
            median: held(median / 4),
        },
    );
}

/// Side S, and how far a partner may stand.
struct Sides<'a> {
    job: &'a Job,
    s: &'a [Joist],
    /// Twice half a usual bay of side N; `None` with fewer than two joists.
    reach: Option<i64>,
}

/// An N joist and its nearest S joist.
struct Pair<'a> {
    n: &'a Joist,
    s: &'a Joist,
    /// Twice the offset of the centres, S less N.
    offset_twice: i64,
    guessed: bool,
}

impl Sides<'_> {
    /// The nearest S joist, the one toward A of two equally near.
    fn pair<'b>(&'b self, n: &'b Joist) -> Option<Pair<'b>> {
        let centre = n.centre_twice();
        let beyond = self.s.partition_point(|s| s.centre_twice() < centre);
        let after = self.s.get(beyond);
        let last = beyond.checked_sub(1).and_then(|i| self.s.get(i));
        // The first of all that stand in one place with it.
        let before = last.and_then(|last| {
            let place = last.centre_twice();
            self.s
                .get(self.s.partition_point(|s| s.centre_twice() < place))
        });
        let distance = |s: &&Joist| (s.centre_twice() - centre).abs();
        let s = before.into_iter().chain(after).min_by_key(distance)?;
        if self.reach.is_some_and(|reach| distance(&s) > reach) {
            return None;
        }
        Some(Pair {
            n,
            s,
            offset_twice: s.centre_twice() - centre,
            guessed: self.guessed(n) || self.guessed(s),
        })
    }

    /// Whether a joist was accepted untouched from a guess.
    fn guessed(&self, joist: &Joist) -> bool {
        let reading = self.job.joists.get(usize::from(joist.reading));
        reading.is_some_and(|reading| reading.guessed)
    }
}

impl Pair<'_> {
    /// Twice the offset of two lapped joists of these thicknesses.
    fn lapped_twice(&self) -> i64 {
        let thickness =
            |joist: &Joist| i64::from(joist.to.counts()) - i64::from(joist.from.counts());
        thickness(self.n) + thickness(self.s)
    }
}

/// Twice half the usual bay.
fn half_bay_twice(joists: &[Joist]) -> Option<i64> {
    let mut bays: Vec<i64, JOISTS, u8> = joists
        .windows(2)
        .filter_map(|pair| match pair {
            [one, other] => Some(other.centre_twice() - one.centre_twice()),
            _ => None,
        })
        .listed();
    median_twice(&mut bays).map(|usual| usual / 4)
}

/// The side that looks off by a burn: the median offset is no offset that
/// joists in line or lapped joists have, but would be with a burn taken off.
/// `median` is four times the offset, `lapped_twice` twice the lapped one.
fn side_off_by_burn(job: &Job, median: i64, lapped_twice: i64) -> Option<Side> {
    let burn = 4 * i64::from(usual_burn(job.units).counts());
    let slack = 4 * i64::from(burn_slack(job.units).counts());
    let usual = [0, 2 * lapped_twice, -2 * lapped_twice];
    let near = |offset: i64| usual.iter().any(|u| (offset - u).abs() <= slack);
    if near(median) {
        return None;
    }
    if near(median - burn) {
        return Some(blame(job, Side::S, Side::N));
    }
    near(median + burn).then(|| blame(job, Side::N, Side::S))
}

/// Which side was misread, where `beyond` stands a burn too far toward B of
/// `short`. A forgotten burn reads too long: toward B on a run toward B. A burn
/// that was keyed and not held does the opposite.
fn blame(job: &Job, beyond: Side, short: Side) -> Side {
    let any = |side: Side, toward: End, burnt: bool| {
        let is = |run: &Run| {
            let held = defaults::burn(run) != Length::ZERO;
            run.side == side && toward == heads(run.hook) && held == burnt
        };
        job.runs.iter().any(is)
    };
    let lacks = [(beyond, End::B, false), (short, End::A, false)];
    let has = [(short, End::B, true), (beyond, End::A, true)];
    lacks
        .into_iter()
        .chain(has)
        .find(|(side, toward, burnt)| any(*side, *toward, *burnt))
        .map_or(beyond, |(side, ..)| side)
}

/// The end that a run's tape runs toward.
fn heads(hook: RunHook) -> End {
    match hook {
        RunHook::Wall(end) | RunHook::Steel(end) => end.other(),
        RunHook::Mark(_, toward) => toward,
    }
}

/// A pair may stand off the median by this. Practice: no source.
const fn outlier_limit(units: Units) -> Length {
    match units {
        Units::Imperial => Length::from_sixteenths(6),
        Units::Metric => Length::from_millimetres(10),
    }
}

/// The burn that crews hold. Practice: no source.
const fn usual_burn(units: Units) -> Length {
    match units {
        Units::Imperial => Length::from_inches(1),
        Units::Metric => Length::from_millimetres(100),
    }
}

/// How near an offset must come to the usual one, before or after the burn.
/// Practice: no source.
const fn burn_slack(units: Units) -> Length {
    match units {
        Units::Imperial => Length::from_sixteenths(2),
        Units::Metric => Length::from_millimetres(3),
    }
}
