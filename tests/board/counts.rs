//! Instructions from an edge of a key to the last byte of the frame that answers it.
//!
//! Crews on the desktop go through every screen; the firmware then hears the same keys
//! at the same times, and has to show the same pictures. What it logs for each key is
//! judged by what the key was. Time is told to it, and the emulator takes 8 ns for each
//! instruction, so a count is the same in every run, to a few of the timer's ticks.
//!
//! `bash .ci/board count` prints what is found.

use super::crews::{SCRIPTS, Script};
use super::firmware;
use super::memory_card::MemoryCard;
use super::qemu::Qemu;
use crate::handheld::crew::{Crew, Stroke};
use crate::handheld::walk::demo;
use boltbay_core::card;
use boltbay_core::job::Job;
use boltbay_handheld::view::View;
use boltbay_handheld::{Key, Memory};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::fs::{self, DirEntry};

/// Most instructions of a key that moves a cursor, and of one that changes no reading.
const CURSOR: u32 = 200_000;
const ANY: u32 = 600_000;

/// Most bytes of memory: statics, and the deepest stack that was seen.
const RAM: u32 = 48 * 1024;

/// Frames behind which the answer follows.
const LATER: [&str; 2] = ["planning", "working"];

/// The phases, as the firmware names them.
const PHASES: [&str; 5] = ["act", "keep", "view", "paint", "send"];

/// What the firmware said of one frame, in instructions.
#[derive(Clone, Debug, Default)]
struct Frame {
    screen: String,
    all: u32,
    phases: [u32; 5],
    /// Most bytes of the stack so far.
    stack: u32,
}

impl Frame {
    /// Out of a line of the log; an instruction takes 8 ns, a count so many.
    fn of(line: &str, nanoseconds: u32) -> Option<Frame> {
        let words: Vec<&str> = line.strip_prefix("frame ")?.split(' ').collect();
        let number = |at: usize| words[at].parse::<u32>().unwrap() * nanoseconds / 8;
        let mut frame = Frame {
            screen: words[0].to_owned(),
            all: number(1),
            phases: [0; 5],
            stack: words.last().unwrap().parse().unwrap(),
        };
        for (at, (phase, name)) in frame.phases.iter_mut().zip(PHASES).enumerate() {
            assert_eq!(words[2 + 2 * at], name, "{line}");
            *phase = number(3 + 2 * at);
        }
        Some(frame)
    }
}

impl fmt::Display for Frame {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}:", self.screen, self.all)?;
        let mut phases = PHASES.iter().zip(self.phases);
        phases.try_for_each(|(name, phase)| write!(f, " {name} {phase}"))
    }
}

/// What a key did.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Did {
    /// Another line of the same list.
    Cursor,
    /// Nothing to the job.
    Looked,
    /// It changed the job.
    Changed,
}

/// One key and the frames that answered it.
#[derive(Clone, Debug)]
struct Counted {
    key: String,
    did: Did,
    from: &'static str,
    frames: Vec<Frame>,
}

impl Counted {
    /// The frames that a finger waits for, or those behind one that says that something
    /// is being worked out.
    fn frames_behind(&self, behind: bool) -> impl Iterator<Item = &Frame> {
        let before = [None].into_iter().chain(self.frames.iter().map(Some));
        let both = before.zip(&self.frames);
        let is_behind =
            |before: Option<&Frame>| before.is_some_and(|frame| LATER.contains(&&*frame.screen));
        let wanted = both.filter(move |(before, _)| is_behind(*before) == behind);
        wanted.map(|(_, frame)| frame)
    }

    /// Of a reading that was accepted: until it is durable, until a frame says so, until
    /// all that follows from it is shown.
    fn accepted(&self) -> Option<[u32; 3]> {
        let first = self.frames.first()?;
        let is_one = self.did == Did::Changed && self.from == "reading";
        let [act, keep, ..] = first.phases;
        let all = self.frames.iter().map(|frame| frame.all).sum();
        is_one.then_some([act + keep, first.all, all])
    }
}

fn name(key: Key) -> &'static str {
    match key {
        Key::Up => "up",
        Key::Down => "down",
        Key::Left => "left",
        Key::Right => "right",
        Key::Ok => "ok",
        Key::Digit(_) => "digit",
        Key::Separator => "separator",
    }
}

