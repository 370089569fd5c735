//! The handheld on the board.
#![no_std]
#![no_main]

use boltbay_board::board::Board;
use boltbay_board::card::{CardFault, Files, JournalFile};
use boltbay_board::once::Once;
use boltbay_board::session::{self, Keeping, Session};
use boltbay_board::{app, chosen, crash, log, pages, stack};
use boltbay_handheld::Memory;
use boltbay_handheld::journal::{CardNumber, Fault, Keeper, STORE_BLOCKS};
use core::mem::MaybeUninit;

type Chosen = chosen::Chosen;
type Card = <Chosen as Board>::Card;
type CardKeeper = Keeper<JournalFile<'static, Card>>;

/// Everything large, made in its place.
static MEMORY: Once<MaybeUninit<Memory>> = Once::new(MaybeUninit::uninit());
static FILES: Once<MaybeUninit<Files<Card>>> = Once::new(MaybeUninit::uninit());
static KEEPER: Once<MaybeUninit<CardKeeper>> = Once::new(MaybeUninit::uninit());
static SESSION: Once<MaybeUninit<Session<Card>>> = Once::new(MaybeUninit::uninit());

/// Why nothing can be kept.
enum NotKept {
    Card(CardFault),
    Journal(Fault),
}

impl NotKept {
    fn on_screen(&self) -> [&'static str; 2] {
        match self {
            NotKept::Card(fault) => fault.on_screen(),
            NotKept::Journal(fault) => fault.on_screen(),
        }
    }
}

/// Finds the card and the journal's file on it.
#[inline(never)]
fn find_journal(board: &mut Chosen, files: &'static Files<Card>) -> Result<u32, NotKept> {
    files.wake().map_err(NotKept::Card)?;
    let first = files.journal(|block| {
        board.alive();
        if block.is_multiple_of(512) {
            app::paint_view(board, &pages::setting_up(block, STORE_BLOCKS));
        }
    });
    first.map_err(NotKept::Card)
}

/// Opens the journal into the job, or sets it up.
#[inline(never)]
fn open(board: &Chosen, keeper: &mut CardKeeper, memory: &mut Memory) -> Result<(), NotKept> {
    let opened = match keeper.open(&mut memory.job) {
        Err(Fault::NoJournal) => {
            let number = CardNumber(board.chance().to_le_bytes());
            let made = keeper.journal().set_up(number, &mut memory.job);
            made.map(drop)
        }
        opened => opened,
    };
    opened.map_err(NotKept::Journal)
}

#[inline(never)]
fn keeper(files: &'static Files<Card>, first: u32) -> Option<&'static mut CardKeeper> {
    Some(
        KEEPER
            .lend()?
            .write(Keeper::new(JournalFile::at(files, first))),
    )
}

/// The journal on the card, or the reason why there is none.
#[inline(never)]
fn keeping(
    board: &mut Chosen,
    files: &'static Files<Card>,
    memory: &mut Memory,
) -> Result<Keeping<Card>, NotKept> {
    let first = find_journal(board, files)?;
    log!("journal at block {}", first);
    let keeper = keeper(files, first).ok_or(NotKept::Journal(Fault::NotOpen))?;
    open(board, keeper, memory)?;
    session::choose(board, files, keeper, &mut memory.job);
    let waits = keeper.fault().is_some();
    Ok(Keeping::OnCard(keeper, waits))
}

/// The job's memory. What making it takes of the stack is given back, as everywhere
/// here: work on the job needs most of it.
#[inline(never)]
fn memory() -> Option<&'static mut Memory> {
    Some(MEMORY.lend()?.write(Memory::new()))
}

#[inline(never)]
fn files(board: &mut Chosen) -> Option<&'static Files<Card>> {
    Some(FILES.lend()?.write(Files::on(board.card()?)))
}

/// Says why nothing is kept, and goes on once that is heard.
#[inline(never)]
fn without(board: &mut Chosen, why: &NotKept) -> Keeping<Card> {
    let words = why.on_screen();
    log!("not kept: {}", words[0]);
    app::paint_view(board, &pages::card_trouble(words, "OK: GO ON WITHOUT"));
    app::wait_for_release(board);
    Keeping::InMemory
}

#[inline(never)]
fn session(
    memory: &'static mut Memory,
    keeping: Keeping<Card>,
    files: &'static Files<Card>,
) -> Option<&'static mut Session<Card>> {
    let session = SESSION.lend()?;
    Some(session.write(Session::new(memory, keeping, files)))
}

/// The program, made in its place.
fn program(board: &mut Chosen) -> Option<&'static mut Session<Card>> {
    let (memory, files) = (memory()?, files(board)?);
    let keeping = keeping(board, files, memory).unwrap_or_else(|why| without(board, &why));
    let session = session(memory, keeping, files)?;
    session.resume();
    Some(session)
}

#[cortex_m_rt::entry]
fn main() -> ! {
    let mut board = chosen::start();
    log!("boltbay, {} crashes before", crash::count());
    app::tell_crash(&mut board);
    let Some(program) = program(&mut board) else {
        panic!("a program starts once");
    };
    log!("stack so far {}", stack::deepest());
    app::run(&mut board, program)
}
