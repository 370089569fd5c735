//! The jobs of a card: list, make, open, remove, restore.
//!
//! Making one writes its slot first and needs no record: the head of that slot is
//! the one block that makes it be there, and the newest. Opening another writes
//! the one that is left into both regions, and then one record.

use super::block::BlockStore;
use super::kept::{Kept, Unreadable};
use super::layout::{JobNumber, Region};
use super::record::{self, Place, Standing};
use super::slot::{Head, Title};
use super::{Fault, Journal};

/// A job of the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Listed {
    /// Its number.
    pub job: JobNumber,
    /// Its name when it was last written whole; of the open job the handheld
    /// knows better.
    pub title: Title,
    /// The greater, the later it was worked on.
    pub number: u32,
    /// Removed; [`Journal::restore_job`] brings it back until a new job takes its
    /// slot.
    pub removed: bool,
}

impl<S: BlockStore> Journal<S> {
    /// What the list says of one job; `None` if there never was one, or its slot
    /// cannot be read.
    pub fn listed(&mut self, job: JobNumber) -> Option<Listed> {
        let (_, head) = self.newest_head(job)?;
        Some(Listed {
            job,
            number: head.mark.number,
            removed: head.mark.removed,
            title: head.title,
        })
    }

    /// How many jobs there are, removed ones not counted.
    pub fn count(&self) -> usize {
        let marks = JobNumber::all().filter_map(|job| self.newest_mark(job));
        marks.filter(|mark| !mark.removed).count()
    }

    /// Makes a new job and opens it. `fill` gets the empty job, to put into it
    /// what it starts with; `kept` is the open job before, the new one after.
    ///
    /// # Errors
    /// [`Fault::JobsFull`]; [`Fault::Unreadable`] if `fill` does; whatever the card
    /// did. The job is then the one that was open.
    pub fn make_job<K: Kept>(
        &mut self,
        kept: &mut K,
        fill: impl FnOnce(&mut K) -> Result<(), Unreadable>,
    ) -> Result<JobNumber, Fault> {
        self.check_writable()?;
        let job = self.free_slot().ok_or(Fault::JobsFull)?;
        self.leave(kept)?;
        let number = self.next_number()?;
        kept.clear();
        let made = match fill(kept) {
            Ok(()) => self.put_new_job(job, number, kept),
            Err(Unreadable) => Err(Fault::Unreadable),
        };
        match made {
            Ok(()) => Ok(job),
            Err(fault) => self.back_to_open_job(kept, fault),
        }
    }

    /// Writes a new job into both regions and takes it as the open one.
    pub(super) fn put_new_job(
        &mut self,
        job: JobNumber,
        number: u32,
        kept: &impl Kept,
    ) -> Result<(), Fault> {
        let now = Standing {
            number,
            job,
            edits: number,
            place: Place::new(),
        };
        self.put_whole(now, kept)
    }

    /// Makes one accepted key durable by writing the job whole, the key's change
    /// included: where that is longer than a record takes, or where
    /// [`Journal::record`] says [`Fault::TendFirst`]. Some twenty blocks; the head of
    /// the first slot is the one that makes it be there.
    ///
    /// # Errors
    /// Whatever the card did. The job on the card is then as before this call.
    pub fn record_whole(&mut self, kept: &impl Kept, place: &[u8]) -> Result<(), Fault> {
        self.check_writable()?;
        let mut now = self.now.clone();
        now.number = self.next_number()?;
        now.edits += 1;
        now.place = Place::from_slice(place).map_err(|_| Fault::PlaceTooLong)?;
        self.put_whole(now, kept)
    }

    /// Writes a job into both regions and takes it as the open one. First comes a
    /// region that has no slot of it, or else the one that lacks the newest record:
    /// the other holds everything.
    pub(super) fn put_whole(&mut self, now: Standing, kept: &impl Kept) -> Result<(), Fault> {
        let first = match Region::BOTH.map(|region| self.mark(region, now.job).is_none()) {
            [true, false] => Region::Front,
            [false, true] => Region::Back,
            _ => Region::of(now.number),
        };
        if let Err(fault) = self.write_slot_as(first, &now, kept) {
            self.unsettled = true;
            return Err(fault);
        }
        self.now = now;
        self.unsettled = false;
        self.uncovered = [None; 2];
        // The job is there. If its second slot cannot be written, nothing more
        // is accepted until the card has been opened again.
        if let Err(fault) = self.write_slot(first.other(), kept) {
            self.unmended = Some(fault);
        }
        Ok(())
    }

    /// A slot never used, or else the one that was removed first.
    pub(super) fn free_slot(&self) -> Option<JobNumber> {
        let unused = JobNumber::all().find(|job| self.newest_mark(*job).is_none());
        unused.or_else(|| {
            JobNumber::all()
                .filter(|job| self.newest_mark(*job).is_some_and(|mark| mark.removed))
                .min_by_key(|job| self.newest_mark(*job))
        })
    }

