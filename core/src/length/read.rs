//! Reading lengths.
//!
//! In: text as people write it, and the units of the job. Out: an exact count,
//! or a named reason. Rule: nothing is rounded and nothing is guessed; a bare
//! number is inches in an imperial job and millimetres in a metric one, a
//! fraction or an inch or foot mark is always imperial, `mm` and `m` always
//! metric. Feet need their mark, because `14-3` is read as feet and inches by
//! one half of a crew and as a span by the other.
//!
//! ```text
//! length  := [-|+] (metric | feet [[-] inches] | inches)
//! metric  := number ("mm" | "m")
//! feet    := whole '
//! inches  := (number | whole [-] fraction | fraction) ["]
//! ```

use super::text::{FINEST_DECIMAL_INCH, LengthError};
use super::{INCH, Length, MILLIMETRE};
use crate::words::Units;
use heapless::Vec;

/// Counts in 1 m.
const METRE: i64 = 1_000 * MILLIMETRE as i64;
/// Decimals are kept as billionths; a count of metres ends in nine places.
const BILLION: u32 = 1_000_000_000;

/// A number as written.
#[derive(Clone, Copy, Debug, Default)]
struct Number {
    /// Before the point; held at `u32::MAX`, which is beyond any length.
    whole: u32,
    /// Behind the point, in billionths.
    billionths: u32,
    /// More digits than nine behind the point, not all zero.
    finer: bool,
    /// Has a point.
    decimal: bool,
}

/// What a length is made of; spaces only part numbers.
#[derive(Clone, Copy, Debug)]
enum Token {
    Number(Number),
    Slash,
    Hyphen,
    Plus,
    Foot,
    Inch,
    Millimetre,
    Metre,
}

/// The longest length has a sign, feet, a hyphen, inches, a hyphen, a fraction
/// and a mark: ten tokens; two more to tell `14-3-5/16` from nonsense.
type Tokens = Vec<Token, 12, u8>;

impl Length {
    /// Reads `14' 3 5/16"`, `14'3-5/16`, `171 5/16`, `5-1/2`, `171.3125"`,
    /// `4351mm`, `4.351m`, or a bare number in `units`. Curly quotes, primes,
    /// typeset hyphens, spaces and fractions are read as their plain likes.
    ///
    /// # Errors
    /// A [`LengthError`] that says what to write instead; nothing is rounded.
    ///
    /// ```
    /// use boltbay_core::{Length, words::Units};
    /// let length = Length::read("14'3-5/16", Units::Imperial);
    /// assert_eq!(length, Ok(Length::from_sixteenths(171 * 16 + 5)));
    /// ```
    pub fn read(text: &str, units: Units) -> Result<Length, LengthError> {
        let tokens = tokens(text)?;
        let (negative, rest) = match tokens.as_slice() {
            [Token::Hyphen, rest @ ..] => (true, rest),
            [Token::Plus, rest @ ..] => (false, rest),
            rest => (false, rest),
        };
        let size = size(rest, units).map_err(|error| signed(error, negative))?;
        let counts = if negative { -size } else { size };
        match i32::try_from(counts) {
            Ok(counts) => Ok(Length::from_counts(counts)),
            Err(_) => Err(LengthError::OutOfRange),
        }
    }
}

/// Below zero the smaller neighbour is the one farther out.
fn signed(error: LengthError, negative: bool) -> LengthError {
    match error {
        LengthError::BetweenCounts {
            below,
            above,
            units,
        } if negative => LengthError::BetweenCounts {
            below: -above,
            above: -below,
            units,
        },
        other => other,
    }
}

/// Size in counts of a length without its sign.
fn size(tokens: &[Token], units: Units) -> Result<i64, LengthError> {
    match tokens {
        [] => Err(LengthError::Empty),
        [Token::Number(number), Token::Millimetre] => number.millimetres(),
        [Token::Number(number), Token::Metre] => number.in_units(METRE, 1, 0),
        [Token::Number(number)] => match units {
            Units::Imperial => number.inches(0),
            Units::Metric => number.millimetres(),
        },
        [Token::Number(number), Token::Foot] => feet(*number),
        [
            Token::Number(number),
            Token::Foot,
            Token::Hyphen,
            inches @ ..,
        ]
        | [Token::Number(number), Token::Foot, inches @ ..] => behind_feet(*number, inches),
        [inches @ .., Token::Inch] | inches => {
            missing_feet_mark(inches)?;
            inches_of(inches, 0)
        }
    }
}

