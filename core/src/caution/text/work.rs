//! Words about the work at the wall and at the packing, which no figure can say.

use super::{Form, end_letter, shown};
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

/// A support's name, or nothing.
fn support(job: &Job, row: u8) -> &str {
    let support = job.supports.get(usize::from(row));
    support.map_or("", |support| support.name.as_str())
}

/// A nail's name, or nothing.
fn nail(job: &Job, row: u8) -> &str {
    let nail = job.nails.get(usize::from(row));
    nail.map_or("", |nail| nail.name.as_str())
}

fn screen(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::HolesNearBearing { row, station, .. } => write!(
            out,
            "HOLE NEAR A BEARING\nmark {station}\nat {}",
            support(job, row)
        ),
        Caution::EndMayRollOver { end } => write!(
            out,
            "END {} MAY ROLL OVER\nhold it upright in\nits pocket",
            end_letter(end)
        ),
        Caution::FillBlock { row } => write!(
            out,
            "FILL THE BLOCK\nunder the pocket\nat {}",
            support(job, row)
        ),
        Caution::WoodOffMasonry => out.write_str("WOOD OFF MASONRY\nleave a gap; shim\nwith steel"),
        Caution::TreatedWood => out.write_str("TREATED WOOD?\nnot against plain\nsteel"),
        Caution::HotWork => out.write_str("TORCH OR WELDER\nnot near the packing"),
        Caution::NailKeepsLess {
            nail: row, percent, ..
        } => write!(out, "NAIL NOT DEEP\n{}\nkeeps {percent} %", nail(job, row)),
        _ => Ok(()),
    }
}

fn full(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::HolesNearBearing {
            row,
            marks,
            station,
            distance,
        } => write!(
            out,
            "Marks nearer to the bearing at {} than the beam is deep: {marks}, the nearest mark {station}, {} from its edge. Common practice keeps holes out of there; ask the engineer.",
            support(job, row),
            shown(distance, job)
        ),
        Caution::EndMayRollOver { end } => write!(
            out,
            "End {} sits in a pocket and nothing on the card keeps it from rolling over: grout, clips or a plate as drawn, and blocking until they are in. Ask the engineer where the drawing is silent.",
            end_letter(end)
        ),
        Caution::FillBlock { row } => write!(
            out,
            "Support {} is masonry: block is grouted solid under the pocket, as far down as drawn, before the beam comes in. The engineer says how far.",
            support(job, row)
        ),
        Caution::WoodOffMasonry => out.write_str(
            "Packing and wood keep clear of masonry and concrete, 1/2 in or more, or they rot; no wood shims under the steel, for they crush: steel shims or plates as drawn.",
        ),
        Caution::TreatedWood => out.write_str(
            "Treated packing eats plain steel and plain rods: use untreated wood inside the house, or keep the two apart and use coated rods, nuts, washers and nails as drawn.",
        ),
        Caution::HotWork => out.write_str(
            "Torch, welder and grinder stay away from packing and old framing: cut and weld before the wood is on, wet it, keep an extinguisher by, and watch for at least an hour.",
        ),
        Caution::NailKeepsLess {
            nail: row,
            side,
            percent,
        } => write!(
            out,
            "Nail {} goes less than 10 diameters deep into the packing of side {}: it keeps {percent} % of its table value (NDS 12.1.6). The hanger schedule or the engineer chooses the nail.",
            nail(job, row),
            job.letter(side)
        ),
        _ => Ok(()),
    }
}
