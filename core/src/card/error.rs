//! What is wrong with a card, where, and what would be right.
//!
//! Only the first error of a card is told: rows are judged in file order, then
//! what contradicts across rows, the earliest offending row first.

use super::Kind;
use crate::decimal::DecimalError;
use crate::length::{Length, LengthError};
use crate::words::Units;
use core::fmt;
use heapless::String;

/// The start of what stood in a field.
pub type Found = String<24, u8>;

/// One error of a card: which row, which field, what is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct CardError {
    /// Line of the file on which the row starts, from 1.
    pub row: u32,
    /// Kind of the row; `None` where it is not known.
    pub kind: Option<Kind>,
    /// Name of the field; `KIND` for the first field and for the row as a whole.
    pub field: &'static str,
    /// What stood in the field; empty where nothing did.
    pub found: Found,
    /// Units that lengths in the sentence are written in.
    pub units: Units,
    /// What is wrong.
    pub wrong: Wrong,
}

/// Everything that can be wrong with a card.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Wrong {
    /// The first row is not `boltbay,1`.
    NotACard,
    /// A format version that is not 1.
    Version,
    /// A NUL byte.
    Nul,
    /// Bytes that are not UTF-8.
    NotUtf8,
    /// More lines than are counted.
    TooManyLines {
        /// The most.
        limit: u16,
    },
    /// A row with more text than any row needs.
    RowTooLong {
        /// Bytes of a row.
        limit: u16,
    },
    /// A quoted field that never ends.
    QuoteOpen,
    /// Fields parted by something else than commas.
    Separator {
        /// What parts them.
        found: char,
    },
    /// No such kind of row.
    UnknownKind {
        /// The kind that it resembles.
        like: Option<Kind>,
    },
    /// An empty field that must hold something.
    Missing,
    /// More fields than the row has.
    Extra,
    /// No length.
    Length(LengthError),
    /// No decimal number.
    Decimal(DecimalError),
    /// No position: a length, and where it was read from.
    Position,
    /// No whole number in range.
    Count {
        /// Least.
        least: u16,
        /// Most.
        most: u16,
    },
    /// A word that is not one of these.
    NotOneOf(&'static [&'static str]),
    /// No side of this beam.
    NotASide {
        /// The painted letters.
        sides: [u8; 2],
    },
    /// A letter that cannot be painted for a side.
    SideLetter,
    /// Two equal sides.
    SidesEqual,
    /// A name that is too long.
    NameTooLong {
        /// Characters.
        limit: u8,
    },
    /// A name with something else than printable ASCII.
    NameStrange {
        /// That character.
        found: char,
    },
    /// A name that means something else already.
    NameTaken,
    /// Below zero.
    Negative,
    /// Zero where it makes no sense.
    Zero,
    /// A length beyond its limit.
    LengthAbove {
        /// The most.
        most: Length,
    },
    /// A length below its limit.
    LengthBelow {
        /// The least.
        least: Length,
    },
    /// A number beyond its limit.
    NumberAbove {
        /// The most.
        most: i32,
    },
    /// A length before `units`.
    UnitsFirst,
    /// No `units` at all.
    NoUnits,
    /// A second row of a kind that stands once, or of the same thing.
    Second {
        /// The row of the first.
        first: u32,
    },
    /// More rows than fit.
    TooMany {
        /// The most.
        limit: u16,
        /// Of what.
        what: &'static str,
    },
    /// A reading before any `tape`.
    NoRun,
    /// A mark as hook without its direction.
    TowardMissing,
    /// A direction that a named hook does not go.
    TowardOdd,
    /// A reading step that no tape has.
    ReadTo,
    /// A hanger without its row.
    UnknownHanger,
    /// A support without its row.
    UnknownSupport,
    /// A run that is not on that side.
    UnknownRun {
        /// How many there are.
        runs: u8,
    },
    /// Something starts beyond where it ends.
    FromBeyondTo,
    /// Something ends where it starts.
    NoExtent,
    /// Off the steel.
    OffSteel {
        /// How long the steel is.
        length: Length,
    },
    /// A bearing longer than the steel, or a wall beyond its far end.
    WallOffSteel,
    /// No clear distance between the walls.
    NoClear,
    /// Two packing pieces overlap on one side.
    Overlap {
        /// The other's row.
        other: u32,
    },
    /// Two holes at one place in one row, or two supports at one place.
    SamePlace {
        /// The other's row.
        other: u32,
    },
    /// E_MIN above E_MAX.
    EndsCrossed {
        /// E_MIN.
        least: Length,
        /// E_MAX.
        most: Length,
    },
    /// Least spacing above the greatest.
    SpacingCrossed {
        /// Least, keyed or 5D.
        least: Length,
        /// Greatest: S, or S/2, less the hold back.
        most: Length,
    },
    /// Pairs are asked for where there is one row.
    PairedWithSingle {
        /// The other's row.
        other: u32,
    },
    /// A designation that is not in the table.
    UnknownShape,
    /// `custom` without a `shape`.
    NeedsShape,
    /// A `shape` beside a beam of the table.
    ShapeUnused {
        /// The other's row.
        other: u32,
    },
    /// Dimensions that make no W-shape.
    ShapeCrossed,
    /// A hole smaller than its bolt.
    HoleBelowBolt {
        /// The bolt's diameter.
        bolt: Length,
    },
    /// The top row is not above the bottom row.
    RowsCrossed,
    /// Tensile strength below yield.
    StrengthCrossed,
}

