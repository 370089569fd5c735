//! The jobs of a card, its limits, and what it costs.

use super::card::{Card, Mood};
use super::crew::{Ledger, Site, Step, found};
use boltbay_handheld::journal::{
    EDIT_MOST, Fault, JOBS, JobNumber, Journal, Kept, PLACE_MOST, SLOT_BYTES, StoreError,
    Unreadable,
};

fn number(job: u8) -> JobNumber {
    JobNumber::new(job).unwrap()
}

fn site() -> Site<Ledger> {
    Site::set_up(Card::default())
}

#[test]
fn sixteen_jobs_and_no_more() {
    let mut site = site();
    for job in 1..JOBS {
        site.play(&Step::Make(vec![job as u8])).unwrap();
    }
    assert_eq!(site.journal.count(), 16);
    assert_eq!(site.play(&Step::Make(vec![99])), Err(Fault::JobsFull));
    assert_eq!(site.kept.0, [[15]], "the open job is still there");
    // The two removed first give way, the first of them first.
    for job in [4, 2] {
        site.play(&Step::Remove(job)).unwrap();
    }
    assert_eq!(site.journal.count(), 14);
    site.play(&Step::Make(vec![100])).unwrap();
    let taken = site.journal.job();
    assert!([2, 4].contains(&taken.get()));
    assert_eq!(site.kept.0, [[100]]);
    let (world, _) = found::<Ledger>(&Card::of(site.blocks())).unwrap();
    assert_eq!(world.jobs.len(), 16);
    assert_eq!(world.open, taken.get());
    assert_eq!(JobNumber::new(16), None);
}

#[test]
fn a_job_is_removed_and_brought_back() {
    let mut site = site();
    let open = site.journal.job();
    site.play(&Step::Make(b"second".to_vec())).unwrap();
    assert_eq!(site.journal.remove_job(number(1)), Err(Fault::JobIsOpen));
    assert_eq!(site.journal.remove_job(number(7)), Err(Fault::NoSuchJob));
    site.journal.remove_job(open).unwrap();
    assert!(site.journal.listed(open).unwrap().removed);
    let opened = site.journal.open_job(open, &mut site.kept);
    assert_eq!(opened, Err(Fault::NoSuchJob));
    assert_eq!(site.kept.0, [b"second".to_vec()]);
    site.journal.restore_job(open).unwrap();
    site.journal.open_job(open, &mut site.kept).unwrap();
    assert!(site.kept.0.is_empty());
    assert_eq!(
        site.journal.open_job(number(9), &mut site.kept),
        Err(Fault::NoSuchJob)
    );
}

#[test]
fn each_job_comes_back_to_its_own_screen_and_name() {
    let mut site = site();
    site.journal.record(b"first", b"first screen").unwrap();
    site.kept.apply(b"first").unwrap();
    site.play(&Step::Make(b"second".to_vec())).unwrap();
    site.journal.record(b"", b"second screen").unwrap();
    let place = site.journal.open_job(number(0), &mut site.kept).unwrap();
    assert_eq!(place, b"first screen");
    let place = site.journal.open_job(number(1), &mut site.kept).unwrap();
    assert_eq!(place, b"second screen");
    let listed = site.journal.listed(number(0)).unwrap();
    // As much of it as fits.
    assert_eq!(listed.title, "a ledger of the kitchen ");
    assert_eq!(site.journal.listed(number(5)), None);
    let later = site.journal.listed(number(1)).unwrap().number;
    assert!(later < site.journal.listed(number(0)).unwrap().number || later > 0);
}

#[test]
fn a_job_that_cannot_start_leaves_the_open_one() {
    let mut site = site();
    site.play(&Step::Make(b"kept".to_vec())).unwrap();
    let made = site.journal.make_job(&mut site.kept, |_| Err(Unreadable));
    assert_eq!(made, Err(Fault::Unreadable));
    assert_eq!(site.kept.0, [b"kept".to_vec()]);
    site.journal.store().mood = Mood::Refusing;
    let made = site.play(&Step::Make(b"new".to_vec()));
    assert_eq!(made, Err(Fault::Store(StoreError::Write)));
    site.journal.store().mood = Mood::Well;
    assert_eq!(site.kept.0, [b"kept".to_vec()]);
    site.journal.record(b"on", b"").unwrap();
}

