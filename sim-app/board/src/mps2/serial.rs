//! Two serial ports: the log, and the one that keys come from and pictures go to.
//! Source: Cortex-M System Design Kit TRM, 4.3 (APB UART, programmer's model).

use crate::count;
use crate::register::Register;

const LOG: usize = 0x4000_4000;
const GLASS: usize = 0x4000_5000;

const STATE_TX_FULL: u32 = 1 << 0;
const CTRL_TX_ENABLE: u32 = 1 << 0;
const CTRL_RX_ENABLE: u32 = 1 << 1;
const CTRL_RX_INTERRUPT: u32 = 1 << 3;
const INTCLEAR_RX: u32 = 1 << 1;
/// The least divisor that the port takes.
const FASTEST: u32 = 16;

const fn data(port: usize) -> Register {
    Register::at(port, 0x000)
}

const fn state(port: usize) -> Register {
    Register::at(port, 0x004)
}

const fn ctrl(port: usize) -> Register {
    Register::at(port, 0x008)
}

const fn intclear(port: usize) -> Register {
    Register::at(port, 0x00C)
}

const fn bauddiv(port: usize) -> Register {
    Register::at(port, 0x010)
}

/// Sets both up.
pub fn start() {
    for port in [LOG, GLASS] {
        bauddiv(port).write(FASTEST);
    }
    ctrl(LOG).write(CTRL_TX_ENABLE);
    ctrl(GLASS).write(CTRL_TX_ENABLE | CTRL_RX_ENABLE | CTRL_RX_INTERRUPT);
}

fn send(port: usize, bytes: &[u8]) {
    let (state, data) = (state(port), data(port));
    for byte in bytes {
        if state.has(STATE_TX_FULL) {
            // The host reads when it comes to it.
            count::wait(|| while state.has(STATE_TX_FULL) {});
        }
        data.write((*byte).into());
    }
}

/// Sends one byte of the log.
pub fn put(byte: u8) {
    send(LOG, &[byte]);
}

/// Sends some of a picture.
pub fn put_picture(bytes: &[u8]) {
    send(GLASS, bytes);
}

/// The byte that an interrupt is about.
pub fn received() -> u8 {
    intclear(GLASS).write(INTCLEAR_RX);
    data(GLASS).read() as u8
}
