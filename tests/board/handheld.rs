//! The handheld itself, on the development machine until it fits the board: the same
//! keys, to it and to a desktop's handheld, and the same picture after each.

use super::memory_card::MemoryCard;
use super::qemu::Qemu;
use super::{firmware, pages};
use boltbay_core::{Job, card};
use boltbay_handheld::view::text;
use boltbay_handheld::{Handheld, Key, Memory, Millis, View};
use std::ffi::OsString;
use std::time::Duration;

/// Keys by name, as a script has them.
pub fn key(name: &str) -> Key {
    match name {
        "up" => Key::Up,
        "down" => Key::Down,
        "left" => Key::Left,
        "right" => Key::Right,
        "ok" => Key::Ok,
        other => panic!("{other}"),
    }
}

/// Keys are deaf for a second after some of them, and where the host is busy the
/// emulated clock falls behind.
pub const REST: Duration = Duration::from_millis(2000);

/// A handheld on the desktop, with the job of a card.
struct Desk<'m> {
    handheld: Handheld<'m>,
    now: u64,
}

impl<'m> Desk<'m> {
    fn on(memory: &'m mut Memory, job: &[u8]) -> Desk<'m> {
        card::read(job, &mut memory.job).unwrap();
        Desk {
            handheld: Handheld::new(memory),
            now: 1000,
        }
    }

    /// With its job and its place alone.
    fn starts_anew(&mut self, memory: &'m mut Memory) {
        let place = self.handheld.place();
        memory.job.clone_from(self.handheld.job());
        self.handheld = Handheld::new(memory);
        self.handheld.resume(&place);
    }

    fn tap(&mut self, name: &str) {
        self.handheld.press(key(name), Millis(self.now));
        self.now += 60;
        self.handheld.release(key(name), Millis(self.now));
        self.now += 1100;
        self.handheld.tick(Millis(self.now));
    }
}

/// Taps keys on both, and compares after each.
fn both(board: &mut Qemu, desk: &mut Desk<'_>, keys: &str) {
    for name in keys.split_whitespace() {
        board.tap(name);
        desk.tap(name);
        board.shows(&desk.handheld.view());
        std::thread::sleep(REST);
    }
}

/// What the command line prints.
fn printed(arguments: &[&str]) -> String {
    let mut out = Vec::new();
    let arguments = ["boltbay", "plan"].iter().chain(arguments);
    boltbay::run(
        arguments.map(OsString::from),
        &mut std::io::empty(),
        &mut out,
        &mut std::io::sink(),
    );
    String::from_utf8(out).unwrap()
}

pub const HAZEL: &[u8] = include_bytes!("../../demo-data/09-hazel-half-drilled.csv");
/// From the first screen to the next hole to be drilled.
pub const TO_THE_WALK: &str = "down down down down ok left ok ok ok";

/// A board with this job card chosen, on its first screen.
fn chosen(card: &MemoryCard) -> Qemu {
    let mut board = Qemu::develop(firmware::handheld(), Some(card));
    board.shows(&pages::cards(&["HAZEL.CSV", "LARCH.CSV"], 0));
    board.tap("down");
    board.shows(&pages::cards(&["HAZEL.CSV", "LARCH.CSV"], 1));
    board.tap("up ok");
    board
}

/// The same, and a handheld on the desktop that shows the same.
fn begun<'m>(card: &MemoryCard, memory: &'m mut Memory) -> (Qemu, Desk<'m>) {
    let desk = Desk::on(memory, HAZEL);
    let mut board = chosen(card);
    board.shows(&desk.handheld.view());
    (board, desk)
}

pub fn a_card() -> MemoryCard {
    let card = MemoryCard::formatted(64, 16).with_journal();
    card.put("HAZEL.CSV", HAZEL);
    let larch = include_bytes!("../../demo-data/01-larch-new-framing.csv");
    card.put("LARCH.CSV", larch);
    card
}

