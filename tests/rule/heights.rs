//! Default row heights. Source: NDS 2024 Table 12.5.1C (4D, 1.5D), 12.5.1B
//! (3D); AISC Shapes Database v16.0 (d, tf, k detailing); common practice, no
//! source: the 2 in.

use super::{PATTERNS, inches, job, millimetres, pack_one_side, sixteenths};
use boltbay_core::hardware::STANDARDS;
use boltbay_core::job::{Nut, Pattern, PatternRows, Washer, WasherShape};
use boltbay_core::length::Length;
use boltbay_core::words::Units;
use boltbay_core::{rows, shapes};

/// Shape, bolt in sixteenths, TOP and BOT in sixteenths of an inch.
///
/// Worked out: W8X18 clear 7.480 less 2.000 = 5.480, down to 5 7/16. W10X33
/// 8.860 - 2 = 6.860, 6 13/16. W12X26, 5/8: 11.440 - 2.5 = 8.940, 8 15/16.
/// W6X9, 3/8: 5.470 - 1.5 = 3.970, 3 15/16. W14X22, 1 in: 13.030 - 4 = 9.030, 9.
const ROWS: [(&str, i32, i32, i32); 5] = [
    ("W8X18", 8, 87, 32),
    ("W10X33", 8, 109, 32),
    ("W12X26", 10, 143, 32),
    ("W6X9", 6, 63, 32),
    ("W14X22", 16, 144, 32),
];

#[test]
fn default_rows_by_hand() {
    for (shape, bolt, top, bot) in ROWS {
        let job = job(Units::Imperial, shape, sixteenths(bolt));
        let wanted = PatternRows {
            top: sixteenths(top),
            bot: sixteenths(bot),
        };
        assert_eq!(rows::heights(&job), Ok(wanted), "{shape} {bolt}/16");
        assert!(rows::defaulted(&job));
    }
}

/// W200X26.6, clear 7.480 in = 189.992 mm: less 48 = 141.992, down to 141.
/// W310X38.7, 11.440 in = 290.576 mm: less 80 = 210.576, down to 210. BOT 50 mm.
/// M20 in the W200X26.6: 109 less 50 is below 3D = 60.
#[test]
fn default_rows_in_millimetres() {
    for (shape, bolt, top) in [("W200X26.6", 12, 141), ("W310X38.7", 20, 210)] {
        let job = job(Units::Metric, shape, millimetres(bolt));
        let wanted = PatternRows {
            top: millimetres(top),
            bot: millimetres(50),
        };
        assert_eq!(rows::heights(&job), Ok(wanted), "M{bolt}");
    }
    let shallow = job(Units::Metric, "W200X26.6", millimetres(20));
    assert_eq!(rows::heights(&shallow), Err("rows"));
}

/// A 1 1/2 in bolt of no standard: 1.5D = 2 1/4 is more than 2 in; W16X26 clear
/// 15.010 less 6 = 9.010, down to 9.
#[test]
fn a_thick_bolt_keeps_its_own_edge_distance() {
    let mut job = job(Units::Imperial, "W16X26", sixteenths(24));
    assert_eq!(rows::heights(&job), Err("washer"));
    let washer = Washer {
        size: inches(3),
        shape: WasherShape::Round,
        thickness: Some(sixteenths(4)),
    };
    job.washers = [Some(washer); 2];
    assert_eq!(rows::heights(&job), Err("nut"));
    job.nut = Some(Nut {
        thickness: sixteenths(24),
        across_corners: Some(sixteenths(42)),
    });
    let wanted = PatternRows {
        top: inches(9),
        bot: sixteenths(36),
    };
    assert_eq!(rows::heights(&job), Ok(wanted));
}

/// W6X9, 1/2 in: clear 5.470; TOP 3 7/16, BOT 2: 1 7/16 apart, below 3D = 1 1/2.
/// The middle of 5.470 is 2.735, down to 2 11/16.
#[test]
fn too_shallow_for_two_rows() {
    let mut job = job(Units::Imperial, "W6X9", sixteenths(8));
    assert_eq!(rows::heights(&job), Err("rows"));
    job.pattern = Some(Pattern::Paired);
    assert_eq!(rows::heights(&job), Err("rows"));
    job.pattern = Some(Pattern::Single);
    assert_eq!(rows::heights(&job).unwrap().top, sixteenths(43));
    // Keyed rows stand, whatever they are.
    job.rows = Some(PatternRows {
        top: inches(3),
        bot: inches(2),
    });
    assert_eq!(rows::heights(&job).unwrap().top, inches(3));
    assert!(!rows::defaulted(&job));
}

