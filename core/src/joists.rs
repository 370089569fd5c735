//! Joists as they stand beside the beam: two faces each, from the raw readings.
//!
//! In: a job. Out: joists sorted from end A on each side over all runs of that
//! side, how each run closes, cautions. Raw readings are the only thing kept: a
//! corrected hook, edge, burn, thickness, bearing, clear distance or length
//! re-reads all of them.

mod middle;
mod pairs;
mod proof;
mod sides;
mod slips;

use crate::caution::{self, Caution, Cautions};
use crate::defaults;
use crate::frame::{Datum, FrameError};
use crate::job::{HangerRef, Job, JoistReading};
use crate::length::Length;
use crate::plan::Missing;
use crate::tape::Tape;
use crate::words::{End, Side};
use heapless::Vec;

pub use slips::{Slip, Slips, slips};

/// One joist. Faces are stations of the beam as it ended up: row `placed` is
/// already taken off, because joists stay with the house.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Joist {
    /// Face toward A, rounded out (down) where a half thickness is no count.
    pub from: Length,
    /// Face toward B, rounded out (up).
    pub to: Length,
    /// Metal of its hanger beyond each face; 0 for `none`.
    pub metal: Length,
    /// Its side.
    pub side: Side,
    /// Counted from end A on its side, from 1.
    pub number: u8,
    /// Index into [`crate::Job::joists`].
    pub reading: u8,
}

impl Joist {
    /// Twice the station of its centre, in counts: exact.
    pub fn centre_twice(&self) -> i64 {
        i64::from(self.from.counts()) + i64::from(self.to.counts())
    }

    /// Height of its hanger from the seat; `None` = counts in every row.
    pub fn hanger_height(&self, job: &Job) -> Option<Length> {
        let reading = job.joists.get(usize::from(self.reading))?;
        defaults::hanger_height(job, reading.hanger)
    }
}

/// All joists, side N then side S, each sorted by station.
pub type Joists = Vec<Joist, { crate::job::JOISTS }, u8>;

/// How a run closes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct RunReport {
    /// Index into [`crate::Job::runs`].
    pub run: u8,
    /// Its side.
    pub side: Side,
    /// On its side, from 1.
    pub number: u8,
    /// Worst of what was read less what should be read; `None` = never checked.
    pub misclosure: Option<Length>,
    /// Allowed, for the distance of the worst check.
    pub tolerance: Option<Length>,
    /// Within tolerance; `None` = never checked.
    pub ok: Option<bool>,
    /// Row `override` lets it stand.
    pub overridden: bool,
}

/// Reports of all runs in card order.
pub type RunReports = Vec<RunReport, { 2 * crate::job::RUNS_A_SIDE }, u8>;

/// Why readings give no joist, or a check no proof.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum JoistProblem {
    /// The walls and the steel contradict each other.
    Frame(FrameError),
    /// What a run hangs on has no station.
    RunUnhooked {
        /// Its side.
        side: Side,
        /// On its side, from 1.
        run: u8,
        /// What its hook lacks.
        why: FrameError,
    },
    /// The known point of a check or close has no station.
    PointUnknown {
        /// Side of the run.
        side: Side,
        /// On its side, from 1.
        run: u8,
        /// What the point lacks.
        why: FrameError,
    },
    /// A close in a run without a joist to close from.
    CloseWithoutJoist {
        /// Side of the run.
        side: Side,
        /// On its side, from 1.
        run: u8,
    },
    /// A reading that lies beyond any length.
    ReadingTooLong {
        /// Side of the run.
        side: Side,
        /// On its side, from 1.
        run: u8,
        /// The reading.
        reading: Length,
    },
    /// A joist with no thickness, or less.
    NoThickness {
        /// Side of the run.
        side: Side,
        /// On its side, from 1.
        run: u8,
        /// Its reading.
        reading: Length,
    },
    /// A joist whose hanger is no row of the card.
    HangerUnknown {
        /// Index into [`crate::Job::joists`].
        joist: u8,
        /// The index that is no row.
        hanger: u8,
    },
    /// A reading, check or close of no run.
    NoRun,
}

impl JoistProblem {
    /// The kind of row that would mend it; `None` where a row is wrong, not
    /// missing.
    pub fn missing(self, job: &Job) -> Option<Missing> {
        let (JoistProblem::Frame(why)
        | JoistProblem::RunUnhooked { why, .. }
        | JoistProblem::PointUnknown { why, .. }) = self
        else {
            return None;
        };
        let [wall_a, _] = job.walls;
        match why {
            FrameError::NoBeam => Some(Missing::Row("beam")),
            FrameError::NoWall(End::B) if wall_a.is_some() || job.beam.is_none() => {
                Some(Missing::Row("clear"))
            }
            FrameError::NoWall(_) => Some(Missing::Row("wall")),
            _ => None,
        }
    }
}

