//! Holes as they are punched: a ring with a cross.
//!
//! Planned: a white ring. Marked: a second ring around it. Drilled: black. A
//! mark to strike out: a dashed ring with a bar. Abandoned: grey, no cross.

use super::Sheet;
use super::layout::Strip;
use super::page::{Fill, Page, Stroke, bold};
use super::running::Edges;
use boltbay_core::Length;
use boltbay_core::job::HoleState;
use boltbay_core::placement::State;
use boltbay_core::words::Row;

/// Radius of the ring in points.
const RING: f64 = 2.5;
/// Half the length of the cross.
const CROSS: f64 = 4.2;

impl Sheet<'_> {
    /// All holes and their numbers.
    pub(super) fn bolts(&self, page: &mut Page, strip: &Strip, edges: Edges) {
        self.abandoned(page, strip, edges);
        let Some(placement) = self.report.plan.placement() else {
            return;
        };
        for hole in placement.holes.iter().filter(|hole| strip.holds(hole.at)) {
            let at = [
                strip.x(hole.at.as_inches()),
                self.row_y(hole.row, strip, edges),
            ];
            symbol(page, at, hole.state);
        }
        for index in &placement.struck_out {
            if let Some((at, row)) = self.report.mark(*index)
                && strip.holds(at)
            {
                let y = self.row_y(row, strip, edges);
                struck_out(page, [strip.x(at.as_inches()), y]);
            }
        }
        if self.numbers_fit(strip.scale) {
            self.numbers(page, strip, edges);
        }
    }

    /// The number of each mark in the middle of the web, where there is room.
    fn numbers(&self, page: &mut Page, strip: &Strip, edges: Edges) {
        let Some(placement) = self.report.plan.placement() else {
            return;
        };
        let middle = (edges.beam_top + edges.beam_bottom) / 2.0;
        for hole in placement.holes.iter().filter(|hole| strip.holds(hole.at)) {
            let at = [strip.x(hole.at.as_inches()), middle + 2.6];
            page.tag_if_free(at, bold(7.4).centred(), &hole.station.to_string());
        }
    }

    fn abandoned(&self, page: &mut Page, strip: &Strip, edges: Edges) {
        let Some(frame) = self.report.plan.frame else {
            return;
        };
        let abandoned = |hole: &&boltbay_core::job::Hole| hole.state == HoleState::Abandoned;
        for hole in self.report.job.holes.iter().filter(abandoned) {
            if let Ok(at) = frame.station(hole.at())
                && strip.holds(at)
            {
                let y = self.row_y(hole.row, strip, edges);
                page.ring([strip.x(at.as_inches()), y], RING, Fill::Grey, Stroke::Thin);
            }
        }
    }

    /// Height of a row on the page.
    pub(super) fn row_y(&self, row: Row, strip: &Strip, edges: Edges) -> f64 {
        let flange = self.section.map_or(0.4, |s| s.flange().as_inches());
        let height = self.height_or_usual(row).as_inches();
        edges.beam_bottom - (flange + height) * strip.scale
    }

    fn height_or_usual(&self, row: Row) -> Length {
        self.report.row_height(row).unwrap_or(match row {
            Row::Top => Length::from_inches(6),
            Row::Bot => Length::from_inches(2),
        })
    }
}

/// A hole of the plan.
pub fn symbol(page: &mut Page, [x, y]: [f64; 2], state: State) {
    if state == State::Marked {
        page.ring([x, y], RING + 1.4, Fill::White, Stroke::Thin);
    }
    let fill = match state {
        State::Planned | State::Marked => Fill::White,
        State::Drilled => Fill::Black,
    };
    page.line([x - CROSS, y], [x + CROSS, y], Stroke::Thin);
    page.line([x, y - CROSS], [x, y + CROSS], Stroke::Thin);
    page.ring([x, y], RING, fill, Stroke::Solid);
    if state != State::Drilled {
        page.line([x - RING, y], [x + RING, y], Stroke::Thin);
        page.line([x, y - RING], [x, y + RING], Stroke::Thin);
    }
}

/// A mark that no longer stands.
pub fn struck_out(page: &mut Page, [x, y]: [f64; 2]) {
    page.ring([x, y], RING, Fill::White, Stroke::Dashed);
    page.line(
        [x - CROSS - 1.0, y - 2.0],
        [x + CROSS + 1.0, y + 2.0],
        Stroke::Solid,
    );
}
