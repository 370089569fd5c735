//! Stacks worked by hand, each with its reason.

use boltbay_core::Length;
use boltbay_core::decimal::Decimal;
use boltbay_core::job::{Job, Layer, LayerKind, Moisture};
use boltbay_core::packing::{self, PackingInput, Stack};
use boltbay_core::words::{Name, Units};

/// A layer as a test writes it: thickness, solid, moisture, count.
pub fn layer(
    thickness: Length,
    solid: bool,
    moisture: Option<Moisture>,
    count: Option<u16>,
) -> Layer {
    Layer {
        name: Name::new(),
        thickness,
        kind: if solid {
            LayerKind::Solid
        } else {
            LayerKind::Sheet
        },
        moisture,
        count,
    }
}

fn sixty_fourths(count: i32) -> Length {
    Length::from_sixty_fourths(count)
}

/// Dry boards and sheets in 64ths of an inch; solid from 1 in up.
pub fn job(layers: &[i32], n: &[i32], s: &[i32]) -> Job {
    let mut job = Job::new(Units::Imperial);
    for &thickness in layers {
        let stock = layer(sixty_fourths(thickness), thickness >= 64, None, None);
        job.layers.push(stock).unwrap();
    }
    for (side, outstands) in [n, s].into_iter().enumerate() {
        for &d in outstands {
            job.outstands[side].push(sixty_fourths(d)).unwrap();
        }
    }
    job
}

pub fn choose(job: &Job) -> [Option<Stack>; 2] {
    packing::choose(&PackingInput::of(job, None, [true, true]))
}

/// Thicknesses in 64ths, web to face.
fn thick(stack: &Option<Stack>) -> Vec<i32> {
    let layers = stack.as_ref().unwrap().layers.iter();
    layers.map(|l| l.thickness.counts() / 15_875).collect()
}

fn error(stack: &Option<Stack>) -> i32 {
    stack.as_ref().unwrap().error.counts() / 15_875
}

/// Hand-worked: pockets 3-1/8 and 3-1/16 from 1-1/2 boards and 7/32 sheet.
/// N: 2 boards are 1/8 shy (limit 1/16), with one sheet 3/32 proud. S: 2 boards
/// are 1/16 shy, just allowed; with a sheet 5/32 proud, too much.
#[test]
fn a_sheet_fills_where_two_boards_fall_short() {
    let found = choose(&job(&[96, 14], &[200], &[196]));
    assert_eq!(thick(&found[0]), [14, 96, 96]);
    assert_eq!(error(&found[0]), 6);
    assert_eq!(thick(&found[1]), [96, 96]);
    assert_eq!(error(&found[1]), -4);
    assert!(found.iter().flatten().all(|stack| stack.feasible));
}

/// Hand-worked: pockets 2-3/4 and 2-13/16 from 1-1/2, 23/32 and 19/32, aim
/// 1/16 proud. N aims at 2-13/16: met exactly. S aims at 2-7/8: 2-13/16 and
/// 2-15/16 are equally near with equal layers and outer, so the lower total.
#[test]
fn equal_errors_take_the_lower_total() {
    let mut job = job(&[96, 46, 38], &[176], &[180]);
    job.face = Some(boltbay_core::job::Face {
        shy: Length::from_sixteenths(1),
        proud: Length::from_sixteenths(2),
        aim: Some(Length::from_sixteenths(1)),
    });
    let found = choose(&job);
    assert_eq!(thick(&found[0]), [38, 46, 96]);
    assert_eq!(error(&found[0]), 0);
    assert_eq!(thick(&found[1]), [38, 46, 96]);
    assert_eq!(error(&found[1]), -4);
}

/// Hand-worked: pockets 3-7/8 and 3-13/16 from 19/32, 1-1/2 and 1-3/4: one of
/// each is 1/32 shy and 1/32 proud; the thicker board goes outside.
#[test]
fn the_thicker_board_goes_outside() {
    let found = choose(&job(&[38, 96, 112], &[248], &[244]));
    for side in &found {
        assert_eq!(thick(side), [38, 96, 112]);
    }
    assert_eq!((error(&found[0]), error(&found[1])), (-2, 2));
}

/// Hand-worked, metric: pockets 79 and 80 from 38 dry, 39 green, 44.5 LVL, ply
/// 18.2. Two green 39 are 1 and 2 mm shy now (limit 1.5), but dry to
/// 2 x 39 x 0.9711 = 75.75 (FPL-RP-489, green to 12 %), so 18.2 + 18.2 + 44.5 =
/// 80.9 stands on both sides, 1.9 and 0.9 mm proud.
#[test]
fn green_boards_that_fit_today_are_passed_over() {
    let tenths = Length::from_tenth_millimetres;
    let mut job = Job::new(Units::Metric);
    for stock in [
        layer(tenths(380), true, None, None),
        layer(tenths(390), true, Some(Moisture::Green), None),
        layer(tenths(445), true, None, None),
        layer(tenths(182), false, None, None),
    ] {
        job.layers.push(stock).unwrap();
    }
    job.outstands[0].push(tenths(790)).unwrap();
    job.outstands[1].push(tenths(800)).unwrap();
    let found = choose(&job);
    for (side, error) in found.iter().flatten().zip([19, 9]) {
        let listed: Vec<_> = side.layers.iter().map(|l| l.layer).collect();
        assert_eq!(listed, [3, 3, 2]);
        assert_eq!(side.total, tenths(809));
        assert_eq!(side.error, tenths(error));
        assert_eq!(side.error_dry, side.error);
        assert!(side.feasible);
    }
}

