//! Bending and shear of the steel.
//! Source of the formulas under test: AISC 360-22 F2, F3, G2, J4.

use super::{W18X50, near, profile};
use boltbay_core::check::{Kind, Lack, Place};
use boltbay_core::checks::profile::{Moduli, Profile};
use boltbay_core::checks::steel::{
    self, Bending, E_PSI, OMEGA_BENDING, OMEGA_SHEAR, OMEGA_SHEAR_STOCKY, allowable_net_shear,
    allowable_shear, free_lengths,
};
use boltbay_core::force::{Force, Moment, Stress};
use boltbay_core::job::Shape;
use boltbay_core::length::Length;
use boltbay_core::shapes::{self, Section};
use std::collections::HashMap;

const POCKETS: &str = include_str!("../data/w_pockets.csv");

fn bending(label: &str) -> Bending {
    let section = shapes::find(label).unwrap();
    let profile = profile(label);
    Bending::new(profile, profile.moduli(&section).unwrap(), FY).unwrap()
}

/// A992.
const FY: Stress = Stress::from_psi(50_000.0);

fn feet(feet: i32) -> Length {
    Length::from_inches(feet * 12)
}

/// Source: AISC Manual Table 6-2, phi Mn in kip-ft at Fy 50 ksi, as quoted in
/// the tests of a public package.
#[test]
fn design_moments_of_table_6_2() {
    for (label, published) in [
        ("W10X15", [(0, 60.0), (6, 47.0), (20, 11.0)]),
        ("W10X12", [(0, 46.9), (6, 35.9), (20, 7.25)]),
    ] {
        let bending = bending(label);
        for (free_ft, wanted) in published {
            let found = 0.9 * bending.nominal_moment(feet(free_ft)).as_kip_feet();
            near(found, wanted, 0.05, label);
        }
    }
}

/// Source: AISC Design Example F.1-1A: W18X50, Mn = 421 kip-ft, braced.
#[test]
fn the_nominal_moment_of_a_braced_w18x50() {
    // Zx 101, Sx 88.9, ry 1.65, rts 1.98, J 1.24, ho 17.4: AISC Manual Table 1-1.
    let moduli = Moduli {
        sx_in3: 88.9,
        zx_in3: 101.0,
        ry_in: 1.65,
        rts_in: 1.98,
        j_in4: 1.24,
        ho_in: 17.4,
    };
    let bending = Bending::new(W18X50, moduli, FY).unwrap();
    near(
        bending.nominal_moment(Length::ZERO).as_kip_feet(),
        421.0,
        0.5,
        "F.1-1A",
    );
}

/// Source: `w_pockets.csv`, computed apart from this code from the published
/// shapes by AISC 360-22 F2, F3, G2.1; W10X33, W12X26 and W12X14 are also those
/// of AISC Manual Table 3-2, from memory.
#[test]
fn allowable_strengths_of_all_shapes() {
    let mut lines = POCKETS.lines();
    let names: Vec<&str> = lines.next().unwrap().split(',').collect();
    let mut rows = 0;
    for line in lines {
        let row: HashMap<_, _> = names.iter().copied().zip(line.split(',')).collect();
        let figure = |column: &str| row[column].parse::<f64>().unwrap();
        let label = row["label"];
        let bending = bending(label);
        near(
            bending.allowable_moment(Length::ZERO).as_kip_feet(),
            figure("Mn_over_omega_Lb0_kipft_Fy50"),
            0.06,
            label,
        );
        near(
            bending.plastic_length_in() / 12.0,
            figure("Lp_ft"),
            0.006,
            label,
        );
        near(
            bending.elastic_length_in() / 12.0,
            figure("Lr_ft"),
            0.06,
            label,
        );
        let shear = allowable_shear(&profile(label), FY).as_pounds();
        near(shear / 1000.0, figure("Vn_over_omega_kip"), 0.06, label);
        let omega = 0.6 * 50.0 * profile(label).depth_in * profile(label).web_in / (shear / 1000.0);
        near(omega, figure("omega_v"), 1e-9, label);
        rows += 1;
    }
    assert_eq!(rows, shapes::COUNT);
}

/// Source: computed apart from this code by AISC 360-22 F2 with Cb = 1.
#[test]
fn allowable_moments_with_free_flanges() {
    for (label, free_ft, wanted) in [
        ("W10X33", 16, 74.9),
        ("W8X31", 12, 68.2),
        ("W12X26", 10, 76.0),
        ("W8X18", 14, 25.2), // beyond Lr
        ("W8X18", 0, 42.4),
    ] {
        near(
            bending(label).allowable_moment(feet(free_ft)).as_kip_feet(),
            wanted,
            0.06,
            label,
        );
    }
}

