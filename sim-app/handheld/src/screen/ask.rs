//! A question: OK says yes, LEFT says no.

use super::jobs::{Wish, called, gives_room};
use super::{Go, LIST, Look, Reply, Screen, entry, reading};
use crate::edit::Edit;
use crate::field::{Field, Kind, List, Value};
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{View, text};
use crate::words::{self, hint, signed};
use boltbay_core::Job;
use boltbay_core::job::{JoistReading, RunHook};
use boltbay_core::joists::Slip;
use boltbay_core::length::Length;
use boltbay_core::words::{Side, Units};

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ask {
    /// A reading that looks like a slip: does it stand? It goes to this place.
    Slip(Slip, JoistReading, u8),
    /// All readings were on eighths: step by eighths in this run?
    Eighths(u8),
    /// Which hand end A is at, before the first run is read.
    Stand(u8),
    /// Whether this run hangs on the same line as the other side's.
    SameLine(u8),
    /// A run with readings is to go: RIGHT held once more takes it.
    DeleteRun(u8),
    /// A job is to go off the list: RIGHT held once more takes it.
    DeleteJob(u8),
    /// A new job takes the room of one that was taken off the list.
    TakeRoom(Units),
}

/// How far this run's wall face lies off the other side's, where it hangs on one.
fn off_square(run: u8, job: &Job) -> Option<Field> {
    let run = job.runs.get(usize::from(run))?;
    let RunHook::Wall(end) = run.hook else {
        return None;
    };
    let corner = u8::try_from(2 * run.side.index() + end.index()).ok()?;
    Some(Field::at(Kind::Square, corner))
}

/// LEFT and RIGHT answer where end A is, seen from the first side.
pub fn stand(gesture: Gesture) -> Option<Edit> {
    let choice = match gesture {
        Gesture::Tap(Key::Left) => 0,
        Gesture::Tap(Key::Right) => 1,
        _ => return None,
    };
    Some(Edit::Set(Field::of(Kind::Stand), Value::Choice(choice)))
}

/// Asks for it.
pub fn view_stand(job: &Job, view: &mut View) {
    view.screen = "stand";
    view.hint = hint::STAND;
    view.status.left = text!("STAND ON SIDE {}", job.letter(Side::N));
    view.line("FACING THE BEAM,", "");
    view.line("END A IS AT MY", "");
    view.line("LEFT", "RIGHT");
    view.line("PRESS THAT KEY", "");
}

/// Asks whether a run may go.
fn view_delete(run: u8, job: &Job, view: &mut View) {
    view.screen = "delete-run";
    view.hint = hint::DELETE_RUN;
    let side = job.runs.get(usize::from(run)).map(|run| run.side);
    let letter = side.map_or(' ', |side| job.letter(side));
    view.status.left = text!("DELETE RUN {letter}{}?", job.run_number(run));
    let readings = reading::of_run(job, run).count();
    view.line(&text!("ITS {readings} READINGS"), "");
    view.line("ARE THEN GONE", "");
    view.line("HOLD RIGHT: DELETE", "");
    view.line("LEFT: KEEP IT", "");
}

/// 1/8 in among the steps that a tape can be read to.
const EIGHTH: u8 = 2;

