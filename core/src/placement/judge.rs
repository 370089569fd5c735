//! Judging: how much a hole clears, to what, and whether it breaks the note.
//!
//! In: the ground and a hole. Out: its gap, the nearest thing, the side to
//! insert the rod from and, for a drilled hole, the verdict. Nothing here says
//! that a hole may be used: that is the engineer's.

use super::ground::{FAR, Ground, outside};
use super::old::{Old, Olds};
use super::{Broken, InsertFrom, Thing, Verdict};
use crate::job::{HoleState, KeepoutKind};
use crate::length::Length;
use crate::words::{Row, Side};

/// A gap in counts, and what it is measured to.
type Gap = (i32, Thing);

impl Ground<'_> {
    /// The least gap over both sides: to joists with their counted hangers
    /// where a side is packed, and to solid obstacles.
    pub fn gap_at(&self, row: Row, x: i32) -> Option<Gap> {
        Side::BOTH
            .into_iter()
            .filter_map(|side| self.side_gap(side, row, x))
            .min_by_key(|(gap, _)| *gap)
    }

    fn side_gap(&self, side: Side, row: Row, x: i32) -> Option<Gap> {
        let radius = self.radius_of(side);
        let off = |from: i32, to: i32| (from - (x + radius)).max((x - radius) - to);
        let mut least: Option<Gap> = None;
        let mut meet = |gap: i32, thing: Thing| {
            if least.is_none_or(|(l, _)| gap < l) {
                least = Some((gap, thing));
            }
        };
        if self.packed(side, x) {
            // Ever wider, until a joist is met: what is nearest is among them.
            let mut reach = self.rule.s_max.counts().max(self.widest);
            let mut met = false;
            while !met {
                for (index, joist) in self.joists_near(side, x, reach) {
                    let metal = self.metal(row, index, joist);
                    let bare = off(joist.from.counts(), joist.to.counts());
                    let joist = u8::try_from(index).unwrap_or(u8::MAX);
                    meet(
                        bare.saturating_sub(metal),
                        Thing::Joist {
                            joist,
                            hanger: metal > 0,
                        },
                    );
                    met = true;
                }
                met |= reach == i32::MAX;
                reach = reach.saturating_mul(2);
            }
        }
        for kept in &self.kept {
            if kept.kind == KeepoutKind::Solid && kept.sides.holds(side) {
                meet(off(kept.from, kept.to), Thing::Keepout(kept.index));
            }
        }
        least
    }

    fn radius_of(&self, side: Side) -> i32 {
        let [n, s] = self.radius;
        if side == Side::N { n } else { s }
    }

    /// The side that drill and wrench can get at, with the beam as it is.
    pub fn insert_from(&self, x: i32) -> InsertFrom {
        let blocked = Side::BOTH.map(|side| {
            self.kept.iter().any(|k| {
                k.kind == KeepoutKind::Access
                    && k.sides.holds(side)
                    && outside(x, (k.from, k.to)).is_none()
            })
        });
        match blocked {
            [true, false] => InsertFrom::Side(Side::S),
            [false, true] => InsertFrom::Side(Side::N),
            _ => InsertFrom::Either,
        }
    }

    /// What is said of a drilled hole, worst first: it fouls, it breaks the
    /// note, it is tight, it fits. `paired`: a pair is asked for here and the
    /// hole stands alone.
    pub fn verdict(&self, olds: &Olds, old: &Old, lonely: bool) -> Verdict {
        let gap = self.gap_at(old.row(), old.x).map_or(FAR, |(gap, _)| gap);
        if gap < 0 {
            return Verdict::Fouls(Length::from_counts(gap.saturating_neg()));
        }
        if let Some((broken, by)) = self.broken(olds, old, lonely) {
            return Verdict::Rule(broken, Length::from_counts(by));
        }
        if gap < self.gap {
            Verdict::Tight
        } else {
            Verdict::Fits
        }
    }

    /// The first part of the note that a drilled hole breaks, and by how much.
    fn broken(&self, olds: &Olds, old: &Old, lonely: bool) -> Option<(Broken, i32)> {
        let x = old.x;
        self.broken_packing(x)
            .or_else(|| self.broken_zone(x))
            .or_else(|| self.broken_access(x))
            .or_else(|| self.broken_abandoned(old))
            .or_else(|| self.broken_spacing(olds, old))
            .or_else(|| lonely.then_some((Broken::Partner, 0)))
    }

    fn broken_packing(&self, x: i32) -> Option<(Broken, i32)> {
        if !Side::BOTH.iter().any(|&side| self.packed(side, x)) {
            let nearest = self.pieces.iter().map(|p| (p.from - x).max(x - p.to));
            return Some((Broken::NotPacked, nearest.min().unwrap_or(0)));
        }
        Side::BOTH
            .into_iter()
            .flat_map(|side| {
                let pieces = self.pieces_of(side);
                pieces.flat_map(move |piece| self.piece_ends(side, piece))
            })
            .filter_map(|open| depth_in(x, open))
            .max()
            .map(|by| (Broken::EndDistance, by))
    }

    fn broken_zone(&self, x: i32) -> Option<(Broken, i32)> {
        let zones = self.kept.iter().filter(|k| k.kind == KeepoutKind::Zone);
        let by = zones.filter_map(|k| depth_in(x, (k.from, k.to))).max()?;
        Some((Broken::Zone, by))
    }

    fn broken_access(&self, x: i32) -> Option<(Broken, i32)> {
        let depth = |side: Side| {
            let things = self
                .kept
                .iter()
                .filter(move |k| k.kind == KeepoutKind::Access && k.sides.holds(side));
            things.filter_map(|k| depth_in(x, (k.from, k.to))).max()
        };
        let by = depth(Side::N)?.min(depth(Side::S)?);
        Some((Broken::Access, by))
    }

    fn broken_abandoned(&self, old: &Old) -> Option<(Broken, i32)> {
        let abandoned = self
            .job
            .holes
            .iter()
            .filter(|h| h.state == HoleState::Abandoned);
        abandoned
            .map(|hole| {
                let keep = self.abandoned_keep(old.row(), hole);
                keep - (old.x - self.hole_at(hole)).abs()
            })
            .filter(|by| *by > 0)
            .max()
            .map(|by| (Broken::Abandoned, by))
    }

    /// Drilled holes keep the least spacing from each other: in their own row
    /// always, and between rows unless the two are one station.
    fn broken_spacing(&self, olds: &Olds, old: &Old) -> Option<(Broken, i32)> {
        let s_min = self.rule.s_min.counts();
        let one_station = self.rule.diameter.counts();
        olds.iter()
            .filter(|o| o.drilled() && o.hole() != old.hole())
            .map(|o| (o, (o.x - old.x).abs()))
            .filter(|(o, apart)| o.row() == old.row() || *apart > one_station)
            .map(|(_, apart)| s_min - apart)
            .filter(|by| *by > 0)
            .max()
            .map(|by| (Broken::LeastSpacing, by))
    }
}

/// How deep a point is inside an open interval; `None` outside.
fn depth_in(x: i32, open: (i32, i32)) -> Option<i32> {
    match outside(x, open) {
        Some(_) => None,
        None => Some((x - open.0).min(open.1 - x)),
    }
}
