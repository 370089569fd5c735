//! The watchdog: after [`SECONDS`] without a sign of life its interrupt keeps where the
//! program was and starts anew; if even that hangs, the second time-out resets.

use super::clock::HERTZ;
use super::registers::watchdog::*;

/// Longer than the longest work between two signs of life: a plan takes a fraction of a
/// second, and waiting for a card is one.
const SECONDS: u32 = 8;

/// Starts it; from now on it wants to be fed.
pub fn start() {
    WDTLOCK.write(WDTLOCK_UNLOCK);
    WDTLOAD.write(HERTZ.saturating_mul(SECONDS));
    WDTCTL.write(WDTCTL_RESEN | WDTCTL_INTEN);
    WDTLOCK.write(0);
}

/// A sign of life.
pub fn feed() {
    WDTLOCK.write(WDTLOCK_UNLOCK);
    WDTICR.write(1);
    WDTLOAD.write(HERTZ.saturating_mul(SECONDS));
    WDTLOCK.write(0);
}
