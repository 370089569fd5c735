//! The table of clusters: which are free, and which follows which.
//!
//! Rule: a block of the table is changed in memory and written once, to every copy of
//! the table, before another one is looked at.

use super::volume::{self, FIRST, Volume, number, set_number};
use super::{CardBlocks, CardFault};
use embedded_sdmmc::Block;

/// The upper bits of a wide entry are not part of it.
const ENTRY: u32 = 0x0FFF_FFFF;
/// No cluster follows. Source: FAT Specification 1.03, 4 (end of chain).
const END: u32 = ENTRY;
/// The info sector's signature, its count of free clusters, and what says that nobody
/// has counted. Source: FAT Specification 1.03, 5.
const INFO: (usize, u32) = (484, 0x6141_7272);
const FREE: usize = 488;
const NOT_COUNTED: u32 = u32::MAX;

/// The table of a volume.
pub struct Table<'c, C: CardBlocks> {
    /// The card.
    pub card: &'c C,
    /// Where everything lies.
    pub volume: Volume,
    /// Lent by the caller: a table that owned it would lie on the stack twice.
    block: &'c mut Block,
    /// Which block of the table that is.
    held: Option<u32>,
    is_changed: bool,
    /// Clusters taken, less those given back.
    taken: i32,
}

impl<'c, C: CardBlocks> Table<'c, C> {
    /// Of the card's first partition.
    pub fn of(card: &'c C, block: &'c mut Block) -> Result<Table<'c, C>, CardFault> {
        let volume = Volume::of(card, block)?;
        Ok(Table {
            card,
            volume,
            block,
            held: None,
            is_changed: false,
            taken: 0,
        })
    }

    /// The memory of its block, blank, for something else meanwhile: a stack that is deep
    /// has no room for two. What it holds is written before.
    pub fn lend(&mut self) -> Result<&mut Block, CardFault> {
        self.write_held()?;
        self.held = None;
        self.block.contents.fill(0);
        Ok(self.block)
    }

    fn bytes(&self) -> u32 {
        if self.volume.is_wide { 4 } else { 2 }
    }

    /// Holds the block with a cluster's entry; where in it that is.
    fn hold(&mut self, cluster: u32) -> Result<usize, CardFault> {
        let at = cluster * self.bytes();
        let block = at / Block::LEN_U32;
        if self.held != Some(block) {
            self.write_held()?;
            self.held = None;
            volume::read(self.card, self.volume.table + block, self.block)?;
            self.held = Some(block);
        }
        Ok((at % Block::LEN_U32) as usize)
    }

    /// Writes what was changed and not written yet.
    fn write_held(&mut self) -> Result<(), CardFault> {
        let Some(held) = self.held.filter(|_| self.is_changed) else {
            return Ok(());
        };
        for copy in 0..self.volume.tables {
            let at = self.volume.table + copy * self.volume.blocks_a_table + held;
            volume::write(self.card, at, self.block)?;
        }
        self.is_changed = false;
        Ok(())
    }

    fn get(&mut self, cluster: u32) -> Result<u32, CardFault> {
        let at = self.hold(cluster)?;
        Ok(number(self.block, at, self.bytes() as usize) & ENTRY)
    }

    fn set(&mut self, cluster: u32, value: u32) -> Result<(), CardFault> {
        let at = self.hold(cluster)?;
        let bytes = self.bytes() as usize;
        let kept = number(self.block, at, bytes) & !ENTRY;
        set_number(self.block, at, bytes, kept | value);
        self.is_changed = true;
        Ok(())
    }

    /// The cluster that follows one; `None` behind the last, or where the table says
    /// something that is no cluster.
    pub fn next(&mut self, cluster: u32) -> Result<Option<u32>, CardFault> {
        if !self.volume.has(cluster) {
            return Ok(None);
        }
        let next = self.get(cluster)?;
        Ok(Some(next).filter(|next| self.volume.has(*next)))
    }

    /// Whether a file's clusters follow each other without a gap.
    pub fn is_one_piece(&mut self, first: u32, count: u32) -> Result<bool, CardFault> {
        if !self.volume.has(first) {
            return Ok(false);
        }
        for cluster in first..first + count - 1 {
            if self.next(cluster)? != Some(cluster + 1) {
                return Ok(false);
            }
        }
        Ok(true)
    }

    /// The first of so many free clusters that lie side by side, looked for from `near`
    /// on and then from the beginning.
    ///
    /// # Errors
    /// [`CardFault::InPieces`] if there are as many, but apart; else [`CardFault::Full`].
    pub fn find_room(&mut self, near: u32, count: u32) -> Result<u32, CardFault> {
        if self.volume.has(near)
            && let Ok(first) = self.room_from(near, count)?
        {
            return Ok(first);
        }
        let found = self.room_from(FIRST, count)?;
        found.map_err(|free| match free < count {
            true => CardFault::Full,
            false => CardFault::InPieces,
        })
    }

    /// The first of so many free clusters side by side, or how many there are apart.
    fn room_from(&mut self, from: u32, count: u32) -> Result<Result<u32, u32>, CardFault> {
        let (mut free, mut found) = (0, 0);
        for cluster in from..self.volume.end {
            match self.get(cluster)? {
                0 => (free, found) = (free + 1, found + 1),
                _ => found = 0,
            }
            if found == count {
                return Ok(Ok(cluster + 1 - count));
            }
        }
        Ok(Err(free))
    }

    /// Takes clusters that lie side by side, as one chain.
    pub fn take(&mut self, first: u32, count: u32) -> Result<(), CardFault> {
        for cluster in first..first + count {
            let is_last = cluster + 1 == first + count;
            self.set(cluster, if is_last { END } else { cluster + 1 })?;
        }
        self.taken += count as i32;
        self.write_held()
    }

    /// Lets a cluster follow another.
    pub fn link(&mut self, cluster: u32, next: u32) -> Result<(), CardFault> {
        self.set(cluster, next)?;
        self.write_held()
    }

    /// Gives a chain back. One that is damaged ends where it is.
    pub fn give_back(&mut self, first: u32) -> Result<(), CardFault> {
        let mut cluster = Some(first).filter(|first| self.volume.has(*first));
        while let Some(given) = cluster {
            if self.get(given)? == 0 {
                break;
            }
            cluster = self.next(given)?;
            self.set(given, 0)?;
            self.taken -= 1;
        }
        self.write_held()
    }

    /// Corrects the count of free clusters, where the volume has one.
    pub fn count(self) -> Result<(), CardFault> {
        let Some(info) = self.volume.info else {
            return Ok(());
        };
        volume::read(self.card, info, self.block)?;
        let free = number(self.block, FREE, 4);
        if number(self.block, INFO.0, 4) != INFO.1 || free == NOT_COUNTED {
            return Ok(());
        }
        let free = free.saturating_add_signed(-self.taken);
        set_number(self.block, FREE, 4, free);
        volume::write(self.card, info, self.block)
    }
}
