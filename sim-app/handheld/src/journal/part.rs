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
    fn put(&self, out: &mut Writer);

    /// Reads it; anything, where it is refused.
    fn take(from: &mut Reader) -> Self;

    /// Reads it in place: lists are too large to come by value.
    fn fill(&mut self, from: &mut Reader) {
        *self = Self::take(from);
    }
}

/// Bytes on their way out. Once some were not taken, none are any more: so only
/// who wrote the last part has to ask, and not each part after each byte.
pub(super) struct Writer<'a> {
    out: &'a mut dyn Sink,
    wrote: Result<(), Full>,
}

impl<'a> Writer<'a> {
    pub(super) fn new(out: &'a mut dyn Sink) -> Self {
        Writer { out, wrote: Ok(()) }
    }

    pub(super) fn put(&mut self, bytes: &[u8]) {
        if self.wrote.is_ok() {
            self.wrote = self.out.put(bytes);
        }
    }

    /// The length of a word or a list, in front of it.
    fn put_count(&mut self, count: usize) {
        match u8::try_from(count) {
            Ok(count) => count.put(self),
            Err(_) => self.wrote = Err(Full),
        }
    }

    /// Whether all was taken.
    pub(super) fn finish(self) -> Result<(), Full> {
        self.wrote
    }
}

/// Bytes on their way in. Once some mean nothing, only zeros come.
pub(super) struct Reader<'a> {
    from: &'a mut dyn Source,
    read: Result<(), Unreadable>,
}

impl<'a> Reader<'a> {
    pub(super) fn new(from: &'a mut dyn Source) -> Self {
        Reader { from, read: Ok(()) }
    }

    /// What came means nothing.
    fn refuse(&mut self) {
        self.read = Err(Unreadable);
    }

    fn take(&mut self, bytes: &mut [u8]) {
        if self.read.is_ok() {
            self.read = self.from.take(bytes);
        }
        if self.read.is_err() {
            bytes.fill(0);
        }
    }

    /// One of so many choices; the first, where there is no such.
    pub(super) fn choice(&mut self, of: u8) -> u8 {
        let number = u8::take(self);
        if number < of {
            return number;
        }
        self.refuse();
        0
    }

    /// Whether all meant something.
    pub(super) fn finish(self) -> Result<(), Unreadable> {
        self.read
    }
}

macro_rules! numbers {
    ($($number:ty)*) => {$(
        impl Part for $number {
            fn put(&self, out: &mut Writer) {
                out.put(&self.to_le_bytes());
            }

            fn take(from: &mut Reader) -> Self {
                let mut bytes = [0; size_of::<$number>()];
                from.take(&mut bytes);
                <$number>::from_le_bytes(bytes)
            }
        }
    )*};
}

numbers!(u8 u16 i32);

impl Part for bool {
    fn put(&self, out: &mut Writer) {
        u8::from(*self).put(out);
    }

    fn take(from: &mut Reader) -> Self {
        from.choice(2) == 1
    }
}

impl Part for Length {
    fn put(&self, out: &mut Writer) {
        self.counts().put(out);
    }

    fn take(from: &mut Reader) -> Self {
        let counts = i32::take(from);
        if counts == i32::MIN {
            // No length: its opposite would be out of range.
            from.refuse();
        }
        Length::from_counts(counts)
    }
}

impl Part for Decimal {
    fn put(&self, out: &mut Writer) {
        self.digits().put(out);
        self.places().put(out);
    }

    fn take(from: &mut Reader) -> Self {
        let (digits, places) = (i32::take(from), u8::take(from));
        let decimal = Decimal::new(digits, places);
        // More places than a decimal can have are cut: then it is none of ours.
        if decimal.digits() != digits || decimal.places() != places {
            from.refuse();
        }
        decimal
    }
}

impl<T: Part> Part for Option<T> {
    fn put(&self, out: &mut Writer) {
        self.is_some().put(out);
        if let Some(part) = self {
            part.put(out);
        }
    }

    fn take(from: &mut Reader) -> Self {
        bool::take(from).then(|| T::take(from))
    }
}

impl<T: Part> Part for [T; 2] {
    fn put(&self, out: &mut Writer) {
        self.iter().for_each(|part| part.put(out));
    }

    fn take(from: &mut Reader) -> Self {
        [T::take(from), T::take(from)]
    }
}

impl<T: Part, U: Part> Part for (T, U) {
    fn put(&self, out: &mut Writer) {
        self.0.put(out);
        self.1.put(out);
    }

    fn take(from: &mut Reader) -> Self {
        (T::take(from), U::take(from))
    }
}

impl<const N: usize> Part for String<N, u8> {
    fn put(&self, out: &mut Writer) {
        out.put_count(self.len());
        out.put(self.as_bytes());
    }

    fn take(from: &mut Reader) -> Self {
        let mut text = String::new();
        for _ in 0..u8::take(from) {
            let letter = u8::take(from);
            let printable = (b' '..=b'~').contains(&letter);
            if !printable || text.push(char::from(letter)).is_err() {
                from.refuse();
            }
        }
        text
    }
}

impl<T: Part, const N: usize> Part for Vec<T, N, u8> {
    fn put(&self, out: &mut Writer) {
        out.put_count(self.len());
        self.iter().for_each(|part| part.put(out));
    }

    fn take(from: &mut Reader) -> Self {
        let mut list = Vec::new();
        list.fill(from);
        list
    }

    fn fill(&mut self, from: &mut Reader) {
        self.clear();
        for _ in 0..u8::take(from) {
            if self.push(T::take(from)).is_err() {
                from.refuse();
            }
        }
    }
}

/// Structs: their fields in this order. One that is left out does not compile.
macro_rules! structs {
    ($($name:ident { $($field:ident),* })*) => {$(
        impl Part for $name {
            fn put(&self, out: &mut Writer) {
                let $name { $($field),* } = self;
                $($field.put(out);)*
            }

            fn take(from: &mut Reader) -> Self {
                $(let $field = Part::take(from);)*
                $name { $($field),* }
            }
        }
    )*};
}

/// Choices: the number of each, counted from 0, and what it holds.
macro_rules! choices {
    ($($name:ident {
        0: [$($first:tt)*] $(, $first_part:ident)*;
        $($number:literal: [$($choice:tt)*] $(, $part:ident)*;)*
    })*) => {$(
        impl Part for $name {
            fn put(&self, out: &mut Writer) {
                match self {
                    $name::$($first)* => {
                        out.put(&[0]);
                        $($first_part.put(out);)*
                    }
                    $($name::$($choice)* => {
                        out.put(&[$number]);
                        $($part.put(out);)*
                    })*
                }
            }

            fn take(from: &mut Reader) -> Self {
                let choices: &[u8] = &[0 $(, $number)*];
                match from.choice(choices.len() as u8) {
                    $($number => {
                        $(let $part = Part::take(from);)*
                        $name::$($choice)*
                    })*
                    _ => {
                        $(let $first_part = Part::take(from);)*
                        $name::$($first)*
                    }
                }
            }
        }
    )*};
}

pub(super) use {choices, structs};
