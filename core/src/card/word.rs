//! The closed vocabularies of the card: each word stands here once, for
//! reading, writing and saying what would have been right.

use crate::job::{
    BeamLength, Edge, HoleState, LayerKind, Material, Pattern, Reach, SpacingBasis, Species, Stays,
    WasherShape,
};
use crate::words::{End, Row, Units};

/// A type with one word on the card for each of its values.
pub(super) trait Word: Copy + PartialEq + 'static {
    /// Every value, in the order of `WORDS`.
    const ALL: &'static [Self];
    /// The first of them.
    const FIRST: Self;
    /// Every word.
    const WORDS: &'static [&'static str];

    /// The word of a value.
    fn word(self) -> &'static str {
        Self::ALL
            .iter()
            .position(|value| *value == self)
            .and_then(|place| Self::WORDS.get(place))
            .copied()
            .unwrap_or("")
    }
}

/// Where a word stands among others, in any case and either spelling of the middle.
pub(super) fn place(text: &str, words: &[&str]) -> Option<usize> {
    let text = match text {
        _ if text.eq_ignore_ascii_case("center") => "centre",
        _ => text,
    };
    words
        .iter()
        .position(|word| word.eq_ignore_ascii_case(text))
}

macro_rules! words {
    ($($type:ty { $first:path = $first_word:literal, $($value:path = $word:literal,)* })*) => {$(
        impl Word for $type {
            const ALL: &'static [Self] = &[$first, $($value,)*];
            const FIRST: Self = $first;
            const WORDS: &'static [&'static str] = &[$first_word, $($word,)*];
        }
    )*};
}

/// Which hand end A is at.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Hand {
    Left,
    Right,
}

/// Yes or no.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Answer {
    Yes,
    No,
}

/// One bolt, or one in each row.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Bolts {
    Single,
    Paired,
}

/// What an obstacle does.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum InTheWay {
    Solid,
    Access,
}

/// The three forms of a `load` row.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum LoadForm {
    Area,
    Line,
    Point,
}

words! {
    Units { Units::Imperial = "imperial", Units::Metric = "metric", }
    End { End::A = "A", End::B = "B", }
    Row { Row::Top = "top", Row::Bot = "bot", }
    Hand { Hand::Left = "left", Hand::Right = "right", }
    Answer { Answer::Yes = "yes", Answer::No = "no", }
    Bolts { Bolts::Single = "single", Bolts::Paired = "paired", }
    BeamLength { BeamLength::Ordered = "ordered", BeamLength::Measured = "measured", }
    Material {
        Material::Concrete = "concrete",
        Material::Masonry = "masonry",
        Material::Wood = "wood",
        Material::Steel = "steel",
    }
    LoadForm { LoadForm::Area = "area", LoadForm::Line = "line", LoadForm::Point = "point", }
    Edge { Edge::Near = "near", Edge::Centre = "centre", Edge::Far = "far", }
    InTheWay { InTheWay::Solid = "solid", InTheWay::Access = "access", }
    Stays { Stays::Stays = "stays", Stays::Rides = "rides", }
    WasherShape {
        WasherShape::Round = "round",
        WasherShape::Square = "square",
        WasherShape::Turns = "turns",
    }
    Pattern {
        Pattern::Single = "single",
        Pattern::Staggered = "staggered",
        Pattern::Paired = "paired",
    }
    SpacingBasis { SpacingBasis::Every = "every", SpacingBasis::Row = "row", }
    Reach { Reach::One = "one", Reach::Each = "each", }
    LayerKind { LayerKind::Solid = "solid", LayerKind::Sheet = "sheet", }
    Species {
        Species::Spf = "SPF",
        Species::DfL = "DF-L",
        Species::Hf = "HF",
        Species::Sp = "SP",
    }
    HoleState {
        HoleState::Marked = "marked",
        HoleState::Drilled = "drilled",
        HoleState::Abandoned = "abandoned",
    }
}

impl From<bool> for Answer {
    fn from(yes: bool) -> Answer {
        if yes { Answer::Yes } else { Answer::No }
    }
}

impl From<bool> for Bolts {
    fn from(paired: bool) -> Bolts {
        if paired { Bolts::Paired } else { Bolts::Single }
    }
}
