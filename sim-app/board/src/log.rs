//! The log on the serial port: lines of text, or with feature `defmt` frames that
//! `defmt-print` reads with the program beside it. One of the two, never both.

use crate::chosen;

/// Logs a line: a format string and numbers or texts.
#[macro_export]
macro_rules! log {
    ($($argument:tt)*) => {{
        #[cfg(feature = "defmt")]
        defmt::println!($($argument)*);
        #[cfg(not(feature = "defmt"))]
        $crate::log::line(core::format_args!($($argument)*));
    }};
}

/// The port as text.
#[cfg(not(feature = "defmt"))]
struct Port;

#[cfg(not(feature = "defmt"))]
impl core::fmt::Write for Port {
    fn write_str(&mut self, text: &str) -> core::fmt::Result {
        text.bytes().for_each(chosen::put);
        Ok(())
    }
}

/// A line of text.
#[cfg(not(feature = "defmt"))]
pub fn line(words: core::fmt::Arguments<'_>) {
    use core::fmt::Write;
    // The port takes everything.
    let _ = Port.write_fmt(words);
    chosen::put(b'\n');
}

#[cfg(feature = "defmt")]
mod frames {
    use super::chosen;
    use core::cell::UnsafeCell;
    use critical_section::RestoreState;

    /// What is held from the beginning of a frame to its end.
    struct Writer {
        encoder: UnsafeCell<defmt::Encoder>,
        restore: UnsafeCell<RestoreState>,
    }

    // SAFETY: both cells are touched only between `acquire` and `release`, with
    // interrupts masked, on a machine with one core.
    unsafe impl Sync for Writer {}

    static WRITER: Writer = Writer {
        encoder: UnsafeCell::new(defmt::Encoder::new()),
        restore: UnsafeCell::new(RestoreState::invalid()),
    };

    #[defmt::global_logger]
    struct Uart;

    fn put(bytes: &[u8]) {
        bytes.iter().copied().for_each(chosen::put);
    }

    // SAFETY: `acquire` masks interrupts until `release`, so frames do not mix; a
    // panic between the two ends in a restart and writes no frame of its own.
    unsafe impl defmt::Logger for Uart {
        fn acquire() {
            // SAFETY: released once, in `release`.
            let restore = unsafe { critical_section::acquire() };
            // SAFETY: masked, see above.
            unsafe {
                *WRITER.restore.get() = restore;
                (*WRITER.encoder.get()).start_frame(put);
            }
        }

        unsafe fn flush() {
            // Every byte is on its way when `put` returns.
        }

        unsafe fn release() {
            // SAFETY: called after `acquire`, still masked.
            unsafe {
                (*WRITER.encoder.get()).end_frame(put);
                critical_section::release(*WRITER.restore.get());
            }
        }

        unsafe fn write(bytes: &[u8]) {
            // SAFETY: between `acquire` and `release`.
            unsafe { (*WRITER.encoder.get()).write(bytes, put) }
        }
    }
}
