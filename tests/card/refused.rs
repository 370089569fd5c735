//! Every error of a card: which row, which field, what is wrong, what is right.

use super::read;
use boltbay_core::Length;
use boltbay_core::card::{CardError, Kind, Wrong};
use boltbay_core::decimal::DecimalError;
use boltbay_core::job::LONGEST_STEEL;
use boltbay_core::length::LengthError;
use boltbay_core::words::Units;

/// Rows behind the head, row of the file, kind, field, what is wrong, and what
/// the sentence says would be right.
type Case = (
    &'static str,
    u32,
    Option<Kind>,
    &'static str,
    Wrong,
    &'static str,
);

const fn inches(count: i32) -> Length {
    Length::from_inches(count)
}

const fn feet_mark(feet: u32, inches: u32) -> Wrong {
    Wrong::Length(LengthError::FeetMark {
        feet,
        inches,
        numerator: 0,
        denominator: 0,
    })
}

const NS: Wrong = Wrong::NotASide { sides: *b"NS" };

/// What one row can have wrong. The head is two rows, so the first is row 3.
#[rustfmt::skip]
const ROWS: &[Case] = &[
    ("joists,9", 3, None, "KIND", Wrong::UnknownKind { like: Some(Kind::Joist) }, "write joist"),
    ("drill,9", 3, None, "KIND", Wrong::UnknownKind { like: Some(Kind::Drilled) }, "write drilled"),
    ("?,9", 3, None, "KIND", Wrong::UnknownKind { like: None }, "#"),
    ("boltbay,1", 3, Some(Kind::Boltbay), "KIND", Wrong::Second { first: 1 }, "row 1"),
    ("gap,1/4\ngap,1/4", 4, Some(Kind::Gap), "KIND", Wrong::Second { first: 3 }, "row 3"),
    ("units,metric", 3, Some(Kind::Units), "KIND", Wrong::Second { first: 2 }, "row 2"),
    ("wall,A,4\ngap,0\nwall,a,4", 5, Some(Kind::Wall), "END", Wrong::Second { first: 3 }, "row 3"),
    ("pocket,B,4\npocket,B,4", 4, Some(Kind::Pocket), "END", Wrong::Second { first: 3 }, "keep one"),
    ("outstand,N,4\noutstand,N,4", 4, Some(Kind::Outstand), "SIDE", Wrong::Second { first: 3 }, "keep one"),
    ("count,N,4\ncount,N,4", 4, Some(Kind::Count), "SIDE", Wrong::Second { first: 3 }, "keep one"),
    ("floor,S,9\nfloor,S,9", 4, Some(Kind::Floor), "SIDE", Wrong::Second { first: 3 }, "keep one"),
    ("washer,both,2,round\nwasher,S,2,round", 4, Some(Kind::Washer), "SIDE", Wrong::Second { first: 3 }, "keep one"),
    ("square,S,A,1\nsquare,S,B,1\nsquare,S,A,2", 5, Some(Kind::Square), "SIDE", Wrong::Second { first: 3 }, "keep one"),
    ("hanger,top\nhanger,Top", 4, Some(Kind::Hanger), "NAME", Wrong::Second { first: 3 }, "keep one"),
    ("support,P,9,9,9,wood\nsupport,p,19,9,9,wood", 4, Some(Kind::Support), "NAME", Wrong::Second { first: 3 }, "keep one"),
    ("support,P,9,9,9,wood\npost,P,9\npost,P,8", 5, Some(Kind::Post), "SUPPORT NAME", Wrong::Second { first: 4 }, "keep one"),
    ("tape,N,end A,,near\noverride,N,1\noverride,N,1", 5, Some(Kind::Override), "RUN", Wrong::Second { first: 4 }, "keep one"),
    ("clear,", 3, Some(Kind::Clear), "LENGTH", Wrong::Missing, "write LENGTH"),
    ("clear", 3, Some(Kind::Clear), "LENGTH", Wrong::Missing, "write LENGTH"),
    ("support,P,,9,9,wood", 3, Some(Kind::Support), "CENTRE", Wrong::Missing, "write CENTRE"),
    ("support,P,9,,9,wood", 3, Some(Kind::Support), "LENGTH", Wrong::Missing, "write LENGTH"),
    ("support,P,9,9,,wood", 3, Some(Kind::Support), "WIDTH", Wrong::Missing, "write WIDTH"),
    ("offcut,9", 3, Some(Kind::Offcut), "COUNT", Wrong::Missing, "write COUNT"),
    ("clear,9,8", 3, Some(Kind::Clear), "END OF ROW", Wrong::Extra, "empty"),
    ("clear,9,,,,,,,,,,,,,,,,,,8", 3, Some(Kind::Clear), "END OF ROW", Wrong::Extra, "empty"),
    ("clear,14-3", 3, Some(Kind::Clear), "LENGTH", feet_mark(14, 3), "write 14' 3"),
    ("wall,A,5/10", 3, Some(Kind::Wall), "BEARING", Wrong::Length(LengthError::Denominator { denominator: 10 }), "16"),
    ("steel,fifty", 3, Some(Kind::Steel), "FY", Wrong::Decimal(DecimalError::Strange { found: 'f' }), "12.5"),
    ("packing,4,20' wal B", 3, Some(Kind::Packing), "TO", Wrong::Position, "wall B"),
    ("near,mid,4,one,single", 3, Some(Kind::Near), "AT", Wrong::Position, "end A"),
    ("spare,2.5", 3, Some(Kind::Spare), "COUNT", Wrong::Count { least: 0, most: 9_999 }, "whole number"),
    ("spare,-1", 3, Some(Kind::Spare), "COUNT", Wrong::Count { least: 0, most: 9_999 }, "from 0 to 9999"),
    ("cut,K7FQ2M,0", 3, Some(Kind::Cut), "BARS", Wrong::Count { least: 1, most: 9_999 }, "from 1"),
    ("cut,K7FQ2M,2\ngap,0\ncut,k7fq2m,1", 5, Some(Kind::Cut), "LIST", Wrong::Second { first: 3 }, "row 3"),
    ("piece,9,0", 3, Some(Kind::Piece), "COUNT", Wrong::Count { least: 1, most: 9_999 }, "from 1"),
    ("rod,9,70000", 3, Some(Kind::Rod), "COUNT", Wrong::Count { least: 0, most: 9_999 }, "9999"),
    ("override,N,9", 3, Some(Kind::Override), "RUN", Wrong::Count { least: 1, most: 8 }, "from 1 to 8"),
    ("seated,maybe", 3, Some(Kind::Seated), "YES OR NO", Wrong::NotOneOf(&["yes", "no"]), "yes or no"),
    ("wood,oak", 3, Some(Kind::Wood), "SPECIES", Wrong::NotOneOf(&["SPF", "DF-L", "HF", "SP"]), "SPF, DF-L, HF or SP"),
    ("wall,C,4", 3, Some(Kind::Wall), "END", Wrong::NotOneOf(&["A", "B"]), "A or B"),
    ("sides,E,W\ncount,N,4", 4, Some(Kind::Count), "SIDE", Wrong::NotASide { sides: *b"EW" }, "write E or W"),
    ("count,north,4", 3, Some(Kind::Count), "SIDE", NS, "write N or S"),
    ("count,T,4", 3, Some(Kind::Count), "SIDE", NS, "write N or S"),
    ("count,N,4\ncount,E,4\ncount,S,4", 5, Some(Kind::Count), "SIDE", Wrong::NotASide { sides: *b"NE" }, "write N or E"),
    ("sides,N,T", 3, Some(Kind::Sides), "SECOND SIDE", Wrong::SideLetter, "not A, B, T or X"),
    ("sides,NE,S", 3, Some(Kind::Sides), "FIRST SIDE", Wrong::SideLetter, "one letter"),
    ("sides,w,W", 3, Some(Kind::Sides), "SECOND SIDE", Wrong::SidesEqual, "two different letters"),
    ("layer,thirteen long,1,solid", 3, Some(Kind::Layer), "NAME", Wrong::NameTooLong { limit: 12 }, "12"),
    ("layer,\u{E4}sh,1,solid", 3, Some(Kind::Layer), "NAME", Wrong::NameStrange { found: '\u{E4}' }, "plain letters"),
    ("layer,\"a\nb\",1,solid", 3, Some(Kind::Layer), "NAME", Wrong::NameStrange { found: '\n' }, "plain letters"),
    ("hanger,NONE", 3, Some(Kind::Hanger), "NAME", Wrong::NameTaken, "another"),
    ("clear,-4", 3, Some(Kind::Clear), "LENGTH", Wrong::Negative, "0 or more"),
    ("load,line,-4,0", 3, Some(Kind::Load), "DEAD", Wrong::Negative, "0 or more"),
    ("drilled,-4,top", 3, Some(Kind::Drilled), "AT", Wrong::Negative, "0 or more"),
    ("tape,N,end A,,near\njoist,-1", 4, Some(Kind::Joist), "READING", Wrong::Negative, "0 or more"),
    ("face,-1/16,1/8", 3, Some(Kind::Face), "SHY", Wrong::Negative, "AIM"),
    ("bolt,0", 3, Some(Kind::Bolt), "DIAMETER", Wrong::Zero, "more than 0"),
    ("beam,W10x33,0", 3, Some(Kind::Beam), "LENGTH", Wrong::Zero, "more than 0"),
    ("spacing,0,every", 3, Some(Kind::Spacing), "S", Wrong::Zero, "more than 0"),
    ("tape,N,end A,,near,0,0", 3, Some(Kind::Tape), "THICKNESS", Wrong::Zero, "more than 0"),
    ("steel,0", 3, Some(Kind::Steel), "FY", Wrong::Zero, "more than 0"),
    ("beam,W10x33,81'", 3, Some(Kind::Beam), "LENGTH", Wrong::LengthAbove { most: LONGEST_STEEL }, "at most 80' 0\""),
    ("spacing,50m,every", 3, Some(Kind::Spacing), "S", Wrong::LengthAbove { most: LONGEST_STEEL }, "at most 80' 0\""),
    ("drilled,101',top", 3, Some(Kind::Drilled), "AT", Wrong::LengthAbove { most: inches(1_200) }, "at most 100' 0\""),
    ("bolt,5", 3, Some(Kind::Bolt), "DIAMETER", Wrong::LengthAbove { most: inches(4) }, "at most 4\""),
    ("washer,both,3',round", 3, Some(Kind::Washer), "SIZE", Wrong::LengthAbove { most: inches(24) }, "at most 2' 0\""),
    ("lattice,13", 3, Some(Kind::Lattice), "STEP", Wrong::LengthAbove { most: inches(12) }, "at most 1' 0\""),
    ("placed,-11'", 3, Some(Kind::Placed), "SHIFT", Wrong::LengthBelow { least: inches(-120) }, "at least -10' 0\""),
    ("lattice,0.001", 3, Some(Kind::Lattice), "STEP", Wrong::LengthBelow { least: Length::from_sixty_fourths(1) }, "at least 1/64\""),
    ("duration,2.01", 3, Some(Kind::Duration), "CD", Wrong::NumberAbove { most: 2 }, "at most 2"),
    ("service,301", 3, Some(Kind::Service), "MOISTURE", Wrong::NumberAbove { most: 300 }, "at most 300"),
    ("joist,9", 3, Some(Kind::Joist), "KIND", Wrong::NoRun, "tape row first"),
    ("close,9,wall B", 3, Some(Kind::Close), "KIND", Wrong::NoRun, "tape row first"),
    ("tape,N,4',,near", 3, Some(Kind::Tape), "TOWARD", Wrong::TowardMissing, "A or B"),
    ("tape,N,wall A,A,near", 3, Some(Kind::Tape), "TOWARD", Wrong::TowardOdd, "empty"),
    ("tape,N,end B,B,near", 3, Some(Kind::Tape), "TOWARD", Wrong::TowardOdd, "empty"),
    ("tape,N,end A,,near,,,1/4", 3, Some(Kind::Tape), "READ TO", Wrong::ReadTo, "1/16"),
    ("ends,6,4", 3, Some(Kind::Ends), "E_MAX", Wrong::EndsCrossed { least: inches(6), most: inches(4) }, "swap"),
    ("bolt,1/2,7/16", 3, Some(Kind::Bolt), "WEB HOLE", Wrong::HoleBelowBolt { bolt: Length::from_sixteenths(8) }, "at least 1/2\""),
    ("bolt,1/2,,7/16", 3, Some(Kind::Bolt), "WOOD HOLE", Wrong::HoleBelowBolt { bolt: Length::from_sixteenths(8) }, "at least 1/2\""),
    ("rows,2,2", 3, Some(Kind::Rows), "TOP", Wrong::RowsCrossed, "TOP above BOT"),
    ("steel,50,49.9", 3, Some(Kind::Steel), "FU", Wrong::StrengthCrossed, "FU above FY"),
    ("beam,W10x34,20'", 3, Some(Kind::Beam), "DESIGNATION", Wrong::UnknownShape, "custom"),
    ("beam,S10x25.4,20'", 3, Some(Kind::Beam), "DESIGNATION", Wrong::UnknownShape, "W10x33"),
    ("shape,10,8,3/8,1/2,3/8,1,3/4,33", 3, Some(Kind::Shape), "K DESIGN", Wrong::ShapeCrossed, "above FLANGE"),
    ("shape,2,8,3/8,1/2,1,1,3/4,33", 3, Some(Kind::Shape), "DEPTH", Wrong::ShapeCrossed, "twice k"),
    ("shape,10,8,3/8,1/2,1,1,1/8,33", 3, Some(Kind::Shape), "K1", Wrong::ShapeCrossed, "half of WEB"),
    ("shape,10,1,3/8,1/2,1,1,3/4,33", 3, Some(Kind::Shape), "WIDTH", Wrong::ShapeCrossed, "twice K1"),
];

