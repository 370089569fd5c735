//! Ahead: the part of a course that a sweep has not come to yet.

use super::chunks::{Chunk, Chunks};
use super::course::Course;

/// The part of a course that a sweep has not come to yet.
pub(super) struct Ahead<'a, 'c> {
    pub chunks: Chunks<'a, 'c>,
    pub chunk: Option<Chunk>,
    pub holes_done: usize,
    /// Nothing that is left can reach what was found.
    pub stranded: bool,
}

impl<'a, 'c> Ahead<'a, 'c> {
    pub fn of(course: &'c Course<'a>) -> Self {
        let mut chunks = Chunks::of(course);
        Ahead {
            chunk: chunks.next(),
            chunks,
            holes_done: 0,
            stranded: false,
        }
    }
}