/// Hand-worked: two green 1-9/16 boards (PS 20 Table 3, nominal 2, green) in a
/// 3-1/8 pocket are flush now and lose 2.89 % of 3.125 = 0.0903 in by 12 %
/// (FPL-RP-489); with nothing else on hand they are still the stack.
#[test]
fn green_boards_alone_say_how_shy_they_end() {
    let mut job = job(&[], &[200], &[]);
    job.layers
        .push(layer(sixty_fourths(100), true, Some(Moisture::Green), None))
        .unwrap();
    let [Some(stack), None] = choose(&job) else {
        panic!("N only");
    };
    assert!(stack.feasible);
    assert_eq!(stack.error, Length::ZERO);
    // 3.125 in = 3,175,000 counts x 0.0289 = 91,757.5
    assert!(
        (stack.error_dry.counts() + 91_757).abs() <= 1,
        "{:?}",
        stack.error_dry
    );
}

/// One 1-3/4 board for both sides: the side that gains more by it gets it.
/// Pockets 1-3/4 (N) and 1-11/16 (S), 1-1/2 boards at will, window -1/4..+1/8.
/// N with 1-3/4: |0| + |-3/16| = 3/16; S with it: |-1/4| + |1/16| = 5/16.
#[test]
fn a_shared_count_goes_where_the_sum_is_least() {
    let mut job = job(&[96, 112], &[112], &[108]);
    job.layers[1].count = Some(1);
    job.face = Some(boltbay_core::job::Face {
        shy: Length::from_sixteenths(4),
        proud: Length::from_sixteenths(2),
        aim: None,
    });
    let found = choose(&job);
    assert_eq!((thick(&found[0]), thick(&found[1])), (vec![112], vec![96]));
    job.outstands.swap(0, 1);
    let found = choose(&job);
    assert_eq!((thick(&found[0]), thick(&found[1])), (vec![96], vec![112]));
}

/// A board of 1 7/16 in may be the outer layer, one of 1/64 less may not; a
/// sheet never. Nothing fit for outside: the side is listed without layers.
#[test]
fn the_outer_layer_is_solid_and_thick_enough() {
    assert_eq!(thick(&choose(&job(&[92], &[92], &[92]))[0]), [92]);
    let [Some(n), Some(_)] = choose(&job(&[91], &[91], &[91])) else {
        panic!("both sides");
    };
    assert!(n.layers.is_empty() && !n.feasible && n.thickness().is_none());
    let mut sheets = job(&[], &[96], &[96]);
    sheets
        .layers
        .push(layer(sixty_fourths(96), false, None, None))
        .unwrap();
    assert!(choose(&sheets)[0].as_ref().unwrap().layers.is_empty());
}

/// 36 mm is enough in a metric job, 35.9 mm is not (common practice, no source).
#[test]
fn the_outer_layer_in_metric() {
    for (tenths, fit) in [(360, true), (359, false)] {
        let mut job = Job::new(Units::Metric);
        let thickness = Length::from_tenth_millimetres(tenths);
        job.layers.push(layer(thickness, true, None, None)).unwrap();
        job.outstands[0].push(thickness).unwrap();
        let found = packing::choose(&PackingInput::of(&job, None, [true, false]));
        assert_eq!(found[0].as_ref().unwrap().feasible, fit);
        assert!(found[1].is_none());
    }
}

/// What cannot fit is still listed: the nearest, and by how much it misses.
/// A 2-1/2 pocket from 1-1/2 boards: one misses 2-7/16 by 15/16, two miss 2-5/8
/// by 3/8.
#[test]
fn the_nearest_stack_is_listed() {
    let found = choose(&job(&[96], &[160], &[160]));
    let stack = found[0].as_ref().unwrap();
    assert!(!stack.feasible);
    assert_eq!(thick(&found[0]), [96, 96]);
    assert_eq!(stack.miss, Length::from_sixteenths(6));
}

/// Three outstands: every window counts. 3, 3-1/8, 3-3/16: windows 2-15/16 ..
/// 3-1/8, 3-1/16 .. 3-1/4, 3-1/8 .. 3-5/16 share only 3-1/8.
#[test]
fn every_measured_outstand_has_its_window() {
    let mut spread = job(&[96, 8], &[192, 200, 204], &[192]);
    let found = choose(&spread);
    assert_eq!(thick(&found[0]), [8, 96, 96]);
    assert!(found[0].as_ref().unwrap().feasible);
    assert_eq!(found[0].as_ref().unwrap().target, sixty_fourths(198));
    spread.layers[1].thickness = sixty_fourths(9);
    let found = choose(&spread);
    assert_eq!(found[0].as_ref().unwrap().miss, sixty_fourths(1));
}

/// Moistures of one job's stock may be any number the card can hold.
#[test]
fn hostile_figures_end_without_panic() {
    for extreme in [i32::MIN, -1, 0, 1, i32::MAX] {
        let mut job = Job::new(Units::Imperial);
        for count in [None, Some(0), Some(u16::MAX)] {
            let moisture = Some(Moisture::Percent(Decimal::new(extreme, 6)));
            let stock = layer(Length::from_counts(extreme), true, moisture, count);
            job.layers.push(stock).unwrap();
        }
        job.outstands[0].push(Length::from_counts(extreme)).unwrap();
        job.outstands[1]
            .push(Length::from_counts(i32::MAX))
            .unwrap();
        job.face = Some(boltbay_core::job::Face {
            shy: Length::from_counts(extreme),
            proud: Length::from_counts(extreme),
            aim: Some(Length::from_counts(extreme)),
        });
        assert!(choose(&job).iter().all(Option::is_some));
    }
}
