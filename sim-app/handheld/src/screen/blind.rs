//! Blind readings: the first, the middle and the last mark, read from the other
//! end, before anything is drilled. What should be read is not shown before.

use super::walk::{Kind as WalkKind, Lie, Walk, plan, row_of};
use super::{Go, LIST, Look, Reply, Screen, list, sheet};
use crate::edit::Edit;
use crate::field::List;
use crate::key::{Gesture, Holdings, Key};
use crate::ladder::{Ladder, Rungs};
use crate::text;
use crate::view::{View, text};
use crate::words::{self, hint, short};
use boltbay_core::defaults;
use boltbay_core::job::{Hole, HoleState, Hook, Position};
use boltbay_core::length::Length;
use boltbay_core::placement::{PlacedHole, State};
use boltbay_core::report::FromEndB;
use boltbay_core::words::Units;

/// One of three readings, or what to do about one that is off.
#[derive(Clone, Debug, PartialEq)]
pub struct Blind {
    lie: Lie,
    /// First, middle, last: 0, 1, 2.
    nth: u8,
    ladder: Ladder,
    /// What was read, where it is off; and the cursor among the answers.
    off: Option<(Length, u8)>,
}

/// A mark may be off by this. Practice: 1/8 in, 3 mm, as tapes are closed.
const fn allowed(units: Units) -> Length {
    match units {
        Units::Imperial => Length::from_sixteenths(2),
        Units::Metric => Length::from_millimetres(3),
    }
}

const ANSWERS: [&str; 3] = ["READ AGAIN", "IT IS WHERE I READ", "STRIKE ALL MARKS"];

/// So many of them are in sight, below the two readings.
const ANSWER_LINES: u8 = 2;

impl Blind {
    /// The first reading; `None` without marks, or while nothing can be read
    /// from end B.
    pub fn first(lie: Lie, look: Look) -> Option<Blind> {
        Blind::nth(0, lie, look)
    }

    fn nth(nth: u8, lie: Lie, look: Look) -> Option<Blind> {
        let rungs = Rungs::tape(look.job.units, defaults::lattice(look.job));
        let blind = Blind {
            lie,
            nth,
            ladder: Ladder::new(rungs, None),
            off: None,
        };
        let _ = blind.expected(look)?;
        Some(blind)
    }

    /// The mark in hand, and its number in the plan.
    fn hole<'a>(&self, look: Look<'a>) -> Option<(u16, &'a PlacedHole)> {
        let plan = plan(look)?;
        let marks = || {
            (1_u16..)
                .zip(&plan.holes)
                .filter(|(_, h)| h.state == State::Marked)
        };
        let last = marks().count().checked_sub(1)?;
        let index = match self.nth {
            0 => 0,
            1 => last / 2,
            _ => last,
        };
        marks().nth(index)
    }

    /// What end B should read.
    fn expected(&self, look: Look) -> Option<Length> {
        let frame = look.plan.frame?;
        let (_, hole) = self.hole(look)?;
        let from_b = FromEndB::new(&frame, defaults::lattice(look.job))?;
        Some(from_b.reading(hole.at).shown)
    }

    /// As the ladder or a list wants it.
    pub fn holdings(&self, _: Look) -> Holdings {
        match self.off {
            Some(_) => LIST,
            None => self.ladder.rungs().holdings(false),
        }
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        if let Some((read, cursor)) = &mut self.off {
            if list::turn(cursor, 3, gesture) || gesture != Gesture::Tap(Key::Ok) {
                return Reply::stay();
            }
            let (read, answer) = (*read, *cursor);
            return self.answer(read, answer, look);
        }
        if self.ladder.on(gesture) {
            return Reply::stay();
        }
        match (gesture, self.ladder.value()) {
            (Gesture::Tap(Key::Ok), Some(read)) => self.read(read, look),
            (Gesture::Hold(Key::Ok), _) => {
                Reply::open(Screen::Sheet(sheet::Sheet::of(sheet::Of::Leave)))
            }
            _ => Reply::stay(),
        }
    }

    fn read(&mut self, read: Length, look: Look) -> Reply {
        let Some(expected) = self.expected(look) else {
            return Reply::back();
        };
        let off = read.saturating_sub(expected).abs();
        match off <= allowed(look.job.units) {
            true => Reply::go(self.next(look)).deaf(300),
            false => {
                self.off = Some((read, 0));
                Reply::stay().deaf(300)
            }
        }
    }

    /// The next reading, or on to drilling.
    fn next(&self, look: Look) -> Go {
        match self.nth {
            0 | 1 => match Blind::nth(self.nth + 1, self.lie, look) {
                Some(next) => Go::instead(Screen::Blind(next)),
                None => Go::BACK,
            },
            _ => Go::instead(Screen::Walk(Walk::of(WalkKind::Drill, self.lie, look))),
        }
    }

    fn answer(&mut self, read: Length, answer: u8, look: Look) -> Reply {
        match answer {
            0 => {
                self.ladder = Ladder::new(*self.ladder.rungs(), None);
                self.off = None;
                Reply::stay()
            }
            1 => self.moved(read, look),
            _ => Reply::edit(Edit::StrikeMarks, Go::BACK),
        }
    }

    /// The mark is where it was read: it moves in the job, and the plan is judged
    /// again.
    fn moved(&mut self, read: Length, look: Look) -> Reply {
        let found = self.hole(look).zip(look.plan.frame);
        let row = found.and_then(|((_, hole), frame)| row_of(hole, look.job, &frame));
        let Some((row, mark)) =
            row.and_then(|row| Some((row, look.job.holes.get(usize::from(row))?)))
        else {
            return Reply::back();
        };
        let at = Position {
            reading: read,
            hook: Hook::EndB,
        };
        let moved = Hole::new(at, mark.row, HoleState::Marked);
        let mut reply = Reply::edit(Edit::Remove(List::Holes, row), self.next(look));
        let _ = reply.edits.push(Edit::Hole(row, moved));
        reply
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("blind", hint::BLIND);
        let Some((number, hole)) = self.hole(look) else {
            return;
        };
        view.status.left = text!("HOLE {number}");
        let Some((read, cursor)) = self.off else {
            view.status.tab = text(words::row(hole.row));
            view.status.right = text("END B");
            view.figure = Some(self.ladder.figure());
            view.line("READ IT FROM END B", "");
            return;
        };
        view.screen = "blind-off";
        view.hint = hint::BLIND_OFF;
        view.alarm = true;
        view.status.right = match self.looks_like_end_a(read, hole, look) {
            true => text("WRONG END?"),
            false => text("OFF"),
        };
        let units = look.job.units;
        let should = self.expected(look).map(|length| short(length, units));
        view.line("READ", &short(read, units));
        view.line("SHOULD", &should.unwrap_or_default());
        let first = cursor.saturating_sub(ANSWER_LINES - 1);
        let answers = ANSWERS.iter().skip(usize::from(first));
        for answer in answers.take(usize::from(ANSWER_LINES)) {
            view.line(answer, "");
        }
        view.selected = Some(cursor - first + list::LINES - ANSWER_LINES);
    }

    /// What was read is the figure from end A: tape on the wrong end, or the
    /// beam turned.
    fn looks_like_end_a(&self, read: Length, hole: &PlacedHole, look: Look) -> bool {
        read.saturating_sub(hole.at).abs() <= allowed(look.job.units)
    }
}
