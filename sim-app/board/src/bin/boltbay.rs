//! The handheld on the board.
#![no_std]
#![no_main]

use boltbay_board::board::Board;
use boltbay_board::card::{Files, JournalFile};
use boltbay_board::once::Once;
use boltbay_board::session::{self, Keeping, Session};
use boltbay_board::{app, chosen, crash, log, pages, stack};
use boltbay_handheld::Memory;
use boltbay_handheld::journal::Keeper;
use core::mem::MaybeUninit;

type Chosen = chosen::Chosen;
type Card = <Chosen as Board>::Card;
type CardKeeper = Keeper<JournalFile<'static, Card>>;
type CardSession = Session<'static, Card>;

/// Everything large, made in its place.
static MEMORY: Once<MaybeUninit<Memory>> = Once::new(MaybeUninit::uninit());
static FILES: Once<MaybeUninit<Files<Card>>> = Once::new(MaybeUninit::uninit());
static KEEPER: Once<MaybeUninit<CardKeeper>> = Once::new(MaybeUninit::uninit());
static SESSION: Once<MaybeUninit<CardSession>> = Once::new(MaybeUninit::uninit());

/// The journal, of no card yet.
#[inline(never)]
fn keeper(files: &'static Files<Card>) -> Option<&'static mut CardKeeper> {
    Some(
        KEEPER
            .lend()?
            .write(Keeper::new(JournalFile::nowhere(files))),
    )
}

/// Opens the card; where that cannot be, says why, and goes on once it is heard.
#[inline(never)]
fn keeping(
    board: &mut Chosen,
    files: &'static Files<Card>,
    keeper: &'static mut CardKeeper,
    memory: &mut Memory,
) -> Keeping<'static, Card> {
    let opened = session::open(board, files, keeper, &mut memory.job);
    if let Err(why) = opened {
        let words = why.on_screen();
        log!("not kept: {}", words[0]);
        app::paint_page(board, || pages::card_trouble(words, pages::GO_ON));
        app::wait_for_release(board);
    }
    Keeping::from_start(keeper, opened)
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

#[inline(never)]
fn session(
    memory: &'static mut Memory,
    keeping: Keeping<'static, Card>,
    files: &'static Files<Card>,
) -> Option<&'static mut CardSession> {
    let session = SESSION.lend()?;
    Some(session.write(Session::new(memory, keeping, files)))
}

/// The program, made in its place.
fn program(board: &mut Chosen) -> Option<&'static mut CardSession> {
    let (memory, files) = (memory()?, files(board)?);
    let keeping = keeping(board, files, keeper(files)?, memory);
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
