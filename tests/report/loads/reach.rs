//! Every kind of check and every caution about loads is reached from a card.

use super::{demo_text, json_of};
use serde_json::Value;
use std::collections::BTreeSet;

/// A wood post that is keyed, block with a keyed stress, and a hung side alone.
const POST: &str = "boltbay,1\nunits,imperial\nbeam,W8x18,16' 0\nwall,A,4\n\
    support,A,,,8,masonry,150\nsupport,POST,15' 6,5 1/2,5 1/2,wood\npost,POST,9000,8000\n\
    load,area,10,40,6' 0\n";

/// An overhang as long as a third of the beam, live load on it.
const OVERHANG: &str = "boltbay,1\nunits,imperial\nbeam,W8x18,16' 0\n\
    support,P,4' 0,4,6,steel\nsupport,Q,9' 0,4,6,steel\nload,line,60,300\n";

/// A support that holds by little: spans of 10 and 4.5 ft.
const NEARLY: &str = "boltbay,1\nunits,imperial\nbeam,W8x18,14' 6\n\
    support,P,0,4,6,steel\nsupport,Q,10' 0,4,6,steel\nsupport,R,14' 6,4,6,steel\n\
    load,line,300,24\n";

/// A load past the end of the steel once the beam is shifted.
const PAST: &str = "boltbay,1\nunits,imperial\nbeam,W8x18,10' 0\n\
    support,P,2' 0,4,6,steel\nsupport,Q,8' 0,4,6,steel\nload,line,60,300,3,9' 11\nplaced,6\n";

fn cards() -> Vec<String> {
    let mut cards: Vec<String> = [POST, OVERHANG, NEARLY, PAST].map(str::to_owned).to_vec();
    cards.extend(["10", "11"].map(demo_text));
    // The stress that the engineer gives for the walls of the uplift card.
    cards.push(demo_text("10").replace(",8,concrete", ",8,concrete,800"));
    // Nails that keep a part of their value.
    cards.push(demo_text("11").replace("hanger 10d,3,", "hanger 10d,1 1/4,"));
    cards
}

fn all(key: &str, of: impl Fn(&Value) -> String) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for card in cards() {
        let (code, value) = json_of(&card);
        assert!(code < 2, "{card}");
        let list = value[key].as_array();
        let list = list.unwrap_or_else(|| panic!("no {key} in {value}\n{card}"));
        found.extend(list.iter().map(&of));
    }
    found
}

#[test]
fn every_kind_of_check() {
    let found = all("checks", |check| check["name"].as_str().unwrap().to_owned());
    let mut wanted = BTreeSet::new();
    for kind in crate::checks::kinds() {
        wanted.insert(kind.name().to_owned());
    }
    let missed: Vec<&String> = wanted.difference(&found).collect();
    assert!(missed.is_empty(), "no card makes {missed:?}");
}

/// Each caution that must exist, by the words it begins with.
#[test]
fn every_caution_about_loads_and_work() {
    let said = all("cautions", |caution| caution.as_str().unwrap().to_owned());
    for start in [
        "LIFT at",
        "NEAR LIFT at",
        "The overhang at",
        "Load 1",
        "A load on the card names no side",
        "The card says nothing about packing",
        "Marks nearer to the bearing",
        "End A sits in a pocket",
        "Support A is masonry",
        "Packing and wood keep clear of masonry",
        "Treated packing",
        "Torch, welder and grinder",
        "Nail hanger 10d goes less",
        "Shores on both sides",
    ] {
        assert!(
            said.iter().any(|caution| caution.starts_with(start)),
            "{start} among {said:#?}"
        );
    }
}
