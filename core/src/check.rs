//! One check: what is asked of a part, and what the rule allows it.
//!
//! In: figures from `checks/`, each in the unit of its kind. Out: [`Check`], which holds a demand, a capacity
//! and the two or three small marks from which its words follow; [`Checks`],
//! the list, with what could not be checked and why. Rule: a demand equal to its
//! capacity passes; what lacks a figure is listed as not made, never left out.
//! A check is a cross-check against the engineer's drawing and approves nothing.

mod words;

use crate::float;
use crate::length::Length;
use crate::words::{End, Row, Side};
use heapless::Vec;

/// How far above its capacity a demand still counts as equal to it.
///
/// The sums of the statics are good to 1e-9 of the total load, and the least
/// figure that a list shows is a thousand times coarser.
const EQUAL: f64 = 1e-9;

/// What is checked. Name, unit, source and limits of each stand in
/// `check/words.rs`, in the order that a foreman asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Kind {
    /// Depth of the deeper pocket for a level entry.
    RoomToEnter,
    /// The pocket is as deep as the steel in it is long.
    PocketDepth,
    /// The pocket is as high as the steel.
    PocketHeight,
    /// The pocket is as wide as the flange.
    PocketWidth,
    /// The pocket is as wide as the packed beam, where packing goes into it.
    PackingInPocket,
    /// Least bearing length of the building code.
    BearingLeast,
    /// Bearing length that crews keep in a wall pocket.
    BearingUsual,
    /// Stress on concrete of the least strength.
    OnConcrete,
    /// Stress on masonry of the least strength.
    OnMasonry,
    /// Stress on wood across the grain.
    OnWood,
    /// Stress on steel.
    OnSteel,
    /// Stress against the allowable one of the card.
    OnKeyed,
    /// Flange bent over the bearing.
    FlangeOverBearing,
    /// Web yielding over the bearing.
    WebYielding,
    /// Web crippling over the bearing.
    WebCrippling,
    /// Load on a post.
    Post,
    /// Load on the footing of a post.
    Footing,
    /// Moment with the top flange pressed.
    MomentDown,
    /// Moment with the bottom flange pressed.
    MomentUp,
    /// Shear of the web.
    WebShear,
    /// Shear through the web at a mark, less its holes.
    NetWebShear,
    /// Deflection under live load.
    LiveDeflection,
    /// Deflection under all load.
    TotalDeflection,
    /// Bottom flange bent by the packing that sits on it.
    FlangeUnderPacking,
    /// Packing pressed by the flange that it sits on.
    PackingOnFlange,
    /// Bolts of a mark against the hangers nearest to it.
    BoltNearest,
    /// Bolts against the load spread evenly.
    BoltAverage,
    /// Spacing of the bolts against what they alone would need.
    BoltsAlone,
    /// Rod pulled by packing that wants to roll off the web.
    RodTension,
    /// Washer pressed into the packing.
    WasherBearing,
    /// First or last bolt to the end of its packing piece.
    BoltEnd,
    /// Bolt to the edge that it pushes at: the top one.
    LoadedEdge,
    /// Bolt to the other edge.
    FreeEdge,
    /// Twist that uneven hanging puts into the beam.
    Torque,
    /// Hanger against its rated load.
    HangerLoad,
    /// Lowest face nail of a hanger to the packing's lower edge.
    LowNails,
    /// Highest face nail to the packing's upper edge.
    HighNails,
    /// Hanger nail against the packing: it must not reach the web.
    NailDepth,
    /// Hanger nail's penetration.
    NailHold,
    /// Nail that fastens layers: it must not reach the web.
    LayerNailDepth,
    /// Its penetration behind the outer layer.
    LayerNailHold,
    /// How far the steel shows below the joists.
    SteelBelowJoists,
    /// How far joists of 19 % moisture will still come down.
    JoistShrinkage,
}

/// What a foreman wants to know, in the order in which he asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Question {
    /// Will it go in?
    GoesIn,
    /// Do the ends sit?
    EndsSit,
    /// Does the steel carry it? Lift is asked before it, by the statics.
    SteelHolds,
    /// Does the packing hold?
    PackingHolds,
    /// Do the bolts hold?
    BoltsHold,
    /// Will the nails reach?
    NailsReach,
    /// Will the floor be flush?
    Flush,
}

/// Unit of a check's demand and capacity.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Unit {
    /// in.
    Inches,
    /// lb.
    Pounds,
    /// psi.
    PoundsPerSquareInch,
    /// lb-ft.
    PoundFeet,
    /// lb-in per inch of beam.
    PoundInchesPerInch,
    /// lb-ft per foot of beam.
    PoundFeetPerFoot,
}

