//! The house: what stands at the top, and which way the packages point.
//!
//! `core <- sim-app/handheld <- {sim-app/desktop, sim-app/board}`, and the tests
//! may use all; what of the board needs its processor, they see in the emulator. Read from the manifests as text, so that nothing
//! but this file and the tree decides.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// Entries that must stand at the top.
const ROOMS: [&str; 7] = [
    "Cargo.toml",
    "README.md",
    "DEVELOPERS.md",
    "core",
    "sim-app",
    "tests",
    "demo-data",
];

/// Entries that may, besides dot files, licences and whatever is not kept.
const PERMITTED: [&str; 5] = [
    "Cargo.lock",
    "CHANGELOG.md",
    "clippy.toml",
    "rustfmt.toml",
    "rust-toolchain.toml",
];

#[test]
fn the_top_level_holds_the_house_and_no_more() {
    let not_kept = fs::read_to_string(root().join(".gitignore")).unwrap();
    let found: BTreeSet<String> = fs::read_dir(root())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| !name.starts_with('.') && !name.starts_with("LICENSE"))
        .filter(|name| !not_kept.lines().any(|line| line.trim_matches('/') == name))
        .collect();
    for room in ROOMS {
        assert!(found.contains(room), "{room} is missing");
    }
    for name in &found {
        let known = ROOMS.iter().chain(&PERMITTED).any(|known| known == name);
        assert!(known, "{name} does not belong at the top level");
    }
}

/// A package's folder, and which of our packages it may use.
const MAY_USE: [(&str, &[&str]); 5] = [
    ("core", &[]),
    ("sim-app/handheld", &["boltbay-core"]),
    ("sim-app/desktop", &["boltbay-core", "boltbay-handheld"]),
    ("sim-app/board", &["boltbay-core", "boltbay-handheld"]),
    (
        "tests",
        &[
            "boltbay-core",
            "boltbay-handheld",
            "boltbay",
            "boltbay-board",
        ],
    ),
];

/// Our packages among the dependencies of a manifest, of whatever kind, under
/// whatever name.
fn used(manifest: &str) -> BTreeSet<String> {
    let mut inside = false;
    let mut used = BTreeSet::new();
    for line in manifest.lines().map(str::trim) {
        if let Some(table) = line.strip_prefix('[') {
            // `[dependencies]`, `[target.'..'.dev-dependencies]`,
            // `[dependencies.boltbay]`.
            inside = table.contains("dependencies") && !table.starts_with("workspace");
            if let Some((_, name)) = table.trim_end_matches(']').split_once("dependencies.") {
                used.insert(name.to_owned());
            }
            continue;
        }
        if !inside || line.starts_with('#') {
            continue;
        }
        let name = line.split(['=', '.', ' ']).next().unwrap_or_default();
        used.insert(name.trim_matches('"').to_owned());
        if let Some((_, renamed)) = line.split_once("package = \"") {
            used.insert(renamed.split('"').next().unwrap_or_default().to_owned());
        }
        if line.contains("path =") {
            used.insert(format!("boltbay at {line}"));
        }
    }
    used.retain(|name| name.starts_with("boltbay"));
    used
}

#[test]
fn packages_point_one_way() {
    let mut seen = 0;
    for (folder, may_use) in MAY_USE {
        let Ok(manifest) = fs::read_to_string(root().join(folder).join("Cargo.toml")) else {
            continue;
        };
        seen += 1;
        for name in used(&manifest) {
            // A board of its own workspace names its dependencies by path.
            let name = match name.strip_prefix("boltbay at ") {
                Some(line) => line
                    .split([' ', '=', '.'])
                    .next()
                    .unwrap_or_default()
                    .to_owned(),
                None => name,
            };
            assert!(
                may_use.contains(&name.as_str()),
                "{folder} must not use {name}"
            );
        }
    }
    assert!(seen >= 3, "only {seen} manifests found");
}

/// Names of all dependencies of a manifest.
fn dependencies(manifest: &str) -> Vec<String> {
    let mut inside = false;
    let mut names = Vec::new();
    for line in manifest.lines().map(str::trim) {
        if line.starts_with('[') {
            inside = line == "[dependencies]" || line == "[dev-dependencies]";
        } else if inside && !line.is_empty() && !line.starts_with('#') {
            let name = line.split(['=', '.', ' ']).next().unwrap_or_default();
            names.push(name.to_owned());
        }
    }
    names
}

