//! Fields: every single thing on a job card that a key can change.
//!
//! In: a job and a field. Out: its value; the other way round, a job in which the
//! field holds that value. One table says what each is called, what sort of
//! value it takes and which list it belongs to, so that forms, entry and the
//! journal need no code of their own for any of them. The numbers stay with the
//! fields for good: they stand in journals.

mod bolting;
mod house;
mod limits;
mod steel;
mod stock;
mod survey;

use boltbay_core::Job;
use boltbay_core::decimal::Decimal;
use boltbay_core::job::Position;
use boltbay_core::length::Length;
use heapless::String;

/// Words keyed by the user: up to 24 characters.
pub type Words = String<24, u8>;

/// What a field holds.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Value {
    /// Not keyed: a default stands in, or it is missing.
    Nothing,
    /// A length.
    Length(Length),
    /// A decimal number in the unit of its field.
    Number(Decimal),
    /// A whole number.
    Count(u16),
    /// One of the field's choices, from 0.
    Choice(u8),
    /// A name or a designation.
    Words(Words),
    /// A position with its hook.
    At(Position),
}

/// What sort of value a field takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sort {
    /// A length of the beam or the house: the tape's ladder.
    Length,
    /// A small length, read finely: the ladder in its finest steps.
    Fine,
    /// A small length in decimals: thousandths of an inch, or of a millimetre.
    Decimal,
    /// A decimal number; its unit in an imperial and a metric job.
    Number(&'static str, &'static str),
    /// A whole number.
    Count,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// Letters, at most this many.
    Words(u8),
    /// A position: its reading and what the tape hangs on.
    At,
    /// A designation, by depth then weight.
    Shape,
}

/// A list of the job: entries that can be added and taken out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[repr(u8)]
pub enum List {
    /// What the beam rests on.
    Supports = 1,
    /// Loads.
    Loads = 2,
    /// Tape runs.
    Runs = 3,
    /// Joist readings of all runs.
    Joists = 4,
    /// Checks and closes of all runs.
    Checks = 5,
    /// Hangers.
    Hangers = 6,
    /// Nails.
    Nails = 7,
    /// Obstacles and zones.
    Keepouts = 8,
    /// Packing pieces.
    Packing = 9,
    /// Bolts wanted near a point.
    Nears = 10,
    /// Layers of packing stock.
    Layers = 11,
    /// Rods and offcuts.
    Sticks = 12,
    /// Other pieces from the same rods.
    Pieces = 13,
    /// Holes as they are.
    Holes = 14,
}

impl List {
    /// All of them.
    pub const ALL: [List; 14] = [
        List::Supports,
        List::Loads,
        List::Runs,
        List::Joists,
        List::Checks,
        List::Hangers,
        List::Nails,
        List::Keepouts,
        List::Packing,
        List::Nears,
        List::Layers,
        List::Sticks,
        List::Pieces,
        List::Holes,
    ];

    /// The list of this number.
    pub fn of(number: u8) -> Option<List> {
        List::ALL.into_iter().find(|list| *list as u8 == number)
    }

    /// Entries that `job` has in it.
    pub fn len(self, job: &Job) -> u8 {
        let len = match self {
            List::Supports => job.supports.len(),
            List::Loads => job.loads.len(),
            List::Runs => job.runs.len(),
            List::Joists => job.joists.len(),
            List::Checks => job.checks.len(),
            List::Hangers => job.hangers.len(),
            List::Nails => job.nails.len(),
            List::Keepouts => job.keepouts.len(),
            List::Packing => job.packing.len(),
            List::Nears => job.nears.len(),
            List::Layers => job.layers.len(),
            List::Sticks => job.sticks.len(),
            List::Pieces => job.pieces.len(),
            List::Holes => job.holes.len(),
        };
        u8::try_from(len).unwrap_or(u8::MAX)
    }
}

/// One kind of field, with what the table says of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct About {
    /// What the crew reads.
    pub label: &'static str,
    /// What sort of value it takes.
    pub sort: Sort,
}

