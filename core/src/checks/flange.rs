//! The bottom flange with packing sitting on it.
//!
//! In: line load of a side, web to flange tip, the packing's layers, the steel.
//! Out: how far out the load comes down, bending of the flange, pressure under
//! the packing. Rule: hangers push on the outer layer, so the load comes down
//! under the layers that start at the face and reach the flange, half-way across
//! them; a layer ripped to the flat of the web hangs above the fillet and counts
//! nothing; wood past the tip bears on nothing. Practice: the arm, no source.
//! Source: AISC 360-22 F11 (plate bent an inch at a time); NDS 2024 3.10.2.
//!
//! ```text
//!    web |      arm      | q
//!        |<------------->v
//!        |  hangs  | sits|
//!   _____|_________|_____|  tip
//! ```

use super::wood;
use crate::check::{Check, Kind, Lack, Place};
use crate::float;
use crate::force::{LineLoad, Moment, Stress};
use crate::job::Species;
use crate::length::Length;
use crate::packing::StackLayer;

/// Safety factor of bending. Source: AISC 360-22 F1.
const OMEGA_BENDING: f64 = 1.67;

/// Packing as it sits on one half of the bottom flange.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Seated {
    arm_in: f64,
    contact_in: f64,
    layers_in: f64,
}

impl Seated {
    /// From the layers, web to face, and the measured web to flange tip.
    ///
    /// # Errors
    /// Outside where the layer at the face does not reach the flange, or lies
    /// past its tip; `layer` without layers.
    pub fn of(layers: &[StackLayer], outstand: Length) -> Result<Seated, Lack> {
        if layers.is_empty() {
            return Err(Lack::Row("layer"));
        }
        let inches = |layer: &StackLayer| layer.thickness.as_inches();
        let total_in: f64 = layers.iter().map(inches).sum();
        let at_face = layers.iter().rev().take_while(|layer| layer.seats);
        let layers_in: f64 = at_face.map(inches).sum();
        let tip_in = outstand.as_inches();
        let proud_in = float::max(total_in - tip_in, 0.0);
        let contact_in = layers_in - proud_in;
        if contact_in <= 0.0 {
            let why = "no layer at the face sits on the bottom flange";
            return Err(Lack::Outside(why));
        }
        Ok(Seated {
            arm_in: tip_in - contact_in / 2.0,
            contact_in,
            layers_in,
        })
    }

    /// From the web to where the load comes down, in.
    pub const fn arm_in(&self) -> f64 {
        self.arm_in
    }

    /// Width of wood that bears on the flange, in.
    pub const fn contact_in(&self) -> f64 {
        self.contact_in
    }

    /// From the face to where the flange pushes back, in: the arm with which
    /// seated packing wants to roll off the web.
    pub fn rolling_arm_in(&self) -> f64 {
        self.layers_in - self.contact_in / 2.0
    }
}

/// What an inch of flange carries at the web: Fy tf2 / 4 over 1.67, as a moment
/// for an inch of beam. Source: AISC 360-22 Eq. F11-1, Z = tf2 / 4.
pub fn allowable_bending(flange_in: f64, fy: Stress) -> Moment {
    Moment::from_pound_inches(fy.as_psi() * flange_in * flange_in / 4.0 / OMEGA_BENDING)
}

/// The steel under the packing.
#[derive(Clone, Copy, Debug)]
pub struct Flange {
    /// Thickness tf, in.
    pub thickness_in: f64,
    /// Yield strength.
    pub fy: Stress,
}

/// Flange under the packing of one side, and packing on the flange, where
/// `line` is the greatest line load of that side.
pub fn checks(
    line: LineLoad,
    seated: &Seated,
    flange: Flange,
    species: Species,
    place: Place,
) -> [Check; 2] {
    let load = line.as_pounds_per_inch();
    let bending = allowable_bending(flange.thickness_in, flange.fy);
    [
        Check::new(
            Kind::FlangeUnderPacking,
            place,
            load * seated.arm_in,
            bending.as_pound_inches(),
        ),
        Check::new(
            Kind::PackingOnFlange,
            place,
            load / seated.contact_in,
            wood::across_the_grain(species).as_psi(),
        ),
    ]
}
