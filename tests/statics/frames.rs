//! Where supports and loads lie: walls, hooks, a beam off its mark, what is
//! missing, what contradicts itself. Expected values are worked by hand.

use super::build::{Bench, all_near, decimal, feet, inches, near};
use boltbay_core::Length;
use boltbay_core::frame::FrameError;
use boltbay_core::job::loads::LoadSide;
use boltbay_core::job::{
    Hook, Job, Load, LoadKind, Material, PackingPiece, Position, Species, Support,
};
use boltbay_core::statics::{
    Model, PackingThickness, Refusal, Statics, cautions, density, settled_by, solve,
};
use boltbay_core::words::{Side, Sides, Units};

/// A support that says no more than its name.
fn bare(name: &str) -> Support {
    Support {
        name: name.try_into().expect("short"),
        centre: None,
        length: None,
        width: None,
        material: Material::Concrete,
        allowable: None,
    }
}

/// A line load with default extents.
fn everywhere(dead: f64, live: f64) -> Load {
    Load {
        kind: LoadKind::Line {
            from: None,
            to: None,
        },
        dead: decimal(dead),
        live: decimal(live),
        side: LoadSide::Halves,
    }
}

/// 20 ft of weightless beam between walls with 6 and 4 in of bearing, a post at
/// 10 ft, 120 plf with default extents.
fn house() -> Job {
    let mut job = Bench::weightless(100.0, feet(20.0)).0;
    job.walls = [Some(inches(6.0)), Some(inches(4.0))];
    for name in ["B", "A"] {
        job.supports.push(bare(name)).expect("room");
    }
    let mut bench = Bench(job).on(&[feet(10.0)]);
    bench.0.loads.push(everywhere(120.0, 0.0)).expect("room");
    bench.0
}

fn solved(job: &Job) -> Statics {
    solve(job, [None, None]).expect("statics")
}

fn places(statics: &Statics) -> Vec<f64> {
    let reactions = statics.reactions.iter();
    reactions.map(|r| r.at.as_inches()).collect()
}

fn total(statics: &Statics) -> f64 {
    statics.reactions.iter().map(|r| r.dead.as_pounds()).sum()
}

#[test]
fn supports_a_and_b_lie_in_their_walls() {
    let statics = solved(&house());
    all_near(&places(&statics), &[3.0, 120.0, 238.0], 0.0, "centres");
    let rows: Vec<u8> = statics.reactions.iter().map(|r| r.row).collect();
    assert_eq!(rows, [1, 2, 0], "from end A, rows as on the card");
    let lengths = statics.reactions.iter().map(|r| r.length.expect("known"));
    let lengths: Vec<f64> = lengths.map(|l| l.as_inches()).collect();
    all_near(&lengths, &[6.0, 4.0, 4.0], 0.0, "bearing lengths");
    // 120 plf from wall face to wall face: 230 in.
    near(total(&statics), 2_300.0, 1e-9, "load between the walls");
}

/// Clear 18'-8 leaves 240 - 6 - 224 = 10 in at B.
#[test]
fn bearing_at_b_results_from_clear() {
    let mut job = house();
    job.clear = Some(inches(224.0));
    job.walls[1] = None;
    let statics = solved(&job);
    all_near(&places(&statics), &[3.0, 120.0, 235.0], 0.0, "centres");
    near(total(&statics), 2_240.0, 1e-9, "load between the walls");
}

/// The beam ended up 1 in toward B: what stays with the house is 1 in nearer to
/// A on the steel. Bearing at A is then 5 in, at B 5 in.
#[test]
fn a_beam_off_its_mark() {
    let mut job = house();
    job.placed = Some(inches(1.0));
    let statics = solved(&job);
    all_near(&places(&statics), &[2.5, 119.0, 237.5], 0.0, "centres");
    let lengths = statics.reactions.iter().map(|r| r.length.expect("known"));
    let lengths: Vec<f64> = lengths.map(|l| l.as_inches()).collect();
    all_near(&lengths, &[5.0, 4.0, 5.0], 0.0, "bearing lengths");
    near(total(&statics), 2_300.0, 1e-9, "the floor weighs the same");
    job.placed = Some(inches(7.0));
    let refused = solve(&job, [None, None]);
    assert_eq!(refused, Err(Refusal::SupportOffSteel { row: 1 }));
}

