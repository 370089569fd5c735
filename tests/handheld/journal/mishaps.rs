//! Everything else that happens to cards: they are pulled, swapped, locked, worn;
//! they forget, complain for nothing, or say nothing.

use super::card::{Blocks, Card, Mood, Spoiled, groups, torn};
use super::crew::{Ledger, OURS, Site, Step, World, found, is_either, moments};
use super::sessions;
use crate::judges::dice::Dice;
use boltbay_handheld::journal::{
    BLOCK, Block, BlockStore, CardNumber, Fault, JobNumber, Journal, Kept, StoreError,
};
use std::collections::BTreeSet;

fn key(text: &str) -> Step {
    Step::Key {
        edits: text.as_bytes().to_vec(),
        place: b"here".to_vec(),
    }
}

/// A site with three keys on it, and what its crew has been shown.
fn begun() -> (Site<Ledger>, World<Ledger>) {
    let (mut site, mut world) = (Site::set_up(Card::default()), World::new());
    for text in ["one", "two", "three"] {
        site.play(&key(text)).unwrap();
        world = world.after(&key(text));
    }
    (site, world)
}

/// The card as it is now, well again.
fn again(site: &mut Site<Ledger>) -> World<Ledger> {
    found(&Card::of(site.blocks())).unwrap().0
}

/// How a card may be, and what a key then gets.
const MOODS: [(Mood, Result<(), Fault>); 7] = [
    (Mood::Gone, Err(Fault::Store(StoreError::NoCard))),
    (Mood::Locked, Err(Fault::Store(StoreError::Protected))),
    (Mood::Refusing, Err(Fault::Store(StoreError::Write))),
    (Mood::Dropping, Err(Fault::NotKept)),
    (Mood::Complaining, Ok(())),
    (Mood::Shaky, Ok(())),
    (Mood::Well, Ok(())),
];

#[test]
fn a_key_is_accepted_exactly_where_it_is_on_the_card() {
    for (mood, expected) in MOODS {
        let (mut site, before) = begun();
        let after = before.after(&key("four"));
        site.journal.store().mood = mood;
        assert_eq!(site.play(&key("four")), expected, "{mood:?}");
        let there = again(&mut site);
        assert_eq!(
            there,
            if expected.is_ok() {
                after
            } else {
                before.clone()
            },
            "{mood:?}"
        );
        // Well again: the next key goes where the refused one would have gone.
        site.journal.store().mood = Mood::Well;
        let before = there.after(&key("five"));
        site.play(&key("five")).unwrap();
        assert_eq!(again(&mut site), before, "{mood:?}");
    }
}

/// A refused key may lie on the card all the same: until the next one is accepted
/// the job has it or has it not, and after that never.
#[test]
fn a_refused_key_never_comes_back_later() {
    let (mut site, before) = begun();
    site.journal.store().mood = Mood::Blind;
    let refused = site.journal.record(b"refused", b"there");
    assert!(refused.is_err());
    site.journal.store().mood = Mood::Well;
    let after = before.after(&Step::Key {
        edits: b"refused".to_vec(),
        place: b"there".to_vec(),
    });
    is_either(&again(&mut site), [&before, &after]).unwrap();
    // Whatever comes next, key or job, it is gone.
    for next in [key("four"), Step::Make(b"other".to_vec())] {
        let mut site = Site {
            journal: Journal::new(Card::of(site.blocks())),
            kept: Ledger::default(),
        };
        site.journal.open(&mut site.kept).unwrap();
        let (mut limbo, _) = begun();
        limbo.journal.store().mood = Mood::Blind;
        assert!(limbo.journal.record(b"refused", b"there").is_err());
        limbo.journal.store().mood = Mood::Well;
        limbo.play(&next).unwrap();
        is_either(&again(&mut limbo), [&before.after(&next); 2]).unwrap();
    }
}

