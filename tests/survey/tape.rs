//! One reading at a time: hook, direction, edge, burn, thickness, hanger.

use super::bench::{Survey, at, hang, inch, job, mm, plain, read, run, walled, x16};
use boltbay_core::Job;
use boltbay_core::caution::Caution;
use boltbay_core::frame::FrameError;
use boltbay_core::job::{Edge, Hanger, HangerRef, Hook, JoistReading, RunHook, Square};
use boltbay_core::joists::JoistProblem;
use boltbay_core::length::Length;
use boltbay_core::plan::Missing;
use boltbay_core::words::{End, Name, Side, Units};

/// Steel 200, bearing 4 at both ends, clear 192: face A at 4, face B at 196.
fn house() -> Job {
    walled(Units::Imperial, inch(4, 0), inch(192, 0))
}

/// Faces of the only joist of a run that reads 50.
fn faces_of_fifty(hook: RunHook, edge: Edge, thickness: Length) -> (Length, Length) {
    let mut job = house();
    let run = hang(&mut job, run(Side::N, hook, edge));
    let reading = JoistReading {
        thickness: Some(thickness),
        ..plain(run, inch(50, 0))
    };
    job.joists.push(reading).expect("room");
    Survey::of(&job).faces(Side::N)[0]
}

#[test]
fn every_hook_and_edge_gives_its_faces() {
    let mark = at(inch(30, 0), Hook::EndA);
    // Where the edge lies: wall A 4 + 50, end A 50, wall B 196 - 50, end B
    // 200 - 50, the mark 30 + 50 or 30 - 50. A joist 3 in thick, doubled.
    for (hook, edge_at, toward) in [
        (RunHook::Wall(End::A), 54, End::B),
        (RunHook::Steel(End::A), 50, End::B),
        (RunHook::Wall(End::B), 146, End::A),
        (RunHook::Steel(End::B), 150, End::A),
        (RunHook::Mark(mark, End::B), 80, End::B),
        (RunHook::Mark(mark, End::A), -20, End::A),
    ] {
        let near = faces_of_fifty(hook, Edge::Near, inch(3, 0));
        let centre = faces_of_fifty(hook, Edge::Centre, inch(3, 0));
        let far = faces_of_fifty(hook, Edge::Far, inch(3, 0));
        let (beyond, before) = match toward {
            End::B => (near, far),
            End::A => (far, near),
        };
        assert_eq!(beyond, (inch(edge_at, 0), inch(edge_at + 3, 0)), "{hook:?}");
        assert_eq!(centre, (inch(edge_at, -24), inch(edge_at, 24)), "{hook:?}");
        assert_eq!(before, (inch(edge_at - 3, 0), inch(edge_at, 0)), "{hook:?}");
    }
}

#[test]
fn half_a_thickness_that_is_no_count_goes_outward() {
    // 1 33/64 in is an odd number of counts: 97 x 15875 = 1539875.
    let thickness = Length::from_sixty_fourths(97);
    assert_eq!(thickness.counts(), 1_539_875);
    let (from, to) = faces_of_fifty(RunHook::Steel(End::A), Edge::Centre, thickness);
    let centre = inch(50, 0).counts();
    assert_eq!(from.counts(), centre - 769_938);
    assert_eq!(to.counts(), centre + 769_938);
    // An edge keeps the thickness as it is.
    let (from, to) = faces_of_fifty(RunHook::Steel(End::A), Edge::Near, thickness);
    assert_eq!(to.checked_sub(from), Some(thickness));
}

#[test]
fn two_joists_read_to_centre_and_touching_do_not_overlap_by_rounding() {
    let mut job = job(Units::Imperial, inch(200, 0));
    let run = hang(&mut job, run(Side::N, RunHook::Steel(End::A), Edge::Centre));
    let thickness = Length::from_sixty_fourths(97);
    for reading in [
        inch(50, 0),
        inch(50, 0).checked_add(thickness).expect("short"),
    ] {
        let reading = JoistReading {
            thickness: Some(thickness),
            ..plain(run, reading)
        };
        job.joists.push(reading).expect("room");
    }
    let survey = Survey::of(&job);
    assert_eq!(
        survey.joists[0].to.counts() - survey.joists[1].from.counts(),
        1
    );
    assert_eq!(survey.asked(), []);
}

