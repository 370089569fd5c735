//! Holes and what blocks, as JSON.

use super::{Json, inches, maybe, written};
use boltbay_core::placement::{Blocked, PlacedHole, Placement, Verdict, WayOut};
use boltbay_core::report::words;
use serde_json::{Value, json};

impl Json<'_> {
    pub(super) fn placement(self) -> Value {
        let Some(placement) = self.report.plan.placement() else {
            return Value::Null;
        };
        let feasible = placement.feasible;
        let counted = |count: usize| if feasible { json!(count) } else { Value::Null };
        json!({
            "feasible": feasible,
            "count_stations": counted(placement.stations.into()),
            "count_holes": counted(placement.holes.len()),
            "play_in": maybe(placement.play),
            "largest_spacing_in": maybe(placement.largest_spacing),
            "struck_out": self.struck_out(placement),
            "stations": self.stations(placement),
            "blocked": self.blocked.iter().map(|b| self.stretch(b)).collect::<Value>(),
            "too_many_holes": placement.too_many_holes,
        })
    }

    fn struck_out(self, placement: &Placement) -> Value {
        let mark = |index: &u8| {
            let (at, row) = self.report.mark(*index)?;
            Some(json!({ "row": row.word(), "at_in": inches(at) }))
        };
        placement.struck_out.iter().filter_map(mark).collect()
    }

    /// Holes of one number are one station; it lies where its first hole does.
    fn stations(self, placement: &Placement) -> Value {
        let groups = placement.holes.chunk_by(|a, b| a.station == b.station);
        groups.map(|holes| self.station(holes)).collect()
    }

    fn station(self, holes: &[PlacedHole]) -> Value {
        let Some(first) = holes.first() else {
            return Value::Null;
        };
        let at = holes.iter().map(|hole| hole.at).min().unwrap_or(first.at);
        json!({
            "n": first.station,
            "station_in": inches(at),
            "holes": holes.iter().map(|hole| self.hole(hole)).collect::<Value>(),
            "insert_from": written(|out| self.report.insert_from(first.insert_from, out)),
        })
    }

    fn hole(self, hole: &PlacedHole) -> Value {
        let nearest = hole
            .nearest()
            .map(|thing| written(|out| self.report.thing(thing, out)));
        let mut object = json!({
            "row": hole.row.word(),
            "at_in": inches(hole.at),
            "state": words::state(hole.state),
            "gap_in": maybe(hole.gap()),
            "nearest": nearest,
            "verdict": hole.verdict().map(words::verdict),
        });
        match hole.verdict() {
            Some(Verdict::Rule(broken, by)) => {
                object["broken"] = json!(words::broken(broken));
                if words::broken_by_a_length(broken) {
                    object["by_in"] = json!(inches(by));
                }
            }
            Some(Verdict::Fouls(by)) => object["by_in"] = json!(inches(by)),
            _ => {}
        }
        object
    }

    fn stretch(self, blocked: &Blocked) -> Value {
        let by = blocked.by.iter();
        let by: Value = by
            .map(|thing| written(|out| self.report.thing_itself(*thing, out)))
            .collect();
        json!({
            "kind": words::block_kind(blocked.kind),
            "from_in": inches(blocked.from),
            "to_in": inches(blocked.to),
            "limit_in": maybe(blocked.limit),
            "excess_in": maybe(blocked.excess),
            "by": by,
            "ways_out": blocked.ways_out.iter().map(|way| self.way_out(way)).collect::<Value>(),
        })
    }

    fn way_out(self, way: &WayOut) -> Value {
        json!({
            "what": written(|out| self.report.change(way.change, out)),
            "count_stations": way.stations,
            "play_in": maybe(way.play),
        })
    }
}
