//! The checks in the order that a foreman asks.
//!
//! In: job, plan, checks. Out: text: demand and capacity with their units, then
//! the ratio; OVER where a limit is passed and nothing where it is not, for a
//! list of figures approves nothing; what each is taken from and leaves out;
//! what could not be checked.

use super::cell::wrapped;
use super::{Cell, Report, heading};
use crate::check::{Check, Checks, Kind, Needs, NotMade, Place, Question};
use crate::checks::beam::{Beam, WayIn};
use crate::checks::nail::{USUAL_HANGER_NAIL, USUAL_LAYER_NAIL};
use crate::defaults;
use crate::figure::Shown;
use crate::length::{Length, Rounding};
use crate::packing::Stack;
use crate::plan::Scratch;
use crate::report::place::end_letter;
use crate::statics::Statics;
use crate::words::{Side, Units};
use core::fmt::{self, Write};

/// What stands over every list of checks.
pub const FOREWORD: &str = "cross-checks against the engineer's drawing, which rules";

/// What stands before the checks of bolts: they look at the same bolts twice.
pub const BOLTS_TWICE: &str = "A bolt is held against the hangers nearest to it, each hanger whole, and against the load spread evenly; packing and flange share it out somewhere between. The engineer says which counts.";

impl Report<'_> {
    /// All checks; nothing where the card asks for none.
    #[inline(never)]
    pub(super) fn checks(
        &self,
        statics: Option<&Statics>,
        scratch: &mut Scratch,
        out: &mut dyn Write,
    ) -> fmt::Result {
        match self.plan.checks_of(self.job, statics, scratch) {
            Some(checks) => self.check_list(statics, checks, out),
            None => Ok(()),
        }
    }

    #[inline(never)]
    fn check_list(
        &self,
        statics: Option<&Statics>,
        checks: &Checks,
        out: &mut dyn Write,
    ) -> fmt::Result {
        let list = List {
            report: self,
            statics,
            checks,
        };
        heading("CHECKS", FOREWORD, out)?;
        let usual = Usual(self);
        if statics.is_some() && self.takes_usual() {
            wrapped("  ", 4, format_args!("{usual}"), out)?;
        }
        for question in Question::ALL {
            list.question(question, out)?;
            if question == Question::EndsSit
                && let Some(statics) = statics
            {
                self.lift_answer(statics, out)?;
            }
        }
        list.not_made(out)
    }

    /// Whether a strength or factor of the checks is not on the card.
    pub fn takes_usual(&self) -> bool {
        let job = self.job;
        let fu = job.steel.and_then(|steel| steel.fu);
        let fyb = job.bolt.and_then(|bolt| bolt.fyb);
        fu.is_none() || job.duration.is_none() || (job.bolt.is_some() && fyb.is_none())
    }

    /// Strengths and factors that stand in because the card has none, each with
    /// its source.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn usual_strengths(&self, out: &mut dyn Write) -> fmt::Result {
        let job = self.job;
        let stress = match job.units {
            Units::Imperial => "ksi",
            Units::Metric => "MPa",
        };
        out.write_str("Taken as usual, not on the card:")?;
        if job.steel.is_none() {
            let fy = defaults::yield_strength(job);
            write!(out, " steel Fy {fy} {stress} (ASTM A992);")?;
        }
        if job.steel.and_then(|steel| steel.fu).is_none() {
            let fu = defaults::tensile_strength(job);
            write!(out, " steel Fu {fu} {stress} (ASTM A992);")?;
        }
        if job.bolt.is_some_and(|bolt| bolt.fyb.is_none()) {
            let fyb = defaults::fyb(job);
            write!(out, " rod Fyb {fyb} {stress} (NDS 2024 Table 12A);")?;
        }
        if job.duration.is_none() {
            let duration = defaults::duration(job);
            write!(out, " load duration {duration} (NDS 2024 Table 2.3.2);")?;
        }
        out.write_str(" key them where the drawing says otherwise.")
    }

    /// What would make a check pass; nothing where one figure cannot say so.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn needs(&self, needs: Needs, out: &mut dyn Write) -> fmt::Result {
        let up = |length| self.rounded_up(length);
        match needs {
            Needs::Nothing => Ok(()),
            Needs::BearingLength(length) => {
                write!(out, "it would take a bearing of {}", up(length))
            }
            Needs::BearingOrPlate(length, plate) => write!(
                out,
                "it would take a bearing of {}, or under this one an A36 plate {} across the beam and {} thick; the engineer sizes it",
                up(length),
                up(plate.width()),
                up(plate.thickness())
            ),
            Needs::Deeper(length) => write!(
                out,
                "deepen that pocket by {}, go through the wall, or ask the engineer",
                up(length)
            ),
            Needs::NailAtMost(length) => write!(
                out,
                "the longest straight nail is {}",
                self.rounded_down(length)
            ),
            Needs::Slant(hundredths) => write!(
                out,
                "drive it {} degrees or more from square",
                Shown::new(f64::from(hundredths) / 100.0, 0, Rounding::Up)
            ),
            Needs::Spacing(length) => write!(
                out,
                "bolts alone would need a spacing of {} or less",
                self.rounded_down(length)
            ),
        }
    }

    /// Rounded down to 1/16 in or 1 mm.
    fn rounded_down(&self, length: Length) -> Cell {
        self.length_cell(length.to_multiple(self.coarse_step(), Rounding::Down))
    }

    /// How the beam comes home, in sentences, one call of `say` each.
    ///
    /// # Errors
    /// Those of `say` only.
    pub fn way_in(
        &self,
        beam: &Beam<'_>,
        mut say: impl FnMut(fmt::Arguments<'_>) -> fmt::Result,
    ) -> fmt::Result {
        let [a, b] = beam.placed_bearings();
        if let (Some(a), Some(b)) = (a, b) {
            let cell = |length| self.length_cell(self.fine(length));
            say(format_args!(
                "Bearing as placed: A {}, B {}.",
                cell(a),
                cell(b)
            ))?;
        }
        let Some(way) = beam.way_in() else {
            return Ok(());
        };
        let first = way.slide.first;
        say(format_args!(
            "End {} goes in first, level; then the steel slides {} toward {}.",
            end_letter(first),
            self.length_cell(self.fine(way.slide.by)),
            end_letter(first.other())
        ))?;
        self.left_out(&way, &mut say)?;
        for (end, past) in way.packing_past() {
            say(format_args!(
                "Packing goes {} past wall face {} on the way: the pocket must be as wide as the packed beam there, or that packing goes on when the beam is home.",
                self.rounded_up(past),
                end_letter(end)
            ))?;
        }
        Ok(())
    }

    /// The longest bearing that the checks of each support ask for, in one
    /// sentence; nothing without supports.
    ///
    /// # Errors
    /// Those of `say` only.
    pub fn bearing_lengths(
        &self,
        checks: &Checks,
        statics: &Statics,
        say: impl FnOnce(fmt::Arguments<'_>) -> fmt::Result,
    ) -> fmt::Result {
        if statics.reactions.is_empty() {
            return Ok(());
        }
        let list = LengthList {
            report: self,
            checks,
            statics,
        };
        say(format_args!(
            "Longest bearing that a check here asks for: {list}."
        ))
    }

    /// The longest nails that stay off the web, and what crews drive, one call of
    /// `say` each.
    ///
    /// # Errors
    /// Those of `say` only.
    pub fn longest_nails(
        &self,
        mut say: impl FnMut(fmt::Arguments<'_>) -> fmt::Result,
    ) -> fmt::Result {
        for side in Side::BOTH {
            let stack = self.stack(side).and_then(Stack::thickness);
            if let Some(packing) = stack {
                say(format_args!(
                    "Side {}: the longest straight nail that stays off the web is {}.",
                    self.job.letter(side),
                    self.rounded_down(packing)
                ))?;
            }
        }
        say(format_args!(
            "Common practice, no source: hanger nails {}; nails through the outer layer {}, at a slight slant so that they stay off the steel. A shorter nail is the hanger schedule's or the engineer's choice.",
            self.rounded_down(USUAL_HANGER_NAIL),
            self.rounded_down(USUAL_LAYER_NAIL)
        ))
    }

    /// Rods that stay out until the beam is home.
    fn left_out(
        &self,
        way: &WayIn<'_>,
        say: &mut impl FnMut(fmt::Arguments<'_>) -> fmt::Result,
    ) -> fmt::Result {
        if way.left_out().next().is_none() {
            return Ok(());
        }
        say(format_args!(
            "Leave these rods out until the beam is home, their nuts would meet a joist end, an obstacle or a wall: {}.",
            LeftOutList { report: self, way }
        ))
    }
}

/// `7 (N6), 13 (S12)`.
struct LeftOutList<'a> {
    report: &'a Report<'a>,
    way: &'a WayIn<'a>,
}

impl fmt::Display for LeftOutList<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, rod) in self.way.left_out().enumerate() {
            let comma = if index == 0 { "" } else { ", " };
            write!(f, "{comma}{} (", rod.mark)?;
            self.report.meets(rod.meets, f)?;
            f.write_str(")")?;
        }
        Ok(())
    }
}

