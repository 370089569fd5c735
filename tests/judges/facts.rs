//! Facts: a job as plain numbers, so that the judges need not read a card.
//!
//! In: a job and its joists as they stand now (shifted). Out: stations, reaches
//! and rules in counts of 25 nm, all `i64`. Rule: hooks, walls, shift, packing,
//! washer reach, row heights, spacing and the answering of marks are worked out
//! here a second time, in the most literal way. Source of the hardware: ASME
//! B18.21.1 type A wide, ISO 7089; nuts only as keyed, the generator keeps
//! washers wider than default nuts.

use boltbay_core::job::{
    HoleState, Hook, Job, KeepoutKind, Pattern, Position, Reach, SpacingBasis, Stays, WasherShape,
};
use boltbay_core::joists::Joist;
use boltbay_core::length::Length;
use boltbay_core::rows;
use boltbay_core::shapes::Section;
use boltbay_core::words::{Row, Side, Sides, Units};

/// Counts in 1 in.
pub const INCH: i64 = 1_016_000;
/// Counts in 1 mm.
pub const MILLIMETRE: i64 = 40_000;
/// Play above this counts as this.
pub const SIX_INCHES: i64 = 6 * INCH;

/// A packing piece.
#[derive(Clone, Copy, Debug)]
pub struct Piece {
    /// Its start.
    pub from: i64,
    /// Its end.
    pub to: i64,
    /// Which sides it packs.
    pub sides: [bool; 2],
}

/// A joist where it stands now, the shift taken into account.
#[derive(Clone, Copy, Debug)]
pub struct JoistFact {
    /// Its side.
    pub side: usize,
    /// Face toward A.
    pub from: i64,
    /// Face toward B.
    pub to: i64,
    /// Hanger metal beyond the faces that counts in the top and the bottom row.
    pub metal: [i64; 2],
}

/// An obstacle or zone where it stands now.
#[derive(Clone, Copy, Debug)]
pub struct ThingFact {
    /// Which sides it is on.
    pub sides: [bool; 2],
    /// Its start.
    pub from: i64,
    /// Its end.
    pub to: i64,
    /// Solid, access or zone.
    pub kind: KeepoutKind,
    /// Stays with the house.
    pub stays: bool,
}

/// A `near` rule.
#[derive(Clone, Copy, Debug)]
pub struct NearFact {
    /// The point.
    pub at: i64,
    /// How near.
    pub within: i64,
    /// One on each side rather than one.
    pub each: bool,
    /// Pairs.
    pub paired: bool,
}

/// A hole as it is; marks that a drilled hole answered are gone.
#[derive(Clone, Copy, Debug)]
pub struct HoleFact {
    /// Station.
    pub at: i64,
    /// Row.
    pub row: Row,
    /// State.
    pub state: HoleState,
    /// Index into the job's holes.
    pub index: usize,
}

/// What the engineer allows beyond the note, for one stretch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Allowed {
    /// Neighbours at these two places.
    Spacing(i64, i64),
    /// The first station of the piece that starts at the first place is at most
    /// this far in.
    Start(i64, i64),
    /// The last station of the piece that ends at the first place likewise.
    End(i64, i64),
}

/// All that the placement depends on.
#[derive(Clone, Debug)]
pub struct Facts {
    /// Of the steel.
    pub length: i64,
    /// Lattice step.
    pub step: i64,
    /// R by side.
    pub reach: [i64; 2],
    /// g.
    pub gap: i64,
    /// Bolt diameter D.
    pub diameter: i64,
    /// s_min.
    pub s_min: i64,
    /// s_max.
    pub s_max: i64,
    /// e_min.
    pub e_min: i64,
    /// e_max.
    pub e_max: i64,
    /// Ends are pairs.
    pub ends_paired: bool,
    /// Pattern.
    pub pattern: Pattern,
    /// Wanted play.
    pub wanted: i64,
    /// 1/8 in or 3 mm.
    pub class_step: i64,
    /// Packing in card order, or the default piece.
    pub pieces: Vec<Piece>,
    /// Joists in the order given.
    pub joists: Vec<JoistFact>,
    /// Obstacles and zones in card order.
    pub things: Vec<ThingFact>,
    /// `near` rules in card order.
    pub nears: Vec<NearFact>,
    /// Holes in card order.
    pub holes: Vec<HoleFact>,
    /// One stretch beyond the note.
    pub allowed: Option<Allowed>,
}

