//! The scripted handheld on the command line.

use boltbay_core::length::Length;
use serde_json::Value;
use std::ffi::OsString;
use std::fs;

/// Exit code, lines of standard output, standard error.
fn screens(arguments: &[&str], stdin: &str) -> (u8, Vec<Value>, String) {
    let mut out = Vec::new();
    let mut err = Vec::new();
    let arguments = ["boltbay", "screens"].iter().chain(arguments);
    let code = boltbay::run(
        arguments.map(OsString::from),
        &mut stdin.as_bytes(),
        &mut out,
        &mut err,
    );
    let text = String::from_utf8(out).unwrap();
    let lines = text.lines().map(|line| serde_json::from_str(line).unwrap());
    (code, lines.collect(), String::from_utf8(err).unwrap())
}

#[test]
fn a_run_keyed_in_and_saved_as_a_card() {
    let folder = tempfile::tempdir().unwrap();
    let saved = folder.path().join("job.csv");
    let (code, views, errors) = screens(
        &[
            "--run",
            "tape,N,wall A,,near,1,1 1/2",
            "--keys",
            "0 1 0 4 0 5 ok up hold:right*2 ok hold:ok",
            "--views",
            "--save",
            saved.to_str().unwrap(),
        ],
        "",
    );
    assert_eq!((code, errors.as_str()), (0, ""));
    assert_eq!(views.len(), 12, "a line before any key, then one a key");
    assert_eq!(views[0]["key"], "");
    assert_eq!(views[0]["screen"], "reading");
    assert_eq!(views[0]["status"], "N1 NEAR-1 WALL A");
    assert_eq!(views[6]["figure"], "1' 4 5/16\"");
    assert_eq!(
        views[6]["figure_in"],
        Length::from_sixteenths(261).as_inches()
    );
    assert_eq!(views[11]["screen"], "sheet");
    let card = fs::read_to_string(saved).unwrap();
    assert!(card.contains("tape,N,wall A,,near,1,1 1/2"), "{card}");
    assert!(card.contains("joist,1' 4 5/16\n"), "{card}");
    // The guess, a bay of 16 in on, then one tick and two inches.
    assert!(card.contains("joist,2' 10 3/8\n"), "{card}");
}

#[test]
fn keys_from_standard_input_are_answered_one_by_one() {
    let (code, views, _) = screens(&["--keys", "-", "--views"], "down\nup down ok\n\nleft\n");
    assert_eq!(code, 0);
    let keys: Vec<&str> = views
        .iter()
        .map(|view| view["key"].as_str().unwrap())
        .collect();
    assert_eq!(keys, ["", "down", "up", "down", "ok", "left"]);
    assert_eq!(views[4]["screen"], "form");
    assert_eq!(views[5]["screen"], "home");
}

#[test]
fn a_picture_a_key() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("pictures");
    let (code, views, _) = screens(
        &["--keys", "down hold:down*2", "--out", out.to_str().unwrap()],
        "",
    );
    assert_eq!((code, views.len()), (0, 0));
    let mut names: Vec<_> = fs::read_dir(&out)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    assert_eq!(names, ["000.png", "001-down.png", "002-hold-down-2.png"]);
    let picture = fs::read(out.join("000.png")).unwrap();
    assert!(picture.starts_with(b"\x89PNG"));
}

#[test]
fn what_is_no_key_no_run_or_twice_standard_input_is_said() {
    for (arguments, said) in [
        (&["--keys", "down sideways"][..], "sideways"),
        (&["--keys", "hold:ok*0"], "hold:ok*0"),
        (&["--run", "tape,X,wall A,,near"], "--run"),
        (&["--run", "joist,14"], "--run"),
        (&["-", "--keys", "-"], "only one"),
        (&["no such card"], "no such card"),
    ] {
        let (code, views, errors) = screens(arguments, "");
        assert_eq!((code, views.len()), (2, 0), "{arguments:?}");
        assert!(errors.contains(said), "{errors}");
        assert_eq!(errors.lines().count(), 1, "{errors}");
    }
}
