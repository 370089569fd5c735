//! Digits drawn with a round brush: one set of strokes for every size.
//!
//! A stroke is a straight line or a piece of an ellipse, in hundredths of the
//! box that the brush's centre stays in. A pixel's grey is how deep it lies in
//! the brush's track. 6 and 9 keep open arms and 1 has a foot, so that no two
//! digits differ by one small stroke only.
//!
//! Working that out takes a small machine millions of instructions, so it is done here:
//! what is kept is runs of pixels, see [`row`].

use std::fmt::Write;

/// Steps of a full turn.
const TURN: u8 = 32;
/// Cosine of a quarter turn's steps, in 1/256.
/// Source: the cosine of multiples of 11.25 degrees, to the nearest 1/256.
const COSINE: [i32; 9] = [256, 251, 237, 213, 181, 142, 98, 50, 0];
/// Parts of a pixel.
const PART: i32 = 16;
/// Digits, and the dash behind them.
pub const SIGNS: u8 = 11;

/// Width, height and brush of a set of digits.
pub struct Face {
    /// What the painter calls it.
    pub name: &'static str,
    /// What it is for.
    words: &'static str,
    /// Columns of a digit.
    pub wide: i32,
    /// Rows of a digit.
    pub high: i32,
    /// Half the brush, in 1/16 px.
    brush: i32,
    /// Columns between two digits.
    pub gap: i32,
}

/// All of them.
pub const FACES: [Face; 6] = [
    Face {
        name: "LARGE",
        words: "The large figure in feet and inches.",
        wide: 20,
        high: 35,
        brush: 42,
        gap: 2,
    },
    Face {
        name: "WIDE",
        words: "The large figure in millimetres: a little wider, nothing stands beside it.",
        wide: 22,
        high: 35,
        brush: 42,
        gap: 3,
    },
    Face {
        name: "NARROW",
        words: "A number of more than four digits, or with digits behind the point.",
        wide: 16,
        high: 35,
        brush: 38,
        gap: 2,
    },
    Face {
        name: "SLIM",
        words: "The longest numbers with digits behind the point.",
        wide: 11,
        high: 35,
        brush: 30,
        gap: 2,
    },
    Face {
        name: "FRACTION",
        words: "Numerator and denominator.",
        wide: 11,
        high: 15,
        brush: 21,
        gap: 1,
    },
    Face {
        name: "ALONE",
        words: "A fraction with nothing in front of it.",
        wide: 14,
        high: 15,
        brush: 24,
        gap: 2,
    },
];

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
    sign * COSINE[usize::from(index)]
}

/// A straight piece of a track, in parts of a pixel.
#[derive(Clone, Copy)]
struct Piece {
    from: (i32, i32),
    to: (i32, i32),
}

/// The brush's way through a digit.
fn track(digit: u8, face: &Face) -> Vec<Piece> {
    let mut track = Vec::new();
    let x = |hundredths: i32| face.brush + hundredths * (PART * face.wide - 2 * face.brush) / 100;
    let y = |hundredths: i32| face.brush + hundredths * (PART * face.high - 2 * face.brush) / 100;
    for stroke in strokes(digit) {
        match *stroke {
            Line(x0, y0, x1, y1) => {
                track.push(Piece {
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
                    track.push(Piece {
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

/// How much of each pixel of a digit the brush covers, in sixteenths, row by row.
pub fn cover(digit: u8, face: &Face) -> Vec<Vec<u8>> {
    let track = track(digit, face);
    let reach = face.brush + PART;
    let pixel = |x: i32, y: i32| {
        let centre = (PART * x + PART / 2, PART * y + PART / 2);
        let pieces = track.iter();
        let Some(nearest) = pieces.filter_map(|piece| away(piece, centre, reach)).min() else {
            return 0;
        };
        // Half a pixel inside the edge is full, half a pixel outside is nothing.
        let depth = face.brush + PART / 2 - nearest.isqrt();
        u8::try_from(depth.clamp(0, PART)).expect("a sixteenth")
    };
    let row = |y| (0..face.wide).map(|x| pixel(x, y)).collect();
    (0..face.high).map(row).collect()
}

/// One row as half bytes: 1 to 14 is a pixel of that grey where full is 15; 15 and a
/// number are so many full ones; 0 and a number are so many blank ones, 0 and 0 is blank
/// to the end. Without the blanks at the end a row is over where its width is reached.
fn row(greys: &[u8]) -> Vec<u8> {
    let mut runs = Vec::new();
    let mut rest = greys;
    while let Some(first) = rest.first() {
        let alike = rest.iter().take_while(|grey| *grey == first).count();
        let long = match first {
            0 if alike == rest.len() => {
                runs.extend([0, 0]);
                alike
            }
            0 | 15 => {
                let long = alike.min(15);
                runs.extend([*first, u8::try_from(long).expect("15 at most")]);
                long
            }
            grey => {
                runs.push(*grey);
                1
            }
        };
        rest = &rest[long..];
    }
    runs
}

/// A digit in half bytes: for each row, or for up to eight that are alike, their number
/// less one, and 8 more where only the left half follows because the right one mirrors
/// it; then the row.
fn packed(digit: u8, face: &Face) -> Vec<u8> {
    let grey = |cover: u8| u8::try_from(u32::from(cover) * 15 / 16).expect("15 at most");
    let rows: Vec<Vec<u8>> = cover(digit, face)
        .into_iter()
        .map(|row| row.into_iter().map(grey).collect())
        .collect();
    let mut halves = Vec::new();
    let mut rest = &rows[..];
    while let Some(first) = rest.first() {
        let alike = rest.iter().take(8).take_while(|row| *row == first).count();
        let count = u8::try_from(alike - 1).expect("8 at most");
        if first.iter().eq(first.iter().rev()) {
            halves.push(count | 8);
            halves.extend(row(&first[..first.len().div_ceil(2)]));
        } else {
            halves.push(count);
            halves.extend(row(first));
        }
        rest = &rest[alike..];
    }
    let bytes = halves.chunks(2);
    bytes
        .map(|pair| (pair[0] << 4) | pair.get(1).copied().unwrap_or(0))
        .collect()
}

/// A constant for each face.
pub fn tables() -> String {
    let mut tables = String::new();
    for face in &FACES {
        let (mut starts, mut bytes) = (Vec::new(), Vec::new());
        for digit in 0..SIGNS {
            starts.push(bytes.len());
            bytes.extend(packed(digit, face));
        }
        let Face {
            name,
            words,
            wide,
            high,
            gap,
            ..
        } = face;
        writeln!(
            tables,
            "/// {words}\npub static {name}: Face = Face {{ wide: {wide}, high: {high}, \
             gap: {gap}, starts: {starts:?}, runs: &{bytes:?} }};"
        )
        .expect("a string takes everything");
    }
    tables
}
