//! Fields of walls, pockets, supports, loads, things in the way and packing pieces.

use super::{Field, Kind, Value, put};
use boltbay_core::Job;
use boltbay_core::job::house::Pocket;
use boltbay_core::job::loads::{Load, LoadKind, LoadSide, Support};
use boltbay_core::job::{
    Floor, Keepout, KeepoutKind, Material, PackingPiece, Position, Post, Square, Stand, Stays,
};
use boltbay_core::list::take_out;
use boltbay_core::words::{End, Side, Sides};

/// What a field of this file holds; `None` for those of other files.
pub fn get(job: &Job, field: Field) -> Option<Value> {
    let index = usize::from(field.index);
    let pocket = || job.pockets.get(index).copied().flatten();
    let floor = || job.floors.get(index).copied().flatten();
    Some(match field.kind {
        Kind::Bearing => Value::of_length(job.walls.get(index).copied().flatten()),
        Kind::Clear => Value::of_length(job.clear),
        Kind::PocketDepth => Value::of_length(pocket().map(|pocket| pocket.depth)),
        Kind::PocketHeight => Value::of_length(pocket().and_then(|pocket| pocket.height)),
        Kind::PocketWidth => Value::of_length(pocket().and_then(|pocket| pocket.width)),
        Kind::Square => {
            let (side, end) = corner(field.index)?;
            let square = job.squares.iter().find(|s| s.side == side && s.end == end);
            Value::of_length(square.map(|square| square.offset))
        }
        Kind::Stand => match job.stand {
            Some(stand) => Value::Choice(u8::from(stand.a_at_left != (stand.side == Side::N))),
            None => Value::Nothing,
        },
        Kind::Outstand => {
            let (side, nth) = (index / 3, index % 3);
            Value::of_length(job.outstands.get(side)?.get(nth).copied())
        }
        Kind::JoistDepth => Value::of_length(floor().map(|floor| floor.joist_depth)),
        Kind::JoistOffset => Value::of_length(floor().and_then(|floor| floor.offset)),
        Kind::Subfloor => Value::of_length(floor().and_then(|floor| floor.subfloor)),
        Kind::Seated => match job.seated {
            Some(seated) => Value::Choice(u8::from(seated)),
            None => Value::Nothing,
        },
        Kind::Duration => Value::of_number(job.duration),
        Kind::Placed => Value::of_length(job.placed),
        kind => {
            return support(job, kind, index)
                .or_else(|| load(job, kind, index))
                .or_else(|| thing(job, kind, index));
        }
    })
}

/// Side and end of a wall as hooked, from its number 0 to 3.
fn corner(index: u8) -> Option<(Side, End)> {
    let corners = Side::BOTH.into_iter();
    let mut corners = corners.flat_map(|side| End::BOTH.map(|end| (side, end)));
    corners.nth(usize::from(index))
}

fn support(job: &Job, kind: Kind, index: usize) -> Option<Value> {
    let support = job.supports.get(index);
    let post = || {
        let name = &support?.name;
        job.posts.iter().find(|post| post.support == *name)
    };
    Some(match kind {
        Kind::SupportName => Value::of_words(support.map_or("", |s| &s.name)),
        Kind::SupportCentre => Value::of_at(support.and_then(|s| s.centre)),
        Kind::SupportLength => Value::of_length(support.and_then(|s| s.length)),
        Kind::SupportWidth => Value::of_length(support.and_then(|s| s.width)),
        Kind::SupportMaterial => {
            support.map_or(Value::Nothing, |s| Value::Choice(s.material as u8))
        }
        Kind::SupportAllowable => Value::of_number(support.and_then(|s| s.allowable)),
        Kind::PostAllowable => Value::of_number(post().map(|post| post.allowable)),
        Kind::PostFooting => Value::of_number(post().and_then(|post| post.footing)),
        _ => return None,
    })
}

