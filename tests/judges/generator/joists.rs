//! Joists of an invented floor, and the tape readings that say where they are.
//!
//! In: dice and a job with walls. Out: hangers, floors, one run a side with a
//! reading for each joist, and the joists themselves. Rule: regular, lapped,
//! irregular, doubled or none; half thicknesses off the lattice now and then.

use super::house::{faces, length};
use super::{Dice, Generated, Grid};
use boltbay_core::Length;
use boltbay_core::decimal::Decimal;
use boltbay_core::job::{
    Edge, Floor, Hanger, HangerRef, Job, JoistReading, PatternRows, Run, RunHook, Shape,
};
use boltbay_core::joists::Joist;
use boltbay_core::words::{End, Side, Units};

/// The shape, heights of the rows, hangers and how the floor meets the steel.
pub(crate) fn floors(dice: &mut Dice, grid: &Grid, job: &mut Job) {
    let depth = dice.between(8 * 16, 12 * 16);
    let flange = dice.between(5, 10);
    job.shape = Some(Shape {
        depth: grid.sixteenths(depth),
        width: grid.sixteenths(8 * 16),
        web: grid.sixteenths(5),
        flange: grid.sixteenths(flange),
        k_design: grid.sixteenths(flange + 8),
        k_detail: grid.sixteenths(flange + 10),
        k1: grid.sixteenths(12),
        weight: Decimal::whole(33),
        ix: None,
        sx: None,
        zx: None,
    });
    let clear = depth - 2 * flange;
    job.rows = Some(PatternRows {
        top: grid.sixteenths(clear - dice.between(28, 36)),
        bot: grid.sixteenths(dice.between(28, 36)),
    });
    for n in 0..dice.between(0, 3) {
        let metal = dice.pick(&[0, 8, 12, 20, 24]);
        let hanger = Hanger {
            name: ["LONG", "WIDE", "SHORT"][n as usize]
                .try_into()
                .expect("short"),
            metal: (!dice.chance(1, 3)).then(|| grid.sixteenths(metal)),
            height: (!dice.chance(1, 3)).then(|| grid.sixteenths(dice.between(40, 9 * 16))),
            rated: None,
        };
        let _ = job.hangers.push(hanger);
    }
    for side in [0, 1] {
        if !dice.chance(1, 3) {
            job.floors[side] = Some(Floor {
                joist_depth: grid.sixteenths(dice.between(7 * 16, 11 * 16)),
                offset: dice
                    .chance(1, 2)
                    .then(|| grid.sixteenths(dice.between(-16, 32))),
                subfloor: None,
            });
        }
    }
}

/// Faces of the joists of a side, toward A and toward B, in counts.
fn floor(dice: &mut Dice, grid: &Grid, from: i64, to: i64, first: i64) -> Vec<(i64, i64)> {
    let inch = i64::from(grid.sixteenths(16).counts());
    let usual = dice.pick(&[12 * 16, 16 * 16, 16 * 16, 307, 24 * 16, 24 * 16]);
    let thick = dice.pick(&[24, 24, 24, 26, 27, 32]);
    let irregular = dice.chance(1, 3);
    let doubles = if dice.chance(1, 3) { 5 } else { 1_000 };
    let count = |sixteenths: i64| i64::from(grid.sixteenths(sixteenths).counts());
    let mut list: Vec<(i64, i64)> = Vec::new();
    let mut at = from + first;
    while at + 2 * inch < to {
        let wide = match irregular {
            true => count(thick + dice.between(0, 4)),
            false => count(thick),
        };
        if list.last().is_none_or(|last| last.1 <= at) {
            list.push((at, at + wide));
        }
        if dice.chance(1, doubles) && at + 2 * wide <= to {
            list.push((at + wide, at + 2 * wide));
        }
        at += match irregular {
            true => count(usual + dice.between(-48, 48)),
            false => count(usual),
        };
    }
    list
}

/// A reading of a face or centre line.
fn reading(edge: Edge, toward_b: bool, faces: (i64, i64)) -> i64 {
    match (edge, toward_b) {
        (Edge::Near, true) | (Edge::Far, false) => faces.0,
        (Edge::Centre, _) => (faces.0 + faces.1) / 2,
        (Edge::Far, true) | (Edge::Near, false) => faces.1,
    }
}

