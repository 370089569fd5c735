//! Forms: fields and lists under one heading.
//!
//! Three lines of names, and below them the value of the chosen one in full.
//! What is not keyed shows the value that stands in, after USUAL.

mod pages;
mod usual;

use super::{Go, LIST, Look, Reply, Screen, amount, ask, blocked, chalk, choose, entry, letters};
use super::{jobs, list, map, packing, page, reading, rods};
use super::{readings, run, shape, sheet};
use crate::edit::{Edit, Edits};
use crate::field::{Field, Kind, List, Sort, Value};
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{LINE, Text, View, text};
use crate::words::{self, ADD, NOT_KEYED};
use boltbay_core::Job;
use heapless::Vec;
use page::Page;

pub use pages::{Form, kinds};

/// One line of a form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Item {
    /// A field to key.
    Field(Field),
    /// Another form.
    Form(Form),
    /// An entry of a list.
    Entry(List, u8),
    /// One entry more.
    Add(List),
    /// A new tape run.
    NewRun,
    /// On with a run.
    Read(u8),
    /// The readings of a run.
    Readings(u8),
    /// What was deleted last comes back.
    PutBack,
    /// The plan, or where nothing fits.
    Outcome,
    /// The strip map.
    Map,
    /// The list to chalk from.
    Chalk,
    /// The rule said back.
    Rule,
    /// What to look at first.
    Cautions,
    /// The checks.
    Checks,
    /// Layers of packing.
    Stack,
    /// Rods, sticks, what to buy.
    Rods,
    /// The jobs of the card.
    Jobs,
}

/// Lines of one form.
pub type Items = Vec<Item, 48, u8>;

/// Lines of names in sight.
const NAMES: u8 = 3;

/// A form and a cursor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FormScreen {
    pub(super) form: Form,
    pub(super) cursor: u8,
}

impl FormScreen {
    /// Starts on the first line.
    pub fn of(form: Form) -> FormScreen {
        FormScreen { form, cursor: 0 }
    }

    /// As on a list.
    pub fn holdings(&self, _: Look) -> Holdings {
        LIST
    }

    /// The cursor stays within the list.
    pub fn enter(&mut self, look: Look) {
        self.cursor = self.cursor.min(self.count(look).saturating_sub(1));
    }

    fn items(&self, look: Look) -> Items {
        let mut items = pages::items(self.form, look.job);
        let lists = matches!(
            self.form,
            Form::List(_) | Form::Runs | Form::Entry(List::Runs, _)
        );
        if lists && !look.undo.is_empty() {
            let _ = items.insert(0, Item::PutBack);
        }
        items
    }

    fn count(&self, look: Look) -> u8 {
        u8::try_from(self.items(look).len()).unwrap_or(u8::MAX)
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        let count = self.count(look);
        if list::turn(&mut self.cursor, count, gesture) {
            return Reply::stay();
        }
        let items = self.items(look);
        let item = items.get(usize::from(self.cursor)).copied();
        match (gesture, item) {
            (Gesture::Tap(Key::Left), _) => Reply::back(),
            (Gesture::Hold(Key::Ok), _) => {
                Reply::open(Screen::Sheet(sheet::Sheet::of(sheet::Of::Leave)))
            }
            (Gesture::Tap(Key::Ok | Key::Right), Some(Item::PutBack)) => {
                let mut reply = Reply::stay();
                reply.edits = look.undo.clone();
                reply
            }
            (Gesture::Tap(Key::Ok | Key::Right), Some(item)) => open(item, look),
            (Gesture::Hold(Key::Right), Some(item)) => self.delete(item, look),
            _ => Reply::stay(),
        }
    }

    /// Deletes an entry, and keeps what brings it back.
    fn delete(&self, item: Item, look: Look) -> Reply {
        let (list, at) = match item {
            Item::Entry(list, at) => (list, at),
            _ => return Reply::stay(),
        };
        // Nothing brings all its readings back; so that is asked first.
        if list == List::Runs && reading::of_run(look.job, at).next().is_some() {
            return Reply::open(Screen::Ask(ask::Ask::DeleteRun(at)));
        }
        let undo = restoring(list, at, look.job);
        Reply {
            undo,
            ..Reply::edit(Edit::Remove(list, at), Go::STAY)
        }
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        let items = self.items(look);
        let count = u8::try_from(items.len()).unwrap_or(u8::MAX);
        view.named("form", pages::hint_of(self.form));
        view.status.left = pages::title(self.form, look.job);
        view.status.right = match items.is_empty() {
            true => Text::new(),
            false => text!("{}/{count}", self.cursor + 1),
        };
        // A long name goes before the count of lines.
        if view.status.left.len() + view.status.right.len() >= LINE {
            view.status.right.clear();
        }
        let most = count.saturating_sub(NAMES);
        let first = self.cursor.saturating_sub(1).min(most);
        for item in items.iter().skip(usize::from(first)).take(3) {
            view.line(&name(*item, look.job), "");
        }
        while view.lines.len() < 3 {
            view.line("", "");
        }
        view.selected = Some(self.cursor - first);
        if let Some(item) = items.get(usize::from(self.cursor)) {
            let (left, right) = said_of(*item, look);
            view.line(&left, &right);
        }
    }
}

