//! Bolts: what one bolt carries down the web, and what hangs on it.
//!
//! In: bolt, web, packing on each side, species; the marks with what hangs near
//! them. Out: the value of a bolt, its end factor, the spacing it would need by
//! itself, checks. Rule: wood sides on a steel main member, load across the
//! grain; double shear where both sides are packed, and then the heavier side
//! counts twice, as if the lighter one hung as heavy; a threaded rod bears at
//! its root. Source: NDS 2024 12.3.1, 12.3.3, 12.3.7 and Tables 12.5.1A, 12.5.1C;
//! AWC TR12; 1.5 Fu for the web: NDS 2024 appendix I.
//!
//! No published table has steel as the main member: the equations have.

use super::dowel::{Dowel, Member, Mode, Shear};
use super::wood;
use crate::check::{Check, Checklist, Kind, Lack, Needs, Place};
use crate::float;
use crate::force::{Force, LineLoad, Stress};
use crate::hardware::Standard;
use crate::job::Species;
use crate::length::Length;
use crate::words::{Row, Side};

/// A bolt or rod through web and packing.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Joint {
    /// Nominal diameter.
    pub diameter: Length,
    /// Bending yield strength.
    pub fyb: Stress,
    /// Web thickness.
    pub web: Length,
    /// Tensile strength of the web.
    pub fu: Stress,
    /// Packing thickness by side, layers acting as one; `None` = not packed.
    pub packing: [Option<Length>; 2],
    /// Species of the packing.
    pub species: Species,
    /// Gap between web and packing.
    pub gap: Length,
}

/// What one bolt carries, before any factor.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Value {
    /// Reference value Z.
    pub strength: Force,
    /// The mode that gives it.
    pub mode: Mode,
    /// Single or double shear.
    pub shear: Shear,
}

impl Value {
    /// How often the heavier side counts.
    pub const fn counts(&self) -> f64 {
        match self.shear {
            Shear::Single => 1.0,
            Shear::Double => 2.0,
        }
    }
}

impl Joint {
    /// The value of a fully threaded rod, load across the grain.
    ///
    /// # Errors
    /// `bolt` for a diameter without a standard thread; outside where neither
    /// side is packed.
    pub fn value(&self) -> Result<Value, Lack> {
        let standard = Standard::of(self.diameter).ok_or(Lack::Row("bolt"))?;
        self.value_of(standard.thread.root())
    }

    /// The value with a diameter of its own where it bears.
    ///
    /// # Errors
    /// Outside where neither side is packed.
    pub fn value_of(&self, bears_in: f64) -> Result<Value, Lack> {
        let (thickness, shear) = match self.packing {
            [Some(n), Some(s)] => (n.min(s), Shear::Double),
            [Some(one), None] | [None, Some(one)] => (one, Shear::Single),
            [None, None] => return Err(Lack::Outside("packed on neither side")),
        };
        let dowel = Dowel {
            nominal_in: self.diameter.as_inches(),
            diameter_in: bears_in,
            fyb_psi: self.fyb.as_psi(),
            main: Member {
                length_in: self.web.as_inches(),
                strength_psi: web_bearing(self.fu).as_psi(),
            },
            side: Member {
                length_in: thickness.as_inches(),
                strength_psi: wood::dowel_across(self.species, self.diameter).as_psi(),
            },
            gap_in: self.gap.as_inches(),
            angle_degrees: 90.0,
            shear,
        };
        let (pounds, mode) = dowel.modes().least();
        Ok(Value {
            strength: Force::from_pounds(pounds),
            mode,
            shear,
        })
    }
}

/// Dowel bearing strength of hot-rolled steel: 1.5 Fu.
/// Source: NDS 2024 appendix I.
pub fn web_bearing(fu: Stress) -> Stress {
    fu * 1.5
}

/// End factor of a bolt this far from the end of its packing, load across the
/// grain: full at 4D, half at 2D, nothing below. Source: NDS 2024 12.5.1.2 and
/// Table 12.5.1A.
pub fn end_factor(distance: Length, diameter: Length) -> f64 {
    let diameters = distance.as_inches() / diameter.as_inches();
    if diameters < 2.0 {
        0.0
    } else {
        float::min(diameters / 4.0, 1.0)
    }
}