#[test]
fn a_hole_is_drilled_pixel_for_pixel_and_outlives_the_battery() {
    let card = a_card();
    let mut memory = Box::new(Memory::new());
    let (mut board, mut desk) = begun(&card, &mut memory);
    let before = desk.handheld.job().holes.clone();
    both(&mut board, &mut desk, TO_THE_WALK);
    both(&mut board, &mut desk, "ok ok");
    assert_ne!(before, desk.handheld.job().holes, "two are drilled");
    board.kill();

    // The same hole, as if nothing had happened.
    let mut board = Qemu::develop(firmware::handheld(), Some(&card));
    board.shows(&desk.handheld.view());
    both(&mut board, &mut desk, "ok");
    board.kill();

    let mut board = Qemu::develop(firmware::handheld(), Some(&card));
    board.shows(&desk.handheld.view());
    card.check();
    drop(board);
}

#[test]
fn the_plan_on_the_card_is_the_one_of_the_command_line() {
    let card = a_card();
    let mut board = chosen(&card);
    board.hears("ready");
    // Back on the first screen after a look at another one.
    board.tap("ok");
    std::thread::sleep(REST);
    board.tap("left");
    board.hears("plan ");
    board.kill();
    let demo = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../demo-data/09-hazel-half-drilled.csv"
    );
    assert_eq!(card.get("PLAN02.TXT"), printed(&[demo]));
    assert_eq!(card.get("PLAN02.CSV"), printed(&[demo, "--format", "csv"]));
}

#[test]
fn a_card_that_is_no_job_says_which_row_is_wrong() {
    let card = MemoryCard::formatted(64, 16).with_journal();
    let bad = b"boltbay,1\nunits,imperial\nclear,14-3\n";
    card.put("BAD.CSV", bad);
    let mut board = Qemu::develop(firmware::handheld(), Some(&card));
    board.shows(&pages::cards(&["BAD.CSV"], 0));
    board.tap("ok");
    let mut job = Box::new(Job::new(boltbay_core::words::Units::Imperial));
    let error = card::read(bad, &mut job).unwrap_err().to_string();
    board.shows(&pages::card_refused("BAD.CSV", &error));
    // Any key, and the list is back; LEFT goes on without.
    board.tap("ok");
    board.shows(&pages::cards(&["BAD.CSV"], 0));
    board.tap("left");
    let mut memory = Box::new(Memory::new());
    let empty = Handheld::new(&mut memory);
    board.shows(&empty.view());
}

#[test]
fn without_a_card_it_goes_on_and_says_so() {
    let mut board = Qemu::develop(firmware::handheld(), None);
    let words = ["NO CARD", "PUT ONE IN"];
    board.shows(&pages::card_trouble(words, pages::GO_ON));
    board.tap("ok");
    let mut memory = Box::new(Memory::new());
    let desk = Handheld::new(&mut memory);
    let mut view = desk.view();
    pages::warn(&mut view, pages::NOTHING_KEPT);
    board.shows(&view);
}

#[test]
fn a_card_that_is_put_in_while_it_runs_gets_the_job_and_all_goes_on() {
    let card = MemoryCard::formatted(64, 16);
    card.take_out();
    let mut board = Qemu::develop(firmware::handheld(), Some(&card));
    board.shows(&pages::card_trouble(
        ["NO CARD", "PUT ONE IN"],
        pages::GO_ON,
    ));
    board.tap("ok");
    let [mut memory, mut again, mut later] = [(); 3].map(|()| Box::new(Memory::new()));
    let mut desk = Desk {
        handheld: Handheld::new(&mut memory),
        now: 1000,
    };
    let mut view = desk.handheld.view();
    pages::warn(&mut view, pages::NOTHING_KEPT);
    board.shows(&view);
    // The shapes; taking one is an entry, and so is the bearing behind it, for which
    // the card is there.
    both(&mut board, &mut desk, "ok ok");
    card.put_in();
    board.tap("up");
    desk.tap("up");
    board.shows(&desk.handheld.view());
    board.tap("ok");
    desk.tap("ok");
    board.hears("taken in, stack so far ");
    board.hears("restart");
    // As after a loss of power.
    desk.starts_anew(&mut again);
    board.shows(&desk.handheld.view());
    both(&mut board, &mut desk, "ok up ok");
    board.kill();
    let mut board = Qemu::develop(firmware::handheld(), Some(&card));
    desk.starts_anew(&mut later);
    board.shows(&desk.handheld.view());
    board.kill();
    card.check();
}

