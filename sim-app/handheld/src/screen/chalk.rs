//! The list to chalk from: as many marks as fit, with the hook and the plan code.
//! Locked, it can be handed to a helper: only UP and DOWN do anything then.

use super::hung::Hung;
use super::walk::{Lie, Walk, plan, why_not};
use super::{LIST, Look, Reply, list, walk};
use crate::key::{Gesture, Holding, Holdings, Key};
use crate::text;
use crate::view::{View, text};
use crate::words::{self, hint, short};
use boltbay_core::job::Hook;
use boltbay_core::placement::State;

/// A cursor, what the tape hangs on, and whether it is locked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Chalk {
    pub(super) cursor: u8,
    pub(super) hook: Hook,
    pub(super) locked: bool,
    /// Locked, and a key was pressed that does nothing then: how to unlock it is
    /// said until the list moves.
    pub(super) told: bool,
}

impl Default for Chalk {
    fn default() -> Self {
        Chalk {
            cursor: 0,
            hook: Hook::EndA,
            locked: false,
            told: false,
        }
    }
}

/// RIGHT held so long locks the list, and so long unlocks it.
const LOCK: u32 = 1000;
const UNLOCK: u32 = 3000;

impl Chalk {
    /// RIGHT held locks and unlocks.
    pub fn holdings(&self, _: Look) -> Holdings {
        let right = if self.locked { UNLOCK } else { LOCK };
        Holdings {
            right: Some(Holding::once(right)),
            ok: if self.locked { None } else { LIST.ok },
            ..LIST
        }
    }

    /// The cursor stays within the list.
    pub fn enter(&mut self, look: Look) {
        self.cursor = self.cursor.min(count(look).saturating_sub(1));
    }

    fn walk(&self, look: Look) -> Walk {
        Walk {
            hung: Hung::On(self.hook),
            ..Walk::of(walk::Kind::Mark, Lie::default(), look)
        }
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        self.told = false;
        if list::turn(&mut self.cursor, count(look), gesture) {
            return Reply::stay();
        }
        match gesture {
            Gesture::Hold(Key::Right) => self.locked = !self.locked,
            _ if self.locked => self.told = true,
            Gesture::Tap(Key::Left) => return Reply::back(),
            Gesture::Tap(Key::Right) => self.rehook(look),
            _ => {}
        }
        Reply::stay()
    }

    /// The other end, if anything can be read from there.
    fn rehook(&mut self, look: Look) {
        let before = self.hook;
        self.hook = match before {
            Hook::EndA => Hook::EndB,
            _ => Hook::EndA,
        };
        let first = plan(look).and_then(|plan| plan.holes.first());
        if first.is_none_or(|hole| self.walk(look).reading(hole.at, look).is_none()) {
            self.hook = before;
        }
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("list", hint::CHALK);
        let Some(plan) = plan(look) else {
            view.status.left = text("NO PLAN");
            view.alarm = true;
            why_not(look, view);
            return;
        };
        let code = look.plan.code.as_deref().unwrap_or("");
        view.status.left = text(code);
        view.status.right = text(words::hook(self.hook));
        if self.locked {
            view.status.tab = text("LOCKED");
        }
        let marks = list::LINES - u8::from(self.told);
        let first = list::first(self.cursor, count(look));
        let first = first.max((self.cursor + 1).saturating_sub(marks));
        let walk = self.walk(look);
        let numbered = (1_u16..).zip(&plan.holes);
        for (number, hole) in numbered.skip(usize::from(first)).take(usize::from(marks)) {
            let reading = walk.reading(hole.at, look).map(|(reading, _)| reading);
            let reading = reading.map(|reading| short(reading, look.job.units));
            // What is done is said by a sign: there is no room for a word.
            let done = match hole.state {
                State::Planned => "",
                State::Marked => "+",
                State::Drilled => "*",
            };
            view.line(
                &text!("{number} {}{done}", words::row(hole.row)),
                &reading.unwrap_or_default(),
            );
        }
        if self.told {
            view.line(words::HOLD_RIGHT_UNLOCKS, "");
        }
        view.selected = Some(self.cursor - first);
    }
}

fn count(look: Look) -> u8 {
    let count = plan(look).map_or(0, |plan| plan.holes.len());
    u8::try_from(count).unwrap_or(u8::MAX)
}
