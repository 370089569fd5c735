//! Ratios on the edge: a demand equal to its capacity passes, one unit more
//! fails. The loads are chosen so that the deflection is a whole part of the
//! span: simple beam, 5 w L^4 / (384 E I) (AISC Manual Table 3-23, case 1) with
//! L = 10 ft, I = 27 in4, E = 29,000 ksi: w = 1160 plf makes L/360 exactly,
//! w = 1740 plf L/240.

use super::build::{Bench, feet, near};
use boltbay_core::statics::{Apart, DeflectionLimit, Model, Segment, SegmentSag, within};

fn sag(dead: f64, live: f64) -> SegmentSag {
    let bench = Bench::weightless(27.0, feet(10.0)).on(&[feet(0.0), feet(10.0)]);
    bench.line(feet(0.0), feet(10.0), dead, live).solve().sags[0]
}

#[test]
fn equal_passes_one_more_fails() {
    use DeflectionLimit::{Live, Total};
    let edge = sag(580.0, 1_160.0);
    let (demand, capacity) = edge.limit(Live);
    near(demand.as_inches(), 1.0 / 3.0, 1e-12, "live");
    near(capacity.as_inches(), 1.0 / 3.0, 1e-15, "L/360");
    let (demand, capacity) = edge.limit(Total);
    near(demand.as_inches(), 0.5, 1e-12, "total");
    near(capacity.as_inches(), 0.5, 1e-15, "L/240");
    assert!(edge.keeps(Live) && edge.keeps(Total));
    near(edge.ratio_live().expect("it sags"), 360.0, 1e-9, "ratio");
    near(edge.ratio_total().expect("it sags"), 240.0, 1e-9, "ratio");
    for more in [1.0, 0.0001] {
        let over = sag(580.0 - more, 1_160.0 + more);
        assert!(!over.keeps(Live) && over.keeps(Total), "{more} plf live");
        let over = sag(580.0 + more, 1_160.0);
        assert!(over.keeps(Live) && !over.keeps(Total), "{more} plf dead");
    }
}

/// An overhang counts twice: P a^2 (L + a) / (3 E I) = 2 a / 360 (AISC Manual
/// Table 3-23, case 26) for L = 14 ft, a = 3 ft, I = 55.08 in4 and P = 3625 lb.
#[test]
fn an_overhang_counts_twice() {
    let tip = |live: f64| {
        let bench = Bench::weightless(55.08, feet(17.0)).on(&[feet(0.0), feet(14.0)]);
        bench.point(feet(17.0), 0.0, live).solve().sags[1]
    };
    let edge = tip(3_625.0);
    assert_eq!(edge.segment, Segment::OverhangB);
    near(edge.span(), 72.0, 0.0, "twice 36 in");
    near(edge.live.as_inches(), 0.2, 1e-12, "2 a / 360");
    assert!(edge.keeps(DeflectionLimit::Live));
    assert!(!tip(3_626.0).keeps(DeflectionLimit::Live));
}

#[test]
fn within_is_strict_but_for_dust() {
    assert!(within(1.0, 1.0) && within(0.1 + 0.2, 0.3) && within(0.0, 0.0));
    assert!(!within(1.0 + 1e-8, 1.0) && !within(1e-300, 0.0));
    assert!(!within(f64::NAN, 1.0) && !within(1.0, f64::NAN));
    assert!(!within(f64::INFINITY, 1.0));
}

/// A load on the very tip: beyond it there is no steel in which the shear could
/// be nothing. AISC Manual Table 3-23, case 22 (cantilever, concentrated load at
/// its free end): V = P all along.
#[test]
fn a_load_on_the_tip_shears_up_to_it() {
    let on = [feet(3.0), feet(17.0)];
    for (tip, places, p) in [(20.0, [18.0, 20.0], 3_625.0), (0.0, [1.0, 0.0], -3_625.0)] {
        let bench = Bench::weightless(55.08, feet(20.0)).on(&on);
        let bench = bench.point(feet(tip), 3_625.0, 0.0);
        let model = Model::of(&bench.0, [None, None]).expect("a model");
        for at in places {
            let mut apart = Apart::UNSOLVED;
            let inside = model.envelope(&mut apart).at(feet(at));
            near(inside.shear_most.as_pounds(), p, 1e-9, "most");
            near(inside.shear_least.as_pounds(), p, 1e-9, "least");
        }
    }
}