/// What no row shows by itself. Beam in row 3: 20 ft, so that off it is off it.
#[rustfmt::skip]
const ACROSS: &[Case] = &[
    ("count,E,4", 4, Some(Kind::Count), "SIDE", NS, "write N or S"),
    ("count,E,4\nsides,W,N", 5, Some(Kind::Sides), "FIRST SIDE", Wrong::NotASide { sides: *b"WN" }, "write W or N"),
    ("tape,N,end A,,near\njoist,9,,LUS", 5, Some(Kind::Joist), "HANGER", Wrong::UnknownHanger, "hanger row"),
    ("post,P,900", 4, Some(Kind::Post), "SUPPORT NAME", Wrong::UnknownSupport, "support row"),
    ("override,S,1\ntape,N,end A,,near", 4, Some(Kind::Override), "RUN", Wrong::UnknownRun { runs: 0 }, "counted from 1"),
    ("tape,N,end A,,near\noverride,N,2", 5, Some(Kind::Override), "RUN", Wrong::UnknownRun { runs: 1 }, "has 1"),
    ("zone,9,8,stays", 4, Some(Kind::Zone), "FROM", Wrong::FromBeyondTo, "nearer to end A"),
    ("zone,4 end B,4,stays", 4, Some(Kind::Zone), "FROM", Wrong::FromBeyondTo, "nearer to end A"),
    ("obstacle,N,8,8,solid,rides", 4, Some(Kind::Obstacle), "TO", Wrong::NoExtent, "apart"),
    ("packing,10',10' end B", 4, Some(Kind::Packing), "TO", Wrong::NoExtent, "apart"),
    ("load,line,9,9,19',18'", 4, Some(Kind::Load), "FROM", Wrong::FromBeyondTo, "nearer to end A"),
    ("drilled,20' 1,top", 4, Some(Kind::Drilled), "AT", Wrong::OffSteel { length: inches(240) }, "0 to 20' 0\""),
    ("wall,A,4\nwall,B,4\nmarked,19' 9 wall A,top", 6, Some(Kind::Marked), "AT", Wrong::OffSteel { length: inches(240) }, "0 to 20' 0\""),
    ("wall,B,4\nabandoned,19' 9 wall B,top", 5, Some(Kind::Abandoned), "AT", Wrong::OffSteel { length: inches(240) }, "0 to 20' 0\""),
    ("packing,2,21'", 4, Some(Kind::Packing), "TO", Wrong::OffSteel { length: inches(240) }, "0 to 20'"),
    ("packing,21',22'", 4, Some(Kind::Packing), "FROM", Wrong::OffSteel { length: inches(240) }, "0 to 20'"),
    ("near,21',4,one,single", 4, Some(Kind::Near), "AT", Wrong::OffSteel { length: inches(240) }, "0 to 20'"),
    ("support,P,21',4,4,wood", 4, Some(Kind::Support), "CENTRE", Wrong::OffSteel { length: inches(240) }, "0 to 20'"),
    ("load,point,21',4,4", 4, Some(Kind::Load), "AT", Wrong::OffSteel { length: inches(240) }, "0 to 20'"),
    ("obstacle,N,19',21',solid,rides", 4, Some(Kind::Obstacle), "TO", Wrong::OffSteel { length: inches(240) }, "0 to 20'"),
    ("tape,N,21',A,near", 4, Some(Kind::Tape), "HOOK", Wrong::OffSteel { length: inches(240) }, "0 to 20'"),
    ("tape,N,end A,,near\ncheck,21',21'", 5, Some(Kind::Check), "POINT", Wrong::OffSteel { length: inches(240) }, "0 to 20'"),
    ("wall,A,21'", 4, Some(Kind::Wall), "BEARING", Wrong::WallOffSteel, "smaller BEARING"),
    ("wall,A,11'\nwall,B,9'", 5, Some(Kind::Wall), "BEARING", Wrong::NoClear, "smaller bearings"),
    ("packing,2,9\npacking,8,12,S", 5, Some(Kind::Packing), "FROM", Wrong::Overlap { other: 4 }, "part them"),
    ("marked,9,top\ngap,0\ndrilled,9,top", 6, Some(Kind::Drilled), "AT", Wrong::SamePlace { other: 4 }, "row 4"),
    ("marked,9,top\nabandoned,19' 3 end B,top", 5, Some(Kind::Abandoned), "AT", Wrong::SamePlace { other: 4 }, "row 4"),
    ("support,P,9,4,4,wood\nsupport,Q,19' 3 end B,4,4,wood", 5, Some(Kind::Support), "CENTRE", Wrong::SamePlace { other: 4 }, "row 4"),
    // 16 in less 1/8 in by default; each row every 16 in, staggered: 8 in less 1/8 in.
    ("spacing,16,every,,15 15/16", 4, Some(Kind::Spacing), "S", Wrong::SpacingCrossed { least: Length::from_sixteenths(255), most: Length::from_sixteenths(254) }, "smaller MINIMUM"),
    ("spacing,16,row,1/4,8", 4, Some(Kind::Spacing), "S", Wrong::SpacingCrossed { least: inches(8), most: Length::from_sixteenths(124) }, "greater S"),
    // 5D of a 1 in bolt is 5 in.
    ("spacing,5,every\nbolt,1", 5, Some(Kind::Bolt), "DIAMETER", Wrong::SpacingCrossed { least: inches(5), most: Length::from_sixteenths(78) }, "greater S"),
    ("pattern,single\nends,2,12,paired", 5, Some(Kind::Ends), "SINGLE OR PAIRED", Wrong::PairedWithSingle { other: 4 }, "staggered"),
    ("near,9,4,one,paired\npattern,single", 5, Some(Kind::Pattern), "PATTERN", Wrong::PairedWithSingle { other: 4 }, "row 4"),
    ("shape,10,8,3/8,1/2,1,1,3/4,33", 4, Some(Kind::Shape), "KIND", Wrong::ShapeUnused { other: 3 }, "beam,custom"),
];

