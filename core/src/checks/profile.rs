//! The profile: a section in inches, as the strength formulas take it.
//!
//! In: a [`Section`]. Out: dimensions with k design, and the moduli. A shape of
//! the table has the published ones. A shape off the card gives Ix, Sx and Zx;
//! what no card row holds (ry, rts, J, ho) follows from its plates and fillets.
//! Source: AISC 360-22 F2 (rts, c = 1, ho); plates and fillets are geometry;
//! J leaves the fillets out, which makes it smaller.

use crate::check::Lack;
use crate::float::root;
use crate::shapes::Section;

/// Dimensions in inches.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Profile {
    /// Overall depth d.
    pub depth_in: f64,
    /// Flange width bf.
    pub width_in: f64,
    /// Web thickness tw.
    pub web_in: f64,
    /// Flange thickness tf.
    pub flange_in: f64,
    /// k design: outer flange face to web toe of the fillet.
    pub k_in: f64,
}

/// What bending about the strong axis takes.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Moduli {
    /// Elastic modulus Sx, in3.
    pub sx_in3: f64,
    /// Plastic modulus Zx, in3.
    pub zx_in3: f64,
    /// Radius of gyration ry, in.
    pub ry_in: f64,
    /// Effective radius of gyration rts, in.
    pub rts_in: f64,
    /// Torsional constant J, in4.
    pub j_in4: f64,
    /// Between the flange centroids, ho, in.
    pub ho_in: f64,
}

impl Profile {
    /// The dimensions of a section.
    ///
    /// # Errors
    /// `shape` for a shape off the card that is none: no plate, or plates that
    /// overlap.
    pub fn of(section: &Section) -> Result<Profile, Lack> {
        let profile = Profile {
            depth_in: section.depth().as_inches(),
            width_in: section.width().as_inches(),
            web_in: section.web().as_inches(),
            flange_in: section.flange().as_inches(),
            k_in: section.k_design().as_inches(),
        };
        let plates = profile.web_in > 0.0
            && profile.flange_in > 0.0
            && profile.width_in > profile.web_in
            && profile.k_in >= profile.flange_in
            && profile.depth_in > 2.0 * profile.k_in;
        plates.then_some(profile).ok_or(Lack::Row("shape"))
    }

    /// Height of the web between the fillets over its thickness, h/tw.
    pub fn web_slenderness(&self) -> f64 {
        (self.depth_in - 2.0 * self.k_in) / self.web_in
    }

    /// Half the flange width over its thickness, bf/2tf.
    pub fn flange_slenderness(&self) -> f64 {
        self.width_in / (2.0 * self.flange_in)
    }

    /// Moduli of the section, published or of its plates.
    ///
    /// # Errors
    /// The fields where a shape off the card has no Sx or Zx.
    pub fn moduli(&self, section: &Section) -> Result<Moduli, Lack> {
        let (Some(sx_in3), Some(zx_in3)) = (section.sx(), section.zx()) else {
            return Err(Lack::Field("row shape has no SX and ZX"));
        };
        let published = || {
            Some(Moduli {
                sx_in3,
                zx_in3,
                ry_in: section.ry()?,
                rts_in: section.rts()?,
                j_in4: section.j()?,
                ho_in: section.ho()?,
            })
        };
        Ok(published().unwrap_or_else(|| self.of_plates(sx_in3, zx_in3)))
    }

    /// ry, rts, J and ho of two flanges, a web and four fillets of radius
    /// k design - tf.
    fn of_plates(&self, sx_in3: f64, zx_in3: f64) -> Moduli {
        let (b, t, w) = (self.width_in, self.flange_in, self.web_in);
        let clear = self.depth_in - 2.0 * t;
        let fillet = self.k_in - t;
        let corner = fillet * fillet * (1.0 - core::f64::consts::FRAC_PI_4);
        let area = 2.0 * b * t + clear * w + 4.0 * corner;
        let iy = (2.0 * t * b * b * b + clear * w * w * w) / 12.0;
        let ho_in = self.depth_in - t;
        Moduli {
            sx_in3,
            zx_in3,
            ry_in: root(iy / area),
            // rts2 = sqrt(Iy Cw) / Sx with Cw = Iy ho2 / 4.
            rts_in: root(iy * ho_in / (2.0 * sx_in3)),
            j_in4: (2.0 * b * t * t * t + clear * w * w * w) / 3.0,
            ho_in,
        }
    }
}
