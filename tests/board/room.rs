//! Room on the memory card: none, too little, in pieces, or another's.

use super::bench::{DRILLED, Ended, in_work, presses, switched_on, with_hazel};
use super::fat::{Card, FAT16, FAT32};
use super::slot::Slot;
use boltbay_board::card::{CardFault, FILE_BYTES};
use boltbay_board::pages;
use boltbay_board::session::NotKept;
use boltbay_handheld::journal::Fault;
use boltbay_handheld::{Handheld, Key, Memory};

/// The clusters of a card, from the first free one on.
fn free_from(card: &Card) -> std::ops::Range<u32> {
    let files = card.files();
    let owned = files.values().flat_map(|file| &file.clusters).max();
    owned.unwrap() + 1..card.format.clusters + 2
}

/// Leaves so many clusters free, at the end.
pub fn filled(card: &Card, free: u32) -> Card {
    let mut full = card.clone();
    let room = free_from(&full);
    full.take(room.start..room.end - free);
    full.count();
    full
}

#[test]
fn a_new_card_with_any_room_is_set_up_or_refused_and_is_sound() {
    let needed = 2048;
    for free in (0..4).chain(needed - 3..needed + 4) {
        let full = filled(&with_hazel(FAT16), free);
        let lost = full.check(true);
        let slot = Slot::with(&full);
        let ended = switched_on(&slot, &[Key::Ok], |_| {});
        // One more than the journal has, for a folder that must grow.
        let expected = match free > needed {
            true => Ended::Off,
            false => Ended::NotKept(NotKept::Card(CardFault::Full)),
        };
        assert_eq!(ended, expected, "{free} clusters");
        assert_eq!(slot.ours().check(true), lost, "{free} clusters");
        let has_journal = slot.ours().files().contains_key("BOLTBAY JNL");
        assert_eq!(has_journal, free > needed);
    }
}

#[test]
fn a_plan_that_finds_no_room_is_said_to_be_old_and_the_card_is_sound() {
    for format in [FAT16, FAT32] {
        let card = in_work(format);
        let cluster = format.blocks_a_cluster * 512;
        let room = FILE_BYTES / cluster;
        let (mut old, mut written) = (0, 0);
        for free in (0..2 * room).step_by(room as usize / 16) {
            let full = filled(&card, free);
            let lost = full.check(true);
            let slot = Slot::with(&full);
            let ended = switched_on(&slot, &[], |crew| {
                for press in presses(DRILLED) {
                    crew.press(press);
                    assert!(!crew.is_told(), "{}", crew.words());
                }
                match crew.view().status.left == pages::PLAN_IS_OLD {
                    true => old += 1,
                    false => written += 1,
                }
            });
            assert_eq!(ended, Ended::Off);
            assert_eq!(slot.ours().check(true), lost, "{free} clusters");
        }
        assert!(old > 10 && written > 0, "{old}, {written}");
    }
}

#[test]
fn a_hole_near_the_front_is_passed_over() {
    for format in [FAT16, FAT32] {
        let mut card = with_hazel(format);
        // One file here and there, free clusters between them.
        card.take((30..300).step_by(3));
        card.count();
        let slot = Slot::with(&card);
        assert_eq!(switched_on(&slot, &[Key::Ok], |_| {}), Ended::Off);
        let journal = slot.ours().files()["BOLTBAY JNL"].clusters.clone();
        assert!(journal.windows(2).all(|pair| pair[0] + 1 == pair[1]));
        assert!(journal[0] > 297);
        slot.ours().check(true);
    }
}

#[test]
fn room_in_pieces_only_is_no_room() {
    let mut card = with_hazel(FAT16);
    card.take((100..4200).step_by(2000));
    let slot = Slot::with(&card);
    let pieces = Ended::NotKept(NotKept::Card(CardFault::InPieces));
    assert_eq!(switched_on(&slot, &[], |_| {}), pieces);
    assert!(slot.ours() == card, "nothing is written");
}