impl Ask {
    /// As on a list.
    pub fn holdings(&self, _: Look) -> Holdings {
        LIST
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        match (gesture, *self) {
            (Gesture::Tap(Key::Ok), Ask::Slip(_, joist, at)) => {
                Reply::edit(Edit::Joist(at, joist), Go::BACK).deaf(300)
            }
            (Gesture::Tap(Key::Ok), Ask::Eighths(run)) => {
                let field = Field::at(Kind::RunReadTo, run);
                let edit = Edit::Set(field, Value::Choice(EIGHTH));
                Reply::edit(edit, Go::BACK).deaf(300)
            }
            (Gesture::Tap(Key::Ok), Ask::SameLine(run)) => {
                let reading = Screen::Reading(reading::Reading::of(run));
                Reply::go(Go::instead(reading)).deaf(300)
            }
            // How far off, then; the run waits on the list of runs.
            (Gesture::Tap(Key::Left), Ask::SameLine(run)) => match off_square(run, look.job) {
                Some(field) => {
                    let entry = entry::Entry::of(field, look.job, Some(Length::ZERO));
                    Reply::go(Go::instead(Screen::Entry(entry)))
                }
                None => Reply::back(),
            },
            (gesture, Ask::Stand(run)) => match stand(gesture) {
                Some(edit) => {
                    let reading = Screen::Reading(reading::Reading::of(run));
                    Reply::edit(edit, Go::instead(reading)).deaf(300)
                }
                None => Reply::stay(),
            },
            (Gesture::Hold(Key::Right), Ask::DeleteJob(at)) => match look.jobs.get(usize::from(at))
            {
                Some(job) => Reply {
                    wish: Some(Wish::Remove(job.job)),
                    ..Reply::back()
                },
                None => Reply::back(),
            },
            (Gesture::Tap(Key::Ok), Ask::TakeRoom(units)) => Reply {
                wish: Some(Wish::Make(units)),
                ..Reply::back()
            },
            (Gesture::Hold(Key::Right), Ask::DeleteRun(run)) => {
                Reply::edit(Edit::Remove(List::Runs, run), Go::BACK)
            }
            (Gesture::Tap(Key::Left), _) => Reply::back(),
            _ => Reply::stay(),
        }
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        let units = look.job.units;
        let short = |length| words::short(length, units);
        view.named("ask", hint::QUESTION);
        view.alarm = true;
        match self {
            Ask::Slip(slip, joist, _) => {
                view.screen = "slip";
                view.hint = hint::SLIP;
                view.status.left = text!("READ {}", short(joist.reading));
                match *slip {
                    Slip::NotIncreasing { before } => {
                        view.line("NOT BEYOND", "");
                        view.line("", &short(before));
                    }
                    Slip::Overlap { by } => {
                        view.line("OVERLAPS BY", "");
                        view.line("", &short(by));
                    }
                    Slip::Gap { gap, usual } => {
                        view.line("BAY", &words::bay(gap, units));
                        view.line("USUAL", &words::bay(usual, units));
                        view.line("JOIST MISSED?", "");
                    }
                    Slip::RoundFigure { off } => {
                        view.line("OFF BY JUST", &signed(off, units));
                        view.line("MISREAD? BURN?", "");
                    }
                }
                view.line("OK: IT IS SO", "");
                // Where there is room; LEFT goes back everywhere.
                if view.lines.len() < 4 {
                    view.line("LEFT: READ AGAIN", "");
                }
            }
            Ask::Stand(_) => view_stand(look.job, view),
            Ask::SameLine(_) => {
                view.screen = "line";
                view.hint = hint::LINE;
                view.status.left = text("SAME LINE?");
                view.line("BOTH SIDES HOOKED", "");
                view.line("ON THE SAME LINE?", "");
                view.line("OK: YES", "");
                view.line("LEFT: NO, KEY IT", "");
            }
            Ask::DeleteRun(run) => view_delete(*run, look.job, view),
            Ask::DeleteJob(at) => {
                view.screen = "delete-job";
                view.hint = hint::DELETE_JOB;
                view.status.left = text("OFF THE LIST?");
                let job = look.jobs.get(usize::from(*at));
                view.line(&job.map(called).unwrap_or_default(), "");
                view.line("OK BRINGS IT BACK", "");
                view.line("HOLD RIGHT: OFF", "");
                view.line("LEFT: KEEP IT", "");
            }
            Ask::TakeRoom(_) => {
                view.screen = "take-room";
                view.hint = hint::TAKE_ROOM;
                view.status.left = text("CARD IS FULL");
                view.line("THE NEW JOB ENDS", "");
                view.line(&gives_room(look).map(called).unwrap_or_default(), "");
                view.line("OK: FOR GOOD", "");
                view.line("LEFT: NO", "");
            }
            Ask::Eighths(_) => {
                view.status.left = text("ALL ON EIGHTHS");
                view.line("STEP BY 1/8 IN", "");
                view.line("THIS RUN?", "");
                view.line("OK: 1/8", "");
                view.line("LEFT: KEEP 1/16", "");
            }
        }
    }
}
