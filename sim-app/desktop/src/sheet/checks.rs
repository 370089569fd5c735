//! The pages of loads and checks: what lifts, reactions, the checks in the order
//! that a foreman asks; then where each limit comes from.
//!
//! In: a job and its plan. Out: landscape pages in columns: demand and capacity
//! with their units, then the ratio; OVER in bold where a limit is passed and
//! nothing where it is not.

use super::column::{Column, SIZES};
use super::page::{Page, Paper, Stroke, bold, plain};
use super::{MARGIN, Sheet, letters};
use boltbay_core::check::{Check, Checks, Kind, Needs, Question};
use boltbay_core::plan::Scratch;
use boltbay_core::report::{BOLTS_TWICE, FOREWORD, Report};
use boltbay_core::statics::{SegmentList, Statics};

/// Columns side by side, and the space between two.
const COLUMNS: usize = 3;
const GAP: f64 = 14.0;
/// Where demand, capacity, ratio and OVER end, as parts of a line's width.
const ENDS: [f64; 4] = [0.58, 0.805, 0.885, 1.0];
/// The frame of all places along the steel.
const FRAME: &str = " FROM END A";
/// Letters larger than this would not keep the figures of a line apart.
const LARGEST: f64 = 8.1;

/// What the page is made of.
struct Loads<'a> {
    report: Report<'a>,
    statics: Option<Statics>,
    segments: SegmentList,
    checks: &'a Checks,
}

impl Sheet<'_> {
    /// Draws the pages of loads and checks; none where nothing is checked.
    pub fn draw_checks(&self) -> Vec<Page> {
        let report = self.report;
        let (job, mut scratch) = (report.job, Box::<Scratch>::default());
        let statics = report.plan.statics(job, &mut scratch);
        let loaded = report.plan.loaded(job, &mut scratch);
        let segments = loaded.map(|(model, apart)| model.segments(apart));
        let segments = segments.unwrap_or_default();
        let Some(checks) = report.plan.checks(job, &mut scratch) else {
            return Vec::new();
        };
        let loads = Loads {
            report,
            statics,
            segments,
            checks,
        };
        use Part::{Checks as Figures, Loads as Forces, Sources};
        let both = "Loads and checks";
        let sources = "Where the limits come from";
        let whole = self.page_of(&loads, both, &[Forces, Figures, Sources]);
        if let (page, Fits::Whole) = whole {
            return vec![page];
        }
        if let (page, Fits::Whole) = self.page_of(&loads, both, &[Forces, Figures]) {
            return vec![page, self.page_of(&loads, sources, &[Sources]).0];
        }
        let second = "Loads, and where the limits come from";
        vec![
            self.page_of(&loads, "Checks", &[Figures]).0,
            self.page_of(&loads, second, &[Forces, Sources]).0,
        ]
    }

    /// A page of these parts, in the largest letters at which nothing is lost,
    /// else in the smallest.
    fn page_of(&self, loads: &Loads<'_>, title: &str, parts: &[Part]) -> (Page, Fits) {
        let draw = |size| {
            let mut page = Page::new(self.paper());
            let top = self.checks_head(&mut page, title, &loads.alarms());
            let mut column = columns(page.paper, top, size);
            for part in parts {
                match part {
                    Part::Loads => loads.forces(&mut page, &mut column),
                    Part::Checks => loads.figures(&mut page, &mut column),
                    Part::Sources => {
                        if parts.len() > 1 {
                            column.heading(&mut page, "WHERE THE LIMITS COME FROM");
                        }
                        loads.sources(&mut page, &mut column);
                    }
                }
            }
            let fits = if column.lost {
                Fits::InPart
            } else {
                Fits::Whole
            };
            (page, fits)
        };
        let sizes = SIZES.into_iter().filter(|size| *size <= LARGEST);
        let smallest = SIZES.into_iter().fold(LARGEST, f64::min);
        let mut drawn = sizes.map(draw);
        let whole = drawn.find(|(_, fits)| *fits == Fits::Whole);
        whole.unwrap_or_else(|| draw(smallest))
    }

    /// Job, plan code, what nobody may overlook; says where it ends.
    fn checks_head(&self, page: &mut Page, title: &str, alarms: &[String]) -> f64 {
        let right = page.paper.width - MARGIN;
        let mut y = MARGIN + 12.0;
        let name = self.report.job.name.as_str();
        page.text([MARGIN, y], bold(15.0), name);
        let after = match letters::width(name, 15.0, true) {
            0.0 => MARGIN,
            width => MARGIN + width + 16.0,
        };
        page.text([after, y], bold(12.0), title);
        let code = format!("PLAN {}", self.report.code());
        page.text([right, y], bold(15.0).ending(), &code);
        y += 14.0;
        let foreword = format!(
            "These are {FOREWORD}; a figure within its limit approves nothing. Places along the steel are{FRAME}."
        );
        page.text([MARGIN, y], plain(9.0), &foreword);
        for alarm in alarms {
            y += 14.0;
            let alarm = letters::cut(alarm, 11.0, true, right - MARGIN);
            page.text([MARGIN, y], bold(11.0), &alarm);
        }
        y += 7.0;
        page.line([MARGIN, y], [right, y], Stroke::Heavy);
        y + 5.0
    }
}