/// Trap: h/tw of the W12X14 is 54.3, above 2.24 sqrt(E/Fy) = 53.9, so its
/// factor is 1.67. Source: AISC 360-22 G2.1; AISC Manual Table 3-2 footnote.
#[test]
fn the_web_of_the_w12x14_has_the_greater_factor() {
    let trap = profile("W12X14");
    near(trap.web_slenderness(), 54.3, 0.06, "h/tw");
    assert!(trap.web_slenderness() > 2.24 * (E_PSI / 50_000.0).sqrt());
    let nominal = 0.6 * 50_000.0 * 11.9 * 0.2;
    near(
        allowable_shear(&trap, FY).as_pounds(),
        nominal / OMEGA_SHEAR,
        1e-6,
        "W12X14",
    );
    let stocky = profile("W12X16");
    near(
        allowable_shear(&stocky, FY).as_pounds(),
        0.6 * 50_000.0 * 12.0 * 0.22 / OMEGA_SHEAR_STOCKY,
        1e-6,
        "W12X16",
    );
}

/// Trap: flanges that are not compact at 50 ksi. Source: AISC Manual Table 3-2
/// footnote f; Mn of these stays below Mp.
#[test]
fn flanges_that_are_not_compact_carry_less_than_mp() {
    for label in ["W6X9", "W6X15", "W8X10", "W8X31", "W10X12"] {
        let bending = bending(label);
        assert!(
            bending.nominal_moment(Length::ZERO) < bending.plastic_moment(),
            "{label}"
        );
    }
    for label in ["W8X18", "W10X33", "W12X26", "W8X35"] {
        let bending = bending(label);
        assert_eq!(
            bending.nominal_moment(Length::ZERO),
            bending.plastic_moment(),
            "{label}"
        );
    }
}

#[test]
fn a_longer_free_flange_never_carries_more() {
    for section in shapes::all() {
        let profile = Profile::of(&section).unwrap();
        let bending = Bending::new(profile, profile.moduli(&section).unwrap(), FY).unwrap();
        let mut last = f64::INFINITY;
        for inches in 0..960 {
            let moment = bending
                .nominal_moment(Length::from_inches(inches))
                .as_pound_inches();
            // The published Lr and rts are rounded: the two branches may meet
            // with a step of a few parts in ten thousand.
            assert!(moment <= last * 1.001, "{section:?} at {inches}");
            last = moment;
        }
    }
}

/// A shape off the card with the moduli of a table shape: ry, rts, J and ho of
/// its plates come near the published ones (fillets: a few percent).
#[test]
fn a_shape_off_the_card_takes_the_rest_from_its_plates() {
    for label in ["W8X18", "W10X33", "W12X26", "W12X65", "W6X9"] {
        let section = shapes::find(label).unwrap();
        let profile = profile(label);
        let published = profile.moduli(&section).unwrap();
        let bare = custom(&section, true);
        let plates = Profile::of(&bare).unwrap().moduli(&bare).unwrap();
        let close =
            |a: f64, b: f64, part: f64| assert!((a / b - 1.0).abs() < part, "{label} {a} {b}");
        close(plates.ry_in, published.ry_in, 0.015);
        close(plates.rts_in, published.rts_in, 0.02);
        close(plates.ho_in, published.ho_in, 0.01);
        assert!(
            plates.j_in4 < published.j_in4 && plates.j_in4 > 0.75 * published.j_in4,
            "{label}"
        );
        let bare = custom(&section, false);
        assert_eq!(
            Profile::of(&bare).unwrap().moduli(&bare),
            Err(Lack::Field("row shape has no SX and ZX"))
        );
    }
}

/// The same dimensions as a row `shape`.
fn custom(section: &Section, with_moduli: bool) -> Section {
    use boltbay_core::decimal::Decimal;
    use boltbay_core::job::{Beam, BeamLength};
    use boltbay_core::words::Units;
    let mut job = boltbay_core::Job::new(Units::Imperial);
    let hundredths = |figure: f64| Decimal::new((figure * 100.0).round() as i32, 2);
    job.beam = Some(Beam {
        designation: "CUSTOM".try_into().unwrap(),
        length: Length::from_inches(172),
        measured: BeamLength::Measured,
    });
    job.shape = Some(Shape {
        depth: section.depth(),
        width: section.width(),
        web: section.web(),
        flange: section.flange(),
        k_design: section.k_design(),
        k_detail: section.k_detail(),
        k1: section.k1(),
        weight: Decimal::whole(18),
        ix: None,
        sx: section.sx().filter(|_| with_moduli).map(hundredths),
        zx: section.zx().filter(|_| with_moduli).map(hundredths),
    });
    Section::of(&job).unwrap()
}

#[test]
fn what_the_rules_do_not_reach_is_said() {
    let profile = profile("W8X18");
    let moduli = profile.moduli(&shapes::find("W8X18").unwrap()).unwrap();
    for fy in [0.0, -50_000.0, f64::NAN] {
        assert_eq!(
            Bending::new(profile, moduli, Stress::from_psi(fy)),
            Err(Lack::Row("steel"))
        );
    }
    let thin = Profile {
        web_in: 0.05,
        ..profile
    };
    assert!(matches!(
        Bending::new(thin, moduli, FY),
        Err(Lack::Outside(_))
    ));
}

