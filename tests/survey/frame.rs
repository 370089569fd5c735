//! Where wall faces lie, what station a position stands for, what packing and
//! loads reach when the card does not say.

use super::bench::{at, inch, job, mm, walled, x16};
use boltbay_core::Job;
use boltbay_core::caution::{Caution, Cautions};
use boltbay_core::frame::{Frame, FrameError};
use boltbay_core::job::{BeamLength, Hole, HoleState, Hook, PackingPiece, Position};
use boltbay_core::length::Length;
use boltbay_core::words::{End, Row, Side, Sides, Units};

/// A wall at A (bearing 4) and at B (bearing 5), steel 200, clear as given.
fn house(a: Option<i32>, b: Option<i32>, clear: Option<i32>) -> Job {
    let mut job = job(Units::Imperial, inch(200, 0));
    job.walls = [a.map(|a| inch(a, 0)), b.map(|b| inch(b, 0))];
    job.clear = clear.map(|c| inch(c, 0));
    job
}

fn cautions(job: &Job) -> Vec<Caution> {
    let mut cautions = Cautions::new();
    Frame::of(job)
        .expect("a frame")
        .cautions(job, &mut cautions);
    cautions.iter().copied().collect()
}

#[test]
fn faces_follow_from_bearings_clear_and_length() {
    // bearing A, bearing B, clear -> face A, face B, resulting bearings.
    type Row = ([Option<i32>; 3], [Option<i32>; 2], [Option<i32>; 2]);
    let table: [Row; 7] = [
        (
            [Some(4), Some(5), Some(191)],
            [Some(4), Some(195)],
            [Some(4), Some(5)],
        ),
        (
            [Some(4), None, Some(190)],
            [Some(4), Some(194)],
            [Some(4), Some(6)],
        ),
        (
            [Some(4), Some(5), None],
            [Some(4), Some(195)],
            [Some(4), Some(5)],
        ),
        ([Some(4), None, None], [Some(4), None], [Some(4), None]),
        (
            [None, Some(5), Some(190)],
            [Some(5), Some(195)],
            [Some(5), Some(5)],
        ),
        ([None, Some(5), None], [None, Some(195)], [None, Some(5)]),
        ([None, None, Some(190)], [None, None], [None, None]),
    ];
    for ([a, b, clear], faces, bearings) in table {
        let frame = Frame::of(&house(a, b, clear)).expect("a frame");
        let inches = |l: Option<i32>| l.map(|l| inch(l, 0));
        assert_eq!(frame.faces, faces.map(inches), "{a:?} {b:?} {clear:?}");
        assert_eq!(
            frame.bearings,
            bearings.map(inches),
            "{a:?} {b:?} {clear:?}"
        );
    }
}

#[test]
fn every_hook_gives_its_station() {
    // Steel 200, face A at 4, face B at 195.
    let frame = Frame::of(&house(Some(4), Some(5), Some(191))).expect("a frame");
    for (reading, hook, station) in [
        (x16(0), Hook::EndA, inch(0, 0)),
        (inch(50, 4), Hook::EndA, inch(50, 4)),
        (inch(12, 0), Hook::EndB, inch(188, 0)),
        (inch(50, 4), Hook::WallA, inch(54, 4)),
        (inch(50, 4), Hook::WallB, inch(144, 12)),
        (inch(200, 0), Hook::EndB, inch(0, 0)),
        (inch(196, 0), Hook::WallA, inch(200, 0)),
    ] {
        assert_eq!(frame.station(at(reading, hook)), Ok(station));
    }
}

#[test]
fn a_position_off_the_steel_is_named() {
    let frame = Frame::of(&house(Some(4), None, None)).expect("a frame");
    for off in [
        at(inch(200, 1), Hook::EndA),
        at(inch(200, 1), Hook::EndB),
        at(inch(196, 1), Hook::WallA),
        at(x16(-1), Hook::EndA),
        at(Length::MAX, Hook::WallA),
        at(Length::from_counts(i32::MIN), Hook::EndB),
    ] {
        assert_eq!(frame.station(off), Err(FrameError::OffSteel(off)));
    }
    let beside = at(inch(200, 1), Hook::EndA);
    assert_eq!(frame.station_anywhere(beside), Ok(inch(200, 1)));
    assert_eq!(
        frame.station(at(x16(1), Hook::WallB)),
        Err(FrameError::NoWall(End::B))
    );
}

