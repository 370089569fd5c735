//! Packing on the bottom flange, nails, hangers, flushness.

use super::{near, profile};
use boltbay_core::check::{Checks, Kind, Lack, Needs, Place};
use boltbay_core::checks::flange::{self, Flange, Seated};
use boltbay_core::checks::nail::{
    self, NailedPacking, USUAL_HANGER_NAIL, USUAL_LAYER_NAIL, depth, least_slant,
    penetration_factor,
};
use boltbay_core::checks::{flush, hanger};
use boltbay_core::decimal::Decimal;
use boltbay_core::force::{Force, LineLoad, Stress};
use boltbay_core::job::{Floor, Nail, Species};
use boltbay_core::length::Length;
use boltbay_core::packing::StackLayer;
use boltbay_core::shapes;
use boltbay_core::words::Side;
use proptest::prelude::*;

const AT: Place = Place::Side(Side::N);

/// Layers, web to face: thickness in sixteenths, and whether it seats.
fn layers(layers: &[(i32, bool)]) -> Vec<StackLayer> {
    let layer = |&(sixteenths, seats)| StackLayer {
        layer: 0,
        thickness: Length::from_sixteenths(sixteenths),
        rip: None,
        seats,
        chamfered: false,
    };
    layers.iter().map(layer).collect()
}

fn flange(label: &str) -> Flange {
    Flange {
        thickness_in: profile(label).flange_in,
        fy: Stress::from_psi(50_000.0),
    }
}

/// Source: worked apart from this code from AISC 360-22 F11, one outer layer of
/// 1 1/2 in that sits: share of the capacity used.
#[test]
fn the_load_comes_down_near_the_tip() {
    for (label, plf, wanted) in [
        ("W8X18", 1000.0, 0.180),
        ("W10X33", 1500.0, 0.272),
        ("W12X26", 1200.0, 0.220),
    ] {
        let outstand = shapes::find(label).unwrap().outstand();
        // The inner layers hang above the fillet.
        let inner = outstand.saturating_sub(Length::from_sixteenths(24));
        let mut stack = layers(&[(0, false), (24, true)]);
        stack[0].thickness = inner;
        let seated = Seated::of(&stack, outstand).unwrap();
        let line = LineLoad::from_pounds_per_foot(plf);
        let [bending, press] = flange::checks(line, &seated, flange(label), Species::Spf, AT);
        near(bending.ratio().unwrap(), wanted, 0.0006, label);
        assert_eq!(bending.kind(), Kind::FlangeUnderPacking);
        near(seated.contact_in(), 1.5, 1e-9, "outer layer");
        near(press.demand(), plf / 12.0 / 1.5, 1e-9, "press");
        near(press.capacity().unwrap(), 425.0, 0.0, "SPF");
        // Trap: half of the whole packing as arm would give .128, .169, .145.
        assert!(seated.arm_in() > outstand.as_inches() / 2.0 + 0.4);
    }
}

#[test]
fn only_layers_from_the_face_on_that_sit_count() {
    let outstand = Length::from_sixteenths(48);
    let arm = |stack: &[(i32, bool)]| Seated::of(&layers(stack), outstand).map(|s| s.arm_in());
    assert_eq!(arm(&[(24, true), (24, true)]), Ok(1.5));
    assert_eq!(arm(&[(24, false), (24, true)]), Ok(2.25));
    // A seated layer behind one that hangs does not reach the face.
    assert_eq!(arm(&[(16, true), (8, false), (24, true)]), Ok(2.25));
    assert!(matches!(
        arm(&[(24, true), (24, false)]),
        Err(Lack::Outside(_))
    ));
    assert_eq!(arm(&[]), Err(Lack::Row("layer")));
    // 1/8 in proud: 1 3/8 bear; shy: as at the tip, which is the worse.
    assert_eq!(arm(&[(26, false), (24, true)]), Ok(3.0 - 1.375 / 2.0));
    assert_eq!(arm(&[(22, false), (24, true)]), Ok(2.25));
    assert!(matches!(
        arm(&[(60, false), (8, true)]),
        Err(Lack::Outside(_))
    ));
    // From the face to where the flange pushes: half of what bears, and what is proud.
    let rolling = |stack: &[(i32, bool)]| {
        Seated::of(&layers(stack), outstand)
            .unwrap()
            .rolling_arm_in()
    };
    near(rolling(&[(24, false), (24, true)]), 0.75, 1e-9, "flush");
    near(rolling(&[(26, false), (24, true)]), 0.8125, 1e-9, "proud");
}

