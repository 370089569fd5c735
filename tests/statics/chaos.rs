//! Arbitrary jobs: no panic, and no number that is none.

use crate::judges::dice::Dice;
use crate::judges::generator::any_hook;
use boltbay_core::Length;
use boltbay_core::caution::Cautions;
use boltbay_core::decimal::Decimal;
use boltbay_core::figure::Shown;
use boltbay_core::job::loads::LoadSide;
use boltbay_core::job::{
    Beam, BeamLength, Job, Load, LoadKind, Material, PackingPiece, Position, Shape, Support,
};
use boltbay_core::length::Rounding;
use boltbay_core::statics::{Apart, DeflectionLimit, Model, Statics, cautions};
use boltbay_core::words::{Side, Sides, Units};

const JOBS: u64 = if cfg!(feature = "soak") {
    400_000
} else {
    20_000
};

/// Any count, mostly such as houses have.
fn any(dice: &mut Dice, tame: bool) -> Length {
    let counts = match dice.between(0, if tame { 5 } else { 9 }) {
        0..=4 => dice.between(0, 240) * 1_016_000,
        5 => dice.between(-10, 10),
        6 => dice.between(-240, 960) * 1_016_000,
        7 => dice.between(i64::from(i32::MIN), i64::from(i32::MAX)),
        8 => i64::from(i32::MAX),
        _ => i64::from(i32::MIN),
    };
    Length::from_counts(counts as i32)
}

fn figure(dice: &mut Dice, tame: bool) -> Decimal {
    let digits = match dice.between(0, if tame { 2 } else { 5 }) {
        0 | 1 => dice.between(0, 1_000),
        2 => 0,
        3 => dice.between(-1_000, 1_000),
        4 => i64::from(i32::MAX),
        _ => i64::from(i32::MIN),
    };
    let places = if tame { 0 } else { dice.between(0, 6) };
    Decimal::new(digits as i32, places as u8)
}

fn position(dice: &mut Dice, tame: bool) -> Position {
    if tame && !dice.chance(1, 20) {
        let sixteenths = dice.between(0, 240 * 16) as i32;
        return Position::from_end_a(Length::from_sixteenths(sixteenths));
    }
    Position {
        reading: any(dice, tame),
        hook: any_hook(dice),
    }
}

fn maybe<T>(dice: &mut Dice, make: impl FnOnce(&mut Dice) -> T) -> Option<T> {
    if dice.chance(1, 2) {
        Some(make(dice))
    } else {
        None
    }
}

fn load(dice: &mut Dice, tame: bool) -> Load {
    let mut from = maybe(dice, |d| position(d, tame));
    let mut to = maybe(dice, |d| position(d, tame));
    if let (Some(start), Some(end)) = (from, to)
        && start.reading > end.reading
        && tame
    {
        (from, to) = (Some(end), Some(start));
    }
    let kind = match dice.between(0, 2) {
        0 => LoadKind::Point {
            at: position(dice, tame),
        },
        1 => LoadKind::Line { from, to },
        _ => LoadKind::Area {
            tributary: any(dice, tame),
            from,
            to,
        },
    };
    Load {
        kind,
        dead: figure(dice, tame),
        live: figure(dice, tame),
        side: dice.pick(&[LoadSide::Halves, LoadSide::On(Side::S), LoadSide::Top]),
    }
}

fn shape(dice: &mut Dice, tame: bool) -> Shape {
    Shape {
        depth: any(dice, tame),
        width: any(dice, tame),
        web: any(dice, tame),
        flange: any(dice, tame),
        k_design: any(dice, tame),
        k_detail: any(dice, tame),
        k1: any(dice, tame),
        weight: figure(dice, tame),
        ix: maybe(dice, |d| figure(d, tame)),
        sx: None,
        zx: None,
    }
}

