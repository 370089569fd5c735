//! Two habits of the emulated card, kept away from the driver. On a board with a card
//! of plastic this file goes.
//!
//! 1. It answers READ_OCR with its idle bit still set, although it has said before that
//!    it is ready.
//! 2. It swallows the byte behind its answer to a write command, where a card expects
//!    at least one byte of clock before the data. Source: SD Physical Layer Simplified
//!    Specification 4.10, 7.5.2.1 (timing of a write, N_WR of one byte at least).

use super::CardPort;
use embedded_hal::spi::{ErrorType, Operation, SpiDevice};

/// Commands by number. Source: SD Physical Layer Simplified Specification 4.10, Table 7-3.
const WRITE_BLOCK: u8 = 24;
const WRITE_MULTIPLE_BLOCK: u8 = 25;
const READ_OCR: u8 = 58;
/// A command is six bytes, and the first of them begins with these bits.
const COMMAND: usize = 6;
const BEGINS: u8 = 0b0100_0000;
/// The others are its number.
const NUMBER: u8 = 0b0011_1111;
/// An answer begins with a zero; its last bit says that the card is idle.
const NO_ANSWER: u8 = 0x80;
const IS_IDLE: u8 = 0x01;

/// A port with the emulated card in it.
pub struct Emulated<P> {
    port: P,
    /// The command that has no answer yet.
    asked: Option<u8>,
}

impl<P: CardPort> Emulated<P> {
    /// Around this port.
    pub const fn new(port: P) -> Emulated<P> {
        Emulated { port, asked: None }
    }

    /// The port itself.
    pub fn inside(&mut self) -> &mut P {
        &mut self.port
    }

    /// Hears what was asked and answered.
    fn listen(&mut self, operation: &mut Operation<'_, u8>) -> Result<(), P::Error> {
        match operation {
            Operation::Write(words) if words.len() == COMMAND => {
                let first = words.first().filter(|first| *first & !NUMBER == BEGINS);
                self.asked = first.map(|first| first & NUMBER);
                Ok(())
            }
            Operation::Transfer([answer], _) if *answer & NO_ANSWER == 0 => {
                match self.asked.take() {
                    Some(READ_OCR) => *answer &= !IS_IDLE,
                    Some(WRITE_BLOCK | WRITE_MULTIPLE_BLOCK) => return self.port.write(&[0xFF]),
                    _ => {}
                }
                Ok(())
            }
            _ => Ok(()),
        }
    }
}

impl<P: CardPort> ErrorType for Emulated<P> {
    type Error = P::Error;
}

impl<P: CardPort> SpiDevice for Emulated<P> {
    fn transaction(&mut self, operations: &mut [Operation<'_, u8>]) -> Result<(), P::Error> {
        self.port.transaction(operations)?;
        operations
            .iter_mut()
            .try_for_each(|operation| self.listen(operation))
    }
}
