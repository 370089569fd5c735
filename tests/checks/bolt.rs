//! Bolts through a steel web: worked values, factors, demand.

use super::near;
use boltbay_core::check::{Check, Checklist, Checks, Kind, Lack, Needs, Place};
use boltbay_core::checks::bolt::{
    self, Bolting, Joint, LoadedMark, Value, end_factor, web_bearing,
};
use boltbay_core::checks::dowel::{Mode, Shear};
use boltbay_core::checks::rod::{self, Rolling, WasherOnWood, allowable_pull, washer_area};
use boltbay_core::force::{Force, LineLoad, Stress};
use boltbay_core::job::{Species, WasherShape};
use boltbay_core::length::Length;
use boltbay_core::words::{Row, Side};

const HALF: Length = Length::from_sixteenths(8);

/// A 1/2 in bolt in a web of .23 with 1 1/2 in of packing on both sides.
fn joint(species: Species, eighths: i32) -> Joint {
    Joint {
        diameter: HALF,
        fyb: Stress::from_psi(45_000.0),
        web: Length::from_thousandths(230),
        fu: Stress::from_psi(65_000.0),
        packing: [Some(Length::from_sixteenths(2 * eighths)); 2],
        species,
        gap: Length::ZERO,
    }
}

fn full_body(joint: &Joint) -> Value {
    joint.value_of(joint.diameter.as_inches()).unwrap()
}

/// Source: NDS 2024 appendix I: 1.5 Fu: A992 97,500, A36 87,000 psi.
#[test]
fn a_web_bears_one_and_a_half_times_fu() {
    near(
        web_bearing(Stress::from_psi(65_000.0)).as_psi(),
        97_500.0,
        0.0,
        "A992",
    );
    near(
        web_bearing(Stress::from_psi(58_000.0)).as_psi(),
        87_000.0,
        0.0,
        "A36",
    );
}

/// No published table has steel as the main member. Source: worked apart from
/// this code from NDS 2024 Table 12.3.1A with Fem 97,500 psi.
#[test]
fn a_web_between_two_packings() {
    for (species, eighths, wanted, mode) in [
        (Species::Spf, 12, 735.0, Mode::Is),
        (Species::Spf, 20, 876.9, Mode::IIIs),
        (Species::DfL, 12, 872.5, Mode::IIIs),
        (Species::DfL, 20, 1057.2, Mode::IIIs),
        (Species::Sp, 12, 952.9, Mode::IIIs),
        (Species::Hf, 12, 765.0, Mode::Is),
    ] {
        let value = full_body(&joint(species, eighths));
        near(value.strength.as_pounds(), wanted, 0.2, "double shear");
        assert_eq!(
            (value.mode, value.shear, value.counts()),
            (mode, Shear::Double, 2.0)
        );
    }
    for (species, wanted) in [(Species::Spf, 1058.4), (Species::DfL, 1196.0)] {
        let mut joint = joint(species, 28);
        joint.web = Length::from_thousandths(290);
        let value = full_body(&joint);
        near(value.strength.as_pounds(), wanted, 0.2, "3 1/2 in");
        assert_eq!(value.mode, Mode::IV);
    }
    for (species, wanted) in [
        (Species::Spf, 825.0),
        (Species::DfL, 1050.0),
        (Species::Sp, 1218.8),
    ] {
        let mut joint = joint(species, 12);
        joint.diameter = Length::from_sixteenths(10);
        near(full_body(&joint).strength.as_pounds(), wanted, 0.2, "5/8");
    }
}

/// Trap: a threaded rod bears at its root, 30 % lower; Fe stays that of the
/// nominal diameter. Source: NDS 2024 12.3.7, worked as above.
#[test]
fn a_threaded_rod_bears_at_its_root() {
    for (species, eighths, wanted) in [
        (Species::Spf, 12, 517.5),
        (Species::DfL, 12, 607.6),
        (Species::Spf, 20, 645.2),
    ] {
        let value = joint(species, eighths).value().unwrap();
        near(value.strength.as_pounds(), wanted, 0.3, "rod");
        assert_eq!(value.mode, Mode::IIIs);
    }
    let mut odd = joint(Species::Spf, 12);
    odd.diameter = Length::from_sixteenths(9);
    assert_eq!(odd.value(), Err(Lack::Row("bolt")));
}

