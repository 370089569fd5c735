//! What people and programs read: texts, codes, files, exit codes.

mod cautions;
mod cli;
mod code;
mod csv;
mod demo;
mod golden;
mod host;
mod json;
mod loads;
mod process;
mod readings;
mod sheet;
mod wild;
mod words;
