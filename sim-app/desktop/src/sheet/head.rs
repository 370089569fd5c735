//! The head of the sheet: what job, which steel, the rule, the plan code.

use super::page::{Page, Stroke, bold, plain};
use super::{MARGIN, Sheet, letters};
use boltbay_core::job::BeamLength;
use boltbay_core::plan::Scratch;

/// Width of the frame around the plan code.
const CODE: f64 = 112.0;

impl Sheet<'_> {
    /// Draws the head; says where it ends.
    pub(super) fn head(&self, page: &mut Page) -> f64 {
        let right = page.paper.width - MARGIN;
        self.code_frame(page, right);
        let room = right - CODE - 14.0 - MARGIN;
        let mut y = MARGIN + 12.0;
        let name = self.report.job.name.as_str();
        page.text([MARGIN, y], bold(15.0), name);
        let after = match letters::width(name, 15.0, true) {
            0.0 => MARGIN,
            width => MARGIN + width + 16.0,
        };
        page.text([after, y], bold(12.0), &self.title());
        y += 13.0;
        let steel = letters::cut(&self.steel_line(), 9.0, false, room);
        page.text([MARGIN, y], plain(9.0), &steel);
        for alarm in self.alarms() {
            y += 13.0;
            let alarm = letters::cut(&alarm, 11.0, true, room);
            page.text([MARGIN, y], bold(11.0), &alarm);
        }
        y += 2.0;
        for line in letters::lines(&self.rule_line(), 9.0, room).iter().take(3) {
            y += 10.5;
            page.text([MARGIN, y], plain(9.0), line);
        }
        let end = (y + 7.0).max(MARGIN + 47.0);
        page.line([MARGIN, end], [right, end], Stroke::Heavy);
        end + 5.0
    }

    fn code_frame(&self, page: &mut Page, right: f64) {
        let left = right - CODE;
        let edges = [left, MARGIN - 4.0, right, MARGIN + 38.0];
        page.area(edges, super::page::Fill::None, true);
        page.text([left + 5.0, MARGIN + 5.0], bold(7.0), "PLAN");
        let code = self.report.code();
        let middle = (left + right) / 2.0;
        page.text([middle, MARGIN + 30.0], bold(29.0).centred(), code);
    }

    /// What nobody may overlook.
    fn alarms(&self) -> Vec<String> {
        let plan = self.report.plan;
        let mut scratch: Box<Scratch> = Box::default();
        let statics = plan.statics(self.report.job, &mut scratch);
        let mut text = String::new();
        // Writing to a string cannot fail.
        let _ = self.report.alarms(statics.as_ref(), &mut text);
        text.lines().map(str::to_owned).collect()
    }

    fn title(&self) -> String {
        match self.report.plan.placement() {
            Some(placement) if placement.feasible => format!(
                "{} holes at {} marks",
                placement.holes.len(),
                placement.stations
            ),
            Some(_) => "NO PLAN: the rule cannot be kept".to_owned(),
            None => "holes not worked out".to_owned(),
        }
    }

    fn steel_line(&self) -> String {
        let job = self.report.job;
        let mut line = match &job.beam {
            Some(beam) => {
                let measured = match beam.measured {
                    BeamLength::Measured => "measured",
                    BeamLength::Ordered => "as ordered",
                };
                let length = self.report.length_cell(beam.length);
                format!("Steel {} {length} ({measured})", beam.designation)
            }
            None => "No steel on the card".to_owned(),
        };
        if let Some(play) = self.report.plan.placement().and_then(|p| p.play) {
            let play = self.report.play_cell(play);
            line.push_str(&format!(";  play {play} either way"));
        }
        if let Some(hardware) = self.hardware {
            let cell = |length| self.report.length_cell(length);
            line.push_str(&format!(
                ";  bolts {}, web holes {}, wood holes {}",
                cell(hardware.diameter),
                cell(hardware.web_hole),
                cell(hardware.wood_hole)
            ));
        }
        line
    }

    fn rule_line(&self) -> String {
        match &self.report.plan.rule {
            Some(rule) => format!("Rule: {}.", rule.said(self.report.job)),
            None => String::new(),
        }
    }
}
