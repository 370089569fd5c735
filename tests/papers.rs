//! The papers for people: README, DEVELOPERS, changelog. They show what the
//! program prints, point at what is there, and name what may be named.
//!
//! `BOLTBAY_BLESS=1 cargo test -p boltbay-tests papers` writes the samples and
//! the picture anew; whoever does it looks at the difference.

use std::collections::BTreeSet;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};

const PAPERS: [&str; 4] = [
    "README.md",
    "DEVELOPERS.md",
    "CHANGELOG.md",
    "tests/data/SOURCES.md",
];

/// The picture in the README, and the card that it is drawn from.
const PICTURE: [&str; 2] = [
    "demo-data/02-squall-lapped-joists.svg",
    "demo-data/02-squall-lapped-joists.csv",
];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn paper(name: &str) -> String {
    fs::read_to_string(root().join(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// Whether to write anew what would otherwise be compared.
fn updating() -> bool {
    std::env::var_os("BOLTBAY_BLESS").is_some()
}

/// What the command line prints.
fn printed(words: &[&str]) -> String {
    let arguments = words.iter().map(|word| OsString::from(*word));
    let (mut stdout, mut stderr) = (Vec::new(), Vec::new());
    let code = boltbay::run(
        std::iter::once(OsString::from("boltbay")).chain(arguments),
        &mut std::io::empty(),
        &mut stdout,
        &mut stderr,
    );
    assert!(code < 2, "{words:?}: {}", String::from_utf8_lossy(&stderr));
    String::from_utf8(stdout).expect("text")
}

/// A part of what `plan` prints of a card: from the line that starts with
/// `from`, or the first one, up to the line that starts with `up_to`.
struct Sample<'a> {
    card: &'a str,
    from: &'a str,
    up_to: &'a str,
}

impl<'a> Sample<'a> {
    /// `<!-- plan CARD [from WORDS] up to WORDS -->`.
    fn of(line: &'a str) -> Option<Sample<'a>> {
        let asked = line.strip_prefix("<!-- plan ")?.strip_suffix(" -->")?;
        let (asked, up_to) = asked.split_once(" up to ")?;
        let (card, from) = asked.split_once(" from ").unwrap_or((asked, ""));
        Some(Sample { card, from, up_to })
    }

    fn print(&self) -> String {
        let card = root().join(self.card);
        let all = printed(&["plan", card.to_str().expect("a path of letters")]);
        // A heading, not the line at the top that says there is no plan.
        let lines: Vec<&str> = all.lines().collect();
        let heading = |start: &str| {
            let spaced = format!("{start}  (");
            let at = lines.iter().position(|line| line.starts_with(&spaced));
            at.unwrap_or_else(|| panic!("{}: no heading {start}", self.card))
        };
        let from = match self.from {
            "" => 0,
            from => heading(from),
        };
        let part = &lines[from..heading(self.up_to)];
        part.join("\n").trim_end().to_owned() + "\n"
    }
}

/// The README with its samples as they are printed now.
fn as_printed(readme: &str) -> (String, usize) {
    let (mut text, mut samples) = (String::new(), 0);
    let mut lines = readme.lines();
    while let Some(line) = lines.next() {
        text += &format!("{line}\n");
        let Some(sample) = Sample::of(line) else {
            continue;
        };
        samples += 1;
        assert_eq!(lines.next(), Some("```text"), "below {line}");
        text += &format!("```text\n{}```\n", sample.print());
        let _ = lines.by_ref().find(|line| *line == "```");
    }
    (text, samples)
}

#[test]
fn the_readme_shows_what_the_program_prints() {
    let readme = paper("README.md");
    let (now, samples) = as_printed(&readme);
    if updating() {
        fs::write(root().join("README.md"), &now).expect("README.md to be written");
    }
    assert!(samples >= 2, "{samples} samples found");
    assert!(updating() || readme == now, "README.md would be\n{now}");
}

#[test]
fn the_picture_is_what_the_program_draws() {
    let [picture, card] = PICTURE;
    let folder = tempfile::tempdir().expect("a folder");
    let drawn = folder.path().join("sheet.svg");
    let card = root().join(card);
    let paths = [&card, &drawn].map(|path| path.to_str().expect("letters"));
    printed(&["sheet", paths[0], "-o", paths[1]]);
    let drawn = fs::read_to_string(drawn).expect("a drawing");
    if updating() {
        fs::write(root().join(picture), &drawn).expect("the picture to be written");
    }
    assert!(
        paper(picture) == drawn,
        "{picture} is not what `sheet` draws"
    );
    assert!(paper("README.md").contains(&format!("({picture})")));
}

/// What stands between back quotes or in the brackets of a link, outside of
/// blocks of code.
fn pointers(text: &str) -> BTreeSet<String> {
    let mut inside = false;
    let mut found = BTreeSet::new();
    let mut prose = String::new();
    for line in text.lines() {
        if line.starts_with("```") {
            inside = !inside;
        } else if !inside {
            prose += line;
            prose.push('\n');
        }
    }
    for (n, part) in prose.split('`').enumerate() {
        if n % 2 == 1 {
            found.insert(part.to_owned());
        }
    }
    for part in prose.split("](").skip(1) {
        found.insert(part.split(')').next().unwrap_or_default().to_owned());
    }
    found
}

/// Whether a word looks like a file or folder of the tree.
fn is_a_path(word: &str) -> bool {
    let known = [".rs", ".md", ".csv", ".svg", ".toml"];
    let letters = |c: char| c.is_ascii_alphanumeric() || "/._-".contains(c);
    word.chars().all(letters) && (known.iter().any(|end| word.ends_with(end)) || word.contains('/'))
}

/// Folders that a path in a paper may start from.
const FROM: [&str; 9] = [
    "",
    "core/src",
    "core/src/placement",
    "sim-app/handheld/src",
    "sim-app/handheld/src/screen",
    "sim-app/handheld/src/screen/form",
    "sim-app/desktop/src",
    "sim-app/board/src",
    "tests",
];

#[test]
fn what_the_papers_point_at_is_there() {
    let mut seen = 0;
    for name in PAPERS {
        for word in pointers(&paper(name)) {
            if !is_a_path(&word) {
                continue;
            }
            seen += 1;
            assert!(
                !word.starts_with('/'),
                "{name} names {word}, outside of the tree"
            );
            let folder = Path::new(name).parent().unwrap_or(Path::new(""));
            let mut places = FROM.iter().map(|from| root().join(from).join(&word));
            let there = places.any(|path| path.exists());
            assert!(
                there || root().join(folder).join(&word).exists(),
                "{name} names {word}, which is not in the tree"
            );
        }
    }
    assert!(seen > 40, "only {seen} paths found");
}

#[test]
fn the_code_map_knows_every_noun() {
    let named = pointers(&paper("DEVELOPERS.md"));
    for folder in ["core/src", "core/src/placement"] {
        for entry in fs::read_dir(root().join(folder)).unwrap() {
            let name = entry.unwrap().file_name().into_string().unwrap();
            let file = name.ends_with(".rs") && name != "lib.rs" && name != "hole.rs";
            assert!(
                !file || named.contains(&name),
                "DEVELOPERS.md says nothing of {folder}/{name}"
            );
        }
    }
}

#[test]
fn every_dependency_has_its_reason() {
    let reasons = paper("DEVELOPERS.md");
    let manifest = paper("Cargo.toml");
    let table = manifest.split("[workspace.dependencies]\n").nth(1);
    let lines = table.expect("a table").lines();
    let mut seen = 0;
    for line in lines.take_while(|line| !line.is_empty()) {
        let name = line.split(' ').next().unwrap_or_default();
        if !name.starts_with("boltbay") {
            seen += 1;
            let row = format!("| `{name}` | ");
            assert!(reasons.contains(&row), "DEVELOPERS.md: why {name}?");
        }
    }
    assert!(seen >= 10, "only {seen} dependencies found");
}

#[test]
fn every_file_of_data_says_where_it_comes_from() {
    let sources = pointers(&paper("tests/data/SOURCES.md"));
    for entry in fs::read_dir(root().join("tests/data")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        assert!(
            name == "SOURCES.md" || sources.contains(&name),
            "tests/data/SOURCES.md says nothing of {name}"
        );
    }
}

/// Names that must not stand in the papers, as hashes so that they do not stand
/// here: makers of hangers, tools and steel software, and makers of screws.
const NOT_NAMED: [u32; 29] = [
    0x19e5_3d8c,
    0x1b01_6cb7,
    0x4491_a70b,
    0x4a61_49e1,
    0x5ccc_b234,
    0x6088_813c,
    0x60e7_bd38,
    0x6137_9cd5,
    0x634b_5564,
    0x64dc_dd80,
    0x6f26_d173,
    0x75a6_4070,
    0x775b_4770,
    0x786f_0084,
    0x7ab3_fe6a,
    0x7e6d_4cbd,
    0x9083_dbf3,
    0x9f2b_2754,
    0xa014_ee5c,
    0xac92_6d0f,
    0xad14_d590,
    0xaeb6_e920,
    0xb341_d752,
    0xc6b1_6df4,
    0xd31c_bb9b,
    0xd9db_4471,
    0xdc91_1ca3,
    0xe7d5_5925,
    0xf0b6_8f72,
];

/// FNV-1a of a word in lower case.
fn hash(word: &str) -> u32 {
    word.to_lowercase().bytes().fold(0x811c_9dc5, |hash, byte| {
        (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193)
    })
}

#[test]
fn no_brand_stands_in_the_papers() {
    let cards = fs::read_dir(root().join("demo-data")).unwrap();
    let cards = cards.map(|entry| format!("demo-data/{}", entry.unwrap().file_name().display()));
    let mut words = 0;
    // Pictures are of our own screens.
    let cards = cards.filter(|name| !name.ends_with(".png"));
    for name in PAPERS.iter().map(|name| (*name).to_owned()).chain(cards) {
        let text = paper(&name);
        for sign in ['\u{2122}', '\u{ae}'] {
            assert!(!text.contains(sign), "{name} has a {sign}");
        }
        for word in text.split(|c: char| !c.is_alphanumeric()) {
            words += 1;
            assert!(!NOT_NAMED.contains(&hash(word)), "{name} names {word}");
        }
    }
    assert!(words > 1_000, "only {words} words read");
}

#[test]
fn the_readers_of_papers_find_and_let_pass() {
    let found = pointers("see `a/b.rs` and [it](c.md)\n```sh\n`d.rs`\n```\n`cargo test`\n");
    assert!(
        ["a/b.rs", "c.md", "cargo test"]
            .iter()
            .all(|word| found.contains(*word))
    );
    assert!(!found.contains("d.rs"));
    assert!(is_a_path("a/b.rs") && is_a_path("c.md") && !is_a_path("cargo test"));
    let sample = Sample::of("<!-- plan a.csv from B C up to D -->").expect("a sample");
    assert_eq!(
        (sample.card, sample.from, sample.up_to),
        ("a.csv", "B C", "D")
    );
    let sample = Sample::of("<!-- plan a.csv up to D -->").expect("a sample");
    assert_eq!((sample.card, sample.from, sample.up_to), ("a.csv", "", "D"));
    // Published check value of FNV-1a: draft-eastlake-fnv, 32 bit, "foobar".
    assert_eq!(hash("FooBar"), 0xbf9c_f968);
}
