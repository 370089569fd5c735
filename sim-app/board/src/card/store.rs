//! The journal's blocks: those of one file that lies in one piece, read and written
//! past the table of files, which no entry ever touches again.

use super::{CardBlocks, CardFault, Files};
use boltbay_handheld::journal::{BLOCK, Block, BlockStore, STORE_BLOCKS, StoreError};
use embedded_sdmmc::BlockIdx;

/// The journal's file on a card.
pub struct JournalFile<'f, C: CardBlocks> {
    files: &'f Files<C>,
    /// Its first block on the card; `None` if there is no such file.
    first: Option<u32>,
}

impl<'f, C: CardBlocks> JournalFile<'f, C> {
    /// The file, as [`Files::journal`] found it.
    pub fn at(files: &'f Files<C>, first: u32) -> JournalFile<'f, C> {
        JournalFile {
            files,
            first: Some(first),
        }
    }

    fn place(&self, at: u32) -> Result<BlockIdx, StoreError> {
        match self.first {
            Some(first) if at < STORE_BLOCKS => Ok(BlockIdx(first + at)),
            _ => Err(StoreError::NoSuchBlock),
        }
    }

    /// What an error means. A card that was away is looked for, so that the next try
    /// may find it.
    fn named(&self, error: &C::Error, otherwise: StoreError) -> StoreError {
        self.files.with_card(|card| {
            let is_missing = card.is_missing(error);
            match card.wake() || !is_missing {
                true => otherwise,
                false => StoreError::NoCard,
            }
        })
    }
}

impl<C: CardBlocks> BlockStore for JournalFile<'_, C> {
    fn blocks(&self) -> u32 {
        STORE_BLOCKS
    }

    fn read(&mut self, at: u32, block: &mut Block) -> Result<(), StoreError> {
        let place = self.place(at)?;
        let mut blocks = [embedded_sdmmc::Block::new()];
        let read = self.files.with_card(|card| card.read(&mut blocks, place));
        read.map_err(|error| self.named(&error, StoreError::Read))?;
        block.copy_from_slice(&blocks[0].contents);
        Ok(())
    }

    fn write(&mut self, at: u32, block: &Block) -> Result<(), StoreError> {
        let place = self.place(at)?;
        let blocks = [embedded_sdmmc::Block { contents: *block }];
        let wrote = self.files.with_card(|card| card.write(&blocks, place));
        wrote.map_err(|error| self.named(&error, StoreError::Write))
    }
}

// A block of the journal is a block of the card.
const _: () = assert!(BLOCK == embedded_sdmmc::Block::LEN);

/// Whether a fault leaves a card to work with.
impl CardFault {
    /// There is a card, and a laptop would read it.
    pub const fn leaves_files(self) -> bool {
        matches!(
            self,
            CardFault::Full | CardFault::InPieces | CardFault::NoFile
        )
    }
}
