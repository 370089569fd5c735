//! The development machine: another emulated Cortex-M3, with more flash than any board
//! of ours and no display. Keys come over a serial port, pictures go over it, the card is
//! a file of the host. It is there to run what does not fit the board yet, and to show
//! what another board is: this folder.
//!
//! On the port of the keys a byte is a key's bit number, and 0x80 more if it goes down.
//! A picture is, for each row that has changed, 0x01, the row's number and its bytes;
//! then 0x02.

mod host_card;
mod serial;

use crate::board::Board;
use crate::debounce::{Edge, KEYS};
use crate::frame::Frame;
use crate::once::Once;
use crate::{count, stack, tick};
use boltbay_handheld::Millis;
use core::cell::RefCell;
use critical_section::Mutex;
use heapless::Deque;
pub use host_card::HostCard;
pub use serial::put;

/// Cycles of the processor a second.
const HERTZ: u32 = 25_000_000;
/// A row follows.
const ROW: u8 = 0x01;
/// The picture is whole.
const WHOLE: u8 = 0x02;
/// The key goes down.
const DOWN: u8 = 0x80;

static FRAME: Once<Frame> = Once::new(Frame::new());
static EDGES: Mutex<RefCell<Deque<Edge, 16>>> = Mutex::new(RefCell::new(Deque::new()));

/// The machine.
pub struct Mps2 {
    frame: &'static mut Frame,
    card: Option<HostCard>,
}

/// What the programs call it, whichever it is.
pub type Chosen = Mps2;

/// Starts everything. The first thing that a program does, once.
///
/// # Panics
/// The second time.
pub fn start() -> Mps2 {
    serial::start();
    let core = cortex_m::Peripherals::take();
    let (Some(core), Some(frame)) = (core, FRAME.lend()) else {
        panic!("a program starts once");
    };
    stack::protect(core.MPU);
    tick::start(core.SYST, HERTZ);
    // SAFETY: no critical section is built on masking one interrupt.
    unsafe { cortex_m::peripheral::NVIC::unmask(KeyCame) };
    Mps2 {
        frame,
        card: Some(HostCard::new()),
    }
}

/// Nothing bounces here.
pub fn on_tick() {}

impl Board for Mps2 {
    type Card = HostCard;

    fn frame(&mut self) -> &mut Frame {
        self.frame
    }

    fn show(&mut self) {
        self.frame.flush(|number, row| {
            let head = [ROW, number];
            head.iter()
                .chain(row)
                .copied()
                .for_each(serial::put_picture);
        });
        serial::put_picture(WHOLE);
    }

    fn edge(&mut self) -> Option<Edge> {
        critical_section::with(|section| EDGES.borrow_ref_mut(section).pop_front())
    }

    fn now(&self) -> Millis {
        tick::now()
    }

    fn idle(&mut self) {
        // Masked, so that no edge comes between the question and the sleep.
        critical_section::with(|section| {
            if EDGES.borrow_ref(section).is_empty() {
                cortex_m::asm::wfi();
            }
        });
    }

    fn alive(&mut self) {}

    fn chance(&self) -> u64 {
        tick::chance()
    }

    fn card(&mut self) -> Option<HostCard> {
        self.card.take()
    }
}

/// A byte came: which key, and where it went.
extern "C" fn key_came() {
    count::edge();
    let byte = serial::received();
    let Some(key) = KEYS.get(usize::from(byte & !DOWN)) else {
        return;
    };
    critical_section::with(|section| {
        let _ = EDGES.borrow_ref_mut(section).push_back(Edge {
            key: *key,
            is_down: byte & DOWN != 0,
            at: tick::now(),
        });
    });
}

/// The interrupt of the port's receiver. Source: Application Note AN385, "Interrupts".
#[derive(Clone, Copy)]
struct KeyCame;

const KEY_CAME: usize = 2;
const COUNT: usize = 32;

// SAFETY: the number is that of the table below, and below its length.
unsafe impl cortex_m::interrupt::InterruptNumber for KeyCame {
    fn number(self) -> u16 {
        KEY_CAME as u16
    }
}

/// What the processor reads when an interrupt comes.
#[unsafe(link_section = ".vector_table.interrupts")]
#[unsafe(no_mangle)]
pub static __INTERRUPTS: [extern "C" fn(); COUNT] = {
    let mut table: [extern "C" fn(); COUNT] = [unexpected; COUNT];
    table[KEY_CAME] = key_came;
    table
};

extern "C" fn unexpected() {
    panic!("unexpected interrupt");
}
