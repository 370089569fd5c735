//! A job that was begun without a card, put on one that came late: power goes at every
//! block of that and of the opening that follows, and the crew finds the jobs of the card
//! as they were, with the new one beside them or without it.

use super::card::{Blocks, Card, Mood, Spoiled, Written, groups, torn};
use super::crew::{Ledger, OURS, Site, Step, World, found, is_either};
use super::sessions;
use boltbay_handheld::journal::{CardNumber, Fault, JobNumber, Journal, Kept, StoreError};

const PLACE: &[u8] = b"where it was begun";
const ANOTHER: CardNumber = CardNumber(*b"card two");

/// What was keyed without a card.
fn begun() -> Ledger {
    let edits = (0..60).map(|turn| format!("without a card {turn}").into_bytes());
    Ledger(edits.collect())
}

/// The card after the first steps of a session, and what its crew was shown.
fn worked_on(steps: &[Step]) -> (Blocks, World<Ledger>) {
    let mut site = Site::<Ledger>::set_up(Card::default());
    let mut world = World::new();
    for step in steps {
        site.play(step).unwrap();
        world = world.after(step);
    }
    (site.blocks(), world)
}

/// The same crew, the job taken in.
fn with_begun(before: &World<Ledger>) -> World<Ledger> {
    let mut after = before.clone();
    let free = (0..16).find(|job| !before.jobs.contains_key(job));
    after.open = free.unwrap();
    after.place = PLACE.to_vec();
    after.jobs.insert(after.open, (begun(), false));
    after
}

/// Takes the job in; every block written, and the card afterwards.
fn taken_in(blocks: &Blocks) -> (Vec<Written>, Blocks) {
    let mut journal = Journal::new(Card::of(blocks.clone()));
    journal.take_in(ANOTHER, &begun(), PLACE).unwrap();
    let store = journal.store();
    (std::mem::take(&mut store.log), store.blocks.clone())
}

fn ways(written: &Written, turn: usize) -> Vec<Spoiled> {
    let old = written.before.get(written.at);
    let mut ways = torn(&old, &written.new, 170, turn as u64);
    ways.extend(groups(turn as u64));
    ways
}

fn spoiled(written: &Written, way: &Spoiled) -> Card {
    let mut card = Card::of(written.before.clone());
    way.apply(&mut card.blocks, written.at);
    card
}

/// Every cut of every write, and of every write of the opening after all of them.
fn cut_everywhere(steps: &[Step]) -> usize {
    let (blocks, before) = worked_on(steps);
    let after = with_begun(&before);
    let (writes, blocks) = taken_in(&blocks);
    let mut cuts = 0;
    let mut look = |writes: &[Written], allowed: [&World<Ledger>; 2], what: &str| {
        for (turn, written) in writes.iter().enumerate() {
            for way in ways(written, turn) {
                let case = || format!("{} steps, {what} {turn} at {}", steps.len(), written.at);
                let seen = found::<Ledger>(&spoiled(written, &way));
                let (world, _) = seen.unwrap_or_else(|how| panic!("{}: {how}", case()));
                let seen = is_either(&world, allowed);
                seen.unwrap_or_else(|how| panic!("{}: {how}", case()));
                cuts += 1;
            }
        }
    };
    look(&writes, [&before, &after], "write");
    let (world, repair) = found::<Ledger>(&Card::of(blocks)).unwrap();
    is_either(&world, [&after, &after]).unwrap();
    look(&repair, [&after, &after], "repair");
    cuts
}

#[test]
fn power_goes_at_every_block_and_no_job_is_lost() {
    let session = sessions::ledger();
    let every = if cfg!(feature = "soak") { 1 } else { 23 };
    let mut cuts = 0;
    for length in (0..session.len()).step_by(every) {
        cuts += cut_everywhere(&session[..length]);
    }
    // Where the last step was a job made, opened, removed or brought back.
    for length in [151, 164, 165, 171, 172, 173, 334, 335] {
        cuts += cut_everywhere(&session[..length]);
    }
    assert!(cuts > 5_000, "{cuts} cuts");
}

#[test]
fn the_job_goes_on_as_if_the_card_had_been_there() {
    let session = sessions::ledger();
    let (blocks, before) = worked_on(&session[..140]);
    let (_, blocks) = taken_in(&blocks);
    let mut world = with_begun(&before);
    let mut site = Site::<Ledger>::open(Card::of(blocks)).unwrap();
    // More keys than both rings hold: what the card's own job had in them lies in slots.
    for step in session[..150].iter().chain(&session[174..330]) {
        site.play(step).unwrap();
        world = world.after(step);
    }
    let (seen, _) = found::<Ledger>(&Card::of(site.blocks())).unwrap();
    is_either(&seen, [&world, &world]).unwrap();
}

