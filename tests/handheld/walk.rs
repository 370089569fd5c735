//! From nothing to the first mark, and the two walks.

use super::crew::Crew;
use super::glass::golden;
use boltbay_core::job::HoleState;
use boltbay_core::length::Length;
use boltbay_core::placement::State;
use boltbay_core::words::Units;
use boltbay_handheld::view::Amount;
use boltbay_handheld::{Key, Memory};
use std::fs;
use std::path::Path;

/// A demo card read into a fresh memory.
pub fn demo(name: &str) -> Box<Memory> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo-data");
    let folder = if path.exists() {
        path
    } else {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data")
    };
    let card = fs::read(folder.join(name)).unwrap();
    let mut memory = Box::new(Memory::new());
    let mut reader = boltbay_core::card::CardReader::new();
    reader.feed(&card, &mut memory.job).unwrap();
    reader.finish(&mut memory.job).unwrap();
    memory
}

pub fn key_in(crew: &mut Crew, digits: &str) {
    for digit in digits.bytes() {
        crew.tap(Key::Digit(digit - b'0'));
    }
    crew.tap(Key::Ok);
}

/// A regular run: the first reading keyed, the guesses accepted, closed.
pub fn run(crew: &mut Crew, first: &str, joists: usize, close: &str) {
    crew.start();
    key_in(crew, first);
    for _ in 1..joists {
        crew.tap(Key::Ok);
        while crew.view().screen == "ask" {
            crew.tap(Key::Left);
        }
    }
    crew.hold(Key::Ok, 1);
    crew.tap(Key::Up);
    crew.tap(Key::Ok);
    key_in(crew, close);
    crew.tap(Key::Ok);
    crew.tap(Key::Digit(1));
    crew.tap(Key::Digit(1));
    crew.tap(Key::Ok);
}

/// Screens besides the tape runs, and what is done on each of them.
#[test]
fn a_regular_beam_from_nothing_to_its_first_mark() {
    let mut memory = Box::new(Memory::new());
    let mut crew = Crew::new(&mut memory);
    let mut screens = 0;
    let mut saw = |crew: &Crew, name: &str| {
        screens += 1;
        golden(&format!("start-{screens:02}-{name}"), &crew.view());
    };
    saw(&crew, "home");
    crew.tap(Key::Ok);
    saw(&crew, "steel");
    crew.taps(Key::Right, 2);
    crew.tap(Key::Ok);
    saw(&crew, "bearing");
    key_in(&mut crew, "0400");
    saw(&crew, "clear");
    key_in(&mut crew, "160504");
    saw(&crew, "length");
    crew.tap(Key::Ok);
    run(&mut crew, "010004", 12, "0900");
    run(&mut crew, "010102", 12, "0802");
    saw(&crew, "bolt");
    crew.taps(Key::Right, 2);
    crew.tap(Key::Ok);
    saw(&crew, "spacing");
    key_in(&mut crew, "1600");
    saw(&crew, "end-least");
    key_in(&mut crew, "0208");
    saw(&crew, "end-most");
    key_in(&mut crew, "0900");
    saw(&crew, "measured");
    crew.tap(Key::Ok);
    saw(&crew, "lie");
    crew.tap(Key::Ok);
    saw(&crew, "face");
    crew.tap(Key::Ok);
    golden("start-mark", &crew.view());
    assert_eq!(crew.view().screen, "mark");
    assert!(crew.view().figure.is_some(), "there is a plan");
    assert!(screens <= 12, "{screens} screens");
}

/// To the first hole of a walk.
pub fn begin(crew: &mut Crew, walk: &str) {
    crew.open(walk);
    if crew.view().screen == "measured" {
        crew.tap(Key::Ok);
    }
    if crew.view().screen == "stand" {
        crew.tap(Key::Left);
    }
    crew.tap(Key::Ok);
    crew.tap(Key::Ok);
    // A walk is deaf for a second after its last answer.
    crew.rest(1000);
}

