//! Cautions about holes, washers and distances: just clear, just not.

use super::{inches, millimetres, noted, pack_one_side, sixteenths, spacing};
use boltbay_core::Job;
use boltbay_core::caution::{Caution, Cautions};
use boltbay_core::hardware::hardware_cautions;
use boltbay_core::job::{
    Pattern, PatternRows, SpacingBasis, Stick, StickSource, Washer, WasherShape,
};
use boltbay_core::length::Length;
use boltbay_core::words::{Row, Side};

fn cautions(job: &Job) -> Vec<Caution> {
    let mut found = Cautions::new();
    hardware_cautions(job, &mut found);
    found.into_iter().collect()
}

fn holes(web: Option<i32>, wood: Option<i32>) -> Job {
    let mut job = noted();
    let bolt = job.bolt.as_mut().unwrap();
    bolt.web_hole = web.map(sixteenths);
    bolt.wood_hole = wood.map(sixteenths);
    job
}

#[test]
fn a_note_with_defaults_has_none() {
    assert_eq!(cautions(&noted()), []);
    assert_eq!(cautions(&Job::new(Default::default())), []);
}

/// Common practice, no source: 1/2 in bolts are often given a 3/4 in hole in the
/// web and 5/8 in through the wood. Standard hole 9/16: AISC 360-22 Table J3.3;
/// wood at most 9/16: NDS 2024 12.1.3.2.
#[test]
fn the_common_large_holes() {
    let job = holes(Some(12), Some(10));
    let large = Caution::WebHoleLarge {
        hole: sixteenths(12),
        standard: sixteenths(9),
        bolt: sixteenths(8),
    };
    let wood = Caution::WoodHoleLarge {
        hole: sixteenths(10),
        most: sixteenths(9),
        bolt: sixteenths(8),
    };
    assert_eq!(cautions(&job), [large, wood]);
    let text = large.in_full(&job).to_string();
    for words in [
        "9/16\"",
        "can move 1/4\" before a bolt bears",
        "unless the packing is seated",
        "1/4 in (6 mm) past the hole all round",
        "engineer",
    ] {
        assert!(text.contains(words), "{words:?} in {text}");
    }
}

#[test]
fn a_wood_hole_larger_than_the_web_hole_stops_the_bit() {
    let larger = |job: &Job| {
        cautions(job).into_iter().find_map(|caution| match caution {
            Caution::WoodHoleLarger { wood, web } => Some((wood, web)),
            _ => None,
        })
    };
    assert_eq!(larger(&holes(None, None)), None);
    assert_eq!(larger(&holes(None, Some(9))), None);
    assert_eq!(
        larger(&holes(None, Some(10))),
        Some((sixteenths(10), sixteenths(9)))
    );
    assert_eq!(larger(&holes(Some(12), Some(12))), None);
}

/// A 3/4 in hole wants a washer of 1 1/4 in on bare web.
#[test]
fn a_large_hole_in_bare_web_needs_a_washer_that_reaches() {
    let short = |job: &Job| {
        cautions(job)
            .into_iter()
            .any(|caution| matches!(caution, Caution::WasherCoversShort { side: Side::S, .. }))
    };
    let mut job = holes(Some(12), None);
    let size = |thousandths| {
        Some(Washer {
            size: Length::from_thousandths(thousandths),
            shape: WasherShape::Round,
            thickness: None,
        })
    };
    job.washers = [size(1_249), size(1_249)];
    assert!(!short(&job), "packed on both sides");
    pack_one_side(&mut job);
    assert!(short(&job));
    job.washers = [size(1_250), size(1_250)];
    assert!(!short(&job), "just enough");
    job.washers = [size(1_062), size(1_062)];
    job.bolt.as_mut().unwrap().web_hole = None;
    assert!(!short(&job), "a standard hole");
}

/// Source: NDS 2024 Table 12.5.1A: 4D = 2 in for 1/2 in bolts.
#[test]
fn end_distance_below_4d() {
    let mut job = noted();
    job.ends.as_mut().unwrap().least = sixteenths(31);
    let wanted = Caution::EndDistanceShort {
        least: sixteenths(31),
        full: inches(2),
    };
    assert_eq!(cautions(&job), [wanted]);
}

