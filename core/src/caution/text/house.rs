//! Words about walls, the length of the steel, and the order of the work.

use super::{Form, end_letter, shown};
use crate::caution::Caution;
use crate::job::Job;
use core::fmt::{self, Write};

/// Writes the cautions of this theme; others write nothing.
pub(super) fn write(caution: &Caution, form: Form, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match form {
        Form::Screen => screen(caution, out),
        Form::Full => full(caution, job, out),
    }
}

fn screen(caution: &Caution, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::ClearNotMeasured => {
            out.write_str("CLEAR NOT MEASURED\ntape wall to wall at\nthe beam's height")
        }
        Caution::BearingDiffers { end, .. } => write!(
            out,
            "BEARING {} DIFFERS\nkeyed is not what the\nlengths leave",
            end_letter(end)
        ),
        Caution::LengthOrdered => out.write_str("STEEL NOT MEASURED\nhook on end A only"),
        Caution::BeforeDrilling => {
            out.write_str("STOP BEFORE DRILLING\ncrown up? painted?\nplan code the same?")
        }
        Caution::ShoresFirst => out.write_str("SHORES FIRST\nthen cut joists"),
        Caution::SteelShort { end, .. } => {
            write!(
                out,
                "STEEL SHORT AT {}\nit misses the wall",
                end_letter(end)
            )
        }
        Caution::CountedFromWallA => {
            out.write_str("COUNTED FROM WALL A\nno beam, no bearing\nkeyed yet")
        }
        Caution::AndMore => out.write_str("AND MORE CAUTIONS\nclear these first"),
        _ => Ok(()),
    }
}

fn full(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::ClearNotMeasured => out.write_str(
            "The clear distance to wall face B was not measured: the face is put at the length of the steel less the bearing at B. Tape to it at the beam's height.",
        ),
        Caution::BearingDiffers { end, keyed, resulting } => write!(
            out,
            "Bearing at {}: {} keyed, but length, clear distance and the other bearing leave {}. Measure again; the engineer decides what bearing is enough.",
            end_letter(end),
            shown(keyed, job),
            shown(resulting, job)
        ),
        Caution::LengthOrdered => out.write_str(
            "The steel is as ordered, not as measured: nothing is given from end B. Measure both flanges when it comes.",
        ),
        Caution::BeforeDrilling => out.write_str(
            "Before the first hole: crown up, A, B, TOP, BOT and both side letters painted on the steel, the plan code on this list the same as on the other. The engineer of record and the local code rule over this list.",
        ),
        Caution::ShoresFirst => out.write_str(
            "Shores on both sides carry the floor before any joist is cut, and stay until rods, hangers and bearings are finished.",
        ),
        Caution::SteelShort { end, by } => write!(
            out,
            "At {} the steel ends {} short of the wall face: it bears on nothing there. Measure again.",
            end_letter(end),
            shown(by, job)
        ),
        Caution::CountedFromWallA => out.write_str(
            "Neither beam nor bearing at A is on the card: joists count from wall face A, not from the end of the steel. Mark nothing by them.",
        ),
        Caution::AndMore => {
            out.write_str("There are more cautions than fit on this list: clear these, then run it again.")
        }
        _ => Ok(()),
    }
}
