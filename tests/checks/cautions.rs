//! What no figure can say: each caution of the checks is reached here.

use boltbay_core::Job;
use boltbay_core::caution::{Caution, Cautions};
use boltbay_core::checks::hole::{BearingStretch, near_bearing};
use boltbay_core::checks::nail::{self, NailedPacking};
use boltbay_core::checks::work;
use boltbay_core::decimal::Decimal;
use boltbay_core::job::loads::LoadSide;
use boltbay_core::job::{Load, LoadKind, Material, Nail, Position, Support};
use boltbay_core::length::Length;
use boltbay_core::words::{End, Side, Units};

fn inches(inches: i32) -> Length {
    Length::from_inches(inches)
}

fn loaded() -> Job {
    let mut job = Job::new(Units::Imperial);
    let load = Load {
        kind: LoadKind::Point {
            at: Position::from_end_a(inches(80)),
        },
        dead: Decimal::whole(100),
        live: Decimal::whole(100),
        side: LoadSide::Top,
    };
    job.loads.push(load).unwrap();
    job
}

fn support(name: &str, material: Material) -> Support {
    Support {
        name: name.try_into().unwrap(),
        centre: None,
        length: None,
        width: None,
        material,
        allowable: None,
    }
}

fn said(job: &Job) -> Vec<Caution> {
    let mut cautions = Cautions::new();
    work::cautions(job, &mut cautions);
    cautions.to_vec()
}

#[test]
fn a_card_without_loads_is_asked_nothing() {
    let mut job = Job::new(Units::Imperial);
    job.walls = [Some(inches(4)); 2];
    job.supports.push(support("A", Material::Masonry)).unwrap();
    assert_eq!(said(&job), []);
}

#[test]
fn shores_wood_and_fire_are_always_spoken_of() {
    let bare = loaded();
    assert_eq!(
        said(&bare),
        [Caution::ShoresFirst, Caution::TreatedWood, Caution::HotWork]
    );
    let mut cautions = Cautions::new();
    cautions.push(Caution::ShoresFirst).unwrap();
    work::cautions(&bare, &mut cautions);
    let shores = cautions.iter().filter(|c| **c == Caution::ShoresFirst);
    assert_eq!(shores.count(), 1);
}

#[test]
fn ends_in_walls_roll_over_and_block_is_filled() {
    let mut job = loaded();
    job.walls = [Some(inches(4)), None];
    job.supports.push(support("A", Material::Masonry)).unwrap();
    job.supports.push(support("P", Material::Masonry)).unwrap();
    let said_here = said(&job);
    assert!(said_here.contains(&Caution::EndMayRollOver { end: End::A }));
    assert!(!said_here.contains(&Caution::EndMayRollOver { end: End::B }));
    assert!(said_here.contains(&Caution::FillBlock { row: 0 }));
    assert!(!said_here.contains(&Caution::FillBlock { row: 1 }));
    assert!(said_here.contains(&Caution::WoodOffMasonry));
    job.walls = [None; 2];
    assert!(said(&job).contains(&Caution::WoodOffMasonry));
    job.supports.clear();
    assert!(!said(&job).contains(&Caution::WoodOffMasonry));
}

/// Common practice, no source: a hole nearer to a bearing than the beam is deep.
#[test]
fn marks_near_a_bearing() {
    let bearing = BearingStretch {
        row: 1,
        from: inches(100),
        to: inches(104),
    };
    let depth = inches(8);
    let near = |marks: &[i32]| {
        let mut cautions = Cautions::new();
        let marks = (1_u8..).zip(marks).map(|(n, &at)| (n, inches(at)));
        near_bearing(marks, bearing, depth, &mut cautions);
        cautions.first().copied()
    };
    let found = |marks, station, distance| {
        Some(Caution::HolesNearBearing {
            row: 1,
            marks,
            station,
            distance: inches(distance),
        })
    };
    // 8 in off is not nearer than 8 in.
    assert_eq!(near(&[12, 92, 112, 130]), None);
    assert_eq!(near(&[12, 93, 130]), found(1, 2, 7));
    assert_eq!(near(&[12, 93, 106, 110]), found(3, 3, 2));
    assert_eq!(near(&[99, 102]), found(2, 2, 0));
    assert_eq!(near(&[]), None);
}

/// Source: NDS 2024 12.1.6: a 16d nail 1.25 in deep keeps 1.25 / 1.62 = 77 %.
#[test]
fn a_nail_that_keeps_a_part() {
    let packing = |sixteenths| NailedPacking {
        total: Length::from_sixteenths(sixteenths),
        outer: Length::from_sixteenths(24),
    };
    let keeps = |length, thousandths, slant: Option<i32>, total| {
        let nail = Nail {
            name: "16d".try_into().unwrap(),
            length: Length::from_sixteenths(length),
            diameter: Length::from_thousandths(thousandths),
            slant: slant.map(Decimal::whole),
        };
        let mut cautions = Cautions::new();
        nail::cautions((3, &nail), packing(total), Side::S, &mut cautions);
        cautions.first().copied()
    };
    let part = |percent| {
        Some(Caution::NailKeepsLess {
            nail: 3,
            side: Side::S,
            percent,
        })
    };
    assert_eq!(keeps(20, 162, None, 48), part(77));
    assert_eq!(keeps(24, 148, None, 48), None);
    // Behind the outer layer: 2.75 - 1.5 = 1.25.
    assert_eq!(keeps(44, 162, Some(0), 64), part(77));
    // Below 6D it fails its check, and nothing is kept.
    assert_eq!(keeps(12, 162, None, 48), None);
    assert_eq!(keeps(20, 162, Some(95), 48), None);
}
