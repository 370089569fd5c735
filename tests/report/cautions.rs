//! Every caution has a number of its own, a screen text that fits, and a
//! sentence for the sheet.

use boltbay_core::caution::Caution;
use boltbay_core::job::Job;
use boltbay_core::length::Length;
use boltbay_core::statics::{LiftReason, Pattern, Segment};
use boltbay_core::words::{End, Row, Side, Units};
use std::collections::BTreeMap;

/// The widest length that a card can hold.
const WIDE: Length = Length::from_sixty_fourths(64 * (80 * 12 - 1) + 63);

/// One caution after another: a new variant does not compile until it stands here.
#[rustfmt::skip]
fn next(caution: &Caution) -> Option<Caution> {
    let (side, row, end) = (Side::N, Row::Bot, End::B);
    let (run, joist, first, second, n, s, after, station, layer) = (8, 160, 159, 160, 80, 80, 80, 239, 3);
    Some(match caution {
        Caution::RunNotProved { .. } => Caution::RunOverridden { side, run, misclosure: WIDE, tolerance: WIDE },
        Caution::RunOverridden { .. } => Caution::PairOutlier { n, s, offset: WIDE, median: WIDE },
        Caution::PairOutlier { .. } => Caution::SideOffByBurn { side, offset: WIDE },
        Caution::SideOffByBurn { .. } => Caution::JoistsOverlap { side, first, second, by: WIDE },
        Caution::JoistsOverlap { .. } => Caution::JoistMissed { side, after, gap: WIDE, usual: WIDE },
        Caution::JoistMissed { .. } => Caution::CountDiffers { side, counted: 999, read: 160 },
        Caution::CountDiffers { .. } => Caution::Guessed { side, guessed: 160, of: 160 },
        Caution::Guessed { .. } => Caution::JoistOffSpan { side, joist },
        Caution::JoistOffSpan { .. } => Caution::ClearNotMeasured,
        Caution::ClearNotMeasured => Caution::BearingDiffers { end, keyed: WIDE, resulting: WIDE },
        Caution::BearingDiffers { .. } => Caution::LengthOrdered,
        Caution::LengthOrdered => Caution::OutstandFromTable { side },
        Caution::OutstandFromTable { .. } => Caution::OutstandSpread { side, spread: WIDE },
        Caution::OutstandSpread { .. } => Caution::EndDistanceShort { least: WIDE, full: WIDE },
        Caution::EndDistanceShort { .. } => Caution::SpacingShort { least: WIDE, full: WIDE },
        Caution::SpacingShort { .. } => Caution::EdgeDistanceShort { row, found: WIDE, wanted: WIDE },
        Caution::EdgeDistanceShort { .. } => Caution::RowsFarApart { apart: WIDE },
        Caution::RowsFarApart { .. } => Caution::WebHoleLarge { hole: WIDE, standard: WIDE, bolt: WIDE },
        Caution::WebHoleLarge { .. } => Caution::WasherCoversShort { side, washer: WIDE, hole: WIDE },
        Caution::WasherCoversShort { .. } => Caution::WoodHoleLarger { wood: WIDE, web: WIDE },
        Caution::WoodHoleLarger { .. } => Caution::NeighboursInOneRow { station, row },
        Caution::NeighboursInOneRow { .. } => Caution::StackGoesShy { side, error_dry: WIDE },
        Caution::StackGoesShy { .. } => Caution::LayerDoesNotSeat { side, layer },
        Caution::LayerDoesNotSeat { .. } => Caution::SpeciesAssumed,
        Caution::SpeciesAssumed => Caution::RodFromOutstand { side },
        Caution::RodFromOutstand { .. } => Caution::OneSided { from: WIDE, to: WIDE },
        Caution::OneSided { .. } => Caution::SnugAgain,
        Caution::SnugAgain => Caution::BeforeDrilling,
        Caution::BeforeDrilling => Caution::ShoresFirst,
        Caution::ShoresFirst => Caution::AndMore,
        Caution::AndMore => Caution::SteelShort { end, by: WIDE },
        Caution::SteelShort { .. } => Caution::WoodHoleLarge { hole: WIDE, most: WIDE, bolt: WIDE },
        Caution::WoodHoleLarge { .. } => Caution::WasherThicknessAssumed { side, size: WIDE, thickness: WIDE },
        Caution::WasherThicknessAssumed { .. } => Caution::RowInFillet { row, height: WIDE, lowest: WIDE, highest: WIDE },
        Caution::RowInFillet { .. } => Caution::RowsClose { apart: WIDE, wanted: WIDE },
        Caution::RowsClose { .. } => Caution::CountedFromWallA,
        Caution::CountedFromWallA => Caution::NotIncreasing { side, run, before: WIDE, reading: WIDE },
        Caution::NotIncreasing { .. } => Caution::ReadingSlip { side, joist, by: WIDE },
        Caution::ReadingSlip { .. } => Caution::Lift { row: 4, least: i32::MIN, with: Pattern::default(), reason: LiftReason::ShortSpan { short: 4, beside: 3 }, first: Segment::Span(4), last: Segment::OverhangB },
        Caution::Lift { .. } => Caution::NearLift { row: 4, least: i32::MIN, greatest: i32::MAX },
        Caution::NearLift { .. } => Caution::OverhangLong { end, overhang: WIDE, span: WIDE },
        Caution::OverhangLong { .. } => Caution::LoadPastSteel { row: 31 },
        Caution::LoadPastSteel { .. } => Caution::LoadHalved,
        Caution::LoadHalved => Caution::PackingNotWeighed,
        Caution::PackingNotWeighed => Caution::HolesNearBearing { row: 4, marks: 240, station: 240, distance: WIDE },
        Caution::HolesNearBearing { .. } => Caution::EndMayRollOver { end },
        Caution::EndMayRollOver { .. } => Caution::FillBlock { row: 4 },
        Caution::FillBlock { .. } => Caution::WoodOffMasonry,
        Caution::WoodOffMasonry => Caution::TreatedWood,
        Caution::TreatedWood => Caution::HotWork,
        Caution::HotWork => Caution::NailKeepsLess { nail: 7, side, percent: 99 },
        Caution::NailKeepsLess { .. } => return None,
    })
}

