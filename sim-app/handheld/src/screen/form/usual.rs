//! What stands in where a field is not keyed: the core's defaults, as a form
//! shows them and as an entry suggests them.

use super::value_said;
use crate::field::{Field, Kind, Value};
use crate::view::{Text, text};
use boltbay_core::Job;
use boltbay_core::defaults;
use boltbay_core::hardware::Hardware;
use boltbay_core::job::Pattern;
use boltbay_core::length::Length;
use boltbay_core::words::Side;

/// A length that stands in, or a first suggestion.
pub fn length(field: Field, job: &Job) -> Option<Length> {
    let hardware = || Hardware::of(job);
    Some(match field.kind {
        // Ordered by the walls: both bearings as the one that is keyed.
        Kind::Length => {
            let [a, b] = job.walls;
            let both = a?.checked_add(b.or(a)?)?;
            job.clear?.checked_add(both)?
        }
        Kind::Gap => defaults::gap(job),
        Kind::Play => defaults::play(job),
        Kind::HoldBack => defaults::hold_back(job),
        Kind::LeastSpacing => defaults::minimum_spacing(job)?,
        Kind::Lattice => defaults::lattice(job),
        Kind::Shy => defaults::shy(job),
        Kind::Proud => defaults::proud(job),
        Kind::Aim => defaults::aim(job),
        Kind::Kerf => defaults::kerf(job),
        Kind::Projection => defaults::projection(job),
        Kind::RunThickness => defaults::thickness(job),
        Kind::Standoff => defaults::standoff(job),
        Kind::RunBurn | Kind::Placed | Kind::Square => Length::ZERO,
        Kind::JoistThickness => {
            let joist = job.joists.get(usize::from(field.index))?;
            defaults::joist_thickness(job, joist)
        }
        Kind::JoistOffset => {
            let side = Side::BOTH.get(usize::from(field.index)).copied()?;
            defaults::floor_offset(job, side)
        }
        Kind::HangerMetal => defaults::hanger_metal(job, Default::default()),
        Kind::WebHole => hardware()?.web_hole,
        Kind::WoodHole => hardware()?.wood_hole,
        Kind::RowTop => boltbay_core::rows::heights(job).ok()?.top,
        Kind::RowBot => boltbay_core::rows::heights(job).ok()?.bot,
        _ => return None,
    })
}

/// What stands in, in words.
pub fn said(field: Field, job: &Job) -> Option<Text> {
    if let Some(length) = length(field, job) {
        return Some(value_said(field, &Value::Length(length), job));
    }
    let value = match field.kind {
        Kind::Pattern => Value::Choice(match defaults::pattern(job) {
            Pattern::Single => 0,
            Pattern::Staggered => 1,
            Pattern::Paired => 2,
        }),
        Kind::EndPaired => Value::Choice(u8::from(defaults::ends_paired(job))),
        Kind::Trim => Value::Choice(u8::from(defaults::trim(job))),
        Kind::Seated => Value::Choice(u8::from(defaults::seated(job))),
        Kind::Wood => Value::Choice(0),
        Kind::Service => Value::Number(defaults::service(job)),
        Kind::Duration => Value::Number(defaults::duration(job)),
        Kind::Fyb => Value::Number(defaults::fyb(job)),
        Kind::Fy => Value::Number(defaults::yield_strength(job)),
        Kind::Fu => Value::Number(defaults::tensile_strength(job)),
        Kind::Spare => return Some(text("1 OR 10 %")),
        Kind::RunReadTo => return Some(text("1/16, 1 MM")),
        Kind::LayerMoisture => return Some(text("DOES NOT DRY")),
        Kind::LayerCount | Kind::StickCount => return Some(text("AS NEEDED")),
        Kind::HangerHeight => return Some(text("IN BOTH ROWS")),
        _ => return None,
    };
    Some(value_said(field, &value, job))
}
