//! A tape run before it starts: side, hook, edge, burn, thickness, one list.

use super::{Go, LIST, Look, Reply, Screen, ask, list, reading};
use crate::edit::Edit;
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{View, text};
use crate::words::{self, hint};
use boltbay_core::Job;
use boltbay_core::defaults;
use boltbay_core::job::{Edge, Run, RunHook};
use boltbay_core::length::Length;
use boltbay_core::words::{End, Side, Units};

/// A run in the making and a cursor; START is on top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RunSetup {
    run: Run,
    cursor: u8,
}

/// Lines: START, side, hook, edge, burn, thickness.
const LINES: u8 = 6;

impl RunSetup {
    /// The usual next run: the side that has none yet, hooked as the last one.
    pub fn next(job: &Job) -> RunSetup {
        let last = job.runs.last();
        let bare = |side: &Side| job.runs.iter().all(|run| run.side != *side);
        let side = Side::BOTH.into_iter().find(bare).unwrap_or(Side::N);
        let run = Run {
            side,
            hook: last.map_or(RunHook::Wall(End::A), |run| run.hook),
            edge: last.map_or(Edge::Near, |run| run.edge),
            burn: last.and_then(|run| run.burn),
            thickness: last.and_then(|run| run.thickness),
            read_to: None,
            overridden: false,
        };
        RunSetup { run, cursor: 0 }
    }

    /// As on a list.
    pub fn holdings(&self, _: Look) -> Holdings {
        LIST
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        if list::turn(&mut self.cursor, LINES, gesture) {
            return Reply::stay();
        }
        match gesture {
            Gesture::Tap(Key::Ok) if self.cursor == 0 => {
                let run = u8::try_from(look.job.runs.len()).unwrap_or(u8::MAX);
                let next = match look.job.stand {
                    None => Screen::Ask(ask::Ask::Stand(run)),
                    Some(_) if self.asks_line(look.job) => Screen::Ask(ask::Ask::SameLine(run)),
                    Some(_) => Screen::Reading(reading::Reading::of(run)),
                };
                Reply::edit(Edit::Run(self.run), Go::instead(next)).deaf(300)
            }
            Gesture::Tap(Key::Ok | Key::Right) => {
                self.turn(look.job);
                Reply::stay()
            }
            Gesture::Tap(Key::Left) => Reply::back(),
            _ => Reply::stay(),
        }
    }

    /// The second side's first run, where both sides hang on a wall.
    fn asks_line(&self, job: &Job) -> bool {
        let on_wall = |run: &Run| matches!(run.hook, RunHook::Wall(_));
        let mut others = job.runs.iter().filter(|run| run.side != self.run.side);
        let first = job.runs.iter().all(|run| run.side != self.run.side);
        on_wall(&self.run) && first && others.any(on_wall)
    }

    /// The next choice on the chosen line.
    fn turn(&mut self, job: &Job) {
        let run = &mut self.run;
        match self.cursor {
            1 => run.side = run.side.other(),
            2 => {
                run.hook = match run.hook {
                    RunHook::Wall(End::A) => RunHook::Wall(End::B),
                    RunHook::Wall(End::B) => RunHook::Steel(End::A),
                    RunHook::Steel(End::A) => RunHook::Steel(End::B),
                    _ => RunHook::Wall(End::A),
                }
            }
            3 => {
                run.edge = match run.edge {
                    Edge::Near => Edge::Centre,
                    Edge::Centre => Edge::Far,
                    Edge::Far => Edge::Near,
                }
            }
            4 => run.burn = next(run.burn, burns(job.units)),
            5 => run.thickness = next(run.thickness, thicknesses(job.units)),
            _ => {}
        }
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        let units = look.job.units;
        view.named("run", hint::RUN);
        view.status.left = text!("RUN {}", look.job.letter(self.run.side));
        view.status.right = text(words::run_hook(self.run.hook));
        let first = list::first(self.cursor, LINES);
        for line in first..first + list::LINES {
            match line {
                0 => view.line("START", ""),
                1 => view.line("SIDE", &text!("{}", look.job.letter(self.run.side))),
                2 => view.line("HOOKED ON", words::run_hook(self.run.hook)),
                3 => view.line("EDGE", words::edge(self.run.edge)),
                4 => {
                    let burn = self.run.burn.unwrap_or_default();
                    view.line("BURN", &words::short(burn, units));
                }
                _ => {
                    let usual = defaults::thickness(look.job);
                    let thick = self.run.thickness.unwrap_or(usual);
                    view.line("JOIST THICK", &words::short(thick, units));
                }
            }
        }
        view.selected = Some(self.cursor - first);
    }
}

/// The burns in use: none, 1 in or 10 cm.
const fn burns(units: Units) -> &'static [Length] {
    match units {
        Units::Imperial => const { &[Length::from_inches(1)] },
        Units::Metric => const { &[Length::from_millimetres(100)] },
    }
}

/// Joist thicknesses besides the usual one; others are keyed on the run's page.
/// Practice: old joists, engineered joists, doubles.
const fn thicknesses(units: Units) -> &'static [Length] {
    match units {
        Units::Imperial => {
            const {
                &[
                    Length::from_sixteenths(26),
                    Length::from_sixteenths(28),
                    Length::from_sixteenths(32),
                    Length::from_sixteenths(40),
                ]
            }
        }
        Units::Metric => {
            const {
                &[
                    Length::from_millimetres(44),
                    Length::from_millimetres(50),
                    Length::from_millimetres(63),
                ]
            }
        }
    }
}

/// The next of a list; behind the last nothing is keyed.
fn next(now: Option<Length>, all: &[Length]) -> Option<Length> {
    match now {
        None => all.first().copied(),
        Some(now) => all.iter().copied().find(|other| *other > now),
    }
}
