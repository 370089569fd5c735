//! Whatever the bytes are: an answer, the same one in any chunks, and an end.

use super::dice::Dice;
use super::jobs::job;
use super::messy::in_chunks;
use super::written;
use boltbay_core::Job;
use boltbay_core::card::{self, CardReader, Kind};
use boltbay_core::words::Units;
use proptest::prelude::*;

/// The same answer however the bytes come; an error with a sentence in it.
fn judge(bytes: &[u8], dice: &mut Dice) -> Result<(), TestCaseError> {
    let mut job = Job::new(Units::Imperial);
    let whole = card::read(bytes, &mut job).map(|()| job);
    prop_assert_eq!(&in_chunks(bytes, || 1), &whole);
    prop_assert_eq!(&in_chunks(bytes, || dice.from(1, 9) as usize), &whole);
    match whole {
        Ok(job) => {
            let mut back = Job::new(Units::Imperial);
            let text = written(&job);
            prop_assert_eq!(card::read(text.as_bytes(), &mut back), Ok(()), "{}", text);
            prop_assert_eq!(back, job);
        }
        Err(error) => {
            let lines = bytes
                .iter()
                .filter(|byte| matches!(byte, b'\n' | b'\r'))
                .count() as u32;
            prop_assert!(error.row >= 1 && error.row <= lines + 1);
            let text = error.to_string();
            let (place, reason) = text.split_once(": ").expect("place: reason");
            prop_assert!(place.starts_with("row ") && reason.len() > 10, "{}", text);
            prop_assert!(text.lines().count() == 1, "{}", text);
        }
    }
    Ok(())
}

/// A field that some row might take, or not.
fn field() -> impl Strategy<Value = String> {
    prop_oneof![
        "[0-9]{1,3}",
        "[0-9]{1,2}' [0-9]{1,2} 1/[248]",
        "[0-9]{1,2} (wall|end) [ABab]",
        "-?[0-9]{1,4}(\\.[0-9]{1,3})?(mm)?",
        "N|S|W|both|A|B|top|bot|near|far|centre|yes|no|one|each|every|row|single|paired",
        "solid|access|sheet|stays|rides|round|turns|area|line|point|wood|custom|W10x33",
        "\\PC{0,10}",
        "",
    ]
}

/// Rows of a known kind with such fields.
fn rows() -> impl Strategy<Value = String> {
    let kind = prop::sample::select(Kind::ALL.to_vec());
    let row = (kind, prop::collection::vec(field(), 0..8))
        .prop_map(|(kind, fields)| format!("{},{}", kind.word(), fields.join(",")));
    prop::collection::vec(row, 0..4)
        .prop_map(|rows| format!("boltbay,1\nunits,imperial\n{}\n", rows.join("\n")))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: if cfg!(feature = "soak") { 50_000 } else { 3_000 }, ..ProptestConfig::default() })]

    #[test]
    fn arbitrary_bytes(bytes in prop::collection::vec(any::<u8>(), 0..300), seed in any::<u64>()) {
        judge(&bytes, &mut Dice(seed))?;
    }

    #[test]
    fn arbitrary_bytes_behind_a_good_head(bytes in prop::collection::vec(any::<u8>(), 0..300), seed in any::<u64>()) {
        let mut card = b"boltbay,1\nunits,metric\n".to_vec();
        card.extend(bytes);
        judge(&card, &mut Dice(seed))?;
    }

    /// Bytes that matter to the CSV part.
    #[test]
    fn arbitrary_quotes(text in "[\"#,\r\n \t1nN'\u{FEFF}]{0,60}", seed in any::<u64>()) {
        judge(format!("boltbay,1\n{text}").as_bytes(), &mut Dice(seed))?;
        judge(text.as_bytes(), &mut Dice(seed))?;
    }

    #[test]
    fn arbitrary_rows(text in rows(), seed in any::<u64>()) {
        judge(text.as_bytes(), &mut Dice(seed))?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// A good card with a few bytes changed, dropped or doubled.
    #[test]
    fn a_damaged_card(seed in any::<u64>(), hits in 1_i64..4) {
        let mut dice = Dice(seed);
        let mut bytes = written(&job(seed)).into_bytes();
        for _ in 0..hits {
            let at = dice.from(0, bytes.len() as i64 - 1) as usize;
            match dice.from(0, 2) {
                0 => bytes[at] = dice.from(0, 255) as u8,
                1 => drop(bytes.remove(at)),
                _ => bytes.insert(at, bytes[at]),
            }
        }
        judge(&bytes, &mut dice)?;
    }
}

/// An error is told again, and nothing is read behind it.
#[test]
fn an_error_stays() {
    let mut job = Job::new(Units::Imperial);
    let mut reader = CardReader::new();
    let first = reader.feed(b"boltbay,2\n", &mut job).unwrap_err();
    assert_eq!(
        reader.feed(b"units,imperial\n", &mut job),
        Err(first.clone())
    );
    assert_eq!(reader.finish(&mut job), Err(first));
}

/// Memory is bounded by types; time by the bytes: endless rows end at a limit.
#[test]
fn long_files_end() {
    let mut job = Job::new(Units::Imperial);
    for text in [
        "x",
        "\"",
        ",",
        " ",
        "#",
        "\n",
        "\"#",
        "\"\n",
        "boltbay,1,",
        "\u{FEFF}",
    ] {
        let bytes = text.repeat(300_000);
        let whole = card::read(bytes.as_bytes(), &mut job);
        assert!(whole.is_err(), "{text:?}");
    }
    let remark = format!("#{}\nboltbay,1\nunits,imperial\n", "long ".repeat(100_000));
    assert_eq!(card::read(remark.as_bytes(), &mut job), Ok(()));
}

/// The reader is as poor as the board: what it keeps beside the job is small.
#[test]
fn the_reader_is_small() {
    assert!(
        size_of::<CardReader>() <= 3 * 1024,
        "{}",
        size_of::<CardReader>()
    );
    assert!(
        size_of::<card::CardError>() <= 128,
        "{}",
        size_of::<card::CardError>()
    );
}
