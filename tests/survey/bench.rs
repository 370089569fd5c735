//! Short ways to write a job down in a test.

use boltbay_core::Job;
use boltbay_core::caution::{Caution, Cautions};
use boltbay_core::job::{
    Beam, BeamLength, Check, CheckKind, Designation, Edge, HangerRef, Hook, JoistReading, Position,
    Run, RunHook,
};
use boltbay_core::joists::{self, Joist, JoistProblem, Joists, RunReport, RunReports};
use boltbay_core::length::Length;
use boltbay_core::words::{Side, Units};

/// Sixteenths of an inch.
pub fn x16(sixteenths: i32) -> Length {
    Length::from_sixteenths(sixteenths)
}

/// Inches and sixteenths.
pub fn inch(whole: i32, sixteenths: i32) -> Length {
    x16(whole * 16 + sixteenths)
}

/// Millimetres.
pub fn mm(millimetres: i32) -> Length {
    Length::from_millimetres(millimetres)
}

/// A position on a hook.
pub fn at(reading: Length, hook: Hook) -> Position {
    Position { reading, hook }
}

/// A job with a measured beam.
pub fn job(units: Units, length: Length) -> Job {
    let mut job = Job::new(units);
    job.beam = Some(Beam {
        designation: Designation::try_from("W10X33").expect("short"),
        length,
        measured: BeamLength::Measured,
    });
    job
}

/// A job with a measured beam, a wall at each end, clear distance measured.
pub fn walled(units: Units, bearing: Length, clear: Length) -> Job {
    let length = clear
        .checked_add(bearing)
        .and_then(|l| l.checked_add(bearing));
    let mut job = job(units, length.expect("in range"));
    job.walls = [Some(bearing); 2];
    job.clear = Some(clear);
    job
}

/// A run with everything else as default.
pub fn run(side: Side, hook: RunHook, edge: Edge) -> Run {
    Run {
        side,
        hook,
        edge,
        burn: None,
        thickness: None,
        read_to: None,
        overridden: false,
    }
}

/// Adds a run; its index.
pub fn hang(job: &mut Job, run: Run) -> u8 {
    job.runs.push(run).expect("room");
    u8::try_from(job.runs.len() - 1).expect("few runs")
}

/// A plain reading of a run.
pub fn plain(run: u8, reading: Length) -> JoistReading {
    JoistReading {
        reading,
        thickness: None,
        hanger: HangerRef::Default,
        run,
        guessed: false,
    }
}

/// Adds plain readings to a run.
pub fn read(job: &mut Job, run: u8, readings: &[Length]) {
    for reading in readings {
        job.joists.push(plain(run, *reading)).expect("room");
    }
}

/// Adds a check or close to a run.
pub fn prove(job: &mut Job, run: u8, kind: CheckKind, reading: Length, point: Position) {
    let check = Check {
        kind,
        reading,
        point,
        run,
        guessed: false,
    };
    job.checks.push(check).expect("room");
}

/// What the readings come to.
pub struct Survey {
    pub joists: Vec<Joist>,
    pub runs: Vec<RunReport>,
    pub cautions: Vec<Caution>,
    pub outcome: Result<(), JoistProblem>,
}

impl Survey {
    pub fn of(job: &Job) -> Survey {
        let (mut joists, mut runs) = (Joists::new(), RunReports::new());
        let mut cautions = Cautions::new();
        let outcome = joists::read(job, &mut joists, &mut runs, &mut cautions);
        Survey {
            joists: joists.iter().copied().collect(),
            runs: runs.iter().copied().collect(),
            cautions: cautions.iter().copied().collect(),
            outcome,
        }
    }

    /// Faces of the joists of one side.
    pub fn faces(&self, side: Side) -> Vec<(Length, Length)> {
        let on_side = self.joists.iter().filter(|j| j.side == side);
        on_side.map(|j| (j.from, j.to)).collect()
    }

    /// Cautions but that a run is not proved.
    pub fn asked(&self) -> Vec<Caution> {
        let proof = |c: &&Caution| !matches!(c, Caution::RunNotProved { .. });
        self.cautions.iter().filter(proof).copied().collect()
    }
}
