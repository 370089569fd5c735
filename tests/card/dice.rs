//! Random values of the kinds that a card holds.

use boltbay_core::Length;
use boltbay_core::decimal::Decimal;
use boltbay_core::job::{Hook, Position};
use boltbay_core::words::{Name, Side, Sides};

/// A small generator of random numbers (SplitMix64: Steele, Lea, Flood 2014).
pub struct Dice(pub u64);

impl Dice {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// From `least` to `most`, both included.
    pub fn from(&mut self, least: i64, most: i64) -> i64 {
        least + (self.next() % (most - least + 1) as u64) as i64
    }

    pub fn coin(&mut self) -> bool {
        self.next().is_multiple_of(2)
    }

    pub fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[self.from(0, from.len() as i64 - 1) as usize]
    }

    pub fn maybe<T>(&mut self, value: impl FnOnce(&mut Dice) -> T) -> Option<T> {
        self.coin().then(|| value(self))
    }

    /// A length of this many counts at most, of any kind that people write,
    /// or of no kind at all.
    pub fn length(&mut self, least: i64, most: i64) -> Length {
        let step = self.pick(&[15_875 * 4, 15_875, 1_016, 40_000, 4_000, 127, 1]);
        let counts = self.from(least, most);
        let stepped = counts - counts.rem_euclid(step);
        let counts = if stepped < least { counts } else { stepped };
        Length::from_counts(counts as i32)
    }

    /// Above 0, up to 2 ft.
    pub fn small(&mut self) -> Length {
        self.length(1, 24 * 1_016_000)
    }

    /// 0 up to 80 ft.
    pub fn long(&mut self) -> Length {
        self.length(0, 960 * 1_016_000)
    }

    pub fn decimal(&mut self, least: i64, most: i64) -> Decimal {
        let places = self.from(0, 6) as u8;
        let scale = 10_i64.pow(u32::from(places));
        let most = most.min(i64::from(i32::MAX) / scale);
        Decimal::new(self.from(least, most * scale) as i32, places)
    }

    pub fn name(&mut self) -> Name {
        let mut name = String::new();
        for _ in 0..self.from(1, 12) {
            name.push(char::from(self.from(32, 126) as u8));
        }
        let name = name.trim();
        if name.is_empty() { "?" } else { name }
            .try_into()
            .expect("short")
    }

    pub fn maybe_name(&mut self) -> Name {
        if self.coin() {
            self.name()
        } else {
            Name::new()
        }
    }

    /// `count` names that differ even when case is ignored.
    pub fn names(&mut self, count: usize) -> Vec<Name> {
        let mut names: Vec<Name> = Vec::new();
        while names.len() < count {
            let name = self.name();
            if name != "none" && names.iter().all(|other| !other.eq_ignore_ascii_case(&name)) {
                names.push(name);
            }
        }
        names
    }

    pub fn side(&mut self) -> Side {
        self.pick(&Side::BOTH)
    }

    pub fn sides(&mut self) -> Sides {
        match self.coin() {
            true => Sides::Both,
            false => Sides::One(self.side()),
        }
    }

    /// How many of a list: none, some, or all that fit.
    pub fn many(&mut self, most: usize) -> usize {
        match self.from(0, 5) {
            0 => 0,
            1 => most,
            _ => self.from(0, most as i64 / 2) as usize,
        }
    }
}

/// Where the faces lie, as the frame is described: face A at the bearing of A,
/// face B at face A + clear, or at length - bearing B.
pub struct Place {
    pub length: i64,
    pub faces: [Option<i64>; 2],
}

impl Place {
    /// A position for this station, read from any hook that reaches it.
    pub fn position(&self, dice: &mut Dice, station: i64) -> Position {
        let hooks = [
            (Hook::EndA, Some(station)),
            (Hook::EndB, Some(self.length - station)),
            (Hook::WallA, self.faces[0].map(|face| station - face)),
            (Hook::WallB, self.faces[1].map(|face| face - station)),
        ];
        let (hook, reading) = loop {
            let (hook, reading) = dice.pick(&hooks);
            if let Some(reading) = reading.filter(|reading| *reading >= 0) {
                break (hook, reading);
            }
        };
        Position {
            reading: Length::from_counts(reading as i32),
            hook,
        }
    }

    pub fn anywhere(&self, dice: &mut Dice) -> Position {
        let station = dice.from(0, self.length);
        self.position(dice, station)
    }

    /// Different stations, in order.
    pub fn stations(&self, dice: &mut Dice, count: usize) -> Vec<i64> {
        let mut stations = std::collections::BTreeSet::new();
        while stations.len() < count {
            stations.insert(dice.from(0, self.length));
        }
        stations.into_iter().collect()
    }

    pub fn stretch(&self, dice: &mut Dice) -> (Position, Position) {
        let ends = self.stations(dice, 2);
        (self.position(dice, ends[0]), self.position(dice, ends[1]))
    }
}