macro_rules! kinds {
    ($($kind:ident = $number:literal, $label:literal, $sort:expr;)*) => {
        /// The kinds of fields.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        #[repr(u8)]
        pub enum Kind {
            $(#[doc = $label] $kind = $number,)*
        }

        impl Kind {
            /// All of them, in the order of the table.
            pub const ALL: &'static [Kind] = &[$(Kind::$kind),*];

            /// What the table says of it.
            pub const fn about(self) -> About {
                match self {
                    $(Kind::$kind => About { label: $label, sort: $sort },)*
                }
            }
        }
    };
}

const NO_YES: Sort = Sort::Choice(&["NO", "YES"]);
const SIDES: Sort = Sort::Choice(&["BOTH SIDES", "FIRST SIDE", "SECOND SIDE"]);
const STAYS: Sort = Sort::Choice(&["WITH THE HOUSE", "WITH THE BEAM"]);

kinds! {
    JobName = 1, "JOB NAME", Sort::Words(24);
    Units = 2, "UNITS", Sort::Choice(&["FEET AND INCHES", "MILLIMETRES"]);
    Letter = 3, "SIDE LETTER", Sort::Words(1);
    Shape = 4, "STEEL", Sort::Shape;
    Length = 5, "STEEL LENGTH", Sort::Length;
    Measured = 6, "LENGTH IS", Sort::Choice(&["AS ORDERED", "MEASURED"]);
    OwnDepth = 7, "DEPTH", Sort::Decimal;
    OwnWidth = 8, "FLANGE WIDTH", Sort::Decimal;
    OwnWeb = 9, "WEB THICK", Sort::Decimal;
    OwnFlange = 10, "FLANGE THICK", Sort::Decimal;
    OwnKDesign = 11, "K DESIGN", Sort::Decimal;
    OwnKDetail = 12, "K DETAIL", Sort::Decimal;
    OwnK1 = 13, "K1", Sort::Decimal;
    OwnWeight = 14, "WEIGHT", Sort::Number("LB/FT", "KG/M");
    OwnIx = 15, "IX", Sort::Number("IN4", "E6 MM4");
    OwnSx = 16, "SX", Sort::Number("IN3", "E3 MM3");
    OwnZx = 17, "ZX", Sort::Number("IN3", "E3 MM3");
    Fy = 18, "STEEL FY", Sort::Number("KSI", "MPA");
    Fu = 19, "STEEL FU", Sort::Number("KSI", "MPA");
    Braced = 20, "HELD EVERY", Sort::Length;
    BracedBottom = 21, "BOT HELD EVERY", Sort::Length;
    Bearing = 22, "BEARING", Sort::Length;
    Clear = 23, "WALL TO WALL", Sort::Length;
    PocketDepth = 24, "POCKET DEPTH", Sort::Length;
    PocketHeight = 25, "POCKET HEIGHT", Sort::Length;
    PocketWidth = 26, "POCKET WIDTH", Sort::Length;
    Square = 27, "SQUARE OFF", Sort::Fine;
    Stand = 28, "END A IS AT MY", Sort::Choice(&["LEFT", "RIGHT"]);
    Outstand = 29, "WEB TO TIP", Sort::Fine;
    JoistDepth = 30, "JOIST DEPTH", Sort::Fine;
    JoistOffset = 31, "ABOVE STEEL", Sort::Fine;
    Subfloor = 32, "SUBFLOOR", Sort::Fine;
    SupportName = 33, "NAME", Sort::Words(12);
    SupportCentre = 34, "CENTRE AT", Sort::At;
    SupportLength = 35, "LENGTH", Sort::Length;
    SupportWidth = 36, "WIDTH", Sort::Length;
    SupportMaterial = 37, "MADE OF", Sort::Choice(&["CONCRETE", "MASONRY", "WOOD", "STEEL"]);
    SupportAllowable = 38, "ALLOWED", Sort::Number("PSI", "MPA");
    PostAllowable = 39, "POST ALLOWED", Sort::Number("LB", "KN");
    PostFooting = 40, "FOOTING", Sort::Number("LB", "KN");
    LoadKind = 41, "KIND", Sort::Choice(&["FLOOR AREA", "ALONG A LINE", "AT A POINT"]);
    LoadDead = 42, "DEAD", Sort::Number("PSF PLF LB", "KPA KN/M KN");
    LoadLive = 43, "LIVE", Sort::Number("PSF PLF LB", "KPA KN/M KN");
    LoadTributary = 44, "FLOOR WIDTH", Sort::Length;
    LoadFrom = 45, "FROM", Sort::At;
    LoadTo = 46, "TO", Sort::At;
    LoadAt = 47, "AT", Sort::At;
    LoadSide = 48, "HANGS ON", Sort::Choice(&["HALF EACH SIDE", "FIRST SIDE", "SECOND SIDE", "ON TOP"]);
    Duration = 49, "DURATION CD", Sort::Number("", "");
    RunSide = 50, "SIDE", Sort::Choice(&["FIRST SIDE", "SECOND SIDE"]);
    RunHook = 51, "HOOKED ON", Sort::Choice(&["WALL A", "WALL B", "END A", "END B", "A MARK"]);
    RunMark = 52, "MARK AT", Sort::At;
    RunToward = 53, "RUNS TOWARD", Sort::Choice(&["END A", "END B"]);
    RunEdge = 54, "READ TO", Sort::Choice(&["NEAR EDGE", "CENTRE", "FAR EDGE"]);
    RunBurn = 55, "BURN", Sort::Length;
    RunThickness = 56, "JOIST THICK", Sort::Fine;
    RunReadTo = 57, "TAPE READ TO", Sort::Choice(&["1/32", "1/16", "1/8", "1 MM", "5 MM"]);
    RunOverride = 58, "LET IT STAND", NO_YES;
    Reading = 59, "READING", Sort::Length;
    JoistThickness = 60, "THICK", Sort::Fine;
    JoistHanger = 61, "HANGER", Sort::Count;
    CheckReading = 62, "CHECK READS", Sort::Length;
    CheckPoint = 63, "POINT", Sort::At;
    CountedJoists = 64, "JOISTS COUNTED", Sort::Count;
    HangerName = 65, "NAME", Sort::Words(12);
    HangerMetal = 66, "METAL BEYOND", Sort::Fine;
    HangerHeight = 67, "HEIGHT", Sort::Fine;
    HangerRated = 68, "RATED", Sort::Number("LB", "KN");
    NailName = 69, "NAME", Sort::Words(12);
    NailLength = 70, "LENGTH", Sort::Fine;
    NailDiameter = 71, "DIAMETER", Sort::Decimal;
    NailSlant = 72, "SLANT", Sort::Number("DEG", "DEG");
    ThingSides = 73, "ON", SIDES;
    ThingFrom = 74, "FROM", Sort::At;
    ThingTo = 75, "TO", Sort::At;
    ThingKind = 76, "KIND", Sort::Choice(&["SOLID", "NO ACCESS", "NO BOLT ZONE"]);
    ThingStays = 77, "GOES", STAYS;
    ThingName = 78, "NAME", Sort::Words(12);
    PieceFrom = 79, "FROM", Sort::At;
    PieceTo = 80, "TO", Sort::At;
    PieceSides = 81, "ON", SIDES;
    Seated = 82, "WEDGED DOWN", NO_YES;
    Standoff = 134, "OFF THE WEB", Sort::Fine;
    Bolt = 83, "BOLT", Sort::Fine;
    WebHole = 84, "HOLE IN WEB", Sort::Fine;
    WoodHole = 85, "HOLE IN WOOD", Sort::Fine;
    Fyb = 86, "BOLT FYB", Sort::Number("KSI", "MPA");
    WasherSize = 87, "WASHER", Sort::Fine;
    WasherShape = 88, "WASHER IS", Sort::Choice(&["ROUND", "KEPT SQUARE", "SQUARE, TURNS"]);
    WasherThickness = 89, "WASHER THICK", Sort::Fine;
    NutThickness = 90, "NUT THICK", Sort::Fine;
    NutCorners = 91, "NUT CORNERS", Sort::Fine;
    Gap = 92, "CLEAR GAP", Sort::Fine;
    Lattice = 93, "MARKS EVERY", Sort::Fine;
    Play = 94, "PLAY WANTED", Sort::Fine;
    Pattern = 95, "PATTERN", Sort::Choice(&["ONE ROW", "TAKING TURNS", "PAIRS ALL ALONG"]);
    RowTop = 96, "ROW TOP HEIGHT", Sort::Fine;
    RowBot = 97, "ROW BOT HEIGHT", Sort::Fine;
    Spacing = 98, "SPACING", Sort::Length;
    SpacingBasis = 99, "COUNTED", Sort::Choice(&["EVERY BOLT", "IN EACH ROW"]);
    HoldBack = 100, "HOLD BACK", Sort::Fine;
    LeastSpacing = 101, "LEAST SPACING", Sort::Length;
    EndLeast = 102, "FIRST BOLT MIN", Sort::Length;
    EndMost = 103, "FIRST BOLT MAX", Sort::Length;
    EndPaired = 104, "AT THE ENDS", Sort::Choice(&["SINGLE BOLTS", "PAIRS"]);
    NearAt = 105, "NEAR", Sort::At;
    NearWithin = 106, "WITHIN", Sort::Length;
    NearReach = 107, "HOW MANY", Sort::Choice(&["ONE", "ONE EACH SIDE"]);
    NearPaired = 108, "AS", Sort::Choice(&["SINGLE BOLTS", "PAIRS"]);
    NearName = 109, "NAME", Sort::Words(12);
    LayerName = 110, "NAME", Sort::Words(12);
    LayerThickness = 111, "THICK", Sort::Fine;
    LayerKind = 112, "KIND", Sort::Choice(&["SOLID", "SHEET"]);
    LayerMoisture = 113, "MOISTURE", Sort::Number("%", "%");
    LayerCount = 114, "LAYERS", Sort::Count;
    Shy = 115, "SHY AT MOST", Sort::Fine;
    Proud = 116, "PROUD AT MOST", Sort::Fine;
    Aim = 117, "AIM", Sort::Fine;
    Service = 118, "DRIES TO", Sort::Number("%", "%");
    Wood = 119, "WOOD", Sort::Choice(&["SPF", "DF-L", "HF", "SP"]);
    StickLength = 120, "LENGTH", Sort::Length;
    StickCount = 121, "HOW MANY", Sort::Count;
    StickSource = 122, "IS", Sort::Choice(&["BOUGHT", "AN OFFCUT"]);
    Kerf = 123, "SAW CUT", Sort::Fine;
    Trim = 124, "TRIM ENDS", NO_YES;
    Projection = 125, "PAST THE NUT", Sort::Fine;
    Spare = 126, "SPARE RODS", Sort::Count;
    OtherLength = 127, "LENGTH", Sort::Length;
    OtherCount = 128, "HOW MANY", Sort::Count;
    OtherName = 129, "NAME", Sort::Words(12);
    Placed = 130, "MOVED TOWARD B", Sort::Fine;
    HoleAt = 131, "HOLE AT", Sort::At;
    HoleRow = 132, "ROW", Sort::Choice(&["TOP", "BOT"]);
    HoleState = 133, "IS", Sort::Choice(&["MARKED", "DRILLED", "ABANDONED"]);
}

/// A field: its kind, and which end, side or entry of a list is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Field {
    /// Which kind.
    pub kind: Kind,
    /// The end (A 0, B 1), the side, or the entry of its list, from 0.
    pub index: u8,
}

