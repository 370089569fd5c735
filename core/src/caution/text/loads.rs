//! Words about loads, reactions, and supports that lift.

use super::{Form, end_letter, shown};
use crate::caution::Caution;
use crate::figure::Shown;
use crate::force::Force;
use crate::job::Job;
use crate::length::Rounding;
use crate::statics::settled_by;
use crate::words::Units;
use core::fmt::{self, Write};

/// Writes the cautions of this theme; others write nothing.
pub(super) fn write(caution: &Caution, form: Form, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match form {
        Form::Screen => screen(caution, job, out),
        Form::Full => lift(caution, job, out).and_then(|()| full(caution, job, out)),
    }
}

/// The name of a support, or its number on the card.
struct Named<'a>(&'a Job, u8);

impl fmt::Display for Named<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0.supports.get(usize::from(self.1)) {
            Some(support) => f.write_str(&support.name),
            None => write!(f, "support {}", u16::from(self.1) + 1),
        }
    }
}

/// Whole pounds, or kilonewtons with one decimal, as a job shows them. The
/// pounds were rounded down before: a lift is never shown smaller than it is.
struct Weight(i32, Units, Rounding);

impl fmt::Display for Weight {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.1 {
            Units::Imperial => write!(f, "{} lb", self.0),
            Units::Metric => {
                let force = Force::from_pounds(f64::from(self.0)).as_kilonewtons();
                write!(f, "{} kN", Shown::new(force, 1, self.2))
            }
        }
    }
}

fn screen(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::Lift { row, least, .. } => write!(
            out,
            "!! LIFTS\n{}\n{}\nhold down, ask",
            Named(job, row),
            Weight(least, job.units, Rounding::Down)
        ),
        Caution::NearLift { row, least, .. } => write!(
            out,
            "NEAR LIFT\n{}\nleast {}",
            Named(job, row),
            Weight(least, job.units, Rounding::Down)
        ),
        Caution::OverhangLong { end, .. } => {
            write!(out, "LONG OVERHANG AT {}", end_letter(end))
        }
        Caution::LoadPastSteel { row } => {
            write!(out, "LOAD {} PAST END\nof the steel", u16::from(row) + 1)
        }
        Caution::LoadHalved => out.write_str("LOAD HALF TO EACH\nside: not keyed"),
        Caution::PackingNotWeighed => out.write_str("PACKING NOT WEIGHED\nnone on the card"),
        _ => Ok(()),
    }
}

fn lift(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::Lift {
            row,
            least,
            with,
            reason,
            first,
            last,
        } => write!(
            out,
            "LIFT at {}: it has to hold the beam down with {} under {}, because {}. The engineer draws the hold-down; it is fitted and cured before any shore comes away, the shores of {} first, those of {} last. The engineer's sequence rules.",
            Named(job, row),
            Weight(least.saturating_neg(), job.units, Rounding::Up),
            with.words(job.supports.len()),
            reason,
            first,
            last
        ),
        Caution::NearLift {
            row,
            least,
            greatest,
        } => write!(
            out,
            "NEAR LIFT at {}: its least reaction, the keyed dead load taken at 0.6 (ASCE 7), is {}, its greatest {}. {} of settlement or shimming may lift it. Ask the engineer for a hold-down.",
            Named(job, row),
            Weight(least, job.units, Rounding::Down),
            Weight(greatest, job.units, Rounding::Down),
            shown(settled_by(job.units), job)
        ),
        _ => Ok(()),
    }
}

fn full(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::OverhangLong {
            end,
            overhang,
            span,
        } => write!(
            out,
            "The overhang at {} is {} long, the span beside it {}: check the support's place. Ask the engineer.",
            end_letter(end),
            shown(overhang, job),
            shown(span, job)
        ),
        Caution::LoadPastSteel { row } => write!(
            out,
            "Load {} of the card runs past the end of the steel as it ended up: it is held at the steel's end. Ask the engineer what carries the rest.",
            u16::from(row) + 1
        ),
        Caution::LoadHalved => out.write_str(
            "A load on the card names no side: half of it is taken to hang on each side of the beam. Key the side where that is not so.",
        ),
        Caution::PackingNotWeighed => out.write_str(
            "The card says nothing about packing: reactions count the weight of the steel, not of wood. Key the packing where there is any.",
        ),
        _ => Ok(()),
    }
}