/// What a check is made at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Place {
    /// The whole beam.
    Beam,
    /// An end of the steel, or the wall or pocket there.
    End(End),
    /// A side.
    Side(Side),
    /// A row of bolts.
    Row(Row),
    /// A row of bolts on one side.
    RowOn(Row, Side),
    /// A support: index in the order of the statics.
    Support(u8),
    /// A span or overhang: index in the order of the statics.
    Segment(u8),
    /// A place along the steel, from end A.
    At(Length),
    /// A joist: index into the plan's joists.
    Joist(u8),
    /// A nail on one side: index into [`crate::Job::nails`].
    Nail(u8, Side),
}

/// What a check takes at least, where one figure can say so; lists show it where
/// the check is over its limit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Needs {
    /// Nothing, or nothing that one figure can say.
    #[default]
    Nothing,
    /// A bearing of this length, rounded up to 1/16 in.
    BearingLength(Length),
    /// That, or a plate of A36 steel under the bearing, as long as the bearing is.
    BearingOrPlate(Length, Plate),
    /// A pocket deeper by this.
    Deeper(Length),
    /// A nail no longer than this, exact: a list shows it rounded down.
    NailAtMost(Length),
    /// A slant of this, in hundredths of a degree from square, rounded up.
    Slant(u16),
    /// A spacing of at most this, exact: a list shows it rounded down.
    Spacing(Length),
}

/// A plate that is proposed, rounded up to whole inches and eighths of an inch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Plate {
    width_inches: u8,
    thickness_eighths: u8,
}

impl Plate {
    /// The least plate of at least these sizes; `None` beyond 255 in by 31 in,
    /// which nobody sets under a beam.
    pub fn at_least(width_in: f64, thickness_in: f64) -> Option<Plate> {
        let whole = |size: f64| {
            let steps = float::ceil(size - EQUAL);
            // In range by the comparison.
            (steps >= 0.0 && steps <= f64::from(u8::MAX)).then_some(steps as u8)
        };
        Some(Plate {
            width_inches: whole(width_in)?,
            thickness_eighths: whole(thickness_in * 8.0)?,
        })
    }

    /// Across the beam.
    pub const fn width(self) -> Length {
        Length::from_inches(self.width_inches as i32)
    }

    /// Its thickness.
    pub const fn thickness(self) -> Length {
        let sixteenths = 2 * self.thickness_eighths as i32;
        Length::from_sixteenths(sixteenths)
    }
}

/// Demand, capacity, and where.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Check {
    demand: f64,
    capacity: f64,
    /// Whether `capacity` says anything.
    limited: bool,
    kind: Kind,
    place: Place,
    needs: Needs,
}

impl Check {
    /// A check with both figures, in the kind's unit.
    pub const fn new(kind: Kind, place: Place, demand: f64, capacity: f64) -> Check {
        Check {
            demand,
            capacity,
            limited: true,
            kind,
            place,
            needs: Needs::Nothing,
        }
    }

    /// A figure that only the engineer can hold against a capacity.
    pub const fn demand_only(kind: Kind, place: Place, demand: f64) -> Check {
        Check {
            limited: false,
            ..Check::new(kind, place, demand, 0.0)
        }
    }

    /// The same check, with what would make it pass.
    pub const fn with(self, needs: Needs) -> Check {
        Check { needs, ..self }
    }

    /// What is checked.
    pub const fn kind(&self) -> Kind {
        self.kind
    }

    /// What it is checked at.
    pub const fn place(&self) -> Place {
        self.place
    }

    /// What is asked of the part, in the kind's unit.
    pub const fn demand(&self) -> f64 {
        self.demand
    }

    /// What the rule allows it; `None` = the engineer's to say.
    pub fn capacity(&self) -> Option<f64> {
        self.limited.then_some(self.capacity)
    }

    /// Demand over capacity; `None` without a capacity above nothing.
    pub fn ratio(&self) -> Option<f64> {
        let capacity = self.capacity()?;
        (capacity > 0.0).then_some(self.demand / capacity)
    }

    /// Whether the demand is at most the capacity; `None` without a capacity.
    pub fn ok(&self) -> Option<bool> {
        let capacity = self.capacity()?;
        Some(self.demand <= capacity + EQUAL * float::abs(capacity))
    }

    /// Whether its figures are numbers.
    fn is_made(&self) -> bool {
        self.demand.is_finite() && self.capacity.is_finite()
    }

    /// What would make it pass.
    pub const fn needs(&self) -> Needs {
        self.needs
    }
}

