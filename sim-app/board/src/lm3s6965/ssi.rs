//! The serial bus that display and card share, as an `embedded-hal` bus.
//!
//! Rule: every byte written is paired with a byte read. The receive FIFO holds eight;
//! left full, the port stops for good.

use super::clock::HERTZ;
use super::registers::{PORTA, ssi0::*};
use core::convert::Infallible;
use embedded_hal::spi::{ErrorType, SpiBus};

/// SSI0Clk, SSI0Rx, SSI0Tx: PA2, PA4, PA5.
const PINS: u32 = 1 << 2 | 1 << 4 | 1 << 5;
/// Bytes that may be under way.
const FIFO: usize = 8;

/// How fast the bus goes.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Pace {
    /// A card that is being identified. Source: SD Physical Layer Simplified
    /// Specification 4.10, 4.2.1 (up to 400 kHz).
    Identify,
    /// A card that is known. Source: the same, 6.6.6 (default speed, up to 25 MHz).
    Card,
    /// The display. Memory: a clock cycle of at least 250 ns, data sheet of the SSD0323.
    Display,
}

impl Pace {
    const fn hertz(self) -> u32 {
        match self {
            Pace::Identify => 400_000,
            Pace::Card => 12_500_000,
            Pace::Display => 4_000_000,
        }
    }

    /// The prescaler: even, 2 at least, rounded so that the bus is never too fast.
    const fn prescaler(self) -> u32 {
        HERTZ.div_ceil(self.hertz()).next_multiple_of(2)
    }
}

/// The bus.
pub struct Ssi(());

impl Ssi {
    /// Sets the bus up, master, mode 0, eight bits.
    pub(super) fn start() -> Ssi {
        PORTA.afsel().set(PINS);
        PORTA.den().set(PINS);
        SSICR1.clear(SSICR1_SSE);
        SSICPSR.write(Pace::Identify.prescaler());
        SSICR0.write(SSICR0_DSS_8_BITS);
        SSICR1.write(SSICR1_SSE);
        Ssi(())
    }

    /// Changes the pace, once the bus is quiet.
    pub fn pace(&mut self, pace: Pace) {
        while SSISR.has(SSISR_BSY) {}
        SSICPSR.write(pace.prescaler());
    }

    fn byte(&mut self, out: u8) -> u8 {
        SSIDR.write(out.into());
        while !SSISR.has(SSISR_RNE) {}
        SSIDR.read() as u8
    }
}

impl ErrorType for Ssi {
    type Error = Infallible;
}

/// What is sent where only answers count.
const IDLE: u8 = 0xFF;

impl SpiBus for Ssi {
    fn read(&mut self, words: &mut [u8]) -> Result<(), Infallible> {
        words.iter_mut().for_each(|word| *word = self.byte(IDLE));
        Ok(())
    }

    fn write(&mut self, words: &[u8]) -> Result<(), Infallible> {
        // As many bytes under way as the FIFOs hold.
        for words in words.chunks(FIFO) {
            words.iter().for_each(|word| SSIDR.write((*word).into()));
            for _ in words {
                while !SSISR.has(SSISR_RNE) {}
                SSIDR.read();
            }
        }
        Ok(())
    }

    fn transfer(&mut self, read: &mut [u8], write: &[u8]) -> Result<(), Infallible> {
        let (mut read, mut write) = (read.iter_mut(), write.iter());
        loop {
            match (read.next(), write.next()) {
                (None, None) => return Ok(()),
                (into, out) => {
                    let came = self.byte(out.copied().unwrap_or(IDLE));
                    if let Some(into) = into {
                        *into = came;
                    }
                }
            }
        }
    }

    fn transfer_in_place(&mut self, words: &mut [u8]) -> Result<(), Infallible> {
        words.iter_mut().for_each(|word| *word = self.byte(*word));
        Ok(())
    }

    fn flush(&mut self) -> Result<(), Infallible> {
        while SSISR.has(SSISR_BSY) {}
        Ok(())
    }
}
