//! One register of a peripheral, by its address.

/// A register of 32 bits. Only tables of a data sheet make one.
#[derive(Clone, Copy)]
pub struct Register(usize);

impl Register {
    /// The register at `offset` of the peripheral at `base`.
    pub const fn at(base: usize, offset: usize) -> Register {
        Register(base + offset)
    }

    /// What it holds.
    pub fn read(self) -> u32 {
        // SAFETY: the address comes from the data sheet's table beside the constant,
        // is aligned, and is no memory of the program's.
        unsafe { (self.0 as *const u32).read_volatile() }
    }

    /// Writes all of it.
    pub fn write(self, value: u32) {
        // SAFETY: as above.
        unsafe { (self.0 as *mut u32).write_volatile(value) }
    }

    /// Sets these bits and leaves the others.
    pub fn set(self, bits: u32) {
        self.write(self.read() | bits);
    }

    /// Clears these bits and leaves the others.
    pub fn clear(self, bits: u32) {
        self.write(self.read() & !bits);
    }

    /// Whether any of these bits is set.
    pub fn has(self, bits: u32) -> bool {
        self.read() & bits != 0
    }
}
