//! Settlement: what letting one support down does to all of them.
//!
//! In: a model with EI. Out: change of every reaction and of the moments over
//! supports when one support goes down by 1/8 in (3 mm). Rule: three-moment
//! equation with the supports' movement instead of a load; linear, so shimming
//! up by as much does the opposite. Beams on two supports feel nothing.
//! Practice: 1/8 in or 3 mm, what a crew shims; no source.

use super::model::Model;
use super::moments::{Row, three_moments};
use crate::force::{Force, Moment};
use crate::job::SUPPORTS;
use crate::length::Length;
use crate::list::Listed;
use crate::words::Units;
use heapless::Vec;

/// Effects of letting each support down, by support from end A.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Settlement {
    /// By how much.
    pub by: Length,
    effects: [Effect; SUPPORTS],
}

/// What letting one support down does.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
struct Effect {
    /// By support from end A.
    reactions: [Force; SUPPORTS],
    /// The change of moment over a support that is greatest in size.
    moment: Moment,
}

/// How far: 1/8 in, 3 mm.
pub const fn settled_by(units: Units) -> Length {
    match units {
        Units::Imperial => Length::from_sixteenths(2),
        Units::Metric => Length::from_millimetres(3),
    }
}

impl Settlement {
    /// The effects on a beam; `None` where EI is not known.
    #[inline(never)]
    pub(super) fn of(model: &Model) -> Option<Settlement> {
        let stiffness = model.stiffness?;
        let mut effects = [Effect::default(); SUPPORTS];
        for (down, effect) in effects.iter_mut().enumerate().take(model.supports()) {
            *effect = settle(model, stiffness, down);
        }
        Some(Settlement {
            by: model.settled_by,
            effects,
        })
    }

    /// Change of the reaction at `support` when `down` goes down; both from
    /// end A, from 0.
    pub fn reaction(&self, down: usize, support: usize) -> Force {
        let effect = self.effects.get(down).copied().unwrap_or_default();
        effect.reactions.get(support).copied().unwrap_or_default()
    }

    /// The change of moment over a support, greatest in size, when `down` goes
    /// down.
    pub fn moment(&self, down: usize) -> Moment {
        let effect = self.effects.get(down).copied().unwrap_or_default();
        effect.moment
    }
}

/// The effect of letting one support down.
fn settle(model: &Model, stiffness: f64, down: usize) -> Effect {
    let spans: Vec<f64, SUPPORTS, u8> = (1..model.supports())
        .map(|span| {
            let (from, to) = model.bounds(span);
            to - from
        })
        .listed();
    let sunk = |support: usize| {
        if support == down {
            model.settled_by.as_inches()
        } else {
            0.0
        }
    };
    let pairs = spans.iter().zip(spans.iter().skip(1)).enumerate();
    let rows = pairs.map(|(before, (left, right))| {
        let here = sunk(before + 1);
        let bent = (here - sunk(before)) / left + (here - sunk(before + 2)) / right;
        Row {
            left: *left,
            right: *right,
            sum: 6.0 * stiffness * bent,
        }
    });
    effect(&spans, &three_moments(rows, 0.0, 0.0))
}

/// Reactions that go with moments over the supports of an unloaded beam.
fn effect(spans: &[f64], moments: &[f64]) -> Effect {
    let mut effect = Effect::default();
    let mut add = |support: usize, pounds: f64| {
        if let Some(reaction) = effect.reactions.get_mut(support) {
            *reaction = *reaction + Force::from_pounds(pounds);
        }
    };
    let ends = moments.iter().zip(moments.iter().skip(1));
    for (support, (length, (m1, m2))) in spans.iter().zip(ends).enumerate() {
        let shear = (m2 - m1) / length;
        add(support, shear);
        add(support + 1, -shear);
    }
    for moment in moments {
        let moment = Moment::from_pound_inches(*moment);
        if moment.abs() > effect.moment.abs() {
            effect.moment = moment;
        }
    }
    effect
}
