//! A card in memory that remembers what was written, and spoils it on demand.

use crate::judges::dice::Dice;
use boltbay_handheld::journal::{BLOCK, Block, BlockStore, STORE_BLOCKS, StoreError};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::rc::Rc;

/// What lies on a card.
#[derive(Clone, Default)]
pub struct Blocks {
    written: BTreeMap<u32, Rc<Block>>,
    /// Stretches of garbage, by seed.
    garbage: Vec<(Range<u32>, u64)>,
    unreadable: BTreeSet<u32>,
}

/// A block of garbage.
pub fn garbage(seed: u64) -> Block {
    let mut dice = Dice::new(seed);
    let mut block = [0; BLOCK];
    for part in block.chunks_exact_mut(8) {
        part.copy_from_slice(&dice.bits().to_le_bytes());
    }
    block
}

impl Blocks {
    pub fn get(&self, at: u32) -> Block {
        if let Some(block) = self.written.get(&at) {
            return **block;
        }
        let mut spoiled = self.garbage.iter().rev();
        let spoiled = spoiled.find(|(stretch, _)| stretch.contains(&at));
        spoiled.map_or([0; BLOCK], |(_, seed)| garbage(seed ^ u64::from(at)))
    }

    pub fn put(&mut self, at: u32, block: &Block) {
        self.written.insert(at, Rc::new(*block));
        self.unreadable.remove(&at);
    }

    /// Every block that was ever written.
    pub fn used(&self) -> Vec<u32> {
        self.written.keys().copied().collect()
    }

    /// Nothing can be read here until it is written again.
    pub fn lose(&mut self, at: u32) {
        self.unreadable.insert(at);
    }

    /// The aligned group of so many blocks around `at` turns to garbage.
    pub fn spoil_group(&mut self, at: u32, group: u32, seed: u64) {
        let start = at - at % group;
        let stretch = start..start + group;
        self.written.retain(|block, _| !stretch.contains(block));
        self.garbage.push((stretch, seed));
    }
}

/// One block written.
#[derive(Clone)]
pub struct Written {
    /// Where.
    pub at: u32,
    /// The card before.
    pub before: Blocks,
    /// What was to be written.
    pub new: Block,
}

/// How a card takes writes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Mood {
    #[default]
    Well,
    /// No card any more.
    Gone,
    /// Write-protected.
    Locked,
    /// Errors, and nothing is written.
    Refusing,
    /// Errors, although everything is written.
    Complaining,
    /// No errors, and nothing is written.
    Dropping,
    /// Everything is written, and nothing can be read back.
    Blind,
    /// Errors on every third read and write, and nothing is written then.
    Shaky,
}

/// Planted bugs: what a journal would do to a card if it were wrong.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Quirk {
    #[default]
    None,
    /// Every block is written into both regions at once.
    BothAtOnce,
    /// Both rings lie in the front region.
    OneRegion,
    /// Every record goes where the one before it is.
    SameBlock,
    /// The block written last is not on the card yet.
    Forgetful,
    /// What was written last is given back as if it lay where it should.
    Trusting,
}

/// A card.
#[derive(Clone, Default)]
pub struct Card {
    pub blocks: Blocks,
    pub log: Vec<Written>,
    pub mood: Mood,
    pub quirk: Quirk,
    pub reads: usize,
    pub turn: usize,
    /// The next write goes here instead.
    pub astray: Option<u32>,
}

const REGION: u32 = STORE_BLOCKS / 2;
const RING: Range<u32> = 1..129;

impl Card {
    pub fn of(blocks: Blocks) -> Card {
        Card {
            blocks,
            ..Card::default()
        }
    }

    /// Where a block really goes.
    fn place(&self, at: u32) -> u32 {
        let in_ring = RING.contains(&(at % REGION));
        match self.quirk {
            Quirk::OneRegion if at >= REGION => at - REGION + 4096,
            Quirk::SameBlock if in_ring => RING.start,
            _ => at,
        }
    }

    /// The blocks that one write spoils when power goes.
    pub fn written_with(&self, at: u32) -> Vec<u32> {
        match self.quirk {
            Quirk::BothAtOnce => vec![at, (at + REGION) % STORE_BLOCKS],
            _ => vec![at],
        }
    }

    /// Every third time, for a shaky card.
    fn slips(&mut self) -> bool {
        self.turn += 1;
        self.mood == Mood::Shaky && self.turn.is_multiple_of(3)
    }
}

impl BlockStore for Card {
    fn blocks(&self) -> u32 {
        STORE_BLOCKS
    }

