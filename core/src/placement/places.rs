//! Places: where the spacing finds a bolt, in order along the beam.
//!
//! In: a course. Out: the runs of both rows and every stand of the old holes,
//! by where they begin. Where every station is a pair: only what both rows have.

use super::Run;
use super::course::Course;
use crate::job::Pattern;
use crate::list::Listed;
use heapless::Vec;

/// A run of places, in counts, both ends included.
pub(super) type Closed = (i32, i32);

/// See the module.
pub(super) struct InOrder<'a, 'c> {
    course: &'c Course<'a>,
    top: &'c [Run],
    bot: &'c [Run],
    /// Next hole of the olds.
    hole: u8,
    /// Stands of the old station that is next, the last one first.
    stands: Vec<Closed, 6, u8>,
}

impl<'a, 'c> InOrder<'a, 'c> {
    pub fn of(course: &'c Course<'a>) -> Self {
        let [top, bot] = course.runs;
        InOrder {
            course,
            top,
            bot,
            hole: 0,
            stands: Vec::new(),
        }
    }

    fn counts(&self, run: Run) -> Closed {
        let step = self.course.step;
        (i32::from(run.from) * step, i32::from(run.to) * step)
    }

    /// The next run of lattice points, left in place; and whether it is the top
    /// row's.
    fn run(&mut self) -> Option<(Run, bool)> {
        if self.course.pattern == Pattern::Paired {
            return self.both().map(|run| (run, true));
        }
        match (self.top.first(), self.bot.first()) {
            (Some(top), Some(bot)) if bot.from < top.from => Some((*bot, false)),
            (Some(top), _) => Some((*top, true)),
            (None, bot) => bot.map(|bot| (*bot, false)),
        }
    }

    /// The next run that both rows have.
    fn both(&mut self) -> Option<Run> {
        loop {
            let (top, bot) = (self.top.first()?, self.bot.first()?);
            let (from, to) = (top.from.max(bot.from), top.to.min(bot.to));
            if from <= to {
                return Some(Run { from, to });
            }
            let behind = if top.to < bot.to {
                &mut self.top
            } else {
                &mut self.bot
            };
            *behind = rest(behind);
        }
    }

    fn take_run(&mut self, run: Run, top: bool) {
        let paired = self.course.pattern == Pattern::Paired;
        let ends = |runs: &[Run]| runs.first().is_some_and(|first| first.to == run.to);
        let (top_ends, bot_ends) = (ends(self.top), ends(self.bot));
        if if paired { top_ends } else { top } {
            self.top = rest(self.top);
        }
        if if paired { bot_ends } else { !top } {
            self.bot = rest(self.bot);
        }
    }

    /// Where the next old station stands first, left in place.
    fn stand(&mut self) -> Option<Closed> {
        while self.stands.is_empty() {
            let group = self.course.group_of(self.hole)?;
            self.hole += u8::try_from(group.len()).ok()?;
            let stops = self.course.stops(&group);
            self.stands = stops.map(|(_, stop)| (stop.lo, stop.hi)).listed();
            self.stands.sort_unstable_by(|a, b| b.cmp(a));
        }
        self.stands.last().copied()
    }
}

fn rest(runs: &[Run]) -> &[Run] {
    runs.split_first().map_or(&[], |(_, rest)| rest)
}

impl Iterator for InOrder<'_, '_> {
    type Item = Closed;

    fn next(&mut self) -> Option<Closed> {
        let stand = self.stand();
        let run = self.run();
        let closed = run.map(|(run, _)| self.counts(run));
        match (run, closed, stand) {
            (_, Some(closed), Some(stand)) if stand.0 < closed.0 => self.stands.pop(),
            (Some((run, top)), closed, _) => {
                self.take_run(run, top);
                closed
            }
            (None, _, stand) => {
                self.stands.pop();
                stand
            }
        }
    }
}
