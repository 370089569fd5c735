//! Debouncing: contacts into presses and releases.
//!
//! In: which contacts are closed, at an edge or at a tick. Out: keys that went down or
//! up. Rule: the first edge counts at once, so that no key feels late; then that key is
//! not looked at for [`SETTLE`]; then what is seen counts. A key counts as up until it
//! has been seen open once.

use boltbay_handheld::{Key, Millis};

/// The buttons, in the order of their bits.
pub const KEYS: [Key; 5] = [Key::Up, Key::Down, Key::Left, Key::Right, Key::Ok];

/// Milliseconds in which a contact may bounce.
/// Practice: tact switches bounce up to 5 to 10 ms.
pub const SETTLE: u32 = 20;

/// A key that went down or up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Edge {
    /// Which.
    pub key: Key,
    /// It is down now.
    pub is_down: bool,
    /// When.
    pub at: Millis,
}

/// The five contacts.
#[derive(Clone, Copy, Debug)]
pub struct Contacts {
    /// Keys that count as down, a bit each.
    down: u8,
    /// Keys that have been seen open.
    known: u8,
    /// Until when each is not looked at.
    settled: [Millis; KEYS.len()],
}

impl Contacts {
    /// All up, none seen yet.
    pub const fn new() -> Contacts {
        Contacts {
            down: 0,
            known: 0,
            settled: [Millis(0); KEYS.len()],
        }
    }

    /// Looks at the contacts; a bit of `closed` for each key of [`KEYS`]. Calls `each`
    /// for whatever changed.
    pub fn look(&mut self, closed: u8, now: Millis, mut each: impl FnMut(Edge)) {
        self.known |= !closed;
        let closed = closed & self.known;
        for (at, (key, settled)) in KEYS.into_iter().zip(&mut self.settled).enumerate() {
            let bit = 1 << at;
            if now < *settled || (closed ^ self.down) & bit == 0 {
                continue;
            }
            self.down ^= bit;
            *settled = now.after(SETTLE);
            let is_down = self.down & bit != 0;
            each(Edge {
                key,
                is_down,
                at: now,
            });
        }
    }

    /// Some key is down, or has not settled yet.
    pub fn is_busy(&self, now: Millis) -> bool {
        self.down != 0 || self.settled.iter().any(|settled| now < *settled)
    }
}

impl Default for Contacts {
    fn default() -> Self {
        Contacts::new()
    }
}
