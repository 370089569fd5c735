//! Files in the root of the card: job cards in, plans out, and the journal's file.
//!
//! Rule: a file is written where nothing lies yet, then its clusters are taken, then one
//! block, the one with its entry, makes it be there; only then goes what was there
//! before. So power that goes, or a card that is pulled, leaves the old file or the new
//! one, and at worst some room that nobody uses. Nothing stays open between two calls,
//! and nothing is remembered of a card but where to look for room.

use super::folder::{self, Entry, Letters};
use super::table::Table;
use super::volume;
use super::{CardBlocks, CardFault};
use boltbay_handheld::journal::{self, STORE_BLOCKS};
use core::cell::Cell;
use core::fmt;
use core::ops::ControlFlow;
use embedded_sdmmc::Block;
use heapless::String;

/// The file that holds the journal.
pub const JOURNAL: &str = "BOLTBAY.JNL";
/// How job cards end.
const CARD: &[u8] = b"CSV";
/// Bytes of the journal's file.
const JOURNAL_BYTES: u32 = STORE_BLOCKS * Block::LEN_U32;
/// Letters of a name before its dot.
const STEM: usize = 8;
/// Most bytes of a file that is written, and as many must be free side by side: by a
/// test twice what the longest plan of the demo cards has.
pub const FILE_BYTES: u32 = 64 << 10;

/// The name of a file: eight letters, a dot, three letters.
pub type Name = String<12, u8>;

/// The files of a card.
pub struct Files<C: CardBlocks> {
    card: C,
    /// Where room was found last.
    near: Cell<u32>,
}

impl<C: CardBlocks> Files<C> {
    /// Of the card in this slot, whenever there is one.
    pub const fn on(card: C) -> Files<C> {
        Files {
            card,
            near: Cell::new(0),
        }
    }

    /// The slot itself.
    pub const fn card(&self) -> &C {
        &self.card
    }

    /// Identifies whatever card is there now.
    ///
    /// # Errors
    /// There is none.
    pub fn wake(&self) -> Result<(), CardFault> {
        self.near.set(0);
        match self.card.wake() {
            true => Ok(()),
            false => Err(CardFault::NoCard),
        }
    }

    /// Whether the card that was identified last is still there, or any answers.
    ///
    /// # Errors
    /// It is not there, or cannot be read.
    pub fn is_here(&self) -> Result<(), CardFault> {
        volume::read(&self.card, 0, &mut Block::new())
    }

    /// Names and sizes of the job cards, in the order of the folder.
    ///
    /// # Errors
    /// The card does not answer, or cannot be read.
    pub fn job_cards(&self, mut each: impl FnMut(Name, u32)) -> Result<(), CardFault> {
        let mut block = Block::new();
        folder::entries(&mut Table::of(&self.card, &mut block)?, |entry| {
            if entry.letters.ends_with(CARD) && !entry.is_folder {
                each(name(&entry.letters), entry.length);
            }
            ControlFlow::Continue(())
        })
    }

    /// Reads a file from its beginning; stops where `each` has had enough.
    ///
    /// # Errors
    /// No such file, or it cannot be read.
    pub fn read(
        &self,
        name: &str,
        mut each: impl FnMut(&[u8]) -> ControlFlow<()>,
    ) -> Result<(), CardFault> {
        let mut block = Block::new();
        let mut table = Table::of(&self.card, &mut block)?;
        let file = folder::find(&mut table, &letters(name)?)?;
        let (mut left, mut cluster) = (file.length as usize, file.cluster);
        while left > 0 {
            if !table.volume.has(cluster) {
                return Err(CardFault::Read);
            }
            let first = table.volume.block_of(cluster);
            let last = first + table.volume.blocks_a_cluster;
            let block = table.lend()?;
            for at in first..last {
                volume::read(&self.card, at, block)?;
                let bytes = block.contents.get(..left).unwrap_or(&block.contents);
                left -= bytes.len();
                if each(bytes).is_break() || left == 0 {
                    return Ok(());
                }
            }
            cluster = table.next(cluster)?.unwrap_or_default();
        }
        Ok(())
    }

    /// Writes a file anew.
    ///
    /// # Errors
    /// The card is full, or cannot be written: the file is then what it was before.
    pub fn write(
        &self,
        name: &str,
        fill: impl FnOnce(&mut dyn fmt::Write) -> fmt::Result,
    ) -> Result<(), CardFault> {
        let put = self.put(name, FILE_BYTES, |block, first| {
            let mut pen = Pen {
                card: &self.card,
                block,
                at: first,
                length: 0,
                failed: None,
            };
            // The pen says better why it failed.
            let _ = fill(&mut pen);
            pen.finish()
        });
        put.map(drop)
    }

