//! Rows about the steel: `beam shape steel braced floor`.

use super::Wrong;
use super::entry::Entry;
use crate::job::{Beam, Designation, Floor, Shape, Steel};
use crate::length::{Length, blank};
use crate::limits::{Amounts, HEAVIEST_SHAPE, LONG, MEDIUM, MILLION, SMALL, STRONGEST, Span};
use crate::shapes;

/// The designation of a beam with a row `shape`.
pub(super) const CUSTOM: &str = "CUSTOM";

/// `beam,DESIGNATION,LENGTH[,ordered|measured]`
pub(super) fn beam(entry: &mut Entry) {
    let designation = designation(entry);
    let length = entry.length("LENGTH", Span::above_zero(LONG));
    let measured = entry.maybe_word("ORDERED OR MEASURED").unwrap_or_default();
    entry.job.beam = Some(Beam {
        designation,
        length,
        measured,
    });
}

/// A designation in upper case without blanks: of the table, or `CUSTOM`.
fn designation(entry: &mut Entry) -> Designation {
    let text = entry.filled("DESIGNATION");
    let mut designation = Designation::new();
    for letter in text.chars().filter(|letter| !blank(*letter)) {
        let plain = match letter {
            '\u{D7}' => 'X',
            other => other.to_ascii_uppercase(),
        };
        if designation.push(plain).is_err() {
            entry.refuse("DESIGNATION", Wrong::UnknownShape);
        }
    }
    if designation != CUSTOM && shapes::find(&designation).is_none() {
        entry.refuse("DESIGNATION", Wrong::UnknownShape);
    }
    designation
}

/// `shape,DEPTH,WIDTH,WEB,FLANGE,K DESIGN,K DETAIL,K1,WEIGHT[,IX,SX,ZX]`
pub(super) fn shape(entry: &mut Entry) {
    let size = Span::above_zero(MEDIUM);
    let part = Span::above_zero(SMALL);
    let shape = Shape {
        depth: entry.length("DEPTH", size),
        width: entry.length("WIDTH", size),
        web: entry.length("WEB", part),
        flange: entry.length("FLANGE", part),
        k_design: entry.length("K DESIGN", part),
        k_detail: entry.length("K DETAIL", part),
        k1: entry.length("K1", part),
        weight: entry.decimal("WEIGHT", Amounts::above_zero(HEAVIEST_SHAPE)),
        ix: entry.maybe_decimal("IX", Amounts::above_zero(MILLION)),
        sx: entry.maybe_decimal("SX", Amounts::above_zero(MILLION)),
        zx: entry.maybe_decimal("ZX", Amounts::above_zero(MILLION)),
    };
    // Each size is at most 10 ft, so none of these doubles leaves the range.
    let twice = |length: Length| length.saturating_add(length);
    let crossed = [
        ("K DESIGN", shape.k_design < shape.flange),
        ("K DETAIL", shape.k_detail < shape.flange),
        ("K1", twice(shape.k1) < shape.web),
        (
            "WIDTH",
            shape.width <= shape.web || shape.width < twice(shape.k1),
        ),
        ("DEPTH", shape.depth <= twice(shape.k_detail)),
        ("DEPTH", shape.depth <= twice(shape.k_design)),
    ];
    if let Some((field, _)) = crossed.into_iter().find(|(_, crossed)| *crossed) {
        entry.refuse_at(field, "", Wrong::ShapeCrossed);
    }
    entry.job.shape = Some(shape);
}

/// `steel,FY[,FU]`
pub(super) fn steel(entry: &mut Entry) {
    let fy = entry.decimal("FY", Amounts::above_zero(STRONGEST));
    let fu = entry.maybe_decimal("FU", Amounts::above_zero(STRONGEST));
    if fu.is_some_and(|fu| fu.millionths() < fy.millionths()) {
        entry.refuse("FU", Wrong::StrengthCrossed);
    }
    entry.job.steel = Some(Steel { fy, fu });
}

/// `braced,LENGTH[,LENGTH BOTTOM FLANGE]`; 0 = held all along.
pub(super) fn braced(entry: &mut Entry) {
    let top = entry.length("LENGTH", Span::from_zero(LONG));
    let bottom = entry.maybe_length("LENGTH BOTTOM FLANGE", Span::from_zero(LONG));
    entry.job.braced = Some((top, bottom));
}

/// `floor,SIDE,JOIST DEPTH[,OFFSET,SUBFLOOR]`
pub(super) fn floor(entry: &mut Entry) {
    let side = entry.side("SIDE");
    entry.once_a_side(super::notes::Twice::Floor, side);
    let floor = Floor {
        joist_depth: entry.length("JOIST DEPTH", Span::above_zero(MEDIUM)),
        offset: entry.maybe_length("OFFSET", Span::signed(MEDIUM)),
        subfloor: entry.maybe_length("SUBFLOOR", Span::from_zero(SMALL)),
    };
    if let Some(slot) = entry.job.floors.get_mut(side.index()) {
        *slot = Some(floor);
    }
}
