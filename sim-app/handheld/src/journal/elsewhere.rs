//! A card that was out of the slot may have been in another handheld's meanwhile. What was
//! entered there has the numbers that would come next here, and would be written over.
//!
//! In: the blocks. Out: whether anything on the card is newer than what came from here.
//! Rule: it is looked for once, before the first block that is written after the card was
//! out. A block that cannot be read is not newer: as where a card is opened, it must not
//! stop the crew.

use super::block::{self, BlockStore, StoreError};
use super::layout::{JobNumber, Region};
use super::{Fault, Journal};

impl<S: BlockStore> Journal<S> {
    /// Makes sure that nobody else has written on the card while it was out.
    ///
    /// # Errors
    /// [`Fault::UsedElsewhere`]; [`StoreError::NoCard`].
    pub(super) fn check_unused(&mut self) -> Result<(), Fault> {
        self.was_out |= self.store.was_out();
        if !self.was_out || !self.is_open {
            return Ok(());
        }
        let newest = self.newest_number()?;
        if newest > self.now.number && !self.is_refused(newest) {
            return Err(Fault::UsedElsewhere);
        }
        self.was_out = false;
        Ok(())
    }

    /// Whether it is what was refused here, and has come to lie there all the same. A
    /// slot has no seal that is kept: it is taken for ours.
    fn is_refused(&mut self, number: u32) -> bool {
        self.unsettled
            && number - 1 == self.now.number
            && (self.read_record(number).is_none() || block::seal(&self.work) == self.refused)
    }

    /// The newest number on the card, of a record or a slot.
    fn newest_number(&mut self) -> Result<u32, Fault> {
        let record = self.newest_record()?;
        let mut newest = record.map_or(0, |record| record.number);
        for region in Region::BOTH {
            for job in JobNumber::all() {
                match self.read_slot_head(region, job) {
                    Ok(Some(head)) => newest = newest.max(head.mark.number),
                    Err(fault @ Fault::Store(StoreError::NoCard)) => return Err(fault),
                    Ok(None) | Err(_) => {}
                }
            }
        }
        Ok(newest)
    }
}
