//! The keeper: between the handheld and the journal, the same on every host.
//!
//! In: what a call of the handheld changed. Out: what may be painted, the
//! handheld's view once the change is on the card; until then, what is wrong with
//! the card. So no host can show what is not kept.

use super::block::BlockStore;
use super::whole::edits_as_bytes;
use super::{CardNumber, EDIT_MOST, Fault, JobNumber, Journal, Listed, Opening, Place};
use crate::handheld::Handheld;
use crate::screen::jobs::Wish;
use crate::text;
use crate::view::View;
use boltbay_core::Job;
use boltbay_core::words::Units;
use core::cmp::Reverse;
use heapless::Vec;

/// A journal and the entry that waits for it.
pub struct Keeper<S> {
    journal: Journal<S>,
    /// What the job in memory has and the card has not.
    waiting: Vec<u8, EDIT_MOST, u8>,
    /// It is more than a record takes.
    is_long: bool,
    /// Where the screens were when the journal last heard of it.
    place: Place,
    wrong: Option<Wrong>,
}

/// What the crew must know before it goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Wrong {
    /// The entry that waits is not kept.
    NotKept(Fault),
    /// The card was opened, and can only be read.
    ReadOnly(Fault),
    /// So many entries are missing at the end of the job.
    Missing(u32),
    /// The job that was open cannot be read.
    Lost(JobNumber),
    /// Another job could not be had; the one before is open.
    NotDone(Fault),
}

/// What follows from a call of the handheld, or from trying again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Outcome {
    /// Everything that the job in memory holds is on the card.
    Kept,
    /// An entry waits, or the crew must see something: the next key is for
    /// [`Keeper::again`] only.
    Waits,
    /// The card must be read anew: drop the handheld, [`Keeper::open`] into its
    /// job, and make a new one. The entry that waited is not kept.
    Reopen,
}

impl<S: BlockStore> Keeper<S> {
    /// A keeper of blocks that are not open yet.
    pub const fn new(store: S) -> Keeper<S> {
        Keeper {
            journal: Journal::new(store),
            waiting: Vec::new(),
            is_long: false,
            place: Place::new(),
            wrong: None,
        }
    }

    /// Opens the journal into the handheld's job. If something is missing there, an
    /// entry waits until the crew has seen what.
    ///
    /// # Errors
    /// Those of [`Journal::open`].
    pub fn open(&mut self, job: &mut Job) -> Result<(), Fault> {
        let opening = self.journal.open(job)?;
        self.take_note(opening);
        Ok(())
    }

    /// The same, but a card on which no journal has ever been is set up.
    ///
    /// # Errors
    /// Those of [`Journal::open_or_set_up`].
    pub fn open_or_set_up(&mut self, card: CardNumber, job: &mut Job) -> Result<(), Fault> {
        let opening = self.journal.open_or_set_up(card, job)?;
        self.take_note(opening);
        Ok(())
    }

    fn take_note(&mut self, opening: Opening) {
        self.forget();
        let lost = opening.lost.map(Wrong::Lost);
        let missing = opening.missing.map(|missing| Wrong::Missing(missing.count));
        let read_only = self.journal.read_only().map(Wrong::ReadOnly);
        self.wrong = lost.or(missing).or(read_only);
        self.place = opening.place;
    }

    /// Whether the crew must see something before it goes on.
    pub fn must_be_heard(&self) -> bool {
        self.wrong.is_some()
    }

    /// Puts a handheld made with the opened job where its screens were.
    pub fn resume(&self, handheld: &mut Handheld<'_>) {
        handheld.resume(&self.place);
    }

    /// Why an entry is not kept.
    pub fn fault(&self) -> Option<Fault> {
        match self.wrong? {
            Wrong::NotKept(fault) | Wrong::ReadOnly(fault) => Some(fault),
            Wrong::Missing(_) | Wrong::Lost(_) | Wrong::NotDone(_) => None,
        }
    }

    /// The journal: to be set up, and for the list of jobs.
    pub fn journal(&mut self) -> &mut Journal<S> {
        &mut self.journal
    }

    /// Keeps what the last call of the handheld changed. To be asked after each
    /// call, before anything is painted.
    pub fn keep(&mut self, handheld: &mut Handheld<'_>) -> Outcome {
        if self.takes_edits(handheld) {
            return self.again(handheld);
        }
        if let Some(wish) = handheld.take_wish() {
            self.grant(wish, handheld);
        }
        if self.wrong.is_none() && handheld.place() != self.place {
            self.place = handheld.place();
            // Nothing is lost if it fails: the next entry will say so.
            let _ = self
                .journal
                .tend(handheld.job())
                .and_then(|_| self.journal.record(&[], &self.place));
        }
        self.outcome()
    }

    /// Takes over what the last call changed, if anything. Not inlined: it is given back
    /// before another job is planned.
    #[inline(never)]
    fn takes_edits(&mut self, handheld: &mut Handheld<'_>) -> bool {
        let edits = handheld.take_edits();
        if edits.is_empty() {
            return false;
        }
        let bytes = edits_as_bytes(&edits);
        self.is_long = bytes.is_none();
        self.waiting = bytes.unwrap_or_default();
        true
    }

    /// Does what only the journal can.
    fn grant(&mut self, wish: Wish, handheld: &mut Handheld<'_>) {
        let done = match wish {
            Wish::List => Ok(()),
            Wish::Open(job) => self.open_job(job, handheld),
            Wish::Make(units) => self.make_job(units, handheld),
            Wish::Remove(job) => self.journal.remove_job(job),
            Wish::Restore(job) => self.journal.restore_job(job),
        };
        if let Err(fault) = done {
            self.wrong = Some(Wrong::NotDone(fault));
        }
        self.list(handheld);
    }

