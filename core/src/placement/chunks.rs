//! Chunks: the windows of both rows, cut wherever legality or a gate changes,
//! from the far end of a course.

use super::course::Course;
use crate::words::Row;

/// A run of lattice points with the same legality and the same gates.
#[derive(Clone, Copy, Debug)]
pub(super) struct Chunk {
    pub from: i32,
    pub to: i32,
    pub top: bool,
    pub bot: bool,
}

/// Cuts the windows of both rows into chunks, from the far end.
pub(super) struct Chunks<'a, 'c> {
    course: &'c Course<'a>,
    /// Highest index not yet given out.
    to: i32,
    nth: [usize; 2],
    cut: usize,
}

impl<'a, 'c> Chunks<'a, 'c> {
    pub fn of(course: &'c Course<'a>) -> Self {
        Chunks {
            course,
            to: course.last,
            nth: [0; 2],
            cut: 0,
        }
    }

    /// Gives back everything up to `to`.
    pub fn give_back(&mut self, to: i32) {
        self.to = to;
    }

    /// The run of a row at or before `to`.
    fn run_at(&mut self, row: Row) -> Option<(i32, i32)> {
        let [top, bot] = &mut self.nth;
        let nth = if row == Row::Top { top } else { bot };
        loop {
            let run = self.course.run(row, *nth)?;
            if run.0 <= self.to {
                return Some((run.0, run.1.min(self.to)));
            }
            *nth += 1;
        }
    }

    /// The next cut at or before `to`, if any.
    fn cut_at(&mut self, to: i32) -> Option<i32> {
        loop {
            let cut = i32::from(*self.course.cuts.get(self.cut)?);
            if cut <= to {
                return Some(cut);
            }
            self.cut += 1;
        }
    }
}

impl Iterator for Chunks<'_, '_> {
    type Item = Chunk;

    fn next(&mut self) -> Option<Chunk> {
        let rows = Row::BOTH.map(|row| self.run_at(row));
        let to = rows.iter().flatten().map(|run| run.1).max()?;
        let holds = rows.map(|run| run.is_some_and(|run| run.1 == to));
        let mut from = i32::MIN;
        for (run, holds) in rows.iter().zip(holds) {
            let Some(run) = run else { continue };
            from = from.max(if holds { run.0 } else { run.1 + 1 });
        }
        if let Some(cut) = self.cut_at(to) {
            from = from.max(cut);
        }
        self.to = from - 1;
        let [top, bot] = holds;
        Some(Chunk { from, to, top, bot })
    }
}
