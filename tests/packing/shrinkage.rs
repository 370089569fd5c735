//! Shrinkage against the published equations, worked by hand.

use boltbay_core::decimal::Decimal;
use boltbay_core::job::Moisture;
use boltbay_core::shrinkage::{Across, ONE, remaining, shrink};

fn percent(tenths: i32) -> Moisture {
    Moisture::Percent(Decimal::new(tenths, 1))
}

/// Percent lost, in thousandths, to the nearest.
fn lost(from: Moisture, to: Moisture, across: Across) -> i64 {
    let left = remaining(from, to, across);
    ((ONE - left) * 100_000 + ONE / 2).div_euclid(ONE)
}

/// FPL-RP-489: 5.062 - 0.181 M (thickness), 6.031 - 0.215 M (width), percent
/// from green; worked by hand.
#[test]
fn percent_from_green_follows_the_published_lines() {
    let rows = [
        (80, 3_614_000_000, 4_311_000_000),
        (120, 2_890_000_000, 3_451_000_000),
        (150, 2_347_000_000, 2_806_000_000),
        (190, 1_623_000_000, 1_946_000_000),
        (105, 3_161_500_000, 3_773_500_000),
    ];
    for (moisture, thickness, width) in rows {
        assert_eq!(shrink(percent(moisture), Across::Thickness), thickness);
        assert_eq!(shrink(percent(moisture), Across::Width), width);
    }
    for green in [Moisture::Green, percent(280), percent(350)] {
        assert_eq!(shrink(green, Across::Thickness), 0);
        assert_eq!(shrink(green, Across::Width), 0);
    }
}

/// FPL-RP-489, worked by hand: 19 to 8 % loses 1 - 96.386 / 98.377 = 2.024 % of
/// the thickness and 1 - 95.689 / 98.054 = 2.412 % of the width; green to 8 %
/// loses 3.614 and 4.311 %; 19 to 12 % loses 1 - 97.110 / 98.377 = 1.288 %.
#[test]
fn between_two_moistures_the_shares_divide() {
    let rows = [
        (percent(190), percent(80), 2_024, 2_412),
        (Moisture::Green, percent(80), 3_614, 4_311),
        (percent(190), percent(120), 1_288, 1_535),
        (percent(120), percent(120), 0, 0),
    ];
    for (from, to, thickness, width) in rows {
        assert_eq!(lost(from, to, Across::Thickness), thickness);
        assert_eq!(lost(from, to, Across::Width), width);
    }
}

/// Wood drier than where it goes swells by the same share: 9 to 12 %,
/// 97.110 / 96.567 (FPL-RP-489, worked by hand) = 0.562 % more.
#[test]
fn dry_wood_swells() {
    assert_eq!(lost(percent(90), percent(120), Across::Thickness), -562);
}

/// Nonsense moistures neither overflow nor turn a board around.
#[test]
fn any_moisture_gives_a_sane_share() {
    for digits in [i32::MIN, -1, 0, 1, 50, 2_000_000, i32::MAX] {
        for places in [0, 3, 6] {
            let odd = Moisture::Percent(Decimal::new(digits, places));
            for across in [Across::Thickness, Across::Width] {
                let share = remaining(odd, percent(120), across);
                assert!(share > ONE * 9 / 10 && share < ONE * 11 / 10);
            }
        }
    }
}
