//! Bolts: what hangs near each mark against what its bolts carry.

use super::steel::{Mark, marks, used};
use super::{Beam, Carried};
use crate::check::{Check, Checklist, Kind, Lack, Place};
use crate::checks::bolt::{self, Bolting, Joint, LoadedMark, Value};
use crate::checks::rod::{self, Rolling, WasherOnWood};
use crate::defaults;
use crate::force::{Force, LineLoad, Stress};
use crate::hardware::Hardware;
use crate::job::{Pattern, PatternRows};
use crate::length::Length;
use crate::placement::{PlacedHole, Placement};
use crate::words::{Row, Side};

/// What the bolts' checks need, all of it known.
struct Bolted<'a> {
    placement: &'a Placement,
    hardware: Hardware,
    heights: PatternRows,
    /// Thickness by side; `None`: that side is not packed anywhere.
    packing: [Option<Length>; 2],
}

impl Beam<'_> {
    /// Shear, ends, edges, rods in tension, twist.
    #[inline(never)]
    pub(super) fn bolt_checks(&self, carried: &Carried, checks: &mut dyn Checklist) {
        match self.bolted() {
            Ok(bolted) => {
                self.shear_checks(carried, &bolted, checks);
                self.edge_checks(&bolted, checks);
                self.roll_checks(carried, &bolted, checks);
            }
            Err(lack) => {
                checks.lack(Kind::BoltNearest, Place::Beam, lack);
                checks.lack(Kind::RodTension, Place::Beam, lack);
            }
        }
        self.twist(carried, checks);
    }

    fn bolted(&self) -> Result<Bolted<'_>, Lack> {
        let hardware = Hardware::of(self.job).ok_or(Lack::Row("bolt"))?;
        let heights = self.heights.ok_or(Lack::Row("rows"))?;
        let placement = self.placement;
        let placement = placement.ok_or(Lack::Outside("there is no plan of the holes"))?;
        let mut packing = [None; 2];
        for (side, slot) in Side::BOTH.into_iter().zip(&mut packing) {
            if self.packs(side) {
                *slot = Some(self.thickness(side).ok_or(Lack::Row("layer"))?);
            }
        }
        Ok(Bolted {
            placement,
            hardware,
            heights,
            packing,
        })
    }

    /// Each mark against its nearest hangers, and all of them on average.
    #[inline(never)]
    fn shear_checks(&self, carried: &Carried, bolted: &Bolted, checks: &mut dyn Checklist) {
        let bolting = Bolting {
            diameter: bolted.hardware.diameter,
            duration: defaults::duration(self.job).value(),
            largest_spacing: bolted.placement.largest_spacing,
        };
        let loaded = marks(bolted.placement).map(|mark| self.loaded(carried, bolted, mark));
        bolting.add_checks(loaded, |mark| self.value(bolted, mark.at), checks);
    }

    /// A mark with what hangs near it.
    fn loaded(&self, carried: &Carried, bolted: &Bolted, mark: Mark) -> LoadedMark {
        let mut nearest = [Force::ZERO; 2];
        let mut line = [LineLoad::ZERO; 2];
        let here = carried.hung.line_at(mark.at);
        for (side, ((force, load), there)) in Side::BOTH
            .into_iter()
            .zip(nearest.iter_mut().zip(&mut line).zip(here))
        {
            if self.is_packed(side, mark.at) {
                *force = self.nearest(carried, bolted, side, mark.at);
                *load = there;
            }
        }
        LoadedMark {
            at: mark.at,
            bolts: mark.holes,
            to_end: self.to_packing_end(mark.at),
            nearest,
            line,
        }
    }

    /// Load of the hangers of one side that are nearest to a mark packed there.
    fn nearest(&self, carried: &Carried, bolted: &Bolted, side: Side, at: Length) -> Force {
        let packed = marks(bolted.placement).map(|mark| mark.at);
        let packed = packed.filter(|other| self.is_packed(side, *other));
        let before = packed.clone().filter(|other| *other < at).last();
        let after = packed.clone().find(|other| *other > at);
        self.hangers(carried.hung, side).nearest(at, before, after)
    }

    /// The value of a bolt at a place.
    fn value(&self, bolted: &Bolted, at: Length) -> Result<Value, Lack> {
        let mut packing = bolted.packing;
        for (side, thickness) in Side::BOTH.into_iter().zip(&mut packing) {
            if !self.is_packed(side, at) {
                *thickness = None;
            }
        }
        let joint = Joint {
            diameter: bolted.hardware.diameter,
            fyb: Stress::keyed_ksi(defaults::fyb(self.job), self.job.units),
            web: self.section.web(),
            fu: self.fu(),
            packing,
            species: defaults::species(self.job),
            gap: defaults::standoff(self.job),
        };
        joint.value()
    }

    /// Whether packing stands on a side at a station, its ends included.
    pub(super) fn is_packed(&self, side: Side, at: Length) -> bool {
        let mut pieces = self.pieces.iter();
        pieces.any(|piece| piece.sides.holds(side) && piece.from <= at && at <= piece.to)
    }

    /// To the nearest end of the packing that a mark goes through.
    fn to_packing_end(&self, at: Length) -> Length {
        let through = self.pieces.iter();
        let through = through.filter(|piece| piece.from <= at && at <= piece.to);
        let ends = through.map(|piece| {
            at.saturating_sub(piece.from)
                .min(piece.to.saturating_sub(at))
        });
        ends.min().unwrap_or_default()
    }

    /// Each row against the edges of the packing of each side, taken as high as
    /// the pocket, as the usual row heights are: what is ripped off for the fit
    /// is no more than a drill wanders.
    #[inline(never)]
    fn edge_checks(&self, bolted: &Bolted, checks: &mut dyn Checklist) {
        let single = defaults::pattern(self.job) == Pattern::Single;
        for side in Side::BOTH.into_iter().filter(|side| self.packs(*side)) {
            let edges = [Length::ZERO, self.section.clear_height()];
            for row in Row::BOTH
                .into_iter()
                .filter(|row| !single || *row == Row::Top)
            {
                let height = height(bolted, row);
                for check in bolt::edges(bolted.hardware.diameter, (row, height), side, edges) {
                    checks.add(check);
                }
            }
        }
    }

    /// The rod of each side that is pulled most by packing that wants to roll
    /// off the web.
    #[inline(never)]
    fn roll_checks(&self, carried: &Carried, bolted: &Bolted, checks: &mut dyn Checklist) {
        for side in Side::BOTH {
            let holes = bolted.placement.holes.iter();
            let pulled = holes.filter_map(|hole| self.rolling(carried, bolted, side, hole));
            let worst = pulled.reduce(|worst, pulled| {
                let more = used(&pulled[0]) > used(&worst[0]);
                if more { pulled } else { worst }
            });
            for check in worst.into_iter().flatten() {
                checks.add(check);
            }
        }
    }

    /// Pull and press of one rod on one side.
    fn rolling(
        &self,
        carried: &Carried,
        bolted: &Bolted,
        side: Side,
        hole: &PlacedHole,
    ) -> Option<[Check; 2]> {
        if !self.is_packed(side, hole.at) {
            return None;
        }
        let thickness = *bolted.packing.get(side.index())?;
        let arm_in = match self.seated(side) {
            Ok(seated) => seated.rolling_arm_in(),
            Err(_) => thickness?.as_inches(),
        };
        let mut there = marks(bolted.placement).filter(|mark| mark.number == hole.station);
        let mark = there.next()?;
        let rolling = Rolling {
            load: self.nearest(carried, bolted, side, mark.at) / f64::from(mark.holes.max(1)),
            arm_in,
            height: height(bolted, hole.row),
        };
        let fitted = bolted.hardware.washer(side);
        let washer = WasherOnWood {
            size: fitted.size,
            shape: fitted.shape,
            hole: bolted.hardware.wood_hole,
            species: defaults::species(self.job),
        };
        let place = Place::RowOn(hole.row, side);
        Some(rod::checks(
            &rolling,
            bolted.hardware.diameter,
            &washer,
            place,
        ))
    }

    /// The greatest twist from uneven hanging.
    #[inline(never)]
    fn twist(&self, carried: &Carried, checks: &mut dyn Checklist) {
        let packing = Side::BOTH.map(|side| self.thickness(side).or(Some(self.section.outstand())));
        let web = self.section.web();
        let places = carried.hung.beginnings();
        let twists =
            places.filter_map(|at| bolt::torque(at, carried.hung.line_at(at), web, packing));
        let worst = twists.reduce(|worst, twist| {
            if twist.demand() > worst.demand() {
                twist
            } else {
                worst
            }
        });
        if let Some(worst) = worst {
            checks.add(worst);
        }
    }
}

/// Height of a row above the inside face of the bottom flange.
const fn height(bolted: &Bolted, row: Row) -> Length {
    match row {
        Row::Top => bolted.heights.top,
        Row::Bot => bolted.heights.bot,
    }
}
