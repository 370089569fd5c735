//! Hangers: what they carry, and whether their nails land in the packing.
//!
//! In: hanger loads, rated loads, hanger height, joist depth and offset, the
//! edges of the packing. Out: checks. Rule: the lowest face nail sits 3/4 in
//! above the seat, the highest 1/2 in below the hanger's top, and both stay 3/8
//! in inside the packing's edges. Heights are from the inside face of the bottom
//! flange. Practice: these three figures, no source; the hanger schedule rules.
//!
//! ```text
//!   ___________ packing's upper edge
//!   3/8 |  o  highest nail, 1/2 below the hanger's top
//!       |  o
//!   3/8 |  o  lowest nail, 3/4 above the seat
//!   ----+-----  packing's lower edge
//!       |__ seat = joist's underside
//! ```

use crate::check::{Check, Checklist, Kind, Lack, Place};
use crate::force::Force;
use crate::job::Floor;
use crate::length::Length;
use crate::shapes::Section;

/// Lowest face nail above the seat. Practice: no source.
const ABOVE_SEAT: Length = Length::from_sixteenths(12);
/// Highest face nail below the hanger's top. Practice: no source.
const BELOW_TOP: Length = Length::from_sixteenths(8);
/// Nail to the edge of the packing. Practice: no source.
const EDGE: Length = Length::from_sixteenths(6);

/// Height of a joist's underside, the hanger's seat: d - tf + offset - joist
/// depth; below zero where the joist hangs below the flange's inside face.
pub fn seat(section: &Section, floor: &Floor) -> Length {
    section
        .depth()
        .saturating_sub(section.flange())
        .saturating_add(floor.offset.unwrap_or_default())
        .saturating_sub(floor.joist_depth)
}

/// A hanger's face nails against the edges of the packing. `height` is the
/// hanger's, from its seat.
pub fn add_nail_checks(
    seat: Option<Length>,
    height: Option<Length>,
    [low, high]: [Length; 2],
    place: Place,
    checks: &mut dyn Checklist,
) {
    let seat = seat.ok_or(Lack::Row("floor"));
    let lowest = seat.map(|seat| {
        let nail = seat.saturating_add(ABOVE_SEAT);
        edge_check(Kind::LowNails, place, nail.saturating_sub(low))
    });
    checks.add_or_lack(Kind::LowNails, place, lowest);
    let highest = seat.and_then(|seat| {
        let height = height.ok_or(Lack::Field("row hanger has no HEIGHT"))?;
        let nail = seat.saturating_add(height).saturating_sub(BELOW_TOP);
        Ok(edge_check(
            Kind::HighNails,
            place,
            high.saturating_sub(nail),
        ))
    });
    checks.add_or_lack(Kind::HighNails, place, highest);
}

fn edge_check(kind: Kind, place: Place, found: Length) -> Check {
    Check::new(kind, place, EDGE.as_inches(), found.as_inches())
}

/// A hanger's load against its rated one.
///
/// # Errors
/// The field where no rated load is keyed.
pub fn load(load: Force, rated: Option<Force>, place: Place) -> Result<Check, Lack> {
    let rated = rated.ok_or(Lack::Field("row hanger has no RATED LOAD"))?;
    let figures = (load.as_pounds(), rated.as_pounds());
    Ok(Check::new(Kind::HangerLoad, place, figures.0, figures.1))
}
