//! The note said back: whole sentences, so that a change of words is seen.

use super::{inches, millimetres, noted, sixteenths, spacing};
use boltbay_core::Job;
use boltbay_core::job::{Hook, Near, Pattern, Position, Reach, SpacingBasis};
use boltbay_core::length::Length;
use boltbay_core::rule::Rule;
use boltbay_core::words::Units;

fn said(job: &Job) -> String {
    Rule::of(job).unwrap().said(job).to_string()
}

#[test]
fn a_plain_note() {
    assert_eq!(
        said(&noted()),
        "a bolt every 16 in or less, rows take turns, laid out at 15 7/8 in or less to keep \
         1/8 in in hand; never closer than 2 1/2 in (usual); a bolt first and last, 2 in to \
         9 in from the packing ends; washers clear by 1/4 in (usual)"
    );
}

#[test]
fn each_row_with_pairs() {
    let mut job = noted();
    let mut keyed = spacing(inches(32), SpacingBasis::Row);
    keyed.hold_back = Some(Length::ZERO);
    keyed.minimum = Some(inches(3));
    job.spacing = Some(keyed);
    job.ends.as_mut().unwrap().paired = Some(true);
    job.gap = Some(sixteenths(6));
    let near = Near {
        at: Position {
            reading: sixteenths(100 * 16 + 4),
            hook: Hook::WallA,
        },
        within: inches(12),
        reach: Reach::Each,
        paired: true,
        name: "POST".try_into().unwrap(),
    };
    job.nears.push(near).unwrap();
    assert_eq!(
        said(&job),
        "each row every 32 in or less, rows take turns: a bolt every 16 in or less; never \
         closer than 3 in; a pair first and last, 2 in to 9 in from the packing ends; a pair \
         within 12 in of POST, 8' 4 1/4\" from wall A, on each side of it; washers clear by \
         3/8 in"
    );
}

#[test]
fn metric_and_the_other_patterns() {
    let mut job = noted();
    job.units = Units::Metric;
    job.bolt.as_mut().unwrap().diameter = millimetres(12);
    job.spacing = Some(spacing(millimetres(450), SpacingBasis::Every));
    let ends = job.ends.as_mut().unwrap();
    ends.least = millimetres(50);
    ends.most = millimetres(200);
    job.pattern = Some(Pattern::Paired);
    assert_eq!(
        said(&job),
        "a pair, one in each row, every 450 mm or less, laid out at 447 mm or less to keep \
         3 mm in hand; never closer than 60 mm (usual); a pair first and last, 50 mm to \
         200 mm from the packing ends; washers clear by 6 mm (usual)"
    );
    job.pattern = Some(Pattern::Single);
    assert!(said(&job).starts_with("a bolt every 450 mm or less, all in row TOP, "));
    // A spacing for each row means the same where there is only one.
    job.spacing = Some(spacing(millimetres(450), SpacingBasis::Row));
    assert!(said(&job).starts_with("a bolt every 450 mm or less, all in row TOP, "));
}

#[test]
fn a_point_without_a_name_is_said_by_its_place() {
    let mut job = noted();
    let near = Near {
        at: Position {
            reading: inches(90),
            hook: Hook::EndB,
        },
        within: inches(6),
        reach: Reach::One,
        paired: false,
        name: "".try_into().unwrap(),
    };
    job.nears.push(near).unwrap();
    assert!(said(&job).contains("; a bolt within 6 in of 7' 6\" from end B; "));
}

/// No words of the code, and what no tape shows is still exact.
#[test]
fn crew_words_only() {
    let mut job = noted();
    job.spacing = Some(spacing(millimetres(400), SpacingBasis::Every));
    let text = said(&job);
    assert!(text.starts_with("a bolt every 400 mm or less"), "{text}");
    for word in ["station", "window", "cover", "chain", "s_max", "safe"] {
        assert!(!text.contains(word), "{word}");
    }
}
