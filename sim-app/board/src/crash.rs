//! Panics, faults and starvation: place and message are kept in memory that a restart
//! leaves alone, sent to the log, and shown when the program runs again.
//!
//! Nothing of the job is touched: what was accepted is on the card.

use crate::{log, stack};
use core::fmt::{self, Write};
use core::mem::MaybeUninit;
use core::panic::PanicInfo;
use core::ptr::addr_of_mut;
use cortex_m::peripheral::SCB;

/// Letters that are kept.
const LETTERS: usize = 160;
/// Says that what is kept was written by us, and not by chance at power-on.
const OURS: u32 = 0x0B0_17BA7;

/// What outlives a restart.
#[repr(C)]
struct Kept {
    ours: u32,
    /// Crashes since the last key that was accepted.
    crashes: u32,
    /// Letters, 0 if there is nothing to tell.
    length: usize,
    letters: [u8; LETTERS],
}

#[unsafe(link_section = ".uninit.crash")]
static mut KEPT: MaybeUninit<Kept> = MaybeUninit::uninit();

/// What is kept, made empty first if it is not ours.
fn kept() -> &'static mut Kept {
    // SAFETY: one core; called from the main program before and between its work, and
    // from handlers that never return to it. All bit patterns of `Kept` are valid.
    let kept = unsafe { (*addr_of_mut!(KEPT)).assume_init_mut() };
    if kept.ours != OURS || kept.length > LETTERS {
        *kept = Kept {
            ours: OURS,
            crashes: 0,
            length: 0,
            letters: [0; LETTERS],
        };
    }
    kept
}

impl Write for Kept {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        for letter in text.bytes() {
            let Some(place) = self.letters.get_mut(self.length) else {
                return Err(fmt::Error);
            };
            // One letter a byte: what is shown has no others.
            *place = if letter.is_ascii_graphic() {
                letter
            } else {
                b' '
            };
            self.length += 1;
        }
        Ok(())
    }
}

/// What is left to tell of the last crash, once.
pub fn take() -> Option<&'static str> {
    let kept = kept();
    let length = core::mem::take(&mut kept.length);
    let letters = kept.letters.get(..length).filter(|_| length > 0)?;
    core::str::from_utf8(letters).ok()
}

/// Crashes since the last key that was accepted.
pub fn count() -> u32 {
    kept().crashes
}

/// A key was accepted: whatever is wrong, it is not at once.
pub fn forget() {
    kept().crashes = 0;
}

/// Starts anew, with nothing to tell.
pub fn restart() -> ! {
    log!("restart");
    SCB::sys_reset()
}

/// Keeps the words, logs them, and starts anew.
fn end(words: fmt::Arguments<'_>) -> ! {
    cortex_m::interrupt::disable();
    let kept = kept();
    kept.crashes = kept.crashes.saturating_add(1);
    kept.length = 0;
    // What does not fit is left out.
    let _ = kept.write_fmt(words);
    let letters = kept.letters.get(..kept.length).unwrap_or_default();
    log!(
        "crash: {}",
        core::str::from_utf8(letters).unwrap_or_default()
    );
    SCB::sys_reset()
}

#[panic_handler]
fn panic(info: &PanicInfo<'_>) -> ! {
    let (file, line) = match info.location() {
        Some(place) => (place.file(), place.line()),
        None => ("?", 0),
    };
    // The end of the path says enough on a small screen.
    let file = file.rsplit('/').next().unwrap_or(file);
    end(format_args!("{file} {line}: {}", info.message()))
}

/// The watchdog's first time-out.
#[unsafe(naked)]
pub extern "C" fn starved() {
    // The word 24 bytes above the stack pointer is where the program was.
    // Source: ARMv7-M Architecture Reference Manual, B1.5.6 (exception entry).
    core::arch::naked_asm!("mrs r0, msp", "ldr r0, [r0, #24]", "b {told}", told = sym starved_at)
}

extern "C" fn starved_at(place: u32) -> ! {
    end(format_args!("no sign of life at {place:#x}"))
}

/// All faults come here. It trusts the stack pointer with nothing: it may be what is
/// wrong. First the place, if the frame lies in the stack, then a stack anew.
#[unsafe(naked)]
#[unsafe(no_mangle)]
extern "C" fn HardFault() {
    core::arch::naked_asm!(
        "mrs r1, msp",
        "movs r0, #0",
        "ldr r2, =_stack_end",
        "ldr r3, =_stack_start",
        "cmp r1, r2",
        "blo 1f",
        "ldr r0, [r1, #24]",
        "1:",
        "mov sp, r3",
        "b {told}",
        told = sym faulted_at,
    )
}

extern "C" fn faulted_at(place: u32) -> ! {
    // SAFETY: reading what the processor says of the fault has no effect.
    let (status, address) = unsafe {
        let scb = &*SCB::PTR;
        (scb.cfsr.read(), scb.mmfar.read())
    };
    // Source: ARMv7-M Architecture Reference Manual, B3.2.15 (MMFSR: stacking failed,
    // address valid).
    const MSTKERR: u32 = 1 << 4;
    const MMARVALID: u32 = 1 << 7;
    let in_guard = status & MMARVALID != 0 && stack::guard().contains(&(address as usize));
    match in_guard || status & MSTKERR != 0 {
        true => end(format_args!("stack overflow at {place:#x}")),
        false => end(format_args!("fault {status:#x} at {place:#x}")),
    }
}
