//! Bearing: what an end or a post does to the steel above and the seat below.
//!
//! In: a reaction, the length and width that bear, the seat. Out: checks of
//! stress, flange, web and length, each with the length or plate that would
//! satisfy it. Rule: the load spreads evenly over the length and the narrower of
//! flange and support; no stiffeners; the support counts as no larger than the
//! bearing (A2 = A1). Source: AISC 360-22 J7, J8, J10.2, J10.3; AISC Manual
//! part 14; ACI 318-19 22.8; TMS 402; NDS 2024 3.10; IRC R502.6.
//!
//! ```text
//!      |  | web                 n = B/2 - k design: the flange is a cantilever
//!      |  |                     from the fillet's toe
//!   ___/  \___  __ k
//!  |__________|
//!  ^^^^^^^^^^^^ R / (B lb)
//!      |<-n->|
//! ```

mod seat;
mod web;

pub use seat::{CONCRETE_PSI, MASONRY_PSI, Seat, concrete_stress, masonry_stress};
pub use web::{
    OMEGA_CRIPPLING, OMEGA_YIELDING, Web, length_for_crippling, length_for_yielding, web_crippling,
    web_yielding,
};

use super::profile::Profile;
use crate::check::{Check, Checklist, Kind, Lack, Needs, Place, Plate};
use crate::float;
use crate::force::{Force, Stress};
use crate::job::Material;
use crate::length::Length;
use crate::words::Units;

/// Safety factor of a plate in bending. Source: AISC 360-22 F1 and F11.
const OMEGA_PLATE: f64 = 1.67;
/// Yield strength of a plate that is proposed, psi. Source: ASTM A36.
const PLATE_FY_PSI: f64 = 36_000.0;

/// One support as the steel bears on it.
#[derive(Clone, Copy, Debug)]
pub struct Bearing {
    /// Which support.
    pub place: Place,
    /// Greatest downward load on it.
    pub reaction: Force,
    /// Bearing length along the beam, as placed.
    pub length: Length,
    /// Width of the support across the beam; `None`: wider than the flange.
    pub width: Option<Length>,
    /// From the middle of the bearing to the nearest end of the steel.
    pub from_end: Length,
    /// What it bears on.
    pub seat: Seat,
    /// The steel runs into a wall there.
    pub in_wall: bool,
}

/// The steel over the bearing.
#[derive(Clone, Copy, Debug)]
pub struct Steel {
    /// Its shape.
    pub profile: Profile,
    /// Yield strength.
    pub fy: Stress,
}

impl Bearing {
    /// All checks of this support.
    pub fn add_checks(&self, steel: &Steel, units: Units, checks: &mut dyn Checklist) {
        checks.add(self.least_length(units));
        if let Some(check) = self.usual_length(units) {
            checks.add(check);
        }
        if self.length <= Length::ZERO {
            let lack = Lack::Outside("the steel does not reach its support");
            checks.lack(self.seat.kind(), self.place, lack);
            return;
        }
        checks.add(self.stress(steel));
        checks.add(self.flange(steel));
        for check in self.web(steel) {
            checks.add(check);
        }
    }

    /// What bears across the beam, in: the narrower of flange and support.
    fn contact_in(&self, profile: &Profile) -> f64 {
        match self.width {
            Some(width) => float::min(width.as_inches(), profile.width_in),
            None => profile.width_in,
        }
    }

    /// The reaction as far as it presses, lb.
    fn load_lb(&self) -> f64 {
        float::max(self.reaction.as_pounds(), 0.0)
    }

    /// Stress on the seat.
    pub fn stress(&self, steel: &Steel) -> Check {
        let contact_in = self.contact_in(&steel.profile);
        let length_in = self.length.as_inches();
        let demand_psi = self.load_lb() / (contact_in * length_in);
        let along_grain = self.length.max(sixteenths_up(contact_in));
        let allowable_psi = self.seat.allowable(steel.fy, along_grain).as_psi();
        let needed_in = self.load_lb() / (contact_in * self.seat.long(steel.fy).as_psi());
        let check = Check::new(self.seat.kind(), self.place, demand_psi, allowable_psi);
        self.with_needs(check, steel, needed_in)
    }

    /// Thickness that the flange needs over the bearing against its own.
    pub fn flange(&self, steel: &Steel) -> Check {
        let contact_in = self.contact_in(&steel.profile);
        let arm_in = float::max(contact_in / 2.0 - steel.profile.k_in, 0.0);
        let per_length =
            2.0 * OMEGA_PLATE * self.load_lb() * arm_in * arm_in / (steel.fy.as_psi() * contact_in);
        let thickness_in = float::root(per_length / self.length.as_inches());
        let flange_in = steel.profile.flange_in;
        let needed_in = per_length / (flange_in * flange_in);
        let check = Check::new(Kind::FlangeOverBearing, self.place, thickness_in, flange_in);
        self.with_needs(check, steel, needed_in)
    }

    /// Yielding and crippling of the web.
    pub fn web(&self, steel: &Steel) -> [Check; 2] {
        let web = Web {
            profile: steel.profile,
            fy: steel.fy,
            from_end: self.from_end,
        };
        let load = Force::from_pounds(self.load_lb());
        let check = |kind, allowable: Force, needed_in: f64| {
            let check = Check::new(kind, self.place, load.as_pounds(), allowable.as_pounds());
            needs_length(check, needed_in)
        };
        [
            check(
                Kind::WebYielding,
                web_yielding(&web, self.length),
                length_for_yielding(&web, load),
            ),
            check(
                Kind::WebCrippling,
                web_crippling(&web, self.length),
                length_for_crippling(&web, load),
            ),
        ]
    }

