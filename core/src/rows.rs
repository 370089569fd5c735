//! Row heights: how far above the inside face of the bottom flange the two rows
//! of bolts run.
//!
//! In: a job. Out: heights keyed or worked out, or the kind of row that is
//! missing. Rule: TOP = clear height - 4D, BOT = the greater of 2 in (50 mm)
//! and 1.5D, each rounded toward the middle to 1/16 in (1 mm), the hole's edge
//! clear of the fillet at either flange (the washer's edge, where it sits on
//! bare web). Closer than 3D there are no two rows: a single row then runs in
//! the middle. Source: NDS 2024 Table 12.5.1C (4D loaded edge, 1.5D unloaded:
//! hangers push the packing down, so the bolts push up on it), 12.5.1B (3D),
//! AISC Manual part 1 (k detailing). Practice: the 2 in.
//!
//! ```text
//!   ===========  clear height (inside face of the top flange)
//!     | 4D
//!   --+--  TOP
//!     | at least 3D
//!   --+--  BOT
//!     | 2 in or 1.5D
//!   ===========  0 (inside face of the bottom flange)
//! ```

mod bare;

pub use bare::washer_on_bare_web;

use crate::defaults;
use crate::hardware::{self, Hardware};
use crate::job::{Job, Pattern, PatternRows};
use crate::length::{Length, Rounding};
use crate::shapes::Section;
use crate::words::{Side, Units};

/// Row heights of a job: keyed, or the default ones.
///
/// With pattern `single` only `top` counts; where the shape is too shallow for
/// two rows both are then the middle of the clear height, rounded down: away
/// from the loaded edge.
///
/// # Errors
/// The kind of row that is missing: `beam` (or `shape`), `bolt`, `washer`,
/// `nut`, or `rows` where the shape leaves no room for the default ones.
pub fn heights(job: &Job) -> Result<PatternRows, &'static str> {
    if let Some(keyed) = job.rows {
        return Ok(keyed);
    }
    let section = Section::of(job).ok_or_else(|| missing_section(job))?;
    let hardware = Hardware::of(job)
        .ok_or_else(|| hardware::missing(job).first().copied().unwrap_or("bolt"))?;
    let room = Room::of(job, &section, &hardware);
    two_rows(job, &section, &hardware, room)
        .or_else(|| middle(job, &section, room))
        .ok_or("rows")
}

/// Whether the heights of a job are the default ones.
pub fn defaulted(job: &Job) -> bool {
    job.rows.is_none()
}

/// Heights between which a hole's edge is clear of both fillets.
#[derive(Clone, Copy)]
pub(crate) struct Room {
    /// Lowest.
    pub lowest: Length,
    /// Highest.
    pub highest: Length,
}

impl Room {
    /// Half the hole off both fillets; half the washer on bare web.
    pub fn of(job: &Job, section: &Section, hardware: &Hardware) -> Room {
        let mut reach = hardware.web_hole.half(Rounding::Up);
        for side in Side::BOTH {
            if washer_on_bare_web(job, hardware, side) {
                let washer = hardware.washer(side);
                reach = reach.max(hardware::washer_radius(washer.size, washer.shape));
            }
        }
        let lowest = section.fillet_height().saturating_add(reach);
        Room {
            lowest,
            highest: section.clear_height().saturating_sub(lowest),
        }
    }
}

/// TOP and BOT, or nothing where they would be closer than 3D.
fn two_rows(job: &Job, section: &Section, hardware: &Hardware, room: Room) -> Option<PatternRows> {
    let diameter = hardware.diameter;
    let step = step(job.units);
    let top = section
        .clear_height()
        .checked_sub(diameter.checked_mul(4)?)?
        .min(room.highest)
        .to_multiple(step, Rounding::Down);
    let bot = least_bottom(job.units)
        .max(unloaded_edge(diameter))
        .max(room.lowest)
        .to_multiple(step, Rounding::Up);
    let apart = top.checked_sub(bot)?;
    (apart >= diameter.checked_mul(3)?).then_some(PatternRows { top, bot })
}

/// One row in the middle, for pattern `single`, if it is clear of the fillets.
fn middle(job: &Job, section: &Section, room: Room) -> Option<PatternRows> {
    let middle = section
        .clear_height()
        .half(Rounding::Down)
        .to_multiple(step(job.units), Rounding::Down);
    let fits = room.lowest <= middle && middle <= room.highest;
    let single = defaults::pattern(job) == Pattern::Single;
    (single && fits).then_some(PatternRows {
        top: middle,
        bot: middle,
    })
}

/// 1.5D, rounded up to a count.
/// Source: NDS 2024 Table 12.5.1C, unloaded edge.
pub(crate) fn unloaded_edge(diameter: Length) -> Length {
    diameter.saturating_add(diameter.half(Rounding::Up))
}

/// 2 in or 50 mm. Practice: a hand's room under the bottom row; no source.
const fn least_bottom(units: Units) -> Length {
    match units {
        Units::Imperial => Length::from_inches(2),
        Units::Metric => Length::from_millimetres(50),
    }
}

/// 1/16 in or 1 mm. Practice: what a tape shows; no source.
const fn step(units: Units) -> Length {
    match units {
        Units::Imperial => Length::from_sixteenths(1),
        Units::Metric => Length::from_millimetres(1),
    }
}

/// What a job without a section lacks.
fn missing_section(job: &Job) -> &'static str {
    match &job.beam {
        Some(beam) if beam.designation.eq_ignore_ascii_case("custom") => "shape",
        _ => "beam",
    }
}
