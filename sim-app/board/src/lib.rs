//! The firmware demo of Boltbay: the handheld on a small board.
//!
//! ```text
//!   board.rs     what a board must be: the seam
//!   lm3s6965/    the board that is emulated: clock, bus, display, buttons, card, log
//!   mps2/        the development machine: more flash, no display
//!   frame.rs     the picture in memory, and what of it the glass does not show yet
//!   debounce.rs  contacts into keys
//!   card/        files and the journal's blocks on a memory card
//!   crash.rs     panics, faults and starvation: kept over the restart, then shown
//!   count.rs     instructions from a key to its frame
//!   stack.rs     what guards the stack, and how deep it has been
//!   tick.rs      time
//!   once.rs      large things that never cross the stack
//!   log.rs       lines of text, or frames of defmt
//!   pages.rs     what the board says besides the handheld
//!   app.rs       the loop that every program here has
//!   session/     the handheld on the board, with a card or without
//! ```
#![no_std]

pub mod app;
pub mod board;
pub mod card;
pub mod count;
pub mod crash;
pub mod debounce;
pub mod frame;
#[cfg(feature = "lm3s6965")]
pub mod lm3s6965;
pub mod log;
#[cfg(feature = "mps2")]
pub mod mps2;
pub mod once;
pub mod pages;
pub mod register;
pub mod session;
pub mod stack;
pub mod tick;

/// The board that this program is built for.
#[cfg(feature = "lm3s6965")]
pub use lm3s6965 as chosen;
/// The machine that this program is built for.
#[cfg(feature = "mps2")]
pub use mps2 as chosen;
