//! Surveys from a seed: the joists of two sides as a crew would read them.
//!
//! Six families, from new framing to none at all. About 5.5 % doubles, 3.5 %
//! gaps, 2 % strays off the lattice (irregular 0.4 %). The second side is lapped
//! in half of the jobs, butted in a fifth, on its own in the rest. The tape is
//! read to 1/16 (45 %), 1/8 (38 %), both (12 %) or 1/32 (5 %). All shares are
//! assumptions: no field data.

use crate::judges::dice::Dice;
use boltbay_core::length::Length;
use boltbay_core::words::Units;

/// How a floor was framed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Family {
    New,
    Old,
    Walk,
    Irregular,
    MetricNew,
    MetricOld,
}

impl Family {
    pub const ALL: [Family; 6] = [
        Family::New,
        Family::Old,
        Family::Walk,
        Family::Irregular,
        Family::MetricNew,
        Family::MetricOld,
    ];

    pub fn units(self) -> Units {
        match self {
            Family::MetricNew | Family::MetricOld => Units::Metric,
            _ => Units::Imperial,
        }
    }
}

/// What a joist is to whoever reads it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// In its place.
    Plain,
    /// Two side by side.
    Double,
    /// The joist before it is missing.
    AfterGap,
    /// One more between two.
    Stray,
}

/// One reading.
#[derive(Clone, Copy, Debug)]
pub struct Reading {
    pub at: Length,
    pub kind: Kind,
}

/// Both sides of one floor.
pub struct Survey {
    pub units: Units,
    pub sides: [Vec<Reading>; 2],
}

/// Length of the floor, 10 to 30 ft, in thousandths of an inch.
fn span(dice: &mut Dice) -> i64 {
    dice.between(120, 360) * 1000
}

/// About normal: the sum of twelve, in thousandths of an inch.
fn normal(dice: &mut Dice, spread: i64) -> i64 {
    let sum: i64 = (0..12).map(|_| dice.between(-500, 500)).sum();
    sum * spread / 1000
}

const MM: fn(i64) -> i64 = |tenths| tenths * 10_000 / 2540;

/// Usual bay and spread of a family, in thousandths of an inch.
fn bay(family: Family, dice: &mut Dice) -> (i64, i64) {
    let pick = |dice: &mut Dice, all: [i64; 4]| all[dice.between(0, 3) as usize];
    match family {
        Family::New => (pick(dice, [12_000, 16_000, 19_200, 24_000]), 125),
        Family::Old | Family::Walk => {
            let bay = pick(dice, [14_000, 16_000, 16_000, 18_000]);
            let spread = match family {
                Family::Old => dice.between(375, 500),
                _ => dice.between(300, 500),
            };
            (bay, spread)
        }
        Family::Irregular => (16_000, 0),
        Family::MetricNew => (MM(pick(dice, [3000, 4000, 4060, 6000])), MM(30)),
        Family::MetricOld => {
            let bay = MM(pick(dice, [4000, 4000, 4500, 5000]));
            (bay, MM(dice.between(90, 130)))
        }
    }
}

/// True places along one side, in thousandths.
fn places(family: Family, dice: &mut Dice) -> Vec<(i64, Kind)> {
    let end = span(dice);
    let (bay, spread) = bay(family, dice);
    let mut places = Vec::new();
    let mut line = dice.between(3_000, bay - 2_000);
    let stray = if family == Family::Irregular { 4 } else { 20 };
    let mut gap = false;
    while line < end {
        let at = match family {
            Family::Walk | Family::Irregular => line,
            _ => line + normal(dice, spread),
        };
        let roll = dice.between(0, 999);
        if roll < 35 && places.len() > 1 && !gap {
            gap = true;
        } else {
            let kind = match (gap, roll) {
                (true, _) => Kind::AfterGap,
                (_, 35..90) => Kind::Double,
                _ => Kind::Plain,
            };
            gap = false;
            places.push((at, kind));
            if (90..90 + stray).contains(&roll) {
                places.push((at + bay * dice.between(35, 65) / 100, Kind::Stray));
            }
        }
        line += match family {
            Family::Walk => bay + normal(dice, spread),
            Family::Irregular => dice.between(10_000, 22_000),
            _ => bay,
        };
    }
    places
}

/// The step that the reader of this tape reads to, in 1/32 in.
#[derive(Clone, Copy)]
enum Reader {
    Sixteenths,
    Eighths,
    Both,
    ThirtySeconds,
}

fn read(family: Family, reader: Reader, thousandths: i64, dice: &mut Dice) -> Length {
    if family.units() == Units::Metric {
        let mm = (thousandths * 254 + 5_000) / 10_000;
        return Length::from_millimetres(i32::try_from(mm).unwrap());
    }
    let step = match reader {
        Reader::Sixteenths => 2,
        Reader::Eighths => 4,
        Reader::Both => 2 * dice.between(1, 2),
        Reader::ThirtySeconds => 1,
    };
    let thirty_seconds = (thousandths * 32 + 500 * step) / (1000 * step) * step;
    Length::from_sixty_fourths(2 * i32::try_from(thirty_seconds).unwrap())
}

/// The other side of a floor: lapped, butted, or on its own.
fn other(family: Family, first: &[(i64, Kind)], dice: &mut Dice) -> Vec<(i64, Kind)> {
    let spread = match family {
        Family::New => 90,
        Family::MetricNew => MM(20),
        _ => 250,
    };
    let off = match dice.between(0, 9) {
        0..5 => 1_500,
        5..7 => 0,
        _ => return places(family, dice),
    };
    first
        .iter()
        .map(|(at, kind)| (at + off + normal(dice, spread), *kind))
        .collect()
}

impl Survey {
    /// The survey of a seed.
    pub fn of(family: Family, seed: u64) -> Survey {
        let mut dice = Dice::new(seed.wrapping_mul(977).wrapping_add(family as u64));
        let reader = match dice.between(0, 99) {
            0..45 => Reader::Sixteenths,
            45..83 => Reader::Eighths,
            83..95 => Reader::Both,
            _ => Reader::ThirtySeconds,
        };
        let first = places(family, &mut dice);
        let second = other(family, &first, &mut dice);
        let sides = [first, second].map(|side| {
            let mut readings: Vec<Reading> = Vec::new();
            for (at, kind) in side {
                let at = read(family, reader, at, &mut dice);
                // A joist has its thickness: the next begins beyond it.
                let room = Length::from_sixteenths(if kind == Kind::Double { 56 } else { 30 });
                if readings
                    .last()
                    .is_none_or(|last| at > last.at.saturating_add(room))
                {
                    readings.push(Reading { at, kind });
                }
            }
            readings
        });
        let units = family.units();
        Survey { units, sides }
    }
}
