//! A window of its own as the handheld's screen and keys: real keys that go down
//! and up, so that holding is holding. Needs SDL2; only with feature `window`.

use super::Left;
use super::guide::guided;
use crate::picture;
use crate::store::Store;
use boltbay_handheld::journal::{Keeper, Outcome};
use boltbay_handheld::paint::{HEIGHT, WIDTH};
use boltbay_handheld::{Handheld, Key, Millis};
use embedded_graphics::geometry::Size;
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics_simulator::sdl2::Keycode;
use embedded_graphics_simulator::{
    OutputSettings, OutputSettingsBuilder, SimulatorDisplay, SimulatorEvent,
};
use std::time::Instant;

/// Pixels of the window for one of the screen's.
const SCALE: u32 = 6;

/// A window, open until it is dropped.
pub struct Window {
    window: embedded_graphics_simulator::Window,
    display: SimulatorDisplay<Gray4>,
    start: Instant,
}

impl Window {
    /// Opens a window.
    pub fn open() -> Window {
        let settings: OutputSettings = OutputSettingsBuilder::new().scale(SCALE).build();
        let mut window = Window {
            window: embedded_graphics_simulator::Window::new("Boltbay", &settings),
            display: SimulatorDisplay::new(Size::new(WIDTH, HEIGHT)),
            start: Instant::now(),
        };
        // There are no events before the first picture.
        window.window.update(&window.display);
        window
    }

    fn now(&self) -> Millis {
        let real = u64::try_from(self.start.elapsed().as_millis()).unwrap_or(u64::MAX);
        Millis(real.saturating_add(1000))
    }

    /// Plays until the user leaves or the journal must be read anew.
    pub fn play(&mut self, keeper: &mut Keeper<Store>, handheld: &mut Handheld<'_>) -> Left {
        let mut outcome = keeper.keep(handheld);
        loop {
            let view = guided(keeper.view(handheld), handheld);
            picture::show(&view, &mut self.display);
            self.window.update(&self.display);
            let events: Vec<SimulatorEvent> = self.window.events().collect();
            for event in events {
                let now = self.now();
                match (event, outcome) {
                    (SimulatorEvent::Quit, _) => return Left::ByUser,
                    (SimulatorEvent::KeyDown { repeat: false, .. }, Outcome::Waits) => {
                        outcome = keeper.again(handheld);
                        continue;
                    }
                    (
                        SimulatorEvent::KeyDown {
                            keycode,
                            repeat: false,
                            ..
                        },
                        _,
                    ) => {
                        if let Some(key) = key(keycode) {
                            handheld.press(key, now);
                        }
                    }
                    (SimulatorEvent::KeyUp { keycode, .. }, _) => {
                        if let Some(key) = key(keycode) {
                            handheld.release(key, now);
                        }
                    }
                    _ => {}
                }
                outcome = keeper.keep(handheld);
                if outcome == Outcome::Reopen {
                    return Left::ToReopen;
                }
            }
            if outcome == Outcome::Kept {
                handheld.tick(self.now());
                outcome = keeper.keep(handheld);
            }
            if outcome == Outcome::Reopen {
                return Left::ToReopen;
            }
        }
    }
}

/// The handheld's key; `None` for keys that it does not have.
fn key(code: Keycode) -> Option<Key> {
    const DIGITS: [[Keycode; 2]; 10] = [
        [Keycode::Num0, Keycode::Kp0],
        [Keycode::Num1, Keycode::Kp1],
        [Keycode::Num2, Keycode::Kp2],
        [Keycode::Num3, Keycode::Kp3],
        [Keycode::Num4, Keycode::Kp4],
        [Keycode::Num5, Keycode::Kp5],
        [Keycode::Num6, Keycode::Kp6],
        [Keycode::Num7, Keycode::Kp7],
        [Keycode::Num8, Keycode::Kp8],
        [Keycode::Num9, Keycode::Kp9],
    ];
    Some(match code {
        Keycode::Up => Key::Up,
        Keycode::Down => Key::Down,
        Keycode::Left | Keycode::Backspace => Key::Left,
        Keycode::Right => Key::Right,
        Keycode::Return | Keycode::KpEnter => Key::Ok,
        Keycode::Space | Keycode::Period | Keycode::Slash | Keycode::KpPeriod => Key::Separator,
        _ => {
            let digit = DIGITS.iter().position(|codes| codes.contains(&code))?;
            Key::Digit(u8::try_from(digit).ok()?)
        }
    })
}
