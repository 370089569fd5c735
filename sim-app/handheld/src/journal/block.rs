//! Blocks: what a host must offer, and how ours are told from others.
//!
//! In: bytes of fields. Out: a block that starts with its kind, the version and
//! the card's number and ends in a CRC-32C; or the fields of such a block, and
//! nothing from any other.

use crc::{CRC_32_ISCSI, Crc, Digest, Table};

/// Bytes of a block: a sector of a memory card.
/// Source: SD Physical Layer Simplified Specification 4.10, 5.3.3 (WRITE_BL_LEN of
/// high capacity cards is fixed, 512 bytes).
pub const BLOCK: usize = 512;

/// One block.
pub type Block = [u8; BLOCK];

/// Blocks that a host keeps over power-off: a preallocated file, or a contiguous
/// one on a memory card.
pub trait BlockStore {
    /// How many there are, from 0.
    fn blocks(&self) -> u32;

    /// Reads block `at`.
    ///
    /// # Errors
    /// The block may then hold anything.
    fn read(&mut self, at: u32, block: &mut Block) -> Result<(), StoreError>;

    /// Writes block `at`; back only when it would survive power-off.
    ///
    /// # Errors
    /// What lies there then may be the old block, the new one, or neither.
    fn write(&mut self, at: u32, block: &Block) -> Result<(), StoreError>;

    /// Whether the card was out since this was asked last. Where it cannot be taken out,
    /// it never was.
    fn was_out(&mut self) -> bool {
        false
    }
}

impl<S: BlockStore + ?Sized> BlockStore for &mut S {
    fn blocks(&self) -> u32 {
        (**self).blocks()
    }

    fn read(&mut self, at: u32, block: &mut Block) -> Result<(), StoreError> {
        (**self).read(at, block)
    }

    fn write(&mut self, at: u32, block: &Block) -> Result<(), StoreError> {
        (**self).write(at, block)
    }

    fn was_out(&mut self) -> bool {
        (**self).was_out()
    }
}

/// What can go wrong with a block.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum StoreError {
    /// No card, or it no longer answers.
    NoCard,
    /// It is write-protected.
    Protected,
    /// The block cannot be read.
    Read,
    /// The block cannot be written.
    Write,
    /// There is no such block: the file is shorter than it was.
    NoSuchBlock,
}

/// Tries before a block counts as one that cannot be read or written.
pub(super) const TRIES: usize = 3;

/// Reads a block, more than once if it must.
pub(super) fn read_block(
    store: &mut impl BlockStore,
    at: u32,
    block: &mut Block,
) -> Result<(), StoreError> {
    let mut read = Ok(());
    for _ in 0..TRIES {
        read = store.read(at, block);
        if read.is_ok() {
            break;
        }
    }
    read
}

/// A number given to a card when its journal is made, different for every card.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct CardNumber(pub [u8; 8]);

/// The format; a change that an older program would misread counts it up.
pub(super) const VERSION: u8 = 1;

/// CRC-32C is listed as "ISCSI". With a table of 1 KiB: opening a card checks a
/// thousand blocks, and a bit at a time would take five times as long.
static CRC: Crc<u32, Table<1>> = Crc::<u32, Table<1>>::new(&CRC_32_ISCSI);

/// A CRC-32C being taken.
pub(super) type Sum = Digest<'static, u32, Table<1>>;

pub(super) fn sum() -> Sum {
    CRC.digest()
}

/// Kinds of blocks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    Head,
    Record,
    Slot,
}

impl Kind {
    fn magic(self) -> &'static [u8; 4] {
        match self {
            Kind::Head => b"BBhd",
            Kind::Record => b"BBrc",
            Kind::Slot => b"BBsl",
        }
    }
}

/// Bytes before the fields of a block: kind, version, card.
pub(super) const BEFORE: usize = 13;
/// Bytes of fields and whatever follows them.
pub(super) const INSIDE: usize = BLOCK - BEFORE - 4;

