//! The crew's words for what the planner found: blocking stretches, ways out,
//! verdicts, what is missing, what a gap is measured to.
//!
//! In: an enum of the plan, with the job (painted letters, units, names) where
//! it is needed. Out: words. A new variant does not compile before it has words.

use super::Report;
use crate::job::{KeepoutKind, Stick, StickSource};
use crate::length::Length;
use crate::placement::{
    BlockKind, Broken, Change, Full, InsertFrom, PlaceError, State, Thing, Verdict,
};
use crate::plan::Missing;
use crate::rods::{PieceUse, Proof};
use crate::words::Row;
use core::fmt::{self, Write};

/// `TOP` or `BOT`, as painted on the flange that the row is nearest to.
pub const fn row(row: Row) -> &'static str {
    match row {
        Row::Top => "TOP",
        Row::Bot => "BOT",
    }
}

/// `planned`, `marked`, `drilled`.
pub const fn state(state: State) -> &'static str {
    match state {
        State::Planned => "planned",
        State::Marked => "marked",
        State::Drilled => "drilled",
    }
}

/// The verdict in one word, the worst of them in the same capitals as the best.
pub const fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Fits => "FITS",
        Verdict::Tight => "TIGHT",
        Verdict::Rule(..) => "RULE",
        Verdict::Fouls(_) => "FOULS",
    }
}

/// Which part of the engineer's note a drilled hole breaks.
pub const fn broken(broken: Broken) -> &'static str {
    match broken {
        Broken::EndDistance => "end distance short",
        Broken::Zone => "inside a zone",
        Broken::Access => "no access from either side",
        Broken::LeastSpacing => "too near another hole",
        Broken::Abandoned => "too near an abandoned hole",
        Broken::GreatestSpacing => "spacing too wide",
        Broken::Partner => "no room for its partner",
        Broken::NotPacked => "no packing here",
    }
}

/// Whether the amount of a broken rule says anything: being unpacked, without
/// access or without a partner is not a matter of inches.
pub const fn broken_by_a_length(broken: Broken) -> bool {
    match broken {
        Broken::EndDistance
        | Broken::Zone
        | Broken::LeastSpacing
        | Broken::Abandoned
        | Broken::GreatestSpacing => true,
        Broken::Access | Broken::Partner | Broken::NotPacked => false,
    }
}

/// The kind of a blocking stretch, as JSON names it.
pub const fn block_kind(kind: BlockKind) -> &'static str {
    match kind {
        BlockKind::Reach => "reach",
        BlockKind::Start => "start",
        BlockKind::End => "end",
        BlockKind::Cover => "cover",
        BlockKind::Chain => "chain",
    }
}

/// The same for the crew.
pub const fn block_words(kind: BlockKind) -> &'static str {
    match kind {
        BlockKind::Reach => "no bolt fits between",
        BlockKind::Start => "no room for the first bolt of the packing",
        BlockKind::End => "no room for the last bolt of the packing",
        BlockKind::Cover => "no room where the note wants a bolt near",
        BlockKind::Chain => "bolts fit here one by one, but no row of them",
    }
}

/// Why the cut list is the best there is, as JSON names it.
pub const fn proof(proof: Proof) -> &'static str {
    match proof {
        Proof::BoundMet => "bound met",
        Proof::SearchComplete => "search complete",
        Proof::NotProved => "not proved",
    }
}

/// The same for the crew.
pub const fn proof_words(proof: Proof) -> &'static str {
    match proof {
        Proof::BoundMet => "no way of cutting buys less",
        Proof::SearchComplete => "every way of cutting was tried, none buys less",
        Proof::NotProved => "a good way of cutting, not proved to be the best",
    }
}

/// `bought` or `on hand`.
pub const fn source(stick: StickSource) -> &'static str {
    match stick {
        StickSource::Rod => "bought",
        StickSource::Offcut => "on hand",
    }
}

/// Why the planner gave no answer at all.
pub const fn trouble(trouble: PlaceError) -> &'static str {
    match trouble {
        PlaceError::Frame(_) => "a place on the card does not lie on the steel",
        PlaceError::NoBolt => {
            "no bolt of a size that is built in, and no washer or nut keyed for it"
        }
        PlaceError::LatticeTooFine => "the step of the marks is too fine for so long a beam",
        PlaceError::Full(Full::Windows) => "more free stretches than can be held",
        PlaceError::Full(Full::Keepouts) => "more things in the way than can be held",
        PlaceError::Full(Full::Pieces) => "more alternatives than can be held",
        PlaceError::Full(Full::Trail) => "more ways around the old holes than can be held",
    }
}

