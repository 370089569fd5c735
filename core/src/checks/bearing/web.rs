//! The web over a bearing: yielding and crippling, and the length that keeps
//! it from them.
//!
//! In: a profile, Fy, how far the middle of the bearing is from the steel's end.
//! Out: allowable load for a length, least length for a load. Rule: at most d
//! from the end (yielding), nearer than d/2 (crippling) it is an end; an end
//! bears on k design at least. Source: AISC 360-22 J10.2, J10.3; ASD.

use crate::checks::profile::Profile;
use crate::checks::steel::E_PSI;
use crate::float;
use crate::force::{Force, Stress};
use crate::length::Length;

/// Safety factor of web local yielding. Source: AISC 360-22 J10.2.
pub const OMEGA_YIELDING: f64 = 1.50;
/// Safety factor of web local crippling. Source: AISC 360-22 J10.3.
pub const OMEGA_CRIPPLING: f64 = 2.00;

/// The web over one bearing.
#[derive(Clone, Copy, Debug)]
pub struct Web {
    /// The shape.
    pub profile: Profile,
    /// Yield strength.
    pub fy: Stress,
    /// From the middle of the bearing to the nearest end of the steel.
    pub from_end: Length,
}

impl Web {
    /// At most d from the end: J10.2's end formula.
    fn yields_at_end(&self) -> bool {
        self.from_end.as_inches() <= self.profile.depth_in
    }

    /// Nearer than d/2 to the end: J10.3's end formulas.
    fn cripples_at_end(&self) -> bool {
        self.from_end.as_inches() < self.profile.depth_in / 2.0
    }

    /// How much length the fillets add, in: 2.5 k or 5 k.
    fn fillets_in(&self) -> f64 {
        let times = if self.yields_at_end() { 2.5 } else { 5.0 };
        times * self.profile.k_in
    }

    /// Fy tw, lb/in.
    fn per_inch(&self) -> f64 {
        self.fy.as_psi() * self.profile.web_in
    }

    /// 0.40 or 0.80 tw2 sqrt(E Fy tf / tw), lb: crippling without length.
    fn cripples_from(&self) -> f64 {
        let times = if self.cripples_at_end() { 0.40 } else { 0.80 };
        let Profile {
            web_in, flange_in, ..
        } = self.profile;
        let buckling = float::root(E_PSI * self.fy.as_psi() * flange_in / web_in);
        times * web_in * web_in * buckling
    }

    /// (tw / tf)^1.5.
    fn stiffness(&self) -> f64 {
        let ratio = self.profile.web_in / self.profile.flange_in;
        ratio * float::root(ratio)
    }
}

/// Allowable load by web local yielding. Source: AISC 360-22 Eq. J10-2, J10-3.
pub fn web_yielding(web: &Web, length: Length) -> Force {
    let nominal = web.per_inch() * (web.fillets_in() + length.as_inches());
    Force::from_pounds(nominal / OMEGA_YIELDING)
}

/// Least length in inches for this load by web local yielding, k design at an
/// end at least. Source: AISC 360-22 J10.2.
pub fn length_for_yielding(web: &Web, load: Force) -> f64 {
    let length_in = load.as_pounds() * OMEGA_YIELDING / web.per_inch() - web.fillets_in();
    float::max(length_in, least_in(web))
}

/// Allowable load by web local crippling.
/// Source: AISC 360-22 Eq. J10-4, J10-5a, J10-5b.
pub fn web_crippling(web: &Web, length: Length) -> Force {
    let share = length.as_inches() / web.profile.depth_in;
    let reach = if web.cripples_at_end() && share > 0.2 {
        4.0 * share - 0.2
    } else {
        3.0 * share
    };
    let nominal = web.cripples_from() * (1.0 + reach * web.stiffness());
    Force::from_pounds(nominal / OMEGA_CRIPPLING)
}

/// Least length in inches for this load by web local crippling, k design at an
/// end at least. Source: AISC 360-22 J10.3.
pub fn length_for_crippling(web: &Web, load: Force) -> f64 {
    let nominal = load.as_pounds() * OMEGA_CRIPPLING;
    let reach = (nominal / web.cripples_from() - 1.0) / web.stiffness();
    let share = if web.cripples_at_end() && reach > 0.6 {
        (reach + 0.2) / 4.0
    } else {
        reach / 3.0
    };
    float::max(share * web.profile.depth_in, least_in(web))
}

/// k design at an end, nothing elsewhere, in. Source: AISC 360-22 J10.2.
fn least_in(web: &Web) -> f64 {
    if web.yields_at_end() {
        web.profile.k_in
    } else {
        0.0
    }
}