#[test]
fn what_is_too_long_is_refused() {
    let mut site = site();
    let long = |length| vec![7; length];
    assert_eq!(site.journal.record(&long(EDIT_MOST), b""), Ok(()));
    let refused = site.journal.record(&long(EDIT_MOST + 1), b"");
    assert_eq!(refused, Err(Fault::EditTooLong));
    assert_eq!(site.journal.record(b"", &long(PLACE_MOST)), Ok(()));
    let refused = site.journal.record(b"", &long(PLACE_MOST + 1));
    assert_eq!(refused, Err(Fault::PlaceTooLong));
    site.kept.apply(&long(EDIT_MOST)).unwrap();
    let (world, _) = found::<Ledger>(&Card::of(site.blocks())).unwrap();
    assert_eq!(world.jobs[&0].0, site.kept);
}

/// A job that no slot holds is no reason to lose it: the ring still has it.
#[test]
fn a_job_too_long_for_its_slot_is_said_and_not_lost() {
    let mut site = site();
    let fault = loop {
        let edits = vec![1; EDIT_MOST];
        if let Err(fault) = site.play(&Step::Key {
            edits,
            place: Vec::new(),
        }) {
            break fault;
        }
        assert!(site.kept.0.len() < 400);
    };
    assert_eq!(fault, Fault::JobTooLong);
    assert!(site.kept.0.len() * (EDIT_MOST + 1) > SLOT_BYTES);
    let (mut journal, mut kept) = (Journal::new(Card::of(site.blocks())), Ledger::default());
    let opening = journal.open(&mut kept).unwrap();
    assert_eq!((opening.missing, opening.lost), (None, None));
    assert_eq!(kept, site.kept);
}

/// Opening is bounded, whatever lies on the card; writing costs little more than
/// a block a key.
#[test]
fn what_it_costs() {
    let mut site = site();
    let fill = |count: usize| vec![5; count];
    for job in 0..JOBS {
        if job > 0 {
            site.play(&Step::Make(vec![job as u8])).unwrap();
        }
        for _ in 0..15 {
            site.play(&Step::Key {
                edits: fill(EDIT_MOST),
                place: Vec::new(),
            })
            .unwrap();
        }
    }
    let mut opened = Site::<Ledger>::open(Card::of(site.blocks())).unwrap();
    let reads = opened.journal.store().reads;
    assert!(
        (500..640).contains(&reads),
        "sixteen jobs of 3 KiB: {reads} reads"
    );
    let most = 2 + 2 * 16 * 32 + 2 * 256 + 64;
    assert!(reads < most);

    opened.journal.store().log.clear();
    for turn in 0..1280 {
        opened
            .play(&Step::Key {
                edits: vec![turn as u8; 1],
                place: Vec::new(),
            })
            .unwrap();
    }
    let writes = opened.journal.store().log.len();
    assert!((1280..1550).contains(&writes), "1280 keys: {writes} writes");
    assert!(
        size_of::<Journal<()>>() <= 1_920,
        "{}",
        size_of::<Journal<()>>()
    );
}

/// The words of every fault fit the screen.
#[test]
fn faults_fit_two_lines() {
    let faults = [
        Fault::Store(StoreError::NoCard),
        Fault::Store(StoreError::Protected),
        Fault::Store(StoreError::Read),
        Fault::Store(StoreError::Write),
        Fault::Store(StoreError::NoSuchBlock),
        Fault::NotKept,
        Fault::NoJournal,
        Fault::Damaged,
        Fault::OtherCard,
        Fault::OtherVersion(2),
        Fault::TooSmall,
        Fault::NotOpen,
        Fault::TendFirst,
        Fault::EditTooLong,
        Fault::PlaceTooLong,
        Fault::JobTooLong,
        Fault::JobsFull,
        Fault::NoSuchJob,
        Fault::JobIsOpen,
        Fault::Unreadable,
        Fault::WornOut,
    ];
    for fault in faults {
        for line in fault.on_screen() {
            assert!((4..=21).contains(&line.len()), "{fault:?}: {line}");
            assert!(line.is_ascii() && line == line.to_uppercase(), "{line}");
        }
    }
}
