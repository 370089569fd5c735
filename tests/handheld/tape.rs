//! A tape run by keys: what each screen shows, and what the job then holds.

use super::crew::Crew;
use super::glass::golden;
use boltbay_core::Job;
use boltbay_core::job::{CheckKind, HangerRef};
use boltbay_core::length::Length;
use boltbay_core::words::{End, Side, Units};
use boltbay_handheld::{Key, Memory};

fn inches(text: &str) -> Length {
    Length::read(text, Units::Imperial).unwrap()
}

/// Walls 16 ft 5 in apart, the steel in them.
fn walled(units: Units) -> Box<Memory> {
    let mut memory = Box::new(Memory::new());
    memory.job.units = units;
    let card = match units {
        Units::Imperial => "units,imperial\nbeam,W10x26,17' 1\nwall,A,4\nclear,16' 5\n",
        Units::Metric => "units,metric\nbeam,W250x38.5,5176\nwall,A,100\nclear,4976\n",
    };
    read_card(card, &mut memory.job);
    memory
}

fn read_card(card: &str, job: &mut Job) {
    let card = format!("boltbay,1\n{card}");
    let mut reader = boltbay_core::card::CardReader::new();
    reader.feed(card.as_bytes(), job).unwrap();
    reader.finish(job).unwrap();
}

/// To the reading screen of a run with what is usual.
fn start(crew: &mut Crew) {
    crew.open("MEASURE");
    crew.open("TAPE RUNS");
    crew.open("NEW TAPE RUN");
    crew.start();
}

/// Keys a reading with the keypad, in full, and accepts it.
fn type_in(crew: &mut Crew, digits: &str) {
    for digit in digits.bytes() {
        crew.tap(Key::Digit(digit - b'0'));
    }
    crew.tap(Key::Ok);
}

fn readings(crew: &Crew) -> Vec<String> {
    let units = crew.job().units;
    let joists = crew.job().joists.iter();
    joists
        .map(|joist| joist.reading.shown_on_card(units).to_string())
        .collect()
}

#[test]
fn a_run_from_hook_to_count() {
    let mut memory = walled(Units::Imperial);
    let mut crew = Crew::new(&mut memory);
    golden("home", &crew.view());
    crew.open("MEASURE");
    golden("measure", &crew.view());
    crew.open("TAPE RUNS");
    golden("runs-none", &crew.view());
    crew.open("NEW TAPE RUN");
    golden("run-setup", &crew.view());
    crew.to("BURN");
    crew.tap(Key::Ok);
    golden("run-burn", &crew.view());
    crew.to("START");
    crew.tap(Key::Ok);
    golden("stand", &crew.view());
    crew.tap(Key::Left);
    golden("reading-first", &crew.view());
    crew.hold(Key::Left, 3);
    crew.taps(Key::Right, 1);
    crew.tap(Key::Ok);
    golden("reading-guess", &crew.view());
    crew.taps(Key::Up, 3);
    golden("reading-nudged", &crew.view());
    crew.tap(Key::Ok);
    crew.hold(Key::Up, 1);
    golden("reading-missing", &crew.view());
    crew.tap(Key::Ok);
    crew.hold(Key::Ok, 1);
    golden("reading-sheet", &crew.view());
    crew.tap(Key::Down);
    golden("reading-sheet-double", &crew.view());
    crew.tap(Key::Ok);
    assert_eq!(
        readings(&crew),
        ["1' 1 1/4", "2' 5 7/16", "5' 1 13/16", "6' 6"]
    );
    let double = crew.job().joists[3];
    assert_eq!(double.thickness, Some(inches("3")));
    assert!(double.guessed);
    assert_eq!(crew.job().runs[0].burn, Some(inches("1")));
}

#[test]
fn what_was_taken_back_returns_as_it_was_entered() {
    let mut memory = walled(Units::Imperial);
    let mut crew = Crew::new(&mut memory);
    start(&mut crew);
    type_in(&mut crew, "010400");
    type_in(&mut crew, "020405");
    let before = crew.presses;
    crew.hold(Key::Ok, 1);
    crew.taps(Key::Down, 2);
    crew.tap(Key::Ok);
    assert_eq!(crew.presses - before, 4, "undo takes four presses");
    assert_eq!(readings(&crew), ["1' 4"]);
    golden("reading-taken-back", &crew.view());
    crew.tap(Key::Ok);
    assert_eq!(readings(&crew), ["1' 4", "2' 4 5/16"]);
}

