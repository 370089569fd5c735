//! The root folder: entries of files, found, changed and added.
//!
//! Source: FAT Specification 1.03, 6 (entries), 6.1 (short names).

use super::table::Table;
use super::volume::{self, ENTRY, FIRST, Root, number, set_number};
use super::{CardBlocks, CardFault};
use core::ops::ControlFlow;
use embedded_sdmmc::Block;

/// A name as it lies there: eight letters and three, padded with spaces.
pub type Letters = [u8; 11];

/// Where the attributes of an entry are, and their bits: the volume's name, or a part of a
/// long name; a folder; changed since it was last backed up.
const ATTRIBUTES: usize = 11;
const NO_ENTRY: u32 = 0x08;
const FOLDER: u32 = 0x10;
const CHANGED: u32 = 0x20;
/// The first cluster's upper and lower half, the day, the length.
const UPPER: usize = 20;
const DAY: usize = 24;
const LOWER: usize = 26;
const LENGTH: usize = 28;
/// The board has no calendar: every file is of 1 January 2026.
const NEW_YEAR: u32 = (2026 - 1980) << 9 | 1 << 5 | 1;
/// First letters of an entry that is free, and of one behind which all are.
const GONE: u8 = 0xE5;
const NEVER: u8 = 0x00;

/// A place for an entry: a block of the card, and where in it.
#[derive(Clone, Copy, Debug)]
pub struct Place {
    block: u32,
    at: usize,
}

/// An entry that is there.
#[derive(Clone, Copy, Debug)]
pub struct Entry {
    /// Where it lies.
    pub place: Place,
    /// What it is called.
    pub letters: Letters,
    /// A folder, and no file.
    pub is_folder: bool,
    /// Its first cluster; 0 if it has none.
    pub cluster: u32,
    /// Bytes of the file.
    pub length: u32,
}

/// What is in a place.
enum Seen {
    Entry(Entry),
    /// A name, but of no file or folder.
    Name,
    Free(Place),
    /// Free, and so is everything behind it.
    Last(Place),
}

fn seen(block: &Block, place: Place) -> Seen {
    let Place { at, .. } = place;
    let letters = block.contents.get(at..).unwrap_or_default();
    let letters: Letters = letters.first_chunk().copied().unwrap_or_default();
    match letters {
        [NEVER, ..] => Seen::Last(place),
        [GONE, ..] => Seen::Free(place),
        _ if number(block, at + ATTRIBUTES, 1) & NO_ENTRY != 0 => Seen::Name,
        letters => Seen::Entry(Entry {
            place,
            letters,
            is_folder: number(block, at + ATTRIBUTES, 1) & FOLDER != 0,
            cluster: number(block, at + UPPER, 2) << 16 | number(block, at + LOWER, 2),
            length: number(block, at + LENGTH, 4),
        }),
    }
}

/// The places of one block.
fn look_at<C: CardBlocks>(
    table: &Table<'_, C>,
    at: u32,
    each: &mut impl FnMut(Seen) -> ControlFlow<()>,
) -> Result<ControlFlow<()>, CardFault> {
    let mut block = Block::new();
    volume::read(table.card, at, &mut block)?;
    for entry in 0..(Block::LEN_U32 / ENTRY) as usize {
        let place = Place {
            block: at,
            at: entry * ENTRY as usize,
        };
        let seen = seen(&block, place);
        let is_last = matches!(seen, Seen::Last(_));
        if each(seen).is_break() || is_last {
            return Ok(ControlFlow::Break(()));
        }
    }
    Ok(ControlFlow::Continue(()))
}

/// All places, until `each` has had enough. The last cluster that was looked at, where
/// the folder is a chain.
fn walk<C: CardBlocks>(
    table: &mut Table<'_, C>,
    mut each: impl FnMut(Seen) -> ControlFlow<()>,
) -> Result<u32, CardFault> {
    let (mut blocks, mut cluster) = match table.volume.root {
        Root::Blocks(first, count) => (first..first + count, 0),
        Root::Chain(first) if table.volume.has(first) => (blocks_of(table, first), first),
        Root::Chain(_) => return Err(CardFault::NoVolume),
    };
    // A chain that bites its tail ends too.
    for _ in FIRST..table.volume.end {
        for block in blocks {
            if look_at(table, block, &mut each)?.is_break() {
                return Ok(cluster);
            }
        }
        match table.next(cluster)? {
            Some(next) => (blocks, cluster) = (blocks_of(table, next), next),
            None => break,
        }
    }
    Ok(cluster)
}