/// Source: AWC TR12, worked as above: 1/2 in, SPF 1 1/2 in, A36 web.
#[test]
fn a_gap_costs() {
    for (sixteenths, wanted, mode) in [
        (0, 735.0, Mode::Is),
        (1, 723.3, Mode::IIIs),
        (2, 692.9, Mode::IIIs),
        (4, 637.9, Mode::IIIs),
        (8, 547.3, Mode::IIIs),
    ] {
        let mut joint = joint(Species::Spf, 12);
        joint.fu = Stress::from_psi(58_000.0);
        joint.gap = Length::from_sixteenths(sixteenths);
        let value = full_body(&joint);
        near(value.strength.as_pounds(), wanted, 0.2, "gap");
        assert_eq!(value.mode, mode);
    }
}

/// Source: NDS 2024 Table 12.3.1A, worked as above: single shear, mode II.
#[test]
fn one_side_only() {
    for (species, fu, wanted) in [
        (Species::Spf, 65_000.0, 265.8),
        (Species::Spf, 58_000.0, 254.3),
        (Species::DfL, 58_000.0, 298.9),
    ] {
        let both = joint(species, 12);
        for packing in [[both.packing[0], None], [None, both.packing[1]]] {
            let one = Joint {
                fu: Stress::from_psi(fu),
                packing,
                ..both
            };
            let value = full_body(&one);
            near(value.strength.as_pounds(), wanted, 0.2, "single shear");
            assert_eq!(
                (value.mode, value.shear, value.counts()),
                (Mode::II, Shear::Single, 1.0)
            );
        }
    }
    let none = Joint {
        packing: [None; 2],
        ..joint(Species::Spf, 12)
    };
    assert!(matches!(none.value(), Err(Lack::Outside(_))));
}

/// The thinner packing sets the side member.
#[test]
fn uneven_packing_takes_the_thinner_side() {
    let thin = joint(Species::Spf, 12);
    let uneven = Joint {
        packing: [Some(Length::from_inches(3)), thin.packing[1]],
        ..thin
    };
    assert_eq!(uneven.value(), thin.value());
}

/// Source: NDS 2024 Table 12.5.1A: across the grain 4D full, 2D half; 1 1/2 in
/// from the end with a 1/2 in bolt .75.
#[test]
fn end_factors() {
    for (sixteenths, wanted) in [(32, 1.0), (40, 1.0), (24, 0.75), (16, 0.5), (15, 0.0)] {
        let factor = end_factor(Length::from_sixteenths(sixteenths), HALF);
        near(factor, wanted, 1e-12, "end");
    }
}

fn mark(at: i32, nearest: [f64; 2], plf: [f64; 2]) -> LoadedMark {
    LoadedMark {
        at: Length::from_inches(at),
        bolts: 1,
        to_end: Length::from_inches(6),
        nearest: nearest.map(Force::from_pounds),
        line: plf.map(LineLoad::from_pounds_per_foot),
    }
}

const BOLTING: Bolting = Bolting {
    diameter: HALF,
    duration: 1.0,
    largest_spacing: Some(Length::from_inches(16)),
};

/// Source: worked by hand: bolts alone under 650 plf (325 a side): 735 lb make
/// 13.6 in, 517 make 9.5 in.
#[test]
fn the_spacing_that_bolts_alone_would_need() {
    let even = mark(12, [0.0; 2], [325.0; 2]);
    for (value, wanted) in [
        (full_body(&joint(Species::Spf, 12)), 13.6),
        (joint(Species::Spf, 12).value().unwrap(), 9.55),
    ] {
        let alone = BOLTING.spacing_alone(&value, &even).unwrap();
        near(alone.as_inches(), wanted, 0.05, "spacing");
        let check = BOLTING.alone(&value, &even).unwrap();
        assert_eq!((check.kind(), check.ok()), (Kind::BoltsAlone, Some(false)));
        assert_eq!(check.needs(), Needs::Spacing(alone));
    }
    let value = full_body(&joint(Species::Spf, 12));
    // The heavier side counts twice.
    let uneven = mark(12, [0.0; 2], [325.0, 100.0]);
    assert_eq!(
        BOLTING.spacing_alone(&value, &uneven),
        BOLTING.spacing_alone(&value, &even)
    );
    assert_eq!(
        BOLTING.spacing_alone(&value, &mark(12, [0.0; 2], [0.0; 2])),
        None
    );
}

