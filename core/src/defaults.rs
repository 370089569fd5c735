//! Values that stand in where the card says nothing, each with its source.
//!
//! In: a job. Out: the keyed value, or the default of the job's units. One
//! function a value, so that no other file holds a default of its own; the
//! hardware's stand in `hardware.rs`, the row heights in `rows.rs`. Whatever
//! prints a default says that it is one ([`crate::Job`] has `None` there).

use crate::decimal::Decimal;
use crate::job::{Hanger, HangerRef, Job, JoistReading, Pattern, Run, Species};
use crate::length::Length;
use crate::limits::FINEST_STEP;
use crate::words::Units;

/// `imperial` or `metric`, as the job's units say.
const fn pick(units: Units, imperial: Length, metric: Length) -> Length {
    match units {
        Units::Imperial => imperial,
        Units::Metric => metric,
    }
}

/// Kept back from the note's spacing for errors of marking: 1/8 in, 3 mm.
/// Practice: no source.
pub fn hold_back(job: &Job) -> Length {
    let keyed = job.spacing.and_then(|spacing| spacing.hold_back);
    keyed.unwrap_or(pick(
        job.units,
        Length::from_sixteenths(2),
        Length::from_millimetres(3),
    ))
}

/// Least spacing: 5D. `None` without a bolt.
/// Source: NDS 2024 Table 12.5.1D, loads across the grain, l/D >= 6.
pub fn minimum_spacing(job: &Job) -> Option<Length> {
    let keyed = job.spacing.and_then(|spacing| spacing.minimum);
    keyed.or_else(|| {
        let diameter = job.bolt?.diameter;
        Some(diameter.checked_mul(5).unwrap_or(Length::MAX))
    })
}

/// Clear gap g between washer and whatever it must not touch: 1/4 in, 6 mm.
/// Practice: no source.
pub fn gap(job: &Job) -> Length {
    job.gap.unwrap_or(pick(
        job.units,
        Length::from_sixteenths(4),
        Length::from_millimetres(6),
    ))
}

/// Step of the hole marks: 1/16 in, 1 mm, the finest that a tape shows all along.
/// Practice: no source.
pub fn lattice(job: &Job) -> Length {
    job.lattice.unwrap_or(sixteenth(job)).max(FINEST_STEP)
}

/// Wanted play along the beam: 1/2 in, 12 mm. Practice: no source.
pub fn play(job: &Job) -> Length {
    job.play.unwrap_or(pick(
        job.units,
        Length::from_sixteenths(8),
        Length::from_millimetres(12),
    ))
}

/// Pattern: staggered. Practice: no source.
pub fn pattern(job: &Job) -> Pattern {
    job.pattern.unwrap_or(Pattern::Staggered)
}

/// Whether the first and last bolt of a packing piece are pairs: single.
/// Practice: no source.
pub fn ends_paired(job: &Job) -> bool {
    job.ends.and_then(|ends| ends.paired).unwrap_or(false)
}

/// The tape's mark held at the hook: 0. Practice: no source.
pub fn burn(run: &Run) -> Length {
    run.burn.unwrap_or(Length::ZERO)
}

/// Finest fraction read off the tape: 1/16 in, 1 mm. Practice: no source.
pub fn read_to(job: &Job, run: &Run) -> Length {
    run.read_to.unwrap_or(sixteenth(job))
}

/// Joist thickness where neither joist nor run has one: 1 1/2 in, 38 mm.
/// Source: PS 20-20 and NDS Supplement Table 1A, nominal 2 in, dressed dry.
pub fn thickness(job: &Job) -> Length {
    pick(
        job.units,
        Length::from_sixteenths(24),
        Length::from_millimetres(38),
    )
}

/// Thickness of one joist: its own, its run's, or the default.
pub fn joist_thickness(job: &Job, joist: &JoistReading) -> Length {
    joist
        .thickness
        .or_else(|| job.runs.get(usize::from(joist.run))?.thickness)
        .unwrap_or(thickness(job))
}

/// The hanger row that a joist's hanger stands for; `None` for the built-in
/// `none` and for the built-in default where the card has no hanger.
pub fn hanger_row(job: &Job, hanger: HangerRef) -> Option<&Hanger> {
    match hanger {
        HangerRef::Default => job.hangers.first(),
        HangerRef::Row(row) => job.hangers.get(usize::from(row)),
        HangerRef::None => None,
    }
}

/// Hanger metal beyond each joist face: 1 1/4 in, 32 mm; 0 for `none`.
/// Practice: no source.
pub fn hanger_metal(job: &Job, hanger: HangerRef) -> Length {
    if hanger == HangerRef::None {
        return Length::ZERO;
    }
    hanger_row(job, hanger)
        .and_then(|row| row.metal)
        .unwrap_or(pick(
            job.units,
            Length::from_sixteenths(20),
            Length::from_millimetres(32),
        ))
}

/// Hanger height from its seat: `None` = not known, it counts in every row.
/// Practice: the cautious reading, no source.
pub fn hanger_height(job: &Job, hanger: HangerRef) -> Option<Length> {
    hanger_row(job, hanger).and_then(|row| row.height)
}

