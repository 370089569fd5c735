//! The packing, drawn in text, and what to rip.
//!
//! In: the stacks. Out: a section with the layers of both sides from face to
//! web to face, four characters to the inch (two to the centimetre, nearly),
//! and the list of layers, web first.

use super::{Report, heading};
use crate::length::{Length, Rounding};
use crate::packing::{Stack, StackLayer, rip_shown};
use crate::words::Side;
use core::fmt::{self, Write};

/// Lines of the drawn section between the flanges.
const LINES: usize = 5;
/// One character stands for a quarter inch. Practice: a sheet is 80 wide.
const CHARACTER: Length = Length::from_sixteenths(4);
/// Fewest characters between the lines of a layer: room for its letter.
const NARROWEST: i32 = 1;

impl Report<'_> {
    /// Nothing where no packing was asked for or answered.
    #[inline(never)]
    pub(super) fn packing(&self, out: &mut dyn Write) -> fmt::Result {
        if self.plan.packing.iter().all(Option::is_none) {
            return Ok(());
        }
        heading(
            "PACKING",
            "thin layers at the web, the outer one takes the nails",
            out,
        )?;
        self.section(out)?;
        for side in Side::BOTH {
            if let Some(stack) = self.stack(side) {
                self.stack_lines(side, stack, out)?;
            }
        }
        Ok(())
    }

    /// The stack of a side.
    pub fn stack(&self, side: Side) -> Option<&Stack> {
        self.plan.packing.get(side.index()).and_then(Option::as_ref)
    }

    fn section(&self, out: &mut dyn Write) -> fmt::Result {
        let [left, right] = Side::BOTH.map(|side| self.stack(side));
        let width = drawn_width(left) + drawn_width(right) + 2;
        let [first, second] = self.job.sides.map(char::from);
        let gap = usize::try_from(width).unwrap_or(0).saturating_sub(2);
        writeln!(out, "    {first}{:gap$}{second}", "")?;
        flange(width, "TOP", out)?;
        for line in 0..LINES {
            out.write_str("    ")?;
            half_section(left, true, line, out)?;
            out.write_str("||")?;
            half_section(right, false, line, out)?;
            out.write_str("\n")?;
        }
        flange(width, "BOT", out)
    }

    /// The stack of a side, web to face: a line for the sum, then one a layer.
    ///
    /// # Errors
    /// Those of `out` only.
    pub fn stack_lines(&self, side: Side, stack: &Stack, out: &mut dyn Write) -> fmt::Result {
        let units = self.job.units;
        write!(
            out,
            "  Side {}: {}, {} wanted",
            self.job.letter(side),
            stack.total.shown(units),
            stack.target.shown(units)
        )?;
        self.stack_error(stack, out)?;
        for (index, layer) in stack.layers.iter().enumerate() {
            self.layer(index, layer, out)?;
        }
        Ok(())
    }

    fn stack_error(&self, stack: &Stack, out: &mut dyn Write) -> fmt::Result {
        if !stack.feasible {
            let miss = stack.miss.shown(self.job.units);
            write!(out, ": NO STACK FITS, this is the nearest, {miss} off")?;
        }
        out.write_str("; now ")?;
        self.proud_or_shy(stack.error, out)?;
        out.write_str(", dry ")?;
        self.proud_or_shy(stack.error_dry, out)?;
        out.write_str("; web to face:\n")
    }

    /// `1/16" proud of the aim`, to the nearest 1/64 in or 0.1 mm.
    fn proud_or_shy(&self, error: Length, out: &mut dyn Write) -> fmt::Result {
        let error = self.fine(error);
        let size = error.abs().shown(self.job.units);
        if error > Length::ZERO {
            write!(out, "{size} proud")
        } else if error < Length::ZERO {
            write!(out, "{size} shy")
        } else {
            out.write_str("on the mark")
        }
    }

    fn layer(&self, index: usize, layer: &StackLayer, out: &mut dyn Write) -> fmt::Result {
        let units = self.job.units;
        let name = self.job.layers.get(usize::from(layer.layer));
        let name = name.map_or("layer", |layer| layer.name.as_str());
        let thickness = self.length_cell(layer.thickness);
        write!(out, "    {}  {name:<12} {thickness:>10}", letter(index))?;
        if let Some(rip) = layer.rip {
            let rip = rip_shown(rip, units).shown(units);
            write!(out, "  rip to {rip}")?;
        }
        if layer.chamfered {
            out.write_str(", inside corners chamfered for the fillet")?;
        }
        if !layer.seats {
            out.write_str(", does not seat on the flange")?;
        }
        out.write_str("\n")
    }
}

/// a, b, c, d from the web outward.
pub(super) fn letter(index: usize) -> char {
    let offset = u8::try_from(index).unwrap_or(25).min(25);
    char::from(b'a' + offset)
}

/// Characters between the two lines of a layer.
fn characters(layer: &StackLayer) -> i32 {
    let quarter = CHARACTER.counts().max(1);
    let across = layer.thickness.to_multiple(CHARACTER, Rounding::Nearest);
    (across.counts() / quarter - 1).clamp(NARROWEST, 24)
}

/// Characters of one side, its outer line included.
fn drawn_width(stack: Option<&Stack>) -> i32 {
    let layers = stack.map_or(&[][..], |stack| stack.layers.as_slice());
    layers.iter().map(|layer| characters(layer) + 1).sum()
}

fn flange(width: i32, name: &str, out: &mut dyn Write) -> fmt::Result {
    out.write_str("    ")?;
    for _ in 0..width {
        out.write_str("=")?;
    }
    writeln!(out, " {name}")
}

/// One line of one side: face to web for the left one, web to face else.
fn half_section(
    stack: Option<&Stack>,
    face_first: bool,
    line: usize,
    out: &mut dyn Write,
) -> fmt::Result {
    let Some(stack) = stack else { return Ok(()) };
    let count = stack.layers.len();
    for place in 0..count {
        let index = if face_first { count - 1 - place } else { place };
        let Some(layer) = stack.layers.get(index) else {
            continue;
        };
        if face_first {
            out.write_str("|")?;
            fill(layer, index, line, out)?;
        } else {
            fill(layer, index, line, out)?;
            out.write_str("|")?;
        }
    }
    Ok(())
}

/// The inside of a layer: its letter in the middle, blank above a short rip.
fn fill(layer: &StackLayer, index: usize, line: usize, out: &mut dyn Write) -> fmt::Result {
    let width = characters(layer);
    let short = !layer.seats && (line == 0 || line + 1 == LINES);
    for column in 0..width {
        let in_middle = line == LINES / 2 && column == width / 2;
        out.write_char(match (in_middle, short) {
            (true, _) => letter(index),
            (_, true) => ' ',
            _ => '.',
        })?;
    }
    Ok(())
}
