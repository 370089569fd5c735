//! What a crew does and what it was shown: the slow, obvious twin of the journal,
//! which keeps every job as a value and knows no blocks.

use super::card::{Blocks, Card, Written};
use boltbay_handheld::journal::{CardNumber, Fault, Full, Journal, Kept, Sink, Source, Unreadable};
use std::collections::BTreeMap;
use std::fmt::Debug;
use std::rc::Rc;

/// Something kept that tests can compare.
pub trait Keepable: Kept + Clone + PartialEq + Debug {
    fn new() -> Self;
}

/// The simplest thing that edits can change: the list of them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ledger(pub Vec<Vec<u8>>);

impl Keepable for Ledger {
    fn new() -> Self {
        Ledger::default()
    }
}

impl Kept for Ledger {
    fn clear(&mut self) {
        self.0.clear();
    }

    fn apply(&mut self, edits: &[u8]) -> Result<(), Unreadable> {
        self.0.push(edits.to_vec());
        Ok(())
    }

    fn write(&self, out: &mut dyn Sink) -> Result<(), Full> {
        out.put(&(self.0.len() as u32).to_le_bytes())?;
        for edits in &self.0 {
            out.put(&[edits.len() as u8])?;
            out.put(edits)?;
        }
        Ok(())
    }

    fn read(&mut self, from: &mut dyn Source) -> Result<(), Unreadable> {
        let mut count = [0; 4];
        from.take(&mut count)?;
        self.clear();
        for _ in 0..u32::from_le_bytes(count) {
            let mut length = [0];
            from.take(&mut length)?;
            let mut edits = vec![0; length[0].into()];
            from.take(&mut edits)?;
            self.0.push(edits);
        }
        Ok(())
    }

    fn title(&self) -> &str {
        match self.0.first() {
            Some(_) => "a ledger of the kitchen wall",
            None => "",
        }
    }
}

/// One thing that a crew does.
#[derive(Clone, Debug)]
pub enum Step {
    /// A key that changes the job, or only the place of the screens.
    Key {
        edits: Vec<u8>,
        place: Vec<u8>,
    },
    /// A new job that starts with these edits.
    Make(Vec<u8>),
    Open(u8),
    Remove(u8),
    Restore(u8),
}

/// All that a crew could be shown.
#[derive(Clone, Debug, PartialEq)]
pub struct World<K> {
    pub open: u8,
    pub place: Vec<u8>,
    /// Jobs, and whether they are removed.
    pub jobs: BTreeMap<u8, (K, bool)>,
}

impl<K: Keepable> World<K> {
    pub fn new() -> World<K> {
        World {
            open: 0,
            place: Vec::new(),
            jobs: BTreeMap::from([(0, (K::new(), false))]),
        }
    }

    pub fn kept(&self) -> &K {
        &self.jobs[&self.open].0
    }

    /// What a crew would be shown next. A new job takes the first free number.
    pub fn after(&self, step: &Step) -> World<K> {
        let mut next = self.clone();
        match step {
            Step::Key { edits, place } => {
                next.place = place.clone();
                if !edits.is_empty() {
                    let (kept, _) = next.jobs.get_mut(&self.open).unwrap();
                    kept.apply(edits).unwrap();
                }
            }
            Step::Make(edits) => {
                let job = (0..16).find(|job| !self.jobs.contains_key(job)).unwrap();
                let mut kept = K::new();
                kept.apply(edits).unwrap();
                next.jobs.insert(job, (kept, false));
                next.open = job;
                next.place = Vec::new();
            }
            Step::Open(job) => {
                next.open = *job;
                // Where its screens were when it was left: not followed here.
                next.place = Vec::new();
            }
            Step::Remove(job) => next.jobs.get_mut(job).unwrap().1 = true,
            Step::Restore(job) => next.jobs.get_mut(job).unwrap().1 = false,
        }
        next
    }
}

/// A block written, and what the crew had been shown before and after.
pub struct Moment<K> {
    pub written: Written,
    pub before: Rc<World<K>>,
    pub after: Rc<World<K>>,
}

/// A number for the card.
pub const OURS: CardNumber = CardNumber(*b"card one");

/// A journal being worked with.
pub struct Site<K> {
    pub journal: Journal<Card>,
    pub kept: K,
}

impl<K: Keepable> Site<K> {
    pub fn set_up(card: Card) -> Site<K> {
        let (mut journal, mut kept) = (Journal::new(card), K::new());
        journal.set_up(OURS, &mut kept).unwrap();
        Site { journal, kept }
    }

