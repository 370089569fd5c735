//! What people and programs read: texts, codes, files, exit codes.

mod cautions;
mod code;
