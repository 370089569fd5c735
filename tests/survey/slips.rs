//! Slips at entry: what to ask before a reading joins its run.

use super::bench::{hang, inch, job, mm, plain, read, run, x16};
use boltbay_core::Job;
use boltbay_core::job::{Edge, JoistReading, RunHook};
use boltbay_core::joists::{Slip, slips};
use boltbay_core::length::Length;
use boltbay_core::words::{End, Side, Units};

/// A run with these readings; edges and direction do not matter along the tape.
fn so_far(edge: Edge, toward: End, readings: &[Length]) -> Job {
    let mut job = job(Units::Imperial, inch(400, 0));
    let hook = RunHook::Wall(toward.other());
    let index = hang(&mut job, run(Side::N, hook, edge));
    read(&mut job, index, readings);
    job
}

fn regular() -> Job {
    let readings: Vec<Length> = (1..=4).map(|n| inch(16 * n, 0)).collect();
    so_far(Edge::Near, End::B, &readings)
}

fn ask(job: &Job, reading: Length) -> Vec<Slip> {
    slips(job, &plain(0, reading), None).into_iter().collect()
}

#[test]
fn a_regular_reading_asks_nothing() {
    assert_eq!(ask(&regular(), inch(80, 0)), []);
    assert_eq!(ask(&regular(), inch(80, 3)), []);
    // Nothing to go by yet.
    let empty = so_far(Edge::Near, End::B, &[]);
    assert_eq!(ask(&empty, inch(300, 0)), []);
    let one = so_far(Edge::Near, End::B, &[inch(16, 0)]);
    assert_eq!(ask(&one, inch(300, 0)), []);
}

#[test]
fn a_reading_that_does_not_increase_is_asked_about() {
    let before = inch(64, 0);
    let slip = Slip::NotIncreasing { before };
    assert_eq!(ask(&regular(), inch(64, 0)), [slip]);
    assert_eq!(ask(&regular(), inch(63, 0)), [slip]);
}

#[test]
fn overlap_is_judged_along_the_tape_whatever_is_read() {
    // Last edge at 64, doubled (3 in); the new one 1 1/2.
    for (edge, touches) in [
        (Edge::Near, inch(67, 0)),
        (Edge::Centre, inch(66, 4)),
        (Edge::Far, inch(65, 8)),
    ] {
        for toward in End::BOTH {
            let readings: Vec<Length> = (1..=4).map(|n| inch(16 * n, 0)).collect();
            let mut job = so_far(edge, toward, &readings);
            job.joists[3].thickness = Some(inch(3, 0));
            assert_eq!(ask(&job, touches), [], "{edge:?}");
            let less = touches.checked_sub(x16(1)).expect("long");
            let slip = Slip::Overlap { by: x16(1) };
            assert_eq!(ask(&job, less), [slip], "{edge:?}");
        }
    }
}

#[test]
fn a_bay_above_one_point_six_of_the_usual_looks_like_a_joist_missed() {
    let limit = Length::from_thousandths(64_000 + 25_600);
    assert_eq!(ask(&regular(), limit), []);
    assert_eq!(
        ask(&regular(), inch(96, 1)),
        [Slip::Gap {
            gap: inch(32, 1),
            usual: inch(16, 0),
        }]
    );
    // Centre to centre: near edges 24.5 apart, but a doubled joist reaches
    // further, 16 + 9.5 + 0.75 = 26.25 > 25.6.
    let doubled = JoistReading {
        thickness: Some(inch(5, 0)),
        ..plain(0, inch(88, 8))
    };
    let found: Vec<Slip> = slips(&regular(), &doubled, None).into_iter().collect();
    let gap = inch(26, 4);
    let usual = inch(16, 0);
    assert_eq!(found, [Slip::Gap { gap, usual }]);
}

#[test]
fn off_by_a_round_figure_is_asked_about() {
    let figure = |off| Slip::RoundFigure { off };
    for off in [
        inch(1, 0),
        inch(-1, 0),
        inch(-10, 0),
        inch(-12, 0),
        mm(100),
        mm(-100),
    ] {
        let reading = inch(80, 0).checked_add(off).expect("short");
        assert_eq!(ask(&regular(), reading), [figure(off)], "{off:?}");
    }
    // 12 in too far is also a wide bay.
    let gap = inch(28, 0);
    let usual = inch(16, 0);
    assert_eq!(
        ask(&regular(), inch(92, 0)),
        [Slip::Gap { gap, usual }, figure(inch(12, 0))]
    );
    assert_eq!(ask(&regular(), inch(82, 0)), []);
}

#[test]
fn a_guess_is_what_a_reading_is_held_against() {
    let guess = Some(inch(81, 3));
    let found: Vec<Slip> = slips(&regular(), &plain(0, inch(82, 3)), guess)
        .into_iter()
        .collect();
    assert_eq!(found, [Slip::RoundFigure { off: inch(1, 0) }]);
    let found = slips(&regular(), &plain(0, inch(81, 0)), guess);
    assert!(found.is_empty());
    // The first reading too, if there is a guess.
    let empty = so_far(Edge::Near, End::B, &[]);
    let found = slips(&empty, &plain(0, inch(26, 0)), Some(inch(16, 0)));
    assert_eq!(found.first(), Some(&Slip::RoundFigure { off: inch(10, 0) }));
}

#[test]
fn other_runs_do_not_matter() {
    let mut job = regular();
    let other = hang(&mut job, run(Side::N, RunHook::Wall(End::B), Edge::Near));
    read(&mut job, other, &[inch(10, 0)]);
    assert_eq!(ask(&job, inch(80, 0)), []);
    let found = slips(&job, &plain(other, inch(5, 0)), None);
    let before = inch(10, 0);
    assert_eq!(found.first(), Some(&Slip::NotIncreasing { before }));
}

#[test]
fn readings_all_alike_say_nothing_about_the_usual_bay() {
    let alike = so_far(Edge::Near, End::B, &[inch(16, 0); 3]);
    assert_eq!(ask(&alike, inch(48, 0)), []);
}