/// Starts a block of zeros, lets `fill` write the fields, and seals it. `None` if
/// the fields do not fit.
pub(super) fn sealed(
    block: &mut Block,
    kind: Kind,
    card: CardNumber,
    fill: impl FnOnce(&mut Pen<'_>) -> Option<()>,
) -> Option<()> {
    block.fill(0);
    let (inside, crc) = block.split_last_chunk_mut::<4>()?;
    let mut pen = Pen(&mut *inside);
    pen.put(kind.magic())?;
    pen.put(&[VERSION])?;
    pen.put(&card.0)?;
    fill(&mut pen)?;
    *crc = CRC.checksum(inside).to_le_bytes();
    Some(())
}

/// What a block of ours says of itself.
pub(super) struct Opened<'a> {
    pub(super) version: u8,
    pub(super) card: CardNumber,
    pub(super) fields: Fields<'a>,
}

/// Bytes of the sum at a block's end.
pub(super) const SEAL: usize = 4;

/// The sum at a block's end, by which two blocks are told apart.
pub(super) fn seal(block: &Block) -> [u8; SEAL] {
    block.last_chunk().copied().unwrap_or_default()
}

/// Opens a block of this kind, of whatever card and version; `None` if it is
/// another block or a damaged one.
pub(super) fn opened(block: &Block, kind: Kind) -> Option<Opened<'_>> {
    let (inside, crc) = block.split_last_chunk::<SEAL>()?;
    let mut fields = Fields(inside);
    if fields.take::<4>()? != *kind.magic() {
        return None;
    }
    let [version] = fields.take()?;
    let card = CardNumber(fields.take()?);
    let whole = CRC.checksum(inside).to_le_bytes() == *crc;
    whole.then_some(Opened {
        version,
        card,
        fields,
    })
}

/// The fields of a block of this kind, card and version.
pub(super) fn fields(block: &Block, kind: Kind, card: CardNumber) -> Option<Fields<'_>> {
    let opened = opened(block, kind)?;
    (opened.version == VERSION && opened.card == card).then_some(opened.fields)
}

/// Writes the head of a region.
pub(super) fn write_head(block: &mut Block, card: CardNumber) -> Option<()> {
    sealed(block, Kind::Head, card, |_| Some(()))
}

/// Writes field after field.
pub(super) struct Pen<'a>(pub(super) &'a mut [u8]);

impl Pen<'_> {
    /// `None`, and nothing written, if there is no room.
    pub(super) fn put(&mut self, bytes: &[u8]) -> Option<()> {
        if self.0.len() < bytes.len() {
            return None;
        }
        let (here, rest) = core::mem::take(&mut self.0).split_at_mut_checked(bytes.len())?;
        here.copy_from_slice(bytes);
        self.0 = rest;
        Some(())
    }

    pub(super) fn put_u32(&mut self, value: u32) -> Option<()> {
        self.put(&value.to_le_bytes())
    }

    /// A length and then a field of `most` bytes.
    pub(super) fn put_padded(&mut self, bytes: &[u8], most: usize) -> Option<()> {
        let length = u8::try_from(bytes.len()).ok()?;
        self.put(&[length])?;
        self.put(bytes)?;
        let padding = most.checked_sub(bytes.len())?;
        let (_, rest) = core::mem::take(&mut self.0).split_at_mut_checked(padding)?;
        self.0 = rest;
        Some(())
    }

    /// Bytes left.
    pub(super) fn room(&self) -> usize {
        self.0.len()
    }
}

/// Reads field after field.
#[derive(Clone, Copy)]
pub(super) struct Fields<'a>(pub(super) &'a [u8]);

impl<'a> Fields<'a> {
    pub(super) fn take<const N: usize>(&mut self) -> Option<[u8; N]> {
        let (here, rest) = self.0.split_first_chunk::<N>()?;
        self.0 = rest;
        Some(*here)
    }

    pub(super) fn take_u32(&mut self) -> Option<u32> {
        self.take().map(u32::from_le_bytes)
    }

    pub(super) fn take_bytes(&mut self, count: usize) -> Option<&'a [u8]> {
        let (here, rest) = self.0.split_at_checked(count)?;
        self.0 = rest;
        Some(here)
    }

    /// What [`Pen::put_padded`] wrote.
    pub(super) fn take_padded(&mut self, most: usize) -> Option<&'a [u8]> {
        let [length] = self.take()?;
        self.take_bytes(most)?.get(..usize::from(length))
    }
}
