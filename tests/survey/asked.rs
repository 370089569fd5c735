//! What the crew is asked about: overlaps, missed joists, round figures, pairs,
//! counts, guesses, joists off the clear span.

use super::bench::{Survey, hang, inch, job, mm, plain, read, run, walled, x16};
use boltbay_core::Job;
use boltbay_core::caution::Caution;
use boltbay_core::job::{Edge, JoistReading, RunHook};
use boltbay_core::length::Length;
use boltbay_core::words::{End, Side, Units};

/// One run from end A on N, near edges in sixteenths, 1 1/2 thick, steel 400.
fn north(near: &[i32]) -> Job {
    let mut job = job(Units::Imperial, inch(400, 0));
    let index = hang(&mut job, run(Side::N, RunHook::Steel(End::A), Edge::Near));
    let readings: Vec<Length> = near.iter().map(|n| x16(*n)).collect();
    read(&mut job, index, &readings);
    job
}

/// N as above and S from the same end.
fn both(n: &[i32], s: &[i32]) -> Job {
    let mut job = north(n);
    let index = hang(&mut job, run(Side::S, RunHook::Steel(End::A), Edge::Near));
    let readings: Vec<Length> = s.iter().map(|n| x16(*n)).collect();
    read(&mut job, index, &readings);
    job
}

fn asked(job: &Job) -> Vec<Caution> {
    let survey = Survey::of(job);
    assert_eq!(survey.outcome, Ok(()));
    survey.asked()
}

/// Near edges of regular framing, 16 in apart, from 16 in on.
fn regular(count: i32) -> Vec<i32> {
    (1..=count).map(|n| 256 * n).collect()
}

#[test]
fn touching_joists_are_fine_and_overlapping_ones_are_named() {
    let overlap = |second, by| Caution::JoistsOverlap {
        side: Side::N,
        first: 1,
        second,
        by: x16(by),
    };
    assert_eq!(asked(&north(&[256, 256 + 24])), []);
    assert_eq!(asked(&north(&[256, 256 + 23])), [overlap(2, 1)]);
    assert_eq!(asked(&north(&[256, 256 + 18])), [overlap(2, 6)]);
    // A thick one that reaches past the next: the third is too near to it too.
    let mut job = north(&[256, 276, 300]);
    job.joists[0].thickness = Some(inch(3, 0));
    let found = asked(&job);
    assert!(found.contains(&overlap(2, 28)), "{found:?}");
    assert!(found.contains(&overlap(3, 4)), "{found:?}");
    // Across the web nothing overlaps.
    assert_eq!(asked(&both(&[256], &[256])), []);
}

#[test]
fn a_bay_above_one_point_six_of_the_usual_is_asked_about() {
    // Usual 16 in: 25.6 in is not above, the next count is.
    let wide = |gap: Length| {
        let mut job = north(&regular(4));
        let last = job.joists[3].reading;
        let reading = last.checked_add(gap).expect("short");
        job.joists.push(plain(0, reading)).expect("room");
        asked(&job)
    };
    let limit = Length::from_thousandths(25_600);
    assert_eq!(wide(limit), []);
    let above = limit.checked_add(Length::from_counts(1)).expect("short");
    assert_eq!(
        wide(above),
        [Caution::JoistMissed {
            side: Side::N,
            after: 4,
            gap: above,
            usual: inch(16, 0),
        }]
    );
}

#[test]
fn metric_framing_at_406_is_judged_by_its_own_spacing() {
    let framing = |step: i32, hole: i32| {
        let mut job = job(Units::Metric, mm(7000));
        let index = hang(&mut job, run(Side::N, RunHook::Steel(End::A), Edge::Centre));
        let readings: Vec<Length> = (1..10).map(|n| mm(n * step)).collect();
        read(&mut job, index, &readings);
        let last = mm(9 * step + hole);
        job.joists.push(plain(index, last)).expect("room");
        asked(&job)
    };
    // 1.6 x 406 = 649.6: 645 would be a joist missed at 400 (640), not at 406.
    assert_eq!(framing(406, 645), []);
    assert_eq!(framing(406, 650).len(), 1);
    assert_eq!(framing(400, 645).len(), 1);
}

#[test]
fn a_joist_off_by_a_round_figure_between_regular_neighbours_is_asked_about() {
    for (off, asks) in [
        (inch(1, 0), true),
        (inch(-1, 0), true),
        (inch(10, 0), true),
        (inch(-12, 0), true),
        (inch(12, 0), true),
        (mm(100), true),
        (inch(2, 0), false),
        (inch(1, 1), false),
    ] {
        let mut job = north(&regular(9));
        let reading = job.joists[4].reading.checked_add(off).expect("short");
        job.joists[4].reading = reading;
        let slip = Caution::ReadingSlip {
            side: Side::N,
            joist: 5,
            by: off,
        };
        assert_eq!(asked(&job).contains(&slip), asks, "{off:?}");
    }
    assert_eq!(asked(&north(&regular(9))), []);
}

