//! A slot: one job whole, with a head written last.
//!
//! ```text
//! job u8 | removed u8 | number u32 | turn u32 | edits u32 | length u32 | CRC-32C u32
//!     | place length u8, 48 bytes | title length u8, 24 bytes
//! ```
//!
//! While a job is being written, the head is still the old one and its sum
//! no longer fits: the slot holds nothing, and the other region's does.

use super::block::{self, BLOCK, Block, BlockStore, CardNumber, Kind, Sum, TRIES};
use super::kept::{Full, Kept, Sink, Source, Unreadable};
use super::layout::{self, JobNumber, Region, SLOT_BYTES};
use super::record::{PLACE_MOST, Place, Standing};
use super::{Fault, Journal};
use heapless::String;

/// Bytes of the longest title: as long as the name of a job.
pub const TITLE_MOST: usize = 24;

/// What the list of jobs calls a job.
pub type Title = String<TITLE_MOST, u8>;

/// The head of a slot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Head {
    pub(super) job: JobNumber,
    pub(super) mark: Mark,
    /// Bytes of the job, and their CRC-32C.
    pub(super) length: u32,
    pub(super) sum: u32,
    pub(super) place: Place,
    pub(super) title: Title,
}

/// What stays in working memory of a slot. Of two, the greater is the newer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Mark {
    /// The newest record when it was written.
    pub(super) number: u32,
    /// How often the job was removed or restored since.
    pub(super) turn: u32,
    /// Edits of the job that it holds.
    pub(super) edits: u32,
    /// The job is removed; it still lies there.
    pub(super) removed: bool,
}

impl Head {
    fn write(&self, block: &mut Block, card: CardNumber) -> Option<()> {
        block::sealed(block, Kind::Slot, card, |pen| {
            pen.put(&[self.job.get(), u8::from(self.mark.removed)])?;
            pen.put_u32(self.mark.number)?;
            pen.put_u32(self.mark.turn)?;
            pen.put_u32(self.mark.edits)?;
            pen.put_u32(self.length)?;
            pen.put_u32(self.sum)?;
            pen.put_padded(&self.place, PLACE_MOST)?;
            pen.put_padded(self.title.as_bytes(), TITLE_MOST)
        })
    }

    fn read(block: &Block, card: CardNumber) -> Option<Head> {
        let mut fields = block::fields(block, Kind::Slot, card)?;
        let [job, removed] = fields.take()?;
        let number = fields.take_u32()?;
        let turn = fields.take_u32()?;
        let edits = fields.take_u32()?;
        let mark = Mark {
            number,
            turn,
            edits,
            removed: removed != 0,
        };
        let [length, sum] = [fields.take_u32()?, fields.take_u32()?];
        let place = Place::from_slice(fields.take_padded(PLACE_MOST)?).ok()?;
        let title = core::str::from_utf8(fields.take_padded(TITLE_MOST)?).ok()?;
        Some(Head {
            job: JobNumber::new(job)?,
            mark,
            length,
            sum,
            place,
            title: title.try_into().ok()?,
        })
        .filter(|head| head.length as usize <= SLOT_BYTES)
    }
}

/// As much of a title as fits.
fn title_of(kept: &impl Kept) -> Title {
    let mut title = Title::new();
    for letter in kept.title().chars() {
        if title.push(letter).is_err() {
            break;
        }
    }
    title
}

impl<S: BlockStore> Journal<S> {
    /// The slot of a job in a region.
    pub(super) fn mark(&self, region: Region, job: JobNumber) -> Option<Mark> {
        *region.entry(&self.marks).get(job.index())?
    }

    pub(super) fn set_mark(&mut self, region: Region, job: JobNumber, mark: Option<Mark>) {
        if let Some(kept) = region.entry_mut(&mut self.marks).get_mut(job.index()) {
            *kept = mark;
        }
    }

    /// The newer slot of a job.
    pub(super) fn newest_mark(&self, job: JobNumber) -> Option<Mark> {
        let [front, back] = Region::BOTH.map(|region| self.mark(region, job));
        front.max(back)
    }

    /// Writes the open job whole into a region.
    pub(super) fn write_slot(&mut self, region: Region, kept: &impl Kept) -> Result<(), Fault> {
        let now = self.now.clone();
        self.write_slot_as(region, &now, kept)?;
        *region.entry_mut(&mut self.uncovered) = None;
        Ok(())
    }

