//! Before a walk: the measured length, how the beam lies, which face is seen.
//!
//! Rolling the beam over, walking round it and spinning it end for end each
//! change two of three things: the end at the left hand, the flange that is away,
//! the face that is seen. So two answers fix the third, and a painted letter
//! that is not there means that an answer or the paint is wrong.

use super::walk::{Kind as WalkKind, Lie, Walk};
use super::{Go, LIST, Look, Reply, Screen, blind, list, sheet};
use crate::edit::Edit;
use crate::field::{Field, Kind, Value};
use crate::key::{Gesture, Holdings, Key};
use crate::ladder::{Ladder, Rungs};
use crate::text;
use crate::view::{View, text};
use crate::words::{self, hint};
use boltbay_core::Job;
use boltbay_core::defaults;
use boltbay_core::job::{BeamLength, HoleState, Stand};
use boltbay_core::words::{End, Side};

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
enum Stage {
    /// The steel's length as measured.
    Length(Ladder),
    /// Which hand end A is at, seen from the first side; nobody said so yet.
    Stand,
    /// End at the left hand and flange that is away; the cursor's line.
    Lie(u8),
    /// Whether that face is seen.
    Face,
    /// It is not: the walk stops here.
    Stopped,
}

/// The questions before a walk.
#[derive(Clone, Debug, PartialEq)]
pub struct Begin {
    walk: WalkKind,
    lie: Lie,
    stage: Stage,
}

/// The face that must be seen, with the paint of this stand.
fn face(lie: Lie, stand: Stand) -> Side {
    // Standing on a side with A at the left, TOP up or away, that side is seen.
    let as_standing = (lie.left == End::A) == stand.a_at_left;
    match as_standing == lie.top_away {
        true => stand.side,
        false => stand.side.other(),
    }
}

impl Begin {
    /// Starts with the length while it is as ordered.
    pub fn of(walk: WalkKind, job: &Job) -> Begin {
        let beam = job.beam.as_ref();
        let ordered = beam.filter(|beam| beam.measured == BeamLength::Ordered);
        let stage = match ordered {
            Some(beam) => {
                let rungs = Rungs::tape(job.units, defaults::lattice(job));
                Stage::Length(Ladder::new(rungs, Some(beam.length)))
            }
            None => Begin::after_length(job),
        };
        Begin {
            walk,
            lie: Lie::default(),
            stage,
        }
    }

    /// Where end A lies is asked once, if no tape run has asked it.
    fn after_length(job: &Job) -> Stage {
        match job.stand {
            Some(_) => Stage::Lie(2),
            None => Stage::Stand,
        }
    }

    /// The beam was turned: how does it lie now?
    pub fn turned(walk: WalkKind, lie: Lie) -> Begin {
        Begin {
            walk,
            lie,
            stage: Stage::Lie(0),
        }
    }

    /// As the ladder or a list wants it.
    pub fn holdings(&self, _: Look) -> Holdings {
        match &self.stage {
            Stage::Length(ladder) => ladder.rungs().holdings(false),
            _ => LIST,
        }
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        if gesture == Gesture::Hold(Key::Ok) {
            return Reply::open(Screen::Sheet(sheet::Sheet::of(sheet::Of::Leave)));
        }
        match &mut self.stage {
            Stage::Length(ladder) => {
                if ladder.on(gesture) {
                    return Reply::stay();
                }
                match (gesture, ladder.value()) {
                    (Gesture::Tap(Key::Ok), Some(length)) => {
                        self.stage = Begin::after_length(look.job);
                        let field = Field::of(Kind::Length);
                        let mut reply =
                            Reply::edit(Edit::Set(field, Value::Length(length)), Go::STAY);
                        let measured = Edit::Set(Field::of(Kind::Measured), Value::Choice(1));
                        let _ = reply.edits.push(measured);
                        reply.deaf(300)
                    }
                    _ => Reply::stay(),
                }
            }
            Stage::Stand => {
                self.stage = Stage::Lie(2);
                match super::ask::stand(gesture) {
                    Some(edit) => Reply::edit(edit, Go::STAY).deaf(300),
                    None => {
                        self.stage = Stage::Stand;
                        Reply::stay()
                    }
                }
            }
            Stage::Lie(cursor) => {
                if list::turn(cursor, 3, gesture) {
                    return Reply::stay();
                }
                let line = *cursor;
                self.lie(line, gesture)
            }
            Stage::Face => self.face(gesture, look),
            Stage::Stopped => match gesture {
                Gesture::Tap(Key::Ok) => {
                    self.stage = Stage::Lie(0);
                    Reply::stay()
                }
                Gesture::Tap(Key::Left) => Reply::back(),
                _ => Reply::stay(),
            },
        }
    }

