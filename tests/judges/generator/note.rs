//! Note: the engineer's rules and the hardware of an invented job.
//!
//! In: dice and a job with a beam. Out: bolt, washers, gap, lattice, play,
//! pattern, spacing, ends, `near` rules. Rule: never a note that a card must
//! refuse (least above greatest, pairs in one row).

use super::house::{any_hook, hooked, length};
use super::{Dice, Grid, Size};
use boltbay_core::Length;
use boltbay_core::job::{
    Bolt, Ends, Job, Near, Nut, Pattern, PatternRows, Reach, Spacing, SpacingBasis, Washer,
    WasherShape,
};
use boltbay_core::words::Units;

/// The bolt.
fn bolt(dice: &mut Dice, job: &mut Job) -> Length {
    let diameter = match job.units {
        Units::Imperial => Length::from_sixteenths(dice.pick(&[8, 8, 8, 10, 12])),
        Units::Metric => Length::from_millimetres(dice.pick(&[12, 12, 16, 20])),
    };
    job.bolt = Some(Bolt {
        diameter,
        web_hole: None,
        wood_hole: None,
        fyb: None,
    });
    diameter
}

/// Washers by side, and now and then a nut wider than they are.
fn hardware(dice: &mut Dice, grid: &Grid, job: &mut Job, diameter: Length) {
    let wider_than_the_nut = Length::from_counts(2 * diameter.counts());
    for side in [0, 1] {
        if dice.chance(1, 2) {
            continue;
        }
        let shape = dice.pick(&[WasherShape::Round, WasherShape::Square, WasherShape::Turns]);
        let size = dice.pick(&[20, 22, 22, 24, 28, 32, 40]);
        job.washers[side] = Some(Washer {
            size: grid.sixteenths(size).max(wider_than_the_nut),
            shape,
            thickness: None,
        });
    }
    if dice.chance(1, 8) {
        job.nut = Some(Nut {
            thickness: grid.sixteenths(7),
            across_corners: Some(grid.sixteenths(dice.between(16, 40))),
        });
    }
}

/// The lattice: fine on short steel, coarser on long.
fn lattice(dice: &mut Dice, job: &mut Job, size: Size) {
    let long = length(job) > 200 * 1_016_000;
    let step = match (size, long) {
        (Size::Small, _) => dice.pick(&[4, 8, 16]),
        (Size::LongCoarse, _) => 16,
        (Size::Long, _) => 1,
        (Size::Any, true) => dice.pick(&[1, 2, 4, 4, 8, 8, 16]),
        (Size::Any, false) => dice.pick(&[1, 1, 2, 4]),
    };
    job.lattice = match (job.units, step) {
        (_, 1) => None,
        (Units::Imperial, step) => Some(Length::from_sixteenths(step)),
        (Units::Metric, 2) => Some(Length::from_millimetres(2)),
        (Units::Metric, step) => Some(Length::from_millimetres(5 * step / 4)),
    };
}

/// Spacing with the least never above the greatest.
fn spacing(dice: &mut Dice, grid: &Grid, job: &mut Job, diameter: Length) {
    let basis = dice.pick(&[SpacingBasis::Every, SpacingBasis::Every, SpacingBasis::Row]);
    let inches = dice.pick(&[12, 16, 16, 20, 24, 24, 32]);
    let doubled = basis == SpacingBasis::Row && job.pattern == Some(Pattern::Staggered);
    let minimum = dice.pick(&[None, None, Some(2), Some(2), Some(4), Some(6)]);
    let least_allowed = i64::from(diameter.counts());
    job.spacing = Some(Spacing {
        spacing: grid.sixteenths(16 * inches * if doubled { 2 } else { 1 }),
        basis,
        hold_back: dice.pick(&[None, None, Some(Length::ZERO), Some(grid.sixteenths(4))]),
        minimum: minimum
            .map(|inches| grid.sixteenths(16 * inches))
            .filter(|least| i64::from(least.counts()) > 2 * least_allowed),
    });
}

/// Everything the note says but the `near` rules.
pub(crate) fn rules(dice: &mut Dice, grid: &Grid, job: &mut Job, size: Size) {
    let diameter = bolt(dice, job);
    hardware(dice, grid, job, diameter);
    lattice(dice, job, size);
    job.gap = dice
        .pick(&[None, None, Some(0), Some(2), Some(3)])
        .map(|g| grid.sixteenths(g));
    job.play = dice
        .pick(&[None, None, Some(0), Some(16), Some(1), Some(40), Some(200)])
        .map(|p| grid.sixteenths(p));
    job.pattern = dice.pick(&[
        None,
        Some(Pattern::Staggered),
        Some(Pattern::Staggered),
        Some(Pattern::Single),
        Some(Pattern::Paired),
    ]);
    job.rows = Some(PatternRows {
        top: grid.sixteenths(100),
        bot: grid.sixteenths(32),
    });
    spacing(dice, grid, job, diameter);
    let paired_allowed = job.pattern != Some(Pattern::Single);
    let least = dice.between(20, 56);
    job.ends = Some(Ends {
        least: grid.sixteenths(least),
        most: grid.sixteenths(least + dice.pick(&[16, 64, 128, 160, 200, 240])),
        paired: dice.pick(&[None, Some(paired_allowed), Some(false)]),
    });
}

/// `near` rules.
pub(crate) fn nears(dice: &mut Dice, grid: &Grid, job: &mut Job) {
    let paired_allowed = job.pattern != Some(Pattern::Single);
    for _ in 0..dice.pick(&[0, 0, 0, 1, 1, 2, 3]) {
        let ninths = length(job) / 9;
        let at = dice.between(ninths, 8 * ninths);
        let at = i64::from(grid.sixteenths(at / 63_500).counts());
        let hook = any_hook(dice);
        let near = Near {
            at: hooked(job, at, hook),
            within: grid.sixteenths(dice.pick(&[64, 128, 12 * 16, 16 * 16, 24 * 16])),
            reach: dice.pick(&[Reach::One, Reach::Each]),
            paired: paired_allowed && dice.chance(1, 2),
            name: "post".try_into().expect("short"),
        };
        let _ = job.nears.push(near);
    }
}
