//! The serial port of the log: 115,200 baud, out only, and nobody waits but the writer.

use super::clock::HERTZ;
use super::registers::{PORTA, uart0::*};

/// Bits a second.
const BAUD: u32 = 115_200;
/// U0Tx is PA1.
const TX: u32 = 1 << 1;

/// Sets the port up; clocks are running.
pub fn start() {
    PORTA.afsel().set(TX);
    PORTA.den().set(TX);
    UARTCTL.clear(UARTCTL_UARTEN);
    // Divisor in 64ths. Source: LM3S6965 data sheet, "Baud-Rate Generation".
    let divisor = (HERTZ * 4 + BAUD / 2) / BAUD;
    UARTIBRD.write(divisor / 64);
    UARTFBRD.write(divisor % 64);
    UARTLCRH.write(UARTLCRH_WLEN_8 | UARTLCRH_FEN);
    UARTCTL.write(UARTCTL_UARTEN | UARTCTL_TXE);
}

/// Sends one byte.
pub fn put(byte: u8) {
    while UARTFR.has(UARTFR_TXFF) {}
    UARTDR.write(byte.into());
}
