//! The command line: exit codes, streams, files whole or not at all.

use super::host::{SMALL, boltbay, boltbay_fed, demo};
use std::fs;
use std::path::Path;

#[test]
fn answered_is_nought() {
    let ran = boltbay_fed(["plan", "-"], SMALL.as_bytes());
    assert_eq!((ran.code, ran.stderr.as_str()), (0, ""), "{}", ran.stdout);
    assert!(ran.stdout.starts_with("BOLT PLAN "));
}

#[test]
fn read_is_one_only_where_something_is_missing() {
    assert_eq!(boltbay_fed(["read", "-"], SMALL.as_bytes()).code, 0);
    let card = SMALL.replace("ends,2,9\n", "");
    let ran = boltbay_fed(["read", "-"], card.as_bytes());
    assert_eq!(ran.code, 1);
    assert!(ran.stdout.contains("  ends: "), "{}", ran.stdout);
    let blocked = demo("07");
    assert_eq!(boltbay(["read".as_ref(), blocked.as_os_str()]).code, 0);
    assert_eq!(boltbay(["plan".as_ref(), blocked.as_os_str()]).code, 1);
}

#[test]
fn bad_usage_is_two_on_stderr() {
    for args in [
        vec![],
        vec!["plan"],
        vec!["drill", "x"],
        vec!["plan", "x", "--format", "pdf"],
        vec!["sheet", "x"],
    ] {
        let ran = boltbay(args.clone());
        assert_eq!(ran.code, 2, "{args:?}");
        assert!(ran.stdout.is_empty() && !ran.stderr.is_empty(), "{args:?}");
    }
}

#[test]
fn help_and_version_are_answers() {
    let help = boltbay(["--help"]);
    assert_eq!(help.code, 0);
    for command in ["plan", "sheet", "read"] {
        assert!(help.stdout.contains(command), "{}", help.stdout);
    }
    assert_eq!(boltbay(["--version"]).code, 0);
}

/// One line on stderr, nothing on stdout, exit code 2.
fn fails_in_one_line(ran: &super::host::Ran, words: &[&str]) {
    assert_eq!((ran.code, ran.stdout.as_str()), (2, ""), "{ran:?}");
    assert_eq!(ran.stderr.lines().count(), 1, "{}", ran.stderr);
    for word in words {
        assert!(ran.stderr.contains(word), "{word} is not in {}", ran.stderr);
    }
}

#[test]
fn a_file_that_cannot_be_read_is_two() {
    fails_in_one_line(
        &boltbay(["plan", "no such card.csv"]),
        &["no such card.csv"],
    );
    let folder = tempfile::tempdir().expect("a folder");
    let ran = boltbay(["plan".as_ref(), folder.path().as_os_str()]);
    fails_in_one_line(&ran, &["cannot read"]);
}

#[test]
fn what_is_no_card_is_two_with_row_and_reason() {
    for bytes in [&b"hello"[..], b"", b"\x89PNG\r\n\x1a\n\0\0", b"{\"job\":1}"] {
        fails_in_one_line(&boltbay_fed(["plan", "-"], bytes), &["row "]);
    }
    let bad = SMALL.replace("joist,60", "joist,6O");
    fails_in_one_line(
        &boltbay_fed(["read", "-"], bad.as_bytes()),
        &["row 8", "joist"],
    );
}

#[test]
fn results_go_to_a_file_where_one_is_named() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("plan.txt");
    let out = path.as_os_str();
    let ran = boltbay_fed(
        ["plan".as_ref(), "-".as_ref(), "-o".as_ref(), out],
        SMALL.as_bytes(),
    );
    assert_eq!((ran.code, ran.stdout.as_str()), (0, ""));
    let written = fs::read_to_string(&path).expect("the plan is there");
    assert_eq!(written, boltbay_fed(["plan", "-"], SMALL.as_bytes()).stdout);
    only_file_in(folder.path(), "plan.txt");
}

/// No half-written file is left behind.
fn only_file_in(folder: &Path, name: &str) {
    let entries = fs::read_dir(folder).expect("the folder can be listed");
    let names: Vec<_> = entries.map(|e| e.expect("an entry").file_name()).collect();
    assert_eq!(names, [name]);
}