#[test]
fn a_file_of_our_name_that_is_not_ours_is_not_written_over() {
    let bytes = vec![0xA5; 8 << 20];
    let clusters: Vec<u32> = (20..20 + 2048).collect();
    let short = CardFault::TooShort;
    for (bytes, why) in [
        (&bytes[..4096 * 7], NotKept::Card(short)),
        (&bytes[..], NotKept::Journal(Fault::Damaged)),
    ] {
        let mut card = with_hazel(FAT16);
        let clusters = &clusters[..bytes.len().div_ceil(4096)];
        card.put_file(b"BOLTBAY JNL", bytes, clusters);
        let slot = Slot::with(&card);
        assert_eq!(switched_on(&slot, &[], |_| {}), Ended::NotKept(why));
        assert!(slot.ours() == card, "nothing is written");
    }
}

#[test]
fn a_folder_of_the_journals_name_is_told_and_left_alone() {
    let mut card = with_hazel(FAT16);
    card.put_folder(b"BOLTBAY JNL", 100);
    let slot = Slot::with(&card);
    let folder = NotKept::Card(CardFault::IsFolder);
    assert_eq!(switched_on(&slot, &[], |_| {}), Ended::NotKept(folder));
    assert_eq!(folder.on_screen()[0], "BOLTBAY.JNL: A FOLDER");
    assert!(slot.ours() == card, "nothing is written");
}

#[test]
fn a_folder_of_a_plans_name_is_told_and_left_alone() {
    for (format, name) in [(FAT16, b"PLAN02  TXT"), (FAT32, b"PLAN02  CSV")] {
        let mut card = in_work(format);
        card.put_folder(name, format.clusters - 1);
        card.count();
        let slot = Slot::with(&card);
        let ended = switched_on(&slot, &[], |crew| {
            for press in presses(DRILLED) {
                crew.press(press);
                assert!(!crew.is_told(), "{}", crew.words());
            }
            assert_eq!(crew.view().status.left, pages::PLAN_IS_FOLDER);
        });
        assert_eq!(ended, Ended::Off);
        let name = std::str::from_utf8(name).unwrap();
        let kept = slot.ours().files().remove(name);
        assert!(kept == card.files().remove(name), "the folder is there");
        assert_eq!(slot.ours().check(true), 0);
    }
}

/// Job cards that are listed are files.
#[test]
fn a_folder_of_a_job_cards_name_is_not_listed() {
    let mut card = Card::formatted(FAT16);
    card.put_folder(b"HAZEL   CSV", 100);
    let slot = Slot::with(&card);
    // No list is shown, so no key is asked for.
    assert_eq!(switched_on(&slot, &[], |_| {}), Ended::Off);
}

#[test]
fn a_root_folder_without_room_grows_or_is_refused() {
    for (format, refused) in [(FAT16, true), (FAT32, false)] {
        let mut card = with_hazel(format);
        let entries = if format.bits == 16 { 512 } else { 16 };
        for number in 1..entries {
            card.put_file(
                format!("F{number:07}BIN").as_bytes().try_into().unwrap(),
                &[],
                &[],
            );
        }
        let slot = Slot::with(&card);
        let ended = switched_on(&slot, &[Key::Ok], |_| {});
        let fault = Ended::NotKept(NotKept::Card(CardFault::FolderFull));
        assert_eq!(ended, if refused { fault } else { Ended::Off });
        assert_eq!(slot.ours().check(true), 0);
        slot.ours().check_by_tool();
    }
}

#[test]
fn a_file_has_room_for_twice_the_longest_plan() {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo-data");
    let mut longest = 0;
    for entry in std::fs::read_dir(demo).unwrap() {
        let mut memory = Box::new(Memory::new());
        let card = std::fs::read(entry.unwrap().path()).unwrap();
        if boltbay_core::card::read(&card, &mut memory.job).is_ok() {
            let mut handheld = Handheld::new(&mut memory);
            let (mut text, mut csv) = (String::new(), String::new());
            handheld.write_text(&mut text).unwrap();
            handheld.write_csv(&mut csv).unwrap();
            longest = longest.max(text.len()).max(csv.len());
        }
    }
    assert!(longest > 1000, "{longest}");
    assert!(longest * 2 < FILE_BYTES as usize, "{longest}");
}
