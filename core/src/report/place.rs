//! Where a check is made, in the crew's words, and why one is not made.

use super::Report;
use super::words::row;
use crate::check::{Lack, Place};
use crate::checks::insertion::Meets;
use crate::frame::FrameError;
use crate::length::{Length, Rounding};
use crate::statics::{Refusal, Statics};
use crate::words::End;
use core::fmt::{self, Write};

/// `A` or `B`.
pub(super) const fn end_letter(end: End) -> char {
    match end {
        End::A => 'A',
        End::B => 'B',
    }
}

impl Report<'_> {
    /// What a check is made at: `end A`, `support POST`, `span 1`,
    /// `8' 3" FROM END A`, `row TOP, side N`, `N3`, `16d, side N`. Places along
    /// the steel are rounded to the nearest 1/16 in or 1 mm: nobody marks by
    /// them.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn place(
        &self,
        place: Place,
        statics: Option<&Statics>,
        out: &mut dyn Write,
    ) -> fmt::Result {
        match place {
            Place::Beam => out.write_str("the beam"),
            Place::End(end) => write!(out, "end {}", end_letter(end)),
            Place::Side(side) => write!(out, "side {}", self.job.letter(side)),
            Place::Row(at) => write!(out, "row {}", row(at)),
            Place::RowOn(at, side) => {
                write!(out, "row {}, side {}", row(at), self.job.letter(side))
            }
            Place::Support(index) => self.support_at(index, statics, out),
            Place::Segment(index) => {
                let sag = statics.and_then(|statics| statics.sags.get(usize::from(index)));
                match sag {
                    Some(sag) => write!(out, "{}", sag.segment),
                    None => write!(out, "part {}", u16::from(index) + 1),
                }
            }
            Place::At(at) => write!(out, "{} FROM END A", self.about(at)),
            Place::Joist(joist) => self.joist(joist, out),
            Place::Nail(nail, side) => {
                let nail = self.job.nails.get(usize::from(nail));
                let name = nail.map_or("nail", |nail| nail.name.as_str());
                write!(out, "{name}, side {}", self.job.letter(side))
            }
        }
    }

    /// `support POST`; `index` counts from end A.
    fn support_at(&self, index: u8, statics: Option<&Statics>, out: &mut dyn Write) -> fmt::Result {
        let reaction = statics.and_then(|statics| statics.reactions.get(usize::from(index)));
        match reaction {
            Some(reaction) => write!(out, "support {}", self.support_name(reaction.row)),
            None => write!(out, "support {}", u16::from(index) + 1),
        }
    }

    /// The name of a support; `row` is its index on the card.
    pub fn support_name(&self, row: u8) -> &str {
        let support = self.job.supports.get(usize::from(row));
        support.map_or("", |support| support.name.as_str())
    }

    /// A place along the steel to the nearest 1/16 in or 1 mm.
    pub(super) fn about(&self, at: Length) -> super::Cell {
        self.length_cell(at.to_multiple(self.coarse_step(), Rounding::Nearest))
    }

    /// Why a check is not made: `no row hanger`, or the rule's limit in words.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn lack(&self, lack: Lack, out: &mut dyn Write) -> fmt::Result {
        match lack {
            Lack::Row(kind) => write!(out, "not on the card: {kind}"),
            Lack::Field(why) | Lack::Outside(why) => out.write_str(why),
        }
    }

    /// What a nut meets on the way in: `N3`, `drain`, `wall A`.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn meets(&self, meets: Meets, out: &mut dyn Write) -> fmt::Result {
        match meets {
            Meets::Joist(joist) => self.joist(joist, out),
            Meets::Solid(keepout) => self.keepout(keepout, out),
            Meets::Wall(end) => write!(out, "wall {}", end_letter(end)),
        }
    }

    /// Why loads that are on the card are not worked out.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn refusal(&self, refusal: Refusal, out: &mut dyn Write) -> fmt::Result {
        let load = |row: u8| u16::from(row) + 1;
        match refusal {
            Refusal::Missing(_) => out.write_str("rows are missing"),
            Refusal::Frame(FrameError::OffSteel(_)) => {
                out.write_str("a support or a load lies off the steel")
            }
            Refusal::Frame(_) => out.write_str("a place on the card does not lie on the steel"),
            Refusal::SupportOffSteel { row } => write!(
                out,
                "support {} does not lie under the steel as it ended up",
                self.support_name(row)
            ),
            Refusal::SupportsMeet { first, second } => write!(
                out,
                "supports {} and {} stand at one place",
                self.support_name(first),
                self.support_name(second)
            ),
            Refusal::LoadEmpty { row } => {
                write!(out, "load {} ends where it starts, or before", load(row))
            }
        }
    }
}