/// The edits that bring an entry back as it is now.
fn restoring(list: List, at: u8, job: &Job) -> Edits {
    let mut edits = Edits::new();
    let first = match list {
        List::Runs => job.runs.get(usize::from(at)).map(|run| Edit::Run(*run)),
        List::Checks => job
            .checks
            .get(usize::from(at))
            .map(|check| Edit::Check(*check)),
        _ => Some(Edit::Insert(list, at)),
    };
    let _ = first.map(|first| edits.push(first));
    if matches!(list, List::Runs | List::Checks) {
        return edits;
    }
    for kind in pages::kinds(list) {
        let field = Field::at(*kind, at);
        let value = field.get(job);
        if value != Value::Nothing {
            let _ = edits.push(Edit::Set(field, value));
        }
    }
    edits
}

/// The screen that changes a field.
pub fn change(field: Field, job: &Job) -> Screen {
    match field.kind.about().sort {
        Sort::Length | Sort::Fine | Sort::At => {
            let usual = usual::length(field, job);
            Screen::Entry(entry::Entry::of(field, job, usual))
        }
        Sort::Number(..) | Sort::Count | Sort::Decimal => {
            Screen::Amount(amount::Amount::of(field, job))
        }
        Sort::Choice(_) => Screen::Choose(choose::Choose::of(field, job)),
        Sort::Words(_) => Screen::Letters(letters::Letters::of(field, job)),
        Sort::Shape => Screen::Shape(shape::Shape::of(job)),
    }
}

fn open(item: Item, look: Look) -> Reply {
    match item {
        Item::Field(field) => Reply::open(change(field, look.job)),
        Item::Form(form) => Reply::open(Screen::Form(FormScreen::of(form))),
        Item::Entry(list, at) => Reply::open(Screen::Form(FormScreen::of(Form::Entry(list, at)))),
        Item::Add(list) => {
            let at = list.len(look.job);
            let entry = Screen::Form(FormScreen::of(Form::Entry(list, at)));
            Reply::edit(Edit::Insert(list, at), Go::open(entry))
        }
        Item::NewRun => Reply::open(Screen::Run(run::RunSetup::next(look.job))),
        Item::Read(run) => Reply::open(Screen::Reading(reading::Reading::of(run))),
        Item::Readings(run) => Reply::open(Screen::Readings(readings::Readings::of(run, look.job))),
        Item::PutBack => Reply::stay(),
        Item::Outcome => Reply::open(Screen::NoPlan(blocked::NoPlan::default())),
        Item::Map => Reply::open(Screen::Map(map::MapScreen::default())),
        Item::Chalk => Reply::open(Screen::Chalk(chalk::Chalk::default())),
        Item::Rule => Reply::open(Screen::Page(Page::of(page::Of::Rule))),
        Item::Cautions => Reply::open(Screen::Page(Page::of(page::Of::Cautions))),
        Item::Checks => {
            let first = page::Of::Checks(page::Asked::FIRST);
            Reply::open(Screen::Page(Page::of(first)))
        }
        Item::Stack => Reply::open(Screen::Packing(packing::PackingScreen::default())),
        Item::Jobs => Reply::open(Screen::Jobs(jobs::Jobs::default())),
        Item::Rods => Reply::open(Screen::Rods(rods::RodsScreen::default())),
    }
}