#[test]
fn a_full_flange_passes_and_a_pound_more_does_not() {
    let seated = Seated::of(&layers(&[(24, true)]), Length::from_sixteenths(24)).unwrap();
    // Arm 3/4 in; 50000 x .33^2 / 4 / 1.67 = 815.1 lb-in: 1086.8 lb/in.
    let ok = |line| {
        let line = LineLoad::from_pounds_per_inch(line);
        flange::checks(line, &seated, flange("W8X18"), Species::DfL, AT).map(|c| c.ok().unwrap())
    };
    assert_eq!(ok(1086.0), [true, false]);
    assert_eq!(ok(1088.0), [false, false]);
    // 625 x 1.5
    assert_eq!(ok(937.5), [true, true]);
    assert_eq!(ok(937.6), [true, false]);
}

fn nail(sixteenths: i32, thousandths: i32, slant: Option<i32>) -> Nail {
    Nail {
        name: "n".try_into().unwrap(),
        length: Length::from_sixteenths(sixteenths),
        diameter: Length::from_thousandths(thousandths),
        slant: slant.map(Decimal::whole),
    }
}

/// Source: geometry, length x cosine: 3 1/2 at 45 degrees 2.475, 3 at 45 2.121,
/// 3 at 30 2.598.
#[test]
fn depths_at_a_slant() {
    for (sixteenths, degrees, wanted) in [
        (56, 45, 2.475),
        (48, 45, 2.121),
        (48, 30, 2.598),
        (56, 0, 3.5),
    ] {
        let found = depth(
            Length::from_sixteenths(sixteenths),
            Some(Decimal::whole(degrees)),
        );
        near(found.unwrap(), wanted, 0.0006, "depth");
    }
    for degrees in [-1, 81, 90, 200] {
        assert!(depth(Length::from_inches(3), Some(Decimal::whole(degrees))).is_err());
    }
}

/// Source: geometry: least slant at which the depth is the packing: 3 1/2 in
/// 2 1/2: 44.42; 3 in 2 1/4: 41.41; 3 1/2 in 3.1275: 26.67; 3 in 2.51: 33.21
/// degrees. 3 in 1.885 would be 51.07 and 2 1/2 in 1 1/2 53.13: past 45.
#[test]
fn least_slants() {
    let slant = |sixteenths, thousandths| {
        least_slant(
            Length::from_sixteenths(sixteenths),
            Length::from_thousandths(thousandths),
        )
    };
    for (sixteenths, thousandths, wanted) in
        [(56, 2500, 44.42), (48, 2250, 41.41), (48, 2510, 33.21)]
    {
        near(
            f64::from(slant(sixteenths, thousandths).unwrap()) / 100.0,
            wanted,
            0.0101,
            "slant",
        );
    }
    let close = least_slant(Length::from_sixteenths(56), Length::from_counts(3_177_540));
    near(f64::from(close.unwrap()) / 100.0, 26.67, 0.0101, "3.1275");
    assert_eq!(slant(48, 1885), None);
    assert_eq!(slant(40, 1500), None);
    assert_eq!(slant(48, 3000), Some(0));
    assert_eq!(slant(48, 0), None);
}

/// Source: NDS 2024 12.1.6: 10D 1.48 and 6D .888 for 10d (.148), 1.62 and .972
/// for 16d (.162); worked example: 16d through 1 1/2 and 3/4, p = 1.25: .7716,
/// so 141 x 1.6 x .7716 = 174.0 lb.
#[test]
fn penetration() {
    let diameter = Length::from_thousandths;
    for (thousandths, full, least) in [
        (148, 1.48, 0.888),
        (162, 1.62, 0.972),
        (131, 1.31, 0.786),
        (192, 1.92, 1.152),
    ] {
        let factor = |inches| penetration_factor(inches, diameter(thousandths));
        near(factor(full), 1.0, 1e-9, "10D");
        near(factor(full + 1.0), 1.0, 0.0, "beyond");
        near(factor(least), 0.6, 1e-9, "6D");
        near(factor(least - 0.001), 0.0, 0.0, "below");
    }
    let factor = penetration_factor(3.5 - 1.5 - 0.75, diameter(162));
    near(factor, 0.7716, 0.0001, "p / 10D");
    near(factor * 1.6 * 141.0, 174.0, 0.1, "worked example");
}

