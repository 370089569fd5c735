//! Packing, rods, checks, cautions and the rule, each as its screens show it.

use super::crew::Crew;
use super::glass::golden;
use super::walk::demo;
use boltbay_core::Length;
use boltbay_core::job::{BARS_CUT, BarsCut, Job, StickSource};
use boltbay_core::shapes::Section;
use boltbay_core::words::Units;
use boltbay_handheld::Key;
use boltbay_handheld::edit::{BYTES, Edit, Refused, apply};
use boltbay_handheld::field::List;

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
        golden(&format!("{name}-section"), &crew.view());
        crew.tap(Key::Down);
        golden(&format!("{name}-section-other"), &crew.view());
        crew.taps(Key::Down, 1);
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

/// Steps on to the page of this screen.
fn leaf(crew: &mut Crew, screen: &str) {
    for _ in 0..40 {
        if crew.view().screen == screen {
            return;
        }
        crew.tap(Key::Down);
    }
    panic!("no page {screen}");
}

#[test]
fn bars_are_ticked_off_one_by_one() {
    let mut memory = demo("01-larch-new-framing.csv");
    // Short bars, so that many are cut alike.
    memory.job.sticks.truncate(1);
    memory.job.sticks[0].length = Length::from_inches(36);
    memory.job.sticks[0].count = None;
    memory.job.sticks[0].source = StickSource::Rod;
    let mut crew = Crew::new(&mut memory);
    to(&mut crew, "BOLT", "RODS AND CUTS");
    leaf(&mut crew, "stick");
    let bars = crew.handheld.plan().rods().unwrap().sticks[0].count;
    assert!(bars > 1, "the demo job cuts several bars alike");
    crew.tap(Key::Ok);
    golden("stick-ticked", &crew.view());
    assert_eq!(crew.job().bars_cut[0].bars, 1);
    // A slip of the thumb is taken back, and a second time changes nothing.
    crew.hold(Key::Right, 1);
    assert!(crew.job().bars_cut.is_empty());
    crew.tap(Key::Ok);
    for _ in 1..bars {
        crew.tap(Key::Ok);
    }
    assert_ne!(
        crew.view().screen,
        "pieces",
        "after the last bar it goes on"
    );
    crew.tap(Key::Up);
    golden("stick-all-ticked", &crew.view());
    crew.tap(Key::Ok);
    assert_eq!(
        u32::from(crew.job().bars_cut[0].bars),
        bars,
        "no more than there are"
    );
}

#[test]
fn a_tick_goes_with_its_cut_list() {
    let mut memory = demo("01-larch-new-framing.csv");
    let mut crew = Crew::new(&mut memory);
    to(&mut crew, "BOLT", "RODS AND CUTS");
    leaf(&mut crew, "stick");
    crew.tap(Key::Ok);
    crew.taps(Key::Left, 2);
    // Rods stand out further: every length changes, and with it every list.
    let before = crew.job().projection;
    crew.open("BOLT");
    crew.open("PAST THE NUT");
    crew.hold(Key::Right, 1);
    crew.tap(Key::Ok);
    assert_ne!(crew.job().projection, before);
    crew.to("RODS AND CUTS");
    crew.tap(Key::Ok);
    golden("cuts-gone", &crew.view());
    crew.tap(Key::Ok);
    assert!(crew.job().bars_cut.is_empty());
    assert_ne!(crew.view().screen, "cuts-gone");
    leaf(&mut crew, "stick");
    assert!(
        crew.view().status.right.starts_with("0/"),
        "{:?}",
        crew.view()
    );
}

/// Ticks survive their bytes and come back with the job.
#[test]
fn ticks_are_kept_like_any_edit() {
    let cut = |bars| {
        Edit::BarsCut(BarsCut {
            list: "K7FQ2M".try_into().unwrap(),
            bars,
        })
    };
    let mut job = Job::new(Units::Imperial);
    assert_eq!(apply(&mut job, &cut(0)), Err(Refused::Unfit));
    for bars in [1, 2, 700, 0, 3] {
        let mut bytes = [0; BYTES];
        let length = cut(bars).write(&mut bytes).unwrap();
        let (read, _) = Edit::read(&bytes[..length]).unwrap();
        assert_eq!(read, cut(bars));
        apply(&mut job, &read).unwrap();
        assert_eq!(job.bars_cut.first().map_or(0, |cut| cut.bars), bars);
    }
    for number in 1..BARS_CUT {
        let list = format!("L{number}").as_str().try_into().unwrap();
        apply(&mut job, &Edit::BarsCut(BarsCut { list, bars: 1 })).unwrap();
    }
    let list = "ONE MORE".try_into().unwrap();
    let full = apply(&mut job, &Edit::BarsCut(BarsCut { list, bars: 1 }));
    assert_eq!(full, Err(Refused::Full(List::Sticks, 12)));
}

/// Thicknesses, rip heights and the steel are all drawn to one scale, to a pixel.
#[test]
fn the_section_is_to_scale() {
    for card in [
        "01-larch-new-framing.csv",
        "03-rowan-old-doubles.csv",
        "06-mistral-metric.csv",
    ] {
        let mut memory = demo(card);
        let mut crew = Crew::new(&mut memory);
        to(&mut crew, "PACK", "LAYERS");
        crew.tap(Key::Right);
        let section = crew.view().section.unwrap();
        let steel = Section::of(crew.job()).unwrap();
        let scale = f64::from(section[0].size.0) / f64::from(steel.width().counts());
        let as_drawn = |pixels: u8, length: Length, gap: f64| {
            let wanted = f64::from(length.counts()) * scale;
            assert!(
                (f64::from(pixels) + gap - wanted).abs() <= 1.6,
                "{card}: {pixels}, {wanted}"
            );
        };
        let high = u16::from(section[1].at.1 + section[1].size.1 - section[0].at.1);
        as_drawn(u8::try_from(high).unwrap(), steel.depth(), 0.0);
        let layers: Vec<_> = section[3..].iter().collect();
        let stacks = crew.handheld.plan().packing.iter().flatten();
        let wanted: Vec<_> = stacks.flat_map(|stack| &stack.layers).collect();
        assert_eq!(layers.len(), wanted.len());
        for (layer, wanted) in layers.into_iter().zip(wanted) {
            // One column of each is the dark line beside it.
            as_drawn(layer.size.0, wanted.thickness, 1.0);
            as_drawn(layer.size.1, wanted.rip.unwrap(), 0.0);
        }
    }
}
