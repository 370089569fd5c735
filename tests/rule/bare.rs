//! Where a washer can come to sit on bare web, against a plain scan.

use super::{inches, job, piece, sixteenths};
use boltbay_core::Job;
use boltbay_core::hardware::Hardware;
use boltbay_core::job::Ends;
use boltbay_core::length::Length;
use boltbay_core::rows::washer_on_bare_web;
use boltbay_core::words::{Side, Sides, Units};

fn packed(pieces: &[(i32, i32, Sides)]) -> Job {
    let mut job = job(Units::Imperial, "W8X18", sixteenths(8));
    for &(from, to, sides) in pieces {
        let piece = piece(sixteenths(from), sixteenths(to), sides);
        job.packing.push(piece).unwrap();
    }
    job
}

fn bare(job: &Job) -> [bool; 2] {
    let hardware = Hardware::of(job).unwrap();
    Side::BOTH.map(|side| washer_on_bare_web(job, &hardware, side))
}

const N: Sides = Sides::One(Side::N);
const S: Sides = Sides::One(Side::S);

#[test]
fn packed_alike_no_washer_is_on_bare_web() {
    assert_eq!(bare(&packed(&[])), [false; 2]);
    assert_eq!(bare(&packed(&[(64, 3000, Sides::Both)])), [false; 2]);
    assert_eq!(bare(&packed(&[(64, 3000, N), (64, 3000, S)])), [false; 2]);
    // A bare stretch on both sides has no bolts at all.
    let broken = [(64, 1000, Sides::Both), (1200, 3000, Sides::Both)];
    assert_eq!(bare(&packed(&broken)), [false; 2]);
}

#[test]
fn packed_on_one_side_the_other_washer_is_on_bare_web() {
    assert_eq!(bare(&packed(&[(64, 3000, N)])), [false, true]);
    assert_eq!(bare(&packed(&[(64, 3000, S)])), [true, false]);
    let stair = [(64, 3000, N), (64, 800, S), (1700, 3000, S)];
    assert_eq!(bare(&packed(&stair)), [false, true]);
    let crossed = [(64, 1500, N), (1500, 3000, S)];
    assert_eq!(bare(&packed(&crossed)), [true, true]);
}

/// R + g = 11/16 + 1/4 = 15/16 off both ends of the gap: a gap of 30/16 has one
/// place, a gap of 29/16 none.
#[test]
fn a_gap_in_the_packing_counts_from_the_first_place_for_a_washer() {
    assert_eq!(
        bare(&packed(&[(64, 3000, N), (64, 800, S), (830, 3000, S)])),
        [false, true]
    );
    assert_eq!(
        bare(&packed(&[(64, 3000, N), (64, 800, S), (829, 3000, S)])),
        [false, false]
    );
}

/// Bolts stay `ends` away from the end of the packing across the web.
#[test]
fn the_end_distance_across_the_web_counts() {
    let mut job = packed(&[(64, 3000, N), (64, 2950, S)]);
    // Bare from 2950 + 15 on, bolts up to 3000 less E_MIN.
    for (least, wanted) in [(35, true), (36, false)] {
        job.ends = Some(Ends {
            least: sixteenths(least),
            most: inches(12),
            paired: None,
        });
        assert_eq!(bare(&job), [false, wanted], "{least}/16");
    }
}

/// A plain scan of every sixteenth, at every packing that a simple generator
/// makes up.
#[test]
fn a_scan_says_the_same() {
    let mut seed = 7_u32;
    let mut next = |below: u32| {
        seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (seed >> 8) % below
    };
    let mut seen = [0, 0];
    for _ in 0..400 {
        let mut pieces: Vec<(i32, i32, Sides)> = Vec::new();
        for side in [N, S] {
            let mut at = 16;
            for _ in 0..=next(3) {
                let from = at + next(60) as i32;
                let to = from + 1 + next(300) as i32;
                pieces.push((from, to, side));
                at = to + next(40) as i32;
            }
        }
        let mut job = packed(&pieces);
        let least = next(40) as i32;
        job.ends = Some(Ends {
            least: sixteenths(least),
            most: inches(12),
            paired: None,
        });
        let off = 15;
        for (side, found) in Side::BOTH.into_iter().zip(bare(&job)) {
            let scanned = (0..3200).any(|x| {
                let across = pieces.iter().any(|&(from, to, sides)| {
                    !sides.holds(side) && from + least <= x && x <= to - least
                });
                let own = pieces.iter().all(|&(from, to, sides)| {
                    !sides.holds(side) || x <= from - off || x >= to + off
                });
                across && own
            });
            assert_eq!(found, scanned, "{side:?} {least} {pieces:?}");
            seen[usize::from(found)] += 1;
        }
    }
    assert!(seen.iter().all(|&count| count > 50), "{seen:?}");
    assert_eq!(Length::from_sixteenths(15), sixteenths(11 + 4));
}
