//! On a desktop, in place of what only the processor has: nothing has crashed, no stack
//! is measured, no byte of the log goes anywhere.

/// The board.
pub mod chosen {
    /// Takes a byte of the log.
    pub fn put(_: u8) {}
}

/// What outlives a restart.
pub mod crash {
    /// What a restart is on a desktop: a panic with these words, for whoever starts
    /// the program anew.
    pub const RESTART: &str = "restart";

    /// Nothing has happened before.
    pub fn take() -> Option<&'static str> {
        None
    }

    /// Nothing has happened before.
    pub fn count() -> u32 {
        0
    }

    /// There is nothing to forget.
    pub fn forget() {}

    /// Starts anew.
    ///
    /// # Panics
    /// Always: see [`RESTART`].
    pub fn restart() -> ! {
        panic!("{RESTART}")
    }
}

/// The stack.
pub mod stack {
    /// Not measured.
    pub fn deepest() -> usize {
        0
    }
}

/// Time.
pub mod tick {
    /// Not counted.
    pub fn counts() -> u32 {
        0
    }
}
