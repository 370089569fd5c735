//! Guesses: what the next joist of a run will read.
//!
//! In: the readings of the run so far, and the joists of the other side as this
//! tape would read them. Out: the likeliest reading, rounded to the tick, and
//! the other likely places along the beam. Integer arithmetic, no memory: the
//! same readings give the same guess, also after one was corrected.
//!
//! Four experts, and each is judged by how far off it was along this run:
//! 0 the last reading and the median bay; 1 a lattice laid through the last ten
//! by least squares, strays left out; 2 the other side's next joist and the
//! median offset of the last five pairs; 3 both of these, each by its spread,
//! where they agree. The one with the least running error speaks.

use boltbay_core::defaults;
use boltbay_core::frame::Datum;
use boltbay_core::job::{Edge, JOISTS, Job};
use boltbay_core::joists::Joists;
use boltbay_core::length::{Length, Rounding};
use boltbay_core::list::Listed;
use boltbay_core::tape::Tape;
use boltbay_core::words::{End, Side, Units};
use heapless::Vec;

/// Readings in counts, in the order of the tape. There may be many: as small as a
/// length is.
type Readings = Vec<i32, JOISTS, u8>;

/// A joist of the other side as this tape would read it, and its number.
type Others = Vec<(i32, u8), JOISTS, u8>;

/// Where a likely place comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Source {
    /// The last reading and the usual bay.
    UsualBay,
    /// The lattice of this run.
    Lattice,
    /// The other side's joist of this number, and the usual offset.
    Like(u8),
    /// The lattice and the other side agree.
    Both,
    /// Half a bay back.
    HalfBack,
    /// So many bays beyond the usual one.
    Bays(u8),
    /// A first reading: nothing to go by but the usual bay.
    First,
}

/// A likely place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// What the tape would read.
    pub at: Length,
    /// Why.
    pub source: Source,
}

/// The likeliest reading, and all likely places along the beam.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Guess {
    /// The likeliest.
    pub best: Place,
    /// All of them, sorted along the tape, each reading once.
    pub places: Vec<Place, 8, u8>,
}

impl Guess {
    /// The first place beyond `from`, or before it.
    pub fn next(&self, from: Length, beyond: bool) -> Option<Place> {
        match beyond {
            true => self.places.iter().find(|place| place.at > from),
            false => self.places.iter().rev().find(|place| place.at < from),
        }
        .copied()
    }
}

/// Before anything is known of an expert, it is taken to be so far off; no miss
/// counts more than the cap. Practice: fitted to invented surveys.
struct Trust {
    priors: [i64; 4],
    cap: i64,
    /// A spread is never taken to be less: the tape's own.
    least_spread: i64,
}

fn trust(units: Units) -> Trust {
    let inch = |thousandths: i32| i64::from(Length::from_thousandths(thousandths).counts());
    let mm = |mm: i32| i64::from(Length::from_millimetres(mm).counts());
    match units {
        Units::Imperial => Trust {
            priors: [inch(1250), inch(1130), inch(940), inch(880)],
            cap: inch(1500),
            least_spread: inch(63),
        },
        Units::Metric => Trust {
            priors: [mm(30), mm(27), mm(22), mm(21)],
            cap: mm(38),
            least_spread: mm(1),
        },
    }
}

/// A bay where no reading says otherwise: 16 in, 400 mm.
/// Practice: the commonest spacing; no source.
const fn usual_bay(units: Units) -> Length {
    match units {
        Units::Imperial => Length::from_inches(16),
        Units::Metric => Length::from_millimetres(400),
    }
}

