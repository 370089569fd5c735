//! Proof of a run: checks and closes against what should have been read.
//!
//! In: runs, checks and closes of a job. Out: one report a run: OUT BY, the
//! worst of the run, with its tolerance. What is out is never spread over the
//! joists. A *check* is read with the tape still hooked; a *close* is read from
//! the last joist's same edge and never burnt. A reading accepted untouched from
//! a guess proves nothing: it is passed over.

use super::{JoistProblem, RunReport, RunReports, number, tape_of};
use crate::caution::{self, Caution, Cautions};
use crate::frame::Datum;
use crate::job::{Check, CheckKind, Job};
use crate::length::Length;
use crate::tape::tolerance;

/// Reports all runs in card order.
pub fn prove(
    job: &Job,
    datum: &Datum,
    reports: &mut RunReports,
    cautions: &mut Cautions,
) -> Result<(), JoistProblem> {
    let mut outcome = Ok(());
    for (run, keyed) in (0_u8..).zip(&job.runs) {
        let mut report = RunReport {
            run,
            side: keyed.side,
            number: number(job, run),
            misclosure: None,
            tolerance: None,
            ok: None,
            overridden: keyed.overridden,
        };
        for check in job.checks.iter().filter(|c| c.run == run && !c.guessed) {
            match out_by(job, datum, check) {
                Ok(found) => take_worse(&mut report, found),
                Err(problem) => outcome = outcome.and(Err(problem)),
            }
        }
        say(&report, cautions);
        let _ = reports.push(report);
    }
    let lost = |check: &Check| usize::from(check.run) >= job.runs.len();
    if job.checks.iter().any(lost) {
        outcome = outcome.and(Err(JoistProblem::NoRun));
    }
    outcome
}

/// What was read less what should have been read, and how much is allowed.
fn out_by(job: &Job, datum: &Datum, check: &Check) -> Result<(Length, Length), JoistProblem> {
    let tape = tape_of(job, datum, check.run)?;
    let run = number(job, check.run);
    let side = super::side_of(job, check.run)?;
    let point = datum
        .station(side, check.point)
        .map_err(|why| JoistProblem::PointUnknown { side, run, why })?;
    let too_long = JoistProblem::ReadingTooLong {
        side,
        run,
        reading: check.reading,
    };
    let should_read = match check.kind {
        CheckKind::Check => tape.should_read(point).ok_or(too_long)?,
        CheckKind::Close => {
            let last = job.joists.iter().rfind(|j| j.run == check.run);
            let last = last.ok_or(JoistProblem::CloseWithoutJoist { side, run })?;
            let edge = tape.station(last.reading).ok_or(too_long)?;
            point.checked_sub(edge).ok_or(too_long)?.abs()
        }
    };
    let out = check.reading.checked_sub(should_read).ok_or(too_long)?;
    let distance = point.saturating_sub(tape.hook).abs();
    Ok((out, tolerance(job.units, distance)))
}

/// Keeps the worse of two: out of tolerance before within it, then the greater.
fn take_worse(report: &mut RunReport, (out, allowed): (Length, Length)) {
    let ok = out.abs() <= allowed;
    let worse = match (report.ok, report.misclosure) {
        (Some(so_far), Some(worst)) => (!ok, out.abs()) > (!so_far, worst.abs()),
        _ => true,
    };
    if worse {
        report.misclosure = Some(out);
        report.tolerance = Some(allowed);
        report.ok = Some(ok);
    }
}

/// A run without proof, or out of tolerance and let stand, is a caution.
fn say(report: &RunReport, cautions: &mut Cautions) {
    let side = report.side;
    let run = report.number;
    let Some((misclosure, tolerance)) = report.misclosure.zip(report.tolerance) else {
        caution::add(cautions, Caution::RunNotProved { side, run });
        return;
    };
    if report.ok == Some(false) && report.overridden {
        caution::add(
            cautions,
            Caution::RunOverridden {
                side,
                run,
                misclosure,
                tolerance,
            },
        );
    }
}
