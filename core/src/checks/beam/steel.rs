//! Steel: moments, shears, holes and deflections of the beam itself.

use super::{Beam, Carried};
use crate::caution::Cautions;
use crate::check::{Check, Checklist, Kind, Lack, Place};
use crate::checks::hole::{self, BearingStretch};
use crate::checks::profile::Profile;
use crate::checks::steel::{self, Bending};
use crate::float;
use crate::force::{Force, Moment};
use crate::hardware::Hardware;
use crate::length::{Length, Rounding};
use crate::placement::Placement;
use crate::statics::{Apart, Peak, Statics};

impl Beam<'_> {
    /// Bending, shear, holes, deflection.
    #[inline(never)]
    pub(super) fn steel_checks(&self, carried: &Carried, checks: &mut dyn Checklist) {
        let profile = match Profile::of(&self.section) {
            Ok(profile) => profile,
            Err(lack) => {
                checks.lack(Kind::MomentDown, Place::Beam, lack);
                return;
            }
        };
        self.moment_checks(carried.statics, &profile, checks);
        let shear = greatest_shear(carried.statics);
        checks.add(steel::web_shear(&profile, self.fy(), shear.value, shear.at));
        let net = self.net_web(carried, &profile);
        checks.add_or_lack(Kind::NetWebShear, Place::Beam, net);
        self.deflection_checks(carried.statics, checks);
    }

    /// Both flanges; a beam that is nowhere bent the other way is asked of one.
    #[inline(never)]
    fn moment_checks(&self, statics: &Statics, profile: &Profile, checks: &mut dyn Checklist) {
        let moduli = profile.moduli(&self.section);
        let bending = moduli.and_then(|moduli| Bending::new(*profile, moduli, self.fy()));
        let bending = match bending {
            Ok(bending) => bending,
            Err(lack) => {
                checks.lack(Kind::MomentDown, Place::Beam, lack);
                checks.lack(Kind::MomentUp, Place::Beam, lack);
                return;
            }
        };
        let worst = &statics.moments.worst;
        let size = |peak: &Peak<Moment>| (peak.value.abs(), peak.at);
        let pressed = [size(&worst.most), size(&worst.least)];
        let between = [
            longest_beside(statics, worst.most.at, self.frame.length),
            longest_beside(statics, worst.least.at, self.frame.length),
        ];
        let free = steel::free_lengths(self.job.braced, between);
        for check in steel::moments(&bending, free, pressed) {
            if check.demand() > 0.0 {
                checks.add(check);
            }
        }
    }

    /// Shear through the holes of the mark that has least left over.
    #[inline(never)]
    fn net_web(&self, carried: &Carried, profile: &Profile) -> Result<Check, Lack> {
        let placement = self.placement.ok_or(Lack::Row("bolt"))?;
        let hole = Hardware::of(self.job).ok_or(Lack::Row("bolt"))?.web_hole;
        let mut apart = Apart::UNSOLVED;
        let envelope = carried.model.envelope(&mut apart);
        let checks = marks(placement).map(|mark| {
            let allowable = steel::allowable_net_shear(profile, self.fu(), hole, mark.holes);
            steel::net_web_shear(allowable, envelope.at(mark.at).shear(), mark.at)
        });
        let used = |check: &Check| check.ratio().unwrap_or(f64::INFINITY);
        let worst = checks.reduce(|worst, check| {
            if used(&check) > used(&worst) {
                check
            } else {
                worst
            }
        });
        worst.ok_or(Lack::Outside("the plan has no holes"))
    }

    #[inline(never)]
    fn deflection_checks(&self, statics: &Statics, checks: &mut dyn Checklist) {
        if statics.lacks_ix() {
            checks.lack(
                Kind::LiveDeflection,
                Place::Beam,
                Lack::Field("row shape has no IX"),
            );
            checks.lack(
                Kind::TotalDeflection,
                Place::Beam,
                Lack::Field("row shape has no IX"),
            );
        }
        for (index, sag) in statics.free_sags() {
            for check in steel::deflections(sag, index) {
                checks.add(check);
            }
        }
    }

    /// Marks near a bearing.
    pub(super) fn hole_cautions(&self, carried: &Carried, cautions: &mut Cautions) {
        let Some(placement) = self.placement else {
            return;
        };
        for reaction in &carried.statics.reactions {
            let half = reaction.length.unwrap_or_default().half(Rounding::Up);
            let bearing = BearingStretch {
                row: reaction.row,
                from: reaction.at.saturating_sub(half),
                to: reaction.at.saturating_add(half),
            };
            let places = marks(placement).map(|mark| (mark.number, mark.at));
            hole::near_bearing(places, bearing, self.section.depth(), cautions);
        }
    }
}

/// A mark of the plan: one place along the beam.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mark {
    /// From 1.
    pub number: u8,
    /// Where; of a pair drilled apart, the place nearer to A.
    pub at: Length,
    /// Holes there.
    pub holes: u8,
}

/// Marks of a plan from end A.
pub(super) fn marks(placement: &Placement) -> impl Iterator<Item = Mark> + Clone + '_ {
    let chunks = placement.holes.chunk_by(|a, b| a.station == b.station);
    chunks.filter_map(|holes| {
        let first = holes.first()?;
        let at = holes.iter().map(|hole| hole.at).min()?;
        Some(Mark {
            number: first.station,
            at,
            // A mark has one hole a row.
            holes: holes.len() as u8,
        })
    })
}

/// The greater of both shears, as a size.
fn greatest_shear(statics: &Statics) -> Peak<Force> {
    let worst = &statics.shears.worst;
    let [most, least] = [worst.most, worst.least].map(|peak| Peak {
        value: peak.value.abs(),
        at: peak.at,
    });
    if least.value > most.value {
        least
    } else {
        most
    }
}

/// The longest span or overhang that a place lies on or beside, from support to
/// support, or to the end of the steel.
fn longest_beside(statics: &Statics, at: Length, length: Length) -> Length {
    let supports = statics.reactions.iter().map(|reaction| reaction.at);
    let starts = core::iter::once(Length::ZERO).chain(supports.clone());
    let ends = supports.chain(core::iter::once(length));
    let beside = starts
        .zip(ends)
        .filter(|(from, to)| *from <= at && at <= *to);
    let lengths = beside.map(|(from, to)| to.saturating_sub(from));
    lengths.fold(Length::ZERO, Length::max)
}

/// Demand over capacity, endless where there is a demand and no capacity.
pub(super) fn used(check: &Check) -> f64 {
    let nothing = if check.demand() > 0.0 {
        f64::INFINITY
    } else {
        0.0
    };
    float::max(check.ratio().unwrap_or(nothing), 0.0)
}
