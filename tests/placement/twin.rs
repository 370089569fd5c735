//! Twin: the planner against the reference and the checker, every field.

use super::{SHARED, every_blocked, job_of, outcome_of, show};
use crate::judges::checker::check;
use crate::judges::facts::Facts;
use crate::judges::generator::{Generated, Size, generate};
use crate::judges::reference::{self, Answer, Origin, Outcome, blocked, play, solve};
use boltbay_core::Length;
use boltbay_core::job::HoleState;
use boltbay_core::placement::{self, BlockKind, Blocked, Placement, Scratch, State, Windows};
use boltbay_core::rule::Rule;
use boltbay_core::words::Row;
use std::ops::Range;

/// How many jobs had a plan, and how many none.
#[derive(Debug, Default)]
pub(super) struct Seen {
    plans: usize,
    none: usize,
    pub(super) blocked_kinds: [usize; 5],
    /// Refusals with more stretches than a plan lists.
    pages: usize,
}

/// A hole as both sides can say it.
type Said = (i64, Row, State, usize);

/// Holes of the planner.
fn holes_of(plan: &Placement) -> Vec<Said> {
    let said = |h: &placement::PlacedHole| {
        let at = i64::from(h.at.counts());
        (at, h.row, h.state, usize::from(h.station))
    };
    let mut list: Vec<Said> = plan.holes.iter().map(said).collect();
    list.sort_by_key(|said| (said.3, said.1));
    list
}

/// Holes of the reference.
fn holes_expected(answer: &Answer) -> Vec<Said> {
    let mut list = Vec::new();
    for (n, station) in answer.stations.iter().enumerate() {
        for bolt in &station.bolts {
            let state = match bolt.origin {
                Origin::New => State::Planned,
                Origin::Mark(_) => State::Marked,
                Origin::Drilled(_) => State::Drilled,
            };
            list.push((bolt.at, bolt.row, state, n + 1));
        }
    }
    list.sort_by_key(|said| (said.3, said.1));
    list
}

/// What differs between a plan and the reference's.
fn plan_differs(facts: &Facts, plan: &Placement, answer: &Answer) -> Vec<String> {
    let mut list = Vec::new();
    let mut must = |same: bool, words: String| {
        if !same {
            list.push(words);
        }
    };
    let (got, expected) = (holes_of(plan), holes_expected(answer));
    must(
        got == expected,
        format!("holes {got:?}\nreference {expected:?}"),
    );
    let count = |l: Option<Length>| l.map(|l| i64::from(l.counts()));
    let (got, expected) = (count(plan.play), Some(play(facts, &answer.stations)));
    must(
        got == expected,
        format!("play {got:?}, reference {expected:?}"),
    );
    let (got, expected) = (count(plan.largest_spacing), answer.largest_spacing);
    must(
        got == expected,
        format!("largest spacing {got:?}, reference {expected:?}"),
    );
    let mut struck: Vec<usize> = plan.struck_out.iter().map(|n| usize::from(*n)).collect();
    struck.sort_unstable();
    must(
        struck == answer.struck_out,
        format!("struck out {struck:?}, reference {:?}", answer.struck_out),
    );
    list
}

/// A blocking stretch as both sides can say it.
type Stretch = (u8, i64, i64, Option<i64>, Option<i64>);

/// Stretches of the planner, each once.
fn stretches_of(all: &[Blocked]) -> Vec<Stretch> {
    let count = |l: Option<Length>| l.map(|l| i64::from(l.counts()));
    let mut list: Vec<Stretch> = all
        .iter()
        .map(|b| {
            let (from, to) = (i64::from(b.from.counts()), i64::from(b.to.counts()));
            (b.kind as u8, from, to, count(b.limit), count(b.excess))
        })
        .collect();
    list.sort_unstable();
    list.dedup();
    list
}

/// What differs between a refusal and the reference's. A chain is compared
/// where nothing else blocks; how far its sweeps come past holes that are there
/// already is a matter of taste, so its places only where there are none.
fn refusal_differs(facts: &Facts, all: &[Blocked]) -> Vec<String> {
    let mut got = stretches_of(all);
    let mut expected: Vec<Stretch> = blocked(facts)
        .iter()
        .map(|b| (b.kind as u8, b.from, b.to, b.limit, b.excess))
        .collect();
    expected.sort_unstable();
    let chain = BlockKind::Chain as u8;
    if expected.iter().any(|s| s.0 != chain) {
        got.retain(|s| s.0 != chain);
    } else if facts.holes.iter().any(|h| h.state != HoleState::Abandoned) {
        let chains = got.iter().all(|s| s.0 == chain && s.1 < s.2);
        let right = chains && !got.is_empty();
        return if right {
            Vec::new()
        } else {
            vec![format!("blocked {got:?}, a chain")]
        };
    }
    expected.dedup();
    if got != expected {
        return vec![format!("blocked {got:?}\nreference {expected:?}")];
    }
    Vec::new()
}