/// Whole files.
#[rustfmt::skip]
const FILES: &[Case] = &[
    ("", 1, None, "KIND", Wrong::NotACard, "boltbay,1"),
    ("\n\n# remark\n", 1, None, "KIND", Wrong::NotACard, "boltbay,1"),
    ("units,imperial\nboltbay,1\n", 1, None, "KIND", Wrong::NotACard, "boltbay,1"),
    ("Date,Amount\n1,2\n", 1, None, "KIND", Wrong::NotACard, "boltbay,1"),
    ("boltbay,2\n", 1, Some(Kind::Boltbay), "VERSION", Wrong::Version, "boltbay,1"),
    ("boltbay\n", 1, Some(Kind::Boltbay), "VERSION", Wrong::Missing, "VERSION"),
    ("boltbay;1\nunits;metric\n", 1, None, "KIND", Wrong::Separator { found: ';' }, "commas"),
    ("boltbay\t1\nunits\tmetric\n", 1, None, "KIND", Wrong::Separator { found: '\t' }, "commas"),
    ("boltbay,1\njob,a\0b\n", 2, None, "KIND", Wrong::Nul, "plain CSV"),
    ("boltbay,1\nclear,9\n", 2, Some(Kind::Clear), "LENGTH", Wrong::UnitsFirst, "units,imperial"),
    ("boltbay,1\nzone,9,10,stays\nunits,imperial\n", 2, Some(Kind::Zone), "FROM", Wrong::UnitsFirst, "above"),
    ("\nboltbay,1\njob,hall\n", 2, Some(Kind::Boltbay), "KIND", Wrong::NoUnits, "units,metric"),
    ("boltbay,1\nunits,imperial\njob,\"hall\nclear,9\n", 3, None, "KIND", Wrong::QuoteOpen, "close it"),
    ("boltbay,1\nunits,imperial\nbeam,custom,20'\n", 3, Some(Kind::Beam), "DESIGNATION", Wrong::NeedsShape, "shape row"),
    ("boltbay,1\nunits,imperial\nzone,9 wall B,10 wall B,stays\n", 3, Some(Kind::Zone), "FROM", Wrong::FromBeyondTo, "nearer"),
];

