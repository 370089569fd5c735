//! Cautions of the statics.
//!
//! In: a job, its model and results. Out: supports that lift or nearly do, long
//! overhangs, what loads and weights were taken for. Rule: forces in cautions
//! are whole pounds rounded down, so that a lift is never shown smaller than it
//! is, and lifts stand before all other cautions. Practice: which overhang is long; no source.

use super::model::Model;
use super::{Lift, Statics, loads};
use crate::caution::{Caution, Cautions, add, add_first};
use crate::float;
use crate::force::Force;
use crate::frame::Frame;
use crate::job::Job;
use crate::job::loads::LoadSide;
use crate::words::End;

/// What the crew must look at: supports that lift or nearly do, long overhangs,
/// what loads and weight were taken for.
pub fn cautions(job: &Job, model: &Model, statics: &Statics, cautions: &mut Cautions) {
    for lift in statics.lifts.iter().rev() {
        if let Some(caution) = lift.caution(statics) {
            add_first(cautions, caution);
        }
    }
    for reaction in &statics.reactions {
        let row = reaction.row;
        if reaction.near_lift() {
            let least = pounds(reaction.reduced);
            let greatest = pounds(reaction.max);
            add(
                cautions,
                Caution::NearLift {
                    row,
                    least,
                    greatest,
                },
            );
        }
    }
    long_overhangs(model, cautions);
    taken_for(job, model, cautions);
}

impl Lift {
    /// As a caution.
    fn caution(&self, statics: &Statics) -> Option<Caution> {
        let reaction = statics.reactions.get(usize::from(self.support))?;
        Some(Caution::Lift {
            row: reaction.row,
            least: pounds(reaction.min),
            with: reaction.min_with,
            reason: self.reason,
            first: *self.order.first()?,
            last: *self.order.last()?,
        })
    }
}

/// An overhang longer than the span beside it. Practice: no source.
fn long_overhangs(model: &Model, cautions: &mut Cautions) {
    let last = model.supports();
    for (end, overhang, span) in [(End::A, 0, 1), (End::B, last, last.saturating_sub(1))] {
        let size = |segment| {
            let (from, to) = model.stations(segment);
            to.saturating_sub(from)
        };
        if size(overhang) > size(span) {
            add(
                cautions,
                Caution::OverhangLong {
                    end,
                    overhang: size(overhang),
                    span: size(span),
                },
            );
        }
    }
}

/// Whole pounds, rounded down: a lift is never shown smaller than it is.
fn pounds(force: Force) -> i32 {
    // A cast holds at the ends of the range.
    float::floor(force.as_pounds()) as i32
}

/// What the loads and the weight were taken for.
fn taken_for(job: &Job, model: &Model, cautions: &mut Cautions) {
    let hung = job.loads.iter();
    if hung.clone().any(|load| load.side == LoadSide::Halves) {
        add(cautions, Caution::LoadHalved);
    }
    if let Ok(frame) = Frame::of(job) {
        for (row, load) in (0_u8..).zip(hung) {
            if loads::passes_end(&frame, load) {
                add(cautions, Caution::LoadPastSteel { row });
            }
        }
    }
    if model.weight.packing.is_none() {
        add(cautions, Caution::PackingNotWeighed);
    } else if job.wood.is_none() {
        add(cautions, Caution::SpeciesAssumed);
    }
}
