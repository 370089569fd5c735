//! What a tape may be out by itself, against what a run may be out by.

use boltbay_core::length::Length;
use boltbay_core::tape::tolerance;
use boltbay_core::words::Units;

/// Up to this many feet, out by this much in inches.
///
/// Source: NIST Handbook 44, Section 5.52, Table 1, metal tapes, maintenance
/// tolerances.
const TAPES: [(i32, f64); 5] = [
    (6, 1.0 / 32.0),
    (30, 1.0 / 16.0),
    (55, 1.0 / 8.0),
    (80, 3.0 / 16.0),
    (100, 1.0 / 4.0),
];

fn of_a_tape(feet: i32) -> f64 {
    TAPES
        .iter()
        .find(|(reach, _)| feet <= *reach)
        .map(|(_, out)| *out)
        .unwrap()
}

/// Ours must not be finer than the tape's own. Practice: 1/8 in up to 16 ft, 1/4
/// in above; the steel is at most 80 ft long.
#[test]
fn no_run_is_held_to_more_than_the_tape_can_do() {
    for feet in 1..=80 {
        let distance = Length::from_inches(12 * feet);
        for units in [Units::Imperial, Units::Metric] {
            let ours = tolerance(units, distance).as_inches();
            assert!(ours >= of_a_tape(feet), "{feet} ft {units:?}: {ours}");
        }
    }
}

/// Largest class II error in mm by length in m.
///
/// Source: Directive 2014/32/EU, Annex X, class II: 0.3 + 0.2 L, L in whole
/// metres rounded up.
#[test]
fn metric_tapes_of_class_ii_pass_too() {
    for metres in 1..=25 {
        let class_ii = 0.3 + 0.2 * f64::from(metres);
        let ours = tolerance(Units::Metric, Length::from_millimetres(1000 * metres));
        assert!(ours.as_millimetres() >= class_ii, "{metres} m");
    }
}

/// Common practice, no source: the step from 1/8 to 1/4 in lies at 16 ft.
#[test]
fn the_step_lies_at_sixteen_feet() {
    let limit = Length::from_inches(16 * 12);
    let above = Length::from_counts(limit.counts() + 1);
    let eighth = Length::from_sixteenths(2);
    assert_eq!(tolerance(Units::Imperial, limit), eighth);
    assert_eq!(
        tolerance(Units::Imperial, above),
        Length::from_sixteenths(4)
    );
    let limit = Length::from_millimetres(4_880);
    assert_eq!(tolerance(Units::Metric, limit), Length::from_millimetres(3));
}
