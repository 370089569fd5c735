//! One piece of the beam, seen from the side with its joists folded out.
//!
//! ```text
//!   labels FROM END A          | | |
//!   joists of side N     [ ]    |   [ ]
//!   TOP flange         ==================
//!   web                    +          +
//!   BOT flange         ==================
//!   joists of side S     [ ]        [ ]
//!   labels FROM END B          | | |
//! ```

use super::Sheet;
use super::layout::{BAND, LANE, Layout, Strip};
use super::page::{Fill, Page, Stroke, bold};
use super::running::Edges;
use boltbay_core::words::{End, Side};

impl Sheet<'_> {
    /// Draws a strip, from the back to the front.
    pub(super) fn strip(&self, page: &mut Page, strip: &Strip, layout: &Layout) {
        let edges = Edges::of(strip, layout);
        self.walls(page, strip, edges);
        self.bare_steel(page, strip, edges);
        self.joists(page, strip, edges);
        self.steel(page, strip, edges);
        self.things(page, strip, edges);
        self.free_stretches(page, strip, edges);
        self.running(page, strip, layout);
        self.bolts(page, strip, edges);
        self.blocking(page, strip, edges);
        self.joist_names(page, strip, edges);
        self.row_words(page, strip, edges);
    }

    /// Flanges and ends of the steel; where the strip goes on, a broken edge.
    fn steel(&self, page: &mut Page, strip: &Strip, edges: Edges) {
        let (left, right) = (strip.x(strip.from), strip.x(strip.to));
        let flange = self.flange(strip);
        let (top, bottom) = (edges.beam_top, edges.beam_bottom);
        page.area([left, top, right, top + flange], Fill::Grey, true);
        page.area([left, bottom - flange, right, bottom], Fill::Grey, true);
        end_line(page, left, edges, strip.has_a);
        end_line(page, right, edges, strip.has_b);
        let base = (top + bottom) / 2.0 + 4.5;
        if strip.has_a {
            page.text([left - 4.0, base], bold(13.0).ending(), "A");
        }
        if strip.has_b {
            page.text([right + 5.0, base], bold(13.0), "B");
        }
    }

    /// Thickness of a flange in points, thick enough to print.
    pub(super) fn flange(&self, strip: &Strip) -> f64 {
        let inches = self.section.map_or(0.4, |s| s.flange().as_inches());
        (inches * strip.scale).max(1.4)
    }

    /// The walls beyond their faces.
    fn walls(&self, page: &mut Page, strip: &Strip, edges: Edges) {
        let Some(frame) = self.report.plan.frame else {
            return;
        };
        let [a, b] = frame.faces.map(|face| face.map(|f| frame.as_placed(f)));
        let (high, low) = (edges.beam_top - BAND - 1.0, edges.beam_bottom + BAND + 1.0);
        for (face, end) in [(a, End::A), (b, End::B)] {
            let Some(face) = face else { continue };
            let (from, to) = match end {
                End::A => (strip.from, face.as_inches()),
                End::B => (face.as_inches(), strip.to),
            };
            let (from, to) = (from.max(strip.from), to.min(strip.to));
            if from >= to {
                continue;
            }
            let edges = [strip.x(from), high, strip.x(to), low];
            page.area(edges, Fill::Bars, false);
            let x = strip.x(face.as_inches());
            page.line([x, high], [x, low], Stroke::Solid);
        }
    }

    /// The web is white where it is packed, grey where it is bare.
    fn bare_steel(&self, page: &mut Page, strip: &Strip, edges: Edges) {
        let (top, bottom) = (edges.beam_top, edges.beam_bottom);
        let all = [strip.x(strip.from), top, strip.x(strip.to), bottom];
        page.area(all, Fill::Light, false);
        let (Some(frame), job) = (self.report.plan.frame, self.report.job) else {
            return;
        };
        for piece in frame.packing(job).iter().flatten() {
            let Some((from, to)) = strip.part(piece.from, piece.to) else {
                continue;
            };
            page.area([from, top, to, bottom], Fill::White, false);
            for (at, x) in [(piece.from, from), (piece.to, to)] {
                if strip.holds(at) {
                    page.line([x, top], [x, bottom], Stroke::Solid);
                }
            }
        }
    }

    /// SIDE N, TOP, BOT, SIDE S at the left of the strip.
    fn row_words(&self, page: &mut Page, strip: &Strip, edges: Edges) {
        let x = strip.left - 14.0;
        let face = bold(7.0).ending();
        let letters = Side::BOTH.map(|side| self.report.job.letter(side));
        page.text(
            [x, edges.beam_top - BAND / 2.0],
            face,
            &format!("SIDE {}", letters[0]),
        );
        page.text(
            [x, edges.beam_bottom + BAND / 2.0 + 5.0],
            face,
            &format!("SIDE {}", letters[1]),
        );
        let middle = (edges.beam_top + edges.beam_bottom) / 2.0;
        let top = (edges.beam_top + 6.0).min(middle - 1.0);
        let bottom = (edges.beam_bottom - 1.0).max(middle + 6.0);
        page.text([x, top], face, "TOP");
        page.text([x, bottom], face, "BOT");
    }
}

/// An end of the steel, or a broken edge where the strip goes on.
fn end_line(page: &mut Page, x: f64, edges: Edges, is_end: bool) {
    let (top, bottom) = (edges.beam_top, edges.beam_bottom);
    if is_end {
        page.line([x, top], [x, bottom], Stroke::Solid);
        return;
    }
    let middle = (top + bottom) / 2.0;
    let points = [
        [x, top - LANE / 2.0],
        [x, middle - 4.0],
        [x - 3.0, middle - 1.5],
        [x + 3.0, middle + 1.5],
        [x, middle + 4.0],
        [x, bottom + LANE / 2.0],
    ];
    page.path(&points, Stroke::Dashed);
}