    pub fn open(card: Card) -> Result<Site<K>, Fault> {
        let (mut journal, mut kept) = (Journal::new(card), K::new());
        journal.open(&mut kept)?;
        Ok(Site { journal, kept })
    }

    pub fn blocks(&mut self) -> Blocks {
        self.journal.store().blocks.clone()
    }

    /// Does one step as a host does: recorded first, then shown, then tended.
    pub fn play(&mut self, step: &Step) -> Result<(), Fault> {
        let number = |job: &u8| boltbay_handheld::journal::JobNumber::new(*job).unwrap();
        let Site { journal, kept } = self;
        match step {
            Step::Key { edits, place } => {
                journal.record(edits, place)?;
                if !edits.is_empty() {
                    kept.apply(edits).unwrap();
                }
                journal.tend(kept)?;
            }
            Step::Make(edits) => drop(journal.make_job(kept, |kept| kept.apply(edits))?),
            Step::Open(job) => drop(journal.open_job(number(job), kept)?),
            Step::Remove(job) => journal.remove_job(number(job))?,
            Step::Restore(job) => journal.restore_job(number(job))?,
        }
        Ok(())
    }
}

/// Plays a session on a new card; every block that it wrote, and the card at the
/// end.
pub fn moments<K: Keepable>(card: Card, steps: &[Step]) -> Result<Vec<Moment<K>>, Fault> {
    let mut site = Site::<K>::set_up(card);
    site.journal.store().log.clear();
    let mut moments = Vec::new();
    let mut before = Rc::new(World::new());
    for step in steps {
        let after = Rc::new(before.after(step));
        site.play(step)?;
        let store = site.journal.store();
        let kept_back = store.log.last().cloned();
        for written in store.log.drain(..) {
            moments.push(Moment {
                written,
                before: before.clone(),
                after: after.clone(),
            });
        }
        // A forgetful card looks at the write before.
        if store.quirk == super::card::Quirk::Forgetful {
            store.log.extend(kept_back);
        }
        before = after;
    }
    Ok(moments)
}

/// What a crew finds on a card: the open job first, then every other one opened
/// on a copy. Also how many blocks opening wrote.
pub fn found<K: Keepable>(card: &Card) -> Result<(World<K>, Vec<Written>), String> {
    let say = |fault: Fault| format!("{fault:?}");
    let (mut journal, mut kept) = (Journal::new(card.clone()), K::new());
    let opening = journal.open(&mut kept).map_err(say)?;
    if opening.missing.is_some() || opening.lost.is_some() || journal.read_only().is_some() {
        return Err(format!("{opening:?}, {:?}", journal.read_only()));
    }
    let writes = std::mem::take(&mut journal.store().log);
    let open = opening.job.get();
    let mut jobs = BTreeMap::from([(open, (kept.clone(), false))]);
    for job in boltbay_handheld::journal::JobNumber::all().filter(|job| job.get() != open) {
        let Some(listed) = journal.listed(job) else {
            continue;
        };
        if listed.removed {
            journal.restore_job(job).map_err(say)?;
        }
        journal.open_job(job, &mut kept).map_err(say)?;
        jobs.insert(job.get(), (kept.clone(), listed.removed));
    }
    let place = opening.place.to_vec();
    Ok((World { open, place, jobs }, writes))
}

/// Whether a crew finds one of these two, or how it is not so. The place of the
/// screens counts where no other job was opened.
pub fn is_either<K: Keepable>(found: &World<K>, allowed: [&World<K>; 2]) -> Result<(), String> {
    let same = |world: &&World<K>| {
        let place = world.place.is_empty() || world.place == found.place;
        place && world.open == found.open && world.jobs == found.jobs
    };
    if allowed.iter().any(same) {
        return Ok(());
    }
    let sizes = |world: &World<K>| {
        let of = |(job, (kept, removed)): (&u8, &(K, bool))| {
            let mut kept = format!("{kept:?}");
            let end = kept.split_off(kept.len().saturating_sub(80));
            format!("job {job} removed {removed} of {}: ..{end}", kept.len())
        };
        let jobs: Vec<String> = world.jobs.iter().map(of).collect();
        format!(
            "open {}, place {:?}, {}",
            world.open,
            world.place,
            jobs.join("; ")
        )
    };
    let [before, after] = allowed;
    Err(format!(
        "found {}\n  neither {}\n  nor {}",
        sizes(found),
        sizes(before),
        sizes(after)
    ))
}
