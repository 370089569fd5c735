//! Crews on the desktop whose keys the firmware then hears: between them they come by
//! every screen, and do by chance what nobody thought of.

use crate::handheld::crew::Crew;
use crate::handheld::walk::{begin, key_in, run, to_drill};
use crate::judges::dice::Dice;
use boltbay_core::words::Units;
use boltbay_handheld::Key;
use boltbay_handheld::view::Line;

/// A job of a crew's, by keys: where it starts and what is done.
pub struct Script {
    pub name: &'static str,
    /// The demo card; nothing if empty.
    pub card: &'static str,
    pub keys: fn(&mut Crew),
}

impl Script {
    const fn of(name: &'static str, card: &'static str, keys: fn(&mut Crew)) -> Script {
        Script { name, card, keys }
    }
}

/// All of them.
pub const SCRIPTS: [Script; 18] = [
    Script::of("lists", "01-larch-new-framing.csv", lists),
    Script::of("from nothing", "", from_nothing),
    Script::of("reading", "01-larch-new-framing.csv", reading),
    Script::of("reading, metric", "06-mistral-metric.csv", reading),
    Script::of("walks", "01-larch-new-framing.csv", walks),
    Script::of("off its mark", "01-larch-new-framing.csv", off),
    Script::of("read blind", "01-larch-new-framing.csv", blind),
    Script::of("taken away", "01-larch-new-framing.csv", taken_away),
    Script::of("mark, metric", "06-mistral-metric.csv", mark),
    Script::of("plan", "02-squall-lapped-joists.csv", plan),
    Script::of("no plan", "07-hail-impossible.csv", no_plan),
    Script::of("nothing fits", "02-squall-lapped-joists.csv", nothing_fits),
    Script::of("loads", "10-juniper-short-back-span.csv", loads),
    Script::of("chance", "", chance::<1>),
    Script::of("chance, larch", "01-larch-new-framing.csv", chance::<2>),
    Script::of("chance, doubles", "03-rowan-old-doubles.csv", chance::<3>),
    Script::of("chance, drilled", "09-hazel-half-drilled.csv", chance::<4>),
    Script::of(
        "chance, loads",
        "10-juniper-short-back-span.csv",
        chance::<5>,
    ),
];

/// Through every line of every form, and what stands behind pages and pictures.
fn lists(crew: &mut Crew) {
    crew.taps(Key::Down, 9);
    crew.taps(Key::Up, 9);
    for (step, line) in [
        ("MEASURE", "TAPE RUNS"),
        ("PLAN", "RULE SAID BACK"),
        ("PLAN", "LOOK FIRST"),
        ("PACK", "LAYERS"),
        ("BOLT", "RODS AND CUTS"),
        ("SET", "CHECKS"),
    ] {
        crew.open(step);
        crew.taps(Key::Down, 20);
        crew.taps(Key::Up, 20);
        crew.open(line);
        crew.taps(Key::Down, 3);
        crew.taps(Key::Right, 2);
        crew.taps(Key::Down, 2);
        crew.keep_down(Key::Ok, 700);
        crew.tap(Key::Down);
        while crew.view().screen != "home" {
            crew.tap(Key::Left);
        }
    }
    crew.open("JOB");
    crew.open("JOBS ON THE CARD");
    crew.taps(Key::Down, 2);
    crew.taps(Key::Left, 2);
}

/// A beam from nothing to its first mark.
fn from_nothing(crew: &mut Crew) {
    crew.tap(Key::Ok);
    crew.taps(Key::Right, 2);
    crew.tap(Key::Ok);
    for digits in ["0400", "160504", ""] {
        key_in(crew, digits);
    }
    run(crew, "010004", 12, "0900");
    run(crew, "010102", 12, "0802");
    crew.taps(Key::Right, 2);
    for digits in ["", "1600", "0208", "0900", "", "", ""] {
        key_in(crew, digits);
    }
    assert_eq!(crew.view().screen, "mark");
}

