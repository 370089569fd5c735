//! Figures that no card would hold: nothing panics, everything ends.

use super::{PATTERNS, pack_one_side};
use boltbay_core::Job;
use boltbay_core::caution::Cautions;
use boltbay_core::hardware::{Hardware, hardware_cautions, missing};
use boltbay_core::job::{
    Beam, BeamLength, Bolt, Ends, Nut, PatternRows, Shape, Spacing, SpacingBasis, Washer,
    WasherShape,
};
use boltbay_core::length::Length;
use boltbay_core::rule::Rule;
use boltbay_core::shapes::Section;
use boltbay_core::words::{Side, Units};
use boltbay_core::{rows, shapes};
use proptest::prelude::*;

/// Any count, the ends of the range and plausible lengths more often.
fn any_length() -> impl Strategy<Value = Length> {
    prop_oneof![
        any::<i32>(),
        Just(i32::MAX),
        Just(i32::MIN),
        Just(0),
        0..30_000_000_i32,
    ]
    .prop_map(Length::from_counts)
}

fn any_job() -> impl Strategy<Value = Job> {
    let lengths = proptest::collection::vec(any_length(), 20);
    (lengths, any::<u32>()).prop_map(|(lengths, choices)| {
        let mut lengths = lengths.into_iter();
        let mut next = || lengths.next().unwrap_or_default();
        let chosen = |bit: u32| choices >> bit & 1 == 1;
        let units = if chosen(0) {
            Units::Metric
        } else {
            Units::Imperial
        };
        let mut job = Job::new(units);
        job.beam = Some(Beam {
            designation: if chosen(1) { "CUSTOM" } else { "W8X18" }
                .try_into()
                .unwrap(),
            length: next(),
            measured: BeamLength::Measured,
        });
        job.shape = Some(Shape {
            depth: next(),
            width: next(),
            web: next(),
            flange: next(),
            k_design: next(),
            k_detail: next(),
            k1: next(),
            weight: Default::default(),
            ix: None,
            sx: None,
            zx: None,
        });
        let diameter = if chosen(2) {
            Length::from_sixteenths(8)
        } else {
            next()
        };
        job.bolt = Some(Bolt {
            diameter,
            web_hole: chosen(3).then(&mut next),
            wood_hole: chosen(4).then(&mut next),
            fyb: None,
        });
        let shapes = [WasherShape::Round, WasherShape::Square, WasherShape::Turns];
        job.washers[0] = chosen(5).then(|| Washer {
            size: next(),
            shape: shapes[choices as usize % 3],
            thickness: chosen(6).then(&mut next),
        });
        job.nut = chosen(7).then(|| Nut {
            thickness: next(),
            across_corners: chosen(8).then(&mut next),
        });
        job.rows = chosen(9).then(|| PatternRows {
            top: next(),
            bot: next(),
        });
        job.spacing = Some(Spacing {
            spacing: next(),
            basis: if chosen(10) {
                SpacingBasis::Row
            } else {
                SpacingBasis::Every
            },
            hold_back: chosen(11).then(&mut next),
            minimum: chosen(12).then(&mut next),
        });
        job.ends = Some(Ends {
            least: next(),
            most: next(),
            paired: Some(chosen(13)),
        });
        job.pattern = Some(PATTERNS[choices as usize / 3 % 3]);
        if chosen(14) {
            pack_one_side(&mut job);
        }
        job
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn no_figure_makes_it_panic(job in any_job()) {
        let mut cautions = Cautions::new();
        hardware_cautions(&job, &mut cautions);
        let hardware = Hardware::of(&job);
        prop_assert_eq!(hardware.is_none(), !missing(&job).is_empty());
        if let Some(hardware) = hardware {
            for side in Side::BOTH {
                let washer = hardware.washer(side);
                prop_assert!(hardware.radius(side) >= washer.size.half(boltbay_core::length::Rounding::Down));
                prop_assert!(hardware.smaller_washers(washer.size).count() <= 2);
            }
        }
        if let Ok(PatternRows { top, bot }) = rows::heights(&job) {
            prop_assert!(!rows::defaulted(&job) || top >= bot);
        }
        if let Some(section) = Section::of(&job) {
            let _ = (section.clear_height(), section.outstand(), section.fillet_reach());
        }
        let rule = Rule::of(&job).unwrap();
        prop_assert!(rule.said(&job).to_string().len() < 600);
        for caution in &cautions {
            prop_assert!(!caution.in_full(&job).to_string().is_empty());
        }
    }

    #[test]
    fn no_text_makes_the_table_panic(text in "[Ww]?[0-9.Xx×\\PC]{0,24}") {
        let _ = shapes::find(&text);
    }
}
