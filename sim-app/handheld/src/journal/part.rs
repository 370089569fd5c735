//! Parts: how whatever a job is made of becomes bytes, and back.
//!
//! Numbers little-endian, words and lists with their length in front, choices by
//! a number that stands in the table below them. Every byte that was written can
//! be read; any other byte is refused, so that nothing damaged or newer becomes
//! another job.

use super::kept::{Full, Sink, Source, Unreadable};
use boltbay_core::decimal::Decimal;
use boltbay_core::length::Length;
use heapless::{String, Vec};

/// A part of a job.
pub(super) trait Part: Sized {
    /// Writes it.
    fn put(&self, out: &mut impl Sink) -> Result<(), Full>;

    /// Reads it.
    fn take(from: &mut impl Source) -> Result<Self, Unreadable>;

    /// Reads it in place: lists are too large to come by value.
    fn fill(&mut self, from: &mut impl Source) -> Result<(), Unreadable> {
        *self = Self::take(from)?;
        Ok(())
    }
}

macro_rules! numbers {
    ($($number:ty)*) => {$(
        impl Part for $number {
            fn put(&self, out: &mut impl Sink) -> Result<(), Full> {
                out.put(&self.to_le_bytes())
            }

            fn take(from: &mut impl Source) -> Result<Self, Unreadable> {
                let mut bytes = [0; size_of::<$number>()];
                from.take(&mut bytes)?;
                Ok(<$number>::from_le_bytes(bytes))
            }
        }
    )*};
}

numbers!(u8 u16 i32);

impl Part for bool {
    fn put(&self, out: &mut impl Sink) -> Result<(), Full> {
        u8::from(*self).put(out)
    }

    fn take(from: &mut impl Source) -> Result<Self, Unreadable> {
        match u8::take(from)? {
            0 => Ok(false),
            1 => Ok(true),
            _ => Err(Unreadable),
        }
    }
}

impl Part for Length {
    fn put(&self, out: &mut impl Sink) -> Result<(), Full> {
        self.counts().put(out)
    }

    fn take(from: &mut impl Source) -> Result<Self, Unreadable> {
        match i32::take(from)? {
            // No length: its opposite would be out of range.
            i32::MIN => Err(Unreadable),
            counts => Ok(Length::from_counts(counts)),
        }
    }
}

impl Part for Decimal {
    fn put(&self, out: &mut impl Sink) -> Result<(), Full> {
        self.digits().put(out)?;
        self.places().put(out)
    }

    fn take(from: &mut impl Source) -> Result<Self, Unreadable> {
        let (digits, places) = (i32::take(from)?, u8::take(from)?);
        let decimal = Decimal::new(digits, places);
        // More places than a decimal can have are cut: then it is none of ours.
        let same = decimal.digits() == digits && decimal.places() == places;
        same.then_some(decimal).ok_or(Unreadable)
    }
}

impl<T: Part> Part for Option<T> {
    fn put(&self, out: &mut impl Sink) -> Result<(), Full> {
        self.is_some().put(out)?;
        self.as_ref().map_or(Ok(()), |part| part.put(out))
    }

    fn take(from: &mut impl Source) -> Result<Self, Unreadable> {
        match bool::take(from)? {
            true => T::take(from).map(Some),
            false => Ok(None),
        }
    }
}

impl<T: Part> Part for [T; 2] {
    fn put(&self, out: &mut impl Sink) -> Result<(), Full> {
        self.iter().try_for_each(|part| part.put(out))
    }

    fn take(from: &mut impl Source) -> Result<Self, Unreadable> {
        Ok([T::take(from)?, T::take(from)?])
    }
}

impl<T: Part, U: Part> Part for (T, U) {
    fn put(&self, out: &mut impl Sink) -> Result<(), Full> {
        self.0.put(out)?;
        self.1.put(out)
    }

    fn take(from: &mut impl Source) -> Result<Self, Unreadable> {
        Ok((T::take(from)?, U::take(from)?))
    }
}

impl<const N: usize> Part for String<N, u8> {
    fn put(&self, out: &mut impl Sink) -> Result<(), Full> {
        u8::try_from(self.len()).map_err(|_| Full)?.put(out)?;
        out.put(self.as_bytes())
    }

    fn take(from: &mut impl Source) -> Result<Self, Unreadable> {
        let mut text = String::new();
        for _ in 0..u8::take(from)? {
            let letter = u8::take(from)?;
            let printable = (b' '..=b'~').contains(&letter);
            if !printable || text.push(char::from(letter)).is_err() {
                return Err(Unreadable);
            }
        }
        Ok(text)
    }
}

impl<T: Part, const N: usize> Part for Vec<T, N, u8> {
    fn put(&self, out: &mut impl Sink) -> Result<(), Full> {
        u8::try_from(self.len()).map_err(|_| Full)?.put(out)?;
        self.iter().try_for_each(|part| part.put(out))
    }

    fn take(from: &mut impl Source) -> Result<Self, Unreadable> {
        let mut list = Vec::new();
        list.fill(from)?;
        Ok(list)
    }

    fn fill(&mut self, from: &mut impl Source) -> Result<(), Unreadable> {
        self.clear();
        for _ in 0..u8::take(from)? {
            let part = T::take(from)?;
            self.push(part).map_err(|_| Unreadable)?;
        }
        Ok(())
    }
}

/// Structs: their fields in this order. One that is left out does not compile.
macro_rules! structs {
    ($($name:ident { $($field:ident),* })*) => {$(
        impl Part for $name {
            fn put(&self, out: &mut impl Sink) -> Result<(), Full> {
                let $name { $($field),* } = self;
                $($field.put(out)?;)*
                Ok(())
            }

            fn take(from: &mut impl Source) -> Result<Self, Unreadable> {
                $(let $field = Part::take(from)?;)*
                Ok($name { $($field),* })
            }
        }
    )*};
}

/// Choices: the number of each, and what it holds.
macro_rules! choices {
    ($($name:ident { $($number:literal: [$($choice:tt)*] $(, $part:ident)*;)* })*) => {$(
        impl Part for $name {
            fn put(&self, out: &mut impl Sink) -> Result<(), Full> {
                match self {
                    $($name::$($choice)* => {
                        out.put(&[$number])?;
                        $($part.put(out)?;)*
                    })*
                }
                Ok(())
            }

            fn take(from: &mut impl Source) -> Result<Self, Unreadable> {
                match u8::take(from)? {
                    $($number => {
                        $(let $part = Part::take(from)?;)*
                        Ok($name::$($choice)*)
                    })*
                    _ => Err(Unreadable),
                }
            }
        }
    )*};
}

pub(super) use {choices, structs};