#[test]
fn another_card_is_left_alone() {
    let (mut site, world) = begun();
    let ours = site.blocks();
    let mut journal = Journal::new(Card::default());
    journal
        .set_up(CardNumber(*b"card two"), &mut Ledger::default())
        .unwrap();
    let fault = Fault::OtherCard;
    for swapped in [journal.store().blocks.clone(), Blocks::default()] {
        site.journal.store().blocks = swapped;
        site.journal.store().log.clear();
        assert_eq!(site.play(&key("four")), Err(fault));
        assert_eq!(site.play(&Step::Make(b"new".to_vec())), Err(fault));
        assert!(site.journal.store().log.is_empty());
        site.journal.store().blocks = ours.clone();
        site.journal.open(&mut site.kept).unwrap();
        assert_eq!(again(&mut site), world);
    }
    site.play(&key("four")).unwrap();
    assert_eq!(again(&mut site), world.after(&key("four")));
}

/// CRC-32C a bit at a time. Source: RFC 3720, 12.1 (polynomial 0x1EDC6F41,
/// reflected here).
fn crc32c(bytes: &[u8]) -> u32 {
    let mut crc = u32::MAX;
    for byte in bytes {
        crc ^= u32::from(*byte);
        for _ in 0..8 {
            crc = (crc >> 1) ^ if crc & 1 == 1 { 0x82F6_3B78 } else { 0 };
        }
    }
    !crc
}

/// The same block, with this byte changed and sealed anew.
fn resealed(block: &Block, at: usize, byte: u8) -> Block {
    let mut block = *block;
    block[at] = byte;
    let crc = crc32c(&block[..BLOCK - 4]);
    block[BLOCK - 4..].copy_from_slice(&crc.to_le_bytes());
    block
}

#[test]
fn blocks_end_in_the_published_crc() {
    // Source: RFC 3720, B.4: 32 bytes of zeros, of ones, 0 to 31.
    assert_eq!(crc32c(&[0; 32]), 0x8A91_36AA);
    assert_eq!(crc32c(&[0xFF; 32]), 0x62A8_AB43);
    let counted: Vec<u8> = (0..32).collect();
    assert_eq!(crc32c(&counted), 0x46DD_794E);
    let (mut site, _) = begun();
    let blocks = site.blocks();
    // The head, two records, the head of a slot.
    for at in [0, 2, 8192 + 2, 256] {
        let block = blocks.get(at);
        assert_eq!(resealed(&block, 4, block[4]), block, "block {at}");
        assert_eq!(block[4], 1, "version, block {at}");
    }
}

#[test]
fn what_is_no_journal_of_ours_is_said() {
    let open = |blocks: &Blocks| Site::<Ledger>::open(Card::of(blocks.clone())).err();
    assert_eq!(open(&Blocks::default()), Some(Fault::NoJournal));
    let mut noise = Blocks::default();
    noise.spoil_group(0, 16_384, 5);
    assert_eq!(open(&noise), Some(Fault::NoJournal));

    let (mut site, world) = begun();
    let blocks = site.blocks();
    let mut one_head = blocks.clone();
    one_head.lose(0);
    assert_eq!(open(&one_head), None);
    assert_eq!(
        found::<Ledger>(&Card::of(one_head.clone())).unwrap().0,
        world
    );
    let mut headless = one_head;
    headless.put(8192, &[0; BLOCK]);
    assert_eq!(open(&headless), Some(Fault::Damaged));

    let mut newer = blocks.clone();
    for head in [0, 8192] {
        newer.put(head, &resealed(&blocks.get(head), 4, 2));
    }
    assert_eq!(open(&newer), Some(Fault::OtherVersion(2)));

    let mut journal = Journal::new(Card::default());
    assert_eq!(journal.record(b"early", b""), Err(Fault::NotOpen));
    assert_eq!(journal.tend(&Ledger::default()), Err(Fault::NotOpen));
}

/// A card with fewer blocks.
struct Short(Card);

impl BlockStore for Short {
    fn blocks(&self) -> u32 {
        self.0.blocks() - 1
    }

    fn read(&mut self, at: u32, block: &mut Block) -> Result<(), StoreError> {
        self.0.read(at, block)
    }

    fn write(&mut self, at: u32, block: &Block) -> Result<(), StoreError> {
        self.0.write(at, block)
    }
}

#[test]
fn a_short_file_is_said() {
    let mut kept = Ledger::default();
    let mut journal = Journal::new(Short(Card::default()));
    assert_eq!(journal.set_up(OURS, &mut kept), Err(Fault::TooSmall));
    assert_eq!(journal.open(&mut kept).err(), Some(Fault::TooSmall));
}

