//! Standard threads, nuts, washers and holes, by bolt diameter.
//!
//! In: a diameter. Out: a row of the table, or nothing. Rule: a figure is the
//! published one; a greatest value is what must be allowed for. The tensile and
//! root figures follow from the thread's geometry.
//!
//! Source, inch sizes: ASME B1.1 (coarse threads), ASME B18.2.2 Table 2 (hex
//! nuts), ASME B18.21.1-2009 Table 12 (washers, type A, wide and narrow), AISC
//! 360-22 Table J3.3 (standard holes).
//! Source, metric sizes: ISO 262 and ISO 724 (coarse threads), ISO 4032 (nuts),
//! ISO 7089 and ISO 7093-1 (washers), AISC 360-22 Table J3.3M (M16, M20).
//! The 1 in hole is 1 1/8 in from the 2016 edition on and was 1 1/16 in before.
//! Memory: the wide washers of 7/8 and 1 in.
//! Practice: the 3/8 in hole (7/16) and those of M10 and M12 (12, 14) are in
//! neither table; they follow its D + 1/16 in and D + 2 mm.

use crate::length::Length;

/// A thread's pitch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Pitch {
    /// Threads in one inch.
    PerInch(u8),
    /// Hundredths of a millimetre from thread to thread.
    Hundredths(u16),
}

/// A coarse thread.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Thread {
    /// Nominal diameter D.
    pub diameter: Length,
    /// Pitch P.
    pub pitch: Pitch,
}

/// A dimension with its greatest value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Thickness {
    /// As the standard names it.
    pub nominal: Length,
    /// The greatest that the standard allows.
    pub greatest: Length,
}

/// A round plain washer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct StandardWasher {
    /// Outside diameter, nominal.
    pub size: Length,
    /// Thickness.
    pub thickness: Thickness,
}

/// A hexagon nut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct StandardNut {
    /// Thickness.
    pub thickness: Thickness,
    /// Greatest width across corners.
    pub across_corners: Length,
}

/// What belongs to one bolt diameter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Standard {
    /// Thread.
    pub thread: Thread,
    /// Standard hole in steel.
    pub web_hole: Length,
    /// Nut.
    pub nut: StandardNut,
    /// Washers, largest first.
    pub washers: [StandardWasher; 2],
    /// Index of the washer that stands in where the card names none.
    pub usual: u8,
}

/// Inch sizes: diameter in eighths, threads per inch, hole in sixteenths; nut
/// basic thickness in sixty-fourths, then greatest thickness and corners, and
/// washers (outside diameter, thickness, greatest thickness), in thousandths.
const fn inch(
    [diameter, per_inch, hole]: [i32; 3],
    [nut, nut_greatest, corners]: [i32; 3],
    wide: [i32; 3],
    narrow: [i32; 3],
) -> Standard {
    Standard {
        thread: Thread {
            diameter: Length::from_sixteenths(2 * diameter),
            pitch: Pitch::PerInch(per_inch as u8),
        },
        web_hole: Length::from_sixteenths(hole),
        nut: StandardNut {
            thickness: Thickness {
                nominal: Length::from_sixty_fourths(nut),
                greatest: Length::from_thousandths(nut_greatest),
            },
            across_corners: Length::from_thousandths(corners),
        },
        washers: [inch_washer(wide), inch_washer(narrow)],
        usual: 0,
    }
}

/// Outside diameter, thickness, greatest thickness in thousandths.
const fn inch_washer([size, nominal, greatest]: [i32; 3]) -> StandardWasher {
    StandardWasher {
        size: Length::from_thousandths(size),
        thickness: Thickness {
            nominal: Length::from_thousandths(nominal),
            greatest: Length::from_thousandths(greatest),
        },
    }
}

