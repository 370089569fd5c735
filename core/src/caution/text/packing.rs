//! Words about packing, wood and rods.

use super::{Form, shown};
use crate::caution::Caution;
use crate::job::Job;
use core::fmt::{self, Write};

/// Writes the cautions of this theme; others write nothing.
pub(super) fn write(caution: &Caution, form: Form, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match form {
        Form::Screen => screen(caution, job, out),
        Form::Full => full(caution, job, out),
    }
}

fn screen(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::OutstandFromTable { side } => write!(
            out,
            "SIDE {} NOT MEASURED\nweb to flange tip is\nfrom the table",
            job.letter(side)
        ),
        Caution::OutstandSpread { side, spread } => write!(
            out,
            "SIDE {} UNEVEN\nby {}",
            job.letter(side),
            shown(spread, job)
        ),
        Caution::StackGoesShy { side, .. } => {
            write!(out, "WET PACKING {}\nflush now, shy dry", job.letter(side))
        }
        Caution::LayerDoesNotSeat { side, .. } => write!(
            out,
            "LAYER NOT SEATED {}\nit clears the flange",
            job.letter(side)
        ),
        Caution::SpeciesAssumed => out.write_str("WOOD NOT KEYED\nSPF taken"),
        Caution::RodFromOutstand { side } => write!(
            out,
            "RODS BY THE STEEL {}\nno packing listed",
            job.letter(side)
        ),
        Caution::SnugAgain => out.write_str("SNUG NUTS AGAIN\nwhen the wood is dry"),
        _ => Ok(()),
    }
}

fn full(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::OutstandFromTable { side } => write!(
            out,
            "Side {}: web to flange tip was not measured and is taken from the table. Rolled steel may differ by 5/16 in: measure before any board is ripped.",
            job.letter(side)
        ),
        Caution::OutstandSpread { side, spread } => write!(
            out,
            "Side {}: web to flange tip varies by {} along the beam. Measure again, or shim thin layers where it is deep.",
            job.letter(side),
            shown(spread, job)
        ),
        Caution::StackGoesShy { side, error_dry } => write!(
            out,
            "Side {}: the packing will be {} shy of its aim when it has dried. Pick a thicker stack or dry boards.",
            job.letter(side),
            shown(error_dry.abs(), job)
        ),
        Caution::LayerDoesNotSeat { side, layer } => write!(
            out,
            "Side {}: layer {} from the web is ripped to the flat of the web and does not seat on the bottom flange.",
            job.letter(side),
            u16::from(layer) + 1
        ),
        Caution::SpeciesAssumed => out.write_str(
            "The wood is not keyed: spruce-pine-fir is taken, the softest of the usual four.",
        ),
        Caution::RodFromOutstand { side } => write!(
            out,
            "Side {}: no packing is listed, so the rods are as long as web to flange tip asks. Check them against the packing before cutting.",
            job.letter(side)
        ),
        Caution::SnugAgain => out.write_str(
            "Wood dries and nuts go slack: snug them again after the first heating season, in any case just before the ceiling closes.",
        ),
        _ => Ok(()),
    }
}
