//! The program of `sim-app/desktop`, built and run as a shell would. It is an example
//! of this package, so that `cargo test` builds it of the libraries that it has already.

use std::env;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

/// The program, of this tree. Cargo looks whether it is up to date: without a filter of
/// targets it always is.
pub fn program() -> &'static Path {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    BUILT.get_or_init(|| {
        // target/debug/deps/this.
        let tests = env::current_exe().expect("the tests have a path");
        let folder = tests.ancestors().nth(2).expect("a folder of a profile");
        let target = folder.parent().expect("a target folder");
        // The profiles `dev` and `test` share a folder.
        let profile = match folder.file_name().and_then(|name| name.to_str()) {
            None | Some("debug") => "test",
            Some(named) => named,
        };
        let cargo = env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
        let built = Command::new(cargo)
            .args([
                "build",
                "--quiet",
                "-p",
                "boltbay-tests",
                "--example",
                "boltbay",
            ])
            .args(["--profile", profile, "--target-dir"])
            .arg(target)
            .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join(".."))
            .status()
            .expect("cargo runs");
        assert!(built.success(), "cargo build --example boltbay");
        let name = format!("boltbay{}", env::consts::EXE_SUFFIX);
        folder.join("examples").join(name)
    })
}
