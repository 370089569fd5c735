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
pub struct Apart {
    /// Dead load and self-weight.
    pub(super) dead: Solved,
    /// Live load by segment.
    pub(super) live: [Solved; SEGMENTS],
    /// All that stands on the beam, without sign.
    pub(super) total: f64,
}

impl Apart {
    /// Nothing solved. A constant: 1.6 KiB of zeros, filled in where they stay.
    pub const UNSOLVED: Apart = Apart {
        dead: Solved::NOTHING,
        live: [Solved::NOTHING; SEGMENTS],
        total: 0.0,
    };

    /// Solves a model part by part.
    #[inline(never)]
    pub(super) fn solve(&mut self, model: &Model) {
        self.dead = solve(model, Case::dead_and(Pattern::default()));
        live_apart(model, &mut self.live);
        self.total = model.total();
    }

    /// The live load of a choice, on top of something.
    pub(super) fn with_live(&self, on: Solved, choice: Pattern) -> Solved {
        let parts = self.live.iter().enumerate();
        parts
            .filter(|(segment, _)| choice.has(*segment))
            .fold(on, |sum, (_, part)| sum.plus(part))
    }

    /// What a walk along the beam meets with live load on a choice.
    #[inline(never)]
    fn walked(&self, model: &Model, choice: Pattern) -> Met {
        let solved = self.with_live(self.dead, choice);
        walk(model, &solved, Case::dead_and(choice), self.total)
    }

    /// The same under the live load alone.
    #[inline(never)]
    fn walked_live(&self, model: &Model, choice: Pattern) -> Met {
        let alone = self.with_live(Solved::default(), choice);
        walk(model, &alone, Case::live(choice), self.total)
    }
}

/// All results of a model. Each goes where it stays as soon as it is known: side by
/// side on the stack they would be there twice.
pub(super) fn statics(model: &Model, apart: &mut Apart) -> Statics {
    let mut statics = Statics::of_weight(model.weight);
    apart.solve(model);
    statics.reactions = reactions::reactions(model, apart);
    statics.lifts = lift::lifts(model, &statics.reactions);
    statics.settlement = Settlement::of(model);
    statics.bend(model, apart);
    statics
}

impl Statics {
    /// Moments, shears and sags.
    #[inline(never)]
    fn bend(&mut self, model: &Model, apart: &Apart) {
        let bent = Bent::of(model, apart);
        self.moments = bent.moments;
        self.shears = bent.shears;
        self.sags = sags(model, &bent.sagged, apart.total);
    }
}

/// What walks along the whole beam came to.
#[derive(Default)]
struct Bent {
    moments: Loadings<Extremes<Moment>>,
    shears: Loadings<Extremes<Force>>,
    sagged: [Sagged; SEGMENTS],
}

impl Bent {
    /// Walks under every choice, one after the other; of each only the extremes are
    /// kept, and what it took of the stack is given back.
    #[inline(never)]
    fn of(model: &Model, apart: &Apart) -> Bent {
        let mut bent = Bent::default();
        let mut worst = bent.walk_dead(model, apart);
        bent.walk_all(model, apart);
        for choice in model.live.choices() {
            bent.walk_total(model, apart, choice, &mut worst);
            bent.walk_live(model, apart, choice);
        }
        let [moment, shear] = worst;
        bent.moments.worst = moment.extremes(Moment::from_pound_inches);
        bent.shears.worst = shear.extremes(Force::from_pounds);
        bent
    }

    /// Dead load and self-weight; moment and shear, than which others may be worse.
    #[inline(never)]
    fn walk_dead(&mut self, model: &Model, apart: &Apart) -> [Track; 2] {
        let dead = apart.walked(model, Pattern::default());
        self.moments.dead = dead.moments();
        self.shears.dead = dead.shears();
        self.keep(&dead, |kept, met| kept.dead = met.most);
        [dead.moment, dead.shear]
    }

    /// Live load everywhere.
    #[inline(never)]
    fn walk_all(&mut self, model: &Model, apart: &Apart) {
        let all = apart.walked(model, EVERYWHERE);
        self.moments.all = all.moments();
        self.shears.all = all.shears();
        self.keep(&all, |kept, met| kept.all = met.most);
    }

    /// Live load on a choice.
    #[inline(never)]
    fn walk_total(
        &mut self,
        model: &Model,
        apart: &Apart,
        choice: Pattern,
        [moment, shear]: &mut [Track; 2],
    ) {
        let total = apart.walked(model, choice);
        moment.join(&total.moment);
        shear.join(&total.shear);
        self.keep(&total, |kept, met| {
            kept.total = float::max(kept.total, met.most);
        });
    }

    /// Live load on a choice, and nothing else.
    #[inline(never)]
    fn walk_live(&mut self, model: &Model, apart: &Apart, choice: Pattern) {
        let alone = apart.walked_live(model, choice);
        self.keep(&alone, |kept, met| {
            kept.live = float::max(kept.live, met.most);
            kept.live_up = float::max(kept.live_up, -met.least);
        });
    }

    /// Takes something of the sag of each segment.
    fn keep(&mut self, met: &Met, take: impl Fn(&mut Sagged, &Track)) {
        for (kept, met) in self.sagged.iter_mut().zip(&met.sags) {
            take(kept, met);
        }
    }
}

/// Sags of all segments that have a length, once EI is known.
#[inline(never)]
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