/// What a page shows.
#[derive(Clone, Copy)]
enum Part {
    /// Reactions, moments and the like.
    Loads,
    /// Checks with their figures.
    Checks,
    /// Source and limits of each check.
    Sources,
}

/// Whether everything found room.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Fits {
    Whole,
    InPart,
}

/// Empty columns from `top` to the foot of the page.
fn columns(paper: Paper, top: f64, size: f64) -> Column {
    let width = paper.width - 2.0 * MARGIN - GAP * (COLUMNS as f64 - 1.0);
    let width = width / COLUMNS as f64;
    let place = |index: usize| [MARGIN + (width + GAP) * index as f64, width];
    let room = [top, paper.height - MARGIN];
    Column::new(place(0), room, size).then((1..COLUMNS).map(place).collect())
}

impl Loads<'_> {
    /// What lifts, and how many checks are over their limit.
    fn alarms(&self) -> Vec<String> {
        let mut text = String::new();
        // Writing to a string cannot fail.
        let _ = self.report.alarms(self.statics.as_ref(), &mut text);
        text.lines().map(str::to_owned).collect()
    }

    /// What the loads do, before any check.
    fn forces(&self, page: &mut Page, column: &mut Column) {
        self.reactions(page, column);
        self.spans(page, column);
    }

    /// Every check with its figures.
    fn figures(&self, page: &mut Page, column: &mut Column) {
        if self.statics.is_some() && self.report.takes_usual() {
            let mut text = String::new();
            let _ = self.report.usual_strengths(&mut text);
            column.paragraph(page, &text);
        }
        for question in Question::ALL {
            self.question(page, column, question);
            if question == Question::EndsSit {
                self.lift(page, column);
            }
        }
        self.not_made(page, column);
    }

    /// Source and limits of every kind of check that is made.
    fn sources(&self, page: &mut Page, column: &mut Column) {
        for question in Question::ALL {
            let kinds = self.checks.made().chunk_by(|a, b| a.kind() == b.kind());
            let firsts = kinds.filter_map(|checks| checks.first());
            let mut asked = firsts
                .filter(|check| check.kind().question() == question)
                .peekable();
            if asked.peek().is_some() {
                column.heading(page, &question.words().to_uppercase());
            }
            for check in asked {
                let text = format!(
                    "{}: by {}. Covers {}.",
                    check.name(),
                    check.source(),
                    check.covers()
                );
                column.paragraph(page, &text);
            }
        }
    }

    /// Reactions, and what settlement does.
    fn reactions(&self, page: &mut Page, column: &mut Column) {
        let Some(statics) = &self.statics else { return };
        let mut text = String::new();
        let _ = self.report.reaction_lines(statics, &mut text);
        column.heading(page, "REACTIONS, PUSHING UP");
        for line in text.lines() {
            column.paragraph(page, line.trim());
        }
    }

    /// Moments, shears and sags of each span and overhang.
    fn spans(&self, page: &mut Page, column: &mut Column) {
        let Some(statics) = &self.statics else { return };
        column.heading(page, "MOMENT, SHEAR, SAG");
        let [a, b, _, d] = ENDS;
        let titles = [(a, "dead"), (b, "live on all"), (d, "worst choice")];
        column.cells(page, "", &titles, false);
        for forces in &self.segments {
            let mut named = false;
            // Drawing cannot fail.
            let _ = self.report.segment_rows(forces, statics, |name, cells| {
                if !named {
                    column.bold_line(page, &forces.segment.to_string());
                }
                named = true;
                let [dead, all, worst] = &cells;
                column.cells(page, name, &[(a, dead), (b, all), (d, worst)], false);
                Ok(())
            });
        }
        let mut text = String::new();
        let _ = self.report.own_weight(statics, &mut text);
        column.paragraph(page, text.trim());
    }

    fn lift(&self, page: &mut Page, column: &mut Column) {
        let Some(statics) = &self.statics else { return };
        let mut text = String::new();
        let _ = self.report.lift_sentences(statics, &mut text);
        column.heading(page, "DOES ANYTHING LIFT");
        for line in text.lines() {
            column.paragraph(page, line.trim());
        }
    }

    /// One question of the foreman.
    fn question(&self, page: &mut Page, column: &mut Column, question: Question) {
        let of = |kind: Kind| kind.question() == question;
        let made: Vec<&Check> = self.checks.made().iter().filter(|c| of(c.kind())).collect();
        if made.is_empty() {
            return;
        }
        column.heading(page, &question.words().to_uppercase());
        match question {
            Question::GoesIn => self.way_in(page, column),
            Question::EndsSit => {
                if let Some(statics) = &self.statics {
                    let (report, checks) = (&self.report, self.checks);
                    let _ = report.bearing_lengths(checks, statics, |sentence| {
                        column.paragraph(page, &sentence.to_string());
                        Ok(())
                    });
                }
            }
            Question::BoltsHold if self.checks.has(Kind::BoltNearest) => {
                column.paragraph(page, BOLTS_TWICE);
            }
            Question::NailsReach => {
                let _ = self.report.longest_nails(|sentence| {
                    column.paragraph(page, &sentence.to_string());
                    Ok(())
                });
            }
            _ => {}
        }
        for of_kind in made.chunk_by(|a, b| a.kind() == b.kind()) {
            self.kind(page, column, of_kind);
        }
    }

    /// All checks of one kind.
    fn kind(&self, page: &mut Page, column: &mut Column, checks: &[&Check]) {
        let Some(first) = checks.first() else { return };
        column.bold_line(page, first.name());
        for check in checks {
            self.check(page, column, check);
        }
    }

    fn check(&self, page: &mut Page, column: &mut Column, check: &Check) {
        let mut place = String::new();
        let _ = self
            .report
            .place(check.place(), self.statics.as_ref(), &mut place);
        // Said once for the page.
        let place = place.trim_end_matches(FRAME);
        let over = check.ok() == Some(false);
        let demand = self.report.demand(check);
        let capacity = self.report.capacity(check);
        let ratio = self.report.ratio(check);
        let [a, b, c, d] = ENDS;
        let cells = [
            (a, demand.as_str()),
            (b, capacity.as_deref().unwrap_or("no limit")),
            (c, ratio.as_deref().unwrap_or("")),
            (d, if over { "OVER" } else { "" }),
        ];
        column.cells(page, place, &cells, over);
        if over && check.needs() != Needs::Nothing {
            let mut needs = String::new();
            let _ = self.report.needs(check.needs(), &mut needs);
            column.inset(page, &needs);
        }
    }

    /// Which end goes first, and what stays off until the beam is home.
    fn way_in(&self, page: &mut Page, column: &mut Column) {
        let Some(beam) = self.report.plan.beam(self.report.job) else {
            return;
        };
        // Drawing cannot fail.
        let _ = self.report.way_in(&beam, |sentence| {
            column.paragraph(page, &sentence.to_string());
            Ok(())
        });
    }

    fn not_made(&self, page: &mut Page, column: &mut Column) {
        if self.checks.not_made().is_empty() {
            return;
        }
        column.heading(page, "NOT CHECKED");
        for not in self.checks.not_made() {
            let mut text = format!("{}, ", not.kind.name());
            let _ = self
                .report
                .place(not.place, self.statics.as_ref(), &mut text);
            text.push_str(": ");
            let _ = self.report.lack(not.lack, &mut text);
            column.paragraph(page, &text);
        }
    }
}
