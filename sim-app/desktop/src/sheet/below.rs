//! The lists under the strips: packing in section, rods and cuts or what
//! blocks, how the readings close, cautions.

use super::column::{Column, SIZES};
use super::page::Page;
use super::{MARGIN, Sheet};
use boltbay_core::placement::{InsertFrom, Placement};
use boltbay_core::report::words;
use boltbay_core::words::Side;

/// Between two columns.
const GAP: f64 = 16.0;
/// The size at which something may be lost.
const SMALLEST: f64 = 7.1;

impl Sheet<'_> {
    /// Fills what is left of the page between `top` and `bottom`; whether
    /// something did not fit. In the largest letters at which nothing is lost:
    /// first with a column for each kind of list, then with the lists going on
    /// from column to column.
    pub(super) fn below(&self, page: &mut Page, top: f64, bottom: f64) -> bool {
        let room = [top + 6.0, bottom];
        let apart = SIZES.map(|size| (size, false));
        let flowing = SIZES.map(|size| (size, true));
        let (comfortable, small) = (0..SIZES.len() - 2, SIZES.len() - 2..SIZES.len());
        let order = [comfortable, small].map(|range| {
            let each = apart
                .get(range.clone())
                .into_iter()
                .chain(flowing.get(range));
            each.flatten().copied().collect::<Vec<_>>()
        });
        let fits = |(size, flowing): &(f64, bool)| {
            !self.columns(&mut Page::new(page.paper), room, *size, *flowing)
        };
        let chosen = order.concat().into_iter().find(fits);
        let (size, flowing) = chosen.unwrap_or((SMALLEST, true));
        self.columns(page, room, size, flowing)
    }

    /// Draws the three columns; whether something did not fit.
    fn columns(&self, page: &mut Page, room: [f64; 2], size: f64, flowing: bool) -> bool {
        let width = page.paper.width - 2.0 * MARGIN - 2.0 * GAP;
        let [a, b, c] = [0.28, 0.36, 0.36].map(|part| part * width);
        let first = [MARGIN, a];
        let second = [MARGIN + a + GAP, b];
        let third = [MARGIN + a + b + 2.0 * GAP, c];
        if flowing {
            let mut column = Column::new(first, room, size).then(vec![second, third]);
            self.packing_column(page, &mut column);
            self.work_column(page, &mut column);
            self.caution_column(page, &mut column);
            return column.lost;
        }
        let mut columns = [first, second, third].map(|c| Column::new(c, room, size));
        let [packing, work, cautions] = &mut columns;
        self.packing_column(page, packing);
        self.work_column(page, work);
        self.caution_column(page, cautions);
        columns.iter().any(|column| column.lost || column.squeezed)
    }

    fn work_column(&self, page: &mut Page, column: &mut Column) {
        self.missing_list(page, column);
        if let Some(placement) = self.report.plan.placement() {
            self.blocked_list(page, column, placement);
            self.strike_out_list(page, column, placement);
            self.insert_list(page, column, placement);
        }
        self.rod_list(page, column);
    }

    fn missing_list(&self, page: &mut Page, column: &mut Column) {
        let missing = &self.report.plan.missing;
        if missing.is_empty() {
            return;
        }
        column.heading(page, "MISSING");
        for one in missing {
            let mut text = String::new();
            let _ = self.report.missing(*one, &mut text);
            text.push_str(": ");
            let _ = self.report.missing_advice(*one, &mut text);
            column.paragraph(page, &text);
        }
    }

    fn blocked_list(&self, page: &mut Page, column: &mut Column, placement: &Placement) {
        if placement.feasible {
            return;
        }
        column.heading(page, "WHAT BLOCKS, FROM END A");
        if placement.too_many_holes {
            column.paragraph(page, "The rule asks for more than 240 holes.");
        }
        for (index, blocked) in placement.blocked.iter().enumerate() {
            let cell = |length| self.report.length_cell(length);
            let mut text = format!(
                "{}. {} to {}: {}",
                index + 1,
                cell(blocked.from),
                cell(blocked.to),
                words::block_words(blocked.kind)
            );
            if let Some(excess) = blocked.excess {
                text.push_str(&format!(", {} too much", cell(excess)));
            }
            if !blocked.by.is_empty() {
                text.push_str(" (made by ");
                let _ = self.report.made_by_words(blocked, &mut text);
                text.push(')');
            }
            column.paragraph(page, &text);
            for way in &blocked.ways_out {
                let mut text = String::from("- ");
                let _ = self.report.way_out(way, &mut text);
                column.inset(page, &text);
            }
        }
    }

    fn strike_out_list(&self, page: &mut Page, column: &mut Column, placement: &Placement) {
        if placement.struck_out.is_empty() {
            return;
        }
        column.heading(page, "STRIKE OUT, FROM END A");
        let marks = placement.struck_out.iter();
        let marks: Vec<String> = marks
            .filter_map(|index| self.report.mark(*index))
            .map(|(at, row)| format!("{} {}", words::row(row), self.report.length_cell(at)))
            .collect();
        column.paragraph(page, &marks.join(", "));
    }

    /// Rods that go in from one side only.
    fn insert_list(&self, page: &mut Page, column: &mut Column, placement: &Placement) {
        for side in Side::BOTH {
            let only = |hole: &&boltbay_core::placement::PlacedHole| {
                hole.insert_from == InsertFrom::Side(side)
            };
            let mut marks: Vec<String> = Vec::new();
            for hole in placement.holes.iter().filter(only) {
                let mark = hole.station.to_string();
                if marks.last() != Some(&mark) {
                    marks.push(mark);
                }
            }
            if !marks.is_empty() {
                let letter = self.report.job.letter(side);
                let text = format!("Rods in from side {letter} only: marks {}", marks.join(" "));
                column.paragraph(page, &text);
            }
        }
    }

    fn rod_list(&self, page: &mut Page, column: &mut Column) {
        let Some(rods) = &self.report.plan.rods else {
            return;
        };
        let mut text = String::new();
        let _ = self.report.rod_lines(rods, &mut text);
        column.heading(page, "RODS AND CUTS");
        for line in text.lines() {
            column.paragraph(page, line.trim());
        }
    }

    fn caution_column(&self, page: &mut Page, column: &mut Column) {
        if !self.report.plan.cautions.is_empty() {
            column.heading(page, "CAUTIONS");
        }
        for caution in &self.report.plan.cautions {
            let text = format!("{} {}", caution.number(), caution.in_full(self.report.job));
            column.paragraph(page, &text);
        }
        let mut runs = String::new();
        let _ = self.report.run_lines(&mut runs);
        if !runs.is_empty() {
            column.heading(page, "TAPE RUNS");
            for line in runs.lines() {
                column.line(page, line.trim());
            }
        }
    }
}
