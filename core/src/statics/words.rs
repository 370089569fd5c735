//! Segments, load patterns and reasons in words, for lists, sheets and cautions.
//!
//! In: typed results. Out: text through `core::fmt`, lower case, to be set into
//! a sentence. Rule: spans count from end A, from 1; ends by their letter.

use super::{LiftReason, Pattern, Segment};
use crate::words::End;
use core::fmt;

impl fmt::Display for Segment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Segment::OverhangA => f.write_str("the overhang at A"),
            Segment::Span(span) => write!(f, "span {span}"),
            Segment::OverhangB => f.write_str("the overhang at B"),
        }
    }
}

impl fmt::Display for LiftReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            LiftReason::ShortSpan { short, beside } => {
                write!(f, "span {short} is short beside span {beside}")
            }
            LiftReason::LoadedSpan { span } => {
                write!(f, "the load on span {span} lifts it from beyond")
            }
            LiftReason::Overhang { end } => {
                let letter = match end {
                    End::A => 'A',
                    End::B => 'B',
                };
                write!(f, "the overhang at {letter} tips the beam")
            }
        }
    }
}

/// A pattern in words: `live load on span 1`.
#[derive(Clone, Copy, Debug)]
pub struct PatternWords {
    pattern: Pattern,
    supports: usize,
}

impl Pattern {
    /// In words; `supports` is how many the beam has.
    pub const fn words(self, supports: usize) -> PatternWords {
        PatternWords {
            pattern: self,
            supports,
        }
    }
}

impl fmt::Display for PatternWords {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut segments = self.pattern.segments(self.supports);
        let Some(first) = segments.next() else {
            return f.write_str("no live load");
        };
        write!(f, "live load on {first}")?;
        let mut rest = segments.peekable();
        while let Some(segment) = rest.next() {
            let link = if rest.peek().is_some() { "," } else { " and" };
            write!(f, "{link} {segment}")?;
        }
        Ok(())
    }
}
