//! Blocks of the journal on a desktop: in a file, or in memory for a session that
//! nobody wants to keep.
//!
//! Rule: the file is made whole, all its blocks written, before it has its name;
//! afterwards blocks are only overwritten, and each is on the disk before the
//! write returns. Only one program at a time has it open.

use boltbay_handheld::journal::{BLOCK, Block, BlockStore, CardNumber, STORE_BLOCKS, StoreError};
use std::fs::{self, File, OpenOptions, TryLockError};
use std::hash::{BuildHasher, Hasher, RandomState};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::Path;

/// Blocks of a file or of memory.
#[derive(Debug)]
pub enum Store {
    /// A file, and how many blocks it has.
    File(File, u32),
    /// Gone with the program.
    Memory(Vec<u8>),
}

impl Store {
    /// Blocks that nobody keeps.
    pub fn in_memory() -> Store {
        Store::Memory(vec![0; STORE_BLOCKS as usize * BLOCK])
    }

    /// Opens the file of a journal; makes it, all zeros, where there is none.
    ///
    /// # Errors
    /// What the file system says; `WouldBlock` if another program has it open.
    pub fn in_file(path: &Path) -> io::Result<Store> {
        if !path.exists() {
            make(path)?;
        }
        let file = OpenOptions::new().read(true).write(true).open(path)?;
        match file.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => {
                let open = "another program has it open";
                return Err(io::Error::new(io::ErrorKind::WouldBlock, open));
            }
            Err(TryLockError::Error(error)) => return Err(error),
        }
        let blocks = file.metadata()?.len() / BLOCK as u64;
        Ok(Store::File(file, u32::try_from(blocks).unwrap_or(u32::MAX)))
    }
}

/// Writes every block, so that a disk that fills up later takes nothing away.
fn make(path: &Path) -> io::Result<()> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let mut file = tempfile::Builder::new()
        .prefix(".boltbay-")
        .tempfile_in(folder)?;
    let zeros = vec![0; 256 * BLOCK];
    for _ in 0..STORE_BLOCKS / 256 {
        file.write_all(&zeros)?;
    }
    file.as_file().sync_all()?;
    file.persist_noclobber(path).map_err(|error| error.error)?;
    // The name too must be there after a pulled plug.
    #[cfg(unix)]
    fs::File::open(folder)?.sync_all()?;
    Ok(())
}

/// A number that no other journal has, from the random seeds that the system
/// gives to every program.
pub fn new_number() -> CardNumber {
    let mut hasher = RandomState::new().build_hasher();
    hasher.write_u32(std::process::id());
    CardNumber(hasher.finish().to_le_bytes())
}

impl BlockStore for Store {
    fn blocks(&self) -> u32 {
        match self {
            Store::File(_, blocks) => *blocks,
            Store::Memory(_) => STORE_BLOCKS,
        }
    }

    fn read(&mut self, at: u32, block: &mut Block) -> Result<(), StoreError> {
        match self {
            Store::File(file, _) => {
                let read = seek(file, at).and_then(|()| file.read_exact(block));
                read.map_err(|error| named(&error, StoreError::Read))
            }
            Store::Memory(bytes) => {
                let from = place(bytes, at).ok_or(StoreError::NoSuchBlock)?;
                block.copy_from_slice(from);
                Ok(())
            }
        }
    }

    fn write(&mut self, at: u32, block: &Block) -> Result<(), StoreError> {
        match self {
            Store::File(file, blocks) => {
                if at >= *blocks {
                    return Err(StoreError::NoSuchBlock);
                }
                let wrote = seek(file, at)
                    .and_then(|()| file.write_all(block))
                    .and_then(|()| file.sync_data());
                wrote.map_err(|error| named(&error, StoreError::Write))
            }
            Store::Memory(bytes) => {
                let to = place(bytes, at).ok_or(StoreError::NoSuchBlock)?;
                to.copy_from_slice(block);
                Ok(())
            }
        }
    }
}

fn place(bytes: &mut [u8], at: u32) -> Option<&mut [u8]> {
    let start = at as usize * BLOCK;
    bytes.get_mut(start..start + BLOCK)
}

fn seek(file: &mut File, at: u32) -> io::Result<()> {
    file.seek(SeekFrom::Start(u64::from(at) * BLOCK as u64))
        .map(drop)
}

/// What the crew must know of an error; `otherwise` where it is no special one.
fn named(error: &io::Error, otherwise: StoreError) -> StoreError {
    match error.kind() {
        io::ErrorKind::NotFound => StoreError::NoCard,
        io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => {
            StoreError::Protected
        }
        io::ErrorKind::UnexpectedEof => StoreError::NoSuchBlock,
        _ => otherwise,
    }
}
