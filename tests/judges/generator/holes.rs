//! Holes that are there already in an invented job.
//!
//! In: dice and a job that is otherwise complete. Out: marks, drilled and
//! abandoned holes: a whole plan marked and half drilled, or a loose chain of
//! legal places, or places anywhere; some off the lattice, some two rows apart
//! along the beam. Rule: no two rows for one place and row.

use super::house::{any_hook, hooked, length};
use super::{Dice, Generated};
use crate::judges::facts::station_of;
use crate::judges::reference::{Outcome, rows_of, slack, solve};
use boltbay_core::job::{Hole, HoleState, Hook, Job};
use boltbay_core::words::Row;

/// Adds a hole unless the place and row are taken or off the steel.
fn add(job: &mut Job, hook: Hook, at: i64, row: Row, state: HoleState) {
    if at < 0 || at > length(job) {
        return;
    }
    let taken = job
        .holes
        .iter()
        .any(|hole| hole.row == row && station_of(job, hole.at()) == at);
    if !taken {
        let at = hooked(job, at, hook);
        let _ = job.holes.push(Hole::new(at, row, state));
    }
}

/// What state a hole gets.
fn any_state(dice: &mut Dice) -> HoleState {
    dice.pick(&[
        HoleState::Marked,
        HoleState::Marked,
        HoleState::Drilled,
        HoleState::Drilled,
        HoleState::Abandoned,
    ])
}

/// A little off: on the lattice, by a 64th, by a few steps, or by inches.
fn off(dice: &mut Dice, step: i64) -> i64 {
    match dice.between(0, 9) {
        0..=5 => 0,
        6 => dice.between(-2, 2) * 15_875,
        7 => dice.between(-8, 8) * step,
        8 => dice.between(-3, 3) * 508_000,
        _ => dice.between(-1, 1) * 200_000,
    }
}

/// A whole plan of the job as it is, marked, some of it drilled.
fn marked_plan(dice: &mut Dice, generated: &mut Generated) {
    let facts = generated.facts();
    let Outcome::Plan(answer) = solve(&facts) else {
        return;
    };
    let drilled = dice.between(0, answer.stations.len() as i64);
    for (n, station) in answer.stations.iter().enumerate() {
        for bolt in &station.bolts {
            let (at, row) = (bolt.at, bolt.row);
            if (n as i64) < drilled {
                let at = at + off(dice, facts.step);
                add(&mut generated.job, Hook::EndA, at, row, HoleState::Drilled);
            }
            if (n as i64) >= drilled || dice.chance(1, 2) {
                add(&mut generated.job, Hook::EndA, at, row, HoleState::Marked);
            }
        }
    }
}

/// A loose chain of places that are mostly legal.
fn loose_chain(dice: &mut Dice, generated: &mut Generated) {
    let facts = generated.facts();
    let rows = rows_of(&facts);
    let steps = facts.s_max / facts.step;
    let share = dice.pick(&[2, 2, 3, 6]);
    let mut n = dice.between(1, steps);
    while n * facts.step < facts.length {
        let row = dice.pick(rows);
        let legal = (n..n + steps).find(|n| slack(&facts, row, n * facts.step, None).is_some());
        let at = legal.unwrap_or(n) * facts.step;
        if dice.chance(1, share) {
            let at = at + off(dice, facts.step);
            let hook = any_hook(dice);
            let state = any_state(dice);
            add(&mut generated.job, hook, at, row, state);
            if rows.len() == 2 && dice.chance(1, 4) {
                let apart = dice.pick(&[0, 0, 1, -1]) * dice.between(0, facts.diameter);
                let state = any_state(dice);
                add(
                    &mut generated.job,
                    Hook::EndA,
                    at + apart,
                    row.other(),
                    state,
                );
            }
        }
        n = legal.unwrap_or(n)
            + dice
                .between((facts.s_min / facts.step).min(steps), steps)
                .max(1);
    }
}

/// Holes anywhere.
fn anywhere(dice: &mut Dice, generated: &mut Generated) {
    let facts = generated.facts();
    for _ in 0..dice.between(1, 4) {
        let at = dice.between(0, facts.length / facts.step) * facts.step + off(dice, facts.step);
        let row = dice.pick(rows_of(&facts));
        let state = any_state(dice);
        add(&mut generated.job, Hook::EndA, at, row, state);
    }
}

/// Holes as they are; half of all jobs have none.
pub(crate) fn holes(dice: &mut Dice, generated: &mut Generated) {
    match dice.between(0, 11) {
        0..=4 => {}
        5 | 6 => {
            let points = length(&generated.job) / generated.facts().step;
            if points < 3_000 {
                marked_plan(dice, generated);
            }
        }
        7 | 8 => anywhere(dice, generated),
        _ => loose_chain(dice, generated),
    }
}
