//! The plan as JSON, for programs: inches, pounds, psi and lb-ft for every job.
//!
//! In: a job and its plan. Out: one object. Lengths are exact in 1/64 in: the
//! shortest decimal that gives the same count of 25 nm back. What was not asked,
//! or asked and lacks a row, is null; `missing` says which rows.

mod loads;
mod placement;
mod rods;

use boltbay_core::packing::Stack;
use boltbay_core::placement::{Blocked, BlockedPage, Span, Windows};
use boltbay_core::plan::{Plan, Scratch};
use boltbay_core::report::{Report, words};
use boltbay_core::words::{Row, Side, Units};
use boltbay_core::{Job, Length};
use core::fmt::Write;
use serde_json::{Map, Value, json};

/// The whole plan, indented, with a line end.
pub fn of(report: Report<'_>, blocked: &[Blocked], free: Option<&Windows>) -> String {
    let value = Json { report, blocked }.whole(free);
    format!("{value:#}\n")
}

/// Every blocking stretch of a job that has no plan: a plan lists the first ones.
pub fn every_blocked(job: &Job, plan: &Plan, scratch: &mut Scratch) -> Vec<Blocked> {
    let Some(placement) = plan.placement() else {
        return Vec::new();
    };
    let mut all = placement.blocked.to_vec();
    let mut more = placement.blocked_more;
    let mut page = BlockedPage::new();
    while let (Some(last), 1..) = (all.last(), more) {
        more = plan.more_blocked(job, last, &mut page, scratch);
        all.extend_from_slice(&page);
    }
    all
}

/// A report on its way to JSON.
#[derive(Clone, Copy)]
struct Json<'a> {
    report: Report<'a>,
    /// Every blocking stretch.
    blocked: &'a [Blocked],
}

impl Json<'_> {
    fn whole(self, free: Option<&Windows>) -> Value {
        let Report { job, plan } = self.report;
        let units = match job.units {
            Units::Imperial => "imperial",
            Units::Metric => "metric",
        };
        let rule = plan.rule.map(|rule| rule.said(job).to_string());
        let loads = loads::Loads::of(self);
        let parts = [
            ("job", json!(job.name.as_str())),
            ("units", json!(units)),
            ("code", json!(plan.code.as_deref())),
            ("rule", json!(rule)),
            ("missing", self.missing()),
            ("joists", self.joists()),
            ("runs", self.runs()),
            ("windows", free.map_or(Value::Null, spans)),
            ("placement", self.placement()),
            ("trouble", self.trouble()),
            ("row_heights_in", self.heights()),
            ("packing", self.packing()),
            ("rods", self.rods()),
            ("reactions", self.reactions(&loads)),
            ("moments", self.moments(&loads)),
            ("spans", self.spans(&loads)),
            ("self_weight", self.self_weight(&loads)),
            ("deflection", self.deflection(&loads)),
            ("settlement", self.settlement(&loads)),
            ("loads_refused", self.refusal(&loads)),
            ("way_in", self.way_in()),
            ("checks", self.checks(&loads)),
            ("checks_not_made", self.not_made(&loads)),
            ("cautions", self.cautions()),
        ];
        let object: Map<String, Value> = parts
            .into_iter()
            .map(|(key, value)| (key.to_owned(), value))
            .collect();
        Value::Object(object)
    }

    fn missing(self) -> Value {
        let missing = &self.report.plan.missing;
        let words = missing
            .iter()
            .map(|one| written(|out| self.report.missing(*one, out)));
        words.collect()
    }

    fn joists(self) -> Value {
        let plan = self.report.plan;
        let joist = |joist: &boltbay_core::joists::Joist| {
            json!({
                "side": self.side(joist.side),
                "n": joist.number,
                "centre_in": counts_to_inches(joist.centre_twice()) / 2.0,
                "thickness_in": inches(self.report.joist_thickness(joist)),
                "hanger": self.report.hanger_name(joist),
            })
        };
        plan.joists.iter().map(joist).collect()
    }

    fn runs(self) -> Value {
        let run = |run: &boltbay_core::joists::RunReport| {
            let mut object = json!({
                "side": self.side(run.side),
                "run": run.number,
                "misclosure_in": maybe(run.misclosure),
                "tolerance_in": maybe(run.tolerance),
                "ok": run.ok,
            });
            if run.overridden {
                object["overridden"] = json!(true);
            }
            object
        };
        self.report.plan.runs.iter().map(run).collect()
    }

    fn heights(self) -> Value {
        match self.report.plan.heights {
            None => Value::Null,
            Some(_) => json!({
                "top": maybe(self.report.row_height(Row::Top)),
                "bot": maybe(self.report.row_height(Row::Bot)),
            }),
        }
    }

    fn packing(self) -> Value {
        if self.report.plan.packing.iter().all(Option::is_none) {
            return Value::Null;
        }
        let of_side = |side: Side| {
            let stack = self.report.stack(side)?;
            Some(self.stack(side, stack))
        };
        Side::BOTH.into_iter().filter_map(of_side).collect()
    }

    fn stack(self, side: Side, stack: &Stack) -> Value {
        let layer = |layer: &boltbay_core::packing::StackLayer| {
            let name = self.report.job.layers.get(usize::from(layer.layer));
            json!({
                "name": name.map_or("", |layer| layer.name.as_str()),
                "thickness_in": inches(layer.thickness),
                "rip_in": maybe(layer.rip),
            })
        };
        json!({
            "side": self.side(side),
            "target_in": inches(stack.target),
            "feasible": stack.feasible,
            "layers": stack.layers.iter().map(layer).collect::<Value>(),
            "total_in": inches(stack.total),
            "miss_in": inches(stack.miss),
            "error_in": inches(stack.error),
            "error_dry_in": inches(stack.error_dry),
        })
    }

    /// Why the planner gave no answer at all, if so.
    fn trouble(self) -> Value {
        let trouble = self.report.plan.trouble;
        trouble.map_or(Value::Null, |trouble| json!(words::trouble(trouble)))
    }

    fn cautions(self) -> Value {
        let Report { job, plan } = self.report;
        let text = |caution: &boltbay_core::caution::Caution| caution.in_full(job).to_string();
        plan.cautions.iter().map(text).collect()
    }

    /// The painted letter.
    fn side(self, side: Side) -> String {
        self.report.job.letter(side).to_string()
    }
}

/// `{"top":[[from,to],..],"bot":[..]}`.
fn spans(free: &Windows) -> Value {
    let row = |spans: &[Span]| -> Value {
        let pair = |span: &Span| json!([inches(span.from), inches(span.to)]);
        spans.iter().map(pair).collect()
    };
    let [top, bot] = free;
    json!({ "top": row(top), "bot": row(bot) })
}

/// A length in inches.
fn inches(length: Length) -> f64 {
    counts_to_inches(i64::from(length.counts()))
}

/// Counts of 25 nm in inches: 1,016,000 to the inch. Sums of lengths stay far
/// below 2^53, so that a count is exact before the one division.
fn counts_to_inches(counts: i64) -> f64 {
    counts as f64 / 1_016_000.0
}

/// A length or null.
fn maybe(length: Option<Length>) -> Value {
    length.map_or(Value::Null, |length| json!(inches(length)))
}

/// What a function of the core writes.
fn written(write: impl FnOnce(&mut dyn Write) -> core::fmt::Result) -> String {
    let mut text = String::new();
    // Writing to a string cannot fail.
    let _ = write(&mut text);
    text
}