#[test]
fn a_burn_changed_after_eight_readings_mends_all_of_them() {
    let mut job = house();
    let run = hang(&mut job, run(Side::N, RunHook::Wall(End::A), Edge::Near));
    let readings: Vec<Length> = (1..=8).map(|n| inch(16 * n, 4)).collect();
    read(&mut job, run, &readings);
    let stored = job.joists.clone();
    let raw = |n: i32| (inch(16 * n + 4, 4), inch(16 * n + 5, 12));
    assert_eq!(
        Survey::of(&job).faces(Side::N),
        (1..=8).map(raw).collect::<Vec<_>>()
    );
    job.runs[0].burn = Some(inch(1, 0));
    let burnt = |n: i32| (inch(16 * n + 3, 4), inch(16 * n + 4, 12));
    assert_eq!(
        Survey::of(&job).faces(Side::N),
        (1..=8).map(burnt).collect::<Vec<_>>()
    );
    // From wall B (face at 196) the burn goes the other way.
    job.runs[0].hook = RunHook::Wall(End::B);
    let turned = |n: i32| (inch(196 - 16 * n - 1, 4), inch(196 - 16 * n, 12));
    let mut expected: Vec<_> = (1..=8).map(turned).collect();
    expected.reverse();
    assert_eq!(Survey::of(&job).faces(Side::N), expected);
    assert_eq!(job.joists, stored);
}

#[test]
fn every_correction_reads_the_same_readings_anew() {
    let mut job = house();
    let run = hang(&mut job, run(Side::N, RunHook::Wall(End::B), Edge::Near));
    read(&mut job, run, &[inch(20, 0)]);
    let only = |job: &Job| Survey::of(job).faces(Side::N)[0];
    // Face B at 196: the near edge at 176, 1 1/2 thick toward A.
    assert_eq!(only(&job), (inch(174, 8), inch(176, 0)));
    job.clear = Some(inch(192, 8));
    assert_eq!(only(&job), (inch(175, 0), inch(176, 8)));
    job.walls[0] = Some(inch(3, 8));
    assert_eq!(only(&job), (inch(174, 8), inch(176, 0)));
    job.runs[0].edge = Edge::Far;
    assert_eq!(only(&job), (inch(176, 0), inch(177, 8)));
    job.runs[0].thickness = Some(inch(1, 10));
    assert_eq!(only(&job), (inch(176, 0), inch(177, 10)));
    job.runs[0].hook = RunHook::Wall(End::A);
    assert_eq!(only(&job), (inch(21, 14), inch(23, 8)));
    // Length counts only from end B, and from wall B where clear is not measured.
    job.runs[0].hook = RunHook::Steel(End::B);
    assert_eq!(only(&job), (inch(180, 0), inch(181, 10)));
    job.beam.as_mut().expect("a beam").length = inch(201, 0);
    assert_eq!(only(&job), (inch(181, 0), inch(182, 10)));
    job.clear = None;
    job.runs[0].hook = RunHook::Wall(End::B);
    assert_eq!(only(&job), (inch(177, 0), inch(178, 10)));
}

#[test]
fn switching_units_changes_no_reading() {
    let mut job = house();
    let run = hang(&mut job, run(Side::N, RunHook::Wall(End::A), Edge::Centre));
    job.runs[0].thickness = Some(inch(1, 10));
    read(&mut job, run, &[inch(16, 5), inch(32, 3)]);
    let before = Survey::of(&job).faces(Side::N);
    job.units = Units::Metric;
    assert_eq!(Survey::of(&job).faces(Side::N), before);
    job.units = Units::Imperial;
    assert_eq!(Survey::of(&job).faces(Side::N), before);
}

#[test]
fn a_square_row_moves_the_hook_of_that_side_and_wall_only() {
    let mut job = house();
    let row = |side, end, offset| Square { side, end, offset };
    let rows = [row(Side::S, End::A, x16(6)), row(Side::S, End::B, x16(-4))];
    job.squares.extend_from_slice(&rows).expect("room");
    let hooks = [
        RunHook::Wall(End::A),
        RunHook::Wall(End::B),
        RunHook::Steel(End::A),
        RunHook::Mark(at(inch(0, 0), Hook::WallA), End::B),
    ];
    for side in Side::BOTH {
        for hook in hooks {
            let index = hang(&mut job, run(side, hook, Edge::Near));
            read(&mut job, index, &[inch(50, 0)]);
        }
    }
    // N from the wall planes: 54, 146 (toward A), 50, 54 again.
    let survey = Survey::of(&job);
    let near = |from: Length| (from, from.checked_add(inch(1, 8)).expect("short"));
    assert_eq!(
        survey.faces(Side::N),
        [
            near(inch(50, 0)),
            near(inch(54, 0)),
            near(inch(54, 0)),
            near(inch(144, 8)),
        ]
    );
    // S: wall A hooked 3/8 toward B, wall B 1/4 toward A; a mark struck from
    // wall A on that side hangs on the same face.
    assert_eq!(
        survey.faces(Side::S),
        [
            near(inch(50, 0)),
            near(inch(54, 6)),
            near(inch(54, 6)),
            near(inch(144, 4)),
        ]
    );
}