/// The guess for the reading at place `at` of run `run` (counted within the
/// run): the next one where there are only `at` readings.
#[inline(never)]
pub fn guess(job: &Job, joists: &Joists, run: u8, at: usize) -> Option<Guess> {
    let keyed = job.runs.get(usize::from(run))?;
    let units = job.units;
    let of_run = job.joists.iter().filter(|joist| joist.run == run);
    let readings = of_run.take(at).map(|joist| joist.reading.counts());
    let own: Readings = readings.listed();
    let tick = defaults::read_to(job, keyed);
    let mut others = Others::new();
    list_others(job, joists, run, &mut others);
    let bay = bay(&own, &others, units);
    let known = Known {
        others: &others,
        bay,
        trust: trust(units),
    };
    let told = known.all(&own);
    let best = known.best(&own, &told);
    let rounded = |at: i64| held(at.max(0)).to_multiple(tick, Rounding::Nearest);
    let number_of = |at: i64| {
        let nearest = others
            .iter()
            .min_by_key(|(reading, _)| (i64::from(*reading) - at).abs());
        nearest.map_or(0, |(_, number)| *number)
    };
    let source = |expert: usize, at: i64| match expert {
        _ if own.is_empty() && others.is_empty() => Source::First,
        0 => Source::UsualBay,
        1 => Source::Lattice,
        2 => Source::Like(number_of(at)),
        _ => Source::Both,
    };
    let (expert, at) = best;
    let best = Place {
        at: rounded(at),
        source: source(expert, at),
    };
    let mut places = Vec::new();
    add(&mut places, best);
    for (expert, told) in told.iter().enumerate() {
        if let Some(at) = told {
            let (at, source) = (rounded(*at), source(expert, *at));
            add(&mut places, Place { at, source });
        }
    }
    let last = own.last().copied().unwrap_or(0);
    let ahead = best.at.counts();
    let beyond =
        |bays: i64| held(i64::from(ahead) + bays * bay).to_multiple(tick, Rounding::Nearest);
    let half = held(i64::from(ahead) - bay / 2).to_multiple(tick, Rounding::Nearest);
    if half.counts() > last {
        let source = Source::HalfBack;
        add(&mut places, Place { at: half, source });
    }
    for bays in 1..=3 {
        let source = Source::Bays(bays);
        let at = beyond(i64::from(bays));
        add(&mut places, Place { at, source });
    }
    places.sort_unstable_by_key(|place| place.at);
    Some(Guess { best, places })
}

/// One more place, unless that reading is there already.
fn add(places: &mut Vec<Place, 8, u8>, place: Place) {
    if places.iter().all(|there| there.at != place.at) {
        let _ = places.push(place);
    }
}

/// Lists the other side's joists as this tape would read them, in its order.
#[inline(never)]
fn list_others(job: &Job, joists: &Joists, run: u8, others: &mut Others) {
    let Some(run) = job.runs.get(usize::from(run)) else {
        return;
    };
    let tape = Datum::of(job).and_then(|datum| Tape::of(run, &datum));
    let Ok(tape) = tape else { return };
    let side: Side = run.side.other();
    for joist in joists.iter().filter(|joist| joist.side == side) {
        let near = match tape.toward {
            End::B => (joist.from, joist.to),
            End::A => (joist.to, joist.from),
        };
        let edge = match run.edge {
            Edge::Near => near.0,
            Edge::Far => near.1,
            Edge::Centre => held(joist.centre_twice() / 2),
        };
        // What lies behind the hook this tape cannot read.
        let reading = tape
            .should_read(edge)
            .filter(|reading| *reading >= Length::ZERO);
        if let Some(reading) = reading {
            let _ = others.push((reading.counts(), joist.number));
        }
    }
    others.sort_unstable();
}

/// What is known besides the readings of the run.
struct Known<'a> {
    others: &'a [(i32, u8)],
    bay: i64,
    trust: Trust,
}

/// What the four experts say, each where it can.
type Told = [Option<i64>; 4];

