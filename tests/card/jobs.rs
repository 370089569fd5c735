//! Arbitrary valid jobs from a seed: every kind of row, every optional field
//! there or not, up to every capacity.

use super::dice::{Dice, Place};
use boltbay_core::decimal::Decimal;
use boltbay_core::job::loads::LoadSide;
use boltbay_core::job::*;
use boltbay_core::words::{End, Row, Side, Sides, Units};
use boltbay_core::{Job, Length};

/// A valid job.
pub fn job(seed: u64) -> Job {
    let dice = &mut Dice(seed);
    let mut job = Job::new(dice.pick(&[Units::Imperial, Units::Metric]));
    if dice.coin() {
        let mut text = format!("{} {}", dice.name(), dice.name());
        text.truncate(24);
        job.name = text.trim().try_into().expect("short");
    }
    if dice.coin() {
        let mut letters = b"CDEFGHIJKLMNOPQRSUVWYZ".to_vec();
        let first = letters.remove(dice.from(0, letters.len() as i64 - 1) as usize);
        job.sides = [first, dice.pick(&letters)];
    }
    let place = steel(dice, &mut job);
    house(dice, &mut job, &place);
    runs(dice, &mut job, &place);
    loads(dice, &mut job, &place);
    rules(dice, &mut job, &place);
    stock(dice, &mut job);
    holes(dice, &mut job, &place);
    // Each answer needs only its own rows: a card may lack the beam.
    if dice.from(0, 5) == 0 {
        job.beam = None;
    }
    job
}

fn steel(dice: &mut Dice, job: &mut Job) -> Place {
    let length = dice.length(40_000_000, 960 * 1_016_000);
    let custom = dice.coin();
    let designation = match custom {
        true => "CUSTOM",
        false => dice.pick(&["W10X33", "W250X49.1", "W6X8.5"]),
    };
    job.beam = Some(Beam {
        designation: designation.try_into().expect("short"),
        length,
        measured: dice.pick(&[BeamLength::Ordered, BeamLength::Measured]),
    });
    if custom {
        let web = dice.length(1, 1_000_000);
        let k = 4_000_000;
        job.shape = Some(Shape {
            depth: dice.length(3 * k, 100_000_000),
            width: dice.length(3 * k, 100_000_000),
            web,
            flange: dice.length(1, 1_000_000),
            k_design: dice.length(1_000_000, k),
            k_detail: dice.length(1_000_000, k),
            k1: dice.length(1_000_000, k),
            weight: dice.decimal(1, 500),
            ix: dice.maybe(|dice| dice.decimal(1, 20_000)),
            sx: dice.maybe(|dice| dice.decimal(1, 2_000)),
            zx: dice.maybe(|dice| dice.decimal(1, 2_000)),
        });
    }
    job.steel = dice.maybe(|dice| Steel {
        fy: dice.decimal(1, 60),
        fu: dice.maybe(|_| Decimal::new(655, 1)),
    });
    job.braced = dice.maybe(|dice| (dice.long(), dice.maybe(Dice::long)));
    walls(dice, job, i64::from(length.counts()))
}

fn walls(dice: &mut Dice, job: &mut Job, length: i64) -> Place {
    job.walls = [
        dice.maybe(|dice| dice.length(1, length / 4)),
        dice.maybe(|dice| dice.length(1, length / 4)),
    ];
    job.clear = dice.maybe(|dice| dice.length(1, length / 2));
    let counts = |length: Length| i64::from(length.counts());
    let clear = job.clear.map(counts);
    let faces = match job.walls.map(|wall| wall.map(counts)) {
        [Some(a), b] => [
            Some(a),
            clear.map(|clear| a + clear).or(b.map(|b| length - b)),
        ],
        [None, Some(b)] => [clear.map(|clear| length - b - clear), Some(length - b)],
        [None, None] => [None, None],
    };
    Place { length, faces }
}