fn job(seed: u64) -> Job {
    let dice = &mut Dice::new(seed);
    let tame = dice.chance(1, 2);
    let mut job = Job::new(dice.pick(&[Units::Imperial, Units::Metric]));
    let length = if tame {
        Length::from_inches(240)
    } else {
        any(dice, false)
    };
    job.beam = Some(Beam {
        designation: dice
            .pick(&["W8X18", "CUSTOM", "W310X97", "W9X9"])
            .try_into()
            .expect("short"),
        length,
        measured: BeamLength::Measured,
    });
    job.shape = maybe(dice, |d| shape(d, tame));
    for wall in &mut job.walls {
        let short = Length::from_inches(4);
        *wall = maybe(dice, |d| if tame { short } else { any(d, false) });
    }
    job.clear = if tame {
        None
    } else {
        maybe(dice, |d| any(d, false))
    };
    if dice.chance(1, if tame { 20 } else { 4 }) {
        job.placed = Some(any(dice, tame));
    }
    for name in ["A", "B", "P", "Q", "R"]
        .iter()
        .take(dice.between(if tame { 2 } else { 0 }, 5) as usize)
    {
        let support = Support {
            name: (*name).try_into().expect("short"),
            centre: if dice.chance(4, 5) {
                Some(position(dice, tame))
            } else {
                None
            },
            length: maybe(dice, |d| any(d, tame)),
            width: None,
            material: Material::Wood,
            allowable: None,
        };
        job.supports.push(support).expect("room");
    }
    let loads = if dice.chance(1, 10) {
        32
    } else {
        dice.between(0, 5)
    };
    for _ in 0..loads {
        job.loads.push(load(dice, tame)).expect("room");
    }
    for _ in 0..dice.between(0, 3) {
        let (from, to) = (position(dice, tame), position(dice, tame));
        let sides = dice.pick(&[Sides::Both, Sides::One(Side::N)]);
        job.packing
            .push(PackingPiece { from, to, sides })
            .expect("room");
    }
    job
}

/// Every number of the results.
fn numbers(statics: &Statics) -> Vec<f64> {
    let mut all = Vec::new();
    for r in &statics.reactions {
        let forces = [r.dead, r.all, r.max, r.min, r.reduced];
        all.extend(forces.map(|force| force.as_pounds()));
    }
    for e in [
        statics.moments.dead,
        statics.moments.all,
        statics.moments.worst,
    ] {
        all.extend([e.most, e.least].map(|peak| peak.value.as_pound_feet()));
    }
    for e in [
        statics.shears.dead,
        statics.shears.all,
        statics.shears.worst,
    ] {
        all.extend([e.most, e.least].map(|peak| peak.value.as_pounds()));
    }
    for sag in &statics.sags {
        let moved = [sag.dead, sag.all, sag.total, sag.live, sag.live_up];
        all.extend(moved.map(|moved| moved.as_inches()));
        all.extend(sag.ratio_live());
        all.extend(sag.ratio_total());
        let (demand, capacity) = sag.limit(DeflectionLimit::Total);
        all.extend([demand.as_inches(), capacity.as_inches()]);
    }
    if let Some(settlement) = &statics.settlement {
        for down in 0..6 {
            all.push(settlement.moment(down).as_pound_feet());
            all.extend((0..6).map(|at| settlement.reaction(down, at).as_pounds()));
        }
    }
    all.push(statics.weight.total().as_pounds_per_foot());
    all
}

#[test]
fn arbitrary_jobs_neither_panic_nor_show_what_is_no_number() {
    let mut answered = 0;
    for seed in 0..JOBS {
        let job = job(seed);
        let thickness = [None, Some(Length::from_counts(seed as i32))];
        let Ok(model) = Model::of(&job, thickness) else {
            continue;
        };
        answered += 1;
        let mut apart = Apart::UNSOLVED;
        let statics = model.statics(&mut apart);
        for number in numbers(&statics) {
            assert!(number.is_finite(), "job {seed}: {statics:?}");
            let shown = Shown::new(number, 2, Rounding::Nearest).to_string();
            assert!(!shown.contains("NaN"), "job {seed}");
        }
        for sag in &statics.sags {
            let sizes = [sag.dead, sag.all, sag.total, sag.live, sag.live_up];
            assert!(
                sizes.iter().all(|size| size.as_inches() >= 0.0),
                "job {seed}"
            );
        }
        let inside = model
            .envelope(&mut apart)
            .at(Length::from_counts(seed as i32));
        assert!(inside.shear().as_pounds().is_finite(), "job {seed}");
        let mut found = Cautions::new();
        cautions(&job, &model, &statics, &mut found);
        for caution in &found {
            let text = caution.in_full(&job).to_string();
            assert!(!text.contains("NaN") && !text.contains("--"), "{text}");
        }
    }
    // Not everything is refused.
    assert!(answered > JOBS / 12, "{answered} of {JOBS} answered");
}