/// Half, the odd count up.
fn half_up(counts: i64) -> i64 {
    (counts + 1) / 2
}

/// Half the diagonal of a square, up: the least `h` with `2 h h >= side side`.
fn half_diagonal_up(side: i64) -> i64 {
    let mut h = half_up(side);
    let mut stride = half_up(side).max(1);
    while stride > 0 {
        while 2 * (h + stride) * (h + stride) < side * side {
            h += stride;
        }
        stride /= 2;
    }
    if 2 * h * h < side * side { h + 1 } else { h }
}

/// Outside diameter of the default washer. Source: ASME B18.21.1 type A wide;
/// ISO 7089.
fn default_washer(diameter: i64) -> i64 {
    let thousandths = [
        (INCH * 3 / 8, 1_000),
        (INCH / 2, 1_375),
        (INCH * 5 / 8, 1_750),
        (INCH * 3 / 4, 2_000),
    ];
    let metric = [(10, 20), (12, 24), (16, 30), (20, 37)];
    let inch = thousandths
        .iter()
        .find(|(d, _)| *d == diameter)
        .map(|(_, size)| size * INCH / 1_000);
    let iso = metric
        .iter()
        .find(|(d, _)| d * MILLIMETRE == diameter)
        .map(|(_, size)| size * MILLIMETRE);
    inch.or(iso).expect("a bolt that has a default washer")
}

/// Depth and flange thickness. Like joists, they are facts of the core, which other
/// tests hold against their sources: `tests/standards` every row of the table.
fn depth_and_flange(job: &Job) -> Option<(i64, i64)> {
    let section = Section::of(job)?;
    let count = |length: Length| i64::from(length.counts());
    Some((count(section.depth()), count(section.flange())))
}

/// The faces of walls A and B, unshifted.
fn wall_faces(job: &Job, length: i64) -> [Option<i64>; 2] {
    let count = |l: Option<Length>| l.map(|l| i64::from(l.counts()));
    let [a, b] = [count(job.walls[0]), count(job.walls[1])];
    match (a, b, count(job.clear)) {
        (Some(a), _, Some(clear)) => [Some(a), Some(a + clear)],
        (Some(a), Some(b), None) => [Some(a), Some(length - b)],
        (Some(a), None, None) => [Some(a), None],
        (None, Some(b), Some(clear)) => [Some(length - b - clear), Some(length - b)],
        (None, Some(b), None) => [None, Some(length - b)],
        (None, None, _) => [None, None],
    }
}

/// Station of a position.
fn station(position: Position, length: i64, faces: [Option<i64>; 2]) -> i64 {
    let reading = i64::from(position.reading.counts());
    match position.hook {
        Hook::EndA => reading,
        Hook::EndB => length - reading,
        Hook::WallA => faces[0].expect("wall A") + reading,
        Hook::WallB => faces[1].expect("wall B") - reading,
    }
}

/// Station of a position of a job.
pub fn station_of(job: &Job, position: Position) -> i64 {
    let length = job
        .beam
        .as_ref()
        .map_or(0, |beam| i64::from(beam.length.counts()));
    station(position, length, wall_faces(job, length))
}

/// Which sides are meant.
fn both(sides: Sides) -> [bool; 2] {
    [sides.holds(Side::N), sides.holds(Side::S)]
}

