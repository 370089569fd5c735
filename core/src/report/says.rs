//! What a card says, and what it leaves to the usual values.
//!
//! In: a job and its plan. Out: text: what is on the card, in words; every
//! default that stands in; what is missing.

use super::cell::{cell, wrapped};
use super::{Report, heading};
use crate::defaults;
use crate::hardware::Hardware;
use crate::job::{Pattern, SpacingBasis, WasherShape};
use crate::length::Length;
use crate::words::Side;
use core::fmt::{self, Write};

impl Report<'_> {
    /// What the card says, what is usual, what is missing.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn card(&self, out: &mut dyn Write) -> fmt::Result {
        let name = if self.job.name.is_empty() {
            "without a name"
        } else {
            self.job.name.as_str()
        };
        writeln!(out, "JOB CARD {name}")?;
        self.steel(out)?;
        self.walls(out)?;
        self.rule_line(out)?;
        self.counts_of_rows(out)?;
        self.usual(out)?;
        self.joists(out)?;
        self.missing_list(out)?;
        if self.plan.missing.is_empty() {
            heading("NOTHING IS MISSING", "for what the card asks", out)?;
        }
        self.cautions(out)
    }

    fn counts_of_rows(&self, out: &mut dyn Write) -> fmt::Result {
        let job = self.job;
        heading("ON THE CARD", "rows", out)?;
        let counts = [
            ("tape runs", job.runs.len()),
            ("joists", job.joists.len()),
            ("checks", job.checks.len()),
            ("hangers", job.hangers.len()),
            ("obstacles and zones", job.keepouts.len()),
            ("packing pieces", job.packing.len()),
            ("bolts wanted near a point", job.nears.len()),
            ("layers on hand", job.layers.len()),
            ("rods and offcuts", job.sticks.len()),
            ("other pieces of rod", job.pieces.len()),
            ("holes as they are", job.holes.len()),
            ("supports", job.supports.len()),
            ("loads", job.loads.len()),
        ];
        for (what, count) in counts.into_iter().filter(|(_, count)| *count > 0) {
            writeln!(out, "  {count:>4} {what}")?;
        }
        self.keepouts_list(out)
    }

    fn keepouts_list(&self, out: &mut dyn Write) -> fmt::Result {
        for index in 0..self.job.keepouts.len() {
            let Ok(index) = u8::try_from(index) else {
                break;
            };
            out.write_str("       ")?;
            self.keepout(index, out)?;
            if let Some((from, to)) = self.keepout_extent(index) {
                let units = self.job.units;
                write!(
                    out,
                    ": {} to {} FROM END A",
                    from.shown(units),
                    to.shown(units)
                )?;
            }
            out.write_str("\n")?;
        }
        Ok(())
    }

    /// Stations of a keep-out as read, the beam on its mark.
    fn keepout_extent(&self, index: u8) -> Option<(Length, Length)> {
        let frame = self.plan.frame.as_ref()?;
        let keepout = self.job.keepouts.get(usize::from(index))?;
        let from = frame.station_anywhere(keepout.from).ok()?;
        let to = frame.station_anywhere(keepout.to).ok()?;
        Some((from, to))
    }

    /// Defaults that stand in for rows that are not on the card.
    fn usual(&self, out: &mut dyn Write) -> fmt::Result {
        heading(
            "TAKEN AS USUAL",
            "not on the card; key it to change it",
            out,
        )?;
        self.usual_rule(out)?;
        self.usual_hardware(out)?;
        self.usual_rods(out)
    }

    fn usual_rule(&self, out: &mut dyn Write) -> fmt::Result {
        let job = self.job;
        if let Some(spacing) = job.spacing {
            if spacing.hold_back.is_none() {
                self.usual_length("held back from the spacing", defaults::hold_back(job), out)?;
            }
            if spacing.minimum.is_none()
                && let Some(least) = defaults::minimum_spacing(job)
            {
                self.usual_length("least spacing", least, out)?;
            }
            if job.pattern.is_none() {
                let pattern = match (defaults::pattern(job), spacing.basis) {
                    (Pattern::Staggered, SpacingBasis::Every) => "rows take turns, a bolt every",
                    (Pattern::Staggered, SpacingBasis::Row) => "rows take turns, each row every",
                    _ => "pattern",
                };
                writeln!(out, "  {pattern} {}", spacing.spacing.shown(job.units))?;
            }
        }
        let lengths = [
            ("clear gap around washers", job.gap, defaults::gap(job)),
            ("step of the marks", job.lattice, defaults::lattice(job)),
            ("wanted play", job.play, defaults::play(job)),
        ];
        for (what, keyed, usual) in lengths {
            if keyed.is_none() {
                self.usual_length(what, usual, out)?;
            }
        }
        Ok(())
    }

    fn usual_hardware(&self, out: &mut dyn Write) -> fmt::Result {
        let Some(hardware) = Hardware::of(self.job) else {
            return Ok(());
        };
        let usual = hardware.defaulted;
        if usual.web_hole {
            self.usual_length("hole in the web", hardware.web_hole, out)?;
        }
        if usual.wood_hole {
            self.usual_length("hole in the wood", hardware.wood_hole, out)?;
        }
        for (side, usual) in Side::BOTH.into_iter().zip(usual.washers) {
            if usual {
                let what = cell(format_args!("washer, side {}", self.job.letter(side)));
                self.usual_length(&what, hardware.washer(side).size, out)?;
            }
        }
        if usual.nut {
            self.usual_length("nut, across corners", hardware.nut.across_corners, out)?;
        }
        Ok(())
    }

    fn usual_rods(&self, out: &mut dyn Write) -> fmt::Result {
        let job = self.job;
        if job.sticks.is_empty() {
            return Ok(());
        }
        let lengths = [
            ("kerf of a cut", job.kerf, defaults::kerf(job)),
            (
                "rod past each nut",
                job.projection,
                defaults::projection(job),
            ),
        ];
        for (what, keyed, usual) in lengths {
            if keyed.is_none() {
                self.usual_length(what, usual, out)?;
            }
        }
        Ok(())
    }

    fn usual_length(&self, what: &str, length: Length, out: &mut dyn Write) -> fmt::Result {
        writeln!(out, "  {what}: {}", length.shown(self.job.units))
    }

    /// Washers, nuts and holes in one line each.
    pub(super) fn hardware_line(&self, out: &mut dyn Write) -> fmt::Result {
        let Some(hardware) = Hardware::of(self.job) else {
            return Ok(());
        };
        let units = self.job.units;
        let [n, s] = Side::BOTH.map(|side| hardware.washer(side));
        let [first, second] = self.job.sides.map(char::from);
        wrapped(
            "Bolts   ",
            8,
            format_args!(
                "{} through {} in the web, {} in the wood; washers {first} {} {}, {second} {} {}",
                hardware.diameter.shown(units),
                hardware.web_hole.shown(units),
                hardware.wood_hole.shown(units),
                shape(n.shape),
                n.size.shown(units),
                shape(s.shape),
                s.size.shown(units)
            ),
            out,
        )
    }

    /// Name of a joist's hanger: `none`, the row's name, or empty for the
    /// built-in one.
    pub fn hanger_name(&self, joist: &crate::joists::Joist) -> &str {
        let Some(reading) = self.job.joists.get(usize::from(joist.reading)) else {
            return "";
        };
        if reading.hanger == crate::job::HangerRef::None {
            return "none";
        }
        defaults::hanger_row(self.job, reading.hanger).map_or("", |row| row.name.as_str())
    }
}

/// `round`, `square`.
const fn shape(shape: WasherShape) -> &'static str {
    match shape {
        WasherShape::Round => "round",
        WasherShape::Square => "square",
        WasherShape::Turns => "square (may turn)",
    }
}
