//! The terminal host in a pseudo-terminal: what a user would see and do.

use crate::program::program;
use boltbay::handheld::cells::{Cell, Glass, Grain};
use boltbay::handheld::guide::guided;
use boltbay::handheld::{self, Fingers};
use boltbay_core::Job;
use boltbay_core::words::Units;
use boltbay_handheld::{Handheld, Key, Memory};
use pty_process::Size;
use pty_process::blocking::{Command, Pty, open};
use std::env;
use std::io::{Read, Write};
use std::num::NonZeroU16;
use std::path::Path;
use std::process::Child;
use std::sync::mpsc::{self, Receiver};
use std::thread;
use std::time::{Duration, Instant};
use vt100::{Color, Parser};

/// Long enough for a busy machine.
const PATIENCE: Duration = Duration::from_secs(20);

fn parser(columns: u16, rows: u16) -> Parser {
    let size = |count| NonZeroU16::new(count).unwrap();
    Parser::new(size(rows), size(columns), 0)
}

/// A window with the handheld in it, and one beside it that is only imagined.
struct Window {
    pty: Pty,
    child: Child,
    bytes: Receiver<Vec<u8>>,
    screen: Parser,
    columns: u16,
}

impl Window {
    /// Runs a shell line in which `$P` is the program.
    fn run(line: &str, colours: &str) -> Window {
        let (pty, pts) = open().unwrap();
        pty.resize(Size::new(40, 140)).unwrap();
        let child = Command::new("sh")
            .args(["-c", line])
            .env("P", program())
            .env("TERM", "xterm-256color")
            .env("COLORTERM", colours)
            .spawn(pts)
            .unwrap();
        let (sender, bytes) = mpsc::channel();
        let fd = std::os::fd::AsFd::as_fd(&pty).try_clone_to_owned().unwrap();
        let mut reader = std::fs::File::from(fd);
        thread::spawn(move || {
            let mut buffer = [0; 4096];
            // Reading fails once the program is gone.
            while let Ok(count @ 1..) = reader.read(&mut buffer) {
                if sender.send(buffer[..count].to_vec()).is_err() {
                    return;
                }
            }
        });
        Window {
            pty,
            child,
            bytes,
            screen: parser(140, 40),
            columns: 140,
        }
    }

    fn keys(&mut self, keys: &str) {
        self.pty.write_all(keys.as_bytes()).unwrap();
    }

    fn resize(&mut self, columns: u16, rows: u16) {
        // What comes from now on is drawn for the new size.
        while self.bytes.try_recv().is_ok() {}
        self.screen = parser(columns, rows);
        self.columns = columns;
        self.pty.resize(Size::new(rows, columns)).unwrap();
    }

    /// Waits until this is so of the window.
    fn wait(&mut self, what: &str, is_so: impl Fn(&Parser) -> bool) {
        let end = Instant::now() + PATIENCE;
        while !is_so(&self.screen) {
            match self.bytes.recv_timeout(Duration::from_millis(50)) {
                Ok(bytes) => self.screen.process(&bytes),
                Err(_) if Instant::now() < end => {}
                Err(_) => panic!("no {what}:\n{}", self.screen.screen().contents()),
            }
        }
    }

    fn wait_for_words(&mut self, words: &str) {
        self.wait(words, |screen| screen.screen().contents().contains(words));
    }

    /// Waits until the window shows these cells.
    fn wait_for(&mut self, what: &str, handheld: &Handheld<'_>, grain: Grain, true_greys: bool) {
        let cells = Glass::of(&guided(handheld.view(), handheld)).cells(grain);
        let left = (self.columns - grain.size().0) / 2;
        self.wait(what, |screen| {
            let rows = (0..).zip(&cells);
            rows.flat_map(|(y, row)| (left..).zip(row).map(move |(x, cell)| (x, y, cell)))
                .all(|(x, y, cell)| shows(screen, x, y, *cell, true_greys))
        });
    }

    fn ends(&mut self) {
        let end = Instant::now() + PATIENCE;
        while self.child.try_wait().unwrap().is_none() {
            assert!(Instant::now() < end, "it does not end");
            thread::sleep(Duration::from_millis(20));
        }
        while let Ok(bytes) = self.bytes.recv_timeout(Duration::from_millis(100)) {
            self.screen.process(&bytes);
        }
    }
}

