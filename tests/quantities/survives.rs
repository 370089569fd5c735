//! Text -> value -> text -> value loses nothing, over the whole range.

use boltbay_core::Length;
use boltbay_core::length::Rounding;
use boltbay_core::words::Units;
use proptest::prelude::*;

/// 53 m in 25 nm counts.
const RANGE: i64 = 53 * 40_000_000;

/// Both units, both written forms: each must read back to the same count.
fn survives(counts: i64) -> Result<(), TestCaseError> {
    let length = Length::from_counts(i32::try_from(counts).expect("inside the range"));
    for units in [Units::Imperial, Units::Metric] {
        for text in [
            length.shown(units).to_string(),
            length.shown_on_card(units).to_string(),
        ] {
            let back = Length::read(&text, units);
            prop_assert_eq!(back, Ok(length), "{} in {:?}", text, units);
            let again = back.expect("just read").shown(units).to_string();
            prop_assert_eq!(again, length.shown(units).to_string());
        }
    }
    Ok(())
}

/// `numerator / 10^places` of a unit as plain decimal text, made without `Length`.
fn decimal(value: i64, places: usize) -> String {
    let scale = 10_i64.pow(places as u32);
    let sign = if value < 0 { "-" } else { "" };
    let size = value.abs();
    format!("{sign}{}.{:0places$}", size / scale, size % scale)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4_000))]

    #[test]
    fn every_sixty_fourth(n in -(RANGE / 15_875)..=RANGE / 15_875) {
        survives(n * 15_875)?;
        // As people write it: whole inches and a fraction not in lowest terms.
        let sign = if n < 0 { "-" } else { "" };
        let text = format!("{sign}{} {}/64", n.abs() / 64, n.abs() % 64);
        let length = Length::read(&text, Units::Imperial).expect("a length");
        prop_assert_eq!(i64::from(length.counts()), n * 15_875);
    }

    #[test]
    fn every_thousandth(n in -(RANGE / 1_016)..=RANGE / 1_016) {
        survives(n * 1_016)?;
        let length = Length::read(&decimal(n, 3), Units::Imperial).expect("a length");
        prop_assert_eq!(i64::from(length.counts()), n * 1_016);
    }

    #[test]
    fn every_millimetre(n in -53_000_i64..=53_000) {
        survives(n * 40_000)?;
        let length = Length::read(&format!("{n}mm"), Units::Imperial).expect("a length");
        prop_assert_eq!(i64::from(length.counts()), n * 40_000);
        let length = Length::read(&format!("{}m", decimal(n, 3)), Units::Imperial).expect("a length");
        prop_assert_eq!(i64::from(length.counts()), n * 40_000);
    }

    #[test]
    fn every_tenth_millimetre(n in -530_000_i64..=530_000) {
        survives(n * 4_000)?;
        let length = Length::read(&decimal(n, 1), Units::Metric).expect("a length");
        prop_assert_eq!(i64::from(length.counts()), n * 4_000);
    }

    #[test]
    fn every_count(n in i32::MIN..=i32::MAX) {
        survives(i64::from(n))?;
    }

    #[test]
    fn the_picked_tape_mark_is_on_the_tape(n in i32::MIN / 2..=i32::MAX / 2) {
        let (length, step) = (Length::from_counts(n), Length::from_sixteenths(1));
        let down = Length::read(&length.shown_to(step, Rounding::Down, Units::Imperial).to_string(), Units::Imperial);
        let up = Length::read(&length.shown_to(step, Rounding::Up, Units::Imperial).to_string(), Units::Imperial);
        let (down, up) = (down.expect("a length").counts(), up.expect("a length").counts());
        prop_assert_eq!((down % 63_500, up % 63_500), (0, 0));
        prop_assert!(down <= n && n <= up && up - down <= 63_500);
    }
}

/// Not by chance: all of them, on both sides of zero and at both ends.
#[test]
fn the_first_and_last_of_each_kind() {
    for step in [15_875_i64, 1_016, 40_000, 4_000, 127, 1] {
        for n in (-300..=300).chain(RANGE / step - 300..=RANGE / step) {
            survives(n * step).expect("survives");
            survives(-n * step).expect("survives");
        }
    }
    survives(i64::from(i32::MIN)).expect("survives");
    survives(i64::from(i32::MAX)).expect("survives");
}

/// Every 1/64 in and every 0.1 mm there is, none left to chance.
#[test]
#[cfg(feature = "soak")]
fn all_of_them() {
    for step in [15_875_i64, 4_000] {
        for n in -(RANGE / step)..=RANGE / step {
            survives(n * step).expect("survives");
        }
    }
}