impl Field {
    /// A field that stands once.
    pub const fn of(kind: Kind) -> Field {
        Field { kind, index: 0 }
    }

    /// The field of an end, a side or an entry.
    pub const fn at(kind: Kind, index: u8) -> Field {
        Field { kind, index }
    }

    /// The kind of this number.
    pub fn kind(number: u8) -> Option<Kind> {
        let mut all = Kind::ALL.iter().copied();
        all.find(|kind| *kind as u8 == number)
    }

    /// What it holds; `Nothing` where nothing is keyed, or there is no such entry.
    pub fn get(self, job: &Job) -> Value {
        steel::get(job, self)
            .or_else(|| house::get(job, self))
            .or_else(|| survey::get(job, self))
            .or_else(|| bolting::get(job, self))
            .or_else(|| stock::get(job, self))
            .unwrap_or(Value::Nothing)
    }

    /// Puts a value there. `false`: the field takes no such value, or there is
    /// no such entry; the job is then as it was.
    pub fn set(self, job: &mut Job, value: &Value) -> bool {
        if !self.kind.holds(value) {
            return false;
        }
        let set = steel::set(job, self, value)
            .or_else(|| house::set(job, self, value))
            .or_else(|| survey::set(job, self, value))
            .or_else(|| bolting::set(job, self, value))
            .or_else(|| stock::set(job, self, value));
        set.unwrap_or(false)
    }
}

