//! What the reader keeps beside the job until the card ends: where each row
//! stood, and what was named before its own row came.
//!
//! Rows come in any order: a joist may name a hanger, and a run a side, whose
//! row stands further down. Until then hangers are numbered as first named,
//! and sides by the default letters or as first named.

use super::{Kind, Wrong};
use crate::job::{self, Job};
use crate::words::{End, Name, Side, Sides, Units};
use heapless::Vec;

/// Line numbers of rows, in the order of a list of the job.
pub(super) type Lines<const N: usize> = Vec<u16, N, u8>;

/// A side's letter, and the row where it was met.
#[derive(Clone, Copy)]
pub(super) struct Letter {
    pub(super) letter: u8,
    pub(super) line: u16,
    pub(super) kind: Kind,
}

/// A hanger's name and where it was met.
pub(super) struct HangerNote {
    pub(super) name: Name,
    /// Line on which it was first named.
    pub(super) line: u16,
    /// Its place among the job's hangers and the line of its row, once that has
    /// come.
    pub(super) row: Option<(u8, u16)>,
}

/// A run that shall stand, named before or after its row.
pub(super) struct OverrideNote {
    pub(super) side: Side,
    pub(super) run: u16,
    pub(super) line: u16,
}

/// Notes of one reading.
pub(super) struct Notes {
    /// The job has been cleared.
    pub(super) cleared: bool,
    /// Row `boltbay` has come.
    pub(super) started: bool,
    pub(super) units: Option<Units>,
    /// Letters met, as the job's sides stand for now, and where.
    letters: [Option<Letter>; 2],
    pub(super) hangers: Vec<HangerNote, { job::HANGERS }, u8>,
    pub(super) overrides: Vec<OverrideNote, { 2 * job::RUNS_A_SIDE }, u8>,
    first: [u16; Kind::ALL.len()],
    /// By kind, then end or side: rows that stand once for each.
    twice: [[u16; 2]; 6],
    pub(super) squares: Lines<4>,
    pub(super) supports: Lines<{ job::SUPPORTS }>,
    pub(super) posts: Lines<{ job::SUPPORTS }>,
    pub(super) loads: Lines<{ job::LOADS }>,
    pub(super) runs: Lines<{ 2 * job::RUNS_A_SIDE }>,
    pub(super) checks: Lines<{ job::CHECKS }>,
    pub(super) keepouts: Lines<{ job::KEEPOUTS }>,
    pub(super) packing: Lines<{ job::PACKING_PIECES }>,
    pub(super) nears: Lines<{ job::NEARS }>,
    pub(super) cuts: Lines<{ job::BARS_CUT }>,
    pub(super) holes: Lines<{ job::HOLES }>,
}

/// Rows that stand once for each end or side.
#[derive(Clone, Copy)]
pub(super) enum Twice {
    Wall,
    Pocket,
    Outstand,
    Count,
    Floor,
    Washer,
}

impl Notes {
    /// Nothing read.
    pub(super) const fn new() -> Notes {
        Notes {
            cleared: false,
            started: false,
            units: None,
            letters: [None; 2],
            hangers: Vec::new(),
            overrides: Vec::new(),
            first: [0; Kind::ALL.len()],
            twice: [[0; 2]; 6],
            squares: Vec::new(),
            supports: Vec::new(),
            posts: Vec::new(),
            loads: Vec::new(),
            runs: Vec::new(),
            checks: Vec::new(),
            keepouts: Vec::new(),
            packing: Vec::new(),
            nears: Vec::new(),
            cuts: Vec::new(),
            holes: Vec::new(),
        }
    }

    /// Line of the first row of a kind; `None` = none yet.
    pub(super) fn first(&self, kind: Kind) -> Option<u16> {
        self.first
            .get(kind as usize)
            .copied()
            .filter(|line| *line > 0)
    }

    /// Notes the first row of a kind.
    pub(super) fn note(&mut self, kind: Kind, line: u16) {
        if let Some(first @ 0) = self.first.get_mut(kind as usize) {
            *first = line;
        }
    }

    /// Notes a row that stands once for each end.
    pub(super) fn once_an_end(&mut self, what: Twice, end: End, line: u16) -> Result<(), Wrong> {
        self.once(what, end.index(), line)
    }

    /// Notes a row that stands once for each side.
    pub(super) fn once_a_side(&mut self, what: Twice, side: Side, line: u16) -> Result<(), Wrong> {
        self.once(what, side.index(), line)
    }

