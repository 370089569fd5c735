//! The JSON that programs outside the project rely on: names, types, nulls.

use super::host::{SMALL, boltbay, boltbay_fed, demo, demo_cards, made};
use boltbay_core::length::Length;
use serde_json::Value;

fn json_of(card: &str) -> (u8, Value) {
    let ran = boltbay_fed(["plan", "-", "--format", "json"], card.as_bytes());
    let value = serde_json::from_str(&ran.stdout);
    (
        ran.code,
        value.unwrap_or_else(|e| panic!("{e}: {}", ran.stdout)),
    )
}

fn json_of_demo(start: &str) -> Value {
    let card = demo(start);
    let args = [
        "plan".as_ref(),
        card.as_os_str(),
        "--format".as_ref(),
        "json".as_ref(),
    ];
    serde_json::from_str(&boltbay(args).stdout).expect("JSON")
}

fn keys(value: &Value) -> Vec<&str> {
    let object = value
        .as_object()
        .unwrap_or_else(|| panic!("no object: {value}"));
    object.keys().map(String::as_str).collect()
}

/// Every name of a list is a key of the object.
fn has_keys(value: &Value, names: &str) {
    let keys = keys(value);
    for name in names.split_whitespace() {
        assert!(keys.contains(&name), "{name} is not among {keys:?}");
    }
}

fn items<'a>(value: &'a Value, key: &str) -> &'a [Value] {
    value[key]
        .as_array()
        .unwrap_or_else(|| panic!("{key} is no list in {value}"))
}

const TOP: &str = "job units code rule missing joists runs windows placement row_heights_in
    packing rods reactions moments deflection settlement loads_refused way_in checks
    checks_not_made cautions";

#[test]
fn every_plan_has_the_same_names() {
    for card in demo_cards() {
        let args = [
            "plan".as_ref(),
            card.as_os_str(),
            "--format".as_ref(),
            "json".as_ref(),
        ];
        let value: Value = serde_json::from_str(&boltbay(args).stdout).expect("JSON");
        has_keys(&value, TOP);
        for joist in items(&value, "joists") {
            has_keys(joist, "side n centre_in thickness_in hanger");
        }
        for run in items(&value, "runs") {
            has_keys(run, "side run misclosure_in tolerance_in ok");
        }
        has_keys(&value["windows"], "top bot");
        has_keys(&value["row_heights_in"], "top bot");
        placement_has_its_names(&value["placement"]);
        for side in items(&value, "packing") {
            has_keys(
                side,
                "side target_in feasible layers total_in miss_in error_in error_dry_in",
            );
            for layer in items(side, "layers") {
                has_keys(layer, "name thickness_in rip_in");
            }
        }
    }
}

fn placement_has_its_names(placement: &Value) {
    has_keys(
        placement,
        "feasible count_stations count_holes play_in largest_spacing_in struck_out stations blocked",
    );
    for station in items(placement, "stations") {
        has_keys(station, "n station_in holes insert_from");
        for hole in items(station, "holes") {
            has_keys(hole, "row at_in state gap_in nearest verdict");
        }
    }
    for blocked in items(placement, "blocked") {
        has_keys(blocked, "kind from_in to_in limit_in excess_in by ways_out");
        for way in items(blocked, "ways_out") {
            has_keys(way, "what count_stations play_in");
        }
    }
}

#[test]
fn a_feasible_plan_counts_what_it_lists() {
    let (code, value) = json_of(SMALL);
    assert_eq!(code, 0, "{value}");
    let placement = &value["placement"];
    let stations = items(placement, "stations");
    let holes: usize = stations.iter().map(|s| items(s, "holes").len()).sum();
    assert_eq!(placement["count_stations"], stations.len());
    assert_eq!(placement["count_holes"], holes);
    assert_eq!(placement["blocked"], Value::Array(Vec::new()));
    let numbers: Vec<u64> = stations
        .iter()
        .map(|s| s["n"].as_u64().expect("n"))
        .collect();
    assert_eq!(numbers, (1..=stations.len() as u64).collect::<Vec<_>>());
    let places: Vec<f64> = stations
        .iter()
        .map(|s| s["station_in"].as_f64().expect("station_in"))
        .collect();
    assert!(places.is_sorted(), "{places:?}");
    assert_eq!(value["code"].as_str().map(str::len), Some(4));
}

#[test]
fn lengths_are_exact_in_sixty_fourths_whatever_the_units() {
    // 25.4 mm to the inch: 30 1/64 in and 762 mm + 1/64 in are the same place.
    let card = SMALL.replace("joist,30\n", "joist,30 1/64\n");
    let (_, value) = json_of(&card);
    // Near edge at 30 1/64, 1 1/2 in thick: centre at 30 49/64.
    assert_eq!(value["joists"][0]["centre_in"], 30.0 + 49.0 / 64.0);
    assert_eq!(value["joists"][0]["thickness_in"], 1.5);
    let metric = SMALL
        .replace("imperial", "metric")
        .replace("W10x33,96", "W250x49.1,2400")
        .replace("joist,30\n", "joist,762\n")
        .replace("joist,60\n", "joist,1524\n")
        .replace("joist,32\n", "joist,813\n")
        .replace("joist,62\n", "joist,1575\n")
        .replace("check,96", "check,2400")
        .replace("face,1 1/4", "face,32")
        .replace("bolt,1/2", "bolt,12")
        .replace("spacing,24", "spacing,600")
        .replace("ends,2,9", "ends,50,225");
    let (_, value) = json_of(&metric);
    // 762 mm + 19 mm = 781 mm.
    let centre = value["joists"][0]["centre_in"].as_f64().expect("a number");
    assert!((centre - 781.0 / 25.4).abs() < 1e-12, "{centre}");
    assert_eq!(value["units"], "metric");
}

