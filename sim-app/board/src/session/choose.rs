//! A job card from the root of the memory card, chosen and read into a new job.

use super::is_blank;
use crate::app::{paint_view, wait_for_release};
use crate::board::Board;
use crate::card::{CardBlocks, CardFault, Files, JournalFile, Name};
use crate::{log, pages};
use boltbay_core::Job;
use boltbay_core::card::{CardError, CardReader};
use boltbay_handheld::Key;
use boltbay_handheld::journal::{Keeper, Unreadable};
use core::fmt::Write;
use core::ops::ControlFlow;
use heapless::{String, Vec};

/// Cards that are listed; more are left out.
pub const LISTED: usize = 16;

/// Letters of what is wrong with a card: all that fit the screen.
const WORDS: usize = 110;

/// Job cards by name.
type Cards = Vec<Name, LISTED, u8>;

/// Plans of ours end like cards.
const PLAN: &str = "PLAN";

/// Lets the user choose a job card, if nothing is keyed yet and there are any; the
/// job is then what the card says.
pub fn choose<B: Board>(
    board: &mut B,
    files: &Files<B::Card>,
    keeper: &mut Keeper<JournalFile<'_, B::Card>>,
    job: &mut Job,
) {
    if !is_blank(job) {
        return;
    }
    let cards = list(files);
    while let Some(name) = pick(board, &cards) {
        match take(files, keeper, job, name) {
            Ok(()) => return,
            Err(refused) => tell(board, &refused, name),
        }
    }
}

/// The job cards. Not inlined, like all that is done here one after the other: reading a
/// card wants most of the stack.
#[inline(never)]
fn list<C: CardBlocks>(files: &Files<C>) -> Cards {
    let mut cards = Cards::new();
    let listed = files.job_cards(|name, _| {
        if !name.starts_with(PLAN) {
            let _ = cards.push(name);
        }
    });
    if let Err(fault) = listed {
        log!("no cards: {}", fault.on_screen()[0]);
    }
    cards
}

/// Says why a card became no job, until that is heard.
#[inline(never)]
fn tell(board: &mut impl Board, refused: &Refused, name: &str) {
    log!("card refused");
    paint_view(board, &refused.view(name));
    wait_for_release(board);
}

/// Shows the list until a card is picked, or none.
#[inline(never)]
fn pick<'c>(board: &mut impl Board, cards: &'c Cards) -> Option<&'c Name> {
    let mut selected = 0;
    loop {
        let last = cards.len().checked_sub(1)?;
        paint_view(board, &pages::cards(cards, selected));
        match wait_for_release(board).key {
            Key::Up => selected = selected.saturating_sub(1),
            Key::Down => selected = (selected + 1).min(last),
            Key::Left => return None,
            Key::Ok => return cards.get(selected),
            _ => {}
        }
    }
}

/// Why a card became no job.
enum Refused {
    /// The memory card.
    File(CardFault),
    /// What it says.
    Card(CardError),
    /// The journal.
    Journal([&'static str; 2]),
}

impl Refused {
    #[inline(never)]
    fn view(&self, name: &str) -> boltbay_handheld::View {
        match self {
            Refused::File(fault) => pages::card_refused(name, fault.on_screen()[0]),
            Refused::Card(error) => {
                let mut words = String::<WORDS, u8>::new();
                // What does not fit is left out.
                let _ = write!(words, "{error}");
                pages::card_refused(name, &words)
            }
            Refused::Journal([what, _]) => pages::card_refused(name, what),
        }
    }
}

/// Reads a card into a new job; the empty one before it goes. The job before stays
/// where the card cannot be read.
#[inline(never)]
fn take<C: CardBlocks>(
    files: &Files<C>,
    keeper: &mut Keeper<JournalFile<'_, C>>,
    job: &mut Job,
    name: &Name,
) -> Result<(), Refused> {
    let journal = keeper.journal();
    let before = journal.job();
    let mut why = None;
    let made = journal.make_job(job, |job| {
        read(files, name, job).map_err(|refused| {
            why = Some(refused);
            Unreadable
        })
    });
    made.map_err(|fault| why.unwrap_or(Refused::Journal(fault.on_screen())))?;
    // The empty job is nothing to come back to; if it stays, it is only one more.
    let _ = journal.remove_job(before);
    Ok(())
}

#[inline(never)]
fn read<C: CardBlocks>(files: &Files<C>, name: &str, job: &mut Job) -> Result<(), Refused> {
    let mut reader = CardReader::new();
    let mut refused = None;
    let done = files.read(name, |bytes| match reader.feed(bytes, job) {
        Ok(()) => ControlFlow::Continue(()),
        Err(error) => {
            refused = Some(error);
            ControlFlow::Break(())
        }
    });
    done.map_err(Refused::File)?;
    if let Some(error) = refused {
        return Err(Refused::Card(error));
    }
    reader.finish(job).map_err(Refused::Card)
}
