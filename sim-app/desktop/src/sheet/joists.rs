//! Joists of both sides: folded out beside the beam, and where they stand
//! against the web.
//!
//! Side N leans, side S is dotted, so that two joists across from each other
//! stay two. A hanger is the empty bracket around its joist.

use super::Sheet;
use super::layout::{BAND, LANE, Strip};
use super::page::{Fill, Page, Stroke, bold};
use super::running::Edges;
use boltbay_core::Length;
use boltbay_core::joists::Joist;
use boltbay_core::words::Side;

impl Sheet<'_> {
    /// Bands and footprints.
    pub(super) fn joists(&self, page: &mut Page, strip: &Strip, edges: Edges) {
        for joist in &self.report.plan.joists {
            footprint(page, joist, strip, edges);
            in_band(page, joist, strip, edges);
        }
    }

    /// `N3` beside its joist, where there is room.
    pub(super) fn joist_names(&self, page: &mut Page, strip: &Strip, edges: Edges) {
        for joist in &self.report.plan.joists {
            let centre = (joist.from.as_inches() + joist.to.as_inches()) / 2.0;
            if centre < strip.from || centre > strip.to {
                continue;
            }
            let name = format!("{}{}", self.report.job.letter(joist.side), joist.number);
            let y = match joist.side {
                Side::N => edges.beam_top - BAND - 2.0,
                Side::S => edges.beam_bottom + BAND + LANE - 1.5,
            };
            page.text_if_free([strip.x(centre), y], bold(7.0).centred(), &name);
        }
    }
}

/// The hatch of a side.
pub const fn hatch(side: Side) -> Fill {
    match side {
        Side::N => Fill::Lean,
        Side::S => Fill::Dots,
    }
}

/// Where the joist stands against the web, its hanger's metal in light grey.
fn footprint(page: &mut Page, joist: &Joist, strip: &Strip, edges: Edges) {
    let (top, bottom) = (edges.beam_top, edges.beam_bottom);
    let (from, to) = with_hanger(joist);
    if let Some((left, right)) = strip.part(from, to) {
        page.line([left, top], [left, bottom], Stroke::Dashed);
        page.line([right, top], [right, bottom], Stroke::Dashed);
    }
    if let Some((left, right)) = strip.part(joist.from, joist.to) {
        page.area([left, top, right, bottom], hatch(joist.side), false);
        page.line([left, top], [left, bottom], Stroke::Thin);
        page.line([right, top], [right, bottom], Stroke::Thin);
    }
}

/// The joist in its band, its hanger around it.
fn in_band(page: &mut Page, joist: &Joist, strip: &Strip, edges: Edges) {
    let (far, near) = match joist.side {
        Side::N => (edges.beam_top - BAND, edges.beam_top),
        Side::S => (edges.beam_bottom + BAND, edges.beam_bottom),
    };
    let (from, to) = with_hanger(joist);
    let shoulder = near + (far - near) * 0.45;
    if let Some((left, right)) = strip.part(from, to) {
        page.area(upright([left, near, right, shoulder]), Fill::White, true);
    }
    if let Some((left, right)) = strip.part(joist.from, joist.to) {
        page.area(upright([left, near, right, far]), Fill::White, false);
        page.area(upright([left, near, right, far]), hatch(joist.side), true);
    }
}

fn with_hanger(joist: &Joist) -> (Length, Length) {
    (
        joist.from.saturating_sub(joist.metal),
        joist.to.saturating_add(joist.metal),
    )
}

/// Top before bottom.
fn upright([left, a, right, b]: [f64; 4]) -> [f64; 4] {
    [left, a.min(b), right, a.max(b)]
}