fn judge(text: &str, case: &Case) -> CardError {
    let (rows, row, kind, field, wrong, says) = *case;
    let error = match read(text) {
        Ok(_) => panic!("taken: {rows}"),
        Err(error) => error,
    };
    assert_eq!(
        (error.row, error.kind, error.field, error.wrong),
        (row, kind, field, wrong),
        "{rows}: {error}"
    );
    let sentence = error.to_string();
    assert!(sentence.contains(says), "{rows}: {sentence}");
    assert!(sentence.starts_with(&format!("row {row}, ")), "{sentence}");
    assert!(field == "KIND" || sentence.contains(field), "{sentence}");
    error
}

fn all() -> Vec<CardError> {
    let rows = ROWS
        .iter()
        .map(|case| judge(&format!("boltbay,1\nunits,imperial\n{}\n", case.0), case));
    let across = ACROSS.iter().map(|case| {
        judge(
            &format!("boltbay,1\nunits,imperial\nbeam,W10x33,20'\n{}\n", case.0),
            case,
        )
    });
    let files = FILES.iter().map(|case| judge(case.0, case));
    rows.chain(across).chain(files).chain(by_bytes()).collect()
}

/// Errors whose file is no text constant.
fn by_bytes() -> Vec<CardError> {
    let mut job = boltbay_core::Job::new(Units::Imperial);
    let mut refuse = |bytes: &[u8], row, wrong| {
        let error = boltbay_core::card::read(bytes, &mut job).expect_err("refused");
        assert_eq!((error.row, error.wrong), (row, wrong), "{error}");
        error
    };
    let mut long = b"boltbay,1\nunits,imperial\njob,".to_vec();
    long.extend([b'x'; 500]);
    let lines = "boltbay,1\n".to_string() + &"\n".repeat(70_000);
    let joists: String = (0..161).map(|joist| format!("joist,{joist}\n")).collect();
    let joists = format!("boltbay,1\nunits,imperial\ntape,N,end A,,near\n{joists}");
    vec![
        refuse(b"boltbay,1\n\njob,\xE9t\xE9\n", 3, Wrong::NotUtf8),
        // Cut off within a character, overlong, a surrogate: RFC 3629, section 3.
        refuse(b"boltbay,1\n\xE2\x80", 2, Wrong::NotUtf8),
        refuse(b"boltbay,1\n\xC0\x80\n", 2, Wrong::NotUtf8),
        refuse(b"boltbay,1\n\xED\xA0\x80\n", 2, Wrong::NotUtf8),
        refuse(b"boltbay,1\n\xF4\x90\x80\x80\n", 2, Wrong::NotUtf8),
        refuse(
            "boltbay,1"
                .encode_utf16()
                .flat_map(u16::to_le_bytes)
                .collect::<Vec<_>>()
                .as_slice(),
            1,
            Wrong::Nul,
        ),
        refuse(b"boltbay,1\n# remark \0\n", 2, Wrong::Nul),
        refuse(&long, 3, Wrong::RowTooLong { limit: 384 }),
        refuse(
            lines.as_bytes(),
            65_535,
            Wrong::TooManyLines { limit: 65_535 },
        ),
        refuse(
            joists.as_bytes(),
            164,
            Wrong::TooMany {
                limit: 160,
                what: "joists",
            },
        ),
    ]
}

