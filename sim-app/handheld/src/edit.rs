//! Edits: how a key changes the job, and the only way it can.
//!
//! In: a job and an edit. Out: the job with that edit made, or as it was. Edits
//! are small and can be written down (`edit/bytes.rs`): the journal keeps them,
//! and whoever makes the same edits on the same job gets the same job.

mod bytes;

pub use bytes::{BYTES, Unreadable};

use crate::field::{Field, List, Value};
use boltbay_core::Job;
use boltbay_core::job::{
    BarsCut, Check, Hanger, Hole, HoleState, JoistReading, Keepout, KeepoutKind, Layer, LayerKind,
    Material, Nail, Near, OtherPiece, PackingPiece, Position, Reach, Run, Stays, Stick,
    StickSource, Support,
};
use boltbay_core::job::{Load, LoadKind};
use boltbay_core::length::Length;
use boltbay_core::list::{put_in, take_out};
use boltbay_core::words::{Name, Row, Sides, Units};
use heapless::Vec;

/// One change of the job.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Edit {
    /// A job with nothing on it but its units.
    New(Units),
    /// A value into a field.
    Set(Field, Value),
    /// A new entry with nothing keyed, in front of the entry that has this
    /// place now; at the end of the list where there is none.
    Insert(List, u8),
    /// The entry goes. A run takes its readings and checks along.
    Remove(List, u8),
    /// A new tape run.
    Run(Run),
    /// A reading of a joist, in front of the reading that has this place now.
    Joist(u8, JoistReading),
    /// A reading that proves a run.
    Check(Check),
    /// A hole as it is, in front of the hole that has this place now.
    Hole(u8, Hole),
    /// All marks that are not drilled go.
    StrikeMarks,
    /// So many bars are cut by this list; 0 = its ticks go.
    BarsCut(BarsCut),
}

/// What one key changes: all of it or nothing is kept.
pub type Edits = Vec<Edit, 10, u8>;

/// Why an edit was not made; the job is as it was.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Refused {
    /// The list is full: this many are all that it holds.
    Full(List, u8),
    /// The field takes no such value, or the entry is not there.
    Unfit,
}

/// Makes one edit.
///
/// # Errors
/// `Full` where the list has no room, `Unfit` where the edit means nothing in
/// this job; nothing has then changed.
pub fn apply(job: &mut Job, edit: &Edit) -> Result<(), Refused> {
    match edit {
        Edit::New(units) => {
            job.clear();
            job.units = *units;
            Ok(())
        }
        Edit::Set(field, value) => match field.set(job, value) {
            true => Ok(()),
            false => Err(Refused::Unfit),
        },
        Edit::Insert(list, at) => insert(job, *list, usize::from(*at)),
        Edit::Remove(list, at) => remove(job, *list, usize::from(*at)).ok_or(Refused::Unfit),
        Edit::Run(run) => add_run(job, *run),
        Edit::Joist(at, joist) => {
            known_run(job, joist.run)?;
            into(&mut job.joists, usize::from(*at), *joist, List::Joists)
        }
        Edit::Check(check) => {
            known_run(job, check.run)?;
            let end = job.checks.len();
            into(&mut job.checks, end, *check, List::Checks)
        }
        Edit::Hole(at, hole) => into(&mut job.holes, usize::from(*at), *hole, List::Holes),
        Edit::StrikeMarks => {
            job.holes.retain(|hole| hole.state != HoleState::Marked);
            Ok(())
        }
        Edit::BarsCut(cut) => tick(job, cut),
    }
}

/// Takes over how many bars are cut by a list.
fn tick(job: &mut Job, cut: &BarsCut) -> Result<(), Refused> {
    let place = job.bars_cut.iter().position(|old| old.list == cut.list);
    match (place, cut.bars) {
        (None, 0) => Err(Refused::Unfit),
        (Some(place), 0) => {
            take_out(&mut job.bars_cut, place);
            Ok(())
        }
        (Some(place), bars) => {
            if let Some(old) = job.bars_cut.get_mut(place) {
                old.bars = bars;
            }
            Ok(())
        }
        (None, _) => {
            let end = job.bars_cut.len();
            into(&mut job.bars_cut, end, cut.clone(), List::Sticks)
        }
    }
}

/// A reading belongs to a run that is there.
fn known_run(job: &Job, run: u8) -> Result<(), Refused> {
    match job.runs.get(usize::from(run)) {
        Some(_) => Ok(()),
        None => Err(Refused::Unfit),
    }
}

/// An entry into a list, at its end where the place is beyond it.
fn into<T, const N: usize>(
    list: &mut Vec<T, N, u8>,
    at: usize,
    entry: T,
    which: List,
) -> Result<(), Refused> {
    let full = Refused::Full(which, u8::try_from(N).unwrap_or(u8::MAX));
    put_in(list, at, entry).map_err(|_| full)
}

/// At most so many runs on one side.
fn add_run(job: &mut Job, run: Run) -> Result<(), Refused> {
    let most = boltbay_core::job::RUNS_A_SIDE;
    let there = job.runs.iter().filter(|r| r.side == run.side).count();
    if there >= most {
        let most = u8::try_from(most).unwrap_or(u8::MAX);
        return Err(Refused::Full(List::Runs, most));
    }
    let end = job.runs.len();
    into(&mut job.runs, end, run, List::Runs)
}

