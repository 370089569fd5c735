//! The text of each demo card, word for word.
//!
//! A golden shows what changed; it is no source of truth: positions are judged
//! by the references of the placement tests, figures by hand in other tests.
//! `BOLTBAY_BLESS=1 cargo test` writes them anew; read the difference before it
//! is committed.

use super::host::{boltbay, demo_cards, name_of, root};
use std::fs;
use std::path::Path;

fn check(name: &str, got: &str) {
    let path = root().join("tests/data/golden").join(name);
    if std::env::var_os("BOLTBAY_BLESS").is_some() {
        fs::write(&path, got).expect("goldens can be written");
        return;
    }
    let want = fs::read_to_string(&path).unwrap_or_default();
    if want != got {
        panic!("{}", difference(&path, &want, got));
    }
}

/// The first line that differs, and its neighbours.
fn difference(path: &Path, want: &str, got: &str) -> String {
    let (want, got): (Vec<_>, Vec<_>) = (want.lines().collect(), got.lines().collect());
    let same = want.iter().zip(&got).take_while(|(w, g)| w == g).count();
    let line = |lines: &[&str]| lines.get(same).copied().unwrap_or("(end)").to_owned();
    format!(
        "{} differs in line {}\n  want {}\n  got  {}\nBOLTBAY_BLESS=1 writes it anew",
        path.display(),
        same + 1,
        line(&want),
        line(&got)
    )
}

#[test]
fn plans_of_the_demo_cards_read_as_before() {
    for card in demo_cards() {
        let ran = boltbay(["plan".as_ref(), card.as_os_str()]);
        check(&format!("{}.txt", name_of(&card)), &ran.stdout);
    }
}

#[test]
fn what_a_card_says_reads_as_before() {
    for start in ["01", "04", "06"] {
        let card = super::host::demo(start);
        let ran = boltbay(["read".as_ref(), card.as_os_str()]);
        check(&format!("{}.read.txt", name_of(&card)), &ran.stdout);
    }
}

#[test]
fn holes_as_csv_read_as_before() {
    for start in ["06", "09"] {
        let card = super::host::demo(start);
        let args = [
            "plan".as_ref(),
            card.as_os_str(),
            "--format".as_ref(),
            "csv".as_ref(),
        ];
        check(&format!("{}.csv", name_of(&card)), &boltbay(args).stdout);
    }
}

#[test]
fn lines_fit_on_paper_and_carry_no_blanks_at_their_end() {
    for card in demo_cards() {
        let ran = boltbay(["plan".as_ref(), card.as_os_str()]);
        for line in ran.stdout.lines() {
            assert!(line.chars().count() <= 112, "{line}");
            assert_eq!(line.trim_end(), line, "{}", card.display());
        }
    }
}