/// A load keyed to the end of the steel: shifted past it, it is held at the end.
#[test]
fn a_load_past_the_steel_is_held_at_its_end() {
    let mut bench = Bench(house());
    bench = bench.point(inches(0.5), 100.0, 0.0);
    bench = bench.line(inches(0.0), inches(12.0), 1_200.0, 0.0);
    bench.0.placed = Some(inches(1.0));
    let statics = bench.solve();
    // 2,300 + 100 + 11 in of 100 lb/in.
    near(total(&statics), 3_500.0, 1e-9, "held at the end");
    let model = Model::of(&bench.0, [None, None]).expect("a model");
    let mut found = Default::default();
    cautions(&bench.0, &model, &statics, &mut found);
    let past: Vec<u8> = found.iter().map(|caution| caution.number()).collect();
    assert_eq!(past.iter().filter(|number| **number == 43).count(), 2);
}

#[test]
fn keyed_places_win_and_hooks_are_read() {
    let mut job = house();
    job.supports[1].centre = Some(Position::from_end_a(inches(4.0)));
    job.supports[1].length = Some(inches(3.0));
    job.supports[2].centre = Some(Position {
        reading: inches(100.0),
        hook: Hook::WallB,
    });
    let statics = solved(&job);
    all_near(&places(&statics), &[4.0, 136.0, 238.0], 0.0, "centres");
    assert_eq!(statics.reactions[0].length, Some(inches(3.0)));
}

/// At an end without wall a load reaches the end of the steel.
#[test]
fn default_extents_without_walls() {
    let mut bench = Bench::weightless(100.0, feet(10.0)).on(&[feet(1.0), feet(9.0)]);
    bench.0.loads.push(everywhere(100.0, 50.0)).expect("room");
    let statics = bench.solve();
    near(total(&statics), 1_000.0, 1e-9, "the whole steel");
    bench.0.walls[1] = Some(inches(12.0));
    near(total(&bench.solve()), 900.0, 1e-9, "to wall face B");
}

/// 12 psf dead, 40 psf live over 12'-6: 150 and 500 plf.
#[test]
fn area_loads_by_their_tributary() {
    let mut bench = Bench::weightless(100.0, feet(10.0)).on(&[feet(0.0), feet(10.0)]);
    let load = Load {
        kind: LoadKind::Area {
            tributary: feet(12.5),
            from: None,
            to: None,
        },
        dead: decimal(12.0),
        live: decimal(40.0),
        side: LoadSide::On(Side::N),
    };
    bench.0.loads.push(load).expect("room");
    let [one, _] = [0, 1].map(|n| bench.solve().reactions[n]);
    near(one.dead.as_pounds(), 750.0, 1e-9, "dead");
    near(one.max.as_pounds(), 3_250.0, 1e-9, "dead and live");
}

#[test]
fn what_is_missing_is_named_all_at_once() {
    let kinds = |job: &Job| match solve(job, [None, None]) {
        Err(Refusal::Missing(lacking)) => lacking.kinds().collect::<Vec<_>>(),
        other => panic!("{other:?}"),
    };
    assert_eq!(
        kinds(&Job::new(Units::Imperial)),
        ["beam", "support", "load"]
    );
    let mut job = house();
    job.shape = None;
    job.loads.clear();
    job.walls = [None, Some(inches(4.0))];
    assert_eq!(kinds(&job), ["shape", "wall", "load"]);
    let mut job = house();
    job.supports.truncate(1);
    assert_eq!(kinds(&job), ["support"]);
    // A support that is neither A nor B and says no centre.
    let mut job = house();
    job.supports[2].centre = None;
    assert_eq!(kinds(&job), ["wall"]);
}

