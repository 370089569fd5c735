//! The ladder: every length is keyed on the same four rungs.
//!
//! ```text
//!   UP, DOWN      tap   one tick (what the tape is read to)
//!   RIGHT, LEFT   tap   1/4 in, 5 mm
//!   RIGHT, LEFT   hold  1 in, 10 mm, again and again
//!   UP, DOWN      hold  the next likely place; without places 1 ft, 100 mm
//!   digits              the tail of the number; the suggestion completes it
//! ```
//!
//! In: a suggestion, or none, and gestures. Out: the length as it stands, and
//! whether it was touched. At a tick of 1/8 in, turning back steps 1/16 in.

use crate::key::{Gesture, Holding, Holdings, Key};
use crate::view::{Figure, Touch};
use boltbay_core::length::{Length, Rounding};
use boltbay_core::limits::{Span, TAPE};
use boltbay_core::words::Units;
use heapless::Vec;

/// Milliseconds until an arrow held acts. Practice: the study of entry, an assumption.
pub const HOLD: u32 = 400;
/// Milliseconds until OK held acts. Practice: the same.
pub const HOLD_OK: u32 = 600;

/// Digits that can be typed: feet, inches and sixteenths, two each.
type Digits = Vec<u8, 6, u8>;

/// How far the rungs are apart, and how far they reach.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rungs {
    /// In which units digits and figure are.
    pub units: Units,
    /// UP and DOWN.
    pub tick: Length,
    /// RIGHT and LEFT.
    pub quarter: Length,
    /// RIGHT and LEFT held.
    pub inch: Length,
    /// UP and DOWN held, where there are no likely places.
    pub foot: Length,
    /// Least value.
    pub least: Length,
    /// Greatest value.
    pub most: Length,
}

/// The figure shows two digits of feet, or five of millimetres; and no tape is longer
/// than what a card may say of one.
const MOST: [Length; 2] = [
    Length::from_sixteenths(100 * 12 * 16 - 1),
    Length::from_millimetres(TAPE.counts() / Length::from_millimetres(1).counts()),
];

impl Rungs {
    /// For a tape read to `tick`.
    pub const fn tape(units: Units, tick: Length) -> Rungs {
        let [imperial, metric] = MOST;
        match units {
            Units::Imperial => Rungs {
                units,
                tick,
                quarter: Length::from_sixteenths(4),
                inch: Length::from_inches(1),
                foot: Length::from_inches(12),
                least: Length::ZERO,
                most: imperial,
            },
            Units::Metric => Rungs {
                units,
                tick,
                quarter: Length::from_millimetres(5),
                inch: Length::from_millimetres(10),
                foot: Length::from_millimetres(100),
                least: Length::ZERO,
                most: metric,
            },
        }
    }

    /// For thicknesses and other small lengths: 1/32 in, or 0.1 mm.
    pub const fn fine(units: Units) -> Rungs {
        match units {
            Units::Imperial => Rungs::tape(units, Length::from_sixty_fourths(2)),
            Units::Metric => Rungs {
                quarter: Length::from_millimetres(1),
                ..Rungs::tape(units, Length::from_tenth_millimetres(1))
            },
        }
    }

    /// The same, for a length within these limits: whole ticks of them.
    pub fn within(self, span: Span) -> Rungs {
        let least = span.least.to_multiple(self.tick, Rounding::Up);
        let most = span.most.to_multiple(self.tick, Rounding::Down);
        Rungs {
            least: least.max(-self.most),
            most: most.min(self.most),
            ..self
        }
    }

    /// How keys are held; with likely places, UP and DOWN act once a hold.
    pub const fn holdings(&self, places: bool) -> Holdings {
        let inch = match self.units {
            Units::Imperial => Holding::again(HOLD, 167),
            Units::Metric => Holding::again(HOLD, 100),
        };
        Holdings {
            vertical: Some(match places {
                true => Holding::once(HOLD),
                false => Holding::again(HOLD, 250),
            }),
            left: Some(inch),
            right: Some(inch),
            ok: Some(Holding::once(HOLD_OK)),
        }
    }
}