impl Value {
    /// The length, if it is one.
    pub const fn length(&self) -> Option<Length> {
        match self {
            Value::Length(length) => Some(*length),
            _ => None,
        }
    }

    /// A keyed length, or nothing.
    pub fn of_length(length: Option<Length>) -> Value {
        length.map_or(Value::Nothing, Value::Length)
    }

    /// A keyed number, or nothing.
    pub fn of_number(number: Option<Decimal>) -> Value {
        number.map_or(Value::Nothing, Value::Number)
    }

    /// A keyed count, or nothing.
    pub fn of_count(count: Option<u16>) -> Value {
        count.map_or(Value::Nothing, Value::Count)
    }

    /// A keyed position, or nothing.
    pub fn of_at(at: Option<Position>) -> Value {
        at.map_or(Value::Nothing, Value::At)
    }

    /// A keyed name; nothing where it is empty.
    pub fn of_words(words: &str) -> Value {
        let mut kept = Words::new();
        match words {
            "" => Value::Nothing,
            words => match kept.push_str(words) {
                Ok(()) => Value::Words(kept),
                Err(_) => Value::Nothing,
            },
        }
    }

    /// Into an optional length; `None` where it is something else.
    fn to_length(&self) -> Option<Option<Length>> {
        match self {
            Value::Nothing => Some(None),
            Value::Length(length) => Some(Some(*length)),
            _ => None,
        }
    }

