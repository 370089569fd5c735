//! The steel cut across, with its packing: layers to scale, rods, letters.

use super::Sheet;
use super::column::Column;
use super::page::{Fill, Page, Stroke, bold};
use boltbay_core::packing::Stack;
use boltbay_core::shapes::Section;
use boltbay_core::words::{Row, Side};

/// Most and fewest points that the drawing takes upward.
const HEIGHTS: [f64; 2] = [150.0, 70.0];

/// The drawing's own frame: middle of the web, inside of the bottom flange.
#[derive(Clone, Copy)]
struct Cut {
    middle: f64,
    floor: f64,
    scale: f64,
}

impl Sheet<'_> {
    /// The section and the list of layers.
    pub(super) fn packing_column(&self, page: &mut Page, column: &mut Column) {
        if self.report.plan.packing.iter().all(Option::is_none) {
            return;
        }
        let room = column.left_over() - self.lines_of_layers() * column.leading();
        let high = room.min(HEIGHTS[0]);
        column.heading(page, "PACKING, FROM WEB TO FACE");
        match self.section {
            Some(section) if high >= HEIGHTS[1] => self.cut(page, column, &section, high),
            Some(_) => column.squeezed = true,
            None => {}
        }
        for side in Side::BOTH {
            if let Some(stack) = self.report.stack(side) {
                let mut text = String::new();
                let _ = self.report.stack_lines(side, stack, &mut text);
                for line in text.lines() {
                    column.paragraph(page, &in_a_row(line));
                }
            }
        }
    }

    /// Lines that the lists of layers take, and the heading; generously.
    fn lines_of_layers(&self) -> f64 {
        let stacks = self.report.plan.packing.iter().flatten();
        let lines: usize = stacks.map(|stack| 4 + 3 * stack.layers.len()).sum();
        2.0 + lines as f64 / 2.0
    }

    fn cut(&self, page: &mut Page, column: &mut Column, section: &Section, high: f64) {
        let depth = section.depth().as_inches().max(1.0);
        let across = section.width().as_inches().max(1.0) + 5.0;
        let scale = (high / depth).min(column.width / across);
        let flange = section.flange().as_inches();
        let top = column.y - 5.0;
        let cut = Cut {
            middle: column.left + column.width / 2.0,
            floor: top + (depth - flange) * scale,
            scale,
        };
        steel(page, section, cut, top);
        for side in Side::BOTH {
            if let Some(stack) = self.report.stack(side) {
                layers(page, section, stack, side, cut);
            }
            self.side_letter(page, section, side, cut);
        }
        self.rods_in_section(page, section, cut);
        column.y = top + depth * scale + column.leading() + 2.0;
    }

    fn side_letter(&self, page: &mut Page, section: &Section, side: Side, cut: Cut) {
        let half = section.width().as_inches() / 2.0 + 1.9;
        let x = cut.middle + sign(side) * half * cut.scale;
        let y = cut.floor - section.clear_height().as_inches() / 2.0 * cut.scale;
        let letter = self.report.job.letter(side).to_string();
        page.text([x, y + 3.5], bold(10.0).centred(), &letter);
    }

    /// Rods at their heights, through web and packing, nuts outside.
    fn rods_in_section(&self, page: &mut Page, section: &Section, cut: Cut) {
        let web = section.web().as_inches() / 2.0;
        let reach = Side::BOTH.map(|side| {
            let total = self.report.stack(side).map(|s| s.total.as_inches());
            web + total.unwrap_or(0.0)
        });
        for row in Row::BOTH {
            let Some(height) = self.report.row_height(row) else {
                continue;
            };
            let y = cut.floor - height.as_inches() * cut.scale;
            for (side, reach) in Side::BOTH.into_iter().zip(reach) {
                let end = cut.middle + sign(side) * (reach + 0.9) * cut.scale;
                page.line([cut.middle, y], [end, y], Stroke::Solid);
                let face = cut.middle + sign(side) * reach * cut.scale;
                let nut = face + sign(side) * 0.5 * cut.scale;
                let (left, right) = (face.min(nut), face.max(nut));
                page.area([left, y - 2.4, right, y + 2.4], Fill::Black, false);
            }
        }
    }
}

/// A line of a table as running text: `a: ply, 19/32", rip to 9 5/16"`.
fn in_a_row(line: &str) -> String {
    let cells = line
        .split("  ")
        .map(str::trim)
        .filter(|cell| !cell.is_empty());
    let text = cells.collect::<Vec<_>>().join(", ");
    match text.split_once(", ") {
        Some((letter, rest)) if letter.len() == 1 => format!("{letter}: {rest}"),
        _ => text,
    }
}

/// Side N is drawn at the left.
const fn sign(side: Side) -> f64 {
    match side {
        Side::N => -1.0,
        Side::S => 1.0,
    }
}

fn steel(page: &mut Page, section: &Section, cut: Cut, top: f64) {
    let half = section.width().as_inches() / 2.0 * cut.scale;
    let web = section.web().as_inches() / 2.0 * cut.scale;
    let flange = section.flange().as_inches() * cut.scale;
    let (left, right) = (cut.middle - half, cut.middle + half);
    page.area([left, top, right, top + flange], Fill::Grey, true);
    page.area(
        [left, cut.floor, right, cut.floor + flange],
        Fill::Grey,
        true,
    );
    let web = [cut.middle - web, top + flange, cut.middle + web, cut.floor];
    page.area(web, Fill::Grey, true);
}

fn layers(page: &mut Page, section: &Section, stack: &Stack, side: Side, cut: Cut) {
    let mut from = section.web().as_inches() / 2.0;
    for (index, layer) in stack.layers.iter().enumerate() {
        let to = from + layer.thickness.as_inches();
        let clear = section.clear_height();
        let rip = layer.rip.unwrap_or(clear).as_inches();
        let lift = if layer.seats {
            0.0
        } else {
            (clear.as_inches() - rip) / 2.0
        };
        let a = cut.middle + sign(side) * from * cut.scale;
        let b = cut.middle + sign(side) * to * cut.scale;
        let bottom = cut.floor - lift * cut.scale;
        let top = bottom - rip * cut.scale;
        page.area([a.min(b), top, a.max(b), bottom], Fill::White, true);
        let letter = char::from(b'a' + u8::try_from(index).unwrap_or(0).min(25));
        let middle = [(a + b) / 2.0, (top + bottom) / 2.0 + 2.5];
        page.text_if_free(
            middle,
            super::page::plain(7.0).centred(),
            &letter.to_string(),
        );
        from = to;
    }
}
