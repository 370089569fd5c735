//! Loads of a plan: statics and checks, worked out when they are asked for.
//!
//! In: a job and its plan. Out: reactions and the like, all checks, the way in.
//! Rule: a plan keeps only how many supports lift and how many checks are over
//! their limit: figures and checks would be some 5 KiB of a machine that has 64,
//! and whoever shows them has a place for them. A check that lacks a row is
//! listed as not made; only what the statics themselves lack is missing. What holds
//! a model is not inlined: 3 KiB of the caller's stack.

use super::{Missing, Plan, Scratch};
use crate::check::{Checks, Tally};
use crate::checks::beam::{Beam, Carried};
use crate::checks::share::Hung;
use crate::job::Job;
use crate::packing::Stack;
use crate::shapes::Section;
use crate::statics::{self, Model, Refusal, SegmentList, Statics};

/// What loads and checks came to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Standing {
    /// Supports that lift.
    pub lifts: u8,
    /// Checks that are over their limit.
    pub over: u8,
    /// A place on the card makes no sense for the statics; [`Plan::statics`]
    /// says which.
    pub refused: bool,
}

/// Room for solving the loads of a plan.
pub(super) struct Loads {
    model: Model,
    hung: Hung,
}

impl Loads {
    /// Nothing.
    pub(super) const fn new() -> Loads {
        Loads {
            model: Model::new(),
            hung: Hung::new(),
        }
    }
}

impl Standing {
    /// Nothing lifts, nothing is over its limit, nothing was refused.
    pub const fn holds(&self) -> bool {
        self.lifts == 0 && self.over == 0 && !self.refused
    }
}

impl Plan {
    /// Reactions, moments, deflections of the loads on the card, worked out
    /// anew; `None` where none are asked for.
    ///
    /// # Errors
    /// As [`statics::solve`].
    #[inline(never)]
    pub fn statics(&self, job: &Job) -> Option<Result<Statics, Refusal>> {
        let mut model = Model::new();
        let solved = self.model(job, &mut model)?;
        Some(solved.map(|()| model.statics()))
    }

    /// Moments and shears of each span and overhang, worked out anew; none
    /// where there are no statics.
    #[inline(never)]
    pub fn segments(&self, job: &Job) -> SegmentList {
        let mut model = Model::new();
        match self.model(job, &mut model) {
            Some(Ok(())) => model.segments(),
            _ => SegmentList::new(),
        }
    }

    /// All checks of the plan, in the order that a foreman asks; what was in
    /// `out` is forgotten. `false` where the card asks for none, or where what
    /// they need is missing.
    #[inline(never)]
    pub fn checks(&self, job: &Job, out: &mut Checks) -> bool {
        out.clear();
        let Some(beam) = self.beam(job) else {
            return false;
        };
        let mut model = Model::new();
        let solved = matches!(self.model(job, &mut model), Some(Ok(())));
        let known = solved || asks_without_loads(job);
        if solved {
            let statics = model.statics();
            let hung = &mut Hung::new();
            beam.add_checks(Some(&self.carried(job, &model, hung, &statics)), out);
        } else if known {
            beam.add_checks(None, out);
        }
        out.sort();
        known
    }

    /// The beam as its checks see it, and its way in; `None` where nothing can
    /// be said without steel or walls.
    pub fn beam<'a>(&'a self, job: &'a Job) -> Option<Beam<'a>> {
        let frame = self.frame?;
        Some(Beam {
            job,
            frame,
            section: Section::of(job)?,
            joists: &self.joists,
            placement: self.placement().filter(|placement| placement.feasible),
            stacks: &self.packing,
            heights: self.heights,
            pieces: frame.packing(job).unwrap_or_default(),
        })
    }

    /// Fills in the beam of the statics; `None` where none are asked for.
    fn model(&self, job: &Job, model: &mut Model) -> Option<Result<(), Refusal>> {
        let thickness = self
            .packing
            .each_ref()
            .map(|stack| stack.as_ref().and_then(Stack::thickness));
        (!job.loads.is_empty()).then(|| model.fill(job, thickness))
    }

    /// Solved loads, with what hangs where.
    fn carried<'a>(
        &self,
        job: &Job,
        model: &'a Model,
        hung: &'a mut Hung,
        statics: &'a Statics,
    ) -> Carried<'a> {
        hung.clear();
        if let Some(frame) = self.frame {
            // A load without a place was refused by the statics before.
            let _ = hung.fill(job, &frame);
        }
        Carried {
            model,
            statics,
            hung,
        }
    }

    /// Works out loads and checks once, for what is missing, for cautions, and
    /// for what [`Plan::answered`] says. Kept out of the caller's frame: the
    /// planner's own calls are deep.
    #[inline(never)]
    pub(super) fn carry(&mut self, job: &Job, scratch: &mut Scratch) {
        let Some(loads) = scratch.loads() else {
            return;
        };
        let mut tally = Tally::default();
        match self.model(job, &mut loads.model) {
            Some(Ok(())) => self.carry_loads(job, loads, &mut tally),
            refused => {
                if let Some(Err(refusal)) = refused {
                    self.refuse(refusal);
                }
                if asks_without_loads(job) {
                    self.carry_nothing(job, &mut tally);
                }
            }
        }
        self.standing.over = tally.over;
    }

    fn refuse(&mut self, refusal: Refusal) {
        match refusal {
            Refusal::Missing(lacking) => {
                lacking
                    .kinds()
                    .for_each(|kind| self.lack(Missing::Row(kind)));
            }
            _ => self.standing.refused = true,
        }
    }

    fn carry_loads(&mut self, job: &Job, loads: &mut Loads, tally: &mut Tally) {
        let Loads { model, hung } = loads;
        let statics = model.statics();
        // At most SUPPORTS.
        self.standing.lifts = statics.lifts.len() as u8;
        if statics.lacks_ix() {
            self.lack(Missing::Row("shape"));
        }
        let mut cautions = core::mem::take(&mut self.cautions);
        statics::cautions(job, model, &statics, &mut cautions);
        if let Some(beam) = self.beam(job) {
            let carried = self.carried(job, model, hung, &statics);
            beam.add_checks(Some(&carried), tally);
            beam.cautions(Some(&carried), &mut cautions);
        }
        self.cautions = cautions;
    }

    fn carry_nothing(&mut self, job: &Job, tally: &mut Tally) {
        let mut cautions = core::mem::take(&mut self.cautions);
        if let Some(beam) = self.beam(job) {
            beam.add_checks(None, tally);
            beam.cautions(None, &mut cautions);
        }
        self.cautions = cautions;
    }
}

/// Whether the card asks for checks that need no loads: a pocket asks whether
/// the steel goes in, a nail whether it reaches.
fn asks_without_loads(job: &Job) -> bool {
    job.pockets.iter().any(Option::is_some) || !job.nails.is_empty()
}
