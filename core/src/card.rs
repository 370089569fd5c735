//! The job card: one CSV file that says everything about a job.
//!
//! In: bytes of a card, whole or in chunks ([`read`], [`CardReader`]), or a job
//! ([`write()`]). Out: a [`Job`], or the first error with its row, its field, what
//! is wrong and what would be right ([`CardError`]); or the text of a card that
//! reads back to the same job.
//!
//! Source: RFC 4180 for the CSV. Cards come from spreadsheets and phones, so
//! these are read too: LF, CRLF or lone CR, a byte order mark, blanks around a
//! field, empty fields at the end of a row, quoted fields, any case of kinds and
//! words, curly quotes and primes. A row that starts with `#` is a remark.
//!
//! # Rows
//!
//! The first row is `boltbay,1`; `units` stands before any length; `joist`,
//! `check` and `close` belong to the `tape` above them. Otherwise the order is
//! free. Fields in brackets may be empty, which means their default; nothing on
//! the card is rounded. The defaults stand in [`crate::defaults`].
//!
//! | Row | Fields | What it says |
//! | --- | --- | --- |
//! | `boltbay` | `1` | format version |
//! | `job` | NAME | what the job is called, up to 24 characters |
//! | `units` | `imperial` or `metric` | what a bare number means |
//! | `sides` | two letters | painted on the web; not A, B, T, X; else N and S |
//! | `beam` | DESIGNATION, LENGTH, [`ordered` or `measured`] | a W-shape of the table, or `custom`; up to 80 ft |
//! | `shape` | DEPTH, WIDTH, WEB, FLANGE, K DESIGN, K DETAIL, K1, WEIGHT, \[IX, SX, ZX\] | dimensions of a `custom` beam; lb/ft or kg/m; in4, in3 or 10^6 mm4, 10^3 mm3 |
//! | `steel` | FY, \[FU\] | strengths, ksi or MPa |
//! | `braced` | LENGTH, \[LENGTH BOTTOM FLANGE\] | between points that hold the flanges sideways; 0 = all along |
//! | `wall` | `A` or `B`, BEARING | how far the steel lies on the wall at that end |
//! | `clear` | LENGTH | between the wall faces, measured at the beam's height |
//! | `square` | SIDE, `A` or `B`, OFFSET | the wall as hooked on that side lies OFFSET toward B of the wall at the beam |
//! | `pocket` | `A` or `B`, DEPTH, \[HEIGHT, WIDTH\] | recess in the wall |
//! | `stand` | SIDE, `left` or `right` | seen from that side, the hand at which end A is |
//! | `outstand` | SIDE, D, \[D, D\] | web to flange tip, measured up to three times |
//! | `support` | NAME, CENTRE, LENGTH, WIDTH, MATERIAL, \[ALLOWABLE\] | `concrete`, `masonry`, `wood`, `steel`; psi or MPa; those named A and B may leave the sizes to their wall |
//! | `post` | SUPPORT NAME, ALLOWABLE, \[FOOTING\] | lb or kN |
//! | `load` | `area`, DEAD, LIVE, TRIBUTARY, \[FROM, TO, SIDE\] | psf or kPa |
//! | `load` | `line`, DEAD, LIVE, \[FROM, TO, SIDE\] | plf or kN/m |
//! | `load` | `point`, AT, DEAD, LIVE, \[SIDE or `top`\] | lb or kN |
//! | `duration` | CD | load duration factor |
//! | `tape` | SIDE, HOOK, TOWARD, EDGE, \[BURN, THICKNESS, READ TO\] | a run: hook `wall A`, `wall B`, `end A`, `end B`, or a mark and the end it runs toward; edge `near`, `centre`, `far` |
//! | `joist` | READING, \[THICKNESS, HANGER\] | a `g` behind a reading: accepted as guessed |
//! | `check` | READING, POINT | tape still hooked, at a known point |
//! | `close` | READING, POINT | from the last joist's same edge to a known point |
//! | `override` | SIDE, RUN | this run (from 1 on its side) shall stand though it is out |
//! | `count` | SIDE, JOISTS | joists counted by eye |
//! | `floor` | SIDE, JOIST DEPTH, \[OFFSET, SUBFLOOR\] | offset: joist top above (+) or below (-) the top of the steel |
//! | `hanger` | NAME, \[METAL BEYOND FACE, HEIGHT, RATED LOAD\] | the first is the default; `none` is built in |
//! | `nail` | NAME, LENGTH, DIAMETER, \[SLANT\] | slant in degrees |
//! | `obstacle` | SIDE or `both`, FROM, TO, `solid` or `access`, `stays` or `rides`, \[NAME\] | in the way of washers, or of drill and wrench |
//! | `zone` | FROM, TO, `stays` or `rides`, \[NAME\] | no bolt inside |
//! | `packing` | FROM, TO, [`both` or SIDE] | one piece of packing |
//! | `seated` | `yes` or `no` | packing wedged down on the bottom flange |
//! | `standoff` | GAP | the packing stands this far off the web: fillets, burrs, shims |
//! | `bolt` | DIAMETER, \[WEB HOLE, WOOD HOLE, FYB\] | ksi or MPa |
//! | `washer` | SIDE or `both`, SIZE, `round`, `square` or `turns`, \[THICKNESS\] | `turns`: square, may turn |
//! | `nut` | THICKNESS, \[ACROSS CORNERS\] | |
//! | `gap` | CLEAR | kept between a washer and what it must not touch |
//! | `lattice` | STEP | of the hole marks, from end A |
//! | `play` | WANTED | how far the beam may end up off its mark |
//! | `pattern` | `single`, `staggered` or `paired` | |
//! | `rows` | TOP, BOT | heights above the inside of the bottom flange |
//! | `spacing` | S, `every` or `row`, \[HOLD BACK, MINIMUM\] | a bolt every S, or each row every S |
//! | `ends` | E_MIN, E_MAX, [`single` or `paired`] | first and last bolt of each packing piece |
//! | `near` | AT, WITHIN, `one` or `each`, `single` or `paired`, \[NAME\] | a bolt within so much of a point |
//! | `layer` | NAME, THICKNESS, `solid` or `sheet`, \[MOISTURE, COUNT\] | `green` or percent; empty = does not dry |
//! | `face` | SHY, PROUD, \[AIM\] | packing against the flange tips |
//! | `service` | MOISTURE | percent that the wood will come to |
//! | `wood` | `SPF`, `DF-L`, `HF` or `SP` | species of the packing |
//! | `rod` | LENGTH, \[COUNT\] | to buy; empty = as many as needed |
//! | `offcut` | LENGTH, COUNT | on hand |
//! | `kerf` | WIDTH | of a cut |
//! | `trim` | `yes` or `no` | whether the factory end is cut off |
//! | `projection` | LENGTH | rod beyond each nut |
//! | `spare` | COUNT | rods more than needed |
//! | `piece` | LENGTH, COUNT, \[NAME\] | another length from the same rod |
//! | `cut` | LIST, BARS | bars cut already by the list of that code |
//! | `marked`, `drilled`, `abandoned` | AT, `top` or `bot` | holes as they are |
//! | `placed` | SHIFT | how far toward B the beam ended up off its mark |
//!
//! Lengths are written as in [`crate::length`]. A position is a length and, where
//! it was not read from end A, its hook: `50 1/4 wall A`, `12 end B`; a hook
//! alone is the place itself. Only AIM, OFFSET and SHIFT may be below 0. Names
//! are printable ASCII, up to 12 characters.

