//! Joist after joist: the reading screen of a tape run.
//!
//! The run's side and number, its edge and burn and its hook stand in the status
//! line all the time. A guess is grey until it is touched; what was accepted last
//! stays in the strip, for reading back.

use super::{Go, Look, Reply, Screen, ask, sheet};
use crate::edit::Edit;
use crate::field::{Field, Kind, Value};
use crate::guess::Source;
use crate::key::{Gesture, Holdings, Key};
use crate::ladder::{Ladder, Rungs};
use crate::text;
use crate::view::{Amount, LINE, Scale, Text, View};
use crate::words::{self, hint};
use boltbay_core::Job;
use boltbay_core::defaults;
use boltbay_core::job::{HangerRef, JoistReading, Run};
use boltbay_core::joists::{Slip, Slips, slips};
use boltbay_core::length::Length;
use boltbay_core::words::Units;

/// Which reading is keyed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Which {
    /// The next one.
    Next,
    /// This one of the job is corrected.
    Fix(u8),
    /// A new one in front of this one of the job.
    Before(u8),
}

/// A reading in the making.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    pub(super) run: u8,
    which: Which,
    ladder: Option<Ladder>,
    /// Where the place came from that the ladder stands on, if it was jumped to.
    from: Option<Source>,
    /// Readings of the run when the ladder was set up, and the last of them.
    known: Option<(usize, Option<JoistReading>)>,
}

/// Readings of one run, with their places in the job.
pub fn of_run(job: &Job, run: u8) -> impl DoubleEndedIterator<Item = (u8, &JoistReading)> {
    let all = job.joists.iter().enumerate();
    all.filter(move |(_, joist)| joist.run == run)
        .filter_map(|(at, joist)| Some((u8::try_from(at).ok()?, joist)))
}

impl Reading {
    /// The next reading of a run.
    pub fn of(run: u8) -> Reading {
        Reading {
            run,
            which: Which::Next,
            ladder: None,
            from: None,
            known: None,
        }
    }

    /// Corrects a reading, or puts one in front of it.
    pub fn at(run: u8, at: u8, before: bool) -> Reading {
        let which = if before {
            Which::Before(at)
        } else {
            Which::Fix(at)
        };
        Reading {
            which,
            ..Reading::of(run)
        }
    }

    /// The next reading is keyed, not an earlier one.
    pub fn is_next(&self) -> bool {
        self.which == Which::Next
    }

    /// The run, by its place on the list.
    pub fn run(&self) -> u8 {
        self.run
    }

    /// As the ladder wants it: UP and DOWN held go to likely places.
    pub fn holdings(&self, look: Look) -> Holdings {
        let places = self.which == Which::Next && look.guess.is_some();
        match &self.ladder {
            Some(ladder) => ladder.rungs().holdings(places),
            None => Holdings::default(),
        }
    }

