//! Seats: what a support's material may be pressed by.
//!
//! In: material, the card's allowable stress, the species of wood. Out: the
//! allowable stress, and which rule it came from. Rule: a keyed stress rules
//! over all; where none is keyed, concrete and masonry count with the least
//! strength there is. Source: AISC 360-22 J7, J8; ACI 318-19 Table 22.8.3.2;
//! TMS 402; NDS 2024 3.10.2, 3.10.4.

use crate::check::Kind;
use crate::checks::wood;
use crate::float;
use crate::force::Stress;
use crate::job::{Material, Species};
use crate::length::Length;

/// f'c of concrete where the card has no allowable stress, psi.
/// Source: IRC Table R402.2, the least.
pub const CONCRETE_PSI: f64 = 2_500.0;
/// f'm of masonry where the card has no allowable stress, psi.
/// Memory: the least that TMS 602 lets concrete block be specified with.
pub const MASONRY_PSI: f64 = 1_500.0;
/// Safety factor of bearing on concrete. Source: AISC 360-22 J8.
const OMEGA_CONCRETE: f64 = 2.31;
/// Safety factor of bearing of steel on steel. Source: AISC 360-22 J7.
const OMEGA_STEEL: f64 = 2.00;

/// What a support is made of and what it may carry.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Seat {
    /// Its material.
    pub material: Material,
    /// Allowable stress as keyed.
    pub keyed: Option<Stress>,
    /// Species, where it is wood.
    pub species: Species,
}

impl Seat {
    /// Which check the stress makes.
    pub const fn kind(&self) -> Kind {
        match (self.keyed, self.material) {
            (Some(_), _) => Kind::OnKeyed,
            (None, Material::Concrete) => Kind::OnConcrete,
            (None, Material::Masonry) => Kind::OnMasonry,
            (None, Material::Wood) => Kind::OnWood,
            (None, Material::Steel) => Kind::OnSteel,
        }
    }

    /// Allowable stress under a bearing whose longer side is `longer`. The card
    /// does not say which way the grain of a wood seat runs, so that Cb is that
    /// of the longer side, the lesser one.
    pub fn allowable(&self, fy: Stress, longer: Length) -> Stress {
        let long = self.long(fy);
        match (self.keyed, self.material) {
            (None, Material::Wood) => long * wood::bearing_factor(longer),
            _ => long,
        }
    }

    /// Allowable stress under a bearing of any length.
    pub fn long(&self, fy: Stress) -> Stress {
        if let Some(keyed) = self.keyed {
            return keyed;
        }
        match self.material {
            Material::Concrete => concrete_stress(Stress::from_psi(CONCRETE_PSI), 1.0),
            Material::Masonry => masonry_stress(Stress::from_psi(MASONRY_PSI)),
            Material::Wood => wood::across_the_grain(self.species),
            Material::Steel => fy * 1.8 / OMEGA_STEEL,
        }
    }
}

/// Allowable stress on concrete of strength `fc`, whose surface is `ratio` =
/// A2/A1 times the bearing: 0.85 f'c sqrt(A2/A1), at most twice that of
/// A2 = A1, over 2.31. Source: AISC 360-22 Eq. J8-1, J8-2; ACI 318-19 Table
/// 22.8.3.2 has the same with its phi of 0.65, and 1.5 / 0.65 = 2.31.
pub fn concrete_stress(fc: Stress, ratio: f64) -> Stress {
    let spread = float::min(float::root(float::max(ratio, 1.0)), 2.0);
    fc * (0.85 * spread / OMEGA_CONCRETE)
}

/// Allowable stress on masonry of strength `fm`: 0.33 f'm.
/// Source: TMS 402, allowable stress design (0.25 before 2011).
pub fn masonry_stress(fm: Stress) -> Stress {
    fm * 0.33
}
