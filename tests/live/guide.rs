//! The guided demo: whoever does what its hints say comes to the first holes.

use boltbay::handheld::guide::{CARD, guided};
use boltbay_core::job::{HoleState, Job};
use boltbay_core::words::Units;
use boltbay_handheld::view::Wrapped;
use boltbay_handheld::{Handheld, Key, Memory, Millis, View};

struct Guest<'m> {
    handheld: Handheld<'m>,
    now: u64,
}

impl Guest<'_> {
    fn view(&self) -> View {
        let view = guided(self.handheld.view(), &self.handheld);
        let lines: Vec<&str> = Wrapped::of(view.hint).collect();
        assert!(lines.len() <= 3, "{}: {lines:?}", view.screen);
        assert!(lines.iter().all(|line| line.len() <= 21), "{lines:?}");
        view
    }

    /// Does as it is told on this screen.
    fn told(&mut self, screen: &str, words: &str) {
        let view = self.view();
        assert_eq!(view.screen, screen, "{view:?}");
        assert!(view.hint.starts_with("GUIDE: "), "{screen}: {}", view.hint);
        assert!(view.hint.contains(words), "{screen}: {}", view.hint);
    }

    fn press(&mut self, key: Key, held: u64) {
        self.handheld.press(key, Millis(self.now));
        for _ in 0..held / 20 {
            self.now += 20;
            self.handheld.tick(Millis(self.now));
        }
        self.handheld.release(key, Millis(self.now));
        self.now += 1200;
        self.handheld.tick(Millis(self.now));
    }

    fn tap(&mut self, key: Key) {
        self.press(key, 60);
    }

    fn digits(&mut self, digits: &str) {
        digits
            .bytes()
            .for_each(|digit| self.tap(Key::Digit(digit - b'0')));
    }
}

#[test]
fn the_hints_lead_to_the_first_holes() {
    let mut memory = Box::new(Memory::new());
    boltbay_core::card::read(CARD.as_bytes(), &mut memory.job).unwrap();
    let mut guest = Guest {
        handheld: Handheld::new(&mut memory),
        now: 1000,
    };
    guest.told("home", "OK: ITS RUN");
    guest.tap(Key::Ok);
    guest.told("caution", "THEN OK");
    guest.tap(Key::Ok);
    guest.told("run", "OK ON START");
    guest.tap(Key::Ok);
    guest.told("line", "OK.");
    guest.tap(Key::Ok);
    for _ in 0..7 {
        guest.told("reading", "OK TAKES IT");
        guest.tap(Key::Ok);
        if guest.view().screen == "ask" {
            guest.tap(Key::Left);
        }
    }
    guest.told("reading", "HOLD OK, UP, OK");
    guest.press(Key::Ok, 800);
    guest.told("sheet", "OK DOES IT");
    guest.tap(Key::Up);
    guest.tap(Key::Ok);
    guest.told("close", "TYPE 10112");
    guest.digits("10112");
    guest.tap(Key::Ok);
    guest.told("proof", "OK.");
    assert!(!guest.view().alarm, "{:?}", guest.view());
    guest.tap(Key::Ok);
    guest.told("number", "UP TO 7");
    guest.digits("7");
    guest.tap(Key::Ok);
    while guest.view().screen != "measured" {
        if guest.view().screen == "home" {
            guest.told("home", "OK: MARK");
            guest.tap(Key::Ok);
        } else {
            panic!("{:?}", guest.view());
        }
    }
    guest.told("measured", "OK.");
    guest.tap(Key::Ok);
    guest.told("lie", "GO ON");
    guest.tap(Key::Ok);
    guest.told("face", "OK.");
    guest.tap(Key::Ok);
    let holes = guest.handheld.plan().placement().unwrap().holes.len();
    for _ in 0..holes {
        guest.told("mark", "STRIKE IT");
        guest.tap(Key::Ok);
    }
    guest.tap(Key::Ok);
    guest.told("blind", "LEAVE");
    guest.press(Key::Ok, 800);
    guest.tap(Key::Down);
    guest.tap(Key::Ok);
    guest.told("home", "DOWN TO DRILL");
    let marked = |job: &Job| {
        job.holes
            .iter()
            .filter(|h| h.state == HoleState::Marked)
            .count()
    };
    assert_eq!(marked(guest.handheld.job()), holes);
}

#[test]
fn the_guide_goes_with_the_name() {
    let mut memory = Box::new(Memory::new());
    boltbay_core::card::read(CARD.as_bytes(), &mut memory.job).unwrap();
    memory.job.name = "Mine".try_into().unwrap();
    let handheld = Handheld::new(&mut memory);
    assert_eq!(guided(handheld.view(), &handheld), handheld.view());
    assert_eq!(handheld.job().units, Units::Imperial);
}
