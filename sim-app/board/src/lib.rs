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
//!   host.rs      on a desktop, in place of what only the processor has
//! ```
//!
//! What knows neither processor nor board builds on a desktop too, where the tests
//! drive it.
#![no_std]

pub mod app;
pub mod board;
pub mod card;
pub mod count;
pub mod debounce;
pub mod frame;
pub mod log;
pub mod once;
pub mod pages;
pub mod register;
pub mod session;

#[cfg(target_arch = "arm")]
pub mod crash;
#[cfg(target_arch = "arm")]
pub mod stack;
#[cfg(target_arch = "arm")]
pub mod tick;

#[cfg(all(target_arch = "arm", feature = "lm3s6965"))]
pub mod lm3s6965;
#[cfg(all(target_arch = "arm", feature = "mps2"))]
pub mod mps2;
/// The board that this program is built for.
#[cfg(all(target_arch = "arm", feature = "lm3s6965"))]
pub use lm3s6965 as chosen;
/// The machine that this program is built for.
#[cfg(all(target_arch = "arm", feature = "mps2"))]
pub use mps2 as chosen;

#[cfg(not(target_arch = "arm"))]
mod host;
#[cfg(not(target_arch = "arm"))]
pub use host::{chosen, crash, stack, tick};
