//! Checks and closes: what was read less what should be read, the worst of a
//! run, and how much is allowed.

use super::bench::{Survey, at, hang, inch, mm, prove, read, run, walled, x16};
use boltbay_core::Job;
use boltbay_core::caution::Caution;
use boltbay_core::frame::FrameError;
use boltbay_core::job::{CheckKind, Edge, Hook, Position, RunHook, Square};
use boltbay_core::joists::{JoistProblem, RunReport};
use boltbay_core::length::Length;
use boltbay_core::plan::Missing;
use boltbay_core::words::{End, Side, Units};

use CheckKind::{Check, Close};

const fn wall_b() -> Position {
    Position {
        reading: Length::ZERO,
        hook: Hook::WallB,
    }
}

/// Bearing 4, clear `clear`; one run from wall A with joists at 16 and 32.
fn house(clear: Length) -> Job {
    let mut job = walled(Units::Imperial, inch(4, 0), clear);
    let run = hang(&mut job, run(Side::N, RunHook::Wall(End::A), Edge::Near));
    read(&mut job, run, &[inch(16, 0), inch(32, 0)]);
    job
}

fn report(job: &Job) -> RunReport {
    Survey::of(job).runs[0]
}

/// Misclosure in sixteenths, tolerance in sixteenths, ok.
fn sixteenths(report: &RunReport) -> (Option<i32>, Option<i32>, Option<bool>) {
    let sixteenth = |l: Length| {
        assert_eq!(l.counts() % x16(1).counts(), 0);
        l.counts() / x16(1).counts()
    };
    (
        report.misclosure.map(sixteenth),
        report.tolerance.map(sixteenth),
        report.ok,
    )
}

#[test]
fn out_by_is_read_less_should_and_the_limit_is_met_exactly() {
    // Practice: 1/8 in up to 16 ft from hook to point, 1/4 in above.
    for (clear, reading, out, allowed, ok) in [
        (inch(192, 0), inch(192, 0), 0, 2, true),
        (inch(192, 0), inch(192, 2), 2, 2, true),
        (inch(192, 0), inch(191, 14), -2, 2, true),
        (inch(192, 0), inch(192, 3), 3, 2, false),
        (inch(192, 0), inch(191, 13), -3, 2, false),
        (inch(192, 1), inch(192, 5), 4, 4, true),
        (inch(192, 1), inch(191, 13), -4, 4, true),
        (inch(192, 1), inch(192, 6), 5, 4, false),
    ] {
        let mut job = house(clear);
        prove(&mut job, 0, Check, reading, wall_b());
        let found = sixteenths(&report(&job));
        assert_eq!(
            found,
            (Some(out), Some(allowed), Some(ok)),
            "{clear:?} {reading:?}"
        );
    }
}

#[test]
fn metric_limits_are_three_and_six_millimetres_around_four_eighty_eight() {
    for (clear, out, allowed, ok) in [
        (4880, 3, 3, true),
        (4880, 4, 3, false),
        (4881, 6, 6, true),
        (4881, -7, 6, false),
    ] {
        let mut job = walled(Units::Metric, mm(100), mm(clear));
        let index = hang(&mut job, run(Side::S, RunHook::Wall(End::A), Edge::Centre));
        prove(&mut job, index, Check, mm(clear + out), wall_b());
        let report = report(&job);
        assert_eq!(report.misclosure, Some(mm(out)));
        assert_eq!(report.tolerance, Some(mm(allowed)));
        assert_eq!(report.ok, Some(ok));
    }
}

#[test]
fn a_close_counts_from_the_edge_that_was_read_and_is_never_burnt() {
    // Burn 1: the last edge lies at 31 from wall A, so 161 are left of 192.
    for edge in [Edge::Near, Edge::Centre, Edge::Far] {
        let mut job = house(inch(192, 0));
        job.runs[0].edge = edge;
        job.runs[0].burn = Some(inch(1, 0));
        prove(&mut job, 0, Close, inch(161, 1), wall_b());
        assert_eq!(sixteenths(&report(&job)), (Some(1), Some(2), Some(true)));
        // A check is burnt: wall B should read 193.
        job.checks.clear();
        prove(&mut job, 0, Check, inch(193, 1), wall_b());
        assert_eq!(sixteenths(&report(&job)), (Some(1), Some(2), Some(true)));
    }
}

