//! The development machine: another emulated Cortex-M3, with more flash than any board
//! of ours and no display. Keys come over a serial port, pictures go over it, the card is
//! a file of the host. It is there to run what does not fit the board yet, and to show
//! what another board is: this folder.
//!
//! On the port of the keys a byte is a key's bit number, or 0x10 and the digit of a
//! keypad, or 0x1A for its separator; and 0x80 more if it goes down.
//! A picture is, for each row that has changed, 0x01, the row's number and its bytes;
//! then 0x02.
//!
//! With feature `count` time is told on the same port, so that a count depends on nothing
//! else: 0x40 and a number of ticks that have passed. At rest it logs that.

mod host_card;
mod serial;

use crate::board::Board;
use crate::debounce::{Edge, KEYS};
use crate::frame::Frame;
use crate::once::Once;
use crate::{count, stack, tick};
use boltbay_handheld::{Key, Millis};
use core::cell::RefCell;
use core::sync::atomic::{AtomicU32, Ordering};
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
/// Time passes, where it is told.
const TIME: u8 = 0x40;

/// Ticks that were told.
static TOLD: AtomicU32 = AtomicU32::new(0);

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
            serial::put_picture(&[ROW, number]);
            serial::put_picture(row);
        });
        serial::put_picture(&[WHOLE]);
    }

    fn edge(&mut self) -> Option<Edge> {
        critical_section::with(|section| EDGES.borrow_ref_mut(section).pop_front())
    }

    fn now(&self) -> Millis {
        now()
    }

    fn idle(&mut self) {
        // Masked, so that no edge comes between the question and the sleep, and none is
        // called done before it was heard.
        critical_section::with(|section| {
            if EDGES.borrow_ref(section).is_empty() {
                count::rest();
                cortex_m::asm::wfi();
            }
        });
    }

    fn chance(&self) -> u64 {
        tick::chance()
    }

    fn card(&mut self) -> Option<HostCard> {
        self.card.take()
    }
}

/// The key of this number.
fn key(number: u8) -> Option<Key> {
    match number {
        0x10..=0x19 => Some(Key::Digit(number - 0x10)),
        0x1A => Some(Key::Separator),
        number => KEYS.get(usize::from(number)).copied(),
    }
}

/// Time since power-on, or since it was told first.
fn now() -> Millis {
    match cfg!(feature = "count") {
        true => Millis(u64::from(TOLD.load(Ordering::Relaxed)) * u64::from(tick::EVERY)),
        false => tick::now(),
    }
}

/// A byte came: which key, and where it went.
extern "C" fn key_came() {
    let byte = serial::received();
    if cfg!(feature = "count") && byte & (DOWN | TIME) == TIME {
        // Only this handler writes it.
        let told = TOLD.load(Ordering::Relaxed) + u32::from(byte & !TIME);
        TOLD.store(told, Ordering::Relaxed);
        return;
    }
    count::begin();
    let Some(key) = key(byte & !DOWN) else {
        return;
    };
    critical_section::with(|section| {
        let _ = EDGES.borrow_ref_mut(section).push_back(Edge {
            key,
            is_down: byte & DOWN != 0,
            at: now(),
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