    /// Opens another job: `kept` is the open job before, that one after. The
    /// place where its screens were.
    ///
    /// # Errors
    /// [`Fault::NoSuchJob`]; [`Fault::Unreadable`]; whatever the card did. The job
    /// is then the one that was open.
    pub fn open_job(&mut self, job: JobNumber, kept: &mut impl Kept) -> Result<Place, Fault> {
        self.check_writable()?;
        let mark = self.newest_mark(job).ok_or(Fault::NoSuchJob)?;
        if mark.removed {
            return Err(Fault::NoSuchJob);
        }
        self.leave(kept)?;
        let opened = self.load(job, kept).and_then(|head| {
            let next = Standing {
                number: self.next_number()?,
                job,
                edits: head.mark.edits,
                place: head.place,
            };
            self.put_record(next, &[])
        });
        match opened {
            Ok(()) => Ok(self.now.place.clone()),
            Err(fault) => self.back_to_open_job(kept, fault),
        }
    }

    /// Makes both slots of the open job hold it.
    fn leave(&mut self, kept: &impl Kept) -> Result<(), Fault> {
        self.settle()?;
        let newest = self.now.number;
        let lacking = Region::of(newest).other();
        for region in [lacking, lacking.other()] {
            let mark = self.mark(region, self.now.job);
            if mark.is_none_or(|mark| mark.number < newest) {
                self.write_slot(region, kept)?;
            }
        }
        Ok(())
    }

    /// Reads the open job again, after another could not be had.
    fn back_to_open_job<T>(&mut self, kept: &mut impl Kept, fault: Fault) -> Result<T, Fault> {
        let back = self.load(self.now.job, kept);
        if back.is_err() {
            // Neither job is in memory: the card must be opened again.
            self.is_open = false;
        }
        Err(fault)
    }

    /// Removes a job that is not open. It stays on the card until a new job takes
    /// its slot.
    ///
    /// # Errors
    /// [`Fault::JobIsOpen`], [`Fault::NoSuchJob`], whatever the card did.
    pub fn remove_job(&mut self, job: JobNumber) -> Result<(), Fault> {
        self.set_removed(job, true)
    }

    /// Brings a removed job back.
    ///
    /// # Errors
    /// As [`Journal::remove_job`].
    pub fn restore_job(&mut self, job: JobNumber) -> Result<(), Fault> {
        self.set_removed(job, false)
    }

    fn set_removed(&mut self, job: JobNumber, removed: bool) -> Result<(), Fault> {
        self.check_writable()?;
        if job == self.now.job {
            return Err(Fault::JobIsOpen);
        }
        let (_, mut head) = self.newest_head(job).ok_or(Fault::NoSuchJob)?;
        // Both regions will be written: each must hold what the other does. This
        // record repeats the newest edit in the region that lacks it.
        let place = self.now.place.clone();
        self.record(&[], &place)?;
        head.mark.removed = removed;
        head.mark.turn = head.mark.turn.saturating_add(1);
        let lacking = Region::of(self.now.number).other();
        for region in [lacking, lacking.other()] {
            let written = self
                .check_card(region)
                .and_then(|()| self.write_slot_head(region, &head));
            if let Err(fault) = written {
                // One region no longer holds this job: mend it first.
                self.unmended = Some(fault);
                return Err(fault);
            }
        }
        Ok(())
    }

    /// The head of the newer slot of a job that can be read, and its region.
    pub(super) fn newest_head(&mut self, job: JobNumber) -> Option<(Region, Head)> {
        for region in self.newer_first(job) {
            if self.mark(region, job).is_some()
                && let Ok(Some(head)) = self.read_slot_head(region, job)
            {
                return Some((region, head));
            }
        }
        None
    }

    /// Both regions, the one with the newer slot first.
    pub(super) fn newer_first(&self, job: JobNumber) -> [Region; 2] {
        let [front, back] = Region::BOTH.map(|region| self.mark(region, job));
        match front >= back {
            true => Region::BOTH,
            false => [Region::Back, Region::Front],
        }
    }

    /// Reads a job from its newer slot, or else from the other. No edits that
    /// came after are done.
    pub(super) fn load(&mut self, job: JobNumber, kept: &mut impl Kept) -> Result<Head, Fault> {
        let mut fault = Fault::NoSuchJob;
        for region in self.newer_first(job) {
            if self.mark(region, job).is_none() {
                continue;
            }
            match self.load_from(region, job, kept) {
                Ok(head) => return Ok(head),
                Err(error) => fault = error,
            }
        }
        Err(fault)
    }

    fn load_from(
        &mut self,
        region: Region,
        job: JobNumber,
        kept: &mut impl Kept,
    ) -> Result<Head, Fault> {
        let head = self.read_slot_head(region, job)?.ok_or(Fault::NotKept)?;
        let mut from = self.contents(region, &head);
        let read = kept.read(&mut from);
        from.finish()?;
        read.map_err(|Unreadable| Fault::Unreadable)?;
        Ok(head)
    }

    /// Takes the entries of the newest record as history, if it lies in the ring.
    pub(super) fn recall(&mut self) {
        self.history.fill(0);
        let number = self.now.number;
        if self.read_record(number).is_some() {
            record::copy_entries(&self.work, 0, &mut self.history);
        }
    }
}
