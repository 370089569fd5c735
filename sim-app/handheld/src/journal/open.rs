//! Opening a card: which job is open and how it stands, whatever happened.
//!
//! In: the blocks. Out: the job in memory, the place of the screens, and a card
//! whose two regions each hold everything again. Reads the heads, all slots, the ring,
//! and the records behind the open job's slot once more: at most some 1,800 blocks,
//! some 600 with sixteen jobs of 3 KiB. Writes only what is not there twice.

use super::block::{self, BlockStore, CardNumber, Kind, StoreError, VERSION};
use super::kept::Kept;
use super::layout::{self, JobNumber, RING, Region, STORE_BLOCKS};
use super::record::{self, Place, Standing};
use super::slot::Mark;
use super::{Fault, Journal};

/// What was found on a card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Opening {
    /// The open job, now in memory.
    pub job: JobNumber,
    /// Where the screens were; empty: nowhere in particular.
    pub place: Place,
    /// Edits that had been accepted and are not on the card.
    pub missing: Option<Missing>,
    /// The job that should have been opened, but nothing of it can be read.
    pub lost: Option<JobNumber>,
}

/// Edits of the open job that the card has forgotten.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Missing {
    /// How many edits before them are there, and done.
    pub kept: u32,
    /// How many are missing or could not be done without those missing.
    pub count: u32,
}

impl<S: BlockStore> Journal<S> {
    /// Makes a new journal with one empty job, and opens it. Whatever lay on the
    /// card is gone; `card` must be a number that no other card has.
    ///
    /// # Errors
    /// Whatever the card did. The card then has its old journal or none.
    pub fn set_up(&mut self, card: CardNumber, kept: &mut impl Kept) -> Result<Opening, Fault> {
        self.is_open = false;
        self.check_size()?;
        self.card = card;
        for region in Region::BOTH {
            self.write_region_head(region)?;
        }
        self.open(kept)
    }

    /// Reads the card and puts the open job into `kept`.
    ///
    /// # Errors
    /// [`Fault::NoJournal`], [`Fault::Damaged`], [`Fault::OtherVersion`],
    /// [`Fault::TooSmall`], [`Fault::Unreadable`] if there are jobs but none can
    /// be read, [`Fault::Store`] if there is no card. A card that can be read but
    /// not written is no error: see [`Journal::read_only`].
    pub fn open(&mut self, kept: &mut impl Kept) -> Result<Opening, Fault> {
        self.forget();
        self.check_size()?;
        self.card = self.find_card()?;
        self.survey_slots()?;
        let record = self.newest_record()?;
        let Some(newest) = self.newer_slot_or(record.clone()) else {
            return self.open_first_job(kept);
        };
        let short = self.settle_before(record, newest.job, kept)?;
        let mut opening = self.restore(newest, kept)?;
        opening.missing = opening.missing.or(short.missing);
        opening.lost = opening.lost.or(short.lost);
        self.is_open = true;
        if self.unmended.is_none() {
            self.unmended = self.mend(kept).err();
        }
        self.recall();
        Ok(opening)
    }

    /// Opens the card, or sets it up where no journal has ever been on it.
    ///
    /// # Errors
    /// Those of [`Journal::open`] and [`Journal::set_up`]; [`Fault::Damaged`] also where
    /// something lies in place of both heads: that is not written over.
    pub fn open_or_set_up(
        &mut self,
        card: CardNumber,
        kept: &mut impl Kept,
    ) -> Result<Opening, Fault> {
        match self.open(kept) {
            Err(Fault::NoJournal) if self.has_blank_head()? => self.set_up(card, kept),
            Err(Fault::NoJournal) => Err(Fault::Damaged),
            opened => opened,
        }
    }