impl CardError {
    /// An error of a row as a whole.
    pub(super) fn of_row(row: u16, kind: Option<Kind>, units: Units, wrong: Wrong) -> CardError {
        CardError {
            row: u32::from(row),
            kind,
            field: "KIND",
            found: Found::new(),
            units,
            wrong,
        }
    }

    /// The same error told of a field.
    pub(super) fn at(self, field: &'static str, text: &str) -> CardError {
        CardError {
            field,
            found: excerpt(text),
            ..self
        }
    }
}

/// As much of `text` as fits, without control characters.
pub(super) fn excerpt(text: &str) -> Found {
    let mut found = Found::new();
    for letter in text.chars() {
        let letter = if letter.is_control() { ' ' } else { letter };
        if found.push(letter).is_err() {
            break;
        }
    }
    found
}

impl fmt::Display for CardError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "row {}", self.row)?;
        match self.kind {
            Some(kind) if self.field == "KIND" => write!(f, ", {}", kind.word())?,
            Some(kind) => write!(f, ", {} {}", kind.word(), self.field)?,
            None => write!(f, ", {}", self.field)?,
        }
        if !self.found.is_empty() {
            write!(f, " `{}`", self.found)?;
        }
        f.write_str(": ")?;
        self.file(f)
    }
}

/// The sentences, by what they are about. Each says what is wrong, then what
/// would be right.
impl CardError {
    /// About the file as such.
    fn file(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.wrong {
            Wrong::NotACard => f.write_str("no job card: write boltbay,1 as the first row"),
            Wrong::Version => f.write_str("no version that is read here: write boltbay,1"),
            Wrong::Nul => f.write_str("a NUL byte: save the card as plain CSV text (UTF-8)"),
            Wrong::NotUtf8 => f.write_str("bytes that are not UTF-8: save the card as CSV UTF-8"),
            Wrong::TooManyLines { limit } => {
                write!(f, "more than {limit} lines: a card has at most {limit}")
            }
            Wrong::RowTooLong { limit } => {
                write!(f, "too long: a row has at most {limit} characters")
            }
            Wrong::QuoteOpen => f.write_str("a quote mark is never closed: close it in its field"),
            Wrong::Separator { found } => {
                write!(f, "{found:?} parts the fields: save the card with commas")
            }
            Wrong::UnknownKind { like: Some(kind) } => {
                write!(
                    f,
                    "no such kind of row: write {}, if that is meant",
                    kind.word()
                )
            }
            Wrong::UnknownKind { like: None } => {
                f.write_str("no such kind of row: write a kind such as joist, or # for a remark")
            }
            Wrong::UnitsFirst => {
                f.write_str("a length before the units: write units,imperial or units,metric above")
            }
            Wrong::NoUnits => {
                f.write_str("no units below it: write units,imperial or units,metric")
            }
            _ => self.field(f),
        }
    }

    /// About one field.
    fn field(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.wrong {
            Wrong::Missing => write!(f, "empty: write {}", self.field),
            Wrong::Extra => f.write_str("a field too many: leave it empty"),
            Wrong::Length(error) => write!(f, "{error}"),
            Wrong::Decimal(error) => write!(f, "{error}"),
            Wrong::Position => f.write_str(
                "no position: write a length, and wall A, wall B, end A or end B behind it",
            ),
            Wrong::Count { least, most } => {
                write!(
                    f,
                    "not countable: write a whole number from {least} to {most}"
                )
            }
            Wrong::NotOneOf(words) => {
                f.write_str("no such choice: write ")?;
                one_of(f, words)
            }
            Wrong::NotASide { sides: [n, s] } => {
                let (n, s) = (char::from(n), char::from(s));
                write!(f, "no side of this beam: write {n} or {s}")
            }
            Wrong::SideLetter => {
                f.write_str("no letter for a side: write one letter, not A, B, T or X")
            }
            Wrong::SidesEqual => f.write_str("both sides alike: write two different letters"),
            Wrong::NameTooLong { limit } => {
                write!(f, "name too long: write at most {limit} characters")
            }
            Wrong::NameStrange { found } => {
                write!(
                    f,
                    "{found:?} in a name: write plain letters, digits and signs"
                )
            }
            Wrong::NameTaken => f.write_str("this name is built in: write another"),
            _ => self.size(f),
        }
    }

