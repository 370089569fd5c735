//! Fields of the engineer's note and of the hardware.

use super::{Field, Kind, Value};
use boltbay_core::Job;
use boltbay_core::job::{
    Bolt, Ends, Hole, HoleState, Near, Nut, Pattern, PatternRows, Reach, Spacing, SpacingBasis,
    Washer, WasherShape,
};
use boltbay_core::length::Length;
use boltbay_core::words::Row;

/// What a field of this file holds; `None` for those of other files.
pub fn get(job: &Job, field: Field) -> Option<Value> {
    let keyed = |length: Option<Length>| Value::of_length(length.filter(|l| *l > Length::ZERO));
    let choice = |choice: Option<u8>| choice.map_or(Value::Nothing, Value::Choice);
    let washer = || job.washers.get(usize::from(field.index)).copied().flatten();
    Some(match field.kind {
        Kind::Bolt => keyed(job.bolt.map(|bolt| bolt.diameter)),
        Kind::WebHole => Value::of_length(job.bolt.and_then(|bolt| bolt.web_hole)),
        Kind::WoodHole => Value::of_length(job.bolt.and_then(|bolt| bolt.wood_hole)),
        Kind::Fyb => Value::of_number(job.bolt.and_then(|bolt| bolt.fyb)),
        Kind::WasherSize => keyed(washer().map(|washer| washer.size)),
        Kind::WasherShape => choice(washer().map(|washer| washer.shape as u8)),
        Kind::WasherThickness => Value::of_length(washer().and_then(|washer| washer.thickness)),
        Kind::NutThickness => keyed(job.nut.map(|nut| nut.thickness)),
        Kind::NutCorners => Value::of_length(job.nut.and_then(|nut| nut.across_corners)),
        Kind::Gap => Value::of_length(job.gap),
        Kind::Lattice => Value::of_length(job.lattice),
        Kind::Play => Value::of_length(job.play),
        Kind::Pattern => choice(job.pattern.map(|pattern| pattern as u8)),
        Kind::RowTop => keyed(job.rows.map(|rows| rows.top)),
        Kind::RowBot => keyed(job.rows.map(|rows| rows.bot)),
        Kind::Spacing => keyed(job.spacing.map(|spacing| spacing.spacing)),
        Kind::SpacingBasis => choice(job.spacing.map(|spacing| spacing.basis as u8)),
        Kind::HoldBack => Value::of_length(job.spacing.and_then(|spacing| spacing.hold_back)),
        Kind::LeastSpacing => Value::of_length(job.spacing.and_then(|spacing| spacing.minimum)),
        Kind::EndLeast => Value::of_length(job.ends.map(|ends| ends.least)),
        Kind::EndMost => keyed(job.ends.map(|ends| ends.most)),
        Kind::EndPaired => choice(job.ends.and_then(|ends| ends.paired).map(u8::from)),
        Kind::HoleAt | Kind::HoleRow | Kind::HoleState => {
            match job.holes.get(usize::from(field.index)) {
                Some(hole) => match field.kind {
                    Kind::HoleAt => Value::At(hole.at()),
                    Kind::HoleRow => Value::Choice(hole.row as u8),
                    _ => Value::Choice(hole.state as u8),
                },
                None => Value::Nothing,
            }
        }
        kind => return near(job.nears.get(usize::from(field.index)), kind),
    })
}

fn near(near: Option<&Near>, kind: Kind) -> Option<Value> {
    let of = |get: fn(&Near) -> Value| near.map_or(Value::Nothing, get);
    Some(match kind {
        Kind::NearAt => of(|near| Value::At(near.at)),
        Kind::NearWithin => of(|near| Value::Length(near.within)),
        Kind::NearReach => of(|near| Value::Choice(near.reach as u8)),
        Kind::NearPaired => of(|near| Value::Choice(u8::from(near.paired))),
        Kind::NearName => of(|near| Value::of_words(&near.name)),
        _ => return None,
    })
}