/// `A 4", POST 6 3/4"`.
struct LengthList<'a> {
    report: &'a Report<'a>,
    checks: &'a Checks,
    statics: &'a Statics,
}

impl LengthList<'_> {
    /// The longest that any check of a support asks for.
    fn asked(&self, support: u8) -> Option<Length> {
        let here = self.checks.made().iter();
        let here = here.filter(|check| check.place() == Place::Support(support));
        let lengths = here.filter_map(|check| match check.needs() {
            Needs::BearingLength(length) | Needs::BearingOrPlate(length, _) => Some(length),
            _ => None,
        });
        lengths.max()
    }
}

impl fmt::Display for LengthList<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, reaction) in (0_u8..).zip(&self.statics.reactions) {
            let comma = if index == 0 { "" } else { ", " };
            let name = self.report.support_name(reaction.row);
            write!(f, "{comma}{name} ")?;
            match self.asked(index) {
                Some(length) => f.write_str(&self.report.rounded_up(length))?,
                None => f.write_str("not known")?,
            }
        }
        Ok(())
    }
}

/// Usual strengths, in words.
struct Usual<'a>(&'a Report<'a>);

impl fmt::Display for Usual<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.usual_strengths(f)
    }
}

/// What a check needs, in words.
struct Needed<'a>(&'a Report<'a>, Needs);

