//! Generator: invented jobs from a seed, easy to impossible.
//!
//! In: a seed. Out: a job with all that a placement needs and the joists that
//! its readings stand for. Rule: 4 to 40 ft of steel, everything that the note
//! and the house can say mixed by dice; every job is one that a card can hold.
//! All lengths and spans are drawn at random.

mod holes;
mod house;
mod joists;
mod needle;
mod note;

use crate::judges::dice::Dice;
pub(crate) use house::any_hook;

use crate::judges::facts::Facts;
use boltbay_core::Length;
use boltbay_core::job::{Beam, BeamLength, Job};
use boltbay_core::joists::Joists;
use boltbay_core::words::Units;

/// A generated job.
#[derive(Clone, Debug)]
pub struct Generated {
    /// What it came from.
    pub seed: u64,
    /// As a card would say it.
    pub job: Job,
    /// What its readings stand for.
    pub joists: Joists,
}

impl Generated {
    /// The job as plain numbers.
    pub fn facts(&self) -> Facts {
        Facts::new(&self.job, &self.joists)
    }
}

/// What a generated job may be like.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    /// 4 to 40 ft; the longer the coarser, mostly.
    Any,
    /// 4 to 12 ft on a coarse lattice, holes as they come.
    Small,
    /// 24 to 40 ft on the finest lattice: for the long run.
    #[cfg_attr(not(feature = "soak"), allow(dead_code))]
    Long,
    /// 24 to 40 ft on a coarse lattice.
    LongCoarse,
}

/// A count of `units` parts of an inch, or of half millimetres: the grid that
/// lengths of a job are keyed on.
pub(crate) struct Grid {
    metric: bool,
}

impl Grid {
    /// Keyed lengths of these units.
    pub(crate) fn of(units: Units) -> Grid {
        Grid {
            metric: units == Units::Metric,
        }
    }

    /// `sixteenths` of an inch, or the nearest whole millimetres to that.
    pub(crate) fn sixteenths(&self, sixteenths: i64) -> Length {
        let counts = sixteenths * 63_500;
        let counts = if self.metric {
            (counts + 20_000).div_euclid(40_000) * 40_000
        } else {
            counts
        };
        Length::from_counts(counts as i32)
    }
}

/// Draws the length of the steel.
fn steel(dice: &mut Dice, size: Size, grid: &Grid) -> Length {
    let sixteenths = match size {
        Size::Small => dice.between(48 * 16, 144 * 16),
        Size::Long | Size::LongCoarse => dice.between(288 * 16, 480 * 16),
        Size::Any if dice.chance(1, 4) => dice.between(48 * 16, 480 * 16),
        Size::Any => dice.between(48 * 16, 220 * 16),
    };
    grid.sixteenths(sixteenths)
}

/// A job from a seed.
pub fn generate(seed: u64, size: Size) -> Generated {
    let mut dice = Dice::new(seed);
    let units = if dice.chance(1, 4) {
        Units::Metric
    } else {
        Units::Imperial
    };
    let grid = Grid::of(units);
    let mut job = Job::new(units);
    let length = steel(&mut dice, size, &grid);
    job.beam = Some(Beam {
        designation: "CUSTOM".try_into().expect("short"),
        length,
        measured: BeamLength::Measured,
    });
    let mut generated = Generated {
        seed,
        job,
        joists: Joists::new(),
    };
    house::walls(&mut dice, &grid, &mut generated.job);
    note::rules(&mut dice, &grid, &mut generated.job, size);
    house::packing(&mut dice, &grid, &mut generated.job);
    joists::floors(&mut dice, &grid, &mut generated.job);
    if dice.chance(1, 12) {
        needle::needles(&mut dice, &mut generated.job);
    } else {
        joists::joists(&mut dice, &grid, &mut generated);
        house::things(&mut dice, &grid, &mut generated.job);
    }
    note::nears(&mut dice, &grid, &mut generated.job);
    holes::holes(&mut dice, &mut generated);
    generated
}
