//! What packing warns of, and when it does not.

use super::worked::{job, layer};
use boltbay_core::Length;
use boltbay_core::caution::{Caution, Cautions};
use boltbay_core::decimal::Decimal;
use boltbay_core::job::{Job, Moisture};
use boltbay_core::packing::{self, PackingInput};
use boltbay_core::shapes;
use boltbay_core::words::Side;

fn warned(job: &Job, designation: Option<&str>) -> Vec<Caution> {
    let section = designation.and_then(shapes::find);
    let input = PackingInput::of(job, section.as_ref(), [true, true]);
    let stacks = packing::choose(&input);
    let mut found = Cautions::new();
    packing::cautions(&input, &stacks, &mut found);
    found.to_vec()
}

/// More than 1/8 in apart is a caution, 1/8 in is not.
#[test]
fn a_spread_above_an_eighth_is_said() {
    assert_eq!(warned(&job(&[96], &[192, 200], &[192]), None), []);
    let spread = Length::from_sixty_fourths(9);
    let wanted = Caution::OutstandSpread {
        side: Side::S,
        spread,
    };
    assert_eq!(
        warned(&job(&[96], &[192], &[201, 192, 195]), None),
        [wanted]
    );
}

/// Two green boards, flush now, end 0.0903 in shy of a 3-1/8 pocket when dry
/// (FPL-RP-489): beyond 1/16. At 19 % they lose 1.288 % = 0.040 in: within.
#[test]
fn wood_that_goes_shy_is_said() {
    let mut green = job(&[], &[200], &[200]);
    let moisture = Some(Moisture::Green);
    green
        .layers
        .push(layer(Length::from_sixty_fourths(100), true, moisture, None))
        .unwrap();
    let found = warned(&green, None);
    assert!(matches!(
        found[..],
        [
            Caution::StackGoesShy { side: Side::N, .. },
            Caution::StackGoesShy { side: Side::S, .. },
            Caution::SnugAgain
        ]
    ));
    green.layers[0].moisture = Some(Moisture::Percent(Decimal::whole(19)));
    assert_eq!(warned(&green, None), [Caution::SnugAgain]);
    green.layers[0].moisture = Some(Moisture::Percent(Decimal::whole(12)));
    assert_eq!(warned(&green, None), []);
}

/// A 7/32 sheet lies within the fillet of a W8X24 (0.44 in, AISC Shapes Database
/// v16.0) and hangs above it.
#[test]
fn a_layer_that_hangs_above_the_fillet_is_said() {
    let wanted = Caution::LayerDoesNotSeat {
        side: Side::N,
        layer: 0,
    };
    assert_eq!(
        warned(&job(&[96, 14], &[200], &[196]), Some("W8x24")),
        [wanted]
    );
}

/// A side that packing stands on and that was not measured: no stack, ask.
#[test]
fn an_outstand_is_never_taken_from_the_table() {
    let half = job(&[96], &[192], &[]);
    assert!(PackingInput::outstand_missing(&half, [true, true]));
    assert!(!PackingInput::outstand_missing(&half, [true, false]));
}
