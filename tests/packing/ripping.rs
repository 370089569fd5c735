//! Rip heights: published section dimensions, worked by hand.

use boltbay_core::Length;
use boltbay_core::packing::{Space, rip, rip_shown};
use boltbay_core::shapes;
use boltbay_core::words::Units;

/// AISC Shapes Database v16.0, W8X24: d 7.93, tf 0.400, T 6-1/8, k1 9/16,
/// tw 0.245. Full height 7.13 - 1/16 = 7.0675; fillet 9/16 - 0.1225 = 0.44.
#[test]
fn a_thin_sheet_at_the_web_is_ripped_to_the_flat() {
    let space = Space::of(&shapes::find("W8x24").unwrap(), Units::Imperial);
    assert_eq!(space.full, Length::from_counts(7_067_500 * 127 / 125));
    assert_eq!(space.flat, Length::from_sixteenths(98));
    assert_eq!(space.reach, Length::from_thousandths(440));

    let sheet = Length::from_sixty_fourths(14);
    let board = Length::from_sixteenths(24);
    let first = rip(&space, Length::ZERO, sheet);
    assert_eq!(
        (first.height, first.seats, first.chamfered),
        (space.flat, false, false)
    );
    let second = rip(&space, sheet, board);
    assert_eq!(
        (second.height, second.seats, second.chamfered),
        (space.full, true, true)
    );
    let outer = rip(&space, Length::from_sixty_fourths(110), board);
    assert_eq!(
        (outer.height, outer.seats, outer.chamfered),
        (space.full, true, false)
    );
}

/// A board against the web stands past the fillet: chamfered, full height.
/// AISC Shapes Database v16.0, W8X18: d 8.14, tf 0.330, T 6-1/2.
#[test]
fn a_board_at_the_web_is_chamfered() {
    let space = Space::of(&shapes::find("W8x18").unwrap(), Units::Imperial);
    let only = rip(&space, Length::ZERO, Length::from_sixteenths(24));
    assert_eq!(only.height, Length::from_counts(7_417_500 * 127 / 125));
    assert!(only.seats && only.chamfered);
    assert_eq!(
        rip_shown(only.height, Units::Imperial),
        Length::from_sixteenths(7 * 16 + 6)
    );
}

/// The limits belong to the legal side: starting where the fillet ends is clear
/// of it, ending where it ends leaves nothing to stand on.
#[test]
fn limits_of_the_fillet() {
    let space = Space {
        full: Length::from_inches(8),
        flat: Length::from_inches(7),
        reach: Length::from_sixteenths(8),
    };
    let one = Length::from_counts(1);
    let half = Length::from_sixteenths(8);
    assert!(!rip(&space, Length::ZERO, half).seats);
    assert!(rip(&space, Length::ZERO, half.saturating_add(one)).chamfered);
    assert!(!rip(&space, half, half).chamfered);
    assert!(rip(&space, half.saturating_sub(one), half).chamfered);
}