    /// The first block of the journal's file, made where there is none; `making` hears
    /// of that first.
    ///
    /// # Errors
    /// There is no card, no room on it, or the file is short or lies in pieces.
    pub fn journal(&self, making: impl FnOnce()) -> Result<u32, CardFault> {
        let mut block = Block::new();
        let mut table = Table::of(&self.card, &mut block)?;
        let found = folder::find(&mut table, &letters(JOURNAL)?);
        let first = match found {
            Ok(file) if file.length >= JOURNAL_BYTES => file.cluster,
            // Not ours to write over.
            Ok(file) if file.length > 0 => return Err(CardFault::TooShort),
            Ok(_) | Err(CardFault::NoFile) => {
                making();
                self.make_journal()?
            }
            Err(fault) => return Err(fault),
        };
        let mut table = Table::of(&self.card, &mut block)?;
        let clusters = table.volume.clusters_of(JOURNAL_BYTES);
        match table.is_one_piece(first, clusters)? {
            true => Ok(table.volume.block_of(first)),
            false => Err(CardFault::InPieces),
        }
    }

    /// Makes the journal's file. Blank are only those blocks that a journal may be taken
    /// for another one by.
    fn make_journal(&self) -> Result<u32, CardFault> {
        self.put(JOURNAL, JOURNAL_BYTES, |blank, first| {
            for block in journal::must_be_blank() {
                volume::write(&self.card, first + block, blank)?;
            }
            Ok(JOURNAL_BYTES)
        })
    }

    /// Puts a file whole: `fill` gets a blank block of memory and the first of blocks that
    /// hold `room` bytes, and says how many it has filled. The file's first cluster.
    fn put(
        &self,
        name: &str,
        room: u32,
        fill: impl FnOnce(&mut Block, u32) -> Result<u32, CardFault>,
    ) -> Result<u32, CardFault> {
        let letters = letters(name)?;
        let mut block = Block::new();
        let mut table = Table::of(&self.card, &mut block)?;
        let clusters = table.volume.clusters_of(room);
        let before = folder::find(&mut table, &letters);
        let (place, old) = match before {
            Ok(Entry { place, cluster, .. }) => (place, cluster),
            Err(CardFault::NoFile) => {
                // The folder may want a cluster too.
                table.find_room(self.near.get(), clusters + 1)?;
                (folder::free_place(&mut table)?, 0)
            }
            Err(fault) => return Err(fault),
        };
        let first = table.find_room(self.near.get(), clusters)?;
        let at = table.volume.block_of(first);
        let length = fill(table.lend()?, at)?;
        let taken = table.volume.clusters_of(length);
        // A file without bytes has no cluster.
        let cluster = if taken > 0 { first } else { 0 };
        table.take(first, taken)?;
        folder::put(&self.card, place, &letters, cluster, length)?;
        self.near.set(first + taken);
        table.give_back(old)?;
        // What was counted is for others: the file is there.
        let _ = table.count();
        Ok(first)
    }
}

/// A name as it lies on the card.
fn letters(name: &str) -> Result<Letters, CardFault> {
    let mut letters = [b' '; 11];
    let (stem, ending) = name.split_once('.').unwrap_or((name, ""));
    let (to_stem, to_ending) = letters.split_at_mut(STEM);
    for (to, from) in [(to_stem, stem), (to_ending, ending)] {
        let to = to.get_mut(..from.len()).ok_or(CardFault::NoFile)?;
        to.copy_from_slice(from.as_bytes());
    }
    Ok(letters)
}

/// And back.
fn name(letters: &Letters) -> Name {
    let mut name = Name::new();
    for (at, letter) in letters.iter().enumerate() {
        if at == STEM {
            let _ = name.push('.');
        }
        if *letter != b' ' {
            let _ = name.push(char::from(*letter));
        }
    }
    name
}

/// Text into blocks that follow each other.
struct Pen<'c, C: CardBlocks> {
    card: &'c C,
    block: &'c mut Block,
    /// Where the block being filled will go.
    at: u32,
    /// Bytes so far.
    length: u32,
    failed: Option<CardFault>,
}

impl<C: CardBlocks> Pen<'_, C> {
    fn put(&mut self, byte: u8) -> Result<(), CardFault> {
        if self.length == FILE_BYTES {
            return Err(CardFault::Full);
        }
        let at = (self.length % Block::LEN_U32) as usize;
        if let Some(place) = self.block.contents.get_mut(at) {
            *place = byte;
        }
        self.length += 1;
        match self.length.is_multiple_of(Block::LEN_U32) {
            true => self.send(),
            false => Ok(()),
        }
    }

    fn send(&mut self) -> Result<(), CardFault> {
        volume::write(self.card, self.at, self.block)?;
        self.at += 1;
        self.block.contents.fill(0);
        Ok(())
    }

    /// Writes what is left over; how many bytes there are.
    fn finish(mut self) -> Result<u32, CardFault> {
        if self.failed.is_none() && !self.length.is_multiple_of(Block::LEN_U32) {
            self.failed = self.send().err();
        }
        self.failed.map_or(Ok(self.length), Err)
    }
}

impl<C: CardBlocks> fmt::Write for Pen<'_, C> {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        for byte in text.bytes() {
            if self.failed.is_none() {
                self.failed = self.put(byte).err();
            }
        }
        match self.failed {
            None => Ok(()),
            Some(_) => Err(fmt::Error),
        }
    }
}
