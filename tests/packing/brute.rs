//! The slow, obvious twin: every ordered list of one to four layers, every pair
//! of lists, scored in exact fractions and compared step by step. Shares no
//! code with the core's search.

use boltbay_core::job::{Layer, LayerKind, Moisture};
use boltbay_core::packing::PackingInput;
use boltbay_core::words::Units;

/// A list of rows, outer layer first, and its score; least is best.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scored {
    pub rows: Vec<usize>,
    pub score: Vec<i128>,
}

/// Denominator of a layer's drying: percent left at its own moisture, in 10^-4 %.
fn percent_left(moisture: Option<Moisture>) -> i128 {
    let ten_thousandths = match moisture {
        None => return 1,
        Some(Moisture::Green) => 280_000,
        Some(Moisture::Percent(percent)) => i128::from(percent.millionths()) / 100,
    };
    // FPL-RP-489: shrink = 5.062 - 0.181 M percent, 0 when green (28 %).
    // In 10^-7 %: 50_620_000 - 181 x (M in 10^-4 %).
    let shrink = if ten_thousandths >= 280_000 {
        0
    } else {
        (50_620_000 - 181 * ten_thousandths).max(0)
    };
    1_000_000_000 - shrink
}

/// Everything is scaled by this, so that no fraction is left.
fn scale(layers: &[Layer]) -> i128 {
    let mut factors: Vec<i128> = layers.iter().map(|l| percent_left(l.moisture)).collect();
    factors.sort_unstable();
    factors.dedup();
    factors.iter().product()
}

/// All lists for one side, with their scores.
fn lists(input: &PackingInput, side: usize) -> Vec<Scored> {
    let mut all = vec![Vec::new()];
    let mut last = all.clone();
    for _ in 0..4 {
        last = last
            .iter()
            .flat_map(|list| {
                (0..input.layers.len()).map(move |row| {
                    let mut longer: Vec<usize> = list.clone();
                    longer.push(row);
                    longer
                })
            })
            .filter(|list| in_order(input, list))
            .collect();
        all.extend(last.clone());
    }
    all.into_iter()
        .filter(|list| list.is_empty() || outer_is_fit(input, list))
        .filter(|list| counts_hold(input, &[list]))
        .map(|rows| Scored {
            score: score(input, side, &rows),
            rows,
        })
        .collect()
}

/// Remaining layers thickest first, equal ones in card order: other lists of the
/// same layers score worse, and leaving them out saves time.
fn in_order(input: &PackingInput, list: &[usize]) -> bool {
    list[1..].windows(2).all(|pair| {
        let [a, b] = [pair[0], pair[1]];
        let [ta, tb] = [a, b].map(|row| input.layers[row].thickness);
        ta > tb || (ta == tb && a <= b)
    })
}

fn outer_is_fit(input: &PackingInput, list: &[usize]) -> bool {
    let outer = &input.layers[list[0]];
    let least = match input.units {
        Units::Imperial => 1016 * 1437 + 508, // 1 7/16 in = 1.4375 in
        Units::Metric => 36 * 40_000,
    };
    outer.kind == LayerKind::Solid && outer.thickness.counts() >= least
}

fn counts_hold(input: &PackingInput, lists: &[&[usize]]) -> bool {
    (0..input.layers.len()).all(|row| {
        let used: usize = lists
            .iter()
            .map(|list| list.iter().filter(|&&r| r == row).count())
            .sum();
        input.layers[row]
            .count
            .is_none_or(|count| used <= usize::from(count))
    })
}

fn score(input: &PackingInput, side: usize, rows: &[usize]) -> Vec<i128> {
    let d: Vec<i128> = input.outstands[side]
        .iter()
        .map(|d| i128::from(d.counts()))
        .collect();
    let [shy, proud, aim] = [input.shy, input.proud, input.aim].map(|l| i128::from(l.counts()));
    let thick = |row: &usize| i128::from(input.layers[*row].thickness.counts());
    let scale = scale(input.layers);
    let service = percent_left(Some(Moisture::Percent(input.service)));
    let total: i128 = rows.iter().map(thick).sum();
    let dried: i128 = rows
        .iter()
        .map(|row| match input.layers[*row].moisture {
            None => thick(row) * scale,
            moisture => thick(row) * service * (scale / percent_left(moisture)),
        })
        .sum();
    let miss = |total: i128, scale: i128| {
        d.iter()
            .map(|d| {
                let low = (d - shy) * scale;
                let high = (d + proud) * scale;
                (low - total).max(total - high).max(0)
            })
            .max()
            .expect("an outstand")
    };
    let twice_aim = d.iter().min().unwrap() + d.iter().max().unwrap() + 2 * aim;
    let mut score = vec![
        i128::from(rows.is_empty()),
        miss(total, 1),
        miss(dried, scale),
        (2 * total - twice_aim).abs(),
        rows.len() as i128,
        -rows.first().map_or(0, thick),
        total,
    ];
    score.extend((1..4).map(|at| -rows.get(at).map_or(0, thick)));
    score
}

/// The best list for each side that has outstands.
pub fn choose(input: &PackingInput) -> [Option<Vec<usize>>; 2] {
    let sides = [0, 1].map(|side| (!input.outstands[side].is_empty()).then(|| lists(input, side)));
    match sides {
        [Some(n), Some(s)] => {
            let mut best: Option<(Vec<i128>, &[usize], &[usize])> = None;
            for a in &n {
                for b in &s {
                    if !counts_hold(input, &[&a.rows, &b.rows]) {
                        continue;
                    }
                    let sum: Vec<i128> = a.score.iter().zip(&b.score).map(|(x, y)| x + y).collect();
                    let key = (sum, a.rows.as_slice(), b.rows.as_slice());
                    if best.as_ref().is_none_or(|best| key < *best) {
                        best = Some(key);
                    }
                }
            }
            let (_, a, b) = best.expect("no stack at all is a pair too");
            [Some(a.to_vec()), Some(b.to_vec())]
        }
        one => one.map(|side| {
            let side = side?;
            let best = side
                .iter()
                .min_by_key(|s| (s.score.clone(), s.rows.clone()));
            Some(best.expect("no stack at all is a list too").rows.clone())
        }),
    }
}