    fn lie(&mut self, line: u8, gesture: Gesture) -> Reply {
        match (gesture, line) {
            (Gesture::Tap(Key::Left), _) => return Reply::back(),
            (Gesture::Tap(Key::Ok | Key::Right), 0) => self.lie.left = self.lie.left.other(),
            (Gesture::Tap(Key::Ok | Key::Right), 1) => self.lie.top_away = !self.lie.top_away,
            (Gesture::Tap(Key::Ok), _) => self.stage = Stage::Face,
            _ => {}
        }
        Reply::stay().deaf(300)
    }

    /// The first time, without a stand on the card, what is seen is taken.
    fn face(&mut self, gesture: Gesture, look: Look) -> Reply {
        match gesture {
            Gesture::Tap(Key::Ok) => Reply::go(self.walk_on(look)).deaf(1000),
            Gesture::Tap(Key::Left) => {
                self.stage = Stage::Stopped;
                Reply::stay()
            }
            _ => Reply::stay(),
        }
    }

    /// To the walk; before the first hole is drilled, to the blind readings.
    fn walk_on(&self, look: Look) -> Go {
        let holes = |state| look.job.holes.iter().any(|hole| hole.state == state);
        let marked = holes(HoleState::Marked);
        let drilled = holes(HoleState::Drilled);
        if self.walk == WalkKind::Drill
            && marked
            && !drilled
            && let Some(blind) = blind::Blind::first(self.lie, look)
        {
            return Go::instead(Screen::Blind(blind));
        }
        Go::instead(Screen::Walk(Walk::of(self.walk, self.lie, look)))
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("lie", hint::LIE);
        match &self.stage {
            Stage::Length(ladder) => {
                view.screen = "measured";
                view.hint = hint::MEASURED;
                view.status.left = text("MEASURED LENGTH");
                view.figure = Some(ladder.figure());
                view.line("END A TO END B", "");
            }
            Stage::Stand => super::ask::view_stand(look.job, view),
            Stage::Lie(cursor) => {
                view.status.left = text("HOW IT LIES");
                let end = words::end(self.lie.left);
                view.line("AT MY LEFT", &text!("END {end}"));
                view.line(
                    "TOP FLANGE IS",
                    if self.lie.top_away { "AWAY" } else { "NEAR" },
                );
                view.line("GO ON", "");
                view.line("AWAY = UP", "");
                view.selected = Some(*cursor);
            }
            Stage::Face => {
                view.screen = "face";
                view.hint = hint::FACE;
                view.alarm = true;
                view.status.left = text("LOOK AT THE WEB");
                let face = look.job.stand.map(|stand| face(self.lie, stand));
                let letter = face.map(|face| text!("{}", look.job.letter(face)));
                view.line("YOU MUST SEE", &letter.unwrap_or_default());
                view.line("PAINTED ON IT", "");
                view.line("OK: YES", "");
                view.line("LEFT: NO, STOP", "");
            }
            Stage::Stopped => {
                view.screen = "stopped";
                view.hint = hint::FACE;
                view.alarm = true;
                view.status.left = text("STOP");
                view.line("AN ANSWER OR THE", "");
                view.line("PAINT IS WRONG.", "");
                view.line("OK: ANSWER AGAIN", "");
                view.line("LEFT: LEAVE", "");
            }
        }
    }
}
