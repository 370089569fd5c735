//! Generated cutting jobs, by family, and the audit of a cut list. For the
//! tests and for the benchmark harness; calls nothing of the core's solver.

pub mod solver;
pub mod table;

use crate::judges::dice::Dice;
use boltbay_core::Length;
use boltbay_core::cutting::{CuttingInput, Wanted};
use boltbay_core::job::{Stick, StickSource};
use boltbay_core::rods::Rods;

/// A cutting job that owns its lists.
#[derive(Clone, Debug)]
pub struct Cutting {
    /// Pieces, each length once.
    pub pieces: Vec<Wanted>,
    /// Sticks.
    pub sticks: Vec<Stick>,
    /// Width of a cut.
    pub kerf: Length,
    /// Ends trimmed.
    pub trim: bool,
}

impl Cutting {
    /// As the core takes it.
    pub fn input(&self) -> CuttingInput<'_> {
        CuttingInput {
            pieces: &self.pieces,
            sticks: &self.sticks,
            kerf: self.kerf,
            trim: self.trim,
        }
    }

    /// Pieces that at least one stick is long enough for.
    pub fn cuttable(&self) -> Vec<Wanted> {
        let kerf = if self.trim { self.kerf.counts() } else { 0 };
        let longest = self.sticks.iter().map(|stick| stick.length.counts()).max();
        let fits = |piece: &&Wanted| {
            longest.is_some_and(|longest| piece.length.counts() + kerf <= longest)
        };
        self.pieces.iter().filter(fits).copied().collect()
    }
}

/// What kind of job is generated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Family {
    /// What a crew has: one or two rod lengths, one to three piece lengths.
    Usual,
    /// Up to 15 pieces, offcuts, counted rods: for general solvers.
    Small,
    /// Few pieces a stick: waste is in the patterns.
    Coarse,
    /// Many pieces a stick, many offcuts: waste is next to nothing.
    Fine,
    /// 120 pieces of 6 lengths, several rods and offcuts.
    Full,
    /// The same, all lengths in 1/64 in or 1/2 mm: nothing divides anything.
    Odd,
    /// Limited stock that may not suffice.
    Scarce,
}

/// All families.
pub const FAMILIES: [Family; 7] = [
    Family::Usual,
    Family::Small,
    Family::Coarse,
    Family::Fine,
    Family::Full,
    Family::Odd,
    Family::Scarce,
];

/// Eighths of an inch, or pairs of millimetres.
fn steps(metric: bool, count: i64) -> Length {
    let count = i32::try_from(count).expect("fits");
    if metric {
        Length::from_millimetres(2 * count)
    } else {
        Length::from_sixteenths(2 * count)
    }
}

/// Stock lengths that shops sell, in eighths of an inch and in pairs of mm.
fn stock(dice: &mut Dice, metric: bool) -> Length {
    let imperial = [288, 384, 576, 768, 960, 1_152];
    let pairs = [500, 1_000, 1_500];
    let count = if metric {
        dice.pick(&pairs)
    } else {
        dice.pick(&imperial)
    };
    steps(metric, count)
}

/// One job of a family; the same seed gives the same job.
pub fn generate(family: Family, seed: u64) -> Cutting {
    let mut dice = Dice::new(seed ^ ((family as u64) << 40));
    let metric = dice.chance(1, 4);
    let (lengths, pieces, least, most) = match family {
        Family::Usual => (dice.between(1, 3), dice.between(6, 60), 38, 90),
        Family::Small => (dice.between(1, 4), dice.between(3, 14), 40, 200),
        Family::Coarse => (dice.between(3, 6), dice.between(30, 110), 70, 200),
        Family::Fine => (dice.between(2, 6), dice.between(20, 110), 30, 110),
        Family::Full | Family::Odd => (6, 120, 35, 140),
        Family::Scarce => (dice.between(1, 5), dice.between(8, 60), 40, 150),
    };
    let mut sticks = sticks(&mut dice, family, metric);
    let mut wanted: Vec<Wanted> = Vec::new();
    for _ in 0..lengths {
        let length = steps(metric, dice.between(least, most));
        if wanted.iter().all(|piece| piece.length != length) {
            wanted.push(Wanted { length, count: 1 });
        }
    }
    if family == Family::Odd {
        let lengths = wanted.iter_mut().map(|piece| &mut piece.length);
        for length in lengths.chain(sticks.iter_mut().map(|stick| &mut stick.length)) {
            let step = if metric { 20_000 } else { 15_875 };
            let odd = i32::try_from(dice.between(-3, 3)).expect("fits") * step;
            *length = Length::from_counts(length.counts() + odd);
        }
    }
    let mut seen = Vec::new();
    wanted.retain(|piece| {
        let new = !seen.contains(&piece.length);
        seen.push(piece.length);
        new
    });
    let kinds = wanted.len() as i64;
    for _ in 0..pieces - kinds {
        let which = dice.between(0, kinds - 1) as usize;
        wanted[which].count += 1;
    }
    let kerf = dice.pick(&[2, 2, 2, 1, 3, 0]);
    Cutting {
        pieces: wanted,
        sticks,
        kerf: if metric {
            Length::from_millimetres(kerf + 1)
        } else {
            Length::from_sixteenths(kerf)
        },
        trim: dice.chance(1, 4),
    }
}

