//! Third opinion: a general mixed integer solver against the reference, at no
//! play and at a quarter of an inch (6 mm). A run that is out of time says
//! nothing; enough of them must say something.

use super::show;
use crate::judges::generator::{Size, generate};
use crate::judges::milp::{self, Verdict};
use crate::judges::reference;
use std::ops::Range;
use std::time::Duration;

/// How often the solver found a plan, and how often that there is none.
#[derive(Default)]
struct Agreed {
    plans: usize,
    none: usize,
}

/// Compares both on the jobs of these seeds.
fn compare(seeds: Range<u64>, size: Size, limit: Duration) -> Agreed {
    let mut agreed = Agreed::default();
    for seed in seeds {
        let generated = generate(seed, size);
        let facts = generated.facts();
        if !milp::speaks_of(&facts) {
            continue;
        }
        for play in [0, facts.class_step * 2] {
            let expected = reference::fewest(&facts, play);
            match milp::fewest(&facts, play, limit) {
                Verdict::OutOfTime => {}
                Verdict::NoPlan => {
                    agreed.none += 1;
                    assert_eq!(None, expected, "play {play}\n{}", show(&generated));
                }
                Verdict::Fewest(struck, stations, holes) => {
                    agreed.plans += 1;
                    let got = Some((struck, stations, holes));
                    assert_eq!(got, expected, "play {play}\n{}", show(&generated));
                }
            }
        }
    }
    agreed
}

#[test]
fn a_general_solver_agrees_with_the_reference() {
    let agreed = compare(1_000..1_080, Size::Small, Duration::from_millis(150));
    assert!(agreed.plans >= 10, "only {} plans", agreed.plans);
    assert!(agreed.none >= 20, "only {} without", agreed.none);
}

#[cfg(feature = "soak")]
#[test]
fn a_general_solver_agrees_on_many() {
    let agreed = compare(2_000..2_300, Size::Small, Duration::from_secs(4));
    assert!(agreed.plans >= 100, "only {} plans", agreed.plans);
    assert!(agreed.none >= 100, "only {} without", agreed.none);
}

#[cfg(feature = "soak")]
#[test]
fn a_general_solver_agrees_on_a_few_long() {
    let long = compare(3_000..3_012, Size::LongCoarse, Duration::from_secs(8));
    assert!(
        long.plans + long.none >= 4,
        "only {} long",
        long.plans + long.none
    );
}
