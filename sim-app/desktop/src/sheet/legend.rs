//! What the signs mean, in one line at the foot of the page.

use super::bolts;
use super::page::{Fill, Page, Stroke, plain};
use super::things::dashed_box;
use super::{MARGIN, Sheet, letters};
use boltbay_core::placement::State;

/// Size of the words.
const SIZE: f64 = 7.2;
/// Between a sign and its words.
const NEXT: f64 = 3.5;
/// Between two signs.
const APART: f64 = 9.5;

/// Draws a sign around its middle.
type Sign = fn(&mut Page, [f64; 2]);

impl Sheet<'_> {
    /// Draws the legend; says where it starts.
    pub(super) fn legend(&self, page: &mut Page) -> f64 {
        let base = page.paper.height - MARGIN + 4.0;
        let top = base - 12.0;
        page.line(
            [MARGIN, top],
            [page.paper.width - MARGIN, top],
            Stroke::Thin,
        );
        let [n, s] = self.report.job.sides.map(char::from);
        let signs: [(Sign, f64, String); 10] = [
            (planned, 9.0, "hole to drill".into()),
            (marked, 9.0, "marked".into()),
            (drilled, 9.0, "drilled".into()),
            (strike, 11.0, "strike out".into()),
            (slot, 16.0, "bolts may stand here".into()),
            (joist_n, 9.0, format!("joist {n}, hanger")),
            (joist_s, 9.0, format!("joist {s}, hanger")),
            (solid, 9.0, "solid thing".into()),
            (access, 9.0, "no access".into()),
            (bare, 10.0, "bare web".into()),
        ];
        let mut x = MARGIN;
        for (sign, width, words) in &signs {
            sign(page, [x + width / 2.0, base - 3.2]);
            x += width + NEXT;
            page.text([x, base - 0.6], plain(SIZE), words);
            x += letters::width(words, SIZE, false) + APART;
        }
        page.text([x, base - 0.6], plain(SIZE), "up is TOP, end A is left");
        top - 3.0
    }
}

fn planned(page: &mut Page, at: [f64; 2]) {
    bolts::symbol(page, at, State::Planned);
}

fn marked(page: &mut Page, at: [f64; 2]) {
    bolts::symbol(page, at, State::Marked);
}

fn drilled(page: &mut Page, at: [f64; 2]) {
    bolts::symbol(page, at, State::Drilled);
}

fn strike(page: &mut Page, at: [f64; 2]) {
    bolts::struck_out(page, at);
}

fn slot(page: &mut Page, [x, y]: [f64; 2]) {
    page.area([x - 8.0, y - 1.5, x + 8.0, y + 1.5], Fill::White, true);
}

fn joist_n(page: &mut Page, at: [f64; 2]) {
    joist(page, at, Fill::Lean);
}

fn joist_s(page: &mut Page, at: [f64; 2]) {
    joist(page, at, Fill::Dots);
}

fn joist(page: &mut Page, [x, y]: [f64; 2], hatch: Fill) {
    page.area([x - 4.5, y, x + 4.5, y + 4.0], Fill::White, true);
    page.area([x - 2.0, y - 4.0, x + 2.0, y + 4.0], Fill::White, false);
    page.area([x - 2.0, y - 4.0, x + 2.0, y + 4.0], hatch, true);
}

fn solid(page: &mut Page, [x, y]: [f64; 2]) {
    page.area([x - 4.0, y - 3.5, x + 4.0, y + 3.5], Fill::Grey, true);
}

fn access(page: &mut Page, [x, y]: [f64; 2]) {
    dashed_box(page, [x - 4.0, y - 3.5, x + 4.0, y + 3.5]);
}

fn bare(page: &mut Page, [x, y]: [f64; 2]) {
    page.area([x - 5.0, y - 3.5, x + 5.0, y + 3.5], Fill::Light, true);
}
