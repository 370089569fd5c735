//! The firmware on the emulated board: built, started, driven by keys, looked at. Only
//! with feature `board`; a tool that is missing fails.

mod contacts;
mod firmware;
mod handheld;
mod memory_card;
// The very pages that the firmware shows.
#[path = "../sim-app/board/src/pages.rs"]
mod pages;
mod qemu;
mod script;
mod selftest;
