//! Ways to a panic that are left in the handheld's program: each call of a function that
//! panics, by the file that it stands in. `panics.txt` has a line for each file and kind,
//! with the reason why no input goes that way; whatever is not in it fails.
//! `bash .ci/board panics` shows them all.

use super::firmware;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// What panics, by what it is called with, and how the list names it.
const KINDS: [(&str, &str); 11] = [
    ("core::slice::index::slice_index_fail", "slice"),
    ("core::str::slice_error_fail", "slice"),
    ("core::slice::copy_from_slice_impl::len_mismatch", "slice"),
    ("core::panicking::panic_bounds_check", "index"),
    ("core::option::unwrap_failed", "unwrap"),
    ("core::option::expect_failed", "unwrap"),
    ("core::result::unwrap_failed", "unwrap"),
    ("core::panicking::panic_const", "divide"),
    ("core::cell::panic_already", "borrow"),
    ("core::panicking::", "panic"),
    ("do_panic", "panic"),
];

/// The list of reasons.
const LISTED: &str = include_str!("panics.txt");

/// A call of something that panics.
struct Way {
    address: String,
    kind: &'static str,
}

/// How the list names what a function does, if that is to panic.
fn kind(function: &str) -> Option<&'static str> {
    let found = KINDS.iter().find(|(name, _)| function.contains(name));
    found.map(|(_, kind)| *kind)
}

/// Every jump into a function that panics, from one that does not.
fn ways(disassembly: &str) -> Vec<Way> {
    let mut from_panic = false;
    let mut ways = Vec::new();
    for line in disassembly.lines() {
        if let Some(name) = line.strip_suffix(">:") {
            from_panic = kind(name).is_some();
        } else if let Some((address, rest)) = line.split_once(":\t")
            && let Some((instruction, target)) = rest.split_once('<')
            && instruction.starts_with(['b', 'c'])
            && let Some(kind) = kind(target).filter(|_| !from_panic)
        {
            let address = format!("0x{}", address.trim());
            ways.push(Way { address, kind });
        }
    }
    ways
}

/// Where an address comes from, innermost function first.
fn frames(program: &str, address: &str) -> Vec<String> {
    let said = firmware::tool("arm-none-eabi-addr2line", &["-e", program, "-i", address]);
    said.lines().map(str::to_owned).collect()
}

/// The file of ours, or the library that a way stands in. What the standard library and
/// lists do, they do for whoever calls them.
fn place(frames: &[String], root: &str) -> String {
    let of = |frame: &String| {
        let path = frame.split(':').next().unwrap_or_default();
        match (path.strip_prefix(root), path.split_once("/registry/src/")) {
            (Some(ours), _) => Some(ours.trim_start_matches('/').to_owned()),
            (None, Some((_, library))) => {
                let name = library.split('/').nth(1)?;
                Some(name.rsplit_once('-')?.0.to_owned())
            }
            _ => None,
        }
    };
    let mut places = frames.iter().filter_map(of).collect::<Vec<_>>();
    let outer = places.iter().position(|place| place != "heapless");
    match outer {
        Some(at) => places.swap_remove(at),
        None => places.pop().unwrap_or_else(|| "core of Rust".to_owned()),
    }
}

/// Place and kind of each line of the list; a reason has to follow.
fn listed() -> BTreeSet<(&'static str, &'static str)> {
    let lines = LISTED.lines().filter(|line| !line.starts_with('#'));
    let mut listed = BTreeSet::new();
    for line in lines.filter(|line| !line.is_empty()) {
        let mut parts = line.split(" | ");
        let (place, kind, why) = (parts.next(), parts.next(), parts.next());
        assert!(why.is_some_and(|why| why.len() > 10), "no reason: {line}");
        assert!(listed.insert((place.unwrap(), kind.unwrap())), "{line}");
    }
    listed
}

#[test]
fn every_way_to_a_panic_has_its_reason() {
    let program = firmware::handheld().to_str().unwrap();
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    let root = root.canonicalize().unwrap();
    let plain = ["-d", "-C", "--no-show-raw-insn", program];
    let ways = ways(&firmware::tool("arm-none-eabi-objdump", &plain));
    assert!(ways.len() > 10, "{} ways: the tools changed", ways.len());
    let mut found = BTreeMap::<(String, &str), Vec<String>>::new();
    for way in ways {
        let place = place(&frames(program, &way.address), root.to_str().unwrap());
        found
            .entry((place, way.kind))
            .or_default()
            .push(way.address);
    }
    let all: usize = found.values().map(Vec::len).sum();
    println!("{all} ways to a panic");
    for ((place, kind), addresses) in &found {
        println!(
            "{:3} {kind:7} {place}: {}",
            addresses.len(),
            addresses.join(" ")
        );
    }
    let listed = listed();
    let is_new = |(place, kind): &&(String, &str)| !listed.contains(&(place.as_str(), *kind));
    let new: Vec<_> = found.keys().filter(is_new).collect();
    assert!(new.is_empty(), "not in panics.txt: {new:?}");
}