#[test]
fn a_sheet_is_written_even_where_there_is_no_plan() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("sheet.svg");
    let card = demo("07");
    let ran = boltbay([
        "sheet".as_ref(),
        card.as_os_str(),
        "-o".as_ref(),
        path.as_os_str(),
    ]);
    assert_eq!(ran.code, 1);
    let drawn = fs::read_to_string(&path).expect("the sheet is there");
    assert!(drawn.starts_with("<svg ") && drawn.trim_end().ends_with("</svg>"));
}

#[test]
fn an_output_that_cannot_be_written_is_two_and_leaves_the_old_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let nowhere = folder.path().join("missing").join("plan.txt");
    let ran = boltbay_fed(
        [
            "plan".as_ref(),
            "-".as_ref(),
            "-o".as_ref(),
            nowhere.as_os_str(),
        ],
        SMALL.as_bytes(),
    );
    fails_in_one_line(&ran, &["cannot write", "plan.txt"]);
    let ran = boltbay_fed(
        [
            "plan".as_ref(),
            "-".as_ref(),
            "-o".as_ref(),
            folder.path().as_os_str(),
        ],
        SMALL.as_bytes(),
    );
    fails_in_one_line(&ran, &["cannot write"]);
    let locked = folder.path().join("locked.txt");
    fs::write(&locked, "old").expect("a file");
    let mut rights = fs::metadata(&locked).expect("a file").permissions();
    rights.set_readonly(true);
    fs::set_permissions(&locked, rights).expect("a file");
    let ran = boltbay_fed(
        [
            "plan".as_ref(),
            "-".as_ref(),
            "-o".as_ref(),
            locked.as_os_str(),
        ],
        SMALL.as_bytes(),
    );
    fails_in_one_line(&ran, &["cannot write"]);
    assert_eq!(fs::read_to_string(&locked).expect("a file"), "old");
    only_file_in(folder.path(), "locked.txt");
}

#[test]
fn a_bad_card_leaves_the_old_result_alone() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("plan.txt");
    fs::write(&path, "old").expect("a file");
    let out = path.as_os_str();
    let ran = boltbay_fed(
        ["plan".as_ref(), "-".as_ref(), "-o".as_ref(), out],
        b"no card",
    );
    fails_in_one_line(&ran, &["row 1"]);
    assert_eq!(fs::read_to_string(&path).expect("a file"), "old");
}

#[cfg(unix)]
#[test]
fn what_is_no_ordinary_file_is_written_straight() {
    let out = Path::new("/dev/null").as_os_str();
    let ran = boltbay_fed(
        ["plan".as_ref(), "-".as_ref(), "-o".as_ref(), out],
        SMALL.as_bytes(),
    );
    assert_eq!(ran.code, 0, "{}", ran.stderr);
    let kind = fs::metadata("/dev/null")
        .expect("it is still there")
        .file_type();
    assert!(!kind.is_file(), "the device was replaced by a file");
}

#[test]
fn an_output_stream_that_breaks_is_two() {
    struct Broken;
    impl std::io::Write for Broken {
        fn write(&mut self, _: &[u8]) -> std::io::Result<usize> {
            Err(std::io::ErrorKind::BrokenPipe.into())
        }
        fn flush(&mut self) -> std::io::Result<()> {
            Ok(())
        }
    }
    let mut stderr = Vec::new();
    let args = ["boltbay", "plan", "-"].map(std::ffi::OsString::from);
    let code = boltbay::run(args, &mut SMALL.as_bytes(), &mut Broken, &mut stderr);
    assert_eq!(code, 2);
    let said = String::from_utf8(stderr).expect("UTF-8");
    assert_eq!(said.lines().count(), 1, "{said}");
}

#[test]
fn a_source_that_never_ends_is_refused() {
    let mut zeros = std::io::repeat(0);
    let (mut stdout, mut stderr) = (Vec::new(), Vec::new());
    let args = ["boltbay", "read", "-"].map(std::ffi::OsString::from);
    assert_eq!(
        boltbay::run(args.clone(), &mut zeros, &mut stdout, &mut stderr),
        2
    );
    let mut lines = std::io::repeat(b'\n');
    assert_eq!(
        boltbay::run(args.clone(), &mut lines, &mut stdout, &mut stderr),
        2
    );
    let mut letters = std::io::repeat(b'a');
    assert_eq!(
        boltbay::run(args, &mut letters, &mut stdout, &mut stderr),
        2
    );
    assert!(stdout.is_empty());
}
