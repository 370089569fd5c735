//! Joists as they stand beside the beam: two faces each, from the raw readings.
//!
//! In: a job and its frame. Out: joists sorted from end A on each side, the
//! misclosure of each run, cautions.

use crate::length::Length;
use crate::words::Side;
use heapless::Vec;

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
    /// Height of its hanger; `None` = counts in every row.
    pub hanger_height: Option<Length>,
    /// Its side.
    pub side: Side,
    /// Counted from end A on its side, from 1.
    pub number: u8,
    /// Index into [`crate::Job::joists`].
    pub reading: u8,
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
