//! Lengths as text: what people write on cards and read off tapes.
//!
//! In: a length and the units of the job. Out: text that reads back to the very
//! same count. Rule: 1/64 in and coarser is written as a fraction in lowest
//! terms; an imperial length that no fraction meets as decimal inches where
//! those end, else as millimetres, which always end (1 count = 0.000025 mm).
//! Reading stands in `read.rs`.

use super::{INCH, Length, MILLIMETRE, Rounding, SIXTY_FOURTH};
use crate::words::Units;
use core::fmt::{self, Write};
use heapless::String;

/// Counts in the finest decimal inch that ends: 1/8000 in = 0.000125 in.
pub(super) const FINEST_DECIMAL_INCH: i32 = 127;

/// Why a text is no length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum LengthError {
    /// Nothing there.
    Empty,
    /// A character that no length holds.
    Strange {
        /// That character.
        found: char,
    },
    /// A comma where a decimal point belongs.
    Comma,
    /// Numbers and marks in an order that means nothing, or more than one length.
    Unclear,
    /// `14-3`, `14 3`, `14-3-5/16`: feet without their mark.
    FeetMark {
        /// The number that is probably feet.
        feet: u32,
        /// The number that is probably inches.
        inches: u32,
        /// Numerator of the fraction behind; 0 where there is none.
        numerator: u8,
        /// Denominator of the fraction behind; 0 where there is none.
        denominator: u8,
    },
    /// Feet with decimals.
    DecimalFeet {
        /// The whole feet of it.
        feet: u32,
    },
    /// 12 in or more behind feet.
    InchesAboveFoot {
        /// Feet as written.
        feet: u32,
        /// Inches as written.
        inches: u32,
    },
    /// A denominator that no tape has: 2, 4, 8, 16, 32, 64 do.
    Denominator {
        /// As written.
        denominator: u32,
    },
    /// A fraction of 1 or more.
    Improper {
        /// As written.
        numerator: u32,
        /// As written.
        denominator: u32,
    },
    /// A decimal between two counts.
    BetweenCounts {
        /// The next smaller length that can be written in that unit.
        below: Length,
        /// The next greater one.
        above: Length,
        /// Imperial where the text meant inches, metric where mm or m.
        units: Units,
    },
    /// Beyond +-53.6 m (176 ft).
    OutOfRange,
}

impl LengthError {
    /// The error in at most 21 characters, for a narrow screen.
    pub const fn words(&self) -> &'static str {
        match self {
            LengthError::Empty => "NOTHING KEYED",
            LengthError::Strange { .. } => "NOT A LENGTH",
            LengthError::Comma => "WRITE A POINT, NOT ,",
            LengthError::Unclear => "NOT ONE LENGTH",
            LengthError::FeetMark { .. } => "FEET NEED THEIR MARK",
            LengthError::DecimalFeet { .. } => "WHOLE FEET, INCHES",
            LengthError::InchesAboveFoot { .. } => "12 IN OR MORE",
            LengthError::Denominator { .. } => "NO SUCH FRACTION",
            LengthError::Improper { .. } => "FRACTION ABOVE 1",
            LengthError::BetweenCounts { .. } => "TOO MANY DECIMALS",
            LengthError::OutOfRange => "BEYOND 176 FT",
        }
    }
}

impl fmt::Display for LengthError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            LengthError::Empty => {
                f.write_str("no length there: write one like 14' 3 5/16 or 4351 mm")
            }
            LengthError::Strange { found } => {
                write!(f, "{found:?} is in no length: write 14' 3 5/16 or 4351 mm")
            }
            LengthError::Comma => f.write_str("a comma splits it: write the decimal point as ."),
            LengthError::Unclear => {
                f.write_str("not one clear length: write 14' 3 5/16, 171.3125 or 4351 mm")
            }
            LengthError::FeetMark {
                feet,
                inches,
                numerator,
                denominator,
            } => {
                write!(f, "feet need their mark: write {feet}' {inches}")?;
                match denominator {
                    0 => Ok(()),
                    _ => write!(f, " {numerator}/{denominator}"),
                }
            }
            LengthError::DecimalFeet { feet } => {
                write!(f, "feet are whole: write {feet}' and inches behind it")
            }
            LengthError::InchesAboveFoot { feet, inches } => write!(
                f,
                "{inches} in behind {feet}' is a foot or more: write {}' {}",
                feet.saturating_add(inches / 12),
                inches % 12
            ),
            LengthError::Denominator { denominator } => {
                write!(
                    f,
                    "no tape has 1/{denominator} in: write 2, 4, 8, 16, 32 or 64 below"
                )
            }
            LengthError::Improper {
                numerator,
                denominator,
            } => write!(
                f,
                "{numerator}/{denominator} is no part of an inch: write whole inches before it"
            ),
            LengthError::BetweenCounts {
                below,
                above,
                units,
            } => write!(
                f,
                "between two counts of 25 nm: write {} or {}",
                Shown::decimal(below, units),
                Shown::decimal(above, units)
            ),
            LengthError::OutOfRange => {
                f.write_str("beyond 176' (53.6 m) either way: write a shorter length")
            }
        }
    }
}