/// What a line is called.
fn name(item: Item, job: &Job) -> Text {
    match item {
        Item::Field(field) => {
            let which = which(field, job);
            let gap = if which.is_empty() { "" } else { " " };
            text!("{}{gap}{which}", field.kind.about().label)
        }
        Item::Form(form) => pages::title(form, job),
        Item::Entry(list, at) => pages::entry(list, at, job),
        Item::Add(_) => text(ADD),
        Item::NewRun => text("NEW TAPE RUN"),
        Item::Read(_) => text("GO ON READING"),
        Item::Readings(_) => text("READINGS"),
        Item::PutBack => text("PUT BACK"),
        Item::Outcome => text("PLAN, WAYS OUT"),
        Item::Map => text("MAP"),
        Item::Chalk => text("LIST TO CHALK"),
        Item::Rule => text("RULE SAID BACK"),
        Item::Cautions => text("LOOK FIRST"),
        Item::Checks => text("CHECKS"),
        Item::Stack => text("LAYERS"),
        Item::Rods => text("RODS AND CUTS"),
        Item::Jobs => text("JOBS ON THE CARD"),
    }
}

/// The value of a line, in full: keyed, or what stands in.
fn said_of(item: Item, look: Look) -> (Text, Text) {
    let job = look.job;
    match item {
        Item::Field(field) => match field.get(job) {
            Value::Nothing => match usual::said(field, job) {
                Some(usual) => (text("USUAL"), usual),
                None => (Text::new(), text(NOT_KEYED)),
            },
            value => (Text::new(), value_said(field, &value, job)),
        },
        Item::Entry(list, at) => (Text::new(), pages::entry_said(list, at, look)),
        Item::Form(form) => (Text::new(), pages::form_said(form, job)),
        Item::Readings(run) => {
            let count = reading::of_run(job, run).count();
            (Text::new(), text!("{count}"))
        }
        Item::PutBack => (text("DELETED"), Text::new()),
        Item::Outcome => (Text::new(), super::home::planned(look)),
        Item::Cautions => (Text::new(), text!("{}", look.plan.cautions.len())),
        Item::Checks => (text!("OVER"), text!("{}", look.plan.standing.over)),
        Item::Rule | Item::Stack | Item::Rods | Item::Jobs | Item::Map | Item::Chalk => {
            (text("OK: OPENS"), Text::new())
        }
        Item::Add(_) | Item::NewRun | Item::Read(_) => (text("OK: OPENS"), Text::new()),
    }
}

/// A value as the crew reads it.
pub fn value_said(field: Field, value: &Value, job: &Job) -> Text {
    let units = job.units;
    match value {
        Value::Nothing => Text::new(),
        Value::Length(length) => match field.kind.about().sort {
            Sort::Decimal => words::number(amount::in_decimals(*length, units)),
            _ => words::short(*length, units),
        },
        Value::Number(number) => words::number(*number),
        Value::Count(count) => text!("{count}"),
        Value::Choice(choice) => match field.kind.about().sort {
            Sort::Choice(words) => {
                let word = words.get(usize::from(*choice)).copied();
                said(word.unwrap_or(""), job)
            }
            _ => Text::new(),
        },
        Value::Words(words) => words::capitals(words, LINE),
        Value::At(at) => {
            let from = words::hook(at.hook);
            text!("{} {from}", words::short(at.reading, units))
        }
    }
}

/// A word of a choice, with the painted letters in it.
pub fn said(word: &str, job: &Job) -> Text {
    let [first, second] = job.sides;
    match word {
        "FIRST SIDE" => text!("SIDE {}", char::from(first)),
        "SECOND SIDE" => text!("SIDE {}", char::from(second)),
        word => text(word),
    }
}

/// Which end, side or entry a field means: `A`, `N`, `N 2`; empty where it
/// stands once.
pub fn which(field: Field, job: &Job) -> Text {
    let letter = |side: u8| {
        let letter = job.sides.get(usize::from(side)).copied();
        char::from(letter.unwrap_or(b' '))
    };
    let end = |end: u8| if end == 0 { 'A' } else { 'B' };
    match field.kind {
        Kind::Bearing | Kind::PocketDepth | Kind::PocketHeight | Kind::PocketWidth => {
            text!("{}", end(field.index))
        }
        Kind::Letter => text!("{}", field.index + 1),
        Kind::Square => text!("{} {}", letter(field.index / 2), end(field.index % 2)),
        Kind::Outstand => text!("{} {}", letter(field.index / 3), field.index % 3 + 1),
        Kind::JoistDepth
        | Kind::JoistOffset
        | Kind::Subfloor
        | Kind::CountedJoists
        | Kind::WasherSize
        | Kind::WasherShape
        | Kind::WasherThickness => text!("{}", letter(field.index)),
        _ => Text::new(),
    }
}
