//! Threads, nuts, washers and holes, each row with its source.

use boltbay_core::Job;
use boltbay_core::hardware::{
    Hardware, STANDARDS, Standard, missing, standard_web_hole, usual_wood_hole, washer_radius,
    washer_sizes,
};
use boltbay_core::job::{Bolt, Nut, Washer, WasherShape};
use boltbay_core::length::Length;
use boltbay_core::words::{Side, Units};

/// Inches as published, to the thousandth.
fn inches(figure: f64) -> Length {
    let thousandths = (figure * 1000.0).round();
    assert!((figure * 1000.0 - thousandths).abs() < 1e-6);
    Length::from_thousandths(thousandths as i32)
}

fn millimetres(figure: f64) -> Length {
    Length::from_counts((figure * 40_000.0).round() as i32)
}

fn sixteenths(figure: i32) -> Length {
    Length::from_sixteenths(figure)
}

/// Diameter in sixteenths; tensile area, external minor diameter in inches.
///
/// Source: ASME B1.1-2003, coarse threads: tensile stress areas and UNR minor
/// diameters as tabulated; the minor diameters are also NDS Appendix L, Table L1.
const INCH_THREADS: [(i32, f64, f64); 6] = [
    (6, 0.0775, 0.2983),
    (8, 0.1419, 0.4056),
    (10, 0.2260, 0.5135),
    (12, 0.3345, 0.6273),
    (14, 0.4617, 0.7387),
    (16, 0.6057, 0.8466),
];

#[test]
fn inch_threads_give_the_published_areas_and_roots() {
    for (diameter, area, root) in INCH_THREADS {
        let thread = Standard::of(sixteenths(diameter)).unwrap().thread;
        assert!((thread.tensile_area() - area).abs() < 1e-4, "{diameter}/16");
        assert!((thread.root() - root).abs() < 1e-4, "{diameter}/16");
    }
}

/// Diameter and pitch in mm, tensile area in mm2, root in mm.
///
/// Source: ISO 898-1:2013 Table 4 (areas), ISO 262 (pitches), ISO 724 with
/// ISO 68-1 (d3 = d - 1.22687 P: 8.160, 9.853, 13.546, 16.933).
const METRIC_THREADS: [(i32, f64, f64, f64); 4] = [
    (10, 1.5, 58.0, 8.160),
    (12, 1.75, 84.3, 9.853),
    (16, 2.0, 157.0, 13.546),
    (20, 2.5, 245.0, 16.933),
];

#[test]
fn metric_threads_give_the_published_areas_and_roots() {
    for (diameter, pitch, area, root) in METRIC_THREADS {
        let thread = Standard::of(Length::from_millimetres(diameter))
            .unwrap()
            .thread;
        assert!(
            (thread.pitch_inches() * 25.4 - pitch).abs() < 1e-9,
            "M{diameter}"
        );
        let found = thread.tensile_area() * 25.4 * 25.4;
        // Printed to three figures.
        let half_a_digit = if area < 100.0 { 0.05 } else { 0.5 };
        assert!((found - area).abs() <= half_a_digit, "M{diameter}: {found}");
        assert!((thread.root() * 25.4 - root).abs() < 1e-3, "M{diameter}");
    }
}

/// Diameter in sixteenths; thickness basic, greatest; corners greatest.
///
/// Source: ASME B18.2.2-2015 Table 2, hex nuts.
const INCH_NUTS: [(i32, f64, f64, f64); 6] = [
    (6, 21.0 / 64.0, 0.337, 0.650),
    (8, 7.0 / 16.0, 0.448, 0.866),
    (10, 35.0 / 64.0, 0.559, 1.083),
    (12, 41.0 / 64.0, 0.665, 1.299),
    (14, 3.0 / 4.0, 0.776, 1.516),
    (16, 55.0 / 64.0, 0.887, 1.732),
];

#[test]
fn inch_nuts_are_the_published_ones() {
    for (diameter, basic, greatest, corners) in INCH_NUTS {
        let nut = Standard::of(sixteenths(diameter)).unwrap().nut;
        assert_eq!(nut.thickness.nominal.as_inches(), basic, "{diameter}/16");
        assert_eq!(nut.thickness.greatest, inches(greatest), "{diameter}/16");
        assert_eq!(nut.across_corners, inches(corners), "{diameter}/16");
    }
}

