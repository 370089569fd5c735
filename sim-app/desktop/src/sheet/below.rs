//! The lists under the strips: packing in section, rods and cuts or what
//! blocks, how the readings close, cautions.

use super::column::{Column, SIZES};
use super::page::{Page, Paper};
use super::{MARGIN, Sheet};
use boltbay_core::placement::{InsertFrom, Placement};
use boltbay_core::report::words;
use boltbay_core::words::Side;

/// Between two columns.
const GAP: f64 = 16.0;
/// How they are set where something is lost at any size.
const SMALLEST: Setting = Setting {
    size: 7.1,
    flowing: true,
};

/// What must find room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lists {
    /// Every line, and the section through the packing.
    WithSection,
    /// Every line.
    All,
}

/// What found no room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum LeftOut {
    Nothing,
    Section,
    Lines,
}

/// How the lists are set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// Size of the letters.
    size: f64,
    /// From column to column, not a column for each kind of list.
    flowing: bool,
}

impl Sheet<'_> {
    /// Fills what is left of the page, in the largest letters at which nothing
    /// is lost, if there are such.
    pub(super) fn below(&self, page: &mut Page, room: [f64; 2]) {
        let whole = self.best_columns(page.paper, room, Lists::WithSection);
        let best = whole.or_else(|| self.best_columns(page.paper, room, Lists::All));
        self.columns(page, room, best.unwrap_or(SMALLEST));
    }

    /// The best way to set the lists so that all that is asked for fits: first
    /// with a column for each kind of list, then with the lists going on from
    /// column to column; large letters before small ones.
    pub(super) fn best_columns(
        &self,
        paper: Paper,
        room: [f64; 2],
        lists: Lists,
    ) -> Option<Setting> {
        let (comfortable, small) = SIZES.split_at(SIZES.len() - 2);
        let ways = [comfortable, small].map(|sizes| {
            [false, true].map(|flowing| sizes.iter().map(move |&size| Setting { size, flowing }))
        });
        ways.into_iter().flatten().flatten().find(|setting| {
            let left_out = self.columns(&mut Page::new(paper), room, *setting);
            match lists {
                Lists::WithSection => left_out == LeftOut::Nothing,
                Lists::All => left_out != LeftOut::Lines,
            }
        })
    }

    /// Draws the three columns; what was left out.
    fn columns(&self, page: &mut Page, room: [f64; 2], setting: Setting) -> LeftOut {
        let Setting { size, flowing } = setting;
        let room = [room[0] + 6.0, room[1]];
        let width = page.paper.width - 2.0 * MARGIN - 2.0 * GAP;
        let [a, b, c] = [0.28, 0.36, 0.36].map(|part| part * width);
        let first = [MARGIN, a];
        let second = [MARGIN + a + GAP, b];
        let third = [MARGIN + a + b + 2.0 * GAP, c];
        let mut columns = if flowing {
            vec![Column::new(first, room, size).then(vec![second, third])]
        } else {
            Vec::from([first, second, third].map(|c| Column::new(c, room, size)))
        };
        let last = columns.len() - 1;
        self.packing_column(page, &mut columns[0]);
        self.work_column(page, &mut columns[last.min(1)]);
        self.caution_column(page, &mut columns[last]);
        let any = |left_out: fn(&Column) -> bool| columns.iter().any(left_out);
        match (any(|column| column.lost), any(|column| column.squeezed)) {
            (true, _) => LeftOut::Lines,
            (_, true) => LeftOut::Section,
            _ => LeftOut::Nothing,
        }
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
        match placement.blocked_more {
            0 => {}
            more => column.paragraph(page, &format!("{more} more: see the list of the plan.")),
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
        let Some(rods) = self.report.plan.rods() else {
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