/// How a [`Shown`] length is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Form {
    /// With the inch mark.
    Text,
    /// Without it: a quote mark means something else on a card.
    Card,
    /// Inches as a decimal, to say neighbours.
    Decimal,
}

/// A length and how to write it. Honours width and alignment:
/// `{:>14}` sets a column of dimensions.
#[derive(Clone, Copy, Debug)]
pub struct Shown {
    length: Length,
    units: Units,
    form: Form,
}

impl Length {
    /// Writes `14' 3 5/16"` or `4351 mm`; reads back to the same count.
    pub const fn shown(self, units: Units) -> Shown {
        Shown {
            length: self,
            units,
            form: Form::Text,
        }
    }

    /// Writes `14' 3 5/16` or `4351 mm`: as [`Length::shown`] without the inch
    /// mark, which a card would have to quote.
    pub const fn shown_on_card(self, units: Units) -> Shown {
        Shown {
            length: self,
            units,
            form: Form::Card,
        }
    }

    /// Writes the tape mark that `rounding` picks on marks of `step`: for what
    /// need not fall on the tape, such as a mark read from end B.
    pub const fn shown_to(self, step: Length, rounding: Rounding, units: Units) -> Shown {
        self.to_multiple(step, rounding).shown(units)
    }
}

impl Shown {
    /// Decimal inches or millimetres.
    const fn decimal(length: Length, units: Units) -> Shown {
        Shown {
            length,
            units,
            form: Form::Decimal,
        }
    }

    /// The text without padding.
    fn compose(&self, text: &mut String<24, u8>) -> fmt::Result {
        let counts = self.length.counts();
        if counts < 0 {
            text.write_char('-')?;
        }
        let size = counts.unsigned_abs();
        let tape = counts % SIXTY_FOURTH == 0 && self.form != Form::Decimal;
        match self.units {
            Units::Imperial if tape => feet_and_inches(text, size / SIXTY_FOURTH as u32)?,
            Units::Imperial if counts % FINEST_DECIMAL_INCH == 0 => {
                decimal(text, size, INCH as u32)?;
            }
            Units::Imperial | Units::Metric => {
                decimal(text, size, MILLIMETRE as u32)?;
                return text.write_str(" mm");
            }
        }
        match self.form {
            Form::Card => Ok(()),
            Form::Text | Form::Decimal => text.write_char('"'),
        }
    }
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut text = String::new();
        self.compose(&mut text)?;
        f.pad(&text)
    }
}

/// Feet only from 12 in up; whole inches unless a fraction stands alone.
fn feet_and_inches(text: &mut String<24, u8>, sixty_fourths: u32) -> fmt::Result {
    let (inches, rest) = (sixty_fourths / 64, sixty_fourths % 64);
    let feet = inches / 12;
    if feet > 0 {
        write!(text, "{feet}' ")?;
    }
    if feet > 0 || inches > 0 || rest == 0 {
        write!(text, "{}", inches % 12)?;
        if rest > 0 {
            text.write_char(' ')?;
        }
    }
    if rest > 0 {
        let shift = rest.trailing_zeros();
        write!(text, "{}/{}", rest >> shift, 64 >> shift)?;
    }
    Ok(())
}

/// `size / unit` with as many decimals as it takes. The caller picks a unit in
/// which the decimals end within six places.
fn decimal(text: &mut String<24, u8>, size: u32, unit: u32) -> fmt::Result {
    write!(text, "{}", size / unit)?;
    let mut rest = size % unit;
    if rest > 0 {
        text.write_char('.')?;
    }
    // rest < unit <= 1,016,000, so ten times it fits.
    for _ in 0..6 {
        if rest == 0 {
            break;
        }
        rest *= 10;
        write!(text, "{}", rest / unit)?;
        rest %= unit;
    }
    Ok(())
}
