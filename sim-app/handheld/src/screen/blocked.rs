//! No plan: where nothing fits, by how much, and what would open it.
//!
//! OK tries a way out: the job is changed as it says and planned again. What was
//! tried can be taken back. Nothing is relaxed by itself; what only the engineer
//! can allow is not tried but asked.

use super::{Go, LIST, Look, Reply, walk};
use crate::edit::{Edit, Edits};
use crate::field::{Field, Kind, List, Value};
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{LINE, Text, View, text};
use crate::words::{self, hint, short};
use boltbay_core::job::{Job, WasherShape};
use boltbay_core::list::Listed;
use boltbay_core::placement::{Blocked, Change, WayOut};
use boltbay_core::words::Side;

/// A blocking stretch and one of its ways out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct NoPlan {
    pub(super) stretch: u8,
    pub(super) way: u8,
    pub(super) tried: bool,
}

impl NoPlan {
    /// As on a list; RIGHT held does nothing.
    pub fn holdings(&self, _: Look) -> Holdings {
        Holdings {
            right: None,
            ..LIST
        }
    }

    /// The cursors stay within what blocks now.
    pub fn enter(&mut self, look: Look) {
        let stretches = self.all(look).len();
        // While something is tried, the place is kept for taking it back.
        if stretches == 0 {
            return;
        }
        self.stretch = self.stretch.min(last(stretches));
        let ways = self
            .blocked(look)
            .map_or(0, |blocked| blocked.ways_out.len());
        self.way = self.way.min(last(ways));
    }

    fn all<'a>(&self, look: Look<'a>) -> &'a [Blocked] {
        look.plan
            .placement()
            .map_or(&[], |placement| &placement.blocked)
    }

    fn blocked<'a>(&self, look: Look<'a>) -> Option<&'a Blocked> {
        self.all(look).get(usize::from(self.stretch))
    }

    fn way<'a>(&self, look: Look<'a>) -> Option<&'a WayOut> {
        self.blocked(look)?.ways_out.get(usize::from(self.way))
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        let ways = self
            .blocked(look)
            .map_or(0, |blocked| blocked.ways_out.len());
        match gesture {
            Gesture::Tap(Key::Left) => Reply::back(),
            // What was tried comes back.
            Gesture::Tap(Key::Right) if self.tried && !look.undo.is_empty() => {
                self.tried = false;
                Reply {
                    edits: look.undo.clone(),
                    ..Reply::stay()
                }
            }
            Gesture::Tap(Key::Right) => {
                let stretches = self.all(look).len();
                self.stretch = if self.stretch >= last(stretches) {
                    0
                } else {
                    self.stretch + 1
                };
                self.way = 0;
                Reply::stay()
            }
            Gesture::Tap(Key::Down) => {
                self.way = if self.way >= last(ways) {
                    0
                } else {
                    self.way + 1
                };
                Reply::stay()
            }
            Gesture::Tap(Key::Up) => {
                self.way = if self.way == 0 {
                    last(ways)
                } else {
                    self.way - 1
                };
                Reply::stay()
            }
            Gesture::Tap(Key::Ok) => match self.way(look) {
                Some(way) => self.attempt(way.change, look),
                None => Reply::back(),
            },
            _ => Reply::stay(),
        }
    }

    fn attempt(&mut self, change: Change, look: Look) -> Reply {
        let (edits, undo) = changing(change, look);
        self.tried = !edits.is_empty();
        Reply {
            edits,
            undo,
            ..Reply::go(Go::STAY)
        }
        .deaf(300)
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("no-plan", hint::NO_PLAN);
        let Some(blocked) = self.blocked(look) else {
            self.outcome(look, view);
            return;
        };
        let units = look.job.units;
        view.alarm = true;
        view.status.left = match self.all(look).len() {
            1 => text("NO PLAN"),
            all => text!("NO PLAN {}/{all}", self.stretch + 1),
        };
        view.status.right = made_by(blocked, look);
        let wide = blocked.to.saturating_sub(blocked.from);
        let over = blocked
            .excess
            .map(|excess| text!("OVER {}", short(excess, units)));
        let over = over.unwrap_or_default();
        match blocked.limit {
            Some(limit) => {
                let limit = short(limit, units);
                view.line(&text!("{} MAX {limit}", short(wide, units)), "");
            }
            None if blocked.excess.is_some() => view.line("NO BOLT FITS NEAR", ""),
            None => view.line("NO CHAIN OF BOLTS", ""),
        }
        let at = text!("AT {}", short(blocked.from, units));
        match at.len() + over.len() < LINE {
            true => view.line(&at, &over),
            false => view.line(&over, ""),
        }
        match self.way(look) {
            Some(way) => {
                let gives = match way.stations {
                    Some(stations) => text!("{stations} MARKS"),
                    None => text("ONE OF SEVERAL"),
                };
                view.line(
                    &text!("WAY {}/{}", self.way + 1, blocked.ways_out.len()),
                    &gives,
                );
                view.line(&change(way.change, look), "");
                view.selected = Some(3);
            }
            None => view.line("NO WAY OUT FOUND", ""),
        }
    }

    /// Nothing blocks: what there is now.
    fn outcome(&self, look: Look, view: &mut View) {
        view.screen = "plan-found";
        let units = look.job.units;
        let Some(plan) = walk::plan(look) else {
            view.status.left = text("NO PLAN");
            view.alarm = true;
            walk::why_not(look, view);
            return;
        };
        view.status.left = text("PLAN");
        if let Some(code) = &look.plan.code {
            view.status.right = text(code);
        }
        view.line("HOLES", &text!("{}", plan.holes.len()));
        if let Some(play) = plan.play {
            view.line("PLAY", &words::down(play, units));
        }
        if self.tried && !look.undo.is_empty() {
            view.line("LEFT: KEEP IT", "");
            view.line("RIGHT: TAKE BACK", "");
        }
    }
}