/// A limit that typed digits are beyond.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beyond {
    /// They are less than this.
    Least(Length),
    /// They are more than this.
    Most(Length),
}

/// A length in the making.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ladder {
    rungs: Rungs,
    /// What was there before any key: `None` for fields that get no suggestion.
    start: Option<Length>,
    /// What stands there now.
    value: Option<Length>,
    touched: bool,
    digits: Digits,
    /// A separator after the digits: 1/32 more.
    and_a_half: bool,
    /// The way of the last tick, and whether ticks are halved since a turn.
    way: Option<Key>,
    halved: bool,
}

impl Ladder {
    /// Starts from a suggestion, shown grey until it is touched, or from nothing.
    pub fn new(rungs: Rungs, start: Option<Length>) -> Ladder {
        // No guess lies where nothing can be keyed.
        let start = start.filter(|start| (rungs.least..=rungs.most).contains(start));
        Ladder {
            rungs,
            start,
            value: start,
            touched: false,
            digits: Digits::new(),
            and_a_half: false,
            way: None,
            halved: false,
        }
    }

    /// The same, but what stands there was keyed before: white.
    pub fn keyed(rungs: Rungs, value: Length) -> Ladder {
        let value = Some(value);
        Ladder {
            touched: true,
            value,
            start: value,
            ..Ladder::new(rungs, None)
        }
    }

    /// The length, once there is one; half-typed digits are none.
    pub fn value(&self) -> Option<Length> {
        match self.digits.is_empty() {
            true => self.value,
            false => self.typed(),
        }
    }

    /// Whether it is more than an untouched suggestion.
    pub fn touched(&self) -> bool {
        self.touched || !self.digits.is_empty()
    }

    /// The rungs.
    pub fn rungs(&self) -> &Rungs {
        &self.rungs
    }

    /// Jumps to a likely place.
    pub fn jump(&mut self, place: Length) {
        self.settle();
        self.value = Some(place);
        self.touched = true;
    }

    /// An arrow or a digit. `false`: the gesture is none of the ladder's.
    pub fn on(&mut self, gesture: Gesture) -> bool {
        match gesture {
            Gesture::Tap(Key::Digit(digit)) => self.digit(digit),
            Gesture::Tap(Key::Separator) => self.and_a_half = !self.digits.is_empty(),
            Gesture::Tap(Key::Left) if self.half_typed() => drop(self.digits.pop()),
            Gesture::Tap(Key::Up) => self.tick(Key::Up),
            Gesture::Tap(Key::Down) => self.tick(Key::Down),
            Gesture::Tap(Key::Right) => self.step(self.rungs.quarter),
            Gesture::Tap(Key::Left) => self.step(-self.rungs.quarter),
            Gesture::Hold(Key::Right) => self.step(self.rungs.inch),
            Gesture::Hold(Key::Left) => self.step(-self.rungs.inch),
            Gesture::Hold(Key::Up) => self.step(self.rungs.foot),
            Gesture::Hold(Key::Down) => self.step(-self.rungs.foot),
            _ => return false,
        }
        true
    }

    fn half_typed(&self) -> bool {
        !self.digits.is_empty() && self.typed().is_none()
    }

    /// One tick; at 1/8 in, half a tick from the first turn on.
    fn tick(&mut self, way: Key) {
        let eighth = Length::from_sixteenths(2);
        self.halved |= self.rungs.tick == eighth && self.way.is_some_and(|before| before != way);
        self.way = Some(way);
        let tick = match self.halved {
            true => Length::from_sixteenths(1),
            false => self.rungs.tick,
        };
        self.step(if way == Key::Up { tick } else { -tick });
    }

    fn step(&mut self, by: Length) {
        self.settle();
        let from = self.value.unwrap_or_default();
        let stepped = from.saturating_add(by);
        self.value = Some(stepped.min(self.rungs.most).max(self.rungs.least));
        self.touched = true;
    }

    /// Typed digits become the value, before an arrow goes on from there.
    fn settle(&mut self) {
        if let Some(typed) = self.typed() {
            self.value = Some(typed);
        }
        self.touched |= !self.digits.is_empty();
        self.digits.clear();
        self.and_a_half = false;
    }

