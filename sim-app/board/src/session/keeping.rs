//! Where entries are kept: in the journal on the card, or in memory alone, for good or
//! until the card is back.

use crate::card::{CardBlocks, JournalFile};
use crate::pages;
use boltbay_handheld::journal::{Keeper, Outcome};
use boltbay_handheld::{Handheld, View};

/// Where entries are kept.
pub struct Keeping<'a, C: CardBlocks> {
    /// `None` where no card was there when it was switched on.
    keeper: Option<&'a mut Keeper<JournalFile<'a, C>>>,
    now: Now,
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
    /// In memory alone.
    Away,
}

impl<'a, C: CardBlocks> Keeping<'a, C> {
    /// On the card that was opened.
    pub fn on_card(keeper: &'a mut Keeper<JournalFile<'a, C>>) -> Self {
        let now = match keeper.must_be_heard() {
            true => Now::Waits,
            false => Now::Kept,
        };
        Keeping {
            keeper: Some(keeper),
            now,
        }
    }

    /// Nowhere: there is no card that could.
    pub const fn in_memory() -> Self {
        Keeping {
            keeper: None,
            now: Now::Away,
        }
    }

    /// Puts the handheld where its screens were.
    pub fn resume(&self, handheld: &mut Handheld<'_>) {
        if let Some(keeper) = &self.keeper {
            keeper.resume(handheld);
        }
    }

    fn is_now(&mut self, outcome: Outcome) {
        self.now = match outcome {
            Outcome::Kept => Now::Kept,
            Outcome::Waits => Now::Waits,
            Outcome::Reopen => Now::Reads,
        };
    }

    /// Keeps what the last call of the handheld changed.
    pub fn keep(&mut self, handheld: &mut Handheld<'_>) {
        match &mut self.keeper {
            Some(keeper) if self.now != Now::Away => {
                let outcome = keeper.keep(handheld);
                self.is_now(outcome);
            }
            _ => {
                let edits = handheld.take_edits();
                handheld.take_wish();
                if !edits.is_empty() {
                    self.come_back(handheld);
                }
            }
        }
    }

    /// Puts the job whole on the card, if that is back.
    pub fn come_back(&mut self, handheld: &Handheld<'_>) {
        if let Some(keeper) = self.keeper.as_mut().filter(|_| self.now == Now::Away)
            && keeper.catch_up(handheld).is_ok()
        {
            self.now = Now::Kept;
        }
    }

    /// Tries once more, after the crew has heard what is wrong; `true` if everything
    /// must start anew.
    #[must_use]
    pub fn again(&mut self, handheld: &Handheld<'_>) -> bool {
        if self.now == Now::Reads {
            return true;
        }
        if let Some(keeper) = &mut self.keeper {
            let outcome = keeper.again(handheld);
            self.is_now(outcome);
        }
        false
    }

    /// Whether going on without the card is a choice.
    pub fn can_go_without(&self) -> bool {
        let has_fault = || self.keeper.as_ref().is_some_and(|it| it.fault().is_some());
        self.now == Now::Reads || self.now == Now::Waits && has_fault()
    }

    /// Goes on without the card, until it is back.
    pub fn give_up(&mut self) {
        self.now = Now::Away;
    }

    /// Whether the next key is for the card, not for the handheld.
    pub fn waits(&self) -> bool {
        matches!(self.now, Now::Waits | Now::Reads)
    }

    /// What the first screen must say, if nothing new outlives the battery.
    pub fn warns(&self) -> Option<&'static str> {
        (self.now == Now::Away).then_some(match self.keeper {
            Some(_) => pages::CARD_AWAY,
            None => pages::NOTHING_KEPT,
        })
    }

    /// The keeper, while everything is on the card.
    pub fn keeper(&mut self) -> Option<&mut Keeper<JournalFile<'a, C>>> {
        let keeper = self.keeper.as_deref_mut();
        keeper.filter(|_| self.now == Now::Kept)
    }

    /// What may be painted, into a view that is blank.
    pub fn view_into(&self, handheld: &Handheld<'_>, view: &mut View) {
        match (&self.keeper, self.now) {
            (Some(keeper), Now::Kept | Now::Waits) => keeper.view_into(handheld, view),
            (Some(_), Now::Reads) => pages::must_be_read(view),
            _ => handheld.view_into(view),
        }
        if self.can_go_without() {
            view.line("LEFT: GO ON WITHOUT", "");
        }
    }
}
