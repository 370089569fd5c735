//! The firmware on the emulated board: built, started, driven by keys, looked at. Only
//! with feature `board`; a tool that is missing fails.

mod bench;
mod contacts;
mod counts;
mod crews;
mod elsewhere;
mod fat;
mod faults;
mod firmware;
mod frames;
mod handheld;
mod late;
mod memory_card;
mod panics;
mod qemu;
mod room;
mod said;
mod script;
mod selftest;
mod slot;

// The very pages that the firmware shows.
use boltbay_board::pages;
