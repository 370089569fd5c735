//! The scripted handheld: keys in, a picture and a line of JSON a key out.
//!
//! In: a card, a journal or none, keys by name. Out: PNGs, views as JSON lines, the job as
//! a card. A key is pressed and let go again as a hand would, and the clock then
//! goes on until the keys listen again; nothing here waits for real time.

use crate::Streams;
use crate::command::Screens;
use crate::file;
use crate::handheld::guide::guided;
use crate::picture;
use crate::store::Store;
use boltbay_core::Job;
use boltbay_core::card::{self, CardReader};
use boltbay_core::job::Run;
use boltbay_core::words::Units;
use boltbay_handheld::journal::{Fault, Keeper, Outcome};
use boltbay_handheld::view::Amount;
use boltbay_handheld::{Handheld, Key, Memory, Millis, View};
use serde_json::{Value, json};
use std::io::{self, BufRead, BufReader};
use std::path::{Path, PathBuf};

/// What went wrong: a key or a run that is none, or a file.
#[derive(Debug)]
pub enum Trouble {
    /// No such key.
    Key(String),
    /// `--run` holds no tape row.
    Run(String),
    /// Card and keys cannot both come from standard input.
    BothStdin,
    /// A picture or a card cannot be written there.
    Write(PathBuf, io::Error),
    /// Keys cannot be read, or answers not written.
    Stream(io::Error),
    /// A key cannot be kept in the journal.
    Kept(Fault),
}

impl std::fmt::Display for Trouble {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Trouble::Key(word) => write!(
                f,
                "{word:?} is no key: write up down left right ok, a digit, . or hold:KEY*TIMES"
            ),
            Trouble::Run(why) => write!(f, "--run: {why}"),
            Trouble::BothStdin => f.write_str("only one of card and keys can be -"),
            Trouble::Write(path, error) => write!(f, "cannot write {}: {error}", path.display()),
            Trouble::Stream(error) => write!(f, "cannot go on: {error}"),
            Trouble::Kept(fault) => {
                let [what, _] = fault.on_screen().map(str::to_lowercase);
                write!(f, "a key is not kept: {what}")
            }
        }
    }
}

/// One thing that the hand does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Press {
    key: Key,
    /// Held until it has acted so many times.
    held: Option<u32>,
}

/// Milliseconds a tap lasts.
const TAP: u64 = 60;
/// Milliseconds after which all keys listen again, whatever was pressed.
const REST: u64 = 1100;
/// A hold that acts no more is let go after this many milliseconds.
const ENOUGH: u64 = 5000;
/// Pixels of a picture for one of the screen's.
const SCALE: u32 = 4;

fn key(word: &str) -> Option<Key> {
    Some(match word {
        "up" => Key::Up,
        "down" => Key::Down,
        "left" => Key::Left,
        "right" => Key::Right,
        "ok" => Key::Ok,
        "." => Key::Separator,
        digit => match digit.as_bytes() {
            [digit @ b'0'..=b'9'] => Key::Digit(digit - b'0'),
            _ => return None,
        },
    })
}

fn press(word: &str) -> Result<Press, Trouble> {
    let none = || Trouble::Key(word.to_owned());
    let Some(held) = word.strip_prefix("hold:") else {
        let key = key(word).ok_or_else(none)?;
        return Ok(Press { key, held: None });
    };
    let (name, times) = held.split_once('*').unwrap_or((held, "1"));
    let times = times.parse().ok().filter(|times| (1..=999).contains(times));
    Ok(Press {
        key: key(name).ok_or_else(none)?,
        held: Some(times.ok_or_else(none)?),
    })
}

/// The run of a `tape` row, read as the card's reader would in this job.
fn run_of(row: &str, job: &Job) -> Result<Run, Trouble> {
    let bad = |why: &dyn std::fmt::Display| Trouble::Run(why.to_string());
    let units = match job.units {
        Units::Imperial => "imperial",
        Units::Metric => "metric",
    };
    let [first, second] = job.sides.map(char::from);
    let text = format!("boltbay,1\nunits,{units}\nsides,{first},{second}\n{row}\n");
    let mut alone = Box::new(Job::new(job.units));
    let mut reader = CardReader::new();
    reader
        .feed(text.as_bytes(), &mut alone)
        .and_then(|()| reader.finish(&mut alone))
        .map_err(|error| bad(&error))?;
    let run = alone.runs.first().copied();
    run.ok_or_else(|| bad(&"write a row: tape,N,wall A,,near"))
}

/// A handheld, its clock and its journal.
struct Hand<'m> {
    handheld: Handheld<'m>,
    now: u64,
    keeper: Option<Keeper<Store>>,
    /// The journal has something to say first: the next key has heard it.
    waits: bool,
}

