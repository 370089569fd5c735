//! Counting, only with feature `count`: from an edge of a key to the last byte of the
//! frame that answers it.
//!
//! The emulator, told `-icount shift=3`, takes 8 ns for each instruction; the
//! processor's timer counts the nanoseconds. The command in DEVELOPERS.md makes
//! instructions of them.

use crate::{log, tick};
use core::sync::atomic::{AtomicU32, Ordering};

/// When the last edge came, in counts of the timer.
static EDGE: AtomicU32 = AtomicU32::new(0);

/// An edge has come.
pub fn edge() {
    if cfg!(feature = "count") {
        EDGE.store(tick::counts(), Ordering::Relaxed);
    }
}

/// The frame is out.
pub fn frame() {
    if cfg!(feature = "count") {
        let counts = tick::counts().wrapping_sub(EDGE.load(Ordering::Relaxed));
        log!("frame after {} counts", counts);
    }
}
