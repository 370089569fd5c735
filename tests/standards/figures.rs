//! Each figure in core says where it comes from: `Source:` a document and its
//! table, `Practice:` a habit of the trade, `Memory:` still to be confirmed.

use std::fs;
use std::path::{Path, PathBuf};

/// `Memory:` notes that are left. It goes down only: confirm one, lower this.
const MEMORY: usize = 5;

const NOTES: [&str; 3] = ["Source:", "Practice:", "Memory:"];

/// What makes a figure of the trade: a length that is typed in.
const FIGURES: [&str; 6] = [
    "from_inches(",
    "from_sixteenths(",
    "from_sixty_fourths(",
    "from_thousandths(",
    "from_millimetres(",
    "from_tenth_millimetres(",
];

fn core_files() -> Vec<PathBuf> {
    let mut open = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("../core/src")];
    let mut files = Vec::new();
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|ext| ext == "rs") {
                files.push(path);
            }
        }
    }
    files.sort();
    files
}

fn has_note(text: &str) -> bool {
    NOTES.iter().any(|note| text.contains(note))
}

/// Whether a line of code types in a length other than 0 and 1: a 1 is a unit.
fn types_a_figure(line: &str) -> bool {
    let code = line.split("//").next().unwrap_or_default();
    FIGURES.iter().any(|figure| {
        code.match_indices(figure).any(|(at, _)| {
            let rest = code[at + figure.len()..].trim_start_matches('-');
            let unit = rest.starts_with("0)") || rest.starts_with("1)");
            rest.starts_with(|c: char| c.is_ascii_digit()) && !unit
        })
    })
}

/// Whether a line starts a function, constant or table.
fn starts_an_item(line: &str) -> bool {
    let words = line
        .trim_start()
        .trim_start_matches("pub ")
        .trim_start_matches("pub(crate) ");
    let words = words.trim_start_matches("pub(super) ");
    ["fn ", "const ", "static "]
        .iter()
        .any(|start| words.starts_with(start))
}

/// The comments above the item that holds a line, and the item down to there.
fn item_down_to(lines: &[&str], at: usize) -> String {
    let mut first = at;
    while first > 0 && !starts_an_item(lines[first]) {
        first -= 1;
    }
    while first > 0 && matches!(lines[first - 1].trim_start().get(..2), Some("//" | "#[")) {
        first -= 1;
    }
    lines[first..=at].join("\n")
}

#[test]
fn every_length_typed_into_core_says_where_it_comes_from() {
    let mut silent = Vec::new();
    let mut figures = 0;
    for file in core_files() {
        let text = fs::read_to_string(&file).unwrap();
        let lines: Vec<&str> = text.lines().collect();
        let header: Vec<&str> = lines
            .iter()
            .copied()
            .filter(|line| line.starts_with("//!"))
            .collect();
        let told = has_note(&header.join("\n"));
        for (at, line) in lines
            .iter()
            .enumerate()
            .filter(|(_, line)| types_a_figure(line))
        {
            figures += 1;
            if !told && !has_note(&item_down_to(&lines, at)) {
                silent.push(format!("{}:{}: {}", file.display(), at + 1, line.trim()));
            }
        }
    }
    assert!(figures > 30, "the scan found only {figures} figures");
    assert!(
        silent.is_empty(),
        "no Source:, Practice: or Memory: beside\n{}",
        silent.join("\n")
    );
}

#[test]
fn what_is_from_memory_only_gets_less() {
    let mut counts = [0; NOTES.len()];
    for file in core_files() {
        let text = fs::read_to_string(&file).unwrap();
        for (count, note) in counts.iter_mut().zip(NOTES) {
            *count += text.matches(note).count();
        }
    }
    let [source, practice, memory] = counts;
    assert!(memory <= MEMORY, "{memory} notes from memory: confirm them");
    assert!(
        memory >= MEMORY,
        "{memory} notes from memory: lower the ceiling"
    );
    assert!(source > 0 && practice > 0, "{counts:?}");
}

#[test]
fn the_scan_itself_finds_and_lets_pass() {
    assert!(types_a_figure("    Length::from_sixteenths(4),"));
    assert!(types_a_figure("Length::from_sixteenths(-4)"));
    assert!(!types_a_figure("Length::from_sixteenths(0)"));
    assert!(!types_a_figure("Length::from_sixteenths(1)"));
    assert!(types_a_figure("Length::from_sixteenths(10)"));
    assert!(!types_a_figure("Length::from_sixteenths(figure)"));
    assert!(!types_a_figure("// Length::from_sixteenths(4)"));
    let text = [
        "/// Practice: a habit.",
        "const fn gap() -> Length {",
        "    from_sixteenths(4)",
    ];
    assert!(has_note(&item_down_to(&text, 2)));
    let text = [
        "/// Practice: above.",
        "const A: u8 = 1;",
        "",
        "const B: L = from_sixteenths(4);",
    ];
    assert!(!has_note(&item_down_to(&text, 3)));
}
