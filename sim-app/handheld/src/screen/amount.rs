//! Entering a number: a load, a strength, a count; or a length in decimals.

use super::{Go, Look, Reply, Screen, sheet};
use crate::edit::Edit;
use crate::field::{Field, Sort, Value};
use crate::key::{Gesture, Holding, Holdings, Key};
use crate::ladder;
use crate::view::{Figure, Touch, View, text};
use crate::words::{HOLD_OK_LEAVES, hint};
use boltbay_core::Job;
use boltbay_core::decimal::Decimal;
use boltbay_core::length::Length;
use boltbay_core::words::Units;

/// Places behind the point that keys can reach.
const PLACES: u8 = 3;
/// The greatest number, in thousandths: nine digits of it.
const MOST: i32 = 999_999_999;

/// Said where 0 is keyed and makes no sense.
const MORE_THAN_ZERO: &str = "MORE THAN 0";

/// A number of one field in the making, in thousandths.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Amount {
    field: Field,
    thousandths: Option<i32>,
    touched: bool,
    /// Typed digits, and how many of them stand behind the point.
    typed: Option<(i32, Option<u8>)>,
}

impl Amount {
    /// Starts from what is keyed, or from nothing.
    pub fn of(field: Field, job: &Job) -> Amount {
        let thousandths = match field.get(job) {
            Value::Number(number) => thousandths(number),
            Value::Count(count) => i32::from(count).checked_mul(1000),
            Value::Length(length) => Some(length.counts() / thousandth(job.units).counts()),
            _ => None,
        };
        Amount {
            field,
            thousandths,
            touched: thousandths.is_some(),
            typed: None,
        }
    }

    fn counts(&self) -> bool {
        self.field.kind.about().sort == Sort::Count
    }

    /// Steps in thousandths: UP and DOWN tapped and held, RIGHT and LEFT too.
    fn steps(&self) -> [i32; 4] {
        match self.field.kind.about().sort {
            Sort::Count => [1000, 1000, 10_000, 100_000],
            Sort::Decimal => [1, 100, 10, 1000],
            _ => [1000, 100, 10_000, 100_000],
        }
    }

    /// The greatest that may be, in thousandths.
    fn most(&self, units: Units) -> i32 {
        let kind = self.field.kind;
        match kind.about().sort {
            Sort::Count => i32::from(kind.counts().1).saturating_mul(1000),
            Sort::Decimal => kind.span().most.counts() / thousandth(units).counts(),
            _ => kind.amounts().most.saturating_mul(1000).min(MOST),
        }
    }

    /// What stands there, as the field takes it; `None` for nothing, and for less than
    /// may be.
    fn value(&self, units: Units) -> Option<Value> {
        let thousandths = self.thousandths?;
        let value = match self.field.kind.about().sort {
            Sort::Count => Value::Count(u16::try_from(thousandths / 1000).unwrap_or(u16::MAX)),
            Sort::Decimal => Value::Length(thousandth(units).checked_mul(thousandths)?),
            _ => Value::Number(decimal(thousandths)),
        };
        self.field.kind.holds(&value).then_some(value)
    }