/// Puts a value into a field of this file; `None` for those of other files.
pub fn set(job: &mut Job, field: Field, value: &Value) -> Option<bool> {
    let set = match field.kind {
        Kind::Bolt | Kind::WebHole | Kind::WoodHole | Kind::Fyb => set_bolt(job, field.kind, value),
        Kind::WasherSize | Kind::WasherShape | Kind::WasherThickness => {
            set_washer(job, field, value)
        }
        Kind::NutThickness | Kind::NutCorners => set_nut(job, field.kind, value),
        Kind::Gap => value.to_length().map(|gap| job.gap = gap),
        Kind::Lattice => value.to_length().map(|step| job.lattice = step),
        Kind::Play => value.to_length().map(|play| job.play = play),
        Kind::Pattern => set_pattern(job, value),
        Kind::RowTop | Kind::RowBot => set_rows(job, field.kind, value),
        Kind::Spacing | Kind::SpacingBasis | Kind::HoldBack | Kind::LeastSpacing => {
            set_spacing(job, field.kind, value)
        }
        Kind::EndLeast | Kind::EndMost | Kind::EndPaired => set_ends(job, field.kind, value),
        Kind::HoleAt | Kind::HoleRow | Kind::HoleState => {
            let hole = job.holes.get_mut(usize::from(field.index));
            hole.and_then(|hole| set_hole(hole, field.kind, value))
        }
        Kind::NearAt | Kind::NearWithin | Kind::NearReach | Kind::NearPaired | Kind::NearName => {
            let near = job.nears.get_mut(usize::from(field.index));
            near.and_then(|near| set_near(near, field.kind, value))
        }
        _ => return None,
    };
    Some(set.is_some())
}

fn set_bolt(job: &mut Job, kind: Kind, value: &Value) -> Option<()> {
    match (kind, job.bolt.as_mut()) {
        (Kind::Bolt, None) => {
            let diameter = value.to_length()?;
            job.bolt = diameter.map(|diameter| Bolt {
                diameter,
                web_hole: None,
                wood_hole: None,
                fyb: None,
            });
        }
        (Kind::Bolt, Some(bolt)) => match value.to_length()? {
            Some(diameter) => bolt.diameter = diameter,
            None => job.bolt = None,
        },
        (Kind::WebHole, Some(bolt)) => bolt.web_hole = value.to_length()?,
        (Kind::WoodHole, Some(bolt)) => bolt.wood_hole = value.to_length()?,
        (Kind::Fyb, Some(bolt)) => bolt.fyb = value.to_number()?,
        _ => return None,
    }
    Some(())
}

fn set_washer(job: &mut Job, field: Field, value: &Value) -> Option<()> {
    let place = job.washers.get_mut(usize::from(field.index))?;
    match (field.kind, place.as_mut()) {
        (Kind::WasherSize, Some(washer)) => match value.to_length()? {
            Some(size) => washer.size = size,
            None => *place = None,
        },
        (Kind::WasherSize, None) => {
            *place = value.to_length()?.map(|size| Washer {
                size,
                shape: WasherShape::Round,
                thickness: None,
            });
        }
        (Kind::WasherShape, Some(washer)) => {
            let shapes = [WasherShape::Round, WasherShape::Square, WasherShape::Turns];
            washer.shape = *shapes.get(usize::from(value.to_choice()?))?;
        }
        (Kind::WasherThickness, Some(washer)) => washer.thickness = value.to_length()?,
        _ => return None,
    }
    Some(())
}

fn set_nut(job: &mut Job, kind: Kind, value: &Value) -> Option<()> {
    let length = value.to_length()?;
    match (kind, job.nut.as_mut(), length) {
        (Kind::NutThickness, Some(nut), Some(thickness)) => nut.thickness = thickness,
        (Kind::NutThickness, None, Some(thickness)) => {
            let across_corners = None;
            job.nut = Some(Nut {
                thickness,
                across_corners,
            });
        }
        (Kind::NutThickness, _, None) => job.nut = None,
        (_, Some(nut), corners) => nut.across_corners = corners,
        _ => return None,
    }
    Some(())
}

