//! Fractions of sticks: whether sticks hold pieces if patterns may be cut in
//! part, and what the pieces are worth if they do not.
//!
//! In: pieces and sticks. Out: values of the lengths that show that the sticks
//! cannot hold the pieces; or the patterns of a fractional solution.
//!
//! Rule: least weight left over, by the revised simplex method with columns
//! found by the knapsack. In floating point; nothing is believed of it: values
//! become a cover in whole numbers, patterns are checked as they are cut.
//! Source: Gilmore and Gomory, A linear programming approach to the
//! cutting-stock problem, Operations Research 9 (1961) 849-859.

use super::fill::{Cuts, LENGTHS};
use super::instance::{Instance, KINDS, at, put};
use super::knapsack::{self, Limits};
use super::select::Counts;
use crate::rods::MOST_LENGTHS;

/// Rows: one a length, one a kind of stick.
const ROWS: usize = LENGTHS + KINDS;
/// What a pivot takes, in steps of the knapsack.
const PIVOT: u32 = 50;
/// Most pivots.
const PIVOTS: u32 = 400;
/// Steps of the search for one pattern.
const PRICING: u32 = 4_000;
/// A pattern is good enough within this of what none exceeds, in 2^-20 of the
/// heaviest piece's value.
const ENOUGH: i64 = 2_000;
/// Values are counted in 2^-20 of the heaviest piece's.
const SCALE: f32 = 1_048_576.0;
/// Prices are taken for fractions with denominators up to this.
const DENOMINATORS: u8 = 120;
/// As far as a price may be off such a fraction, in its denominator.
const SIMPLE: f32 = 0.01;
/// What counts as nothing.
const NOTHING: f32 = 1e-4;

/// A column of the basis.
#[derive(Clone, Copy, Debug)]
enum Column {
    /// A piece of this length left over.
    Left(u8),
    /// A piece of this length too many.
    Over(u8),
    /// A stick of this row not used.
    Unused(u8),
    /// A stick of this row, cut so.
    Cut(u8, Cuts),
}

/// What came of it.
#[derive(Clone, Copy, Debug)]
pub(super) enum Relaxed {
    /// At these values the pieces are worth more than the sticks can hold.
    Short([u32; MOST_LENGTHS]),
    /// The sticks hold the pieces, in fractions.
    Fits,
    /// Neither, within the pivots allowed.
    Unclear,
}

/// How a step goes on.
enum Next {
    /// This column enters the basis.
    Enters(Column),
    /// The pieces are worth more than the sticks can hold.
    Short,
    /// No column gains.
    Nothing,
}

/// The basis.
#[derive(Clone, Debug)]
pub(super) struct Basis {
    inverse: [[f32; ROWS]; ROWS],
    level: [f32; ROWS],
    column: [Column; ROWS],
    /// Kind of stick of each row from `lengths` on.
    kind: [u8; KINDS],
    lengths: usize,
    rows: usize,
    /// Steps of the knapsack so far, and as much for each pivot as it takes.
    work: u32,
}

impl Basis {
    pub(super) const fn new() -> Self {
        Basis {
            inverse: [[0.0; ROWS]; ROWS],
            level: [0.0; ROWS],
            column: [Column::Left(0); ROWS],
            kind: [0; KINDS],
            lengths: 0,
            rows: 0,
            work: 0,
        }
    }

    /// Steps taken since the last time this was asked.
    pub(super) fn work(&mut self) -> u32 {
        core::mem::take(&mut self.work)
    }

    /// Patterns of the fractional solution, with their kind of stick and how
    /// many sticks are cut so.
    pub(super) fn patterns(&self) -> impl Iterator<Item = (usize, Cuts, f32)> {
        let all = self.column.iter().zip(&self.level).take(self.rows);
        all.filter_map(|(column, &level)| match *column {
            Column::Cut(row, cuts) => {
                let kind = usize::from(row).checked_sub(self.lengths)?;
                Some((usize::from(at(&self.kind, kind)), cuts, level))
            }
            _ => None,
        })
    }