    /// Writes a job whole into a region.
    pub(super) fn write_slot_as(
        &mut self,
        region: Region,
        now: &Standing,
        kept: &impl Kept,
    ) -> Result<(), Fault> {
        self.check_card(region)?;
        // Before anything of the old slot is gone.
        kept.write(&mut Room(SLOT_BYTES))
            .map_err(|Full| Fault::JobTooLong)?;
        let mark = Mark {
            number: now.number,
            turn: 0,
            edits: now.edits,
            removed: false,
        };
        let mut head = Head {
            job: now.job,
            mark,
            length: 0,
            sum: 0,
            place: now.place.clone(),
            title: title_of(kept),
        };
        self.set_mark(region, now.job, None);
        let mut done = Err(Fault::NotKept);
        for _ in 0..TRIES {
            done = self.write_contents(region, &mut head, kept);
            if done.is_ok() {
                break;
            }
        }
        done?;
        self.write_slot_head(region, &head)
    }

    /// Writes the job, and reads it back.
    fn write_contents(
        &mut self,
        region: Region,
        head: &mut Head,
        kept: &impl Kept,
    ) -> Result<(), Fault> {
        let mut out = Writing {
            store: &mut self.store,
            block: &mut self.work,
            at: layout::slot(region, head.job) + 1,
            length: 0,
            sum: block::sum(),
            fault: None,
        };
        let wrote = kept.write(&mut out);
        (head.length, head.sum) = out.finish(wrote)?;
        self.contents(region, head).check()
    }

    /// Writes the head of a slot, reads it back and takes note of it.
    pub(super) fn write_slot_head(&mut self, region: Region, head: &Head) -> Result<(), Fault> {
        let at = layout::slot(region, head.job);
        let mut fault = Fault::NotKept;
        for _ in 0..TRIES {
            head.write(&mut self.work, self.card)
                .ok_or(Fault::PlaceTooLong)?;
            let wrote = self.store.write(at, &self.work);
            match self.read_slot_head(region, head.job) {
                Ok(Some(back)) if back == *head => {
                    self.set_mark(region, head.job, Some(head.mark));
                    return Ok(());
                }
                Ok(_) => fault = wrote.map_or_else(Fault::Store, |()| Fault::NotKept),
                Err(error) => fault = error,
            }
        }
        self.set_mark(region, head.job, None);
        Err(fault)
    }

    /// The head of a slot as it lies there.
    pub(super) fn read_slot_head(
        &mut self,
        region: Region,
        job: JobNumber,
    ) -> Result<Option<Head>, Fault> {
        self.read_block(layout::slot(region, job))?;
        let head = Head::read(&self.work, self.card);
        Ok(head.filter(|head| head.job == job))
    }

    /// Reads a block into `work`, more than once if it must.
    pub(super) fn read_block(&mut self, at: u32) -> Result<(), Fault> {
        let read = block::read_block(&mut self.store, at, &mut self.work);
        self.is_unread |= read.is_err();
        read.map_err(Fault::Store)
    }

    /// The job in a slot, to be read.
    pub(super) fn contents(&mut self, region: Region, head: &Head) -> Reading<'_, S> {
        Reading {
            store: &mut self.store,
            block: &mut self.work,
            start: layout::slot(region, head.job) + 1,
            given: 0,
            length: head.length as usize,
            sum: block::sum(),
            due: head.sum,
            fault: None,
        }
    }

    /// Copies a job's slot from the other region, more than once if it must.
    pub(super) fn copy_slot(&mut self, job: JobNumber, to: Region) -> Result<(), Fault> {
        let mut copied = Ok(());
        for _ in 0..TRIES {
            copied = self.try_copy(job, to);
            if copied.is_ok() {
                break;
            }
        }
        copied
    }

    /// The job, then its head.
    fn try_copy(&mut self, job: JobNumber, to: Region) -> Result<(), Fault> {
        let from = to.other();
        let Some(head) = self.read_slot_head(from, job)? else {
            return Err(Fault::NotKept);
        };
        self.set_mark(to, job, None);
        for block in 1..=head.length.div_ceil(BLOCK as u32) {
            self.read_block(layout::slot(from, job) + block)?;
            let wrote = self.store.write(layout::slot(to, job) + block, &self.work);
            wrote.map_err(Fault::Store)?;
        }
        self.contents(to, &head).check()?;
        self.write_slot_head(to, &head)
    }
}

