//! The handheld on a desktop: its memory, its journal, and a terminal or a window
//! to play it in.
//!
//! In: a card or a file with a journal. Out: the handheld, live. Without either it
//! opens on a guided demo job that nobody keeps.

pub mod cells;
mod fingers;
pub mod guide;
mod terminal;
#[cfg(feature = "window")]
mod window;

pub use crate::command::Live;
use crate::file::{self, ReadError};
use crate::store::{self, Store};
use crate::work::Failure;
use boltbay_core::Job;
use boltbay_core::card;
use boltbay_handheld::journal::{Fault, JobNumber, Journal, Keeper, Kept, Unreadable};
use boltbay_handheld::{Handheld, Memory};
pub use fingers::Fingers;
use std::io::{self, IsTerminal, Read};
use std::path::{Path, PathBuf};
pub use terminal::Terminal;

/// Why a host stopped playing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Left {
    /// The user has finished.
    ByUser,
    /// The journal must be read anew.
    ToReopen,
}

/// Plays the handheld until the user leaves.
///
/// # Errors
/// No terminal; a card or a journal that cannot be read or written.
pub fn live(asked: &Live, stdin: &mut dyn Read) -> Result<(), Failure> {
    let store = asked.store.as_deref();
    let mut memory = Box::new(Memory::new());
    let mut open = |job: &mut Job| open(asked.card.as_deref(), store, stdin, job);
    #[cfg(feature = "window")]
    if asked.window {
        let mut keeper = open(&mut memory.job)?;
        let mut window = window::Window::open();
        return session(&mut memory, &mut keeper, store, |keeper, handheld| {
            Ok(window.play(keeper, handheld))
        });
    }
    if !(io::stdout().is_terminal() && io::stdin().is_terminal()) {
        return Err(Failure::NoTerminal);
    }
    let mut keeper = open(&mut memory.job)?;
    let mut terminal = Terminal::enter().map_err(Failure::Terminal)?;
    session(&mut memory, &mut keeper, store, |keeper, handheld| {
        terminal.play(keeper, handheld).map_err(Failure::Terminal)
    })
}

/// Plays, and reads the journal anew where that is asked for.
fn session(
    memory: &mut Memory,
    keeper: &mut Keeper<Store>,
    store: Option<&Path>,
    mut play: impl FnMut(&mut Keeper<Store>, &mut Handheld<'_>) -> Result<Left, Failure>,
) -> Result<(), Failure> {
    loop {
        let mut handheld = Handheld::new(memory);
        keeper.resume(&mut handheld);
        if play(keeper, &mut handheld)? == Left::ByUser {
            return Ok(());
        }
        let opened = keeper.open(&mut memory.job);
        opened.map_err(|fault| at(store, fault))?;
    }
}

/// A fault of the journal, and where it is.
fn at(store: Option<&Path>, fault: Fault) -> Failure {
    let path = store.unwrap_or(Path::new("the journal in memory"));
    Failure::Journal(PathBuf::from(path), fault)
}

/// Opens the journal, makes one where there is none, and puts the job of `card`
/// into it, or the demo job into one that nobody keeps.
///
/// # Errors
/// A card or a journal that cannot be read or written.
pub fn open(
    card: Option<&Path>,
    store: Option<&Path>,
    stdin: &mut dyn Read,
    job: &mut Job,
) -> Result<Keeper<Store>, Failure> {
    let blocks = match store {
        Some(path) => {
            Store::in_file(path).map_err(|error| Failure::Write(path.to_owned(), error))?
        }
        None => Store::in_memory(),
    };
    let mut from_card = Box::new(Job::new(job.units));
    let given = match (card, store) {
        (Some(path), _) => {
            file::read_card(path, stdin, &mut from_card)
                .map_err(|error| Failure::Read(path.to_owned(), error))?;
            true
        }
        (None, None) => {
            card::read(guide::CARD.as_bytes(), &mut from_card)
                .map_err(|error| Failure::Read("the demo job".into(), ReadError::Card(error)))?;
            true
        }
        (None, Some(_)) => false,
    };
    let mut keeper = Keeper::new(blocks);
    let is_new = open_or_set_up(&mut keeper, job).map_err(|fault| at(store, fault))?;
    if given {
        let journal = keeper.journal();
        start_with(journal, job, &from_card, is_new).map_err(|fault| at(store, fault))?;
    }
    Ok(keeper)
}

/// Whether it was set up.
fn open_or_set_up(keeper: &mut Keeper<Store>, job: &mut Job) -> Result<bool, Fault> {
    match keeper.open(job) {
        Ok(()) => Ok(false),
        Err(Fault::NoJournal) => {
            let made = keeper.journal().set_up(store::new_number(), job);
            made.map(|_| true)
        }
        Err(fault) => Err(fault),
    }
}

/// A new job that is what the card says; the empty one of a new journal goes.
fn start_with(
    journal: &mut Journal<Store>,
    job: &mut Job,
    from: &Job,
    is_new: bool,
) -> Result<(), Fault> {
    let fill = |job: &mut Job| {
        job.clone_from(from);
        Ok::<(), Unreadable>(())
    };
    journal.make_job(job, fill)?;
    if is_new {
        journal.remove_job(JobNumber::FIRST)?;
    }
    debug_assert_eq!(job.title(), from.title());
    Ok(())
}
