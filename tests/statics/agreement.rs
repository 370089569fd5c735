//! A thousand generated beams against the stiffness method.
//!
//! Forces agree to 1e-9 of the total load, moments to 1e-9 of total load times
//! longest span, sags to 1e-9 of total load times the longest span's cube over
//! EI. The reference tries every choice of loaded segments.

use super::build::{Bench, decimal};
use super::stiffness::{Answer, Beam, Load};
use crate::judges::dice::Dice;
use boltbay_core::Length;
use boltbay_core::statics::{Apart, Extremes, Model, Statics};
use core::ops::Range;
use core::slice;

const BEAMS: u64 = if cfg!(feature = "soak") {
    20_000
} else {
    1_000
};
const AGREE: f64 = 1e-9;

/// Counts of an eighth of an inch.
const EIGHTH: i64 = 127_000;

/// A generated beam, twice.
struct Twins {
    bench: Bench,
    beam: Beam,
}

/// Where the supports stand, in counts, and how long the steel is.
fn stand(dice: &mut Dice) -> (Vec<i64>, i64) {
    let longest = dice.pick(&[240, 480, 1_600]);
    let overhang = |dice: &mut Dice| match dice.between(0, 3) {
        0 => 0,
        1 => 16,
        2 => dice.between(1, 160),
        _ => dice.between(1, 960),
    };
    let mut at = overhang(dice);
    let mut supports = vec![at];
    for _ in 1..dice.between(2, 5) {
        at += match dice.between(0, 4) {
            0 => dice.between(48, 120),
            _ => dice.between(48, longest),
        };
        supports.push(at);
    }
    let length = (at + overhang(dice)).min(7_680);
    supports.retain(|at| *at <= length);
    if supports.len() < 2 {
        return stand(dice);
    }
    (
        supports.iter().map(|at| at * EIGHTH).collect(),
        length * EIGHTH,
    )
}

fn length(counts: i64) -> Length {
    Length::from_counts(i32::try_from(counts).expect("on the steel"))
}

fn inches(counts: i64) -> f64 {
    counts as f64 / 1_016_000.0
}

/// A place: anywhere, a support, an end.
fn place(dice: &mut Dice, supports: &[i64], end: i64) -> i64 {
    match dice.between(0, 6) {
        0 => dice.pick(supports),
        1 => dice.pick(&[0, end]),
        _ => dice.between(0, end / EIGHTH) * EIGHTH,
    }
}

/// A part of a load in whole units, now and then none.
fn part(dice: &mut Dice, most: i64) -> f64 {
    if dice.chance(1, 5) {
        0.0
    } else {
        dice.between(1, most) as f64
    }
}

fn generate(seed: u64) -> Twins {
    let mut dice = Dice::new(seed);
    let (supports, end) = stand(&mut dice);
    let (ix, own) = (dice.between(10, 4_000), part(&mut dice, 80));
    let centres: Vec<Length> = supports.iter().map(|at| length(*at)).collect();
    let mut bench = Bench::weightless(ix as f64, length(end)).on(&centres);
    let shape = bench.0.shape.as_mut().expect("custom");
    shape.weight = decimal(own);
    let mut loads = Vec::new();
    let count = if dice.chance(1, 25) {
        32
    } else {
        dice.between(1, 7)
    };
    while loads.len() < count as usize {
        let (dead, live) = (part(&mut dice, 600), part(&mut dice, 1_500));
        let (one, other) = (
            place(&mut dice, &supports, end),
            place(&mut dice, &supports, end),
        );
        let (from, to) = (one.min(other), one.max(other));
        if dice.chance(1, 3) || from == to {
            let (dead, live) = (dead * 10.0, live * 10.0);
            bench = bench.point(length(one), dead, live);
            let at = inches(one);
            loads.push(Load {
                from: at,
                to: at,
                dead,
                live,
            });
        } else {
            bench = bench.line(length(from), length(to), dead, live);
            let (dead, live) = (dead / 12.0, live / 12.0);
            loads.push(Load {
                from: inches(from),
                to: inches(to),
                dead,
                live,
            });
        }
    }
    let beam = Beam {
        length: inches(end),
        supports: supports.iter().map(|at| inches(*at)).collect(),
        ei: ix as f64 * 29e6,
        own: own / 12.0,
        loads,
    };
    Twins { bench, beam }
}