#[test]
fn contradictions_are_refused() {
    let refused = |job: &Job| solve(job, [None, None]).expect_err("refused");
    let mut job = house();
    job.supports[2].centre = Some(Position::from_end_a(inches(3.0)));
    let expected = Refusal::SupportsMeet {
        first: 1,
        second: 2,
    };
    assert_eq!(refused(&job), expected);
    let off = Position::from_end_a(feet(21.0));
    job.supports[2].centre = Some(off);
    assert_eq!(refused(&job), Refusal::Frame(FrameError::OffSteel(off)));
    let bench = Bench(house()).line(feet(3.0), feet(3.0), 1.0, 1.0);
    assert_eq!(refused(&bench.0), Refusal::LoadEmpty { row: 1 });
}

/// Reactions and moments of a beam of constant EI need no EI.
#[test]
fn without_ix_only_sags_and_settlement_are_lacking() {
    let with = solved(&house());
    let mut job = house();
    job.shape.as_mut().expect("custom").ix = None;
    let without = solved(&job);
    assert!(without.lacks_ix() && !with.lacks_ix());
    assert!(without.sags.is_empty() && without.settlement.is_none());
    assert_eq!(with.reactions, without.reactions);
    assert_eq!(with.moments, without.moments);
    assert_eq!(with.sags.len(), 4);
}

/// Steel over the whole length, overhangs included; packing where the card
/// speaks of it. W8X24: 24 plf; pocket 7.13 in high.
#[test]
fn self_weight_of_steel_and_packing() {
    let length = inches(172.0);
    let bare = Bench::shape("W8X24", length).on(&[inches(2.0), inches(150.0)]);
    let bare = bare.line(Length::ZERO, inches(1.0), 0.0, 0.0);
    let steel = bare.solve();
    near(total(&steel), 24.0 * 172.0 / 12.0, 1e-9, "steel alone");
    assert_eq!(steel.weight.packing, None);

    let mut packed = bare;
    packed.0.wood = Some(Species::DfL);
    packed.0.outstands[0].push(inches(3.125)).expect("room");
    for (from, to, sides) in [
        (10.0, 110.0, Sides::Both),
        (120.0, 170.0, Sides::One(Side::N)),
    ] {
        let [from, to] = [from, to].map(|at| Position::from_end_a(inches(at)));
        let piece = PackingPiece { from, to, sides };
        packed.0.packing.push(piece).expect("room");
    }
    let found = packed.solve();
    let (_, taken) = found.weight.packing.expect("packed");
    assert_eq!(taken, PackingThickness::Table, "side S was not measured");
    // N 150 in of 3.125, S 100 in of (6.5 - 0.245) / 2.
    let volume = 7.13 * (150.0 * 3.125 + 100.0 * 3.1275);
    let wood = volume / 1_728.0 * density(Species::DfL);
    near(total(&found), 344.0 + wood, 1e-6, "steel and wood");

    let chosen = [Some(inches(3.0)), Some(inches(3.0))];
    let found = solve(&packed.0, chosen).expect("statics");
    let (_, taken) = found.weight.packing.expect("packed");
    assert_eq!(taken, PackingThickness::Stack);
    let wood = 7.13 * 250.0 * 3.0 / 1_728.0 * density(Species::DfL);
    near(total(&found), 344.0 + wood, 1e-6, "steel and the stack");
}

/// From memory: the equation of the NDS Supplement for density; by hand for
/// G = 0.50 at 19 %: 62.4 x 0.5 / 1.0855 x 1.19 = 34.20. Green or dry, framing
/// lumber of these species weighs 25 to 40 lb/ft3 (common practice, no source).
#[test]
fn density_by_species() {
    near(density(Species::DfL), 34.20, 0.005, "DF-L");
    let all = [Species::Spf, Species::Hf, Species::DfL, Species::Sp];
    let all = all.map(density);
    assert!(all.is_sorted(), "heavier with specific gravity");
    assert!(all[0] > 25.0 && all[3] < 40.0);
}

#[test]
fn settlement_by_what_a_crew_shims() {
    assert_eq!(settled_by(Units::Imperial), inches(0.125));
    assert_eq!(settled_by(Units::Metric), Length::from_millimetres(3));
}

/// Job, plan and scratch together stay below 32 KiB: this part stays small.
#[test]
fn results_are_small() {
    let bytes = size_of::<Statics>();
    assert!(bytes <= 1_228, "{bytes} bytes of results");
    let bytes = size_of::<Model>();
    assert!(bytes <= 3_500, "{bytes} bytes of model");
}
