//! Every part of the board, by its self-test: what it shows is what a desktop paints.

use super::memory_card::MemoryCard;
use super::qemu::Qemu;
use super::{firmware, pages};
use boltbay_handheld::View;
use std::time::{Duration, Instant};

/// Lines of the menu.
const KEYS: usize = 1;
const CARD: usize = 2;
const JOURNAL: usize = 3;
const CRASH: usize = 4;

/// A board that shows its menu.
fn board(card: Option<&MemoryCard>) -> Qemu {
    let mut board = Qemu::ready(firmware::selftest(), card);
    board.shows(&pages::menu(0));
    board
}

/// The same, with a line of the menu opened.
fn opened(line: usize, card: Option<&MemoryCard>) -> Qemu {
    let mut board = board(card);
    for _ in 0..line {
        board.tap("down");
    }
    board.shows(&pages::menu(u8::try_from(line).unwrap()));
    board.tap("ok");
    board
}

#[test]
fn pictures_are_those_of_the_desktop_pixel_for_pixel() {
    let mut board = board(None);
    board.tap("ok");
    for number in 0..pages::PICTURES {
        board.shows(&pages::picture(number));
        board.tap("ok");
    }
    board.shows(&pages::picture(0));
    board.tap("left");
    board.shows(&pages::menu(0));
}

#[test]
fn another_picture_is_told_from_the_one_that_is_shown() {
    let mut board = board(None);
    let seen = board.glass();
    board.tap("down");
    board.shows(&pages::menu(1));
    assert_ne!(seen, board.glass());
    // One pixel row of the glass, moved by hand, is no longer the picture.
    let lit = seen.iter().filter(|grey| **grey > 0).count();
    assert!(lit > 500, "{lit} pixels are lit");
}

#[test]
fn taps_and_holds_of_every_key_are_counted() {
    let mut board = opened(KEYS, None);
    board.shows(&pages::keys(&[0; 5], &[0; 5]));
    board.tap("up up up down right right ok");
    board.shows(&pages::keys(&[3, 1, 0, 2, 1], &[0; 5]));
    // Acts at 400 ms and every 250 ms: at 400, 650, 900.
    board.hold("right", Duration::from_millis(1025));
    board.shows(&pages::keys(&[3, 1, 0, 2, 1], &[0, 0, 0, 3, 0]));
    board.tap("left up left left");
    board.shows(&pages::menu(1));
}

#[test]
fn taps_faster_than_contacts_settle_leave_no_key_stuck() {
    let mut board = opened(KEYS, None);
    board.shows(&pages::keys(&[0; 5], &[0; 5]));
    board.rattle("down", 20);
    std::thread::sleep(Duration::from_secs(1));
    // However many of them counted, none is held, and the next tap is one.
    board.tap("up");
    let mut taps = 0..=20;
    let is_shown =
        taps.any(|down| is_there(&mut board, &pages::keys(&[1, down, 0, 0, 0], &[0; 5])));
    assert!(is_shown);
}

/// Whether the glass shows this now.
fn is_there(board: &mut Qemu, view: &View) -> bool {
    let glass = boltbay::handheld::cells::Glass::of(view);
    let seen = board.glass();
    (0..64).all(|y| (0..128).all(|x| glass.grey(x, y) == seen[y * 128 + x]))
}

/// What the self-test makes of a file's bytes.
fn sum(bytes: &[u8]) -> u32 {
    let add = |sum: u32, byte: &u8| sum.wrapping_mul(31).wrapping_add(u32::from(*byte));
    bytes.iter().fold(0, add)
}

#[test]
fn job_cards_are_listed_read_and_answered_in_a_file() {
    for (megabytes, bits) in [(64, 16), (128, 32)] {
        let card = MemoryCard::formatted(megabytes, bits);
        let job = include_bytes!("../../demo-data/05-sycamore-post.csv");
        card.put("POST.CSV", job);
        card.put("NOTES.TXT", b"not a job card");
        card.put("SMALL.CSV", b"boltbay,1\n");
        let listed = [
            ("POST.CSV", u32::try_from(job.len()).unwrap()),
            ("SMALL.CSV", 10),
        ];
        let mut board = opened(CARD, Some(&card));
        board.shows(&pages::card(&listed, ["", ""]));
        board.tap("ok");
        let (bytes, sum) = (job.len(), sum(job));
        let says = [format!("READ {bytes}"), format!("SUM {sum}")];
        board.shows(&pages::card(&listed, [&says[0], &says[1]]));
        board.kill();
        let line = |at| format!("{at} POST.CSV {bytes} {sum}\n");
        let wanted: String = (0..100).map(line).collect();
        assert_eq!(card.get("SELFTEST.TXT"), wanted);
        card.check();
    }
}

#[test]
fn without_a_card_or_with_a_blank_one_it_says_so() {
    let choice = "LEFT: BACK";
    for line in [CARD, JOURNAL] {
        let mut board = opened(line, None);
        let words = ["NO CARD", "PUT ONE IN"];
        board.shows(&pages::card_trouble(words, choice));
        board.tap("left");
        board.shows(&pages::menu(u8::try_from(line).unwrap()));
    }
    let blank = MemoryCard::blank(64);
    let mut board = opened(CARD, Some(&blank));
    let words = ["CARD IS NOT FORMATTED", "FORMAT IT AS FAT"];
    board.shows(&pages::card_trouble(words, choice));
}

