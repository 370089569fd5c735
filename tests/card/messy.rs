//! Cards as spreadsheets and phones save them, and in chunks of any size.

use super::dice::Dice;
use super::jobs::job;
use super::{read, written};
use boltbay_core::card::{CardError, CardReader};
use boltbay_core::words::Units;
use boltbay_core::{Job, card};
use proptest::prelude::*;

/// Reads bytes in chunks of the sizes that `sizes` gives.
pub fn in_chunks(bytes: &[u8], mut size: impl FnMut() -> usize) -> Result<Job, CardError> {
    let mut job = Job::new(Units::Imperial);
    let mut reader = CardReader::new();
    let mut rest = bytes;
    while !rest.is_empty() {
        let (chunk, behind) = rest.split_at(size().clamp(1, rest.len()));
        reader.feed(chunk, &mut job)?;
        rest = behind;
    }
    reader.finish(&mut job)?;
    Ok(job)
}

/// What a program may do to a card without changing what it says.
fn messed_up(text: &str, dice: &mut Dice) -> Vec<u8> {
    let mut out = Vec::new();
    if dice.from(0, 1) == 1 {
        out.extend(b"\xEF\xBB\xBF");
    }
    let end = ["\n", "\r\n", "\r"][dice.from(0, 2) as usize];
    let pad = dice.from(0, 30) as usize;
    for line in text.lines() {
        match dice.from(0, 9) {
            0 => out.extend(format!(",,, ,{end}").bytes()),
            1 => out.extend(
                format!("\"# a remark, in quotes {}\"{end}", "and long ".repeat(90)).bytes(),
            ),
            2 => out.extend(end.bytes()),
            // A remark ends with the line on any machine; a quote in it is no quote.
            3 => out.extend(format!("  # said: 14' 3\", no more{end}").bytes()),
            _ => {}
        }
        out.extend(messed_up_row(line, dice).bytes());
        out.extend(",".repeat(pad).bytes());
        out.extend(end.bytes());
    }
    out
}

/// One row: fields in quotes or with blanks, kinds in capitals, curly marks.
fn messed_up_row(line: &str, dice: &mut Dice) -> String {
    // Rows with quoted fields are left alone: their commas are no separators.
    if line.contains('"') {
        return line.to_string();
    }
    let fields = line.split(',').enumerate().map(|(place, field)| {
        let field = match dice.from(0, 2) {
            0 if place == 0 => field.to_uppercase(),
            1 if place > 0 => field.replace('\'', "\u{2019}").replace(' ', "\u{A0}"),
            _ => field.to_string(),
        };
        match dice.from(0, 3) {
            0 => format!("\"{field}\""),
            1 => format!(" {field}\t"),
            2 => format!(" \"{field} \" "),
            _ => field,
        }
    });
    fields.collect::<Vec<_>>().join(",")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn a_messy_card_says_the_same(seed in any::<u64>(), mess in any::<u64>()) {
        let job = job(seed);
        let dice = &mut Dice(mess);
        let bytes = messed_up(&written(&job), dice);
        let text = String::from_utf8_lossy(&bytes);
        let mut back = Job::new(Units::Imperial);
        card::read(&bytes, &mut back).map_err(|error| TestCaseError::fail(format!("{error}\n{text}")))?;
        prop_assert_eq!(&back, &job, "{}", text);
        // And the same in chunks: a byte at a time, or any sizes.
        prop_assert_eq!(&in_chunks(&bytes, || 1), &Ok(job.clone()));
        prop_assert_eq!(&in_chunks(&bytes, || dice.from(1, 50) as usize), &Ok(job));
    }
}