impl Known<'_> {
    /// What all experts say after these readings.
    fn all(&self, own: &[i32]) -> Told {
        let lattice = self.lattice(own);
        let like = self.like(own);
        let both = lattice.zip(like).and_then(|(one, other)| blend(one, other));
        let usual = own.last().map(|last| i64::from(*last) + self.bay);
        let first = match (own.is_empty(), self.others.first()) {
            (true, Some((first, _))) => Some(i64::from(*first)),
            (true, None) => Some(self.bay),
            _ => None,
        };
        [
            usual.or(first),
            lattice.map(|told| told.at),
            like.map(|told| told.at),
            both,
        ]
    }

    /// The expert with the least running error along the run, and what it says.
    fn best(&self, own: &[i32], told: &Told) -> (usize, i64) {
        let mut errors = self.trust.priors;
        for (at, actual) in own.iter().enumerate().skip(1) {
            let before = self.all(own.get(..at).unwrap_or_default());
            for (error, told) in errors.iter_mut().zip(before) {
                if let Some(told) = told {
                    let miss = (told - i64::from(*actual)).abs().min(self.trust.cap);
                    *error = (7 * *error + 3 * miss) / 10;
                }
            }
        }
        let speaks = told.iter().zip(errors).enumerate();
        let speaks = speaks.filter_map(|(expert, (told, error))| Some((error, expert, (*told)?)));
        let best = speaks.min_by_key(|(error, expert, _)| (*error, 3 - expert));
        best.map_or((0, self.bay), |(_, expert, at)| (expert, at))
    }

    /// A straight line through the last ten, by bay number; strays are left out
    /// and the line is laid again.
    #[inline(never)]
    fn lattice(&self, own: &[i32]) -> Option<Spoken> {
        let last = own.get(own.len().saturating_sub(10)..)?;
        if last.len() < 3 {
            return None;
        }
        let mut points: Vec<(i64, i64), 10, u8> = Vec::new();
        let mut number = 0;
        let mut before = i64::from(*last.first()?);
        for reading in last.iter().map(|reading| i64::from(*reading)) {
            let bays = (reading - before + self.bay / 2).div_euclid(self.bay.max(1));
            number += if points.is_empty() { 0 } else { bays.max(1) };
            before = reading;
            let _ = points.push((number, reading));
        }
        let next = number + 1;
        let line = Line::through(&points)?;
        let mut off: Vec<i64, 10, u8> = points.iter().map(|p| line.off(*p).abs()).listed();
        let usual = median(&mut off)?.max(self.trust.least_spread);
        let kept: Vec<(i64, i64), 10, u8> = points
            .iter()
            .filter(|point| line.off(**point).abs() <= 3 * usual)
            .copied()
            .listed();
        let line = Line::through(&kept).unwrap_or(line);
        let squares: i64 = kept.iter().map(|p| line.off(*p).pow(2) / 4096).sum();
        let spread = squares / i64::try_from(kept.len().max(1)).ok()? + self.least_square();
        Some(Spoken {
            at: line.at(next),
            spread,
        })
    }

    /// The other side's next joist and the median offset of the last five pairs.
    #[inline(never)]
    fn like(&self, own: &[i32]) -> Option<Spoken> {
        let mut offsets: Vec<i64, 5, u8> = Vec::new();
        for reading in own.iter().rev().map(|reading| i64::from(*reading)) {
            let off = reading - self.nearest(reading)?;
            // Farther off than half a bay, it has no partner.
            if 2 * off.abs() < self.bay && offsets.push(off).is_err() {
                break;
            }
        }
        let mut sorted = offsets.clone();
        let offset = median(&mut sorted).unwrap_or(0);
        let last = own.last().copied().map(i64::from);
        let passed = |other: i64| last.is_some_and(|last| other + offset <= last + self.bay / 4);
        let next = self.other(self.before(passed))?;
        let squares: i64 = offsets.iter().map(|o| (o - offset).pow(2) / 4096).sum();
        let count = i64::try_from(offsets.len().max(1)).ok()?;
        Some(Spoken {
            at: next + offset,
            spread: squares / count + self.least_square(),
        })
    }

    /// The other side's joist of this place along the tape.
    fn other(&self, place: usize) -> Option<i64> {
        self.others.get(place).map(|(other, _)| i64::from(*other))
    }

    /// How many of them are `before`: they come first.
    fn before(&self, before: impl Fn(i64) -> bool) -> usize {
        self.others
            .partition_point(|(other, _)| before(i64::from(*other)))
    }

    /// The nearest of them, the nearer to the hook of two.
    fn nearest(&self, at: i64) -> Option<i64> {
        let place = self.before(|other| other < at);
        let nearer = place.checked_sub(1).and_then(|place| self.other(place));
        let farther = self.other(place);
        match (nearer, farther) {
            (Some(nearer), Some(farther)) if farther - at < at - nearer => Some(farther),
            (nearer, farther) => nearer.or(farther),
        }
    }

    fn least_square(&self) -> i64 {
        self.trust.least_spread.pow(2) / 4096
    }
}

