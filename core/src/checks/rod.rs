//! Rods in tension: packing that wants to roll off the web.
//!
//! In: the load that hangs at the packing's face, arms, rod, washer, species.
//! Out: the pull in the rod, what it may be, and how it presses the washer into
//! the wood. Rule: the load turns the packing about its lower edge, and the rod
//! holds it by its height above that edge; the arm is the packing's thickness,
//! or, where the packing sits on the flange, half of the layers that sit at the
//! face, for there the flange pushes back. Practice: the model, no source.
//! Source: AISC 360-22 J3.7; NDS 2024 3.10.2, 3.10.4.
//!
//! ```text
//!   web |######| P at the face     T = P arm / height
//!    T <-------|
//!       |######| height
//!       |######|
//!       ^ turns about the lower edge
//! ```

use super::wood;
use crate::check::{Check, Kind, Place};
use crate::force::{Force, Stress};
use crate::job::{Species, WasherShape};
use crate::length::Length;

/// Fu of rod that nobody marked, psi: ASTM A36, the least.
/// Source: NDS 2024 Table 12B, footnotes: Fe = 87,000 psi = 1.5 Fu for A36.
const ROD_FU_PSI: f64 = 58_000.0;
/// Part of Fu that threads carry in tension. Source: AISC 360-22 Table J3.2.
const THREADS: f64 = 0.75;
/// Safety factor of bolts in tension. Source: AISC 360-22 J3.7.
const OMEGA_ROD: f64 = 2.00;

/// Packing that hangs on a rod.
#[derive(Clone, Copy, Debug)]
pub struct Rolling {
    /// Load that hangs at the face, for this rod.
    pub load: Force,
    /// From the load to where it is pushed back, in: packing thickness, or half
    /// of the seated layers at the face.
    pub arm_in: f64,
    /// Height of the rod above the packing's lower edge.
    pub height: Length,
}

impl Rolling {
    /// The pull in the rod.
    pub fn pull(&self) -> Force {
        self.load * (self.arm_in / self.height.as_inches())
    }
}

/// Allowable pull of a threaded rod: 0.75 Fu on the full section over 2.00.
/// Source: AISC 360-22 Eq. J3-1, Table J3.2.
pub fn allowable_pull(diameter: Length) -> Force {
    let diameter_in = diameter.as_inches();
    let area = core::f64::consts::FRAC_PI_4 * diameter_in * diameter_in;
    Force::from_pounds(THREADS * ROD_FU_PSI * area / OMEGA_ROD)
}

/// What the washer presses on: its face less the hole in the wood, in2.
pub fn washer_area(size: Length, shape: WasherShape, hole: Length) -> f64 {
    let (size_in, hole_in) = (size.as_inches(), hole.as_inches());
    let quarter_pi = core::f64::consts::FRAC_PI_4;
    let face = match shape {
        WasherShape::Round => quarter_pi * size_in * size_in,
        WasherShape::Square | WasherShape::Turns => size_in * size_in,
    };
    face - quarter_pi * hole_in * hole_in
}

/// Allowable stress under a washer: Fc perpendicular x Cb of its size.
/// Source: NDS 2024 3.10.4: the bearing length of a round washer is its diameter.
pub fn allowable_press(species: Species, size: Length) -> Stress {
    wood::across_the_grain(species) * wood::bearing_factor(size)
}

/// A washer on packing.
#[derive(Clone, Copy, Debug)]
pub struct WasherOnWood {
    /// Outside diameter or side.
    pub size: Length,
    /// Its shape.
    pub shape: WasherShape,
    /// Hole through the wood.
    pub hole: Length,
    /// Species of the packing.
    pub species: Species,
}

/// Pull in the rod, and the washer that it presses into the packing.
pub fn checks(
    rolling: &Rolling,
    diameter: Length,
    washer: &WasherOnWood,
    place: Place,
) -> [Check; 2] {
    let pull = rolling.pull().as_pounds();
    let area = washer_area(washer.size, washer.shape, washer.hole);
    let press = allowable_press(washer.species, washer.size).as_psi();
    [
        Check::new(
            Kind::RodTension,
            place,
            pull,
            allowable_pull(diameter).as_pounds(),
        ),
        Check::new(Kind::WasherBearing, place, pull / area, press),
    ]
}
