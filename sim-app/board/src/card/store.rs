//! The journal's blocks: those of one file that lies in one piece, read and written
//! past the table of files, which no entry ever touches again.
//!
//! Rule: a card that was away is looked for, but not written before its first block of
//! the journal, which says whose it is, was seen to be the same: whoever pulls a card
//! between two blocks of a job may put another one in.

use super::{CardBlocks, Files};
use boltbay_handheld::journal::{BLOCK, Block, BlockStore, STORE_BLOCKS, StoreError};
use embedded_sdmmc::BlockIdx;

/// The block that says whose card it is, and how many of its bytes do.
const HEAD: u32 = 0;
const WHOSE: usize = 16;

/// The journal's file on a card.
pub struct JournalFile<'f, C: CardBlocks> {
    files: &'f Files<C>,
    /// Its first block on the card; `None` until it was found on one.
    first: Option<u32>,
    /// How the first block begins, as it was last read or written.
    whose: Option<[u8; WHOSE]>,
    /// The card has been there ever since.
    is_same: bool,
    /// It was not, since the journal asked last.
    was_out: bool,
}

impl<'f, C: CardBlocks> JournalFile<'f, C> {
    /// On no card yet.
    pub const fn nowhere(files: &'f Files<C>) -> JournalFile<'f, C> {
        JournalFile {
            files,
            first: None,
            whose: None,
            is_same: true,
            was_out: false,
        }
    }

    /// Where it lies on the card that is in the slot now, as [`Files::journal`] found it.
    pub fn found_at(&mut self, first: u32) {
        self.first = Some(first);
        self.whose = None;
        self.is_same = true;
    }

    fn place(&self, at: u32) -> Result<BlockIdx, StoreError> {
        let first = self.first.ok_or(StoreError::NoCard)?;
        match at < STORE_BLOCKS {
            true => Ok(BlockIdx(first + at)),
            false => Err(StoreError::NoSuchBlock),
        }
    }

    /// What an error means. A card that was away is looked for, so that the next try
    /// may find it.
    fn named(&mut self, error: &C::Error, otherwise: StoreError) -> StoreError {
        let card = self.files.card();
        let is_missing = card.is_missing(error);
        self.is_same &= !is_missing;
        self.was_out |= is_missing;
        match card.wake() || !is_missing {
            true => otherwise,
            false => StoreError::NoCard,
        }
    }

    /// The head, as it lies there now. A blank one is nobody's: until the first one is
    /// written, a card that was away is not known again.
    fn see_head(&mut self, block: &Block) {
        let whose = block.first_chunk().copied();
        let whose = whose.filter(|whose| *whose != [0; WHOSE]);
        if self.is_same || self.whose.is_none() {
            self.whose = whose;
        } else {
            self.is_same = self.whose == whose;
        }
    }

    /// Makes sure that the card is the one that was opened.
    fn check_same(&mut self) -> Result<(), StoreError> {
        if !self.is_same {
            self.read(HEAD, &mut [0; BLOCK])?;
        }
        match self.is_same {
            true => Ok(()),
            false => Err(StoreError::NoCard),
        }
    }
}

impl<C: CardBlocks> BlockStore for JournalFile<'_, C> {
    fn blocks(&self) -> u32 {
        STORE_BLOCKS
    }

    fn read(&mut self, at: u32, block: &mut Block) -> Result<(), StoreError> {
        let place = self.place(at)?;
        let mut blocks = [embedded_sdmmc::Block::new()];
        let read = self.files.card().read(&mut blocks, place);
        read.map_err(|error| self.named(&error, StoreError::Read))?;
        block.copy_from_slice(&blocks[0].contents);
        if at == HEAD {
            self.see_head(block);
        }
        Ok(())
    }

    fn write(&mut self, at: u32, block: &Block) -> Result<(), StoreError> {
        let place = self.place(at)?;
        self.check_same()?;
        let blocks = [embedded_sdmmc::Block { contents: *block }];
        let wrote = self.files.card().write(&blocks, place);
        wrote.map_err(|error| self.named(&error, StoreError::Write))
    }

    fn was_out(&mut self) -> bool {
        core::mem::take(&mut self.was_out)
    }
}

// A block of the journal is a block of the card.
const _: () = assert!(BLOCK == embedded_sdmmc::Block::LEN);
