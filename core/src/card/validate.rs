//! What no row shows by itself: names without their row, places off the steel,
//! rows that contradict each other.
//!
//! In: the job as read, and where its rows stood. Out: nothing, or the error on
//! the earliest offending row; of two rows that contradict, the later is named.
//! A place is checked only where the job says enough to know where it is.

mod places;
mod rules;

use super::error::excerpt;
use super::hook::PositionShown;
use super::notes::Notes;
use super::steel::CUSTOM;
use super::{CardError, Kind, Wrong};
use crate::frame::{Frame, FrameError};
use crate::job::{HangerRef, Hook, Job, Position};
use crate::length::Length;
use crate::words::End;
use core::fmt::Write;

/// Checks a whole card, and settles what its rows left open.
pub(super) fn card(notes: &mut Notes, job: &mut Job) -> Result<(), CardError> {
    let mut settled = Findings::new(notes, job, None);
    settled.letters();
    settled.overrides();
    settled.hangers();
    let earliest = settled.earliest;
    let frame = Frame::of(job).ok();
    let mut findings = Findings::new(notes, job, frame);
    findings.earliest = earliest;
    findings.frame_rows();
    findings.shape_rows();
    findings.named_supports();
    findings.places();
    findings.rules();
    findings.earliest.map_or(Ok(()), Err)
}

/// A job, its notes, and the earliest error found.
struct Findings<'a> {
    notes: &'a mut Notes,
    job: &'a mut Job,
    frame: Option<Frame>,
    earliest: Option<CardError>,
}

/// A row: its line and its kind.
type RowAt = (u16, Kind);

