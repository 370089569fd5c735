//! Files in the root of the card: job cards in, plans out, and the journal's file.
//!
//! Rule: everything is closed again before anybody else has the card, so that pulling
//! it between two keys finds no file open.

use super::{CardBlocks, CardFault, chain};
use boltbay_handheld::journal::STORE_BLOCKS;
use core::cell::Cell;
use core::fmt;
use core::ops::ControlFlow;
use embedded_sdmmc::{
    Block, BlockCount, BlockDevice, BlockIdx, Directory, Error, Mode, ShortFileName, TimeSource,
    Timestamp, VolumeIdx, VolumeManager,
};
use heapless::String;

/// The file that holds the journal.
pub const JOURNAL: &str = "BOLTBAY.JNL";
/// How job cards end.
const CARD: &[u8] = b"CSV";
/// Bytes of the journal's file.
const JOURNAL_BYTES: u32 = STORE_BLOCKS * Block::LEN_U32;
/// Bytes read at a time.
const PIECE: usize = 64;

/// The name of a file: eight letters, a dot, three letters.
pub type Name = String<12, u8>;

/// Folders and files that are open at the same time.
const OPEN: usize = 1;

/// A card that remembers which block was read last, because no other way says where a
/// file is; and that refuses blocks behind its partition, because the file library goes
/// on there when the partition is full.
pub struct Spy<C> {
    card: C,
    last: Cell<u32>,
    /// First block behind the partition.
    end: Cell<u32>,
    /// A block behind it was refused.
    is_full: Cell<bool>,
}

impl<C: CardBlocks> BlockDevice for Spy<C> {
    type Error = C::Error;

    fn read(&self, blocks: &mut [Block], at: BlockIdx) -> Result<(), C::Error> {
        self.last.set(at.0);
        self.card.read(blocks, at)
    }

    fn write(&self, blocks: &[Block], at: BlockIdx) -> Result<(), C::Error> {
        if at.0 >= self.end.get() {
            self.is_full.set(true);
            return Err(self.card.refusal());
        }
        self.card.write(blocks, at)
    }

    fn num_blocks(&self) -> Result<BlockCount, C::Error> {
        self.card.num_blocks()
    }
}

/// The board has no calendar: every file is of the same day.
pub struct NoCalendar;

impl TimeSource for NoCalendar {
    fn get_timestamp(&self) -> Timestamp {
        Timestamp {
            year_since_1970: 56,
            zero_indexed_month: 0,
            zero_indexed_day: 0,
            hours: 0,
            minutes: 0,
            seconds: 0,
        }
    }
}

/// The files of a card.
pub struct Files<C: CardBlocks> {
    volumes: VolumeManager<Spy<C>, NoCalendar, OPEN, OPEN, 1>,
}

type Folder<'a, C> = Directory<'a, Spy<C>, NoCalendar, OPEN, OPEN, 1>;

impl<C: CardBlocks> Files<C> {
    /// Of the card in this slot, whenever there is one.
    pub fn on(card: C) -> Files<C> {
        let spy = Spy {
            card,
            last: Cell::new(0),
            end: Cell::new(u32::MAX),
            is_full: Cell::new(false),
        };
        Files {
            volumes: VolumeManager::new_with_limits(spy, NoCalendar, 0),
        }
    }

    /// Does something with the slot itself.
    pub fn with_card<R>(&self, work: impl FnOnce(&C) -> R) -> R {
        self.volumes.device(|spy| work(&spy.card))
    }

    /// Identifies whatever card is there now.
    ///
    /// # Errors
    /// There is none.
    pub fn wake(&self) -> Result<(), CardFault> {
        self.volumes.device(|spy| {
            if !spy.card.wake() {
                return Err(CardFault::NoCard);
            }
            // What is no volume says so when it is opened.
            spy.end.set(chain::end(&spy.card).unwrap_or(u32::MAX));
            Ok(())
        })
    }

    fn fault(&self, error: &Error<C::Error>, otherwise: CardFault) -> CardFault {
        match self.volumes.device(|spy| spy.is_full.take()) {
            true => CardFault::Full,
            false => self.with_card(|card| CardFault::of(card, error, otherwise)),
        }
    }