/// Diameter, thickness greatest, corners least, flats greatest, in mm.
///
/// Source: ISO 4032:2012 Table 1, style 1.
const METRIC_NUTS: [(i32, f64, f64, f64); 4] = [
    (10, 8.4, 17.77, 16.0),
    (12, 10.8, 20.03, 18.0),
    (16, 14.8, 26.75, 24.0),
    (20, 18.0, 32.95, 30.0),
];

#[test]
fn metric_nuts_are_the_published_ones() {
    for (diameter, greatest, corners_least, flats) in METRIC_NUTS {
        let nut = Standard::of(Length::from_millimetres(diameter))
            .unwrap()
            .nut;
        assert_eq!(nut.thickness.greatest, millimetres(greatest), "M{diameter}");
        // The standard has no greatest corners: a sharp hexagon is the limit.
        let sharp = flats * 2.0 / 3.0_f64.sqrt();
        let corners = nut.across_corners.as_millimetres();
        assert!(corners >= sharp && corners < sharp + 0.01, "M{diameter}");
        assert!(corners > corners_least, "M{diameter}");
    }
}

/// Diameter in sixteenths; outside diameter, thickness, greatest thickness of
/// wide, then narrow.
///
/// Source: ASME B18.21.1-2009 (R2016), type A plain washers, preferred sizes.
/// From memory: the wide washers of 7/8 and 1 in.
const INCH_WASHERS: [(i32, [f64; 3], [f64; 3]); 6] = [
    (6, [1.000, 0.083, 0.104], [0.812, 0.065, 0.080]),
    (8, [1.375, 0.109, 0.132], [1.062, 0.095, 0.121]),
    (10, [1.750, 0.134, 0.160], [1.312, 0.095, 0.121]),
    (12, [2.000, 0.148, 0.177], [1.469, 0.134, 0.160]),
    (14, [2.250, 0.165, 0.192], [1.750, 0.134, 0.160]),
    (16, [2.500, 0.165, 0.192], [2.000, 0.134, 0.160]),
];

#[test]
fn inch_washers_are_the_published_ones() {
    for (diameter, wide, narrow) in INCH_WASHERS {
        let standard = Standard::of(sixteenths(diameter)).unwrap();
        for (washer, wanted) in standard.washers.iter().zip([wide, narrow]) {
            let found = [
                washer.size,
                washer.thickness.nominal,
                washer.thickness.greatest,
            ];
            assert_eq!(found, wanted.map(inches), "{diameter}/16");
        }
        assert_eq!(
            standard.usual_washer().size,
            inches(wide[0]),
            "wide is usual"
        );
    }
}

/// Diameter; outside diameter, thickness, greatest thickness in mm of the
/// normal series, then of the large one.
///
/// Source: ISO 7089:2000 and ISO 7093-1:2000, Table 1 of each.
const METRIC_WASHERS: [(i32, [f64; 3], [f64; 3]); 4] = [
    (10, [20.0, 2.0, 2.2], [30.0, 2.5, 2.7]),
    (12, [24.0, 2.5, 2.7], [37.0, 3.0, 3.3]),
    (16, [30.0, 3.0, 3.3], [50.0, 3.0, 3.3]),
    (20, [37.0, 3.0, 3.3], [60.0, 4.0, 4.3]),
];

#[test]
fn metric_washers_are_the_published_ones() {
    for (diameter, normal, large) in METRIC_WASHERS {
        let standard = Standard::of(Length::from_millimetres(diameter)).unwrap();
        for (washer, wanted) in standard.washers.iter().zip([large, normal]) {
            let found = [
                washer.size,
                washer.thickness.nominal,
                washer.thickness.greatest,
            ];
            assert_eq!(found, wanted.map(millimetres), "M{diameter}");
        }
        assert_eq!(standard.usual_washer().size, millimetres(normal[0]));
    }
}