#[test]
fn row_field_what_is_wrong_and_what_is_right() {
    assert!(all().len() > 100);
}

/// Names all variants: one that is added does not compile until it stands here.
macro_rules! variants {
    ($($name:ident,)*) => {
        fn name(wrong: &Wrong) -> &'static str {
            match wrong { $(Wrong::$name { .. } => stringify!($name),)* }
        }
        const NAMES: &[&str] = &[$(stringify!($name),)*];
    };
}

variants! {
    NotACard, Version, Nul, NotUtf8, TooManyLines, RowTooLong, QuoteOpen, Separator,
    UnknownKind, Missing, Extra, Length, Decimal, Position, Count, NotOneOf, NotASide,
    SideLetter, SidesEqual, NameTooLong, NameStrange, NameTaken, Negative, Zero,
    LengthAbove, LengthBelow, NumberAbove, UnitsFirst, NoUnits, Second, TooMany, NoRun,
    TowardMissing, TowardOdd, ReadTo, UnknownHanger, UnknownSupport, UnknownRun,
    FromBeyondTo, NoExtent, OffSteel, WallOffSteel, NoClear, Overlap, SamePlace,
    EndsCrossed, SpacingCrossed, PairedWithSingle, UnknownShape, NeedsShape, ShapeUnused,
    ShapeCrossed, HoleBelowBolt, RowsCrossed, StrengthCrossed,
}

