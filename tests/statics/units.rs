//! Units of force, load, stress and moment.
//!
//! Source: NIST SP 811 (2008), Appendix B.8: 1 lbf = 4.448 222 N, 1 kip =
//! 4.448 222 kN, 1 lbf/ft = 14.593 90 N/m, 1 lbf/ft2 = 47.880 26 Pa, 1 psi =
//! 6.894 757 kPa, 1 ksi = 6.894 757 MPa, 1 lbf ft = 1.355 818 N m. Published to
//! seven figures, so that is what is asked.

use boltbay_core::Length;
use boltbay_core::decimal::Decimal;
use boltbay_core::force::{AreaLoad, Force, LineLoad, Moment, Sag, Stress};
use boltbay_core::words::Units;

fn near(found: f64, published: f64) {
    let off = (found - published).abs() / published.abs();
    assert!(off < 5.1e-7, "{found} is not {published}");
}

#[test]
fn published_factors() {
    near(Force::from_pounds(1.0).as_newtons(), 4.448_222);
    near(Force::from_kips(1.0).as_kilonewtons(), 4.448_222);
    near(Force::from_kilonewtons(4.448_222).as_pounds(), 1_000.0);
    near(Force::from_newtons(4.448_222).as_kips(), 0.001);
    let line = LineLoad::from_pounds_per_foot(1_000.0);
    near(line.as_kilonewtons_per_metre(), 14.593_90);
    let line = LineLoad::from_kilonewtons_per_metre(14.593_90);
    near(line.as_pounds_per_foot(), 1_000.0);
    let area = AreaLoad::from_pounds_per_square_foot(1_000.0);
    near(area.as_kilopascals(), 47.880_26);
    let area = AreaLoad::from_kilopascals(47.880_26);
    near(area.as_pounds_per_square_foot(), 1_000.0);
    near(Stress::from_ksi(1.0).as_megapascals(), 6.894_757);
    near(Stress::from_megapascals(6.894_757).as_psi(), 1_000.0);
    let moment = Moment::from_kip_feet(1.0);
    near(moment.as_kilonewton_metres(), 1.355_818);
    let moment = Moment::from_kilonewton_metres(1.355_818);
    near(moment.as_pound_feet(), 1_000.0);
    near(Sag::from_inches(1.0).as_millimetres(), 25.4);
    near(Sag::from_millimetres(25.4).as_inches(), 1.0);
}

/// Common practice, no source: joists of 14 ft and 12 ft on either side at
/// 50 psf give the beam 13 ft of floor, 650 plf.
#[test]
fn tributary_width_times_area_load() {
    let area = AreaLoad::from_pounds_per_square_foot(50.0);
    let line = area * Length::from_inches(13 * 12);
    assert!((line.as_pounds_per_foot() - 650.0).abs() < 1e-9);
    let force = line * Length::from_inches(10 * 12);
    assert!((force.as_pounds() - 6_500.0).abs() < 1e-9);
    let moment = force * Length::from_inches(24);
    assert!((moment.as_pound_feet() - 13_000.0).abs() < 1e-9);
    let (length, width) = (Length::from_inches(4), Length::from_inches(5));
    let stress = Stress::over(force, length, width);
    assert!((stress.as_psi() - 325.0).abs() < 1e-9);
    assert!((stress.on(length, width) - force).abs().as_pounds() < 1e-9);
    assert!((force.over(Length::from_inches(120)) - line).as_pounds_per_foot() < 1e-9);
}

#[test]
fn keyed_figures_take_the_units_of_the_job() {
    let (us, si) = (Units::Imperial, Units::Metric);
    let ten = Decimal::whole(10);
    assert_eq!(Force::keyed(ten, us), Force::from_pounds(10.0));
    assert_eq!(Force::keyed(ten, si), Force::from_kilonewtons(10.0));
    assert_eq!(
        LineLoad::keyed(ten, us),
        LineLoad::from_pounds_per_foot(10.0)
    );
    assert_eq!(
        LineLoad::keyed(ten, si),
        LineLoad::from_kilonewtons_per_metre(10.0)
    );
    assert_eq!(
        AreaLoad::keyed(ten, us),
        AreaLoad::from_pounds_per_square_foot(10.0)
    );
    assert_eq!(AreaLoad::keyed(ten, si), AreaLoad::from_kilopascals(10.0));
    assert_eq!(Stress::keyed_ksi(ten, us), Stress::from_ksi(10.0));
    assert_eq!(Stress::keyed_psi(ten, us), Stress::from_psi(10.0));
    assert_eq!(Stress::keyed_ksi(ten, si), Stress::from_megapascals(10.0));
    assert_eq!(Stress::keyed_psi(ten, si), Stress::from_megapascals(10.0));
}