fn load(job: &Job, kind: Kind, index: usize) -> Option<Value> {
    let load = job.loads.get(index);
    Some(match kind {
        Kind::LoadKind => load.map_or(Value::Nothing, |load| Value::Choice(load_kind(load))),
        Kind::LoadDead => Value::of_number(load.map(|load| load.dead)),
        Kind::LoadLive => Value::of_number(load.map(|load| load.live)),
        Kind::LoadSide => load.map_or(Value::Nothing, |load| Value::Choice(load_side(load))),
        Kind::LoadTributary => match load?.kind {
            LoadKind::Area { tributary, .. } => Value::Length(tributary),
            _ => Value::Nothing,
        },
        Kind::LoadFrom | Kind::LoadTo => match load?.kind {
            LoadKind::Area { from, to, .. } | LoadKind::Line { from, to } => {
                Value::of_at(if kind == Kind::LoadFrom { from } else { to })
            }
            LoadKind::Point { .. } => Value::Nothing,
        },
        Kind::LoadAt => match load?.kind {
            LoadKind::Point { at } => Value::At(at),
            _ => Value::Nothing,
        },
        _ => return None,
    })
}

const fn load_kind(load: &Load) -> u8 {
    match load.kind {
        LoadKind::Area { .. } => 0,
        LoadKind::Line { .. } => 1,
        LoadKind::Point { .. } => 2,
    }
}

const fn load_side(load: &Load) -> u8 {
    match load.side {
        LoadSide::Halves => 0,
        LoadSide::On(Side::N) => 1,
        LoadSide::On(Side::S) => 2,
        LoadSide::Top => 3,
    }
}

/// `BOTH`, first, second side.
pub(super) const fn of_sides(sides: Sides) -> Value {
    Value::Choice(match sides {
        Sides::Both => 0,
        Sides::One(Side::N) => 1,
        Sides::One(Side::S) => 2,
    })
}

/// The same the other way round.
pub(super) fn to_sides(value: &Value) -> Option<Sides> {
    match value.to_choice()? {
        0 => Some(Sides::Both),
        1 => Some(Sides::One(Side::N)),
        2 => Some(Sides::One(Side::S)),
        _ => None,
    }
}

fn thing(job: &Job, kind: Kind, index: usize) -> Option<Value> {
    let thing = job.keepouts.get(index);
    let piece = job.packing.get(index);
    let of = |get: fn(&Keepout) -> Value| thing.map_or(Value::Nothing, get);
    Some(match kind {
        Kind::ThingSides => of(|thing| of_sides(thing.sides)),
        Kind::ThingFrom => of(|thing| Value::At(thing.from)),
        Kind::ThingTo => of(|thing| Value::At(thing.to)),
        Kind::ThingKind => of(|thing| Value::Choice(thing.kind as u8)),
        Kind::ThingStays => of(|thing| Value::Choice(thing.stays as u8)),
        Kind::ThingName => of(|thing| Value::of_words(&thing.name)),
        Kind::PieceFrom => Value::of_at(piece.map(|piece| piece.from)),
        Kind::PieceTo => Value::of_at(piece.map(|piece| piece.to)),
        Kind::PieceSides => piece.map_or(Value::Nothing, |piece| of_sides(piece.sides)),
        _ => return None,
    })
}