fn made(nail: &Nail, total: i32, outer: i32) -> Checks {
    let packing = NailedPacking {
        total: Length::from_sixteenths(total),
        outer: Length::from_sixteenths(outer),
    };
    let mut checks = Checks::new();
    nail::add_checks(nail, packing, Place::Nail(0, Side::N), &mut checks);
    checks
}

#[test]
fn a_hanger_nail_may_touch_the_web_and_no_more() {
    // 1 1/2 x .148 in 1 1/2 in: 10D is 1.48.
    let short = made(&nail(24, 148, None), 24, 24);
    assert!(short.all_pass());
    assert_eq!(
        short.made().iter().map(|c| c.kind()).collect::<Vec<_>>(),
        [Kind::NailDepth, Kind::NailHold]
    );
    let long = made(&nail(25, 148, None), 24, 24);
    let reach = long.made()[0];
    assert_eq!(reach.ok(), Some(false));
    // A shorter nail, never a slant.
    assert_eq!(
        reach.needs(),
        Needs::NailAtMost(Length::from_sixteenths(24))
    );
    assert_eq!(USUAL_HANGER_NAIL, Length::from_sixteenths(24));
    // 16d in 3/4 in of packing: 6D is .972.
    let thin = made(&nail(12, 162, None), 48, 24);
    assert_eq!(thin.made()[1].ok(), Some(false));
}

#[test]
fn a_layer_nail_may_be_slanted_and_must_hold_behind_the_outer_layer() {
    // 3 1/4 in straight through 3 in of packing bottoms; 22.62 degrees do.
    let straight = made(&nail(52, 131, Some(0)), 48, 24);
    let reach = straight.made()[0];
    assert_eq!(
        (reach.kind(), reach.ok()),
        (Kind::LayerNailDepth, Some(false))
    );
    assert_eq!(reach.needs(), Needs::Slant(2262));
    assert_eq!(USUAL_LAYER_NAIL, Length::from_sixteenths(52));
    let slanted = made(&nail(52, 131, Some(23)), 48, 24);
    assert!(slanted.all_pass());
    let hold = slanted.made()[1];
    assert_eq!(hold.kind(), Kind::LayerNailHold);
    near(hold.demand(), 0.786, 1e-9, "6D");
    near(
        hold.capacity().unwrap(),
        3.25 * 23_f64.to_radians().cos() - 1.5,
        1e-9,
        "behind",
    );
    // 2 1/2 in through a 2 1/2 in outer layer holds nothing.
    assert_eq!(
        made(&nail(40, 131, Some(0)), 64, 40).made()[1].ok(),
        Some(false)
    );
    // So long that no slant helps.
    let hopeless = made(&nail(96, 131, Some(10)), 48, 24);
    assert_eq!(
        hopeless.made()[0].needs(),
        Needs::NailAtMost(Length::from_inches(3))
    );
    let odd = made(&nail(52, 131, Some(95)), 48, 24);
    assert_eq!((odd.made().len(), odd.not_made().len()), (0, 2));
}

proptest! {
    #[test]
    fn the_slant_that_is_asked_for_keeps_the_nail_off_the_web(
        length in 16..100_i32, total in 16..100_i32, outer in 8..40_i32,
    ) {
        let checks = made(&nail(length, 131, Some(0)), total, outer);
        let reach = checks.made()[0];
        prop_assert_eq!(reach.ok() == Some(true), length <= total);
        if let Needs::Slant(hundredths) = reach.needs() {
            let slanted = Nail { slant: Some(Decimal::new(i32::from(hundredths), 2)), ..nail(length, 131, None) };
            prop_assert_eq!(made(&slanted, total, outer).made()[0].ok(), Some(true));
        }
    }
}

fn floor(depth: i32, offset: i32) -> Floor {
    Floor {
        joist_depth: Length::from_sixteenths(depth),
        offset: Some(Length::from_sixteenths(offset)),
        subfloor: None,
    }
}