/// What agreement is measured by.
struct Scale {
    seed: u64,
    force: f64,
    moment: f64,
    sag: f64,
}

impl Scale {
    fn of(seed: u64, beam: &Beam) -> Scale {
        let loads = beam.loads.iter().map(|load| {
            let run = if load.from == load.to {
                1.0
            } else {
                load.to - load.from
            };
            (load.dead + load.live) * run
        });
        let force = loads.sum::<f64>() + beam.own * beam.length;
        let segments = beam.segments();
        let longest = segments.iter().map(|(a, b)| b - a).fold(0.0, f64::max);
        Scale {
            seed,
            force,
            moment: force * longest,
            sag: force * longest.powi(3) / beam.ei,
        }
    }

    fn near(&self, found: f64, expected: f64, scale: f64, what: &str) {
        let off = (found - expected).abs();
        let seed = self.seed;
        // A NaN is no agreement.
        assert!(
            off <= scale * AGREE,
            "beam {seed}, {what}: {found} against {expected}"
        );
    }
}

/// Most and least over answers.
fn range(answers: &[Answer], of: impl Fn(&Answer) -> (f64, f64)) -> (f64, f64) {
    answers
        .iter()
        .map(of)
        .fold((f64::MIN, f64::MAX), |(most, least), (up, down)| {
            (most.max(up), least.min(down))
        })
}

/// Over all pieces of an answer.
fn along(answer: &Answer, of: fn(&super::stiffness::Piece) -> (f64, f64)) -> (f64, f64) {
    answer
        .pieces
        .iter()
        .map(of)
        .fold((0.0, 0.0), |(most, least), (up, down)| {
            (f64::max(most, up), f64::min(least, down))
        })
}

/// All loadings of a beam.
struct Loadings {
    dead: Answer,
    all: Answer,
    sure: Vec<Answer>,
    totals: Vec<Answer>,
    lives: Vec<Answer>,
}

impl Loadings {
    fn of(beam: &Beam) -> Loadings {
        let choices = 1_u32 << beam.segments().len();
        // A segment without length carries nothing, on or off.
        let segments = beam.segments().into_iter().enumerate();
        let empty = segments.filter(|(_, (from, to))| from == to);
        let empty: u32 = empty.map(|(k, _)| 1 << k).sum();
        let every = |dead: f64, own: f64| -> Vec<Answer> {
            let masks = (0..choices).filter(|mask| mask & empty == 0);
            masks.map(|mask| beam.solve(dead, own, mask)).collect()
        };
        Loadings {
            dead: beam.solve(1.0, 1.0, 0),
            all: beam.solve(1.0, 1.0, choices - 1),
            sure: every(0.6, 1.0),
            totals: every(1.0, 1.0),
            lives: every(0.0, 0.0),
        }
    }
}

fn reactions(scale: &Scale, statics: &Statics, loadings: &Loadings) {
    for (i, reaction) in statics.reactions.iter().enumerate() {
        let (most, least) = range(&loadings.totals, |a| (a.reactions[i], a.reactions[i]));
        let (_, sure) = range(&loadings.sure, |a| (a.reactions[i], a.reactions[i]));
        for (found, expected, what) in [
            (reaction.dead, loadings.dead.reactions[i], "dead"),
            (reaction.all, loadings.all.reactions[i], "all"),
            (reaction.max, most, "max"),
            (reaction.min, least, "min"),
            (reaction.reduced, sure, "0.6 dead"),
        ] {
            scale.near(found.as_pounds(), expected, scale.force, what);
        }
    }
}