    /// Whether `counts` sticks hold the pieces `left`, in fractions.
    pub(super) fn relax(&mut self, instance: &Instance, left: &Cuts, counts: &Counts) -> Relaxed {
        self.start(instance, left, counts);
        for _ in 0..PIVOTS {
            if self.left_over(instance) < NOTHING {
                return Relaxed::Fits;
            }
            let price = self.prices(instance);
            let values = Values::of(&price, self.lengths);
            match self.entering(instance, left, counts, &price, &values) {
                Next::Short => return Relaxed::Short(values.value),
                Next::Enters(column) if self.pivot(&column) => {}
                _ => return Relaxed::Unclear,
            }
        }
        Relaxed::Unclear
    }

    /// All pieces left over, no stick used.
    fn start(&mut self, instance: &Instance, left: &Cuts, counts: &Counts) {
        self.lengths = instance.lengths;
        self.rows = self.lengths;
        self.inverse = [[0.0; ROWS]; ROWS];
        for (length, &pieces) in left.iter().enumerate().take(self.lengths) {
            put(&mut self.level, length, f32::from(pieces));
            put(&mut self.column, length, Column::Left(length as u8));
        }
        for (kind, &count) in counts.iter().enumerate().filter(|&(_, &count)| count > 0) {
            put(&mut self.kind, self.rows - self.lengths, kind as u8);
            put(&mut self.level, self.rows, count as f32);
            put(&mut self.column, self.rows, Column::Unused(self.rows as u8));
            self.rows += 1;
        }
        for (row, line) in self.inverse.iter_mut().enumerate() {
            put(line, row, 1.0);
        }
    }

    /// Weight left over, in the heaviest piece's.
    fn left_over(&self, instance: &Instance) -> f32 {
        let all = self.column.iter().zip(&self.level).take(self.rows);
        all.map(|(column, level)| cost(instance, column) * level)
            .sum()
    }

    /// What one more piece of a length, or one more stick of a row, costs.
    fn prices(&self, instance: &Instance) -> [f32; ROWS] {
        let mut price = [0.0; ROWS];
        for (column, line) in self.column.iter().zip(&self.inverse).take(self.rows) {
            let cost = cost(instance, column);
            if cost > 0.0 {
                for (price, entry) in price.iter_mut().zip(line) {
                    *price += cost * entry;
                }
            }
        }
        price
    }

    /// The column that gains most, unless the values show that the sticks are
    /// short.
    fn entering(
        &mut self,
        instance: &Instance,
        left: &Cuts,
        counts: &Counts,
        price: &[f32; ROWS],
        values: &Values,
    ) -> Next {
        let mut best = self.simple(instance, price);
        let mut most = [0; MOST_LENGTHS];
        for (slot, &left) in most.iter_mut().zip(left) {
            *slot = u32::from(left);
        }
        let mut held = 0_i64;
        for row in self.lengths..self.rows {
            let kind = usize::from(at(&self.kind, row - self.lengths));
            let room = instance.kind.get(kind).map_or(0, |kind| kind.room());
            let limits = Limits {
                floor: ((-at(price, row)).max(0.0) * values.scale + SIMPLE) as i64,
                enough: values.enough,
                steps: PRICING,
            };
            let found = knapsack::best(&values.value, &instance.weight, &most, room, limits);
            self.work = self.work.saturating_add(found.steps);
            held += found.upper.saturating_mul(i64::from(at(counts, kind)));
            // The price of a stick is never positive.
            let gain = found.value as f32 / values.scale + at(price, row);
            if gain > best.map_or(NOTHING, |(gain, _)| gain) {
                let mut cuts = [0; LENGTHS];
                for (cut, taken) in cuts.iter_mut().zip(found.pattern) {
                    *cut = taken;
                }
                best = Some((gain, Column::Cut(row as u8, cuts)));
            }
        }
        let worth = values.value.iter().zip(left);
        let worth: i64 = worth
            .map(|(&value, &left)| i64::from(value) * i64::from(left))
            .sum();
        if worth > held {
            return Next::Short;
        }
        best.map_or(Next::Nothing, |(_, column)| Next::Enters(column))
    }

