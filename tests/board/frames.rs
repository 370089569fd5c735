//! The log in frames, read by a decoder of our own: the bytes of the serial port and the
//! names of the program's symbols become lines.
//!
//! Source: the defmt book, "Design & impl notes" (interned strings are symbols, their
//! address is the index), and the description of rzCOBS in its repository.

use super::firmware;
use super::handheld::{REST, TO_THE_WALK, a_card};
use super::qemu::Qemu;
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

/// What each index stands for.
type Words = BTreeMap<u64, String>;

/// The strings of a program.
fn words(program: &Path) -> Words {
    let listed = Command::new("arm-none-eabi-nm").arg(program).output();
    let listed = listed.expect("apt-get install binutils-arm-none-eabi");
    let listed = String::from_utf8(listed.stdout).unwrap();
    let symbols = listed.lines().filter_map(|line| {
        let (head, name) = line.split_once(" {\"")?;
        let symbol: Value = serde_json::from_str(&format!("{{\"{name}")).ok()?;
        let index = u64::from_str_radix(head.split(' ').next()?, 16).ok()?;
        Some((index, symbol["data"].as_str()?.to_owned()))
    });
    symbols.collect()
}

/// One frame without its end, read from the back.
fn plain(frame: &[u8]) -> Vec<u8> {
    let (mut rest, mut out) = (frame.to_vec(), Vec::new());
    while let Some(control) = rest.pop() {
        assert_ne!(control, 0, "an end within a frame");
        let (zero_behind, bytes) = match control {
            0xFF => (false, 134),
            0x80.. => (true, usize::from(control & 0x7F) + 7),
            // A bit a byte, the last byte's first.
            _ => {
                for bit in (0..7).rev() {
                    let is_zero = control >> bit & 1 == 1;
                    out.push(if is_zero { 0 } else { rest.pop().unwrap() });
                }
                continue;
            }
        };
        out.extend(zero_behind.then_some(0));
        out.extend(rest.split_off(rest.len() - bytes).iter().rev());
    }
    out.reverse();
    out
}

/// A reader of the bytes of a frame.
struct Reader<'a> {
    words: &'a Words,
    bytes: &'a [u8],
}

impl Reader<'_> {
    fn number(&mut self, bytes: usize) -> u64 {
        let (number, rest) = self.bytes.split_at(bytes);
        self.bytes = rest;
        number
            .iter()
            .rev()
            .fold(0, |sum, byte| sum << 8 | u64::from(*byte))
    }

    /// A string by its index, with whatever it asks for put in.
    fn line(&mut self) -> String {
        let index = self.number(2);
        let format = self.words[&index].clone();
        let mut line = String::new();
        let mut rest = format.as_str();
        while let Some((before, behind)) = rest.split_once('{') {
            let (asked, behind) = behind.split_once('}').unwrap();
            line += before;
            line += &self.asked(asked);
            rest = behind;
        }
        line + rest
    }

    fn asked(&mut self, asked: &str) -> String {
        match asked {
            // Of whatever kind: that is said first.
            "" => self.line(),
            "=u8" => self.number(1).to_string(),
            "=u32" | "=usize" => self.number(4).to_string(),
            "=str" => {
                let length = self.number(4) as usize;
                let (text, rest) = self.bytes.split_at(length);
                self.bytes = rest;
                String::from_utf8(text.to_vec()).unwrap()
            }
            other => panic!("{other:?} is not known here"),
        }
    }
}

/// The lines of a log; the last frame may not be whole yet.
fn lines(words: &Words, sent: &[u8]) -> Vec<String> {
    let whole = sent.iter().rposition(|byte| *byte == 0).unwrap_or(0);
    let frames = sent[..whole].split(|byte| *byte == 0);
    let frames = frames.filter(|frame| !frame.is_empty());
    let line = |frame| {
        let bytes = plain(frame);
        Reader {
            words,
            bytes: &bytes,
        }
        .line()
    };
    frames.map(line).collect()
}

#[test]
fn frames_of_the_book_are_read() {
    // Seven bytes at a time, a bit for each that is zero; the rest is filled up.
    assert_eq!(plain(&[1, 2, 0b0111_1100]), [1, 2, 0, 0, 0, 0, 0]);
    assert_eq!(plain(&[9, 0b0111_1110]), [9, 0, 0, 0, 0, 0, 0]);
    let long: Vec<u8> = (1..=8).chain([0x81]).collect();
    assert_eq!(plain(&long), [1, 2, 3, 4, 5, 6, 7, 8, 0]);
}

/// Waits for a line that begins so, behind those that were waited for.
fn hears(board: &Qemu, words: &Words, from: &mut usize, begins: &str) -> String {
    let asked = Instant::now();
    loop {
        let lines = lines(words, &board.sent());
        let found = lines[*from..]
            .iter()
            .position(|line| line.starts_with(begins));
        if let Some(at) = found {
            *from += at + 1;
            return lines[*from - 1].clone();
        }
        assert!(
            asked.elapsed() < Duration::from_secs(60),
            "{begins:?}: {lines:?}"
        );
        std::thread::sleep(Duration::from_millis(50));
    }
}

#[test]
fn the_log_of_a_day_in_frames() {
    let words = words(firmware::framed());
    assert!(words.values().any(|word| word == "ready"), "{words:?}");
    let card = a_card();
    let mut board = Qemu::develop(firmware::framed(), Some(&card));
    let mut at = 0;
    let mut hears_at = |board: &Qemu, begins: &str| hears(board, &words, &mut at, begins);
    assert_eq!(hears_at(&board, "boltbay"), "boltbay, 0 crashes before");
    hears_at(&board, "journal at block ");
    // The list of job cards has come.
    std::thread::sleep(REST);
    board.tap("ok");
    hears_at(&board, "stack so far ");
    assert_eq!(hears_at(&board, "ready"), "ready");
    board.tap("ok");
    assert_eq!(hears_at(&board, "key"), "key OK");
    std::thread::sleep(REST);
    board.tap("left");
    assert_eq!(hears_at(&board, "key"), "key LEFT");
    hears_at(&board, "plan 2, stack so far ");
    for key in TO_THE_WALK.split_whitespace() {
        std::thread::sleep(REST);
        board.tap(key);
    }
    board.derail();
    let crash = hears_at(&board, "crash: fault 0x");
    assert!(crash.ends_with(" at 0xf0000000"), "{crash}");
    assert_eq!(hears_at(&board, "boltbay"), "boltbay, 1 crashes before");
    assert_eq!(hears_at(&board, "before"), crash.replace("crash", "before"));
}
