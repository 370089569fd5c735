//! What to look at in the hardware and the rule before anything is drilled.
//!
//! In: a job. Out: cautions. Rule: distances of bolts in wood loaded across the
//! grain, holes in steel. Source: NDS 2024 12.1.3.2, 12.5.1 with Tables 12.5.1A
//! to D; AISC 360-22 Table J3.3, 360-16 J3.3. Nothing here forbids: the engineer of record
//! and the local code decide.

use super::{Hardware, standard_web_hole, usual_wood_hole};
use crate::caution::{Caution, Cautions, add};
use crate::defaults;
use crate::job::{Job, Pattern, WasherShape};
use crate::length::Length;
use crate::rows;
use crate::rule;
use crate::shapes::Section;
use crate::words::{Row, Side, Units};

/// Adds the cautions about holes, washers, end and edge distances, rows and
/// spacing. Adds nothing without a bolt.
pub fn hardware_cautions(job: &Job, cautions: &mut Cautions) {
    let Some(hardware) = Hardware::of(job) else {
        return;
    };
    holes(job, &hardware, cautions);
    washers(job, &hardware, cautions);
    ends(job, hardware.diameter, cautions);
    spacing(job, hardware.diameter, cautions);
    edges(job, &hardware, cautions);
}

/// Holes larger than standard, and wood holes that the web stops.
fn holes(job: &Job, hardware: &Hardware, cautions: &mut Cautions) {
    let bolt = hardware.diameter;
    let standard = standard_web_hole(bolt, job.units);
    if hardware.web_hole > standard {
        add(
            cautions,
            Caution::WebHoleLarge {
                hole: hardware.web_hole,
                standard,
                bolt,
            },
        );
    }
    // Source: NDS 2024 12.1.3.2, at most 1/16 in over the bolt.
    let most = usual_wood_hole(bolt, Units::Imperial);
    if hardware.wood_hole > most {
        add(
            cautions,
            Caution::WoodHoleLarge {
                hole: hardware.wood_hole,
                most,
                bolt,
            },
        );
    }
    if hardware.wood_hole > hardware.web_hole {
        add(
            cautions,
            Caution::WoodHoleLarger {
                wood: hardware.wood_hole,
                web: hardware.web_hole,
            },
        );
    }
}

/// Washers too small for a large hole in bare web, and thicknesses assumed.
fn washers(job: &Job, hardware: &Hardware, cautions: &mut Cautions) {
    let large = hardware.web_hole > standard_web_hole(hardware.diameter, job.units);
    // Practice: the washer covers a large hole by 1/4 in all round; no source.
    let wanted = hardware.web_hole.saturating_add(Length::from_sixteenths(8));
    let [thickness_n, thickness_s] = hardware.defaulted.washer_thickness;
    let rods_asked = !job.sticks.is_empty() || !job.pieces.is_empty();
    for (side, assumed) in [(Side::N, thickness_n), (Side::S, thickness_s)] {
        let washer = hardware.washer(side);
        let bare = large && rows::washer_on_bare_web(job, hardware, side);
        if bare && washer.size < wanted {
            add(
                cautions,
                Caution::WasherCoversShort {
                    side,
                    washer: washer.size,
                    hole: hardware.web_hole,
                },
            );
        }
        let built_in = washer.shape == WasherShape::Round
            && super::washer_sizes(hardware.diameter).any(|size| size == washer.size);
        if rods_asked && assumed && !built_in {
            add(
                cautions,
                Caution::WasherThicknessAssumed {
                    side,
                    size: washer.size,
                    thickness: washer.thickness.greatest,
                },
            );
        }
    }
}

/// First and last bolt nearer to a packing end than 4D.
/// Source: NDS 2024 Table 12.5.1A, across the grain, full value.
fn ends(job: &Job, diameter: Length, cautions: &mut Cautions) {
    let Some(ends) = job.ends else { return };
    let full = times(diameter, 4);
    if ends.least < full {
        add(
            cautions,
            Caution::EndDistanceShort {
                least: ends.least,
                full,
            },
        );
    }
}

/// Least spacing below what wood and steel ask for.
fn spacing(job: &Job, diameter: Length, cautions: &mut Cautions) {
    if job.spacing.is_none() {
        return;
    }
    let Some(least) = defaults::minimum_spacing(job) else {
        return;
    };
    let full = least_spacing(diameter, wood_length(job));
    if least < full {
        add(cautions, Caution::SpacingShort { least, full });
    }
}

