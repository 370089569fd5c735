//! A card that comes late: the job in memory was begun without one, and is put on the
//! card as a job of its own, beside those that are there.
//!
//! Memory holds one job, so the card's own open job cannot be read meanwhile. Its newest
//! edits stay where they are, in the records of each region, and nothing is recorded over
//! them: the next [`Journal::open`] writes them into its slots before it opens the newer
//! job.

use super::block::{BlockStore, CardNumber, StoreError};
use super::kept::Kept;
use super::layout::{JobNumber, RING, Region};
use super::open::Missing;
use super::record::{self, Place, Standing};
use super::{Fault, Journal};

/// A job that was being taken in, and by which number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Begun {
    card: CardNumber,
    job: JobNumber,
    number: u32,
}

/// What is not there of the job that was open before.
#[derive(Default)]
pub(super) struct Short {
    pub(super) missing: Option<Missing>,
    pub(super) lost: Option<JobNumber>,
}

/// A card that is not there stays that; any other fault is one that only
/// [`Journal::open`] can mend.
fn damaged(fault: Fault) -> Fault {
    match fault {
        Fault::Store(StoreError::NoCard) => fault,
        _ => Fault::Damaged,
    }
}

impl<S: BlockStore> Journal<S> {
    /// Puts a job that was begun without a card on this one, as a new job and the next
    /// to be opened; a blank card is set up first, with the number `card`. The journal
    /// is not open before nor afterwards. If it comes to the same card again after a
    /// failure, the job is there once.
    ///
    /// # Errors
    /// [`Fault::JobsFull`]; [`StoreError::Read`] for any block; [`Fault::Damaged`] if one
    /// region of the card does not hold everything, which only [`Journal::open`] can mend;
    /// those of [`Journal::open_or_set_up`], and whatever the card did. The jobs of the
    /// card are there as before.
    pub fn take_in(
        &mut self,
        card: CardNumber,
        kept: &impl Kept,
        place: &[u8],
    ) -> Result<(), Fault> {
        self.forget();
        self.check_size()?;
        self.find_or_set_up(card)?;
        self.survey_slots()?;
        let record = self.newest_record()?;
        self.check_all_read()?;
        let begun = self.lies_there(record.as_ref());
        let number = match self.newer_slot_or(record.clone()) {
            Some(newest) => self.ready_for_more(record, newest, begun)?,
            None => self.mend_heads().map(|()| 0)?,
        };
        let job = begun.or_else(|| self.free_slot()).ok_or(Fault::JobsFull)?;
        let number = number.checked_add(1).ok_or(Fault::WornOut)?;
        let card = self.card;
        self.begun = Some(Begun { card, job, number });
        let now = Standing {
            number,
            job,
            edits: number,
            place: Place::from_slice(place).map_err(|_| Fault::PlaceTooLong)?,
        };
        self.put_whole(now, kept)?;
        self.unmended.map_or(Ok(()), Err)
    }

    /// The card has a journal, or is given one without a job.
    fn find_or_set_up(&mut self, card: CardNumber) -> Result<(), Fault> {
        match self.find_card() {
            Ok(found) => self.card = found,
            Err(Fault::NoJournal) if self.has_blank_head()? => {
                self.check_all_read()?;
                self.card = card;
                self.mend_heads()?;
            }
            Err(Fault::NoJournal) => return Err(Fault::Damaged),
            Err(fault) => return Err(fault),
        }
        Ok(())
    }

    /// A block that cannot be read may be the newest record, or a job: where a card is
    /// opened it must not stop the crew, but nobody has to write on this one.
    fn check_all_read(&self) -> Result<(), Fault> {
        match self.is_unread {
            true => Err(Fault::Store(StoreError::Read)),
            false => Ok(()),
        }
    }