/// All Rust code below a folder.
fn code(folder: &Path) -> String {
    let mut all = String::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            all += &code(&path);
        } else if path.extension().is_some_and(|end| end == "rs") {
            all += &fs::read_to_string(path).unwrap();
        }
    }
    all
}

#[test]
fn every_dependency_is_used() {
    let mut seen = 0;
    for (folder, _) in MAY_USE {
        let Ok(manifest) = fs::read_to_string(root().join(folder).join("Cargo.toml")) else {
            continue;
        };
        let code = code(&root().join(folder));
        for name in dependencies(&manifest) {
            seen += 1;
            let path = format!("{}::", name.replace('-', "_"));
            assert!(code.contains(&path), "{folder} does not use {name}");
        }
    }
    assert!(seen >= 10, "only {seen} dependencies found");
}

#[test]
fn every_package_of_the_tree_is_known_here() {
    let mut open = vec![root()];
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(&folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            if path.is_dir() && name != "target" && !name.starts_with('.') {
                open.push(path);
            } else if name == "Cargo.toml" {
                let at = folder.strip_prefix(root()).unwrap().to_str().unwrap();
                let known = at.is_empty() || MAY_USE.iter().any(|(known, _)| *known == at);
                assert!(known, "{at} is a package that the house does not know");
            }
        }
    }
}

/// One binary, so that `cargo run` finds it; no default members, so that `cargo
/// test` tests all; the tests no library, so that `cargo run` builds no solver.
#[test]
fn the_workspace_runs_one_thing_and_tests_everything() {
    let workspace = fs::read_to_string(root().join("Cargo.toml")).unwrap();
    assert!(!workspace.contains("default-members"));
    let tests = fs::read_to_string(root().join("tests/Cargo.toml")).unwrap();
    assert!(!tests.contains("[lib]"));
    // What is no dependency for tests alone is there only if it is asked for.
    let (_, plain) = tests.split_once("\n[dependencies]\n").unwrap();
    let plain = plain.lines().take_while(|line| !line.starts_with('['));
    let mut named = plain.filter(|line| line.contains('=') && !line.starts_with('#'));
    assert!(named.all(|line| line.contains("optional = true")));
    assert!(!workspace.contains("[package]"), "the workspace is virtual");
    let mut binaries = 0;
    for (folder, _) in MAY_USE
        .iter()
        .filter(|(folder, _)| *folder != "sim-app/board")
    {
        let folder = root().join(folder);
        if let Ok(manifest) = fs::read_to_string(folder.join("Cargo.toml")) {
            binaries += manifest.matches("[[bin]]").count();
            let implied = folder.join("src/main.rs").exists() || folder.join("src/bin").exists();
            assert!(
                !implied || manifest.contains("[[bin]]"),
                "{}",
                folder.display()
            );
        }
    }
    assert_eq!(binaries, 1);
}

#[test]
fn core_is_built_without_std() {
    let lib = fs::read_to_string(root().join("core/src/lib.rs")).unwrap();
    assert!(lib.contains("#![no_std]"));
    for line in lib.lines() {
        assert!(!line.contains("extern crate"), "{line}");
    }
}

#[test]
fn the_reader_of_manifests_finds_every_form() {
    let manifest = "[package]\nname = \"boltbay-x\"\n[dependencies]\nboltbay-core.workspace = true\n\
        boltbay = { path = \"../a\" }\nrenamed = { package = \"boltbay-handheld\", version = \"1\" }\n\
        [dev-dependencies.boltbay-tests]\npath = \"..\"\n[features]\nboltbay-feature = []\n";
    let found: Vec<String> = used(manifest).into_iter().collect();
    for name in [
        "boltbay",
        "boltbay-core",
        "boltbay-handheld",
        "boltbay-tests",
    ] {
        assert!(
            found.iter().any(|found| found == name),
            "{name} in {found:?}"
        );
    }
    assert!(!found.iter().any(|found| found == "boltbay-feature"));
}
