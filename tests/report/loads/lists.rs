//! The checks as a foreman reads them: order, units before ratios, no word and no
//! sign of approval.

use super::{demo_text, json_of, named, number};
use crate::report::host::boltbay_fed;
use serde_json::Value;

fn text_of(card: &str) -> String {
    boltbay_fed(["plan", "-"], card.as_bytes()).stdout
}

#[test]
fn questions_stand_in_the_order_of_the_foreman() {
    let headings = [
        "WILL IT GO IN",
        "DO THE ENDS SIT",
        "DOES ANYTHING LIFT",
        "DOES THE STEEL CARRY IT",
        "DOES THE PACKING HOLD",
        "DO THE BOLTS HOLD",
        "WILL THE NAILS REACH",
        "WILL THE FLOOR BE FLUSH",
    ];
    for start in ["10", "11"] {
        let text = text_of(&demo_text(start));
        let places: Vec<usize> = headings
            .iter()
            .map(|heading| {
                text.find(&format!("\n{heading}"))
                    .unwrap_or_else(|| panic!("{start}: {heading} in\n{text}"))
            })
            .collect();
        assert!(places.is_sorted(), "{start}: {places:?}");
    }
}

#[test]
fn a_list_approves_nothing() {
    for start in ["10", "11"] {
        let text = text_of(&demo_text(start)).to_lowercase();
        for word in text.split(|c: char| !c.is_alphanumeric()) {
            for never in ["safe", "passes", "passed", "approved", "ok", "adequate"] {
                assert_ne!(word, never, "{start}");
            }
        }
        assert!(text.contains("cross-checks against the engineer's drawing"));
    }
}

/// Every check of the JSON stands on the list with demand and capacity, and OVER
/// stands there as often as a check is over.
#[test]
fn the_list_holds_every_check() {
    for start in ["10", "11"] {
        let card = demo_text(start);
        let (text, (_, value)) = (text_of(&card), json_of(&card));
        let checks = value["checks"].as_array().expect("checks");
        for check in checks {
            let name = check["name"].as_str().expect("a name");
            assert!(text.contains(&format!("\n  {name}\n")), "{start}: {name}");
            for key in ["source", "covers", "where", "unit"] {
                assert!(!check[key].as_str().expect("text").is_empty(), "{check}");
            }
            let over = check["ok"] == false;
            if let Some(capacity) = check["capacity"].as_f64() {
                let demand = number(check, "demand");
                assert_eq!(over, demand > capacity * (1.0 + 1e-9), "{check}");
            } else {
                assert_eq!(
                    (&check["ok"], &check["ratio"]),
                    (&Value::Null, &Value::Null)
                );
            }
        }
        let over = checks.iter().filter(|c| c["ok"] == false).count();
        assert_eq!(text.matches("  OVER\n").count(), over, "{start}");
        let said = match over {
            1 => "!!! 1 check is over its limit".to_owned(),
            _ => format!("!!! {over} checks are over their limit"),
        };
        assert!(text.contains(&said), "{start}: {said}");
    }
}

/// What lacks a row is named, and is neither passed nor missing.
#[test]
fn what_is_not_on_the_card_is_not_checked() {
    let card = demo_text("11");
    let (_, value) = json_of(&card);
    let not = value["checks_not_made"].as_array().expect("a list");
    let flange = not
        .iter()
        .find(|not| not["name"] == "packing on the bottom flange");
    let flange = flange.expect("the card does not say that the packing is seated");
    assert_eq!(flange["why"], "not on the card: seated");
    assert_eq!(value["missing"], Value::Array(Vec::new()));
    let (_, seated) = json_of(&format!("{card}seated,yes\n"));
    assert_eq!(named(&seated, "packing on the bottom flange").len(), 2);
}

/// Source: NIST SP 811: 1 lbf = 4.4482216 N, 1 in = 25.4 mm. The same beam keyed
/// in both units: figures of the JSON agree, the list shows kN, MPa, mm.
#[test]
fn metric_cards_show_metric_figures() {
    let metric = "boltbay,1\nunits,metric\nbeam,W250x38.5,4500\nwall,A,100\nwall,B,100\n\
        clear,4300\nsupport,A,,,200,concrete\nsupport,B,,,200,concrete\n\
        load,line,3,8\npocket,A,250,300,200\npocket,B,150,300,200\n";
    let text = text_of(metric);
    for unit in [" kN", " MPa", " kN m", " mm", "3 mm, reactions"] {
        // Two supports feel no settlement.
        let wanted = unit != "3 mm, reactions";
        assert_eq!(text.contains(unit), wanted, "{unit} in\n{text}");
    }
    for unit in [" lb\n", " lb-ft", " lb "] {
        assert!(!text.contains(unit), "{unit} in\n{text}");
    }
    let (_, value) = json_of(metric);
    // Half of (3 + 8) kN/m x 4.3 m, and of 38.5 kg/m of steel (26 lb/ft) x 4.5 m.
    let newtons = 11_000.0 * 4.3 / 2.0;
    let steel_lb = 26.0 * 4_500.0 / 304.8 / 2.0;
    let wanted = newtons / 4.448_221_615_260_5 + steel_lb;
    let found = number(&value["reactions"][0], "max_lb");
    assert!((found - wanted).abs() < 1e-6 * wanted, "{found} {wanted}");
}

/// The gap that is keyed reaches the checks: the wider, the less a bolt carries, as
/// the equations of AWC TR12 have it.
#[test]
fn a_gap_to_the_web_costs() {
    let card = demo_text("11");
    let capacity = |row: &str| {
        let (_, value) = json_of(&format!("{card}{row}"));
        let checks = named(&value, "bolt against its nearest hangers");
        number(checks[0], "capacity")
    };
    let tight = capacity("");
    assert_eq!(capacity("standoff,0\n"), tight);
    let (near, far) = (capacity("standoff,1/16\n"), capacity("standoff,1/4\n"));
    assert!(tight >= near && near > far, "{tight} {near} {far}");
}