    /// UP and DOWN run while held, RIGHT and LEFT too.
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
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        let [tap, hold, wide, far] = self.steps();
        let most = self.most(look.job.units);
        match gesture {
            Gesture::Tap(Key::Up) => self.step(tap, most),
            Gesture::Tap(Key::Down) => self.step(-tap, most),
            Gesture::Tap(Key::Right) => self.step(wide, most),
            Gesture::Tap(Key::Left) => self.step(-wide, most),
            Gesture::Hold(Key::Up) => self.step(hold, most),
            Gesture::Hold(Key::Down) => self.step(-hold, most),
            Gesture::Hold(Key::Right) => self.step(far, most),
            Gesture::Hold(Key::Left) => self.step(-far, most),
            Gesture::Tap(Key::Digit(digit)) => self.digit(digit, most),
            Gesture::Tap(Key::Separator) => self.point(),
            Gesture::Tap(Key::Ok) => return self.keep(look.job),
            Gesture::Hold(Key::Ok) => {
                let sheet = sheet::Sheet::of(sheet::Of::Field(self.field));
                return Reply::open(Screen::Sheet(sheet));
            }
            Gesture::Hold(Key::Digit(_) | Key::Separator) => {}
        }
        Reply::stay()
    }

    fn step(&mut self, by: i32, most: i32) {
        let from = self.thousandths.unwrap_or(0);
        self.thousandths = Some(from.saturating_add(by).min(most).max(0));
        self.touched = true;
        self.typed = None;
    }

    fn digit(&mut self, digit: u8, most: i32) {
        let (digits, behind) = self.typed.unwrap_or((0, None));
        let digits = digits
            .saturating_mul(10)
            .saturating_add(i32::from(digit % 10));
        let behind = behind.map(|places| places + 1);
        let shift = match behind.unwrap_or(0) {
            0 => 1000,
            1 => 100,
            2 => 10,
            3 => 1,
            _ => return,
        };
        let value = digits.saturating_mul(shift);
        if value <= most {
            self.typed = Some((digits, behind));
            self.thousandths = Some(value);
            self.touched = true;
        }
    }

    fn point(&mut self) {
        if !self.counts() {
            let (digits, behind) = self.typed.unwrap_or((0, None));
            self.typed = Some((digits, behind.or(Some(0))));
        }
    }

    fn keep(&self, job: &Job) -> Reply {
        match self.value(job.units) {
            Some(value) => Reply::edit(Edit::Set(self.field, value), Go::BACK).deaf(300),
            None => Reply::stay(),
        }
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("number", hint::NUMBER);
        let about = self.field.kind.about();
        view.status.left = text(about.label);
        view.status.right = super::form::which(self.field, look.job);
        let number = decimal(self.thousandths.unwrap_or(0));
        let touch = match (self.thousandths, self.touched) {
            (None, _) => Touch::Empty,
            (_, true) => Touch::Keyed,
            _ => Touch::Suggested,
        };
        view.figure = Some(Figure::number(number, touch));
        let unit = match (about.sort, look.job.units) {
            (Sort::Number(unit, _), Units::Imperial) | (Sort::Number(_, unit), Units::Metric) => {
                unit
            }
            (Sort::Decimal, Units::Imperial) => "INCHES",
            (Sort::Decimal, Units::Metric) => "MM",
            _ => "",
        };
        let is_too_small = self.thousandths.is_some() && self.value(look.job.units).is_none();
        match unit {
            _ if is_too_small => view.line(MORE_THAN_ZERO, unit),
            "" => view.line(HOLD_OK_LEAVES, ""),
            unit => view.line(unit, ""),
        }
    }
}

/// What lengths are keyed in where they are keyed in decimals.
const fn thousandth(units: Units) -> Length {
    match units {
        Units::Imperial => Length::from_thousandths(1),
        Units::Metric => Length::from_counts(Length::from_millimetres(1).counts() / 1000),
    }
}

/// A length as it is keyed in decimals, down to a thousandth.
pub fn in_decimals(length: Length, units: Units) -> Decimal {
    decimal(length.counts() / thousandth(units).counts())
}

/// As few places as it takes.
fn decimal(thousandths: i32) -> Decimal {
    match (thousandths % 1000, thousandths % 100, thousandths % 10) {
        (0, ..) => Decimal::whole(thousandths / 1000),
        (_, 0, _) => Decimal::new(thousandths / 100, 1),
        (.., 0) => Decimal::new(thousandths / 10, 2),
        _ => Decimal::new(thousandths, PLACES),
    }
}

/// `None` where it has more places than keys can reach.
fn thousandths(number: Decimal) -> Option<i32> {
    let shift = match number.places() {
        0 => 1000,
        1 => 100,
        2 => 10,
        3 => 1,
        _ => return None,
    };
    number.digits().checked_mul(shift)
}
