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
    /// The first gate's cut beyond, in counts.
    pub gate: i32,
}

/// Cuts the windows of both rows into chunks, from the far end.
pub(super) struct Chunks<'a, 'c> {
    course: &'c Course<'a>,
    /// Highest index not yet given out.
    to: i32,
    rows: [RowRuns; 2],
    cut: usize,
}

/// The run of a row that is being given out.
#[derive(Clone, Copy)]
struct RowRuns {
    row: Row,
    nth: usize,
    run: Option<(i32, i32)>,
}

impl RowRuns {
    fn of(course: &Course<'_>, row: Row) -> Self {
        RowRuns {
            row,
            nth: 0,
            run: course.run(row, 0),
        }
    }

    /// The part of the row's next run at or before `to`.
    fn at(&mut self, course: &Course<'_>, to: i32) -> Option<(i32, i32)> {
        while let Some((from, end)) = self.run {
            if from <= to {
                return Some((from, end.min(to)));
            }
            self.nth += 1;
            self.run = course.run(self.row, self.nth);
        }
        None
    }
}

impl<'a, 'c> Chunks<'a, 'c> {
    pub fn of(course: &'c Course<'a>) -> Self {
        Chunks {
            course,
            to: course.last,
            rows: Row::BOTH.map(|row| RowRuns::of(course, row)),
            cut: 0,
        }
    }

    /// Gives back everything up to `to`.
    pub fn give_back(&mut self, to: i32) {
        self.to = to;
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

    /// The first gate's cut beyond an index, in counts.
    fn gate_beyond(&self, index: i32) -> i32 {
        let x = index * self.course.step;
        let beyond = self.course.gates.iter().find(|gate| gate.cut > x);
        beyond.map_or(i32::MAX, |gate| gate.cut)
    }
}

impl Iterator for Chunks<'_, '_> {
    type Item = Chunk;

    fn next(&mut self) -> Option<Chunk> {
        let [top, bot] = &mut self.rows;
        let top = top.at(self.course, self.to);
        let bot = bot.at(self.course, self.to);
        let to = match (top, bot) {
            (Some(top), Some(bot)) => top.1.max(bot.1),
            (Some(run), None) | (None, Some(run)) => run.1,
            (None, None) => return None,
        };
        // Down to where a row's window ends, or the other one's begins.
        let holds = |run: Option<(i32, i32)>| run.is_some_and(|run| run.1 == to);
        let down_to = |run: Option<(i32, i32)>| match run {
            Some(run) if run.1 == to => run.0,
            Some(run) => run.1 + 1,
            None => i32::MIN,
        };
        let cut = self.cut_at(to).unwrap_or(i32::MIN);
        let from = down_to(top).max(down_to(bot)).max(cut);
        self.to = from - 1;
        Some(Chunk {
            from,
            to,
            top: holds(top),
            bot: holds(bot),
            gate: self.gate_beyond(from),
        })
    }
}