/// Puts a value into a field of this file; `None` for those of other files.
pub fn set(job: &mut Job, field: Field, value: &Value) -> Option<bool> {
    let index = usize::from(field.index);
    Some(match field.kind {
        Kind::Bearing => match (job.walls.get_mut(index), value.to_length()) {
            (Some(wall), Some(bearing)) => put(wall, Some(bearing)),
            _ => false,
        },
        Kind::Clear => put(&mut job.clear, value.to_length()),
        Kind::Square => set_square(job, field.index, value).unwrap_or(false),
        Kind::Stand => match value.to_choice() {
            Some(choice @ 0..=1) => {
                let (side, a_at_left) = (Side::N, choice == 0);
                put(&mut job.stand, Some(Some(Stand { side, a_at_left })))
            }
            _ => put(
                &mut job.stand,
                matches!(value, Value::Nothing).then_some(None),
            ),
        },
        Kind::Outstand => set_outstand(job, index, value),
        Kind::Seated => match value {
            Value::Nothing => put(&mut job.seated, Some(None)),
            value => put(&mut job.seated, value.to_choice().map(|c| Some(c == 1))),
        },
        Kind::Duration => put(&mut job.duration, value.to_number()),
        Kind::Placed => put(&mut job.placed, value.to_length()),
        kind => {
            return set_pocket(job, kind, index, value)
                .or_else(|| set_floor(job, kind, index, value))
                .or_else(|| set_support(job, kind, index, value))
                .or_else(|| set_load(job, kind, index, value))
                .or_else(|| set_thing(job, kind, index, value))
                .or_else(|| set_piece(job, kind, index, value));
        }
    })
}

fn set_square(job: &mut Job, index: u8, value: &Value) -> Option<bool> {
    let (side, end) = corner(index)?;
    let offset = value.to_length()?;
    job.squares.retain(|s| s.side != side || s.end != end);
    if let Some(offset) = offset {
        let _ = job.squares.push(Square { side, end, offset });
    }
    Some(true)
}

fn set_outstand(job: &mut Job, index: usize, value: &Value) -> bool {
    let (side, nth) = (index / 3, index % 3);
    let Some(list) = job.outstands.get_mut(side) else {
        return false;
    };
    let end = list.len();
    match (list.get_mut(nth), value) {
        (Some(place), Value::Length(length)) => *place = *length,
        (None, Value::Length(length)) if nth == end => return list.push(*length).is_ok(),
        (_, Value::Nothing) => drop(take_out(list, nth)),
        _ => return false,
    }
    true
}

fn set_pocket(job: &mut Job, kind: Kind, index: usize, value: &Value) -> Option<bool> {
    if !matches!(
        kind,
        Kind::PocketDepth | Kind::PocketHeight | Kind::PocketWidth
    ) {
        return None;
    }
    let (Some(pocket), Some(length)) = (job.pockets.get_mut(index), value.to_length()) else {
        return Some(false);
    };
    Some(match (kind, pocket.as_mut(), length) {
        (Kind::PocketDepth, None, Some(depth)) => {
            let (height, width) = (None, None);
            put(
                pocket,
                Some(Some(Pocket {
                    depth,
                    height,
                    width,
                })),
            )
        }
        (Kind::PocketDepth, Some(pocket), Some(depth)) => put(&mut pocket.depth, Some(depth)),
        (Kind::PocketDepth, _, None) => put(pocket, Some(None)),
        (Kind::PocketHeight, Some(pocket), height) => put(&mut pocket.height, Some(height)),
        (Kind::PocketWidth, Some(pocket), width) => put(&mut pocket.width, Some(width)),
        _ => false,
    })
}

fn set_floor(job: &mut Job, kind: Kind, index: usize, value: &Value) -> Option<bool> {
    if !matches!(kind, Kind::JoistDepth | Kind::JoistOffset | Kind::Subfloor) {
        return None;
    }
    let (Some(floor), Some(length)) = (job.floors.get_mut(index), value.to_length()) else {
        return Some(false);
    };
    Some(match (kind, floor.as_mut(), length) {
        (Kind::JoistDepth, None, Some(joist_depth)) => {
            let (offset, subfloor) = (None, None);
            put(
                floor,
                Some(Some(Floor {
                    joist_depth,
                    offset,
                    subfloor,
                })),
            )
        }
        (Kind::JoistDepth, Some(floor), Some(depth)) => put(&mut floor.joist_depth, Some(depth)),
        (Kind::JoistDepth, _, None) => put(floor, Some(None)),
        (Kind::JoistOffset, Some(floor), offset) => put(&mut floor.offset, Some(offset)),
        (Kind::Subfloor, Some(floor), subfloor) => put(&mut floor.subfloor, Some(subfloor)),
        _ => false,
    })
}