    /// The best of the columns that are no patterns.
    fn simple(&self, instance: &Instance, price: &[f32; ROWS]) -> Option<(f32, Column)> {
        let mut best: Option<(f32, Column)> = None;
        let mut offer = |gain: f32, column: Column| {
            if gain > best.map_or(NOTHING, |(gain, _)| gain) {
                best = Some((gain, column));
            }
        };
        for (row, &price) in price.iter().enumerate().take(self.rows) {
            if row < self.lengths {
                let piece = Column::Left(row as u8);
                offer(price - cost(instance, &piece), piece);
                offer(-price, Column::Over(row as u8));
            } else {
                offer(price, Column::Unused(row as u8));
            }
        }
        best
    }

    /// Brings a column into the basis; false where nothing limits it.
    fn pivot(&mut self, entering: &Column) -> bool {
        self.work = self.work.saturating_add(PIVOT);
        let mut direction = [0.0; ROWS];
        for (slot, line) in direction.iter_mut().zip(&self.inverse).take(self.rows) {
            *slot = self.along(entering, line);
        }
        let mut leaving: Option<(usize, f32)> = None;
        for (row, (&direction, &level)) in direction
            .iter()
            .zip(&self.level)
            .enumerate()
            .take(self.rows)
        {
            let ratio = level.max(0.0) / direction;
            if direction > NOTHING && leaving.is_none_or(|(_, least)| ratio < least) {
                leaving = Some((row, ratio));
            }
        }
        let Some((leaving, _)) = leaving else {
            return false;
        };
        let by = at(&direction, leaving);
        let pivot_level = at(&self.level, leaving) / by;
        let mut pivot_line = at(&self.inverse, leaving);
        for entry in &mut pivot_line {
            *entry /= by;
        }
        let lines = self.inverse.iter_mut().zip(&mut self.level).zip(&direction);
        for ((line, level), &direction) in lines.take(self.rows) {
            *level -= direction * pivot_level;
            for (entry, pivot) in line.iter_mut().zip(&pivot_line) {
                *entry -= direction * pivot;
            }
        }
        put(&mut self.inverse, leaving, pivot_line);
        put(&mut self.level, leaving, pivot_level);
        put(&mut self.column, leaving, *entering);
        true
    }

    /// A column times a line of the inverse.
    fn along(&self, column: &Column, line: &[f32; ROWS]) -> f32 {
        match *column {
            Column::Left(row) | Column::Unused(row) => at(line, usize::from(row)),
            Column::Over(row) => -at(line, usize::from(row)),
            Column::Cut(row, cuts) => {
                let pieces = cuts.iter().zip(line).take(self.lengths);
                let pieces: f32 = pieces.map(|(&cut, entry)| f32::from(cut) * entry).sum();
                pieces + at(line, usize::from(row))
            }
        }
    }
}

/// What a column costs: the weight of a piece left over.
fn cost(instance: &Instance, column: &Column) -> f32 {
    match *column {
        Column::Left(length) => {
            let [heaviest, ..] = instance.weight;
            at(&instance.weight, usize::from(length)) as f32 / heaviest.max(1) as f32
        }
        _ => 0.0,
    }
}

/// Prices of the lengths in whole numbers.
struct Values {
    value: [u32; MOST_LENGTHS],
    /// Value of what costs 1.
    scale: f32,
    /// A pattern this near to what none exceeds is good enough.
    enough: i64,
}

impl Values {
    /// As small numbers as the prices allow: prices are mostly simple fractions
    /// of one another, and then bounds on patterns are sharp.
    fn of(price: &[f32; ROWS], lengths: usize) -> Values {
        let most = price
            .iter()
            .take(lengths)
            .fold(0.0, |most: f32, &price| most.max(price));
        let simple = (1_u8..=DENOMINATORS)
            .map(|times| f32::from(times) / most)
            .find(|scale| {
                let mut off = price.iter().take(lengths).map(|&price| {
                    let scaled = price.max(0.0) * scale;
                    (scaled - (scaled + 0.5) as i64 as f32).abs()
                });
                off.all(|off| off < SIMPLE)
            });
        let (scale, enough) = match simple {
            Some(scale) if most > NOTHING => (scale, 0),
            _ => (SCALE, ENOUGH),
        };
        let mut value = [0; MOST_LENGTHS];
        for (value, price) in value.iter_mut().zip(price).take(lengths) {
            *value = (price.max(0.0) * scale + 0.5) as u32;
        }
        Values {
            value,
            scale,
            enough,
        }
    }
}