#[test]
fn a_slip_is_asked_about_at_once() {
    let mut memory = walled(Units::Imperial);
    let mut crew = Crew::new(&mut memory);
    start(&mut crew);
    for digits in ["010400", "020800", "040000"] {
        type_in(&mut crew, digits);
    }
    type_in(&mut crew, "030000");
    golden("slip-back", &crew.view());
    crew.tap(Key::Left);
    assert_eq!(crew.view().screen, "reading");
    type_in(&mut crew, "060400");
    golden("slip-foot", &crew.view());
    crew.tap(Key::Left);
    type_in(&mut crew, "070204");
    golden("slip-gap", &crew.view());
    crew.tap(Key::Ok);
    assert_eq!(
        readings(&crew),
        ["1' 4", "2' 8", "4'", "7' 2 1/4"].map(|s| if s == "4'" { "4' 0" } else { s })
    );
    type_in(&mut crew, "070304");
    golden("slip-overlap", &crew.view());
}

#[test]
fn a_tail_is_completed_by_the_guess() {
    let mut memory = walled(Units::Imperial);
    let mut crew = Crew::new(&mut memory);
    start(&mut crew);
    type_in(&mut crew, "011106");
    type_in(&mut crew, "030306");
    // Guess 4' 7 3/8: the sixteenths alone, then inches, then a half sixteenth.
    let before = crew.presses;
    type_in(&mut crew, "05");
    assert_eq!(crew.presses - before, 3);
    type_in(&mut crew, "1109");
    crew.tap(Key::Digit(3));
    golden("typed-1", &crew.view());
    crew.tap(Key::Digit(0));
    crew.tap(Key::Digit(7));
    crew.tap(Key::Separator);
    golden("typed-3", &crew.view());
    crew.tap(Key::Ok);
    assert_eq!(
        readings(&crew),
        [
            "1' 11 3/8",
            "3' 3 3/8",
            "4' 7 5/16",
            "5' 11 9/16",
            "7' 3 15/32"
        ]
    );
}

#[test]
fn eighths_are_offered_after_five() {
    let mut memory = walled(Units::Imperial);
    let mut crew = Crew::new(&mut memory);
    start(&mut crew);
    for digits in ["010400", "020802", "040000", "050404", "060800"] {
        type_in(&mut crew, digits);
    }
    golden("ask-eighths", &crew.view());
    crew.tap(Key::Ok);
    golden("reading-eighths", &crew.view());
    let before = crew.view().figure;
    crew.tap(Key::Up);
    crew.tap(Key::Down);
    let after = crew.view().figure;
    assert_ne!(
        before.map(|f| f.amount),
        after.map(|f| f.amount),
        "turning back halves the tick"
    );
}

#[test]
fn closing_gets_no_guess_and_then_asks_for_a_count() {
    let mut memory = walled(Units::Imperial);
    let mut crew = Crew::new(&mut memory);
    start(&mut crew);
    for digits in ["010400", "020801"] {
        type_in(&mut crew, digits);
    }
    crew.taps(Key::Ok, 2);
    // UP from the blank line goes round to the last thing on the sheet.
    let before = crew.presses;
    crew.hold(Key::Ok, 1);
    crew.tap(Key::Up);
    golden("reading-sheet-close", &crew.view());
    crew.tap(Key::Ok);
    assert_eq!(crew.presses - before, 3);
    golden("close", &crew.view());
    type_in(&mut crew, "110802");
    golden("close-out", &crew.view());
    let check = crew.job().checks[0];
    assert_eq!((check.kind, check.guessed), (CheckKind::Close, false));
    crew.tap(Key::Ok);
    golden("count", &crew.view());
    crew.tap(Key::Digit(4));
    crew.tap(Key::Ok);
    assert_eq!(crew.job().counts[Side::N.index()], Some(4));
    golden("runs-one", &crew.view());
}

#[test]
fn an_earlier_reading_is_corrected_put_in_and_taken_out() {
    let mut memory = walled(Units::Imperial);
    let mut crew = Crew::new(&mut memory);
    start(&mut crew);
    for digits in ["010400", "020801", "040000"] {
        type_in(&mut crew, digits);
    }
    let before = crew.presses;
    crew.hold(Key::Ok, 1);
    crew.taps(Key::Down, 3);
    crew.tap(Key::Ok);
    golden("readings", &crew.view());
    crew.tap(Key::Up);
    crew.tap(Key::Ok);
    golden("reading-corrected", &crew.view());
    crew.tap(Key::Down);
    crew.tap(Key::Ok);
    assert_eq!(crew.presses - before, 7 + 2, "seven and the steps");
    assert_eq!(readings(&crew), ["1' 4", "2' 8", "4' 0"]);
    crew.sheet("ONE MORE BEFORE IT");
    crew.hold(Key::Left, 8);
    crew.tap(Key::Ok);
    assert_eq!(readings(&crew), ["1' 4", "2' 0", "2' 8", "4' 0"]);
    crew.hold(Key::Right, 1);
    golden("readings-taken-out", &crew.view());
    assert_eq!(crew.job().joists.len(), 3);
    crew.sheet("PUT BACK");
    assert_eq!(crew.job().joists.len(), 4);
}

