//! No output uses the code's words or says what only an engineer may say.

use super::host::{boltbay, demo_cards};
use std::fs;

/// Words that a crew never reads.
const FORBIDDEN: [&str; 12] = [
    "safe",
    "safely",
    "safety",
    "station",
    "stations",
    "window",
    "windows",
    "chain",
    "cover",
    "outstand",
    "misclosure",
    "lattice",
];

fn forbidden_in(text: &str) -> Vec<String> {
    let words = text.split(|letter: char| !letter.is_alphabetic());
    words
        .map(str::to_lowercase)
        .filter(|word| FORBIDDEN.contains(&word.as_str()))
        .collect()
}

#[test]
fn texts_and_sheets_speak_the_words_of_the_crew() {
    let folder = tempfile::tempdir().expect("a folder");
    for card in demo_cards() {
        let drawing = folder.path().join("sheet.svg");
        let sheet = boltbay([
            "sheet".as_ref(),
            card.as_os_str(),
            "-o".as_ref(),
            drawing.as_os_str(),
        ]);
        assert_ne!(sheet.code, 2, "{}", sheet.stderr);
        let drawn = fs::read_to_string(&drawing).expect("the sheet is there");
        let plan = boltbay(["plan".as_ref(), card.as_os_str()]).stdout;
        let read = boltbay(["read".as_ref(), card.as_os_str()]).stdout;
        for text in [drawn, plan, read] {
            assert_eq!(
                forbidden_in(&text),
                Vec::<String>::new(),
                "{}",
                card.display()
            );
        }
    }
}

#[test]
fn a_missing_row_is_named_as_on_the_card_and_explained_without_it() {
    let text = "boltbay,1\nunits,imperial\nbeam,W10x33,96\nlayer,board,1 1/2,solid\n";
    let ran = super::host::boltbay_fed(["plan", "-"], text.as_bytes());
    assert_eq!(ran.code, 1);
    assert!(
        ran.stdout.contains("outstand: web to flange tip, measured"),
        "{}",
        ran.stdout
    );
}
