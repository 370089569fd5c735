//! The keeper: between the handheld and the journal, the same on every host.
//!
//! In: what a call of the handheld changed. Out: what may be painted, the
//! handheld's view once the change is on the card; until then, what is wrong with
//! the card. So no host can show what is not kept.

use super::block::BlockStore;
use super::whole::edits_as_bytes;
use super::{EDIT_MOST, Fault, Journal};
use crate::handheld::Handheld;
use crate::view::{View, text};
use heapless::Vec;

/// A journal and the entry that waits for it.
pub struct Keeper<S> {
    journal: Journal<S>,
    /// What the job in memory has and the card has not.
    waiting: Vec<u8, EDIT_MOST, u8>,
    fault: Option<Fault>,
}

/// What follows from a call of the handheld, or from trying again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Outcome {
    /// Everything that the job in memory holds is on the card.
    Kept,
    /// An entry waits: the next key is for [`Keeper::again`] only.
    Waits,
    /// The card must be read anew: drop the handheld, [`Journal::open`] into its
    /// job, and make a new one. The entry that waited is not kept.
    Reopen,
}

impl<S: BlockStore> Keeper<S> {
    /// A keeper of blocks that are not open yet.
    pub const fn new(store: S) -> Keeper<S> {
        Keeper {
            journal: Journal::new(store),
            waiting: Vec::new(),
            fault: None,
        }
    }

    /// The journal: to be opened, and for the list of jobs.
    pub fn journal(&mut self) -> &mut Journal<S> {
        &mut self.journal
    }

    /// Keeps what the last call of the handheld changed. To be asked after each
    /// call, before anything is painted.
    pub fn keep(&mut self, handheld: &mut Handheld<'_>) -> Outcome {
        let edits = handheld.take_edits();
        match edits_as_bytes(&edits) {
            Some(bytes) if bytes.is_empty() => self.outcome(),
            Some(bytes) => {
                self.waiting = bytes;
                self.again(handheld)
            }
            None => {
                self.fault = Some(Fault::EditTooLong);
                self.outcome()
            }
        }
    }

    /// Tries once more to keep the entry that waits.
    pub fn again(&mut self, handheld: &Handheld<'_>) -> Outcome {
        let too_long = self.fault == Some(Fault::EditTooLong);
        self.fault = self.record(handheld).err();
        let read_only = self.fault.is_some() && self.journal.read_only().is_some();
        if too_long || read_only {
            self.waiting.clear();
            self.fault = None;
            return Outcome::Reopen;
        }
        self.outcome()
    }

    /// The entry that waits, and the job whole where that is due; never the job
    /// with an entry that is not recorded.
    fn record(&mut self, handheld: &Handheld<'_>) -> Result<(), Fault> {
        if !self.waiting.is_empty() {
            self.journal.record(&self.waiting, &[])?;
            self.waiting.clear();
        }
        self.journal.tend(handheld.job()).map(drop)
    }

    fn outcome(&self) -> Outcome {
        match self.fault {
            None => Outcome::Kept,
            Some(_) => Outcome::Waits,
        }
    }

    /// What may be painted.
    pub fn view(&self, handheld: &Handheld<'_>) -> View {
        match self.fault {
            None => handheld.view(),
            Some(fault) => fault_view(fault),
        }
    }
}

/// What is wrong with the card, in place of what was keyed.
pub fn fault_view(fault: Fault) -> View {
    let hint = "The last entry is not kept yet. What came before it is.";
    let mut view = View::of("card", hint);
    view.alarm = true;
    view.status.left = text("ENTRY NOT KEPT");
    view.small = true;
    for line in fault.on_screen() {
        view.line(line, "");
    }
    view
}