    fn open_job(&mut self, job: JobNumber, handheld: &mut Handheld<'_>) -> Result<(), Fault> {
        let opened = self.journal.open_job(job, handheld.job_to_fill());
        // Also where it could not be opened: the job before was read again.
        handheld.anew(false);
        self.place = opened?;
        handheld.resume(&self.place);
        Ok(())
    }

    fn make_job(&mut self, units: Units, handheld: &mut Handheld<'_>) -> Result<(), Fault> {
        let made = self.journal.make_job(handheld.job_to_fill(), |job| {
            job.units = units;
            Ok(())
        });
        handheld.anew(made.is_ok());
        // A record names the new job at once: if its slots are lost before the first
        // key, that is said.
        self.place.clear();
        made.map(drop)
    }

    /// The jobs of the card: the open one, then the latest first, then those off
    /// the list.
    fn list(&mut self, handheld: &mut Handheld<'_>) {
        let open = self.journal.job();
        let name = handheld.job().name.clone();
        let jobs = handheld.jobs();
        jobs.clear();
        for job in JobNumber::all() {
            if let Some(mut listed) = self.journal.listed(job) {
                // Its slot may not have heard of its last name yet.
                if job == open {
                    listed.title.clone_from(&name);
                }
                let _ = jobs.push(listed);
            }
        }
        let rank = |job: &Listed| (job.job != open, job.removed, Reverse(job.number));
        jobs.sort_unstable_by_key(rank);
    }

    /// Tries once more to keep the entry that waits.
    pub fn again(&mut self, handheld: &Handheld<'_>) -> Outcome {
        self.wrong = None;
        if let Err(fault) = self.record(handheld) {
            if self.journal.read_only().is_some() {
                self.forget();
                return Outcome::Reopen;
            }
            self.wrong = Some(Wrong::NotKept(fault));
        }
        self.outcome()
    }

    /// Keeps the job whole, after a host went on without the card for a while.
    ///
    /// # Errors
    /// The card is not there, or is another one: nothing has changed on it.
    pub fn catch_up(&mut self, handheld: &Handheld<'_>) -> Result<(), Fault> {
        let place = handheld.place();
        self.journal.record_whole(handheld.job(), &place)?;
        self.forget();
        self.wrong = None;
        self.place = place;
        Ok(())
    }

    /// Puts the job of a handheld that began without a card on this one. Then all starts
    /// anew: [`Keeper::open`] finds it.
    ///
    /// # Errors
    /// Those of [`Journal::take_in`]: it is in memory alone.
    pub fn take_in(&mut self, card: CardNumber, handheld: &Handheld<'_>) -> Result<(), Fault> {
        let place = handheld.place();
        self.journal.take_in(card, handheld.job(), &place)
    }

    /// The entry that waits; then the job whole where that is due.
    fn record(&mut self, handheld: &Handheld<'_>) -> Result<(), Fault> {
        let (job, place) = (handheld.job(), handheld.place());
        let recorded = match (self.is_long, self.waiting.is_empty()) {
            (true, _) => Err(Fault::TendFirst),
            (false, true) => return Ok(()),
            (false, false) => self.journal.record(&self.waiting, &place),
        };
        match recorded {
            Err(Fault::TendFirst) => self.journal.record_whole(job, &place)?,
            recorded => recorded?,
        }
        self.forget();
        self.place = place;
        // The entry is kept; what this could not write, the next one will.
        let _ = self.journal.tend(job);
        Ok(())
    }

    /// Nothing waits.
    fn forget(&mut self) {
        self.waiting.clear();
        self.is_long = false;
    }

    fn outcome(&self) -> Outcome {
        match self.wrong {
            None => Outcome::Kept,
            Some(_) => Outcome::Waits,
        }
    }

    /// What may be painted.
    pub fn view(&self, handheld: &Handheld<'_>) -> View {
        let mut view = View::default();
        self.view_into(handheld, &mut view);
        view
    }

    /// The same into a view that is blank; see [`Handheld::view_into`].
    pub fn view_into(&self, handheld: &Handheld<'_>, view: &mut View) {
        match self.wrong {
            None => handheld.view_into(view),
            Some(wrong) => wrong.view(view),
        }
    }
}

impl Wrong {
    /// In place of what was keyed, or before anything is.
    fn view(self, view: &mut View) {
        let (title, hint) = match self {
            Wrong::NotKept(_) => (
                "NOT KEPT",
                "The last entry is not kept yet. What came before it is.",
            ),
            Wrong::ReadOnly(_) => (
                "READ ONLY",
                "Nothing can be entered. What is on the card can be read.",
            ),
            Wrong::NotDone(_) => (
                "NOT DONE",
                "The job before is open, with all that was entered.",
            ),
            Wrong::Missing(_) => (
                "LOOK AGAIN",
                "The card has forgotten entries. Read the last ones again.",
            ),
            Wrong::Lost(_) => (
                "LOOK AGAIN",
                "The card has damaged a job. Keep it; others can be read.",
            ),
        };
        view.named("card", hint);
        view.alarm = true;
        view.small = true;
        view.status.left = text!("{title}");
        match self {
            Wrong::NotKept(fault) | Wrong::ReadOnly(fault) | Wrong::NotDone(fault) => {
                for line in fault.on_screen() {
                    view.line(line, "");
                }
            }
            Wrong::Missing(1) => view.line("1 ENTRY IS MISSING", ""),
            Wrong::Missing(count) => {
                view.line(&text!("{} ENTRIES", count.min(99_999)), "");
                view.line("ARE MISSING", "");
            }
            Wrong::Lost(job) => {
                view.line(&text!("JOB {} CANNOT BE", job.get() + 1), "");
                view.line("READ, ANOTHER IS OPEN", "");
            }
        }
    }
}
