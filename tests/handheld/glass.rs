//! The glass: a screen in memory, as text art, compared with a kept golden.
//!
//! `BOLTBAY_BLESS=1` writes the goldens anew. `BOLTBAY_PICTURES=FOLDER` also
//! writes a PNG of each. A golden that differs leaves what was painted beside
//! the build, and a text in which every differing pixel stands out.

use boltbay::handheld::cells::Glass;
use boltbay_handheld::view::Amount;
use boltbay_handheld::{View, paint};
use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

const WIDE: usize = 128;
const HIGH: usize = 64;

/// A letter a grey, dark to light.
const GREYS: &[u8; 16] = b" .,:;-~=+ox*%&#@";

/// A line a row, a letter a pixel.
fn art(glass: &Glass) -> String {
    let line = |y: usize| {
        let letters = (0..WIDE).map(|x| char::from(GREYS[usize::from(glass.grey(x, y))]));
        letters.collect::<String>().trim_end().to_owned() + "\n"
    };
    (0..HIGH).map(line).collect()
}

/// The words of a view, for the head of its golden.
pub fn words(view: &View) -> String {
    let mut words = String::new();
    let status = &view.status;
    let _ = writeln!(
        words,
        "{}: {} | {} | {}",
        view.screen, status.left, status.tab, status.right
    );
    if let Some(figure) = view.figure {
        let times = figure.times.map(|times| format!("{times} x "));
        let amount = match figure.amount {
            Amount::Length(length, units) => length.shown(units).to_string(),
            Amount::Number(number) => number.to_string(),
        };
        let times = times.unwrap_or_default();
        let _ = writeln!(words, "figure: {times}{amount} {:?}", figure.touch);
    }
    if let Some(strip) = &view.strip {
        let _ = writeln!(words, "strip: {} o {}", strip.left, strip.right);
    }
    for (number, line) in (0..).zip(&view.lines) {
        let chosen = if view.selected == Some(number) {
            ">"
        } else {
            " "
        };
        let _ = writeln!(words, "{chosen} {} | {}", line.left, line.right);
    }
    let _ = writeln!(words, "hint: {}", view.hint);
    words
}

/// Compares a view with the golden of this name: its words and its pixels; and
/// holds that everything in it fits its place.
pub fn golden(name: &str, view: &View) {
    let faults = paint::faults(view);
    assert!(faults.is_empty(), "{name}: {faults:?}\n{}", words(view));
    let glass = Glass::of(view);
    let got = format!("{}{}\n{}", words(view), "-".repeat(WIDE), art(&glass));
    if let Some(folder) = std::env::var_os("BOLTBAY_PICTURES") {
        let path = Path::new(&folder).join(format!("{name}.png"));
        boltbay::picture::write(view, 6, &path).unwrap();
    }
    let path = folder().join(format!("{name}.txt"));
    if std::env::var_os("BOLTBAY_BLESS").is_some() {
        fs::write(&path, got).unwrap();
        return;
    }
    let want = fs::read_to_string(&path).unwrap_or_default();
    if want != got {
        let left = leave(name, &want, &got);
        panic!("{name} differs from its golden: see {}", left.display());
    }
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("handheld/golden")
}

/// What was painted, and the difference: `!` where a letter differs.
fn leave(name: &str, want: &str, got: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("golden");
    fs::create_dir_all(&folder).unwrap();
    let mut difference = String::new();
    for (want, got) in want.lines().zip(got.lines()) {
        let (want, got) = (format!("{want:<128}"), format!("{got:<128}"));
        let pairs = want.chars().zip(got.chars());
        let marked: String = pairs.map(|(w, g)| if w == g { g } else { '!' }).collect();
        difference += marked.trim_end();
        difference.push('\n');
    }
    fs::write(folder.join(format!("{name}.got.txt")), got).unwrap();
    let path = folder.join(format!("{name}.difference.txt"));
    fs::write(&path, difference).unwrap();
    path
}
