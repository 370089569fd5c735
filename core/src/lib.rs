//! Boltbay's calculation core: tape readings in, bolt plan out.
//!
//! `no_std` and without allocation, so that the same bits come out on the
//! desktop and on a handheld. Data flows one way: **readings -> job -> plan**.
//! The core knows no screen, key, file, pin or clock.
#![no_std]
#![deny(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic
)]

pub mod card;
pub mod caution;
pub mod check;
pub mod checks;
pub mod code;
pub mod cutting;
pub mod decimal;
pub mod defaults;
pub mod figure;
mod float;
pub mod force;
pub mod frame;
pub mod hardware;
pub mod job;
pub mod joists;
pub mod length;
pub mod limits;
pub mod list;
pub mod packing;
pub mod placement;
pub mod plan;
pub mod report;
pub mod rods;
pub mod rows;
pub mod rule;
pub mod shapes;
pub mod shrinkage;
pub mod statics;
pub mod tape;
pub mod words;

pub use job::Job;
pub use length::Length;