fn last(count: usize) -> u8 {
    u8::try_from(count.saturating_sub(1)).unwrap_or(u8::MAX)
}

/// `N2-N3`: the first and the last thing that make the stretch.
fn made_by(blocked: &Blocked, look: Look) -> Text {
    match (blocked.by.first(), blocked.by.last()) {
        (Some(first), Some(last)) if blocked.by.len() > 1 => {
            text!(
                "{}-{}",
                words::thing(*first, look),
                words::thing(*last, look)
            )
        }
        (Some(only), _) => words::thing(*only, look),
        _ => Text::new(),
    }
}

/// A way out in 18 letters.
fn change(change: Change, look: Look) -> Text {
    let units = look.job.units;
    let joist = |index: u8| match look.plan.joists.get(usize::from(index)) {
        Some(joist) => words::joist(look.job, joist.side, joist.number),
        None => Text::new(),
    };
    match change {
        Change::PlainHanger(one) => text!("NO FLANGE AT {}", joist(one)),
        Change::PlainHangers(one, two) => text!("NO FLANGE {},{}", joist(one), joist(two)),
        Change::Washer(size) => text!("WASHER {}", short(size, units)),
        Change::KeptSquare => text("WASHER KEPT SQUARE"),
        Change::HangerHeight(height) => text!("HANGERS {}", short(height, units)),
        Change::Stretch(length) => text!("ENGINEER: {}", short(length, units)),
        Change::Gap(gap) => text!("CLEAR GAP {}", short(gap, units)),
    }
}

/// The edits that make a change, and those that take it back.
fn changing(change: Change, look: Look) -> (Edits, Edits) {
    let mut edits = Edits::new();
    match change {
        Change::PlainHanger(one) => plain(one, look, &mut edits),
        Change::PlainHangers(one, two) => {
            plain(one, look, &mut edits);
            plain(two, look, &mut edits);
        }
        Change::Washer(size) => {
            for side in [0, 1] {
                set(
                    Field::at(Kind::WasherSize, side),
                    Value::Length(size),
                    &mut edits,
                );
                set(
                    Field::at(Kind::WasherShape, side),
                    Value::Choice(0),
                    &mut edits,
                );
            }
        }
        Change::KeptSquare => {
            for side in Side::BOTH {
                let washer = look.job.washers.get(side.index()).copied().flatten();
                if washer.is_some_and(|washer| washer.shape == WasherShape::Turns) {
                    let index = u8::try_from(side.index()).unwrap_or(0);
                    set(
                        Field::at(Kind::WasherShape, index),
                        Value::Choice(1),
                        &mut edits,
                    );
                }
            }
        }
        Change::HangerHeight(height) => lower(height, look.job, &mut edits),
        Change::Gap(gap) => set(Field::of(Kind::Gap), Value::Length(gap), &mut edits),
        // Only the engineer can allow it.
        Change::Stretch(_) => {}
    }
    let undo = taking_back(&edits, look.job);
    (edits, undo)
}

fn set(field: Field, value: Value, edits: &mut Edits) {
    let _ = edits.push(Edit::Set(field, value));
}

/// A hanger without metal beyond the faces of this joist.
fn plain(joist: u8, look: Look, edits: &mut Edits) {
    if let Some(joist) = look.plan.joists.get(usize::from(joist)) {
        let field = Field::at(Kind::JoistHanger, joist.reading);
        set(field, Value::Count(1), edits);
    }
}

/// No hanger higher than this; where none is on the card, one that is.
fn lower(height: boltbay_core::length::Length, job: &Job, edits: &mut Edits) {
    if job.hangers.is_empty() {
        let _ = edits.push(Edit::Insert(List::Hangers, 0));
        set(Field::of(Kind::HangerName), Value::of_words("LOWER"), edits);
        set(Field::of(Kind::HangerHeight), Value::Length(height), edits);
    }
    for (index, hanger) in (0_u8..).zip(&job.hangers) {
        if hanger.height.is_none_or(|h| h > height) {
            let field = Field::at(Kind::HangerHeight, index);
            set(field, Value::Length(height), edits);
        }
    }
}

/// The same fields as they are now, last first.
fn taking_back(edits: &Edits, job: &Job) -> Edits {
    let back = edits.iter().rev().filter_map(|edit| match edit {
        Edit::Insert(list, at) => Some(Edit::Remove(*list, *at)),
        Edit::Set(field, _) if field.kind == Kind::HangerName => None,
        Edit::Set(field, _) if job.hangers.is_empty() && field.kind == Kind::HangerHeight => None,
        Edit::Set(field, _) => Some(Edit::Set(*field, field.get(job))),
        _ => None,
    });
    back.listed()
}