/// A run with every key of the ladder, its sheet, its list and its proof.
fn reading(crew: &mut Crew) {
    crew.open("MEASURE");
    crew.open("TAPE RUNS");
    crew.open("NEW TAPE RUN");
    crew.taps(Key::Down, 6);
    crew.start();
    key_in(crew, "010400");
    for _ in 0..3 {
        for key in [Key::Up, Key::Down, Key::Right, Key::Left] {
            crew.tap(key);
        }
        crew.hold(Key::Right, 3);
        crew.hold(Key::Left, 3);
        crew.hold(Key::Up, 1);
        crew.tap(Key::Ok);
        while crew.view().screen == "ask" {
            crew.tap(Key::Ok);
        }
    }
    if crew.job().units == Units::Imperial {
        // Back behind the last one: asked about.
        key_in(crew, "000100");
        assert_eq!(crew.view().screen, "slip");
        crew.tap(Key::Left);
    }
    crew.hold(Key::Ok, 1);
    crew.taps(Key::Down, 3);
    crew.tap(Key::Ok);
    crew.taps(Key::Up, 2);
    crew.tap(Key::Ok);
    crew.tap(Key::Up);
    crew.tap(Key::Ok);
    crew.tap(Key::Left);
    crew.sheet("OTHER THICKNESS");
    crew.taps(Key::Right, 1);
    crew.tap(Key::Ok);
}

/// A few marks, each looked at from all sides.
fn mark(crew: &mut Crew) {
    begin(crew, "MARK");
    for _ in 0..3 {
        crew.tap(Key::Ok);
        crew.rest(1000);
    }
    crew.tap(Key::Left);
    crew.taps(Key::Down, 6);
    crew.taps(Key::Up, 3);
    crew.sheet("OTHER HOOK OR TAPE");
    crew.taps(Key::Down, 8);
    crew.tap(Key::Ok);
    crew.rest(1000);
    crew.sheet("BURN ON OR OFF");
    crew.sheet("BEAM TURNED");
    crew.taps(Key::Down, 3);
    crew.tap(Key::Left);
}

/// All marks, read blind, drilled, one of them off its mark.
fn walks(crew: &mut Crew) {
    to_drill(crew);
    for _ in 0..3 {
        crew.tap(Key::Ok);
        crew.rest(1000);
    }
    crew.sheet("OFF ITS MARK");
    crew.hold(Key::Right, 2);
    crew.tap(Key::Ok);
    crew.tap(Key::Ok);
    crew.rest(1000);
    for _ in 0..4 {
        crew.tap(Key::Ok);
        crew.rest(1000);
    }
}

/// Holes off their marks: asked about, abandoned, marks struck out.
fn off(crew: &mut Crew) {
    to_drill(crew);
    crew.sheet("OFF ITS MARK");
    crew.hold(Key::Right, 4);
    crew.tap(Key::Ok);
    crew.taps(Key::Down, 2);
    crew.tap(Key::Left);
    crew.tap(Key::Ok);
    crew.rest(1000);
    crew.tap(Key::Left);
    crew.sheet("HOLE ABANDONED");
    for _ in 0..3 {
        crew.rest(1000);
        crew.tap(Key::Ok);
    }
}

/// A mark past the tape; all marks; one of them read wrong.
fn blind(crew: &mut Crew) {
    begin(crew, "MARK");
    let holes = crew.handheld.plan().placement().unwrap().holes.len();
    crew.sheet("OTHER HOOK OR TAPE");
    crew.to("OTHER TAPE");
    crew.taps(Key::Ok, 4);
    crew.tap(Key::Left);
    crew.rest(1000);
    crew.taps(Key::Down, holes - 1);
    crew.tap(Key::Ok);
    crew.tap(Key::Ok);
    crew.rest(1000);
    while crew.job().holes.len() < holes {
        crew.tap(Key::Ok);
        crew.rest(1000);
    }
    crew.tap(Key::Ok);
    key_in(crew, "010101");
    assert_eq!(crew.view().screen, "blind-off");
    crew.taps(Key::Down, 2);
}

