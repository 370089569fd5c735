//! Decimals: kept as keyed, or refused by name.

use boltbay_core::decimal::Decimal;
use boltbay_core::decimal::DecimalError::{self, *};
use proptest::prelude::*;

#[test]
fn kept_as_keyed() {
    for (text, millionths, written) in [
        ("12", 12_000_000, "12"),
        ("12.50", 12_500_000, "12.50"),
        ("-0.05", -50_000, "-0.05"),
        (".5", 500_000, "0.5"),
        ("+3.000001", 3_000_001, "3.000001"),
        (" 45 ", 45_000_000, "45"),
        ("\u{2212}4", -4_000_000, "-4"),
        ("2147483647", 2_147_483_647_000_000, "2147483647"),
        ("-2147483648", -2_147_483_648_000_000, "-2147483648"),
    ] {
        let decimal = Decimal::read(text).expect("a decimal");
        assert_eq!(decimal.millionths(), millionths, "{text}");
        assert_eq!(decimal.to_string(), written);
    }
}

#[test]
fn refused_by_name() {
    let rows: &[(&str, DecimalError, &str)] = &[
        ("", Empty, "12.5"),
        ("-", Empty, "12.5"),
        ("12,5", Comma, "point"),
        ("1.2.3", Point, "one point"),
        ("12.", Point, "digits behind"),
        (".", Point, "digits behind"),
        ("0.0000001", Places, "at most 6"),
        ("2147483648", OutOfRange, "at most 9"),
        ("99999999999999999999", OutOfRange, "at most 9"),
        ("12 psf", Strange { found: ' ' }, "12.5"),
        ("NaN", Strange { found: 'N' }, "12.5"),
        ("1e5", Strange { found: 'e' }, "12.5"),
        ("--1", Strange { found: '-' }, "12.5"),
    ];
    for &(text, error, says) in rows {
        assert_eq!(Decimal::read(text), Err(error), "{text:?}");
        assert!(error.to_string().contains(says), "{error}");
    }
}

proptest! {
    #[test]
    fn every_decimal_survives(digits in any::<i32>(), places in 0_u8..=6) {
        let decimal = Decimal::new(digits, places);
        prop_assert_eq!(Decimal::read(&decimal.to_string()), Ok(decimal));
    }

    #[test]
    fn arbitrary_text_ends(text in "\\PC{0,40}") {
        if let Ok(decimal) = Decimal::read(&text) {
            prop_assert_eq!(Decimal::read(&decimal.to_string()), Ok(decimal));
        }
    }
}