fn set_support(job: &mut Job, kind: Kind, index: usize, value: &Value) -> Option<bool> {
    if matches!(kind, Kind::PostAllowable | Kind::PostFooting) {
        return Some(set_post(job, kind, index, value).unwrap_or(false));
    }
    if kind == Kind::SupportName {
        return Some(rename_support(job, index, value).unwrap_or(false));
    }
    let place = job.supports.get_mut(index);
    Some(match (kind, place) {
        (Kind::SupportCentre, Some(s)) => put(&mut s.centre, value.to_at()),
        (Kind::SupportLength, Some(s)) => put(&mut s.length, value.to_length()),
        (Kind::SupportWidth, Some(s)) => put(&mut s.width, value.to_length()),
        (Kind::SupportMaterial, Some(s)) => put(&mut s.material, material(value)),
        (Kind::SupportAllowable, Some(s)) => put(&mut s.allowable, value.to_number()),
        (
            Kind::SupportCentre
            | Kind::SupportLength
            | Kind::SupportWidth
            | Kind::SupportMaterial
            | Kind::SupportAllowable,
            None,
        ) => false,
        _ => return None,
    })
}

/// A support's post goes with its name.
fn rename_support(job: &mut Job, index: usize, value: &Value) -> Option<bool> {
    let name = value.to_words()?;
    let support: &mut Support = job.supports.get_mut(index)?;
    let before = core::mem::replace(&mut support.name, name.clone());
    let posts = job.posts.iter_mut().filter(|post| post.support == before);
    posts.for_each(|post| post.support = name.clone());
    Some(true)
}

fn set_post(job: &mut Job, kind: Kind, index: usize, value: &Value) -> Option<bool> {
    let name = job.supports.get(index)?.name.clone();
    let number = value.to_number()?;
    let post = job.posts.iter_mut().find(|post| post.support == name);
    match (kind, post, number) {
        (Kind::PostAllowable, Some(post), Some(allowable)) => post.allowable = allowable,
        (Kind::PostAllowable, None, Some(allowable)) => {
            let (support, footing) = (name, None);
            let post = Post {
                support,
                allowable,
                footing,
            };
            return Some(job.posts.push(post).is_ok());
        }
        (Kind::PostAllowable, _, None) => job.posts.retain(|post| post.support != name),
        (_, Some(post), footing) => post.footing = footing,
        _ => return Some(false),
    }
    Some(true)
}

fn material(value: &Value) -> Option<Material> {
    match value.to_choice()? {
        0 => Some(Material::Concrete),
        1 => Some(Material::Masonry),
        2 => Some(Material::Wood),
        3 => Some(Material::Steel),
        _ => None,
    }
}

fn set_load(job: &mut Job, kind: Kind, index: usize, value: &Value) -> Option<bool> {
    let load = job.loads.get_mut(index);
    Some(match (kind, load) {
        (Kind::LoadKind, Some(load)) => put(&mut load.kind, new_kind(value)),
        (Kind::LoadDead, Some(load)) => put(&mut load.dead, value.to_number().flatten()),
        (Kind::LoadLive, Some(load)) => put(&mut load.live, value.to_number().flatten()),
        (Kind::LoadSide, Some(load)) => put(&mut load.side, new_side(value)),
        (Kind::LoadTributary | Kind::LoadFrom | Kind::LoadTo | Kind::LoadAt, Some(load)) => {
            set_extent(&mut load.kind, kind, value).unwrap_or(false)
        }
        (
            Kind::LoadKind
            | Kind::LoadDead
            | Kind::LoadLive
            | Kind::LoadSide
            | Kind::LoadTributary
            | Kind::LoadFrom
            | Kind::LoadTo
            | Kind::LoadAt,
            None,
        ) => false,
        _ => return None,
    })
}