fn inner(scale: &Scale, statics: &Statics, loadings: &Loadings) {
    let check = |found: (f64, f64), expected: (f64, f64), size: f64, what: &str| {
        scale.near(found.0, expected.0, size, what);
        scale.near(found.1, expected.1, size, what);
    };
    let bent = |e: Extremes<boltbay_core::force::Moment>| {
        (
            e.most.value.as_pound_inches(),
            e.least.value.as_pound_inches(),
        )
    };
    let sheared = |e: Extremes<boltbay_core::force::Force>| {
        (e.most.value.as_pounds(), e.least.value.as_pounds())
    };
    let of_moment = |a: &Answer| along(a, |p| p.moments());
    let of_shear = |a: &Answer| along(a, |p| p.shears());
    let (m, v) = (&statics.moments, &statics.shears);
    check(
        bent(m.dead),
        of_moment(&loadings.dead),
        scale.moment,
        "moment, dead",
    );
    check(
        bent(m.all),
        of_moment(&loadings.all),
        scale.moment,
        "moment, all",
    );
    check(
        bent(m.worst),
        range(&loadings.totals, of_moment),
        scale.moment,
        "moment",
    );
    check(
        sheared(v.dead),
        of_shear(&loadings.dead),
        scale.force,
        "shear, dead",
    );
    check(
        sheared(v.all),
        of_shear(&loadings.all),
        scale.force,
        "shear, all",
    );
    check(
        sheared(v.worst),
        range(&loadings.totals, of_shear),
        scale.force,
        "shear",
    );
}

fn sags(scale: &Scale, beam: &Beam, statics: &Statics, loadings: &Loadings) {
    let segments = beam.segments();
    let there = (0..segments.len()).filter(|k| segments[*k].0 < segments[*k].1);
    let there: Vec<usize> = there.collect();
    assert_eq!(statics.sags.len(), there.len());
    for (sag, k) in statics.sags.iter().zip(there) {
        assert_eq!(sag.from.as_inches(), segments[k].0);
        assert_eq!(sag.to.as_inches(), segments[k].1);
        let (total, _) = range(&loadings.totals, |a| a.pieces[k].sags());
        let (live, up) = range(&loadings.lives, |a| a.pieces[k].sags());
        for (found, expected, what) in [
            (sag.dead, loadings.dead.pieces[k].sags().0, "sag, dead"),
            (sag.all, loadings.all.pieces[k].sags().0, "sag, all"),
            (sag.total, total, "sag, total"),
            (sag.live, live, "sag, live"),
            (sag.live_up, -up, "sag, up"),
        ] {
            scale.near(found.as_inches(), expected, scale.sag, what);
        }
    }
}

/// Moments and shears of each segment by itself; none is below nothing the one
/// way, or above it the other.
fn segments(scale: &Scale, twins: &Twins, loadings: &Loadings) {
    let model = Model::of(&twins.bench.0, [None, None]).expect("a model");
    let segments = twins.beam.segments();
    let there = (0..segments.len()).filter(|k| segments[*k].0 < segments[*k].1);
    let there: Vec<usize> = there.collect();
    let mut apart = Apart::UNSOLVED;
    let found = model.segments(&mut apart);
    assert_eq!(found.len(), there.len());
    for (found, k) in found.iter().zip(there) {
        let moments = |a: &Answer| both_ways(a.pieces[k].moments());
        let shears = |a: &Answer| both_ways(a.pieces[k].shears());
        for (of, moment, shear, what) in [
            (
                slice::from_ref(&loadings.dead),
                found.moments.dead,
                found.shears.dead,
                "dead of a segment",
            ),
            (
                slice::from_ref(&loadings.all),
                found.moments.all,
                found.shears.all,
                "all of a segment",
            ),
            (
                &loadings.totals[..],
                found.moments.worst,
                found.shears.worst,
                "worst of a segment",
            ),
        ] {
            let (most, least) = range(of, moments);
            let bent = [moment.most.value, moment.least.value].map(|m| m.as_pound_inches());
            scale.near(bent[0], most, scale.moment, what);
            scale.near(bent[1], least, scale.moment, what);
            let (most, least) = range(of, shears);
            let sheared = [shear.most.value, shear.least.value].map(|v| v.as_pounds());
            scale.near(sheared[0], most, scale.force, what);
            scale.near(sheared[1], least, scale.force, what);
        }
    }
}