#[test]
fn a_count_outlives_the_battery_key_by_key() {
    let card = MemoryCard::formatted(64, 16).with_journal();
    let mut counted = 0;
    for _ in 0..4 {
        let mut board = opened(JOURNAL, Some(&card));
        board.shows(&pages::journal(counted, 3));
        board.tap("ok ok up");
        counted += 12;
        board.shows(&pages::journal(counted, 3));
        board.kill();
    }
    card.check();
}

#[test]
fn a_new_card_is_set_up_once_and_lies_in_one_piece() {
    let card = MemoryCard::formatted(64, 16);
    let started = Instant::now();
    let mut board = opened(JOURNAL, Some(&card));
    let first = board.hears("journal at block");
    board.shows(&pages::journal(0, 3));
    println!("set up and shown after {:?}", started.elapsed());
    board.tap("ok");
    board.shows(&pages::journal(1, 3));
    board.kill();
    assert!(card.names().contains("BOLTBAY.JNL"));
    card.check();
    let mut board = opened(JOURNAL, Some(&card));
    assert_eq!(board.hears("journal at block"), first);
    board.shows(&pages::journal(1, 3));
}

#[test]
fn a_card_without_room_is_told_apart() {
    let full = MemoryCard::formatted(16, 16);
    full.put("LARGE.BIN", &vec![1; 10 << 20]);
    let mut board = opened(JOURNAL, Some(&full));
    let words = ["CARD IS FULL", "IT NEEDS 8 MB FREE"];
    board.shows(&pages::card_trouble(words, "LEFT: BACK"));
    board.kill();
    assert!(!full.names().contains("BOLTBAY.JNL"));
    full.check();
}

#[test]
fn a_hole_near_the_front_is_passed_over() {
    for (megabytes, bits) in [(32, 16), (128, 32)] {
        let card = MemoryCard::formatted(megabytes, bits);
        card.put("SMALL.BIN", &[1; 100]);
        card.put("LARGE.BIN", &vec![1; 1 << 20]);
        card.remove("SMALL.BIN");
        let mut board = opened(JOURNAL, Some(&card));
        board.shows(&pages::journal(0, 3));
        board.tap("ok");
        board.shows(&pages::journal(1, 3));
        board.kill();
        card.check();
    }
}

#[test]
fn another_crews_files_stay_and_its_journal_is_not_written_over() {
    let card = MemoryCard::formatted(64, 16);
    card.put("BOLTBAY.JNL", &vec![0xA5; 8 << 20]);
    let before = card.bytes();
    let mut board = opened(JOURNAL, Some(&card));
    let words = ["CARD IS DAMAGED", "KEEP IT, TAKE ANOTHER"];
    board.shows(&pages::card_trouble(words, "LEFT: BACK"));
    board.kill();
    assert!(card.bytes() == before, "nothing is written");
}

#[test]
fn a_card_whose_room_lies_in_pieces_is_refused() {
    let pieces = MemoryCard::formatted(32, 16);
    for number in 0..20 {
        pieces.put(&format!("A{number}.BIN"), &vec![1; 1 << 20]);
    }
    for number in (0..20).step_by(2) {
        pieces.remove(&format!("A{number}.BIN"));
    }
    let pieces = pieces.with_journal();
    let mut board = opened(JOURNAL, Some(&pieces));
    let words = ["NO 8 MB IN ONE PIECE", "FORMAT IT ANEW"];
    board.shows(&pages::card_trouble(words, "LEFT: BACK"));
}

/// What a crash shows, and that the board goes on.
fn crashes(key: &str, begins: &str) {
    let mut board = opened(CRASH, None);
    board.shows(&pages::crash());
    board.tap(key);
    let words = board.hears("crash: ");
    assert!(words.starts_with(begins), "{words}");
    assert_eq!(board.hears("before: "), words);
    board.shows(&pages::crashed(&words));
    // A restart looks like a start to the emulated pins.
    board.prime();
    board.tap("ok");
    board.shows(&pages::menu(0));
    assert!(board.log().contains("selftest, 1 crashes before"));
}

#[test]
fn a_panic_is_shown_with_its_place_when_it_runs_again() {
    crashes("up", "selftest.rs ");
}

#[test]
fn a_stack_overflow_is_caught() {
    crashes("down", "stack overflow at 0x");
}

#[test]
fn a_program_that_hangs_is_started_anew() {
    crashes("right", "no sign of life at 0x");
}

#[test]
fn a_fault_is_shown_with_its_place() {
    crashes("ok", "fault 0x");
}

#[test]
fn nothing_runs_between_ticks() {
    let board = board(None);
    let load = board.load(Duration::from_secs(3));
    // A loop that never sleeps takes a whole core; a hundred ticks a second 1 to 3 %.
    assert!(load < 0.25, "{load}");
}
