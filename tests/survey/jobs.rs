//! Four invented jobs from the first reading to the joists: old framing from
//! one wall, one-sided framing with a burn, metric framing from both walls, and
//! framing with a joist missing. Faces, pair offsets and what the runs are out
//! by are worked by hand.

use super::bench::{Survey, at, hang, inch, job, mm, plain, prove, read, run, walled, x16};
use boltbay_core::Job;
use boltbay_core::caution::Caution;
use boltbay_core::job::{CheckKind, Edge, Hook, JoistReading, RunHook};
use boltbay_core::length::Length;
use boltbay_core::words::{End, Side, Units};

/// Inches in eighths: `(14, 3)` is 14 3/8.
fn eighths(list: &[(i32, i32)]) -> Vec<Length> {
    list.iter()
        .map(|(whole, rest)| inch(*whole, 2 * rest))
        .collect()
}

fn plus(length: Length, more: Length) -> Length {
    length.checked_add(more).expect("in range")
}

fn less(length: Length, taken: Length) -> Length {
    length.checked_sub(taken).expect("in range")
}

/// Twice the offset of the S joist `s` to the N joist `n`, both from 1.
fn offset_twice(survey: &Survey, n: usize, s: usize) -> i64 {
    let on = |side, number: usize| {
        let mut joists = survey.joists.iter().filter(move |j| j.side == side);
        joists.nth(number - 1).expect("a joist").centre_twice()
    };
    on(Side::S, s) - on(Side::N, n)
}

/// Old joists 1 5/8, bearing 4, clear 13' 8; S lapped on N.
#[test]
fn lapped_joists_from_wall_a_close_an_eighth_out() {
    let near_n = eighths(&[
        (14, 3),
        (30, 2),
        (46, 4),
        (62, 3),
        (78, 2),
        (94, 4),
        (110, 3),
        (126, 2),
        (142, 4),
        (158, 3),
    ]);
    let mut job = walled(Units::Imperial, inch(4, 0), inch(164, 0));
    let lap = inch(1, 10);
    for side in Side::BOTH {
        let mut keyed = run(side, RunHook::Wall(End::A), Edge::Near);
        keyed.thickness = Some(lap);
        let index = hang(&mut job, keyed);
        let shift = if side == Side::S { lap } else { Length::ZERO };
        let readings: Vec<Length> = near_n.iter().map(|l| plus(*l, shift)).collect();
        read(&mut job, index, &readings);
    }
    // From the near edge of N10 (158 3/8) to wall B: 5 3/4, so 164 1/8 in all.
    prove(
        &mut job,
        0,
        CheckKind::Close,
        inch(5, 12),
        at(x16(0), Hook::WallB),
    );
    let survey = Survey::of(&job);
    assert_eq!(survey.outcome, Ok(()));
    let expected: Vec<_> = near_n
        .iter()
        .map(|near| plus(*near, inch(4, 0)))
        .map(|from| (from, plus(from, lap)))
        .collect();
    assert_eq!(survey.faces(Side::N), expected);
    // Lapped: each S joist starts where its N joist ends, nothing overlaps.
    let ends: Vec<_> = expected
        .iter()
        .map(|(_, to)| (*to, plus(*to, lap)))
        .collect();
    assert_eq!(survey.faces(Side::S), ends);
    assert_eq!(survey.runs[0].misclosure, Some(x16(2)));
    assert_eq!(survey.runs[0].tolerance, Some(x16(2)));
    assert_eq!(survey.runs[0].ok, Some(true));
    let not_proved = Caution::RunNotProved {
        side: Side::S,
        run: 1,
    };
    assert_eq!(survey.cautions, [not_proved]);
}

