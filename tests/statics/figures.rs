//! Figures: decimals and rounding as said, no float formatting, no panic.

use boltbay_core::figure::Shown;
use boltbay_core::length::Rounding;
use proptest::prelude::*;

fn shown(value: f64, decimals: u8, rounding: Rounding) -> String {
    Shown::new(value, decimals, rounding).to_string()
}

/// Worked by hand from the rule: down is toward less, up toward more, halves of
/// nearest up.
#[test]
fn rounds_the_way_it_is_told() {
    use Rounding::{Down, Nearest, Up};
    let cases = [
        (2.5, 0, Nearest, "3"),
        (-2.5, 0, Nearest, "-2"),
        (2.4, 0, Nearest, "2"),
        (2.01, 1, Up, "2.1"),
        (2.09, 1, Down, "2.0"),
        (-2.01, 1, Up, "-2.0"),
        (-2.01, 1, Down, "-2.1"),
        (0.0, 2, Nearest, "0.00"),
        (-0.004, 2, Nearest, "0.00"),
        (-0.004, 2, Down, "-0.01"),
        (0.070_312_5, 7, Down, "0.0703125"),
        (1e9, 3, Nearest, "1000000000.000"),
        (0.05, 1, Nearest, "0.1"),
    ];
    for (value, decimals, rounding, expected) in cases {
        let text = shown(value, decimals, rounding);
        assert_eq!(text, expected, "{value} {rounding:?}");
    }
}

/// A sum's dust must not turn a figure: three tenths are three tenths, up or down.
#[test]
fn dust_of_a_sum_turns_no_figure() {
    let sum = 0.1 + 0.2;
    assert!(sum > 0.3);
    assert_eq!(shown(sum, 1, Rounding::Up), "0.3");
    let product = 0.7 * 10.0 / 10.0 * 3.0;
    assert!(product < 2.1);
    assert_eq!(shown(product, 1, Rounding::Down), "2.1");
    // Two millionths of a step are no dust.
    assert_eq!(shown(3.000_002, 0, Rounding::Up), "4");
}

#[test]
fn what_is_no_number_is_dashes() {
    for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300, -1e16] {
        for decimals in [0, 2, 9, 200] {
            assert_eq!(shown(value, decimals, Rounding::Nearest), "--");
        }
    }
    let padded = format!("[{:>6}]", Shown::new(1.25, 1, Rounding::Down));
    assert_eq!(padded, "[   1.2]");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    /// Any bits: no panic, and a shown number lies within a step of the value,
    /// on the side that the rounding says.
    #[test]
    fn any_number_at_all(bits in any::<u64>(), small in -1e7..1e7_f64, decimals in 0_u8..=9) {
        for value in [f64::from_bits(bits), small] {
            for rounding in [Rounding::Down, Rounding::Up, Rounding::Nearest] {
                let text = shown(value, decimals, rounding);
                if text == "--" {
                    continue;
                }
                let back: f64 = text.parse().expect("a number");
                let step = 10_f64.powi(-i32::from(decimals));
                let off = (back - value) / step;
                let dust = 2e-6 + value.abs() / step * 1e-15;
                let (least, most) = match rounding {
                    Rounding::Down => (-1.0, 0.0),
                    Rounding::Up => (0.0, 1.0),
                    Rounding::Nearest => (-0.5, 0.5),
                };
                prop_assert!(least - dust <= off && off <= most + dust, "{value} {text} {rounding:?}");
            }
        }
    }
}