impl fmt::Display for Needed<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.needs(self.1, f)
    }
}

/// The checks of a plan on their way to a list.
struct List<'a> {
    report: &'a Report<'a>,
    statics: Option<&'a Statics>,
    checks: &'a Checks,
}

impl List<'_> {
    /// One question of the foreman, and every check that answers it.
    fn question(&self, question: Question, out: &mut dyn Write) -> fmt::Result {
        let asked = |check: &&Check| check.kind().question() == question;
        let mut checks = self.checks.made().iter().filter(asked).peekable();
        if checks.peek().is_none() {
            return Ok(());
        }
        let mut title = Cell::new();
        // A question is shorter than a cell.
        let _ = title.push_str(question.words());
        title.make_ascii_uppercase();
        heading(&title, "demand, what the rule allows, ratio", out)?;
        self.before(question, out)?;
        let mut before: Option<Kind> = None;
        for check in checks {
            if before.is_some_and(|kind| kind != check.kind()) {
                self.source(before, out)?;
            }
            if before != Some(check.kind()) {
                writeln!(out, "  {}", check.name())?;
            }
            before = Some(check.kind());
            self.check(check, out)?;
        }
        self.source(before, out)
    }

    /// What is said before the checks of a question.
    fn before(&self, question: Question, out: &mut dyn Write) -> fmt::Result {
        match question {
            Question::GoesIn => match self.report.plan.beam(self.report.job) {
                Some(beam) => self
                    .report
                    .way_in(&beam, |sentence| wrapped("  ", 4, sentence, out)),
                None => Ok(()),
            },
            Question::SteelHolds => match self.statics {
                Some(statics) => self.report.sag_lines(statics, out),
                None => Ok(()),
            },
            Question::EndsSit => match self.statics {
                Some(statics) => self
                    .report
                    .bearing_lengths(self.checks, statics, |sentence| {
                        wrapped("  ", 4, sentence, out)
                    }),
                None => Ok(()),
            },
            Question::BoltsHold if self.checks.has(Kind::BoltNearest) => {
                wrapped("  ", 4, format_args!("{BOLTS_TWICE}"), out)
            }
            Question::NailsReach => self
                .report
                .longest_nails(|sentence| wrapped("  ", 4, sentence, out)),
            _ => Ok(()),
        }
    }

    fn check(&self, check: &Check, out: &mut dyn Write) -> fmt::Result {
        let report = self.report;
        let mut place = Cell::new();
        // A place is shorter than a cell.
        let _ = report.place(check.place(), self.statics, &mut place);
        write!(out, "    {place:<28} {:>14}", report.demand(check))?;
        match (report.capacity(check), report.ratio(check)) {
            (Some(capacity), Some(ratio)) => write!(out, " {capacity:>14} {ratio:>7}")?,
            (Some(capacity), None) => write!(out, " {capacity:>14} {:>7}", "-")?,
            (None, _) if check.kind().question() == Question::Flush => {
                out.write_str("   no limit here, look at it")?;
            }
            (None, _) => out.write_str("   no limit here, ask the engineer")?,
        }
        if check.ok() == Some(false) {
            out.write_str("  OVER")?;
            if check.needs() != Needs::Nothing {
                out.write_str("\n")?;
                let needs = Needed(report, check.needs());
                return wrapped("      ", 8, format_args!("{needs}"), out);
            }
        }
        out.write_str("\n")
    }

    /// Where the figures of a kind come from, and what it leaves out.
    fn source(&self, kind: Option<Kind>, out: &mut dyn Write) -> fmt::Result {
        let Some(kind) = kind else { return Ok(()) };
        let text = format_args!("by {}; covers {}", kind.source(), kind.covers());
        wrapped("      ", 6, text, out)
    }

    /// What could not be checked.
    fn not_made(&self, out: &mut dyn Write) -> fmt::Result {
        if self.checks.not_made().is_empty() && self.checks.left_out() == 0 {
            return Ok(());
        }
        heading("NOT CHECKED", "and why", out)?;
        for not in self.checks.not_made() {
            self.not(not, out)?;
        }
        match self.checks.left_out() {
            0 => Ok(()),
            more => writeln!(out, "  {more} more than this list holds"),
        }
    }

    fn not(&self, not: &NotMade, out: &mut dyn Write) -> fmt::Result {
        write!(out, "  {}, ", not.kind.name())?;
        self.report.place(not.place, self.statics, out)?;
        out.write_str(": ")?;
        self.report.lack(not.lack, out)?;
        out.write_str("\n")
    }
}
