//! Running dimensions as a table, where there are too many for the drawing.

use super::layout::Layout;
use super::page::{Page, Stroke, bold, plain};
use super::running::Mark;
use super::{MARGIN, Sheet};
use boltbay_core::report::words;

/// Size of the figures.
const SIZE: f64 = 7.0;
/// From line to line.
const LEADING: f64 = 7.9;
/// Columns of the table.
const COLUMNS: usize = 6;
/// From the start of a column to number, rows, and the right edges of A and B.
const PLACES: [f64; 3] = [11.0, 13.0, 71.0];

impl Sheet<'_> {
    /// Draws the table under the strips where it is wanted; says where it ends.
    pub(super) fn table(&self, page: &mut Page, layout: &Layout) -> f64 {
        if !layout.in_table || layout.marks.is_empty() {
            return layout.bottom;
        }
        let width = (page.paper.width - 2.0 * MARGIN) / COLUMNS as f64;
        let lines = layout.marks.len().div_ceil(COLUMNS);
        let top = layout.bottom + 9.0;
        for (column, marks) in layout.marks.chunks(lines).enumerate() {
            let left = MARGIN + width * column as f64;
            self.table_head(page, left, width, top);
            for (line, mark) in marks.iter().enumerate() {
                let y = top + LEADING * (line + 1) as f64;
                row(page, mark, [left, y], width);
            }
        }
        let end = top + LEADING * lines as f64 + 4.0;
        page.line(
            [MARGIN, end],
            [page.paper.width - MARGIN, end],
            Stroke::Thin,
        );
        end
    }

    fn table_head(&self, page: &mut Page, left: f64, width: f64, y: f64) {
        let face = bold(SIZE).ending();
        page.text([left + PLACES[2], y], face, "FROM END A");
        if self.report.from_end_b().is_some() {
            page.text([left + width - 6.0, y], face, "END B");
        }
    }
}

fn row(page: &mut Page, mark: &Mark, [left, y]: [f64; 2], width: f64) {
    if mark.number > 0 {
        let number = mark.number.to_string();
        page.text([left + PLACES[0], y], bold(SIZE).ending(), &number);
    }
    let rows = match mark.rows.as_slice() {
        [row] => words::row(*row),
        [_, _] => "2x",
        _ => "",
    };
    page.text([left + PLACES[1], y], plain(SIZE), rows);
    page.text(
        [left + PLACES[2], y],
        bold(SIZE).ending(),
        &mark.readings[0],
    );
    page.text(
        [left + width - 6.0, y],
        plain(SIZE).ending(),
        &mark.readings[1],
    );
}
