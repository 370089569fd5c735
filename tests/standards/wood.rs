//! Sizes of lumber and sheet, against the default joist and the rule for the
//! outer layer of the packing, which takes the hanger nails.

use boltbay_core::Job;
use boltbay_core::checks::wood::dowel_across;
use boltbay_core::defaults;
use boltbay_core::job::Species;
use boltbay_core::length::Length;
use boltbay_core::packing::outer_least;
use boltbay_core::words::Units;

/// Nominal thickness, dressed dry and green, in inches.
///
/// Source: PS 20-20, minimum dressed sizes, as printed in NDS Supplement Table 1A.
const LUMBER: [(f64, f64, f64); 9] = [
    (1.0, 0.75, 0.78125),
    (1.25, 1.0, 1.03125),
    (1.5, 1.25, 1.28125),
    (2.0, 1.5, 1.5625),
    (2.5, 2.0, 2.0625),
    (3.0, 2.5, 2.5625),
    (3.5, 3.0, 3.0625),
    (4.0, 3.5, 3.5625),
    (4.5, 4.0, 4.0625),
];

/// Performance category, least and greatest thickness in inches.
///
/// Source: PS 1-19 and PS 2-18, performance categories: 1/32 in either way up to
/// 13/16, 5 % above.
const SHEETS: [(f64, f64, f64); 12] = [
    (0.25, 0.219, 0.281),
    (0.375, 0.344, 0.406),
    (0.4375, 0.406, 0.469),
    (0.46875, 0.438, 0.500),
    (0.5, 0.469, 0.531),
    (0.59375, 0.563, 0.625),
    (0.625, 0.594, 0.656),
    (0.71875, 0.688, 0.750),
    (0.75, 0.719, 0.781),
    (0.875, 0.831, 0.919),
    (1.0, 0.950, 1.050),
    (1.125, 1.069, 1.181),
];

#[test]
fn the_sheet_table_is_consistent_with_its_own_tolerance() {
    for (category, least, greatest) in SHEETS {
        let tolerance = if category <= 0.8125 {
            1.0 / 32.0
        } else {
            0.05 * category
        };
        assert!((category - tolerance - least).abs() < 1e-3, "{category}");
        assert!((category + tolerance - greatest).abs() < 1e-3, "{category}");
    }
}

#[test]
fn the_default_joist_is_a_dry_two_by() {
    let (_, dry, _) = LUMBER
        .into_iter()
        .find(|(nominal, ..)| *nominal == 2.0)
        .unwrap();
    let inch = defaults::thickness(&Job::new(Units::Imperial));
    assert_eq!(inch.as_inches(), dry);
    // 1 1/2 in is 38.1 mm: a metric tape says 38.
    let metric = defaults::thickness(&Job::new(Units::Metric));
    assert!((metric.as_millimetres() - dry * 25.4).abs() < 0.5);
}

/// Every 2x and thicker board may be the outer layer, even dried from 19 % to
/// 8 %; no board or sheet below may.
///
/// Source for the shrinkage: USDA Wood Handbook and NDS commentary, 1 % for 4 %
/// of moisture (from memory).
#[test]
fn the_outer_layer_is_a_two_by_or_thicker() {
    for units in [Units::Imperial, Units::Metric] {
        let least = outer_least(units).as_inches();
        for (nominal, dry, green) in LUMBER {
            let dried = dry * (1.0 - 0.01 * (19.0 - 8.0) / 4.0);
            let may = nominal >= 2.0;
            assert_eq!(dry >= least, may, "{nominal} dry");
            assert_eq!(green >= least, may, "{nominal} green");
            assert_eq!(dried >= least, may, "{nominal} dried");
        }
        for (category, _, greatest) in SHEETS {
            assert!(greatest < least, "{category}");
        }
    }
    assert_eq!(outer_least(Units::Imperial), Length::from_sixteenths(23));
}

/// Trap: 16,600 G^1.84, not 16,000. Source: NDS 2024 12.3.3 and Table 12.3.3:
/// specific gravity of the species, Fe of a nail below 1/4 in; across the grain
/// 6,100 G^1.45 / sqrt(D) from 1/4 in on, both to the nearest 50 psi.
#[test]
fn dowel_bearing_follows_the_specific_gravity() {
    let fifty = |psi: f64| (psi / 50.0).round() * 50.0;
    for (species, gravity, printed) in [
        (Species::Spf, 0.42_f64, 3350.0),
        (Species::Hf, 0.43, 3500.0),
        (Species::DfL, 0.50, 4650.0),
        (Species::Sp, 0.55, 5550.0),
    ] {
        let nail = dowel_across(species, Length::from_thousandths(148)).as_psi();
        assert_eq!(nail, printed);
        assert_eq!(nail, fifty(16_600.0 * gravity.powf(1.84)));
        assert_ne!(nail, fifty(16_000.0 * gravity.powf(1.84)), "the trap");
        for sixteenths in [4, 6, 8, 10, 12, 16] {
            let bolt = dowel_across(species, Length::from_sixteenths(sixteenths)).as_psi();
            let diameter = f64::from(sixteenths) / 16.0;
            assert_eq!(bolt, fifty(6_100.0 * gravity.powf(1.45) / diameter.sqrt()));
        }
    }
}
