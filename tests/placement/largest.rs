//! The largest jobs that a card can hold: steel of 80 ft, 160 joists, hundreds
//! of marks. More pieces than the planner remembers at a time.

use super::twin::{Seen, differs};
use crate::judges::checker::check;
use crate::judges::generator::Generated;
use crate::judges::reference::solve;
use boltbay_core::card;
use boltbay_core::job::Job;
use boltbay_core::joists::{self, Joists};
use boltbay_core::placement::{Placement, Scratch, place};
use boltbay_core::rule::Rule;
use boltbay_core::words::Units;
use std::fmt::Write;

/// Steel of 80 ft, as deep as a joist and a half.
const STEEL: &str = "boltbay,1\nunits,imperial\nbeam,custom,80',measured\n\
    shape,14,7,1/4,3/8,3/4,1,3/4,30\nrows,11,2\n";

/// 80 ft, joists 1 ft on centre on both sides, the S ones `lapped` inches on.
/// The hangers are low, so that they count in the bottom row only.
fn floor(lapped: u32, note: &str) -> String {
    let mut card = format!(
        "{STEEL}hanger,low,1 1/4,3\n\
         floor,N,11 1/4\nfloor,S,11 1/4\n{note}\n"
    );
    for (side, first) in [('N', 5), ('S', 5 + lapped)] {
        let _ = writeln!(card, "tape,{side},end A,,near");
        for n in 0..80 {
            let _ = writeln!(card, "joist,{}", first + 12 * n);
        }
    }
    card
}

/// The job of a card, with its joists.
fn read(text: &str) -> Generated {
    let mut job = Box::new(Job::new(Units::Imperial));
    card::read(text.as_bytes(), &mut job).unwrap_or_else(|e| panic!("{e:?}\n{text}"));
    let mut joists = Joists::new();
    let (mut runs, mut cautions) = Default::default();
    joists::read(&job, &mut joists, &mut runs, &mut cautions).expect("readings are whole");
    Generated {
        seed: 0,
        job: *job,
        joists,
    }
}

/// The plan, which every judge of legality lets pass.
fn plan(text: &str) -> Box<Placement> {
    let large = read(text);
    let rule = Rule::of(&large.job).expect("the note is whole");
    let (mut plan, mut scratch) = (Box::new(Placement::new()), Box::new(Scratch::new()));
    let outcome = place(&large.job, &large.joists, rule, &mut plan, &mut scratch);
    assert_eq!(outcome, Ok(()));
    let wrong = check(&large.job, &large.joists, &plan);
    assert!(wrong.is_empty(), "{wrong:?}");
    plan
}

/// The best plan by the slow twin too, where the lattice is coarse enough.
#[test]
fn the_twin_agrees_on_80_ft_whose_rows_differ() {
    for note in [
        "bolt,1/2\nlattice,1/2\nspacing,8,every\nends,2 1/2,9",
        "bolt,3/8\nlattice,1/2\nspacing,9,every\nends,2 1/2,9,paired\nnear,40',6,one,paired",
        "bolt,3/8\nlattice,1/2\nspacing,10,row\nends,2 1/2,9",
    ] {
        let large = read(&floor(6, note));
        let wrong = differs(&large, &solve(&large.facts()), &mut Default::default());
        assert!(wrong.is_empty(), "{note}\n{}", wrong.join("\n"));
    }
}

/// No bay without a stretch that blocks: far more than a plan lists at a time.
#[test]
fn every_one_of_many_blocking_stretches_is_listed() {
    let card = floor(4, "bolt,3/8\nlattice,1/2\nspacing,8,every\nends,2 1/2,9");
    // Of no known height: they count in both rows.
    let large = read(&card.replace("hanger,low,1 1/4,3", "hanger,wide,1 1/4"));
    let mut seen = Seen::default();
    let wrong = differs(&large, &solve(&large.facts()), &mut seen);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(seen.blocked_kinds[0] > 70, "{seen:?}");
}

#[test]
fn two_hundred_holes_close_together_are_planned() {
    let plan = plan(&floor(0, "bolt,3/8\nspacing,5,every,1/8,2\nends,2,9"));
    assert!(plan.feasible, "{plan:?}");
    assert!(plan.holes.len() > 190, "{}", plan.holes.len());
}

#[test]
fn more_than_240_holes_are_refused_as_such() {
    let plan = plan(&format!(
        "{STEEL}bolt,3/8\nspacing,4,every,1/8,1\nends,2,9\n"
    ));
    assert!(!plan.feasible && plan.too_many_holes, "{plan:?}");
}

/// 240 holes there already, one every 4 in in turn; some drilled, some of those
/// on a joist.
#[test]
fn a_full_list_of_old_holes_is_answered() {
    let mut card = floor(6, "bolt,3/8\nspacing,5,every,1/8,1 1/2\nends,2,9\nplay,0");
    for n in 0..240 {
        let state = if n % 2 == 0 { "drilled" } else { "marked" };
        let row = if n % 4 < 2 { "top" } else { "bot" };
        let _ = writeln!(card, "{state},{},{row}", 4 * n + 2);
    }
    let plan = plan(&card);
    assert!(plan.holes.len() >= 120, "{}", plan.holes.len());
}