#[test]
fn all_holes_are_marked_read_blind_and_drilled() {
    let mut memory = demo("01-larch-new-framing.csv");
    let mut crew = Crew::new(&mut memory);
    begin(&mut crew, "MARK");
    golden("mark-first", &crew.view());
    let holes = crew.handheld.plan().placement().unwrap().holes.len();
    let plan: Vec<_> = holes_of(&crew);
    crew.tap(Key::Ok);
    // Deaf for a second: the glove's second press counts for nothing.
    crew.tap(Key::Ok);
    assert_eq!(crew.job().holes.len(), 1);
    crew.rest(1000);
    golden("mark-second", &crew.view());
    crew.tap(Key::Left);
    golden("mark-before", &crew.view());
    assert_eq!(crew.job().holes.len(), 1);
    crew.tap(Key::Down);
    while crew.job().holes.len() < holes {
        crew.tap(Key::Ok);
        crew.rest(1000);
    }
    golden("mark-all", &crew.view());
    assert_eq!(holes_of(&crew), plan, "marking moves no hole");
    crew.tap(Key::Ok);
    golden("blind-first", &crew.view());
    let length = crew.job().beam.as_ref().unwrap().length;
    let middle = (plan.len() - 1) / 2;
    key_length(&mut crew, length.saturating_sub(plan[0]));
    // The middle one is read from the wrong end.
    key_length(&mut crew, plan[middle]);
    golden("blind-off", &crew.view());
    crew.tap(Key::Up);
    crew.open("READ AGAIN");
    key_length(&mut crew, length.saturating_sub(plan[middle]));
    key_length(&mut crew, length.saturating_sub(plan[plan.len() - 1]));
    crew.rest(1000);
    golden("drill-first", &crew.view());
    for _ in 0..holes {
        crew.tap(Key::Ok);
        crew.rest(1000);
    }
    golden("drill-all", &crew.view());
    let drilled = crew.job().holes.iter();
    assert!(drilled.clone().all(|hole| hole.state == HoleState::Drilled));
    assert_eq!(holes_of(&crew), plan, "drilling moves no hole");
}

fn holes_of(crew: &Crew) -> Vec<Length> {
    let placement = crew.handheld.plan().placement().unwrap();
    placement.holes.iter().map(|hole| hole.at).collect()
}

/// Keys a length in full, in sixteenths or millimetres.
fn key_length(crew: &mut Crew, length: Length) {
    let digits = match crew.job().units {
        Units::Imperial => {
            let sixteenths = length.counts() / Length::from_sixteenths(1).counts();
            let (feet, rest) = (sixteenths / 192, sixteenths % 192);
            format!("{feet:02}{:02}{:02}", rest / 16, rest % 16)
        }
        Units::Metric => format!("{}", length.counts() / Length::from_millimetres(1).counts()),
    };
    key_in(crew, &digits);
}

#[test]
fn a_hole_off_its_mark_is_judged_and_the_rest_planned_anew() {
    let mut memory = demo("01-larch-new-framing.csv");
    let mut crew = Crew::new(&mut memory);
    begin(&mut crew, "MARK");
    let holes = crew.handheld.plan().placement().unwrap().holes.len();
    while crew.job().holes.len() < holes {
        crew.tap(Key::Ok);
        crew.rest(1000);
    }
    crew.hold(Key::Ok, 1);
    crew.to("LEAVE");
    crew.tap(Key::Ok);
    begin(&mut crew, "DRILL");
    let length = crew.job().beam.as_ref().unwrap().length;
    let plan = holes_of(&crew);
    for at in [0, (plan.len() - 1) / 2, plan.len() - 1] {
        key_length(&mut crew, length.saturating_sub(plan[at]));
    }
    crew.rest(1000);
    for _ in 0..4 {
        crew.tap(Key::Ok);
        crew.rest(1000);
    }
    crew.sheet("OFF ITS MARK");
    golden("off", &crew.view());
    // As far off as the wall face is from the steel's end: asked about first.
    crew.hold(Key::Right, 4);
    crew.tap(Key::Ok);
    golden("like-wall", &crew.view());
    crew.tap(Key::Left);
    crew.sheet("OFF ITS MARK");
    crew.hold(Key::Right, 2);
    crew.tap(Key::Ok);
    golden("verdict", &crew.view());
    crew.tap(Key::Ok);
    crew.rest(1000);
    golden("after-off", &crew.view());
    let drilled = |crew: &Crew| {
        let holes = crew.job().holes.iter();
        holes
            .filter(|hole| hole.state == HoleState::Drilled)
            .count()
    };
    assert_eq!(drilled(&crew), 5);
    for _ in 0..60 {
        crew.tap(Key::Ok);
        crew.rest(1000);
        if crew.view().screen == "home" {
            break;
        }
    }
    let placement = crew.handheld.plan().placement().unwrap();
    assert!(
        placement
            .holes
            .iter()
            .all(|hole| hole.state == State::Drilled)
    );
    assert!(placement.struck_out.is_empty());
}

/// Marks all, reads three of them blind, and stands at the first hole to drill.
pub fn to_drill(crew: &mut Crew) {
    begin(crew, "MARK");
    let holes = crew.handheld.plan().placement().unwrap().holes.len();
    while crew.job().holes.len() < holes {
        crew.tap(Key::Ok);
        crew.rest(1000);
    }
    crew.tap(Key::Ok);
    let length = crew.job().beam.as_ref().unwrap().length;
    let plan = holes_of(crew);
    for at in [0, (plan.len() - 1) / 2, plan.len() - 1] {
        key_length(crew, length.saturating_sub(plan[at]));
    }
    crew.rest(1000);
}

