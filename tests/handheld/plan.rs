//! The plan on the screen: map, list, where nothing fits and what would open it.

use super::crew::Crew;
use super::glass::golden;
use super::walk::demo;
use boltbay_core::Length;
use boltbay_core::job::JoistReading;
use boltbay_core::plan::Scratch;
use boltbay_handheld::Key;

fn to(crew: &mut Crew, line: &str) {
    crew.open("PLAN");
    crew.open(line);
}

#[test]
fn the_map_follows_hole_by_hole_and_comes_nearer() {
    let mut memory = demo("02-squall-lapped-joists.csv");
    let mut crew = Crew::new(&mut memory);
    to(&mut crew, "MAP");
    golden("map-all", &crew.view());
    crew.tap(Key::Right);
    crew.taps(Key::Down, 4);
    golden("map-nearer", &crew.view());
    crew.tap(Key::Right);
    golden("map-nearest", &crew.view());
    crew.tap(Key::Ok);
    golden("map-numbers", &crew.view());
    crew.taps(Key::Down, 20);
    golden("map-numbers-last", &crew.view());
    crew.tap(Key::Left);
    assert_eq!(crew.view().screen, "map");
    crew.tap(Key::Left);
    assert_eq!(crew.view().screen, "form");
}

/// The grey lines of the map are the free stretches of the plan, column by column.
#[test]
fn the_map_draws_where_bolts_may_stand() {
    for card in ["02-squall-lapped-joists.csv", "06-mistral-metric.csv"] {
        let mut memory = demo(card);
        let mut crew = Crew::new(&mut memory);
        to(&mut crew, "MAP");
        let map = crew.view().map.unwrap();
        let (plan, job) = (crew.handheld.plan(), crew.job().clone());
        let length = f64::from(plan.frame.unwrap().length.counts());
        let mut scratch = Box::new(Scratch::new());
        let free = plan.free_stretches(&job, &mut scratch).unwrap();
        for (columns, spans) in map.free.iter().zip(free.iter()) {
            assert!(!spans.is_empty(), "{card}");
            // 110 columns for the beam, the first one at column 9.
            let at = |column: u8| (f64::from(column) - 9.0) * length / 110.0;
            let near =
                |x: f64, from: f64, to: f64| from - x < length / 100.0 && x - to < length / 100.0;
            for column in columns.iter() {
                let x = at(column);
                let inside = spans.iter().any(|span| {
                    near(
                        x,
                        f64::from(span.from.counts()),
                        f64::from(span.to.counts()),
                    )
                });
                assert!(inside, "{card}: column {column}");
            }
            for span in spans {
                let middle = (f64::from(span.from.counts()) + f64::from(span.to.counts())) / 2.0;
                let drawn = |column| (at(column) - middle).abs() <= length / 55.0;
                assert!(columns.iter().any(drawn), "{card}: {span:?}");
            }
        }
    }
}

#[test]
fn the_map_of_a_half_drilled_beam_and_of_one_with_a_duct() {
    for (card, name) in [
        ("09-hazel-half-drilled.csv", "map-drilled"),
        ("06-mistral-metric.csv", "map-duct"),
        ("07-hail-impossible.csv", "map-blocked"),
    ] {
        let mut memory = demo(card);
        let mut crew = Crew::new(&mut memory);
        to(&mut crew, "MAP");
        crew.tap(Key::Right);
        crew.taps(Key::Down, 5);
        golden(name, &crew.view());
        crew.tap(Key::Ok);
        golden(&format!("{name}-numbers"), &crew.view());
    }
}

#[test]
fn a_list_to_chalk_from_is_locked_for_a_helper() {
    let mut memory = demo("09-hazel-half-drilled.csv");
    let mut crew = Crew::new(&mut memory);
    to(&mut crew, "LIST TO CHALK");
    golden("chalk", &crew.view());
    crew.tap(Key::Right);
    crew.taps(Key::Down, 3);
    golden("chalk-end-b", &crew.view());
    crew.hold(Key::Right, 1);
    golden("chalk-locked", &crew.view());
    // To whoever tries to leave, it says how; moving on takes that away.
    crew.tap(Key::Left);
    assert_eq!(crew.view().status.tab, "LOCKED");
    golden("chalk-told", &crew.view());
    crew.tap(Key::Down);
    crew.tap(Key::Up);
    golden("chalk-locked", &crew.view());
    crew.hold(Key::Right, 1);
    // Unlocked, OK held says what the keys do, as everywhere.
    crew.hold(Key::Ok, 1);
    assert_eq!(crew.view().screen, "sheet");
    crew.tap(Key::Left);
    crew.tap(Key::Left);
    assert_eq!(crew.view().screen, "form");
}

#[test]
fn where_nothing_fits_each_way_out_is_tried_and_taken_back() {
    let mut memory = demo("07-hail-impossible.csv");
    let mut crew = Crew::new(&mut memory);
    let before = crew.job().clone();
    to(&mut crew, "PLAN, WAYS OUT");
    golden("no-plan", &crew.view());
    let placement = crew.handheld.plan().placement().unwrap();
    let ways = placement.blocked[0].ways_out.len();
    let stretches = placement.blocked.len();
    for way in 0..ways {
        golden(&format!("no-plan-way-{}", way + 1), &crew.view());
        crew.tap(Key::Ok);
        if *crew.job() == before {
            // Only the engineer can allow it.
            assert!(crew.view().lines[3].left.starts_with("ENGINEER"));
        } else {
            let left = crew.handheld.plan().placement().unwrap().blocked.len();
            assert_eq!(left, stretches - 1, "way {way} opens this stretch");
            golden(&format!("no-plan-tried-{}", way + 1), &crew.view());
            crew.tap(Key::Right);
            assert_eq!(*crew.job(), before, "way {way} is taken back whole");
        }
        crew.tap(Key::Down);
    }
}

/// On the longest steel with as many joists as a job holds each is there.
#[test]
fn every_joist_of_the_largest_beam_is_on_the_map() {
    let mut memory = demo("02-squall-lapped-joists.csv");
    let job = &mut memory.job;
    job.beam.as_mut().unwrap().length = Length::from_inches(80 * 12);
    job.clear = Some(Length::from_inches(79 * 12 + 4));
    job.checks.clear();
    let first = job.joists[0];
    job.joists.clear();
    for run in 0..2 {
        for number in 0..80 {
            let reading = Length::from_inches(6 + 11 * number);
            let joist = JoistReading {
                reading,
                run,
                ..first
            };
            job.joists.push(joist).unwrap();
        }
    }
    let mut crew = Crew::new(&mut memory);
    to(&mut crew, "MAP");
    let map = crew.view().map.unwrap();
    let plan = crew.handheld.plan();
    assert_eq!(plan.joists.len(), 160);
    let length = f64::from(plan.frame.unwrap().length.counts());
    for joist in &plan.joists {
        let column = 9.0 + f64::from(joist.from.counts()) / length * 110.0;
        let drawn = |at: u8| (f64::from(at) - column).abs() < 2.0;
        assert!(
            map.joists[joist.side.index()].iter().any(drawn),
            "{joist:?}"
        );
    }
}