impl Hand<'_> {
    fn do_it(&mut self, press: Press) -> Result<(), Trouble> {
        if core::mem::take(&mut self.waits) {
            let again = self
                .keeper
                .as_mut()
                .map(|keeper| keeper.again(&self.handheld));
            return self.kept(again);
        }
        self.handheld.press(press.key, Millis(self.now));
        self.keep()?;
        match press.held {
            None => self.now += TAP,
            Some(times) => self.hold(times)?,
        }
        self.handheld.release(press.key, Millis(self.now));
        self.keep()?;
        self.now += REST;
        self.handheld.tick(Millis(self.now));
        self.keep()
    }

    /// Keeps what the last call changed, where there is a journal.
    fn keep(&mut self) -> Result<(), Trouble> {
        let keeper = self.keeper.as_mut();
        let outcome = keeper.map(|keeper| keeper.keep(&mut self.handheld));
        self.kept(outcome)
    }

    fn kept(&mut self, outcome: Option<Outcome>) -> Result<(), Trouble> {
        let fault = self.keeper.as_ref().and_then(Keeper::fault);
        match (outcome, fault) {
            (None | Some(Outcome::Kept), _) => Ok(()),
            (Some(Outcome::Waits), None) => {
                self.waits = true;
                Ok(())
            }
            (_, fault) => Err(Trouble::Kept(fault.unwrap_or(Fault::NotKept))),
        }
    }

    /// What is on the screen.
    fn view(&self) -> View {
        let view = match &self.keeper {
            Some(keeper) => keeper.view(&self.handheld),
            None => self.handheld.view(),
        };
        guided(view, &self.handheld)
    }

    fn hold(&mut self, times: u32) -> Result<(), Trouble> {
        let before = self.handheld.acted();
        let mut quiet = 0;
        let mut seen = before;
        while self.handheld.acted() - before < times && quiet < ENOUGH {
            self.now += 5;
            quiet += 5;
            self.handheld.tick(Millis(self.now));
            self.keep()?;
            if self.handheld.acted() != seen {
                seen = self.handheld.acted();
                quiet = 0;
            }
        }
        Ok(())
    }
}

/// A view as one line of JSON.
pub fn line(key: &str, view: &View) -> Value {
    let status = [&*view.status.left, &*view.status.tab, &*view.status.right];
    let status = status.into_iter().filter(|part| !part.is_empty());
    let mut lines: Vec<String> = Vec::new();
    if let Some(strip) = &view.strip {
        lines.push(
            format!("{} o {}", strip.left, strip.right)
                .trim()
                .to_owned(),
        );
    }
    for line in &view.lines {
        let both = format!("{}  {}", line.left, line.right);
        lines.push(both.trim().to_owned());
    }
    let (figure, inches) = match view.figure {
        None => (Value::Null, Value::Null),
        Some(figure) => match (figure.amount, figure.touch) {
            (_, boltbay_handheld::view::Touch::Empty) => (Value::Null, Value::Null),
            (Amount::Length(length, units), _) => (
                json!(length.shown(units).to_string()),
                json!(length.as_inches()),
            ),
            (Amount::Number(number), _) => (json!(number.to_string()), Value::Null),
        },
    };
    json!({
        "key": key,
        "screen": view.screen,
        "status": status.collect::<Vec<_>>().join(" "),
        "figure": figure,
        "figure_in": inches,
        "lines": lines,
        "selected": view.selected,
        "hint": view.hint,
    })
}

/// What is put out after each key.
struct Answers<'a> {
    out: Option<&'a Path>,
    views: bool,
    count: usize,
}

impl Answers<'_> {
    fn answer(&mut self, key: &str, view: &View, out: &mut dyn io::Write) -> Result<(), Trouble> {
        if let Some(folder) = self.out {
            let name = match key {
                "" => format!("{:03}.png", self.count),
                key => format!(
                    "{:03}-{}.png",
                    self.count,
                    key.replace([':', '*', '.'], "-")
                ),
            };
            let path = folder.join(name);
            picture::write(view, SCALE, &path).map_err(|error| Trouble::Write(path, error))?;
        }
        self.count += 1;
        if self.views {
            writeln!(out, "{}", line(key, view))
                .and_then(|()| out.flush())
                .map_err(Trouble::Stream)?;
        }
        Ok(())
    }
}

/// Runs a script; `memory` holds the card's or the journal's job, if there is one.
pub fn run(
    asked: &Screens,
    mut memory: Box<Memory>,
    keeper: Option<Keeper<Store>>,
    streams: &mut Streams<'_>,
) -> Result<(), Trouble> {
    if let Some(folder) = &asked.out {
        std::fs::create_dir_all(folder).map_err(|error| Trouble::Write(folder.clone(), error))?;
    }
    let run = match &asked.run {
        Some(row) => Some(run_of(row, &memory.job)?),
        None => None,
    };
    let mut hand = Hand {
        handheld: Handheld::new(&mut memory),
        now: 1000,
        keeper,
        waits: false,
    };
    if let Some(keeper) = &hand.keeper {
        keeper.resume(&mut hand.handheld);
    }
    if let Some(run) = run {
        hand.handheld
            .start_run(run)
            .map_err(|_| Trouble::Run("no room for another run".to_owned()))?;
        hand.keep()?;
    }
    let mut answers = Answers {
        out: asked.out.as_deref(),
        views: asked.views,
        count: 0,
    };
    answers.answer("", &hand.view(), streams.stdout)?;
    if asked.keys == "-" {
        for line in BufReader::new(&mut *streams.stdin).lines() {
            let line = line.map_err(Trouble::Stream)?;
            for word in line.split_whitespace() {
                hand.do_it(press(word)?)?;
                answers.answer(word, &hand.view(), streams.stdout)?;
            }
        }
    } else {
        // A script with a bad key does nothing at all.
        let words: Vec<&str> = asked.keys.split_whitespace().collect();
        let presses = words.iter().map(|word| press(word));
        let presses: Vec<Press> = presses.collect::<Result<_, _>>()?;
        for (word, press) in words.into_iter().zip(presses) {
            hand.do_it(press)?;
            answers.answer(word, &hand.view(), streams.stdout)?;
        }
    }
    match &asked.save {
        Some(path) => save(hand.handheld.job(), path),
        None => Ok(()),
    }
}

fn save(job: &Job, path: &Path) -> Result<(), Trouble> {
    let mut text = String::new();
    // Writing to a string cannot fail.
    let _ = card::write(job, &mut text);
    file::write_whole(path, text.as_bytes()).map_err(|e| Trouble::Write(path.to_owned(), e))
}