/// Steel 12' 6, wall A with bearing 3 1/2, end B on a post. N read with 1 in
/// burnt; S ends at a stair opening between two doubled trimmers.
fn one_sided(burn: Option<Length>) -> Job {
    let mut job = job(Units::Imperial, inch(150, 0));
    job.walls[0] = Some(inch(3, 8));
    let mut north = run(Side::N, RunHook::Wall(End::A), Edge::Near);
    north.burn = burn;
    let north = hang(&mut job, north);
    let south = hang(&mut job, run(Side::S, RunHook::Wall(End::A), Edge::Near));
    let readings = eighths(&[
        (16, 2),
        (32, 2),
        (48, 1),
        (64, 2),
        (80, 4),
        (96, 2),
        (112, 2),
        (128, 2),
    ]);
    read(&mut job, north, &readings);
    let doubled = Some(inch(3, 0));
    for (reading, thickness) in [
        (inch(16, 12), None),
        (inch(31, 4), doubled),
        (inch(117, 8), doubled),
        (inch(128, 12), None),
    ] {
        let reading = JoistReading {
            thickness,
            ..plain(south, reading)
        };
        job.joists.push(reading).expect("room");
    }
    job
}

#[test]
fn a_forgotten_burn_shows_only_across_the_web() {
    let burnt = Survey::of(&one_sided(Some(inch(1, 0))));
    // N8: 128 1/4 - 1 + 3 1/2 = 130 3/4. S3 is a doubled trimmer.
    let n = burnt.faces(Side::N);
    assert_eq!(n[0], (inch(18, 12), inch(20, 4)));
    assert_eq!(n[7], (inch(130, 12), inch(132, 4)));
    assert_eq!(burnt.faces(Side::S)[2], (inch(121, 0), inch(124, 0)));
    // S1 - N1 and S4 - N8 are one thickness; 1 in less if the burn is forgotten.
    let lapped = i64::from(inch(1, 8).counts());
    assert_eq!(offset_twice(&burnt, 1, 1), 2 * lapped);
    assert_eq!(offset_twice(&burnt, 8, 4), 2 * lapped);
    let outlier = |n, s, offset, median| Caution::PairOutlier {
        n,
        s,
        offset,
        median,
    };
    // The opening is asked about, its doubled trimmers too; N3 to N6 have no
    // partner within half a bay.
    let opening = Caution::JoistMissed {
        side: Side::S,
        after: 2,
        gap: inch(86, 4),
        usual: inch(15, 4),
    };
    let lap = inch(1, 8);
    assert_eq!(
        burnt.asked(),
        [
            opening,
            outlier(2, 2, inch(0, 12), lap),
            outlier(7, 3, inch(7, 0), lap),
        ]
    );
    let forgotten = Survey::of(&one_sided(None));
    let half = inch(0, 8);
    assert_eq!(
        forgotten.asked(),
        [
            opening,
            Caution::SideOffByBurn {
                side: Side::N,
                offset: half,
            },
            outlier(2, 2, inch(0, -4), half),
            outlier(7, 3, inch(6, 0), half),
        ]
    );
}

