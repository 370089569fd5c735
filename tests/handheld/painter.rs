//! The painter: figures, strips and maps that are drawn by hand here.

use super::glass::golden;
use boltbay_core::decimal::Decimal;
use boltbay_core::length::Length;
use boltbay_core::words::{Row, Units};
use boltbay_handheld::View;
use boltbay_handheld::paint::{self, Fault};
use boltbay_handheld::view::{Columns, Dot, Drawn, Figure, Map, Scale, Strip, Touch, text};

fn length(text: &str) -> Length {
    Length::read(text, Units::Imperial).unwrap()
}

fn figure(words: &str, units: Units, touch: Touch) -> View {
    let mut view = View::of("figure", "");
    view.status.left = text("5/17");
    view.status.tab = text("ROW TOP");
    view.status.right = text("END A");
    view.figure = Some(Figure::length(
        Length::read(words, units).unwrap(),
        units,
        touch,
    ));
    view
}

#[test]
fn a_mark_to_strike() {
    let mut view = figure("23' 10 11/16", Units::Imperial, Touch::Keyed);
    view.flange = Some(Row::Top);
    view.strip = Some(Strip {
        left: text("N6 1 1/4"),
        right: text("3/8 N7"),
    });
    golden("figure-mark", &view);
}

#[test]
fn the_widest_mark() {
    let mut view = figure("79' 11 15/16", Units::Imperial, Touch::Keyed);
    view.flange = Some(Row::Bot);
    view.strip = Some(Strip {
        left: text("S40 2 3/8"),
        right: text("1 N41"),
    });
    golden("figure-widest", &view);
}

#[test]
fn the_widest_metric_mark() {
    let mut view = figure("24384", Units::Metric, Touch::Keyed);
    view.flange = Some(Row::Bot);
    golden("figure-widest-metric", &view);
    golden(
        "figure-tenth",
        &figure("20486.5", Units::Metric, Touch::Keyed),
    );
}

#[test]
fn a_guess_is_grey_and_a_typed_tail_white() {
    let mut view = figure("14' 3 5/16", Units::Imperial, Touch::Tail(2));
    view.scale = Some(Scale {
        at: length("14' 3 5/16"),
        units: Units::Imperial,
    });
    view.line("12' 11 7/16", "+15 7/8");
    golden("figure-tail", &view);
    golden(
        "figure-guess",
        &figure("14' 3 5/16", Units::Imperial, Touch::Suggested),
    );
}

#[test]
fn all_digits() {
    for (name, words) in [
        ("digits-1", "12' 3 45/64"),
        ("digits-2", "67' 8 9/64"),
        ("digits-3", "9' 0 31/32"),
    ] {
        golden(name, &figure(words, Units::Imperial, Touch::Keyed));
    }
    golden("digits-4", &figure("34567", Units::Metric, Touch::Keyed));
    golden("digits-5", &figure("12890", Units::Metric, Touch::Keyed));
    golden("digits-6", &figure("5/16", Units::Imperial, Touch::Keyed));
    golden("digits-7", &figure("-2 1/2", Units::Imperial, Touch::Keyed));
    golden("digits-8", &figure("0", Units::Imperial, Touch::Empty));
}

#[test]
fn rods_by_number_and_length() {
    let mut view = figure("8 1/8", Units::Imperial, Touch::Keyed);
    if let Some(figure) = view.figure.as_mut() {
        figure.times = Some(14);
    }
    golden("figure-times", &view);
}

#[test]
fn numbers_of_every_length_fit() {
    for places in 0..=3 {
        for digits in [0, 7, 99, 1234, 56_789, 123_456, 999_999] {
            let shift = 10_i32.pow(u32::from(places));
            let number = Decimal::new(digits * shift + shift / 2 - shift / 10, places);
            let mut view = View::of("number", "");
            view.figure = Some(Figure::number(number, Touch::Keyed));
            assert!(paint::faults(&view).is_empty(), "{number}");
        }
    }
    let mut view = View::of("number", "");
    view.figure = Some(Figure::number(Decimal::new(123_456_789, 3), Touch::Keyed));
    golden("number-longest", &view);
    view.figure = Some(Figure::number(Decimal::new(741, 2), Touch::Keyed));
    golden("number-load", &view);
}

#[test]
fn a_map_with_one_of_everything() {
    let hole = |row, at, dot| Drawn::Hole { row, at, dot };
    let mut map = Map {
        cursor: Some(70),
        sides: *b"NS",
        ends: *b"AB",
        ..Map::default()
    };
    for (side, at) in [(0, 20), (0, 52), (0, 84), (1, 24), (1, 56), (1, 124)] {
        map.joists[side].set(at, at + 3);
        map.metal[side].set(at - 3, at + 6);
    }
    map.free[0].set(30, 46);
    map.free[0].set(64, 64);
    map.free[1].set(-9, 12);
    map.free[1].set(98, 300);
    for drawn in [
        Drawn::Obstacle {
            n: true,
            s: false,
            span: (100, 112),
        },
        Drawn::Blocked { span: (90, 116) },
        hole(Row::Top, 36, Dot::Drilled),
        hole(Row::Bot, 46, Dot::Marked),
        hole(Row::Top, 70, Dot::Planned),
        hole(Row::Bot, 104, Dot::StruckOut),
    ] {
        map.drawn.push(drawn).unwrap();
    }
    let mut view = View::of("map", "");
    view.status.left = text("3 TOP");
    view.status.right = text("6 7/8 TO N3");
    view.map = Some(map);
    golden("map-everything", &view);
}

#[test]
fn a_line_too_long_is_a_fault() {
    let mut view = View::of("list", "");
    view.line("NINETEEN LETTERS AB", "");
    assert!(matches!(paint::faults(&view)[0], Fault::Outside(_)));
    let mut view = View::of("list", "");
    view.line("TEN LETTER", "TEN LETTER");
    assert!(matches!(paint::faults(&view)[0], Fault::Overlap(..)));
}

#[test]
fn columns_are_set_one_by_one() {
    let mut columns = Columns::default();
    for (from, to) in [(-30, 0), (7, 9), (127, 900), (130, 200), (20, 19)] {
        columns.set(from, to);
    }
    assert_eq!(columns.iter().collect::<Vec<_>>(), [0, 7, 8, 9, 127]);
}
