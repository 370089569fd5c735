//! Fields of packing stock, rods and other pieces.

use super::{Field, Kind, Value, put};
use boltbay_core::Job;
use boltbay_core::decimal::Decimal;
use boltbay_core::defaults;
use boltbay_core::job::{
    Face, Layer, LayerKind, Moisture, OtherPiece, Species, Stick, StickSource,
};

/// Moisture keyed as this many percent is green wood.
/// Source: USDA Forest Products Laboratory, Research Paper FPL-RP-489.
const GREEN: Decimal = Decimal::whole(28);

/// What a field of this file holds; `None` for those of other files.
pub fn get(job: &Job, field: Field) -> Option<Value> {
    let index = usize::from(field.index);
    let choice = |choice: Option<u8>| choice.map_or(Value::Nothing, Value::Choice);
    Some(match field.kind {
        Kind::Shy => Value::of_length(job.face.map(|face| face.shy)),
        Kind::Proud => Value::of_length(job.face.map(|face| face.proud)),
        Kind::Aim => Value::of_length(job.face.and_then(|face| face.aim)),
        Kind::Service => Value::of_number(job.service),
        Kind::Wood => choice(job.wood.map(|wood| wood as u8)),
        Kind::Standoff => Value::of_length(job.standoff),
        Kind::Kerf => Value::of_length(job.kerf),
        Kind::Trim => choice(job.trim.map(u8::from)),
        Kind::Projection => Value::of_length(job.projection),
        Kind::Spare => Value::of_count(job.spare),
        kind => {
            return layer(job.layers.get(index), kind)
                .or_else(|| stick(job.sticks.get(index), kind))
                .or_else(|| other(job.pieces.get(index), kind));
        }
    })
}

fn layer(layer: Option<&Layer>, kind: Kind) -> Option<Value> {
    Some(match kind {
        Kind::LayerName => Value::of_words(layer.map_or("", |layer| &layer.name)),
        Kind::LayerThickness => Value::of_length(layer.map(|layer| layer.thickness)),
        Kind::LayerKind => layer.map_or(Value::Nothing, |layer| Value::Choice(layer.kind as u8)),
        Kind::LayerMoisture => match layer.and_then(|layer| layer.moisture) {
            Some(Moisture::Green) => Value::Number(GREEN),
            Some(Moisture::Percent(percent)) => Value::Number(percent),
            None => Value::Nothing,
        },
        Kind::LayerCount => Value::of_count(layer.and_then(|layer| layer.count)),
        _ => return None,
    })
}

fn stick(stick: Option<&Stick>, kind: Kind) -> Option<Value> {
    Some(match kind {
        Kind::StickLength => Value::of_length(stick.map(|stick| stick.length)),
        Kind::StickCount => Value::of_count(stick.and_then(|stick| stick.count)),
        Kind::StickSource => {
            stick.map_or(Value::Nothing, |stick| Value::Choice(stick.source as u8))
        }
        _ => return None,
    })
}

fn other(piece: Option<&OtherPiece>, kind: Kind) -> Option<Value> {
    Some(match kind {
        Kind::OtherLength => Value::of_length(piece.map(|piece| piece.length)),
        Kind::OtherCount => Value::of_count(piece.map(|piece| piece.count)),
        Kind::OtherName => Value::of_words(piece.map_or("", |piece| &piece.name)),
        _ => return None,
    })
}

/// Puts a value into a field of this file; `None` for those of other files.
pub fn set(job: &mut Job, field: Field, value: &Value) -> Option<bool> {
    let index = usize::from(field.index);
    Some(match field.kind {
        Kind::Shy | Kind::Proud | Kind::Aim => set_face(job, field.kind, value).is_some(),
        Kind::Service => put(&mut job.service, value.to_number()),
        Kind::Wood => set_wood(job, value).is_some(),
        Kind::Standoff => put(&mut job.standoff, value.to_length()),
        Kind::Kerf => put(&mut job.kerf, value.to_length()),
        Kind::Trim => match value {
            Value::Nothing => put(&mut job.trim, Some(None)),
            value => put(&mut job.trim, value.to_choice().map(|c| Some(c == 1))),
        },
        Kind::Projection => put(&mut job.projection, value.to_length()),
        Kind::Spare => put(&mut job.spare, value.to_count()),
        Kind::LayerName
        | Kind::LayerThickness
        | Kind::LayerKind
        | Kind::LayerMoisture
        | Kind::LayerCount => {
            let layer = job.layers.get_mut(index);
            let set = layer.and_then(|layer| set_layer(layer, field.kind, value));
            set.is_some()
        }
        Kind::StickLength | Kind::StickCount | Kind::StickSource => {
            let stick = job.sticks.get_mut(index);
            let set = stick.and_then(|stick| set_stick(stick, field.kind, value));
            set.is_some()
        }
        Kind::OtherLength | Kind::OtherCount | Kind::OtherName => {
            let piece = job.pieces.get_mut(index);
            let set = piece.and_then(|piece| set_other(piece, field.kind, value));
            set.is_some()
        }
        _ => return None,
    })
}

/// One of the three keyed: the others stand at their defaults.
fn set_face(job: &mut Job, kind: Kind, value: &Value) -> Option<()> {
    let length = value.to_length()?;
    let mut face = Face {
        shy: defaults::shy(job),
        proud: defaults::proud(job),
        aim: job.face.and_then(|face| face.aim),
    };
    match (kind, length) {
        (Kind::Shy, Some(shy)) => face.shy = shy,
        (Kind::Proud, Some(proud)) => face.proud = proud,
        (Kind::Aim, aim) => face.aim = aim,
        (_, None) => {
            job.face = None;
            return Some(());
        }
        _ => return None,
    }
    job.face = Some(face);
    Some(())
}

fn set_wood(job: &mut Job, value: &Value) -> Option<()> {
    let species = [Species::Spf, Species::DfL, Species::Hf, Species::Sp];
    job.wood = match value {
        Value::Nothing => None,
        value => Some(*species.get(usize::from(value.to_choice()?))?),
    };
    Some(())
}

fn set_layer(layer: &mut Layer, kind: Kind, value: &Value) -> Option<()> {
    match kind {
        Kind::LayerName => layer.name = value.to_words()?,
        Kind::LayerThickness => layer.thickness = value.length()?,
        Kind::LayerKind => {
            let kinds = [LayerKind::Solid, LayerKind::Sheet];
            layer.kind = *kinds.get(usize::from(value.to_choice()?))?;
        }
        Kind::LayerMoisture => {
            layer.moisture = value.to_number()?.map(|percent| match percent {
                GREEN => Moisture::Green,
                percent => Moisture::Percent(percent),
            });
        }
        _ => layer.count = value.to_count()?,
    }
    Some(())
}

fn set_stick(stick: &mut Stick, kind: Kind, value: &Value) -> Option<()> {
    match kind {
        Kind::StickLength => stick.length = value.length()?,
        Kind::StickCount => stick.count = value.to_count()?,
        _ => {
            let sources = [StickSource::Rod, StickSource::Offcut];
            stick.source = *sources.get(usize::from(value.to_choice()?))?;
            if stick.source == StickSource::Offcut && stick.count.is_none() {
                stick.count = Some(1);
            }
        }
    }
    Some(())
}

fn set_other(piece: &mut OtherPiece, kind: Kind, value: &Value) -> Option<()> {
    match kind {
        Kind::OtherLength => piece.length = value.length()?,
        Kind::OtherCount => piece.count = value.to_count()?.unwrap_or(1),
        _ => piece.name = value.to_words()?,
    }
    Some(())
}