/// The page of an entry that the card did not take.
fn not_kept(words: [&str; 2]) -> View {
    let hint = "The last entry is not kept yet. What came before it is.";
    let mut view = View::of("card", hint);
    view.alarm = true;
    view.small = true;
    view.status.left = text("NOT KEPT");
    for line in words.into_iter().chain(["LEFT: GO ON WITHOUT"]) {
        view.line(line, "");
    }
    view
}

#[test]
fn another_crews_card_in_its_place_is_told_and_left_alone() {
    let card = a_card();
    let other = a_card();
    drop(chosen_and_ready(&other));
    let other = other.bytes();
    let mut memory = Box::new(Memory::new());
    let (mut board, mut desk) = begun(&card, &mut memory);
    both(&mut board, &mut desk, TO_THE_WALK);
    let ours = card.bytes();
    card.swap(&other);
    board.tap("ok");
    let words = not_kept(["ANOTHER CREW'S CARD?", "PUT YOURS BACK, OK"]);
    board.shows(&words);
    // In vain: the page stays, and so does the card.
    board.tap("ok");
    std::thread::sleep(REST);
    board.shows(&words);
    assert!(card.bytes() == other, "another crew's card is written");
    card.swap(&ours);
    board.tap("ok");
    desk.tap("ok");
    board.shows(&desk.handheld.view());
    board.kill();
    let mut board = Qemu::develop(firmware::handheld(), Some(&card));
    board.shows(&desk.handheld.view());
    card.check();
}

/// A board on its first screen, the job taken from a card.
fn chosen_and_ready(card: &MemoryCard) -> Qemu {
    let mut board = chosen(card);
    board.hears("ready");
    board
}

#[test]
fn a_full_card_is_told_and_stays_sound() {
    let full = MemoryCard::formatted(16, 16);
    full.fill();
    let names = full.names();
    let mut board = Qemu::develop(firmware::handheld(), Some(&full));
    let words = ["CARD IS FULL", "IT NEEDS 8 MB FREE"];
    board.shows(&pages::card_trouble(words, pages::GO_ON));
    board.tap("ok");
    let mut memory = Box::new(Memory::new());
    let mut view = Handheld::new(&mut memory).view();
    pages::warn(&mut view, pages::NOTHING_KEPT);
    board.shows(&view);
    board.kill();
    assert_eq!(full.names(), names);
    full.check();
}

#[test]
fn a_card_that_takes_the_entries_and_not_the_plan_says_so() {
    let card = a_card();
    card.fill();
    let mut memory = Box::new(Memory::new());
    let desk = Desk::on(&mut memory, HAZEL);
    let mut board = chosen_and_ready(&card);
    board.tap("ok");
    std::thread::sleep(REST);
    board.tap("left");
    board.hears("no plan: CARD IS FULL");
    let mut view = desk.handheld.view();
    pages::warn(&mut view, pages::PLAN_IS_OLD);
    board.shows(&view);
    board.kill();
    assert!(!card.names().contains("PLAN"));
    card.check();
}

#[test]
fn a_crash_shows_its_place_and_comes_back_to_the_same_screen() {
    let card = a_card();
    let mut memory = Box::new(Memory::new());
    let (mut board, mut desk) = begun(&card, &mut memory);
    both(&mut board, &mut desk, TO_THE_WALK);
    both(&mut board, &mut desk, "ok");
    for crashes in 1..=2 {
        board.derail();
        let words = board.hears("crash: ");
        assert!(words.starts_with("fault 0x"), "{words}");
        assert!(words.contains(" at 0xf0000000"), "{words}");
        assert_eq!(
            board.hears("boltbay, "),
            format!("{crashes} crashes before")
        );
        assert_eq!(board.hears("before: "), words);
        board.shows(&pages::crashed(&words));
        board.tap("ok");
        match crashes {
            1 => board.shows(&desk.handheld.view()),
            // Twice without a key in between: the jobs of the card are offered.
            _ => assert!(board.hears("ready").is_empty()),
        }
    }
    // What was entered is there: LEFT out of the list of jobs.
    board.tap("left");
    board.shows(&desk.handheld.view());
    both(&mut board, &mut desk, "ok");
    board.kill();
    let mut board = Qemu::develop(firmware::handheld(), Some(&card));
    board.shows(&desk.handheld.view());
    card.check();
}
