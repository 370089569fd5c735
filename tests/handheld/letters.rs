//! Letters and large digits: what the painter has ready, against the fonts and strokes
//! that it was made from, drawn the slow way, pixel by pixel.

#[path = "../../sim-app/handheld/build/digits.rs"]
#[allow(dead_code, reason = "the build script uses the rest")]
mod strokes;

use boltbay_core::Length;
use boltbay_core::decimal::Decimal;
use boltbay_core::words::Units;
use boltbay_handheld::paint::{self, Picture};
use boltbay_handheld::view::{Figure, Touch, View};
use embedded_graphics::mono_font::ascii::{FONT_6X10, FONT_7X13, FONT_7X13_BOLD};
use embedded_graphics::mono_font::{MonoFont, MonoTextStyle};
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::prelude::*;
use embedded_graphics::primitives::Rectangle;
use embedded_graphics::text::{Baseline, Text};
use strokes::FACES;

fn painted(view: &View) -> Picture {
    let mut picture = Picture::new();
    paint::paint(view, &mut picture);
    picture
}

/// Every letter of a font, and one that it has not, so many at a time.
fn texts(most: usize) -> Vec<String> {
    let letters: Vec<char> = (' '..='~').chain(['\u{d8}']).collect();
    let texts = letters.chunks(most);
    texts.map(|chunk| chunk.iter().collect()).collect()
}

fn write(text: &str, top: i32, font: &MonoFont, grey: Gray4, picture: &mut Picture) {
    let style = MonoTextStyle::new(font, grey);
    let text = Text::with_baseline(text, Point::new(1, top), style, Baseline::Top);
    text.draw(picture).unwrap();
}

#[test]
fn every_letter_is_that_of_its_font() {
    for (most, small, chosen, font) in [
        (18, false, false, FONT_7X13_BOLD),
        (18, false, true, FONT_7X13),
        (21, true, false, FONT_6X10),
        (21, true, true, FONT_6X10),
    ] {
        for text in texts(most) {
            let mut view = View::of("letters", "");
            view.small = small;
            view.selected = chosen.then_some(0);
            view.line(&text, "");
            let mut wanted = Picture::new();
            let (top, high) = if small { (14, 10) } else { (13, 13) };
            let mut grey = Gray4::WHITE;
            if chosen {
                let line = Rectangle::new(Point::new(0, top), Size::new(128, high));
                wanted.fill_solid(&line, grey).unwrap();
                grey = Gray4::BLACK;
            }
            write(&text, top, &font, grey, &mut wanted);
            assert_eq!(painted(&view), wanted, "{text}");
        }
    }
}

#[test]
fn a_hint_is_set_in_small_grey_letters() {
    let mut view = View::of("letters", "The quick brown fox, jumps.");
    view.line("", "");
    let mut wanted = Picture::new();
    for (top, text) in [(47, "The quick brown fox,"), (55, "jumps.")] {
        write(text, top, &FONT_6X10, Gray4::new(10), &mut wanted);
    }
    assert_eq!(painted(&view), wanted);
}

/// A row of digits with its left upper corner here.
fn digits(places: &[u8], face: &str, (x, y): (i32, i32), full: u32, picture: &mut Picture) {
    let face = FACES.iter().find(|known| known.name == face).unwrap();
    for (number, digit) in (0..).zip(places) {
        let left = x + number * (face.wide + face.gap);
        let rows = strokes::cover(*digit, face);
        let pixels = (y..).zip(&rows).flat_map(|(y, row)| {
            (left..).zip(row).map(move |(x, cover)| {
                let grey = full * u32::from(*cover) / 16;
                Pixel(Point::new(x, y), Gray4::new(u8::try_from(grey).unwrap()))
            })
        });
        picture
            .draw_iter(pixels.filter(|pixel| pixel.1 != Gray4::BLACK))
            .unwrap();
    }
}

/// The figure alone, white and as a guess, as it is and as it should be.
fn compare(figure: impl Fn(Touch) -> Figure, wanted: impl Fn(u32, &mut Picture)) {
    for (touch, full) in [(Touch::Keyed, 15), (Touch::Suggested, 7)] {
        let mut view = View::of("figure", "");
        view.figure = Some(figure(touch));
        let mut slow = Picture::new();
        wanted(full, &mut slow);
        assert_eq!(painted(&view), slow, "{:?}", view.figure);
    }
}