fn house(dice: &mut Dice, job: &mut Job, place: &Place) {
    for side in Side::BOTH {
        for end in End::BOTH {
            if dice.coin() {
                let offset = dice.length(-50_000_000, 50_000_000);
                job.squares
                    .push(Square { side, end, offset })
                    .expect("room");
            }
        }
        let index = side.index();
        for _ in 0..dice.from(0, 3) {
            job.outstands[index].push(dice.small()).expect("room");
        }
        job.floors[index] = dice.maybe(|dice| Floor {
            joist_depth: dice.small(),
            offset: dice.maybe(|dice| dice.length(-50_000_000, 50_000_000)),
            subfloor: dice.maybe(|dice| dice.length(0, 1_000_000)),
        });
        job.counts[index] = dice.maybe(|dice| dice.from(0, 999) as u16);
    }
    for pocket in &mut job.pockets {
        *pocket = dice.maybe(|dice| Pocket {
            depth: dice.small(),
            height: dice.maybe(Dice::small),
            width: dice.maybe(Dice::small),
        });
    }
    job.stand = dice.maybe(|dice| Stand {
        side: dice.side(),
        a_at_left: dice.coin(),
    });
    job.placed = dice.maybe(|dice| dice.length(-50_000_000, 50_000_000));
    job.seated = dice.maybe(Dice::coin);
    job.standoff = dice.maybe(|dice| dice.length(0, 1_016_000));
    for _ in 0..dice.many(KEEPOUTS) {
        let (from, to) = place.stretch(dice);
        let kind = dice.pick(&[KeepoutKind::Solid, KeepoutKind::Access, KeepoutKind::Zone]);
        let keepout = Keepout {
            sides: match kind {
                KeepoutKind::Zone => Sides::Both,
                _ => dice.sides(),
            },
            from,
            to,
            kind,
            stays: dice.pick(&[Stays::Stays, Stays::Rides]),
            name: dice.maybe_name(),
        };
        job.keepouts.push(keepout).expect("room");
    }
    packing(dice, job, place);
}

/// Pieces one behind the other, some touching.
fn packing(dice: &mut Dice, job: &mut Job, place: &Place) {
    let pieces = dice.many(PACKING_PIECES);
    let ends = place.stations(dice, 2 * pieces);
    for piece in ends.chunks(2) {
        let piece = PackingPiece {
            from: place.position(dice, piece[0]),
            to: place.position(dice, piece[1]),
            sides: dice.sides(),
        };
        job.packing.push(piece).expect("room");
    }
}

fn runs(dice: &mut Dice, job: &mut Job, place: &Place) {
    let hangers = dice.many(HANGERS);
    for name in dice.names(hangers) {
        let hanger = Hanger {
            name,
            metal: dice.maybe(|dice| dice.length(0, 5_000_000)),
            height: dice.maybe(Dice::small),
            rated: dice.maybe(|dice| dice.decimal(1, 2_000)),
        };
        job.hangers.push(hanger).expect("room");
    }
    for _ in 0..dice.many(NAILS) {
        let nail = Nail {
            name: dice.name(),
            length: dice.small(),
            diameter: dice.small(),
            slant: dice.maybe(|dice| dice.decimal(0, 89)),
        };
        job.nails.push(nail).expect("room");
    }
    for side in Side::BOTH {
        for _ in 0..dice.many(RUNS_A_SIDE) {
            run(dice, job, place, side);
        }
    }
    let mut runs = job.runs.clone();
    // Sides take turns on some cards.
    if dice.coin() {
        runs.reverse();
        job.runs = runs;
    }
    if job.runs.is_empty() {
        return;
    }
    readings(dice, job, place);
}

fn run(dice: &mut Dice, job: &mut Job, place: &Place, side: Side) {
    let end = dice.pick(&End::BOTH);
    let hook = match dice.from(0, 2) {
        0 => RunHook::Wall(end),
        1 => RunHook::Steel(end),
        _ => RunHook::Mark(place.anywhere(dice), end),
    };
    let steps = [
        Length::from_sixteenths(2),
        Length::from_sixteenths(1),
        Length::from_sixty_fourths(2),
        Length::from_millimetres(1),
        Length::from_millimetres(5),
    ];
    let run = Run {
        side,
        hook,
        edge: dice.pick(&[Edge::Near, Edge::Centre, Edge::Far]),
        burn: dice.maybe(|dice| dice.length(0, 5_000_000)),
        thickness: dice.maybe(Dice::small),
        read_to: dice.maybe(|dice| dice.pick(&steps)),
        overridden: dice.coin(),
    };
    job.runs.push(run).expect("room");
}

