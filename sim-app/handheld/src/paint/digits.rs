//! Digits drawn with a round brush: one set of strokes for every size.
//!
//! A stroke is a straight line or a piece of an ellipse, in hundredths of the
//! box that the brush's centre stays in. A pixel's grey is how deep it lies in
//! the brush's track. 6 and 9 keep open arms and 1 has a foot, so that no two
//! digits differ by one small stroke only.

use super::canvas::Canvas;
use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::prelude::{GrayColor, Pixel};
use heapless::Vec;

/// Steps of a full turn.
const TURN: u8 = 32;
/// Cosine of a quarter turn's steps, in 1/256.
/// Source: the cosine of multiples of 11.25 degrees, to the nearest 1/256.
const COSINE: [i32; 9] = [256, 251, 237, 213, 181, 142, 98, 50, 0];
/// Parts of a pixel.
const PART: i32 = 16;

/// Width, height and brush of a set of digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Face {
    /// Columns of a digit.
    pub wide: i32,
    /// Rows of a digit.
    pub high: i32,
    /// Half the brush, in 1/16 px.
    pub brush: i32,
    /// Columns between two digits.
    pub gap: i32,
}

/// The large figure in feet and inches.
pub const LARGE: Face = Face {
    wide: 20,
    high: 35,
    brush: 42,
    gap: 2,
};
/// The large figure in millimetres: a little wider, nothing stands beside it.
pub const WIDE: Face = Face {
    wide: 22,
    high: 35,
    brush: 42,
    gap: 3,
};
/// A number of more than four digits, or with digits behind the point.
pub const NARROW: Face = Face {
    wide: 16,
    high: 35,
    brush: 38,
    gap: 2,
};
/// The longest numbers with digits behind the point.
pub const SLIM: Face = Face {
    wide: 11,
    high: 35,
    brush: 30,
    gap: 2,
};
/// Numerator and denominator.
pub const FRACTION: Face = Face {
    wide: 11,
    high: 15,
    brush: 21,
    gap: 1,
};
/// A fraction with nothing in front of it.
pub const ALONE: Face = Face {
    wide: 14,
    high: 15,
    brush: 24,
    gap: 2,
};

/// One stroke, in hundredths of the box.
enum Stroke {
    /// From, to.
    Line(i32, i32, i32, i32),
    /// Centre, half axes, from and to in steps of the turn: right, down, left, up.
    Arc(i32, i32, i32, i32, u8, u8),
}

use Stroke::{Arc, Line};

/// The strokes of a digit; of anything else, a dash.
const fn strokes(digit: u8) -> &'static [Stroke] {
    match digit {
        0 => &[
            Arc(50, 32, 50, 32, 16, 32),
            Line(100, 32, 100, 68),
            Arc(50, 68, 50, 32, 0, 16),
            Line(0, 68, 0, 32),
        ],
        1 => &[
            Line(18, 16, 54, 0),
            Line(54, 0, 54, 100),
            Line(16, 100, 92, 100),
        ],
        2 => &[
            Arc(50, 28, 50, 28, 17, 36),
            Line(85, 48, 0, 100),
            Line(0, 100, 100, 100),
        ],
        3 => &[
            Arc(46, 24, 46, 24, 18, 40),
            Line(46, 48, 30, 48),
            Arc(46, 74, 54, 26, 24, 46),
        ],
        4 => &[
            Line(72, 0, 0, 70),
            Line(0, 70, 100, 70),
            Line(72, 0, 72, 100),
        ],
        5 => &[
            Line(92, 0, 14, 0),
            Line(14, 0, 8, 46),
            Line(8, 46, 19, 41),
            Arc(48, 68, 52, 32, 21, 46),
        ],
        6 => &[Arc(50, 68, 50, 32, 0, TURN), Arc(72, 68, 72, 68, 16, 25)],
        7 => &[Line(0, 0, 100, 0), Line(100, 0, 36, 100)],
        8 => &[Arc(50, 24, 43, 24, 0, TURN), Arc(50, 74, 50, 26, 0, TURN)],
        9 => &[Arc(50, 32, 50, 32, 0, TURN), Arc(28, 32, 72, 68, 0, 9)],
        _ => &[Line(8, 50, 92, 50)],
    }
}

