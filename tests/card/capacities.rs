//! Every capacity: full is read, one more is an error that names the limit.

use super::read;
use boltbay_core::Job;
use boltbay_core::card::Wrong;

/// Rows before, the nth row, how many fit, how many the job then holds.
type Case = (&'static str, fn(usize) -> String, usize, fn(&Job) -> usize);

/// The limits are those promised to the user, not those of the types.
const CASES: &[Case] = &[
    (
        "tape,N,end A,,near",
        |n| format!("joist,{n}"),
        160,
        |job| job.joists.len(),
    ),
    ("", |_| "tape,N,end A,,near".into(), 8, |job| job.runs.len()),
    ("", |_| "tape,S,end A,,near".into(), 8, |job| job.runs.len()),
    (
        "",
        |n| format!("obstacle,N,{n},{},solid,stays", n + 1),
        32,
        |job| job.keepouts.len(),
    ),
    (
        "",
        |n| format!("zone,{n},{},stays", n + 1),
        32,
        |job| job.keepouts.len(),
    ),
    (
        "",
        |n| format!("packing,{n},{}", n + 1),
        8,
        |job| job.packing.len(),
    ),
    (
        "",
        |n| format!("near,{n},1,one,single"),
        8,
        |job| job.nears.len(),
    ),
    (
        "",
        |n| format!("support,P{n},{n},1,1,wood"),
        5,
        |job| job.supports.len(),
    ),
    (
        "",
        |n| format!("load,line,{n},0"),
        32,
        |job| job.loads.len(),
    ),
    (
        "",
        |n| format!("layer,L{n},1,solid"),
        16,
        |job| job.layers.len(),
    ),
    (
        "",
        |n| {
            if n % 2 == 0 {
                format!("rod,{}", n + 1)
            } else {
                format!("offcut,{n},1")
            }
        },
        16,
        |job| job.sticks.len(),
    ),
    (
        "",
        |n| format!("piece,{},1", n + 1),
        12,
        |job| job.pieces.len(),
    ),
    (
        "",
        |n| format!("cut,LIST{n},1"),
        12,
        |job| job.bars_cut.len(),
    ),
    ("", |n| format!("hanger,H{n}"), 8, |job| job.hangers.len()),
    (
        "",
        |n| format!("nail,N{n},3,0.148"),
        8,
        |job| job.nails.len(),
    ),
    (
        "tape,N,end A,,near",
        |n| format!("check,{n},{n}"),
        32,
        |job| job.checks.len(),
    ),
    (
        "",
        |n| format!("{},{n},top", ["marked", "drilled", "abandoned"][n % 3]),
        240,
        |job| job.holes.len(),
    ),
];

fn card(before: &str, row: fn(usize) -> String, count: usize) -> String {
    let rows: Vec<String> = (0..count).map(row).collect();
    format!("boltbay,1\nunits,imperial\n{before}\n{}\n", rows.join("\n"))
}

#[test]
fn full_is_read_and_one_more_is_refused() {
    for &(before, row, limit, held) in CASES {
        let job = read(&card(before, row, limit)).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(held(&job), limit, "{}", row(0));
        let error = read(&card(before, row, limit + 1)).expect_err("one too many");
        let Wrong::TooMany { limit: named, .. } = error.wrong else {
            panic!("{error}")
        };
        assert_eq!(usize::from(named), limit, "{error}");
        // Two rows of head, one before (empty or not), then the rows.
        assert_eq!(error.row as usize, 3 + limit + 1, "{error}");
        assert!(error.to_string().contains(&limit.to_string()));
    }
}

/// Joists of 8 runs on each side together.
#[test]
fn joists_of_all_runs_together() {
    let mut text = String::from("boltbay,1\nunits,imperial\n");
    for run in 0..16 {
        text += &format!("tape,{},end A,,near\n", ["N", "S"][run % 2]);
        for joist in 0..10 {
            text += &format!("joist,{joist}\n");
        }
    }
    assert_eq!(read(&text).unwrap().joists.len(), 160);
    text += "joist,1\n";
    assert!(matches!(
        read(&text).unwrap_err().wrong,
        Wrong::TooMany { limit: 160, .. }
    ));
}

/// 80 ft of steel is 960 in; 1/64 in more is too long.
#[test]
fn the_longest_steel() {
    assert!(read("boltbay,1\nunits,imperial\nbeam,W10x33,80'\n").is_ok());
    let error = read("boltbay,1\nunits,imperial\nbeam,W10x33,80' 0 1/64\n").unwrap_err();
    assert!(matches!(error.wrong, Wrong::LengthAbove { .. }));
    assert!(
        error.to_string().ends_with("write at most 80' 0\""),
        "{error}"
    );
}

/// A name of 12 (job: 24) characters fits, one more does not.
#[test]
fn the_longest_names() {
    for (row, limit) in [("job,", 24_usize), ("hanger,", 12), ("layer,", 12)] {
        let rest = if row == "layer," { ",1,solid" } else { "" };
        let card = |count: usize| {
            read(&format!(
                "boltbay,1\nunits,imperial\n{row}{}{rest}\n",
                "n".repeat(count)
            ))
        };
        assert!(card(limit).is_ok());
        let error = card(limit + 1).unwrap_err();
        assert_eq!(error.wrong, Wrong::NameTooLong { limit: limit as u8 });
        assert!(error.to_string().contains(&limit.to_string()));
    }
}
