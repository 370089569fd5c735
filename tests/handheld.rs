//! The handheld: what it shows and what its keys do.

mod crew;
mod edits;
mod glass;
mod painter;
mod presses;
mod surveys;
mod tape;
