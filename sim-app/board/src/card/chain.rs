//! Whether a file lies in one piece: its chain of clusters in the table, read once.
//!
//! In: the first block of the file. Out: nothing, or that it lies in pieces. Source: FAT
//! Specification 1.03, 3 (boot sector), 4 (the table's entries).

use super::{CardBlocks, CardFault};
use embedded_sdmmc::fat::Bpb;
use embedded_sdmmc::{Block, BlockIdx};

/// Where the first partition's entry says at which block it begins.
const PARTITION_START: usize = 446 + 8;
/// And how many it has.
const PARTITION_LENGTH: usize = 446 + 12;
/// Fewer clusters than this: 16 bits an entry, else 32.
const FAT32_FROM: u32 = 65_525;
/// The upper bits of a 32-bit entry are not part of it.
const ENTRY: u32 = 0x0FFF_FFFF;
/// Bytes of an entry of the root folder, where that is no chain itself.
const ROOT_ENTRY: u32 = 32;

/// What of a volume is needed to follow a chain.
struct Volume {
    /// First block of the table.
    table: u32,
    /// First block of cluster 2.
    data: u32,
    blocks_a_cluster: u32,
    bytes_an_entry: u32,
}

/// Checks that `blocks` blocks from `first` on are one chain without a gap.
pub fn check<C: CardBlocks>(card: &C, first: u32, blocks: u32) -> Result<(), CardFault> {
    let mut block = Block::new();
    let volume = volume(card, &mut block)?;
    let cluster = first
        .checked_sub(volume.data)
        .map(|behind| behind / volume.blocks_a_cluster + 2)
        .ok_or(CardFault::InPieces)?;
    let last = cluster + blocks.div_ceil(volume.blocks_a_cluster) - 1;
    let mut held = None;
    for cluster in cluster..last {
        let at = cluster * volume.bytes_an_entry;
        let in_block = volume.table + at / Block::LEN_U32;
        if held.replace(in_block) != Some(in_block) {
            read(card, in_block, &mut block)?;
        }
        let next = entry(&block, at % Block::LEN_U32, volume.bytes_an_entry);
        if next != Some(cluster + 1) {
            return Err(CardFault::InPieces);
        }
    }
    Ok(())
}

fn read<C: CardBlocks>(card: &C, at: u32, block: &mut Block) -> Result<(), CardFault> {
    let read = card.read(core::slice::from_mut(block), BlockIdx(at));
    read.map_err(|_| CardFault::Read)
}

/// The first block behind the first partition.
pub fn end<C: CardBlocks>(card: &C) -> Option<u32> {
    let mut block = Block::new();
    read(card, 0, &mut block).ok()?;
    let place = |at: usize| entry(&block, at as u32, 4);
    let length = place(PARTITION_LENGTH).filter(|length| *length > 0)?;
    place(PARTITION_START)?.checked_add(length)
}

fn volume<C: CardBlocks>(card: &C, block: &mut Block) -> Result<Volume, CardFault> {
    read(card, 0, block)?;
    let start = entry(block, PARTITION_START as u32, 4).ok_or(CardFault::NoVolume)?;
    read(card, start, block)?;
    let says = Bpb::create_from_bytes(&block.contents).map_err(|_| CardFault::NoVolume)?;
    let table = start + u32::from(says.reserved_block_count());
    let root = (u32::from(says.root_entries_count()) * ROOT_ENTRY).div_ceil(Block::LEN_U32);
    Ok(Volume {
        table,
        data: table + u32::from(says.num_fats()) * says.fat_size() + root,
        blocks_a_cluster: u32::from(says.blocks_per_cluster()).max(1),
        bytes_an_entry: if says.total_clusters() < FAT32_FROM {
            2
        } else {
            4
        },
    })
}

/// A little-endian number of two or four bytes.
fn entry(block: &Block, at: u32, bytes: u32) -> Option<u32> {
    let (at, bytes) = (at as usize, bytes as usize);
    let taken = block.contents.get(at..at + bytes)?;
    let number = taken
        .iter()
        .rev()
        .fold(0, |sum, byte| sum << 8 | u32::from(*byte));
    Some(number & ENTRY)
}
