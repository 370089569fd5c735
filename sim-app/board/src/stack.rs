//! What guards the stack, and how deep it has been.
//!
//! The stack lies at the bottom of the RAM (see `memory.x` of the board). The stretch
//! below it belongs to nobody, and on the emulated board writes there vanish without a
//! word; so the memory protection forbids it. No frame is as large as the guard.

use cortex_m::peripheral::MPU;

unsafe extern "C" {
    /// Lowest word of the stack, from the linker.
    static _stack_end: u32;
    /// Where it begins, from the linker.
    static _stack_start: u32;
}

/// The guard is this many bytes, as a power of two.
const GUARD_LOG2: u32 = 16;
/// What `cortex-m-rt` paints the stack with before anything runs.
const PAINT: u32 = 0xCCCC_CCCC;

/// Bits of the protection's registers. Source: ARMv7-M Architecture Reference Manual,
/// B3.5.5 (MPU_CTRL), B3.5.9 (MPU_RASR).
mod bits {
    pub const CTRL_ENABLE: u32 = 1 << 0;
    pub const CTRL_PRIVDEFENA: u32 = 1 << 2;
    pub const RASR_ENABLE: u32 = 1 << 0;
    pub const RASR_SIZE: u32 = 1;
    pub const RASR_XN: u32 = 1 << 28;
}

fn lowest() -> *const u32 {
    &raw const _stack_end
}

fn first() -> *const u32 {
    &raw const _stack_start
}

/// The addresses that nobody may touch.
pub fn guard() -> core::ops::Range<usize> {
    let end = lowest() as usize;
    end - (1 << GUARD_LOG2)..end
}

/// Forbids the stretch below the stack.
pub fn protect(mpu: MPU) {
    let size = (GUARD_LOG2 - 1) << bits::RASR_SIZE;
    // SAFETY: only what is below the RAM changes, and nothing of ours lies there.
    unsafe {
        mpu.rnr.write(0);
        mpu.rbar.write(guard().start as u32);
        // No access, as the access bits are zero.
        mpu.rasr.write(bits::RASR_XN | size | bits::RASR_ENABLE);
        mpu.ctrl.write(bits::CTRL_PRIVDEFENA | bits::CTRL_ENABLE);
    }
    cortex_m::asm::dsb();
    cortex_m::asm::isb();
}

/// Most bytes of the stack that were ever in use.
pub fn deepest() -> usize {
    let words = (first() as usize - lowest() as usize) / size_of::<u32>();
    // SAFETY: from the lowest word to the first, all of it RAM of this stack; words in
    // use are only compared.
    let is_paint = |word: &usize| unsafe { lowest().add(*word).read_volatile() } == PAINT;
    let untouched = (0..words).take_while(is_paint).count();
    (words - untouched) * size_of::<u32>()
}