/// Whole feet in counts.
fn feet(number: Number) -> Result<i64, LengthError> {
    if number.decimal {
        return Err(LengthError::DecimalFeet { feet: number.whole });
    }
    Ok(i64::from(number.whole) * 12 * i64::from(INCH))
}

/// Feet and the inches behind them.
fn behind_feet(number: Number, tokens: &[Token]) -> Result<i64, LengthError> {
    let base = feet(number)?;
    let inches = match tokens {
        [inches @ .., Token::Inch] | inches => inches,
    };
    let length = inches_of(inches, base)?;
    match inches {
        [Token::Number(first), rest @ ..] if !matches!(rest, [Token::Slash, ..]) => {
            if first.whole < 12 {
                return Ok(length);
            }
            Err(LengthError::InchesAboveFoot {
                feet: number.whole,
                inches: first.whole,
            })
        }
        _ => Ok(length),
    }
}

/// Inches without their mark, on top of `base` counts.
fn inches_of(tokens: &[Token], base: i64) -> Result<i64, LengthError> {
    match tokens {
        [Token::Number(number)] => number.inches(base),
        [Token::Number(top), Token::Slash, Token::Number(bottom)] => {
            Ok(base + fraction(*top, *bottom)?)
        }
        [
            Token::Number(whole),
            Token::Number(top),
            Token::Slash,
            Token::Number(bottom),
        ]
        | [
            Token::Number(whole),
            Token::Hyphen,
            Token::Number(top),
            Token::Slash,
            Token::Number(bottom),
        ] if !whole.decimal => Ok(whole.inches(base)? + fraction(*top, *bottom)?),
        _ => Err(LengthError::Unclear),
    }
}

/// A fraction of an inch in counts.
fn fraction(top: Number, bottom: Number) -> Result<i64, LengthError> {
    if top.decimal || bottom.decimal {
        return Err(LengthError::Unclear);
    }
    if !matches!(bottom.whole, 2 | 4 | 8 | 16 | 32 | 64) {
        return Err(LengthError::Denominator {
            denominator: bottom.whole,
        });
    }
    if top.whole >= bottom.whole {
        return Err(LengthError::Improper {
            numerator: top.whole,
            denominator: bottom.whole,
        });
    }
    Ok(i64::from(top.whole) * (i64::from(INCH) / i64::from(bottom.whole)))
}

/// Catches two numbers where the first must be feet: `14-3`, `14 3 5/16`.
fn missing_feet_mark(tokens: &[Token]) -> Result<(), LengthError> {
    let (feet, inches, behind) = match tokens {
        [
            Token::Number(feet),
            Token::Hyphen,
            Token::Number(inches),
            behind @ ..,
        ]
        | [Token::Number(feet), Token::Number(inches), behind @ ..] => (feet, inches, behind),
        _ => return Ok(()),
    };
    let (numerator, denominator) = match behind {
        [] => (0, 0),
        [Token::Number(top), Token::Slash, Token::Number(bottom)]
        | [
            Token::Hyphen,
            Token::Number(top),
            Token::Slash,
            Token::Number(bottom),
        ] if bottom.whole <= 64 && top.whole < bottom.whole => {
            (top.whole as u8, bottom.whole as u8)
        }
        _ => return Ok(()),
    };
    if feet.decimal || inches.decimal || inches.whole >= 12 {
        return Ok(());
    }
    Err(LengthError::FeetMark {
        feet: feet.whole,
        inches: inches.whole,
        numerator,
        denominator,
    })
}

impl Number {
    /// Counts of so many inches on top of `base`.
    fn inches(self, base: i64) -> Result<i64, LengthError> {
        self.in_units(i64::from(INCH), FINEST_DECIMAL_INCH, base)
    }

    /// Counts of so many millimetres.
    fn millimetres(self) -> Result<i64, LengthError> {
        self.in_units(i64::from(MILLIMETRE), 1, 0)
    }

    /// Counts of so many units, exact, on top of `base`. `grid` is the finest
    /// count that a decimal of this unit can meet: the neighbours lie on it.
    fn in_units(self, unit: i64, grid: i32, base: i64) -> Result<i64, LengthError> {
        let billion = i64::from(BILLION);
        // At most 10^9 * 4 * 10^7, far inside an i64.
        let part = i64::from(self.billionths) * unit;
        let size = base + i64::from(self.whole) * unit + part / billion;
        if part % billion == 0 && !self.finer {
            return Ok(size);
        }
        let below = size - size % i64::from(grid);
        match (i32::try_from(below), i32::try_from(below + i64::from(grid))) {
            (Ok(below), Ok(above)) => Err(LengthError::BetweenCounts {
                below: Length::from_counts(below),
                above: Length::from_counts(above),
                units: if grid == 1 {
                    Units::Metric
                } else {
                    Units::Imperial
                },
            }),
            _ => Err(LengthError::OutOfRange),
        }
    }

