//! Every figure that a foreman or a program is owed is shown: each span under
//! three loadings, near lift, bearing lengths, what a row lacks, nails.

use super::super::host::boltbay_fed;
use super::{demo_text, json_of, near, number, on_supports};
use serde_json::Value;

/// A support that holds by little: spans of 10 and 4.5 ft.
const NEARLY: &str = "boltbay,1\nunits,imperial\nbeam,W8x18,14' 6\n\
    support,P,0,4,6,steel\nsupport,Q,10' 0,4,6,steel\nsupport,R,14' 6,4,6,steel\n\
    load,line,300,24\n";

fn text_of(card: &str) -> String {
    boltbay_fed(["plan", "-"], card.as_bytes()).stdout
}

#[track_caller]
fn says(text: &str, words: &str) {
    let plain: Vec<&str> = text.split_whitespace().collect();
    assert!(plain.join(" ").contains(words), "{words} is not in\n{text}");
}

/// Source: AISC Manual Table 3-23, continuous beam of two equal spans, 1 kip/ft
/// on 12 and 12 ft: 9/128 w L2 = 10,125 lb-ft, 1/8 w L2 = 18,000 lb-ft, shear
/// 0.375 w L = 4,500 lb and 0.625 w L = 7,500 lb.
#[test]
fn every_span_has_its_moments_and_shears() {
    let card = on_supports("24' 0", &["0", "12' 0", "24' 0"], 1_000);
    let (_, value) = json_of(&card);
    let spans = value["spans"].as_array().expect("spans");
    assert_eq!(spans.len(), 2);
    for loading in ["dead", "all", "worst"] {
        for (span, shears) in spans.iter().zip([[-7_500.0, 4_500.0], [-4_500.0, 7_500.0]]) {
            let pair = |key: String| [0, 1].map(|i| span[&key][i].as_f64().expect("a number"));
            let [least, most] = pair(format!("moment_{loading}_ftlb"));
            near(most, 10_125.0, 1e-6, "sagging");
            near(least, -18_000.0, 1e-6, "hogging");
            let [least, most] = pair(format!("shear_{loading}_lb"));
            near(least, shears[0], 1e-6, "shear");
            near(most, shears[1], 1e-6, "shear");
        }
    }
    let text = text_of(&card);
    let three = |what: &str| [what; 3].join(" ");
    let top = format!("moment, top pressed {}", three("10125 lb-ft"));
    let bottom = format!("moment, bottom pressed {}", three("18000 lb-ft"));
    let shear = format!("shear {}", three("7500 lb"));
    for words in [top, bottom, shear] {
        says(&text, &words);
    }
    near(
        number(&value["self_weight"], "steel_lb"),
        432.0,
        1e-6,
        "W8X18",
    );
}

/// Source: three-moment equation: of a load on both spans the short end takes
/// w (2.25 - 1091.125 / 116 / 4.5) = 0.159722 w, of one on the long span
/// -1000 w / 116 / 4.5 = -1.915709 w. So 318 plf of dead load and 24 plf of live
/// load leave 4.81 lb, 0.6 x 300 + 18 plf of dead load -14.35 lb.
#[test]
fn what_nearly_lifts_is_shown() {
    let (code, value) = json_of(NEARLY);
    assert_eq!(code, 0, "near lift is a caution");
    let last = &value["reactions"][2];
    near(number(last, "min_lb"), 4.814, 0.001, "R");
    near(
        number(last, "min_with_0_6_dead_lb"),
        -14.352,
        0.001,
        "0.6 dead",
    );
    assert_eq!(last["near_uplift"], true);
    assert_eq!(last["min_with"], "live load on span 1");
    let text = text_of(NEARLY);
    says(&text, "4 lb NEAR LIFT");
    says(
        &text,
        "NEAR LIFT at R: least 4 lb, with 0.6 of the keyed dead load -15 lb",
    );
}

/// Source: AISC Manual Eq. 14-1, W8X18 with 12,000 lb on 4 in: 0.3898 in where
/// 0.330 in are there, so 4 x (0.3898 / 0.330)^2 = 5.58 in; TMS 402, 495 psi on
/// 5.25 in: 4.62 in; AISC 360-22 J10.2: k design, 0.630 in, is enough.
#[test]
fn each_bearing_says_what_length_it_asks_for() {
    let card = "boltbay,1\nunits,imperial\nbeam,W8x18,10' 0\nwall,A,4\nwall,B,4\nclear,9' 4\n\
        support,A,,,8,masonry\nsupport,B,,,8,masonry\nload,point,5' 0,23820,0,top\n";
    let (_, value) = json_of(card);
    let checks = value["checks"].as_array().expect("checks");
    for (name, length) in [
        ("bearing stress on masonry", "4 5/8\""),
        ("flange thickness over the bearing", "5 5/8\""),
        ("web yielding over the bearing", "11/16\""),
    ] {
        let check = checks.iter().find(|check| check["name"] == name);
        let needs = check.expect(name)["needs"].as_str().expect("a length");
        let said = format!("it would take a bearing of {length}");
        assert!(needs.starts_with(&said), "{name}: {needs}");
    }
    let said = "Longest bearing that a check here asks for: A 5 5/8\", B 5 5/8\".";
    says(&text_of(card), said);
}

/// A row that is there and lacks a figure is not called missing.
#[test]
fn a_row_that_lacks_a_field_says_which() {
    let (_, value) = json_of(&demo_text("06"));
    let not = value["checks_not_made"].as_array().expect("a list");
    let hanger = not.iter().find(|not| not["name"] == "hanger load");
    let why = &hanger.expect("no rated load is keyed")["why"];
    assert_eq!(*why, Value::from("row hanger has no RATED LOAD"));
}

/// The sheet has what the list has.
#[test]
fn the_sheet_shows_spans_and_nails() {
    let folder = std::env::temp_dir();
    let path = folder.join(format!("shown-{}.svg", std::process::id()));
    let file = path.to_str().expect("a path");
    let ran = boltbay_fed(["sheet", "-", "-o", file], demo_text("10").as_bytes());
    assert_eq!(ran.code, 1, "{}", ran.stderr);
    let drawn = std::fs::read_to_string(&path).expect("a sheet");
    std::fs::remove_file(&path).expect("it was there");
    for words in [
        "MOMENT, SHEAR, SAG",
        "moment, bottom pressed",
        "Self-weight counted",
        "hanger nails 1 1/2",
        "Longest bearing that a check",
    ] {
        assert!(drawn.contains(words), "{words}");
    }
}