fn new_kind(value: &Value) -> Option<LoadKind> {
    let (from, to) = (None, None);
    match value.to_choice()? {
        0 => Some(LoadKind::Area {
            tributary: Default::default(),
            from,
            to,
        }),
        1 => Some(LoadKind::Line { from, to }),
        2 => Some(LoadKind::Point {
            at: Position::default(),
        }),
        _ => None,
    }
}

fn new_side(value: &Value) -> Option<LoadSide> {
    match value.to_choice()? {
        0 => Some(LoadSide::Halves),
        1 => Some(LoadSide::On(Side::N)),
        2 => Some(LoadSide::On(Side::S)),
        3 => Some(LoadSide::Top),
        _ => None,
    }
}

fn set_extent(load: &mut LoadKind, kind: Kind, value: &Value) -> Option<bool> {
    match (load, kind) {
        (LoadKind::Area { tributary, .. }, Kind::LoadTributary) => {
            *tributary = value.to_length()?.unwrap_or_default();
        }
        (LoadKind::Area { from, .. } | LoadKind::Line { from, .. }, Kind::LoadFrom) => {
            *from = value.to_at()?;
        }
        (LoadKind::Area { to, .. } | LoadKind::Line { to, .. }, Kind::LoadTo) => {
            *to = value.to_at()?;
        }
        (LoadKind::Point { at }, Kind::LoadAt) => *at = value.to_at()?.unwrap_or_default(),
        _ => return Some(false),
    }
    Some(true)
}

fn set_thing(job: &mut Job, kind: Kind, index: usize, value: &Value) -> Option<bool> {
    let thing = job.keepouts.get_mut(index);
    Some(match (kind, thing) {
        (Kind::ThingSides, Some(thing)) => put(&mut thing.sides, to_sides(value)),
        (Kind::ThingFrom, Some(thing)) => put(&mut thing.from, value.to_at().flatten()),
        (Kind::ThingTo, Some(thing)) => put(&mut thing.to, value.to_at().flatten()),
        (Kind::ThingName, Some(thing)) => put(&mut thing.name, value.to_words()),
        (Kind::ThingKind, Some(thing)) => {
            let kind = match value.to_choice() {
                Some(0) => KeepoutKind::Solid,
                Some(1) => KeepoutKind::Access,
                Some(2) => KeepoutKind::Zone,
                _ => return Some(false),
            };
            if kind == KeepoutKind::Zone {
                thing.sides = Sides::Both;
            }
            put(&mut thing.kind, Some(kind))
        }
        (Kind::ThingStays, Some(thing)) => {
            let stays = match value.to_choice() {
                Some(0) => Stays::Stays,
                Some(1) => Stays::Rides,
                _ => return Some(false),
            };
            put(&mut thing.stays, Some(stays))
        }
        (
            Kind::ThingSides
            | Kind::ThingFrom
            | Kind::ThingTo
            | Kind::ThingKind
            | Kind::ThingStays
            | Kind::ThingName,
            None,
        ) => false,
        _ => return None,
    })
}

fn set_piece(job: &mut Job, kind: Kind, index: usize, value: &Value) -> Option<bool> {
    let piece: Option<&mut PackingPiece> = job.packing.get_mut(index);
    Some(match (kind, piece) {
        (Kind::PieceFrom, Some(piece)) => put(&mut piece.from, value.to_at().flatten()),
        (Kind::PieceTo, Some(piece)) => put(&mut piece.to, value.to_at().flatten()),
        (Kind::PieceSides, Some(piece)) => put(&mut piece.sides, to_sides(value)),
        (Kind::PieceFrom | Kind::PieceTo | Kind::PieceSides, None) => false,
        _ => return None,
    })
}