/// What differs between the windows.
fn windows_differ(generated: &Generated, facts: &Facts, rule: Rule) -> Vec<String> {
    let mut windows = Windows::default();
    let mut scratch = Box::new(Scratch::new());
    let outcome = placement::windows(
        &generated.job,
        &generated.joists,
        rule,
        &mut windows,
        &mut scratch,
    );
    if outcome.is_err() {
        return vec![format!("windows {outcome:?}")];
    }
    let mut list = Vec::new();
    for row in Row::BOTH {
        let got: Vec<(i64, i64)> = windows[row.index()]
            .iter()
            .map(|s| (i64::from(s.from.counts()), i64::from(s.to.counts())))
            .collect();
        let used = reference::rows_of(facts).contains(&row);
        let expected = if used {
            reference::windows(facts, row)
        } else {
            Vec::new()
        };
        if got != expected {
            list.push(format!("windows {row:?} {got:?}\nreference {expected:?}"));
        }
    }
    list
}

/// Everything that is wrong with the planner's answer to a job, of which the reference
/// says this.
pub(super) fn differs(generated: &Generated, outcome: &Outcome, seen: &mut Seen) -> Vec<String> {
    let facts = generated.facts();
    let rule = match Rule::of(&generated.job) {
        Ok(rule) => rule,
        Err(lacking) => return vec![format!("rule lacks {lacking:?}")],
    };
    let mut plan = Box::new(Placement::new());
    let mut scratch = Box::new(Scratch::new());
    let placed = placement::place(
        &generated.job,
        &generated.joists,
        rule,
        &mut plan,
        &mut scratch,
    );
    if placed.is_err() {
        return vec![format!("{placed:?}")];
    }
    let mut list = windows_differ(generated, &facts, rule);
    list.extend(check(&generated.job, &generated.joists, &plan));
    match (outcome, plan.feasible) {
        (Outcome::Plan(answer), true) => {
            seen.plans += 1;
            list.extend(plan_differs(&facts, &plan, answer));
        }
        (Outcome::NoPlan, false) => {
            seen.none += 1;
            let all = every_blocked(generated, &plan, &mut scratch);
            for stretch in &all {
                seen.blocked_kinds[stretch.kind as usize] += 1;
            }
            seen.pages += usize::from(all.len() > plan.blocked.len());
            list.extend(refusal_differs(&facts, &all));
        }
        (Outcome::Plan(answer), false) => list.push(format!(
            "refused {:?}\nreference {:?}",
            plan.blocked,
            holes_expected(answer)
        )),
        (Outcome::NoPlan, true) => list.push(format!(
            "planned {:?}\nreference refuses {:?}",
            holes_of(&plan),
            blocked(&facts)
        )),
    }
    list
}

/// Runs all jobs of these seeds; every disagreement with its card.
fn compare(seeds: Range<u64>, size: Size, seen: &mut Seen) -> String {
    let mut words = String::new();
    for seed in seeds {
        let (list, shown) = if size == Size::Any && seed < SHARED as u64 {
            let generated = job_of(seed);
            (differs(generated, outcome_of(seed), seen), show(generated))
        } else {
            let generated = generate(seed, size);
            let outcome = solve(&generated.facts());
            (differs(&generated, &outcome, seen), show(&generated))
        };
        if !list.is_empty() {
            words += &format!("{}\n{shown}\n", list.join("\n"));
        }
    }
    words
}

/// One range of seeds from the environment, to look at: `FROM`, `COUNT`.
fn asked_for() -> Option<Range<u64>> {
    let number = |name: &str| std::env::var(name).ok()?.parse::<u64>().ok();
    let from = number("FROM")?;
    Some(from..from + number("COUNT").unwrap_or(1))
}

#[test]
fn the_planner_agrees_with_its_slow_twin() {
    let mut seen = Seen::default();
    let mut words = String::new();
    match asked_for() {
        Some(seeds) => words += &compare(seeds, Size::Any, &mut seen),
        None => {
            words += &compare(0..160, Size::Any, &mut seen);
            words += &compare(0..30, Size::Small, &mut seen);
            words += &compare(0..10, Size::LongCoarse, &mut seen);
            // A hole drilled far beyond the last packing.
            words += &compare(20_575..20_576, Size::Any, &mut seen);
            assert!(seen.plans > 90 && seen.none > 50, "{seen:?}");
            assert!(seen.blocked_kinds.iter().all(|n| *n > 0), "{seen:?}");
        }
    }
    assert!(words.is_empty(), "{seen:?}\n{words}");
}

#[cfg(feature = "soak")]
#[test]
fn the_planner_agrees_with_its_slow_twin_on_many() {
    let mut seen = Seen::default();
    let mut words = compare(10_000..11_100, Size::Any, &mut seen);
    words += &compare(10_000..10_200, Size::Small, &mut seen);
    words += &compare(10_000..10_100, Size::LongCoarse, &mut seen);
    words += &compare(10_000..10_040, Size::Long, &mut seen);
    assert!(words.is_empty(), "{seen:?}\n{words}");
    assert!(seen.plans > 700 && seen.none > 400, "{seen:?}");
}
