//! A card that is a file of the host, `card.img` where the emulator was started, by
//! semihosting. Source: Semihosting for AArch32 and AArch64, 2.0, 6 (operations).

use crate::card::CardBlocks;
use core::cell::Cell;
use core::fmt;
use embedded_sdmmc::{Block, BlockCount, BlockDevice, BlockIdx};

/// With its zero behind.
const NAME: &[u8] = b"card.img\0";
const SYS_OPEN: usize = 0x01;
const SYS_WRITE: usize = 0x05;
const SYS_READ: usize = 0x06;
const SYS_SEEK: usize = 0x0A;
const SYS_FLEN: usize = 0x0C;
/// `r+b`: a file that must be there.
const READ_AND_WRITE: usize = 3;
/// What the host says where it cannot.
const FAILED: usize = usize::MAX;

/// Asks the host.
fn ask(operation: usize, arguments: &[usize]) -> usize {
    let mut answer = operation;
    // SAFETY: the arguments are those that the operation takes; the host reads and
    // writes nothing but what they point at.
    unsafe {
        core::arch::asm!("bkpt #0xAB", inout("r0") answer, in("r1") arguments.as_ptr());
    }
    answer
}

/// The card.
pub struct HostCard {
    handle: Cell<Option<usize>>,
}

/// What can go wrong with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HostError {
    /// There is no such file.
    NoFile,
    /// The host did not do it.
    NotDone,
}

impl fmt::Display for HostError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            HostError::NoFile => "no file",
            HostError::NotDone => "not done",
        })
    }
}

impl core::error::Error for HostError {}

impl HostCard {
    pub(super) const fn new() -> HostCard {
        HostCard {
            handle: Cell::new(None),
        }
    }

    fn at(&self, block: BlockIdx) -> Result<usize, HostError> {
        let handle = self.handle.get().ok_or(HostError::NoFile)?;
        match ask(SYS_SEEK, &[handle, block.0 as usize * Block::LEN]) {
            0 => Ok(handle),
            _ => Err(HostError::NotDone),
        }
    }
}

/// Bytes that were not read or written are what the host answers with.
fn all(left: usize) -> Result<(), HostError> {
    match left {
        0 => Ok(()),
        _ => Err(HostError::NotDone),
    }
}

impl BlockDevice for HostCard {
    type Error = HostError;

    fn read(&self, blocks: &mut [Block], at: BlockIdx) -> Result<(), HostError> {
        let handle = self.at(at)?;
        blocks.iter_mut().try_for_each(|block| {
            let to = block.contents.as_mut_ptr() as usize;
            all(ask(SYS_READ, &[handle, to, Block::LEN]))
        })
    }

    fn write(&self, blocks: &[Block], at: BlockIdx) -> Result<(), HostError> {
        let handle = self.at(at)?;
        blocks.iter().try_for_each(|block| {
            let from = block.contents.as_ptr() as usize;
            all(ask(SYS_WRITE, &[handle, from, Block::LEN]))
        })
    }

    fn num_blocks(&self) -> Result<BlockCount, HostError> {
        let handle = self.handle.get().ok_or(HostError::NoFile)?;
        match ask(SYS_FLEN, &[handle]) {
            FAILED => Err(HostError::NotDone),
            bytes => Ok(BlockCount((bytes / Block::LEN) as u32)),
        }
    }
}

impl CardBlocks for HostCard {
    fn wake(&self) -> bool {
        if self.handle.get().is_none() {
            let name = NAME.as_ptr() as usize;
            let opened = ask(SYS_OPEN, &[name, READ_AND_WRITE, NAME.len() - 1]);
            self.handle.set((opened != FAILED).then_some(opened));
        }
        self.handle.get().is_some()
    }

    fn is_missing(&self, error: &HostError) -> bool {
        *error == HostError::NoFile
    }
}