    /// Works in the root folder, which is closed again in any case.
    fn in_root<R>(
        &self,
        otherwise: CardFault,
        work: impl FnOnce(&Folder<'_, C>) -> Result<R, Error<C::Error>>,
    ) -> Result<R, CardFault> {
        let done = self.volumes.open_volume(VolumeIdx(0)).and_then(|volume| {
            let root = volume.open_root_dir()?;
            let done = work(&root);
            let closed = root.close().and_then(|()| volume.close());
            // The first thing that went wrong says most.
            done.and_then(|done| closed.map(|()| done))
        });
        done.map_err(|error| self.fault(&error, otherwise))
    }

    /// Names and sizes of the job cards, in the order of the folder.
    ///
    /// # Errors
    /// The card does not answer, or cannot be read.
    pub fn job_cards(&self, mut each: impl FnMut(Name, u32)) -> Result<(), CardFault> {
        self.in_root(CardFault::Read, |root| {
            root.iterate_dir(|entry| {
                let is_file = !entry.attributes.is_directory() && !entry.attributes.is_volume();
                if is_file && entry.name.extension() == CARD {
                    each(name(&entry.name), entry.size);
                }
                ControlFlow::Continue(())
            })
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
        self.in_root(CardFault::Read, |root| {
            let file = root.open_file_in_dir(name, Mode::ReadOnly)?;
            let mut piece = [0; PIECE];
            while !file.is_eof() {
                let length = file.read(&mut piece)?;
                let bytes = piece.get(..length).unwrap_or_default();
                if each(bytes).is_break() {
                    break;
                }
            }
            file.close()
        })
    }

    /// Writes a file anew. Power that goes meanwhile may leave it short: it can be
    /// written again from the job.
    ///
    /// # Errors
    /// The card is full, or cannot be written.
    pub fn write(
        &self,
        name: &str,
        fill: impl FnOnce(&mut dyn fmt::Write) -> fmt::Result,
    ) -> Result<(), CardFault> {
        self.in_root(CardFault::Write, |root| {
            let file = root.open_file_in_dir(name, Mode::ReadWriteCreateOrTruncate)?;
            let mut pen = Pen {
                bytes: heapless::Vec::new(),
                put: |bytes: &[u8]| file.write(bytes),
                failed: None,
            };
            let _ = fill(&mut pen);
            pen.send();
            let failed = pen.failed;
            let closed = file.close();
            failed.map_or(closed, Err)
        })
    }

    /// The first block of the journal's file, made where there is none. `each` hears
    /// how many of the file's blocks are written.
    ///
    /// # Errors
    /// There is no card, no room on it, or the file lies in pieces.
    pub fn journal(&self, mut each: impl FnMut(u32)) -> Result<u32, CardFault> {
        let length = self.journal_length()?;
        if length.is_none_or(|length| length < JOURNAL_BYTES) {
            self.make_journal(&mut each).inspect_err(|_| {
                // Half a file would only take the room away.
                let _ = self.in_root(CardFault::Write, |root| root.delete_entry_in_dir(JOURNAL));
            })?;
        }
        let first = self.in_root(CardFault::Read, |root| {
            let file = root.open_file_in_dir(JOURNAL, Mode::ReadOnly)?;
            file.read(&mut [0])?;
            file.close()
        });
        first?;
        let first = self.volumes.device(|spy| spy.last.get());
        self.with_card(|card| chain::check(card, first, STORE_BLOCKS))?;
        Ok(first)
    }

    fn journal_length(&self) -> Result<Option<u32>, CardFault> {
        let found = self.in_root(CardFault::Read, |root| root.find_directory_entry(JOURNAL));
        match found {
            Ok(entry) => Ok(Some(entry.size)),
            Err(CardFault::NoFile) => Ok(None),
            Err(fault) => Err(fault),
        }
    }

    fn make_journal(&self, each: &mut impl FnMut(u32)) -> Result<(), CardFault> {
        self.in_root(CardFault::Write, |root| {
            let file = root.open_file_in_dir(JOURNAL, Mode::ReadWriteCreateOrTruncate)?;
            let zeros = [0; Block::LEN];
            let written = (0..STORE_BLOCKS).try_for_each(|block| {
                each(block);
                file.write(&zeros)
            });
            // The first thing that went wrong says most.
            let closed = file.close();
            written.and(closed)
        })
    }
}

fn name(short: &ShortFileName) -> Name {
    let mut name = Name::new();
    let letters = short
        .base_name()
        .iter()
        .chain(b".")
        .chain(short.extension());
    for letter in letters {
        let _ = name.push(char::from(*letter));
    }
    name
}

/// Text into a file, a whole block at a time.
struct Pen<E, F> {
    bytes: heapless::Vec<u8, { Block::LEN }, u16>,
    put: F,
    failed: Option<E>,
}

impl<E, F: FnMut(&[u8]) -> Result<(), E>> Pen<E, F> {
    fn send(&mut self) {
        if self.failed.is_none() && !self.bytes.is_empty() {
            self.failed = (self.put)(&self.bytes).err();
        }
        self.bytes.clear();
    }
}

impl<E, F: FnMut(&[u8]) -> Result<(), E>> fmt::Write for Pen<E, F> {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        for byte in text.bytes() {
            if self.bytes.is_full() {
                self.send();
            }
            let _ = self.bytes.push(byte);
        }
        match self.failed {
            None => Ok(()),
            Some(_) => Err(fmt::Error),
        }
    }
}