#[test]
fn what_was_not_asked_is_null() {
    let card = "boltbay,1\nunits,imperial\ntape,N,end A,,near\njoist,12\njoist,28\ncheck,40,40\n";
    let (code, value) = json_of(card);
    assert_eq!(code, 0, "{value}");
    assert_eq!(items(&value, "joists").len(), 2);
    assert_eq!(items(&value, "runs").len(), 1);
    let nulls = "code rule windows placement row_heights_in packing rods reactions moments
        deflection checks";
    for name in nulls.split_whitespace() {
        assert_eq!(value[name], Value::Null, "{name}");
    }
    assert_eq!(value["missing"], Value::Array(Vec::new()));
}

#[test]
fn what_is_asked_and_lacks_a_row_is_null_and_named() {
    let card = "boltbay,1\nunits,imperial\nbeam,W10x33,96\nbolt,1/2\n";
    let (code, value) = json_of(card);
    assert_eq!(code, 1);
    assert_eq!(value["placement"], Value::Null);
    assert_eq!(value["missing"], serde_json::json!(["spacing", "ends"]));
}

#[test]
fn loads_without_supports_lack_them_and_the_holes_do_not_mind() {
    let card = format!("{SMALL}load,line,100,200\n");
    let (code, value) = json_of(&card);
    assert_eq!(code, 1);
    assert_eq!(value["missing"], serde_json::json!(["support"]));
    for name in ["reactions", "moments", "deflection", "checks"] {
        assert_eq!(value[name], Value::Null, "{name}");
    }
    assert_eq!(value["placement"]["feasible"], true, "the rest is answered");
}

#[test]
fn a_run_out_of_tolerance_stops_the_holes_until_it_is_overridden() {
    let bad = SMALL.replacen("check,96,0 end B", "check,96 1/2,0 end B", 1);
    let (code, value) = json_of(&bad);
    assert_eq!((code, &value["placement"]), (1, &Value::Null));
    assert_eq!(value["missing"], serde_json::json!(["run N1"]));
    let run = &value["runs"][0];
    assert_eq!(run["ok"], false);
    assert_eq!(run["misclosure_in"], 0.5);
    // 8 ft from hook to point: 1/8 in (NIST HB 44 class of tapes; practice).
    assert_eq!(run["tolerance_in"], 0.125);
    let (code, value) = json_of(&format!("{bad}override,N,1\n"));
    assert_eq!(code, 0, "{value}");
    assert_eq!(value["runs"][0]["ok"], false);
    assert_eq!(value["runs"][0]["overridden"], true);
}

#[test]
fn no_plan_lists_what_blocks_and_counts_nothing() {
    let placement = &json_of_demo("07")["placement"];
    assert_eq!(placement["feasible"], false);
    for name in [
        "count_stations",
        "count_holes",
        "play_in",
        "largest_spacing_in",
    ] {
        assert_eq!(placement[name], Value::Null, "{name}");
    }
    assert!(!items(placement, "blocked").is_empty());
    assert_eq!(placement["stations"], Value::Array(Vec::new()));
    assert_eq!(placement["struck_out"], Value::Array(Vec::new()));
}

#[test]
fn a_hole_off_its_mark_is_judged_and_keeps_the_code() {
    let value = json_of_demo("09");
    let stations = items(&value["placement"], "stations");
    let holes: Vec<&Value> = stations.iter().flat_map(|s| items(s, "holes")).collect();
    // Keyed at 4' 8 7/8", its mark at 4' 8 1/2".
    let off = holes
        .iter()
        .find(|hole| hole["at_in"] == 56.875)
        .expect("the hole");
    assert_eq!(
        (&off["state"], &off["row"]),
        (&"drilled".into(), &"bot".into())
    );
    assert_eq!(off["verdict"], "FITS");
    let marked = holes.iter().filter(|hole| hole["state"] == "marked");
    assert!(marked.clone().count() > 0 && marked.clone().all(|h| h["verdict"].is_null()));
}

#[test]
fn joists_count_from_end_a_on_each_side() {
    let made = made(SMALL);
    let (_, value) = json_of(SMALL);
    let joists = items(&value, "joists");
    assert_eq!(joists.len(), made.plan.joists.len());
    let named: Vec<String> = joists
        .iter()
        .map(|j| format!("{}{}", j["side"].as_str().expect("side"), j["n"]))
        .collect();
    assert_eq!(named, ["N1", "N2", "S1", "S2"]);
    assert!(joists.iter().all(|j| j["hanger"] == "face"));
    assert_eq!(Length::from_inches(1).as_inches(), 1.0);
}
