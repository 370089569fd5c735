//! The seam: what a board must be. Another board is one more folder like `lm3s6965`,
//! with this trait, a `start` that makes one, a `put` for the log, the interrupts, and
//! the memory layout for the linker.

use crate::card::CardBlocks;
use crate::debounce::Edge;
use crate::frame::Frame;
use boltbay_handheld::Millis;

/// Display, buttons, clock and card.
pub trait Board {
    /// The memory card.
    type Card: CardBlocks + 'static;

    /// The picture, to draw on.
    fn frame(&mut self) -> &mut Frame;

    /// Brings what was drawn to the glass; back when its last byte is out.
    fn show(&mut self);

    /// The next key that went down or up, oldest first.
    fn edge(&mut self) -> Option<Edge>;

    /// Time since power-on; never counts back.
    fn now(&self) -> Millis;

    /// Sleeps until an interrupt, unless an edge waits. Also a sign of life.
    fn idle(&mut self);

    /// A number that depends on when a key was pressed, to the cycle.
    fn chance(&self) -> u64;

    /// The card's slot, once.
    fn card(&mut self) -> Option<Self::Card>;
}
