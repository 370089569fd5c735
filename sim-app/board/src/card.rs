//! The memory card: job cards and plans as files that a laptop reads, and the
//! journal's blocks in one file whose place never changes.

mod emulated;
mod files;
mod folder;
mod store;
mod table;
mod volume;

pub use emulated::Emulated;
pub use files::{FILE_BYTES, Files, JOURNAL, Name};
pub use store::JournalFile;

use embedded_hal::delay::DelayNs;
use embedded_hal::spi::SpiDevice;
use embedded_sdmmc::sdcard::spi::AcquireOpts;
use embedded_sdmmc::{Block, BlockCount, BlockDevice, BlockIdx, SdCard, SdCardError};

/// Why the card did not do it, as the crew must know it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CardFault {
    /// Nothing answers.
    NoCard,
    /// It answers, but holds no volume that we read.
    NoVolume,
    /// No room.
    Full,
    /// There is room, or the journal's file, but in pieces.
    InPieces,
    /// The journal's file is shorter than one that we make.
    TooShort,
    /// The root folder takes no more files.
    FolderFull,
    /// A folder has the name that the file wants.
    IsFolder,
    /// No file of that name.
    NoFile,
    /// It cannot be read.
    Read,
    /// It cannot be written.
    Write,
}

impl CardFault {
    /// What is wrong and what to do, in two lines of at most 21 characters.
    pub const fn on_screen(self) -> [&'static str; 2] {
        match self {
            CardFault::NoCard => ["NO CARD", "PUT ONE IN"],
            CardFault::NoVolume => ["CARD IS NOT FORMATTED", "FORMAT IT AS FAT"],
            CardFault::Full => ["CARD IS FULL", "IT NEEDS 8 MB FREE"],
            CardFault::InPieces => ["NO 8 MB IN ONE PIECE", "FORMAT IT ANEW"],
            CardFault::TooShort => ["BOLTBAY.JNL TOO SHORT", "RENAME IT ON A LAPTOP"],
            CardFault::FolderFull => ["TOO MANY FILES ON IT", "REMOVE SOME"],
            CardFault::IsFolder => ["A FOLDER HAS THE NAME", "RENAME IT ON A LAPTOP"],
            CardFault::NoFile => ["FILE IS GONE", "LOOK AGAIN"],
            CardFault::Read => ["CARD CANNOT BE READ", "TAKE ANOTHER CARD"],
            CardFault::Write => ["CARD DOES NOT KEEP IT", "TAKE ANOTHER CARD"],
        }
    }
}

/// A card's blocks, and how a card that was away is found again.
pub trait CardBlocks: BlockDevice {
    /// Identifies whatever card is in the slot now. Whether there is one.
    fn wake(&self) -> bool;

    /// Whether this error says that there is no card.
    fn is_missing(&self, error: &Self::Error) -> bool;
}

/// A port that a card is plugged into.
pub trait CardPort: SpiDevice {
    /// Slow, and the clock that a card wants before it hears its first command.
    fn wake(&mut self);

    /// Fast: the card is known.
    fn hurry(&mut self);
}

/// The slot.
pub struct Slot<P: CardPort, D: DelayNs> {
    card: SdCard<Emulated<P>, D>,
}

/// Tries to find a card; more only make an empty slot slow to notice.
const TRIES: u32 = 2;

impl<P: CardPort, D: DelayNs> Slot<P, D> {
    /// A slot; nobody has looked for a card yet.
    pub fn new(port: Emulated<P>, wait: D) -> Slot<P, D> {
        let options = AcquireOpts {
            use_crc: true,
            acquire_retries: TRIES,
        };
        Slot {
            card: SdCard::new_with_options(port, wait, options),
        }
    }
}

impl<P: CardPort, D: DelayNs> CardBlocks for Slot<P, D> {
    fn wake(&self) -> bool {
        self.card.mark_card_uninit();
        self.card.spi(|port| port.inside().wake());
        let is_there = self.card.get_card_type().is_some();
        if is_there {
            self.card.spi(|port| port.inside().hurry());
        }
        is_there
    }

    fn is_missing(&self, error: &SdCardError) -> bool {
        matches!(
            error,
            SdCardError::CardNotFound
                | SdCardError::TimeoutCommand(_)
                | SdCardError::TimeoutACommand(_)
                | SdCardError::TimeoutWaitNotBusy
        )
    }
}

impl<P: CardPort, D: DelayNs> BlockDevice for Slot<P, D> {
    type Error = SdCardError;

    fn read(&self, blocks: &mut [Block], at: BlockIdx) -> Result<(), SdCardError> {
        self.card.read(blocks, at)
    }

    fn write(&self, blocks: &[Block], at: BlockIdx) -> Result<(), SdCardError> {
        self.card.write(blocks, at)
    }

    fn num_blocks(&self) -> Result<BlockCount, SdCardError> {
        self.card.num_blocks()
    }
}
