//! The way in: pockets, which end goes first, and what stays off until home.

use super::Beam;
use super::steel::marks;
use crate::check::{Checklist, Kind, Place};
use crate::checks::insertion::{self, Entry, InTheWay, Meets, Slide, Solid, pocket_checks};
use crate::hardware::Hardware;
use crate::job::{KEEPOUTS, KeepoutKind, Stays};
use crate::length::Length;
use crate::words::{End, Side};
use heapless::Vec;

/// How the beam comes home: which end goes in first, and what is on its way.
#[derive(Debug)]
pub struct WayIn<'a> {
    beam: &'a Beam<'a>,
    /// The end that goes first, and how far the steel slides back.
    pub slide: Slide,
    solids: Vec<Solid, KEEPOUTS, u8>,
}

/// A rod that stays out until the beam is home.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct LeftOut {
    /// Number of its mark, from 1.
    pub mark: u8,
    /// What its nut would meet.
    pub meets: Meets,
}

impl Beam<'_> {
    /// How the beam gets into two pockets; `None` where there are not two walls.
    fn entry(&self) -> Option<Entry> {
        let [a, b] = self.placed_bearings();
        Some(Entry {
            length: self.frame.length,
            clear: self.job.clear,
            pockets: self.job.pockets,
            bearings: [a?, b?],
            units: self.job.units,
        })
    }

    /// Bearing at A and B as the beam ended up, where a wall stands.
    pub fn placed_bearings(&self) -> [Option<Length>; 2] {
        let [a, b] = self.frame.bearings;
        let shift = self.frame.shift;
        [
            a.map(|bearing| bearing.saturating_sub(shift)),
            b.map(|bearing| bearing.saturating_add(shift)),
        ]
    }

    /// Pockets; asked by a row `pocket`, or by loads where the steel bears on
    /// walls.
    #[inline(never)]
    pub(super) fn entry_checks(&self, loaded: bool, checks: &mut dyn Checklist) {
        if !loaded && self.job.pockets.iter().all(Option::is_none) {
            return;
        }
        if let Some(entry) = self.entry() {
            entry.add_checks(&self.section, checks);
            self.packing_entry_checks(checks);
            return;
        }
        let ends = End::BOTH.into_iter();
        let pockets = self.job.pockets.into_iter().zip(self.placed_bearings());
        for (end, (pocket, bearing)) in ends.zip(pockets) {
            if let Some(bearing) = bearing {
                pocket_checks(end, pocket, bearing, &self.section, checks);
            }
        }
    }

    /// How the beam comes home; `None` where it does not go in level, or where
    /// that is not known.
    pub fn way_in(&self) -> Option<WayIn<'_>> {
        let slide = self.entry()?.slide()?;
        let mut solids = Vec::new();
        for (index, keepout) in (0_u8..).zip(&self.job.keepouts) {
            let place = |position| {
                let station = self.frame.station_anywhere(position).ok()?;
                Some(self.frame.as_placed(station))
            };
            if keepout.kind == KeepoutKind::Solid
                && keepout.stays == Stays::Stays
                && let (Some(from), Some(to)) = (place(keepout.from), place(keepout.to))
            {
                // As many places as keep-outs.
                let _ = solids.push(Solid {
                    sides: keepout.sides,
                    from,
                    to,
                    keepout: index,
                });
            }
        }
        Some(WayIn {
            beam: self,
            slide,
            solids,
        })
    }

    /// Packing that goes past a wall face on the way, against the pocket's width.
    fn packing_entry_checks(&self, checks: &mut dyn Checklist) {
        let Some(way) = self.way_in() else { return };
        let mut ends = way.packing_past();
        let Some((end, _)) = ends.next() else { return };
        let packed = Side::BOTH.map(|side| self.thickness(side).unwrap_or(self.section.outstand()));
        let [n, s] = packed;
        let across = n.saturating_add(s).saturating_add(self.section.web());
        let pocket = self.job.pockets.get(end.index()).copied().flatten();
        let made = insertion::packing_in_pocket(end, across.max(self.section.width()), pocket);
        checks.add_or_lack(Kind::PackingInPocket, Place::End(end), made);
    }
}

impl WayIn<'_> {
    fn in_the_way(&self) -> InTheWay<'_> {
        let frame = &self.beam.frame;
        InTheWay {
            joists: self.beam.joists,
            solids: &self.solids,
            faces: frame.faces.map(|face| Some(frame.as_placed(face?))),
        }
    }

    /// Rods that stay out until the beam is home, by mark from end A.
    pub fn left_out(&self) -> impl Iterator<Item = LeftOut> + '_ {
        let hardware = Hardware::of(self.beam.job);
        let placement = self.beam.placement.into_iter();
        placement.flat_map(marks).filter_map(move |mark| {
            let hardware = hardware?;
            let reach = Side::BOTH.map(|side| {
                let packed = self.beam.is_packed(side, mark.at);
                packed.then(|| hardware.radius(side))
            });
            let meets = self.slide.rod_meets(mark.at, reach, &self.in_the_way())?;
            Some(LeftOut {
                mark: mark.number,
                meets,
            })
        })
    }

    /// Ends of packing that go past a wall face on the way, and how far: they
    /// need a pocket as wide as the packed beam, or go on when the beam is home.
    pub fn packing_past(&self) -> impl Iterator<Item = (End, Length)> + '_ {
        let pieces = self.beam.pieces.iter();
        pieces.filter_map(|piece| {
            let way = self.in_the_way();
            self.slide.packing_meets(piece.from, piece.to, &way)
        })
    }
}