#[test]
fn every_digit_is_what_its_strokes_cover() {
    for digit in 0..=9 {
        let number =
            |digits, places| move |touch| Figure::number(Decimal::new(digits, places), touch);
        let d = i32::from(digit);
        compare(number(d, 0), |full, picture| {
            digits(&[digit], "WIDE", (53, 15), full, picture);
        });
        compare(
            |touch| Figure::length(Length::from_inches(d), Units::Imperial, touch),
            |full, picture| digits(&[digit], "LARGE", (54, 15), full, picture),
        );
        let five = 10_101 + 1010 * d;
        let places = [1, digit, 1, digit, 1];
        compare(number(five, 0), |full, picture| {
            digits(&places, "NARROW", (20, 15), full, picture);
        });
        // Five digits, 63 columns; a gap of 3; a point, 6; three digits, 35.
        compare(number(five * 1000 + 111 * d, 3), |full, picture| {
            digits(&places, "SLIM", (10, 15), full, picture);
            let point = Rectangle::new(Point::new(77, 46), Size::new(4, 4));
            let grey = Gray4::new(u8::try_from(full).unwrap());
            picture.fill_solid(&point, grey).unwrap();
            digits(&[digit; 3], "FRACTION", (82, 35), full, picture);
        });
    }
}

#[test]
fn a_fraction_alone_is_what_its_strokes_cover() {
    for over in (1..64).step_by(2) {
        let places = |number: i32| -> Vec<u8> {
            let digits = number.to_string();
            digits.bytes().map(|digit| digit - b'0').collect()
        };
        let over_places = places(over);
        compare(
            |touch| Figure::length(Length::from_sixty_fourths(over), Units::Imperial, touch),
            |full, picture| {
                // Two digits are 30 columns, one 14; 3 of air before them.
                let left = (128 - 33) / 2 + 3;
                let shift = if over_places.len() == 1 { 8 } else { 0 };
                digits(&over_places, "ALONE", (left + shift, 15), full, picture);
                let grey = Gray4::new(u8::try_from(full).unwrap());
                let bar = Rectangle::new(Point::new(left, 31), Size::new(30, 2));
                picture.fill_solid(&bar, grey).unwrap();
                digits(&[6, 4], "ALONE", (left, 35), full, picture);
            },
        );
    }
}

/// Shapes cut off at every edge, against the same pixel by pixel.
#[test]
fn fills_and_stamps_are_cut_off_at_the_edges() {
    let at = [
        -30, -9, -8, -7, -1, 0, 1, 5, 8, 61, 63, 64, 100, 119, 120, 121, 127, 128, 140,
    ];
    for (x, y) in at.into_iter().flat_map(|x| at.map(|y| (x, y))) {
        for (wide, high) in [(1, 1), (7, 2), (8, 9), (9, 1), (30, 40), (300, 300), (0, 5)] {
            let (mut fast, mut slow) = (Picture::new(), Picture::new());
            fast.fill((x, y), (wide, high), Gray4::new(9));
            let all = (y..y + high).flat_map(|y| (x..x + wide).map(move |x| Point::new(x, y)));
            for point in all {
                slow.fill((point.x, point.y), (1, 1), Gray4::new(9));
            }
            assert_eq!(fast, slow, "{wide} x {high} at {x} {y}");
            let lit = (0..64).flat_map(|y| (0..128).map(move |x| (x, y)));
            let lit = lit.filter(|(x, y)| slow.grey(*x, *y) == 9).count();
            let inside = |from: i32, long: i32, most| (from + long).min(most) - from.max(0);
            let (columns, rows) = (inside(x, wide, 128).max(0), inside(y, high, 64).max(0));
            assert_eq!(lit, usize::try_from(columns * rows).unwrap());
        }
        let (mut fast, mut slow) = (Picture::new(), Picture::new());
        fast.stamp((x, y), &[0b1010_0111, 0, 0b0000_0001], Gray4::new(5));
        for (dx, dy) in [(0, 0), (2, 0), (5, 0), (6, 0), (7, 0), (7, 2)] {
            // A row above the screen would shift all others.
            if y >= 0 {
                slow.fill((x + dx, y + dy), (1, 1), Gray4::new(5));
            }
        }
        assert_eq!(fast, slow, "stamped at {x} {y}");
    }
}
