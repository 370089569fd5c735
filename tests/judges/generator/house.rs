//! House: walls, packing, obstacles and zones of an invented job.
//!
//! In: dice and a job with a beam. Out: the job with what surrounds it, each
//! position hooked on an end or a wall as the dice say.

use super::{Dice, Grid};
use boltbay_core::Length;
use boltbay_core::job::{Hook, Job, Keepout, KeepoutKind, PackingPiece, Position, Stays};
use boltbay_core::words::{Side, Sides};

/// Length of the steel in counts.
pub(crate) fn length(job: &Job) -> i64 {
    job.beam
        .as_ref()
        .map_or(0, |beam| i64::from(beam.length.counts()))
}

/// Wall faces, where they stand.
pub(crate) fn faces(job: &Job) -> [Option<i64>; 2] {
    let count = |l: Option<Length>| l.map(|l| i64::from(l.counts()));
    let a = count(job.walls[0]);
    let b = match (a, count(job.clear)) {
        (Some(a), Some(clear)) => Some(a + clear),
        _ => count(job.walls[1]).map(|b| length(job) - b),
    };
    [a, b]
}

/// A position at a station, read from `hook` where that exists.
pub fn hooked(job: &Job, station: i64, hook: Hook) -> Position {
    let [a, b] = faces(job);
    let (reading, hook) = match (hook, a, b) {
        (Hook::EndB, _, _) => (length(job) - station, Hook::EndB),
        (Hook::WallA, Some(face), _) => (station - face, Hook::WallA),
        (Hook::WallB, _, Some(face)) => (face - station, Hook::WallB),
        _ => (station, Hook::EndA),
    };
    if reading < 0 {
        return Position::from_end_a(Length::from_counts(station as i32));
    }
    Position {
        reading: Length::from_counts(reading as i32),
        hook,
    }
}

/// Any hook, mostly end A.
pub(crate) fn any_hook(dice: &mut Dice) -> Hook {
    dice.pick(&[
        Hook::EndA,
        Hook::EndA,
        Hook::EndA,
        Hook::EndB,
        Hook::WallA,
        Hook::WallB,
    ])
}

/// Walls at A, B or both; the clear distance measured or not; now and then a
/// beam that is off its mark.
pub(crate) fn walls(dice: &mut Dice, grid: &Grid, job: &mut Job) {
    if dice.chance(1, 6) {
        job.placed = Some(grid.sixteenths(dice.between(-24, 24)));
    }
    let bearing = |dice: &mut Dice| Some(grid.sixteenths(dice.between(40, 80)));
    if !dice.chance(1, 4) {
        job.walls[0] = bearing(dice);
    }
    if !dice.chance(1, 4) {
        job.walls[1] = bearing(dice);
    }
    if let [Some(a), Some(b)] = job.walls
        && dice.chance(1, 2)
    {
        job.clear = job
            .beam
            .as_ref()
            .and_then(|beam| beam.length.checked_sub(a)?.checked_sub(b));
    }
}

/// A piece of packing between two stations.
fn piece(dice: &mut Dice, job: &mut Job, from: i64, to: i64, sides: Sides) {
    let hook = any_hook(dice);
    let piece = PackingPiece {
        from: hooked(job, from, hook),
        to: hooked(job, to, hook),
        sides,
    };
    let _ = job.packing.push(piece);
}

/// Pieces one after another on these sides, breaks between them.
fn pieces(dice: &mut Dice, grid: &Grid, job: &mut Job, sides: Sides, most: usize) {
    let [a, b] = faces(job);
    let inch = i64::from(grid.sixteenths(16).counts());
    let mut from = a.unwrap_or(0) + dice.between(0, 2) * inch;
    let end = b.unwrap_or(length(job)) - dice.between(0, 2) * inch;
    for left in (1..=most).rev() {
        let to = match left {
            1 => end,
            _ => from + dice.between(24, 24 + ((end - from) / inch / left as i64).max(0)) * inch,
        };
        if to > end - 12 * inch || left == 1 {
            if end - from >= 6 * inch {
                piece(dice, job, from, end, sides);
            }
            return;
        }
        piece(dice, job, from, to, sides);
        let gap = dice.pick(&[1, 2, 4, 8, 12, 20, 40]) * inch;
        from = to + gap * dice.between(1, 2) / 2;
    }
}

/// Packing: the default piece, one, several, or each side by itself.
pub(crate) fn packing(dice: &mut Dice, grid: &Grid, job: &mut Job) {
    match dice.between(0, 9) {
        0..=2 => {}
        3 | 4 => pieces(dice, grid, job, Sides::Both, 1),
        5 | 6 => {
            let most = dice.between(2, 4) as usize;
            pieces(dice, grid, job, Sides::Both, most);
        }
        7 => {
            let side = dice.pick(&Side::BOTH);
            pieces(dice, grid, job, Sides::One(side), 2);
        }
        _ => {
            for side in Side::BOTH {
                let most = dice.between(1, 3) as usize;
                pieces(dice, grid, job, Sides::One(side), most);
            }
        }
    }
    if job.packing.is_empty() && dice.chance(1, 8) {
        pieces(dice, grid, job, Sides::One(Side::S), 1);
    }
}

/// One obstacle or zone.
fn thing(dice: &mut Dice, grid: &Grid, job: &mut Job) {
    let kind = dice.pick(&[
        KeepoutKind::Solid,
        KeepoutKind::Access,
        KeepoutKind::Access,
        KeepoutKind::Zone,
    ]);
    let sixteenth = i64::from(grid.sixteenths(16).counts()) / 16;
    let wide = match kind {
        KeepoutKind::Solid => dice.between(8, 80),
        KeepoutKind::Access => dice.between(32, 400),
        KeepoutKind::Zone => dice.between(16, 200),
    } * sixteenth;
    let on_grid = |x: i64| i64::from(grid.sixteenths(x / 63_500).counts());
    let from = on_grid(dice.between(0, (length(job) - wide).max(0)));
    let to = on_grid(from + wide).min(length(job));
    if to <= from {
        return;
    }
    let sides = match kind {
        KeepoutKind::Zone => Sides::Both,
        _ => dice.pick(&[
            Sides::Both,
            Sides::One(Side::N),
            Sides::One(Side::S),
            Sides::One(Side::N),
        ]),
    };
    let hook = any_hook(dice);
    let keepout = Keepout {
        sides,
        from: hooked(job, from, hook),
        to: hooked(job, to, hook),
        kind,
        stays: dice.pick(&[Stays::Stays, Stays::Rides]),
        name: "thing".try_into().expect("short"),
    };
    let _ = job.keepouts.push(keepout);
}

/// Obstacles and zones.
pub(crate) fn things(dice: &mut Dice, grid: &Grid, job: &mut Job) {
    let most = length(job) / (60 * 1_016_000);
    for _ in 0..dice.between(0, 1 + most) / dice.between(1, 2) {
        thing(dice, grid, job);
    }
}
