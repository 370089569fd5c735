//! The programs for the board, built from this tree, once a run of the tests.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../sim-app/board")
}

/// Builds with the toolchain that has the sources of `core`, and the settings of the
/// board's own folder; a warning fails.
fn build(name: &str, target: &str, arguments: &[&str]) -> PathBuf {
    let target = folder().join("../../target").join(target);
    let built = Command::new("/usr/bin/cargo")
        .args(["build", "--release", "--bin", name, "--target-dir"])
        .arg(&target)
        .args(arguments)
        .current_dir(folder())
        .env("RUSTC", "/usr/bin/rustc")
        .env("RUSTC_BOOTSTRAP", "1")
        .env("DEFMT_LOG", "info")
        .env_remove("RUSTFLAGS")
        .env_remove("RUSTUP_TOOLCHAIN")
        .output()
        .expect("apt-get install rustc-web rust-web-src cargo-web binutils-arm-none-eabi");
    let said = String::from_utf8_lossy(&built.stderr);
    assert!(built.status.success(), "{said}");
    assert!(!said.contains("warning"), "{said}");
    target.join("thumbv7m-none-eabi/release").join(name)
}

/// The self-test, for the board.
pub fn selftest() -> &'static Path {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    BUILT.get_or_init(|| build("selftest", "board", &[]))
}

/// The self-test that counts.
pub fn counting_selftest() -> &'static Path {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    let count = ["--features", "count"];
    BUILT.get_or_init(|| build("selftest", "board-count", &count))
}

/// The handheld that counts, for the development machine.
pub fn counting_handheld() -> &'static Path {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    let count = ["--no-default-features", "--features", "mps2,count"];
    BUILT.get_or_init(|| build("boltbay-board", "board-mps2-count", &count))
}

/// The handheld, for the development machine.
pub fn handheld() -> &'static Path {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    let mps2 = ["--no-default-features", "--features", "mps2"];
    BUILT.get_or_init(|| build("boltbay-board", "board-mps2", &mps2))
}

/// What a tool of the cross compiler prints.
pub fn tool(name: &str, arguments: &[&str]) -> String {
    let done = Command::new(name).args(arguments).output();
    let done = done.expect("apt-get install binutils-arm-none-eabi");
    assert!(done.status.success(), "{name}");
    String::from_utf8_lossy(&done.stdout).into_owned()
}

/// Bytes of memory that a program takes before it has begun, the stack left aside.
pub fn statics(program: &Path) -> u32 {
    let sizes = tool("arm-none-eabi-size", &[program.to_str().unwrap()]);
    let sizes = sizes.lines().nth(1).expect("one program");
    let [_, data, bss] = sizes
        .split_whitespace()
        .take(3)
        .map(|bytes| bytes.parse::<u32>().unwrap())
        .collect::<Vec<_>>()[..]
    else {
        panic!("{sizes}")
    };
    data + bss
}

/// The handheld, its log in frames.
pub fn framed() -> &'static Path {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    let framed = ["--no-default-features", "--features", "mps2,defmt"];
    BUILT.get_or_init(|| build("boltbay-board", "board-framed", &framed))
}
