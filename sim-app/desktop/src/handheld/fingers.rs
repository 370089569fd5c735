//! Fingers: what a host without real buttons does to the handheld's keys.
//!
//! A terminal says that a key was struck, never that it was let go. So a tap is
//! down and up at once, and a hold is asked for by another key; it is kept down
//! until it has acted, in a time of its own that then runs ahead of the clock.

use boltbay_handheld::{Handheld, Key, Millis};
use std::time::Instant;

/// The longest hold that means anything, and some more.
const LONGEST_HOLD: u64 = 1500;
/// From one look at a held key to the next.
const STEP: u64 = 10;

/// The hand on the keys, and its time.
#[derive(Debug)]
pub struct Fingers {
    start: Instant,
    /// Milliseconds that holds have taken without anybody waiting for them.
    ahead: u64,
}

impl Default for Fingers {
    fn default() -> Self {
        Fingers {
            start: Instant::now(),
            ahead: 1000,
        }
    }
}

impl Fingers {
    /// The time, as the handheld knows it.
    pub fn now(&self) -> Millis {
        let real = u64::try_from(self.start.elapsed().as_millis()).unwrap_or(u64::MAX);
        Millis(real.saturating_add(self.ahead))
    }

    /// Strikes a key.
    pub fn tap(&mut self, handheld: &mut Handheld<'_>, key: Key) {
        handheld.press(key, self.now());
        handheld.release(key, self.now());
    }

    /// Holds a key until it has acted once; if holding it means nothing here, it is
    /// a tap when it is let go.
    pub fn hold(&mut self, handheld: &mut Handheld<'_>, key: Key) {
        let before = handheld.acted();
        let until = self.ahead + LONGEST_HOLD;
        handheld.press(key, self.now());
        while self.ahead < until && handheld.acted() == before {
            self.ahead += STEP;
            handheld.tick(self.now());
        }
        handheld.release(key, self.now());
    }

    /// Lets time pass.
    pub fn wait(&self, handheld: &mut Handheld<'_>) {
        handheld.tick(self.now());
    }
}
