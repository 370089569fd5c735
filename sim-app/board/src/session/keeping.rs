//! Where entries are kept: in the journal on the card, or in memory alone.

use crate::card::{CardBlocks, JournalFile};
use boltbay_handheld::journal::{Keeper, Outcome};
use boltbay_handheld::{Handheld, View};

/// Where entries are kept.
pub enum Keeping<C: CardBlocks + 'static> {
    /// On the card; whether something waits to be heard or kept.
    OnCard(&'static mut Keeper<JournalFile<'static, C>>, bool),
    /// Nowhere: there is no card that could.
    InMemory,
}

impl<C: CardBlocks> Keeping<C> {
    /// Puts the handheld where its screens were.
    pub fn resume(&self, handheld: &mut Handheld<'_>) {
        if let Keeping::OnCard(keeper, _) = self {
            keeper.resume(handheld);
        }
    }

    /// Keeps what the last call of the handheld changed.
    pub fn keep(&mut self, handheld: &mut Handheld<'_>) -> Outcome {
        match self {
            Keeping::OnCard(keeper, waits) => {
                let outcome = keeper.keep(handheld);
                *waits = outcome == Outcome::Waits;
                outcome
            }
            Keeping::InMemory => {
                handheld.take_edits();
                handheld.take_wish();
                Outcome::Kept
            }
        }
    }

    /// Tries once more.
    pub fn again(&mut self, handheld: &Handheld<'_>) -> Outcome {
        match self {
            Keeping::OnCard(keeper, waits) => {
                let outcome = keeper.again(handheld);
                *waits = outcome == Outcome::Waits;
                outcome
            }
            Keeping::InMemory => Outcome::Kept,
        }
    }

    /// Goes on without the card.
    pub fn give_up(&mut self) {
        *self = Keeping::InMemory;
    }

    /// Whether the next key is for the card, not for the handheld.
    pub fn waits(&self) -> bool {
        matches!(self, Keeping::OnCard(_, true))
    }

    /// Whether nothing outlives the battery.
    pub fn is_in_memory_only(&self) -> bool {
        matches!(self, Keeping::InMemory)
    }

    /// The number of the open job, from 0; `None` without a card.
    pub fn job(&mut self) -> Option<u8> {
        match self {
            Keeping::OnCard(keeper, _) => Some(keeper.journal().job().get()),
            Keeping::InMemory => None,
        }
    }

    /// What may be painted.
    pub fn view(&self, handheld: &Handheld<'_>) -> View {
        match self {
            Keeping::OnCard(keeper, _) => keeper.view(handheld),
            Keeping::InMemory => handheld.view(),
        }
    }
}
