//! Tests of the journal: power goes, cards lie, crews swap cards.
//!
//! A session is played on a card in memory; before each block that it writes, the
//! card as it was is kept, with what the crew had been shown before and after
//! that key. Then the block is spoiled in every way that a card is known to spoil
//! one, the card is opened again, and what the crew finds must be one of the two.

mod astray;
pub mod card;
pub mod crew;
mod cuts;
mod jobs;
mod keeper;
mod late;
mod mishaps;
mod planted;
mod sessions;
mod whole;