/// A mark as the bolts' checks see it.
#[derive(Clone, Copy, Debug)]
pub struct LoadedMark {
    /// Where.
    pub at: Length,
    /// Bolts there: 1 or 2.
    pub bolts: u8,
    /// To the nearest end of its packing.
    pub to_end: Length,
    /// Load of the hangers nearest to it, by side.
    pub nearest: [Force; 2],
    /// Line load beside it, by side.
    pub line: [LineLoad; 2],
}

/// What all bolts share.
#[derive(Clone, Copy, Debug)]
pub struct Bolting {
    /// Nominal diameter.
    pub diameter: Length,
    /// Load duration factor CD.
    pub duration: f64,
    /// Largest spacing of the plan.
    pub largest_spacing: Option<Length>,
}

impl Bolting {
    /// Z' of the bolts of a mark together: Z x CD x end factor x bolts.
    pub fn capacity(&self, value: &Value, mark: &LoadedMark) -> Force {
        let end = end_factor(mark.to_end, self.diameter);
        value.strength * (self.duration * end * f64::from(mark.bolts))
    }

    /// A mark against the hangers nearest to it.
    pub fn nearest(&self, value: &Value, mark: &LoadedMark) -> Check {
        let demand = heavier(mark.nearest) * value.counts();
        let capacity = self.capacity(value, mark);
        let figures = (demand.as_pounds(), capacity.as_pounds());
        Check::new(Kind::BoltNearest, Place::At(mark.at), figures.0, figures.1)
    }

    /// Spacing at which the bolts of this mark alone would carry what hangs
    /// beside it; `None` where nothing does.
    pub fn spacing_alone(&self, value: &Value, mark: &LoadedMark) -> Option<Length> {
        let [n, s] = mark.line;
        let load = n.max(s) * value.counts();
        let inches = self.capacity(value, mark).as_pounds() / load.as_pounds_per_inch();
        let counts = float::floor(inches * f64::from(Length::from_inches(1).counts()));
        // In range: nothing to what counts hold; anything longer says nothing.
        let fits = counts >= 0.0 && counts < f64::from(i32::MAX);
        fits.then_some(Length::from_counts(counts as i32))
    }

    /// The plan's largest spacing against what this mark's bolts would need.
    /// `None` without a spacing, or where nothing hangs beside the mark.
    pub fn alone(&self, value: &Value, mark: &LoadedMark) -> Option<Check> {
        let (spacing, alone) = (self.largest_spacing?, self.spacing_alone(value, mark)?);
        let figures = (spacing.as_inches(), alone.as_inches());
        let check = Check::new(Kind::BoltsAlone, Place::At(mark.at), figures.0, figures.1);
        Some(check.with(Needs::Spacing(alone)))
    }

    /// A bolt's distance to the end of its packing against 2D.
    /// Source: NDS 2024 Table 12.5.1A.
    pub fn end(&self, mark: &LoadedMark) -> Check {
        let least_in = 2.0 * self.diameter.as_inches();
        let place = Place::At(mark.at);
        Check::new(Kind::BoltEnd, place, least_in, mark.to_end.as_inches())
    }

    /// All checks of the marks: of each kind the mark that is worst off.
    /// `values` gives the value of a bolt at a mark.
    pub fn add_checks(
        &self,
        marks: impl Iterator<Item = LoadedMark>,
        values: impl Fn(&LoadedMark) -> Result<Value, Lack>,
        checks: &mut dyn Checklist,
    ) {
        let mut worst = Worst::default();
        let mut average = Average::default();
        for mark in marks {
            match values(&mark) {
                Ok(value) => {
                    worst.take(self.nearest(&value, &mark));
                    worst.take_some(self.alone(&value, &mark));
                    average.take(&mark, value.counts(), self.capacity(&value, &mark));
                }
                Err(lack) => checks.lack(Kind::BoltNearest, Place::At(mark.at), lack),
            }
            worst.take(self.end(&mark));
        }
        for check in worst.0.into_iter().flatten() {
            checks.add(check);
        }
        if let Some(check) = average.check() {
            checks.add(check);
        }
    }
}

