//! The demo cards: what each shows, and that nothing of them is lost.

use super::host::{boltbay, demo, demo_cards, job, made_of, name_of};
use boltbay_core::card;
use boltbay_core::job::HoleState;
use boltbay_core::placement::{InsertFrom, Verdict};
use boltbay_core::words::Side;
use std::fs;
use std::time::{Duration, Instant};

/// Exit code of `plan` for each card: not answered are the one that cannot be
/// done as drawn, the one that lifts, and the one that does not go in.
const CODES: [(&str, u8); 11] = [
    ("01-larch-new-framing", 0),
    ("02-squall-lapped-joists", 0),
    ("03-rowan-old-doubles", 0),
    ("04-drizzle-stair", 0),
    ("05-sycamore-post", 0),
    ("06-mistral-metric", 0),
    ("07-hail-impossible", 1),
    ("08-hail-way-out", 0),
    ("09-hazel-half-drilled", 0),
    ("10-juniper-short-back-span", 1),
    ("11-sleet-shallow-pocket", 1),
];

fn text(start: &str) -> String {
    fs::read_to_string(demo(start)).expect("a demo card")
}

#[test]
fn every_card_gives_its_exit_code_in_time() {
    let names: Vec<String> = demo_cards().iter().map(|card| name_of(card)).collect();
    assert_eq!(names, CODES.map(|(name, _)| name));
    for (card, (name, code)) in demo_cards().iter().zip(CODES) {
        let start = Instant::now();
        let ran = boltbay(["plan".as_ref(), card.as_os_str()]);
        assert_eq!(ran.code, code, "{name}: {}{}", ran.stdout, ran.stderr);
        assert!(
            start.elapsed() < Duration::from_secs(2),
            "{name} takes too long"
        );
    }
}

#[test]
fn every_card_survives_being_read_and_written() {
    for card in demo_cards() {
        let before = job(&fs::read_to_string(&card).expect("a demo card"));
        let mut written = String::new();
        card::write(&before, &mut written).expect("a string takes all");
        let after = job(&written);
        assert!(before == after, "{} changed:\n{written}", card.display());
    }
}

#[test]
fn the_stair_lets_rods_in_from_one_side_only() {
    let made = made_of(job(&text("04")));
    let placement = made.plan.placement().expect("a plan");
    let only_n =
        |hole: &&boltbay_core::placement::PlacedHole| hole.insert_from == InsertFrom::Side(Side::N);
    assert!(placement.holes.iter().filter(only_n).count() >= 2);
}

#[test]
fn the_post_has_a_pair_on_each_side_within_a_foot() {
    let made = made_of(job(&text("05")));
    let placement = made.plan.placement().expect("a plan");
    // The card: near,14' 10 3/4,12,each,paired
    let post = 14.0 * 12.0 + 10.75;
    let near = |from: f64, to: f64| {
        let inside = |at: f64| from <= at && at <= to;
        let holes = placement.holes.iter();
        holes.filter(|hole| inside(hole.at.as_inches())).count()
    };
    assert!(near(post - 12.0, post) >= 2 && near(post, post + 12.0) >= 2);
}

#[test]
fn the_way_out_is_one_that_the_impossible_card_was_told() {
    let made = made_of(job(&text("07")));
    let placement = made.plan.placement().expect("an answer");
    assert!(!placement.feasible && placement.blocked.len() == 1);
    let mut told = String::new();
    for way in &placement.blocked[0].ways_out {
        let _ = made.report().change(way.change, &mut told);
        told.push('\n');
    }
    assert!(told.contains("a hanger without flanges at N5"), "{told}");
    let after = made_of(job(&text("08")));
    assert!(after.plan.placement().expect("a plan").feasible);
}

#[test]
fn the_half_drilled_beam_keeps_every_hole_where_it_is() {
    let made = made_of(job(&text("09")));
    let placement = made.plan.placement().expect("a plan");
    let frame = made.plan.frame.expect("a beam");
    let drilled = made
        .job
        .holes
        .iter()
        .filter(|hole| hole.state == HoleState::Drilled);
    for hole in drilled {
        let at = frame.station(hole.at()).expect("on the steel");
        let found = placement
            .holes
            .iter()
            .find(|placed| placed.at == at && placed.row == hole.row);
        let verdict = found.and_then(|placed| placed.verdict());
        assert_eq!(verdict, Some(Verdict::Fits), "hole at {at:?}");
    }
    assert!(placement.struck_out.is_empty());
}
