//! The table of interrupts. Source: LM3S6965 data sheet, "Interrupts" (table of 44).

use super::buttons;
use crate::crash;

const COUNT: usize = 44;
const GPIO_PORT_E: usize = 4;
const WATCHDOG: usize = 18;
const GPIO_PORT_F: usize = 30;

/// What the processor reads when an interrupt comes.
#[unsafe(link_section = ".vector_table.interrupts")]
#[unsafe(no_mangle)]
pub static __INTERRUPTS: [extern "C" fn(); COUNT] = {
    let mut table: [extern "C" fn(); COUNT] = [unexpected; COUNT];
    table[GPIO_PORT_E] = buttons::on_edge;
    table[GPIO_PORT_F] = buttons::on_edge;
    table[WATCHDOG] = starved;
    table
};

extern "C" fn unexpected() {
    panic!("unexpected interrupt");
}

extern "C" fn starved() {
    crash::starved();
}

/// The interrupts that are used, by number.
#[derive(Clone, Copy)]
struct Number(u16);

// SAFETY: the numbers are those of the table above, and below `COUNT`.
unsafe impl cortex_m::interrupt::InterruptNumber for Number {
    fn number(self) -> u16 {
        self.0
    }
}

/// Lets them come.
pub fn unmask() {
    for number in [GPIO_PORT_E, GPIO_PORT_F, WATCHDOG] {
        // SAFETY: no critical section is built on masking one interrupt.
        unsafe { cortex_m::peripheral::NVIC::unmask(Number(number as u16)) };
    }
}
