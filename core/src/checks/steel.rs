//! Steel: what the beam itself carries in bending and in shear.
//!
//! In: a profile, its moduli, Fy, Fu, free lengths of the flanges. Out: nominal
//! and allowable moments and shears, and the checks. Rule: Cb = 1;
//! the pressed flange's free length decides; ASD. Source: AISC 360-22 F2, F3,
//! G2.1, J4.2(b), B4.3b; limits of slenderness B4.1b.

use super::profile::{Moduli, Profile};
use crate::check::{Check, Kind, Lack, Place};
use crate::float::{self, root};
use crate::force::{Force, Moment, Stress};
use crate::length::Length;
use crate::statics::{DeflectionLimit, SegmentSag};

/// Young's modulus, psi. Source: AISC 360-22, symbols (E = 29,000 ksi).
pub const E_PSI: f64 = 29_000_000.0;
/// Safety factor of bending. Source: AISC 360-22 F1.
pub const OMEGA_BENDING: f64 = 1.67;
/// Safety factor of shear, stocky webs. Source: AISC 360-22 G2.1(a).
pub const OMEGA_SHEAR_STOCKY: f64 = 1.50;
/// Safety factor of shear, other webs. Source: AISC 360-22 G1.
pub const OMEGA_SHEAR: f64 = 1.67;
/// Safety factor of shear rupture. Source: AISC 360-22 J4.2.
pub const OMEGA_RUPTURE: f64 = 2.00;
/// A hole counts this much wider than it is, in. Source: AISC 360-22 B4.3b.
const HOLE_ALLOWANCE_IN: f64 = 1.0 / 16.0;
/// Web plate buckling coefficient without stiffeners. Source: AISC 360-22 G2.1.
const KV: f64 = 5.34;

/// A beam in bending about its strong axis.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Bending {
    profile: Profile,
    moduli: Moduli,
    fy_psi: f64,
}

impl Bending {
    /// Bending of a profile with this yield strength.
    ///
    /// # Errors
    /// `steel` without a strength above nothing; outside for a web that is not
    /// compact (no W shape of the table; h/tw above 3.76 sqrt(E/Fy)).
    pub fn new(profile: Profile, moduli: Moduli, fy: Stress) -> Result<Bending, Lack> {
        let fy_psi = fy.as_psi();
        if fy_psi.is_nan() || fy_psi <= 0.0 {
            return Err(Lack::Row("steel"));
        }
        if profile.web_slenderness() > 3.76 * root(E_PSI / fy_psi) {
            return Err(Lack::Outside("the web is too slender for AISC 360 F2"));
        }
        Ok(Bending {
            profile,
            moduli,
            fy_psi,
        })
    }

    /// Mp = Fy Zx. Source: AISC 360-22 Eq. F2-1.
    pub fn plastic_moment(&self) -> Moment {
        Moment::from_pound_inches(self.plastic())
    }

    /// Mn of a flange free over `free`.
    /// Source: AISC 360-22 F2.1, F2.2, F3.2; the least of the three.
    pub fn nominal_moment(&self, free: Length) -> Moment {
        let sideways = float::min(self.sideways(free.as_inches()), self.plastic());
        Moment::from_pound_inches(float::min(sideways, self.flange_buckling()))
    }

    /// Mn / 1.67.
    pub fn allowable_moment(&self, free: Length) -> Moment {
        self.nominal_moment(free) / OMEGA_BENDING
    }

    /// Lp, in: up to it the flange does not move sideways.
    /// Source: AISC 360-22 Eq. F2-5.
    pub fn plastic_length_in(&self) -> f64 {
        1.76 * self.moduli.ry_in * root(E_PSI / self.fy_psi)
    }

    /// Lr, in: beyond it the flange moves sideways while elastic.
    /// Source: AISC 360-22 Eq. F2-6, c = 1.
    pub fn elastic_length_in(&self) -> f64 {
        let strain = 0.7 * self.fy_psi / E_PSI;
        let torsion = self.torsion();
        1.95 * self.moduli.rts_in / strain
            * root(torsion + root(torsion * torsion + 6.76 * strain * strain))
    }

    /// Fy Zx, lb-in.
    fn plastic(&self) -> f64 {
        self.fy_psi * self.moduli.zx_in3
    }

    /// 0.7 Fy Sx, lb-in: where residual stress lets yielding begin.
    fn first_yield(&self) -> f64 {
        0.7 * self.fy_psi * self.moduli.sx_in3
    }

    /// J c / (Sx ho).
    fn torsion(&self) -> f64 {
        self.moduli.j_in4 / (self.moduli.sx_in3 * self.moduli.ho_in)
    }

    /// Lateral-torsional buckling, lb-in. Source: AISC 360-22 Eq. F2-2 to F2-4.
    fn sideways(&self, free_in: f64) -> f64 {
        let plastic = self.plastic();
        let (first, last) = (self.plastic_length_in(), self.elastic_length_in());
        if free_in <= first {
            return plastic;
        }
        if free_in <= last {
            let share = (free_in - first) / (last - first);
            return plastic - (plastic - self.first_yield()) * share;
        }
        let slender = free_in / self.moduli.rts_in;
        let pi2 = core::f64::consts::PI * core::f64::consts::PI;
        pi2 * E_PSI * self.moduli.sx_in3 / (slender * slender)
            * root(1.0 + 0.078 * self.torsion() * slender * slender)
    }