/// Each error there is was provoked above: none is out of reach.
#[test]
fn no_error_without_a_card_that_makes_it() {
    let seen: Vec<&str> = all().iter().map(|error| name(&error.wrong)).collect();
    let missed: Vec<&&str> = NAMES.iter().filter(|name| !seen.contains(name)).collect();
    assert!(missed.is_empty(), "{missed:?}");
}

/// Every word that a user can be told to write is then accepted.
#[test]
fn what_would_be_right_is_read() {
    for rows in [
        "clear,14' 3",
        "beam,custom,20'\nshape,10,8,3/8,1/2,1,1,3/4,33",
        "tape,N,4',B,near\njoist,9,,none",
        "face,1/16,1/8,-1/16",
        "square,N,A,-1/4\nfloor,N,9,-1\nplaced,-1",
        "pattern,single\nends,2,12,single",
        "beam,W10x33,20'\npacking,2,9,N\npacking,8,12,S\npacking,12,14,S",
        "beam,W10x33,20'\nmarked,0,top\nmarked,20',top\nmarked,20',bot",
        "beam,W10x33,20'\nwall,A,4\ntape,N,21' wall A,A,near\njoist,9",
        "spacing,16,every,,15 7/8",
        "braced,0\ngap,0\nplay,0\nkerf,0\nprojection,0\nspare,0\nends,0,12",
        // Walls that no other row asks about may be missing.
        "beam,W10x33,20'\npacking,1 wall A,1 wall B",
    ] {
        if let Err(error) = read(&format!("boltbay,1\nunits,imperial\n{rows}\n")) {
            panic!("{rows}: {error}");
        }
    }
}

