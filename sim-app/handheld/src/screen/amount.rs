//! Entering a number: a load, a strength, a count.

use super::{Go, Look, Reply, Screen, sheet};
use crate::edit::Edit;
use crate::field::{Field, Sort, Value};
use crate::key::{Gesture, Holding, Holdings, Key};
use crate::ladder;
use crate::view::{Figure, Touch, View, text};
use crate::words::{HOLD_OK_LEAVES, hint};
use boltbay_core::Job;
use boltbay_core::decimal::Decimal;
use boltbay_core::words::Units;

/// Places behind the point that keys can reach.
const PLACES: u8 = 2;
/// The greatest number: seven digits are shown.
const MOST: i32 = 9_999_999;

/// A number of one field in the making, in hundredths.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Amount {
    field: Field,
    hundredths: Option<i32>,
    touched: bool,
    /// Typed digits, and how many of them stand behind the point.
    typed: Option<(i32, Option<u8>)>,
}

impl Amount {
    /// Starts from what is keyed, or from nothing.
    pub fn of(field: Field, job: &Job) -> Amount {
        let hundredths = match field.get(job) {
            Value::Number(number) => hundredths(number),
            Value::Count(count) => i32::from(count).checked_mul(100),
            _ => None,
        };
        Amount {
            field,
            hundredths,
            touched: hundredths.is_some(),
            typed: None,
        }
    }

    fn counts(&self) -> bool {
        self.field.kind.about().sort == Sort::Count
    }

    /// UP and DOWN 1 (held 0.1), RIGHT and LEFT 10 (held 100).
    pub fn holdings(&self, _: Look) -> Holdings {
        Holdings {
            vertical: Some(Holding::again(ladder::HOLD, 150)),
            left: Some(Holding::again(ladder::HOLD, 167)),
            right: Some(Holding::again(ladder::HOLD, 167)),
            ok: Some(Holding::once(ladder::HOLD_OK)),
        }
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, _look: Look) -> Reply {
        let tenth = if self.counts() { 100 } else { 10 };
        match gesture {
            Gesture::Tap(Key::Up) => self.step(100),
            Gesture::Tap(Key::Down) => self.step(-100),
            Gesture::Tap(Key::Right) => self.step(1000),
            Gesture::Tap(Key::Left) => self.step(-1000),
            Gesture::Hold(Key::Up) => self.step(tenth),
            Gesture::Hold(Key::Down) => self.step(-tenth),
            Gesture::Hold(Key::Right) => self.step(10_000),
            Gesture::Hold(Key::Left) => self.step(-10_000),
            Gesture::Tap(Key::Digit(digit)) => self.digit(digit),
            Gesture::Tap(Key::Separator) => self.point(),
            Gesture::Tap(Key::Ok) => return self.keep(),
            Gesture::Hold(Key::Ok) => {
                let sheet = sheet::Sheet::of(sheet::Of::Field(self.field));
                return Reply::open(Screen::Sheet(sheet));
            }
            Gesture::Hold(Key::Digit(_) | Key::Separator) => {}
        }
        Reply::stay()
    }

    fn step(&mut self, by: i32) {
        let from = self.hundredths.unwrap_or(0);
        self.hundredths = Some(from.saturating_add(by).clamp(0, MOST));
        self.touched = true;
        self.typed = None;
    }

    fn digit(&mut self, digit: u8) {
        let (digits, behind) = self.typed.unwrap_or((0, None));
        let digits = digits
            .saturating_mul(10)
            .saturating_add(i32::from(digit % 10));
        let behind = behind.map(|places| places + 1);
        let shift = match behind.unwrap_or(0) {
            0 => 100,
            1 => 10,
            2 => 1,
            _ => return,
        };
        let value = digits.saturating_mul(shift);
        if value <= MOST {
            self.typed = Some((digits, behind));
            self.hundredths = Some(value);
            self.touched = true;
        }
    }

    fn point(&mut self) {
        if !self.counts() {
            let (digits, behind) = self.typed.unwrap_or((0, None));
            self.typed = Some((digits, behind.or(Some(0))));
        }
    }

    fn keep(&self) -> Reply {
        let Some(hundredths) = self.hundredths else {
            return Reply::stay();
        };
        let value = match self.counts() {
            true => Value::Count(u16::try_from(hundredths / 100).unwrap_or(u16::MAX)),
            false => Value::Number(decimal(hundredths)),
        };
        Reply::edit(Edit::Set(self.field, value), Go::BACK).deaf(300)
    }

    /// What is shown.
    pub fn view(&self, look: Look) -> View {
        let mut view = View::of("number", hint::NUMBER);
        let about = self.field.kind.about();
        view.status.left = text(about.label);
        view.status.right = super::form::which(self.field, look.job);
        let number = decimal(self.hundredths.unwrap_or(0));
        let touch = match (self.hundredths, self.touched) {
            (None, _) => Touch::Empty,
            (_, true) => Touch::Keyed,
            _ => Touch::Suggested,
        };
        view.figure = Some(Figure::number(number, touch));
        let unit = match (about.sort, look.job.units) {
            (Sort::Number(unit, _), Units::Imperial) | (Sort::Number(_, unit), Units::Metric) => {
                unit
            }
            _ => "",
        };
        match unit {
            "" => view.line(HOLD_OK_LEAVES, ""),
            unit => view.line(unit, ""),
        }
        view
    }
}

/// As few places as it takes.
fn decimal(hundredths: i32) -> Decimal {
    match (hundredths % 100, hundredths % 10) {
        (0, _) => Decimal::whole(hundredths / 100),
        (_, 0) => Decimal::new(hundredths / 10, 1),
        _ => Decimal::new(hundredths, PLACES),
    }
}

/// `None` where it has more places than keys can reach.
fn hundredths(number: Decimal) -> Option<i32> {
    match number.places() {
        0 => number.digits().checked_mul(100),
        1 => number.digits().checked_mul(10),
        2 => Some(number.digits()),
        _ => None,
    }
}
