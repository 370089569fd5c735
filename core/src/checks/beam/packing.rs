//! Packing on the bottom flange, and how the floor meets the steel.

use super::{Beam, Carried};
use crate::check::{Checklist, Kind, Lack, Place};
use crate::checks::flange::{self, Flange, Seated};
use crate::checks::flush;
use crate::defaults;
use crate::force::LineLoad;
use crate::packing;
use crate::words::Side;

impl Beam<'_> {
    /// The flange under the packing of each side that something hangs on.
    #[inline(never)]
    pub(super) fn packing_checks(&self, carried: &Carried, checks: &mut dyn Checklist) {
        for side in Side::BOTH {
            let line = self.greatest_line(carried, side);
            if line <= LineLoad::ZERO || !self.packs(side) {
                continue;
            }
            let place = Place::Side(side);
            match self.seated(side) {
                Ok(seated) => {
                    let flange = Flange {
                        thickness_in: self.section.flange().as_inches(),
                        fy: self.fy(),
                    };
                    let species = defaults::species(self.job);
                    for check in flange::checks(line, &seated, flange, species, place) {
                        checks.add(check);
                    }
                }
                Err(lack) => {
                    checks.lack(Kind::FlangeUnderPacking, place, lack);
                    checks.lack(Kind::PackingOnFlange, place, lack);
                }
            }
        }
    }

    /// The greatest line load of a side.
    fn greatest_line(&self, carried: &Carried, side: Side) -> LineLoad {
        let there = carried.hung.beginnings().map(|at| {
            let [n, s] = carried.hung.line_at(at);
            match side {
                Side::N => n,
                Side::S => s,
            }
        });
        there.fold(LineLoad::ZERO, LineLoad::max)
    }

    /// How the packing of a side sits on the flange, the arm as long as the
    /// widest of the measured flange tips makes it.
    pub(super) fn seated(&self, side: Side) -> Result<Seated, Lack> {
        match self.job.seated {
            None => return Err(Lack::Row("seated")),
            Some(false) => return Err(Lack::Outside("the packing does not sit on the flange")),
            Some(true) => {}
        }
        let stack = self.stack(side).ok_or(Lack::Row("layer"))?;
        let measured = packing::greatest_outstand(self.job, side);
        Seated::of(&stack.layers, measured.unwrap_or(self.section.outstand()))
    }

    /// How joists and steel meet, on each side that says how deep its joists are.
    #[inline(never)]
    pub(super) fn flush_figures(&self, checks: &mut dyn Checklist) {
        let service = defaults::service(self.job);
        for (side, floor) in Side::BOTH.into_iter().zip(&self.job.floors) {
            let place = Place::Side(side);
            match floor {
                Some(floor) => {
                    for figure in flush::figures(&self.section, floor, service, place) {
                        checks.add(figure);
                    }
                }
                None => checks.lack(Kind::SteelBelowJoists, place, Lack::Row("floor")),
            }
        }
    }
}
