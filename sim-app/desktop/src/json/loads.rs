//! Reactions, moments, deflections, checks and the way in, as JSON.
//!
//! Numbers are lb, lb-ft and inches for every job, as the statics have them; in
//! `checks` each says its unit. What could not be checked stands in a list of its
//! own, so that every entry of `checks` has a demand.

use super::{Json, inches, maybe, written};
use boltbay_core::check::{Check, Checks, Needs, NotMade};
use boltbay_core::force::{Force, Moment};
use boltbay_core::plan::Scratch;
use boltbay_core::statics::{
    Extremes, Pattern, Peak, Reaction, Refusal, SegmentForces, SegmentList, SegmentSag, Statics,
};
use boltbay_core::words::End;
use serde_json::{Value, json};

/// What follows from the loads, worked out once for all parts.
pub(super) struct Loads {
    statics: Option<Statics>,
    segments: SegmentList,
    refusal: Option<Refusal>,
    /// The checks are listed here, if any are.
    scratch: Box<Scratch>,
}

impl Loads {
    /// Statics and checks of a plan.
    pub(super) fn of(json: Json<'_>) -> Loads {
        let plan = json.report.plan;
        let job = json.report.job;
        let mut scratch: Box<Scratch> = Box::default();
        let loads = Loads {
            statics: plan.statics(job, &mut scratch),
            segments: plan
                .loaded(job, &mut scratch)
                .map(|(model, apart)| model.segments(apart))
                .unwrap_or_default(),
            refusal: plan.refusal(job, &mut scratch),
            scratch: Box::default(),
        };
        match plan.checks(job, &mut scratch).is_some() {
            true => Loads { scratch, ..loads },
            false => loads,
        }
    }

    fn checks(&self) -> Option<&Checks> {
        self.scratch.listed()
    }
}

