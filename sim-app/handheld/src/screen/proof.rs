//! A reading that proves a run, and what comes of it.
//!
//! There is no guess here: a reading that was suggested would prove itself.

use super::{Go, Look, Reply, Screen, amount, sheet};
use crate::edit::Edit;
use crate::field::{Field, Kind};
use crate::key::{Gesture, Holdings, Key};
use crate::ladder::{Ladder, Rungs};
use crate::text;
use crate::view::{View, text};
use crate::words::{self, hint};
use boltbay_core::Job;
use boltbay_core::defaults;
use boltbay_core::job::{Check, CheckKind, Hook, Position, Run, RunHook};
use boltbay_core::length::Length;
use boltbay_core::words::End;

/// A proving reading in the making, then its outcome.
#[derive(Clone, Debug, PartialEq)]
pub struct Proof {
    run: u8,
    kind: CheckKind,
    point: Position,
    ladder: Ladder,
    /// The reading is in; its outcome is shown.
    read: bool,
}

/// The end that a run goes toward.
const fn toward(run: &Run) -> End {
    match run.hook {
        RunHook::Wall(end) | RunHook::Steel(end) => end.other(),
        RunHook::Mark(_, toward) => toward,
    }
}

/// The known point at the far end: the wall where one stands, else the steel's end.
fn far_point(job: &Job, run: &Run) -> Position {
    let walls = boltbay_core::frame::Frame::of(job).map(|frame| frame.faces);
    let [a, b] = walls.unwrap_or([None, None]);
    let hook = match toward(run) {
        End::A if a.is_some() => Hook::WallA,
        End::A => Hook::EndA,
        End::B if b.is_some() || job.clear.is_some() => Hook::WallB,
        End::B => Hook::EndB,
    };
    Position {
        reading: Length::ZERO,
        hook,
    }
}

impl Proof {
    /// Closes a run, or checks it with the tape still hooked; `None` without
    /// such a run.
    pub fn of(run: u8, kind: CheckKind, job: &Job) -> Option<Proof> {
        let keyed = job.runs.get(usize::from(run))?;
        let rungs = Rungs::tape(job.units, defaults::read_to(job, keyed));
        Some(Proof {
            run,
            kind,
            point: far_point(job, keyed),
            ladder: Ladder::new(rungs, None),
            read: false,
        })
    }

    /// As the ladder wants it.
    pub fn holdings(&self, _: Look) -> Holdings {
        self.ladder.rungs().holdings(false)
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        if self.read {
            return self.done(gesture, look);
        }
        if self.ladder.on(gesture) {
            return Reply::stay();
        }
        match (gesture, self.ladder.value()) {
            (Gesture::Tap(Key::Ok), Some(reading)) => {
                self.read = true;
                let check = Check {
                    kind: self.kind,
                    reading,
                    point: self.point,
                    run: self.run,
                    guessed: false,
                };
                Reply::edit(Edit::Check(check), Go::STAY).deaf(300)
            }
            (Gesture::Hold(Key::Ok), _) => {
                Reply::open(Screen::Sheet(sheet::Sheet::of(sheet::Of::Leave)))
            }
            _ => Reply::stay(),
        }
    }

    /// After the outcome the joists are counted by eye, once a side.
    fn done(&self, gesture: Gesture, look: Look) -> Reply {
        let side = look.job.runs.get(usize::from(self.run)).map(|run| run.side);
        match (gesture, side) {
            (Gesture::Tap(Key::Ok), Some(side)) => {
                let index = u8::try_from(side.index()).unwrap_or(0);
                let field = Field::at(Kind::CountedJoists, index);
                let count = amount::Amount::of(field, look.job);
                Reply::go(Go::instead(Screen::Amount(count)))
            }
            (Gesture::Tap(Key::Left), _) => Reply::back(),
            _ => Reply::stay(),
        }
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        let name = match self.kind {
            CheckKind::Close => "close",
            CheckKind::Check => "check",
        };
        view.named(name, hint::CLOSE);
        let Some(run) = look.job.runs.get(usize::from(self.run)) else {
            return;
        };
        let letter = look.job.letter(run.side);
        if self.read {
            self.outcome(look, view);
            view.status.left = text!("RUN {letter}");
            return;
        }
        if self.kind == CheckKind::Check {
            view.hint = hint::CHECK;
        }
        view.status.left = match self.kind {
            CheckKind::Close => text!("CLOSE {letter}"),
            CheckKind::Check => text!("CHECK {letter}"),
        };
        view.status.right = text!("TO {}", words::hook(self.point.hook));
        view.figure = Some(self.ladder.figure());
        let units = look.job.units;
        match self.kind {
            CheckKind::Close => {
                let last = super::reading::of_run(look.job, self.run).next_back();
                let last = last.map(|(_, joist)| words::short(joist.reading, units));
                view.line("FROM", &last.unwrap_or_default());
            }
            CheckKind::Check => {
                view.line("HOOKED ON", words::run_hook(run.hook));
            }
        }
    }

    /// Out by how much, what is allowed, how many guesses stand untouched.
    fn outcome(&self, look: Look, view: &mut View) {
        let units = look.job.units;
        view.screen = "proof";
        view.hint = hint::CLOSED;
        let report = look.plan.runs.iter().find(|report| report.run == self.run);
        let out = report.and_then(|report| report.misclosure);
        let allowed = report.and_then(|report| report.tolerance);
        let ok = report.and_then(|report| report.ok);
        view.alarm = ok != Some(true);
        view.status.right = text(match ok {
            Some(true) => "PROVED",
            Some(false) => "OUT",
            None => "NOT PROVED",
        });
        if let (Some(out), Some(allowed)) = (out, allowed) {
            view.line("OUT BY", &words::signed(out, units));
            view.line("ALLOWED", &words::short(allowed, units));
        }
        let all = super::reading::of_run(look.job, self.run).count();
        let guessed = super::reading::of_run(look.job, self.run).filter(|(_, j)| j.guessed);
        view.line("GUESS UNTOUCHED", "");
        view.line("", &text!("{} OF {all}", guessed.count()));
    }
}
