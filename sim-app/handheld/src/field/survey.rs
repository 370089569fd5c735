//! Fields of tape runs, readings, checks, counts, hangers and nails.

use super::{Field, Kind, Value, put};
use boltbay_core::Job;
use boltbay_core::job::{
    Check, Edge, Hanger, HangerRef, Hook, JoistReading, Nail, Position, Run, RunHook,
};
use boltbay_core::length::Length;
use boltbay_core::words::{End, Side};

/// The steps that a tape can be read to, in the order of the choice.
pub const READ_TO: [Length; 5] = [
    Length::from_sixty_fourths(2),
    Length::from_sixteenths(1),
    Length::from_sixteenths(2),
    Length::from_millimetres(1),
    Length::from_millimetres(5),
];

/// What a field of this file holds; `None` for those of other files.
pub fn get(job: &Job, field: Field) -> Option<Value> {
    let index = usize::from(field.index);
    run(job.runs.get(index), field.kind)
        .or_else(|| reading(job.joists.get(index), field.kind))
        .or_else(|| check(job.checks.get(index), field.kind))
        .or_else(|| hanger(job.hangers.get(index), field.kind))
        .or_else(|| nail(job.nails.get(index), field.kind))
        .or_else(|| {
            (field.kind == Kind::CountedJoists)
                .then(|| Value::of_count(job.counts.get(index).copied().flatten()))
        })
}

fn run(run: Option<&Run>, kind: Kind) -> Option<Value> {
    let choice =
        |of: fn(&Run) -> Option<u8>| run.and_then(of).map_or(Value::Nothing, Value::Choice);
    Some(match kind {
        Kind::RunSide => choice(|run| Some(run.side as u8)),
        Kind::RunHook => choice(|run| Some(hook_choice(run.hook))),
        Kind::RunMark => match run.map(|run| run.hook) {
            Some(RunHook::Mark(at, _)) => Value::At(at),
            _ => Value::Nothing,
        },
        Kind::RunToward => choice(|run| match run.hook {
            RunHook::Mark(_, toward) => Some(toward as u8),
            _ => None,
        }),
        Kind::RunEdge => choice(|run| Some(run.edge as u8)),
        Kind::RunBurn => Value::of_length(run.and_then(|run| run.burn)),
        Kind::RunThickness => Value::of_length(run.and_then(|run| run.thickness)),
        Kind::RunReadTo => choice(|run| {
            let step = READ_TO.iter().position(|step| Some(*step) == run.read_to);
            step.and_then(|step| u8::try_from(step).ok())
        }),
        Kind::RunOverride => choice(|run| Some(u8::from(run.overridden))),
        _ => return None,
    })
}

const fn hook_choice(hook: RunHook) -> u8 {
    match hook {
        RunHook::Wall(End::A) => 0,
        RunHook::Wall(End::B) => 1,
        RunHook::Steel(End::A) => 2,
        RunHook::Steel(End::B) => 3,
        RunHook::Mark(..) => 4,
    }
}

fn reading(joist: Option<&JoistReading>, kind: Kind) -> Option<Value> {
    Some(match kind {
        Kind::Reading => Value::of_length(joist.map(|joist| joist.reading)),
        Kind::JoistThickness => Value::of_length(joist.and_then(|joist| joist.thickness)),
        // 0 = the default, 1 = none, 2 and up = rows.
        Kind::JoistHanger => match joist.map(|joist| joist.hanger) {
            Some(HangerRef::None) => Value::Count(1),
            Some(HangerRef::Row(row)) => Value::Count(u16::from(row) + 2),
            _ => Value::Nothing,
        },
        _ => return None,
    })
}

fn check(check: Option<&Check>, kind: Kind) -> Option<Value> {
    Some(match kind {
        Kind::CheckReading => Value::of_length(check.map(|check| check.reading)),
        Kind::CheckPoint => Value::of_at(check.map(|check| check.point)),
        _ => return None,
    })
}

fn hanger(hanger: Option<&Hanger>, kind: Kind) -> Option<Value> {
    Some(match kind {
        Kind::HangerName => Value::of_words(hanger.map_or("", |hanger| &hanger.name)),
        Kind::HangerMetal => Value::of_length(hanger.and_then(|hanger| hanger.metal)),
        Kind::HangerHeight => Value::of_length(hanger.and_then(|hanger| hanger.height)),
        Kind::HangerRated => Value::of_number(hanger.and_then(|hanger| hanger.rated)),
        _ => return None,
    })
}

fn nail(nail: Option<&Nail>, kind: Kind) -> Option<Value> {
    Some(match kind {
        Kind::NailName => Value::of_words(nail.map_or("", |nail| &nail.name)),
        Kind::NailLength => Value::of_length(nail.map(|nail| nail.length)),
        Kind::NailDiameter => Value::of_length(nail.map(|nail| nail.diameter)),
        Kind::NailSlant => Value::of_number(nail.and_then(|nail| nail.slant)),
        _ => return None,
    })
}