    /// Into an optional number.
    fn to_number(&self) -> Option<Option<Decimal>> {
        match self {
            Value::Nothing => Some(None),
            Value::Number(number) => Some(Some(*number)),
            _ => None,
        }
    }

    /// Into an optional count.
    fn to_count(&self) -> Option<Option<u16>> {
        match self {
            Value::Nothing => Some(None),
            Value::Count(count) => Some(Some(*count)),
            _ => None,
        }
    }

    /// Into an optional position.
    fn to_at(&self) -> Option<Option<Position>> {
        match self {
            Value::Nothing => Some(None),
            Value::At(at) => Some(Some(*at)),
            _ => None,
        }
    }

    /// The choice, where one is made.
    const fn to_choice(&self) -> Option<u8> {
        match self {
            Value::Choice(choice) => Some(*choice),
            _ => None,
        }
    }

    /// Into a name; nothing is the empty one, and one too long is none.
    fn to_words<const N: usize>(&self) -> Option<String<N, u8>> {
        match self {
            Value::Nothing => Some(String::new()),
            Value::Words(words) => {
                let mut kept = String::new();
                kept.push_str(words).ok().map(|()| kept)
            }
            _ => None,
        }
    }
}

/// Puts `value` into `place` where there is one.
fn put<T>(place: &mut T, value: Option<T>) -> bool {
    match value {
        Some(value) => {
            *place = value;
            true
        }
        None => false,
    }
}