fn readings(dice: &mut Dice, job: &mut Job, place: &Place) {
    let last = job.runs.len() as i64 - 1;
    let of_run = |dice: &mut Dice, most| {
        let count = dice.many(most);
        let mut runs: Vec<u8> = (0..count).map(|_| dice.from(0, last) as u8).collect();
        runs.sort_unstable();
        runs
    };
    for run in of_run(dice, JOISTS) {
        let hanger = match dice.from(0, 3) {
            0 => HangerRef::None,
            1 if !job.hangers.is_empty() => {
                HangerRef::Row(dice.from(0, job.hangers.len() as i64 - 1) as u8)
            }
            _ => HangerRef::Default,
        };
        let joist = JoistReading {
            reading: dice.long(),
            thickness: dice.maybe(Dice::small),
            hanger,
            run,
            guessed: dice.coin(),
        };
        job.joists.push(joist).expect("room");
    }
    for run in of_run(dice, CHECKS) {
        let check = Check {
            kind: dice.pick(&[CheckKind::Check, CheckKind::Close]),
            reading: dice.long(),
            point: place.anywhere(dice),
            run,
            guessed: dice.coin(),
        };
        job.checks.push(check).expect("room");
    }
}

fn loads(dice: &mut Dice, job: &mut Job, place: &Place) {
    let supports = dice.many(SUPPORTS);
    let centres = place.stations(dice, supports);
    for (name, centre) in dice.names(supports).into_iter().zip(centres) {
        let wall = (job.supports.is_empty() && dice.coin()).then_some("A");
        let name = match wall {
            Some(wall) => wall.try_into().expect("short"),
            None if name.eq_ignore_ascii_case("a") || name.eq_ignore_ascii_case("b") => {
                "P".try_into().expect("short")
            }
            None => name,
        };
        if job
            .supports
            .iter()
            .any(|support| support.name.eq_ignore_ascii_case(&name))
        {
            continue;
        }
        let sizes = wall.is_none() || dice.coin();
        let support = Support {
            name,
            centre: sizes.then(|| place.position(dice, centre)),
            length: sizes.then(|| dice.small()),
            width: sizes.then(|| dice.small()),
            material: dice.pick(&[
                Material::Concrete,
                Material::Masonry,
                Material::Wood,
                Material::Steel,
            ]),
            allowable: dice.maybe(|dice| dice.decimal(1, 2_000)),
        };
        if dice.coin() {
            let post = Post {
                support: support.name.clone(),
                allowable: dice.decimal(1, 2_000),
                footing: dice.maybe(|dice| dice.decimal(1, 2_000)),
            };
            job.posts.push(post).expect("room");
        }
        job.supports.push(support).expect("room");
    }
    for _ in 0..dice.many(LOADS) {
        let load = load(dice, place);
        job.loads.push(load).expect("room");
    }
    job.duration = dice.maybe(|dice| dice.decimal(1, 2));
}

fn load(dice: &mut Dice, place: &Place) -> Load {
    let (from, to) = place.stretch(dice);
    let (from, to) = (dice.maybe(|_| from), dice.maybe(|_| to));
    let side = LoadSide::On(dice.side());
    let (kind, sides) = match dice.from(0, 2) {
        0 => (
            LoadKind::Area {
                tributary: dice.small(),
                from,
                to,
            },
            [LoadSide::Halves, side, side],
        ),
        1 => (LoadKind::Line { from, to }, [LoadSide::Halves, side, side]),
        _ => (
            LoadKind::Point {
                at: place.anywhere(dice),
            },
            [LoadSide::Halves, side, LoadSide::Top],
        ),
    };
    Load {
        kind,
        dead: dice.decimal(0, 2_000),
        live: dice.decimal(0, 2_000),
        side: dice.pick(&sides),
    }
}

