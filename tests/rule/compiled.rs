//! The note compiled: spacing, ends, what is missing.

use super::{PATTERNS, inches, millimetres, noted, sixteenths, spacing};
use boltbay_core::Job;
use boltbay_core::job::{Pattern, SpacingBasis};
use boltbay_core::length::Length;
use boltbay_core::rule::{Rule, asks_for_pairs, greatest_spacing};
use boltbay_core::words::Units;

#[test]
fn a_note_with_defaults() {
    let rule = Rule::of(&noted()).unwrap();
    // 16 in less 1/8; 5D = 2 1/2.
    assert_eq!(rule.s_max, sixteenths(16 * 16 - 2));
    assert_eq!(rule.s_min, sixteenths(40));
    assert_eq!([rule.e_min, rule.e_max], [inches(2), inches(9)]);
    assert!(!rule.ends_paired);
    assert_eq!(rule.pattern, Pattern::Staggered);
    assert_eq!(rule.gap, sixteenths(4));
    assert_eq!(rule.step, sixteenths(1));
    assert_eq!(rule.wanted, sixteenths(8));
    assert_eq!(rule.diameter, sixteenths(8));
}

#[test]
fn metric_defaults_are_their_own_figures() {
    let mut job = noted();
    job.units = Units::Metric;
    job.spacing = Some(spacing(millimetres(400), SpacingBasis::Every));
    job.bolt.as_mut().unwrap().diameter = millimetres(12);
    let rule = Rule::of(&job).unwrap();
    assert_eq!(rule.s_max, millimetres(397));
    assert_eq!(rule.s_min, millimetres(60));
    assert_eq!(rule.gap, millimetres(6));
    assert_eq!(rule.step, millimetres(1));
    assert_eq!(rule.wanted, millimetres(12));
}

#[test]
fn what_is_keyed_stands() {
    let mut job = noted();
    let mut keyed = spacing(inches(24), SpacingBasis::Every);
    keyed.hold_back = Some(Length::ZERO);
    keyed.minimum = Some(inches(4));
    job.spacing = Some(keyed);
    job.gap = Some(Length::ZERO);
    job.ends.as_mut().unwrap().paired = Some(true);
    let rule = Rule::of(&job).unwrap();
    assert_eq!([rule.s_min, rule.s_max], [inches(4), inches(24)]);
    assert_eq!(rule.gap, Length::ZERO);
    assert!(rule.ends_paired);
}

#[test]
fn spacing_of_each_row_is_halved_only_where_rows_take_turns() {
    let mut job = noted();
    job.spacing = Some(spacing(inches(32), SpacingBasis::Row));
    for pattern in PATTERNS {
        job.pattern = Some(pattern);
        let apart = if pattern == Pattern::Staggered {
            16
        } else {
            32
        };
        let wanted = sixteenths(apart * 16 - 2);
        assert_eq!(greatest_spacing(&job), Some(wanted), "{pattern:?}");
    }
    // An odd count is halved down.
    job.pattern = None;
    let odd = Length::from_counts(inches(32).counts() + 1);
    job.spacing = Some(spacing(odd, SpacingBasis::Row));
    assert_eq!(greatest_spacing(&job), Some(sixteenths(16 * 16 - 2)));
}

#[test]
fn what_only_the_engineer_can_give_is_named() {
    let empty = Job::new(Units::Imperial);
    let all: Vec<&str> = Rule::of(&empty).unwrap_err().into_iter().collect();
    assert_eq!(all, ["bolt", "spacing", "ends"]);
    let mut job = noted();
    job.spacing = None;
    assert_eq!(Rule::of(&job).unwrap_err(), ["spacing"]);
    assert_eq!(greatest_spacing(&job), None);
}

#[test]
fn pairs_are_asked_for_by_pattern_ends_or_near() {
    let mut job = noted();
    assert!(!asks_for_pairs(&job));
    job.ends.as_mut().unwrap().paired = Some(true);
    assert!(asks_for_pairs(&job));
    job.ends = None;
    job.pattern = Some(Pattern::Paired);
    assert!(asks_for_pairs(&job));
}