/// Puts a value into a field of this file; `None` for those of other files.
pub fn set(job: &mut Job, field: Field, value: &Value) -> Option<bool> {
    let index = usize::from(field.index);
    match field.kind {
        Kind::RunSide
        | Kind::RunHook
        | Kind::RunMark
        | Kind::RunToward
        | Kind::RunEdge
        | Kind::RunBurn
        | Kind::RunThickness
        | Kind::RunReadTo
        | Kind::RunOverride => {
            let run = job.runs.get_mut(index);
            Some(run.is_some_and(|run| set_run(run, field.kind, value).unwrap_or(false)))
        }
        Kind::Reading | Kind::JoistThickness | Kind::JoistHanger => {
            let joist = job.joists.get_mut(index);
            Some(joist.is_some_and(|joist| set_joist(joist, field.kind, value).unwrap_or(false)))
        }
        Kind::CheckReading => Some(match (job.checks.get_mut(index), value) {
            (Some(check), Value::Length(reading)) => put(&mut check.reading, Some(*reading)),
            _ => false,
        }),
        Kind::CheckPoint => Some(match job.checks.get_mut(index) {
            Some(check) => put(&mut check.point, value.to_at().flatten()),
            None => false,
        }),
        Kind::CountedJoists => Some(match job.counts.get_mut(index) {
            Some(count) => put(count, value.to_count()),
            None => false,
        }),
        kind => set_hanger(job, kind, index, value).or_else(|| set_nail(job, kind, index, value)),
    }
}

fn set_run(run: &mut Run, kind: Kind, value: &Value) -> Option<bool> {
    match kind {
        Kind::RunSide => run.side = *Side::BOTH.get(usize::from(value.to_choice()?))?,
        Kind::RunHook => run.hook = new_hook(run.hook, value.to_choice()?)?,
        Kind::RunMark => match (&mut run.hook, value) {
            (RunHook::Mark(place, _), Value::At(at)) => *place = *at,
            _ => return None,
        },
        Kind::RunToward => match &mut run.hook {
            RunHook::Mark(_, toward) => {
                *toward = *End::BOTH.get(usize::from(value.to_choice()?))?
            }
            _ => return None,
        },
        Kind::RunEdge => {
            let edges = [Edge::Near, Edge::Centre, Edge::Far];
            run.edge = *edges.get(usize::from(value.to_choice()?))?;
        }
        Kind::RunBurn => run.burn = value.to_length()?,
        Kind::RunThickness => run.thickness = value.to_length()?,
        Kind::RunReadTo => {
            run.read_to = match value {
                Value::Nothing => None,
                value => Some(*READ_TO.get(usize::from(value.to_choice()?))?),
            }
        }
        _ => run.overridden = value.to_choice()? == 1,
    }
    Some(true)
}

fn new_hook(before: RunHook, choice: u8) -> Option<RunHook> {
    let mark = Position {
        reading: Length::ZERO,
        hook: Hook::EndA,
    };
    Some(match (choice, before) {
        (0, _) => RunHook::Wall(End::A),
        (1, _) => RunHook::Wall(End::B),
        (2, _) => RunHook::Steel(End::A),
        (3, _) => RunHook::Steel(End::B),
        (4, RunHook::Mark(..)) => before,
        (4, _) => RunHook::Mark(mark, End::B),
        _ => return None,
    })
}

fn set_joist(joist: &mut JoistReading, kind: Kind, value: &Value) -> Option<bool> {
    match kind {
        Kind::Reading => {
            joist.reading = value.length()?;
            joist.guessed = false;
        }
        Kind::JoistThickness => joist.thickness = value.to_length()?,
        _ => {
            joist.hanger = match value.to_count()? {
                None | Some(0) => HangerRef::Default,
                Some(1) => HangerRef::None,
                Some(row) => HangerRef::Row(u8::try_from(row - 2).ok()?),
            }
        }
    }
    Some(true)
}

fn set_hanger(job: &mut Job, kind: Kind, index: usize, value: &Value) -> Option<bool> {
    Some(match (kind, job.hangers.get_mut(index)) {
        (Kind::HangerName, Some(hanger)) => put(&mut hanger.name, value.to_words()),
        (Kind::HangerMetal, Some(hanger)) => put(&mut hanger.metal, value.to_length()),
        (Kind::HangerHeight, Some(hanger)) => put(&mut hanger.height, value.to_length()),
        (Kind::HangerRated, Some(hanger)) => put(&mut hanger.rated, value.to_number()),
        (Kind::HangerName | Kind::HangerMetal | Kind::HangerHeight | Kind::HangerRated, None) => {
            false
        }
        _ => return None,
    })
}

fn set_nail(job: &mut Job, kind: Kind, index: usize, value: &Value) -> Option<bool> {
    Some(match (kind, job.nails.get_mut(index)) {
        (Kind::NailName, Some(nail)) => put(&mut nail.name, value.to_words()),
        (Kind::NailLength, Some(nail)) => put(&mut nail.length, value.length()),
        (Kind::NailDiameter, Some(nail)) => put(&mut nail.diameter, value.length()),
        (Kind::NailSlant, Some(nail)) => put(&mut nail.slant, value.to_number()),
        (Kind::NailName | Kind::NailLength | Kind::NailDiameter | Kind::NailSlant, None) => false,
        _ => return None,
    })
}
