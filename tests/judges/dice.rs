//! Repeatable chance for generated cases: the same seed, the same cases, on
//! every host and without a crate whose stream may change.

/// A generator of numbers (SplitMix64, public domain algorithm).
#[derive(Clone, Debug)]
pub struct Dice(u64);

impl Dice {
    /// Starts a stream.
    pub fn new(seed: u64) -> Self {
        Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0xD1B5_4A32_D192_ED03)
    }

    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// From `least` to `most`, both included.
    pub fn between(&mut self, least: i64, most: i64) -> i64 {
        let span = u64::try_from(most - least + 1).expect("least is not above most");
        least + i64::try_from(self.bits() % span).expect("fits")
    }

    /// One of these.
    pub fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        let at = self.between(0, from.len() as i64 - 1);
        from[usize::try_from(at).expect("not negative")]
    }

    /// True `times` in `of`.
    pub fn chance(&mut self, times: i64, of: i64) -> bool {
        self.between(1, of) <= times
    }
}
