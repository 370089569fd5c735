//! Running dimensions: what the tape reads at each mark, from both ends.
//!
//! In: the placement. Out: one label a mark and end, set upright beside the
//! beam, joined to its hole by a thin line.

use super::layout::{BAND, LANE, LEADER, Layout, Strip};
use super::page::{Page, Stroke, bold, plain};
use super::spread::spread;
use super::{MARGIN, Sheet, letters};
use boltbay_core::Length;
use boltbay_core::placement::{PlacedHole, Verdict};
use boltbay_core::report::words;
use boltbay_core::words::{Row, Units};

/// A mark on the steel and what is written beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Station.
    pub at: Length,
    /// Number of the mark, from 1; 0 for the end of a stretch that blocks.
    pub number: u8,
    /// Reading from end A, and from end B where that is offered.
    pub readings: [String; 2],
    /// The rows that have a hole here.
    pub rows: Vec<Row>,
    /// The worst word about the holes here, if it is not FITS.
    pub word: Option<&'static str>,
}

/// Marks in order from end A: the holes, or where there is no plan also the
/// ends of the stretches that block.
pub fn marks(sheet: &Sheet<'_>) -> Vec<Mark> {
    let Some(placement) = sheet.report.plan.placement() else {
        return Vec::new();
    };
    let mut marks: Vec<Mark> = Vec::new();
    for hole in &placement.holes {
        match marks.last_mut() {
            Some(last) if last.at == hole.at => last.rows.push(hole.row),
            _ => marks.push(sheet.mark(hole.at, hole.station, vec![hole.row])),
        }
        if let Some(last) = marks.last_mut() {
            last.word = last.word.or(word(hole));
        }
    }
    for blocked in &placement.blocked {
        for at in [blocked.from, blocked.to] {
            if marks.iter().all(|mark| mark.at != at) {
                marks.push(sheet.mark(at, 0, Vec::new()));
            }
        }
    }
    marks.sort_by_key(|mark| mark.at);
    marks
}

fn word(hole: &PlacedHole) -> Option<&'static str> {
    match hole.verdict() {
        None | Some(Verdict::Fits) => None,
        Some(verdict) => Some(words::verdict(verdict)),
    }
}

/// Points that the labels of an end take, along their text.
pub fn height(marks: &[Mark], end: usize, size: f64, numbered: bool) -> f64 {
    let texts = marks.iter().map(|mark| mark.label(end, numbered));
    texts
        .map(|text| letters::width(&text, size, end == 0))
        .fold(0.0, f64::max)
}

impl Mark {
    /// What is written at an end: the reading, and at end A the worst word and,
    /// if wanted, the number.
    fn label(&self, end: usize, numbered: bool) -> String {
        let mut label = self.readings.get(end).cloned().unwrap_or_default();
        if end > 0 {
            return label;
        }
        if numbered && self.number > 0 {
            label = format!("({})  {label}", self.number);
        }
        if let Some(word) = self.word {
            label = format!("{label} {word}");
        }
        label
    }
}

impl Sheet<'_> {
    fn mark(&self, at: Length, number: u8, rows: Vec<Row>) -> Mark {
        let from_b = self.report.from_end_b();
        let figure = |length: Length| {
            let text = self.report.length_cell(length);
            text.trim_end_matches(" mm").to_owned()
        };
        Mark {
            at,
            number,
            readings: [
                figure(at),
                from_b.map_or(String::new(), |b| figure(b.reading(at).shown)),
            ],
            rows,
            word: None,
        }
    }

    /// Labels of both ends and their leaders.
    pub(super) fn running(&self, page: &mut Page, strip: &Strip, layout: &Layout) {
        if layout.in_table {
            return;
        }
        let marks: Vec<&Mark> = layout
            .marks
            .iter()
            .filter(|mark| strip.holds(mark.at))
            .collect();
        let wanted: Vec<f64> = marks.iter().map(|m| strip.x(m.at.as_inches())).collect();
        let most = page.paper.width - MARGIN - 4.0;
        let places = spread(&wanted, layout.room(), strip.left + 2.0, most);
        let edge = Edges::of(strip, layout);
        let size = layout.size;
        for ((mark, wanted), place) in marks.iter().zip(&wanted).zip(&places) {
            let label = mark.label(0, layout.numbered);
            label_a(page, &label, (*wanted, *place), edge, size);
            if !mark.readings[1].is_empty() {
                label_b(page, mark, (*wanted, *place), edge, size);
            }
        }
        self.end_words(page, strip, edge);
    }

    /// FROM END A, FROM END B at the left of the strip.
    fn end_words(&self, page: &mut Page, strip: &Strip, edge: Edges) {
        let x = strip.left - 7.0;
        let face = bold(7.0).ending();
        page.text([x, edge.a - 9.0], face, "FROM");
        page.text([x, edge.a - 1.0], face, "END A");
        if self.report.job.units == Units::Metric {
            page.text([x, edge.a - 17.0], face, "mm");
        }
        if self.report.from_end_b().is_some() {
            page.text([x, edge.b + 7.0], face, "FROM");
            page.text([x, edge.b + 15.0], face, "END B");
        }
    }
}

fn label_a(page: &mut Page, label: &str, (x, place): (f64, f64), edge: Edges, size: f64) {
    let base = place + size * 0.36;
    page.text([base, edge.a], bold(size).upward(), label);
    page.path(
        &[
            [place, edge.a + 2.0],
            [x, edge.a + LEADER],
            [x, edge.beam_top],
        ],
        Stroke::Thin,
    );
}

fn label_b(page: &mut Page, mark: &Mark, (x, place): (f64, f64), edge: Edges, size: f64) {
    let base = place + size * 0.36;
    let face = plain(size).upward().ending();
    page.text([base, edge.b], face, &mark.label(1, false));
    page.path(
        &[
            [x, edge.beam_bottom],
            [x, edge.b - LEADER],
            [place, edge.b - 2.0],
        ],
        Stroke::Thin,
    );
}

/// Heights on the page at which the parts of a strip begin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edges {
    /// Where labels from end A end and their leaders start.
    pub a: f64,
    /// Upper edge of the steel.
    pub beam_top: f64,
    /// Lower edge of the steel.
    pub beam_bottom: f64,
    /// Where labels from end B start.
    pub b: f64,
}

impl Edges {
    /// The edges of a strip.
    pub fn of(strip: &Strip, layout: &Layout) -> Edges {
        let leader = if layout.in_table { 0.0 } else { LEADER };
        let a = strip.top + layout.figures[0] + 3.0;
        let beam_top = a + leader + LANE + BAND;
        let beam_bottom = beam_top + layout.deep;
        Edges {
            a,
            beam_top,
            beam_bottom,
            b: beam_bottom + BAND + LANE + leader,
        }
    }
}
