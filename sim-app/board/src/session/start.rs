//! From the card in the slot to the job in memory, or why nothing can be kept.

use super::{Keeping, choose};
use crate::board::Board;
use crate::card::{CardFault, Files, JournalFile};
use crate::{app, log, pages};
use boltbay_core::Job;
use boltbay_handheld::journal::{CardNumber, Fault, Keeper};

/// Why nothing can be kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotKept {
    /// The card, or its files.
    Card(CardFault),
    /// The journal on it.
    Journal(Fault),
}

impl NotKept {
    /// What is wrong and what to do, in two lines of at most 21 characters.
    pub fn on_screen(&self) -> [&'static str; 2] {
        match self {
            NotKept::Card(fault) => fault.on_screen(),
            NotKept::Journal(fault) => fault.on_screen(),
        }
    }
}

/// The journal's file on the card in the slot, made where there is none.
///
/// # Errors
/// There is no card, or none that can hold it.
#[inline(never)]
pub fn find_journal<'f, B: Board>(
    board: &mut B,
    files: &'f Files<B::Card>,
) -> Result<JournalFile<'f, B::Card>, NotKept> {
    files.wake().map_err(NotKept::Card)?;
    let first = files.journal(|| app::paint_view(board, &pages::setting_up()));
    let first = first.map_err(NotKept::Card)?;
    log!("journal at block {}", first);
    Ok(JournalFile::at(files, first))
}

/// A number for a journal that is set up now.
pub fn new_number(board: &impl Board) -> CardNumber {
    CardNumber(board.chance().to_le_bytes())
}

/// Opens the journal into the job, or sets it up; a job that is still empty may become
/// what a card says.
///
/// # Errors
/// Those of the journal.
#[inline(never)]
pub fn open<'a, B: Board>(
    board: &mut B,
    files: &'a Files<B::Card>,
    keeper: &'a mut Keeper<JournalFile<'a, B::Card>>,
    job: &mut Job,
) -> Result<Keeping<'a, B::Card>, NotKept> {
    let opened = keeper.open_or_set_up(new_number(board), job);
    opened.map_err(NotKept::Journal)?;
    choose(board, files, keeper, job);
    Ok(Keeping::on_card(keeper))
}
