//! The board that is emulated: Cortex-M3, 256 KiB flash, 64 KiB RAM, an OLED of 128 x 64
//! pixels, five buttons, a slot for a memory card, a serial port.

mod buttons;
mod card_port;
mod clock;
mod interrupts;
mod oled;
pub mod registers;
mod ssi;
mod uart;
mod watchdog;

use crate::board::Board;
use crate::card::{Emulated, Slot};
use crate::debounce::Edge;
use crate::frame::Frame;
use crate::once::Once;
use crate::{stack, tick};
use boltbay_handheld::Millis;
pub use card_port::CardPort;
use core::cell::RefCell;
use embedded_hal::delay::DelayNs;
use oled::Oled;
pub use ssi::Ssi;
pub use uart::put;

/// The board.
pub struct Lm3s6965 {
    frame: &'static mut Frame,
    oled: Oled,
    card: Option<Slot<CardPort, Wait>>,
}

static FRAME: Once<Frame> = Once::new(Frame::new());

/// What the programs call it, whichever it is.
pub type Chosen = Lm3s6965;

/// Starts everything. The first thing that a program does, once.
///
/// # Panics
/// The second time.
pub fn start() -> Lm3s6965 {
    clock::start();
    uart::start();
    let core = cortex_m::Peripherals::take().expect("a program starts once");
    stack::protect(core.MPU);
    buttons::start();
    tick::start(core.SYST, clock::HERTZ);
    watchdog::start();
    let bus = cortex_m::singleton!(: RefCell<Ssi> = RefCell::new(Ssi::start()));
    let (Some(bus), Some(frame)) = (bus, FRAME.lend()) else {
        panic!("a program starts once");
    };
    let bus: &'static RefCell<Ssi> = bus;
    let oled = Oled::start(bus);
    interrupts::unmask();
    Lm3s6965 {
        frame,
        oled,
        card: Some(Slot::new(Emulated::new(CardPort::new(bus)), Wait)),
    }
}

/// Contacts may have settled.
pub fn on_tick() {
    buttons::look();
}

impl Board for Lm3s6965 {
    type Card = Slot<CardPort, Wait>;

    fn frame(&mut self) -> &mut Frame {
        self.frame
    }

    fn show(&mut self) {
        self.oled.show(self.frame);
    }

    fn edge(&mut self) -> Option<Edge> {
        buttons::next()
    }

    fn now(&self) -> Millis {
        tick::now()
    }

    fn idle(&mut self) {
        watchdog::feed();
        // Masked, so that no edge comes between the question and the sleep; an
        // interrupt that waits ends the sleep all the same.
        cortex_m::interrupt::free(|_| {
            if !buttons::any_waits() {
                cortex_m::asm::wfi();
            }
        });
    }

    fn chance(&self) -> u64 {
        tick::chance()
    }

    fn card(&mut self) -> Option<Self::Card> {
        self.card.take()
    }
}

/// Waits by counting cycles, and feeds the watchdog: a slow card is no crash.
pub struct Wait;

impl DelayNs for Wait {
    fn delay_ns(&mut self, ns: u32) {
        watchdog::feed();
        let cycles = u64::from(ns) * u64::from(clock::HERTZ) / 1_000_000_000;
        cortex_m::asm::delay(u32::try_from(cycles).unwrap_or(u32::MAX).max(1));
    }
}
