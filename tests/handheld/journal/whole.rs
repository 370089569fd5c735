//! A job whole, as it lies in a slot: whatever a job can hold comes back.

use crate::card::jobs::job;
use boltbay_core::job::{self, HangerRef, Job};
use boltbay_core::words::{Name, Units};
use boltbay_handheld::edit::{Edit, apply};
use boltbay_handheld::field::List;
use boltbay_handheld::journal::{Full, Kept, SLOT_BYTES, Sink, Source, Unreadable};

#[derive(Default)]
struct Bytes(Vec<u8>);

impl Sink for Bytes {
    fn put(&mut self, bytes: &[u8]) -> Result<(), Full> {
        self.0.extend_from_slice(bytes);
        Ok(())
    }
}

struct From<'a>(&'a [u8]);

impl Source for From<'_> {
    fn take(&mut self, bytes: &mut [u8]) -> Result<(), Unreadable> {
        let (here, rest) = self.0.split_at_checked(bytes.len()).ok_or(Unreadable)?;
        bytes.copy_from_slice(here);
        self.0 = rest;
        Ok(())
    }
}

fn bytes(job: &Job) -> Vec<u8> {
    let mut out = Bytes::default();
    job.write(&mut out).unwrap();
    out.0
}

/// Into a job that was full of another.
fn read(bytes: &[u8], before: u64) -> Result<Job, Unreadable> {
    let mut back = job(before);
    let mut from = From(bytes);
    back.read(&mut from)?;
    match from.0 {
        [] => Ok(back),
        _ => Err(Unreadable),
    }
}

#[test]
fn any_job_comes_back() {
    for seed in 0..400 {
        let job = job(seed);
        assert_eq!(read(&bytes(&job), seed + 1), Ok(job), "seed {seed}");
    }
}

/// Between two keys a job holds what no card may say: new entries with nothing
/// keyed, things twice.
#[test]
fn a_job_in_the_middle_of_an_entry_comes_back() {
    let mut job = Job::new(Units::Metric);
    let lists = List::ALL
        .into_iter()
        .filter(|list| !matches!(list, List::Runs | List::Joists | List::Checks | List::Holes));
    for list in lists {
        for _ in 0..2 {
            apply(&mut job, &Edit::Insert(list, 0)).unwrap();
        }
    }
    assert_eq!(read(&bytes(&job), 3), Ok(job));
}

/// Each list as long as it can be, each entry as wide as any met, each name full.
fn fullest() -> Job {
    let mut full = job(0);
    let name = Name::try_from("ABCDEFGHIJKL").unwrap();
    macro_rules! fill {
        ($($list:ident)*) => {$(
            for seed in 0.. {
                if full.$list.is_full() {
                    break;
                }
                for entry in job(seed).$list {
                    let _ = full.$list.push(entry);
                }
            }
        )*};
    }
    fill!(squares supports posts loads runs joists checks hangers nails keepouts packing nears
          layers sticks pieces holes bars_cut);
    full.name = "ABCDEFGHIJKLMNOPQRSTUVWX".try_into().unwrap();
    full.supports
        .iter_mut()
        .for_each(|one| one.name = name.clone());
    full.posts
        .iter_mut()
        .for_each(|one| one.support = name.clone());
    full.hangers
        .iter_mut()
        .for_each(|one| one.name = name.clone());
    full.nails
        .iter_mut()
        .for_each(|one| one.name = name.clone());
    full.keepouts
        .iter_mut()
        .for_each(|one| one.name = name.clone());
    full.nears
        .iter_mut()
        .for_each(|one| one.name = name.clone());
    full.layers
        .iter_mut()
        .for_each(|one| one.name = name.clone());
    full.pieces
        .iter_mut()
        .for_each(|one| one.name = name.clone());
    for joist in &mut full.joists {
        joist.thickness = Some(joist.reading);
        joist.hanger = HangerRef::Row(7);
    }
    full
}

#[test]
fn the_fullest_job_fits_its_slot() {
    let full = fullest();
    let length = bytes(&full).len();
    assert_eq!(full.holes.len(), job::HOLES);
    assert!(length > 6_500, "{length}: not so full");
    // What is left is more than all optional fields together could still take.
    assert!(length + 2_048 < SLOT_BYTES, "{length}");
    assert_eq!(read(&bytes(&full), 9), Ok(full));
}

/// What crews' cards hold since before bars were ticked off and packing stood
/// off the web.
#[test]
fn the_layout_before_is_read_too() {
    for seed in 0..60 {
        let mut job = job(seed);
        job.bars_cut.clear();
        job.standoff = None;
        let mut old = bytes(&job);
        // It ended without the two: here nothing, and a list of length nothing.
        assert_eq!((old.pop(), old.pop()), (Some(0), Some(0)));
        old[0] = 1;
        assert_eq!(read(&old, seed + 1), Ok(job), "seed {seed}");
    }
}

#[test]
fn half_a_job_is_none() {
    for seed in 0..6 {
        let bytes = bytes(&job(seed));
        for end in 0..bytes.len() {
            assert_eq!(read(&bytes[..end], 1), Err(Unreadable), "{end}");
        }
    }
}

/// Any byte changed gives another job or none, and no panic.
#[test]
fn no_byte_is_ignored() {
    for seed in 0..4 {
        let (job, bytes) = (job(seed), bytes(&job(seed)));
        for at in 0..bytes.len() {
            for change in [1, 0x80, 0xFF] {
                let mut changed = bytes.clone();
                changed[at] ^= change;
                assert_ne!(read(&changed, 2).as_ref(), Ok(&job), "byte {at}");
            }
        }
    }
}

/// What lies in the slots of crews. This is no expected result but a lock: where
/// it fails, the layout has changed, and cards out there would be misread. Count
/// the layout up and read the old one too.
#[test]
fn the_layout_of_slots_is_what_it_was() {
    let mut sum = 0xCBF2_9CE4_8422_2325_u64;
    for seed in 0..60 {
        for byte in bytes(&job(seed)) {
            // FNV-1a.
            sum = (sum ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01B3);
        }
    }
    assert_eq!(format!("{sum:016x}"), "24785791533daa7a");
}
