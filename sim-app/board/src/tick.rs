//! Time: a tick every 10 ms by the processor's own timer.

use crate::chosen;
use boltbay_handheld::Millis;
use core::sync::atomic::{AtomicU32, Ordering};
use cortex_m::peripheral::syst::SystClkSource;
use cortex_m::peripheral::{SCB, SYST};
use cortex_m_rt::exception;

/// Milliseconds from one tick to the next.
pub const EVERY: u32 = 10;

/// Ticks since power-on; runs over after 497 days.
static TICKS: AtomicU32 = AtomicU32::new(0);

/// Starts the ticks on a processor of so many cycles a second.
pub fn start(mut syst: SYST, hertz: u32) {
    syst.set_clock_source(SystClkSource::Core);
    syst.set_reload(hertz / 1000 * EVERY - 1);
    syst.clear_current();
    syst.enable_interrupt();
    syst.enable_counter();
}

/// Milliseconds since power-on, whole ticks.
pub fn now() -> Millis {
    Millis(u64::from(TICKS.load(Ordering::Relaxed)) * u64::from(EVERY))
}

/// A number that depends on when it is asked for, to the cycle.
pub fn chance() -> u64 {
    (now().0 << 24) | u64::from(SYST::get_current())
}

/// Counts of the timer since power-on; runs over.
pub fn counts() -> u32 {
    let reload = SYST::get_reload();
    loop {
        let ticks = TICKS.load(Ordering::Relaxed);
        let behind = reload - SYST::get_current().min(reload);
        // In another interrupt's handler a tick may have come and not be counted yet.
        let late = SCB::is_pendst_pending() && behind < reload / 2;
        // No tick was counted in between.
        if ticks == TICKS.load(Ordering::Relaxed) {
            let ticks = ticks.wrapping_add(u32::from(late));
            return ticks.wrapping_mul(reload + 1).wrapping_add(behind);
        }
    }
}

#[exception]
fn SysTick() {
    // Only this handler writes it.
    TICKS.store(
        TICKS.load(Ordering::Relaxed).wrapping_add(1),
        Ordering::Relaxed,
    );
    chosen::on_tick();
}