/// The key's byte on the serial port.
fn byte(key: Key) -> u8 {
    match key {
        Key::Up => 0,
        Key::Down => 1,
        Key::Left => 2,
        Key::Right => 3,
        Key::Ok => 4,
        Key::Digit(digit) => 0x10 + digit,
        Key::Separator => 0x1A,
    }
}

/// The firmware, told keys and time.
struct Machine {
    qemu: Qemu,
    /// Ticks of 10 ms.
    told: u64,
}

impl Machine {
    fn with(job: &Job) -> (Machine, MemoryCard) {
        let card = MemoryCard::formatted(64, 16).with_journal();
        let is_blank = *job == Job::new(job.units);
        if !is_blank {
            let mut text = String::new();
            card::write(job, &mut text).unwrap();
            card.put("JOB.CSV", text.as_bytes());
        }
        let mut qemu = Qemu::count(firmware::counting_handheld(), &card);
        if !is_blank {
            qemu.hears("journal at block");
            qemu.put(byte(Key::Ok) | 0x80);
            qemu.lines_until("rest");
            qemu.put(byte(Key::Ok));
        }
        qemu.lines_until("ready");
        (Machine { qemu, told: 0 }, card)
    }

    fn put(&mut self, byte: u8) -> Vec<Frame> {
        self.qemu.put(byte);
        let lines = self.qemu.lines_until("rest");
        lines
            .iter()
            .filter_map(|line| Frame::of(line, 40))
            .collect()
    }

    /// Time passes, not more than so many ticks at once.
    fn pass(&mut self, until: u64, at_once: u64) -> Vec<Frame> {
        let mut frames = Vec::new();
        while self.told < until {
            let step = (until - self.told).min(at_once);
            frames.extend(self.put(0x40 | u8::try_from(step).unwrap()));
            self.told += step;
        }
        frames
    }
}

/// Plays a script on the desktop, then on the machine.
fn count(script: &Script) -> Vec<Counted> {
    let mut memory = match script.card {
        "" => Box::new(Memory::new()),
        card => demo(card),
    };
    let (mut machine, _card) = Machine::with(&memory.job);
    let mut crew = Crew::new(&mut memory);
    crew.is_watched();
    let mut shown = crew.view();
    (script.keys)(&mut crew);
    let mut counted = Vec::new();
    let strokes = crew.strokes.take().unwrap();
    for pair in strokes.chunks(2) {
        let [down, up] = pair else {
            panic!("a key is let go")
        };
        assert!(down.is_down && !up.is_down);
        counted.push(stroke(&mut machine, down, up, &shown));
        shown = up.shown.clone();
    }
    machine.qemu.shows(&crew.view());
    counted
}

fn stroke(machine: &mut Machine, down: &Stroke, up: &Stroke, before: &View) -> Counted {
    machine.pass(down.at / 10, 63);
    let mut frames = machine.put(byte(down.key) | 0x80);
    let held = machine.pass(up.at.div_ceil(10), 5);
    let is_hold = !held.is_empty();
    frames.extend(held);
    frames.extend(machine.put(byte(up.key)));
    let is_list = |view: &View| view.selected.is_some() && view.figure.is_none();
    let did = match () {
        () if up.changed => Did::Changed,
        () if before.screen == up.shown.screen
            && before.selected.is_some()
            && is_list(&up.shown)
            && matches!(up.key, Key::Up | Key::Down) =>
        {
            Did::Cursor
        }
        () => Did::Looked,
    };
    let key = format!("{}{}", if is_hold { "hold:" } else { "" }, name(up.key));
    Counted {
        key,
        did,
        from: before.screen,
        frames,
    }
}

/// Taps on the self-test, by name.
const SELFTEST: &str = "down down up up ok ok ok ok ok ok ok ok left down ok up down right";

/// Every key of the self-test that is answered by a frame.
fn selftest() -> Vec<(String, Frame)> {
    let mut board = Qemu::count_on_board(firmware::counting_selftest());
    let taps = SELFTEST.split(' ').map(|name| {
        board.tap(name);
        let line = board.hears("frame ");
        let frame = Frame::of(&format!("frame {line}"), 5);
        (name.to_owned(), frame.expect("what was counted"))
    });
    taps.collect()
}

#[test]
fn the_self_test_on_the_board_is_within_the_budgets() {
    let mut over = Vec::new();
    for (key, frame) in selftest() {
        println!("self-test, {key}: {frame}");
        let is_cursor = ["up", "down"].contains(&&*key);
        let most = if is_cursor { CURSOR } else { ANY };
        if frame.all > most {
            over.push((key, frame));
        }
    }
    assert!(over.is_empty(), "{over:#?}");
}

