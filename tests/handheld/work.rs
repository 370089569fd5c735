//! Packing, rods, checks, cautions and the rule, each as its screens show it.

use super::crew::Crew;
use super::glass::golden;
use super::walk::demo;
use boltbay_handheld::Key;

fn to(crew: &mut Crew, step: &str, line: &str) {
    crew.open(step);
    crew.open(line);
}

#[test]
fn the_rule_is_said_back() {
    for (card, name) in [
        ("01-larch-new-framing.csv", "rule"),
        ("06-mistral-metric.csv", "rule-metric"),
    ] {
        let mut memory = demo(card);
        let mut crew = Crew::new(&mut memory);
        to(&mut crew, "PLAN", "RULE SAID BACK");
        golden(name, &crew.view());
    }
}

#[test]
fn cautions_are_read_page_by_page() {
    let mut memory = demo("03-rowan-old-doubles.csv");
    let mut crew = Crew::new(&mut memory);
    to(&mut crew, "PLAN", "LOOK FIRST");
    golden("cautions", &crew.view());
    crew.tap(Key::Down);
    golden("cautions-2", &crew.view());
}

#[test]
fn layers_of_both_sides() {
    for (card, name) in [
        ("01-larch-new-framing.csv", "pack"),
        ("06-mistral-metric.csv", "pack-metric"),
    ] {
        let mut memory = demo(card);
        let mut crew = Crew::new(&mut memory);
        to(&mut crew, "PACK", "LAYERS");
        golden(&format!("{name}-sum"), &crew.view());
        crew.tap(Key::Right);
        golden(&format!("{name}-layers"), &crew.view());
        crew.tap(Key::Right);
        golden(&format!("{name}-rip"), &crew.view());
        crew.tap(Key::Down);
        golden(&format!("{name}-rip-other"), &crew.view());
    }
}

#[test]
fn rods_sticks_and_what_to_buy() {
    for (card, name) in [
        ("01-larch-new-framing.csv", "rods"),
        ("06-mistral-metric.csv", "rods-metric"),
        ("04-drizzle-stair.csv", "rods-stair"),
    ] {
        let mut memory = demo(card);
        let mut crew = Crew::new(&mut memory);
        to(&mut crew, "BOLT", "RODS AND CUTS");
        let mut last = None;
        for number in 1..8 {
            let view = crew.view();
            if last.as_ref() == Some(&view) {
                break;
            }
            golden(&format!("{name}-{number}"), &view);
            last = Some(view);
            crew.tap(Key::Down);
        }
    }
}

#[test]
fn the_foremans_questions_in_his_order() {
    let mut memory = demo("10-juniper-short-back-span.csv");
    let mut crew = Crew::new(&mut memory);
    golden("home-lifts", &crew.view());
    to(&mut crew, "SET", "CHECKS");
    for number in 1..=8 {
        golden(&format!("checks-{number}"), &crew.view());
        crew.tap(Key::Ok);
    }
    assert_eq!(crew.view().screen, "form");
}

#[test]
fn what_is_not_there_yet_is_said() {
    let mut memory = demo("01-larch-new-framing.csv");
    memory.job.layers.clear();
    memory.job.sticks.clear();
    memory.job.spacing = None;
    let mut crew = Crew::new(&mut memory);
    to(&mut crew, "PACK", "LAYERS");
    golden("pack-none", &crew.view());
    crew.taps(Key::Left, 2);
    to(&mut crew, "BOLT", "RODS AND CUTS");
    golden("rods-none", &crew.view());
    crew.taps(Key::Left, 2);
    to(&mut crew, "PLAN", "RULE SAID BACK");
    golden("rule-none", &crew.view());
    crew.tap(Key::Left);
    crew.open("PLAN, WAYS OUT");
    golden("plan-needs", &crew.view());
}
