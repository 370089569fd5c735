//! Where the parts of a volume lie, by its own first block.
//!
//! In: the first partition of the card, FAT16 or FAT32. Out: blocks of the card. Source
//! of all offsets: FAT Specification 1.03, 3 (boot sector), 4 (kinds of FAT by count of
//! clusters), 5 (info sector).

use super::{CardBlocks, CardFault};
use embedded_sdmmc::{Block, BlockIdx};

/// A little-endian number of a block.
pub fn number(block: &Block, at: usize, bytes: usize) -> u32 {
    let taken = block.contents.get(at..at + bytes).unwrap_or_default();
    let more = |sum: u32, byte: &u8| sum << 8 | u32::from(*byte);
    taken.iter().rev().fold(0, more)
}

/// Writes one.
pub fn set_number(block: &mut Block, at: usize, bytes: usize, value: u32) {
    let places = block.contents.get_mut(at..at + bytes).unwrap_or_default();
    for (place, byte) in places.iter_mut().zip(value.to_le_bytes()) {
        *place = byte;
    }
}

/// Reads a block of the card.
pub fn read<C: CardBlocks>(card: &C, at: u32, block: &mut Block) -> Result<(), CardFault> {
    let read = card.read(core::slice::from_mut(block), BlockIdx(at));
    read.map_err(|error| named(card, &error, CardFault::Read))
}

/// Writes a block of the card.
pub fn write<C: CardBlocks>(card: &C, at: u32, block: &Block) -> Result<(), CardFault> {
    let wrote = card.write(core::slice::from_ref(block), BlockIdx(at));
    wrote.map_err(|error| named(card, &error, CardFault::Write))
}

fn named<C: CardBlocks>(card: &C, error: &C::Error, otherwise: CardFault) -> CardFault {
    match card.is_missing(error) {
        true => CardFault::NoCard,
        false => otherwise,
    }
}

/// The first partition's entry: its kind, and at which block it begins.
const PARTITION_KIND: usize = 446 + 4;
const PARTITION_START: usize = 446 + 8;
/// Kinds of partitions that hold a FAT16 or FAT32. Memory: numbers of partition kinds.
const KINDS: [u32; 5] = [0x04, 0x06, 0x0B, 0x0C, 0x0E];
/// The last two bytes of the first block of a card and of a volume.
const SIGNATURE: usize = 510;
const SIGNED: u32 = 0xAA55;
/// Fewer clusters are a FAT12.
const FAT16_FROM: u32 = 4085;
/// Fewer clusters than this: 16 bits an entry, else 32.
const FAT32_FROM: u32 = 65_525;
/// Bytes of an entry of a folder.
pub const ENTRY: u32 = 32;

/// Where the root folder lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Root {
    /// From this block on, so many.
    Blocks(u32, u32),
    /// In a chain of clusters, from this one on.
    Chain(u32),
}

/// A volume.
#[derive(Clone, Copy, Debug)]
pub struct Volume {
    /// First block of the first table of clusters.
    pub table: u32,
    /// How many tables there are, one behind the other, and the blocks of each.
    pub tables: u32,
    pub blocks_a_table: u32,
    /// An entry of a table has four bytes instead of two.
    pub is_wide: bool,
    /// The root folder.
    pub root: Root,
    /// First block of cluster 2.
    data: u32,
    /// Blocks of a cluster.
    pub blocks_a_cluster: u32,
    /// The first number that no cluster has.
    pub end: u32,
    /// The block that says how many clusters are free, if there is one.
    pub info: Option<u32>,
}

/// The first cluster's number.
pub const FIRST: u32 = 2;

impl Volume {
    /// The volume of a card's first partition.
    pub fn of<C: CardBlocks>(card: &C, block: &mut Block) -> Result<Volume, CardFault> {
        read(card, 0, block)?;
        let is_ours = KINDS.contains(&number(block, PARTITION_KIND, 1));
        let start = number(block, PARTITION_START, 4);
        if !is_ours || number(block, SIGNATURE, 2) != SIGNED {
            return Err(CardFault::NoVolume);
        }
        read(card, start, block)?;
        Volume::said_by(block, start).ok_or(CardFault::NoVolume)
    }

    /// What a volume's first block says; `None` if that makes no sense.
    fn said_by(block: &Block, start: u32) -> Option<Volume> {
        let says = |at, bytes| number(block, at, bytes);
        let either = |short, long| match says(short, 2) {
            0 => says(long, 4),
            blocks => blocks,
        };
        let (blocks_a_cluster, tables) = (says(13, 1), says(16, 1));
        let (all, blocks_a_table) = (either(19, 32), either(22, 36));
        let root_blocks = (says(17, 2) * ENTRY).div_ceil(Block::LEN_U32);
        let table = start.checked_add(says(14, 2))?;
        let root = table.checked_add(tables.checked_mul(blocks_a_table)?)?;
        let data = root.checked_add(root_blocks)?;
        let of_data = all.checked_sub(data.checked_sub(start)?)?;
        let clusters = of_data.checked_div(blocks_a_cluster)?;
        let is_wide = clusters >= FAT32_FROM;
        let bytes = if is_wide { 4 } else { 2 };
        let entries = blocks_a_table.checked_mul(Block::LEN_U32 / bytes)?;
        let is_sound = says(SIGNATURE, 2) == SIGNED
            && says(11, 2) == Block::LEN_U32
            && tables > 0
            && clusters >= FAT16_FROM
            && entries >= clusters + FIRST
            && start.checked_add(all).is_some();
        is_sound.then_some(Volume {
            table,
            tables,
            blocks_a_table,
            is_wide,
            root: match is_wide {
                true => Root::Chain(says(44, 4)),
                false => Root::Blocks(root, root_blocks),
            },
            data,
            blocks_a_cluster,
            end: clusters + FIRST,
            info: is_wide.then(|| start + says(48, 2)),
        })
    }

    /// Whether there is a cluster of this number.
    pub fn has(&self, cluster: u32) -> bool {
        (FIRST..self.end).contains(&cluster)
    }

    /// The first block of a cluster that there is.
    pub fn block_of(&self, cluster: u32) -> u32 {
        self.data + (cluster - FIRST) * self.blocks_a_cluster
    }

    /// Clusters that hold so many bytes.
    pub fn clusters_of(&self, bytes: u32) -> u32 {
        bytes.div_ceil(Block::LEN_U32 * self.blocks_a_cluster)
    }
}
