//! The engineer's rules against each other.

use super::{Findings, Kind, Wrong};
use crate::defaults;
use crate::job::{Pattern, SpacingBasis};
use crate::length::{Length, Rounding};

impl Findings<'_> {
    /// Spacing that leaves nothing, pairs where there is one row.
    pub(super) fn rules(&mut self) {
        self.spacing();
        self.pairs();
    }

    /// Least spacing (keyed or 5D) against the greatest: S, or S/2 where each of
    /// two staggered rows has its own, less the hold back.
    fn spacing(&mut self) {
        let Some(spacing) = self.job.spacing else {
            return;
        };
        let staggered = defaults::pattern(self.job) == Pattern::Staggered;
        let full = match spacing.basis {
            SpacingBasis::Row if staggered => spacing.spacing.half(Rounding::Down),
            SpacingBasis::Row | SpacingBasis::Every => spacing.spacing,
        };
        let most = full.saturating_sub(defaults::hold_back(self.job));
        // Without a bolt the least spacing is not known, but it is above 0.
        let least = defaults::minimum_spacing(self.job).unwrap_or(Length::from_counts(1));
        if least <= most {
            return;
        }
        let mut row = (
            self.notes.first(Kind::Spacing).unwrap_or(0),
            Kind::Spacing,
            "S",
        );
        let bolt_counts = spacing.minimum.is_none();
        for (kind, field, counts) in [
            (Kind::Bolt, "DIAMETER", bolt_counts),
            (Kind::Pattern, "PATTERN", spacing.basis == SpacingBasis::Row),
        ] {
            let line = self.notes.first(kind).filter(|_| counts);
            if let Some(line) = line.filter(|line| *line > row.0) {
                row = (line, kind, field);
            }
        }
        let (line, kind, field) = row;
        self.note(
            (line, kind),
            field,
            "",
            Wrong::SpacingCrossed { least, most },
        );
    }

    /// Pattern `single` has one row: nothing can be a pair.
    fn pairs(&mut self) {
        if self.job.pattern != Some(Pattern::Single) {
            return;
        }
        let ends = self.job.ends.and_then(|ends| ends.paired) == Some(true);
        if let Some(line) = self.notes.first(Kind::Ends).filter(|_| ends) {
            self.paired_row(line, Kind::Ends);
        }
        for place in 0..self.job.nears.len() {
            let paired = self.job.nears.get(place).is_some_and(|near| near.paired);
            if let Some(line) = self.notes.nears.get(place).copied().filter(|_| paired) {
                self.paired_row(line, Kind::Near);
            }
        }
    }

    /// Names the later of a paired row and the pattern.
    fn paired_row(&mut self, line: u16, kind: Kind) {
        let pattern = self.notes.first(Kind::Pattern).unwrap_or(0);
        let (row, field, other) = match pattern < line {
            true => ((line, kind), "SINGLE OR PAIRED", pattern),
            false => ((pattern, Kind::Pattern), "PATTERN", line),
        };
        let other = u32::from(other);
        self.note(row, field, "", Wrong::PairedWithSingle { other });
    }
}