/// A card with all of it at once, by hand.
#[test]
fn a_card_from_a_spreadsheet() {
    let bytes = "\u{FEFF}BOLTBAY,1,,,\r\n,,,,\r\n\"Units\", Metric ,,,\r\n#remark, \"open quote\r\n\
        JOB,\"Bob\u{2019}s \u{201C}hall\u{201D} \u{2013} 2\",,,\r\n\r\nbeam,\"w250\u{D7}49.1\",\"7315 mm\",,\r\nclear, 22\u{2032} 6 \u{BD}\u{2033} ,,,\r\n";
    let job = read(bytes).unwrap();
    assert_eq!(job.name, "Bob's \"hall\" - 2");
    assert_eq!(job.units, Units::Metric);
    // 22 ft 6 1/2 in = 270 1/2 in.
    assert_eq!(
        job.clear,
        Some(boltbay_core::Length::from_sixteenths(270 * 16 + 8))
    );
}

/// The row of an error is the line of the file on which the row starts.
#[test]
fn rows_are_counted_as_the_file_has_them() {
    for (text, row) in [
        ("boltbay,1\nunits,imperial\nclear,x\n", 3),
        ("boltbay,1\r\nunits,imperial\r\nclear,x\r\n", 3),
        ("boltbay,1\runits,imperial\rclear,x\r", 3),
        ("boltbay,1\r\runits,imperial\n\r\nclear,x", 5),
        ("\n\nboltbay,1\n# \"\n\nunits,imperial\n \nclear,x", 8),
        // A line end inside quotes is a line of the file.
        (
            "boltbay,1\nunits,imperial\n\"# one\ntwo\r\nthree\"\nclear,x\n",
            6,
        ),
        ("boltbay,1\nunits,imperial\nclear,\"x\n\n\"\ngap,1\n", 3),
    ] {
        let error = read(text).unwrap_err();
        assert_eq!(error.row, row, "{text:?}: {error}");
        assert_eq!(in_chunks(text.as_bytes(), || 1), Err(error));
    }
}

/// Sides may be painted after they are named; hangers, runs and supports too.
#[test]
fn rows_in_any_order() {
    let job = read(
        "boltbay,1\nunits,imperial\npost,P,900\nwasher,W,2,round\noverride,E,1\nwasher,E,3,round\n\
         obstacle,W,10,20,solid,stays\npacking,1,2,E\nload,line,1,1,,,W\ntape,E,end A,,near\njoist,9,,second\n\
         floor,W,9\ncount,E,1\noutstand,W,4\nstand,W,left\nsquare,W,A,1\nsides,E,W\n\
         hanger,first\nhanger,second\nsupport,P,12',6,6,steel\ntape,E,end A,,near\n",
    )
    .unwrap();
    // Painted E, W: E is the first side, though W was met first.
    use boltbay_core::job::{HangerRef, loads::LoadSide};
    use boltbay_core::words::{Side, Sides};
    assert_eq!(job.sides, *b"EW");
    assert!(job.runs.iter().all(|run| run.side == Side::N));
    assert_eq!(
        [job.runs[0].overridden, job.runs[1].overridden],
        [true, false]
    );
    assert_eq!(
        job.washers.map(|washer| washer.unwrap().size.as_inches()),
        [3.0, 2.0]
    );
    assert_eq!(job.keepouts[0].sides, Sides::One(Side::S));
    assert_eq!(job.packing[0].sides, Sides::One(Side::N));
    assert_eq!(job.loads[0].side, LoadSide::On(Side::S));
    assert!(job.floors[1].is_some() && job.floors[0].is_none());
    assert_eq!(job.counts, [Some(1), None]);
    assert_eq!(job.outstands[1].len(), 1);
    assert_eq!(
        (job.stand.unwrap().side, job.squares[0].side),
        (Side::S, Side::S)
    );
    assert_eq!(job.joists[0].hanger, HangerRef::Row(1));
    // Half named before, half after.
    let job =
        read("boltbay,1\nunits,imperial\nwasher,W,2,round\nsides,E,W\nwasher,E,3,round\n").unwrap();
    assert_eq!(
        job.washers.map(|washer| washer.unwrap().size.as_inches()),
        [3.0, 2.0]
    );
    let job = read("boltbay,1\nunits,imperial\nwasher,S,2,round\nwasher,N,3,round\n").unwrap();
    assert_eq!(
        job.washers.map(|washer| washer.unwrap().size.as_inches()),
        [3.0, 2.0]
    );
}