#[test]
fn a_hole_at_the_mirror_place_or_off_by_a_burn_is_asked_about() {
    let mut memory = demo("01-larch-new-framing.csv");
    let mut crew = Crew::new(&mut memory);
    to_drill(&mut crew);
    let plan = holes_of(&crew);
    let length = crew.job().beam.as_ref().unwrap().length;
    crew.sheet("OFF ITS MARK");
    key_length(&mut crew, length.saturating_sub(plan[0]));
    golden("like-mirror", &crew.view());
    crew.tap(Key::Left);
    crew.sheet("OFF ITS MARK");
    key_length(&mut crew, plan[0].saturating_add(Length::from_inches(1)));
    golden("like-burn", &crew.view());
    crew.tap(Key::Left);
    let drilled = crew
        .job()
        .holes
        .iter()
        .filter(|hole| hole.state == HoleState::Drilled);
    assert_eq!(drilled.count(), 0);
}

#[test]
fn a_hole_is_undone_and_one_is_abandoned() {
    let mut memory = demo("01-larch-new-framing.csv");
    let mut crew = Crew::new(&mut memory);
    to_drill(&mut crew);
    let before = crew.job().clone();
    crew.tap(Key::Ok);
    crew.rest(1000);
    crew.sheet("UNDO LAST HOLE");
    assert_eq!(*crew.job(), before);
    crew.rest(1000);
    crew.tap(Key::Ok);
    crew.rest(1000);
    crew.tap(Key::Left);
    crew.sheet("HOLE ABANDONED");
    golden("after-abandoned", &crew.view());
    let abandoned = crew
        .job()
        .holes
        .iter()
        .filter(|hole| hole.state == HoleState::Abandoned);
    assert_eq!(abandoned.count(), 1);
}

#[test]
fn a_walk_goes_on_where_a_card_left_off() {
    let mut memory = demo("09-hazel-half-drilled.csv");
    let mut crew = Crew::new(&mut memory);
    begin(&mut crew, "DRILL");
    golden("drill-half", &crew.view());
}

/// Hangs the tape on something else.
fn rehook(crew: &mut Crew, hook: &str) {
    crew.sheet("OTHER HOOK OR TAPE");
    crew.open(hook);
    crew.rest(1000);
}

/// From the centre of a hole that is marked already: what lies between.
#[test]
fn a_tape_hung_on_a_hole_reads_the_difference() {
    for card in ["01-larch-new-framing.csv", "06-mistral-metric.csv"] {
        let mut memory = demo(card);
        let mut crew = Crew::new(&mut memory);
        begin(&mut crew, "MARK");
        let plan = holes_of(&crew);
        for _ in 0..3 {
            crew.tap(Key::Ok);
            crew.rest(1000);
        }
        crew.sheet("OTHER HOOK OR TAPE");
        golden(&format!("hook-list-{}", &card[..2]), &crew.view());
        crew.open("HOLE 3>B");
        crew.rest(1000);
        golden(&format!("hook-hole-{}", &card[..2]), &crew.view());
        let read = |crew: &Crew| match crew.view().figure.unwrap().amount {
            Amount::Length(length, _) => length,
            Amount::Number(_) => panic!("a length"),
        };
        for next in 3..6 {
            assert_eq!(read(&crew), plan[next].checked_sub(plan[2]).unwrap());
            crew.tap(Key::Ok);
            crew.rest(1000);
        }
        assert_eq!(holes_of(&crew), plan, "marked where they were planned");
        // Back toward A, past the hole that it hangs on.
        crew.taps(Key::Up, 5);
        assert_eq!(read(&crew), plan[2].checked_sub(plan[1]).unwrap());
        assert!(crew.view().status.right.ends_with(">A"));
    }
}

