//! The worst of all choices of loaded segments.
//!
//! In: a model. Out: all results. Rule: each segment that has live load is on
//! or off, so up to 2^6 choices, each walked whole; reactions need no choice
//! tried: the live load of a segment counts where it adds to what is sought.
//! Total sag is that of dead load, self-weight and the choice; live sag is that
//! of the choice alone.

use super::model::{Case, EVERYWHERE, Model};
use super::moments::{Solved, live_apart, solve};
use super::walk::{Met, Track, walk};
use super::{
    Extremes, Loadings, Pattern, SEGMENTS, SegmentSag, Settlement, Statics, lift, reactions,
};
use crate::float;
use crate::force::{Force, Moment, Sag};
use heapless::Vec;

/// EI times sag below this part of all load times length cubed is dust.
const DUST: f64 = 1e-13;

/// EI times sag of one segment under all loadings, greatest downward.
#[derive(Clone, Copy, Debug, Default)]
struct Sagged {
    dead: f64,
    all: f64,
    total: f64,
    live: f64,
    live_up: f64,
}

/// A beam solved with each part of the load apart.
pub(super) struct Apart {
    /// Dead load and self-weight.
    pub dead: Solved,
    /// Live load by segment.
    pub live: [Solved; SEGMENTS],
    /// All that stands on the beam, without sign.
    pub total: f64,
}

impl Apart {
    /// Solves a model part by part.
    pub fn of(model: &Model) -> Apart {
        Apart {
            dead: solve(model, Case::dead_and(Pattern::default())),
            live: live_apart(model),
            total: model.total(),
        }
    }

    /// The live load of a choice, on top of something.
    pub fn with_live(&self, on: Solved, choice: Pattern) -> Solved {
        let parts = self.live.iter().enumerate();
        parts
            .filter(|(segment, _)| choice.has(*segment))
            .fold(on, |sum, (_, part)| sum.plus(part))
    }
}

/// All results of a model.
pub(super) fn statics(model: &Model) -> Statics {
    let apart = Apart::of(model);
    let walked = |choice: Pattern| {
        let solved = apart.with_live(apart.dead, choice);
        walk(model, &solved, Case::dead_and(choice), apart.total)
    };
    let dead = walked(Pattern::default());
    let all = walked(EVERYWHERE);
    let mut worst = dead;
    let mut sagged = [Sagged::default(); SEGMENTS];
    for choice in model.live.choices() {
        let total = walked(choice);
        worst.moment.join(&total.moment);
        worst.shear.join(&total.shear);
        let alone = apart.with_live(Solved::default(), choice);
        let alone = walk(model, &alone, Case::live(choice), apart.total);
        keep_worst(&mut sagged, &total, &alone);
    }
    keep_plain(&mut sagged, &dead, &all);
    let reactions = reactions::reactions(model, &apart);
    let lifts = lift::lifts(model, &reactions);
    Statics {
        moments: loadings([&dead, &all, &worst].map(|met| &met.moment), |value| {
            Moment::from_pound_inches(value)
        }),
        shears: loadings([&dead, &all, &worst].map(|met| &met.shear), |value| {
            Force::from_pounds(value)
        }),
        sags: sags(model, &sagged, apart.total),
        settlement: Settlement::of(model),
        reactions,
        lifts,
        weight: model.weight,
    }
}

/// Takes a choice where it is worse.
fn keep_worst(sagged: &mut [Sagged], total: &Met, alone: &Met) {
    let met = total.sags.iter().zip(&alone.sags);
    for (kept, (total, alone)) in sagged.iter_mut().zip(met) {
        kept.total = float::max(kept.total, total.most);
        kept.live = float::max(kept.live, alone.most);
        kept.live_up = float::max(kept.live_up, -alone.least);
    }
}

/// Takes the two loadings that are no choice.
fn keep_plain(sagged: &mut [Sagged], dead: &Met, all: &Met) {
    let met = dead.sags.iter().zip(&all.sags);
    for (kept, (dead, all)) in sagged.iter_mut().zip(met) {
        kept.dead = dead.most;
        kept.all = all.most;
    }
}

/// Three walks as results.
fn loadings<T>(tracks: [&Track; 3], unit: impl Fn(f64) -> T) -> Loadings<Extremes<T>> {
    let [dead, all, worst] = tracks.map(|track| track.extremes(&unit));
    Loadings { dead, all, worst }
}

/// Sags of all segments that have a length, once EI is known.
fn sags(model: &Model, sagged: &[Sagged], total: f64) -> Vec<SegmentSag, SEGMENTS, u8> {
    let mut sags = Vec::new();
    let Some(stiffness) = model.stiffness else {
        return sags;
    };
    let length = model.length.as_inches();
    // A segment that only moves the other way shows no dust of the sums.
    let dust = total * length * length * length * DUST;
    let unit = |value: f64| {
        let moved = if value > dust { value } else { 0.0 };
        Sag::from_inches(moved / stiffness)
    };
    for (segment, sagged) in sagged.iter().enumerate() {
        let (from, to) = model.stations(segment);
        if segment > model.supports() || from >= to {
            continue;
        }
        // As many places as segments.
        let _ = sags.push(SegmentSag {
            segment: model.segment(segment),
            from,
            to,
            dead: unit(sagged.dead),
            all: unit(sagged.all),
            total: unit(sagged.total),
            live: unit(sagged.live),
            live_up: unit(sagged.live_up),
        });
    }
    sags
}
