//! The OLED: a controller SSD0323 with 128 x 64 pixels of 16 greys.
//!
//! In: rows of the frame. Out: commands and data on the bus that it shares with the
//! card. Its select line is PD0 high; whether a byte is command or data says PC7.

use super::registers::{PORTC, PORTD};
use super::ssi::{Pace, Ssi};
use crate::frame::{Frame, ROW, ROWS};
use core::cell::RefCell;
use core::sync::atomic::{AtomicBool, Ordering};
use embedded_hal::spi::SpiBus;

/// Low: command; high: data.
const DATA: u8 = 1 << 7;
/// High: the display listens; low: the card.
pub(super) const SELECT: u8 = 1 << 0;

/// Commands and what follows them. Source: SSD0323 data sheet, "Command Table".
mod command {
    pub const SET_COLUMNS: u8 = 0x15;
    pub const SET_ROWS: u8 = 0x75;
    pub const SET_CONTRAST: u8 = 0x81;
    pub const SET_REMAP: u8 = 0xA0;
    pub const SET_START_LINE: u8 = 0xA1;
    pub const SET_OFFSET: u8 = 0xA2;
    pub const SHOW_MEMORY: u8 = 0xA4;
    pub const SET_MULTIPLEX: u8 = 0xA8;
    pub const OFF: u8 = 0xAE;
    pub const ON: u8 = 0xAF;
}

/// Common outputs split odd and even, as the glass of this board is wired.
const REMAP_SPLIT: u8 = 0x40;
/// Of 127; dim enough for eyes in a dark floor.
const CONTRAST: u8 = 0x60;

/// Something else was sent to it.
static DISTURBED: AtomicBool = AtomicBool::new(false);

/// Whatever is sent now goes into its memory as pixels; the next frame is sent whole.
pub(super) fn disturb() {
    PORTC.data(DATA).write(DATA.into());
    PORTD.data(SELECT).write(SELECT.into());
    DISTURBED.store(true, Ordering::Relaxed);
}

/// The display.
pub struct Oled {
    bus: &'static RefCell<Ssi>,
}

impl Oled {
    /// Switches it on.
    pub(super) fn start(bus: &'static RefCell<Ssi>) -> Oled {
        PORTC.dir().set(DATA.into());
        PORTC.den().set(DATA.into());
        PORTD.dir().set(SELECT.into());
        PORTD.den().set(SELECT.into());
        // The emulated pins forget in a restart what they had told the display, and
        // tell it nothing where nothing seems to change: move both lines both ways.
        for level in [SELECT, 0] {
            PORTD.data(SELECT).write(level.into());
        }
        for level in [DATA, 0] {
            PORTC.data(DATA).write(level.into());
        }
        let mut oled = Oled { bus };
        oled.command(&[command::OFF]);
        oled.command(&[command::SET_MULTIPLEX, ROWS as u8 - 1]);
        oled.command(&[command::SET_START_LINE, 0]);
        oled.command(&[command::SET_OFFSET, 0]);
        oled.command(&[command::SET_REMAP, REMAP_SPLIT]);
        oled.command(&[command::SET_CONTRAST, CONTRAST]);
        oled.command(&[command::SHOW_MEMORY]);
        oled.command(&[command::SET_COLUMNS, 0, ROW as u8 - 1]);
        oled.command(&[command::ON]);
        oled
    }

    /// Shows what has changed in the frame.
    pub fn show(&mut self, frame: &mut Frame) {
        if DISTURBED.swap(false, Ordering::Relaxed) {
            frame.forget_sent();
        }
        self.bus.borrow_mut().pace(Pace::Display);
        // Rows that follow each other need no new window.
        let mut expected = None;
        frame.flush(|number, row| {
            if expected != Some(number) {
                self.command(&[command::SET_ROWS, number, ROWS as u8 - 1]);
                self.command(&[command::SET_COLUMNS, 0, ROW as u8 - 1]);
            }
            expected = Some(number + 1);
            self.send(DATA, row);
        });
    }

    fn command(&mut self, bytes: &[u8]) {
        self.send(0, bytes);
    }

    fn send(&mut self, data: u8, bytes: &[u8]) {
        PORTD.data(SELECT).write(SELECT.into());
        PORTC.data(DATA).write(data.into());
        let mut bus = self.bus.borrow_mut();
        // This bus cannot fail.
        let _ = bus.write(bytes).and_then(|()| bus.flush());
    }
}
