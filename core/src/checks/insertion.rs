//! Insertion: will the steel go into its pockets, which end first, how far it
//! slides back, and what its nuts and packing would meet on the way.
//!
//! In: length, clear distance, pockets, bearings as placed; marks, joists, what
//! stands solid. Out: checks of the pockets, the slide, what a rod meets. Rule:
//! the steel goes level into the deeper pocket until its other end is past the
//! other wall face by 1/2 in (12 mm), then slides back by that end's bearing and
//! the same again. Hangers are not on yet, joist ends are. Touching is no meeting.
//! Practice: the 1/2 in, no source; all else is geometry.
//!
//! ```text
//!  pocket A |<------------ clear ----------->| pocket B
//!  [=====================================]  past face B by 1/2 in
//!       [=====================================]  home: slid toward B
//! ```

use crate::check::{Check, Checklist, Kind, Lack, Needs, Place};
use crate::job::Pocket;
use crate::joists::Joist;
use crate::length::Length;
use crate::shapes::Section;
use crate::words::{End, Side, Sides, Units};

/// How the beam gets into two wall pockets.
#[derive(Clone, Copy, Debug)]
pub struct Entry {
    /// Of the steel.
    pub length: Length,
    /// Between the wall faces, measured; `None` = not.
    pub clear: Option<Length>,
    /// Pockets at A and B as keyed.
    pub pockets: [Option<Pocket>; 2],
    /// Bearing at A and B as the beam will lie.
    pub bearings: [Length; 2],
    /// They pick the room to move.
    pub units: Units,
}

/// The way home from the deeper pocket.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Slide {
    /// The end that goes in first.
    pub first: End,
    /// How far it slides back, toward the other end.
    pub by: Length,
}

impl Entry {
    /// Room to move past the wall face: 1/2 in, 12 mm. Practice: no source.
    pub const fn room(&self) -> Length {
        match self.units {
            Units::Imperial => Length::from_sixteenths(8),
            Units::Metric => Length::from_millimetres(12),
        }
    }

    /// Depth that one pocket must have: length - clear + room. `None` while the
    /// clear distance is not measured.
    pub fn needed(&self) -> Option<Length> {
        let over = self.length.saturating_sub(self.clear?);
        Some(over.saturating_add(self.room()))
    }

    /// The deeper of the pockets that are keyed; of equals A.
    fn deeper(&self) -> Option<(End, Length)> {
        let [a, b] = self.pockets.map(|pocket| pocket.map(|p| p.depth));
        match (a, b) {
            (Some(a), Some(b)) if b > a => Some((End::B, b)),
            (Some(a), _) => Some((End::A, a)),
            (None, Some(b)) => Some((End::B, b)),
            (None, None) => None,
        }
    }

    /// Whether the deeper pocket takes the steel level.
    ///
    /// # Errors
    /// `clear`, or `pocket` where the pockets that are keyed do not do and one
    /// is not keyed.
    pub fn room_to_enter(&self) -> Result<Check, Lack> {
        let needed = self.needed().ok_or(Lack::Row("clear"))?;
        let (end, depth) = self.deeper().ok_or(Lack::Row("pocket"))?;
        let figures = (needed.as_inches(), depth.as_inches());
        let check = Check::new(Kind::RoomToEnter, Place::End(end), figures.0, figures.1);
        if needed <= depth {
            return Ok(check);
        }
        if self.pockets.iter().any(Option::is_none) {
            return Err(Lack::Row("pocket"));
        }
        Ok(check.with(Needs::Deeper(needed.saturating_sub(depth))))
    }

    /// Which end goes in first, and how far the steel slides back; `None` where
    /// it does not go in, or nobody knows.
    pub fn slide(&self) -> Option<Slide> {
        let check = self.room_to_enter().ok()?;
        let (first, _) = self.deeper()?;
        let [a, b] = self.bearings;
        let bearing = match first {
            End::A => b,
            End::B => a,
        };
        (check.ok() == Some(true)).then(|| Slide {
            first,
            by: bearing.max(Length::ZERO).saturating_add(self.room()),
        })
    }

    /// All checks of the pockets.
    pub fn add_checks(&self, section: &Section, checks: &mut dyn Checklist) {
        let place = match self.deeper() {
            Some((end, _)) => Place::End(end),
            None => Place::Beam,
        };
        checks.add_or_lack(Kind::RoomToEnter, place, self.room_to_enter());
        let ends = End::BOTH.into_iter();
        for (end, (pocket, bearing)) in ends.zip(self.pockets.into_iter().zip(self.bearings)) {
            pocket_checks(end, pocket, bearing, section, checks);
        }
    }
}