    /// Least length of the building code. Source: IRC R502.6: 3 in (76 mm) on
    /// masonry or concrete, 1 1/2 in (38 mm) on wood or metal.
    pub fn least_length(&self, units: Units) -> Check {
        let on_wall = matches!(self.seat.material, Material::Concrete | Material::Masonry);
        let least = match (on_wall, units) {
            (true, Units::Imperial) => Length::from_inches(3),
            (true, Units::Metric) => Length::from_millimetres(76),
            (false, Units::Imperial) => Length::from_sixteenths(24),
            (false, Units::Metric) => Length::from_millimetres(38),
        };
        self.length_check(Kind::BearingLeast, least)
    }

    /// What crews keep in a foundation pocket: 4 in, 100 mm; `None` elsewhere.
    /// Practice: no source.
    pub fn usual_length(&self, units: Units) -> Option<Check> {
        let foundation = matches!(self.seat.material, Material::Concrete | Material::Masonry);
        let usual = match units {
            Units::Imperial => Length::from_inches(4),
            Units::Metric => Length::from_millimetres(100),
        };
        (self.in_wall && foundation).then(|| self.length_check(Kind::BearingUsual, usual))
    }

    fn length_check(&self, kind: Kind, least: Length) -> Check {
        let check = Check::new(kind, self.place, least.as_inches(), self.length.as_inches());
        check.with(Needs::BearingLength(least))
    }

    /// A check with the bearing length that does, or where it fails the plate.
    fn with_needs(&self, check: Check, steel: &Steel, needed_in: f64) -> Check {
        if check.ok() != Some(false) {
            return needs_length(check, needed_in);
        }
        let length = sixteenths_up(needed_in);
        check.with(match self.plate(steel) {
            Some(plate) => Needs::BearingOrPlate(length, plate),
            None => Needs::BearingLength(length),
        })
    }

    /// A plate as long as the bearing, as wide as the flange or as the seat
    /// asks. `None` where the support is too narrow for it.
    /// Source: AISC Manual part 14, Eq. 14-1; AISC Design Example II.D-2.
    pub fn plate(&self, steel: &Steel) -> Option<Plate> {
        let length_in = self.length.as_inches();
        let asked_in = self.load_lb() / (length_in * self.seat.long(steel.fy).as_psi());
        let wide_in = float::max(asked_in, steel.profile.width_in);
        let width = Plate::at_least(wide_in, 0.0)?.width();
        if self.width.is_some_and(|support| support < width) {
            return None;
        }
        let sizes_in = [length_in, width.as_inches()];
        let load = Force::from_pounds(self.load_lb());
        let fy = Stress::from_psi(PLATE_FY_PSI);
        let thickness_in = plate_thickness(load, sizes_in, steel.profile.k_in, fy);
        Plate::at_least(width.as_inches(), thickness_in)
    }
}

/// Thickness in inches of a plate `length` along the beam and `width` across
/// it under a beam with k design `k_in`: the cantilever n = width/2 - k design
/// under an even pressure, ASD 1.67. For a bare flange, `width` is its own.
/// Source: AISC Manual 16th ed., part 14, Eq. 14-1 and 14-4.
pub fn plate_thickness(
    reaction: Force,
    [length_in, width_in]: [f64; 2],
    k_in: f64,
    fy: Stress,
) -> f64 {
    let arm_in = float::max(width_in / 2.0 - k_in, 0.0);
    let moment = 2.0 * OMEGA_PLATE * reaction.as_pounds() * arm_in * arm_in;
    float::root(moment / (fy.as_psi() * width_in * length_in))
}

/// Load on a post, and on its footing where one is keyed.
pub fn add_post_checks(
    place: Place,
    reaction: Force,
    [post, footing]: [Option<Force>; 2],
    checks: &mut dyn Checklist,
) {
    let no_footing = match post {
        Some(_) => Lack::Field("row post has no FOOTING"),
        None => Lack::Row("post"),
    };
    let limits = [
        (Kind::Post, post, Lack::Row("post")),
        (Kind::Footing, footing, no_footing),
    ];
    for (kind, allowable, lack) in limits {
        let made = allowable
            .map(|allowable| Check::new(kind, place, reaction.as_pounds(), allowable.as_pounds()));
        checks.add_or_lack(kind, place, made.ok_or(lack));
    }
}

/// A check with the bearing length that does.
fn needs_length(check: Check, needed_in: f64) -> Check {
    check.with(Needs::BearingLength(sixteenths_up(needed_in)))
}

/// Inches as a length, rounded up to 1/16 in; beyond any length: the greatest.
pub(super) fn sixteenths_up(inches: f64) -> Length {
    let sixteenth = Length::from_sixteenths(1);
    let most = f64::from(Length::MAX.counts() / sixteenth.counts());
    let steps = float::ceil(inches * 16.0 - 1e-9);
    // In range: held between nothing and what counts can hold.
    let steps = float::max(float::min(steps, most), 0.0) as i32;
    sixteenth.checked_mul(steps).unwrap_or(Length::MAX)
}
