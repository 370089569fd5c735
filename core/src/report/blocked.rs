//! No plan: every blocking stretch, what makes it, and the ways out.
//!
//! In: the placement. Out: a numbered list, FROM END A.

use super::{Report, heading, words};
use crate::placement::{BlockKind, Blocked, BlockedPage, Placement, WayOut};
use crate::plan::Scratch;
use core::fmt::{self, Write};

impl Report<'_> {
    /// Nothing where there is a plan.
    #[inline(never)]
    pub(super) fn blocked(&self, scratch: &mut Scratch, out: &mut dyn Write) -> fmt::Result {
        let Some(placement) = self.plan.placement() else {
            return Ok(());
        };
        if placement.feasible {
            return Ok(());
        }
        heading("NO PLAN", "what blocks, FROM END A", out)?;
        if placement.too_many_holes {
            out.write_str("  The rule asks for more than 240 holes.\n")?;
        }
        for (index, blocked) in placement.blocked.iter().enumerate() {
            self.stretch(index + 1, blocked, out)?;
        }
        self.further(placement, scratch, out)
    }

    /// Those that the plan has no room to list.
    fn further(
        &self,
        placement: &Placement,
        scratch: &mut Scratch,
        out: &mut dyn Write,
    ) -> fmt::Result {
        let mut last = placement.blocked.last().cloned();
        let mut number = placement.blocked.len();
        let mut page = BlockedPage::new();
        let mut more = placement.blocked_more;
        while let (Some(after), 1..) = (&last, more) {
            more = self.plan.more_blocked(self.job, after, &mut page, scratch);
            for blocked in &page {
                number += 1;
                self.stretch(number, blocked, out)?;
            }
            last = page.last().cloned();
        }
        Ok(())
    }

    fn stretch(&self, number: usize, blocked: &Blocked, out: &mut dyn Write) -> fmt::Result {
        let units = self.job.units;
        writeln!(
            out,
            "  {number}. {} to {}: {}",
            blocked.from.shown(units),
            blocked.to.shown(units),
            words::block_words(blocked.kind)
        )?;
        self.excess(blocked, out)?;
        self.made_by(blocked, out)?;
        self.ways_out(blocked, out)
    }

    fn excess(&self, blocked: &Blocked, out: &mut dyn Write) -> fmt::Result {
        let units = self.job.units;
        match (blocked.limit, blocked.excess) {
            (Some(limit), Some(excess)) => writeln!(
                out,
                "     {} where the note allows {}: {} too much",
                blocked.to.saturating_sub(blocked.from).shown(units),
                limit.shown(units),
                excess.shown(units)
            ),
            (None, Some(excess)) => writeln!(
                out,
                "     the nearest place for a bolt is {} beyond it",
                excess.shown(units)
            ),
            _ => Ok(()),
        }
    }

    fn made_by(&self, blocked: &Blocked, out: &mut dyn Write) -> fmt::Result {
        if blocked.by.is_empty() {
            return Ok(());
        }
        out.write_str("     made by ")?;
        self.made_by_words(blocked, out)?;
        out.write_str("\n")
    }

    /// The things that make a stretch: `N7, S7`.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn made_by_words(&self, blocked: &Blocked, out: &mut dyn Write) -> fmt::Result {
        for (index, thing) in blocked.by.iter().enumerate() {
            out.write_str(if index == 0 { "" } else { ", " })?;
            self.thing_itself(*thing, out)?;
        }
        Ok(())
    }

    fn ways_out(&self, blocked: &Blocked, out: &mut dyn Write) -> fmt::Result {
        if blocked.ways_out.is_empty() {
            let none = match blocked.kind {
                BlockKind::Chain => "no single change opens it: ask the engineer",
                _ => "no way out found: ask the engineer",
            };
            return writeln!(out, "     {none}");
        }
        out.write_str("     ways out, each tried:\n")?;
        for way in &blocked.ways_out {
            out.write_str("       - ")?;
            self.way_out(way, out)?;
            out.write_str("\n")?;
        }
        Ok(())
    }

    /// What to change, and what it gives.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn way_out(&self, way: &WayOut, out: &mut dyn Write) -> fmt::Result {
        self.change(way.change, out)?;
        match (way.stations, way.play) {
            (Some(stations), Some(play)) => {
                let play = self.play_cell(play);
                write!(out, ": then {stations} marks, play {play}")
            }
            _ => out.write_str(": opens this stretch, others still block"),
        }
    }
}
