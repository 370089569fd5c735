//! What is no length, and what the crew reads about it.

use boltbay_core::Length;
use boltbay_core::length::LengthError::{self, *};
use boltbay_core::words::Units::{self, Imperial, Metric};
use proptest::prelude::*;

/// Text, units, the named error, a part of the sentence that says what to write.
type Row = (&'static str, Units, LengthError, &'static str);

const fn feet_mark(feet: u32, inches: u32, numerator: u8, denominator: u8) -> LengthError {
    FeetMark {
        feet,
        inches,
        numerator,
        denominator,
    }
}

const fn between(below: i32, above: i32, units: Units) -> LengthError {
    BetweenCounts {
        below: Length::from_counts(below),
        above: Length::from_counts(above),
        units,
    }
}

/// 0.3333 in = 338,632.8 counts; decimal inches end on multiples of 127 counts:
/// 2,666 * 127 = 338,582 (0.33325 in), 2,667 * 127 = 338,709 (0.333375 in).
const ROWS: &[Row] = &[
    ("", Imperial, Empty, "14' 3 5/16"),
    (" \u{A0}\t", Metric, Empty, "4351 mm"),
    ("-", Imperial, Empty, "14' 3 5/16"),
    ("14-3", Imperial, feet_mark(14, 3, 0, 0), "write 14' 3"),
    ("14-3", Metric, feet_mark(14, 3, 0, 0), "write 14' 3"),
    (
        "14\u{2013}3\"",
        Imperial,
        feet_mark(14, 3, 0, 0),
        "write 14' 3",
    ),
    ("14 3", Imperial, feet_mark(14, 3, 0, 0), "write 14' 3"),
    (
        "14-3-5/16",
        Imperial,
        feet_mark(14, 3, 5, 16),
        "write 14' 3 5/16",
    ),
    (
        "14-3 5/16",
        Imperial,
        feet_mark(14, 3, 5, 16),
        "write 14' 3 5/16",
    ),
    (
        "14 3 5/16\"",
        Imperial,
        feet_mark(14, 3, 5, 16),
        "write 14' 3 5/16",
    ),
    (
        "14.5'",
        Imperial,
        DecimalFeet { feet: 14 },
        "write 14' and inches",
    ),
    (
        "14' 15",
        Imperial,
        InchesAboveFoot {
            feet: 14,
            inches: 15,
        },
        "write 15' 3",
    ),
    (
        "14' 12 1/2\"",
        Imperial,
        InchesAboveFoot {
            feet: 14,
            inches: 12,
        },
        "write 15' 0",
    ),
    ("5/10", Imperial, Denominator { denominator: 10 }, "16"),
    ("5 1/128", Imperial, Denominator { denominator: 128 }, "64"),
    ("1/1", Imperial, Denominator { denominator: 1 }, "2"),
    ("1/0", Imperial, Denominator { denominator: 0 }, "2"),
    (
        "3 19/16",
        Imperial,
        Improper {
            numerator: 19,
            denominator: 16,
        },
        "whole inches",
    ),
    (
        "8/8",
        Imperial,
        Improper {
            numerator: 8,
            denominator: 8,
        },
        "whole inches",
    ),
    (
        "0.3333",
        Imperial,
        between(338_582, 338_709, Imperial),
        "0.33325\" or 0.333375\"",
    ),
    (
        "-0.3333",
        Imperial,
        between(-338_709, -338_582, Imperial),
        "-0.333375\" or -0.33325\"",
    ),
    // 168.3333 in = 14' and 0.3333 in: the neighbours hold the feet.
    (
        "14' 0.3333",
        Imperial,
        between(170_688_000 + 338_582, 170_688_000 + 338_709, Imperial),
        "168.33325\"",
    ),
    (
        "0.00001",
        Metric,
        between(0, 1, Metric),
        "0 mm or 0.000025 mm",
    ),
    (
        "4351.00003 mm",
        Imperial,
        between(174_040_001, 174_040_002, Metric),
        "4351.00005 mm",
    ),
    (
        "1.00000001m",
        Imperial,
        between(40_000_000, 40_000_001, Metric),
        "1000 mm or 1000.000025 mm",
    ),
    (
        "1.0000000000001mm",
        Metric,
        between(40_000, 40_001, Metric),
        "1 mm",
    ),
    ("4351,5", Metric, Comma, "point"),
    ("1,200", Imperial, Comma, "point"),
    ("177'", Imperial, OutOfRange, "176'"),
    ("-54m", Imperial, OutOfRange, "176'"),
    ("53687.0912mm", Metric, OutOfRange, "176'"),
    ("99999999999999999999", Imperial, OutOfRange, "176'"),
    (
        "99999999999999999999' 99999999999/2",
        Imperial,
        Improper {
            numerator: u32::MAX,
            denominator: 2,
        },
        "whole inches",
    ),
    ("53687.09117501mm", Metric, OutOfRange, "176'"),
    ("14 ft", Imperial, Strange { found: 'f' }, "14' 3 5/16"),
    ("43 cm", Metric, Strange { found: 'c' }, "4351 mm"),
    ("abc", Imperial, Strange { found: 'a' }, "14' 3 5/16"),
    ("1e3", Metric, Strange { found: 'e' }, "4351 mm"),
    (
        "\u{1F528}",
        Imperial,
        Strange { found: '\u{1F528}' },
        "14' 3 5/16",
    ),
    (
        "\u{0663}",
        Imperial,
        Strange { found: '\u{0663}' },
        "14' 3 5/16",
    ),
    ("5.", Imperial, Unclear, "171.3125"),
    (".", Imperial, Unclear, "171.3125"),
    ("1.2.3", Metric, Unclear, "171.3125"),
    ("1.5 1/2", Imperial, Unclear, "171.3125"),
    ("1.5/2", Imperial, Unclear, "171.3125"),
    ("'", Imperial, Unclear, "171.3125"),
    ("\"", Imperial, Unclear, "171.3125"),
    ("14' 3'", Imperial, Unclear, "171.3125"),
    ("14'-", Imperial, Unclear, "171.3125"),
    ("14\" 3", Imperial, Unclear, "171.3125"),
    ("1/2 mm", Metric, Unclear, "171.3125"),
    ("4 351 mm", Metric, Unclear, "171.3125"),
    ("14' 3mm", Metric, Unclear, "171.3125"),
    ("--5", Imperial, Unclear, "171.3125"),
    ("5-", Imperial, Unclear, "171.3125"),
    ("1/2/4", Imperial, Unclear, "171.3125"),
    ("1 2 3 4 5 6 7 8 9 1 2 3 4 5", Imperial, Unclear, "171.3125"),
];