#[test]
fn one_joist_without_a_hanger_and_one_of_its_own_thickness() {
    let mut memory = walled(Units::Imperial);
    let mut crew = Crew::new(&mut memory);
    start(&mut crew);
    type_in(&mut crew, "010400");
    crew.sheet("NO HANGER");
    crew.sheet("OTHER THICKNESS");
    golden("thickness", &crew.view());
    crew.taps(Key::Right, 1);
    crew.tap(Key::Ok);
    let joists = &crew.job().joists;
    assert_eq!(joists[1].hanger, HangerRef::None);
    assert_eq!(joists[2].thickness, Some(inches("1 3/4")));
    assert_eq!(crew.view().screen, "reading");
}

#[test]
fn a_metric_run_from_wall_b() {
    let mut memory = walled(Units::Metric);
    let mut crew = Crew::new(&mut memory);
    crew.open("MEASURE");
    crew.open("TAPE RUNS");
    crew.open("NEW TAPE RUN");
    crew.to("HOOKED ON");
    crew.tap(Key::Ok);
    crew.to("BURN");
    crew.tap(Key::Ok);
    crew.to("EDGE");
    crew.tap(Key::Ok);
    crew.start();
    golden("metric-first", &crew.view());
    type_in(&mut crew, "350");
    crew.taps(Key::Up, 2);
    crew.tap(Key::Left);
    golden("metric-second", &crew.view());
    crew.tap(Key::Digit(5));
    crew.tap(Key::Digit(6));
    golden("metric-typed", &crew.view());
    crew.tap(Key::Ok);
    assert_eq!(readings(&crew), ["350 mm", "756 mm"]);
    assert_eq!(
        crew.job().runs[0].hook,
        boltbay_core::job::RunHook::Wall(End::B)
    );
}

#[test]
fn the_second_side_is_asked_whether_it_hangs_on_the_same_line() {
    let mut memory = walled(Units::Imperial);
    let mut crew = Crew::new(&mut memory);
    start(&mut crew);
    type_in(&mut crew, "010400");
    crew.sheet("LEAVE");
    crew.open("NEW TAPE RUN");
    golden("run-setup-second", &crew.view());
    crew.open("START");
    golden("same-line", &crew.view());
    crew.tap(Key::Left);
    golden("off-square", &crew.view());
    crew.taps(Key::Right, 2);
    crew.tap(Key::Ok);
    let square = crew.job().squares[0];
    assert_eq!((square.side, square.end), (Side::S, End::A));
    assert_eq!(square.offset, inches("1/2"));
    // Asked once: the run waits on the list.
    crew.open("RUN S1 WALL A");
    crew.open("GO ON READING");
    assert_eq!(crew.view().screen, "reading");
}

#[test]
fn a_run_with_readings_goes_only_after_a_question() {
    let mut memory = super::walk::demo("01-larch-new-framing.csv");
    let mut crew = Crew::new(&mut memory);
    let before = crew.job().clone();
    crew.open("MEASURE");
    crew.open("TAPE RUNS");
    crew.tap(Key::Down);
    crew.hold(Key::Right, 1);
    golden("delete-run", &crew.view());
    crew.tap(Key::Ok);
    assert_eq!(crew.view().screen, "delete-run", "OK alone deletes nothing");
    crew.tap(Key::Left);
    assert_eq!(*crew.job(), before);
    crew.hold(Key::Right, 1);
    crew.hold(Key::Right, 1);
    assert_eq!(crew.view().screen, "form");
    assert_eq!(crew.job().runs.len(), before.runs.len() - 1);
    let readings = before.joists.iter().filter(|joist| joist.run == 0).count();
    assert_eq!(crew.job().joists.len(), before.joists.len() - readings);
}

#[test]
fn what_is_full_says_so() {
    let mut memory = super::walk::demo("01-larch-new-framing.csv");
    let mut crew = Crew::new(&mut memory);
    crew.open("MEASURE");
    crew.open("HANGERS");
    for _ in crew.job().hangers.len()..8 {
        crew.open("ADD ONE");
        crew.tap(Key::Left);
    }
    crew.open("ADD ONE");
    golden("full", &crew.view());
    crew.tap(Key::Up);
    assert!(!crew.view().alarm, "the next key takes the word away");
}
