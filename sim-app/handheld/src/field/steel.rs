//! Fields of the job's head, of the steel and of its own shape.

use super::{Field, Kind, Value, put};
use boltbay_core::Job;
use boltbay_core::job::{Beam, BeamLength, Shape, Steel};
use boltbay_core::length::Length;
use boltbay_core::words::Units;

/// What a field of this file holds; `None` for those of other files.
pub fn get(job: &Job, field: Field) -> Option<Value> {
    let beam = job.beam.as_ref();
    Some(match field.kind {
        Kind::JobName => Value::of_words(&job.name),
        Kind::Units => Value::Choice(u8::from(job.units == Units::Metric)),
        Kind::Letter => {
            let letter = job.sides.get(usize::from(field.index));
            let mut buffer = [0; 4];
            Value::of_words(char::from(*letter?).encode_utf8(&mut buffer))
        }
        Kind::Shape => Value::of_words(beam.map_or("", |beam| &beam.designation)),
        Kind::Length => {
            let keyed = beam.map(|beam| beam.length);
            Value::of_length(keyed.filter(|length| *length > Length::ZERO))
        }
        Kind::Measured => match beam {
            Some(beam) => Value::Choice(u8::from(beam.measured == BeamLength::Measured)),
            None => Value::Nothing,
        },
        Kind::Fy => Value::of_number(job.steel.map(|steel| steel.fy)),
        Kind::Fu => Value::of_number(job.steel.and_then(|steel| steel.fu)),
        Kind::Braced => Value::of_length(job.braced.map(|(braced, _)| braced)),
        Kind::BracedBottom => Value::of_length(job.braced.and_then(|(_, bottom)| bottom)),
        kind => return own(job, kind),
    })
}

/// Fields of row `shape`.
fn own(job: &Job, kind: Kind) -> Option<Value> {
    let shape = job.shape;
    let length = |of: fn(&Shape) -> Length| {
        let keyed = shape.as_ref().map(of);
        Value::of_length(keyed.filter(|length| *length > Length::ZERO))
    };
    Some(match kind {
        Kind::OwnDepth => length(|s| s.depth),
        Kind::OwnWidth => length(|s| s.width),
        Kind::OwnWeb => length(|s| s.web),
        Kind::OwnFlange => length(|s| s.flange),
        Kind::OwnKDesign => length(|s| s.k_design),
        Kind::OwnKDetail => length(|s| s.k_detail),
        Kind::OwnK1 => length(|s| s.k1),
        Kind::OwnWeight => Value::of_number(shape.map(|s| s.weight)),
        Kind::OwnIx => Value::of_number(shape.and_then(|s| s.ix)),
        Kind::OwnSx => Value::of_number(shape.and_then(|s| s.sx)),
        Kind::OwnZx => Value::of_number(shape.and_then(|s| s.zx)),
        _ => return None,
    })
}

/// Puts a value into a field of this file; `None` for those of other files.
pub fn set(job: &mut Job, field: Field, value: &Value) -> Option<bool> {
    Some(match field.kind {
        Kind::JobName => put(&mut job.name, value.to_words()),
        Kind::Units => set_units(job, value),
        Kind::Letter => set_letter(job, field.index, value),
        Kind::Shape => match value.to_words() {
            Some(designation) => put(&mut beam(job).designation, Some(designation)),
            None => false,
        },
        Kind::Length => match value.to_length() {
            Some(length) => put(&mut beam(job).length, Some(length.unwrap_or_default())),
            None => false,
        },
        Kind::Measured => match value.to_choice() {
            Some(0) => put(&mut beam(job).measured, Some(BeamLength::Ordered)),
            Some(1) => put(&mut beam(job).measured, Some(BeamLength::Measured)),
            _ => false,
        },
        Kind::Fy => match value.to_number() {
            Some(Some(fy)) => {
                let fu = job.steel.and_then(|steel| steel.fu);
                put(&mut job.steel, Some(Some(Steel { fy, fu })))
            }
            Some(None) => put(&mut job.steel, Some(None)),
            None => false,
        },
        Kind::Fu => match (job.steel.as_mut(), value.to_number()) {
            (Some(steel), Some(fu)) => put(&mut steel.fu, Some(fu)),
            _ => false,
        },
        Kind::Braced => match value.to_length() {
            Some(braced) => {
                let bottom = job.braced.and_then(|(_, bottom)| bottom);
                put(&mut job.braced, Some(braced.map(|braced| (braced, bottom))))
            }
            None => false,
        },
        Kind::BracedBottom => match (job.braced.as_mut(), value.to_length()) {
            (Some((_, bottom)), Some(length)) => put(bottom, Some(length)),
            _ => false,
        },
        kind => return set_own(job, kind, value),
    })
}

/// The beam, begun where there is none yet.
fn beam(job: &mut Job) -> &mut Beam {
    job.beam.get_or_insert_with(|| Beam {
        designation: boltbay_core::job::Designation::new(),
        length: Length::ZERO,
        measured: BeamLength::Ordered,
    })
}

fn set_units(job: &mut Job, value: &Value) -> bool {
    let units = match value.to_choice() {
        Some(0) => Units::Imperial,
        Some(1) => Units::Metric,
        _ => return false,
    };
    job.units = units;
    true
}

fn set_letter(job: &mut Job, index: u8, value: &Value) -> bool {
    let Some(words) = value.to_words::<1>() else {
        return false;
    };
    let letter = words.as_bytes().first().copied();
    let taken = letter.is_some_and(|letter| job.sides.contains(&letter));
    match (letter, job.sides.get_mut(usize::from(index))) {
        (Some(letter), Some(place)) if !taken && letter.is_ascii_uppercase() => {
            *place = letter;
            true
        }
        _ => false,
    }
}

fn set_own(job: &mut Job, kind: Kind, value: &Value) -> Option<bool> {
    let place: fn(&mut Shape) -> &mut Length = match kind {
        Kind::OwnDepth => |s| &mut s.depth,
        Kind::OwnWidth => |s| &mut s.width,
        Kind::OwnWeb => |s| &mut s.web,
        Kind::OwnFlange => |s| &mut s.flange,
        Kind::OwnKDesign => |s| &mut s.k_design,
        Kind::OwnKDetail => |s| &mut s.k_detail,
        Kind::OwnK1 => |s| &mut s.k1,
        Kind::OwnWeight | Kind::OwnIx | Kind::OwnSx | Kind::OwnZx => {
            return Some(set_own_number(job, kind, value));
        }
        _ => return None,
    };
    let Some(length) = value.to_length() else {
        return Some(false);
    };
    *place(shape(job)) = length.unwrap_or_default();
    Some(true)
}

fn set_own_number(job: &mut Job, kind: Kind, value: &Value) -> bool {
    let Some(number) = value.to_number() else {
        return false;
    };
    let shape = shape(job);
    match kind {
        Kind::OwnWeight => shape.weight = number.unwrap_or_default(),
        Kind::OwnIx => shape.ix = number,
        Kind::OwnSx => shape.sx = number,
        _ => shape.zx = number,
    }
    true
}

/// The beam's own shape, begun where there is none yet.
fn shape(job: &mut Job) -> &mut Shape {
    job.shape.get_or_insert(Shape {
        depth: Length::ZERO,
        width: Length::ZERO,
        web: Length::ZERO,
        flange: Length::ZERO,
        k_design: Length::ZERO,
        k_detail: Length::ZERO,
        k1: Length::ZERO,
        weight: Default::default(),
        ix: None,
        sx: None,
        zx: None,
    })
}
