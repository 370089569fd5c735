//! Ways out: each is applied to the job, and the reference works it out again.
//! The stretch must no longer block; where nothing else does, marks and play
//! are as promised.

use super::{SHARED, every_blocked, job_of, length, show};
use crate::judges::facts::{Allowed, Facts};
use crate::judges::generator::{Generated, Size, generate};
use crate::judges::reference::{Outcome, blocked, play, solve};
use boltbay_core::job::{Job, Washer, WasherShape};
use boltbay_core::joists::Joists;
use boltbay_core::placement::{self, BlockKind, Blocked, Change, Placement, Scratch, WayOut};
use boltbay_core::rule::Rule;
use std::borrow::Cow;
use std::ops::Range;

/// Makes the hanger of a joist one without flanges.
fn plain(joists: &mut Joists, joist: u8) {
    let joist = &mut joists[usize::from(joist)];
    joist.metal = length(0);
}

/// No hanger higher than this.
fn lowered(job: &mut Job, height: boltbay_core::Length) {
    for hanger in &mut job.hangers {
        hanger.height = hanger.height.map(|h| h.min(height));
    }
}

/// Round washers of this size wherever that reaches less far.
fn smaller_washers(job: &mut Job, joists: &Joists, size: boltbay_core::Length) {
    let before = Facts::new(job, joists).reach;
    for side in [0, 1] {
        let mut trial = job.clone();
        trial.washers[side] = Some(Washer {
            size,
            shape: WasherShape::Round,
            thickness: None,
        });
        if Facts::new(&trial, joists).reach[side] < before[side] {
            *job = trial;
        }
    }
}

/// What the engineer allows for one stretch.
fn allowed(stretch: &Blocked, far: i64) -> Allowed {
    let (from, to) = (
        i64::from(stretch.from.counts()),
        i64::from(stretch.to.counts()),
    );
    match stretch.kind {
        BlockKind::Start => Allowed::Start(from, far),
        BlockKind::End => Allowed::End(to, far),
        _ => Allowed::Spacing(from, to),
    }
}

/// The job with one way out taken.
fn with(generated: &Generated, stretch: &Blocked, change: Change) -> Facts {
    let mut job = generated.job.clone();
    let mut joists = generated.joists.clone();
    let mut beyond = None;
    match change {
        Change::PlainHanger(joist) => plain(&mut joists, joist),
        Change::PlainHangers(one, two) => {
            plain(&mut joists, one);
            plain(&mut joists, two);
        }
        Change::Washer(size) => smaller_washers(&mut job, &joists, size),
        Change::KeptSquare => {
            for washer in job.washers.iter_mut().flatten() {
                if washer.shape == WasherShape::Turns {
                    washer.shape = WasherShape::Square;
                }
            }
        }
        Change::HangerHeight(height) => lowered(&mut job, height),
        Change::Gap(gap) => job.gap = Some(gap),
        Change::Stretch(far) => beyond = Some(allowed(stretch, i64::from(far.counts()))),
    }
    let mut facts = Facts::new(&job, &joists);
    facts.allowed = beyond;
    facts
}

/// What is wrong with a way out.
fn wrong(generated: &Generated, stretch: &Blocked, way: &WayOut) -> Option<String> {
    let facts = with(generated, stretch, way.change);
    let promised = way.stations.map(usize::from);
    let got = match solve(&facts) {
        Outcome::Plan(answer) => {
            let play = play(&facts, &answer.stations);
            (Some(answer.stations.len()), Some(length(play)))
        }
        Outcome::NoPlan => (None, None),
    };
    if got != (promised, way.play) {
        return Some(format!("{way:?} of {stretch:?} gives {got:?}"));
    }
    let (from, to) = (
        i64::from(stretch.from.counts()),
        i64::from(stretch.to.counts()),
    );
    let still = |s: &crate::judges::reference::Stretch| {
        s.kind == stretch.kind && s.from < to && s.to > from
    };
    let blocks = got.0.is_none() && blocked(&facts).iter().any(still);
    blocks.then(|| {
        format!(
            "{way:?}: still blocked {stretch:?} by {:?}",
            blocked(&facts)
        )
    })
}

/// Ways out that were tried, by kind of change.
type Tried = [usize; 7];

/// Its place in [`Tried`].
fn kind(change: Change) -> usize {
    match change {
        Change::PlainHanger(_) => 0,
        Change::PlainHangers(..) => 1,
        Change::Washer(_) => 2,
        Change::KeptSquare => 3,
        Change::HangerHeight(_) => 4,
        Change::Gap(_) => 5,
        Change::Stretch(_) => 6,
    }
}

/// The job of a seed; those of the first ones stand ready.
fn generated(seed: u64) -> Cow<'static, Generated> {
    if seed < SHARED as u64 {
        Cow::Borrowed(job_of(seed))
    } else {
        Cow::Owned(generate(seed, Size::Any))
    }
}

/// Tries all ways out of the jobs of these seeds.
fn tried(seeds: Range<u64>) -> (Tried, String) {
    let mut tried = Tried::default();
    let mut words = String::new();
    for seed in seeds {
        let generated = generated(seed);
        let Ok(rule) = Rule::of(&generated.job) else {
            continue;
        };
        let mut plan = Box::new(Placement::new());
        let mut scratch = Box::new(Scratch::new());
        let (job, joists) = (&generated.job, &generated.joists);
        if placement::place(job, joists, rule, &mut plan, &mut scratch).is_err() {
            continue;
        }
        for stretch in &every_blocked(&generated, &plan, &mut scratch) {
            for way in &stretch.ways_out {
                tried[kind(way.change)] += 1;
                if let Some(fault) = wrong(&generated, stretch, way) {
                    words += &format!("{fault}\n{}\n", show(&generated));
                }
            }
        }
    }
    (tried, words)
}

#[test]
fn every_way_out_is_one() {
    let (tried, words) = tried(0..120);
    assert!(words.is_empty(), "{tried:?}\n{words}");
    assert!(tried.iter().all(|n| *n > 0), "{tried:?}");
}

#[cfg(feature = "soak")]
#[test]
fn every_way_out_of_many_is_one() {
    let (tried, words) = tried(20_000..20_600);
    assert!(words.is_empty(), "{tried:?}\n{words}");
    assert!(tried.iter().all(|n| *n > 0), "{tried:?}");
}
