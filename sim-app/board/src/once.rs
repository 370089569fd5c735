//! Large things in memory of their own, borrowed once.
//!
//! A value that is made while the program runs crosses the stack on its way, and a
//! picture or a job is larger than what the stack can spare. These are made by the
//! compiler: all zeros, they cost no flash either.

use core::cell::UnsafeCell;
use core::sync::atomic::{AtomicBool, Ordering};

/// Something that is lent to the first who asks.
pub struct Once<T> {
    is_lent: AtomicBool,
    value: UnsafeCell<T>,
}

// SAFETY: the cell is reached only through `lend`, which succeeds once; there is one
// core, and no interrupt handler of ours asks.
unsafe impl<T> Sync for Once<T> {}

impl<T> Once<T> {
    /// Not lent yet.
    pub const fn new(value: T) -> Once<T> {
        Once {
            is_lent: AtomicBool::new(false),
            value: UnsafeCell::new(value),
        }
    }

    /// The value; `None` the second time.
    #[expect(clippy::mut_from_ref, reason = "lent once, see below")]
    pub fn lend(&'static self) -> Option<&'static mut T> {
        let was_lent = self.is_lent.swap(true, Ordering::Relaxed);
        // SAFETY: nobody else has it, and nobody else will.
        (!was_lent).then(|| unsafe { &mut *self.value.get() })
    }
}