fn set_pattern(job: &mut Job, value: &Value) -> Option<()> {
    let patterns = [Pattern::Single, Pattern::Staggered, Pattern::Paired];
    job.pattern = match value {
        Value::Nothing => None,
        value => Some(*patterns.get(usize::from(value.to_choice()?))?),
    };
    Some(())
}

/// Both heights stand or fall together: while one is keyed the other is 0, which
/// reads as not keyed.
fn set_rows(job: &mut Job, kind: Kind, value: &Value) -> Option<()> {
    let length = value.to_length()?.unwrap_or_default();
    let (top, bot) = (Length::ZERO, Length::ZERO);
    let rows = job.rows.get_or_insert(PatternRows { top, bot });
    match kind {
        Kind::RowTop => rows.top = length,
        _ => rows.bot = length,
    }
    if rows.top == Length::ZERO && rows.bot == Length::ZERO {
        job.rows = None;
    }
    Some(())
}

fn set_spacing(job: &mut Job, kind: Kind, value: &Value) -> Option<()> {
    match (kind, job.spacing.as_mut()) {
        (Kind::Spacing, None) => {
            job.spacing = value.to_length()?.map(|spacing| Spacing {
                spacing,
                basis: SpacingBasis::Every,
                hold_back: None,
                minimum: None,
            });
        }
        (Kind::Spacing, Some(spacing)) => match value.to_length()? {
            Some(length) => spacing.spacing = length,
            None => job.spacing = None,
        },
        (Kind::SpacingBasis, Some(spacing)) => {
            let bases = [SpacingBasis::Every, SpacingBasis::Row];
            spacing.basis = *bases.get(usize::from(value.to_choice()?))?;
        }
        (Kind::HoldBack, Some(spacing)) => spacing.hold_back = value.to_length()?,
        (Kind::LeastSpacing, Some(spacing)) => spacing.minimum = value.to_length()?,
        _ => return None,
    }
    Some(())
}

/// The least distance may be keyed before the greatest, which is then as much.
fn set_ends(job: &mut Job, kind: Kind, value: &Value) -> Option<()> {
    match (kind, job.ends.as_mut()) {
        (Kind::EndLeast | Kind::EndMost, None) => {
            job.ends = value.to_length()?.map(|length| Ends {
                least: length,
                most: length,
                paired: None,
            });
        }
        (Kind::EndLeast, Some(ends)) => match value.to_length()? {
            Some(least) => {
                ends.least = least;
                ends.most = ends.most.max(least);
            }
            None => job.ends = None,
        },
        (Kind::EndMost, Some(ends)) => match value.to_length()? {
            Some(most) => {
                ends.most = most;
                ends.least = ends.least.min(most);
            }
            None => job.ends = None,
        },
        (Kind::EndPaired, Some(ends)) => {
            ends.paired = match value {
                Value::Nothing => None,
                value => Some(value.to_choice()? == 1),
            }
        }
        _ => return None,
    }
    Some(())
}

fn set_near(near: &mut Near, kind: Kind, value: &Value) -> Option<()> {
    match kind {
        Kind::NearAt => near.at = value.to_at()??,
        Kind::NearWithin => near.within = value.length()?,
        Kind::NearReach => {
            let reaches = [Reach::One, Reach::Each];
            near.reach = *reaches.get(usize::from(value.to_choice()?))?;
        }
        Kind::NearPaired => near.paired = value.to_choice()? == 1,
        _ => near.name = value.to_words()?,
    }
    Some(())
}

fn set_hole(hole: &mut Hole, kind: Kind, value: &Value) -> Option<()> {
    match kind {
        Kind::HoleAt => *hole = Hole::new(value.to_at()??, hole.row, hole.state),
        Kind::HoleRow => hole.row = *Row::BOTH.get(usize::from(value.to_choice()?))?,
        _ => {
            let states = [HoleState::Marked, HoleState::Drilled, HoleState::Abandoned];
            hole.state = *states.get(usize::from(value.to_choice()?))?;
        }
    }
    Some(())
}
