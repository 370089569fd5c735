//! What is in the way, where bolts may stand, and what blocks.
//!
//! Free stretches are slim open slots along their row. An obstacle is a box in
//! the band of its side: grey where it is solid, dashed where only access is
//! barred; a zone is a barred strip along the web. A stretch that blocks is a
//! black beam between two stops, with its number in a disc.

use super::Sheet;
use super::layout::{BAND, LANE, Strip};
use super::page::{Fill, Page, Stroke, bold, plain};
use super::running::Edges;
use boltbay_core::Length;
use boltbay_core::job::{Keepout, KeepoutKind, Stays};
use boltbay_core::words::{Row, Side};

/// Half the height of a free stretch in points.
const SLOT: f64 = 1.5;

impl Sheet<'_> {
    /// Obstacles, zones and the points that the note wants a bolt near.
    pub(super) fn things(&self, page: &mut Page, strip: &Strip, edges: Edges) {
        for (index, keepout) in (0_u8..).zip(&self.report.job.keepouts) {
            let Some((from, to)) = self.extent(keepout) else {
                continue;
            };
            let Some((left, right)) = strip.part(from, to) else {
                continue;
            };
            let mut name = String::new();
            // Writing to a string cannot fail.
            let _ = self.report.keepout(index, &mut name);
            match keepout.kind {
                KeepoutKind::Zone => zone(page, [left, right], edges, &name),
                KeepoutKind::Solid | KeepoutKind::Access => {
                    obstacle(page, keepout, [left, right], edges, &name);
                }
            }
        }
        self.near_points(page, strip, edges);
    }

    /// Stations of a keep-out as the beam ended up.
    fn extent(&self, keepout: &Keepout) -> Option<(Length, Length)> {
        let frame = self.report.plan.frame?;
        let station = |position| {
            let at = frame.station_anywhere(position).ok()?;
            Some(match keepout.stays {
                Stays::Stays => frame.as_placed(at),
                Stays::Rides => at,
            })
        };
        Some((station(keepout.from)?, station(keepout.to)?))
    }

    /// Where a bolt of each row may stand, other holes left aside.
    pub(super) fn free_stretches(&self, page: &mut Page, strip: &Strip, edges: Edges) {
        let Some(free) = self.free else { return };
        for (row, spans) in Row::BOTH.into_iter().zip(free) {
            if self.report.row_height(row).is_none() {
                continue;
            }
            let y = self.row_y(row, strip, edges);
            for span in spans {
                if let Some((left, right)) = strip.part(span.from, span.to) {
                    let right = right.max(left + 0.8);
                    page.area([left, y - SLOT, right, y + SLOT], Fill::White, true);
                }
            }
        }
    }

    /// Numbered stretches that no bolt pattern gets over.
    pub(super) fn blocking(&self, page: &mut Page, strip: &Strip, edges: Edges) {
        let Some(placement) = self.report.plan.placement() else {
            return;
        };
        for (index, blocked) in placement.blocked.iter().enumerate() {
            let Some((left, right)) = strip.part(blocked.from, blocked.to) else {
                continue;
            };
            let y = (edges.beam_top + edges.beam_bottom) / 2.0;
            page.area([left, y - 1.6, right, y + 1.6], Fill::Black, false);
            for x in [left, right] {
                page.line([x, y - 6.0], [x, y + 6.0], Stroke::Heavy);
            }
            let x = (left + right) / 2.0;
            page.ring([x, y], 6.2, Fill::White, Stroke::Solid);
            page.text_if_free([x, y + 3.0], bold(8.0).centred(), &(index + 1).to_string());
        }
    }

    fn near_points(&self, page: &mut Page, strip: &Strip, edges: Edges) {
        let Some(frame) = self.report.plan.frame else {
            return;
        };
        for near in &self.report.job.nears {
            let Ok(at) = frame.station_anywhere(near.at) else {
                continue;
            };
            if !strip.holds(at) {
                continue;
            }
            let (x, y) = (strip.x(at.as_inches()), edges.beam_bottom);
            let foot = y + 8.0;
            page.polygon(
                &[[x, y + 0.5], [x - 5.0, foot], [x + 5.0, foot]],
                Fill::Black,
            );
            let lane = edges.beam_bottom + BAND + LANE - 1.5;
            page.text_if_free([x, lane], plain(7.0).centred(), &near.name);
        }
    }
}

fn obstacle(page: &mut Page, keepout: &Keepout, [left, right]: [f64; 2], edges: Edges, name: &str) {
    for side in Side::BOTH.into_iter().filter(|s| keepout.sides.holds(*s)) {
        let (top, bottom, lane) = match side {
            Side::N => (
                edges.beam_top - BAND,
                edges.beam_top,
                edges.beam_top - BAND - 2.0,
            ),
            Side::S => (
                edges.beam_bottom,
                edges.beam_bottom + BAND,
                edges.beam_bottom + BAND + LANE - 1.5,
            ),
        };
        if keepout.kind == KeepoutKind::Solid {
            page.area([left, top, right, bottom], Fill::Grey, true);
        } else {
            dashed_box(page, [left, top, right, bottom]);
        }
        let middle = (left + right) / 2.0;
        page.text_if_free([middle, lane], plain(7.0).centred(), name);
    }
}

fn zone(page: &mut Page, [left, right]: [f64; 2], edges: Edges, name: &str) {
    let (top, bottom) = (edges.beam_top, edges.beam_bottom);
    let middle = (top + bottom) / 2.0;
    page.area([left, middle - 2.0, right, middle + 2.0], Fill::Bars, true);
    for x in [left, right] {
        page.line([x, top], [x, bottom], Stroke::DashDot);
    }
    let lane = edges.beam_bottom + BAND + LANE - 1.5;
    page.text_if_free([(left + right) / 2.0, lane], plain(7.0).centred(), name);
}

/// An outline of dashes.
pub fn dashed_box(page: &mut Page, [left, top, right, bottom]: [f64; 4]) {
    let corners = [
        [left, top],
        [right, top],
        [right, bottom],
        [left, bottom],
        [left, top],
    ];
    page.path(&corners, Stroke::Dashed);
}