    /// One more digit; after a full number the next begins a new one.
    fn digit(&mut self, digit: u8) {
        let most = match self.rungs.units {
            Units::Imperial => 6,
            Units::Metric => 5,
        };
        if self.digits.len() >= most {
            self.digits.clear();
        }
        self.and_a_half = false;
        let _ = self.digits.push(digit % 10);
    }

    /// What the digits stand for; `None` while they stand for nothing, or for more or
    /// less than may be.
    fn typed(&self) -> Option<Length> {
        let within = self.rungs.least..=self.rungs.most;
        self.spelt().filter(|length| within.contains(length))
    }

    /// The limit that the digits are beyond, if they are.
    pub fn beyond(&self) -> Option<Beyond> {
        match self.spelt()? {
            length if length < self.rungs.least => Some(Beyond::Least(self.rungs.least)),
            length if length > self.rungs.most => Some(Beyond::Most(self.rungs.most)),
            _ => None,
        }
    }

    /// The length that the digits spell.
    fn spelt(&self) -> Option<Length> {
        let number = |digits: &[u8]| digits.iter().fold(0, |n, d| 10 * n + i32::from(*d));
        match self.rungs.units {
            Units::Imperial => self.typed_imperial(number),
            Units::Metric => self.typed_metric(number),
        }
    }

    /// The last two digits are sixteenths; before them inches; before them feet.
    fn typed_imperial(&self, number: impl Fn(&[u8]) -> i32) -> Option<Length> {
        let digits: &[u8] = &self.digits;
        let (whole, sixteenths) = digits.split_at_checked(digits.len().checked_sub(2)?)?;
        let sixteenths = number(sixteenths);
        let half = Length::from_sixty_fourths(2 * i32::from(self.and_a_half));
        let tail = |inches: i32| {
            let part = Length::from_sixteenths(16 * inches + sixteenths);
            (sixteenths < 16).then(|| part.saturating_add(half))
        };
        match whole.len() {
            0 => Some(self.nearest(tail(0)?, Length::from_inches(1))),
            1 | 2 if self.start.is_none() => tail(number(whole)),
            1 | 2 => {
                let inches = number(whole);
                let fits = inches < 12;
                fits.then(|| tail(inches))
                    .flatten()
                    .map(|tail| self.nearest(tail, Length::from_inches(12)))
            }
            _ => {
                let (feet, inches) = whole.split_at_checked(whole.len() - 2)?;
                let inches = number(inches);
                tail(12 * number(feet) + inches).filter(|_| inches < 12)
            }
        }
    }

    /// The last digits of a number of millimetres.
    fn typed_metric(&self, number: impl Fn(&[u8]) -> i32) -> Option<Length> {
        let count = u32::try_from(self.digits.len()).ok().filter(|n| *n > 0)?;
        let tail = Length::from_millimetres(number(&self.digits));
        Some(self.nearest(tail, Length::from_millimetres(10_i32.pow(count))))
    }

    /// The length that ends in `tail`, whole steps before it, nearest to the
    /// suggestion; the tail itself where there is none.
    fn nearest(&self, tail: Length, step: Length) -> Length {
        let Some(start) = self.start else {
            return tail;
        };
        let before = start.saturating_sub(tail);
        let before = before.to_multiple(step, Rounding::Nearest);
        tail.saturating_add(before.max(Length::ZERO))
    }

    /// As it is shown.
    pub fn figure(&self) -> Figure {
        let typed = u8::try_from(self.digits.len()).unwrap_or(0);
        let touch = match (self.value(), self.touched()) {
            (None, _) if self.value.is_none() => Touch::Empty,
            (_, false) => Touch::Suggested,
            _ if typed == 0 => Touch::Keyed,
            _ if self.rungs.units == Units::Metric => Touch::Tail(typed),
            _ => Touch::Tail(typed.div_ceil(2)),
        };
        let length = self.value().or(self.value).unwrap_or_default();
        Figure::length(length, self.rungs.units, touch)
    }

    /// The digits typed so far, while they are not yet a number.
    pub fn half_typed_digits(&self) -> Option<&[u8]> {
        self.half_typed().then_some(self.digits.as_slice())
    }
}
