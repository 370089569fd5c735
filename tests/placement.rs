//! Tests of the placement: the planner against its judges, and the judges
//! against one another.

mod judges;
mod largest;
mod third;
mod twin;
mod ways_out;

use crate::judges::facts::{Facts, SIX_INCHES};
use crate::judges::generator::{Generated, Size, generate};
use crate::judges::reference::{
    Answer, Bolt, Judgement, Origin, Outcome, gaps, judge, play, solve,
};
use boltbay_core::Length;
use boltbay_core::job::KeepoutKind;
use boltbay_core::placement::{
    Blocked, BlockedPage, InsertFrom, PlacedHole, Placement, Scratch, State, Verdict, more_blocked,
};
use boltbay_core::rule::Rule;
use boltbay_core::words::Side;
use std::sync::OnceLock;

/// Jobs that several tests look at: those of the first seeds, of any size.
const SHARED: usize = 200;

/// The job of one of the first seeds, invented once: for the marks of many the reference
/// plans them first.
fn job_of(seed: u64) -> &'static Generated {
    static JOBS: [OnceLock<Generated>; SHARED] = [const { OnceLock::new() }; SHARED];
    JOBS[seed as usize].get_or_init(|| generate(seed, Size::Any))
}

/// What the reference says of it, worked out once.
fn outcome_of(seed: u64) -> &'static Outcome {
    static OUTCOMES: [OnceLock<Outcome>; SHARED] = [const { OnceLock::new() }; SHARED];
    OUTCOMES[seed as usize].get_or_init(|| solve(&job_of(seed).facts()))
}

/// The card of a job, to look at when something is wrong.
fn show(generated: &Generated) -> String {
    let mut card = String::new();
    boltbay_core::card::write(&generated.job, &mut card).expect("a string takes it");
    format!("seed {}\n{card}", generated.seed)
}

/// Every blocking stretch: a plan lists the first ones.
fn every_blocked(generated: &Generated, plan: &Placement, scratch: &mut Scratch) -> Vec<Blocked> {
    let rule = Rule::of(&generated.job).expect("it was planned");
    let (job, joists) = (&generated.job, &generated.joists);
    let mut all = plan.blocked.to_vec();
    let (mut more, mut page) = (plan.blocked_more, BlockedPage::new());
    while more > 0 {
        let last = all.last().expect("more come after one");
        more = more_blocked(job, joists, rule, last, &mut page, scratch).expect("it was planned");
        all.extend_from_slice(&page);
    }
    all
}

/// Counts as a length.
fn length(counts: i64) -> Length {
    Length::from_counts(counts as i32)
}

/// Which side a rod goes in from.
fn insert_from(facts: &Facts, x: i64) -> InsertFrom {
    let blocked = |side: usize| {
        facts
            .things
            .iter()
            .any(|t| t.kind == KeepoutKind::Access && t.sides[side] && t.from < x && x < t.to)
    };
    match (blocked(0), blocked(1)) {
        (true, false) => InsertFrom::Side(Side::S),
        (false, true) => InsertFrom::Side(Side::N),
        _ => InsertFrom::Either,
    }
}

/// A hole of the reference's plan as the planner would say it.
fn placed(facts: &Facts, answer: &Answer, n: usize, bolt: &Bolt) -> PlacedHole {
    let state = match bolt.origin {
        Origin::New => State::Planned,
        Origin::Mark(_) => State::Marked,
        Origin::Drilled(_) => State::Drilled,
    };
    let mut hole = PlacedHole::new(length(bolt.at), bolt.row, state, n as u8 + 1);
    let nearest = gaps(facts, bolt.row, bolt.at)
        .into_iter()
        .min_by_key(|g| g.0);
    hole.set_gap(nearest.map(|(gap, thing)| (length(gap), thing)));
    hole.insert_from = insert_from(facts, bolt.at);
    if bolt.drilled() {
        hole.set_verdict(match judge(facts, &answer.stations, n, bolt) {
            Judgement::Fits => Verdict::Fits,
            Judgement::Tight => Verdict::Tight,
            Judgement::Rule(broken) => Verdict::Rule(broken[0], Length::ZERO),
            Judgement::Fouls(by) => Verdict::Fouls(length(by)),
        });
    }
    hole
}

/// The reference's plan as the planner would say it.
fn as_placement(facts: &Facts, answer: &Answer) -> Placement {
    let mut placement = Placement {
        feasible: true,
        holes: Default::default(),
        stations: answer.stations.len() as u16,
        play: Some(length(play(facts, &answer.stations).min(SIX_INCHES))),
        largest_spacing: answer.largest_spacing.map(length),
        struck_out: answer.struck_out.iter().map(|n| *n as u8).collect(),
        blocked: Default::default(),
        blocked_more: 0,
        too_many_holes: false,
    };
    for (n, station) in answer.stations.iter().enumerate() {
        for bolt in &station.bolts {
            let _ = placement.holes.push(placed(facts, answer, n, bolt));
        }
    }
    placement
}
