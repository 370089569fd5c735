//! A job as the card says it: raw readings and the engineer's rules, nothing
//! derived. Every position keeps the hook that it was read from, so that a
//! later correction of a bearing, the clear distance or the length re-reads it.
//!
//! `None` means "not on the card": a default then stands in (`defaults.rs`), and
//! what prints the value says so.

pub mod bolting;
pub mod house;
pub mod loads;
pub mod steel;
pub mod stock;
pub mod survey;

use crate::length::Length;
use crate::words::{Side, Units};
use heapless::{String, Vec};

pub use bolting::{
    Bolt, Ends, Hole, HoleState, Near, Nut, Pattern, PatternRows, Reach, Spacing, SpacingBasis,
    Washer, WasherShape,
};
pub use house::{Hook, Keepout, KeepoutKind, PackingPiece, Pocket, Position, Square, Stays};
pub use loads::{Footing, Load, LoadKind, Material, Post, Support};
pub use steel::{Beam, BeamLength, Designation, Flange, Floor, Shape, Steel};
pub use stock::{
    BarsCut, Face, Layer, LayerKind, Moisture, OtherPiece, Species, Stick, StickSource,
};
pub use survey::{
    Check, CheckKind, Edge, Hanger, HangerRef, JoistReading, Nail, ReadTo, Run, RunHook, Stand,
};

/// Joists of all runs together.
pub const JOISTS: usize = 160;
/// Runs on one side.
pub const RUNS_A_SIDE: usize = 8;
/// Check and close rows of all runs together.
pub const CHECKS: usize = 32;
/// Zones and obstacles together.
pub const KEEPOUTS: usize = 32;
/// Packing pieces.
pub const PACKING_PIECES: usize = 8;
/// `near` rules.
pub const NEARS: usize = 8;
/// Supports.
pub const SUPPORTS: usize = 5;
/// Loads.
pub const LOADS: usize = 32;
/// Layers of packing stock.
pub const LAYERS: usize = 16;
/// Rod lengths and offcuts together.
pub const STICKS: usize = 16;
/// Other pieces from the same rod stock.
pub const OTHER_PIECES: usize = 12;
/// Cut lists of which bars are cut already.
pub const BARS_CUT: usize = 12;
/// Hangers besides the built-in `none`.
pub const HANGERS: usize = 8;
/// Nails.
pub const NAILS: usize = 8;
/// Holes of all states together, planned ones included.
pub const HOLES: usize = 240;
/// The longest steel. Practice: no truck brings more into a street.
pub const LONGEST_STEEL: Length = Length::from_inches(80 * 12);

/// Everything a card can say.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// Row `job`: up to 24 characters, may be empty.
    pub name: String<24, u8>,
    /// Row `units`.
    pub units: Units,
    /// Row `sides`: the painted letters, N and S by default.
    pub sides: [u8; 2],
    /// Row `beam`.
    pub beam: Option<Beam>,
    /// Row `shape`, for a beam that is not in the table.
    pub shape: Option<Shape>,
    /// Row `steel`.
    pub steel: Option<Steel>,
    /// Row `braced`: unbraced length, and of the bottom flange where it differs.
    pub braced: Option<(Length, Option<Length>)>,
    /// Rows `wall`: the bearing length at A and B.
    pub walls: [Option<Length>; 2],
    /// Row `clear`: measured between the wall faces at the beam's height.
    pub clear: Option<Length>,
    /// Rows `square`: at most one for each side and end.
    pub squares: Vec<Square, 4, u8>,
    /// Rows `pocket` at A and B.
    pub pockets: [Option<Pocket>; 2],
    /// Row `stand`.
    pub stand: Option<Stand>,
    /// Rows `outstand` by side: up to three measurements.
    pub outstands: [Vec<Length, 3, u8>; 2],
    /// Rows `support`.
    pub supports: Vec<Support, SUPPORTS, u8>,
    /// Rows `post`.
    pub posts: Vec<Post, SUPPORTS, u8>,
    /// Rows `load`.
    pub loads: Vec<Load, LOADS, u8>,
    /// Row `duration`: the factor CD.
    pub duration: Option<crate::decimal::Decimal>,
    /// Rows `tape` in card order.
    pub runs: Vec<Run, { 2 * RUNS_A_SIDE }, u8>,
    /// Rows `joist` in card order; each names its run.
    pub joists: Vec<JoistReading, JOISTS, u8>,
    /// Rows `check` and `close` in card order; each names its run.
    pub checks: Vec<Check, CHECKS, u8>,
    /// Rows `count` by side.
    pub counts: [Option<u16>; 2],
    /// Rows `floor` by side.
    pub floors: [Option<Floor>; 2],
    /// Rows `hanger`; the first is the default.
    pub hangers: Vec<Hanger, HANGERS, u8>,
    /// Rows `nail`.
    pub nails: Vec<Nail, NAILS, u8>,
    /// Rows `obstacle` and `zone` in card order.
    pub keepouts: Vec<Keepout, KEEPOUTS, u8>,
    /// Rows `packing`; empty = the default piece.
    pub packing: Vec<PackingPiece, PACKING_PIECES, u8>,
    /// Row `seated`.
    pub seated: Option<bool>,
    /// Row `standoff`.
    pub standoff: Option<Length>,
    /// Row `bolt`.
    pub bolt: Option<Bolt>,
    /// Rows `washer` by side.
    pub washers: [Option<Washer>; 2],
    /// Row `nut`.
    pub nut: Option<Nut>,
    /// Row `gap`.
    pub gap: Option<Length>,
    /// Row `lattice`.
    pub lattice: Option<Length>,
    /// Row `play`: wanted.
    pub play: Option<Length>,
    /// Row `pattern`.
    pub pattern: Option<Pattern>,
    /// Row `rows`: heights of the rows above the bottom flange's inside face.
    pub rows: Option<PatternRows>,
    /// Row `spacing`.
    pub spacing: Option<Spacing>,
    /// Row `ends`.
    pub ends: Option<Ends>,
    /// Rows `near`.
    pub nears: Vec<Near, NEARS, u8>,
    /// Rows `layer`.
    pub layers: Vec<Layer, LAYERS, u8>,
    /// Row `face`.
    pub face: Option<Face>,
    /// Row `service`: moisture in percent.
    pub service: Option<crate::decimal::Decimal>,
    /// Row `wood`.
    pub wood: Option<Species>,
    /// Rows `rod` and `offcut` in card order.
    pub sticks: Vec<Stick, STICKS, u8>,
    /// Row `kerf`.
    pub kerf: Option<Length>,
    /// Row `trim`.
    pub trim: Option<bool>,
    /// Row `projection`.
    pub projection: Option<Length>,
    /// Row `spare`.
    pub spare: Option<u16>,
    /// Rows `piece`.
    pub pieces: Vec<OtherPiece, OTHER_PIECES, u8>,
    /// Rows `marked`, `drilled`, `abandoned` in card order.
    pub holes: Vec<Hole, HOLES, u8>,
    /// Rows `cut`: bars that are cut already.
    pub bars_cut: Vec<BarsCut, BARS_CUT, u8>,
    /// Row `placed`: how far the beam ended up toward B of its mark.
    pub placed: Option<Length>,
}

