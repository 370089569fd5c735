//! Words about tape runs and joists.

use super::{Form, shown};
use crate::caution::Caution;
use crate::job::Job;
use crate::length::Length;
use core::fmt::{self, Write};

/// Writes the cautions of this theme; others write nothing.
pub(super) fn write(caution: &Caution, form: Form, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match form {
        Form::Screen => {
            runs_on_screen(caution, job, out).and_then(|()| joists_on_screen(caution, job, out))
        }
        Form::Full => runs(caution, job, out).and_then(|()| joists(caution, job, out)),
    }
}

fn runs_on_screen(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::RunNotProved { side, run } => {
            write!(
                out,
                "RUN {}{run} NOT PROVED\ncheck it or close it",
                job.letter(side)
            )
        }
        Caution::RunOverridden {
            side,
            run,
            misclosure,
            ..
        } => write!(
            out,
            "RUN {}{run} OVERRIDDEN\nout by {}",
            job.letter(side),
            shown(misclosure, job)
        ),
        Caution::SideOffByBurn { side, .. } => {
            write!(
                out,
                "SIDE {} OFF A BURN?\ntape held at 0, or at\nits burn mark?",
                job.letter(side)
            )
        }
        Caution::CountDiffers {
            side,
            counted,
            read,
        } => write!(
            out,
            "COUNT SIDE {} AGAIN\nby eye {counted}\nread {read}",
            job.letter(side)
        ),
        Caution::Guessed { side, guessed, of } => {
            write!(
                out,
                "GUESSED READINGS {}\n{guessed} of {of}",
                job.letter(side)
            )
        }
        Caution::NotIncreasing { side, run, .. } => write!(
            out,
            "RUN {}{run} GOES BACK\na reading is less\nthan the one before",
            job.letter(side)
        ),
        _ => Ok(()),
    }
}

fn joists_on_screen(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::PairOutlier { n, s, .. } => {
            let [first, second] = job.sides.map(char::from);
            write!(
                out,
                "LOOK AGAIN: {first}{n} {second}{s}\nnot in step with the\nother pairs"
            )
        }
        Caution::JoistsOverlap {
            side,
            first,
            second,
            ..
        } => {
            let letter = job.letter(side);
            write!(
                out,
                "{letter}{first} {letter}{second} OVERLAP\nread both again"
            )
        }
        Caution::JoistMissed { side, after, .. } => {
            write!(out, "JOIST MISSED?\nafter {}{after}", job.letter(side))
        }
        Caution::JoistOffSpan { side, joist } => {
            write!(
                out,
                "{}{joist} IN THE WALL?\nread it again",
                job.letter(side)
            )
        }
        Caution::ReadingSlip { side, joist, .. } => write!(
            out,
            "{}{joist} MISREAD?\noff by a round figure",
            job.letter(side)
        ),
        _ => Ok(()),
    }
}

fn runs(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::RunNotProved { side, run } => write!(
            out,
            "Run {}{run} is not proved: no reading at a known point. Check it with the tape still hooked, or close it to the far wall.",
            job.letter(side)
        ),
        Caution::RunOverridden {
            side,
            run,
            misclosure,
            tolerance,
        } => write!(
            out,
            "Run {}{run} is out by {} where {} is allowed, and stands because somebody said so. Holes near its joists may foul.",
            job.letter(side),
            shown(misclosure, job),
            shown(tolerance, job)
        ),
        Caution::SideOffByBurn { side, offset } => write!(
            out,
            "The whole side {} lies {} off its partners: a burn forgotten, or taken off twice. Hold the tape to one joist of each side.",
            job.letter(side),
            shown(offset, job)
        ),
        Caution::CountDiffers {
            side,
            counted,
            read,
        } => write!(
            out,
            "Side {}: {counted} joists counted by eye, {read} read. Count again before marking.",
            job.letter(side)
        ),
        Caution::NotIncreasing {
            side,
            run,
            before,
            reading,
        } => write!(
            out,
            "Run {}{run} reads {} after {}: readings grow as the tape runs. Read both again.",
            job.letter(side),
            shown(reading, job),
            shown(before, job)
        ),
        Caution::Guessed { side, guessed, of } => write!(
            out,
            "Side {}: {guessed} of {of} readings were taken as guessed. A guess proves nothing: put the tape on some of them.",
            job.letter(side)
        ),
        _ => Ok(()),
    }
}

fn joists(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::PairOutlier {
            n,
            s,
            offset,
            median,
        } => {
            let [first, second] = job.sides.map(char::from);
            write!(
                out,
                "{second}{s} lies {} toward {} of {first}{n}, the other pairs {} toward {}. Look at both again.",
                shown(offset.abs(), job),
                toward(offset),
                shown(median.abs(), job),
                toward(median)
            )
        }
        Caution::JoistsOverlap {
            side,
            first,
            second,
            by,
        } => {
            let letter = job.letter(side);
            write!(
                out,
                "{letter}{first} and {letter}{second} overlap by {}: two joists cannot stand in one place. Read both again.",
                shown(by, job)
            )
        }
        Caution::JoistMissed {
            side,
            after,
            gap,
            usual,
        } => {
            let letter = job.letter(side);
            write!(
                out,
                "After {letter}{after} the next joist is {} on, elsewhere about {}. Look whether one was missed.",
                shown(gap, job),
                shown(usual, job)
            )
        }
        Caution::ReadingSlip { side, joist, by } => write!(
            out,
            "{}{joist} stands exactly {} off the place that its neighbours leave it: a figure misread, a foot, a burn? Read it again.",
            job.letter(side),
            shown(by.abs(), job)
        ),
        Caution::JoistOffSpan { side, joist } => write!(
            out,
            "{}{joist} does not stand between the walls. Read it again, or the bearing.",
            job.letter(side)
        ),
        _ => Ok(()),
    }
}

/// The end that an offset points to.
const fn toward(offset: Length) -> char {
    if offset.counts() < 0 { 'A' } else { 'B' }
}