/// What an expert says and how far that may be off: a variance, in 64 counts
/// squared, so that nothing overflows.
#[derive(Clone, Copy)]
struct Spoken {
    at: i64,
    spread: i64,
}

/// Two opinions by their spreads, if they agree within three of them.
fn blend(one: Spoken, other: Spoken) -> Option<i64> {
    let apart = (one.at - other.at) / 64;
    let sum = (one.spread + other.spread).max(1);
    if apart.pow(2) > 9 * sum {
        return None;
    }
    let weighed = i128::from(one.at) * i128::from(other.spread)
        + i128::from(other.at) * i128::from(one.spread);
    i64::try_from(weighed.div_euclid(i128::from(sum))).ok()
}

/// A line through numbered readings: means, and a slope as a fraction.
#[derive(Clone, Copy)]
struct Line {
    count: i64,
    numbers: i64,
    readings: i64,
    over: i64,
    under: i64,
}

impl Line {
    /// By least squares; `None` below two different numbers.
    fn through(points: &[(i64, i64)]) -> Option<Line> {
        let count = i64::try_from(points.len()).ok()?;
        let sum = |of: fn(&(i64, i64)) -> i64| points.iter().map(of).sum::<i64>();
        let (numbers, readings) = (sum(|p| p.0), sum(|p| p.1));
        let under = count * sum(|p| p.0 * p.0) - numbers * numbers;
        let over = count * sum(|p| p.0 * p.1) - numbers * readings;
        (under > 0).then_some(Line {
            count,
            numbers,
            readings,
            over,
            under,
        })
    }

    /// The reading at a number, rounded down.
    fn at(&self, number: i64) -> i64 {
        let along = self.count * number - self.numbers;
        // All but absurd readings fit, and divide ten times as fast.
        let narrow = || {
            let rise = self
                .over
                .checked_mul(along)?
                .checked_div_euclid(self.under)?;
            self.readings
                .checked_add(rise)?
                .checked_div_euclid(self.count)
        };
        narrow().unwrap_or_else(|| {
            let rise = i128::from(self.over) * i128::from(along);
            let rise = rise.div_euclid(i128::from(self.under));
            let sum = i128::from(self.readings) + rise;
            i64::try_from(sum.div_euclid(i128::from(self.count))).unwrap_or(0)
        })
    }

    fn off(&self, (number, reading): (i64, i64)) -> i64 {
        reading - self.at(number)
    }
}

/// The usual bay: the median of this run's, of the other side's, or 16 in.
#[inline(never)]
fn bay(own: &[i32], others: &[(i32, u8)], units: Units) -> i64 {
    let mut bays = Readings::new();
    let own = own.iter().copied();
    let usual = median_step(own, &mut bays)
        .or_else(|| median_step(others.iter().map(|(other, _)| *other), &mut bays));
    i64::from(usual.unwrap_or(usual_bay(units).counts()))
}

/// The lower median of the steps ahead, each of which is noted in `steps` for that.
fn median_step(mut readings: impl Iterator<Item = i32>, steps: &mut Readings) -> Option<i32> {
    let mut before = readings.next()?;
    for reading in readings {
        let step = reading.saturating_sub(before);
        if step > 0 {
            let _ = steps.push(step);
        }
        before = reading;
    }
    median(steps)
}

/// The lower median.
fn median<T: Ord + Copy>(values: &mut [T]) -> Option<T> {
    values.sort_unstable();
    values.get(values.len().checked_sub(1)? / 2).copied()
}

/// Counts that may be beyond any length.
fn held(counts: i64) -> Length {
    let most = i64::from(i32::MAX);
    let counts = counts.clamp(-most, most);
    Length::from_counts(i32::try_from(counts).unwrap_or(i32::MAX))
}
