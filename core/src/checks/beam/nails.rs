//! Hangers and nails: what hangers carry, and where their nails end.

use super::{Beam, Carried};
use crate::caution::Cautions;
use crate::check::{Checklist, Kind, Lack, Place};
use crate::checks::hanger;
use crate::checks::nail::{self, NailedPacking};
use crate::force::Force;
use crate::job::{Hanger, HangerRef};
use crate::joists::Joist;
use crate::words::Side;

impl Beam<'_> {
    /// Loads of the hangers and the edges that their nails come near to.
    #[inline(never)]
    pub(super) fn hanger_checks(&self, carried: &Carried, checks: &mut dyn Checklist) {
        if self.job.hangers.is_empty() {
            checks.lack(Kind::HangerLoad, Place::Beam, Lack::Row("hanger"));
        }
        for (row, hanger) in self.job.hangers.iter().enumerate() {
            if let Some((joist, load)) = self.most_loaded(carried, row) {
                let rated = hanger
                    .rated
                    .map(|rated| Force::keyed(rated, self.job.units));
                let place = Place::Joist(joist);
                checks.add_or_lack(Kind::HangerLoad, place, hanger::load(load, rated, place));
            }
            for side in Side::BOTH {
                self.face_nail_checks(side, row, hanger, checks);
            }
        }
    }

    /// The most loaded joist in hangers of a row, and its load.
    fn most_loaded(&self, carried: &Carried, row: usize) -> Option<(u8, Force)> {
        let mut most: Option<(u8, Force)> = None;
        let mut number = [0_usize; 2];
        for (index, joist) in (0_u8..).zip(self.joists) {
            let place = number.get_mut(joist.side.index())?;
            let load = self.hangers(carried.hung, joist.side).load(*place);
            *place += 1;
            if self.hangs_in(joist, row) && most.is_none_or(|(_, kept)| load > kept) {
                most = Some((index, load));
            }
        }
        most
    }

    /// Whether a joist hangs in hangers of this row.
    fn hangs_in(&self, joist: &Joist, row: usize) -> bool {
        let reading = self.job.joists.get(usize::from(joist.reading));
        match reading.map(|reading| reading.hanger) {
            Some(HangerRef::Default) => row == 0,
            Some(HangerRef::Row(used)) => usize::from(used) == row,
            Some(HangerRef::None) | None => false,
        }
    }

    /// Face nails of the hangers of a row on a side, at its first joist there.
    fn face_nail_checks(
        &self,
        side: Side,
        row: usize,
        hanger: &Hanger,
        checks: &mut dyn Checklist,
    ) {
        let mut joists = (0_u8..).zip(self.joists);
        let used = joists.find(|(_, joist)| joist.side == side && self.hangs_in(joist, row));
        let Some((joist, _)) = used else { return };
        let place = Place::Joist(joist);
        let floor = self.job.floors.get(side.index()).and_then(Option::as_ref);
        let seat = floor.map(|floor| hanger::seat(&self.section, floor));
        match self.edges(side) {
            Ok(edges) => hanger::add_nail_checks(seat, hanger.height, edges, place, checks),
            Err(lack) => checks.lack(Kind::LowNails, place, lack),
        }
    }

    /// Nails of the card in the packing of both sides.
    #[inline(never)]
    pub(super) fn nail_checks(&self, loaded: bool, checks: &mut dyn Checklist) {
        if self.job.nails.is_empty() && loaded {
            checks.lack(Kind::NailDepth, Place::Beam, Lack::Row("nail"));
        }
        for (row, nail) in (0_u8..).zip(&self.job.nails) {
            for side in Side::BOTH.into_iter().filter(|side| self.packs(*side)) {
                let place = Place::Nail(row, side);
                match self.nailed(side) {
                    Some(packing) => nail::add_checks(nail, packing, place, checks),
                    None => checks.lack(Kind::NailDepth, place, Lack::Row("layer")),
                }
            }
        }
    }

    /// Nails that keep a part of their value.
    pub(super) fn nail_cautions(&self, cautions: &mut Cautions) {
        for (row, nail) in (0_u8..).zip(&self.job.nails) {
            for side in Side::BOTH.into_iter().filter(|side| self.packs(*side)) {
                if let Some(packing) = self.nailed(side) {
                    nail::cautions((row, nail), packing, side, cautions);
                }
            }
        }
    }

    /// The packing of a side as a nail meets it.
    fn nailed(&self, side: Side) -> Option<NailedPacking> {
        let stack = self.stack(side)?;
        Some(NailedPacking {
            total: stack.thickness()?,
            outer: stack.layers.last()?.thickness,
        })
    }
}
