//! The sheet for the wall and the inspector: one landscape page, black and
//! white, and two more where loads or checks are asked for.
//!
//! In: a job and its plan. Out: an SVG drawing: the beam to scale in one to
//! three strips with the joists of both sides, everything in the way, free
//! stretches, holes with running dimensions from both ends; the packing in
//! section; rods and cuts; the rule said back; cautions; the plan code; what
//! lifts. Joists,
//! hangers, holes and free stretches differ in shape and hatch, never in colour
//! alone. A hole is a ringed cross: an X between two lines would be a joist.

mod below;
mod bolts;
mod checks;
mod column;
mod head;
mod joists;
mod layout;
mod legend;
mod letters;
mod page;
mod running;
mod section;
mod spread;
mod strip;
mod table;
mod things;

pub use page::{A4, LETTER, Page, Paper, TextBox, svg};

use below::Lists;
use boltbay_core::hardware::Hardware;
use boltbay_core::placement::Windows;
use boltbay_core::report::Report;
use boltbay_core::shapes::Section;
use boltbay_core::words::Units;
use layout::Layout;

/// Everything that the sheet shows.
#[derive(Clone, Copy)]
pub struct Sheet<'a> {
    /// Job and plan.
    pub report: Report<'a>,
    /// Where bolts may stand, top row first; `None` where that is not known.
    pub free: Option<&'a Windows>,
    /// The steel, where the table or the card knows it.
    pub section: Option<Section>,
    /// Bolts, nuts, washers.
    pub hardware: Option<Hardware>,
}

impl<'a> Sheet<'a> {
    /// The sheet of a job.
    pub fn new(report: Report<'a>, free: Option<&'a Windows>) -> Self {
        Sheet {
            report,
            free,
            section: Section::of(report.job),
            hardware: Hardware::of(report.job),
        }
    }

    /// All of it: the beam, and pages of figures and of sources where anything
    /// is checked.
    pub fn pages(&self) -> Vec<Page> {
        let mut pages = vec![self.draw()];
        pages.extend(self.draw_checks());
        pages
    }

    fn paper(&self) -> Paper {
        match self.report.job.units {
            Units::Imperial => LETTER,
            Units::Metric => A4,
        }
    }

    /// Draws the beam.
    pub fn draw(&self) -> Page {
        let paper = self.paper();
        let mut page = Page::new(paper);
        let top = self.head(&mut page);
        let bottom = self.legend(&mut page);
        let ways = Layout::ways(self, paper, top, bottom);
        let fits = |layout: &Layout, lists: Lists| {
            let mut trial = Page::new(paper);
            let below = self.table(&mut trial, layout);
            self.best_columns(paper, [below, bottom], lists).is_some()
        };
        let whole = ways.iter().find(|way| fits(way, Lists::WithSection));
        let chosen = whole.or_else(|| ways.iter().find(|way| fits(way, Lists::All)));
        if let Some(layout) = chosen.or(ways.first()) {
            for strip in &layout.strips {
                self.strip(&mut page, strip, layout);
            }
            let below = self.table(&mut page, layout);
            self.below(&mut page, [below, bottom]);
        }
        page
    }
}

/// Space kept free around the page, in points.
const MARGIN: f64 = 26.0;
