//! Words about holes, rows, washers.

use super::{Form, row_word, shown};
use crate::caution::Caution;
use crate::job::Job;
use core::fmt::{self, Write};

/// Writes the cautions of this theme; others write nothing.
pub(super) fn write(caution: &Caution, form: Form, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match form {
        Form::Screen => screen(caution, job, out),
        Form::Full => distances(caution, job, out).and_then(|()| holes(caution, job, out)),
    }
}

fn screen(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::EndDistanceShort { full, .. } => {
            write!(out, "END DISTANCE SHORT\nfull {}", shown(full, job))
        }
        Caution::SpacingShort { full, .. } => {
            write!(out, "SPACING SHORT\nusual {}", shown(full, job))
        }
        Caution::EdgeDistanceShort { row, found, .. } => write!(
            out,
            "ROW {} NEAR THE EDGE\nedge {}",
            row_word(row),
            shown(found, job)
        ),
        Caution::RowsFarApart { apart } => {
            write!(out, "ROWS FAR APART\n{}", shown(apart, job))
        }
        Caution::WebHoleLarge { standard, .. } => {
            write!(out, "WEB HOLE LARGE\nusual {}", shown(standard, job))
        }
        Caution::WasherCoversShort { side, .. } => write!(
            out,
            "WASHER TOO SMALL {}\nover the web hole",
            job.letter(side)
        ),
        Caution::WoodHoleLarger { .. } => {
            out.write_str("WOOD BIT WON'T PASS\nthe web: drill from\neach face")
        }
        Caution::WoodHoleLarge { most, .. } => {
            write!(out, "WOOD HOLE LARGE\nat most {}", shown(most, job))
        }
        Caution::WasherThicknessAssumed {
            side, thickness, ..
        } => write!(
            out,
            "WASHER {} HOW THICK?\n{} taken",
            job.letter(side),
            shown(thickness, job)
        ),
        Caution::RowInFillet { row, .. } => write!(
            out,
            "ROW {} IN THE FILLET\ntoo near a flange",
            row_word(row)
        ),
        Caution::RowsClose { wanted, .. } => {
            write!(
                out,
                "ROWS TOO CLOSE\nfor pairs: at least\n{}",
                shown(wanted, job)
            )
        }
        Caution::NeighboursInOneRow { station, row } => write!(
            out,
            "TWO RUNNING IN {}\nmarks {station} and {}",
            row_word(row),
            u16::from(station) + 1
        ),
        Caution::OneSided { .. } => out.write_str("PACKED ONE SIDE ONLY\nask the engineer"),
        _ => Ok(()),
    }
}

fn distances(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::EndDistanceShort { least, full } => write!(
            out,
            "First and last bolts may come within {} of a packing end; the full end distance in wood is 4 bolt diameters, {} (NDS 12.5.1A). Ask the engineer.",
            shown(least, job),
            shown(full, job)
        ),
        Caution::SpacingShort { least, full } => write!(
            out,
            "Bolts may come within {} of each other; bolts in wood loaded across the grain want {} (NDS 12.5.1D, AISC 360-16 J3.3). Ask the engineer.",
            shown(least, job),
            shown(full, job)
        ),
        Caution::EdgeDistanceShort { row, found, wanted } => write!(
            out,
            "Row {} lies {} from the edge of the packing, wood wants {} (NDS 12.5.1C). Ask the engineer.",
            row_word(row),
            shown(found, job),
            shown(wanted, job)
        ),
        Caution::RowsFarApart { apart } => write!(
            out,
            "The rows are {} apart in one board, more than 5 in (NDS 12.5.1.3): the board may split as it dries. Ask the engineer.",
            shown(apart, job)
        ),
        Caution::RowsClose { apart, wanted } => write!(
            out,
            "The rows are {} apart; the two bolts of a pair want 3 bolt diameters, {} (NDS 12.5.1B). Ask the engineer.",
            shown(apart, job),
            shown(wanted, job)
        ),
        Caution::RowInFillet {
            row,
            height,
            lowest,
            highest,
        } => write!(
            out,
            "Row {} at {} runs into the fillet between web and flange: hole and bare-web washer lie flat from {} to {} above the bottom flange. Ask the engineer.",
            row_word(row),
            shown(height, job),
            shown(lowest, job),
            shown(highest, job)
        ),
        Caution::OneSided { from, to } => write!(
            out,
            "From {} to {} from end A only one side is packed: the load pulls off centre and the washer sits on bare web. Ask the engineer.",
            shown(from, job),
            shown(to, job)
        ),
        _ => Ok(()),
    }
}

fn holes(caution: &Caution, job: &Job, out: &mut dyn Write) -> fmt::Result {
    match *caution {
        Caution::WebHoleLarge {
            hole,
            standard,
            bolt,
        } => write!(
            out,
            "The web hole is {}, the standard hole for a {} bolt is {} (AISC 360-22 Table J3.3): the beam can move {} before a bolt bears, unless the packing is seated. On bare web the washer must reach 1/4 in (6 mm) past the hole all round. Ask the engineer.",
            shown(hole, job),
            shown(bolt, job),
            shown(standard, job),
            shown(hole.saturating_sub(bolt), job)
        ),
        Caution::WasherCoversShort { side, washer, hole } => write!(
            out,
            "On side {} a washer of {} sits on bare web over a hole of {}: it should reach 1/4 in (6 mm) past the hole all round. Take a plate washer or ask the engineer.",
            job.letter(side),
            shown(washer, job),
            shown(hole, job)
        ),
        Caution::WoodHoleLarger { wood, web } => write!(
            out,
            "The hole in the wood, {}, is larger than the hole in the web, {}: that bit will not pass the steel. Drill each side from its own face.",
            shown(wood, job),
            shown(web, job)
        ),
        Caution::WoodHoleLarge { hole, most, bolt } => write!(
            out,
            "The hole in the wood is {}, for a {} bolt it should be {} at most (NDS 12.1.3.2): the packing slips before the bolt bears. Ask the engineer.",
            shown(hole, job),
            shown(bolt, job),
            shown(most, job)
        ),
        Caution::WasherThicknessAssumed {
            side,
            size,
            thickness,
        } => write!(
            out,
            "The {} washer of side {} has no thickness on the card: the rods allow {}. Measure it; thick plates need longer rods.",
            shown(size, job),
            job.letter(side),
            shown(thickness, job)
        ),
        Caution::NeighboursInOneRow { station, row } => write!(
            out,
            "Marks {station} and {} are both in row {}: drilled holes leave no other turn. Tell the engineer.",
            u16::from(station) + 1,
            row_word(row)
        ),
        _ => Ok(()),
    }
}
