//! The cost of every list against two other opinions: a table over all states
//! and a general integer solver.

use crate::judges::sticks::solver::{self, Opinion};
use crate::judges::sticks::{self, Cost, Cutting, Family, table};
use boltbay_core::Length;
use boltbay_core::cutting::{self, Scratch};
use boltbay_core::job::{Stick, StickSource};
use boltbay_core::rods::{Proof, Rods};
use std::time::Duration;

/// What the core says: the cost, or that the stock does not suffice.
fn ours(job: &Cutting, scratch: &mut Scratch, rods: &mut Rods) -> Option<Cost> {
    cutting::cut(&job.input(), scratch, rods);
    let cost = sticks::audit(job, rods);
    assert_ne!(rods.proof, Proof::NotProved);
    rods.uncut.is_empty().then_some(cost)
}

/// States of the table.
fn states(job: &Cutting) -> u64 {
    job.pieces
        .iter()
        .map(|piece| u64::from(piece.count) + 1)
        .product()
}

#[test]
fn the_table_agrees() {
    let cases = if cfg!(feature = "soak") { 3_000 } else { 320 };
    let (mut scratch, mut rods) = (Scratch::new(), Rods::new());
    let (mut judged, mut short) = (0, 0);
    for seed in 0.. {
        if judged == cases {
            break;
        }
        let family = if seed % 3 == 0 {
            Family::Scarce
        } else {
            Family::Small
        };
        let job = sticks::generate(family, 10_000 + seed);
        if states(&job) > 160 {
            continue;
        }
        let cost = ours(&job, &mut scratch, &mut rods);
        assert_eq!(cost, table::least(&job), "{family:?} {seed}: {job:?}");
        judged += 1;
        short += usize::from(cost.is_none());
    }
    assert!(short > cases / 40, "{short} short of stock");
}

/// Whether the solver knew; panics where it disagrees.
fn solver_agrees(job: &Cutting, seed: u64, scratch: &mut Scratch, rods: &mut Rods) -> bool {
    let cost = ours(job, scratch, rods).map_or(Opinion::Impossible, Opinion::Least);
    let opinion = solver::least(job, unit(job), Duration::from_secs(1));
    if opinion != Opinion::OutOfTime {
        assert_eq!(cost, opinion, "{seed}: {job:?}");
    }
    opinion != Opinion::OutOfTime
}

#[test]
fn the_general_solver_agrees() {
    let cases = if cfg!(feature = "soak") { 3_000 } else { 310 };
    let (mut scratch, mut rods) = (Scratch::new(), Rods::new());
    let mut judged = 0;
    for seed in 0..cases {
        let job = sticks::generate(Family::Small, 20_000 + seed);
        judged += u64::from(solver_agrees(&job, seed, &mut scratch, &mut rods));
    }
    assert!(judged >= cases * 97 / 100, "{judged} of {cases} judged");
}

/// Few pieces a stick, more kinds of stick: where patterns decide, not weight.
#[test]
fn the_general_solver_agrees_on_coarse_jobs() {
    let cases = if cfg!(feature = "soak") { 400 } else { 40 };
    let (mut scratch, mut rods) = (Scratch::new(), Rods::new());
    let mut judged = 0;
    for seed in 0..cases {
        let mut job = sticks::generate(Family::Coarse, 30_000 + seed);
        job.pieces.truncate(4);
        for piece in &mut job.pieces {
            piece.count = piece.count.min(5);
        }
        job.sticks.retain(|stick| stick.length.as_inches() < 80.0);
        job.sticks.push(Stick {
            length: Length::from_inches(36),
            count: None,
            source: StickSource::Rod,
        });
        judged += u64::from(solver_agrees(&job, seed, &mut scratch, &mut rods));
    }
    assert!(judged >= cases / 2, "{judged} of {cases} judged");
}

/// The solver counts in eighths of an inch or pairs of millimetres, or in what
/// divides both.
fn unit(job: &Cutting) -> i64 {
    let lengths = || {
        job.sticks
            .iter()
            .map(|stick| i64::from(stick.length.counts()))
    };
    let units = [127_000, 80_000, 1_000];
    let divides = |unit: &i64| lengths().all(|length| length % unit == 0);
    units.into_iter().find(divides).expect("one of them")
}
