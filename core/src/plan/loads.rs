//! Loads of a plan: statics and checks, worked out when they are asked for.
//!
//! In: a job and its plan. Out: reactions and the like, all checks, the way in.
//! Rule: a plan keeps only how many supports lift and how many checks are over
//! their limit: figures and checks would be some 5 KiB of a machine that has 64;
//! the scratch has room for them when nobody plans. A check that lacks a row is
//! listed as not made; only what the statics themselves lack is missing.

use super::{Far, Listing, Missing, Plan, Scratch, apart, hung, listing, model};
use crate::check::{Checks, Tally};
use crate::checks::beam::{Beam, Carried};
use crate::checks::share::Hung;
use crate::frame::Frame;
use crate::job::{Job, PatternRows};
use crate::joists::Joists;
use crate::packing::Stack;
use crate::placement::Placement;
use crate::shapes::Section;
use crate::statics::{self, Apart, Model, Refusal, Statics};

/// What loads and checks came to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Standing {
    /// Supports that lift.
    pub lifts: u8,
    /// Checks that are over their limit.
    pub over: u8,
    /// A place on the card makes no sense for the statics; [`Plan::refusal`]
    /// says which.
    pub refused: bool,
}

impl Standing {
    /// Nothing lifts, nothing is over its limit, nothing was refused.
    pub const fn holds(&self) -> bool {
        self.lifts == 0 && self.over == 0 && !self.refused
    }
}

impl Plan {
    /// Reactions, moments, deflections of the loads on the card, worked out
    /// anew; `None` where none are asked for, or where there are none: see
    /// [`Plan::refusal`].
    #[inline(never)]
    pub fn statics(&self, job: &Job, scratch: &mut Scratch) -> Option<Statics> {
        let (model, apart) = self.loaded(job, scratch)?;
        Some(model.statics(apart))
    }

    /// Why there are no statics though loads are on the card, as [`statics::solve`].
    pub fn refusal(&self, job: &Job, scratch: &mut Scratch) -> Option<Refusal> {
        self.solve(job, model(&mut scratch.near)?)?.err()
    }

    /// The beam of the statics with its loads, and room to solve it part by part;
    /// `None` where there are none.
    pub fn loaded<'s>(
        &self,
        job: &Job,
        scratch: &'s mut Scratch,
    ) -> Option<(&'s Model, &'s mut Apart)> {
        let model = model(&mut scratch.near)?;
        self.solve(job, model)?.ok()?;
        Some((model, apart(&mut scratch.far)?))
    }

    /// All checks of the plan, in the order that a foreman asks, listed in the
    /// scratch. `None` where the card asks for none, or where what they need is
    /// missing.
    pub fn checks<'s>(&self, job: &Job, scratch: &'s mut Scratch) -> Option<&'s Checks> {
        let statics = self.statics(job, scratch);
        self.checks_of(job, statics.as_ref(), scratch)
    }

    /// The same for whoever has [`Plan::statics`] already.
    pub fn checks_of<'s>(
        &self,
        job: &Job,
        statics: Option<&Statics>,
        scratch: &'s mut Scratch,
    ) -> Option<&'s Checks> {
        let (model, listing) = (model(&mut scratch.near)?, listing(&mut scratch.far)?);
        let known = self.list_checks(job, statics, model, listing);
        known.then_some(&listing.checks)
    }

    #[inline(never)]
    fn list_checks(
        &self,
        job: &Job,
        statics: Option<&Statics>,
        model: &mut Model,
        listing: &mut Listing,
    ) -> bool {
        let Listing { checks, hung } = listing;
        checks.clear();
        let Some(beam) = self.beam(job) else {
            return false;
        };
        let solved = statics.filter(|_| matches!(self.solve(job, model), Some(Ok(()))));
        let carried = solved.map(|statics| self.carried(job, model, hung, statics));
        let known = carried.is_some() || asks_without_loads(job);
        if known {
            beam.add_checks(carried.as_ref(), checks);
        }
        checks.sort();
        known
    }

    /// The beam as its checks see it, and its way in; `None` where nothing can
    /// be said without steel or walls.
    pub fn beam<'a>(&'a self, job: &'a Job) -> Option<Beam<'a>> {
        let parts = (self.placement(), &self.packing, self.heights);
        beam(job, self.frame, &self.joists, parts)
    }

    /// Fills in the beam of the statics; `None` where none are asked for.
    fn solve(&self, job: &Job, model: &mut Model) -> Option<Result<(), Refusal>> {
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
        let Some(model) = model(&mut scratch.near) else {
            return;
        };
        match self.solve(job, model) {
            Some(Ok(())) => self.carry_loads(job, model, &mut scratch.far),
            refused => {
                if let Some(Err(refusal)) = refused {
                    self.refuse(refusal);
                }
                if asks_without_loads(job) {
                    self.carry_nothing(job);
                }
            }
        }
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

    #[inline(never)]
    fn carry_loads(&mut self, job: &Job, model: &Model, far: &mut Far) {
        let Some(apart) = apart(far) else { return };
        let statics = model.statics(apart);
        // At most SUPPORTS.
        self.standing.lifts = statics.lifts.len() as u8;
        if statics.lacks_ix() {
            self.lack(Missing::Row("shape"));
        }
        statics::cautions(job, model, &statics, &mut self.cautions);
        let Some(hung) = hung(far) else { return };
        let carried = self.carried(job, model, hung, &statics);
        self.carry_beam(job, Some(&carried));
    }

    #[inline(never)]
    fn carry_nothing(&mut self, job: &Job) {
        self.carry_beam(job, None);
    }

    /// Counts the checks and adds the cautions of the beam.
    fn carry_beam(&mut self, job: &Job, carried: Option<&Carried>) {
        let placement = self.placed.then_some(&self.placement);
        let stacks = &self.packing;
        let beam = beam(
            job,
            self.frame,
            &self.joists,
            (placement, stacks, self.heights),
        );
        let Some(beam) = beam else { return };
        let mut tally = Tally::default();
        beam.add_checks(carried, &mut tally);
        beam.cautions(carried, &mut self.cautions);
        self.standing.over = tally.over;
    }
}

/// The holes, the chosen packing and the heights of the rows of a plan.
type Parts<'a> = (
    Option<&'a Placement>,
    &'a [Option<Stack>; 2],
    Option<PatternRows>,
);

/// The beam of a plan, without its cautions: those are added to while it is looked at.
fn beam<'a>(
    job: &'a Job,
    frame: Option<Frame>,
    joists: &'a Joists,
    (placement, stacks, heights): Parts<'a>,
) -> Option<Beam<'a>> {
    let frame = frame?;
    Some(Beam {
        job,
        frame,
        section: Section::of(job)?,
        joists,
        placement: placement.filter(|placement| placement.feasible),
        stacks,
        heights,
        pieces: frame.packing(job).unwrap_or_default(),
    })
}

/// Whether the card asks for checks that need no loads: a pocket asks whether
/// the steel goes in, a nail whether it reaches.
fn asks_without_loads(job: &Job) -> bool {
    job.pockets.iter().any(Option::is_some) || !job.nails.is_empty()
}
