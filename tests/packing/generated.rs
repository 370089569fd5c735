//! Generated stocks against the twin: counts shared by both sides, green wood,
//! ties, spread outstands, metric, stock that fits nothing.

use super::brute;
use crate::judges::dice::Dice;
use boltbay_core::Length;
use boltbay_core::decimal::Decimal;
use boltbay_core::job::{Layer, LayerKind, Moisture};
use boltbay_core::packing::{self, PackingInput, Stack};
use boltbay_core::words::{Name, Units};

/// One generated case.
struct Case {
    layers: Vec<Layer>,
    outstands: [Vec<Length>; 2],
    shy: Length,
    proud: Length,
    aim: Length,
    service: Decimal,
    units: Units,
}

impl Case {
    fn input(&self) -> PackingInput<'_> {
        PackingInput {
            outstands: [&self.outstands[0], &self.outstands[1]],
            layers: &self.layers,
            shy: self.shy,
            proud: self.proud,
            aim: self.aim,
            service: self.service,
            units: self.units,
            space: None,
        }
    }
}

fn case(seed: u64) -> Case {
    let mut dice = Dice::new(seed);
    let units = if dice.chance(1, 3) {
        Units::Metric
    } else {
        Units::Imperial
    };
    // A coarse step makes ties, a fine one makes near misses.
    let step = match units {
        Units::Imperial => dice.pick(&[2, 4, 8]) * 15_875,
        Units::Metric => dice.pick(&[20_000, 40_000, 4_000]),
    };
    let inch = 1_016_000;
    let steps = move |dice: &mut Dice, least: i64, most: i64| {
        let count = dice.between(
            least * inch / 16 / i64::from(step),
            most * inch / 16 / i64::from(step),
        );
        Length::from_counts(i32::try_from(count).unwrap() * step)
    };
    let moistures: Vec<Option<Moisture>> = (0..dice.between(1, 3))
        .map(|_| match dice.between(0, 3) {
            0 => None,
            1 => Some(Moisture::Green),
            2 => Some(Moisture::Percent(
                Decimal::whole(dice.between(6, 30) as i32),
            )),
            _ => Some(Moisture::Percent(Decimal::new(
                dice.between(60, 290) as i32,
                1,
            ))),
        })
        .collect();
    let counted = dice.between(0, 2);
    let mut layers = Vec::new();
    for _ in 0..dice.between(1, 5) {
        let thick = dice.chance(1, 2);
        layers.push(Layer {
            name: Name::new(),
            thickness: if thick {
                steps(&mut dice, 20, 32)
            } else {
                steps(&mut dice, 3, 16)
            },
            kind: if dice.chance(2, 3) {
                LayerKind::Solid
            } else {
                LayerKind::Sheet
            },
            moisture: dice.pick(&moistures),
            count: match counted {
                0 => None,
                1 => Some(dice.between(1, 4) as u16),
                _ => dice.chance(1, 2).then(|| dice.between(1, 3) as u16),
            },
        });
    }
    // Half of the pockets are near a sum of layers, so that stacks fit.
    let near = if dice.chance(1, 2) {
        steps(&mut dice, 24, 80)
    } else {
        let some = (0..dice.between(2, 4)).map(|_| {
            layers[dice.between(0, layers.len() as i64 - 1) as usize]
                .thickness
                .counts()
        });
        Length::from_counts(some.sum())
    };
    let outstands = [0, 1].map(|side| {
        if side == 1 && dice.chance(1, 6) {
            return Vec::new();
        }
        let apart = dice.pick(&[0, 2, 6]);
        (0..dice.between(1, 3))
            .map(|_| {
                let off = steps(&mut dice, 0, apart);
                Length::from_counts(near.counts() + off.counts())
            })
            .collect()
    });
    let fine =
        |dice: &mut Dice, most: i64| Length::from_counts(dice.between(0, most) as i32 * 15_875);
    Case {
        layers,
        outstands,
        shy: fine(&mut dice, 6),
        proud: fine(&mut dice, 8),
        aim: Length::from_counts(fine(&mut dice, 8).counts() - 4 * 15_875),
        service: dice.pick(&[Decimal::whole(12), Decimal::whole(8), Decimal::new(105, 1)]),
        units,
    }
}

/// The rows of a stack, outer layer first, as the twin lists them.
fn rows(stack: &Stack) -> Vec<usize> {
    let web_to_face = stack.layers.iter().map(|layer| usize::from(layer.layer));
    web_to_face.rev().collect()
}

