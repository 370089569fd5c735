//! Self-weight: the steel, and the packing where the card has any.
//!
//! In: the section, the packing pieces, how thick the packing is. Out: line
//! loads over the whole steel. Rule: steel by its table weight; packing as wide
//! as it was chosen, else as far as the flange tips were measured, else as the
//! table has them, and as high as the pocket; its whole weight is spread evenly
//! over the steel. A card that says nothing about packing has none, with a
//! caution.

use crate::defaults;
use crate::force::{Force, LineLoad};
use crate::frame::{Frame, Piece};
use crate::job::{Job, Species};
use crate::length::Length;
use crate::packing;
use crate::shapes::Section;
use crate::words::{Side, Sides};

/// Where the thickness of the packing was taken from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum PackingThickness {
    /// The chosen layers.
    Stack,
    /// The measured flange tips.
    Measured,
    /// The table's flange tips.
    Table,
}

/// What the beam itself weighs, over the whole steel.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct OwnWeight {
    /// Steel.
    pub steel: LineLoad,
    /// Packing of both sides; `None`: the card says nothing about packing, and
    /// no weight is counted for it.
    pub packing: Option<(LineLoad, PackingThickness)>,
}

impl OwnWeight {
    /// Steel and packing together.
    pub fn total(&self) -> LineLoad {
        let packing = self.packing.map_or(LineLoad::ZERO, |(load, _)| load);
        self.steel + packing
    }

    /// The weight of a job's beam.
    pub(super) fn of(
        job: &Job,
        frame: &Frame,
        section: &Section,
        thickness: [Option<Length>; 2],
    ) -> OwnWeight {
        OwnWeight {
            steel: LineLoad::from_pounds_per_foot(section.weight()),
            packing: has_packing(job).then(|| packing(job, frame, section, thickness)),
        }
    }
}

/// Density of wood in lb/ft3 at 19 % moisture, the wettest that is sold as dry:
/// 62.4 G / (1 + 0.009 G m) (1 + m / 100).
/// Source: NDS 2018 Table 12.3.3A for the specific gravity G of the species.
/// Memory: NDS Supplement 2018, section 3.1.3, for the equation.
pub fn density(species: Species) -> f64 {
    const MOISTURE: f64 = 19.0;
    let gravity = match species {
        Species::Spf => 0.42,
        Species::DfL => 0.50,
        Species::Hf => 0.43,
        Species::Sp => 0.55,
    };
    62.4 * gravity / (1.0 + 0.009 * gravity * MOISTURE) * (1.0 + MOISTURE / 100.0)
}

/// Whether any row speaks of packing: its own rows, or bolts, which hold it.
pub(super) fn has_packing(job: &Job) -> bool {
    !job.packing.is_empty()
        || !job.layers.is_empty()
        || job.outstands.iter().any(|measured| !measured.is_empty())
        || job.wood.is_some()
        || job.seated.is_some()
        || job.face.is_some()
        || job.bolt.is_some()
}

/// Weight of all packing, spread over the steel.
fn packing(
    job: &Job,
    frame: &Frame,
    section: &Section,
    thickness: [Option<Length>; 2],
) -> (LineLoad, PackingThickness) {
    /// Cubic inches in a cubic foot.
    const CUBIC_FOOT: f64 = 1_728.0;
    let whole = Piece {
        from: Length::ZERO,
        to: frame.length,
        sides: Sides::Both,
        row: None,
    };
    let height = section.clear_height().max(Length::ZERO).as_inches();
    let per_inch = density(defaults::species(job)) * height / CUBIC_FOOT;
    let mut taken = PackingThickness::Stack;
    let mut pounds = 0.0;
    for side in Side::BOTH {
        let chosen = thickness.get(side.index()).copied().flatten();
        let (thick, from) = thick(job, section, side, chosen);
        let pieces = frame.packing(job).unwrap_or_else(|_| {
            // Packing rows that contradict each other are reported elsewhere.
            let mut pieces = crate::frame::Pieces::new();
            let _ = pieces.push(whole);
            pieces
        });
        let packed = pieces.iter().filter(|piece| piece.sides.holds(side));
        let run: f64 = packed
            .map(|piece| piece.to.saturating_sub(piece.from).as_inches())
            .sum();
        if run > 0.0 {
            taken = worse(taken, from);
        }
        pounds += per_inch * thick.max(Length::ZERO).as_inches() * run;
    }
    (Force::from_pounds(pounds).over(frame.length), taken)
}

/// Thickness of the packing on one side, and where it was taken from.
fn thick(
    job: &Job,
    section: &Section,
    side: Side,
    chosen: Option<Length>,
) -> (Length, PackingThickness) {
    if let Some(chosen) = chosen {
        return (chosen, PackingThickness::Stack);
    }
    match packing::greatest_outstand(job, side) {
        Some(measured) => (measured, PackingThickness::Measured),
        None => (section.outstand(), PackingThickness::Table),
    }
}

/// The less certain of two.
fn worse(one: PackingThickness, other: PackingThickness) -> PackingThickness {
    use PackingThickness::{Measured, Stack, Table};
    match (one, other) {
        (Table, _) | (_, Table) => Table,
        (Measured, _) | (_, Measured) => Measured,
        (Stack, Stack) => Stack,
    }
}