/// R on each side.
fn reaches(job: &Job, diameter: i64) -> [i64; 2] {
    let nut = job
        .nut
        .and_then(|nut| nut.across_corners)
        .map_or(0, |c| half_up(i64::from(c.counts())));
    [0, 1].map(|side: usize| {
        let washer = match job.washers[side] {
            None => half_up(default_washer(diameter)),
            Some(washer) => {
                let size = i64::from(washer.size.counts());
                match washer.shape {
                    WasherShape::Round | WasherShape::Square => half_up(size),
                    WasherShape::Turns => half_diagonal_up(size),
                }
            }
        };
        washer.max(nut)
    })
}

/// Greatest and least spacing.
fn spacings(job: &Job, diameter: i64) -> (i64, i64) {
    let spacing = job.spacing.expect("spacing");
    let default_hold_back = match job.units {
        Units::Imperial => INCH / 8,
        Units::Metric => 3 * MILLIMETRE,
    };
    let hold_back = spacing
        .hold_back
        .map_or(default_hold_back, |h| i64::from(h.counts()));
    let s = i64::from(spacing.spacing.counts());
    let rows_take_turns = job.pattern.unwrap_or_default() == Pattern::Staggered;
    let greatest = match spacing.basis {
        SpacingBasis::Row if rows_take_turns => s / 2 - hold_back,
        _ => s - hold_back,
    };
    let least = spacing
        .minimum
        .map_or(5 * diameter, |m| i64::from(m.counts()));
    (greatest, least)
}

/// Packing as carded, or the default piece.
fn pieces(job: &Job, length: i64, faces: [Option<i64>; 2]) -> Vec<Piece> {
    if !job.packing.is_empty() {
        return job
            .packing
            .iter()
            .map(|piece| Piece {
                from: station(piece.from, length, faces),
                to: station(piece.to, length, faces),
                sides: both(piece.sides),
            })
            .collect();
    }
    let (at_wall, at_end) = match job.units {
        Units::Imperial => (INCH / 2, INCH / 4),
        Units::Metric => (12 * MILLIMETRE, 6 * MILLIMETRE),
    };
    vec![Piece {
        from: faces[0].map_or(at_end, |face| (face + at_wall).max(at_end)),
        to: faces[1].map_or(length - at_end, |face| {
            (face - at_wall).min(length - at_end)
        }),
        sides: [true, true],
    }]
}

/// Hanger metal that counts in each row.
fn counted_metal(job: &Job, joist: &Joist, reach: i64, gap: i64) -> [i64; 2] {
    let metal = i64::from(joist.metal.counts());
    let top = (|| {
        let (depth, flange) = depth_and_flange(job)?;
        let floor = job.floors[joist.side.index()]?;
        let height = i64::from(joist.hanger_height(job)?.counts());
        // Where none are keyed, those that the core's own tests hold to NDS.
        let row = i64::from(rows::heights(job).ok()?.top.counts());
        let offset = floor.offset.map_or(0, |o| i64::from(o.counts()));
        let underside = depth - flange + offset - i64::from(floor.joist_depth.counts());
        Some(row - reach - gap < underside + height)
    })();
    [if top.unwrap_or(true) { metal } else { 0 }, metal]
}

/// Holes in card order without the marks that drilled holes answer.
fn holes(job: &Job, s_min: i64) -> Vec<HoleFact> {
    let mut left: Vec<HoleFact> = job
        .holes
        .iter()
        .enumerate()
        .map(|(index, hole)| HoleFact {
            at: station_of(job, hole.at()),
            row: hole.row,
            state: hole.state,
            index,
        })
        .collect();
    let drilled: Vec<HoleFact> = left
        .iter()
        .filter(|h| h.state == HoleState::Drilled)
        .copied()
        .collect();
    for hole in drilled {
        let answered = left
            .iter()
            .filter(|m| m.state == HoleState::Marked && m.row == hole.row)
            .filter(|m| 2 * (m.at - hole.at).abs() <= s_min)
            .min_by_key(|m| ((m.at - hole.at).abs(), m.at))
            .map(|m| m.index);
        left.retain(|m| Some(m.index) != answered);
    }
    left
}

