//! Pages to read close by: the rule said back, the cautions, the checks.
//!
//! 21 letters a line, five lines in sight. A page is written anew for each view
//! and only what is in sight is kept: nothing grows with its length.

use super::{LIST, Look, Reply};
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{Line, SMALL_LINE, Text, View, text};
use crate::words::hint;
use boltbay_core::caution::Caution;
use boltbay_core::check::Question;
use boltbay_core::report::Report;
use core::fmt::{self, Write};

/// What is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Of {
    /// The engineer's rule, said back.
    Rule,
    /// What the crew must look at.
    Cautions,
    /// The answers to one of the foreman's questions.
    Checks(Asked),
}

/// The foreman's questions, lift among them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// One that checks answer.
    Question(Question),
    /// Does anything lift?
    Lift,
}

/// In the order in which a foreman asks.
const ASKED: [Asked; 8] = [
    Asked::Question(Question::GoesIn),
    Asked::Question(Question::EndsSit),
    Asked::Lift,
    Asked::Question(Question::SteelHolds),
    Asked::Question(Question::PackingHolds),
    Asked::Question(Question::BoltsHold),
    Asked::Question(Question::NailsReach),
    Asked::Question(Question::Flush),
];

impl Asked {
    /// The first of them.
    pub const FIRST: Asked = Asked::Question(Question::GoesIn);

    const fn words(self) -> &'static str {
        match self {
            Asked::Lift => "ANYTHING LIFT?",
            Asked::Question(Question::GoesIn) => "WILL IT GO IN?",
            Asked::Question(Question::EndsSit) => "DO THE ENDS SIT?",
            Asked::Question(Question::SteelHolds) => "STEEL CARRIES IT?",
            Asked::Question(Question::PackingHolds) => "PACKING HOLDS?",
            Asked::Question(Question::BoltsHold) => "BOLTS HOLD?",
            Asked::Question(Question::NailsReach) => "NAILS REACH?",
            Asked::Question(Question::Flush) => "FLOOR FLUSH?",
        }
    }
}

/// A page and its first line in sight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Page {
    of: Of,
    top: u16,
}

/// Lines in sight.
const SIGHT: u16 = 5;

impl Page {
    /// Whether it shows checks.
    pub fn lists_checks(&self) -> bool {
        matches!(self.of, Of::Checks(_))
    }

    /// From its top.
    pub const fn of(of: Of) -> Page {
        Page { of, top: 0 }
    }

    /// As on a list.
    pub fn holdings(&self, _: Look) -> Holdings {
        Holdings {
            right: None,
            ok: None,
            ..LIST
        }
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        let last = self.written(look).lines.saturating_sub(SIGHT);
        match gesture {
            Gesture::Tap(Key::Down) | Gesture::Hold(Key::Down) => {
                self.top = self.top.saturating_add(SIGHT - 1).min(last);
            }
            Gesture::Tap(Key::Up) | Gesture::Hold(Key::Up) => {
                self.top = self.top.saturating_sub(SIGHT - 1);
            }
            Gesture::Tap(Key::Left) => return Reply::back(),
            Gesture::Tap(Key::Ok | Key::Right) => match self.of {
                Of::Checks(asked) => {
                    let at = ASKED.iter().position(|a| *a == asked).unwrap_or(0);
                    match ASKED.get(at + 1) {
                        Some(next) => *self = Page::of(Of::Checks(*next)),
                        None => return Reply::back(),
                    }
                }
                _ => return Reply::back(),
            },
            _ => {}
        }
        Reply::stay()
    }

    fn written(&self, look: Look) -> Sight {
        let mut sight = Sight::from(self.top);
        // Writing to the sight cannot fail.
        let _ = match self.of {
            Of::Rule => rule(look, &mut sight),
            Of::Cautions => cautions(look, &mut sight),
            Of::Checks(Asked::Lift) => lift(look, &mut sight),
            Of::Checks(Asked::Question(question)) => checks(question, look, &mut sight),
        };
        sight.end();
        sight
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        match self.of {
            Of::Rule => view.named("rule", hint::RULE),
            Of::Cautions => view.named("cautions", hint::CAUTIONS),
            Of::Checks(_) => view.named("checks", hint::CHECKS),
        }
        view.small = true;
        let sight = self.written(look);
        view.status.left = text(match self.of {
            Of::Rule => "YOUR RULE SAYS",
            Of::Cautions => "LOOK FIRST",
            Of::Checks(asked) => asked.words(),
        });
        let below = self.top + SIGHT < sight.lines;
        view.status.right = text(if below { "+" } else { "" });
        view.alarm = sight.alarm;
        for line in sight.kept {
            let _ = view.lines.push(line);
        }
    }
}