#[test]
fn a_mark_against_its_nearest_hangers() {
    let value = full_body(&joint(Species::Spf, 12));
    let ok = |nearest, bolts, duration, to_end: i32| {
        let mark = LoadedMark {
            bolts,
            to_end: Length::from_sixteenths(to_end),
            ..mark(12, nearest, [0.0; 2])
        };
        let bolting = Bolting {
            duration,
            ..BOLTING
        };
        let check = bolting.nearest(&value, &mark);
        (check.demand(), check.ok().unwrap())
    };
    // Z = 735: twice the heavier side.
    assert_eq!(ok([367.5, 100.0], 1, 1.0, 96), (735.0, true));
    assert_eq!(ok([100.0, 368.0], 1, 1.0, 96), (736.0, false));
    assert_eq!(ok([735.0, 0.0], 2, 1.0, 96), (1470.0, true));
    assert_eq!(ok([400.0, 0.0], 1, 1.15, 96), (800.0, true));
    assert_eq!(ok([330.0, 0.0], 1, 0.9, 96), (660.0, true));
    assert_eq!(ok([331.0, 0.0], 1, 0.9, 96), (662.0, false));
    assert_eq!(ok([275.0, 0.0], 1, 1.0, 24), (550.0, true));
    assert_eq!(ok([276.0, 0.0], 1, 1.0, 24), (552.0, false));
    assert!(!ok([1.0, 0.0], 1, 1.0, 15).1);
}

#[test]
fn of_all_marks_the_worst_is_listed() {
    let marks = [
        mark(12, [300.0, 200.0], [250.0; 2]),
        mark(28, [410.0, 200.0], [300.0; 2]),
        mark(44, [100.0, 200.0], [200.0; 2]),
    ];
    let value = full_body(&joint(Species::Spf, 12));
    let mut checks = Checks::new();
    BOLTING.add_checks(marks.into_iter(), |_| Ok(value), &mut checks);
    checks.sort();
    let kinds: Vec<_> = checks
        .made()
        .iter()
        .map(|c| (c.kind(), c.place()))
        .collect();
    let at = |inches| Place::At(Length::from_inches(inches));
    assert_eq!(
        kinds,
        [
            (Kind::BoltNearest, at(28)),
            (Kind::BoltAverage, Place::Beam),
            (Kind::BoltsAlone, at(28)),
            (Kind::BoltEnd, at(12)),
        ]
    );
    let [nearest, average, ..] = checks.made() else {
        panic!()
    };
    assert_eq!((nearest.demand(), nearest.ok()), (820.0, Some(false)));
    // N 810, S 600 on three bolts: twice 270.
    near(average.demand(), 540.0, 1e-9, "average");
    near(average.capacity().unwrap(), 735.0, 0.2, "average");
    let mut checks = Checks::new();
    BOLTING.add_checks(marks.into_iter(), |_| Err(Lack::Row("layer")), &mut checks);
    assert_eq!(checks.not_made().len(), 3);
    assert_eq!(checks.made().len(), 1);
    BOLTING.add_checks([].into_iter(), |_| Ok(value), &mut checks);
    assert_eq!(checks.made().len(), 1);
}

/// Source: NDS 2024 Table 12.5.1C, 1/2 in bolt: loaded edge 2, other edge 3/4;
/// 12.5.1A: end 1 at least. 5/8: 2 1/2, 15/16.
#[test]
fn edges_of_the_packing() {
    let (low, high) = (Length::ZERO, Length::from_thousandths(7_480));
    let found = |diameter, height| {
        bolt::edges(diameter, (Row::Top, height), Side::N, [low, high]).map(|c| c.ok().unwrap())
    };
    assert_eq!(found(HALF, Length::from_thousandths(5_480)), [true, true]);
    assert_eq!(found(HALF, Length::from_thousandths(5_481)), [false, true]);
    assert_eq!(found(HALF, Length::from_sixteenths(12)), [true, true]);
    assert_eq!(found(HALF, Length::from_sixteenths(11)), [true, false]);
    let five_eighths = Length::from_sixteenths(10);
    assert_eq!(
        found(five_eighths, Length::from_thousandths(4_980)),
        [true, true]
    );
    assert_eq!(
        found(five_eighths, Length::from_sixteenths(14)),
        [true, false]
    );
    let end = |sixteenths| {
        let to_end = Length::from_sixteenths(sixteenths);
        BOLTING
            .end(&LoadedMark {
                to_end,
                ..mark(3, [0.0; 2], [0.0; 2])
            })
            .ok()
    };
    assert_eq!((end(16), end(15)), (Some(true), Some(false)));
}