/// Diameter and standard hole in sixteenths of an inch.
///
/// Source: AISC 360-22 Table J3.3; 1 in from memory (1 1/8 from the 2016
/// edition on). Common practice, no source: 3/8 in.
const INCH_HOLES: [(i32, i32); 6] = [(6, 7), (8, 9), (10, 11), (12, 13), (14, 15), (16, 18)];

/// Diameter and standard hole in mm.
///
/// Source: AISC 360-16 Table J3.3M for M16 and M20. Common practice, no source:
/// M10 and M12.
const METRIC_HOLES: [(i32, i32); 4] = [(10, 12), (12, 14), (16, 18), (20, 22)];

#[test]
fn web_holes_are_the_standard_ones() {
    for (diameter, hole) in INCH_HOLES {
        // An inch bolt keeps its hole in a metric job.
        for units in [Units::Imperial, Units::Metric] {
            let found = standard_web_hole(sixteenths(diameter), units);
            assert_eq!(found, sixteenths(hole), "{diameter}/16");
        }
    }
    for (diameter, hole) in METRIC_HOLES {
        let diameter = Length::from_millimetres(diameter);
        let hole = Length::from_millimetres(hole);
        assert_eq!(standard_web_hole(diameter, Units::Metric), hole);
    }
    // Source: AISC 360-16 Table J3.3M: M22 24, M24 27, M36 and above d + 3.
    for (diameter, hole) in [(22, 24), (24, 27), (36, 39)] {
        let diameter = Length::from_millimetres(diameter);
        let hole = Length::from_millimetres(hole);
        assert_eq!(standard_web_hole(diameter, Units::Metric), hole);
    }
}

/// Source: NDS 2024 12.1.3.2: at least 1/32, at most 1/16 in over the bolt.
#[test]
fn wood_holes_stay_within_the_published_range() {
    for standard in &STANDARDS {
        let diameter = standard.thread.diameter;
        for units in [Units::Imperial, Units::Metric] {
            let over = usual_wood_hole(diameter, units)
                .checked_sub(diameter)
                .unwrap();
            assert!(over >= Length::from_sixty_fourths(2));
            assert!(over <= Length::from_sixty_fourths(4));
            // A bit that passes the web: no larger than its standard hole.
            assert!(usual_wood_hole(diameter, units) <= standard.web_hole);
        }
    }
}

fn job(units: Units, diameter: Length) -> Job {
    let mut job = Job::new(units);
    job.bolt = Some(Bolt {
        diameter,
        web_hole: None,
        wood_hole: None,
        fyb: None,
    });
    job
}

const HALF: Length = Length::from_sixteenths(8);

#[test]
fn a_bare_bolt_row_gets_all_its_hardware_as_defaults() {
    let hardware = Hardware::of(&job(Units::Imperial, HALF)).unwrap();
    assert_eq!(hardware.web_hole, sixteenths(9));
    assert_eq!(hardware.wood_hole, sixteenths(9));
    assert!(hardware.defaulted.web_hole && hardware.defaulted.wood_hole);
    assert!(hardware.defaulted.nut);
    assert_eq!(hardware.defaulted.washers, [true; 2]);
    for side in Side::BOTH {
        assert_eq!(hardware.washer(side).shape, WasherShape::Round);
        // Half of 1 3/8.
        assert_eq!(hardware.radius(side), sixteenths(11));
    }
    let metric = Hardware::of(&job(Units::Metric, Length::from_millimetres(12))).unwrap();
    assert_eq!(metric.wood_hole, Length::from_tenth_millimetres(135));
    assert_eq!(metric.radius(Side::N), Length::from_millimetres(12));
}