/// What a missing kind of row is, in words.
pub fn missing(row: &str) -> &'static str {
    match row {
        "beam" => "the steel: which, and how long",
        "shape" => "the steel's own dimensions: it is not in the table",
        "bolt" => "the bolt's diameter, off the engineer's drawing",
        "spacing" => "the bolt spacing, off the engineer's drawing",
        "ends" => "where the first and last bolt may be, off the engineer's drawing",
        "rows" => "heights of the bolt rows: the usual ones do not fit this steel",
        "outstand" => "web to flange tip, measured on the steel",
        "layer" => "the packing stock on hand, as measured",
        "rod" => "the rod stock, its lengths",
        "wall" => "how far the steel bears on the wall",
        "clear" => "the clear distance between the walls",
        "hanger" => "the hangers",
        "washer" => "the washers",
        "nut" => "the nuts",
        "tape" => "the tape runs",
        "support" => "what the steel rests on, two supports or more",
        _ => "not on the card",
    }
}
impl Report<'_> {
    /// `bolt`, `run S2`.
    pub fn missing(&self, missing: Missing, out: &mut dyn Write) -> fmt::Result {
        match missing {
            Missing::Row(kind) => out.write_str(kind),
            Missing::Run(side, run) => write!(out, "run {}{run}", self.job.letter(side)),
        }
    }

    /// What a gap is measured to, or what blocks: `N3 hanger`, `S4`, `drain`.
    pub fn thing(&self, thing: Thing, out: &mut dyn Write) -> fmt::Result {
        match thing {
            Thing::Joist { joist, hanger } => {
                self.joist(joist, out)?;
                out.write_str(if hanger { " hanger" } else { "" })
            }
            Thing::Keepout(index) => self.keepout(index, out),
            Thing::Packing(index) => write!(out, "packing {}", u16::from(index) + 1),
            Thing::Hole(index) => self.hole(index, out),
        }
    }

    /// The same without the hanger, where it does not matter which metal it is.
    pub fn thing_itself(&self, thing: Thing, out: &mut dyn Write) -> fmt::Result {
        match thing {
            Thing::Joist { joist, .. } => self.joist(joist, out),
            _ => self.thing(thing, out),
        }
    }

    /// `N3`.
    pub fn joist(&self, index: u8, out: &mut dyn Write) -> fmt::Result {
        match self.plan.joists.get(usize::from(index)) {
            Some(joist) => write!(out, "{}{}", self.job.letter(joist.side), joist.number),
            None => out.write_str("joist"),
        }
    }

    /// Its name, or its kind and its place on the card.
    pub fn keepout(&self, index: u8, out: &mut dyn Write) -> fmt::Result {
        let Some(keepout) = self.job.keepouts.get(usize::from(index)) else {
            return out.write_str("obstacle");
        };
        if !keepout.name.is_empty() {
            return out.write_str(&keepout.name);
        }
        let kind = match keepout.kind {
            KeepoutKind::Zone => "zone",
            KeepoutKind::Solid | KeepoutKind::Access => "obstacle",
        };
        write!(out, "{kind} {}", u16::from(index) + 1)
    }

    fn hole(&self, index: u8, out: &mut dyn Write) -> fmt::Result {
        match self.job.holes.get(usize::from(index)) {
            Some(hole) => write!(
                out,
                "{} hole {}",
                row(hole.row),
                hole.at().reading.shown(self.job.units)
            ),
            None => out.write_str("hole"),
        }
    }

    /// `N`, `S` or `either`.
    pub fn insert_from(&self, insert_from: InsertFrom, out: &mut dyn Write) -> fmt::Result {
        match insert_from {
            InsertFrom::Either => out.write_str("either"),
            InsertFrom::Side(side) => out.write_char(self.job.letter(side)),
        }
    }

    /// What to change to open a blocking stretch.
    pub fn change(&self, change: Change, out: &mut dyn Write) -> fmt::Result {
        let shown = |length: Length| length.shown(self.job.units);
        match change {
            Change::PlainHanger(joist) => {
                out.write_str("a hanger without flanges at ")?;
                self.joist(joist, out)
            }
            Change::PlainHangers(first, second) => {
                out.write_str("hangers without flanges at ")?;
                self.joist(first, out)?;
                out.write_str(" and ")?;
                self.joist(second, out)
            }
            Change::Washer(size) => write!(out, "round washers of {}", shown(size)),
            Change::KeptSquare => out.write_str("washers kept square to the beam"),
            Change::HangerHeight(height) => {
                write!(out, "hangers no higher than {}", shown(height))
            }
            Change::Stretch(stretch) => {
                write!(out, "the engineer allows {} here (ask)", shown(stretch))
            }
            Change::Gap(gap) => write!(out, "a clear gap of {} (ask the engineer)", shown(gap)),
        }
    }

    /// What a piece of rod is for.
    pub fn piece_use(&self, piece_use: PieceUse, out: &mut dyn Write) -> fmt::Result {
        match piece_use {
            PieceUse::BothSides => out.write_str("bolts, packed both sides"),
            PieceUse::OneSide(side) => {
                write!(out, "bolts, packed side {} only", self.job.letter(side))
            }
            PieceUse::Other(index) => match self.job.pieces.get(usize::from(index)) {
                Some(piece) if !piece.name.is_empty() => out.write_str(&piece.name),
                _ => write!(out, "piece {}", u16::from(index) + 1),
            },
        }
    }

    /// `bought 6'`, `on hand 3' 2"`.
    pub fn stick(&self, stick: Stick, out: &mut dyn Write) -> fmt::Result {
        write!(
            out,
            "{} {}",
            source(stick.source),
            stick.length.shown(self.job.units)
        )
    }
}
