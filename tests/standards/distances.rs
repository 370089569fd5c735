//! Distances of bolts in wood loaded across the grain, and in steel.

use boltbay_core::Job;
use boltbay_core::defaults;
use boltbay_core::hardware::STANDARDS;
use boltbay_core::hardware::cautions::least_spacing;
use boltbay_core::job::Bolt;
use boltbay_core::length::Length;
use boltbay_core::words::Units;

fn sixteenths(figure: i32) -> Length {
    Length::from_sixteenths(figure)
}

/// Bolt in sixteenths, wood of both sides together in inches, spacing in inches.
///
/// Source: NDS 2024 Table 12.5.1D, between rows, across the grain: 2.5D up to
/// l/D = 2, (5 l + 10 D) / 8 between, 5D from l/D = 6. Where steel asks for more
/// (AISC 360-16 J3.3, 2 2/3 D) its figure stands: the first row.
const SPACINGS: [(i32, f64, f64); 8] = [
    (8, 1.0, 8.0 / 3.0 * 0.5),
    (8, 1.5, 1.5625),
    (8, 2.0, 1.875),
    (8, 3.0, 2.5),
    (8, 7.5, 2.5),
    (10, 2.5, 2.34375),
    (10, 3.75, 3.125),
    (16, 3.0, 3.125),
];

#[test]
fn least_spacing_is_the_published_one() {
    for (bolt, wood, spacing) in SPACINGS {
        let wood = Length::from_sixty_fourths((wood * 64.0) as i32);
        let found = least_spacing(sixteenths(bolt), Some(wood));
        // Rounded up to a count of 25 nm.
        let over = found.as_inches() - spacing;
        assert!((0.0..1e-6).contains(&over), "{bolt}/16, {wood:?}: {over}");
    }
    // Unknown packing counts as long.
    assert_eq!(least_spacing(sixteenths(8), None), sixteenths(40));
}

/// Bolt in sixteenths; 2 2/3 D and 3D in inches.
///
/// Source: AISC 360-16 J3.3, least and preferred distance between holes.
const STEEL: [(i32, f64, f64); 5] = [
    (8, 1.333, 1.5),
    (10, 1.667, 1.875),
    (12, 2.0, 2.25),
    (14, 2.333, 2.625),
    (16, 2.667, 3.0),
];

#[test]
fn the_default_spacing_satisfies_wood_and_steel() {
    for (bolt, least, preferred) in STEEL {
        let mut job = Job::new(Units::Imperial);
        job.bolt = Some(Bolt {
            diameter: sixteenths(bolt),
            web_hole: None,
            wood_hole: None,
            fyb: None,
        });
        let spacing = defaults::minimum_spacing(&job).unwrap();
        assert!(spacing.as_inches() >= preferred.max(least), "{bolt}/16");
        // NDS 2024 Table 12.5.1D, l/D >= 6: 5D.
        assert_eq!(spacing, sixteenths(5 * bolt));
    }
}

/// The spacing formula at every thickness and bolt against floating point.
#[test]
fn least_spacing_follows_the_formula_everywhere() {
    for standard in &STANDARDS {
        let diameter = standard.thread.diameter;
        let d = diameter.as_inches();
        let mut before = Length::ZERO;
        for sixty_fourths in 0..800 {
            let wood = Length::from_sixty_fourths(sixty_fourths);
            let l = wood.as_inches();
            let in_wood = if l / d <= 2.0 {
                2.5 * d
            } else if l / d < 6.0 {
                (5.0 * l + 10.0 * d) / 8.0
            } else {
                5.0 * d
            };
            let wanted = in_wood.max(8.0 / 3.0 * d);
            let found = least_spacing(diameter, Some(wood));
            let over = found.as_inches() - wanted;
            assert!((-1e-9..1e-6).contains(&over), "{d} {l}: {over}");
            assert!(found >= before, "more wood never asks for less");
            before = found;
        }
    }
}