/// A run that is taken away, and ticks of a cut list that is another one now.
fn taken_away(crew: &mut Crew) {
    crew.open("MEASURE");
    crew.open("TAPE RUNS");
    crew.tap(Key::Down);
    crew.hold(Key::Right, 1);
    crew.tap(Key::Ok);
    crew.taps(Key::Left, 3);
    crew.open("BOLT");
    crew.open("RODS AND CUTS");
    while crew.view().screen != "stick" {
        crew.tap(Key::Down);
    }
    crew.taps(Key::Ok, 2);
    crew.tap(Key::Left);
    crew.open("PAST THE NUT");
    crew.hold(Key::Right, 1);
    crew.tap(Key::Ok);
    crew.open("RODS AND CUTS");
    assert_eq!(crew.view().screen, "cuts-gone");
    crew.tap(Key::Ok);
}

/// The map, hole by hole and nearer, and the list to chalk from.
fn plan(crew: &mut Crew) {
    crew.open("PLAN");
    crew.open("MAP");
    crew.taps(Key::Down, 4);
    crew.tap(Key::Right);
    crew.taps(Key::Down, 4);
    crew.tap(Key::Right);
    crew.taps(Key::Down, 4);
    crew.tap(Key::Ok);
    crew.taps(Key::Down, 4);
    crew.taps(Key::Left, 2);
    crew.open("LIST TO CHALK");
    crew.tap(Key::Right);
    crew.taps(Key::Down, 4);
    crew.hold(Key::Right, 1);
    crew.tap(Key::Left);
}

/// Ways out, each tried and taken back.
fn no_plan(crew: &mut Crew) {
    crew.open("PLAN");
    crew.open("PLAN, WAYS OUT");
    for _ in 0..4 {
        crew.tap(Key::Ok);
        crew.tap(Key::Right);
        crew.tap(Key::Down);
    }
    crew.tap(Key::Left);
    crew.open("MAP");
    crew.tap(Key::Right);
    crew.taps(Key::Down, 5);
}

/// Bolts so close that every joist is in the way: more stretches than a page holds, for
/// the screen and for the plan on the card.
fn nothing_fits(crew: &mut Crew) {
    crew.open("PLAN");
    crew.open("SPACING");
    key_in(crew, "000400");
    crew.tap(Key::Left);
    crew.rest(2000);
    crew.open("PLAN");
    crew.open("PLAN, WAYS OUT");
    crew.taps(Key::Ok, 12);
}

/// The checks of a beam that lifts, page by page.
fn loads(crew: &mut Crew) {
    crew.taps(Key::Down, 7);
    crew.open("SET");
    crew.open("CHECKS");
    for _ in 0..9 {
        crew.tap(Key::Ok);
    }
}

/// Keys by chance.
fn chance<const SEED: u64>(crew: &mut Crew) {
    let mut dice = Dice::new(SEED);
    for _ in 0..400 {
        let key = match dice.between(0, 19) {
            0..=13 => dice.pick(&[Key::Up, Key::Down, Key::Left, Key::Right, Key::Ok]),
            14..=16 => Key::Ok,
            17 => Key::Down,
            _ => Key::Digit(u8::try_from(dice.between(0, 9)).unwrap()),
        };
        // A desktop's crew has no card with jobs on it.
        let at_jobs = |line: &Line| line.left == "JOBS ON THE CARD";
        let view = crew.view();
        let chosen = view.selected.and_then(|at| view.lines.get(usize::from(at)));
        if chosen.is_some_and(at_jobs) {
            crew.tap(Key::Down);
            continue;
        }
        match dice.between(0, 11) {
            0 => crew.keep_down(key, 1300),
            _ => crew.tap(key),
        }
        crew.rest(u64::try_from(10 * dice.between(0, 100)).unwrap());
    }
}