impl Job {
    /// A job with nothing on it.
    pub const fn new(units: Units) -> Self {
        Job {
            name: String::new(),
            units,
            sides: *b"NS",
            beam: None,
            shape: None,
            steel: None,
            braced: None,
            walls: [None; 2],
            clear: None,
            squares: Vec::new(),
            pockets: [None; 2],
            stand: None,
            outstands: [Vec::new(), Vec::new()],
            supports: Vec::new(),
            posts: Vec::new(),
            loads: Vec::new(),
            duration: None,
            runs: Vec::new(),
            joists: Vec::new(),
            checks: Vec::new(),
            counts: [None; 2],
            floors: [None; 2],
            hangers: Vec::new(),
            nails: Vec::new(),
            keepouts: Vec::new(),
            packing: Vec::new(),
            seated: None,
            standoff: None,
            bolt: None,
            washers: [None; 2],
            nut: None,
            gap: None,
            lattice: None,
            play: None,
            pattern: None,
            rows: None,
            spacing: None,
            ends: None,
            nears: Vec::new(),
            layers: Vec::new(),
            face: None,
            service: None,
            wood: None,
            sticks: Vec::new(),
            kerf: None,
            trim: None,
            projection: None,
            spare: None,
            pieces: Vec::new(),
            holes: Vec::new(),
            bars_cut: Vec::new(),
            placed: None,
        }
    }

    /// Back to a job with nothing on it, in place: a job is too large to cross
    /// the board's stack. A test clears the fullest job and compares.
    pub fn clear(&mut self) {
        self.clear_house();
        self.clear_rules();
    }

    /// Everything about the steel, the house and the joists.
    fn clear_house(&mut self) {
        self.name.clear();
        self.units = Units::Imperial;
        self.sides = *b"NS";
        self.beam = None;
        self.shape = None;
        self.steel = None;
        self.braced = None;
        self.walls = [None; 2];
        self.clear = None;
        self.squares.clear();
        self.pockets = [None; 2];
        self.stand = None;
        self.outstands.iter_mut().for_each(Vec::clear);
        self.supports.clear();
        self.posts.clear();
        self.loads.clear();
        self.duration = None;
        self.runs.clear();
        self.joists.clear();
        self.checks.clear();
        self.counts = [None; 2];
        self.floors = [None; 2];
        self.hangers.clear();
        self.nails.clear();
        self.keepouts.clear();
        self.packing.clear();
        self.seated = None;
        self.standoff = None;
        self.placed = None;
    }

    /// Everything about bolts, packing stock and rods.
    fn clear_rules(&mut self) {
        self.bolt = None;
        self.washers = [None; 2];
        self.nut = None;
        self.gap = None;
        self.lattice = None;
        self.play = None;
        self.pattern = None;
        self.rows = None;
        self.spacing = None;
        self.ends = None;
        self.nears.clear();
        self.layers.clear();
        self.face = None;
        self.service = None;
        self.wood = None;
        self.sticks.clear();
        self.kerf = None;
        self.trim = None;
        self.projection = None;
        self.spare = None;
        self.pieces.clear();
        self.holes.clear();
        self.bars_cut.clear();
    }

    /// The letter painted on `side`.
    pub fn letter(&self, side: Side) -> char {
        let [first, second] = self.sides;
        char::from(match side {
            Side::N => first,
            Side::S => second,
        })
    }

    /// Index of the run on its own side, from 1, as cards and lists count it.
    pub fn run_number(&self, run: u8) -> usize {
        let side = self.runs.get(usize::from(run)).map(|r| r.side);
        self.runs
            .iter()
            .take(usize::from(run) + 1)
            .filter(|r| Some(r.side) == side)
            .count()
    }
}
