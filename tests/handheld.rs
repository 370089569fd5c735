//! The handheld: what it shows, what its keys do, and what it keeps.

mod chance;
pub mod crew;
mod edits;
mod glass;
mod jobs;
pub mod journal;
mod later;
mod letters;
mod limits;
mod painter;
mod pictures;
mod place;
mod plan;
mod presses;
mod script;
mod surveys;
mod tape;
mod typist;
pub mod walk;
mod work;