#[test]
fn readings_that_go_back_are_named_by_run() {
    let mut job = north(&[256, 512, 500, 500, 768]);
    job.runs[0].thickness = Some(x16(1));
    let back = |before, reading| Caution::NotIncreasing {
        side: Side::N,
        run: 1,
        before: x16(before),
        reading: x16(reading),
    };
    let found = asked(&job);
    assert_eq!(found[..2], [back(512, 500), back(500, 500)]);
    // A second run on the same side starts anew.
    let mut job = north(&[512, 768]);
    let index = hang(&mut job, run(Side::N, RunHook::Steel(End::A), Edge::Near));
    read(&mut job, index, &[x16(256)]);
    assert_eq!(asked(&job), []);
}

#[test]
fn pairs_off_the_median_by_more_than_three_eighths_are_asked_about() {
    let n = regular(7);
    let lapped = |off: i32| -> Vec<Caution> {
        let mut s: Vec<i32> = n.iter().map(|x| x + 24).collect();
        s[3] += off;
        asked(&both(&n, &s))
    };
    let outlier = |off| Caution::PairOutlier {
        n: 4,
        s: 4,
        offset: x16(24 + off),
        median: x16(24),
    };
    assert_eq!(lapped(6), []);
    assert_eq!(lapped(-6), []);
    assert_eq!(lapped(7), [outlier(7)]);
    assert_eq!(lapped(-7), [outlier(-7)]);
    // Metric: 10 mm.
    let metric = |off: i32| {
        let mut job = job(Units::Metric, mm(7000));
        for side in Side::BOTH {
            let index = hang(&mut job, run(side, RunHook::Steel(End::A), Edge::Near));
            let lap = if side == Side::S { 38 } else { 0 };
            let mut readings: Vec<i32> = (1..8).map(|n| 400 * n + lap).collect();
            if side == Side::S {
                readings[2] += off;
            }
            let readings: Vec<Length> = readings.into_iter().map(mm).collect();
            read(&mut job, index, &readings);
        }
        asked(&job)
    };
    assert_eq!(metric(10), []);
    assert_eq!(metric(11).len(), 1);
}

#[test]
fn an_even_number_of_pairs_takes_the_mean_of_the_middle_two() {
    // Offsets 24, 24, 32, 40 sixteenths: median 28, so 40 is 12/16 off.
    let n = regular(4);
    let s: Vec<i32> = n.iter().zip([24, 24, 32, 40]).map(|(n, o)| n + o).collect();
    assert_eq!(
        asked(&both(&n, &s)),
        [Caution::PairOutlier {
            n: 4,
            s: 4,
            offset: x16(40),
            median: x16(28),
        }]
    );
}

#[test]
fn a_joist_equally_far_from_two_takes_the_one_toward_a() {
    // N2 stands in the middle of S1 and S2, 6 in from both; the other pairs are
    // in line. N bays: 16.
    let n = [256, 512, 768, 1024, 1280];
    let s = [416, 608, 768, 1024, 1280];
    let found = asked(&both(&n, &s));
    let outlier = Caution::PairOutlier {
        n: 2,
        s: 1,
        offset: inch(-6, 0),
        median: x16(0),
    };
    assert!(found.contains(&outlier), "{found:?}");
}

#[test]
fn the_side_that_looks_off_by_a_burn_is_named_by_how_its_tape_ran() {
    // Lapped by 1 1/2, S then moved: an inch too far toward B, or toward A.
    let n = regular(6);
    let moved = |by: i32, change: fn(&mut Job)| {
        let s: Vec<i32> = n.iter().map(|x| x + 24 + by).collect();
        let mut job = both(&n, &s);
        change(&mut job);
        let burns: Vec<Side> = asked(&job)
            .iter()
            .filter_map(|c| match c {
                Caution::SideOffByBurn { side, .. } => Some(*side),
                _ => None,
            })
            .collect();
        burns
    };
    assert_eq!(moved(0, |_| ()), []);
    assert_eq!(moved(2, |_| ()), []);
    // Both run toward B with nothing burnt: the one too far toward B forgot.
    assert_eq!(moved(16, |_| ()), [Side::S]);
    assert_eq!(moved(-16, |_| ()), [Side::N]);
    // S has its burn taken off (and reads an inch more, so the offsets are the
    // same): N forgot, where N lies too far toward B.
    let burnt = |job: &mut Job| {
        job.runs[1].burn = Some(inch(1, 0));
        for joist in job.joists.iter_mut().filter(|j| j.run == 1) {
            joist.reading = joist.reading.checked_add(inch(1, 0)).expect("short");
        }
    };
    assert_eq!(moved(-16, burnt), [Side::N]);
    // Both burns are keyed: then one of them was not held, and that side lies
    // too far toward A.
    let both_burnt = |job: &mut Job| {
        for run in &mut job.runs {
            run.burn = Some(inch(1, 0));
        }
    };
    assert_eq!(moved(-16, both_burnt), [Side::S]);
    assert_eq!(moved(16, both_burnt), [Side::N]);
    // N burnt as keyed; S read from end B (400) with nothing burnt: too far
    // toward A is too long a reading there.
    let from_b = |job: &mut Job| {
        job.runs[0].burn = Some(inch(1, 0));
        job.runs[1].hook = RunHook::Steel(End::B);
        job.runs[1].edge = Edge::Far;
        for joist in &mut job.joists {
            joist.reading = match joist.run {
                0 => joist.reading.checked_add(inch(1, 0)).expect("short"),
                _ => inch(400, 0).checked_sub(joist.reading).expect("short"),
            };
        }
        // In the order of the tape.
        job.joists[6..].reverse();
    };
    assert_eq!(moved(-16, from_b), [Side::S]);
    // In line is usual too, and so is a lap to the other side.
    assert_eq!(moved(-24, |_| ()), []);
    assert_eq!(moved(-48, |_| ()), []);
    assert_eq!(moved(-48 - 16, |_| ()), [Side::N]);
}