#[test]
fn a_mark_past_the_tape_asks_for_another_hook() {
    let mut memory = demo("01-larch-new-framing.csv");
    let length = memory.job.beam.as_ref().unwrap().length;
    assert!(
        length < Length::from_inches(25 * 12),
        "all within the usual tape"
    );
    let mut crew = Crew::new(&mut memory);
    begin(&mut crew, "MARK");
    let holes = crew.handheld.plan().placement().unwrap().holes.len();
    crew.sheet("OTHER HOOK OR TAPE");
    // 25 ft to 30, 35, 100, and round to the shortest.
    crew.to("OTHER TAPE");
    crew.taps(Key::Ok, 4);
    golden("hook-short-tape", &crew.view());
    crew.tap(Key::Left);
    crew.rest(1000);
    crew.taps(Key::Down, holes - 1);
    golden("past-tape", &crew.view());
    crew.tap(Key::Ok);
    assert!(
        crew.job().holes.is_empty(),
        "nothing is marked past the tape"
    );
    golden("past-tape-hooks", &crew.view());
    crew.tap(Key::Ok);
    crew.rest(1000);
    assert_eq!(crew.view().screen, "mark");
    assert_ne!(crew.view().status.right, "END A");
    crew.tap(Key::Ok);
    assert_eq!(crew.job().holes.len(), 1);
}

#[test]
fn each_caution_is_heard_once() {
    let mut memory = demo("09-hazel-half-drilled.csv");
    let mut crew = Crew::new(&mut memory);
    crew.hears = true;
    for (step, name) in [("MEASURE", "measure"), ("PACK", "pack"), ("SET", "set")] {
        crew.open(step);
        golden(&format!("caution-{name}"), &crew.view());
        crew.tap(Key::Left);
        assert_eq!(crew.view().screen, "caution", "only OK goes on");
        crew.tap(Key::Ok);
        assert_eq!(crew.view().screen, "form");
        crew.tap(Key::Left);
        crew.open(step);
        assert_eq!(crew.view().screen, "form", "once");
        crew.tap(Key::Left);
    }
    begin(&mut crew, "DRILL");
    golden("caution-drill", &crew.view());
    // Heard, and kept with the place: a restart does not tell it again.
    crew.tap(Key::Ok);
    let place = crew.handheld.place();
    crew.handheld.resume(&place);
    assert_eq!(crew.view().screen, "drill");
    crew.sheet("LEAVE");
    begin(&mut crew, "DRILL");
    assert_eq!(crew.view().screen, "drill");
}

#[test]
fn ok_held_says_what_the_keys_do_where_it_does_nothing_else() {
    let mut memory = demo("01-larch-new-framing.csv");
    let mut crew = Crew::new(&mut memory);
    crew.hold(Key::Ok, 1);
    golden("hint-home", &crew.view());
    crew.tap(Key::Ok);
    for (step, line) in [
        ("BOLT", "RODS AND CUTS"),
        ("PLAN", "MAP"),
        ("PACK", "LAYERS"),
    ] {
        crew.open(step);
        crew.open(line);
        let hint = crew.view().hint;
        crew.hold(Key::Ok, 1);
        let said: Vec<String> = crew
            .view()
            .lines
            .iter()
            .map(|l| l.left.to_string())
            .collect();
        assert!(
            hint.starts_with(&said[0]) && !said[0].is_empty(),
            "{line}: {said:?}"
        );
        crew.taps(Key::Left, 3);
    }
}

#[test]
fn the_same_hole_from_every_hook() {
    let mut memory = demo("01-larch-new-framing.csv");
    let mut crew = Crew::new(&mut memory);
    begin(&mut crew, "MARK");
    crew.taps(Key::Down, 3);
    let a = crew.view();
    for (hook, name) in [
        ("END B", "hook-end-b"),
        ("WALL A", "hook-wall-a"),
        ("WALL B", "hook-wall-b"),
    ] {
        rehook(&mut crew, hook);
        golden(name, &crew.view());
    }
    crew.sheet("BURN ON OR OFF");
    golden("hook-burnt", &crew.view());
    crew.sheet("BURN ON OR OFF");
    rehook(&mut crew, "END A");
    assert_eq!(crew.view(), a);
    crew.sheet("BEAM TURNED");
    golden("turned", &crew.view());
    crew.tap(Key::Ok);
    crew.to("TOP FLANGE IS");
    crew.tap(Key::Ok);
    crew.open("GO ON");
    golden("turned-face", &crew.view());
    crew.tap(Key::Left);
    golden("turned-stopped", &crew.view());
}

#[test]
fn metric_walks() {
    let mut memory = demo("06-mistral-metric.csv");
    let mut crew = Crew::new(&mut memory);
    begin(&mut crew, "MARK");
    golden("metric-mark", &crew.view());
    rehook(&mut crew, "END B");
    golden("metric-mark-end-b", &crew.view());
}

#[test]
fn without_a_plan_nothing_is_marked() {
    let mut memory = demo("07-hail-impossible.csv");
    let mut crew = Crew::new(&mut memory);
    begin(&mut crew, "MARK");
    golden("mark-no-plan", &crew.view());
    crew.tap(Key::Ok);
    assert!(crew.job().holes.is_empty());
}