/// The lines in sight of a text that may be long.
struct Sight {
    top: u16,
    /// Lines so far.
    lines: u16,
    line: Text,
    word: Text,
    kept: heapless::Vec<Line, 5, u8>,
    /// Something in it must not be overlooked.
    alarm: bool,
}

impl Sight {
    fn from(top: u16) -> Sight {
        Sight {
            top,
            lines: 0,
            line: Text::new(),
            word: Text::new(),
            kept: heapless::Vec::new(),
            alarm: false,
        }
    }

    /// The word onto the line, or onto the next one.
    fn word(&mut self) {
        if self.word.is_empty() {
            return;
        }
        if !self.line.is_empty() && self.line.len() + 1 + self.word.len() > SMALL_LINE {
            self.new_line();
        }
        if !self.line.is_empty() {
            let _ = self.line.push(' ');
        }
        let _ = self.line.push_str(&self.word);
        self.word.clear();
    }

    fn new_line(&mut self) {
        if self.lines >= self.top {
            let left = self.line.clone();
            let right = Text::new();
            let _ = self.kept.push(Line { left, right });
        }
        self.line.clear();
        self.lines = self.lines.saturating_add(1);
    }

    fn end(&mut self) {
        self.word();
        if !self.line.is_empty() {
            self.new_line();
        }
    }
}

impl Write for Sight {
    fn write_str(&mut self, words: &str) -> fmt::Result {
        for letter in words.chars() {
            match letter {
                ' ' => self.word(),
                '\n' => {
                    self.word();
                    self.new_line();
                }
                letter => {
                    // A word that fills a line is broken.
                    if self.word.len() >= SMALL_LINE {
                        self.word();
                    }
                    let _ = self.word.push(letter.to_ascii_uppercase());
                }
            }
        }
        Ok(())
    }
}

fn rule(look: Look, out: &mut Sight) -> fmt::Result {
    match &look.plan.rule {
        Some(rule) => write!(
            out,
            "{}\nRight? If not, ask the engineer.",
            rule.said(look.job)
        ),
        None => out.write_str("Key bolt, spacing and first bolt off the engineer's drawing."),
    }
}

fn cautions(look: Look, out: &mut Sight) -> fmt::Result {
    if look.plan.cautions.is_empty() {
        return out.write_str("Nothing found to look at. The engineer's drawing rules.");
    }
    for caution in &look.plan.cautions {
        writeln!(out, "{}: {}", caution.number(), caution.on_screen(look.job))?;
    }
    Ok(())
}

/// What lifts is said first, and in reverse.
fn lift(look: Look, out: &mut Sight) -> fmt::Result {
    let lifts =
        |caution: &&Caution| matches!(caution, Caution::Lift { .. } | Caution::NearLift { .. });
    let mut found = look.plan.cautions.iter().filter(lifts).peekable();
    out.alarm = look.plan.standing.lifts > 0;
    if found.peek().is_none() {
        return out.write_str(match look.job.loads.is_empty() {
            true => "NOT MADE: no loads keyed.",
            false => "No support lifts under these loads. The engineer's drawing rules.",
        });
    }
    for caution in found {
        writeln!(out, "{}", caution.on_screen(look.job))?;
    }
    out.write_str("Hold-down on before any shore comes away. Ask the engineer.")
}

fn checks(question: Question, look: Look, out: &mut Sight) -> fmt::Result {
    let Some(checks) = look.checks else {
        return out.write_str("NOT MADE now. Leave this page, then open it again.");
    };
    let report = Report {
        job: look.job,
        plan: look.plan,
    };
    let made = checks.made().iter();
    let mut any = false;
    for check in made.filter(|check| check.kind().question() == question) {
        any = true;
        let over = check.ok() == Some(false);
        out.alarm |= over;
        write!(out, "- {}\n{}", check.name(), report.demand(check))?;
        if let Some(capacity) = report.capacity(check) {
            write!(out, " of {capacity}")?;
        }
        out.write_str(if over { " IS OVER\n" } else { "\n" })?;
    }
    let lacking = checks.not_made().iter();
    for not in lacking.filter(|not| not.kind.question() == question) {
        any = true;
        writeln!(out, "NOT MADE: {}", not.kind.name())?;
    }
    match any {
        true => Ok(()),
        false => out.write_str("NOT MADE: nothing keyed for it."),
    }
}

/// `LIFTS` for a status line, where something does.
pub fn lifts(look: Look) -> Option<Text> {
    (look.plan.standing.lifts > 0).then(|| text!("LIFTS"))
}