    /// Whether one of the heads was never written.
    pub(super) fn has_blank_head(&mut self) -> Result<bool, Fault> {
        for region in Region::BOTH {
            if self.see(layout::head(region))? && self.work.iter().all(|byte| *byte == 0) {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// Forgets whatever card was there.
    pub(super) fn forget(&mut self) {
        self.is_open = false;
        self.now = Standing::new();
        self.marks = Default::default();
        self.uncovered = [None; 2];
        self.unsettled = false;
        self.unmended = None;
        self.is_unread = false;
        self.was_out = false;
        let _ = self.store.was_out();
        self.history.fill(0);
    }

    pub(super) fn check_size(&self) -> Result<(), Fault> {
        match self.store.blocks() < STORE_BLOCKS {
            true => Err(Fault::TooSmall),
            false => Ok(()),
        }
    }

    /// Reads a block into `work`; `false` if there is nothing to be had of it.
    fn see(&mut self, at: u32) -> Result<bool, Fault> {
        match self.read_block(at) {
            Ok(()) => Ok(true),
            Err(fault @ Fault::Store(StoreError::NoCard)) => Err(fault),
            Err(_) => Ok(false),
        }
    }

    /// Whose card it is: as the front says, or else the back.
    pub(super) fn find_card(&mut self) -> Result<CardNumber, Fault> {
        let mut fault = None;
        for region in Region::BOTH {
            if !self.see(layout::head(region))? {
                continue;
            }
            match block::opened(&self.work, Kind::Head) {
                Some(head) if head.version == VERSION => return Ok(head.card),
                Some(head) => fault = Some(Fault::OtherVersion(head.version)),
                None => {}
            }
        }
        match fault {
            Some(fault) => Err(fault),
            None if self.has_records()? => Err(Fault::Damaged),
            None => Err(Fault::NoJournal),
        }
    }

    /// Whether there are records of any card.
    fn has_records(&mut self) -> Result<bool, Fault> {
        for number in 0..2 * RING {
            if self.see(layout::ring(number))? && block::opened(&self.work, Kind::Record).is_some()
            {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// Notes which slots hold a job whole.
    pub(super) fn survey_slots(&mut self) -> Result<(), Fault> {
        for region in Region::BOTH {
            for job in JobNumber::all() {
                let mark = self.survey_slot(region, job)?;
                self.set_mark(region, job, mark);
            }
        }
        Ok(())
    }

    fn survey_slot(&mut self, region: Region, job: JobNumber) -> Result<Option<Mark>, Fault> {
        let head = match self.read_slot_head(region, job) {
            Ok(Some(head)) => head,
            Err(fault @ Fault::Store(StoreError::NoCard)) => return Err(fault),
            Ok(None) | Err(_) => return Ok(None),
        };
        let whole = self.contents(region, &head).check();
        self.is_unread |= matches!(whole, Err(Fault::Store(_)));
        Ok(whole.is_ok().then_some(head.mark))
    }

    /// The record `number`, if it lies where it belongs; it is then in `work`.
    pub(super) fn read_record(&mut self, number: u32) -> Option<Standing> {
        self.read_block(layout::ring(number)).ok()?;
        record::read(&self.work, self.card).filter(|record| record.number == number)
    }

    /// How the card stood last, by its records.
    pub(super) fn newest_record(&mut self) -> Result<Option<Standing>, Fault> {
        let mut newest: Option<Standing> = None;
        for place in 0..2 * RING {
            let at = layout::ring(place);
            if !self.see(at)? {
                continue;
            }
            let record = record::read(&self.work, self.card)
                .filter(|record| layout::ring(record.number) == at);
            if record.as_ref().map(|record| record.number)
                > newest.as_ref().map(|newest| newest.number)
            {
                newest = record;
            }
        }
        Ok(newest)
    }

    /// How it stood last, by its slots too.
    pub(super) fn newer_slot_or(&mut self, record: Option<Standing>) -> Option<Standing> {
        let mut newest = record;
        for job in JobNumber::all() {
            let mark = self.newest_mark(job).filter(|mark| !mark.removed);
            let number = mark.map(|mark| mark.number);
            if number > newest.as_ref().map(|newest| newest.number) {
                newest = self.standing_of(job).or(newest);
            }
        }
        newest
    }

    /// How a job stood when its newer slot was written.
    fn standing_of(&mut self, job: JobNumber) -> Option<Standing> {
        let (_, head) = self.newest_head(job)?;
        Some(Standing {
            number: head.mark.number,
            job,
            edits: head.mark.edits,
            place: head.place,
        })
    }

    /// A card with heads and no job: one that was being set up.
    fn open_first_job(&mut self, kept: &mut impl Kept) -> Result<Opening, Fault> {
        kept.clear();
        let job = JobNumber::FIRST;
        self.mend_heads()?;
        self.put_new_job(job, 1, kept)?;
        self.is_open = true;
        Ok(Opening {
            job,
            place: Place::new(),
            missing: None,
            lost: None,
        })
    }

    /// Puts the job that was open into memory; if nothing of it can be read, the
    /// one worked on before.
    fn restore(&mut self, newest: Standing, kept: &mut impl Kept) -> Result<Opening, Fault> {
        let open = newest.job;
        self.now = newest;
        match self.load(open, kept) {
            Ok(head) => {
                let missing = self.replay(head.mark, kept);
                Ok(self.opening(missing, None))
            }
            Err(fault @ Fault::Store(StoreError::NoCard)) => Err(fault),
            Err(_) => {
                self.restore_another(open, kept)?;
                Ok(self.opening(None, Some(open)))
            }
        }
    }

    fn opening(&self, missing: Option<Missing>, lost: Option<JobNumber>) -> Opening {
        Opening {
            job: self.now.job,
            place: self.now.place.clone(),
            missing,
            lost,
        }
    }

    /// The job worked on last among those that can be read.
    fn restore_another(&mut self, lost: JobNumber, kept: &mut impl Kept) -> Result<(), Fault> {
        let mut below = u32::MAX;
        loop {
            let next = JobNumber::all()
                .filter(|job| *job != lost)
                .filter_map(|job| Some((self.newest_mark(job).filter(|mark| !mark.removed)?, job)))
                .filter(|(mark, _)| mark.number < below)
                .max();
            let (mark, job) = next.ok_or(Fault::Unreadable)?;
            below = mark.number;
            if let Ok(head) = self.load(job, kept) {
                self.now.job = job;
                self.now.edits = head.mark.edits;
                self.now.place = head.place;
                return Ok(());
            }
        }
    }

    /// Does the edits that came after those of a slot, in order. All of them lie
    /// in records younger than the slot.
    pub(super) fn replay(&mut self, slot: Mark, kept: &mut impl Kept) -> Option<Missing> {
        let (newest, job) = (self.now.number, self.now.job);
        let mut done = slot.edits;
        let oldest = newest
            .saturating_sub(2 * RING - 1)
            .max(slot.number.saturating_add(1));
        'records: for number in oldest..=newest {
            if self.read_record(number).is_none() {
                continue;
            }
            while let Some(edit) = record::edit(&self.work, job, done + 1) {
                if kept.apply(edit).is_err() {
                    break 'records;
                }
                done += 1;
            }
        }
        let count = self.now.edits.saturating_sub(done);
        (count > 0).then_some(Missing { kept: done, count })
    }

    /// Makes each region hold everything by itself, one after the other.
    pub(super) fn mend(&mut self, kept: &impl Kept) -> Result<(), Fault> {
        let first = self.first_to_mend();
        for region in [first, first.other()] {
            self.mend_head(region)?;
            let mark = self.mark(region, self.now.job);
            if mark.is_none_or(|mark| mark.removed || mark.edits != self.now.edits) {
                self.write_slot(region, kept)?;
            }
            for job in JobNumber::all() {
                let other = job != self.now.job;
                if other && self.mark(region, job) != self.newest_mark(job) {
                    self.copy_slot(job, region)?;
                }
            }
        }
        Ok(())
    }

    /// The region that was being written when power went: the other is whole, and
    /// must be left alone until this one is. It is the one with a head or another
    /// job's slot damaged, or else the one that lacks the newest record.
    fn first_to_mend(&mut self) -> Region {
        let damaged = Region::BOTH.map(|region| self.is_damaged(region));
        match damaged {
            [true, false] => Region::Front,
            [false, true] => Region::Back,
            _ => Region::of(self.now.number).other(),
        }
    }

    fn is_damaged(&mut self, region: Region) -> bool {
        let mut others = JobNumber::all().filter(|job| *job != self.now.job);
        others.any(|job| self.mark(region, job) != self.newest_mark(job))
            || self.check_card(region).is_err()
    }

    pub(super) fn mend_heads(&mut self) -> Result<(), Fault> {
        Region::BOTH
            .iter()
            .try_for_each(|region| self.mend_head(*region))
    }

    fn mend_head(&mut self, region: Region) -> Result<(), Fault> {
        match self.check_card(region) {
            Ok(()) => Ok(()),
            Err(fault @ Fault::Store(StoreError::NoCard)) => Err(fault),
            Err(_) => self.write_region_head(region),
        }
    }

    fn write_region_head(&mut self, region: Region) -> Result<(), Fault> {
        block::write_head(&mut self.work, self.card).ok_or(Fault::NotKept)?;
        self.put_back_read(layout::head(region))
    }
}
