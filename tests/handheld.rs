//! The handheld: what it shows and what its keys do.

mod glass;
mod painter;
