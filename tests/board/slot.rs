//! A slot with a card in it that may be pulled, swapped, locked, or fail, at any
//! operation.

use super::fat;
use boltbay_board::card::CardBlocks;
use embedded_sdmmc::{Block, BlockCount, BlockDevice, BlockIdx};
use std::cell::RefCell;
use std::fmt;
use std::rc::Rc;

/// What happens, at which operation of the card. Operations are counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mishap {
    /// Nothing.
    None,
    /// From here on no block is written.
    Locked(u32),
    /// Pulled here, until somebody puts it back.
    Pulled(u32),
    /// Pulled here, and there again so many operations later.
    Loose(u32, u32),
    /// Another card is in its place from here on.
    Swapped(u32),
    /// This one operation fails; if it writes, nothing lands.
    Fails(u32),
    /// This one operation fails, and if it writes, it lands.
    FailsLate(u32),
}

/// The slot.
#[derive(Clone)]
pub struct Slot(Rc<RefCell<Inside>>);

struct Inside {
    /// The card of the crew.
    ours: fat::Card,
    /// Another card.
    other: Option<fat::Card>,
    mishap: Mishap,
    operations: u32,
    /// It was identified since it was put in.
    is_awake: bool,
    /// Somebody has put the crew's own card back, and it holds.
    is_mended: bool,
}

/// Why a card does not do it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SlotError {
    Missing,
    Refused,
}

impl fmt::Display for SlotError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self:?}")
    }
}

impl std::error::Error for SlotError {}

/// Which card is in the slot.
#[derive(Clone, Copy, PartialEq, Eq)]
enum There {
    Ours,
    Other,
    Nothing,
}

impl Slot {
    /// With this card in it.
    pub fn with(ours: &fat::Card) -> Slot {
        Slot(Rc::new(RefCell::new(Inside {
            ours: ours.clone(),
            other: None,
            mishap: Mishap::None,
            operations: 0,
            is_awake: false,
            is_mended: false,
        })))
    }

    /// What is to happen, counted from now on.
    pub fn let_happen(&self, mishap: Mishap, other: Option<&fat::Card>) {
        let mut inside = self.0.borrow_mut();
        inside.mishap = mishap;
        inside.other = other.cloned();
        inside.operations = 0;
        inside.is_mended = false;
    }

    /// The crew's card is put into the empty slot; what is to happen counts from there.
    pub fn put_in(&self, mishap: Mishap, other: Option<&fat::Card>) {
        self.let_happen(mishap, other);
        self.0.borrow_mut().is_awake = false;
    }

    /// The crew's card was out, and comes back as it is now.
    pub fn comes_back(&self, card: &fat::Card) {
        self.put_in(Mishap::None, None);
        self.0.borrow_mut().ours = card.clone();
    }

    /// The crew's own card is put back, and whatever was wrong with it is over.
    pub fn mend(&self) {
        let mut inside = self.0.borrow_mut();
        let was = inside.there();
        inside.is_mended = true;
        if was != There::Ours {
            inside.is_awake = false;
        }
    }

    /// Whether it has come to it.
    pub fn has_happened(&self) -> bool {
        let inside = self.0.borrow();
        inside
            .first()
            .is_some_and(|first| inside.operations > first)
    }

    /// The crew's card as it is now.
    pub fn ours(&self) -> fat::Card {
        self.0.borrow().ours.clone()
    }

    /// The other card as it is now.
    pub fn other(&self) -> Option<fat::Card> {
        self.0.borrow().other.clone()
    }
}

impl Inside {
    fn first(&self) -> Option<u32> {
        match self.mishap {
            Mishap::None => None,
            Mishap::Locked(at)
            | Mishap::Pulled(at)
            | Mishap::Loose(at, _)
            | Mishap::Swapped(at)
            | Mishap::Fails(at)
            | Mishap::FailsLate(at) => Some(at),
        }
    }

    fn there(&self) -> There {
        let at = self.operations;
        match self.mishap {
            _ if self.is_mended => There::Ours,
            Mishap::Pulled(from) if at >= from => There::Nothing,
            Mishap::Loose(from, count) if (from..from + count).contains(&at) => There::Nothing,
            Mishap::Swapped(from) if at >= from => There::Other,
            _ => There::Ours,
        }
    }

    /// One operation: on which card, whether it is done, and whether that is said.
    fn operate(&mut self, writes: bool) -> Result<(There, bool, bool), SlotError> {
        let before = self.there();
        let at = self.operations;
        self.operations += 1;
        let changed = match self.mishap {
            _ if self.is_mended => false,
            Mishap::Pulled(from) | Mishap::Swapped(from) => at == from,
            Mishap::Loose(from, count) => at == from || at == from + count,
            _ => false,
        };
        if changed {
            self.is_awake = false;
        }
        if before == There::Nothing || !self.is_awake {
            return Err(SlotError::Missing);
        }
        let (done, said) = match self.mishap {
            _ if self.is_mended => (true, true),
            Mishap::Locked(from) if writes && at >= from => (false, false),
            Mishap::Fails(from) if at == from => (false, false),
            Mishap::FailsLate(from) if at == from => (true, false),
            _ => (true, true),
        };
        Ok((before, done, said))
    }

    fn card(&mut self, there: There) -> &mut fat::Card {
        match there {
            There::Other => self.other.as_mut().expect("another card"),
            _ => &mut self.ours,
        }
    }
}

impl BlockDevice for Slot {
    type Error = SlotError;

    fn read(&self, blocks: &mut [Block], at: BlockIdx) -> Result<(), SlotError> {
        let mut inside = self.0.borrow_mut();
        for (block, at) in blocks.iter_mut().zip(at.0..) {
            let (there, _, said) = inside.operate(false)?;
            if !said {
                return Err(SlotError::Refused);
            }
            block.contents = inside.card(there).get(at);
        }
        Ok(())
    }

    fn write(&self, blocks: &[Block], at: BlockIdx) -> Result<(), SlotError> {
        let mut inside = self.0.borrow_mut();
        for (block, at) in blocks.iter().zip(at.0..) {
            let (there, done, said) = inside.operate(true)?;
            if done {
                let end = inside.card(there).format.end();
                assert!(at < end, "block {at} is behind the partition");
                inside.card(there).put(at, &block.contents);
            }
            if !said {
                return Err(SlotError::Refused);
            }
        }
        Ok(())
    }

    fn num_blocks(&self) -> Result<BlockCount, SlotError> {
        Ok(BlockCount(self.0.borrow().ours.format.end()))
    }
}

impl CardBlocks for Slot {
    fn wake(&self) -> bool {
        let mut inside = self.0.borrow_mut();
        inside.is_awake = inside.there() != There::Nothing;
        inside.is_awake
    }

    fn is_missing(&self, error: &SlotError) -> bool {
        *error == SlotError::Missing
    }
}