#[test]
fn what_is_keyed_stands_and_is_no_default() {
    let mut job = job(Units::Imperial, HALF);
    job.bolt.as_mut().unwrap().web_hole = Some(sixteenths(12));
    job.washers[1] = Some(Washer {
        size: sixteenths(32),
        shape: WasherShape::Turns,
        thickness: Some(sixteenths(3)),
    });
    job.nut = Some(Nut {
        thickness: sixteenths(8),
        across_corners: None,
    });
    let hardware = Hardware::of(&job).unwrap();
    assert_eq!(hardware.web_hole, sixteenths(12));
    assert!(!hardware.defaulted.web_hole && !hardware.defaulted.nut);
    assert_eq!(hardware.defaulted.washers, [true, false]);
    assert_eq!(hardware.washer(Side::S).thickness.greatest, sixteenths(3));
    assert_eq!(hardware.nut.thickness.greatest, sixteenths(8));
    assert_eq!(hardware.nut.across_corners, inches(0.866));
    assert_eq!(hardware.radius(Side::N), sixteenths(11));
    // 2 / sqrt 2 in = 1.41421356 in, rounded up to a count of 25 nm.
    let turning = hardware.radius(Side::S).counts();
    assert_eq!(f64::from(turning), (2.0_f64.sqrt() * 1_016_000.0).ceil());
}

/// R for every shape against floating point, at sizes where halves are no count.
#[test]
fn radii_are_rounded_up_to_a_count() {
    for counts in (1..2_000).chain([1_016_000, 2_032_001, 3_048_003, i32::MAX - 1, i32::MAX]) {
        let size = Length::from_counts(counts);
        let half = (f64::from(counts) / 2.0).ceil();
        for shape in [WasherShape::Round, WasherShape::Square] {
            assert_eq!(f64::from(washer_radius(size, shape).counts()), half);
        }
        let turning = i128::from(washer_radius(size, WasherShape::Turns).counts());
        let square = i128::from(counts) * i128::from(counts);
        assert!(2 * turning * turning >= square, "{counts}");
        assert!(2 * (turning - 1) * (turning - 1) < square, "{counts}");
    }
}

#[test]
fn the_nut_counts_where_it_is_wider_than_the_washer() {
    let mut job = job(Units::Imperial, HALF);
    job.washers[0] = Some(Washer {
        size: inches(0.8),
        shape: WasherShape::Round,
        thickness: None,
    });
    let hardware = Hardware::of(&job).unwrap();
    assert_eq!(hardware.radius(Side::N), inches(0.433));
    // No standard washer has that size: the usual thickness stands in.
    assert_eq!(hardware.washer(Side::N).thickness.greatest, inches(0.132));
    assert_eq!(hardware.defaulted.washer_thickness, [true, true]);
}

#[test]
fn a_keyed_standard_size_has_its_own_thickness() {
    let mut job = job(Units::Imperial, HALF);
    job.washers[0] = Some(Washer {
        size: inches(1.062),
        shape: WasherShape::Round,
        thickness: None,
    });
    let hardware = Hardware::of(&job).unwrap();
    assert_eq!(hardware.washer(Side::N).thickness.greatest, inches(0.121));
}

#[test]
fn smaller_washers_come_largest_first() {
    assert_eq!(
        washer_sizes(HALF).collect::<Vec<_>>(),
        [inches(1.375), inches(1.062)]
    );
    let hardware = Hardware::of(&job(Units::Imperial, HALF)).unwrap();
    let smaller: Vec<Length> = hardware.smaller_washers(inches(1.375)).collect();
    assert_eq!(smaller, [inches(1.062)]);
    assert_eq!(hardware.smaller_washers(inches(1.062)).count(), 0);
    assert_eq!(washer_sizes(sixteenths(7)).count(), 0);
    for standard in &STANDARDS {
        let [large, small] = standard.washers;
        assert!(large.size > small.size);
    }
}

#[test]
fn a_bolt_of_no_standard_needs_its_hardware_keyed() {
    assert_eq!(missing(&Job::new(Units::Imperial)), ["bolt"]);
    let mut job = job(Units::Imperial, sixteenths(7));
    assert_eq!(missing(&job), ["washer", "nut"]);
    assert_eq!(Hardware::of(&job), None);
    let washer = Washer {
        size: sixteenths(20),
        shape: WasherShape::Round,
        thickness: Some(sixteenths(2)),
    };
    job.washers = [Some(washer); 2];
    job.nut = Some(Nut {
        thickness: sixteenths(6),
        across_corners: Some(sixteenths(13)),
    });
    assert_eq!(missing(&job).len(), 0);
    let hardware = Hardware::of(&job).unwrap();
    assert_eq!(hardware.web_hole, sixteenths(8));
    assert_eq!(hardware.radius(Side::S), sixteenths(10));
}
