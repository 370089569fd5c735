//! Rods and cuts, as JSON.

use super::{Json, counts_to_inches, inches, written};
use boltbay_core::Length;
use boltbay_core::job::StickSource;
use boltbay_core::report::words;
use boltbay_core::rods::{Pieces, Rods, StickCut};
use serde_json::{Value, json};

impl Json<'_> {
    pub(super) fn rods(self) -> Value {
        let Some(rods) = self.report.plan.rods() else {
            return Value::Null;
        };
        json!({
            "feasible": rods.feasible,
            "too_long": rods.too_long.iter().map(|length| inches(*length)).collect::<Value>(),
            "uncut": rods.uncut.iter().map(uncut).collect::<Value>(),
            "pieces": rods.pieces.iter().map(|pieces| self.pieces(pieces)).collect::<Value>(),
            "sticks": rods.sticks.iter().map(|stick| stick_cut(rods, stick)).collect::<Value>(),
            "bought_length_in": counts_to_inches(rods.bought_counts),
            "bought_sticks": rods.bought_sticks,
            "offcut_length_in": counts_to_inches(rods.offcut_counts),
            "proof": words::proof(rods.proof),
            "nuts": rods.nuts,
            "washers": rods.washers,
        })
    }

    fn pieces(self, pieces: &Pieces) -> Value {
        json!({
            "length_in": inches(pieces.length),
            "count": pieces.count,
            "spare": pieces.spare,
            "for": written(|out| self.report.piece_use(pieces.piece_use, out)),
        })
    }
}

fn uncut((length, count): &(Length, u32)) -> Value {
    json!({ "length_in": inches(*length), "count": count })
}

fn stick_cut(rods: &Rods, stick: &StickCut) -> Value {
    let each = rods.lengths.iter().zip(&stick.cuts);
    let cuts =
        each.flat_map(|(length, count)| std::iter::repeat_n(inches(*length), usize::from(*count)));
    json!({
        "stock_in": inches(stick.stock),
        "bought": stick.source == StickSource::Rod,
        "count": stick.count,
        "cuts_in": cuts.collect::<Value>(),
        "left_in": inches(stick.left),
    })
}
