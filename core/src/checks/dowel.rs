//! A dowel in shear: bolt, rod or nail across two or three members.
//!
//! In: diameter, bending yield strength, bearing strength and length of main
//! and side member, gap between them, the steepest angle of load to grain. Out:
//! the six yield modes, each over its reduction, and the least. Rule: the
//! general dowel equations, which with no gap are those of the table; double
//! shear has no modes II and IIIm and doubles the side modes.
//! Source: AWC TR12 Table 1-1 (P = (-B + sqrt(B2 - 4AC)) / 2A); NDS 2024 Table
//! 12.3.1A, 12.3.1B (Rd), 12.3.1.
//!
//! ```text
//!     ls   g   lm         single shear: side | main
//!   |----|-|------|       double shear: side | main | side
//! ```

use super::wood::NAIL_BELOW_IN;
use crate::float::{self, root};

/// One member as the dowel bears in it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Member {
    /// Length of bearing, in.
    pub length_in: f64,
    /// Dowel bearing strength Fe, psi.
    pub strength_psi: f64,
}

/// How many planes the load crosses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Shear {
    /// One side member.
    Single,
    /// One on each side of the main member, alike.
    Double,
}

/// A dowel joint.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Dowel {
    /// Nominal diameter, in: it says whether this is a nail.
    pub nominal_in: f64,
    /// Diameter that bears and bends, in: the root where threads bear.
    pub diameter_in: f64,
    /// Bending yield strength Fyb, psi.
    pub fyb_psi: f64,
    /// Main member.
    pub main: Member,
    /// Side member; in double shear the lesser of the two.
    pub side: Member,
    /// Gap between main and side member, in.
    pub gap_in: f64,
    /// Greatest angle of load to grain in any member, degrees.
    pub angle_degrees: f64,
    /// Single or double shear.
    pub shear: Shear,
}

/// The yield modes. Source: NDS 2024 appendix I.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Mode {
    /// Main member crushes.
    Im,
    /// Side member crushes.
    Is,
    /// The dowel turns in both.
    II,
    /// It bends in the side member, main member crushes.
    IIIm,
    /// It bends in the main member, side member crushes.
    IIIs,
    /// It bends in both.
    IV,
}

/// Reference value Z by each mode, lb.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Modes {
    /// Main member crushes.
    pub i_m: f64,
    /// Side member crushes.
    pub i_s: f64,
    /// The dowel turns in both; single shear only.
    pub ii: Option<f64>,
    /// It bends in the side member; single shear only.
    pub iii_m: Option<f64>,
    /// It bends in the main member.
    pub iii_s: f64,
    /// It bends in both.
    pub iv: f64,
}

impl Modes {
    /// The least value and its mode; of equals the first.
    pub fn least(&self) -> (f64, Mode) {
        [
            (self.i_s, Mode::Is),
            (self.ii.unwrap_or(f64::INFINITY), Mode::II),
            (self.iii_m.unwrap_or(f64::INFINITY), Mode::IIIm),
            (self.iii_s, Mode::IIIs),
            (self.iv, Mode::IV),
        ]
        .into_iter()
        .fold((self.i_m, Mode::Im), |least, mode| {
            if mode.0 < least.0 { mode } else { least }
        })
    }
}

impl Dowel {
    /// Z by each mode.
    pub fn modes(&self) -> Modes {
        let rd = self.reductions();
        let qm = self.main.strength_psi * self.diameter_in;
        let qs = self.side.strength_psi * self.diameter_in;
        let (lm, ls, gap) = (self.main.length_in, self.side.length_in, self.gap_in);
        let bends = self.bending_moment();
        // What main and side member resist on their whole length, in quarters.
        let main = qm * lm * lm / 4.0;
        let side = qs * ls * ls / 4.0;
        let (quarter_m, quarter_s) = (0.25 / qm, 0.25 / qs);
        let ii = larger_root(
            quarter_s + quarter_m,
            ls / 2.0 + gap + lm / 2.0,
            -side - main,
        );
        let iii_m = larger_root(2.0 * quarter_s + quarter_m, gap + lm / 2.0, -bends - main);
        let iii_s = larger_root(quarter_s + 2.0 * quarter_m, ls / 2.0 + gap, -side - bends);
        let iv = larger_root(2.0 * (quarter_s + quarter_m), gap, -2.0 * bends);
        let (sides, both) = match self.shear {
            Shear::Single => (1.0, true),
            Shear::Double => (2.0, false),
        };
        Modes {
            i_m: qm * lm / rd.crushing,
            i_s: sides * qs * ls / rd.crushing,
            ii: both.then_some(ii / rd.turning),
            iii_m: both.then_some(iii_m / rd.bending),
            iii_s: sides * iii_s / rd.bending,
            iv: sides * iv / rd.bending,
        }
    }

    /// Fyb D3 / 6, lb-in: the dowel bent to its full.
    fn bending_moment(&self) -> f64 {
        let diameter_in = self.diameter_in;
        self.fyb_psi * diameter_in * diameter_in * diameter_in / 6.0
    }

    /// Rd. Source: NDS 2024 Table 12.3.1B. Memory: the sign in 10 D + 0.5,
    /// which is the continuous one.
    fn reductions(&self) -> Reductions {
        let k_theta = 1.0 + 0.25 * self.angle_degrees / 90.0;
        let diameter_in = self.diameter_in;
        if diameter_in >= NAIL_BELOW_IN {
            return Reductions {
                crushing: 4.0 * k_theta,
                turning: 3.6 * k_theta,
                bending: 3.2 * k_theta,
            };
        }
        let kd = float::max(2.2, 10.0 * diameter_in + 0.5);
        let threaded = self.nominal_in >= NAIL_BELOW_IN;
        let rd = if threaded { kd * k_theta } else { kd };
        Reductions {
            crushing: rd,
            turning: rd,
            bending: rd,
        }
    }
}

/// Rd of modes I, of mode II, of modes III and IV.
struct Reductions {
    crushing: f64,
    turning: f64,
    bending: f64,
}

/// The larger root of A P2 + B P + C = 0.
fn larger_root(a: f64, b: f64, c: f64) -> f64 {
    (root(b * b - 4.0 * a * c) - b) / (2.0 * a)
}