/// Source: AISC 360-22 J4.2(b), B4.3b, worked by hand: W8X18, two 9/16 holes:
/// (8.14 - 2 x .625) x .23 = 1.5847 in2; x .6 x 65 / 2 = 30.90 kip. None:
/// 8.14 x .23 x 39 / 2 = 36.51 kip.
#[test]
fn shear_rupture_takes_each_hole_a_sixteenth_wider() {
    let w8x18 = profile("W8X18");
    let fu = Stress::from_psi(65_000.0);
    let hole = Length::from_sixteenths(9);
    let carried = |hole, holes| allowable_net_shear(&w8x18, fu, hole, holes).as_pounds();
    near(carried(hole, 2), 30_901.65, 0.01, "two");
    near(carried(hole, 0), 36_507.9, 0.01, "none");
    near(carried(Length::from_inches(9), 1), 0.0, 0.0, "gone");
    let at = Length::from_inches(12);
    let [limit, more] = [30_000.0, 30_001.0].map(Force::from_pounds);
    let check = steel::net_web_shear(limit, limit, at);
    assert_eq!(check.kind(), Kind::NetWebShear);
    assert_eq!((check.place(), check.ok()), (Place::At(at), Some(true)));
    assert_eq!(steel::net_web_shear(limit, more, at).ok(), Some(false));
}

/// The row `braced` names the top flange, then the bottom one; what it does not
/// name is free between supports.
#[test]
fn the_pressed_flange_decides() {
    let between = [feet(14), feet(16)];
    assert_eq!(free_lengths(None, between), between);
    assert_eq!(
        free_lengths(Some((feet(2), None)), between),
        [feet(2), feet(16)]
    );
    assert_eq!(
        free_lengths(Some((feet(2), Some(feet(4)))), between),
        [feet(2), feet(4)]
    );
    let bending = bending("W8X18");
    let at = Length::ZERO;
    // W8X18: 42.4 kip-ft braced, 25.2 over 14 ft.
    let moment = (Moment::from_kip_feet(30.0), at);
    let [down, up] = steel::moments(&bending, [Length::ZERO, feet(14)], [moment; 2]);
    assert_eq!((down.ok(), up.ok()), (Some(true), Some(false)));
    near(down.capacity().unwrap(), 42_400.0, 60.0, "braced");
    near(up.capacity().unwrap(), 25_200.0, 60.0, "free");
    let limit = bending.allowable_moment(Length::ZERO);
    let more = limit + Moment::from_pound_feet(0.01);
    let [equal, more] = steel::moments(&bending, [Length::ZERO; 2], [(limit, at), (more, at)]);
    assert_eq!((equal.ok(), more.ok()), (Some(true), Some(false)));
    near(OMEGA_BENDING, 1.67, 0.0, "AISC 360-22 F1");
}

/// Source: AISC 360-22 G2.1 by hand: .6 x 50 x 8.14 x .23 / 1.5 = 37,444 lb.
#[test]
fn web_shear_on_the_edge() {
    let check = |pounds| {
        let shear = Force::from_pounds(pounds);
        steel::web_shear(&profile("W8X18"), FY, shear, Length::ZERO).ok()
    };
    assert_eq!(check(37_444.0), Some(true));
    assert_eq!(check(37_445.0), Some(false));
}

/// Source: IRC Table R301.7 (L/360), IBC Table 1604.3 (L/240): 14 ft: .467 and
/// .700 in; W8X18 under 500 plf sags .2408 in (5 w L4 / 384 EI).
#[test]
fn deflections_against_their_limits() {
    use boltbay_core::force::Sag;
    use boltbay_core::statics::{Segment, SegmentSag};
    let sag = |inches| SegmentSag {
        segment: Segment::Span(1),
        from: Length::ZERO,
        to: feet(14),
        dead: Sag::ZERO,
        all: Sag::ZERO,
        total: Sag::from_inches(inches),
        live: Sag::from_inches(inches),
        live_up: Sag::ZERO,
    };
    let [live, total] = steel::deflections(&sag(0.2408), 1);
    near(live.capacity().unwrap(), 0.467, 0.0005, "L/360");
    near(total.capacity().unwrap(), 0.700, 0.0005, "L/240");
    assert_eq!((live.ok(), total.ok()), (Some(true), Some(true)));
    assert_eq!(live.place(), Place::Segment(1));
    let edge = |inches| steel::deflections(&sag(inches), 1).map(|check| check.ok().unwrap());
    assert_eq!(edge(168.0 / 360.0), [true, true]);
    assert_eq!(edge(168.0 / 360.0 + 1e-6), [false, true]);
    assert_eq!(edge(0.7), [false, true]);
    assert_eq!(edge(0.700001), [false, false]);
}