impl Json<'_> {
    pub(super) fn reactions(self, loads: &Loads) -> Value {
        let count = loads
            .statics
            .as_ref()
            .map_or(0, |statics| statics.reactions.len());
        let with = |pattern: Pattern| pattern.words(count);
        let reaction = |reaction: &Reaction| {
            json!({
                "support": self.report.support_name(reaction.row),
                "at_in": inches(reaction.at),
                "dead_lb": reaction.dead.as_pounds(),
                "all_lb": reaction.all.as_pounds(),
                "max_lb": reaction.max.as_pounds(),
                "max_with": written(|out| write!(out, "{}", with(reaction.max_with))),
                "min_lb": reaction.min.as_pounds(),
                "min_with": written(|out| write!(out, "{}", with(reaction.min_with))),
                "min_with_0_6_dead_lb": reaction.reduced.as_pounds(),
                "uplift": reaction.lifts(),
                "near_uplift": reaction.near_lift(),
            })
        };
        let list = |statics: &Statics| statics.reactions.iter().map(reaction).collect();
        loads.statics.as_ref().map_or(Value::Null, list)
    }

    pub(super) fn moments(self, loads: &Loads) -> Value {
        let Some(statics) = &loads.statics else {
            return Value::Null;
        };
        let worst = &statics.moments.worst;
        let value = |peak: &Peak<Moment>| peak.value.as_pound_feet();
        json!({
            "max_ftlb": value(&worst.most),
            "max_at_in": inches(worst.most.at),
            "min_ftlb": value(&worst.least),
            "min_at_in": inches(worst.least.at),
        })
    }

    /// Moments and shears of each span and overhang under three loadings.
    pub(super) fn spans(self, loads: &Loads) -> Value {
        if loads.statics.is_none() {
            return Value::Null;
        }
        let span = |forces: &SegmentForces| {
            let (moments, shears) = (&forces.moments, &forces.shears);
            let bent = |found: &Extremes<Moment>| {
                json!([
                    found.least.value.as_pound_feet(),
                    found.most.value.as_pound_feet()
                ])
            };
            let sheared = |found: &Extremes<Force>| {
                json!([found.least.value.as_pounds(), found.most.value.as_pounds()])
            };
            json!({
                "segment": forces.segment.to_string(),
                "from_in": inches(forces.from),
                "to_in": inches(forces.to),
                "moment_dead_ftlb": bent(&moments.dead),
                "moment_all_ftlb": bent(&moments.all),
                "moment_worst_ftlb": bent(&moments.worst),
                "shear_dead_lb": sheared(&shears.dead),
                "shear_all_lb": sheared(&shears.all),
                "shear_worst_lb": sheared(&shears.worst),
            })
        };
        loads.segments.iter().map(span).collect()
    }

    /// What the beam itself was taken to weigh.
    pub(super) fn self_weight(self, loads: &Loads) -> Value {
        let Some((statics, frame)) = loads.statics.as_ref().zip(self.report.plan.frame) else {
            return Value::Null;
        };
        let steel = statics.weight.steel * frame.length;
        let all = statics.weight.total() * frame.length;
        json!({
            "steel_lb": steel.as_pounds(),
            "packing_lb": (all - steel).as_pounds(),
        })
    }

    /// Null also where nothing says how stiff the steel is.
    pub(super) fn deflection(self, loads: &Loads) -> Value {
        let Some(statics) = loads.statics.as_ref().filter(|s| !s.lacks_ix()) else {
            return Value::Null;
        };
        let sag = |sag: &SegmentSag| {
            json!({
                "from_in": inches(sag.from),
                "to_in": inches(sag.to),
                "dead_in": sag.dead.as_inches(),
                "all_in": sag.all.as_inches(),
                "total_in": sag.total.as_inches(),
                "live_in": sag.live.as_inches(),
                "live_up_in": sag.live_up.as_inches(),
                "ratio_live": sag.ratio_live(),
            })
        };
        statics.sags.iter().map(sag).collect()
    }

    /// What 1/8 in (3 mm) of settlement at each support does; null where
    /// nothing says how stiff the steel is.
    pub(super) fn settlement(self, loads: &Loads) -> Value {
        let settled = loads
            .statics
            .as_ref()
            .and_then(|statics| Some((statics, statics.settlement.as_ref()?)));
        let Some((statics, settlement)) = settled else {
            return Value::Null;
        };
        let count = statics.reactions.len();
        let down = |(index, reaction): (usize, &Reaction)| {
            let change = |support| settlement.reaction(index, support).as_pounds();
            json!({
                "support": self.report.support_name(reaction.row),
                "down_in": inches(settlement.by),
                "reactions_lb": (0..count).map(change).collect::<Value>(),
                "moment_ftlb": settlement.moment(index).as_pound_feet(),
            })
        };
        statics.reactions.iter().enumerate().map(down).collect()
    }

    pub(super) fn checks(self, loads: &Loads) -> Value {
        let Some(checks) = loads.checks() else {
            return Value::Null;
        };
        let needs = |check: &Check| match check.needs() {
            Needs::Nothing => Value::Null,
            needs => json!(written(|out| self.report.needs(needs, out))),
        };
        let check = |check: &Check| {
            json!({
                "name": check.name(),
                "where": written(|out| {
                    self.report.place(check.place(), loads.statics.as_ref(), out)
                }),
                "demand": check.demand(),
                "capacity": check.capacity(),
                "unit": check.unit().word(),
                "ratio": check.ratio(),
                "ok": check.ok(),
                "source": check.source(),
                "covers": check.covers(),
                "needs": needs(check),
                "question": check.kind().question().words(),
            })
        };
        checks.made().iter().map(check).collect()
    }

    pub(super) fn not_made(self, loads: &Loads) -> Value {
        let Some(checks) = loads.checks() else {
            return Value::Null;
        };
        let not = |not: &NotMade| {
            json!({
                "name": not.kind.name(),
                "where": written(|out| {
                    self.report.place(not.place, loads.statics.as_ref(), out)
                }),
                "why": written(|out| self.report.lack(not.lack, out)),
            })
        };
        checks.not_made().iter().map(not).collect()
    }

    /// Why loads on the card are not worked out, if so.
    pub(super) fn refusal(self, loads: &Loads) -> Value {
        match loads.refusal {
            Some(refusal) if self.report.plan.standing.refused => {
                json!(written(|out| self.report.refusal(refusal, out)))
            }
            _ => Value::Null,
        }
    }

    /// Which end goes into its pocket first, and what stays off until then;
    /// null where the steel does not go in level, or where that is not known.
    pub(super) fn way_in(self) -> Value {
        let Some(beam) = self.report.plan.beam(self.report.job) else {
            return Value::Null;
        };
        let Some(way) = beam.way_in() else {
            return Value::Null;
        };
        let rods: Value = way
            .left_out()
            .map(|rod| {
                json!({
                    "n": rod.mark,
                    "meets": written(|out| self.report.meets(rod.meets, out)),
                })
            })
            .collect();
        let packing: Value = way
            .packing_past()
            .map(|(end, by)| json!({ "end": letter(end), "past_wall_in": inches(by) }))
            .collect();
        let [a, b] = beam.placed_bearings();
        json!({
            "first": letter(way.slide.first),
            "slide_in": inches(way.slide.by),
            "rods_left_out": rods,
            "packing_past_wall": packing,
            "bearing_a_in": maybe(a),
            "bearing_b_in": maybe(b),
        })
    }
}

const fn letter(end: End) -> &'static str {
    match end {
        End::A => "A",
        End::B => "B",
    }
}
