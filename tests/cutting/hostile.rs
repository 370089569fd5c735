//! Anything may be asked: no panic, no endless loop, an honest list.

use crate::judges::dice::Dice;
use crate::judges::sticks::{self, Cutting};
use boltbay_core::Length;
use boltbay_core::cutting::{self, Scratch, Wanted};
use boltbay_core::job::{Stick, StickSource};
use boltbay_core::rods::{MOST_LENGTHS, Proof, Rods};
use proptest::prelude::*;
use std::time::{Duration, Instant};

fn length() -> impl Strategy<Value = Length> {
    let any = prop_oneof![
        Just(0),
        Just(1),
        Just(i32::MAX),
        Just(i32::MIN),
        -2_000_000..2_000_000_i32,
        1..200_000_000_i32,
        any::<i32>(),
    ];
    any.prop_map(Length::from_counts)
}

fn job() -> impl Strategy<Value = Cutting> {
    let count = prop_oneof![0..12_u32, 0..200_u32, Just(u32::from(u16::MAX))];
    let piece = (length(), count).prop_map(|(length, count)| Wanted { length, count });
    let stick = (length(), any::<Option<u16>>(), any::<bool>());
    let stick = stick.prop_map(|(length, count, rod)| Stick {
        length,
        count,
        source: if rod {
            StickSource::Rod
        } else {
            StickSource::Offcut
        },
    });
    let pieces = prop::collection::vec(piece, 0..MOST_LENGTHS);
    let sticks = prop::collection::vec(stick, 0..16);
    (pieces, sticks, length(), any::<bool>()).prop_map(|(pieces, sticks, kerf, trim)| Cutting {
        pieces,
        sticks,
        kerf,
        trim,
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(if cfg!(feature = "soak") { 20_000 } else { 400 }))]
    #[test]
    fn any_job_ends(job in job()) {
        let mut rods = Rods::new();
        let started = Instant::now();
        cutting::cut(&job.input(), &mut Scratch::new(), &mut rods);
        prop_assert!(started.elapsed() < Duration::from_secs(8));
        if rods.feasible {
            prop_assert!(rods.uncut.is_empty() && rods.too_long.is_empty());
        }
    }
}

/// More pieces and more lengths than the full search takes: still every piece
/// cut, still audited, and called proved only where the bound is met.
#[test]
fn large_jobs_are_cut_and_audited() {
    let mut scratch = Scratch::new();
    let mut rods = Rods::new();
    let mut proved = 0;
    for seed in 0..60 {
        let job = large(seed);
        let started = Instant::now();
        cutting::cut(&job.input(), &mut scratch, &mut rods);
        assert!(started.elapsed() < Duration::from_secs(4), "{seed}");
        sticks::audit(&job, &rods);
        assert!(rods.feasible, "{seed}: {:?}", rods.uncut);
        assert_ne!(rods.proof, Proof::SearchComplete, "{seed}");
        proved += usize::from(rods.proof == Proof::BoundMet);
        let weight: i64 = job
            .pieces
            .iter()
            .map(|piece| i64::from(piece.length.counts()) * i64::from(piece.count))
            .sum();
        let opened = rods.bought_counts + rods.offcut_counts;
        assert!(
            opened < weight + weight / 5 + 300_000_000,
            "{seed}: wasteful"
        );
    }
    assert!(proved > 5, "{proved} proved");
}

fn large(seed: u64) -> Cutting {
    let mut dice = Dice::new(seed);
    let lengths = dice.between(1, 15);
    let mut pieces: Vec<Wanted> = Vec::new();
    for n in 0..lengths {
        pieces.push(Wanted {
            length: Length::from_sixteenths(2 * (dice.between(35, 44) as i32 + 10 * n as i32)),
            count: dice.between(20, 400) as u32,
        });
    }
    let stick = |inches: i32, count: Option<u16>, source: StickSource| Stick {
        length: Length::from_inches(inches),
        count,
        source,
    };
    Cutting {
        pieces,
        sticks: vec![
            stick(36, None, StickSource::Rod),
            stick(120, None, StickSource::Rod),
            stick(29, Some(7), StickSource::Offcut),
            stick(51, Some(2), StickSource::Offcut),
        ],
        kerf: Length::from_sixteenths(2),
        trim: seed.is_multiple_of(2),
    }
}
