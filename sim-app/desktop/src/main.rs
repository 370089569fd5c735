//! A thin main: everything that can be tested is in the library.

use std::io::{self, Write};
use std::process::ExitCode;

fn main() -> ExitCode {
    let mut stdout = io::stdout().lock();
    let code = boltbay::run(
        std::env::args_os(),
        &mut io::stdin().lock(),
        &mut stdout,
        &mut io::stderr().lock(),
    );
    match stdout.flush() {
        Ok(()) => ExitCode::from(code),
        Err(_) => ExitCode::from(boltbay::FAILED),
    }
}
