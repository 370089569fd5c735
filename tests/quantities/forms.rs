//! Every written form, and how lengths are written.

use boltbay_core::Length;
use boltbay_core::words::Units::{self, Imperial, Metric};

/// 1/64 in in counts.
const SIXTY_FOURTH: i32 = 15_875;
/// 14 ft 3 5/16 in = 171 5/16 in = 10,964/64 in.
const EXAMPLE: i32 = (171 * 64 + 20) * SIXTY_FOURTH;

fn reads(text: &str, units: Units, counts: i32) {
    assert_eq!(
        Length::read(text, units),
        Ok(Length::from_counts(counts)),
        "{text:?} in {units:?}"
    );
}

#[test]
fn one_length_in_every_imperial_form() {
    for text in [
        "14' 3 5/16\"",
        "14' 3 5/16",
        "14'3 5/16",
        "14'3-5/16",
        "14'-3 5/16\"",
        "14'-3-5/16\"",
        "14' - 3 - 5/16",
        "171 5/16",
        "171-5/16",
        "171 10/32\"",
        "171.3125\"",
        "171.312500",
        "14' 3.3125\"",
        " 14'\t3  5/16 \" ",
        "+14' 3 5/16",
        "14\u{2019} 3 5/16\u{201D}",
        "14\u{2018} 3 5/16\u{201C}",
        "14\u{2032} 3 5/16\u{2033}",
        "14\u{2032}\u{A0}3\u{A0}5\u{2044}16\u{2033}",
        "14'3\u{2013}5/16''",
        "14\u{B4} 3 5/16",
        "\u{FEFF}171 5/16",
    ] {
        reads(text, Imperial, EXAMPLE);
    }
    // A fraction, a foot mark or an inch mark is imperial in a metric job too.
    for text in ["14' 3 5/16", "171 5/16", "171-5/16", "171.3125\""] {
        reads(text, Metric, EXAMPLE);
    }
}

#[test]
fn short_and_whole_forms() {
    reads("5-1/2", Imperial, 352 * SIXTY_FOURTH);
    reads("5-1/2", Metric, 352 * SIXTY_FOURTH);
    reads("5\u{BD}", Imperial, 352 * SIXTY_FOURTH);
    reads("5 \u{215E}\"", Imperial, 376 * SIXTY_FOURTH);
    reads("1/64", Imperial, SIXTY_FOURTH);
    reads("63/64\"", Imperial, 63 * SIXTY_FOURTH);
    reads("14'", Imperial, 14 * 12 * 64 * SIXTY_FOURTH);
    reads("14'", Metric, 14 * 12 * 64 * SIXTY_FOURTH);
    reads("14' 0\"", Imperial, 14 * 12 * 64 * SIXTY_FOURTH);
    reads("14' 5/16", Imperial, (168 * 64 + 20) * SIXTY_FOURTH);
    reads("171", Imperial, 171 * 64 * SIXTY_FOURTH);
    reads("171\"", Metric, 171 * 64 * SIXTY_FOURTH);
    reads("0", Imperial, 0);
    reads("-0", Metric, 0);
    reads(".5", Imperial, 32 * SIXTY_FOURTH);
    reads("-14' 3 5/16", Imperial, -EXAMPLE);
    reads("\u{2212}1/8", Imperial, -8 * SIXTY_FOURTH);
    reads("0.000125", Imperial, 127);
}

#[test]
fn metric_forms() {
    for text in [
        "4351mm", "4351 mm", "4351 MM", "4.351m", "4.351 M", "4351.0mm",
    ] {
        reads(text, Imperial, 4_351 * 40_000);
        reads(text, Metric, 4_351 * 40_000);
    }
    reads("4351", Metric, 4_351 * 40_000);
    reads("4351.5", Metric, 43_515 * 4_000);
    reads("0.000025mm", Imperial, 1);
    reads("0.000000025 m", Imperial, 1);
    reads("-12.5", Metric, -500_000);
}

/// The ends of the range: 2^31 counts of 25 nm = 53,687.0912 mm.
#[test]
fn the_ends_of_the_range() {
    reads("53687.091175mm", Imperial, i32::MAX);
    reads("-53687.0912mm", Imperial, i32::MIN);
    reads("176'", Imperial, 176 * 12 * 64 * SIXTY_FOURTH);
}

#[test]
fn written_forms() {
    for (counts, imperial, card) in [
        (EXAMPLE, "14' 3 5/16\"", "14' 3 5/16"),
        (-EXAMPLE, "-14' 3 5/16\"", "-14' 3 5/16"),
        (0, "0\"", "0"),
        (20 * SIXTY_FOURTH, "5/16\"", "5/16"),
        (-SIXTY_FOURTH, "-1/64\"", "-1/64"),
        (352 * SIXTY_FOURTH, "5 1/2\"", "5 1/2"),
        (168 * 64 * SIXTY_FOURTH, "14' 0\"", "14' 0"),
        ((168 * 64 + 20) * SIXTY_FOURTH, "14' 0 5/16\"", "14' 0 5/16"),
        (171_313 * 1_016, "171.313\"", "171.313"),
        (-1_016, "-0.001\"", "-0.001"),
        // No decimal inch ends here: 4351 mm is 171.2992125.. in.
        (4_351 * 40_000, "4351 mm", "4351 mm"),
        (1, "0.000025 mm", "0.000025 mm"),
    ] {
        let length = Length::from_counts(counts);
        assert_eq!(length.shown(Imperial).to_string(), imperial);
        assert_eq!(length.shown_on_card(Imperial).to_string(), card);
    }
    for (counts, metric) in [
        (4_351 * 40_000, "4351 mm"),
        (43_515 * 4_000, "4351.5 mm"),
        (-4_000, "-0.1 mm"),
        (0, "0 mm"),
        (SIXTY_FOURTH, "0.396875 mm"),
        (i32::MIN + 1, "-53687.091175 mm"),
    ] {
        assert_eq!(
            Length::from_counts(counts).shown(Metric).to_string(),
            metric
        );
        assert_eq!(
            Length::from_counts(counts)
                .shown_on_card(Metric)
                .to_string(),
            metric
        );
    }
}

#[test]
fn a_shown_length_keeps_its_column() {
    let length = Length::from_counts(EXAMPLE);
    assert_eq!(
        format!("[{:>13}]", length.shown(Imperial)),
        "[  14' 3 5/16\"]"
    );
    assert_eq!(
        format!("[{:<13}]", length.shown(Imperial)),
        "[14' 3 5/16\"  ]"
    );
}