/// Metric sizes: diameter in mm, pitch in hundredths of a mm, hole in mm; nut
/// thickness (nominal and greatest are one) in tenths of a mm and greatest
/// corners in hundredths; washers (outside diameter in mm, thickness, greatest
/// thickness in tenths).
///
/// ISO 4032 gives the least width across corners. The greatest is that of a
/// sharp hexagon of the greatest width across flats (16, 18, 24, 30 mm):
/// 2 / sqrt 3 times as much, rounded up to 0.01 mm.
const fn metric(
    [diameter, pitch, hole]: [i32; 3],
    [nut, corners]: [i32; 2],
    large: [i32; 3],
    normal: [i32; 3],
) -> Standard {
    let nut = Length::from_tenth_millimetres(nut);
    Standard {
        thread: Thread {
            diameter: Length::from_millimetres(diameter),
            pitch: Pitch::Hundredths(pitch as u16),
        },
        web_hole: Length::from_millimetres(hole),
        nut: StandardNut {
            thickness: Thickness {
                nominal: nut,
                greatest: nut,
            },
            across_corners: Length::from_counts(HUNDREDTH_MILLIMETRE * corners),
        },
        washers: [metric_washer(large), metric_washer(normal)],
        usual: 1,
    }
}

/// Outside diameter in mm, thickness and greatest thickness in tenths.
const fn metric_washer([size, nominal, greatest]: [i32; 3]) -> StandardWasher {
    StandardWasher {
        size: Length::from_millimetres(size),
        thickness: Thickness {
            nominal: Length::from_tenth_millimetres(nominal),
            greatest: Length::from_tenth_millimetres(greatest),
        },
    }
}

/// Counts in 0.01 mm.
const HUNDREDTH_MILLIMETRE: i32 = Length::from_millimetres(1).counts() / 100;

/// All standard bolts: inch sizes, then metric ones, thin first.
#[rustfmt::skip]
pub static STANDARDS: [Standard; 10] = [
    inch([3, 16,  7], [21,  337,  650], [1_000,  83, 104], [  812,  65,  80]),
    inch([4, 13,  9], [28,  448,  866], [1_375, 109, 132], [1_062,  95, 121]),
    inch([5, 11, 11], [35,  559, 1_083], [1_750, 134, 160], [1_312,  95, 121]),
    inch([6, 10, 13], [41,  665, 1_299], [2_000, 148, 177], [1_469, 134, 160]),
    inch([7,  9, 15], [48,  776, 1_516], [2_250, 165, 192], [1_750, 134, 160]),
    inch([8,  8, 18], [55,  887, 1_732], [2_500, 165, 192], [2_000, 134, 160]),
    metric([10, 150, 12], [ 84, 1_848], [30, 25, 27], [20, 20, 22]),
    metric([12, 175, 14], [108, 2_079], [37, 30, 33], [24, 25, 27]),
    metric([16, 200, 18], [148, 2_772], [50, 30, 33], [30, 30, 33]),
    metric([20, 250, 22], [180, 3_465], [60, 40, 43], [37, 30, 33]),
];

impl Standard {
    /// The row of this diameter; exact, for a bolt is one size or another.
    pub fn of(diameter: Length) -> Option<&'static Standard> {
        STANDARDS
            .iter()
            .find(|standard| standard.thread.diameter == diameter)
    }

    /// The washer that stands in where the card names none: type A wide, or ISO
    /// 7089.
    pub fn usual_washer(&self) -> &StandardWasher {
        let [large, small] = &self.washers;
        if self.usual == 0 { large } else { small }
    }
}

impl Thread {
    /// Pitch in inches.
    pub fn pitch_inches(&self) -> f64 {
        match self.pitch {
            Pitch::PerInch(threads) => 1.0 / f64::from(threads),
            Pitch::Hundredths(pitch) => f64::from(pitch) / 2540.0,
        }
    }

    /// Tensile stress area in in2.
    /// Source: ASME B1.1, pi/4 (D - 0.9743 / n)2; ISO 898-1, pi/4 (d - 0.9382 P)2,
    /// which it writes by way of pitch and root diameter.
    pub fn tensile_area(&self) -> f64 {
        let factor = match self.pitch {
            Pitch::PerInch(_) => 0.9743,
            Pitch::Hundredths(_) => 0.9382,
        };
        let across = self.diameter.as_inches() - factor * self.pitch_inches();
        core::f64::consts::FRAC_PI_4 * across * across
    }

    /// Root (external minor) diameter in inches.
    /// Source: ASME B1.1, D - 1.22687 / n; ISO 724 and ISO 68-1, d - 1.22687 P.
    pub fn root(&self) -> f64 {
        self.diameter.as_inches() - 1.226_87 * self.pitch_inches()
    }
}
