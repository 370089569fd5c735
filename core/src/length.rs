//! Lengths: an exact count of 25 nm.
//!
//! In: typed constructors, or text (`length/text.rs`). Out: counts, inches,
//! millimetres, text. 1/64 in = 15,875 counts, 0.001 in = 1,016, 1 mm = 40,000:
//! all exact, so nothing rounds on entry and switching units changes no stored
//! value. The range is that of `i32`: +-53.6 m. Rounding is always an argument.

mod read;
mod text;

pub(crate) use read::blank;
pub use text::{LengthError, Shown};

use core::cmp::Ordering;
use core::fmt;
use core::num::NonZeroI32;
use core::ops::Neg;

/// A length or a position along the beam.
///
/// The one `i32` outside the range, its minimum, is the niche that makes an
/// `Option<Length>` no larger than a `Length`: a job holds hundreds of them.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Length(NonZeroI32);

/// Which way a value goes that falls between two marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Rounding {
    /// Toward the smaller value (gaps, play).
    Down,
    /// Toward the greater value (rods, keep-outs).
    Up,
    /// To the nearer mark, halves up (marks read off another hook).
    Nearest,
}

/// Counts in 1/64 in.
const SIXTY_FOURTH: i32 = 15_875;
/// Counts in 1 in.
const INCH: i32 = 64 * SIXTY_FOURTH;
/// Counts in 1 mm.
const MILLIMETRE: i32 = 40_000;

impl Length {
    /// Zero.
    pub const ZERO: Length = Length::from_counts(0);
    /// The greatest length there is, about 53.6 m.
    pub const MAX: Length = Length::from_counts(i32::MAX);
    /// The least.
    pub const MIN: Length = Length(NonZeroI32::MIN.saturating_pow(0));

    /// From counts of 25 nm. The least `i32` is outside the range and is taken
    /// as the least length.
    pub const fn from_counts(counts: i32) -> Self {
        match NonZeroI32::new(counts ^ i32::MIN) {
            Some(niche) => Length(niche),
            None => Length::MIN,
        }
    }

    /// From whole inches, held at the ends of the range as all that follow: see
    /// `checked_mul` for values that are not constants.
    pub const fn from_inches(inches: i32) -> Self {
        Length::from_counts(inches.saturating_mul(INCH))
    }

    /// From sixteenths of an inch.
    pub const fn from_sixteenths(sixteenths: i32) -> Self {
        Length::from_counts(sixteenths.saturating_mul(4 * SIXTY_FOURTH))
    }

    /// From sixty-fourths of an inch.
    pub const fn from_sixty_fourths(sixty_fourths: i32) -> Self {
        Length::from_counts(sixty_fourths.saturating_mul(SIXTY_FOURTH))
    }

    /// From thousandths of an inch.
    pub const fn from_thousandths(thousandths: i32) -> Self {
        Length::from_counts(thousandths.saturating_mul(1_016))
    }

    /// From whole millimetres.
    pub const fn from_millimetres(millimetres: i32) -> Self {
        Length::from_counts(millimetres.saturating_mul(MILLIMETRE))
    }

    /// From tenths of a millimetre.
    pub const fn from_tenth_millimetres(tenths: i32) -> Self {
        Length::from_counts(tenths.saturating_mul(MILLIMETRE / 10))
    }

    /// Counts of 25 nm.
    pub const fn counts(self) -> i32 {
        self.0.get() ^ i32::MIN
    }

    /// From counts that may be the one outside the range.
    const fn in_range(counts: i32) -> Option<Length> {
        if counts == i32::MIN {
            return None;
        }
        Some(Length::from_counts(counts))
    }

    /// Inches, for statics and for people's eyes; exact in 1/64 in.
    pub fn as_inches(self) -> f64 {
        f64::from(self.counts()) / f64::from(INCH)
    }

    /// Millimetres, for statics and for people's eyes.
    pub fn as_millimetres(self) -> f64 {
        f64::from(self.counts()) / f64::from(MILLIMETRE)
    }

    /// Sum, or `None` outside +-53.6 m.
    pub const fn checked_add(self, other: Length) -> Option<Length> {
        match self.counts().checked_add(other.counts()) {
            Some(counts) => Length::in_range(counts),
            None => None,
        }
    }

    /// Difference, or `None` outside +-53.6 m.
    pub const fn checked_sub(self, other: Length) -> Option<Length> {
        match self.counts().checked_sub(other.counts()) {
            Some(counts) => Length::in_range(counts),
            None => None,
        }
    }

    /// Multiple, or `None` outside +-53.6 m.
    pub const fn checked_mul(self, times: i32) -> Option<Length> {
        match self.counts().checked_mul(times) {
            Some(counts) => Length::in_range(counts),
            None => None,
        }
    }

    /// Sum, held at the ends of the range: for keep-outs, where the end of the
    /// range is as far outside the steel as anything beyond it. Not inlined, nor is
    /// the difference: at a hundred places they would be 2 KiB of flash.
    #[inline(never)]
    pub const fn saturating_add(self, other: Length) -> Length {
        Length::from_counts(self.counts().saturating_add(other.counts()))
    }

    /// Difference, held at the ends of the range.
    #[inline(never)]
    pub const fn saturating_sub(self, other: Length) -> Length {
        Length::from_counts(self.counts().saturating_sub(other.counts()))
    }

    /// Size without sign.
    pub const fn abs(self) -> Length {
        Length::from_counts(self.counts().saturating_abs())
    }

    /// Half; an odd count goes the way that `rounding` says.
    pub const fn half(self, rounding: Rounding) -> Length {
        self.to_multiple_counts(2, rounding, true)
    }

    /// The multiple of `step` that `rounding` picks, measured from zero.
    /// A step of zero or less leaves the value alone; a multiple outside the
    /// range is held at the value itself.
    pub const fn to_multiple(self, step: Length, rounding: Rounding) -> Length {
        self.to_multiple_counts(step.counts(), rounding, false)
    }

    /// Shared floor arithmetic: the multiple of `step`, or the quotient alone.
    const fn to_multiple_counts(self, step: i32, rounding: Rounding, quotient: bool) -> Length {
        if step <= 0 {
            return self;
        }
        let below = self.counts().div_euclid(step);
        let rest = self.counts().rem_euclid(step);
        let up = match rounding {
            Rounding::Down => false,
            Rounding::Up => rest > 0,
            Rounding::Nearest => rest >= step - rest,
        };
        let count = if up && rest > 0 { below + 1 } else { below };
        if quotient {
            return Length::from_counts(count);
        }
        match count.checked_mul(step) {
            Some(counts) => Length::from_counts(counts),
            None => self,
        }
    }
}

impl Neg for Length {
    type Output = Length;
    fn neg(self) -> Length {
        Length::from_counts(self.counts().saturating_neg())
    }
}

impl Default for Length {
    fn default() -> Self {
        Length::ZERO
    }
}

impl PartialOrd for Length {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Length {
    fn cmp(&self, other: &Self) -> Ordering {
        self.counts().cmp(&other.counts())
    }
}

impl fmt::Debug for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Length({})", self.counts())
    }
}

#[cfg(feature = "defmt")]
impl defmt::Format for Length {
    fn format(&self, f: defmt::Formatter<'_>) {
        defmt::write!(f, "Length({})", self.counts());
    }
}