/// Joists where they stand, with the metal that counts.
fn joist_facts(job: &Job, joists: &[Joist], reach: [i64; 2], gap: i64) -> Vec<JoistFact> {
    joists
        .iter()
        .map(|joist| JoistFact {
            side: joist.side.index(),
            from: i64::from(joist.from.counts()),
            to: i64::from(joist.to.counts()),
            metal: counted_metal(job, joist, reach[joist.side.index()], gap),
        })
        .collect()
}

/// Obstacles and zones; what stays is where the beam's shift puts it.
fn things(job: &Job) -> Vec<ThingFact> {
    let shift = job.placed.map_or(0, |d| i64::from(d.counts()));
    job.keepouts
        .iter()
        .map(|thing| {
            let stays = thing.stays == Stays::Stays;
            let moved = if stays { shift } else { 0 };
            ThingFact {
                sides: both(thing.sides),
                from: station_of(job, thing.from) - moved,
                to: station_of(job, thing.to) - moved,
                kind: thing.kind,
                stays,
            }
        })
        .collect()
}

/// `near` rules.
fn nears(job: &Job) -> Vec<NearFact> {
    job.nears
        .iter()
        .map(|near| NearFact {
            at: station_of(job, near.at),
            within: i64::from(near.within.counts()),
            each: near.reach == Reach::Each,
            paired: near.paired,
        })
        .collect()
}

impl Facts {
    /// Reads a job that has beam, bolt, spacing and ends.
    pub fn new(job: &Job, joists: &[Joist]) -> Facts {
        let beam = job.beam.as_ref().expect("beam");
        let length = i64::from(beam.length.counts());
        let faces = wall_faces(job, length);
        let diameter = i64::from(job.bolt.expect("bolt").diameter.counts());
        let unit = |imperial: i64, metric: i64| match job.units {
            Units::Imperial => imperial,
            Units::Metric => metric * MILLIMETRE,
        };
        let keyed = |l: Option<Length>, default: i64| l.map_or(default, |l| i64::from(l.counts()));
        let gap = keyed(job.gap, unit(INCH / 4, 6));
        let reach = reaches(job, diameter);
        let (s_max, s_min) = spacings(job, diameter);
        let ends = job.ends.expect("ends");
        Facts {
            length,
            step: keyed(job.lattice, unit(INCH / 16, 1)),
            reach,
            gap,
            diameter,
            s_min,
            s_max,
            e_min: i64::from(ends.least.counts()),
            e_max: i64::from(ends.most.counts()),
            ends_paired: ends.paired.unwrap_or(false),
            pattern: job.pattern.unwrap_or_default(),
            wanted: keyed(job.play, unit(INCH / 2, 12)),
            class_step: unit(INCH / 8, 3),
            pieces: pieces(job, length, faces),
            joists: joist_facts(job, joists, reach, gap),
            things: things(job),
            nears: nears(job),
            holes: holes(job, s_min),
            allowed: None,
        }
    }

    /// The widest step that anything allows.
    pub fn widest(&self) -> i64 {
        match self.allowed {
            Some(Allowed::Spacing(p, q)) => self.s_max.max(q - p),
            _ => self.s_max,
        }
    }

    /// Whether the engineer allows this one step.
    pub fn allows_step(&self, from: i64, to: i64) -> bool {
        matches!(self.allowed, Some(Allowed::Spacing(p, q)) if from >= p && to <= q)
    }

    /// How far in the first station of a piece may be.
    pub fn farthest_start(&self, piece: &Piece) -> i64 {
        match self.allowed {
            Some(Allowed::Start(from, far)) if from == piece.from => far,
            _ => self.e_max,
        }
    }

    /// How far in the last station of a piece may be.
    pub fn farthest_end(&self, piece: &Piece) -> i64 {
        match self.allowed {
            Some(Allowed::End(to, far)) if to == piece.to => far,
            _ => self.e_max,
        }
    }
}