/// The heavier side's load.
fn heavier([n, s]: [Force; 2]) -> Force {
    n.max(s)
}

/// The worst check of each of the three kinds made at a mark.
#[derive(Default)]
struct Worst([Option<Check>; 3]);

impl Worst {
    fn take_some(&mut self, check: Option<Check>) {
        if let Some(check) = check {
            self.take(check);
        }
    }

    /// Keeps it if it uses more of its capacity; of equals the first stays.
    fn take(&mut self, check: Check) {
        let slot = self
            .0
            .iter_mut()
            .find(|slot| slot.is_none_or(|kept| kept.kind() == check.kind()));
        let Some(slot) = slot else { return };
        if slot.is_none_or(|kept| used(&check) > used(&kept)) {
            *slot = Some(check);
        }
    }
}

/// Demand over capacity, endless where there is a demand and no capacity.
fn used(check: &Check) -> f64 {
    check.ratio().unwrap_or(if check.demand() > 0.0 {
        f64::INFINITY
    } else {
        0.0
    })
}

/// Load of all marks over the value of all bolts, each side by itself.
#[derive(Default)]
struct Average {
    load: [Force; 2],
    counts: f64,
    capacity: Force,
    bolts: u16,
}

impl Average {
    fn take(&mut self, mark: &LoadedMark, counts: f64, capacity: Force) {
        for (sum, load) in self.load.iter_mut().zip(mark.nearest) {
            *sum = *sum + load;
        }
        self.counts = float::max(self.counts, counts);
        self.capacity = self.capacity + capacity;
        self.bolts = self.bolts.saturating_add(u16::from(mark.bolts));
    }

    /// Load and value of one bolt.
    fn check(&self) -> Option<Check> {
        if self.bolts == 0 {
            return None;
        }
        let bolts = f64::from(self.bolts);
        let demand = heavier(self.load) * self.counts / bolts;
        let capacity = self.capacity / bolts;
        let figures = (demand.as_pounds(), capacity.as_pounds());
        Some(Check::new(
            Kind::BoltAverage,
            Place::Beam,
            figures.0,
            figures.1,
        ))
    }
}

/// A row against the edges of the packing that it goes through: 4D at the top
/// edge, at which the bolt pushes, 1.5D at the lower one. Heights are from the
/// inside face of the bottom flange. Source: NDS 2024 Table 12.5.1C.
pub fn edges(
    diameter: Length,
    row: (Row, Length),
    side: Side,
    [low, high]: [Length; 2],
) -> [Check; 2] {
    let (row, height) = row;
    let place = Place::RowOn(row, side);
    let check = |kind, diameters: f64, found: Length| {
        let asked_in = diameters * diameter.as_inches();
        Check::new(kind, place, asked_in, found.as_inches())
    };
    [
        check(Kind::LoadedEdge, 4.0, high.saturating_sub(height)),
        check(Kind::FreeEdge, 1.5, height.saturating_sub(low)),
    ]
}

/// Twist a foot of beam gets from uneven hanging, as a size: the line load of
/// each side at the face of its packing, one side less the other. `None` where
/// they are even.
pub fn torque(
    at: Length,
    line: [LineLoad; 2],
    web: Length,
    packing: [Option<Length>; 2],
) -> Option<Check> {
    let [n, s] = packing;
    let arm_in =
        |packing: Option<Length>| web.as_inches() / 2.0 + packing.unwrap_or_default().as_inches();
    let [line_n, line_s] = line.map(LineLoad::as_pounds_per_foot);
    let twist = float::abs(line_n * arm_in(n) - line_s * arm_in(s)) / 12.0;
    let dust = (float::abs(line_n) + float::abs(line_s)) * 1e-9;
    (twist > dust).then(|| Check::demand_only(Kind::Torque, Place::At(at), twist))
}