/// A locked card can be read; what needs repair there is not, and no key is
/// accepted.
#[test]
fn a_locked_card_can_be_read() {
    let (mut site, world) = begun();
    let mut card = Card::of(site.blocks());
    card.mood = Mood::Locked;
    let (mut journal, mut kept) = (Journal::new(card), Ledger::default());
    journal.open(&mut kept).unwrap();
    assert_eq!(&kept, world.kept());
    let protected = Fault::Store(StoreError::Protected);
    assert_eq!(journal.read_only(), Some(protected));
    assert_eq!(journal.record(b"four", b""), Err(protected));
    journal.store().mood = Mood::Well;
    journal.open(&mut kept).unwrap();
    assert_eq!(journal.read_only(), None);
    assert_eq!(journal.record(b"four", b""), Ok(()));
}

/// Power goes while a card is being set up: it has its old journal, the new one,
/// or none.
#[test]
fn setting_up_is_all_or_nothing() {
    let mut old = Site::<Ledger>::set_up(Card::default());
    old.play(&key("old")).unwrap();
    let old_world = World::new().after(&key("old"));
    let new_world = World::<Ledger>::new();
    for (blocks, has_old) in [(Blocks::default(), false), (old.blocks(), true)] {
        let (mut journal, mut kept) = (Journal::new(Card::of(blocks)), Ledger::default());
        journal.set_up(CardNumber(*b"card new"), &mut kept).unwrap();
        let log = std::mem::take(&mut journal.store().log);
        assert!(log.len() >= 6, "{}", log.len());
        for (turn, written) in log.iter().enumerate() {
            let before = written.before.get(written.at);
            let mut ways = torn(&before, &written.new, 128, turn as u64);
            ways.extend(groups(turn as u64).into_iter().take(3));
            for way in ways {
                let mut card = Card::of(written.before.clone());
                way.apply(&mut card.blocks, written.at);
                match found::<Ledger>(&card) {
                    Ok((world, _)) if has_old => {
                        is_either(&world, [&old_world, &new_world]).unwrap();
                    }
                    Ok((world, _)) => is_either(&world, [&new_world; 2]).unwrap(),
                    Err(how) => assert!(!has_old && how == "NoJournal", "{how}"),
                }
            }
        }
    }
}

/// The card forgets some of the last eight writes that it had acknowledged, not
/// always the very last. The crew finds a job that it was shown, or is told how
/// many entries are missing.
#[test]
fn what_a_card_forgets_is_never_another_job() {
    let moments = moments::<Ledger>(Card::default(), &sessions::ledger()).unwrap();
    let mut dice = Dice::new(8);
    let mut short = 0;
    for end in (8..moments.len()).step_by(3) {
        let last = &moments[end - 8..end];
        for _ in 0..6 {
            let mut card = Card::of(moments[end].written.before.clone());
            let mut forgotten = BTreeSet::new();
            for moment in last {
                let at = moment.written.at;
                // Records only: a slot is written in both regions at once only
                // where a job is left, and no card can be asked to keep one of
                // two that it forgets.
                let in_ring = (1..129).contains(&(at % 8192));
                if in_ring && dice.chance(1, 3) && forgotten.insert(at) {
                    card.blocks.put(at, &moment.written.before.get(at));
                }
            }
            let (mut journal, mut kept) = (Journal::new(card), Ledger::default());
            let opening = journal.open(&mut kept).unwrap();
            let shown = last.iter().any(|moment| {
                [&moment.before, &moment.after]
                    .iter()
                    .filter_map(|world| world.jobs.get(&opening.job.get()))
                    .any(|(job, _)| *job == kept)
            });
            assert!(shown || opening.missing.is_some(), "{end}: {opening:?}");
            short += usize::from(kept != *last[7].after.kept());
        }
    }
    assert!(
        short > 20,
        "only {short} cards forgot something that mattered"
    );
}

