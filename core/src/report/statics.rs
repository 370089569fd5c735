//! What the loads do: reactions, settlement, lift, moments, deflections.
//!
//! In: job, plan, statics. Out: text. A reaction is positive where the support
//! pushes up; greatest is rounded up, least down.

use super::cell::wrapped;
use super::{Cell, Report, heading};
use crate::force::Moment;
use crate::length::Rounding;
use crate::plan::Scratch;
use crate::statics::{Loadings, Reaction, SegmentForces, SegmentSag, Statics};
use core::fmt::{self, Write};

impl Report<'_> {
    /// The first lines of every list: what lifts, how many checks are over.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn alarms(&self, statics: Option<&Statics>, out: &mut dyn Write) -> fmt::Result {
        for lift in statics.into_iter().flat_map(|statics| &statics.lifts) {
            out.write_str("!!! ")?;
            self.lift_line(lift.support, statics, out)?;
            out.write_str("\n")?;
        }
        match self.plan.standing.over {
            0 => Ok(()),
            1 => out.write_str("!!! 1 check is over its limit: see CHECKS\n"),
            over => writeln!(out, "!!! {over} checks are over their limit: see CHECKS"),
        }
    }

    /// `LIFTS at B: hold it down with 6551 lb`, what a crew must not overlook.
    fn lift_line(
        &self,
        support: u8,
        statics: Option<&Statics>,
        out: &mut dyn Write,
    ) -> fmt::Result {
        let reactions = statics.map_or(&[][..], |statics| &statics.reactions);
        let Some(reaction) = reactions.get(usize::from(support)) else {
            return Ok(());
        };
        write!(
            out,
            "LIFTS at {}: it has to be held down with {}. Engineer before any shore comes away",
            self.support_name(reaction.row),
            self.force(-reaction.min, Rounding::Up)
        )
    }

    /// Reactions, settlement, moments, shears.
    #[inline(never)]
    pub(super) fn loads(
        &self,
        statics: Option<&Statics>,
        scratch: &mut Scratch,
        out: &mut dyn Write,
    ) -> fmt::Result {
        if self.plan.standing.refused
            && let Some(refusal) = self.plan.refusal(self.job, scratch)
        {
            out.write_str("\nLOADS NOT WORKED OUT: ")?;
            self.refusal(refusal, out)?;
            out.write_str("\n")?;
        }
        let Some(statics) = statics else {
            return Ok(());
        };
        heading("REACTIONS", "of the beam on its supports, pushing up", out)?;
        self.reaction_table(statics, out)?;
        self.settlement_table(statics, out)?;
        self.inside(statics, scratch, out)
    }

    fn reaction_table(&self, statics: &Statics, out: &mut dyn Write) -> fmt::Result {
        writeln!(
            out,
            "  {:<12} {:>14} {:>11} {:>11} {:>11} {:>11}",
            "support", "FROM END A", "dead", "all loads", "greatest", "least"
        )?;
        for reaction in &statics.reactions {
            write!(
                out,
                "  {:<12} {:>14} {:>11} {:>11} {:>11} {:>11}",
                self.support_name(reaction.row),
                self.about(reaction.at),
                self.force(reaction.dead, Rounding::Nearest),
                self.force(reaction.all, Rounding::Nearest),
                self.force(reaction.max, Rounding::Up),
                self.force(reaction.min, Rounding::Down),
            )?;
            writeln!(out, "{}", lift_mark(reaction))?;
        }
        let text = format_args!(
            "greatest and least of every choice of spans and overhangs with live load on; dead load and self-weight always on"
        );
        wrapped("  ", 4, text, out)
    }

    /// What a support that goes down does.
    fn settlement_table(&self, statics: &Statics, out: &mut dyn Write) -> fmt::Result {
        let Some(settlement) = statics.settlement.filter(|_| statics.reactions.len() > 2) else {
            return Ok(());
        };
        let by = settlement.by.shown(self.job.units);
        writeln!(
            out,
            "  If one support goes down by {by}, reactions change by (shimmed up as much: the opposite):"
        )?;
        for (down, reaction) in statics.reactions.iter().enumerate() {
            write!(out, "  {} down:", self.support_name(reaction.row))?;
            for (support, other) in statics.reactions.iter().enumerate() {
                let change = self.force(settlement.reaction(down, support), Rounding::Nearest);
                write!(out, " {} {change},", self.support_name(other.row))?;
            }
            writeln!(
                out,
                " moment {}",
                self.moment(settlement.moment(down), Rounding::Nearest)
            )?;
        }
        Ok(())
    }

    /// Moments, shears and movements by span and overhang, then what the beam
    /// itself weighs.
    #[inline(never)]
    fn inside(&self, statics: &Statics, scratch: &mut Scratch, out: &mut dyn Write) -> fmt::Result {
        heading(
            "MOMENT, SHEAR, SAG",
            "of each span and overhang, all with dead load and self-weight",
            out,
        )?;
        writeln!(
            out,
            "  {:<30} {:>16} {:>16} {:>16}",
            "", "dead alone", "live on all", "worst choice"
        )?;
        if let Some((model, apart)) = self.plan.loaded(self.job, scratch) {
            let mut say = |forces: &SegmentForces| self.segment_lines(forces, statics, out);
            model.each_segment(apart, &mut say)?;
        }
        self.greatest(statics, out)?;
        self.own_weight(statics, out)
    }

    fn segment_lines(
        &self,
        forces: &SegmentForces,
        statics: &Statics,
        out: &mut dyn Write,
    ) -> fmt::Result {
        let mut named = false;
        self.segment_rows(forces, statics, |name, [dead, all, worst]| {
            if !named {
                writeln!(out, "  {}", forces.segment)?;
            }
            named = true;
            writeln!(out, "    {name:<28} {dead:>16} {all:>16} {worst:>16}")
        })
    }

    /// What a span or overhang meets, one call of `say` for each kind that there
    /// is any of; nothing for an overhang over its own bearing.
    ///
    /// # Errors
    /// Those of `say` only.
    pub fn segment_rows(
        &self,
        forces: &SegmentForces,
        statics: &Statics,
        mut say: impl FnMut(&str, [Cell; 3]) -> fmt::Result,
    ) -> fmt::Result {
        if statics.over_bearing(forces.segment, forces.from, forces.to) {
            return Ok(());
        }
        let Loadings { dead, all, worst } = &forces.moments;
        let moment = |size: Moment| self.moment(size, Rounding::Up);
        if worst.most.value > Moment::ZERO {
            let sizes = [dead, all, worst].map(|loading| moment(loading.most.value));
            say("moment, top pressed", sizes)?;
        }
        if worst.least.value < Moment::ZERO {
            let sizes = [dead, all, worst].map(|loading| moment(loading.least.value.abs()));
            say("moment, bottom pressed", sizes)?;
        }
        let Loadings { dead, all, worst } = &forces.shears;
        let sizes = [dead, all, worst].map(|shear| self.force(shear.size(), Rounding::Up));
        say("shear", sizes)?;
        let mut sags = statics.sags.iter();
        match sags.find(|sag| sag.segment == forces.segment) {
            Some(sag) => say(
                "down",
                [sag.dead, sag.all, sag.total].map(|sag| self.sag(sag)),
            ),
            None => Ok(()),
        }
    }

    /// The greatest of the whole beam, and where.
    #[inline(never)]
    fn greatest(&self, statics: &Statics, out: &mut dyn Write) -> fmt::Result {
        let at = |at| self.about(at);
        let (moments, shears) = (&statics.moments.worst, &statics.shears.worst);
        let text = format_args!(
            "Moment: greatest {} at {}, least {} at {}; shear: greatest {} at {}, least {} at {}, FROM END A",
            self.moment(moments.most.value, Rounding::Up),
            at(moments.most.at),
            self.moment(moments.least.value, Rounding::Down),
            at(moments.least.at),
            self.force(shears.most.value, Rounding::Up),
            at(shears.most.at),
            self.force(shears.least.value, Rounding::Down),
            at(shears.least.at)
        );
        wrapped("  ", 4, text, out)
    }

    /// What the beam itself was taken to weigh.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn own_weight(&self, statics: &Statics, out: &mut dyn Write) -> fmt::Result {
        let Some(frame) = self.plan.frame else {
            return Ok(());
        };
        let all = statics.weight.total() * frame.length;
        let steel = statics.weight.steel * frame.length;
        writeln!(
            out,
            "  Self-weight counted: steel {}, packing {}",
            self.force(steel, Rounding::Nearest),
            self.force(all - steel, Rounding::Nearest)
        )
    }

    /// Reactions for a narrow column: one line a support, and what settlement
    /// does.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn reaction_lines(&self, statics: &Statics, out: &mut dyn Write) -> fmt::Result {
        for reaction in &statics.reactions {
            writeln!(
                out,
                "{}, {} FROM END A: dead {}, all loads {}, greatest {}, least {}{}",
                self.support_name(reaction.row),
                self.about(reaction.at),
                self.force(reaction.dead, Rounding::Nearest),
                self.force(reaction.all, Rounding::Nearest),
                self.force(reaction.max, Rounding::Up),
                self.force(reaction.min, Rounding::Down),
                lift_mark(reaction)
            )?;
        }
        self.settlement_table(statics, out)
    }

    /// `DOES ANYTHING LIFT`.
    pub(super) fn lift_answer(&self, statics: &Statics, out: &mut dyn Write) -> fmt::Result {
        heading(
            "DOES ANYTHING LIFT",
            "the engineer draws every hold-down",
            out,
        )?;
        self.lift_sentences(statics, out)
    }

    /// Every support that lifts or nearly does, or the least that any holds.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn lift_sentences(&self, statics: &Statics, out: &mut dyn Write) -> fmt::Result {
        for lift in &statics.lifts {
            self.lift_paragraph(lift, statics, out)?;
        }
        for reaction in statics.reactions.iter().filter(|one| one.near_lift()) {
            let text = format_args!(
                "NEAR LIFT at {}: least {}, with 0.6 of the keyed dead load {}; greatest {}. Ask the engineer.",
                self.support_name(reaction.row),
                self.force(reaction.min, Rounding::Down),
                self.force(reaction.reduced, Rounding::Down),
                self.force(reaction.max, Rounding::Up)
            );
            wrapped("  ", 4, text, out)?;
        }
        let least = |a: &&Reaction, b: &&Reaction| a.min.as_pounds().total_cmp(&b.min.as_pounds());
        match statics.reactions.iter().min_by(least) {
            Some(reaction) if !statics.lifts() => writeln!(
                out,
                "  least that any support holds: {} at {}",
                self.force(reaction.min, Rounding::Down),
                self.support_name(reaction.row)
            ),
            _ => Ok(()),
        }
    }

    /// Force, pattern, reason, order of the shores.
    fn lift_paragraph(
        &self,
        lift: &crate::statics::Lift,
        statics: &Statics,
        out: &mut dyn Write,
    ) -> fmt::Result {
        let Some(reaction) = statics.reactions.get(usize::from(lift.support)) else {
            return Ok(());
        };
        let supports = statics.reactions.len();
        let text = format_args!(
            "LIFTS at {}: {} to hold down, under {}; {}. The engineer draws the hold-down, and it is fitted and cured before any shore comes away.",
            self.support_name(reaction.row),
            self.force(-reaction.min, Rounding::Up),
            reaction.min_with.words(supports),
            lift.reason
        );
        wrapped("  ", 4, text, out)?;
        if reaction.reduced < reaction.min {
            writeln!(
                out,
                "    with 0.6 of the keyed dead load it is {}",
                self.force(-reaction.reduced, Rounding::Up)
            )?;
        }
        out.write_str("    shores come away in this order, the engineer's sequence rules: ")?;
        for (index, segment) in lift.order.iter().enumerate() {
            let comma = if index == 0 { "" } else { ", then " };
            write!(out, "{comma}{segment}")?;
        }
        out.write_str("\n")
    }

    /// Deflections of spans and overhangs, before their limits.
    pub(super) fn sag_lines(&self, statics: &Statics, out: &mut dyn Write) -> fmt::Result {
        for (_, sag) in statics.free_sags() {
            self.sag_line(sag, out)?;
        }
        Ok(())
    }

    fn sag_line(&self, sag: &SegmentSag, out: &mut dyn Write) -> fmt::Result {
        write!(
            out,
            "  {}: down {} under all load, {} under live load",
            sag.segment,
            self.sag(sag.total),
            self.sag(sag.live)
        )?;
        if let Some(ratio) = sag.ratio_live() {
            let ratio = crate::figure::Shown::new(ratio, 0, Rounding::Down);
            write!(out, " (L/{ratio})")?;
        }
        let up = self.sag(sag.live_up);
        writeln!(out, "; up {up}")
    }
}

/// What stands behind a reaction that lifts or nearly does.
fn lift_mark(reaction: &Reaction) -> &'static str {
    match (reaction.lifts(), reaction.near_lift()) {
        (true, _) => "  LIFTS",
        (false, true) => "  NEAR LIFT",
        _ => "",
    }
}