#[test]
fn frames_that_cannot_be_are_named() {
    assert_eq!(Frame::of(&Job::new(Units::Metric)), Err(FrameError::NoBeam));
    let cannot = |a, b, clear| Frame::of(&house(a, b, clear));
    assert_eq!(
        cannot(Some(201), None, None),
        Err(FrameError::WallOffSteel(End::A))
    );
    assert_eq!(
        cannot(None, Some(201), None),
        Err(FrameError::WallOffSteel(End::B))
    );
    assert_eq!(cannot(Some(150), Some(50), None), Err(FrameError::NoClear));
    assert_eq!(cannot(Some(4), None, Some(0)), Err(FrameError::NoClear));
    assert_eq!(
        cannot(Some(200), None, Some(2_000)),
        Err(FrameError::WallOffSteel(End::B))
    );
}

#[test]
fn a_bearing_that_differs_is_a_caution_with_both_numbers() {
    // Clear 190 leaves 6 at B where 5 was keyed.
    let differs = Caution::BearingDiffers {
        end: End::B,
        keyed: inch(5, 0),
        resulting: inch(6, 0),
    };
    assert_eq!(cautions(&house(Some(4), Some(5), Some(190))), [differs]);
    // 1/16 in is let pass, a hair more is not; metric 1 mm.
    let mut close = house(Some(4), Some(5), Some(191));
    close.clear = Some(inch(190, 15));
    assert_eq!(cautions(&close), []);
    close.clear = inch(190, 15).checked_sub(Length::from_counts(1));
    assert_eq!(cautions(&close).len(), 1);
    let mut metric = walled(Units::Metric, mm(100), mm(6420));
    assert_eq!(cautions(&metric), []);
    metric.clear = Some(mm(6421));
    assert_eq!(cautions(&metric), []);
    metric.clear = Some(mm(6422));
    let differs = Caution::BearingDiffers {
        end: End::B,
        keyed: mm(100),
        resulting: mm(98),
    };
    assert_eq!(cautions(&metric), [differs]);
}

#[test]
fn unmeasured_clear_and_short_steel_are_cautions() {
    assert_eq!(
        cautions(&house(Some(4), Some(5), None)),
        [Caution::ClearNotMeasured]
    );
    let short = Caution::SteelShort {
        end: End::B,
        by: inch(1, 0),
    };
    assert_eq!(cautions(&house(Some(4), None, Some(197))), [short]);
    let short = Caution::SteelShort {
        end: End::A,
        by: inch(2, 0),
    };
    assert_eq!(cautions(&house(None, Some(5), Some(197))), [short]);
}

#[test]
fn an_ordered_length_offers_nothing_from_end_b() {
    let mut job = house(Some(4), Some(5), Some(191));
    let hole = |hook| Hole::new(at(inch(12, 0), hook), Row::Top, HoleState::Drilled);
    job.holes.push(hole(Hook::EndB)).expect("room");
    assert_eq!(cautions(&job), []);
    job.beam.as_mut().expect("a beam").measured = BeamLength::Ordered;
    assert_eq!(cautions(&job), [Caution::LengthOrdered]);
    *job.holes.first_mut().expect("a hole") = hole(Hook::EndA);
    assert_eq!(cautions(&job), []);
}

#[test]
fn a_corrected_length_bearing_or_clear_moves_what_hangs_on_it() {
    let mut job = house(Some(4), Some(5), Some(191));
    let far = at(inch(12, 0), Hook::EndB);
    let wall = at(inch(50, 0), Hook::WallB);
    let station = |job: &Job, p: Position| Frame::of(job).and_then(|f| f.station(p));
    assert_eq!(station(&job, far), Ok(inch(188, 0)));
    job.beam.as_mut().expect("a beam").length = inch(201, 8);
    assert_eq!(station(&job, far), Ok(inch(189, 8)));
    assert_eq!(station(&job, wall), Ok(inch(145, 0)));
    job.clear = Some(inch(191, 4));
    assert_eq!(station(&job, wall), Ok(inch(145, 4)));
    job.walls = [Some(inch(3, 8)), None];
    assert_eq!(station(&job, wall), Ok(inch(144, 12)));
}