    /// Takes one more digit before the point.
    fn push_whole(&mut self, digit: u32) {
        self.whole = self.whole.saturating_mul(10).saturating_add(digit);
    }
}

/// Splits a text into tokens.
fn tokens(text: &str) -> Result<Tokens, LengthError> {
    let mut found = Tokens::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        if first.is_ascii_digit() || first == '.' {
            let (number, behind) = number(rest)?;
            push(&mut found, Token::Number(number))?;
            rest = behind;
            continue;
        }
        let mut width = first.len_utf8();
        match first {
            'm' | 'M' if matches!(rest.as_bytes().get(1), Some(b'm' | b'M')) => {
                width = 2;
                push(&mut found, Token::Millimetre)?;
            }
            _ => symbol(&mut found, first)?,
        }
        rest = rest.get(width..).unwrap_or("");
    }
    Ok(found)
}

/// One character that is no digit.
fn symbol(found: &mut Tokens, first: char) -> Result<(), LengthError> {
    match first {
        _ if blank(first) => Ok(()),
        '/' | '\u{2044}' | '\u{2215}' => push(found, Token::Slash),
        '-' | '\u{2010}'..='\u{2015}' | '\u{2212}' => push(found, Token::Hyphen),
        '+' => push(found, Token::Plus),
        'm' | 'M' => push(found, Token::Metre),
        '"' | '\u{201C}'..='\u{201F}' | '\u{2033}' | '\u{2036}' | '\u{02BA}' => {
            push(found, Token::Inch)
        }
        '\'' | '`' | '\u{B4}' | '\u{2018}'..='\u{201B}' | '\u{2032}' | '\u{2035}' | '\u{02B9}' => {
            foot(found)
        }
        ',' => Err(LengthError::Comma),
        _ => typeset_fraction(found, first),
    }
}

/// Spaces of any kind, and the invisible marks that phones and spreadsheets add.
pub(crate) fn blank(found: char) -> bool {
    found.is_whitespace() || matches!(found, '\u{200B}'..='\u{200F}' | '\u{2060}' | '\u{FEFF}')
}

/// Two foot marks are an inch mark.
fn foot(found: &mut Tokens) -> Result<(), LengthError> {
    match found.last_mut() {
        Some(last @ Token::Foot) => {
            *last = Token::Inch;
            Ok(())
        }
        _ => push(found, Token::Foot),
    }
}

/// Fractions as one character, as phones like to set them.
fn typeset_fraction(found: &mut Tokens, first: char) -> Result<(), LengthError> {
    let (top, bottom) = match first {
        '\u{BC}' => (1, 4),
        '\u{BD}' => (1, 2),
        '\u{BE}' => (3, 4),
        '\u{215B}' => (1, 8),
        '\u{215C}' => (3, 8),
        '\u{215D}' => (5, 8),
        '\u{215E}' => (7, 8),
        _ => return Err(LengthError::Strange { found: first }),
    };
    push(found, Token::Number(whole(top)))?;
    push(found, Token::Slash)?;
    push(found, Token::Number(whole(bottom)))
}

/// A number without decimals.
const fn whole(whole: u32) -> Number {
    Number {
        whole,
        billionths: 0,
        finer: false,
        decimal: false,
    }
}

/// More tokens than any length has mean that it is none.
fn push(found: &mut Tokens, token: Token) -> Result<(), LengthError> {
    found.push(token).map_err(|_| LengthError::Unclear)
}

/// The number at the start of `text`, and what stands behind it.
fn number(text: &str) -> Result<(Number, &str), LengthError> {
    let mut number = Number::default();
    let mut digits = 0_usize;
    let mut place = BILLION;
    let mut length = 0;
    for byte in text.bytes() {
        match byte {
            b'0'..=b'9' => {
                let digit = u32::from(byte - b'0');
                digits += 1;
                if !number.decimal {
                    number.push_whole(digit);
                } else {
                    place /= 10;
                    number.billionths += digit * place;
                    number.finer |= place == 0 && digit > 0;
                }
            }
            b'.' if !number.decimal => {
                number.decimal = true;
                digits = 0;
            }
            b'.' => return Err(LengthError::Unclear),
            _ => break,
        }
        length += 1;
    }
    // `14.` and `.` end where digits are due.
    if digits == 0 {
        return Err(LengthError::Unclear);
    }
    Ok((number, text.get(length..).unwrap_or("")))
}
