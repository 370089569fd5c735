//! Cautions: what can be done, but look first. Flat, with the data that the
//! crew needs, a stable number, a screen text and a longer text.

mod text;

pub use text::{InFull, OnScreen};

use crate::length::Length;
use crate::list::put_in;
use crate::statics::{LiftReason, Pattern, Segment};
use crate::words::{End, Row, Side};
use heapless::Vec;

/// All cautions of a plan, in the order found.
pub type Cautions = Vec<Caution, 48, u8>;

/// One caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Caution {
    /// A run has neither check nor close.
    RunNotProved {
        /// Its side.
        side: Side,
        /// On its side, from 1.
        run: u8,
    },
    /// A run out of tolerance stands because the crew said so.
    RunOverridden {
        /// Its side.
        side: Side,
        /// On its side, from 1.
        run: u8,
        /// Out by.
        misclosure: Length,
        /// Allowed.
        tolerance: Length,
    },
    /// A joist is off the median offset to its nearest partner across the web.
    PairOutlier {
        /// N side joist number.
        n: u8,
        /// S side joist number.
        s: u8,
        /// Offset S less N.
        offset: Length,
        /// Median of all.
        median: Length,
    },
    /// A whole side looks off by a burn.
    SideOffByBurn {
        /// The side whose run may lack its burn, or have one that was not held.
        side: Side,
        /// Median offset found, S less N.
        offset: Length,
    },
    /// Two joists of one side overlap.
    JoistsOverlap {
        /// Their side.
        side: Side,
        /// The first, from 1.
        first: u8,
        /// The second.
        second: u8,
        /// By how much.
        by: Length,
    },
    /// A gap above 1.6 times the usual one: joist missed?
    JoistMissed {
        /// Side.
        side: Side,
        /// The joist before the gap.
        after: u8,
        /// Centre to centre.
        gap: Length,
        /// Usual.
        usual: Length,
    },
    /// The joist count by eye differs from the readings.
    CountDiffers {
        /// Side.
        side: Side,
        /// Counted by eye.
        counted: u16,
        /// Read.
        read: u16,
    },
    /// Readings accepted untouched from a guess.
    Guessed {
        /// Side.
        side: Side,
        /// How many.
        guessed: u16,
        /// Of how many.
        of: u16,
    },
    /// A joist lies partly or wholly off the clear span.
    JoistOffSpan {
        /// Side.
        side: Side,
        /// From 1.
        joist: u8,
    },
    /// The clear distance was not measured.
    ClearNotMeasured,
    /// Keyed and resulting bearing at an end differ.
    BearingDiffers {
        /// Which end.
        end: End,
        /// Keyed.
        keyed: Length,
        /// Resulting.
        resulting: Length,
    },
    /// The beam is still as ordered: nothing is offered from end B.
    LengthOrdered,
    /// Outstand not measured: the table's figure stood in.
    OutstandFromTable {
        /// Side.
        side: Side,
    },
    /// Measured outstands of one side spread by more than 1/8 in.
    OutstandSpread {
        /// Side.
        side: Side,
        /// Greatest less least.
        spread: Length,
    },
    /// E_MIN is below the 4D full-value end distance.
    EndDistanceShort {
        /// Keyed.
        least: Length,
        /// 4D.
        full: Length,
    },
    /// Minimum spacing is below the row distance across the grain.
    SpacingShort {
        /// Keyed.
        least: Length,
        /// 5D.
        full: Length,
    },
    /// A row is nearer to an edge of the packing than it should be.
    EdgeDistanceShort {
        /// The row.
        row: Row,
        /// Found.
        found: Length,
        /// Wanted.
        wanted: Length,
    },
    /// Rows more than 5 in apart in one sawn board.
    RowsFarApart {
        /// Apart.
        apart: Length,
    },
    /// The web hole is larger than the standard hole.
    WebHoleLarge {
        /// Keyed.
        hole: Length,
        /// Standard.
        standard: Length,
        /// Bolt diameter.
        bolt: Length,
    },
    /// The web hole is larger than the washer can cover by 1/4 in all round.
    WasherCoversShort {
        /// Side whose washer sits on bare web.
        side: Side,
        /// Washer size.
        washer: Length,
        /// Hole.
        hole: Length,
    },
    /// The wood hole is larger than the web hole: that bit does not pass the steel.
    WoodHoleLarger {
        /// Wood hole.
        wood: Length,
        /// Web hole.
        web: Length,
    },
    /// Two neighbours in one row where rows should take turns.
    NeighboursInOneRow {
        /// The first station, from 1.
        station: u8,
        /// The row.
        row: Row,
    },
    /// Moisture given with wood that will end shy when dry.
    StackGoesShy {
        /// Side.
        side: Side,
        /// Total less aim when dry.
        error_dry: Length,
    },
    /// A layer is ripped to the flat of the web: it does not seat on the flange.
    LayerDoesNotSeat {
        /// Side.
        side: Side,
        /// Index into the stack, web first.
        layer: u8,
    },
    /// No wood species keyed: SPF stood in.
    SpeciesAssumed,
    /// Thickness of packing for the rods came from the outstand: no stack.
    RodFromOutstand {
        /// Side.
        side: Side,
    },
    /// Packing pieces of this job leave a stretch packed on one side only.
    OneSided {
        /// Start of the stretch.
        from: Length,
        /// Its end.
        to: Length,
    },
    /// Green or wet wood: nuts go slack, snug again.
    SnugAgain,
    /// Before drilling: crown, paint, plan code; the engineer's drawing rules.
    BeforeDrilling,
    /// Shores before any joist is cut.
    ShoresFirst,
    /// More cautions than a plan can hold.
    AndMore,
    /// The steel does not reach the face of a wall.
    SteelShort {
        /// At which end.
        end: End,
        /// From the steel's end to the wall face.
        by: Length,
    },
    /// The hole through the wood is larger than the bolt plus 1/16 in.
    WoodHoleLarge {
        /// Keyed.
        hole: Length,
        /// The most that NDS 12.1.3.2 has.
        most: Length,
        /// Bolt diameter.
        bolt: Length,
    },
    /// A washer of no built-in size has no thickness: the usual one stood in.
    WasherThicknessAssumed {
        /// Its side.
        side: Side,
        /// Its size.
        size: Length,
        /// The thickness that the rods allow for.
        thickness: Length,
    },
    /// A row so near to a flange that the hole (on bare web the washer) reaches
    /// into the fillet.
    RowInFillet {
        /// The row.
        row: Row,
        /// Its height.
        height: Length,
        /// Lowest height clear of the fillets.
        lowest: Length,
        /// Highest.
        highest: Length,
    },
    /// Rows closer than 3D: the two bolts of a pair.
    RowsClose {
        /// Apart.
        apart: Length,
        /// 3D.
        wanted: Length,
    },
    /// Neither beam nor bearing on the card: stations count from wall face A.
    CountedFromWallA,
    /// A reading that is not greater than the one before it in its run.
    NotIncreasing {
        /// Side.
        side: Side,
        /// On its side, from 1.
        run: u8,
        /// The reading before.
        before: Length,
        /// The reading.
        reading: Length,
    },
    /// A joist that would stand as its neighbours do if it were read exactly
    /// 1, 10 or 12 in or 10 cm less (or more, below zero).
    ReadingSlip {
        /// Side.
        side: Side,
        /// From 1.
        joist: u8,
        /// How far it stands toward B of the usual place.
        by: Length,
    },
    /// A support that has to hold the beam down.
    Lift {
        /// Index into [`crate::Job::supports`].
        row: u8,
        /// Least reaction in whole pounds, rounded down: below zero.
        least: i32,
        /// The live load that makes it.
        with: Pattern,
        /// Why.
        reason: LiftReason,
        /// Where the shores come away first.
        first: Segment,
        /// Where they come away last.
        last: Segment,
    },
    /// A support that holds by little.
    NearLift {
        /// Index into [`crate::Job::supports`].
        row: u8,
        /// Least reaction with 0.6 of the keyed dead load, whole pounds,
        /// rounded down.
        least: i32,
        /// Greatest reaction, whole pounds, rounded down.
        greatest: i32,
    },
    /// An overhang longer than the span beside it.
    OverhangLong {
        /// At which end.
        end: End,
        /// From the support to the end of the steel.
        overhang: Length,
        /// The span beside it.
        span: Length,
    },
    /// A load that the shift of the beam puts past the end of the steel.
    LoadPastSteel {
        /// Index into [`crate::Job::loads`].
        row: u8,
    },
    /// Loads without a side: half to each.
    LoadHalved,
    /// Nothing about packing on the card: no weight is counted for it.
    PackingNotWeighed,
    /// Marks nearer to the edge of a bearing than the beam is deep.
    HolesNearBearing {
        /// Index into [`crate::Job::supports`].
        row: u8,
        /// How many marks.
        marks: u8,
        /// The nearest of them, from 1.
        station: u8,
        /// From its centre to the edge of the bearing; 0 over the bearing.
        distance: Length,
    },
    /// An end in a wall pocket: nothing on the card keeps it from rolling over.
    EndMayRollOver {
        /// Which end.
        end: End,
    },
    /// A pocket in a block wall: the block under it must be filled.
    FillBlock {
        /// Index into [`crate::Job::supports`].
        row: u8,
    },
    /// Packing or wood shims that touch masonry or concrete.
    WoodOffMasonry,
    /// Treated packing eats plain steel.
    TreatedWood,
    /// Torch or welder near packing.
    HotWork,
    /// A nail that goes less than 10D deep and keeps a part of its value.
    NailKeepsLess {
        /// Index into [`crate::Job::nails`].
        nail: u8,
        /// In the packing of which side.
        side: Side,
        /// What it keeps, percent, rounded down.
        percent: u8,
    },
}

/// Adds a caution; the last place of a full list says that there are more.
pub fn add(cautions: &mut Cautions, caution: Caution) {
    let room = cautions.capacity() - cautions.len();
    if room > 1 {
        let _ = cautions.push(caution);
    } else if room == 1 {
        let _ = cautions.push(Caution::AndMore);
    }
}

/// Adds a caution before all others, for what nobody may overlook; in a full list
/// the last one makes room, and the last place says that there are more.
pub fn add_first(cautions: &mut Cautions, caution: Caution) {
    if cautions.is_full() {
        cautions.pop();
        if let Some(last) = cautions.last_mut() {
            *last = Caution::AndMore;
        }
    }
    let _ = put_in(cautions, 0, caution);
}
