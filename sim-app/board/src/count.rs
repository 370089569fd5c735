//! Counting, only with feature `count`: from an edge of a key to the last byte of the
//! frame that answers it, and what that went to.
//!
//! The emulator, told `-icount shift=3`, takes 8 ns for each instruction; the
//! processor's timer counts the nanoseconds. `tests/board/counts.rs` makes
//! instructions of them.

use crate::{log, stack, tick};
use core::sync::atomic::{AtomicBool, AtomicU32, Ordering};

/// What comes between an edge and its frame, in this order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// The program takes the key.
    Act,
    /// What changed goes into the journal.
    Keep,
    /// The view is built.
    View,
    /// It is painted.
    Paint,
    /// Rows that changed go to the glass.
    Send,
}

/// Whether anything is counted.
const ON: bool = cfg!(feature = "count");

/// When the last edge came, in counts of the timer.
static EDGE: AtomicU32 = AtomicU32::new(0);
/// When the last phase was over.
static LAST: AtomicU32 = AtomicU32::new(0);
/// Counts of each phase since the edge.
static SPENT: [AtomicU32; 5] = [const { AtomicU32::new(0) }; 5];
/// Something has come since the last rest.
static BUSY: AtomicBool = AtomicBool::new(false);

/// An edge has come; or a tick, when a key that is held may act.
pub fn begin() {
    if ON {
        let now = tick::counts();
        EDGE.store(now, Ordering::Relaxed);
        LAST.store(now, Ordering::Relaxed);
        for spent in &SPENT {
            spent.store(0, Ordering::Relaxed);
        }
        BUSY.store(true, Ordering::Relaxed);
    }
}

/// A phase is over.
pub fn done(phase: Phase) {
    if ON {
        let now = tick::counts();
        let last = LAST.swap(now, Ordering::Relaxed);
        if let Some(spent) = SPENT.get(phase as usize) {
            spent.fetch_add(now.wrapping_sub(last), Ordering::Relaxed);
        }
    }
}

/// Runs what only waits for somebody who is slower in one run than in the next: that
/// time is left out.
pub fn wait(for_it: impl FnOnce()) {
    let from = if ON { tick::counts() } else { 0 };
    for_it();
    if ON {
        let waited = tick::counts().wrapping_sub(from);
        EDGE.fetch_add(waited, Ordering::Relaxed);
        LAST.fetch_add(waited, Ordering::Relaxed);
    }
}

/// The frame is out. What was done before it, this screen's, is logged, and how deep the
/// stack has been; what follows is counted from here.
pub fn frame(screen: &str) {
    if ON {
        let all = LAST
            .load(Ordering::Relaxed)
            .wrapping_sub(EDGE.load(Ordering::Relaxed));
        let [act, keep, view, paint, send] =
            SPENT.each_ref().map(|spent| spent.load(Ordering::Relaxed));
        log!(
            "frame {} {} act {} keep {} view {} paint {} send {} stack {}",
            screen,
            all,
            act,
            keep,
            view,
            paint,
            send,
            stack::deepest()
        );
        begin();
    }
}

/// Nothing is left to do: whoever tells the keys may go on.
pub fn rest() {
    if ON && BUSY.swap(false, Ordering::Relaxed) {
        log!("rest");
    }
}