#[test]
fn a_single_row_runs_on_top_where_two_would_fit() {
    let mut job = job(Units::Imperial, "W8X18", sixteenths(8));
    job.pattern = Some(Pattern::Single);
    assert_eq!(rows::heights(&job).unwrap().top, sixteenths(87));
}

/// W8X18 with a 3 in plate that may turn on bare web: half diagonal 2.12132;
/// fillet .8125 - .330 = .4825; lowest 2.60382, up to 2 5/8; highest 7.480 -
/// 2.60382 = 4.87618, down to 4 7/8.
#[test]
fn a_plate_on_bare_web_stays_off_the_fillets() {
    let mut job = job(Units::Imperial, "W8X18", sixteenths(8));
    job.washers[1] = Some(Washer {
        size: inches(3),
        shape: WasherShape::Turns,
        thickness: None,
    });
    assert_eq!(rows::heights(&job).unwrap().top, sixteenths(87), "on wood");
    pack_one_side(&mut job);
    let wanted = PatternRows {
        top: sixteenths(78),
        bot: sixteenths(42),
    };
    assert_eq!(rows::heights(&job), Ok(wanted));
    // A 6 in plate leaves no height at all, not even for a single row.
    job.washers[1].as_mut().unwrap().size = inches(6);
    assert_eq!(rows::heights(&job), Err("rows"));
    job.pattern = Some(Pattern::Single);
    assert_eq!(rows::heights(&job), Err("rows"));
}

#[test]
fn what_is_missing_is_named() {
    let mut job = job(Units::Imperial, "CUSTOM", sixteenths(8));
    assert_eq!(rows::heights(&job), Err("shape"));
    job.bolt = None;
    job.beam.as_mut().unwrap().designation = "W8X18".try_into().unwrap();
    assert_eq!(rows::heights(&job), Err("bolt"));
    job.beam = None;
    assert_eq!(rows::heights(&job), Err("beam"));
}

/// Every shape with every built-in bolt: the rule of the header, checked from
/// the outside in inches, and no higher or lower row would do.
#[test]
fn every_shape_and_bolt_obeys_the_rule_and_no_more() {
    let slack = 1e-9;
    for section in shapes::all() {
        let name = section.designation(Units::Imperial).to_string();
        let clear = section.depth().as_inches() - 2.0 * section.flange().as_inches();
        let fillet = section.k_detail().as_inches() - section.flange().as_inches();
        for standard in &STANDARDS {
            let diameter = standard.thread.diameter;
            let d = diameter.as_inches();
            let off = fillet + standard.web_hole.as_inches() / 2.0;
            let good = |top: f64, bot: f64| {
                clear - top >= 4.0 * d - slack
                    && clear - top >= off - slack
                    && bot >= 2.0
                    && bot >= 1.5 * d - slack
                    && bot >= off - slack
                    && top - bot >= 3.0 * d - slack
            };
            let step = 1.0 / 16.0;
            for pattern in PATTERNS {
                let mut job = job(Units::Imperial, &name, diameter);
                job.pattern = Some(pattern);
                let Ok(PatternRows { top, bot }) = rows::heights(&job) else {
                    // Two rows as high and low as the rule has them do not fit.
                    let top = ((clear - (4.0 * d).max(off)) / step + slack).floor() * step;
                    let bot = ((2.0_f64).max(1.5 * d).max(off) / step - slack).ceil() * step;
                    assert!(!good(top, bot), "{name} {d} {pattern:?}: {top} {bot}");
                    assert_ne!(pattern, Pattern::Single, "{name} {d}");
                    continue;
                };
                for height in [top, bot] {
                    assert_eq!(height.counts() % Length::from_sixteenths(1).counts(), 0);
                }
                let (top, bot) = (top.as_inches(), bot.as_inches());
                if top == bot {
                    assert_eq!(pattern, Pattern::Single);
                    assert!((clear / 2.0 - top) < step && clear / 2.0 >= top);
                    continue;
                }
                assert!(good(top, bot), "{name} {d}: {top} {bot}");
                assert!(!good(top + step, bot), "{name} {d}: higher");
                assert!(!good(top, bot - step), "{name} {d}: lower");
            }
        }
    }
}
