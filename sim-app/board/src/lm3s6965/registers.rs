//! Registers and their bits, named as in the LM3S6965 data sheet; only those that this
//! board uses. Source: LM3S6965 data sheet, the "Register Map" and "Register
//! Descriptions" of each chapter.

#![allow(missing_docs)] // The data sheet has the words.

use crate::register::Register;

/// System control.
pub mod system {
    use super::Register;
    const BASE: usize = 0x400F_E000;
    pub const RIS: Register = Register::at(BASE, 0x050);
    pub const RIS_PLLLRIS: u32 = 1 << 6;
    pub const RCC: Register = Register::at(BASE, 0x060);
    pub const RCC_SYSDIV: u32 = 23;
    pub const RCC_USESYSDIV: u32 = 1 << 22;
    pub const RCC_PWRDN: u32 = 1 << 13;
    pub const RCC_BYPASS: u32 = 1 << 11;
    pub const RCC_XTAL_8_MHZ: u32 = 0xE << 6;
    pub const RCC_OSCSRC_MAIN: u32 = 0 << 4;
    pub const RCC_IOSCDIS: u32 = 1 << 1;
    pub const RCGC0: Register = Register::at(BASE, 0x100);
    pub const RCGC0_WDT: u32 = 1 << 3;
    pub const RCGC1: Register = Register::at(BASE, 0x104);
    pub const RCGC1_SSI0: u32 = 1 << 4;
    pub const RCGC1_UART0: u32 = 1 << 0;
    pub const RCGC2: Register = Register::at(BASE, 0x108);
    pub const RCGC2_GPIOA: u32 = 1 << 0;
    pub const RCGC2_GPIOC: u32 = 1 << 2;
    pub const RCGC2_GPIOD: u32 = 1 << 3;
    pub const RCGC2_GPIOE: u32 = 1 << 4;
    pub const RCGC2_GPIOF: u32 = 1 << 5;
}

/// A port of eight pins.
#[derive(Clone, Copy)]
pub struct Port(usize);

pub const PORTA: Port = Port(0x4000_4000);
pub const PORTC: Port = Port(0x4000_6000);
pub const PORTD: Port = Port(0x4000_7000);
pub const PORTE: Port = Port(0x4002_4000);
pub const PORTF: Port = Port(0x4002_5000);

impl Port {
    /// Only the pins in `mask` are read or written: address bits 9 to 2 are the mask.
    pub const fn data(self, mask: u8) -> Register {
        Register::at(self.0, (mask as usize) << 2)
    }

    pub const fn dir(self) -> Register {
        Register::at(self.0, 0x400)
    }

    pub const fn is(self) -> Register {
        Register::at(self.0, 0x404)
    }

    pub const fn ibe(self) -> Register {
        Register::at(self.0, 0x408)
    }

    pub const fn im(self) -> Register {
        Register::at(self.0, 0x410)
    }

    pub const fn icr(self) -> Register {
        Register::at(self.0, 0x41C)
    }

    pub const fn afsel(self) -> Register {
        Register::at(self.0, 0x420)
    }

    pub const fn pur(self) -> Register {
        Register::at(self.0, 0x510)
    }

    pub const fn den(self) -> Register {
        Register::at(self.0, 0x51C)
    }
}

/// Synchronous serial interface 0.
pub mod ssi0 {
    use super::Register;
    const BASE: usize = 0x4000_8000;
    pub const SSICR0: Register = Register::at(BASE, 0x000);
    pub const SSICR0_DSS_8_BITS: u32 = 0x7;
    pub const SSICR1: Register = Register::at(BASE, 0x004);
    pub const SSICR1_SSE: u32 = 1 << 1;
    pub const SSIDR: Register = Register::at(BASE, 0x008);
    pub const SSISR: Register = Register::at(BASE, 0x00C);
    pub const SSISR_TNF: u32 = 1 << 1;
    pub const SSISR_RNE: u32 = 1 << 2;
    pub const SSISR_BSY: u32 = 1 << 4;
    pub const SSICPSR: Register = Register::at(BASE, 0x010);
}

/// Serial port 0.
pub mod uart0 {
    use super::Register;
    const BASE: usize = 0x4000_C000;
    pub const UARTDR: Register = Register::at(BASE, 0x000);
    pub const UARTFR: Register = Register::at(BASE, 0x018);
    pub const UARTFR_TXFF: u32 = 1 << 5;
    pub const UARTIBRD: Register = Register::at(BASE, 0x024);
    pub const UARTFBRD: Register = Register::at(BASE, 0x028);
    pub const UARTLCRH: Register = Register::at(BASE, 0x02C);
    pub const UARTLCRH_WLEN_8: u32 = 3 << 5;
    pub const UARTLCRH_FEN: u32 = 1 << 4;
    pub const UARTCTL: Register = Register::at(BASE, 0x030);
    pub const UARTCTL_TXE: u32 = 1 << 8;
    pub const UARTCTL_UARTEN: u32 = 1 << 0;
}

/// Watchdog timer.
pub mod watchdog {
    use super::Register;
    const BASE: usize = 0x4000_0000;
    pub const WDTLOAD: Register = Register::at(BASE, 0x000);
    pub const WDTCTL: Register = Register::at(BASE, 0x008);
    pub const WDTCTL_RESEN: u32 = 1 << 1;
    pub const WDTCTL_INTEN: u32 = 1 << 0;
    pub const WDTICR: Register = Register::at(BASE, 0x00C);
    pub const WDTLOCK: Register = Register::at(BASE, 0xC00);
    pub const WDTLOCK_UNLOCK: u32 = 0x1ACC_E551;
}
