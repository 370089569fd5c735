//! Arbitrary jobs: whatever readings, hooks, rows and indexes stand on a job,
//! nothing panics, nothing overflows, and what comes out is whole and sorted.

use super::bench::Survey;
use boltbay_core::Job;
use boltbay_core::caution::Cautions;
use boltbay_core::frame::Frame;
use boltbay_core::job::{
    Beam, BeamLength, Check, CheckKind, Designation, Edge, HangerRef, Hook, JoistReading,
    PackingPiece, Position, Run, RunHook, Square,
};
use boltbay_core::joists::slips;
use boltbay_core::length::Length;
use boltbay_core::words::{End, Side, Sides, Units};
use proptest::prelude::*;

/// Any length, the ends of the range and 0 often.
fn any_length() -> impl Strategy<Value = Length> {
    prop_oneof![
        4 => any::<i32>(),
        1 => Just(i32::MIN),
        1 => Just(i32::MAX),
        1 => Just(0),
        8 => 0..400 * 1_016_000,
        2 => -3..=3_i32,
    ]
    .prop_map(Length::from_counts)
}

fn any_end() -> impl Strategy<Value = End> {
    prop_oneof![Just(End::A), Just(End::B)]
}

fn any_side() -> impl Strategy<Value = Side> {
    prop_oneof![Just(Side::N), Just(Side::S)]
}

fn any_position() -> impl Strategy<Value = Position> {
    let hook = prop_oneof![
        Just(Hook::EndA),
        Just(Hook::EndB),
        Just(Hook::WallA),
        Just(Hook::WallB)
    ];
    (any_length(), hook).prop_map(|(reading, hook)| Position { reading, hook })
}

fn any_run() -> impl Strategy<Value = Run> {
    let hook = prop_oneof![
        any_end().prop_map(RunHook::Wall),
        any_end().prop_map(RunHook::Steel),
        (any_position(), any_end()).prop_map(|(at, end)| RunHook::Mark(at, end)),
    ];
    let edge = prop_oneof![Just(Edge::Near), Just(Edge::Centre), Just(Edge::Far)];
    let burn = prop::option::of(any_length());
    let thickness = prop::option::of(any_length());
    (any_side(), hook, edge, burn, thickness, any::<bool>()).prop_map(
        |(side, hook, edge, burn, thickness, overridden)| Run {
            side,
            hook,
            edge,
            burn,
            thickness,
            read_to: None,
            overridden,
        },
    )
}

fn any_joist() -> impl Strategy<Value = JoistReading> {
    let hanger = prop_oneof![
        4 => Just(HangerRef::Default),
        1 => Just(HangerRef::None),
        1 => any::<u8>().prop_map(HangerRef::Row),
    ];
    let run = prop_oneof![8 => 0..4_u8, 1 => any::<u8>()];
    let thickness = prop::option::of(any_length());
    (any_length(), thickness, hanger, run, any::<bool>()).prop_map(
        |(reading, thickness, hanger, run, guessed)| JoistReading {
            reading,
            thickness,
            hanger,
            run,
            guessed,
        },
    )
}

fn any_check() -> impl Strategy<Value = Check> {
    let kind = prop_oneof![Just(CheckKind::Check), Just(CheckKind::Close)];
    let run = prop_oneof![8 => 0..4_u8, 1 => any::<u8>()];
    (kind, any_length(), any_position(), run, any::<bool>()).prop_map(
        |(kind, reading, point, run, guessed)| Check {
            kind,
            reading,
            point,
            run,
            guessed,
        },
    )
}

fn any_house() -> impl Strategy<Value = Job> {
    let beam = prop::option::weighted(0.8, (any_length(), any::<bool>()));
    let walls = [
        prop::option::of(any_length()),
        prop::option::of(any_length()),
    ];
    let optional = prop::option::of(any_length());
    let square = (any_side(), any_end(), any_length()).prop_map(|(side, end, offset)| Square {
        side,
        end,
        offset,
    });
    let squares = prop::collection::vec(square, 0..4);
    let sides = prop_oneof![Just(Sides::Both), any_side().prop_map(Sides::One)];
    let piece = (any_position(), any_position(), sides)
        .prop_map(|(from, to, sides)| PackingPiece { from, to, sides });
    let packing = prop::collection::vec(piece, 0..8);
    let placed = prop::option::of(any_length());
    (
        any::<bool>(),
        beam,
        walls,
        optional,
        squares,
        packing,
        placed,
    )
        .prop_map(|(metric, beam, walls, clear, squares, packing, placed)| {
            let mut job = Job::new(if metric {
                Units::Metric
            } else {
                Units::Imperial
            });
            job.beam = beam.map(|(length, measured)| Beam {
                designation: Designation::try_from("CUSTOM").expect("short"),
                length,
                measured: if measured {
                    BeamLength::Measured
                } else {
                    BeamLength::Ordered
                },
            });
            job.walls = walls;
            job.clear = clear;
            job.squares.extend_from_slice(&squares).expect("room");
            job.packing.extend_from_slice(&packing).expect("room");
            job.placed = placed;
            job
        })
}

fn any_job() -> impl Strategy<Value = Job> {
    let runs = prop::collection::vec(any_run(), 0..16);
    let joists = prop::collection::vec(any_joist(), 0..160);
    let checks = prop::collection::vec(any_check(), 0..16);
    let counts = [
        prop::option::of(any::<u16>()),
        prop::option::of(any::<u16>()),
    ];
    (any_house(), runs, joists, checks, counts).prop_map(
        |(mut job, runs, joists, checks, counts)| {
            job.runs.extend_from_slice(&runs).expect("room");
            job.joists.extend_from_slice(&joists).expect("room");
            job.checks.extend_from_slice(&checks).expect("room");
            job.counts = counts;
            job
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn arbitrary_jobs_are_read_or_named(job in any_job()) {
        let survey = Survey::of(&job);
        let sorted = survey.joists.windows(2).all(|two| {
            (two[0].side, two[0].centre_twice()) <= (two[1].side, two[1].centre_twice())
        });
        prop_assert!(sorted);
        prop_assert!(survey.joists.iter().all(|j| j.from < j.to));
        for side in Side::BOTH {
            let numbers = survey.joists.iter().filter(|j| j.side == side).map(|j| j.number);
            prop_assert!(numbers.eq(1..=u8::try_from(survey.faces(side).len()).unwrap()));
        }
        if survey.outcome.is_ok() {
            prop_assert_eq!(survey.joists.len(), job.joists.len());
            prop_assert_eq!(survey.runs.len(), job.runs.len());
        }
    }

    #[test]
    fn arbitrary_houses_have_a_frame_or_a_reason(job in any_house(), position in any_position()) {
        let mut cautions = Cautions::new();
        let Ok(frame) = Frame::of(&job) else { return Ok(()) };
        frame.cautions(&job, &mut cautions);
        if let Ok(station) = frame.station(position) {
            prop_assert!(Length::ZERO <= station && station <= frame.length);
        }
        let (from, to) = frame.load_extents();
        prop_assert!(Length::ZERO <= from && to <= frame.length);
        if let Ok(pieces) = frame.packing(&job) {
            for piece in &pieces {
                prop_assert!(Length::ZERO <= piece.from && piece.from < piece.to);
                prop_assert!(piece.to <= frame.length);
            }
        }
    }

    #[test]
    fn arbitrary_entries_are_asked_about_and_never_refused(
        job in any_job(),
        new in any_joist(),
        expected in prop::option::of(any_length()),
    ) {
        let found = slips(&job, &new, expected);
        prop_assert!(found.len() <= 3);
    }
}
