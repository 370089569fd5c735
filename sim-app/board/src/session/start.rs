//! From the card in the slot to the job in memory, or why nothing can be kept.

use super::choose;
use crate::board::Board;
use crate::card::{CardFault, Files, JournalFile};
use crate::{app, log, pages};
use boltbay_core::Job;
use boltbay_handheld::journal::{CardNumber, Fault, Keeper, StoreError};

/// Why nothing can be kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotKept {
    /// The card, or its files.
    Card(CardFault),
    /// The journal on it.
    Journal(Fault),
}

impl NotKept {
    /// There is no card, or no longer.
    pub const fn is_out(self) -> bool {
        matches!(
            self,
            NotKept::Card(CardFault::NoCard) | NotKept::Journal(Fault::Store(StoreError::NoCard))
        )
    }

    /// What is wrong and what to do, in two lines of at most 21 characters.
    pub fn on_screen(self) -> [&'static str; 2] {
        match self {
            NotKept::Journal(Fault::Store(StoreError::NoCard)) => CardFault::NoCard.on_screen(),
            NotKept::Card(CardFault::IsFolder) => {
                ["BOLTBAY.JNL: A FOLDER", "RENAME IT ON A LAPTOP"]
            }
            // The list of its jobs is not to be had without it.
            NotKept::Journal(Fault::JobsFull) => ["CARD HOLDS 16 JOBS", "TAKE ANOTHER CARD"],
            NotKept::Card(fault) => fault.on_screen(),
            NotKept::Journal(fault) => fault.on_screen(),
        }
    }
}

/// Finds the journal's file on the card in the slot, or makes it there.
///
/// # Errors
/// There is no card, or none that can hold it.
#[inline(never)]
pub fn find_journal<B: Board>(
    board: &mut B,
    files: &Files<B::Card>,
    file: &mut JournalFile<'_, B::Card>,
) -> Result<(), NotKept> {
    files.wake().map_err(NotKept::Card)?;
    let first = files.journal(|| app::paint_page(board, pages::setting_up));
    let first = first.map_err(NotKept::Card)?;
    log!("journal at block {}", first);
    file.found_at(first);
    Ok(())
}

/// A number for a journal that is set up now.
pub fn new_number(board: &impl Board) -> CardNumber {
    CardNumber(board.chance().to_le_bytes())
}

/// Opens the journal into the job, or sets it up; a job that is still empty may become
/// what a card says.
///
/// # Errors
/// Those of the journal; the job is then empty.
#[inline(never)]
pub fn open<B: Board>(
    board: &mut B,
    files: &Files<B::Card>,
    keeper: &mut Keeper<JournalFile<'_, B::Card>>,
    job: &mut Job,
) -> Result<(), NotKept> {
    find_journal(board, files, keeper.journal().store())?;
    let opened = keeper.open_or_set_up(new_number(board), job);
    if let Err(fault) = opened {
        job.clear();
        return Err(NotKept::Journal(fault));
    }
    choose(board, files, keeper, job);
    Ok(())
}