impl<'a> Findings<'a> {
    fn new(notes: &'a mut Notes, job: &'a mut Job, frame: Option<Frame>) -> Findings<'a> {
        Findings {
            notes,
            job,
            frame,
            earliest: None,
        }
    }

    /// Keeps an error if no earlier row has one.
    fn note(&mut self, (line, kind): RowAt, field: &'static str, text: &str, wrong: Wrong) {
        let earlier = self.earliest.as_ref().map(|error| error.row);
        if earlier.is_none_or(|row| u32::from(line) < row) {
            let error = CardError::of_row(line, Some(kind), self.job.units, wrong);
            self.earliest = Some(error.at(field, text));
        }
    }

    /// The same about a position.
    fn note_position(&mut self, row: RowAt, field: &'static str, position: Position, wrong: Wrong) {
        let mut text = super::error::Found::new();
        let _ = write!(text, "{}", PositionShown(position, self.job.units));
        self.note(row, field, &text, wrong);
    }

    /// Letters of sides that are not painted. Without a row `sides` they were
    /// taken as first met.
    fn letters(&mut self) {
        if self.notes.first(Kind::Sides).is_some() {
            return;
        }
        let sides = self.job.sides;
        if let Err(met) = self.notes.settle_sides(self.job) {
            let mut text = [0; 4];
            let text = char::from(met.letter).encode_utf8(&mut text);
            self.note(
                (met.line, met.kind),
                "SIDE",
                text,
                Wrong::NotASide { sides },
            );
        }
    }

    /// Runs that shall stand.
    fn overrides(&mut self) {
        for place in 0..self.notes.overrides.len() {
            let Some(note) = self.notes.overrides.get(place) else {
                continue;
            };
            let (side, number, line) = (note.side, usize::from(note.run), note.line);
            let mut runs = self.job.runs.iter_mut().filter(|run| run.side == side);
            match runs.nth(number.saturating_sub(1)) {
                Some(run) => run.overridden = true,
                None => {
                    let runs = self.job.runs.iter().filter(|run| run.side == side);
                    let runs = runs.count() as u8;
                    self.note(
                        (line, Kind::Override),
                        "RUN",
                        "",
                        Wrong::UnknownRun { runs },
                    );
                }
            }
        }
    }

    /// Hangers from the order in which they were named to that of their rows.
    fn hangers(&mut self) {
        for place in 0..self.notes.hangers.len() {
            let missing = self.notes.hangers.get(place);
            let missing = missing.filter(|note| note.row.is_none());
            if let Some((line, name)) = missing.map(|note| (note.line, excerpt(&note.name))) {
                self.note((line, Kind::Joist), "HANGER", &name, Wrong::UnknownHanger);
            }
        }
        for joist in &mut self.job.joists {
            if let HangerRef::Row(named) = joist.hanger {
                let note = self.notes.hangers.get(usize::from(named));
                if let Some((row, _)) = note.and_then(|note| note.row) {
                    joist.hanger = HangerRef::Row(row);
                }
            }
        }
    }

    /// Walls that leave no room for the steel or between them.
    fn frame_rows(&mut self) {
        let wrong = match Frame::of(self.job) {
            Err(FrameError::WallOffSteel(_)) => Wrong::WallOffSteel,
            Err(FrameError::NoClear) => Wrong::NoClear,
            Ok(_) | Err(_) => return,
        };
        let line = |kind| self.notes.first(kind).unwrap_or(0);
        let rows = [
            (line(Kind::Beam), Kind::Beam, "LENGTH"),
            (line(Kind::Clear), Kind::Clear, "LENGTH"),
            (self.notes.wall(End::A), Kind::Wall, "BEARING"),
            (self.notes.wall(End::B), Kind::Wall, "BEARING"),
        ];
        let latest = rows.into_iter().max_by_key(|(line, ..)| *line);
        if let Some((line, kind, field)) = latest {
            self.note((line, kind), field, "", wrong);
        }
    }

    /// `custom` and `shape` need each other.
    fn shape_rows(&mut self) {
        let (beam, shape) = (self.notes.first(Kind::Beam), self.notes.first(Kind::Shape));
        let custom = self
            .job
            .beam
            .as_ref()
            .map(|beam| beam.designation == CUSTOM);
        match (custom, beam, shape) {
            (Some(true), Some(line), None) => {
                self.note((line, Kind::Beam), "DESIGNATION", "", Wrong::NeedsShape);
            }
            (Some(false), Some(beam), Some(shape)) => {
                let (line, kind, other) = match beam < shape {
                    true => (shape, Kind::Shape, beam),
                    false => (beam, Kind::Beam, shape),
                };
                let other = u32::from(other);
                self.note((line, kind), "KIND", "", Wrong::ShapeUnused { other });
            }
            _ => {}
        }
    }

    /// Posts without their support.
    fn named_supports(&mut self) {
        for place in 0..self.job.posts.len() {
            let Some(post) = self.job.posts.get(place) else {
                continue;
            };
            let mut supports = self.job.supports.iter();
            if supports.any(|support| support.name.eq_ignore_ascii_case(&post.support)) {
                continue;
            }
            let name = excerpt(&post.support);
            let line = self.notes.posts.get(place).copied().unwrap_or(0);
            let row = (line, Kind::Post);
            self.note(row, "SUPPORT NAME", &name, Wrong::UnknownSupport);
        }
    }

    /// Station of a position; notes it where it is off the steel. `None` where
    /// it is, or where the job does not say enough.
    fn station(&mut self, row: RowAt, field: &'static str, position: Position) -> Option<Length> {
        let frame = self.frame?;
        match frame.station(position) {
            Ok(station) => Some(station),
            Err(FrameError::OffSteel(_)) => {
                let length = frame.length;
                self.note_position(row, field, position, Wrong::OffSteel { length });
                None
            }
            Err(_) => None,
        }
    }

    /// The same for a place that may lie beside the steel if it was read from a
    /// wall: a wall that the steel does not reach is still hooked on.
    fn beside(&mut self, row: RowAt, field: &'static str, position: Position) {
        let from_wall = matches!(position.hook, Hook::WallA | Hook::WallB);
        if !from_wall {
            self.station(row, field, position);
        }
    }
}