#[test]
fn joists_are_sorted_and_counted_from_end_a_over_all_runs_of_a_side() {
    let mut job = house();
    let late = hang(&mut job, run(Side::S, RunHook::Wall(End::B), Edge::Near));
    let early = hang(&mut job, run(Side::S, RunHook::Wall(End::A), Edge::Near));
    let north = hang(&mut job, run(Side::N, RunHook::Wall(End::A), Edge::Near));
    read(&mut job, late, &[inch(20, 0), inch(36, 0)]);
    read(&mut job, early, &[inch(10, 0), inch(26, 0)]);
    read(&mut job, north, &[inch(12, 0)]);
    let survey = Survey::of(&job);
    let list: Vec<_> = survey
        .joists
        .iter()
        .map(|j| (j.side, j.number, j.reading))
        .collect();
    assert_eq!(
        list,
        [
            (Side::N, 1, 4),
            (Side::S, 1, 2),
            (Side::S, 2, 3),
            (Side::S, 3, 1),
            (Side::S, 4, 0),
        ]
    );
}

#[test]
fn hangers_come_from_row_default_or_none() {
    let mut job = house();
    let run = hang(&mut job, run(Side::N, RunHook::Wall(End::A), Edge::Near));
    let kinds = [HangerRef::Default, HangerRef::None, HangerRef::Row(1)];
    for (reading, hanger) in [16, 32, 48].into_iter().zip(kinds) {
        let reading = JoistReading {
            hanger,
            ..plain(run, inch(reading, 0))
        };
        job.joists.push(reading).expect("room");
    }
    let metal = |job: &Job| -> Vec<_> {
        let survey = Survey::of(job);
        survey
            .joists
            .iter()
            .map(|j| (j.metal, j.hanger_height(job)))
            .collect()
    };
    let lacking = Survey::of(&job);
    assert_eq!(
        lacking.outcome,
        Err(JoistProblem::HangerUnknown {
            joist: 2,
            hanger: 1
        })
    );
    // Practice: 1 1/4 in (32 mm) of metal beyond each face.
    assert_eq!(metal(&job), [(inch(1, 4), None), (x16(0), None)]);
    let row = |name: &str, metal, height| Hanger {
        name: Name::try_from(name).expect("short"),
        metal,
        height,
        rated: None,
    };
    job.hangers
        .push(row("WIDE", Some(inch(1, 8)), None))
        .expect("room");
    job.hangers
        .push(row("LOW", None, Some(inch(5, 6))))
        .expect("room");
    assert_eq!(
        metal(&job),
        [
            (inch(1, 8), None),
            (x16(0), None),
            (inch(1, 4), Some(inch(5, 6))),
        ]
    );
    job.units = Units::Metric;
    assert_eq!(metal(&job)[2], (mm(32), Some(inch(5, 6))));
}

#[test]
fn a_beam_off_its_mark_finds_the_joists_nearer_to_a() {
    let mut job = house();
    let run = hang(&mut job, run(Side::N, RunHook::Wall(End::A), Edge::Near));
    read(&mut job, run, &[inch(16, 0)]);
    job.placed = Some(x16(6));
    assert_eq!(
        Survey::of(&job).faces(Side::N),
        [(inch(19, 10), inch(21, 2))]
    );
    job.placed = Some(x16(-6));
    assert_eq!(
        Survey::of(&job).faces(Side::N),
        [(inch(20, 6), inch(21, 14))]
    );
}

