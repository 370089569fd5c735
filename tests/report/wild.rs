//! Outputs of generated jobs: nothing panics, nothing overlaps, the same holes
//! stand in every format.

use super::host::{Made, made_of};
use crate::judges::generator::{Size, generate};
use boltbay::sheet::Sheet;
use boltbay_core::placement::Windows;
use serde_json::Value;
use std::sync::OnceLock;

/// Jobs in `cargo test`; ten times as many with feature `soak`.
const JOBS: u64 = if cfg!(feature = "soak") { 400 } else { 40 };

/// A job with its plan and where bolts may stand.
struct Wild {
    seed: u64,
    made: Made,
    free: Option<Box<Windows>>,
}

impl Wild {
    fn new(seed: u64) -> Self {
        let mut made = made_of(Box::new(generate(seed, Size::Any).job));
        let free = made.plan.free_stretches(&made.job, &mut made.scratch);
        let free = free.cloned().map(Box::new);
        Wild { seed, made, free }
    }
}

/// Planned once for all tests of this file.
fn jobs() -> &'static [Wild] {
    static WILD: OnceLock<Vec<Wild>> = OnceLock::new();
    WILD.get_or_init(|| (0..JOBS).map(Wild::new).collect())
}

#[test]
fn sheets_of_any_job_keep_their_texts_apart() {
    for Wild { seed, made, free } in jobs() {
        let page = Sheet::new(made.report(), free.as_deref()).draw();
        super::sheet::nothing_overlaps(&format!("seed {seed}"), &page.texts);
        super::sheet::all_on_the_page(&format!("seed {seed}"), &page.texts, page.paper);
    }
}

#[test]
fn every_format_lists_the_same_holes() {
    for Wild { seed, made, free } in jobs() {
        let json = made.json(free.as_deref());
        let value: Value = serde_json::from_str(&json).expect("JSON");
        let (mut csv, text) = (String::new(), made.text());
        made.report().csv(&mut csv).expect("a string takes all");
        let Some(placement) = made.plan.placement() else {
            assert_eq!(value["placement"], Value::Null, "seed {seed}");
            continue;
        };
        let stations = value["placement"]["stations"].as_array().expect("stations");
        let holes: usize = stations
            .iter()
            .map(|station| station["holes"].as_array().expect("holes").len())
            .sum();
        assert_eq!(holes, placement.holes.len(), "seed {seed}");
        let records = csv.lines().count() - 1;
        assert_eq!(records, holes + placement.struck_out.len(), "seed {seed}");
        let states = ["planned", "marked", "drilled"];
        let lines = text.lines().filter(|line| {
            let mut words = line.split_whitespace();
            let numbered = words.next().is_some_and(|word| word.parse::<u8>().is_ok());
            let row = words
                .next()
                .is_some_and(|word| ["TOP", "BOT"].contains(&word));
            numbered && row && words.any(|word| states.contains(&word))
        });
        assert_eq!(lines.count(), holes, "seed {seed}\n{text}");
    }
}

#[test]
fn the_exit_code_follows_from_what_is_listed() {
    for Wild { seed, made, .. } in jobs() {
        let Some(placement) = made.plan.placement() else {
            assert!(!made.plan.answered(), "seed {seed}: holes were asked for");
            continue;
        };
        let bad = placement.holes.iter().any(|hole| {
            use boltbay_core::placement::Verdict;
            matches!(hole.verdict(), Some(Verdict::Fouls(_) | Verdict::Rule(..)))
        });
        if !placement.feasible || bad {
            assert!(!made.plan.answered(), "seed {seed}");
        }
    }
}