/// Bytes that a slot has left.
struct Room(usize);

impl Sink for Room {
    fn put(&mut self, bytes: &[u8]) -> Result<(), Full> {
        self.0 = self.0.checked_sub(bytes.len()).ok_or(Full)?;
        Ok(())
    }
}

/// A job on its way into a slot.
struct Writing<'a, S> {
    store: &'a mut S,
    block: &'a mut Block,
    /// Where the block being filled will go.
    at: u32,
    /// Bytes so far, those of full blocks included.
    length: usize,
    sum: Sum,
    fault: Option<Fault>,
}

impl<S: BlockStore> Writing<'_, S> {
    /// Takes as much as the block has room for; the rest comes back.
    fn fill<'t>(&mut self, bytes: &'t [u8]) -> Result<&'t [u8], Fault> {
        let room = self.block.get_mut(self.length % BLOCK..);
        let room = room.unwrap_or_default();
        let (here, rest) = bytes.split_at_checked(room.len()).unwrap_or((bytes, &[]));
        for (place, byte) in room.iter_mut().zip(here) {
            *place = *byte;
        }
        self.length += here.len();
        if self.length.is_multiple_of(BLOCK) {
            self.put_block()?;
        }
        Ok(rest)
    }

    fn put_block(&mut self) -> Result<(), Fault> {
        let wrote = self.store.write(self.at, self.block);
        self.at += 1;
        wrote.map_err(Fault::Store)
    }

    /// Writes what is left over; length and sum of all.
    fn finish(mut self, wrote: Result<(), Full>) -> Result<(u32, u32), Fault> {
        if wrote.is_err() {
            return Err(self.fault.unwrap_or(Fault::NotKept));
        }
        if !self.length.is_multiple_of(BLOCK) {
            let rest = self.block.get_mut(self.length % BLOCK..);
            rest.unwrap_or_default().fill(0);
            self.put_block()?;
        }
        Ok((self.length as u32, self.sum.finalize()))
    }
}

impl<S: BlockStore> Sink for Writing<'_, S> {
    fn put(&mut self, bytes: &[u8]) -> Result<(), Full> {
        self.sum.update(bytes);
        let mut rest = bytes;
        while !rest.is_empty() {
            rest = self.fill(rest).map_err(|fault| {
                self.fault = Some(fault);
                Full
            })?;
        }
        Ok(())
    }
}

/// A job on its way out of a slot.
pub(super) struct Reading<'a, S> {
    store: &'a mut S,
    block: &'a mut Block,
    /// The slot's first block behind its head.
    start: u32,
    /// Bytes given out.
    given: usize,
    length: usize,
    sum: Sum,
    due: u32,
    fault: Option<Fault>,
}

impl<S: BlockStore> Reading<'_, S> {
    /// Whether all of it was given out, as it was written.
    pub(super) fn finish(self) -> Result<(), Fault> {
        match self.fault {
            Some(fault) => Err(fault),
            None if self.given == self.length && self.sum.finalize() == self.due => Ok(()),
            None => Err(Fault::NotKept),
        }
    }

    /// Whether all of it is there as it was written.
    pub(super) fn check(mut self) -> Result<(), Fault> {
        while self.given < self.length {
            let count = (self.length - self.given).min(BLOCK);
            if self.next_block().is_err() {
                break;
            }
            self.sum.update(self.block.get(..count).unwrap_or_default());
            self.given += count;
        }
        self.finish()
    }

    /// Reads the block that the next byte is in.
    fn next_block(&mut self) -> Result<(), Unreadable> {
        let at = self.start + (self.given / BLOCK) as u32;
        block::read_block(self.store, at, self.block).map_err(|error| {
            self.fault = Some(Fault::Store(error));
            Unreadable
        })
    }
}

impl<S: BlockStore> Source for Reading<'_, S> {
    fn take(&mut self, bytes: &mut [u8]) -> Result<(), Unreadable> {
        for byte in &mut *bytes {
            if self.given >= self.length || self.fault.is_some() {
                return Err(Unreadable);
            }
            if self.given.is_multiple_of(BLOCK) {
                self.next_block()?;
            }
            *byte = *self.block.get(self.given % BLOCK).ok_or(Unreadable)?;
            self.given += 1;
        }
        self.sum.update(bytes);
        Ok(())
    }
}
