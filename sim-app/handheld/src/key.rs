//! Keys, and what a press, a hold or a release of one means.
//!
//! In: keys down and up with the time of the host. Out: gestures. A tap acts on
//! release, so that a hold never also taps. Only the key that went down first
//! counts until all are up: a glove covers two. Times are the host's, and
//! nothing here reads a clock.

/// The five buttons, and the keypad that a host may have besides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Key {
    /// One tick more, or the line above.
    Up,
    /// One tick less, or the line below.
    Down,
    /// A quarter less, or back.
    Left,
    /// A quarter more, or closer.
    Right,
    /// Accept; held: the sheet of things to do here.
    Ok,
    /// A digit 0 to 9 of a keypad.
    Digit(u8),
    /// The one separator of a keypad.
    Separator,
}

/// Milliseconds since the host started counting; it must never count back.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Millis(pub u64);

impl Millis {
    /// This much later.
    pub const fn after(self, milliseconds: u32) -> Millis {
        Millis(self.0.saturating_add(milliseconds as u64))
    }
}

/// What the user did.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Gesture {
    /// Pressed and let go.
    Tap(Key),
    /// Held long enough; once more for each repeat.
    Hold(Key),
}

/// How long a key is held before it acts, and how often it then repeats.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Holding {
    /// Milliseconds until it acts.
    pub after: u32,
    /// Milliseconds from one repeat to the next; `None` = once a hold.
    pub repeat: Option<u32>,
}

impl Holding {
    /// Acts once.
    pub const fn once(after: u32) -> Holding {
        Holding {
            after,
            repeat: None,
        }
    }

    /// Acts again and again.
    pub const fn again(after: u32, repeat: u32) -> Holding {
        Holding {
            after,
            repeat: Some(repeat),
        }
    }
}

/// The keys of one screen that do something when held; any other key held
/// is a tap when it is let go.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Holdings {
    /// Up and down.
    pub vertical: Option<Holding>,
    /// Left.
    pub left: Option<Holding>,
    /// Right.
    pub right: Option<Holding>,
    /// OK.
    pub ok: Option<Holding>,
}

impl Holdings {
    /// How this key is held.
    const fn of(&self, key: Key) -> Option<Holding> {
        match key {
            Key::Up | Key::Down => self.vertical,
            Key::Left => self.left,
            Key::Right => self.right,
            Key::Ok => self.ok,
            Key::Digit(_) | Key::Separator => None,
        }
    }
}

/// After a hold the keys stay dead for this long once all are up.
/// Practice: measured on nobody yet; from the study of entry, an assumption.
const DEAF_AFTER_HOLD: u32 = 300;

/// A key that is down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Down {
    key: Key,
    /// When it acts next.
    next: Option<Millis>,
    /// It has acted at least once.
    acted: bool,
}

/// The keys as they are now.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Buttons {
    first: Option<Down>,
    /// How many keys are down.
    down: u8,
    deaf_until: Millis,
    /// Nothing counts until all keys are up.
    dead: bool,
}

impl Buttons {
    /// A key goes down.
    pub fn press(&mut self, key: Key, now: Millis, holdings: &Holdings) {
        self.down = self.down.saturating_add(1);
        if self.down > 1 || self.dead || now < self.deaf_until {
            return;
        }
        let holding = holdings.of(key);
        self.first = Some(Down {
            key,
            next: holding.map(|holding| now.after(holding.after)),
            acted: false,
        });
    }

    /// A key goes up: a tap, unless it was held, or was not the first.
    pub fn release(&mut self, key: Key, now: Millis) -> Option<Gesture> {
        self.down = self.down.saturating_sub(1);
        let held = self.first.filter(|first| first.key == key);
        if held.is_some() {
            self.first = None;
        }
        if self.down == 0 && self.dead {
            self.dead = false;
            self.deaf(now, DEAF_AFTER_HOLD);
        }
        held.filter(|held| !held.acted)
            .map(|held| Gesture::Tap(held.key))
    }

    /// Whether a hold has come due: only then is [`Buttons::tick`] worth asking.
    pub fn is_due(&self, now: Millis) -> bool {
        let next = self.first.and_then(|first| first.next);
        next.is_some_and(|due| due <= now)
    }

    /// Time passes: the next hold that has come due. Ask until there is none.
    pub fn tick(&mut self, now: Millis, holdings: &Holdings) -> Option<Gesture> {
        let first = self.first.as_mut()?;
        let due = first.next.filter(|due| *due <= now)?;
        first.acted = true;
        self.dead = true;
        let repeat = holdings.of(first.key).and_then(|holding| holding.repeat);
        first.next = repeat.map(|every| due.after(every));
        Some(Gesture::Hold(first.key))
    }

    /// Keys pressed before `milliseconds` from now do nothing.
    pub fn deaf(&mut self, now: Millis, milliseconds: u32) {
        self.deaf_until = self.deaf_until.max(now.after(milliseconds));
    }

    /// The screen changed under a key that is still down: it acts no more.
    pub fn forget(&mut self) {
        if let Some(first) = self.first.as_mut() {
            first.next = None;
        }
    }
}