fn both_ways((most, least): (f64, f64)) -> (f64, f64) {
    (most.max(0.0), least.min(0.0))
}

/// Reactions when each support goes down by 1/8 in, to 1e-9 of the greatest.
fn settled(scale: &Scale, beam: &Beam, statics: &Statics) {
    let settlement = statics.settlement.expect("Ix is known");
    for down in 0..beam.supports.len() {
        let expected = beam.settled(down, 0.125);
        // Of two supports one can move freely: only what rounding leaves.
        let stiff = beam.ei * 0.125 / (beam.supports[1] - beam.supports[0]).powi(3);
        let most = expected.iter().map(|r| r.abs()).fold(stiff, f64::max);
        for (support, expected) in expected.iter().enumerate() {
            let found = settlement.reaction(down, support).as_pounds();
            scale.near(found, *expected, most, "settlement");
        }
    }
}

/// Shear and moment at a place, worst over all choices.
fn inside(scale: &Scale, dice: &mut Dice, twins: &Twins, loadings: &Loadings) {
    let model = Model::of(&twins.bench.0, [None, None]).expect("a model");
    let mut apart = Apart::UNSOLVED;
    let envelope = model.envelope(&mut apart);
    for _ in 0..3 {
        let counts = dice.between(0, (twins.beam.length * 8.0) as i64) * EIGHTH;
        let (found, at) = (envelope.at(length(counts)), inches(counts));
        let (most, least) = range(&loadings.totals, |a| {
            let here = a.pieces.iter().filter(|piece| piece.holds(at));
            let moments = here.map(|piece| piece.moment_at(at - piece.start()));
            moments.fold((f64::MIN, f64::MAX), |(up, down), m| {
                (up.max(m), down.min(m))
            })
        });
        let moment = scale.moment;
        scale.near(found.moment_most.as_pound_inches(), most, moment, "M here");
        scale.near(
            found.moment_least.as_pound_inches(),
            least,
            moment,
            "M here",
        );
        let (most, least) = range(&loadings.totals, |a| {
            let here = a.pieces.iter().filter(|piece| piece.holds(at));
            let shears = here.flat_map(|piece| piece.shears_around(at - piece.start()));
            shears.fold((f64::MIN, f64::MAX), |(up, down), v| {
                (up.max(v), down.min(v))
            })
        });
        scale.near(found.shear_most.as_pounds(), most, scale.force, "V here");
        scale.near(found.shear_least.as_pounds(), least, scale.force, "V here");
    }
}

/// A half of the beams a test, for two cores; both kinds often in each.
#[test]
fn generated_beams_agree_with_the_stiffness_method() {
    agree(0..BEAMS / 2);
}

#[test]
fn more_generated_beams_agree_with_the_stiffness_method() {
    agree(BEAMS / 2..BEAMS);
}

fn agree(seeds: Range<u64>) {
    let mut lifting = 0;
    let beams = (seeds.end - seeds.start) as usize;
    for seed in seeds {
        let twins = generate(seed);
        let scale = Scale::of(seed, &twins.beam);
        if scale.force == 0.0 {
            continue;
        }
        let statics = twins.bench.solve();
        let loadings = Loadings::of(&twins.beam);
        reactions(&scale, &statics, &loadings);
        inner(&scale, &statics, &loadings);
        sags(&scale, &twins.beam, &statics, &loadings);
        segments(&scale, &twins, &loadings);
        settled(&scale, &twins.beam, &statics);
        inside(&scale, &mut Dice::new(seed ^ 0x5eed), &twins, &loadings);
        lifting += usize::from(statics.lifts());
    }
    // The generator makes what it should: both kinds often.
    let (few, many) = (beams / 10, beams * 9 / 10);
    assert!(lifting > few && lifting < many, "{lifting} of {beams} lift");
}
