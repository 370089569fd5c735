//! Where entries are kept: in the journal on the card, or in memory alone until a card
//! that can hold them is in the slot.

use super::start::{NotKept, find_journal, new_number};
use crate::board::Board;
use crate::card::{CardBlocks, CardFault, Files, JournalFile};
use crate::{app, log, pages, stack};
use boltbay_handheld::journal::{Fault, Keeper, Outcome};
use boltbay_handheld::{Handheld, View};

/// Where entries are kept.
pub struct Keeping<'a, C: CardBlocks> {
    keeper: &'a mut Keeper<JournalFile<'a, C>>,
    now: Now,
    /// Something was entered that is in memory alone.
    has_entries: bool,
    /// A card is to be looked for.
    must_look: bool,
}

/// How it stands.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Now {
    /// Everything is on the card.
    Kept,
    /// Something waits to be kept, or to be heard.
    Waits,
    /// The card must be read anew, without the last entry; that waits to be heard.
    Reads,
    /// In memory alone, until the card is back.
    Away,
    /// In memory alone: there was no card at the start, or none that could keep it, or the
    /// card has other entries since. Why is known to the crew.
    Without(NotKept),
    /// The same, and why waits to be heard.
    Refused(NotKept),
}

impl<'a, C: CardBlocks> Keeping<'a, C> {
    /// On the card, if that was opened; else in memory, why is known to the crew.
    pub fn from_start(
        keeper: &'a mut Keeper<JournalFile<'a, C>>,
        opened: Result<(), NotKept>,
    ) -> Self {
        let now = match opened {
            Ok(()) if keeper.must_be_heard() => Now::Waits,
            Ok(()) => Now::Kept,
            Err(why) => Now::Without(why),
        };
        Keeping {
            keeper,
            now,
            has_entries: false,
            // A card may have been put in while the crew read that there is none.
            must_look: true,
        }
    }

    /// Puts the handheld where its screens were.
    pub fn resume(&self, handheld: &mut Handheld<'_>) {
        if !matches!(self.now, Now::Without(_)) {
            self.keeper.resume(handheld);
        }
    }

    fn is_now(&mut self, outcome: Outcome) {
        self.now = match outcome {
            Outcome::Kept => Now::Kept,
            Outcome::Waits if self.keeper.fault() == Some(Fault::UsedElsewhere) => {
                return self.must_be_taken_in();
            }
            Outcome::Waits => Now::Waits,
            Outcome::Reopen => Now::Reads,
        };
    }

    /// The card was out and another handheld has gone on with its job: the one in memory
    /// is put beside it, as on a card that comes late.
    fn must_be_taken_in(&mut self) {
        self.has_entries = true;
        self.must_look = true;
        self.now = Now::Without(NotKept::Card(CardFault::NoCard));
    }

    /// Keeps what the last call of the handheld changed.
    pub fn keep(&mut self, handheld: &mut Handheld<'_>) {
        if !matches!(self.now, Now::Away | Now::Without(_)) {
            let outcome = self.keeper.keep(handheld);
            self.is_now(outcome);
            return;
        }
        let edits = handheld.take_edits();
        handheld.take_wish();
        if !edits.is_empty() {
            self.has_entries = true;
            self.come_back(handheld);
        }
    }

    /// Puts the job whole on the card, if that is back; any card is looked for where
    /// there was none at the start.
    pub fn come_back(&mut self, handheld: &Handheld<'_>) {
        if self.now == Now::Away {
            match self.keeper.catch_up(handheld) {
                Ok(()) => self.now = Now::Kept,
                Err(Fault::UsedElsewhere) => self.must_be_taken_in(),
                Err(_) => {}
            }
        }
        self.must_look = true;
    }

    /// Whether [`Keeping::look`] has something to do.
    pub fn must_look(&self) -> bool {
        self.must_look && matches!(self.now, Now::Without(_))
    }

    /// Looks for a card that the job in memory is not on yet. `true` if all must start
    /// anew: the job is on the card, whole and as a job of its own; or nothing was
    /// entered, and the card's own job is what the crew expects.
    ///
    /// A card that was refused is not asked again before it was out: reading all of it
    /// takes seconds, and only a laptop can change it.
    #[inline(never)]
    #[must_use]
    pub fn look<B: Board<Card = C>>(
        &mut self,
        board: &mut B,
        files: &Files<C>,
        handheld: &Handheld<'_>,
    ) -> bool {
        self.must_look = false;
        let Now::Without(known) = self.now else {
            return false;
        };
        if !known.is_out() && files.is_here() != Err(CardFault::NoCard) {
            return false;
        }
        match self.take_in(board, files, handheld) {
            Ok(()) => return true,
            Err(why) if why.is_out() => self.now = Now::Without(why),
            Err(why) => self.now = Now::Refused(why),
        }
        false
    }

    #[inline(never)]
    fn take_in<B: Board<Card = C>>(
        &mut self,
        board: &mut B,
        files: &Files<C>,
        handheld: &Handheld<'_>,
    ) -> Result<(), NotKept> {
        find_journal(board, files, self.keeper.journal().store())?;
        if !self.has_entries {
            return Ok(());
        }
        app::paint_page(board, pages::taking_in);
        let taken = self.keeper.take_in(new_number(board), handheld);
        taken.map_err(NotKept::Journal)?;
        log!("taken in, stack so far {}", stack::deepest());
        Ok(())
    }

    /// Tries once more, after the crew has heard what is wrong; `true` if everything
    /// must start anew.
    #[must_use]
    pub fn again(&mut self, handheld: &Handheld<'_>) -> bool {
        match self.now {
            Now::Reads => return true,
            Now::Refused(why) => self.now = Now::Without(why),
            _ => {
                let outcome = self.keeper.again(handheld);
                self.is_now(outcome);
            }
        }
        false
    }

    /// Whether going on without the card is a choice.
    pub fn can_go_without(&self) -> bool {
        self.now == Now::Reads || self.now == Now::Waits && self.keeper.fault().is_some()
    }

    /// Goes on without the card, until it is back.
    pub fn give_up(&mut self) {
        self.now = Now::Away;
    }

    /// Whether the next key is for the card, not for the handheld.
    pub fn waits(&self) -> bool {
        matches!(self.now, Now::Waits | Now::Reads | Now::Refused(_))
    }

    /// What the first screen must say, if nothing new outlives the battery.
    pub fn warns(&self) -> Option<&'static str> {
        match self.now {
            Now::Away => Some(pages::CARD_AWAY),
            Now::Without(_) => Some(pages::NOTHING_KEPT),
            _ => None,
        }
    }

    /// The keeper, while everything is on the card.
    pub fn keeper(&mut self) -> Option<&mut Keeper<JournalFile<'a, C>>> {
        (self.now == Now::Kept).then_some(&mut *self.keeper)
    }

    /// What may be painted, into a view that is blank.
    pub fn view_into(&self, handheld: &Handheld<'_>, view: &mut View) {
        match self.now {
            Now::Kept | Now::Waits => self.keeper.view_into(handheld, view),
            Now::Reads => pages::must_be_read(view),
            Now::Refused(why) => pages::nothing_kept(view, why.on_screen(), pages::GO_ON),
            Now::Away | Now::Without(_) => handheld.view_into(view),
        }
        if self.can_go_without() {
            view.line("LEFT: GO ON WITHOUT", "");
        }
    }
}
