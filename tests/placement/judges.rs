//! The judges among themselves: the reference's own plans pass the checker,
//! spoilt ones do not, and the generator's joists are those of its readings.

use super::{SHARED, as_placement, job_of, length, outcome_of, show};
use crate::judges::checker::check;
use crate::judges::facts::Facts;
use crate::judges::generator::Generated;
use crate::judges::reference::{Answer, Outcome};
use boltbay_core::card;
use boltbay_core::caution::Cautions;
use boltbay_core::job::Job;
use boltbay_core::joists::{self, Joists, RunReports};
use boltbay_core::placement::Placement;
use boltbay_core::words::Units;

/// Feasible jobs of these seeds with the reference's plan.
fn feasible(seeds: std::ops::Range<u64>) -> Vec<(&'static Generated, Facts, &'static Answer)> {
    seeds
        .filter_map(|seed| {
            let Outcome::Plan(answer) = outcome_of(seed) else {
                return None;
            };
            let generated = job_of(seed);
            Some((generated, generated.facts(), answer))
        })
        .collect()
}

#[test]
fn plans_of_the_reference_pass_the_checker() {
    let cases = feasible(0..75);
    assert!(cases.len() > 30, "only {} feasible", cases.len());
    for (generated, facts, answer) in cases {
        let placement = as_placement(&facts, answer);
        let faults = check(&generated.job, &generated.joists, &placement);
        assert!(faults.is_empty(), "{faults:#?}\n{}", show(generated));
    }
}

/// Spoils a plan; false where there is nothing to spoil.
type Spoil = fn(&Facts, &mut Placement) -> bool;

/// Moves the middle hole by one lattice step toward B.
fn moved(facts: &Facts, plan: &mut Placement) -> bool {
    let middle = plan.holes.len() / 2;
    let hole = &mut plan.holes[middle];
    hole.at = length(i64::from(hole.at.counts()) + facts.step);
    true
}

/// Puts the middle hole in the other row.
fn other_row(_: &Facts, plan: &mut Placement) -> bool {
    let middle = plan.holes.len() / 2;
    let hole = &mut plan.holes[middle];
    hole.row = hole.row.other();
    true
}

/// Leaves out a station.
fn left_out(_: &Facts, plan: &mut Placement) -> bool {
    let number = plan.holes[plan.holes.len() / 2].station;
    plan.holes.retain(|hole| hole.station != number);
    for hole in plan.holes.iter_mut().filter(|h| h.station > number) {
        hole.station -= 1;
    }
    plan.stations -= 1;
    true
}

/// Promises one count more of play.
fn more_play(_: &Facts, plan: &mut Placement) -> bool {
    plan.play = plan.play.map(|p| length(i64::from(p.counts()) + 1));
    true
}

/// Promises one count less of play.
fn less_play(_: &Facts, plan: &mut Placement) -> bool {
    let less = plan.play.map(|p| length(i64::from(p.counts()) - 1));
    plan.play = less;
    less.is_some_and(|p| p.counts() >= 0)
}

/// Says that nothing is near the middle hole.
fn no_gap(_: &Facts, plan: &mut Placement) -> bool {
    let middle = plan.holes.len() / 2;
    let had = plan.holes[middle].gap().is_some();
    plan.holes[middle].set_gap(None);
    had
}

/// Strikes out a mark that is kept.
fn struck(_: &Facts, plan: &mut Placement) -> bool {
    let full = plan.struck_out.push(0).is_err();
    !full
}

/// A largest spacing that is one count off.
fn wider(_: &Facts, plan: &mut Placement) -> bool {
    let wider = plan
        .largest_spacing
        .map(|l| length(i64::from(l.counts()) + 1));
    plan.largest_spacing = wider;
    wider.is_some()
}

#[test]
fn spoilt_plans_do_not_pass_the_checker() {
    let spoils: [(&str, Spoil); 8] = [
        ("moved", moved),
        ("other row", other_row),
        ("left out", left_out),
        ("more play", more_play),
        ("less play", less_play),
        ("no gap", no_gap),
        ("struck out", struck),
        ("wider", wider),
    ];
    let cases = feasible(100..140);
    for (name, spoil) in spoils {
        let (mut spoilt, mut caught) = (0, 0);
        for (generated, facts, answer) in &cases {
            let mut placement = as_placement(facts, answer);
            if spoil(facts, &mut placement) {
                spoilt += 1;
                let faults = check(&generated.job, &generated.joists, &placement);
                caught += usize::from(!faults.is_empty());
            }
        }
        assert!(spoilt > 8, "{name}: only {spoilt} spoilt");
        // Where nothing is near, a hole may move or change its row unseen.
        assert!(caught * 20 >= spoilt * 19, "{name}: {caught} of {spoilt}");
    }
}

#[test]
fn joists_of_the_generator_are_those_of_its_readings() {
    let mut seen = 0;
    // From the last on: the test below begins with the first ones.
    for seed in (0..SHARED as u64).rev() {
        let generated = job_of(seed);
        let mut read = Joists::new();
        let mut reports = RunReports::new();
        let mut cautions = Cautions::default();
        let outcome = joists::read(&generated.job, &mut read, &mut reports, &mut cautions);
        assert!(outcome.is_ok(), "{outcome:?}\n{}", show(generated));
        assert_eq!(read, generated.joists, "{}", show(generated));
        seen += read.len();
    }
    assert!(seen > 1_000, "only {seen} joists");
}

#[test]
fn jobs_of_the_generator_are_cards() {
    for seed in 0..120 {
        let generated = job_of(seed);
        let shown = show(generated);
        let card = shown.split_once('\n').expect("seed, then the card").1;
        let mut job = Job::new(Units::Imperial);
        let outcome = card::read(card.as_bytes(), &mut job);
        assert!(outcome.is_ok(), "{outcome:?}\n{shown}");
        assert_eq!(job, generated.job, "{shown}");
    }
}