#[test]
fn joist_rows_alone_give_joists() {
    // Nothing but a run from wall A: readings count from its face, and it says so.
    let mut job = Job::new(Units::Imperial);
    let index = hang(&mut job, run(Side::N, RunHook::Wall(End::A), Edge::Near));
    read(&mut job, index, &[inch(16, 0)]);
    let survey = Survey::of(&job);
    assert_eq!(survey.outcome, Ok(()));
    assert_eq!(survey.faces(Side::N), [(inch(16, 0), inch(17, 8))]);
    assert_eq!(survey.asked(), [Caution::CountedFromWallA]);
    // A run from end A needs no such word.
    job.runs[0].hook = RunHook::Steel(End::A);
    let survey = Survey::of(&job);
    assert_eq!(survey.faces(Side::N), [(inch(16, 0), inch(17, 8))]);
    assert_eq!(survey.asked(), []);
    // A bearing without a beam is used.
    job.walls[0] = Some(inch(4, 0));
    job.runs[0].hook = RunHook::Wall(End::A);
    let survey = Survey::of(&job);
    assert_eq!(survey.faces(Side::N), [(inch(20, 0), inch(21, 8))]);
    assert_eq!(survey.asked(), []);
    // Wall B needs the clear distance.
    job.runs[0].hook = RunHook::Wall(End::B);
    let survey = Survey::of(&job);
    let why = FrameError::NoWall(End::B);
    let problem = JoistProblem::RunUnhooked {
        side: Side::N,
        run: 1,
        why,
    };
    assert_eq!(survey.outcome, Err(problem));
    assert_eq!(problem.missing(&job), Some(Missing::Row("clear")));
    job.clear = Some(inch(192, 0));
    assert_eq!(
        Survey::of(&job).faces(Side::N),
        [(inch(178, 8), inch(180, 0))]
    );
    job.walls[0] = None;
    assert_eq!(
        Survey::of(&job).faces(Side::N),
        [(inch(174, 8), inch(176, 0))]
    );
    assert_eq!(Survey::of(&job).asked(), [Caution::CountedFromWallA]);
}

#[test]
fn what_a_run_lacks_is_named_and_other_runs_are_read() {
    let mut job = Job::new(Units::Imperial);
    let lost = hang(&mut job, run(Side::S, RunHook::Steel(End::B), Edge::Near));
    let found = hang(&mut job, run(Side::S, RunHook::Steel(End::A), Edge::Near));
    read(&mut job, lost, &[inch(16, 0)]);
    read(&mut job, found, &[inch(16, 0)]);
    let survey = Survey::of(&job);
    let problem = |run, why| JoistProblem::RunUnhooked {
        side: Side::S,
        run,
        why,
    };
    let no_beam = problem(1, FrameError::NoBeam);
    assert_eq!(survey.outcome, Err(no_beam));
    assert_eq!(no_beam.missing(&job), Some(Missing::Row("beam")));
    assert_eq!(survey.faces(Side::S), [(inch(16, 0), inch(17, 8))]);
    assert_eq!(survey.runs.len(), 2);
    // With a beam, a run on a wall needs that wall.
    let mut job = super::bench::job(Units::Imperial, inch(200, 0));
    let lost = hang(&mut job, run(Side::S, RunHook::Wall(End::A), Edge::Near));
    read(&mut job, lost, &[inch(16, 0)]);
    let no_wall = problem(1, FrameError::NoWall(End::A));
    assert_eq!(Survey::of(&job).outcome, Err(no_wall));
    assert_eq!(no_wall.missing(&job), Some(Missing::Row("wall")));
}

#[test]
fn readings_that_cannot_be_are_named() {
    let mut job = house();
    let run = hang(&mut job, run(Side::N, RunHook::Wall(End::A), Edge::Near));
    let bad = |change: fn(&mut JoistReading)| {
        let mut reading = plain(run, inch(16, 0));
        change(&mut reading);
        let mut job = job.clone();
        job.joists.push(reading).expect("room");
        Survey::of(&job).outcome
    };
    assert_eq!(bad(|_| ()), Ok(()));
    assert_eq!(
        bad(|r| r.thickness = Some(Length::ZERO)),
        Err(JoistProblem::NoThickness {
            side: Side::N,
            run: 1,
            reading: inch(16, 0)
        })
    );
    assert_eq!(
        bad(|r| r.reading = Length::MAX),
        Err(JoistProblem::ReadingTooLong {
            side: Side::N,
            run: 1,
            reading: Length::MAX
        })
    );
    assert_eq!(bad(|r| r.run = 9), Err(JoistProblem::NoRun));
    let mut contrary = house();
    contrary.walls[0] = Some(inch(300, 0));
    assert_eq!(
        Survey::of(&contrary).outcome,
        Err(JoistProblem::Frame(FrameError::WallOffSteel(End::A)))
    );
}