/// Depth, height and width of one pocket against the steel in it.
pub fn pocket_checks(
    end: End,
    pocket: Option<Pocket>,
    bearing: Length,
    section: &Section,
    checks: &mut dyn Checklist,
) {
    let fits = |kind, needed: Length, found: Option<Length>, field| {
        let found = found.ok_or(lack(pocket, field))?;
        let figures = (needed.as_inches(), found.as_inches());
        Ok(Check::new(kind, Place::End(end), figures.0, figures.1))
    };
    let (depth, height, width) = match pocket {
        Some(pocket) => (Some(pocket.depth), pocket.height, pocket.width),
        None => (None, None, None),
    };
    for (kind, needed, found, field) in [
        (Kind::PocketDepth, bearing, depth, "row pocket has no DEPTH"),
        (
            Kind::PocketHeight,
            section.depth(),
            height,
            "row pocket has no HEIGHT",
        ),
        (
            Kind::PocketWidth,
            section.width(),
            width,
            "row pocket has no WIDTH",
        ),
    ] {
        checks.add_or_lack(kind, Place::End(end), fits(kind, needed, found, field));
    }
}

/// What lacks where a size of a pocket is not known.
fn lack(pocket: Option<Pocket>, field: &'static str) -> Lack {
    pocket.map_or(Lack::Row("pocket"), |_| Lack::Field(field))
}

/// A thing that stands solid beside the beam and stays with the house.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Solid {
    /// Where it stands.
    pub sides: Sides,
    /// Its end toward A.
    pub from: Length,
    /// Its end toward B.
    pub to: Length,
    /// Index into [`crate::Job::keepouts`].
    pub keepout: u8,
}

/// What stays in the way of the slide. Places are on the steel as it ends up.
#[derive(Clone, Copy, Debug)]
pub struct InTheWay<'a> {
    /// Joists of both sides.
    pub joists: &'a [Joist],
    /// Solid things.
    pub solids: &'a [Solid],
    /// Wall faces at A and B.
    pub faces: [Option<Length>; 2],
}

/// What a rod's nuts, or an end of the packing, meet on the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Meets {
    /// The cut end of a joist: index into the plan's joists.
    Joist(u8),
    /// A solid thing: index into [`crate::Job::keepouts`].
    Solid(u8),
    /// The face of the wall at this end.
    Wall(End),
}

impl Slide {
    /// What a stretch of the steel that ends up at `from` to `to` passes on its
    /// way home.
    pub fn swept(&self, from: Length, to: Length) -> [Length; 2] {
        match self.first {
            // Into pocket A, back toward B: it comes from nearer to A.
            End::A => [from.saturating_sub(self.by), to],
            End::B => [from, to.saturating_add(self.by)],
        }
    }

    /// What the nuts of the rod at `at` meet. `reach` is R by side, `None` on a
    /// side that is not packed there: that nut stays inside the flange.
    pub fn rod_meets(
        &self,
        at: Length,
        reach: [Option<Length>; 2],
        way: &InTheWay,
    ) -> Option<Meets> {
        let sides = Side::BOTH.into_iter().zip(reach);
        sides
            .filter_map(|(side, reach)| {
                let reach = reach?;
                let from = at.saturating_sub(reach);
                Some((side, self.swept(from, at.saturating_add(reach))))
            })
            .find_map(|(side, swept)| way.meets(side, swept))
    }

    /// The end of a packing piece that goes past a wall face on the way, and how
    /// far: it needs a pocket as wide as the packed beam, or goes on later.
    pub fn packing_meets(&self, from: Length, to: Length, way: &InTheWay) -> Option<(End, Length)> {
        let [start, end] = self.swept(from, to);
        let [face_a, face_b] = way.faces;
        let past = match self.first {
            End::A => face_a.map(|face| face.saturating_sub(start)),
            End::B => face_b.map(|face| end.saturating_sub(face)),
        };
        let past = past.filter(|past| *past > Length::ZERO)?;
        Some((self.first, past))
    }
}

impl InTheWay<'_> {
    /// The first joist, solid thing or wall face that a swept stretch overlaps.
    fn meets(&self, side: Side, [from, to]: [Length; 2]) -> Option<Meets> {
        let overlaps = |a: Length, b: Length| from < b && a < to;
        let joists = (0_u8..).zip(self.joists);
        let joist = joists
            .filter(|(_, joist)| joist.side == side && overlaps(joist.from, joist.to))
            .map(|(index, _)| Meets::Joist(index))
            .next();
        let solid = || {
            let mut solids = self.solids.iter();
            let hit =
                solids.find(|solid| solid.sides.holds(side) && overlaps(solid.from, solid.to))?;
            Some(Meets::Solid(hit.keepout))
        };
        let wall = || match self.faces {
            [Some(face), _] if from < face => Some(Meets::Wall(End::A)),
            [_, Some(face)] if to > face => Some(Meets::Wall(End::B)),
            _ => None,
        };
        joist.or_else(solid).or_else(wall)
    }
}

/// Packing that goes into a pocket on the way: the width of the packed beam
/// against the pocket's.
///
/// # Errors
/// `pocket` where the pocket's width is not keyed.
pub fn packing_in_pocket(end: End, packed: Length, pocket: Option<Pocket>) -> Result<Check, Lack> {
    let width = pocket.and_then(|pocket| pocket.width);
    let width = width.ok_or(lack(pocket, "row pocket has no WIDTH"))?;
    let figures = (packed.as_inches(), width.as_inches());
    let place = Place::End(end);
    Ok(Check::new(
        Kind::PackingInPocket,
        place,
        figures.0,
        figures.1,
    ))
}
