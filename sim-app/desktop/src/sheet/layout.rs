//! Where things stand on the page: strips, scale, heights.
//!
//! In: the sheet and the room between head and legend. Out: ways to lay the
//! beam out, the best one first: strips at one scale, with running dimensions
//! beside the beam or, where they do not fit side by side, in a table. Rule: a
//! scale above 3 points to the inch is worth no more, a larger figure is worth
//! a little, of two alike the one with fewer strips.

use super::running::{self, Mark};
use super::{MARGIN, Paper, Sheet};
use boltbay_core::Length;
use boltbay_core::words::Row;

/// Sizes of running dimensions in points, the largest first.
const FIGURES: [f64; 4] = [11.0, 9.8, 8.6, 7.6];
/// Room that a running dimension needs beside its neighbour, of its size.
const ROOM: f64 = 1.12;
/// A point of the figure's size is worth so much of the scale.
const WORTH: f64 = 0.12;
/// A larger scale is worth no more.
const SCALE_ENOUGH: f64 = 3.0;
/// Left of the beam: what the lines of a strip are.
pub const GUTTER: f64 = 50.0;
/// Height of a band of joists.
pub const BAND: f64 = 13.0;
/// Height of the names beside a band.
pub const LANE: f64 = 9.0;
/// Height over which a leader finds its hole.
pub const LEADER: f64 = 10.0;
/// Points that FROM END A beside the dimensions needs.
const CAPTION: f64 = 24.0;
/// Points left for lists under the strips.
const BELOW: f64 = 104.0;
/// The largest scale, points to the inch of steel.
const LARGEST: f64 = 7.0;
/// Below this nothing could be told apart.
const SMALLEST: f64 = 0.4;
/// Between a row of bolts and the middle of the web, for a number there.
const NUMBER: f64 = 6.4;
/// Most strips.
const STRIPS: usize = 3;

/// A piece of the beam, drawn in one line.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// Inches from end A where it starts.
    pub from: f64,
    /// And where it ends.
    pub to: f64,
    /// Points where `from` lies.
    pub left: f64,
    /// Points where the strip starts, labels included.
    pub top: f64,
    /// Points to the inch.
    pub scale: f64,
    /// First strip: end A is drawn.
    pub has_a: bool,
    /// Last strip: end B is drawn.
    pub has_b: bool,
}

impl Strip {
    /// Points from the left edge of the page.
    pub fn x(&self, inches: f64) -> f64 {
        self.left + (inches - self.from) * self.scale
    }

    /// The part of a stretch that this strip shows.
    pub fn part(&self, from: Length, to: Length) -> Option<(f64, f64)> {
        let from = from.as_inches().max(self.from);
        let to = to.as_inches().min(self.to);
        (from <= to).then(|| (self.x(from), self.x(to)))
    }

    /// Whether a mark lies on this strip.
    pub fn holds(&self, at: Length) -> bool {
        let at = at.as_inches();
        at >= self.from && (at < self.to || (self.has_b && at <= self.to))
    }
}

/// The page between head and legend.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// Pieces of the beam from end A.
    pub strips: Vec<Strip>,
    /// Marks with their running dimensions.
    pub marks: Vec<Mark>,
    /// The dimensions stand in a table.
    pub in_table: bool,
    /// Their numbers stand before the dimensions, not in the web.
    pub numbered: bool,
    /// Size of the running dimensions in points.
    pub size: f64,
    /// Points that dimensions from end A take, and those from end B.
    pub figures: [f64; 2],
    /// Points of the beam's depth.
    pub deep: f64,
    /// Points where the strips end.
    pub bottom: f64,
}

impl Layout {
    /// Ways to lay a sheet out between `top` and `bottom`, the best first.
    pub fn ways(sheet: &Sheet<'_>, paper: Paper, top: f64, bottom: f64) -> Vec<Layout> {
        let marks = running::marks(sheet);
        let Some(frame) = sheet.report.plan.frame else {
            return vec![Layout::empty(marks, top)];
        };
        let room = Room {
            length: frame.length.as_inches().max(1.0),
            depth: sheet.depth(),
            width: paper.width - 2.0 * MARGIN - GUTTER - 22.0,
            top,
            height: bottom - top - BELOW,
        };
        let each = (1..=STRIPS).flat_map(|strips| FIGURES.map(|size| (strips, size)));
        let mut ways: Vec<Layout> = each
            .filter_map(|(strips, size)| room.lay(sheet, &marks, size, strips))
            .collect();
        ways.sort_by(|a, b| b.worth().total_cmp(&a.worth()));
        if ways.is_empty() {
            ways.extend(
                [2, 1]
                    .map(|strips| room.lay(sheet, &marks, 0.0, strips))
                    .into_iter()
                    .flatten(),
            );
        }
        if ways.is_empty() {
            ways.push(Layout::empty(marks, top));
        }
        ways
    }

    fn empty(marks: Vec<Mark>, top: f64) -> Layout {
        Layout {
            strips: Vec::new(),
            marks,
            in_table: true,
            numbered: false,
            size: 0.0,
            figures: [0.0; 2],
            deep: 0.0,
            bottom: top,
        }
    }

    fn worth(&self) -> f64 {
        let scale = self.strips.first().map_or(0.0, |strip| strip.scale);
        scale.min(SCALE_ENOUGH) + WORTH * self.size
    }
}

/// What there is to lay out.
struct Room {
    length: f64,
    depth: f64,
    width: f64,
    top: f64,
    height: f64,
}

