//! Large digits, made ready while compiling: what the handheld then does for one is a
//! fill a run.

mod digits;

use std::path::Path;
use std::{env, fs};

fn main() {
    let out = env::var_os("OUT_DIR").expect("cargo says where");
    let path = Path::new(&out).join("digits.rs");
    fs::write(path, digits::tables()).expect("a folder of cargo's");
    println!("cargo:rerun-if-changed=build");
}