fn sticks(dice: &mut Dice, family: Family, metric: bool) -> Vec<Stick> {
    let (rods, offcuts) = match family {
        Family::Usual => (dice.between(1, 2), dice.between(0, 2)),
        Family::Small => (dice.between(1, 3), dice.between(0, 3)),
        Family::Coarse => (dice.between(1, 3), dice.between(0, 4)),
        Family::Fine => (dice.between(1, 3), dice.between(2, 9)),
        Family::Full | Family::Odd => (dice.between(1, 5), dice.between(0, 10)),
        Family::Scarce => (dice.between(0, 2), dice.between(1, 6)),
    };
    let mut sticks = Vec::new();
    for n in 0..rods {
        let counted = family == Family::Scarce || (n > 0 && dice.chance(1, 2));
        sticks.push(Stick {
            length: if dice.chance(3, 4) {
                stock(dice, metric)
            } else {
                steps(metric, dice.between(260, 1_200))
            },
            count: counted.then(|| dice.between(1, 5) as u16),
            source: StickSource::Rod,
        });
    }
    for _ in 0..offcuts {
        sticks.push(Stick {
            length: steps(metric, dice.between(50, 420)),
            count: Some(dice.between(1, 3) as u16),
            source: StickSource::Offcut,
        });
    }
    sticks
}

/// Bought length, bought sticks, offcut length opened.
pub type Cost = (i64, u64, i64);

/// Judges a cut list from the card's side: every piece is cut as often as asked
/// (less what is said to be uncut), every stick exists and holds its pieces, what
/// is left is right, the sums are right. Gives the cost.
pub fn audit(job: &Cutting, rods: &Rods) -> Cost {
    let kerf = i64::from(job.kerf.counts());
    let mut cut = vec![0_u64; rods.lengths.len()];
    let mut cost = (0, 0, 0);
    for stick in &rods.sticks {
        let stock = i64::from(stick.stock.counts());
        let (mut sum, mut pieces) = (0, 0);
        for (n, length) in rods.lengths.iter().enumerate() {
            let each = i64::from(stick.cuts[n]);
            sum += each * i64::from(length.counts());
            pieces += each;
            cut[n] += u64::from(stick.cuts[n]) * u64::from(stick.count);
        }
        assert!(pieces > 0, "an empty stick is listed");
        assert!(
            stick.cuts[rods.lengths.len()..]
                .iter()
                .all(|&cuts| cuts == 0)
        );
        let cuts = pieces - 1 + i64::from(job.trim);
        assert!(
            sum + cuts * kerf <= stock,
            "a stick is too short for its pieces"
        );
        let left = (stock - sum - (pieces + i64::from(job.trim)) * kerf).max(0);
        assert_eq!(i64::from(stick.left.counts()), left);
        let total = stock * i64::from(stick.count);
        match stick.source {
            StickSource::Rod => {
                cost.0 += total;
                cost.1 += u64::from(stick.count);
            }
            StickSource::Offcut => cost.2 += total,
        }
    }
    for piece in &job.pieces {
        let at = rods
            .lengths
            .iter()
            .position(|&length| length == piece.length);
        let uncut = rods
            .uncut
            .iter()
            .find(|(length, _)| *length == piece.length);
        match at {
            Some(at) => {
                let uncut = uncut.map_or(0, |&(_, count)| u64::from(count));
                assert_eq!(cut[at] + uncut, u64::from(piece.count));
            }
            None => assert!(rods.too_long.contains(&piece.length)),
        }
    }
    supplies_hold(job, rods);
    assert_eq!(
        rods.feasible,
        rods.too_long.is_empty() && rods.uncut.is_empty()
    );
    assert_eq!(rods.bought_counts, cost.0);
    assert_eq!(u64::from(rods.bought_sticks), cost.1);
    assert_eq!(rods.offcut_counts, cost.2);
    cost
}

/// No more sticks of a length and source are used than there are.
fn supplies_hold(job: &Cutting, rods: &Rods) {
    for stick in &rods.sticks {
        let same =
            |length: Length, source: StickSource| length == stick.stock && source == stick.source;
        let used: u64 = rods
            .sticks
            .iter()
            .filter(|other| same(other.stock, other.source))
            .map(|other| u64::from(other.count))
            .sum();
        let rows: Vec<_> = job
            .sticks
            .iter()
            .filter(|row| same(row.length, row.source))
            .collect();
        assert!(!rows.is_empty(), "a stick that nobody has");
        if let Some(there) = rows
            .iter()
            .map(|row| row.count.map(u64::from))
            .sum::<Option<u64>>()
        {
            assert!(used <= there, "{used} sticks of {there}");
        }
    }
}