    /// Flange local buckling, lb-in. Source: AISC 360-22 Eq. F3-1, F3-2; limits
    /// of Table B4.1b case 10.
    fn flange_buckling(&self) -> f64 {
        let plastic = self.plastic();
        let slender = self.profile.flange_slenderness();
        let scale = root(E_PSI / self.fy_psi);
        let (compact, last) = (0.38 * scale, scale);
        if slender <= compact {
            return plastic;
        }
        if slender <= last {
            let share = (slender - compact) / (last - compact);
            return plastic - (plastic - self.first_yield()) * share;
        }
        let kc = 4.0 / root(self.profile.web_slenderness());
        let kc = float::max(0.35, float::min(kc, 0.76));
        0.9 * E_PSI * kc * self.moduli.sx_in3 / (slender * slender)
    }
}

/// Free length of each flange, top then bottom.
///
/// `braced` is the card's row. A flange that it does not name is free over the
/// whole distance between supports: `between` is the span in which the top
/// flange is pressed most, then the longer of the spans or overhangs beside the
/// place where the bottom flange is.
pub fn free_lengths(braced: Option<(Length, Option<Length>)>, between: [Length; 2]) -> [Length; 2] {
    let [span, beside] = between;
    match braced {
        Some((top, bottom)) => [top, bottom.unwrap_or(beside)],
        None => [span, beside],
    }
}

/// The greatest moment with the top flange pressed, then that with the bottom
/// flange pressed, both as sizes, against what the flanges carry.
pub fn moments(
    bending: &Bending,
    free: [Length; 2],
    [down, up]: [(Moment, Length); 2],
) -> [Check; 2] {
    let [top, bottom] = free;
    let check = |kind, (demand, at): (Moment, Length), free| {
        let allowable = bending.allowable_moment(free);
        let figures = (demand.as_pound_feet(), allowable.as_pound_feet());
        Check::new(kind, Place::At(at), figures.0, figures.1)
    };
    [
        check(Kind::MomentDown, down, top),
        check(Kind::MomentUp, up, bottom),
    ]
}

/// Vn over its safety factor.
/// Source: AISC 360-22 G2.1: 1.50 where h/tw is at most 2.24 sqrt(E/Fy), else
/// 1.67 with Cv1.
pub fn allowable_shear(profile: &Profile, fy: Stress) -> Force {
    let nominal = fy.as_psi() * 0.6 * profile.depth_in * profile.web_in;
    let slender = profile.web_slenderness();
    if slender <= 2.24 * root(E_PSI / fy.as_psi()) {
        return Force::from_pounds(nominal / OMEGA_SHEAR_STOCKY);
    }
    let limit = 1.10 * root(KV * E_PSI / fy.as_psi());
    let cv1 = float::min(1.0, limit / slender);
    Force::from_pounds(nominal * cv1 / OMEGA_SHEAR)
}

/// Shear of the web at `at`, as a size.
pub fn web_shear(profile: &Profile, fy: Stress, shear: Force, at: Length) -> Check {
    let allowable = allowable_shear(profile, fy);
    let figures = (shear.as_pounds(), allowable.as_pounds());
    Check::new(Kind::WebShear, Place::At(at), figures.0, figures.1)
}

/// Shear rupture of the web at a mark with `holes` holes, over its safety
/// factor. Source: AISC 360-22 Eq. J4-4 and B4.3b.
pub fn allowable_net_shear(profile: &Profile, fu: Stress, hole: Length, holes: u8) -> Force {
    let lost = f64::from(holes) * (hole.as_inches() + HOLE_ALLOWANCE_IN);
    let net = float::max(profile.depth_in - lost, 0.0) * profile.web_in;
    Force::from_pounds(0.6 * fu.as_psi() * net / OMEGA_RUPTURE)
}

/// Shear through the holes of the mark at `at`, as a size.
pub fn net_web_shear(allowable: Force, shear: Force, at: Length) -> Check {
    let figures = (shear.as_pounds(), allowable.as_pounds());
    Check::new(Kind::NetWebShear, Place::At(at), figures.0, figures.1)
}

/// Deflection of one span or overhang, live then total, against L/360 and
/// L/240. `index` is its place among the segments of the statics.
/// Source: IRC Table R301.7; IBC Table 1604.3 (`statics/deflection.rs`).
pub fn deflections(sag: &SegmentSag, index: u8) -> [Check; 2] {
    [
        (Kind::LiveDeflection, DeflectionLimit::Live),
        (Kind::TotalDeflection, DeflectionLimit::Total),
    ]
    .map(|(kind, limit)| {
        let (demand, capacity) = sag.limit(limit);
        let figures = (demand.as_inches(), capacity.as_inches());
        Check::new(kind, Place::Segment(index), figures.0, figures.1)
    })
}