/// Source: NDS 2024 Table 12.5.1D. W10X33: web to flange tip 3.835 on each side,
/// l/D = 15: 5D = 2 1/2.
#[test]
fn spacing_below_5d() {
    let mut job = noted();
    let mut keyed = spacing(inches(16), SpacingBasis::Every);
    keyed.minimum = Some(sixteenths(39));
    job.spacing = Some(keyed);
    let wanted = Caution::SpacingShort {
        least: sixteenths(39),
        full: sixteenths(40),
    };
    assert_eq!(cautions(&job), [wanted]);
    job.spacing.as_mut().unwrap().minimum = Some(sixteenths(40));
    assert_eq!(cautions(&job), []);
    // Thin packing asks for less: l = 1 1/2 in, (5 x 1.5 + 10 x 0.5) / 8 = 1.5625.
    job.outstands = [
        [sixteenths(12)].into_iter().collect(),
        [sixteenths(12)].into_iter().collect(),
    ];
    job.spacing.as_mut().unwrap().minimum = Some(sixteenths(25));
    assert_eq!(cautions(&job), []);
    job.spacing.as_mut().unwrap().minimum = Some(sixteenths(24));
    let wanted = Caution::SpacingShort {
        least: sixteenths(24),
        full: sixteenths(25),
    };
    assert_eq!(cautions(&job), [wanted]);
}

/// Source: NDS 2024 Table 12.5.1C. W10X33 clear 8.860: 4D leaves 6.860, 1.5D
/// 0.75; the fillet .690 and half a 9/16 hole leave .97125 to 7.88875.
#[test]
fn keyed_rows_near_an_edge_or_in_a_fillet() {
    let mut job = noted();
    let thousandths = Length::from_thousandths;
    let mut keyed = |top, bot| {
        job.rows = Some(PatternRows {
            top: thousandths(top),
            bot: thousandths(bot),
        });
        cautions(&job)
    };
    assert_eq!(keyed(5_800, 972), []);
    assert_eq!(keyed(6_860, 2_000), []);
    let edge = Caution::EdgeDistanceShort {
        row: Row::Top,
        found: thousandths(1_999),
        wanted: inches(2),
    };
    assert_eq!(keyed(6_861, 2_000), [edge]);
    let fillet = keyed(5_700, 971);
    assert!(
        matches!(fillet[..], [Caution::RowInFillet { row: Row::Bot, .. }]),
        "{fillet:?}"
    );
    let both = keyed(5_700, 749);
    assert!(
        matches!(
            both[..],
            [
                Caution::EdgeDistanceShort { row: Row::Bot, .. },
                Caution::RowInFillet { row: Row::Bot, .. }
            ]
        ),
        "{both:?}"
    );
}

/// Source: NDS 2024 12.5.1.3 (5 in), Table 12.5.1B (3D = 1 1/2).
#[test]
fn rows_too_far_or_too_close() {
    let mut job = noted();
    let mut keyed = |top, pattern| {
        job.rows = Some(PatternRows {
            top: sixteenths(top),
            bot: inches(1),
        });
        job.pattern = Some(pattern);
        cautions(&job)
    };
    assert_eq!(keyed(96, Pattern::Staggered), []);
    let far = Caution::RowsFarApart {
        apart: sixteenths(81),
    };
    assert_eq!(keyed(97, Pattern::Staggered), [far]);
    assert_eq!(keyed(97, Pattern::Single), []);
    let close = Caution::RowsClose {
        apart: sixteenths(23),
        wanted: sixteenths(24),
    };
    assert_eq!(keyed(39, Pattern::Paired), [close]);
    assert_eq!(keyed(40, Pattern::Paired), []);
    // Rows that take turns never have one bolt above the other.
    assert_eq!(keyed(39, Pattern::Staggered), []);
}

#[test]
fn a_plate_of_unknown_thickness_is_asked_about_where_rods_are() {
    let mut job = noted();
    job.washers[0] = Some(Washer {
        size: inches(2),
        shape: WasherShape::Square,
        thickness: None,
    });
    assert_eq!(cautions(&job), []);
    job.sticks
        .push(Stick {
            length: inches(36),
            count: None,
            source: StickSource::Rod,
        })
        .unwrap();
    let wanted = Caution::WasherThicknessAssumed {
        side: Side::N,
        size: inches(2),
        thickness: Length::from_thousandths(132),
    };
    assert_eq!(cautions(&job), [wanted]);
    job.washers[0].as_mut().unwrap().thickness = Some(sixteenths(3));
    assert_eq!(cautions(&job), []);
}

/// A metric note with its own defaults has none either.
#[test]
fn a_metric_note_has_none() {
    let mut job = noted();
    job.units = boltbay_core::words::Units::Metric;
    job.bolt.as_mut().unwrap().diameter = millimetres(12);
    job.ends.as_mut().unwrap().least = millimetres(50);
    assert_eq!(cautions(&job), []);
}