/// Source: worked: 371 plf at one side of a W10X22 (bf 5.75), hung at the
/// flange tip: 371 x 2.875 = 1.07 kip-in a foot.
#[test]
fn uneven_hanging_twists() {
    let packing = Some(Length::from_thousandths(2_755));
    let web = Length::from_thousandths(240);
    let plf = |n, s| [n, s].map(LineLoad::from_pounds_per_foot);
    let at = Length::from_inches(60);
    let check = bolt::torque(at, plf(371.0, 0.0), web, [packing, None]).unwrap();
    near(check.demand() * 12.0 / 1000.0, 1.07, 0.005, "kip-in a foot");
    assert_eq!(
        (check.ok(), check.capacity(), check.ratio()),
        (None, None, None)
    );
    assert_eq!(bolt::torque(at, plf(371.0, 371.0), web, [packing; 2]), None);
    assert_eq!(bolt::torque(at, plf(0.0, 0.0), web, [packing, None]), None);
    let uneven = bolt::torque(at, plf(100.0, 371.0), web, [packing; 2]).unwrap();
    near(uneven.demand() * 12.0, 271.0 * 2.875, 1e-6, "difference");
}

/// Source: AISC 360-22 J3.7, Table J3.2, rod of 58 ksi: 1/2 4.27, 5/8 6.67 kips.
#[test]
fn rods_in_tension() {
    near(allowable_pull(HALF).as_kips(), 4.27, 0.005, "1/2");
    near(
        allowable_pull(Length::from_sixteenths(10)).as_kips(),
        6.67,
        0.006,
        "5/8",
    );
}

/// Worked by hand: 500 lb at the face of 3 in of packing, bolt 5 in up: 300 lb;
/// seated with 1 1/2 in at the face 75 lb; 2 in up 750 lb.
#[test]
fn packing_that_wants_to_roll() {
    let pull = |arm, height| {
        let rolling = Rolling {
            load: Force::from_pounds(500.0),
            arm_in: f64::from(arm) / 16.0,
            height: Length::from_inches(height),
        };
        rolling.pull().as_pounds()
    };
    near(pull(48, 5), 300.0, 1e-9, "hanging");
    near(pull(12, 5), 75.0, 1e-9, "seated");
    near(pull(48, 2), 750.0, 1e-9, "low bolt");
}

/// Worked by hand: wide washer of 1/2 in, 1 3/8 across, hole 9/16: .7854 x
/// (1.8906 - .3164) = 1.2364 in2; plate 2 in square less the hole 3.7515. SPF
/// 425 x Cb (1.375 + .375) / 1.375 = 540.9 psi, so 668.8 lb.
#[test]
fn washers_press_into_the_packing() {
    let hole = Length::from_sixteenths(9);
    let wide = Length::from_sixteenths(22);
    near(
        washer_area(wide, WasherShape::Round, hole),
        1.2364,
        1e-4,
        "round",
    );
    let two = Length::from_inches(2);
    for shape in [WasherShape::Square, WasherShape::Turns] {
        near(washer_area(two, shape, hole), 3.7515, 1e-4, "plate");
    }
    near(
        rod::allowable_press(Species::Spf, wide).as_psi(),
        540.9,
        0.05,
        "SPF",
    );
    let washer = WasherOnWood {
        size: wide,
        shape: WasherShape::Round,
        hole,
        species: Species::Spf,
    };
    let under = |pounds: f64| -> [Check; 2] {
        let rolling = Rolling {
            load: Force::from_pounds(pounds),
            arm_in: 3.0,
            height: Length::from_inches(3),
        };
        rod::checks(&rolling, HALF, &washer, Place::Beam)
    };
    let ok = |pounds| under(pounds).map(|check| check.ok().unwrap());
    assert_eq!(ok(668.0), [true, true]);
    assert_eq!(ok(669.0), [true, false]);
    assert_eq!(ok(4_271.0), [false, false]);
    assert_eq!(
        under(668.0).map(|c| c.kind()),
        [Kind::RodTension, Kind::WasherBearing]
    );
    // A washer no larger than its hole presses on nothing: not made.
    let none = WasherOnWood {
        size: hole,
        ..washer
    };
    let rolling = Rolling {
        load: Force::from_pounds(1.0),
        arm_in: 3.0,
        height: Length::ZERO,
    };
    let mut checks = Checks::new();
    for check in rod::checks(&rolling, HALF, &none, Place::Beam) {
        checks.add(check);
    }
    assert_eq!(checks.not_made().len(), 2);
}