fn rules(dice: &mut Dice, job: &mut Job, place: &Place) {
    job.bolt = dice.maybe(|dice| Bolt {
        diameter: dice.length(1, 1_016_000),
        web_hole: dice.maybe(|dice| dice.length(1_016_000, 2_000_000)),
        wood_hole: dice.maybe(|dice| dice.length(1_016_000, 2_000_000)),
        fyb: dice.maybe(|dice| dice.decimal(1, 400)),
    });
    let washer = |dice: &mut Dice| Washer {
        size: dice.small(),
        shape: dice.pick(&[WasherShape::Round, WasherShape::Square, WasherShape::Turns]),
        thickness: dice.maybe(Dice::small),
    };
    job.washers = [dice.maybe(washer), dice.maybe(washer)];
    if dice.coin() {
        job.washers[1] = job.washers[0];
    }
    job.nut = dice.maybe(|dice| Nut {
        thickness: dice.small(),
        across_corners: dice.maybe(Dice::small),
    });
    job.gap = dice.maybe(|dice| dice.length(0, 24 * 1_016_000));
    job.lattice = dice.maybe(|dice| dice.length(15_875, 12 * 1_016_000));
    job.play = dice.maybe(|dice| dice.length(0, 100_000_000));
    job.pattern =
        dice.maybe(|dice| dice.pick(&[Pattern::Single, Pattern::Staggered, Pattern::Paired]));
    let pairs = job.pattern != Some(Pattern::Single);
    job.rows = dice.maybe(|dice| PatternRows {
        top: dice.length(50_000_000, 100_000_000),
        bot: dice.length(0, 49_000_000),
    });
    // Half of at least 12 in less 3 in is above five bolts of 1 in... and above
    // any minimum keyed here.
    job.spacing = dice.maybe(|dice| Spacing {
        spacing: dice.length(24 * 1_016_000, 960 * 1_016_000),
        basis: dice.pick(&[SpacingBasis::Every, SpacingBasis::Row]),
        hold_back: dice.maybe(|dice| dice.length(0, 3 * 1_016_000)),
        minimum: dice.maybe(|dice| dice.length(1, 9 * 1_016_000)),
    });
    job.ends = dice.maybe(|dice| Ends {
        least: dice.length(0, 6 * 1_016_000),
        most: dice.length(6 * 1_016_000, 24 * 1_016_000),
        paired: dice.maybe(|dice| pairs && dice.coin()),
    });
    for _ in 0..dice.many(NEARS) {
        let near = Near {
            at: place.anywhere(dice),
            within: dice.long(),
            reach: dice.pick(&[Reach::One, Reach::Each]),
            paired: pairs && dice.coin(),
            name: dice.maybe_name(),
        };
        job.nears.push(near).expect("room");
    }
}

fn stock(dice: &mut Dice, job: &mut Job) {
    for _ in 0..dice.many(LAYERS) {
        let layer = Layer {
            name: dice.name(),
            thickness: dice.small(),
            kind: dice.pick(&[LayerKind::Solid, LayerKind::Sheet]),
            moisture: dice.maybe(|dice| match dice.coin() {
                true => Moisture::Green,
                false => Moisture::Percent(dice.decimal(0, 300)),
            }),
            count: dice.maybe(|dice| dice.from(0, 9_999) as u16),
        };
        job.layers.push(layer).expect("room");
    }
    job.face = dice.maybe(|dice| Face {
        shy: dice.length(0, 1_016_000),
        proud: dice.length(0, 1_016_000),
        aim: dice.maybe(|dice| dice.length(-1_016_000, 1_016_000)),
    });
    job.service = dice.maybe(|dice| dice.decimal(0, 300));
    job.wood =
        dice.maybe(|dice| dice.pick(&[Species::Spf, Species::DfL, Species::Hf, Species::Sp]));
    for _ in 0..dice.many(STICKS) {
        let count = dice.from(0, 9_999) as u16;
        let (source, count) = match dice.coin() {
            true => (StickSource::Rod, dice.maybe(|_| count)),
            false => (StickSource::Offcut, Some(count)),
        };
        let length = dice.length(1, 960 * 1_016_000);
        let stick = Stick {
            length,
            count,
            source,
        };
        job.sticks.push(stick).expect("room");
    }
    job.kerf = dice.maybe(|dice| dice.length(0, 1_016_000));
    job.trim = dice.maybe(Dice::coin);
    job.projection = dice.maybe(|dice| dice.length(0, 1_016_000));
    job.spare = dice.maybe(|dice| dice.from(0, 9_999) as u16);
    for _ in 0..dice.many(OTHER_PIECES) {
        let piece = OtherPiece {
            length: dice.length(1, 960 * 1_016_000),
            count: dice.from(1, 9_999) as u16,
            name: dice.maybe_name(),
        };
        job.pieces.push(piece).expect("room");
    }
    for number in 0..dice.many(BARS_CUT) {
        let cut = BarsCut {
            list: format!("LIST{number}").as_str().try_into().expect("short"),
            bars: dice.from(1, 9_999) as u16,
        };
        job.bars_cut.push(cut).expect("room");
    }
}

fn holes(dice: &mut Dice, job: &mut Job, place: &Place) {
    let count = dice.many(HOLES);
    for station in place.stations(dice, count) {
        let hole = Hole::new(
            place.position(dice, station),
            dice.pick(&Row::BOTH),
            dice.pick(&[HoleState::Marked, HoleState::Drilled, HoleState::Abandoned]),
        );
        job.holes.push(hole).expect("room");
    }
}
