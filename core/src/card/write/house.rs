//! Writes rows about the steel, the house and the joists.

use super::{Kind, Out};
use crate::card::hook::PositionShown;
use crate::card::survey::NO_HANGER;
use crate::card::word::{Hand, InTheWay};
use crate::job::{CheckKind, HangerRef, JoistReading, Keepout, KeepoutKind, Run, RunHook};
use crate::length::Length;
use crate::words::{End, Side, Sides};
use core::fmt::{self, Display, Write};

impl<W: Write> Out<'_, W> {
    pub(super) fn steel(&mut self) -> fmt::Result {
        let job = self.job;
        if let Some(beam) = &job.beam {
            self.kind(Kind::Beam)?;
            self.field(&beam.designation)?;
            self.length(beam.length)?;
            self.word(Some(beam.measured))?;
            self.end()?;
        }
        self.shape()?;
        if let Some(steel) = job.steel {
            self.kind(Kind::Steel)?;
            self.decimal(Some(steel.fy))?;
            self.decimal(steel.fu)?;
            self.end()?;
        }
        if let Some((top, bottom)) = job.braced {
            self.kind(Kind::Braced)?;
            self.length(top)?;
            self.maybe_length(bottom)?;
            self.end()?;
        }
        Ok(())
    }

    fn shape(&mut self) -> fmt::Result {
        let Some(shape) = self.job.shape else {
            return Ok(());
        };
        self.kind(Kind::Shape)?;
        for length in [
            shape.depth,
            shape.width,
            shape.web,
            shape.flange,
            shape.k_design,
            shape.k_detail,
            shape.k1,
        ] {
            self.length(length)?;
        }
        for decimal in [Some(shape.weight), shape.ix, shape.sx, shape.zx] {
            self.decimal(decimal)?;
        }
        self.end()
    }

    pub(super) fn house(&mut self) -> fmt::Result {
        let job = self.job;
        for (end, bearing) in End::BOTH.into_iter().zip(job.walls) {
            let Some(bearing) = bearing else { continue };
            self.kind(Kind::Wall)?;
            self.word(Some(end))?;
            self.length(bearing)?;
            self.end()?;
        }
        self.length_row(Kind::Clear, job.clear)?;
        for square in &job.squares {
            self.kind(Kind::Square)?;
            self.side(square.side)?;
            self.word(Some(square.end))?;
            self.length(square.offset)?;
            self.end()?;
        }
        for (end, pocket) in End::BOTH.into_iter().zip(job.pockets) {
            let Some(pocket) = pocket else { continue };
            self.kind(Kind::Pocket)?;
            self.word(Some(end))?;
            self.length(pocket.depth)?;
            self.maybe_length(pocket.height)?;
            self.maybe_length(pocket.width)?;
            self.end()?;
        }
        self.sides_of_the_beam()?;
        self.length_row(Kind::Placed, job.placed)
    }

    /// Stand, outstands, floors, counts.
    fn sides_of_the_beam(&mut self) -> fmt::Result {
        let job = self.job;
        if let Some(stand) = job.stand {
            let left = stand.a_at_left;
            self.kind(Kind::Stand)?;
            self.side(stand.side)?;
            self.word(Some(if left { Hand::Left } else { Hand::Right }))?;
            self.end()?;
        }
        for (side, measured) in Side::BOTH.into_iter().zip(&job.outstands) {
            if measured.is_empty() {
                continue;
            }
            self.kind(Kind::Outstand)?;
            self.side(side)?;
            for length in measured {
                self.length(*length)?;
            }
            self.end()?;
        }
        for (side, floor) in Side::BOTH.into_iter().zip(job.floors) {
            let Some(floor) = floor else { continue };
            self.kind(Kind::Floor)?;
            self.side(side)?;
            self.length(floor.joist_depth)?;
            self.maybe_length(floor.offset)?;
            self.maybe_length(floor.subfloor)?;
            self.end()?;
        }
        for (side, count) in Side::BOTH.into_iter().zip(job.counts) {
            if count.is_some() {
                self.kind(Kind::Count)?;
                self.side(side)?;
                self.count(count)?;
                self.end()?;
            }
        }
        Ok(())
    }

    /// Runs, each with its joists, then its checks and closes.
    pub(super) fn runs(&mut self) -> fmt::Result {
        let job = self.job;
        for (number, run) in (0_u8..).zip(&job.runs) {
            self.run(run)?;
            for joist in job.joists.iter().filter(|joist| joist.run == number) {
                self.joist(joist)?;
            }
            for check in job.checks.iter().filter(|check| check.run == number) {
                self.kind(match check.kind {
                    CheckKind::Check => Kind::Check,
                    CheckKind::Close => Kind::Close,
                })?;
                self.reading(check.reading, check.guessed)?;
                self.position(check.point)?;
                self.end()?;
            }
            if run.overridden {
                let on_its_side = job.run_number(number);
                self.kind(Kind::Override)?;
                self.side(run.side)?;
                self.field(&on_its_side)?;
                self.end()?;
            }
        }
        Ok(())
    }

    fn run(&mut self, run: &Run) -> fmt::Result {
        self.kind(Kind::Tape)?;
        self.side(run.side)?;
        let (hook, toward): (&dyn Display, _) = match run.hook {
            RunHook::Wall(End::A) => (&"wall A", None),
            RunHook::Wall(End::B) => (&"wall B", None),
            RunHook::Steel(End::A) => (&"end A", None),
            RunHook::Steel(End::B) => (&"end B", None),
            RunHook::Mark(mark, toward) => (&PositionShown(mark, self.job.units), Some(toward)),
        };
        self.field(hook)?;
        self.word(toward)?;
        self.word(Some(run.edge))?;
        self.maybe_length(run.burn)?;
        self.maybe_length(run.thickness)?;
        self.maybe_length(run.read_to)?;
        self.end()
    }

    fn joist(&mut self, joist: &JoistReading) -> fmt::Result {
        self.kind(Kind::Joist)?;
        self.reading(joist.reading, joist.guessed)?;
        self.maybe_length(joist.thickness)?;
        match joist.hanger {
            HangerRef::Default => self.none()?,
            HangerRef::None => self.field(&NO_HANGER)?,
            HangerRef::Row(row) => {
                let hanger = self.job.hangers.get(usize::from(row));
                self.name(hanger.map_or("", |hanger| &hanger.name))?;
            }
        }
        self.end()
    }

    /// A reading; `g` behind one that was accepted as guessed.
    fn reading(&mut self, reading: Length, guessed: bool) -> fmt::Result {
        self.length(reading)?;
        match guessed {
            true => self.out.write_str(" g"),
            false => Ok(()),
        }
    }

    pub(super) fn hangers(&mut self) -> fmt::Result {
        let job = self.job;
        for hanger in &job.hangers {
            self.kind(Kind::Hanger)?;
            self.name(&hanger.name)?;
            self.maybe_length(hanger.metal)?;
            self.maybe_length(hanger.height)?;
            self.decimal(hanger.rated)?;
            self.end()?;
        }
        for nail in &job.nails {
            self.kind(Kind::Nail)?;
            self.name(&nail.name)?;
            self.length(nail.length)?;
            self.length(nail.diameter)?;
            self.decimal(nail.slant)?;
            self.end()?;
        }
        Ok(())
    }

    pub(super) fn keepouts(&mut self) -> fmt::Result {
        let job = self.job;
        for keepout in &job.keepouts {
            self.keepout(keepout)?;
        }
        Ok(())
    }

    fn keepout(&mut self, keepout: &Keepout) -> fmt::Result {
        let obstacle = match keepout.kind {
            KeepoutKind::Solid => Some(InTheWay::Solid),
            KeepoutKind::Access => Some(InTheWay::Access),
            KeepoutKind::Zone => None,
        };
        if obstacle.is_some() {
            self.kind(Kind::Obstacle)?;
            self.sides(keepout.sides)?;
        } else {
            self.kind(Kind::Zone)?;
        }
        self.position(keepout.from)?;
        self.position(keepout.to)?;
        if obstacle.is_some() {
            self.word(obstacle)?;
        }
        self.word(Some(keepout.stays))?;
        self.name(&keepout.name)?;
        self.end()
    }

    pub(super) fn packing(&mut self) -> fmt::Result {
        let job = self.job;
        for piece in &job.packing {
            self.kind(Kind::Packing)?;
            self.position(piece.from)?;
            self.position(piece.to)?;
            if piece.sides != Sides::Both {
                self.sides(piece.sides)?;
            }
            self.end()?;
        }
        Ok(())
    }
}