mod bolting;
mod bytes;
mod entry;
mod error;
mod hook;
mod house;
mod kind;
mod loads;
mod notes;
mod reader;
mod row;
mod rows;
mod steel;
mod stock;
mod survey;
mod validate;
mod word;
mod write;

pub use error::{CardError, Found, Wrong};
pub use kind::Kind;
pub use reader::CardReader;
pub use write::write;

use crate::job::Job;

/// Reads a whole card into `job`, whatever was in it before.
///
/// # Errors
/// The first error of the card; `job` then holds part of it.
///
/// ```
/// use boltbay_core::{Job, card, words::Units};
/// let mut job = Job::new(Units::Imperial);
/// let text = b"boltbay,1\nunits,imperial\nbeam,W10x33,24' 0\n";
/// assert!(card::read(text, &mut job).is_ok());
/// let error = card::read(b"boltbay,1\nunits,imperial\nclear,14-3\n", &mut job);
/// assert_eq!(
///     error.map_err(|error| error.to_string()),
///     Err("row 3, clear LENGTH `14-3`: feet need their mark: write 14' 3".into())
/// );
/// ```
pub fn read(bytes: &[u8], job: &mut Job) -> Result<(), CardError> {
    let mut reader = CardReader::new();
    reader.feed(bytes, job)?;
    reader.finish(job)
}