/// The blocks of a cluster.
fn blocks_of<C: CardBlocks>(table: &Table<'_, C>, cluster: u32) -> core::ops::Range<u32> {
    let first = table.volume.block_of(cluster);
    first..first + table.volume.blocks_a_cluster
}

/// Every file and folder of the root, until `each` has had enough.
pub fn entries<C: CardBlocks>(
    table: &mut Table<'_, C>,
    mut each: impl FnMut(&Entry) -> ControlFlow<()>,
) -> Result<(), CardFault> {
    let walked = walk(table, |seen| match seen {
        Seen::Entry(entry) => each(&entry),
        _ => ControlFlow::Continue(()),
    });
    walked.map(drop)
}

/// The file of this name.
///
/// # Errors
/// [`CardFault::NoFile`] if there is none; [`CardFault::IsFolder`] if a folder is called
/// so: a second entry of one name would be damage.
pub fn find<C: CardBlocks>(
    table: &mut Table<'_, C>,
    letters: &Letters,
) -> Result<Entry, CardFault> {
    let mut found = None;
    entries(table, |entry| {
        if entry.letters == *letters {
            found = Some(*entry);
            return ControlFlow::Break(());
        }
        ControlFlow::Continue(())
    })?;
    match found {
        Some(Entry { is_folder, .. }) if is_folder => Err(CardFault::IsFolder),
        found => found.ok_or(CardFault::NoFile),
    }
}

/// A place for one more entry; the folder grows where there is none and it can.
pub fn free_place<C: CardBlocks>(table: &mut Table<'_, C>) -> Result<Place, CardFault> {
    let mut free = None;
    let last = walk(table, |seen| match seen {
        Seen::Entry(_) | Seen::Name => ControlFlow::Continue(()),
        Seen::Free(place) | Seen::Last(place) => {
            free = Some(place);
            ControlFlow::Break(())
        }
    })?;
    match (free, table.volume.root) {
        (Some(place), _) => Ok(place),
        (None, Root::Chain(_)) => grow(table, last),
        (None, Root::Blocks(..)) => Err(CardFault::FolderFull),
    }
}

/// One more cluster for the folder, blank before it belongs to it.
fn grow<C: CardBlocks>(table: &mut Table<'_, C>, last: u32) -> Result<Place, CardFault> {
    let cluster = table.find_room(last, 1)?;
    for block in blocks_of(table, cluster) {
        volume::write(table.card, block, &Block::new())?;
    }
    table.take(cluster, 1)?;
    table.link(last, cluster)?;
    let block = table.volume.block_of(cluster);
    Ok(Place { block, at: 0 })
}

/// Writes a file's entry: one block, so that it is there whole or not at all.
pub fn put<C: CardBlocks>(
    card: &C,
    place: Place,
    letters: &Letters,
    cluster: u32,
    length: u32,
) -> Result<(), CardFault> {
    let mut block = Block::new();
    volume::read(card, place.block, &mut block)?;
    let Some(entry) = block.contents.get_mut(place.at..place.at + ENTRY as usize) else {
        return Err(CardFault::Write);
    };
    entry.fill(0);
    let at = place.at;
    for (to, letter) in entry.iter_mut().zip(letters) {
        *to = *letter;
    }
    set_number(&mut block, at + ATTRIBUTES, 1, CHANGED);
    set_number(&mut block, at + UPPER, 2, cluster >> 16);
    set_number(&mut block, at + DAY, 2, NEW_YEAR);
    set_number(&mut block, at + LOWER, 2, cluster);
    set_number(&mut block, at + LENGTH, 4, length);
    volume::write(card, place.block, &block)
}
