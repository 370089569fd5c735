//! Five buttons that pull their pins low: up PE0, down PE1, left PE2, right PE3, OK PF1.
//!
//! In: interrupts at both edges, and the tick. Out: a queue of edges with their times,
//! so that a key pressed while a plan is made is not lost.

use super::registers::{PORTE, PORTF};
use crate::debounce::{Contacts, Edge};
use crate::{count, tick};
use core::cell::RefCell;
use critical_section::Mutex;
use heapless::Deque;

/// Up, down, left, right.
const ON_E: u8 = 0x0F;
/// OK.
const ON_F: u8 = 1 << 1;
/// OK's bit behind those of port E.
const OK_BIT: u8 = 4;
/// Edges that wait for the main loop: more than fingers make during the longest plan.
const WAITING: usize = 16;

struct Buttons {
    contacts: Contacts,
    edges: Deque<Edge, WAITING>,
}

static BUTTONS: Mutex<RefCell<Buttons>> = Mutex::new(RefCell::new(Buttons {
    contacts: Contacts::new(),
    edges: Deque::new(),
}));

/// Pins as inputs with pull-up, interrupts at both edges.
pub fn start() {
    for (port, pins) in [(PORTE, ON_E), (PORTF, ON_F)] {
        let pins = u32::from(pins);
        port.dir().clear(pins);
        port.pur().set(pins);
        port.den().set(pins);
        port.is().clear(pins);
        port.ibe().set(pins);
        port.icr().write(pins);
        port.im().set(pins);
    }
}

/// A bit for each key that is pressed.
fn closed() -> u8 {
    let on_e = PORTE.data(ON_E).read() as u8;
    let on_f = PORTF.data(ON_F).read() as u8;
    (!on_e & ON_E) | u8::from(on_f & ON_F == 0) << OK_BIT
}

/// An edge, or a tick while contacts may bounce.
pub fn look() {
    critical_section::with(|section| {
        let mut buttons = BUTTONS.borrow_ref_mut(section);
        let Buttons { contacts, edges } = &mut *buttons;
        contacts.look(closed(), tick::now(), |edge| {
            let _ = edges.push_back(edge);
        });
    });
}

/// The interrupt of either port.
pub extern "C" fn on_edge() {
    count::begin();
    PORTE.icr().write(ON_E.into());
    PORTF.icr().write(ON_F.into());
    look();
}

/// The next edge, oldest first.
pub fn next() -> Option<Edge> {
    critical_section::with(|section| BUTTONS.borrow_ref_mut(section).edges.pop_front())
}

/// Whether one waits.
pub fn any_waits() -> bool {
    critical_section::with(|section| !BUTTONS.borrow_ref(section).edges.is_empty())
}