    fn read(&mut self, at: u32, block: &mut Block) -> Result<(), StoreError> {
        let at = self.place(at);
        self.reads += 1;
        if self.mood == Mood::Gone {
            return Err(StoreError::NoCard);
        }
        let blind = self.mood == Mood::Blind && !self.log.is_empty();
        if self.slips() || blind || self.blocks.unreadable.contains(&at) {
            *block = garbage(self.turn as u64);
            return Err(StoreError::Read);
        }
        let last = self.log.last().filter(|last| last.at == at);
        *block = match (self.quirk, last) {
            (Quirk::Trusting, Some(last)) => last.new,
            _ => self.blocks.get(at),
        };
        Ok(())
    }

    fn write(&mut self, at: u32, block: &Block) -> Result<(), StoreError> {
        let at = self.place(at);
        let slips = self.slips();
        match self.mood {
            Mood::Gone => return Err(StoreError::NoCard),
            Mood::Locked => return Err(StoreError::Protected),
            Mood::Refusing => return Err(StoreError::Write),
            Mood::Dropping => return Ok(()),
            _ if slips => return Err(StoreError::Write),
            _ => {}
        }
        let mut before = self.blocks.clone();
        if let (Quirk::Forgetful, Some(last)) = (self.quirk, self.log.last()) {
            before = last.before.clone();
        }
        let new = *block;
        self.log.push(Written { at, before, new });
        let goes = self.astray.take().unwrap_or(at);
        for at in self.written_with(goes) {
            self.blocks.put(at, block);
        }
        match self.mood {
            Mood::Complaining => Err(StoreError::Write),
            _ => Ok(()),
        }
    }
}

/// What may lie in a block after power went while it was being written.
#[derive(Clone)]
pub enum Spoiled {
    As(Box<Block>),
    Unreadable,
    /// The aligned group of so many blocks is garbage, by seed.
    Group(u32, u64),
}

impl Spoiled {
    pub fn apply(&self, blocks: &mut Blocks, at: u32) {
        match self {
            Spoiled::As(block) => blocks.put(at, block),
            Spoiled::Unreadable => blocks.lose(at),
            Spoiled::Group(group, seed) => blocks.spoil_group(at, *group, *seed),
        }
    }
}

/// `new` from the front, `old` behind, and the other way round.
fn mixes(old: &Block, new: &Block, step: usize) -> Vec<Block> {
    let mut mixes = Vec::new();
    for cut in (step..BLOCK).step_by(step) {
        for (front, back) in [(new, old), (old, new)] {
            let mut mix = *front;
            mix[cut..].copy_from_slice(&back[cut..]);
            mixes.push(mix);
        }
    }
    mixes
}

/// Some of the bits that differ have changed, some not.
fn some_bits(old: &Block, new: &Block, seed: u64) -> Block {
    let mask = garbage(seed);
    let mut mix = [0; BLOCK];
    for (at, byte) in mix.iter_mut().enumerate() {
        *byte = (old[at] & mask[at]) | (new[at] & !mask[at]);
    }
    mix
}

/// Only one of the bits that differ has changed, or all but one.
fn one_bit(old: &Block, new: &Block, seed: u64) -> [Block; 2] {
    let differing: Vec<(usize, u8)> = (0..BLOCK)
        .flat_map(|at| (0..8).map(move |bit| (at, 1 << bit)))
        .filter(|(at, bit)| (old[*at] ^ new[*at]) & bit != 0)
        .collect();
    let (mut one, mut but_one) = (*old, *new);
    if !differing.is_empty() {
        let (at, bit) = differing[seed as usize % differing.len()];
        one[at] ^= bit;
        but_one[at] ^= bit;
    }
    [one, but_one]
}

/// All that a single block may come to be: whole, torn every `step` bytes,
/// garbage, unreadable, some bits changed.
pub fn torn(old: &Block, new: &Block, step: usize, seed: u64) -> Vec<Spoiled> {
    let mut blocks = vec![*old, *new];
    blocks.extend(mixes(old, new, step));
    blocks.push(garbage(seed * 7 + 1));
    blocks.push(some_bits(old, new, seed * 5));
    blocks.extend(one_bit(old, new, seed));
    blocks.push([0; BLOCK]);
    blocks.push([0xFF; BLOCK]);
    let mut all: Vec<Spoiled> = blocks.into_iter().map(Box::new).map(Spoiled::As).collect();
    all.push(Spoiled::Unreadable);
    all
}

/// Groups of blocks that a card may handle as one: 4, 16, 128 KiB, 4 MiB.
/// Source: SD Physical Layer Simplified Specification 4.10, Tables 4-46 and 4-47, for
/// the largest (AU_SIZE); the others are flash pages and blocks, from memory.
pub fn groups(seed: u64) -> Vec<Spoiled> {
    [8, 32, 256, 8192]
        .map(|group| Spoiled::Group(group, seed))
        .to_vec()
}