#[test]
fn every_named_error() {
    for &(text, units, error, says) in ROWS {
        assert_eq!(
            Length::read(text, units),
            Err(error),
            "{text:?} in {units:?}"
        );
        let sentence = error.to_string();
        assert!(sentence.contains(says), "{text:?}: {sentence}");
    }
}

/// Each variant stands in the table above, and each fits a 21 character line.
#[test]
fn no_error_without_a_row() {
    let mut words: Vec<&str> = ROWS.iter().map(|row| row.2.words()).collect();
    words.sort_unstable();
    words.dedup();
    assert_eq!(
        words.len(),
        11,
        "eleven variants, each with words of its own"
    );
    assert!(words.iter().all(|words| words.len() <= 21));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4_000))]

    /// Whatever is typed: an answer, and one that reads back.
    #[test]
    fn arbitrary_text(text in "\\PC{0,40}") {
        judge(&text)?;
    }

    /// The same from the signs that lengths are made of.
    #[test]
    fn arbitrary_signs(text in "[-+ 0-9/.,'\"mM\u{2019}\u{201D}\u{2032}\u{BD}\u{2044}]{0,24}") {
        judge(&text)?;
    }
}

fn judge(text: &str) -> Result<(), TestCaseError> {
    for units in [Imperial, Metric] {
        match Length::read(text, units) {
            Ok(length) => {
                prop_assert_eq!(
                    Length::read(&length.shown(units).to_string(), units),
                    Ok(length)
                );
            }
            Err(error) => {
                prop_assert!(!error.to_string().is_empty());
                prop_assert!(error.words().len() <= 21);
            }
        }
    }
    Ok(())
}

/// A mile of digits takes no time and no memory.
#[test]
fn a_very_long_text_ends() {
    let digits = "9".repeat(200_000);
    assert_eq!(Length::read(&digits, Metric), Err(OutOfRange));
    let zeros = format!("1.{}", "0".repeat(200_000));
    assert_eq!(
        Length::read(&zeros, Metric),
        Ok(Length::from_millimetres(1))
    );
    assert_eq!(Length::read(&"-".repeat(200_000), Metric), Err(Unclear));
}
