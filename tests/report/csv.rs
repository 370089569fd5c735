//! Holes as CSV against the same holes as JSON.

use super::host::{boltbay, boltbay_fed, demo_cards};
use serde_json::Value;

fn table(text: &str) -> Vec<Vec<String>> {
    let body = text.strip_suffix("\r\n").expect("records end with CRLF");
    body.split("\r\n")
        .map(|line| line.split(',').map(str::to_owned).collect())
        .collect()
}

/// Inches in one unit of the card.
fn unit(units: &Value) -> f64 {
    if units == "metric" { 1.0 / 25.4 } else { 1.0 }
}

#[test]
fn holes_are_those_of_the_plan() {
    for card in demo_cards() {
        let run = |format: &str| {
            boltbay([
                "plan".as_ref(),
                card.as_os_str(),
                "--format".as_ref(),
                format.as_ref(),
            ])
        };
        let value: Value = serde_json::from_str(&run("json").stdout).expect("JSON");
        let ran = run("csv");
        let table = table(&ran.stdout);
        let stations = value["placement"]["stations"].as_array().expect("stations");
        let holes: Vec<&Value> = stations
            .iter()
            .flat_map(|s| s["holes"].as_array().expect("holes"))
            .collect();
        assert_eq!(table.len(), 1 + holes.len(), "{}", card.display());
        for (record, hole) in table.iter().skip(1).zip(holes) {
            assert_eq!(record.len(), table[0].len());
            let at: f64 = record[4].parse().expect("a number");
            let want = hole["at_in"].as_f64().expect("a number");
            assert!(
                (at * unit(&value["units"]) - want).abs() < 1e-6,
                "{record:?}"
            );
            assert_eq!(record[2].to_lowercase(), hole["row"].as_str().expect("row"));
            assert_eq!(record[3], hole["state"].as_str().expect("state"));
        }
    }
}

#[test]
fn numbers_are_plain_and_exact() {
    let card = super::host::SMALL.replace("W10x33,96\n", "W10x33,96\nlattice,1/64\n");
    let ran = boltbay_fed(["plan", "-", "--format", "csv"], card.as_bytes());
    assert_eq!(ran.code, 0, "{}", ran.stderr);
    for record in table(&ran.stdout).iter().skip(1) {
        let at: f64 = record[4].parse().expect("a number");
        let from_b: f64 = record[5].parse().expect("a number");
        assert_eq!(at + from_b, 96.0, "{record:?}");
        assert_eq!((at * 64.0).fract(), 0.0, "{record:?}");
    }
}

#[test]
fn a_name_with_a_comma_is_quoted() {
    let card = super::host::SMALL.to_owned() + "obstacle,both,44,46,solid,stays,\"vent, 4 in\"\n";
    let ran = boltbay_fed(["plan", "-", "--format", "csv"], card.as_bytes());
    assert!(ran.stdout.contains(",\"vent, 4 in\","), "{}", ran.stdout);
}

#[test]
fn without_holes_only_the_header_is_left() {
    let ran = boltbay_fed(
        ["plan", "-", "--format", "csv"],
        b"boltbay,1\nunits,metric\n",
    );
    assert_eq!(table(&ran.stdout).len(), 1);
    assert!(ran.stdout.starts_with("plan,mark,row,state,from_end_a_mm,"));
}