/// The metal of a joist's hanger beyond its faces.
fn metal_of(job: &Job, of: HangerRef) -> Length {
    let row = match of {
        HangerRef::None => return Length::ZERO,
        HangerRef::Default => job.hangers.first(),
        HangerRef::Row(n) => job.hangers.get(usize::from(n)),
    };
    let usual = match job.units {
        Units::Imperial => Length::from_sixteenths(20),
        Units::Metric => Length::from_millimetres(32),
    };
    row.and_then(|h| h.metal).unwrap_or(usual)
}

/// Which hanger a joist gets.
fn any_hanger(dice: &mut Dice, job: &Job) -> HangerRef {
    let rows = job.hangers.len() as i64;
    match dice.between(0, 5) {
        0 | 1 => HangerRef::None,
        2 | 3 if rows > 0 => HangerRef::Row(dice.between(0, rows - 1) as u8),
        _ => HangerRef::Default,
    }
}

/// One side's run with its readings, and its joists.
fn side(dice: &mut Dice, generated: &mut Generated, side: Side, list: &[(i64, i64)]) {
    let job = &mut generated.job;
    let wall = faces(job)[0];
    let (hook, origin, toward_b) = match (dice.between(0, 3), wall) {
        (0, Some(face)) => (RunHook::Wall(End::A), face, true),
        (1, _) => (RunHook::Steel(End::B), length(job), false),
        _ => (RunHook::Steel(End::A), 0, true),
    };
    let even = list.iter().all(|f| (f.0 + f.1) % 2 == 0);
    let edge = match dice.between(0, 2) {
        0 if even => Edge::Centre,
        1 => Edge::Far,
        _ => Edge::Near,
    };
    let burn = dice.chance(1, 5).then(|| match job.units {
        Units::Imperial => Length::from_inches(1),
        Units::Metric => Length::from_millimetres(100),
    });
    let run = job.runs.len() as u8;
    let _ = job.runs.push(Run {
        side,
        hook,
        edge,
        burn,
        thickness: None,
        read_to: None,
        overridden: false,
    });
    let burnt = burn.map_or(0, |b| i64::from(b.counts()));
    let shift = job.placed.map_or(0, |d| i64::from(d.counts()));
    let mut ordered: Vec<(usize, (i64, i64))> = list.iter().copied().enumerate().collect();
    if !toward_b {
        ordered.reverse();
    }
    let mut joists = Vec::new();
    for (n, faces) in ordered {
        let of = any_hanger(dice, job);
        let metal = metal_of(job, of);
        let from_origin = (reading(edge, toward_b, faces) - origin).abs() + burnt;
        joists.push(Joist {
            from: Length::from_counts((faces.0 - shift) as i32),
            to: Length::from_counts((faces.1 - shift) as i32),
            metal,
            side,
            number: n as u8 + 1,
            reading: job.joists.len() as u8,
        });
        let _ = job.joists.push(JoistReading {
            reading: Length::from_counts(from_origin as i32),
            thickness: Some(Length::from_counts((faces.1 - faces.0) as i32)),
            hanger: of,
            run,
            guessed: false,
        });
    }
    joists.sort_by_key(|j| j.from);
    for joist in joists {
        let _ = generated.joists.push(joist);
    }
}

/// The joists of both sides.
pub(crate) fn joists(dice: &mut Dice, grid: &Grid, generated: &mut Generated) {
    let [a, b] = faces(&generated.job);
    let (from, to) = (a.unwrap_or(0), b.unwrap_or(length(&generated.job)));
    let count = |sixteenths: i64| i64::from(grid.sixteenths(sixteenths).counts());
    let first = count(dice.between(0, 20 * 16));
    let north = floor(dice, grid, from, to, first);
    let lapped = count(dice.pick(&[24, 26, 32]));
    let south: Vec<(i64, i64)> = match dice.between(0, 5) {
        0 => Vec::new(),
        1 => north.clone(),
        2 | 3 => north
            .iter()
            .map(|f| (f.0 + lapped, f.1 + lapped))
            .filter(|f| f.1 <= to)
            .collect(),
        _ => {
            let first = count(dice.between(0, 20 * 16));
            floor(dice, grid, from, to, first)
        }
    };
    let north = if dice.chance(1, 10) {
        Vec::new()
    } else {
        north
    };
    for (of, list) in [(Side::N, north), (Side::S, south)] {
        if !list.is_empty() {
            side(dice, generated, of, &list);
        }
    }
}
