//! The plan code against a bitwise CRC-32C written here.
//!
//! Source of the check value: RFC 3720 appendix B.4 (32 bytes of nought give
//! the CRC bytes aa 36 91 8a).

use super::host::{SMALL, made};
use boltbay_core::Length;
use boltbay_core::code::{Coded, CodedHoles};
use boltbay_core::words::Row;

/// CRC-32C bit by bit: reflected polynomial 0x82F63B78, all ones in and out.
fn crc32c(bytes: &[u8]) -> u32 {
    let mut crc = u32::MAX;
    for byte in bytes {
        crc ^= u32::from(*byte);
        for _ in 0..8 {
            crc = (crc >> 1) ^ (0x82F6_3B78 * (crc & 1));
        }
    }
    !crc
}

fn four_letters(text: &str) -> String {
    let alphabet: Vec<char> = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ".chars().collect();
    let low = crc32c(text.as_bytes()) & 0xF_FFFF;
    (0..4)
        .map(|place| alphabet[(low >> (15 - 5 * place)) as usize & 31])
        .collect()
}

fn coded() -> Coded {
    Coded {
        length: Length::from_inches(100),
        sides: *b"NS",
        lattice: Length::from_sixteenths(1),
        diameter: Length::from_sixteenths(8),
        web_hole: Length::from_sixteenths(9),
        wood_hole: Length::from_sixteenths(9),
    }
}

/// Holes from inches and rows.
fn holes(list: &[(i32, Row)]) -> CodedHoles {
    list.iter()
        .map(|(at, row)| (Length::from_inches(*at), *row))
        .collect()
}

#[test]
fn the_twin_meets_the_published_check_value() {
    let bytes = crc32c(&[0; 32]).to_le_bytes();
    assert_eq!(bytes, [0xAA, 0x36, 0x91, 0x8A]);
}

#[test]
fn the_code_is_the_crc_of_the_stated_text() {
    // 1 in = 1,016,000 counts of 25 nm; 1/2 in = 508,000; 9/16 in = 571,500.
    let text = "101600000;N;S;63500;12192000,top;28448000,top;28448000,bot;508000,571500,571500";
    let mut list = holes(&[(12, Row::Top), (28, Row::Bot), (28, Row::Top)]);
    assert_eq!(coded().code(&mut list).as_str(), four_letters(text));
}

#[test]
fn a_plan_without_holes_has_a_code_too() {
    let text = "101600000;N;S;63500;508000,571500,571500";
    assert_eq!(
        coded().code(&mut CodedHoles::new()).as_str(),
        four_letters(text)
    );
}

#[test]
fn whatever_matters_changes_the_code() {
    let list = [(12, Row::Top), (28, Row::Bot)];
    let code = |coded: Coded, list: &[(i32, Row)]| coded.code(&mut holes(list)).to_string();
    let usual = code(coded(), &list);
    let mut others = vec![
        code(coded(), &[(12, Row::Bot), (28, Row::Bot)]),
        code(coded(), &[(13, Row::Top), (28, Row::Bot)]),
        code(coded(), &list[..1]),
    ];
    let changes: [fn(&mut Coded) -> &mut Length; 5] = [
        |coded| &mut coded.length,
        |coded| &mut coded.lattice,
        |coded| &mut coded.diameter,
        |coded| &mut coded.web_hole,
        |coded| &mut coded.wood_hole,
    ];
    for change in changes {
        let mut changed = coded();
        let length = change(&mut changed);
        *length = length.saturating_add(Length::from_counts(1));
        others.push(code(changed, &list));
    }
    others.push(code(
        Coded {
            sides: *b"EW",
            ..coded()
        },
        &list,
    ));
    assert!(
        others.iter().all(|other| *other != usual),
        "{usual} {others:?}"
    );
}

/// The holes of the small job as rows of a card, in order from end A.
fn rows_of_plan() -> Vec<(String, &'static str)> {
    let made = made(SMALL);
    let placement = made.plan.placement().expect("a plan");
    let at = |length: Length| made.report().length_cell(length).replace('"', "");
    let row = |hole: &boltbay_core::placement::PlacedHole| (at(hole.at), hole.row.word());
    placement.holes.iter().map(row).collect()
}

fn code_with(rows: &str) -> String {
    let card = format!("{SMALL}{rows}");
    let made = made(&card);
    made.plan.code.as_deref().expect("a plan").to_owned()
}

#[test]
fn marking_and_drilling_what_the_plan_says_changes_no_code() {
    let usual = code_with("");
    let rows = rows_of_plan();
    let marked: String = rows
        .iter()
        .map(|(at, row)| format!("marked,{at},{row}\n"))
        .collect();
    assert_eq!(code_with(&marked), usual);
    let drilled = marked.replace("marked", "drilled");
    assert_eq!(code_with(&drilled), usual);
    let half = marked.replacen("marked", "drilled", 2);
    assert_eq!(code_with(&half), usual);
}

#[test]
fn a_hole_off_its_mark_is_coded_at_the_mark_while_that_stands() {
    let usual = code_with("");
    let rows = rows_of_plan();
    let marked: String = rows
        .iter()
        .map(|(at, row)| format!("marked,{at},{row}\n"))
        .collect();
    let (at, row) = &rows[1];
    let off = format!("drilled,{},{row}\n", nudged(at));
    assert_eq!(code_with(&format!("{marked}{off}")), usual);
    let mark = format!("marked,{at},{row}\n");
    assert_ne!(
        code_with(&format!("{}{off}", marked.replace(&mark, ""))),
        usual
    );
}

/// A reading with a fraction, 1/64 in farther on.
fn nudged(at: &str) -> String {
    let units = boltbay_core::words::Units::Imperial;
    let length = boltbay_core::Length::read(at, units).expect("a length");
    let nudged = length.saturating_add(Length::from_sixty_fourths(1));
    nudged.shown(units).to_string().replace('"', "")
}
