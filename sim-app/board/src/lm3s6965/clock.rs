//! The system clock: 50 MHz from the crystal by the PLL, and the clocks of what is used.

use super::registers::system::*;

/// The PLL's 200 MHz are divided by this; 4 is the least that the chip is made for.
/// Source: LM3S6965 data sheet, "Possible System Clock Frequencies Using the SYSDIV Field".
/// The emulator takes 1 as well, and its 5 ns make instructions countable.
const DIVISOR: u32 = if cfg!(feature = "count") { 1 } else { 4 };

/// Ticks of the system clock a second.
pub const HERTZ: u32 = 200_000_000 / DIVISOR;

/// Starts all clocks. Order as in the data sheet, "Initialization and Configuration" of
/// system control: bypass, crystal and power, lock, PLL.
pub fn start() {
    RCC.set(RCC_BYPASS);
    RCC.clear(RCC_USESYSDIV);
    let crystal = RCC_XTAL_8_MHZ | RCC_OSCSRC_MAIN | RCC_IOSCDIS | RCC_BYPASS;
    RCC.write(crystal | RCC_PWRDN);
    RCC.write(crystal);
    let divided = crystal | (DIVISOR - 1) << RCC_SYSDIV | RCC_USESYSDIV;
    RCC.write(divided);
    while !RIS.has(RIS_PLLLRIS) {}
    RCC.write(divided & !RCC_BYPASS);

    RCGC0.set(RCGC0_WDT);
    RCGC1.set(RCGC1_SSI0 | RCGC1_UART0);
    RCGC2.set(RCGC2_GPIOA | RCGC2_GPIOC | RCGC2_GPIOD | RCGC2_GPIOE | RCGC2_GPIOF);
    // A clock takes three cycles to arrive.
    let _ = RCGC2.read();
}
