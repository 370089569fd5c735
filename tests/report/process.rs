//! The built program, as a shell runs it.

use super::host::{SMALL, demo};
use crate::program::program;
use std::io::Write;
use std::process::{Command, Output, Stdio};

fn run(args: &[&str], input: &[u8]) -> Output {
    let mut child = Command::new(program())
        .args(args)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut stdin = child.stdin.take().expect("a pipe");
    // A program that refuses the first bytes closes its end early.
    let _ = stdin.write_all(input);
    drop(stdin);
    child.wait_with_output().expect("the program ends")
}

#[test]
fn the_program_gives_what_the_library_gives() {
    let out = run(&["plan", "-"], SMALL.as_bytes());
    assert_eq!(out.status.code(), Some(0));
    let text = String::from_utf8(out.stdout).expect("UTF-8");
    assert_eq!(
        text,
        super::host::boltbay_fed(["plan", "-"], SMALL.as_bytes()).stdout
    );
}

#[test]
fn exit_codes_reach_the_shell() {
    let blocked = demo("07");
    let blocked = blocked.to_str().expect("UTF-8");
    assert_eq!(run(&["plan", blocked], b"").status.code(), Some(1));
    let bad = run(&["plan", "-"], b"no card");
    assert_eq!(bad.status.code(), Some(2));
    assert!(bad.stdout.is_empty());
    assert_eq!(run(&[], b"").status.code(), Some(2));
}
