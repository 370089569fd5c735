//! The card's place on the bus: selected while PD0 is low.

use super::oled::{self, SELECT};
use super::registers::PORTD;
use super::ssi::{Pace, Ssi};
use crate::card;
use core::cell::RefCell;
use core::convert::Infallible;
use embedded_hal::spi::{ErrorType, Operation, SpiBus, SpiDevice};

/// The card on the bus that it shares with the display.
pub struct CardPort {
    bus: &'static RefCell<Ssi>,
    pace: Pace,
}

impl CardPort {
    pub(super) fn new(bus: &'static RefCell<Ssi>) -> CardPort {
        CardPort {
            bus,
            pace: Pace::Identify,
        }
    }
}

/// Bytes of clock before the first command: 74 cycles at least.
/// Source: SD Physical Layer Simplified Specification 4.10, 6.4.1.
const WAKING: [u8; 10] = [0xFF; 10];

impl card::CardPort for CardPort {
    fn wake(&mut self) {
        self.pace = Pace::Identify;
        let mut bus = self.bus.borrow_mut();
        bus.pace(self.pace);
        // Not selected; but then the display is, and takes these for pixels.
        oled::disturb();
        let _ = bus.write(&WAKING).and_then(|()| bus.flush());
    }

    fn hurry(&mut self) {
        self.pace = Pace::Card;
    }
}

impl ErrorType for CardPort {
    type Error = Infallible;
}

impl SpiDevice for CardPort {
    fn transaction(&mut self, operations: &mut [Operation<'_, u8>]) -> Result<(), Infallible> {
        let mut bus = self.bus.borrow_mut();
        bus.pace(self.pace);
        PORTD.data(SELECT).write(0);
        for operation in operations {
            match operation {
                Operation::Read(words) => bus.read(words)?,
                Operation::Write(words) => bus.write(words)?,
                Operation::Transfer(read, write) => bus.transfer(read, write)?,
                Operation::TransferInPlace(words) => bus.transfer_in_place(words)?,
                Operation::DelayNs(_) => {}
            }
        }
        bus.flush()?;
        PORTD.data(SELECT).write(SELECT.into());
        Ok(())
    }
}