    /// The job that was being taken in, if it has come to lie on this card and nobody
    /// has gone on with it since.
    fn lies_there(&self, record: Option<&Standing>) -> Option<JobNumber> {
        let begun = self.begun.filter(|begun| begun.card == self.card)?;
        let mark = self.newest_mark(begun.job)?;
        let is_ours = mark.number == begun.number && !mark.removed;
        let is_newest = record.is_none_or(|record| record.number < begun.number);
        (is_ours && is_newest).then_some(begun.job)
    }

    /// Makes sure that each region holds every job by itself, so that the next slot may
    /// be written into either; the newest number of the card. Of `begun` a region may
    /// have nothing yet.
    fn ready_for_more(
        &mut self,
        record: Option<Standing>,
        newest: Standing,
        begun: Option<JobNumber>,
    ) -> Result<u32, Fault> {
        for region in Region::BOTH {
            self.check_card(region).map_err(damaged)?;
        }
        // Its slots may lag behind its records.
        let lags = record.filter(|it| it.number == newest.number || it.job != newest.job);
        for job in JobNumber::all() {
            let is_exempt = Some(job) == begun || lags.as_ref().is_some_and(|it| it.job == job);
            let [front, back] = Region::BOTH.map(|region| self.mark(region, job));
            if front != back && !is_exempt {
                return Err(Fault::Damaged);
            }
        }
        self.now = newest;
        let Some(lags) = lags else {
            return Ok(self.now.number);
        };
        if self.now.number == lags.number && !self.both_hold(&lags) {
            self.repeat_newest()?;
        }
        match self.both_hold(&lags) {
            true => Ok(self.now.number),
            false => Err(Fault::Damaged),
        }
    }

    /// A record without an edit: it repeats the newest ones in the region that lacks
    /// them.
    fn repeat_newest(&mut self) -> Result<(), Fault> {
        self.recall();
        let mut next = self.now.clone();
        next.number = self.next_number()?;
        self.put_record(next, &[])
    }

    fn both_hold(&mut self, now: &Standing) -> bool {
        let mut regions = Region::BOTH.into_iter();
        regions.all(|region| self.holds(region, now))
    }

    /// Whether a region has all edits of a job by itself, in its slot and its ring.
    fn holds(&mut self, region: Region, now: &Standing) -> bool {
        let Some(mark) = self.mark(region, now.job).filter(|mark| !mark.removed) else {
            return false;
        };
        let mut done = mark.edits;
        // The record before these lies where the next one goes.
        let oldest = now.number.saturating_sub(2 * RING - 2).max(mark.number);
        for number in oldest..=now.number.saturating_add(1) {
            if done >= now.edits {
                break;
            }
            if Region::of(number) == region && self.read_record(number).is_some() {
                while record::edit(&self.work, now.job, done + 1).is_some() {
                    done += 1;
                }
            }
        }
        done >= now.edits
    }

    /// Where a job that was taken in is the next to be opened: first the slots of the
    /// job of the newest record get its newest edits, because what comes now is recorded
    /// over them. What could not be had of it.
    pub(super) fn settle_before(
        &mut self,
        record: Option<Standing>,
        newer: JobNumber,
        kept: &mut impl Kept,
    ) -> Result<Short, Fault> {
        let mut short = Short::default();
        let Some(record) = record.filter(|record| record.job != newer) else {
            return Ok(short);
        };
        let mark = self.newest_mark(record.job).filter(|mark| !mark.removed);
        if mark.is_none_or(|mark| mark.edits >= record.edits) {
            return Ok(short);
        }
        let job = record.job;
        self.now = record;
        match self.load(job, kept) {
            Ok(head) => short.missing = self.replay(head.mark, kept),
            Err(fault @ Fault::Store(StoreError::NoCard)) => return Err(fault),
            Err(_) => {
                short.lost = Some(job);
                return Ok(short);
            }
        }
        if let Some(missing) = short.missing {
            self.now.edits = missing.kept;
        }
        self.unmended = self.mend(kept).err();
        Ok(short)
    }
}
