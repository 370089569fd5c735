//! Puts the memory layout of the chosen board where the linker finds it.

use std::path::{Path, PathBuf};
use std::{env, fs};

/// The boards: feature and folder have the same name.
const BOARDS: [&str; 2] = ["lm3s6965", "mps2"];

fn main() {
    // A desktop that tests the library needs no layout.
    if env::var_os("CARGO_CFG_TARGET_ARCH").is_none_or(|machine| machine != "arm") {
        return;
    }
    let is_chosen =
        |board: &&str| env::var_os(format!("CARGO_FEATURE_{}", board.to_uppercase())).is_some();
    let chosen: Vec<&str> = BOARDS.into_iter().filter(is_chosen).collect();
    let [board] = chosen[..] else {
        panic!("choose one board of {BOARDS:?}, not {chosen:?}");
    };
    let out = PathBuf::from(env::var_os("OUT_DIR").expect("cargo says where"));
    let layout = Path::new("src").join(board).join("memory.x");
    fs::copy(&layout, out.join("memory.x")).expect("every board has a layout");
    // The table of interrupts is a static of the board; the linker asks for names
    // of its own beside it, and gets none.
    fs::write(out.join("device.x"), "").expect("a folder of cargo's");
    if env::var_os("CARGO_FEATURE_DEFMT").is_some() {
        println!("cargo:rustc-link-arg-bins=-Tdefmt.x");
    }
    println!("cargo:rustc-link-search={}", out.display());
    println!("cargo:rerun-if-changed={}", layout.display());
}