#[test]
fn runs_toward_a_close_on_wall_a_or_on_end_a() {
    // From wall B (face at 196), last edge at 196 - 32 = 164, end A at 0.
    let mut job = house(inch(192, 0));
    job.runs[0].hook = RunHook::Wall(End::B);
    prove(&mut job, 0, Close, inch(160, 1), at(x16(0), Hook::WallA));
    assert_eq!(sixteenths(&report(&job)), (Some(1), Some(2), Some(true)));
    job.checks.clear();
    prove(
        &mut job,
        0,
        Close,
        inch(164, 0),
        Position::from_end_a(x16(0)),
    );
    assert_eq!(sixteenths(&report(&job)), (Some(0), Some(4), Some(true)));
    // A check at a mark 12 from end B (188): 8 from the hook.
    job.checks.clear();
    prove(&mut job, 0, Check, inch(8, 1), at(inch(12, 0), Hook::EndB));
    assert_eq!(sixteenths(&report(&job)), (Some(1), Some(2), Some(true)));
}

#[test]
fn the_limit_goes_by_the_distance_from_the_hook_even_for_a_close() {
    // The closing reading is short, the point is 17 ft from the hook.
    let mut job = house(inch(204, 0));
    prove(&mut job, 0, Close, inch(172, 3), wall_b());
    assert_eq!(sixteenths(&report(&job)), (Some(3), Some(4), Some(true)));
}

#[test]
fn the_worst_of_several_stands_for_the_run() {
    let points = [inch(96, 0), inch(144, 0)].map(|l| at(l, Hook::WallA));
    let with = |outs: [i32; 3]| {
        let mut job = house(inch(204, 0));
        let [near, middle, far] = outs;
        prove(&mut job, 0, Check, inch(96, near), points[0]);
        prove(&mut job, 0, Check, inch(144, middle), points[1]);
        prove(&mut job, 0, Check, inch(204, far), wall_b());
        sixteenths(&report(&job))
    };
    assert_eq!(with([0, -1, 1]), (Some(-1), Some(2), Some(true)));
    assert_eq!(with([1, -2, 1]), (Some(-2), Some(2), Some(true)));
    assert_eq!(with([3, -2, 5]), (Some(5), Some(4), Some(false)));
    // 3/16 at 8 ft fails although 1/4 at 17 ft is more and passes.
    assert_eq!(with([3, 0, 4]), (Some(3), Some(2), Some(false)));
    assert_eq!(with([0, 0, 4]), (Some(4), Some(4), Some(true)));
}

#[test]
fn a_run_without_proof_is_a_caution_and_a_guess_is_no_proof() {
    let mut job = house(inch(192, 0));
    let not_proved = Caution::RunNotProved {
        side: Side::N,
        run: 1,
    };
    assert_eq!(Survey::of(&job).cautions, [not_proved]);
    assert_eq!(sixteenths(&report(&job)), (None, None, None));
    prove(&mut job, 0, Check, inch(192, 0), wall_b());
    assert_eq!(Survey::of(&job).cautions, []);
    job.checks[0].guessed = true;
    assert_eq!(Survey::of(&job).cautions, [not_proved]);
    assert_eq!(sixteenths(&report(&job)), (None, None, None));
}