fn agrees(seed: u64) {
    let case = case(seed);
    let input = case.input();
    let found = packing::choose(&input);
    let wanted = brute::choose(&input);
    let listed = [0, 1].map(|side| found[side].as_ref().map(rows));
    assert_eq!(listed, wanted, "case {seed}");
    for side in [0, 1] {
        if let Some(stack) = &found[side] {
            figures_hold(&case, side, stack);
        }
    }
}

/// Total, miss, error and verdict follow from the listed layers.
fn figures_hold(case: &Case, side: usize, stack: &Stack) {
    let total: i32 = stack.layers.iter().map(|l| l.thickness.counts()).sum();
    assert_eq!(stack.total.counts(), total);
    let d = case.outstands[side].iter().map(|d| d.counts());
    let miss = d
        .clone()
        .map(|d| {
            (d - case.shy.counts() - total)
                .max(total - d - case.proud.counts())
                .max(0)
        })
        .max()
        .unwrap();
    assert_eq!(stack.miss.counts(), miss);
    assert_eq!(stack.feasible, miss == 0 && !stack.layers.is_empty());
    let middle = (d.clone().min().unwrap() + d.max().unwrap()).div_euclid(2);
    assert_eq!(stack.target.counts(), middle + case.aim.counts());
    assert_eq!(stack.error.counts(), total - stack.target.counts());
}

#[test]
fn stacks_agree_with_the_twin() {
    let cases = if cfg!(feature = "soak") { 6_000 } else { 400 };
    for seed in 0..cases {
        agrees(seed);
    }
}

/// The cases are what they should be: shared counts that bind, green wood,
/// infeasible ones, both units.
#[test]
fn generated_cases_cover_what_matters() {
    let (mut binding, mut green, mut metric, mut empty) = (0, 0, 0, 0);
    let (mut fits, mut misses) = (0, 0);
    for seed in 0..400 {
        let case = case(seed);
        let input = case.input();
        let found = packing::choose(&input);
        let alone = [0, 1].map(|side| {
            let mut one = input;
            one.outstands[1 - side] = &[];
            packing::choose(&one)[side].as_ref().map(rows)
        });
        binding += usize::from(alone != [0, 1].map(|side| found[side].as_ref().map(rows)));
        green += usize::from(
            case.layers
                .iter()
                .any(|l| l.moisture == Some(Moisture::Green)),
        );
        fits += found
            .iter()
            .flatten()
            .filter(|stack| stack.feasible)
            .count();
        misses += found
            .iter()
            .flatten()
            .filter(|stack| !stack.feasible)
            .count();
        empty += usize::from(found.iter().flatten().any(|stack| stack.layers.is_empty()));
        metric += usize::from(case.units == Units::Metric);
    }
    assert!(binding >= 40, "shared counts bind in {binding}");
    assert!(green >= 60, "green wood in {green}");
    assert!(fits >= 100 && misses >= 100, "{fits} fit, {misses} miss");
    assert!(empty >= 5, "no outer layer in {empty}");
    assert!(metric >= 60, "metric in {metric}");
}

/// The full card: 16 layers, all counted, both sides.
#[test]
fn sixteen_counted_layers_take_little_time() {
    let mut dice = Dice::new(16);
    let layers: Vec<Layer> = (0..16)
        .map(|at| Layer {
            name: Name::new(),
            thickness: Length::from_sixty_fourths(dice.between(12, 120) as i32),
            kind: if at % 3 == 0 {
                LayerKind::Sheet
            } else {
                LayerKind::Solid
            },
            moisture: dice
                .chance(1, 2)
                .then(|| Moisture::Percent(Decimal::whole(19))),
            count: Some(dice.between(1, 2) as u16),
        })
        .collect();
    let started = std::time::Instant::now();
    for depth in 150..350 {
        let outstands = [
            [Length::from_sixty_fourths(depth)],
            [Length::from_sixty_fourths(depth + 3)],
        ];
        let input = PackingInput {
            outstands: [&outstands[0], &outstands[1]],
            layers: &layers,
            shy: Length::from_sixteenths(1),
            proud: Length::from_sixteenths(2),
            aim: Length::ZERO,
            service: Decimal::whole(12),
            units: Units::Imperial,
            space: None,
        };
        assert!(packing::choose(&input).iter().all(Option::is_some));
    }
    let each = started.elapsed() / 200;
    eprintln!("16 counted layers, both sides: {each:?} a choice");
    assert!(each.as_millis() < 20, "{each:?} a choice");
}
