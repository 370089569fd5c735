//! The large figure: feet, foot mark, inches, stacked fraction; or millimetres.
//!
//! In: a length and who put it there. Out: digits as large as they fit, all on
//! one line, in the middle. Feet are left out below one foot, inches where only
//! a fraction is left. Lowest terms, no dash, no inch mark.

use super::WIDTH;
use super::canvas::{Canvas, Claims, GREY, WHITE};
use super::digits::{ALONE, FRACTION, Face, LARGE, NARROW, SLIM, WIDE};
use crate::view::{Amount, Figure, Scale, Touch};
use boltbay_core::decimal::Decimal;
use boltbay_core::length::{Length, Rounding};
use boltbay_core::list::Listed;
use boltbay_core::words::Units;
use embedded_graphics::pixelcolor::Gray4;
use heapless::Vec;

/// Rows of the figure.
const HIGH: i32 = 35;
/// The mark behind the feet: columns, with a column of air on both sides.
const FOOT_MARK: i32 = 7;
/// Between the whole inches and the fraction.
const BEFORE_FRACTION: i32 = 3;

/// A part of a figure, left to right.
enum Part {
    /// A whole number.
    Whole(Digits, &'static Face),
    /// The foot mark.
    Foot,
    /// Less than nothing.
    Minus,
    /// Numerator over denominator.
    Fraction(Digits, Digits, &'static Face),
    /// A point and the small digits behind it.
    Behind(Digits),
    /// So many times what follows.
    Times,
    /// Nothing there yet.
    Dash,
}

type Digits = Vec<u8, 6, u8>;

/// A part, and whether it is white.
type Parts = Vec<(Part, bool), 8, u8>;

fn digits_of(number: u32) -> Digits {
    let mut places = Digits::new();
    let mut rest = number % 1_000_000;
    loop {
        let _ = places.insert(0, u8::try_from(rest % 10).unwrap_or(0));
        rest /= 10;
        if rest == 0 {
            return places;
        }
    }
}

/// Splits a figure into its parts.
fn parts(figure: &Figure) -> Parts {
    let mut parts = Parts::new();
    let mut add = |part: Part, white: bool| {
        let _ = parts.push((part, white));
    };
    if let Some(times) = figure.times {
        add(Part::Whole(digits_of(u32::from(times)), &LARGE), true);
        add(Part::Times, true);
    }
    if figure.touch == Touch::Empty {
        add(Part::Dash, false);
        return parts;
    }
    let keyed = figure.touch == Touch::Keyed;
    match figure.amount {
        Amount::Length(length, units) => {
            if length < Length::ZERO {
                add(Part::Minus, keyed);
            }
            match units {
                Units::Imperial => imperial(length, figure.touch, &mut add),
                Units::Metric => metric(length, figure.touch, &mut add),
            }
        }
        Amount::Number(decimal) => number(decimal, keyed, &mut add),
    }
    parts
}

/// To the nearest 1/64 in. A typed tail is white from its first part on.
fn imperial(length: Length, touch: Touch, add: &mut impl FnMut(Part, bool)) {
    let size = length.abs();
    let white = |from_the_end: u8| match touch {
        Touch::Keyed => true,
        Touch::Tail(typed) => typed >= from_the_end,
        Touch::Suggested | Touch::Empty => false,
    };
    let step = Length::from_sixty_fourths(1);
    let sixty_fourths = size.to_multiple(step, Rounding::Nearest).counts() / step.counts();
    let sixty_fourths = sixty_fourths.unsigned_abs();
    let (inches, rest) = (sixty_fourths / 64, sixty_fourths % 64);
    let feet = inches / 12;
    let narrow = length < Length::ZERO && feet >= 10;
    let whole = if narrow { &NARROW } else { &LARGE };
    if feet > 0 {
        add(Part::Whole(digits_of(feet), whole), white(3));
        add(Part::Foot, white(3));
    }
    if feet > 0 || inches > 0 || rest == 0 {
        add(Part::Whole(digits_of(inches % 12), whole), white(2));
    }
    if rest > 0 {
        let shift = rest.trailing_zeros();
        let face = if inches > 0 { &FRACTION } else { &ALONE };
        let (over, under) = (digits_of(rest >> shift), digits_of(64 >> shift));
        add(Part::Fraction(over, under, face), white(1));
    }
}

/// To the nearest tenth; a whole number of millimetres shows none. A typed tail
/// is so many digits at the end.
fn metric(length: Length, touch: Touch, add: &mut impl FnMut(Part, bool)) {
    let size = length.abs();
    let step = Length::from_tenth_millimetres(1);
    let tenths = size.to_multiple(step, Rounding::Nearest).counts() / step.counts();
    let (whole, tenth) = (tenths.unsigned_abs() / 10, tenths.unsigned_abs() % 10);
    let places = digits_of(whole);
    // The minus sign takes its room from the digits.
    let face = match (length < Length::ZERO, tenth > 0) {
        (false, false) => &WIDE,
        (false, true) => &LARGE,
        (true, false) => &NARROW,
        (true, true) => &SLIM,
    };
    let typed = match touch {
        Touch::Keyed => places.len(),
        Touch::Tail(typed) => usize::from(typed).min(places.len()),
        Touch::Suggested | Touch::Empty => 0,
    };
    let head = places.len() - typed;
    let run = |skip: usize, take: usize| places.iter().skip(skip).take(take).copied().listed();
    if head > 0 {
        add(Part::Whole(run(0, head), face), false);
    }
    if typed > 0 {
        add(Part::Whole(run(head, typed), face), true);
    }
    if tenth > 0 {
        add(Part::Behind(digits_of(tenth)), typed > 0);
    }
}

/// The digits in front of the point large, those behind it small.
fn number(number: Decimal, keyed: bool, add: &mut impl FnMut(Part, bool)) {
    let scale = 10_u32.pow(u32::from(number.places().min(6))).max(1);
    let size = number.digits().unsigned_abs();
    let whole = digits_of(size / scale);
    let face = match (whole.len(), number.places()) {
        (0..=4, 0) => &WIDE,
        (0..=4, 1 | 2) | (5..=6, 0) | (0..=3, _) => &NARROW,
        _ => &SLIM,
    };
    add(Part::Whole(whole, face), keyed);
    if scale > 1 {
        let mut behind = digits_of(size % scale);
        while behind.len() < usize::from(number.places()) && behind.insert(0, 0).is_ok() {}
        add(Part::Behind(behind), keyed);
    }
}

impl Part {
    fn wide(&self) -> i32 {
        match self {
            Part::Whole(places, face) => row_wide(places, face),
            Part::Foot => FOOT_MARK,
            Part::Minus => 14,
            Part::Fraction(over, under, face) => {
                BEFORE_FRACTION + row_wide(over, face).max(row_wide(under, face))
            }
            Part::Behind(places) => 6 + row_wide(places, &FRACTION),
            Part::Times => 14,
            Part::Dash => 2 * LARGE.wide,
        }
    }
}

fn row_wide(places: &Digits, face: &Face) -> i32 {
    let count = i32::try_from(places.len()).unwrap_or(0);
    count * (face.wide + face.gap) - face.gap
}

/// Draws the figure with its upper edge at `top`, in the middle of the screen.
pub fn draw(figure: &Figure, top: i32, canvas: &mut Canvas<'_, impl Claims>) {
    let parts = parts(figure);
    // Two whole parts side by side keep a digit's gap.
    let joint = match figure.amount {
        Amount::Length(_, Units::Imperial) => 0,
        _ => WIDE.gap,
    };
    let count = i32::try_from(parts.len()).unwrap_or(0);
    let wide: i32 = parts.iter().map(|(part, _)| part.wide()).sum();
    let wide = wide + joint * (count - 1);
    let mut x = (WIDTH as i32 - wide) / 2;
    canvas.claim((x, top), (wide, HIGH));
    for (part, white) in &parts {
        let colour = if *white { WHITE } else { GREY };
        draw_part(part, (x, top), colour, canvas);
        x += part.wide() + joint;
    }
}

fn draw_part(
    part: &Part,
    (x, top): (i32, i32),
    colour: Gray4,
    canvas: &mut Canvas<'_, impl Claims>,
) {
    match part {
        Part::Whole(places, face) => row(places, (x, top), face, colour, canvas),
        Part::Foot => canvas.fill((x + 2, top), (4, 10), colour),
        Part::Minus => canvas.fill((x, top + HIGH / 2 - 2), (11, 5), colour),
        Part::Fraction(over, under, face) => {
            let at = (x + BEFORE_FRACTION, top);
            fraction((over, under), at, face, colour, canvas);
        }
        Part::Behind(places) => {
            canvas.fill((x + 1, top + HIGH - 4), (4, 4), colour);
            let at = (x + 6, top + HIGH - FRACTION.high);
            row(places, at, &FRACTION, colour, canvas);
        }
        Part::Times => times((x + 6, top + HIGH / 2), colour, canvas),
        Part::Dash => LARGE.draw(10, (x + LARGE.wide / 2, top), colour, canvas),
    }
}

fn row(
    places: &Digits,
    (mut x, top): (i32, i32),
    face: &Face,
    colour: Gray4,
    canvas: &mut Canvas<'_, impl Claims>,
) {
    for digit in places {
        face.draw(*digit, (x, top), colour, canvas);
        x += face.wide + face.gap;
    }
}

/// Numerator over a bar of two pixels over the denominator.
fn fraction(
    (over, under): (&Digits, &Digits),
    (x, top): (i32, i32),
    face: &Face,
    colour: Gray4,
    canvas: &mut Canvas<'_, impl Claims>,
) {
    let (up, down) = (row_wide(over, face), row_wide(under, face));
    let wide = up.max(down);
    row(over, (x + (wide - up) / 2, top), face, colour, canvas);
    canvas.fill((x, top + HIGH / 2 - 1), (wide, 2), colour);
    let low = top + HIGH - face.high;
    row(under, (x + (wide - down) / 2, low), face, colour, canvas);
}

/// A small cross on its corner.
fn times((x, y): (i32, i32), colour: Gray4, canvas: &mut Canvas<'_, impl Claims>) {
    for step in -4..=4 {
        canvas.fill((x + step, y + step), (2, 1), colour);
        canvas.fill((x + step, y - step), (2, 1), colour);
    }
}

/// Ticks of the tape, 8 px an inch or 4 px a millimetre, the reading under a
/// pointer in the middle. The longest tick is a whole inch or a centimetre.
pub fn scale(scale: &Scale, canvas: &mut Canvas<'_, impl Claims>) {
    // (counts a tick, pixels a tick, ticks to a middle one, ticks to a long one)
    let (tick, pixels, middle, long) = match scale.units {
        Units::Imperial => (Length::from_sixteenths(2), 4, 4, 8),
        Units::Metric => (Length::from_millimetres(1), 4, 5, 10),
    };
    let centre = WIDTH as i32 / 2;
    let counts = tick.counts();
    let first = scale.at.counts().div_euclid(counts);
    let offset = scale.at.counts().rem_euclid(counts) / (counts / pixels);
    for number in -17..=17 {
        let x = centre + number * pixels - offset;
        if !(0..WIDTH as i32).contains(&x) {
            continue;
        }
        let mark = first.saturating_add(number);
        let (high, colour) = match (mark.rem_euclid(long), mark.rem_euclid(middle)) {
            (0, _) => (4, WHITE),
            (_, 0) => (3, GREY),
            _ => (2, GREY),
        };
        canvas.fill((x, 50), (1, high), colour);
    }
    canvas.fill((centre - 1, 50), (3, 4), WHITE);
}