#[test]
fn a_run_that_shall_stand_is_said_and_stays_not_ok() {
    let mut job = house(inch(192, 0));
    prove(&mut job, 0, Check, inch(192, 10), wall_b());
    assert_eq!(Survey::of(&job).cautions, []);
    assert!(!report(&job).overridden);
    job.runs[0].overridden = true;
    let overridden = Caution::RunOverridden {
        side: Side::N,
        run: 1,
        misclosure: x16(10),
        tolerance: x16(2),
    };
    assert_eq!(Survey::of(&job).cautions, [overridden]);
    assert_eq!(report(&job).ok, Some(false));
    assert!(report(&job).overridden);
    // Nothing to override where the run is within tolerance.
    job.checks[0].reading = inch(192, 0);
    assert_eq!(Survey::of(&job).cautions, []);
}

#[test]
fn a_square_row_moves_the_points_of_that_wall_on_that_side() {
    let mut job = house(inch(192, 0));
    let square = Square {
        side: Side::N,
        end: End::B,
        offset: x16(5),
    };
    job.squares.push(square).expect("room");
    prove(&mut job, 0, Check, inch(192, 5), wall_b());
    prove(&mut job, 0, Close, inch(160, 5), wall_b());
    assert_eq!(sixteenths(&report(&job)), (Some(0), Some(4), Some(true)));
    job.squares[0].side = Side::S;
    assert_eq!(sixteenths(&report(&job)), (Some(5), Some(2), Some(false)));
    // The hook's own wall: what is hooked 5/16 toward B reads 5/16 less.
    job.squares[0] = Square {
        side: Side::N,
        end: End::A,
        offset: x16(5),
    };
    job.checks.clear();
    prove(&mut job, 0, Check, inch(191, 11), wall_b());
    assert_eq!(sixteenths(&report(&job)), (Some(0), Some(2), Some(true)));
}

#[test]
fn runs_are_numbered_on_their_side_and_keep_the_order_of_the_card() {
    let mut job = house(inch(192, 0));
    for side in [Side::S, Side::N, Side::S] {
        hang(&mut job, run(side, RunHook::Wall(End::A), Edge::Near));
    }
    prove(&mut job, 3, Check, inch(192, 1), wall_b());
    let survey = Survey::of(&job);
    let list: Vec<_> = survey
        .runs
        .iter()
        .map(|r| (r.run, r.side, r.number, r.ok))
        .collect();
    assert_eq!(
        list,
        [
            (0, Side::N, 1, None),
            (1, Side::S, 1, None),
            (2, Side::N, 2, None),
            (3, Side::S, 2, Some(true)),
        ]
    );
}

#[test]
fn a_beam_off_its_mark_changes_no_proof() {
    let mut job = house(inch(192, 0));
    prove(&mut job, 0, Close, inch(160, 1), wall_b());
    let before = report(&job);
    job.placed = Some(x16(6));
    assert_eq!(report(&job), before);
}

#[test]
fn points_that_are_not_known_are_named_and_the_joists_still_read() {
    let mut job = house(inch(192, 0));
    job.clear = None;
    job.walls[1] = None;
    prove(&mut job, 0, Close, inch(160, 0), wall_b());
    let survey = Survey::of(&job);
    let problem = JoistProblem::PointUnknown {
        side: Side::N,
        run: 1,
        why: FrameError::NoWall(End::B),
    };
    assert_eq!(survey.outcome, Err(problem));
    assert_eq!(problem.missing(&job), Some(Missing::Row("clear")));
    assert_eq!(survey.joists.len(), 2);
    assert_eq!(survey.runs.len(), 1);
    // A close with no joist to close from.
    let mut job = house(inch(192, 0));
    job.joists.clear();
    prove(&mut job, 0, Close, inch(160, 0), wall_b());
    let problem = JoistProblem::CloseWithoutJoist {
        side: Side::N,
        run: 1,
    };
    assert_eq!(Survey::of(&job).outcome, Err(problem));
    assert_eq!(problem.missing(&job), None);
    // A check of a run that is not there.
    let mut job = house(inch(192, 0));
    prove(&mut job, 3, Check, inch(160, 0), wall_b());
    assert_eq!(Survey::of(&job).outcome, Err(JoistProblem::NoRun));
}