/// Source: worked by hand: 9 1/4 in joists on a W8X21 (8.28 deep, tf .40), tops
/// level: they hang .97 in below the steel, the seat 1.37 in below the inside
/// face of its flange, and the lowest nail .62 in below it.
#[test]
fn a_joist_deeper_than_the_beam_leaves_nails_in_the_air() {
    let section = shapes::find("W8X21").unwrap();
    let deep = floor(148, 0);
    near(
        flush::steel_below_joists(&section, &deep).as_inches(),
        -0.97,
        1e-9,
        "flush",
    );
    let seat = hanger::seat(&section, &deep);
    near(seat.as_inches(), -1.37, 1e-9, "seat");
    let edges = [Length::ZERO, section.clear_height()];
    let mut checks = Checks::new();
    let height = Some(Length::from_sixteenths(116));
    hanger::add_nail_checks(Some(seat), height, edges, AT, &mut checks);
    let [low, high] = checks.made() else { panic!() };
    near(low.capacity().unwrap(), -0.62, 1e-9, "lowest nail");
    assert_eq!(
        (low.kind(), low.ok(), low.ratio()),
        (Kind::LowNails, Some(false), None)
    );
    // 7 1/4 high: its highest nail 5.38 up, 2.10 below the edge.
    near(high.capacity().unwrap(), 2.10, 1e-9, "highest nail");
    assert_eq!(high.ok(), Some(true));
}

#[test]
fn hanger_nails_on_the_edge_and_without_rows() {
    let edges = [Length::ZERO, Length::from_sixteenths(116)];
    let at = |seat: i32, height: i32| {
        let mut checks = Checks::new();
        let seat = Some(Length::from_sixteenths(seat));
        hanger::add_nail_checks(
            seat,
            Some(Length::from_sixteenths(height)),
            edges,
            AT,
            &mut checks,
        );
        [
            checks.made()[0].ok().unwrap(),
            checks.made()[1].ok().unwrap(),
        ]
    };
    // Lowest nail 12 above the seat, highest 8 below the top, 6 to each edge.
    assert_eq!(at(-6, 124), [true, true]);
    assert_eq!(at(-7, 124), [false, true]);
    assert_eq!(at(-6, 125), [true, false]);
    let mut checks = Checks::new();
    hanger::add_nail_checks(Some(Length::ZERO), None, edges, AT, &mut checks);
    let height = Lack::Field("row hanger has no HEIGHT");
    assert_eq!(checks.not_made()[0].lack, height);
    hanger::add_nail_checks(None, None, edges, AT, &mut checks);
    assert_eq!(checks.not_made()[1].lack, Lack::Row("floor"));
    assert_eq!(checks.not_made().len(), 3);
}

/// Source: tributary load by hand: 14 ft joist at 16 in under 50 psf: 466.7 lb.
#[test]
fn hangers_against_their_rated_load() {
    let load = Force::from_pounds(466.7);
    let check = |rated: f64| hanger::load(load, Some(Force::from_pounds(rated)), AT).unwrap();
    assert_eq!(check(466.7).ok(), Some(true));
    assert_eq!(check(466.0).ok(), Some(false));
    let unrated = Lack::Field("row hanger has no RATED LOAD");
    assert_eq!(hanger::load(load, None, AT), Err(unrated));
}

/// Source: FPL-RP-489, width: 19 % loses 6.031 - .215 x 19 = 1.946 %, 12 % 3.451
/// %: 9 1/4 in come down by 9.25 x (1 - .96549 / .98054) = .1420 in.
#[test]
fn new_joists_come_down() {
    let shrinks = flush::still_to_shrink(Length::from_sixteenths(148), Decimal::whole(12));
    near(shrinks.as_inches(), 0.1420, 0.0001, "2x10");
    assert_eq!(
        flush::still_to_shrink(Length::from_inches(9), Decimal::whole(19)),
        Length::ZERO
    );
    assert_eq!(
        flush::still_to_shrink(Length::from_inches(9), Decimal::whole(25)),
        Length::ZERO
    );
    let section = shapes::find("W8X21").unwrap();
    let [below, shrinkage] = flush::figures(&section, &floor(116, 2), Decimal::whole(12), AT);
    // 8.28 + .125 - 7.25
    near(below.demand(), 1.155, 1e-9, "steel below joists");
    assert_eq!((below.ok(), shrinkage.ok()), (None, None));
    assert_eq!(shrinkage.kind(), Kind::JoistShrinkage);
}