/// So many records are gone that repeats do not reach: what is left is the job
/// before them, and the crew is told how much is missing.
#[test]
fn a_gap_is_counted() {
    let mut site = Site::<Ledger>::set_up(Card::default());
    for turn in 0..100_u8 {
        site.play(&key(&format!("reading {turn}"))).unwrap();
    }
    let mut blocks = site.blocks();
    // The records of keys 21 to 70: number 1 made the job.
    for number in 22..=71_u32 {
        blocks.lose(if number % 2 == 0 { 1 } else { 8193 } + number / 2);
    }
    let (mut journal, mut kept) = (Journal::new(Card::of(blocks)), Ledger::default());
    let missing = journal.open(&mut kept).unwrap().missing.unwrap();
    assert_eq!(kept.0, site.kept.0[..20]);
    assert_eq!(
        missing.kept - 1,
        20,
        "the first edit of a job is its making"
    );
    assert_eq!(missing.count, 80);
    // Said once: from then on the job is what was left, and goes on.
    journal.record(b"more", b"").unwrap();
    kept.apply(b"more").unwrap();
    let mut back = Site::<Ledger>::open(Card::of(journal.store().blocks.clone())).unwrap();
    assert_eq!(back.kept, kept);
    assert_eq!(back.journal.open(&mut back.kept).unwrap().missing, None);
}

/// Both slots of a job are gone, which no single mishap does: the job worked on
/// before is opened instead, and which one is lost is said.
#[test]
fn a_lost_job_does_not_lock_the_others() {
    let (mut site, _) = begun();
    site.play(&Step::Make(b"second".to_vec())).unwrap();
    site.play(&key("more")).unwrap();
    let mut blocks = site.blocks();
    for region in [0, 8192] {
        Spoiled::Group(32, 4).apply(&mut blocks, region + 256 + 32);
    }
    let (mut journal, mut kept) = (Journal::new(Card::of(blocks.clone())), Ledger::default());
    let opening = journal.open(&mut kept).unwrap();
    assert_eq!(opening.lost, JobNumber::new(1));
    assert_eq!(opening.job, JobNumber::FIRST);
    assert_eq!(kept.0.len(), 3);
    assert_eq!(journal.record(b"four", b""), Ok(()));

    for region in [0, 8192] {
        Spoiled::Group(32, 4).apply(&mut blocks, region + 256);
    }
    let none = Journal::new(Card::of(blocks)).open(&mut kept).err();
    assert_eq!(none, Some(Fault::Unreadable));
}

/// Without [`Journal::tend`] a ring would run over edits that no slot holds: the
/// key is refused instead.
#[test]
fn a_ring_never_runs_over_what_no_slot_holds() {
    let mut site = Site::<Ledger>::set_up(Card::default());
    let mut accepted = 0;
    let fault = loop {
        match site.journal.record(b"x", b"") {
            Ok(()) => accepted += 1,
            Err(fault) => break fault,
        }
        site.kept.apply(b"x").unwrap();
    };
    assert_eq!(fault, Fault::TendFirst);
    assert!(accepted > 200, "{accepted}");
    assert_eq!(again(&mut site).kept(), &site.kept);
    assert_eq!(site.journal.tend(&site.kept), Ok(true));
    assert_eq!(site.journal.tend(&site.kept), Ok(false));
    assert_eq!(site.journal.record(b"x", b""), Ok(()));
}

/// A slot that could not be written leaves its region without one: no key is
/// accepted until it is there again, and nothing is lost meanwhile.
#[test]
fn a_slot_that_fails_holds_up_the_next_key() {
    let mut site = Site::<Ledger>::set_up(Card::default());
    let due = loop {
        site.journal.record(b"x", b"").unwrap();
        site.kept.apply(b"x").unwrap();
        if site.kept.0.len() > 130 {
            break site.kept.0.len();
        }
    };
    site.journal.store().mood = Mood::Dropping;
    assert_eq!(site.journal.tend(&site.kept), Err(Fault::NotKept));
    site.journal.store().mood = Mood::Well;
    assert_eq!(site.journal.record(b"x", b""), Err(Fault::TendFirst));
    assert_eq!(again(&mut site).kept().0.len(), due);
    assert_eq!(site.journal.tend(&site.kept), Ok(true));
    assert_eq!(site.journal.record(b"x", b""), Ok(()));
    site.kept.apply(b"x").unwrap();
    assert_eq!(again(&mut site).kept(), &site.kept);
}
