//! The handheld: screens, keys, entry, drawing and the journal.
//!
//! `no_std` and without allocation. It knows no host and no hardware: a host
//! passes keys and time in, and takes pixels out.
#![no_std]
#![deny(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic
)]

pub mod edit;
pub mod field;
pub mod guess;
mod handheld;
pub mod journal;
pub mod key;
pub mod ladder;
mod left;
pub mod paint;
pub mod screen;
pub mod view;
pub mod words;

pub use handheld::{Handheld, Memory};
pub use key::{Key, Millis};
pub use paint::paint;
pub use view::View;
