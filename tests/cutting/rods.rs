//! Rod lengths, spares, nuts and washers: hand-worked sums of published hardware.

use boltbay_core::Length;
use boltbay_core::hardware::{Hardware, Thickness};
use boltbay_core::job::{Bolt, Job, OtherPiece};
use boltbay_core::rods::{Bolts, Grip, PieceUse, RodInput, Rods};
use boltbay_core::shapes;
use boltbay_core::words::{Name, Side, Units};

fn thousandths(count: i32) -> Length {
    Length::from_thousandths(count)
}

fn both(length: Length) -> Thickness {
    Thickness {
        nominal: length,
        greatest: length,
    }
}

fn sixty_fourths(count: i32) -> Length {
    Length::from_sixty_fourths(count)
}

/// Hand-worked: packing 3-7/32 + 3, web 0.245 (AISC Shapes Database v16.0,
/// W8X24), washers 1/8, nuts 7/16 (ASME B18.2.2, basic), 1/4 beyond each:
/// 6.21875 + 0.245 + 0.25 + 0.875 + 0.5 = 8.08875, up to 8-1/8.
#[test]
fn a_rod_through_both_sides() {
    let grip = Grip {
        packing: sixty_fourths(206 + 192),
        web: thousandths(245),
        washers: [both(sixty_fourths(8)); 2],
        nut: both(sixty_fourths(28)),
        projection: sixty_fourths(16),
    };
    let rod = grip.rod(Units::Imperial);
    assert_eq!(rod.length, sixty_fourths(520));
    // 8.125 - 7.58875 = 0.53625 in over both ends; half, and the rest of one.
    assert_eq!(rod.short.counts(), 53_625 * 1_016 / 200);
    assert_eq!(rod.long.counts(), 28_625 * 1_016 / 100);
}

/// Hand-worked, one side packed, washer on bare web: 2-13/16 + 0.24 + 1/4 + 7/8 +
/// 1/2 = 4.6775, up to 4-3/4; both sides packed: 7.49, up to 7-1/2.
#[test]
fn a_rod_through_one_side() {
    let grip = |packing: i32| Grip {
        packing: sixty_fourths(packing),
        web: thousandths(240),
        washers: [both(sixty_fourths(8)); 2],
        nut: both(sixty_fourths(28)),
        projection: sixty_fourths(16),
    };
    assert_eq!(
        grip(180).rod(Units::Imperial).length,
        sixty_fourths(4 * 64 + 48)
    );
    assert_eq!(
        grip(360).rod(Units::Imperial).length,
        sixty_fourths(7 * 64 + 32)
    );
}

/// Hand-worked, metric: 80.9 + 6.2 + 82.5 + 8 + 21.6 + 16 = 215.2, up to 216 mm.
/// Nut 10.8: ISO 4032, M12.
#[test]
fn a_metric_rod() {
    let tenths = Length::from_tenth_millimetres;
    let grip = Grip {
        packing: tenths(809 + 825),
        web: tenths(62),
        washers: [both(tenths(40)); 2],
        nut: both(tenths(108)),
        projection: tenths(80),
    };
    assert_eq!(grip.rod(Units::Metric).length, tenths(2_160));
}

/// Flush packing (bf over all), 1/2 in, wide washers and finished hex nuts at
/// their greatest (ASME B18.21.1 Table 1: 0.132; B18.2.2: 0.448), two threads
/// beyond (2 / 13 in, here 0.154): W8X18 5.250 -> 6.718, up to 6-3/4; W10X33 7.960
/// -> 9.428, up to 9-1/2; W8X24 6.500 -> 7.968, up to 8.
#[test]
fn rods_with_the_greatest_hardware() {
    let washer = Thickness {
        nominal: thousandths(109),
        greatest: thousandths(132),
    };
    let nut = Thickness {
        nominal: sixty_fourths(28),
        greatest: thousandths(448),
    };
    for (shape, eighths) in [("W8X18", 54), ("W10X33", 76), ("W8X24", 64)] {
        let section = shapes::find(shape).unwrap();
        let packing = section.width().saturating_sub(section.web());
        let grip = Grip {
            packing,
            web: section.web(),
            washers: [washer; 2],
            nut,
            projection: thousandths(154),
        };
        let rod = grip.rod(Units::Imperial);
        assert_eq!(rod.length, sixty_fourths(8 * eighths), "{shape}");
        assert!(rod.short >= thousandths(154) && rod.long > rod.short);
    }
}

fn job() -> Job {
    let mut job = Job::new(Units::Imperial);
    job.bolt = Some(Bolt {
        diameter: sixty_fourths(32),
        web_hole: None,
        wood_hole: None,
        fyb: None,
    });
    job
}

fn listed(job: &Job, bolts: Bolts, packing: [i32; 2]) -> Rods {
    let hardware = Hardware::of(job).unwrap();
    let input = RodInput {
        bolts,
        packing: packing.map(sixty_fourths),
        web: thousandths(245),
        hardware: &hardware,
    };
    let mut rods = Rods::new();
    rods.list(job, Some(&input));
    rods
}

/// Spares: 1 or 10 % rounded up, the greater, per length (common practice, no
/// source); nuts and washers two a rod, spares included; other pieces have none.
#[test]
fn spares_nuts_and_washers() {
    let mut job = job();
    let other = OtherPiece {
        length: Length::from_inches(11),
        count: 4,
        name: Name::new(),
    };
    job.pieces.push(other).unwrap();
    let bolts = Bolts {
        both: 21,
        one: [3, 0],
    };
    let rods = listed(&job, bolts, [192, 192]);
    let rows: Vec<_> = rods
        .pieces
        .iter()
        .map(|p| (p.count, p.spare, p.piece_use))
        .collect();
    let wanted = [
        (24, 3, PieceUse::BothSides),
        (4, 1, PieceUse::OneSide(Side::N)),
        (4, 0, PieceUse::Other(0)),
    ];
    assert_eq!(rows, wanted);
    assert_eq!((rods.nuts, rods.washers), (56, 56));
    job.spare = Some(0);
    assert_eq!(listed(&job, bolts, [192, 192]).nuts, 48);
    job.spare = Some(5);
    assert_eq!(listed(&job, bolts, [192, 192]).nuts, 68);
}

/// Two uses of one length share their spares: 9 + 9 rods, 2 spare, not 1 + 1.
#[test]
fn spares_are_counted_per_length() {
    let bolts = Bolts {
        both: 0,
        one: [9, 9],
    };
    let rods = listed(&job(), bolts, [192, 192]);
    let rows: Vec<_> = rods.pieces.iter().map(|p| (p.count, p.spare)).collect();
    assert_eq!(rows, [(11, 2), (9, 0)]);
    let apart = listed(&job(), bolts, [192, 224]);
    let rows: Vec<_> = apart.pieces.iter().map(|p| (p.count, p.spare)).collect();
    assert_eq!(rows, [(10, 1), (10, 1)]);
}