#[test]
fn a_blank_card_is_set_up_with_the_job_on_it() {
    let (writes, blocks) = taken_in(&Blocks::default());
    let mut after = World::new();
    after.jobs.insert(0, (begun(), false));
    after.place = PLACE.to_vec();
    let (world, _) = found::<Ledger>(&Card::of(blocks)).unwrap();
    is_either(&world, [&after, &after]).unwrap();
    for (turn, written) in writes.iter().enumerate() {
        let old = written.before.get(written.at);
        for way in torn(&old, &written.new, 170, turn as u64) {
            let card = spoiled(written, &way);
            let mut journal = Journal::new(card);
            let mut kept = Ledger::default();
            let opened = journal.open_or_set_up(OURS, &mut kept);
            match opened {
                Ok(opening) => assert!(opening.missing.is_none() && opening.lost.is_none()),
                // The first head is neither blank nor whole.
                Err(fault) => assert_eq!((fault, turn), (Fault::Damaged, 0)),
            }
            assert!(kept.0.is_empty() || kept == begun(), "write {turn}");
        }
    }
}

/// A card that is full of jobs, or not whole, or whose blocks mean something else.
#[test]
fn a_card_that_cannot_take_it_stays_as_it_is() {
    let mut full = Site::<Ledger>::set_up(Card::default());
    for job in 1..16 {
        full.play(&Step::Make(vec![job])).unwrap();
    }
    let (whole, _) = worked_on(&sessions::ledger()[..164]);
    let slot_of = |region: u32, job: u32| region * 8192 + 256 + job * 32;
    let spoiled = |at: u32| {
        let mut damaged = whole.clone();
        damaged.put(at, &[7; 512]);
        damaged
    };
    let unread = |at: u32| {
        let mut damaged = whole.clone();
        damaged.lose(at);
        damaged
    };
    let cannot = Fault::Store(StoreError::Read);
    let mut strange = Blocks::default();
    strange.put(0, &[1; 512]);
    strange.put(8192, &[1; 512]);
    let cards = [
        (full.blocks(), Fault::JobsFull),
        (spoiled(0), Fault::Damaged),
        (spoiled(8192), Fault::Damaged),
        (spoiled(slot_of(0, 0)), Fault::Damaged),
        (spoiled(slot_of(1, 0) + 1), Fault::Damaged),
        // The newest record is among these.
        (unread(1), cannot),
        (unread(8192 + 128), cannot),
        (unread(slot_of(0, 5)), cannot),
        (unread(slot_of(0, 1) + 1), cannot),
        (strange, Fault::Damaged),
    ];
    for (blocks, fault) in cards {
        let mut journal = Journal::new(Card::of(blocks));
        let taken = journal.take_in(ANOTHER, &begun(), PLACE);
        assert_eq!(taken, Err(fault));
        assert!(journal.store().log.is_empty(), "{fault:?}: nothing written");
    }
    let mut gone = Journal::new(Card::of(whole));
    gone.store().mood = Mood::Gone;
    let no_card = Err(Fault::Store(StoreError::NoCard));
    assert_eq!(gone.take_in(ANOTHER, &begun(), PLACE), no_card);
}

/// A removed job gives way before a card is full.
#[test]
fn a_removed_job_gives_way() {
    let mut site = Site::<Ledger>::set_up(Card::default());
    for job in 1..16 {
        site.play(&Step::Make(vec![job])).unwrap();
    }
    site.play(&Step::Remove(5)).unwrap();
    let (_, blocks) = taken_in(&site.blocks());
    let (world, _) = found::<Ledger>(&Card::of(blocks)).unwrap();
    assert_eq!((world.open, world.jobs.len()), (5, 16));
    assert!(world.jobs[&5] == (begun(), false));
}

/// The card is pulled after so many blocks, and comes back: the job is there once, as it
/// is by then.
#[test]
fn taken_in_again_it_is_there_once() {
    let (blocks, before) = worked_on(&sessions::ledger()[..172]);
    let (writes, _) = taken_in(&blocks);
    for written in &writes {
        let mut journal = Journal::new(Card::of(blocks.clone()));
        journal.take_in(ANOTHER, &begun(), PLACE).unwrap();
        *journal.store() = Card::of(written.before.clone());
        let mut longer = begun();
        longer.apply(b"one more").unwrap();
        journal.take_in(ANOTHER, &longer, PLACE).unwrap();
        let card = Card::of(journal.store().blocks.clone());
        let (world, _) = found::<Ledger>(&card).unwrap();
        let mut after = with_begun(&before);
        after.jobs.insert(after.open, (longer, false));
        is_either(&world, [&after, &after]).unwrap();
    }
}

/// Somebody has gone on with it meanwhile: what was keyed there stays.
#[test]
fn a_job_that_went_on_elsewhere_is_left_alone() {
    let (blocks, _) = worked_on(&sessions::ledger()[..172]);
    let mut journal = Journal::new(Card::of(blocks));
    journal.take_in(ANOTHER, &begun(), PLACE).unwrap();
    let blocks = journal.store().blocks.clone();
    let mut site = Site::<Ledger>::open(Card::of(blocks)).unwrap();
    let elsewhere = site.journal.job();
    site.play(&Step::Key {
        edits: b"elsewhere".to_vec(),
        place: Vec::new(),
    })
    .unwrap();
    *journal.store() = Card::of(site.blocks());
    journal.take_in(ANOTHER, &begun(), PLACE).unwrap();
    let card = Card::of(journal.store().blocks.clone());
    let (world, _) = found::<Ledger>(&card).unwrap();
    assert!(world.jobs[&elsewhere.get()].0 == site.kept);
    assert!(JobNumber::new(world.open) != Some(elsewhere));
    assert!(*world.kept() == begun());
}