impl Drop for Window {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// A grey as it stands in the window.
fn grey(colour: Color) -> Option<u8> {
    match colour {
        Color::Rgb(red, green, blue) if red == green && green == blue => Some(red / 17),
        Color::Idx(16) => Some(0),
        Color::Idx(231) => Some(15),
        Color::Idx(index @ 232..) => Some(((u16::from(index) - 232) * 16).div_ceil(24) as u8),
        _ => None,
    }
}

fn shows(screen: &Parser, x: u16, y: u16, cell: Cell, true_greys: bool) -> bool {
    let Some(found) = screen.screen().cell(y, x) else {
        return false;
    };
    let is_true = matches!(found.bgcolor(), Color::Rgb(..));
    found.contents().chars().eq([cell.sign])
        && grey(found.fgcolor()) == Some(cell.ink)
        && grey(found.bgcolor()) == Some(cell.ground)
        && is_true == true_greys
}

/// The demo job, as the program starts with it.
fn demo() -> Box<Memory> {
    let mut memory = Box::new(Memory::new());
    drop(handheld::open(None, None, &mut std::io::empty(), &mut memory.job).unwrap());
    memory
}

/// The same keys on a handheld of our own.
const ARROWS: [(&str, Key); 4] = [
    ("\x1b[B", Key::Down),
    ("\x1b[B", Key::Down),
    ("\x1b[A", Key::Up),
    ("\r", Key::Ok),
];

#[test]
fn it_is_played_resized_and_left() {
    let mut window = Window::run("\"$P\" handheld; echo code $?; stty -a", "truecolor");
    let mut memory = demo();
    let mut handheld = Handheld::new(&mut memory);
    let mut fingers = Fingers::default();
    window.wait_for("the first screen", &handheld, Grain::Half, true);
    assert!(window.screen.screen().alternate_screen());
    assert!(window.screen.screen().hide_cursor());
    // The demo says what to do; the keys go elsewhere.
    window.wait_for_words("GUIDE: ");
    for (stroke, key) in ARROWS {
        window.keys(stroke);
        thread::sleep(Duration::from_millis(100));
        fingers.tap(&mut handheld, key);
        window.wait_for(stroke, &handheld, Grain::Half, true);
    }
    // A hint, and what the keys are.
    let hint = guided(handheld.view(), &handheld).hint;
    let start: String = hint
        .split_whitespace()
        .take(3)
        .collect::<Vec<_>>()
        .join(" ");
    window.wait_for_words(&start);
    window.wait_for_words("q: quit");
    window.resize(80, 24);
    window.wait_for("80 x 24", &handheld, Grain::Braille, true);
    window.wait_for_words("q: quit");
    window.resize(60, 12);
    window.wait_for_words("at least 64 x 20");
    window.resize(128, 36);
    window.wait_for("128 x 36", &handheld, Grain::Half, true);
    window.keys("q");
    window.ends();
    let left = window.screen.screen();
    let words = left.contents();
    assert!(!left.alternate_screen() && !left.hide_cursor());
    assert!(words.contains("code 0"), "{words}");
    assert!(
        !words.contains("-icanon") && !words.contains("-echo "),
        "{words}"
    );
}

/// Backspace and LEFT go back, Shift with an arrow and capital letters hold.
#[test]
fn every_key_has_its_stroke() {
    let mut window = Window::run("\"$P\" handheld", "");
    let mut memory = demo();
    let mut handheld = Handheld::new(&mut memory);
    let mut fingers = Fingers::default();
    window.wait_for("the first screen", &handheld, Grain::Half, false);
    for (stroke, key, held) in [
        ("\r", Key::Ok, false),
        ("\x7f", Key::Left, false),
        ("\r", Key::Ok, false),
        ("\x1b[D", Key::Left, false),
        ("\x1b[1;2B", Key::Down, true),
        ("U", Key::Up, true),
        ("\t", Key::Ok, true),
    ] {
        window.keys(stroke);
        // Longer than the keys are dead after a hold.
        thread::sleep(Duration::from_millis(400));
        match held {
            true => fingers.hold(&mut handheld, key),
            false => fingers.tap(&mut handheld, key),
        }
        window.wait_for(stroke, &handheld, Grain::Half, false);
    }
    window.keys("\x03");
    window.ends();
}

#[test]
fn a_request_to_end_gives_the_window_back() {
    let line = "timeout --foreground -s TERM 2 \"$P\" handheld; echo ended; stty -a";
    let mut window = Window::run(line, "truecolor");
    window.wait("the first screen", |screen| {
        screen.screen().alternate_screen()
    });
    window.ends();
    let words = window.screen.screen().contents();
    assert!(!window.screen.screen().alternate_screen(), "{words}");
    assert!(words.contains("ended"), "{words}");
    assert!(!words.contains("-icanon"), "{words}");
}

/// What the next test plays: the window is taken over, then the program panics.
#[test]
#[ignore = "the child of a_panic_gives_the_window_back, which plays it in a window"]
fn panics_in_its_window() {
    let _window = handheld::Terminal::enter().unwrap();
    thread::sleep(Duration::from_millis(1500));
    panic!("on purpose");
}

/// The words of a panic stand in the window as it was before, and whoever types there
/// sees what is typed.
#[test]
fn a_panic_gives_the_window_back() {
    let child = "live::window::panics_in_its_window";
    let tests = env::current_exe().unwrap();
    let line = format!(
        "{} --exact {child} --ignored --nocapture; echo code $?; stty -a",
        tests.display()
    );
    let mut window = Window::run(&line, "truecolor");
    window.wait("the window taken over", |screen| {
        screen.screen().alternate_screen() && screen.screen().hide_cursor()
    });
    window.ends();
    let left = window.screen.screen();
    let words = left.contents();
    assert!(!left.alternate_screen() && !left.hide_cursor(), "{words}");
    assert!(words.contains("on purpose"), "{words}");
    assert!(words.contains("code 101"), "{words}");
    assert!(
        !words.contains("-icanon") && !words.contains("-echo "),
        "{words}"
    );
}

#[test]
fn without_a_terminal_it_says_so() {
    let output = std::process::Command::new(program())
        .arg("handheld")
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.contains("needs a terminal"), "{said}");
}

/// Killed outright in the middle of work, a session is there again.
#[test]
fn a_killed_session_is_there_again() {
    let folder = tempfile::tempdir().unwrap();
    let card = Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo-data/05-sycamore-post.csv");
    let store = folder.path().join("jobs");
    let line = format!(
        "exec \"$P\" handheld {} --store {}",
        card.display(),
        store.display()
    );
    let mut window = Window::run(&line, "truecolor");
    window.wait_for_words("q: quit");
    window.child.kill().unwrap();
    window.ends();
    let mut job = Job::new(Units::Imperial);
    drop(handheld::open(None, Some(&store), &mut std::io::empty(), &mut job).unwrap());
    let mut expected = Job::new(Units::Imperial);
    boltbay_core::card::read(&std::fs::read(&card).unwrap(), &mut expected).unwrap();
    assert_eq!(job, expected);
}