/// Of several errors the one that stands first in the file is told, also when
/// only the whole card shows it; rows that no row shows come after all rows.
#[test]
fn the_first_error_is_told() {
    let head = "boltbay,1\nunits,imperial\nbeam,W10x33,20'\n";
    let error = read(&format!("{head}zone,9,8,stays\npost,P,9\noverride,N,1\n")).unwrap_err();
    assert_eq!(error.row, 4);
    let error = read(&format!("{head}override,N,1\npost,P,9\nzone,9,8,stays\n")).unwrap_err();
    assert_eq!((error.row, error.kind), (4, Some(Kind::Override)));
}

#[test]
fn sentences_as_a_user_reads_them() {
    for (text, sentence) in [
        (
            "boltbay,1\nunits,imperial\nbeam,W10x33,20'\ndrilled,24' 0 1/2,top\n",
            "row 4, drilled AT `24' 0 1/2`: off the steel: write a place from 0 to 20' 0\" from end A",
        ),
        (
            "boltbay,1\nunits,metric\nbeam,W250x49.1,25000\n",
            "row 3, beam LENGTH `25000`: too long: write at most 24384 mm",
        ),
        (
            "boltbay,1\nunits,imperial\nwood,balsa\n",
            "row 3, wood SPECIES `balsa`: no such choice: write SPF, DF-L, HF or SP",
        ),
        (
            "boltbay,1\n",
            "row 1, boltbay: no units below it: write units,imperial or units,metric",
        ),
    ] {
        assert_eq!(read(text).unwrap_err().to_string(), sentence);
    }
}