/// How far the packing face may stand inside the flange tips: 1/16 in, 1.5 mm.
/// Practice: no source.
pub fn shy(job: &Job) -> Length {
    job.face.map_or(
        pick(
            job.units,
            Length::from_sixteenths(1),
            Length::from_tenth_millimetres(15),
        ),
        |face| face.shy,
    )
}

/// How far it may stand outside them: 1/8 in, 3 mm. Practice: no source.
pub fn proud(job: &Job) -> Length {
    job.face.map_or(
        pick(
            job.units,
            Length::from_sixteenths(2),
            Length::from_millimetres(3),
        ),
        |face| face.proud,
    )
}

/// What is aimed at beyond the middle of the measured distances: 0.
/// Practice: no source.
pub fn aim(job: &Job) -> Length {
    job.face.and_then(|face| face.aim).unwrap_or(Length::ZERO)
}

/// Moisture that the wood will come to, percent: 12.
/// Practice: a dry heated house; no source.
pub fn service(job: &Job) -> Decimal {
    job.service.unwrap_or(Decimal::whole(12))
}

/// Kerf of a cut through rod: 1/8 in, 3 mm. Practice: no source.
pub fn kerf(job: &Job) -> Length {
    job.kerf.unwrap_or(pick(
        job.units,
        Length::from_sixteenths(2),
        Length::from_millimetres(3),
    ))
}

/// Whether the factory end of a stick is cut off first: no. Practice: no source.
pub fn trim(job: &Job) -> bool {
    job.trim.unwrap_or(false)
}

/// Rod beyond each nut: 1/4 in, 6 mm. Practice: no source.
pub fn projection(job: &Job) -> Length {
    job.projection.unwrap_or(pick(
        job.units,
        Length::from_sixteenths(4),
        Length::from_millimetres(6),
    ))
}

/// Spare rods for `count` rods of one length: 1 or 10 % rounded up, the
/// greater; none where there are no rods. Practice: no source.
pub fn spare(job: &Job, count: u16) -> u16 {
    if count == 0 {
        return 0;
    }
    job.spare.unwrap_or(count.div_ceil(10).max(1))
}

/// From a wall face to the packing where no `packing` row stands: 1/2 in, 12 mm.
/// Practice: no source.
pub fn packing_off_wall(job: &Job) -> Length {
    pick(
        job.units,
        Length::from_sixteenths(8),
        Length::from_millimetres(12),
    )
}

/// From an end of the steel without a wall to the packing: 1/4 in, 6 mm.
/// Practice: no source.
pub fn packing_off_end(job: &Job) -> Length {
    pick(
        job.units,
        Length::from_sixteenths(4),
        Length::from_millimetres(6),
    )
}

/// Whether the packing stands wedged down on the bottom flange: no.
/// Practice: the cautious reading, no source.
pub fn seated(job: &Job) -> bool {
    job.seated.unwrap_or(false)
}

/// How far the packing stands off the web: tight. Practice: packing is drawn up
/// to the web by its bolts, no source.
pub fn standoff(job: &Job) -> Length {
    job.standoff.unwrap_or_default()
}

/// Load duration factor CD: 1.0.
/// Source: NDS 2024 Table 2.3.2, occupancy live load (ten years).
pub fn duration(job: &Job) -> Decimal {
    job.duration.unwrap_or(Decimal::new(10, 1))
}

/// Bending yield strength of bolt or rod: 45 ksi, 310 MPa.
/// Source: NDS 2024 Tables 12A to 12G (Fyb = 45,000 psi).
pub fn fyb(job: &Job) -> Decimal {
    let keyed = job.bolt.and_then(|bolt| bolt.fyb);
    keyed.unwrap_or(match job.units {
        Units::Imperial => Decimal::whole(45),
        Units::Metric => Decimal::whole(310),
    })
}

/// Yield strength of the beam: 50 ksi, 345 MPa.
/// Source: ASTM A992/A992M, tensile requirements.
pub fn yield_strength(job: &Job) -> Decimal {
    job.steel.map_or(
        match job.units {
            Units::Imperial => Decimal::whole(50),
            Units::Metric => Decimal::whole(345),
        },
        |steel| steel.fy,
    )
}

/// Tensile strength of the beam: 65 ksi, 450 MPa.
/// Source: ASTM A992/A992M, tensile requirements.
pub fn tensile_strength(job: &Job) -> Decimal {
    let keyed = job.steel.and_then(|steel| steel.fu);
    keyed.unwrap_or(match job.units {
        Units::Imperial => Decimal::whole(65),
        Units::Metric => Decimal::whole(450),
    })
}

/// Species of the packing: spruce-pine-fir, with a caution.
/// Practice: the weakest of the four; no source.
pub fn species(job: &Job) -> Species {
    job.wood.unwrap_or(Species::Spf)
}

/// Joist top above the top of the steel, by side: 0. Practice: no source.
pub fn floor_offset(job: &Job, side: crate::words::Side) -> Length {
    let [n, s] = &job.floors;
    let floor = match side {
        crate::words::Side::N => n,
        crate::words::Side::S => s,
    };
    floor.and_then(|floor| floor.offset).unwrap_or(Length::ZERO)
}

/// 1/16 in or 1 mm: the finest step of a tape.
const fn sixteenth(job: &Job) -> Length {
    pick(
        job.units,
        Length::from_sixteenths(1),
        Length::from_millimetres(1),
    )
}