    fn settings<'a>(&self, look: Look<'a>) -> Option<&'a Run> {
        look.job.runs.get(usize::from(self.run))
    }

    /// After a reading more or less, the ladder starts anew; one that was taken
    /// back returns as it was entered.
    pub fn enter(&mut self, look: Look) {
        let Some(run) = self.settings(look) else {
            return;
        };
        let rungs = Rungs::tape(look.job.units, defaults::read_to(look.job, run));
        let last = of_run(look.job, self.run)
            .next_back()
            .map(|(_, joist)| *joist);
        let count = of_run(look.job, self.run).count();
        let before = self.known.replace((count, last));
        let same_tick = self
            .ladder
            .as_ref()
            .is_some_and(|l| l.rungs().tick == rungs.tick);
        if before == Some((count, last)) && same_tick {
            return;
        }
        self.from = None;
        self.ladder = Some(match (self.which, before) {
            (Which::Fix(at) | Which::Before(at), _) => {
                let joist = look.job.joists.get(usize::from(at));
                let reading = joist.map(|joist| joist.reading).unwrap_or_default();
                Ladder::keyed(rungs, reading)
            }
            (Which::Next, Some((more, Some(taken)))) if more == count + 1 => match taken.guessed {
                true => Ladder::new(rungs, Some(taken.reading)),
                false => Ladder::keyed(rungs, taken.reading),
            },
            (Which::Next, _) => Ladder::new(rungs, look.guess.map(|guess| guess.best.at)),
        });
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        if let Gesture::Hold(key @ (Key::Up | Key::Down)) = gesture
            && self.which == Which::Next
        {
            self.jump(key == Key::Up, look);
            return Reply::stay();
        }
        let Some(ladder) = self.ladder.as_mut() else {
            return Reply::stay();
        };
        if ladder.on(gesture) {
            return Reply::stay();
        }
        match gesture {
            Gesture::Tap(Key::Ok) => self.accept(look),
            Gesture::Hold(Key::Ok) => self.sheet(look),
            _ => Reply::stay(),
        }
    }

    /// To the next likely place, or the one before.
    fn jump(&mut self, beyond: bool, look: Look) {
        let Some((guess, ladder)) = look.guess.zip(self.ladder.as_mut()) else {
            return;
        };
        let from = ladder.value().unwrap_or_default();
        if let Some(place) = guess.next(from, beyond) {
            ladder.jump(place.at);
            self.from = Some(place.source);
        }
    }

    /// The joist as it would be accepted now; `None` while there is no number.
    fn joist(&self) -> Option<JoistReading> {
        let ladder = self.ladder.as_ref()?;
        Some(JoistReading {
            reading: ladder.value()?,
            thickness: None,
            hanger: HangerRef::Default,
            run: self.run,
            guessed: !ladder.touched(),
        })
    }

    fn sheet(&self, look: Look) -> Reply {
        let of = match self.which {
            Which::Next => {
                let asked = Accepted {
                    joist: self.joist(),
                    expected: self.expected(look),
                    skipped: self.skipped(),
                };
                sheet::Of::Reading(self.run, asked)
            }
            Which::Fix(_) | Which::Before(_) => sheet::Of::Leave,
        };
        Reply::open(Screen::Sheet(sheet::Sheet::of(of)))
    }

    fn expected(&self, look: Look) -> Option<Length> {
        let first = of_run(look.job, self.run).next().is_none();
        look.guess.filter(|_| !first).map(|guess| guess.best.at)
    }

    /// A joist was left out on purpose: the place jumped to says so.
    fn skipped(&self) -> bool {
        matches!(self.from, Some(Source::Bays(_)))
    }

    fn accept(&mut self, look: Look) -> Reply {
        let Some(joist) = self.joist() else {
            return Reply::stay();
        };
        let end = u8::try_from(look.job.joists.len()).unwrap_or(u8::MAX);
        match self.which {
            Which::Fix(at) => {
                let field = Field::at(Kind::Reading, at);
                Reply::edit(Edit::Set(field, Value::Length(joist.reading)), Go::BACK).deaf(300)
            }
            Which::Before(at) => Reply::edit(Edit::Joist(at, joist), Go::BACK).deaf(300),
            Which::Next => {
                let accepted = Accepted {
                    joist: Some(joist),
                    expected: self.expected(look),
                    skipped: self.skipped(),
                };
                match accepted.slips(look.job).first() {
                    Some(slip) => Reply::open(Screen::Ask(ask::Ask::Slip(*slip, joist, end))),
                    None => self.taken(joist, end, look),
                }
            }
        }
    }

    /// One reading more; after five on eighths the tick is asked about, once.
    fn taken(&self, joist: JoistReading, end: u8, look: Look) -> Reply {
        let asks = self
            .settings(look)
            .is_some_and(|run| run.read_to.is_none() && look.job.units == Units::Imperial);
        let on_eighth =
            |reading: Length| reading.counts() % Length::from_sixteenths(2).counts() == 0;
        let on_eighths = of_run(look.job, self.run).filter(|(_, joist)| on_eighth(joist.reading));
        let all = on_eighths.count() == 4 && of_run(look.job, self.run).count() == 4;
        let go = match asks && all && on_eighth(joist.reading) {
            true => Go::open(Screen::Ask(ask::Ask::Eighths(self.run))),
            false => Go::STAY,
        };
        Reply::edit(Edit::Joist(end, joist), go).deaf(300)
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("reading", hint::READING);
        let (Some(run), Some(ladder)) = (self.settings(look), self.ladder.as_ref()) else {
            return;
        };
        let units = look.job.units;
        let figure = ladder.figure();
        view.status.left = words::joist(look.job, run.side, self.number(look.job));
        view.status.tab = words::edge_and_burn(run, units);
        view.status.right = Text::new();
        let _ = view.status.right.push_str(words::run_hook(run.hook));
        // An odd burn takes the room of the number: it matters more.
        let status = &view.status;
        if status.left.len() + status.tab.len() + status.right.len() >= LINE - 1 {
            view.status.left.clear();
        }
        view.figure = Some(figure);
        if let Amount::Length(at, units) = figure.amount {
            view.scale = Some(Scale { at, units });
        }
        let (left, right) = self.strip(look, ladder);
        view.line(&left, &right);
    }

    /// The reading's number along the tape, on its side.
    fn number(&self, job: &Job) -> usize {
        let before = |at: u8| {
            of_run(job, self.run)
                .filter(|(other, _)| *other < at)
                .count()
        };
        1 + match self.which {
            Which::Next => before(u8::MAX),
            Which::Fix(at) | Which::Before(at) => before(at),
        }
    }

    /// The last reading and the bay from there; or why this place is likely.
    fn strip(&self, look: Look, ladder: &Ladder) -> (Text, Text) {
        let units = look.job.units;
        if let Some(digits) = ladder.half_typed_digits() {
            let mut line = Text::new();
            for digit in digits {
                let _ = line.push(char::from(b'0' + digit));
            }
            return (line, text!(".."));
        }
        let before = match self.which {
            Which::Next => of_run(look.job, self.run).next_back(),
            Which::Fix(at) | Which::Before(at) => {
                let mut before = of_run(look.job, self.run).filter(|(other, _)| *other < at);
                before.next_back()
            }
        };
        let at = ladder.value().unwrap_or_default();
        let left = before.map(|(_, joist)| words::short(joist.reading, units));
        let right = match (self.from, before) {
            (Some(source), _) => self.source(source, look),
            (None, Some((_, joist))) => words::bay(at.saturating_sub(joist.reading), units),
            (None, None) => text!("FIRST"),
        };
        let left = left.unwrap_or_default();
        // The reading to be read back goes before the bay.
        match left.len() + right.len() < LINE {
            true => (left, right),
            false => (left, Text::new()),
        }
    }

    fn source(&self, source: Source, look: Look) -> Text {
        let side = self.settings(look).map(|run| run.side.other());
        match (source, side) {
            (Source::Like(number), Some(side)) => {
                text!("LIKE {}", words::joist(look.job, side, number))
            }
            (Source::Bays(bays), _) => text!("BAY+{bays}"),
            (Source::HalfBack, _) => text!("BAY-1/2"),
            (Source::Both, _) => text!("LIKE BOTH"),
            (Source::Lattice, _) => text!("IN LINE"),
            _ => text!("USUAL BAY"),
        }
    }
}

/// A joist about to be accepted, and what was expected.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Accepted {
    /// As it would be accepted.
    pub joist: Option<JoistReading>,
    /// What was guessed.
    pub expected: Option<Length>,
    /// A bay was left out on purpose.
    pub skipped: bool,
}

impl Accepted {
    /// What to ask before it is accepted.
    pub fn slips(&self, job: &Job) -> Slips {
        let Some(joist) = &self.joist else {
            return Slips::new();
        };
        let mut found = slips(job, joist, self.expected);
        let wide = |slip: &Slip| matches!(slip, Slip::Gap { .. });
        found.retain(|slip| !(self.skipped && wide(slip)));
        found
    }
}