/// A fresh entry of a list.
fn insert(job: &mut Job, list: List, at: usize) -> Result<(), Refused> {
    let (name, from) = (Name::new(), Position::default());
    let to = from;
    match list {
        List::Supports => into(&mut job.supports, at, fresh_support(), list),
        List::Loads => into(&mut job.loads, at, fresh_load(), list),
        List::Hangers => insert_hanger(job, at),
        List::Nails => {
            let (length, diameter, slant) = (Length::ZERO, Length::ZERO, None);
            let nail = Nail {
                name,
                length,
                diameter,
                slant,
            };
            into(&mut job.nails, at, nail, list)
        }
        List::Keepouts => into(&mut job.keepouts, at, fresh_thing(), list),
        List::Packing => {
            let sides = Sides::Both;
            into(&mut job.packing, at, PackingPiece { from, to, sides }, list)
        }
        List::Nears => into(&mut job.nears, at, fresh_near(), list),
        List::Layers => into(&mut job.layers, at, fresh_layer(), list),
        List::Sticks => {
            let (length, count, source) = (Length::ZERO, None, StickSource::Rod);
            let stick = Stick {
                length,
                count,
                source,
            };
            into(&mut job.sticks, at, stick, list)
        }
        List::Pieces => {
            let (length, count) = (Length::ZERO, 1);
            let piece = OtherPiece {
                length,
                count,
                name,
            };
            into(&mut job.pieces, at, piece, list)
        }
        List::Holes => {
            let hole = Hole::new(from, Row::Top, HoleState::Marked);
            into(&mut job.holes, at, hole, list)
        }
        // They come with what was read: their own edits.
        List::Runs | List::Joists | List::Checks => Err(Refused::Unfit),
    }
}

fn fresh_support() -> Support {
    Support {
        name: Name::new(),
        centre: None,
        length: None,
        width: None,
        material: Material::Concrete,
        allowable: None,
    }
}

fn fresh_load() -> Load {
    Load {
        kind: LoadKind::Area {
            tributary: Length::ZERO,
            from: None,
            to: None,
        },
        dead: Default::default(),
        live: Default::default(),
        side: Default::default(),
    }
}

fn fresh_thing() -> Keepout {
    Keepout {
        sides: Sides::Both,
        from: Position::default(),
        to: Position::default(),
        kind: KeepoutKind::Solid,
        stays: Stays::Stays,
        name: Name::new(),
    }
}

fn fresh_near() -> Near {
    Near {
        at: Position::default(),
        within: Length::ZERO,
        reach: Reach::One,
        paired: false,
        name: Name::new(),
    }
}

fn fresh_layer() -> Layer {
    Layer {
        name: Name::new(),
        thickness: Length::ZERO,
        kind: LayerKind::Solid,
        moisture: None,
        count: None,
    }
}

/// Joists name their hanger by its place: those behind a new one move up.
fn insert_hanger(job: &mut Job, at: usize) -> Result<(), Refused> {
    use boltbay_core::job::HangerRef;
    let (name, metal, height, rated) = (Name::new(), None, None, None);
    let hanger = Hanger {
        name,
        metal,
        height,
        rated,
    };
    let at = at.min(job.hangers.len());
    into(&mut job.hangers, at, hanger, List::Hangers)?;
    for joist in &mut job.joists {
        if let HangerRef::Row(row) = &mut joist.hanger
            && usize::from(*row) >= at
        {
            *row = row.saturating_add(1);
        }
    }
    Ok(())
}

/// Takes an entry out; `None` where it is not there.
fn remove(job: &mut Job, list: List, at: usize) -> Option<()> {
    if at >= usize::from(list.len(job)) {
        return None;
    }
    match list {
        List::Supports => {
            let name = take_out(&mut job.supports, at)?.name;
            job.posts.retain(|post| post.support != name);
        }
        List::Loads => drop(take_out(&mut job.loads, at)?),
        List::Runs => remove_run(job, at),
        List::Joists => drop(take_out(&mut job.joists, at)?),
        List::Checks => drop(take_out(&mut job.checks, at)?),
        List::Hangers => remove_hanger(job, at),
        List::Nails => drop(take_out(&mut job.nails, at)?),
        List::Keepouts => drop(take_out(&mut job.keepouts, at)?),
        List::Packing => drop(take_out(&mut job.packing, at)?),
        List::Nears => drop(take_out(&mut job.nears, at)?),
        List::Layers => drop(take_out(&mut job.layers, at)?),
        List::Sticks => drop(take_out(&mut job.sticks, at)?),
        List::Pieces => drop(take_out(&mut job.pieces, at)?),
        List::Holes => drop(take_out(&mut job.holes, at)?),
    }
    Some(())
}

/// A run with its readings and checks; later runs move down.
fn remove_run(job: &mut Job, at: usize) {
    let gone = u8::try_from(at).unwrap_or(u8::MAX);
    take_out(&mut job.runs, at);
    job.joists.retain(|joist| joist.run != gone);
    job.checks.retain(|check| check.run != gone);
    let down = |run: &mut u8| *run -= u8::from(*run > gone);
    job.joists.iter_mut().for_each(|joist| down(&mut joist.run));
    job.checks.iter_mut().for_each(|check| down(&mut check.run));
}

/// Joists that had this hanger take the default; those behind it move down.
fn remove_hanger(job: &mut Job, at: usize) {
    use boltbay_core::job::HangerRef;
    take_out(&mut job.hangers, at);
    for joist in &mut job.joists {
        match &mut joist.hanger {
            HangerRef::Row(row) if usize::from(*row) > at => *row -= 1,
            HangerRef::Row(row) if usize::from(*row) == at => joist.hanger = HangerRef::Default,
            _ => {}
        }
    }
}
