//! Bugs on purpose: each must be caught by the same cuts that the journal
//! survives, or the cuts prove nothing.

use super::card::Quirk;
use super::crew::Ledger;
use super::cuts::{Care, cut_everywhere};
use super::sessions;

fn caught(quirk: Quirk) {
    let care = Care { tear: 96, skip: 3 };
    let outcome = cut_everywhere::<Ledger>(quirk, &sessions::ledger(), care);
    let how = outcome.expect_err("a bug that no cut catches");
    assert!(!how.is_empty());
}

#[test]
fn writing_both_regions_at_once_is_caught() {
    caught(Quirk::BothAtOnce);
}

#[test]
fn two_regions_in_one_neighbourhood_are_caught() {
    caught(Quirk::OneRegion);
}

#[test]
fn writing_over_the_newest_record_is_caught() {
    caught(Quirk::SameBlock);
}

#[test]
fn accepting_a_key_before_it_is_on_the_card_is_caught() {
    caught(Quirk::Forgetful);
}