/// Why a check was not made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Lack {
    /// The card has no row of this kind.
    Row(&'static str),
    /// The card has the row, but a field of it is empty: which, in words.
    Field(&'static str),
    /// The rule does not reach this case: why, in words.
    Outside(&'static str),
}

/// A check that was not made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct NotMade {
    /// What would have been checked.
    pub kind: Kind,
    /// Where.
    pub place: Place,
    /// What it lacks.
    pub lack: Lack,
}

/// Most checks in a list: more than any card can ask for but with eight kinds of
/// hangers and as many nails.
pub const CHECKS: usize = 104;
/// Most checks not made in a list.
pub const NOT_MADE: usize = 48;

/// Whatever takes checks as they are made: a list, or a count that needs no room.
pub trait Checklist {
    /// Takes a check.
    fn add(&mut self, check: Check);

    /// Notes a check that was not made.
    fn lack(&mut self, kind: Kind, place: Place, lack: Lack);

    /// Takes what `made` says: a check, or why there is none.
    fn add_or_lack(&mut self, kind: Kind, place: Place, made: Result<Check, Lack>) {
        match made {
            Ok(check) => self.add(check),
            Err(lack) => self.lack(kind, place, lack),
        }
    }
}

/// How many checks are over their limit; nothing else is kept.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Tally {
    /// Checks that do not pass, at most 255.
    pub over: u8,
}

impl Checklist for Tally {
    fn add(&mut self, check: Check) {
        if check.is_made() && check.ok() == Some(false) {
            self.over = self.over.saturating_add(1);
        }
    }

    fn lack(&mut self, _: Kind, _: Place, _: Lack) {}
}

/// All checks of a beam.
#[derive(Clone, Debug, Default)]
pub struct Checks {
    made: Vec<Check, CHECKS, u8>,
    not_made: Vec<NotMade, NOT_MADE, u8>,
    left_out: u16,
}

impl Checks {
    /// An empty list.
    pub const fn new() -> Checks {
        Checks {
            made: Vec::new(),
            not_made: Vec::new(),
            left_out: 0,
        }
    }

    /// Forgets everything.
    pub fn clear(&mut self) {
        self.made.clear();
        self.not_made.clear();
        self.left_out = 0;
    }

    /// Puts the checks into the order of [`Kind`], which is the foreman's;
    /// checks of one kind keep their order.
    pub fn sort(&mut self) {
        insertion_sort(&mut self.made, |check| check.kind);
        insertion_sort(&mut self.not_made, |not| not.kind);
    }

    /// The checks.
    pub fn made(&self) -> &[Check] {
        &self.made
    }

    /// Whether a check of this kind was made.
    pub fn has(&self, kind: Kind) -> bool {
        self.made.iter().any(|check| check.kind() == kind)
    }

    /// What could not be checked.
    pub fn not_made(&self) -> &[NotMade] {
        &self.not_made
    }

    /// How many more there were than the list holds.
    pub const fn left_out(&self) -> u16 {
        self.left_out
    }

    /// Whether every check with a capacity passes.
    pub fn all_pass(&self) -> bool {
        self.made.iter().all(|check| check.ok() != Some(false))
    }
}

impl Checklist for Checks {
    /// Adds a check. One whose figures are no numbers is not made. Where the
    /// list is full, a check that does not pass takes the place of one that
    /// does, so that none that fails is lost before one that passes.
    fn add(&mut self, check: Check) {
        if !check.is_made() {
            let lack = Lack::Outside("no rule takes these figures");
            self.lack(check.kind, check.place, lack);
            return;
        }
        let Err(check) = self.made.push(check) else {
            return;
        };
        self.left_out = self.left_out.saturating_add(1);
        let passes = |check: &Check| check.ok() != Some(false);
        if !passes(&check)
            && let Some(place) = self.made.iter_mut().rev().find(|made| passes(made))
        {
            *place = check;
        }
    }

    fn lack(&mut self, kind: Kind, place: Place, lack: Lack) {
        if self.not_made.push(NotMade { kind, place, lack }).is_err() {
            self.left_out = self.left_out.saturating_add(1);
        }
    }
}

/// Sorts a short list in place and keeps the order of equals; the library's
/// stable sort needs an allocator.
fn insertion_sort<T, K: Ord>(list: &mut [T], key: impl Fn(&T) -> K) {
    for end in 1..list.len() {
        let mut at = end;
        while let Some([before, here]) = list.get(at.saturating_sub(1)..=at)
            && at > 0
            && key(before) > key(here)
        {
            list.swap(at - 1, at);
            at -= 1;
        }
    }
}