    /// About a size.
    fn size(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let units = self.units;
        match self.wrong {
            Wrong::Negative => {
                f.write_str("below 0: write 0 or more (only AIM, OFFSET, SHIFT may be below)")
            }
            Wrong::Zero => f.write_str("0 makes no sense here: write more than 0"),
            Wrong::LengthAbove { most } => {
                write!(f, "too long: write at most {}", most.shown(units))
            }
            Wrong::LengthBelow { least } => {
                write!(f, "too short: write at least {}", least.shown(units))
            }
            Wrong::NumberAbove { most } => write!(f, "too great: write at most {most}"),
            Wrong::FromBeyondTo => {
                f.write_str("starts beyond its end: write the place nearer to end A first")
            }
            Wrong::NoExtent => f.write_str("ends where it starts: write two places apart"),
            Wrong::OffSteel { length } => {
                let length = length.shown(units);
                write!(f, "off the steel: write a place from 0 to {length} from end A")
            }
            Wrong::EndsCrossed { least, most } => {
                let (least, most) = (least.shown(units), most.shown(units));
                write!(f, "least end distance {least} above the greatest {most}: swap them")
            }
            Wrong::SpacingCrossed { least, most } => {
                let (least, most) = (least.shown(units), most.shown(units));
                write!(
                    f,
                    "least spacing {least} above the greatest {most}: write a smaller MINIMUM or a greater S"
                )
            }
            Wrong::HoleBelowBolt { bolt } => {
                write!(f, "hole smaller than its bolt: write at least {}", bolt.shown(units))
            }
            Wrong::RowsCrossed => f.write_str("not above the bottom row: write TOP above BOT"),
            Wrong::StrengthCrossed => f.write_str("below the yield strength: write FU above FY"),
            Wrong::ShapeCrossed => f.write_str(
                "makes no W-shape with the others: write k above FLANGE, DEPTH above twice k, WIDTH above twice K1, K1 above half of WEB",
            ),
            _ => self.across(f),
        }
    }

    /// About two rows, or a row that is not there.
    fn across(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.wrong {
            Wrong::Second { first } => {
                write!(f, "stands in row {first} already: keep one of the two")
            }
            Wrong::TooMany { limit, what } => {
                write!(f, "one too many: a job holds at most {limit} {what}")
            }
            Wrong::NoRun => f.write_str("no run above it: write a tape row first"),
            Wrong::TowardMissing => f.write_str("a mark as hook needs a direction: write A or B"),
            Wrong::TowardOdd => {
                f.write_str("the run goes away from this hook, the other way: leave TOWARD empty")
            }
            Wrong::ReadTo => f.write_str("no such tape: write 1/8, 1/16, 1/32, 1 mm or 5 mm"),
            Wrong::UnknownHanger => {
                f.write_str("no such hanger: add its hanger row, or write none")
            }
            Wrong::UnknownSupport => f.write_str("no such support: add its support row"),
            Wrong::UnknownRun { runs } => {
                write!(f, "no such run: that side has {runs}, counted from 1")
            }
            Wrong::WallOffSteel => {
                f.write_str("the wall is past the far end of the steel: write a smaller BEARING")
            }
            Wrong::NoClear => {
                f.write_str("nothing is left between the walls: write smaller bearings")
            }
            Wrong::Overlap { other } => {
                write!(
                    f,
                    "overlaps the packing of row {other} on one side: part them"
                )
            }
            Wrong::SamePlace { other } => {
                write!(f, "same place as row {other}: keep one of the two")
            }
            Wrong::PairedWithSingle { other } => write!(
                f,
                "pairs need two rows, row {other} says otherwise: write pattern staggered or no paired"
            ),
            Wrong::UnknownShape => f.write_str(
                "not in the table of shapes: write one like W10x33, or custom and a shape row",
            ),
            Wrong::NeedsShape => f.write_str("custom needs its dimensions: add a shape row"),
            Wrong::ShapeUnused { other } => {
                write!(
                    f,
                    "the beam of row {other} is in the table: write beam,custom or no shape"
                )
            }
            _ => Ok(()),
        }
    }
}

/// `a, b or c`.
fn one_of(f: &mut fmt::Formatter<'_>, words: &[&str]) -> fmt::Result {
    let last = words.len().saturating_sub(1);
    for (place, word) in words.iter().enumerate() {
        match place {
            0 => {}
            _ if place == last => f.write_str(" or ")?,
            _ => f.write_str(", ")?,
        }
        f.write_str(word)?;
    }
    Ok(())
}