/// Cosine of so many steps, in 1/256.
fn cosine(step: u8) -> i32 {
    let step = step % TURN;
    let half = if step > TURN / 2 { TURN - step } else { step };
    let quarter = TURN / 4;
    let (index, sign) = if half > quarter {
        (2 * quarter - half, -1)
    } else {
        (half, 1)
    };
    sign * COSINE.get(usize::from(index)).copied().unwrap_or(0)
}

/// A straight piece of a track, in parts of a pixel.
#[derive(Clone, Copy)]
struct Piece {
    from: (i32, i32),
    to: (i32, i32),
}

type Track = Vec<Piece, 72, u8>;

/// The brush's way through a digit.
fn track(digit: u8, face: Face) -> Track {
    let mut track = Track::new();
    let x = |hundredths: i32| face.brush + hundredths * (PART * face.wide - 2 * face.brush) / 100;
    let y = |hundredths: i32| face.brush + hundredths * (PART * face.high - 2 * face.brush) / 100;
    for stroke in strokes(digit) {
        match *stroke {
            Line(x0, y0, x1, y1) => {
                let _ = track.push(Piece {
                    from: (x(x0), y(y0)),
                    to: (x(x1), y(y1)),
                });
            }
            Arc(cx, cy, rx, ry, from, to) => {
                // Half axes in 1/256 hundredths keep the curve smooth.
                let point = |step: u8| {
                    let along = rx * cosine(step);
                    let down = ry * cosine(step + 3 * TURN / 4);
                    let wide = PART * face.wide - 2 * face.brush;
                    let high = PART * face.high - 2 * face.brush;
                    (x(cx) + along * wide / 25_600, y(cy) + down * high / 25_600)
                };
                for step in from..to {
                    let _ = track.push(Piece {
                        from: point(step),
                        to: point(step + 1),
                    });
                }
            }
        }
    }
    track
}

/// Squared distance of a point from a piece, or `None` where it is out of reach.
fn away(piece: &Piece, (px, py): (i32, i32), reach: i32) -> Option<i32> {
    let ((x0, y0), (x1, y1)) = (piece.from, piece.to);
    let out = |p: i32, a: i32, b: i32| p < a.min(b) - reach || p > a.max(b) + reach;
    if out(px, x0, x1) || out(py, y0, y1) {
        return None;
    }
    let (dx, dy) = (x1 - x0, y1 - y0);
    let long = dx * dx + dy * dy;
    let along = ((px - x0) * dx + (py - y0) * dy).clamp(0, long);
    // The foot of the perpendicular, to the nearest part.
    let foot = |start: i32, delta: i32| match long {
        0 => start,
        long => start + (delta * along + long / 2).div_euclid(long),
    };
    let (fx, fy) = (px - foot(x0, dx), py - foot(y0, dy));
    Some(fx * fx + fy * fy)
}

/// Draws one digit with its upper left corner at `at`.
pub fn draw<D: DrawTarget<Color = Gray4>>(
    digit: u8,
    at: (i32, i32),
    face: Face,
    colour: Gray4,
    canvas: &mut Canvas<'_, D>,
) -> Result<(), D::Error> {
    let track = track(digit, face);
    let reach = face.brush + PART;
    let full = i32::from(colour.luma());
    let grey = move |x: i32, y: i32| {
        let centre = (PART * x + PART / 2, PART * y + PART / 2);
        let nearest = track
            .iter()
            .filter_map(|piece| away(piece, centre, reach))
            .min()?;
        let distance = i32::try_from(nearest.unsigned_abs().isqrt()).unwrap_or(i32::MAX);
        // Half a pixel inside the edge is full, half a pixel outside is nothing.
        let cover = (face.brush + PART / 2 - distance).clamp(0, PART);
        let luma = u8::try_from(full * cover / PART).unwrap_or(0);
        (luma > 0).then_some(Gray4::new(luma))
    };
    let (left, top) = at;
    let all = (0..face.high).flat_map(|y| (0..face.wide).map(move |x| (x, y)));
    canvas.pixels(all.filter_map(|(x, y)| {
        let point = Point::new(left + x, top + y);
        grey(x, y).map(|grey| Pixel(point, grey))
    }))
}
