//! Which row goes where: from the kind to the reader of its fields.
//!
//! In: a row of text. Out: the job, one row richer. The first row must be
//! `boltbay,1`; a kind that stands once may not come twice.

use super::entry::{Entry, is_side_letter};
use super::notes::Notes;
use super::row::Row;
use super::{CardError, Kind, Wrong};
use super::{bolting, house, loads, steel, stock, survey};
use crate::job::Job;

/// Reads one row that is neither blank nor a remark.
///
/// # Errors
/// The first of the row.
pub(super) fn read(
    row: &Row,
    line: u16,
    notes: &mut Notes,
    job: &mut Job,
) -> Result<(), CardError> {
    let kind = kind(row, line, notes)?;
    let mut entry = Entry::new(row, kind, line, notes, job);
    if kind.once()
        && let Some(first) = entry.notes.first(kind)
    {
        let first = u32::from(first);
        entry.refuse_row(Wrong::Second { first });
        return entry.done();
    }
    entry.notes.note(kind, line);
    dispatch(&mut entry);
    entry.done()
}

/// The kind of a row; the first must be `boltbay`.
fn kind(row: &Row, line: u16, notes: &Notes) -> Result<Kind, CardError> {
    let word = row.field(0);
    let error = |wrong| {
        let units = notes.units.unwrap_or_default();
        Err(CardError::of_row(line, None, units, wrong).at("KIND", word))
    };
    let kind = Kind::read(word);
    if !notes.started && kind != Some(Kind::Boltbay) {
        let parted = word.chars().find(|found| matches!(found, ';' | '\t' | '|'));
        return match (Kind::like(word), parted) {
            (Some(Kind::Boltbay), Some(found)) => error(Wrong::Separator { found }),
            _ => error(Wrong::NotACard),
        };
    }
    match kind {
        Some(kind) => Ok(kind),
        None => error(Wrong::UnknownKind {
            like: Kind::like(word),
        }),
    }
}

/// The reader of each kind.
fn dispatch(entry: &mut Entry) {
    match entry.kind {
        Kind::Boltbay => version(entry),
        Kind::Job => name(entry),
        Kind::Units => units(entry),
        Kind::Sides => sides(entry),
        Kind::Beam => steel::beam(entry),
        Kind::Shape => steel::shape(entry),
        Kind::Steel => steel::steel(entry),
        Kind::Braced => steel::braced(entry),
        Kind::Floor => steel::floor(entry),
        Kind::Wall => house::wall(entry),
        Kind::Clear => house::clear(entry),
        Kind::Square => house::square(entry),
        Kind::Pocket => house::pocket(entry),
        Kind::Outstand => house::outstand(entry),
        Kind::Obstacle => house::obstacle(entry),
        Kind::Zone => house::zone(entry),
        Kind::Packing => house::packing(entry),
        Kind::Placed => house::placed(entry),
        Kind::Support => loads::support(entry),
        Kind::Post => loads::post(entry),
        Kind::Load => loads::load(entry),
        Kind::Duration => loads::duration(entry),
        Kind::Stand => survey::stand(entry),
        Kind::Tape => survey::tape(entry),
        Kind::Joist => survey::joist(entry),
        Kind::Check | Kind::Close => survey::check(entry),
        Kind::Override => survey::overrides(entry),
        Kind::Count => survey::count(entry),
        Kind::Hanger => survey::hanger(entry),
        Kind::Nail => survey::nail(entry),
        _ => rules(entry),
    }
}

/// The reader of each kind about bolts and stock.
fn rules(entry: &mut Entry) {
    match entry.kind {
        Kind::Seated => bolting::seated(entry),
        Kind::Standoff => bolting::standoff(entry),
        Kind::Bolt => bolting::bolt(entry),
        Kind::Washer => bolting::washer(entry),
        Kind::Nut => bolting::nut(entry),
        Kind::Gap => bolting::gap(entry),
        Kind::Lattice => bolting::lattice(entry),
        Kind::Play => bolting::play(entry),
        Kind::Pattern => bolting::pattern(entry),
        Kind::Rows => bolting::rows(entry),
        Kind::Spacing => bolting::spacing(entry),
        Kind::Ends => bolting::ends(entry),
        Kind::Near => bolting::near(entry),
        Kind::Marked | Kind::Drilled | Kind::Abandoned => bolting::hole(entry),
        Kind::Layer => stock::layer(entry),
        Kind::Face => stock::face(entry),
        Kind::Service => stock::service(entry),
        Kind::Wood => stock::wood(entry),
        Kind::Rod | Kind::Offcut => stock::stick(entry),
        Kind::Kerf => stock::kerf(entry),
        Kind::Trim => stock::trim(entry),
        Kind::Projection => stock::projection(entry),
        Kind::Spare => stock::spare(entry),
        Kind::Piece => stock::piece(entry),
        Kind::Cut => stock::cut(entry),
        // Every other kind has its reader above; a test reads one row of each.
        _ => entry.refuse_row(Wrong::UnknownKind { like: None }),
    }
}

fn version(entry: &mut Entry) {
    if entry.filled("VERSION") != "1" {
        entry.refuse("VERSION", Wrong::Version);
    }
    entry.notes.started = true;
}

fn name(entry: &mut Entry) {
    let text = entry.text();
    entry.job.name = entry.as_name("NAME", text);
}

fn units(entry: &mut Entry) {
    let units = entry.word("UNITS");
    entry.notes.units = Some(units);
    entry.job.units = units;
}

fn sides(entry: &mut Entry) {
    let first = letter(entry, "FIRST SIDE");
    let second = letter(entry, "SECOND SIDE");
    if first == second {
        entry.refuse("SECOND SIDE", Wrong::SidesEqual);
    }
    entry.job.sides = [first, second];
    let sides = entry.job.sides;
    if let Err(met) = entry.notes.settle_sides(entry.job) {
        let found = char::from(met.letter);
        let mut text = [0; 4];
        let found = found.encode_utf8(&mut text);
        entry.refuse_at("FIRST SIDE", found, Wrong::NotASide { sides });
    }
}

/// A letter to paint.
fn letter(entry: &mut Entry, field: &'static str) -> u8 {
    let letter = match entry.filled(field).as_bytes() {
        [letter] => letter.to_ascii_uppercase(),
        _ => b'?',
    };
    if !is_side_letter(letter) {
        entry.refuse(field, Wrong::SideLetter);
    }
    letter
}
