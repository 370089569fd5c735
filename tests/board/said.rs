//! Every page that the board says besides the handheld: all of it fits the glass. With
//! `BOLTBAY_PICTURES=FOLDER` also a PNG of each.

use super::pages;
use super::qemu::{Greys, HIGH, WIDE, write_png};
use boltbay::handheld::cells::Glass;
use boltbay_board::card::CardFault;
use boltbay_board::session::NotKept;
use boltbay_handheld::journal::{Fault, StoreError};
use boltbay_handheld::paint::faults;
use boltbay_handheld::{Handheld, Memory, View};
use std::path::Path;

/// Why nothing is kept: all of the card, and those of the journal with words of their own.
const WHY: [NotKept; 16] = [
    NotKept::Card(CardFault::NoCard),
    NotKept::Card(CardFault::NoVolume),
    NotKept::Card(CardFault::Full),
    NotKept::Card(CardFault::InPieces),
    NotKept::Card(CardFault::TooShort),
    NotKept::Card(CardFault::FolderFull),
    NotKept::Card(CardFault::IsFolder),
    NotKept::Card(CardFault::NoFile),
    NotKept::Card(CardFault::Read),
    NotKept::Card(CardFault::Write),
    NotKept::Journal(Fault::Store(StoreError::NoCard)),
    NotKept::Journal(Fault::Store(StoreError::Read)),
    NotKept::Journal(Fault::Damaged),
    NotKept::Journal(Fault::OtherVersion(2)),
    NotKept::Journal(Fault::JobsFull),
    NotKept::Journal(Fault::JobTooLong),
];

fn warned(words: &str) -> View {
    let mut memory = Box::new(Memory::new());
    let mut view = Handheld::new(&mut memory).view();
    pages::warn(&mut view, words);
    view
}

/// Pages by name.
fn all() -> Vec<(String, View)> {
    let mut all = Vec::new();
    let mut add = |name: &str, view| all.push((name.to_owned(), view));
    add(
        "crashed",
        pages::crashed(
            "slot.rs 241: called on a slot that is not there at all, whoever asked for it",
        ),
    );
    for (number, why) in WHY.iter().enumerate() {
        let name = format!("not-kept-{number:02}");
        add(&name, pages::card_trouble(why.on_screen(), pages::GO_ON));
    }
    let fault = CardFault::IsFolder.on_screen();
    add("selftest-folder", pages::card_trouble(fault, "LEFT: BACK"));
    for (name, words) in [
        ("nothing-kept", pages::NOTHING_KEPT),
        ("card-away", pages::CARD_AWAY),
        ("plan-old", pages::PLAN_IS_OLD),
        ("plan-folder", pages::PLAN_IS_FOLDER),
    ] {
        add(name, warned(words));
    }
    let mut read = View::default();
    pages::must_be_read(&mut read);
    read.line("LEFT: GO ON WITHOUT", "");
    add("must-be-read", read);
    let names: Vec<String> = (1..=7).map(|at| format!("HOUSE{at:03}.CSV")).collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    add("cards-first", pages::cards(&names[..2], 0));
    add("cards-last", pages::cards(&names, 6));
    let refused =
        "row 12, clear: 14-3 may be 14 ft 3 in or 14 3/..: write 14' 3 or 14 3/8 and so on";
    add("card-refused", pages::card_refused("HOUSE001.CSV", refused));
    add("setting-up", pages::setting_up());
    add("taking-in", pages::taking_in());
    add("menu", pages::menu(2));
    for number in 0..pages::PICTURES {
        add(&format!("picture-{number}"), pages::picture(number));
    }
    add("keys", pages::keys(&[9999; 5], &[9999; 5]));
    let cards = [("HOUSE001.CSV", 65_535), ("B.CSV", 3), ("C.CSV", 4)];
    add(
        "card",
        pages::card(&cards, ["READ 65535", "SUM 4294967295"]),
    );
    add("journal", pages::journal(u32::MAX, 4));
    add("crash", pages::crash());
    all
}

fn save(folder: &Path, name: &str, view: &View) {
    let glass = Glass::of(view);
    let greys: Greys = (0..WIDE * HIGH)
        .map(|at| glass.grey(at % WIDE, at / WIDE))
        .collect();
    write_png(&folder.join(format!("board-{name}.png")), &greys);
}

#[test]
fn every_page_fits_the_glass() {
    for (name, view) in all() {
        if let Some(folder) = std::env::var_os("BOLTBAY_PICTURES") {
            save(Path::new(&folder), &name, &view);
        }
        assert!(faults(&view).is_empty(), "{name}: {:?}", faults(&view));
        for line in &view.lines {
            let length = line.left.len() + line.right.len();
            assert!(length <= 21, "{name}: {}{}", line.left, line.right);
        }
    }
}