#[test]
fn a_guess_does_not_prove_itself_in_the_pair_check() {
    // S4 to S6 were guessed from N and lie in step with a wrong N4 to N6; the
    // three pairs that were really read say where S belongs.
    let n: Vec<i32> = regular(6);
    let s: Vec<i32> = n
        .iter()
        .zip([24, 24, 24, 40, 40, 40])
        .map(|(n, o)| n + o)
        .collect();
    let mut job = both(&n, &s);
    let outliers = |job: &Job| {
        let is = |c: &&Caution| matches!(c, Caution::PairOutlier { .. });
        asked(job).iter().filter(is).count()
    };
    // Median 32: all six are off by 8/16.
    assert_eq!(outliers(&job), 6);
    for joist in job.joists.iter_mut().filter(|j| j.run == 1).skip(3) {
        joist.guessed = true;
    }
    // Median 24 now: the three guesses are off.
    assert_eq!(outliers(&job), 3);
    let guessed = Caution::Guessed {
        side: Side::S,
        guessed: 3,
        of: 6,
    };
    assert!(asked(&job).contains(&guessed));
    // All guessed: nothing is proved either way.
    for joist in &mut job.joists {
        joist.guessed = true;
    }
    assert_eq!(outliers(&job), 0);
}

#[test]
fn the_count_by_eye_is_held_against_the_readings_of_all_runs() {
    let mut job = north(&regular(3));
    let index = hang(&mut job, run(Side::N, RunHook::Steel(End::A), Edge::Near));
    read(&mut job, index, &[x16(1024)]);
    job.counts = [Some(4), Some(0)];
    assert_eq!(asked(&job), []);
    job.counts = [Some(5), Some(1)];
    let differs = |side, counted, read| Caution::CountDiffers {
        side,
        counted,
        read,
    };
    assert_eq!(
        asked(&job),
        [differs(Side::N, 5, 4), differs(Side::S, 1, 0)]
    );
}

#[test]
fn joists_off_the_clear_span_are_named() {
    // Face A at 4, face B at 196.
    let mut job = walled(Units::Imperial, inch(4, 0), inch(192, 0));
    let index = hang(&mut job, run(Side::N, RunHook::Steel(End::A), Edge::Near));
    let off = |job: &Job| {
        let number = |c: &Caution| match c {
            Caution::JoistOffSpan { joist, .. } => Some(*joist),
            _ => None,
        };
        asked(job).iter().filter_map(number).collect::<Vec<_>>()
    };
    // Touching a wall is fine.
    read(&mut job, index, &[inch(4, 0), inch(194, 8)]);
    assert_eq!(off(&job), Vec::<u8>::new());
    job.joists[0].reading = inch(3, 15);
    job.joists[1].reading = inch(194, 9);
    assert_eq!(off(&job), [1, 2]);
    // Without walls the steel's ends count.
    job.walls = [None; 2];
    job.clear = None;
    assert_eq!(off(&job), Vec::<u8>::new());
    job.joists[1].reading = inch(199, 0);
    assert_eq!(off(&job), [2]);
    // Walls move with the joists when the beam is off its mark; the steel does not.
    job.placed = Some(inch(1, 0));
    assert_eq!(off(&job), Vec::<u8>::new());
}

#[test]
fn one_side_alone_has_no_pairs_and_zero_joists_no_question() {
    assert_eq!(asked(&north(&regular(5))), []);
    assert_eq!(asked(&both(&[], &regular(5))), []);
    assert_eq!(asked(&north(&[])), []);
    let reading = JoistReading {
        guessed: true,
        ..plain(0, x16(256))
    };
    let mut job = north(&[]);
    job.joists.push(reading).expect("room");
    assert_eq!(asked(&job).len(), 1);
}

#[test]
fn a_list_of_cautions_that_runs_full_says_so() {
    // 80 joists one on top of the other: 79 overlaps, room for 64.
    let mut job = north(&[]);
    for n in 0..80 {
        job.joists.push(plain(0, x16(256 + n))).expect("room");
    }
    let survey = Survey::of(&job);
    assert_eq!(survey.cautions.len(), 48);
    assert_eq!(survey.cautions.last(), Some(&Caution::AndMore));
    assert_eq!(survey.joists.len(), 80);
}
