//! Wood: what the four species carry across the grain and around a bolt.
//!
//! In: a species, a size. Out: specific gravity, Fc perpendicular, the factor
//! for short bearings, dowel bearing strengths. Rule: figures are those of No. 2
//! dimension lumber, dry; dowel strengths are rounded to 50 psi as the table
//! prints them. Source: NDS 2024 Table 12.3.3A (G), 12.3.3 (Fe), 3.10.4 (Cb),
//! NDS Supplement Table 4A and 4B (Fc perpendicular).

use crate::float;
use crate::force::Stress;
use crate::job::Species;
use crate::length::Length;

/// Below this diameter a dowel is judged as a nail. Source: NDS 2024 12.3.3.
pub(super) const NAIL_BELOW_IN: f64 = 0.25;

/// Specific gravity G. Source: NDS 2024 Table 12.3.3A.
pub const fn gravity(species: Species) -> f64 {
    match species {
        Species::Spf => 0.42,
        Species::DfL => 0.50,
        Species::Hf => 0.43,
        Species::Sp => 0.55,
    }
}

/// Fc perpendicular. Source: NDS Supplement 2024 Table 4A, 4B.
/// Source, southern pine: AWC addendum of March 2012 to that Table 4B, No. 2.
pub const fn across_the_grain(species: Species) -> Stress {
    Stress::from_psi(match species {
        Species::Spf => 425.0,
        Species::DfL => 625.0,
        Species::Hf => 405.0,
        Species::Sp => 565.0,
    })
}

/// Cb of a bearing this long along the grain, 3 in or more from the end of the
/// wood: (lb + 3/8 in) / lb below 6 in. Source: NDS 2024 Eq. 3.10-2.
pub fn bearing_factor(length: Length) -> f64 {
    let length_in = length.as_inches();
    if length_in <= 0.0 || length_in >= 6.0 {
        return 1.0;
    }
    (length_in + 0.375) / length_in
}

/// Fe along the grain: 11,200 G; of a nail as across it.
/// Source: NDS 2024 12.3.3.
pub fn dowel_along(species: Species, diameter: Length) -> Stress {
    if diameter.as_inches() < NAIL_BELOW_IN {
        return nail(species);
    }
    to_fifty(11_200.0 * gravity(species))
}

/// Fe across the grain: 6,100 G^1.45 / sqrt(D), D the nominal diameter.
/// Source: NDS 2024 12.3.3.
pub fn dowel_across(species: Species, diameter: Length) -> Stress {
    let diameter_in = diameter.as_inches();
    if diameter_in < NAIL_BELOW_IN {
        return nail(species);
    }
    // 6,100 G^1.45, worked out: `libm::pow` would be 2 KiB of flash for four figures.
    let strength = match species {
        Species::Spf => 1_733.968_909_050_219,
        Species::DfL => 2_232.730_686_317_079,
        Species::Hf => 1_794.151_430_065_060_1,
        Species::Sp => 2_563.632_300_116_794,
    };
    to_fifty(strength / float::root(diameter_in))
}

/// Fe of a nail: 16,600 G^1.84 to the nearest 50 psi. Source: NDS 2024 12.3.3,
/// Table 12.3.3, D below 1/4 in.
const fn nail(species: Species) -> Stress {
    Stress::from_psi(match species {
        Species::Spf => 3_350.0,
        Species::DfL => 4_650.0,
        Species::Hf => 3_500.0,
        Species::Sp => 5_550.0,
    })
}

/// To the nearest 50 psi, as NDS Table 12.3.3 is printed.
fn to_fifty(psi: f64) -> Stress {
    Stress::from_psi(50.0 * float::floor(psi / 50.0 + 0.5))
}