/// Reads all runs of a job: joists, reports of runs, cautions about both. The
/// cautions of the frame itself are those of [`crate::frame::Frame::cautions`].
///
/// Runs that can be read are read even where others cannot.
///
/// # Errors
/// The first problem found, in card order: runs and joists, then checks.
pub fn read(
    job: &Job,
    joists: &mut Joists,
    reports: &mut RunReports,
    cautions: &mut Cautions,
) -> Result<(), JoistProblem> {
    joists.clear();
    reports.clear();
    let datum = Datum::of(job).map_err(JoistProblem::Frame)?;
    if job.runs.iter().any(|run| datum.assumes_face_a(run.hook)) {
        caution::add(cautions, Caution::CountedFromWallA);
    }
    let readings = gather(job, &datum, joists);
    sort_and_number(joists);
    let proofs = proof::prove(job, &datum, reports, cautions);
    sides::look(job, &datum, joists, cautions);
    pairs::look(job, joists, cautions);
    readings.and(proofs)
}

/// Faces and hangers of all joists, unsorted.
fn gather(job: &Job, datum: &Datum, joists: &mut Joists) -> Result<(), JoistProblem> {
    let mut outcome = Ok(());
    for (run, _) in (0_u8..).zip(&job.runs) {
        if let Err(problem) = tape_of(job, datum, run) {
            outcome = outcome.and(Err(problem));
        }
    }
    for (index, reading) in (0_u8..).zip(&job.joists) {
        match joist(job, datum, index, reading) {
            Ok(joist) => {
                let _ = joists.push(joist);
            }
            Err(problem) => outcome = outcome.and(Err(problem)),
        }
    }
    outcome
}

/// The tape of one run, with its problem named.
fn tape_of(job: &Job, datum: &Datum, run: u8) -> Result<Tape, JoistProblem> {
    let keyed = job.runs.get(usize::from(run)).ok_or(JoistProblem::NoRun)?;
    Tape::of(keyed, datum).map_err(|why| JoistProblem::RunUnhooked {
        side: keyed.side,
        run: number(job, run),
        why,
    })
}

/// One joist from one reading.
fn joist(
    job: &Job,
    datum: &Datum,
    index: u8,
    reading: &JoistReading,
) -> Result<Joist, JoistProblem> {
    let tape = tape_of(job, datum, reading.run)?;
    let side = side_of(job, reading.run)?;
    let run = number(job, reading.run);
    let thickness = defaults::joist_thickness(job, reading);
    if thickness <= Length::ZERO {
        let reading = reading.reading;
        return Err(JoistProblem::NoThickness { side, run, reading });
    }
    if let HangerRef::Row(hanger) = reading.hanger
        && usize::from(hanger) >= job.hangers.len()
    {
        let joist = index;
        return Err(JoistProblem::HangerUnknown { joist, hanger });
    }
    let too_long = JoistProblem::ReadingTooLong {
        side,
        run,
        reading: reading.reading,
    };
    let (from, to) = tape.faces(reading.reading, thickness).ok_or(too_long)?;
    let placed = datum.as_placed(from).zip(datum.as_placed(to));
    let (from, to) = placed.ok_or(too_long)?;
    Ok(Joist {
        from,
        to,
        metal: defaults::hanger_metal(job, reading.hanger),
        side,
        number: 0,
        reading: index,
    })
}

/// Side N from end A, then side S from end A; joists of one centre as on the
/// card. Each is counted on its side.
fn sort_and_number(joists: &mut Joists) {
    joists.sort_unstable_by_key(|joist| (joist.side, joist.centre_twice(), joist.reading));
    let mut counts = [0_u8; 2];
    for joist in joists {
        let [n, s] = &mut counts;
        let count = match joist.side {
            Side::N => n,
            Side::S => s,
        };
        *count = count.saturating_add(1);
        joist.number = *count;
    }
}

/// Side of a run.
fn side_of(job: &Job, run: u8) -> Result<Side, JoistProblem> {
    let run = job.runs.get(usize::from(run)).ok_or(JoistProblem::NoRun)?;
    Ok(run.side)
}

/// A run's number on its side, from 1.
fn number(job: &Job, run: u8) -> u8 {
    u8::try_from(job.run_number(run)).unwrap_or(u8::MAX)
}

/// The joists of one side of a sorted list.
pub fn on_side(joists: &Joists, side: Side) -> &[Joist] {
    let first = joists.partition_point(|joist| joist.side < side);
    let end = joists.partition_point(|joist| joist.side <= side);
    joists.get(first..end).unwrap_or_default()
}
