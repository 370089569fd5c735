//! The questions that must be asked about joists as they stand, worked out the
//! long way: every pair looked at, fractions compared by cross-multiplying.

use boltbay_core::caution::Caution;
use boltbay_core::length::Length;
use boltbay_core::words::{Side, Units};

/// A joist: twice its faces, in counts.
#[derive(Clone, Copy)]
pub struct Standing {
    pub from_twice: i64,
    pub to_twice: i64,
    pub guessed: bool,
}

impl Standing {
    /// Twice the centre of the joist as stored: faces rounded out to counts.
    fn centre_twice(&self) -> i64 {
        self.from() + self.to()
    }

    fn from(&self) -> i64 {
        self.from_twice.div_euclid(2)
    }

    fn to(&self) -> i64 {
        -(-self.to_twice).div_euclid(2)
    }
}

fn length(counts: i64) -> Length {
    Length::from_counts(i32::try_from(counts).expect("in range"))
}

/// The median as a fraction: numerator over 2.
fn median_over_2(values: &[i64]) -> Option<i64> {
    let mut sorted = values.to_vec();
    sorted.sort_unstable();
    let count = sorted.len();
    if count == 0 {
        return None;
    }
    let middle = if count % 2 == 1 {
        2 * sorted[count / 2]
    } else {
        sorted[count / 2 - 1] + sorted[count / 2]
    };
    Some(middle)
}

/// Bays of a side, doubled: centre to centre.
fn bays_twice(joists: &[Standing]) -> Vec<i64> {
    (1..joists.len())
        .map(|i| joists[i].centre_twice() - joists[i - 1].centre_twice())
        .collect()
}

fn number(index: usize) -> u8 {
    u8::try_from(index + 1).expect("few")
}

/// Everything but what concerns runs and burns.
pub fn questions(
    units: Units,
    n: &[Standing],
    s: &[Standing],
    faces: (i64, i64),
    counts: [Option<u16>; 2],
) -> Vec<Caution> {
    let mut asked = Vec::new();
    for (side, joists) in [(Side::N, n), (Side::S, s)] {
        one_side(side, joists, faces, &mut asked);
        let read = u16::try_from(joists.len()).expect("few");
        if let Some(counted) = counts[side.index()].filter(|c| *c != read) {
            asked.push(Caution::CountDiffers {
                side,
                counted,
                read,
            });
        }
        let guessed = joists.iter().filter(|j| j.guessed).count();
        if guessed > 0 {
            asked.push(Caution::Guessed {
                side,
                guessed: u16::try_from(guessed).expect("few"),
                of: read,
            });
        }
    }
    pairs(units, n, s, &mut asked);
    asked
}

fn one_side(side: Side, joists: &[Standing], faces: (i64, i64), asked: &mut Vec<Caution>) {
    for (i, joist) in joists.iter().enumerate() {
        if joist.from() < faces.0 || joist.to() > faces.1 {
            let joist = number(i);
            asked.push(Caution::JoistOffSpan { side, joist });
        }
        // The one before it that reaches farthest toward B, the latest of equals.
        let before = (0..i).max_by_key(|b| (joists[*b].to(), *b));
        if let Some(b) = before {
            let by = joists[b].to() - joist.from();
            // One count is rounding, not wood.
            if by > 1 {
                asked.push(Caution::JoistsOverlap {
                    side,
                    first: number(b),
                    second: number(i),
                    by: length(by),
                });
            }
        }
    }
    let bays = bays_twice(joists);
    // Over 2 and doubled: four times the usual bay.
    let Some(usual) = median_over_2(&bays) else {
        return;
    };
    for (i, bay) in bays.iter().enumerate() {
        // bay / 2 > 1.6 usual / 4, that is 20 bay > 16 usual.
        if usual > 0 && 20 * bay > 16 * usual {
            asked.push(Caution::JoistMissed {
                side,
                after: number(i),
                gap: length(bay / 2),
                usual: length(usual / 4),
            });
        }
    }
    for i in 1..bays.len() {
        let too_wide = 2 * bays[i - 1] - usual;
        let too_narrow = usual - 2 * bays[i];
        let figures = [1_016_000, 10_160_000, 12_192_000, 4_000_000];
        if too_wide == too_narrow && figures.iter().any(|f| 4 * f == too_wide.abs()) {
            asked.push(Caution::ReadingSlip {
                side,
                joist: number(i),
                by: length(too_wide / 4),
            });
        }
    }
}

fn pairs(units: Units, n: &[Standing], s: &[Standing], asked: &mut Vec<Caution>) {
    let limit = match units {
        Units::Imperial => 381_000,
        Units::Metric => 400_000,
    };
    let usual = median_over_2(&bays_twice(n));
    let mut found = Vec::new();
    for (i, joist) in n.iter().enumerate() {
        let mut nearest: Option<(usize, i64)> = None;
        for (k, other) in s.iter().enumerate() {
            let offset = other.centre_twice() - joist.centre_twice();
            if nearest.is_none_or(|(_, so_far)| offset.abs() < so_far.abs()) {
                nearest = Some((k, offset));
            }
        }
        let Some((k, offset)) = nearest else { continue };
        // Farther than half a usual bay: offset / 2 > usual / 8.
        if usual.is_some_and(|usual| offset.abs() > usual / 4) {
            continue;
        }
        found.push((i, k, offset, joist.guessed || s[k].guessed));
    }
    let read: Vec<i64> = found.iter().filter(|f| !f.3).map(|f| f.2).collect();
    let Some(median) = median_over_2(&read) else {
        return;
    };
    for (i, k, offset, _) in found {
        if (2 * offset - median).abs() > 4 * limit {
            asked.push(Caution::PairOutlier {
                n: number(i),
                s: number(k),
                offset: length(offset / 2),
                median: length(median / 4),
            });
        }
    }
}