    fn once(&mut self, what: Twice, place: usize, line: u16) -> Result<(), Wrong> {
        let lines = self.twice.get_mut(what as usize);
        match lines.and_then(|lines| lines.get_mut(place)) {
            Some(first @ 0) => {
                *first = line;
                Ok(())
            }
            Some(first) => Err(Wrong::Second {
                first: u32::from(*first),
            }),
            None => Ok(()),
        }
    }

    /// Line of a wall's row, 0 where it has none.
    pub(super) fn wall(&self, end: End) -> u16 {
        let walls = self.twice.get(Twice::Wall as usize);
        walls
            .and_then(|walls| walls.get(end.index()))
            .copied()
            .unwrap_or(0)
    }

    /// The side of a letter, as far as it is known: exact once `sides` has come.
    pub(super) fn side(&mut self, met: Letter, job: &Job) -> Result<Side, Wrong> {
        let letter = met.letter;
        let known = self.first(Kind::Sides).is_some();
        for side in Side::BOTH {
            let painted = job.sides.get(side.index()).copied();
            let taken = self.met(side);
            if taken == Some(letter) || ((known || taken.is_none()) && painted == Some(letter)) {
                self.meet(side, met);
                return Ok(side);
            }
        }
        if known {
            return Err(Wrong::NotASide { sides: job.sides });
        }
        for side in Side::BOTH {
            if self.met(side).is_none() {
                self.meet(side, met);
                return Ok(side);
            }
        }
        let sides = Side::BOTH.map(|side| self.met(side).unwrap_or(b'?'));
        Err(Wrong::NotASide { sides })
    }

    /// The letter met for a side.
    fn met(&self, side: Side) -> Option<u8> {
        let met = self.letters.get(side.index()).copied().flatten();
        met.map(|met| met.letter)
    }

    fn meet(&mut self, side: Side, met: Letter) {
        if let Some(slot @ None) = self.letters.get_mut(side.index()) {
            *slot = Some(met);
        }
    }

    /// Settles the letters met so far against those that are painted.
    ///
    /// # Errors
    /// One that is not painted.
    pub(super) fn settle_sides(&mut self, job: &mut Job) -> Result<(), Letter> {
        let mut met = self.letters.iter().flatten();
        if let Some(met) = met.find(|met| !job.sides.contains(&met.letter)) {
            return Err(*met);
        }
        let crossed = Side::BOTH.into_iter().any(|side| {
            let painted = job.sides.get(side.other().index()).copied();
            self.met(side).is_some_and(|met| Some(met) == painted)
        });
        if crossed {
            self.letters.reverse();
            self.cross(job);
        }
        Ok(())
    }

    /// Changes the two sides over everywhere.
    fn cross(&mut self, job: &mut Job) {
        job.outstands.reverse();
        job.counts.reverse();
        job.floors.reverse();
        job.washers.reverse();
        let sides = job.squares.iter_mut().map(|square| &mut square.side);
        let sides = sides.chain(job.stand.iter_mut().map(|stand| &mut stand.side));
        let sides = sides.chain(job.runs.iter_mut().map(|run| &mut run.side));
        let sides = sides.chain(self.overrides.iter_mut().map(|note| &mut note.side));
        sides.for_each(|side| *side = side.other());
        let sides = job.keepouts.iter_mut().map(|keepout| &mut keepout.sides);
        let sides = sides.chain(job.packing.iter_mut().map(|piece| &mut piece.sides));
        for sides in sides {
            if let Sides::One(side) = sides {
                *side = side.other();
            }
        }
        for load in &mut job.loads {
            if let job::loads::LoadSide::On(side) = &mut load.side {
                *side = side.other();
            }
        }
        for what in [Twice::Outstand, Twice::Count, Twice::Floor, Twice::Washer] {
            if let Some(lines) = self.twice.get_mut(what as usize) {
                lines.reverse();
            }
        }
    }

    /// The number of a hanger's name, as first met; `None` where more hangers
    /// are named than a job holds.
    pub(super) fn hanger(&mut self, name: &Name, line: u16) -> Option<u8> {
        let place = (0_u8..)
            .zip(&self.hangers)
            .find(|(_, note)| note.name.eq_ignore_ascii_case(name))
            .map(|(place, _)| place);
        place.or_else(|| {
            let note = HangerNote {
                name: name.clone(),
                line,
                row: None,
            };
            let place = self.hangers.len() as u8;
            self.hangers.push(note).ok().map(|()| place)
        })
    }
}