fn all() -> impl Iterator<Item = Caution> {
    let first = Caution::RunNotProved {
        side: Side::S,
        run: 8,
    };
    std::iter::successors(Some(first), next)
}

/// What a crew may not read, or may read nowhere.
const FORBIDDEN: [&str; 8] = [
    "safe",
    "station",
    "window",
    "chain",
    "cover",
    "outstand",
    "misclosure",
    "stock length",
];

#[test]
fn numbers_are_unique_and_without_gaps() {
    let mut numbers: Vec<u8> = all().map(|caution| caution.number()).collect();
    numbers.sort_unstable();
    let expected: Vec<u8> = (1..=u8::try_from(numbers.len()).unwrap()).collect();
    assert_eq!(numbers, expected);
}

#[test]
fn screen_texts_fit_a_screen() {
    for units in [Units::Imperial, Units::Metric] {
        let job = Job::new(units);
        for caution in all() {
            let text = caution.on_screen(&job).to_string();
            assert!(!text.is_empty(), "{caution:?} has no screen text");
            assert!(text.lines().count() <= 4, "{text}");
            for line in text.lines() {
                assert!(line.chars().count() <= 21, "{line} in {caution:?}");
            }
            let first = text.lines().next().unwrap();
            let shouted = first.to_uppercase();
            assert!(first == shouted, "first line not in capitals: {first}");
        }
    }
}

#[test]
fn full_texts_are_sentences_in_crew_words() {
    let job = Job::new(Units::Imperial);
    let mut seen = BTreeMap::new();
    for caution in all() {
        let text = caution.in_full(&job).to_string();
        assert!(
            text.len() > 40 && text.ends_with('.'),
            "{caution:?}: {text}"
        );
        for word in text.to_lowercase().split(|c: char| !c.is_alphabetic()) {
            let plain = word.trim_end_matches('s');
            assert!(!FORBIDDEN.contains(&plain), "{word} in {text}");
        }
        let twin = seen.insert(text.clone(), caution);
        assert!(twin.is_none(), "{caution:?} and {twin:?} read the same");
    }
}

#[test]
fn cautions_use_the_painted_letters_and_the_units() {
    let mut job = Job::new(Units::Metric);
    job.sides = *b"EW";
    let caution = Caution::OutstandSpread {
        side: Side::S,
        spread: Length::from_millimetres(5),
    };
    let text = caution.in_full(&job).to_string();
    assert!(
        text.starts_with("Side W: ") && text.contains(" 5 mm "),
        "{text}"
    );
}