/// Spacing along the beam that wood and steel ask for: between rows of bolts
/// loaded across the grain, 2.5D up to l/D = 2, 5D from l/D = 6, between these
/// (5 l + 10 D) / 8; never below 2 2/3 D. `wood` is l, the wood of both sides
/// together; unknown counts as long. Rounded up to a count.
///
/// Source: NDS 2024 Table 12.5.1D; AISC 360-16 J3.3.
pub fn least_spacing(diameter: Length, wood: Option<Length>) -> Length {
    let d = i64::from(diameter.counts());
    let l = wood.map_or(i64::MAX / 16, |wood| i64::from(wood.counts()));
    let eighths_of_wood = if l <= 2 * d {
        20 * d
    } else if l >= 6 * d {
        40 * d
    } else {
        5 * l + 10 * d
    };
    let in_wood = up(eighths_of_wood, 8);
    let in_steel = up(8 * d, 3);
    i32::try_from(in_wood.max(in_steel)).map_or(Length::MAX, Length::from_counts)
}

/// `counts` over `parts`, rounded up; both are positive where a bolt is one.
const fn up(counts: i64, parts: i64) -> i64 {
    counts.div_euclid(parts) + (counts.rem_euclid(parts) > 0) as i64
}

/// Wood of both sides together: the least measured distance from web to flange
/// tip of each side, else the section's; `None` where neither is known.
fn wood_length(job: &Job) -> Option<Length> {
    let nominal = Section::of(job).map(|section| section.outstand());
    let [n, s] = &job.outstands;
    let n = n.iter().copied().min().or(nominal)?;
    let s = s.iter().copied().min().or(nominal)?;
    Some(n.saturating_add(s))
}

/// Rows against the edges of the packing, the fillets and each other.
fn edges(job: &Job, hardware: &Hardware, cautions: &mut Cautions) {
    let Some(section) = Section::of(job) else {
        return;
    };
    let Ok(heights) = rows::heights(job) else {
        return;
    };
    let diameter = hardware.diameter;
    let single = defaults::pattern(job) == Pattern::Single;
    let clear = section.clear_height();
    let bottom = if single { heights.top } else { heights.bot };
    let bottom_row = if single { Row::Top } else { Row::Bot };
    for (row, found, wanted) in [
        (
            Row::Top,
            clear.saturating_sub(heights.top),
            times(diameter, 4),
        ),
        (bottom_row, bottom, rows::unloaded_edge(diameter)),
    ] {
        if found < wanted {
            add(cautions, Caution::EdgeDistanceShort { row, found, wanted });
        }
    }
    fillets(job, hardware, &section, cautions);
    if !single {
        let pairs = rule::asks_for_pairs(job);
        let between = heights.top.saturating_sub(heights.bot);
        apart(between, diameter, pairs, cautions);
    }
}

/// Holes (washers, on bare web) that reach into a fillet.
fn fillets(job: &Job, hardware: &Hardware, section: &Section, cautions: &mut Cautions) {
    let Ok(heights) = rows::heights(job) else {
        return;
    };
    let room = rows::Room::of(job, section, hardware);
    let single = defaults::pattern(job) == Pattern::Single;
    for (row, height) in [(Row::Top, heights.top), (Row::Bot, heights.bot)] {
        if single && row == Row::Bot {
            continue;
        }
        if height < room.lowest || height > room.highest {
            add(
                cautions,
                Caution::RowInFillet {
                    row,
                    height,
                    lowest: room.lowest,
                    highest: room.highest,
                },
            );
        }
    }
}

/// Rows too far apart for one sawn board, or too close for a pair.
/// Source: NDS 2024 12.5.1.3 (5 in), Table 12.5.1B (3D).
fn apart(apart: Length, diameter: Length, pairs: bool, cautions: &mut Cautions) {
    if apart > Length::from_inches(5) {
        add(cautions, Caution::RowsFarApart { apart });
    }
    let wanted = times(diameter, 3);
    if pairs && apart < wanted {
        add(cautions, Caution::RowsClose { apart, wanted });
    }
}

/// A multiple of the diameter, held at the end of the range.
fn times(diameter: Length, times: i32) -> Length {
    diameter.checked_mul(times).unwrap_or(Length::MAX)
}
