//! The journal in a file.

use crate::judges::dice::Dice;
use boltbay::handheld;
use boltbay::store::{Store, new_number};
use boltbay_core::Job;
use boltbay_core::words::Units;
use boltbay_handheld::edit::Edit;
use boltbay_handheld::field::{Field, Kind, Value};
use boltbay_handheld::journal::{
    BLOCK, BlockStore, Fault, Keeper, Kept, STORE_BLOCKS, StoreError, edits_as_bytes,
};
use std::ffi::OsString;
use std::fs;
use std::path::Path;
use std::thread;
use std::time::{Duration, Instant};

/// What is said of a file that somebody has open.
const TAKEN: &str = "another program has it open";
const CARD: &str = "boltbay,1\njob,Porch\nunits,imperial\nbeam,W8x28,15' 2\n";

/// A file that was closed can stay taken for a moment: while another test starts a
/// program, its copy of this process has the file too.
fn once_free<T, E: ToString>(mut open: impl FnMut() -> Result<T, E>) -> T {
    let end = Instant::now() + Duration::from_secs(5);
    loop {
        match open() {
            Ok(opened) => return opened,
            Err(e) => {
                let said = e.to_string();
                assert!(said.contains(TAKEN) && Instant::now() < end, "{said}");
                thread::sleep(Duration::from_millis(5));
            }
        }
    }
}

fn open(card: Option<&Path>, store: Option<&Path>) -> (Keeper<Store>, Job) {
    let mut job = Job::new(Units::Imperial);
    let keeper = once_free(|| handheld::open(card, store, &mut std::io::empty(), &mut job));
    (keeper, job)
}

#[test]
fn a_file_is_made_whole_and_opened_once() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("jobs.journal");
    let mut store = Store::in_file(&path).unwrap();
    assert_eq!(fs::metadata(&path).unwrap().len(), 8 << 20);
    assert_eq!(store.blocks(), STORE_BLOCKS);
    let second = Store::in_file(&path).unwrap_err();
    assert_eq!(second.kind(), std::io::ErrorKind::WouldBlock);
    assert_eq!(second.to_string(), TAKEN);
    let mut block = [7; BLOCK];
    store.write(STORE_BLOCKS - 1, &block).unwrap();
    assert_eq!(
        store.write(STORE_BLOCKS, &block),
        Err(StoreError::NoSuchBlock)
    );
    drop(store);
    let mut store = once_free(|| Store::in_file(&path));
    store.read(STORE_BLOCKS - 1, &mut block).unwrap();
    assert_eq!(block, [7; BLOCK]);
    store.read(0, &mut block).unwrap();
    assert_eq!(block, [0; BLOCK]);
    let beyond = store.read(STORE_BLOCKS, &mut block);
    assert_eq!(beyond, Err(StoreError::NoSuchBlock));
    // Nothing else is left in the folder.
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
}

#[test]
fn a_file_that_is_no_journal_is_left_as_it_is() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("letter.txt");
    fs::write(&path, CARD).unwrap();
    let mut job = Job::new(Units::Imperial);
    let failure = handheld::open(None, Some(&path), &mut std::io::empty(), &mut job);
    let said = failure.err().unwrap().to_string();
    assert!(said.contains("card file too short"), "{said}");
    assert_eq!(fs::read_to_string(&path).unwrap(), CARD);
    let nowhere = folder.path().join("none").join("jobs.journal");
    assert!(handheld::open(None, Some(&nowhere), &mut std::io::empty(), &mut job).is_err());
}

#[test]
fn numbers_of_cards_differ() {
    let mut numbers: Vec<_> = (0..64).map(|_| new_number().0).collect();
    numbers.sort_unstable();
    numbers.dedup();
    assert_eq!(numbers.len(), 64);
}

#[test]
fn a_session_goes_on_where_it_was_left() {
    let folder = tempfile::tempdir().unwrap();
    let (card, path) = (folder.path().join("porch.csv"), folder.path().join("jobs"));
    fs::write(&card, CARD).unwrap();
    let (mut keeper, mut job) = open(Some(&card), Some(&path));
    assert_eq!(job.name, "Porch");
    assert_eq!(keeper.journal().count(), 1);
    let rename = Edit::Set(Field::of(Kind::JobName), Value::of_words("Back porch"));
    let bytes = edits_as_bytes(&[rename].into_iter().collect()).unwrap();
    keeper.journal().record(&bytes, b"").unwrap();
    job.apply(&bytes).unwrap();
    drop(keeper);

    let (mut keeper, back) = open(None, Some(&path));
    assert_eq!(back, job);
    assert_eq!(back.name, "Back porch");
    let place = keeper.journal().job();
    drop(keeper);
    // A card is a new job; the one before is still there.
    let (mut keeper, again) = open(Some(&card), Some(&path));
    assert_eq!(again.name, "Porch");
    assert_eq!(keeper.journal().count(), 2);
    let mut kept = again.clone();
    keeper.journal().open_job(place, &mut kept).unwrap();
    assert_eq!(kept, job);
}

#[test]
fn without_a_file_it_opens_on_the_demo_job() {
    let (mut keeper, job) = open(None, None);
    assert_eq!(job.name, "Guided demo");
    assert_eq!(keeper.journal().record(b"\x01\x00", b""), Ok(()));
    let (_, bare) = {
        let folder = tempfile::tempdir().unwrap();
        open(None, Some(&folder.path().join("new")))
    };
    assert_eq!(bare, Job::new(Units::Imperial));
}

#[test]
fn a_journal_of_another_program_is_said() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("jobs");
    drop(open(None, Some(&path)));
    let mut bytes = fs::read(&path).unwrap();
    for region in [0, 4 << 20] {
        bytes[region] = b'?';
    }
    fs::write(&path, &bytes).unwrap();
    let mut job = Job::new(Units::Imperial);
    let mut keeper = Keeper::new(once_free(|| Store::in_file(&path)));
    // No key was recorded yet: nothing tells it from an empty card.
    assert_eq!(
        keeper.journal().open(&mut job).err(),
        Some(Fault::NoJournal)
    );
}

/// What one script keyed, the next goes on with.
#[test]
fn a_script_is_kept() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).into_os_string();
    let mut dice = Dice::new(5);
    let keys: Vec<&str> = (0..150)
        .map(|_| dice.pick(&["ok", "ok", "ok", "down", "right", "up", "hold:ok", "left"]))
        .collect();
    let run = |keys: &str, save: &str| {
        let words = ["boltbay", "screens", "--keys", keys].map(OsString::from);
        let files = ["--store".into(), path("jobs"), "--save".into(), path(save)];
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let code = boltbay::run(
            words.into_iter().chain(files),
            &mut std::io::empty(),
            &mut out,
            &mut err,
        );
        match code {
            0 => Ok(fs::read_to_string(path(save)).unwrap()),
            _ => Err(String::from_utf8_lossy(&err).into_owned()),
        }
    };
    let keyed = run(&keys.join(" "), "keyed.csv").unwrap();
    assert!(keyed.lines().count() > 3, "{keyed}");
    assert_eq!(once_free(|| run("", "again.csv")), keyed);
}