impl Room {
    /// So many strips with dimensions of this size beside them (0: in a table),
    /// or `None` where they do not fit. Where the web is too low for the numbers
    /// of the marks, they stand before the dimensions.
    fn lay(&self, sheet: &Sheet<'_>, marks: &[Mark], size: f64, strips: usize) -> Option<Layout> {
        let in_table = size == 0.0 || marks.is_empty();
        let plain = Beside {
            size,
            in_table,
            numbered: false,
        };
        let laid = self.lay_beside(sheet, marks, plain, strips)?;
        let scale = laid.strips.first().map_or(0.0, |strip| strip.scale);
        if in_table || sheet.numbers_fit(scale) {
            return Some(laid);
        }
        let numbered = Beside {
            numbered: true,
            ..plain
        };
        self.lay_beside(sheet, marks, numbered, strips)
    }

    fn lay_beside(
        &self,
        sheet: &Sheet<'_>,
        marks: &[Mark],
        beside: Beside,
        count: usize,
    ) -> Option<Layout> {
        let figures = beside.heights(marks);
        let around = around(figures, beside.in_table);
        let scale = self.scale(count, around)?;
        let deep = self.depth * scale;
        let strips = self.strips(&cuts(sheet, self.length, count), scale, around + deep);
        let fits = |strip: &Strip| {
            let labels = marks.iter().filter(|mark| strip.holds(mark.at)).count();
            let wide = (strip.to - strip.from) * scale <= self.width;
            wide && (beside.in_table || labels as f64 * ROOM * beside.size <= self.width)
        };
        strips.iter().all(fits).then(|| Layout {
            strips,
            marks: marks.to_vec(),
            in_table: beside.in_table,
            numbered: beside.numbered,
            size: beside.size,
            figures,
            deep,
            bottom: self.top + (around + deep) * count as f64,
        })
    }

    /// The largest scale at which so many strips fit; `None` where nothing
    /// could be told apart.
    fn scale(&self, strips: usize, around: f64) -> Option<f64> {
        let height = self.height / strips as f64;
        let by_width = self.width * strips as f64 / (self.length * 1.01);
        let by_height = (height - around) / self.depth;
        let scale = by_width.min(by_height).min(LARGEST);
        (scale > SMALLEST).then_some(scale)
    }

    fn strips(&self, cuts: &[f64], scale: f64, pitch: f64) -> Vec<Strip> {
        let last = cuts.len().saturating_sub(2);
        let strip = |(index, ends): (usize, &[f64])| Strip {
            from: ends[0],
            to: ends[1],
            left: MARGIN + GUTTER,
            top: self.top + pitch * index as f64,
            scale,
            has_a: index == 0,
            has_b: index == last,
        };
        cuts.windows(2).enumerate().map(strip).collect()
    }
}

/// How dimensions stand beside the beam.
#[derive(Clone, Copy)]
struct Beside {
    size: f64,
    in_table: bool,
    numbered: bool,
}

impl Beside {
    /// Points that the dimensions of both ends take.
    fn heights(self, marks: &[Mark]) -> [f64; 2] {
        [0, 1].map(|end| match self.in_table {
            true => 0.0,
            false => running::height(marks, end, self.size, self.numbered).max(CAPTION),
        })
    }
}

/// Points of a strip that are not the beam itself.
fn around(figures: [f64; 2], in_table: bool) -> f64 {
    let bands = 2.0 * (BAND + LANE) + 6.0;
    if in_table {
        bands + 6.0
    } else {
        bands + figures[0] + figures[1] + 2.0 * LEADER + 8.0
    }
}

/// Inches at which strips start and end: the steel's ends, and between them
/// places near equal parts where no joist and no hole is cut.
fn cuts(sheet: &Sheet<'_>, length: f64, strips: usize) -> Vec<f64> {
    let mut cuts = vec![0.0];
    for index in 1..strips {
        let ideal = length * index as f64 / strips as f64;
        let steps = (0..24).flat_map(|step| [1.0, -1.0].map(|sign| 0.25 * f64::from(step) * sign));
        let free = steps
            .map(|step| ideal + step)
            .find(|x| !is_near_something(sheet, *x));
        cuts.push(free.unwrap_or(ideal));
    }
    cuts.push(length);
    cuts
}

fn is_near_something(sheet: &Sheet<'_>, x: f64) -> bool {
    let report = sheet.report;
    let joist = |from: Length, to: Length| from.as_inches() - 1.5 < x && x < to.as_inches() + 1.5;
    let hole = |at: Length| (at.as_inches() - x).abs() < 2.0;
    report.plan.joists.iter().any(|j| joist(j.from, j.to))
        || report
            .plan
            .placement()
            .is_some_and(|placement| placement.holes.iter().any(|h| hole(h.at)))
}

impl Sheet<'_> {
    /// Whether the numbers of the marks find room in the middle of the web,
    /// between the rows.
    pub(super) fn numbers_fit(&self, scale: f64) -> bool {
        let flange = self.section.map_or(0.4, |s| s.flange().as_inches());
        let rows = Row::BOTH.into_iter();
        rows.filter_map(|row| self.report.row_height(row))
            .map(|height| (flange + height.as_inches() - self.depth() / 2.0).abs())
            .all(|off| off * scale >= NUMBER)
    }

    /// Depth of the steel in inches; a usual one where it is not known.
    pub(super) fn depth(&self) -> f64 {
        self.section.map_or(10.0, |s| s.depth().as_inches())
    }
}

impl Layout {
    /// Points between the middles of two dimensions side by side.
    pub fn room(&self) -> f64 {
        self.size * ROOM
    }
}