/// Bearing 100 each, clear 6420, joists 38 at 406; N6 doubled. S is read from
/// wall B to its near edge, because a tank stands at A.
#[test]
fn metric_joists_are_turned_round_from_wall_b() {
    let centres = [
        215, 621, 1030, 1433, 1842, 2247, 2655, 3062, 3466, 3872, 4279, 4688, 5091, 5497, 5904,
        6310,
    ];
    let near_s = [
        53, 459, 866, 1272, 1675, 2084, 2491, 2897, 3301, 3708, 4097, 4521, 4930, 5333, 5742, 6148,
    ];
    let mut job = walled(Units::Metric, mm(100), mm(6420));
    let north = hang(&mut job, run(Side::N, RunHook::Wall(End::A), Edge::Centre));
    let south = hang(&mut job, run(Side::S, RunHook::Wall(End::B), Edge::Near));
    read(&mut job, north, &centres.map(mm));
    read(&mut job, south, &near_s.map(mm));
    job.joists[5].thickness = Some(mm(76));
    let survey = Survey::of(&job);
    let half = |n: usize| if n == 5 { 38 } else { 19 };
    for (n, face) in survey.faces(Side::N).into_iter().enumerate() {
        let centre = centres[n] + 100;
        assert_eq!(
            face,
            (mm(centre - half(n)), mm(centre + half(n))),
            "N{}",
            n + 1
        );
    }
    // Centre S = 6420 - r - 19 from wall A, the last reading first.
    for (n, face) in survey.faces(Side::S).into_iter().enumerate() {
        let centre = 6420 - near_s[15 - n] - 19 + 100;
        assert_eq!(face, (mm(centre - 19), mm(centre + 19)), "S{}", n + 1);
    }
    // Lapped by 38 throughout but for S6 on the doubled N6: 57, asked about.
    for n in 1..=16 {
        let offset = if n == 6 { 57 } else { 38 };
        assert_eq!(offset_twice(&survey, n, n), 2 * 40_000 * offset, "pair {n}");
    }
    assert_eq!(
        survey.asked(),
        [Caution::PairOutlier {
            n: 6,
            s: 6,
            offset: mm(57),
            median: mm(38),
        }]
    );
    // A forgotten 10 cm on N: every pair is 100 less, and the side is named.
    job.runs[0].hook = RunHook::Wall(End::A);
    for joist in job.joists.iter_mut().filter(|j| j.run == north) {
        joist.reading = plus(joist.reading, mm(100));
    }
    let burn = Caution::SideOffByBurn {
        side: Side::N,
        offset: mm(-62),
    };
    assert!(Survey::of(&job).cautions.contains(&burn));
    job.runs[0].burn = Some(mm(100));
    assert!(!Survey::of(&job).cautions.contains(&burn));
}

/// Joists 1 3/4, clear 20' 6, bearing 4; S7 is missing at a chimney, its
/// neighbours are doubled.
#[test]
fn a_missing_joist_is_asked_about_and_changes_nothing() {
    let near_n = eighths(&[
        (9, 4),
        (25, 2),
        (41, 4),
        (57, 2),
        (73, 4),
        (89, 4),
        (105, 2),
        (121, 4),
        (137, 2),
        (153, 4),
        (169, 2),
        (185, 4),
        (201, 2),
        (217, 4),
        (233, 2),
    ]);
    let lap = inch(1, 12);
    let mut job = walled(Units::Imperial, inch(4, 0), inch(246, 0));
    for side in Side::BOTH {
        let mut keyed = run(side, RunHook::Wall(End::A), Edge::Near);
        keyed.thickness = Some(lap);
        hang(&mut job, keyed);
    }
    read(&mut job, 0, &near_n);
    for (n, near) in near_n.iter().enumerate() {
        // S6 stands at 91 1/4, S7 misses, the next starts with its N joist.
        let (near, thickness) = match n + 1 {
            6 => (inch(91, 4), Some(inch(3, 8))),
            7 => continue,
            8 => (*near, Some(inch(3, 8))),
            _ => (plus(*near, lap), None),
        };
        let reading = JoistReading {
            thickness,
            ..plain(1, near)
        };
        job.joists.push(reading).expect("room");
    }
    let survey = Survey::of(&job);
    let s = survey.faces(Side::S);
    assert_eq!(s.len(), 14);
    assert_eq!(s[5], (inch(95, 4), inch(98, 12)));
    assert_eq!(s[6], (inch(125, 8), inch(129, 0)));
    assert_eq!(s[13], (inch(239, 0), inch(240, 12)));
    let outlier = |n, s, offset| Caution::PairOutlier {
        n,
        s,
        offset,
        median: lap,
    };
    assert_eq!(
        survey.asked(),
        [
            Caution::JoistMissed {
                side: Side::S,
                after: 6,
                gap: inch(30, 4),
                usual: inch(16, 4),
            },
            outlier(6, 6, inch(2, 10)),
            outlier(8, 7, inch(0, 14)),
        ]
    );
    assert_eq!(less(s[6].0, s[5].1), inch(26, 12));
}