#[test]
fn a_beam_off_its_mark_moves_the_house_the_other_way() {
    let mut job = house(Some(4), Some(5), Some(191));
    job.placed = Some(x16(6));
    let frame = Frame::of(&job).expect("a frame");
    assert_eq!(frame.faces, [Some(inch(4, 0)), Some(inch(195, 0))]);
    assert_eq!(frame.as_placed(inch(50, 0)), inch(49, 10));
    job.placed = Some(x16(-6));
    let frame = Frame::of(&job).expect("a frame");
    assert_eq!(frame.as_placed(inch(50, 0)), inch(50, 6));
}

#[test]
fn packing_that_nobody_keyed_stops_short_of_walls_and_steel() {
    // Practice: 1/2 in (12 mm) off a wall face, 1/4 in (6 mm) short of the steel.
    let reach = |job: &Job| {
        let frame = Frame::of(job).expect("a frame");
        let pieces = frame.packing(job).expect("packing");
        assert_eq!(pieces.len(), 1);
        assert_eq!((pieces[0].sides, pieces[0].row), (Sides::Both, None));
        (pieces[0].from, pieces[0].to)
    };
    let both = house(Some(4), Some(5), Some(191));
    assert_eq!(reach(&both), (inch(4, 8), inch(194, 8)));
    let one = house(Some(4), None, None);
    assert_eq!(reach(&one), (inch(4, 8), inch(199, 12)));
    let none = house(None, None, None);
    assert_eq!(reach(&none), (inch(0, 4), inch(199, 12)));
    // Steel 6620 mm, bearing 100 each.
    let metric = walled(Units::Metric, mm(100), mm(6420));
    assert_eq!(reach(&metric), (mm(112), mm(6508)));
    // Steel that does not reach wall B: its own end counts.
    let short = house(Some(4), None, Some(197));
    assert_eq!(reach(&short), (inch(4, 8), inch(199, 12)));
    let frame = Frame::of(&both).expect("a frame");
    assert_eq!(frame.load_extents(), (inch(4, 0), inch(195, 0)));
    let frame = Frame::of(&one).expect("a frame");
    assert_eq!(frame.load_extents(), (inch(4, 0), inch(200, 0)));
    let frame = Frame::of(&short).expect("a frame");
    assert_eq!(frame.load_extents(), (inch(4, 0), inch(200, 0)));
}

#[test]
fn packing_rows_are_read_from_their_hooks_and_judged() {
    let mut job = house(Some(4), Some(5), Some(191));
    let piece = |from, to, sides| PackingPiece { from, to, sides };
    let n = Sides::One(Side::N);
    let s = Sides::One(Side::S);
    let wall_a = |l| at(l, Hook::WallA);
    let end_a = |l| at(l, Hook::EndA);
    let rows = [
        piece(wall_a(x16(8)), end_a(inch(100, 0)), Sides::Both),
        piece(end_a(inch(100, 0)), at(x16(8), Hook::WallB), n),
        piece(end_a(inch(120, 0)), at(x16(4), Hook::EndB), s),
    ];
    job.packing.extend_from_slice(&rows).expect("room");
    let frame = Frame::of(&job).expect("a frame");
    let reach: Vec<_> = frame
        .packing(&job)
        .expect("packing")
        .iter()
        .map(|p| (p.from, p.to, p.sides, p.row))
        .collect();
    assert_eq!(
        reach,
        [
            (inch(4, 8), inch(100, 0), Sides::Both, Some(0)),
            (inch(100, 0), inch(194, 8), n, Some(1)),
            (inch(120, 0), inch(199, 12), s, Some(2)),
        ]
    );
    for (bad, error) in [
        (
            piece(end_a(inch(99, 0)), end_a(inch(101, 0)), s),
            FrameError::PackingOverlap {
                first: 0,
                second: 3,
            },
        ),
        (
            piece(end_a(inch(101, 0)), end_a(inch(101, 0)), s),
            FrameError::PackingEmpty { piece: Some(3) },
        ),
        (
            piece(end_a(inch(198, 0)), end_a(inch(201, 0)), n),
            FrameError::OffSteel(end_a(inch(201, 0))),
        ),
    ] {
        let mut job = job.clone();
        job.packing.push(bad).expect("room");
        assert_eq!(frame.packing(&job), Err(error));
    }
}