/// The most instructions of a screen and sort of key, and which key it was.
type Worst = BTreeMap<(Did, String), (u32, String)>;

/// Counts all scripts, two machines at a time; each key into the file that is asked for.
fn counted() -> Vec<(&'static str, Counted)> {
    let (some, others) = SCRIPTS.split_at(SCRIPTS.len() / 2);
    let all = |scripts: &'static [Script]| -> Vec<_> {
        let keys = scripts.iter().flat_map(|script| {
            let name = script.name;
            count(script).into_iter().map(move |key| (name, key))
        });
        keys.collect()
    };
    let mut keys = std::thread::scope(|scope| {
        let beside = scope.spawn(|| all(others));
        [all(some), beside.join().unwrap()].concat()
    });
    keys.sort_by_key(|(name, _)| SCRIPTS.iter().position(|script| script.name == *name));
    if let Some(path) = std::env::var_os("BOLTBAY_COUNTS") {
        let line = |(name, key): &(&str, Counted)| {
            let frames = key.frames.iter().map(|frame| format!(" > {frame}"));
            let frames: String = frames.collect();
            format!(
                "{name}: {:?}, {} on {}{frames}\n",
                key.did, key.key, key.from
            )
        };
        fs::write(path, keys.iter().map(line).collect::<String>()).unwrap();
    }
    keys
}

/// Every screen that a golden shows, but for those that only a card with faults, or with
/// more jobs than one, brings up.
fn screens() -> BTreeSet<String> {
    let goldens = concat!(env!("CARGO_MANIFEST_DIR"), "/handheld/golden");
    let name = |entry: std::io::Result<DirEntry>| {
        let text = fs::read_to_string(entry.unwrap().path()).unwrap();
        text.split_once(':').unwrap().0.to_owned()
    };
    let mut names: BTreeSet<String> = fs::read_dir(goldens).unwrap().map(name).collect();
    for other in ["card", "delete-job", "take-room", "figure"] {
        assert!(names.remove(other), "{other}");
    }
    names
}

#[test]
fn every_key_is_answered_within_its_budget() {
    let (mut worst, mut seen) = (Worst::new(), BTreeSet::new());
    let (mut behind, mut accepted) = (BTreeMap::<String, u32>::new(), [0; 3]);
    let (mut stack, mut deepest) = (0, String::new());
    for (script, key) in counted() {
        let so_far = key.frames.iter().map(|frame| frame.stack).max();
        if so_far > Some(stack) {
            stack = so_far.unwrap_or_default();
            deepest = format!("{script}, {} on {}", key.key, key.from);
        }
        seen.extend(key.frames.iter().map(|frame| frame.screen.clone()));
        for frame in key.frames_behind(true) {
            let most = behind.entry(frame.screen.clone()).or_default();
            *most = frame.all.max(*most);
        }
        for (most, one) in accepted.iter_mut().zip(key.accepted().unwrap_or_default()) {
            *most = one.max(*most);
        }
        for frame in key.frames_behind(false) {
            let what = format!("{script}, {} on {}: {frame}", key.key, key.from);
            let most = worst.entry((key.did, frame.screen.clone())).or_default();
            if frame.all > most.0 {
                *most = (frame.all, what);
            }
        }
    }
    for screen in screens() {
        assert!(seen.contains(&screen), "no crew comes by {screen}");
    }
    let statics = firmware::statics(firmware::handheld());
    println!("statics {statics}, deepest stack {stack}: {deepest}");
    let ram = statics + stack;
    assert!(
        ram <= RAM,
        "{statics} bytes and {stack} of the stack: {deepest}"
    );
    for ((did, screen), (all, what)) in &worst {
        println!("| {did:?} | {screen} | {all} | {what} |");
    }
    for (screen, most) in behind {
        println!("| behind a frame | {screen} | {most} |");
    }
    let [durable, said, shown] = accepted;
    println!("| a reading | durable {durable} | PLANNING {said} | all shown {shown} |");
    assert!(durable > 0, "somebody accepts a reading");
    let is_over = |((did, _), (all, _)): &(&(Did, String), &(u32, String))| match did {
        Did::Cursor => *all > CURSOR,
        Did::Looked | Did::Changed => *all > ANY,
    };
    let over: Vec<_> = worst.iter().filter(is_over).collect();
    assert!(over.is_empty(), "{over:#?}");
}
