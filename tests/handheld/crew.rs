//! A hand on the keys: presses with their times, and what the screen then says.

#![cfg_attr(
    not(feature = "board"),
    expect(
        dead_code,
        reason = "each stroke is looked at by the counts of the firmware alone"
    )
)]

use boltbay_core::Job;
use boltbay_core::words::Units;
use boltbay_handheld::{Handheld, Key, Memory, Millis, View};

/// A key that went down or up, and what was shown then.
#[derive(Clone, Debug)]
pub struct Stroke {
    pub key: Key,
    pub is_down: bool,
    /// Milliseconds.
    pub at: u64,
    pub shown: View,
    /// The job is another one since the stroke before.
    pub changed: bool,
}

/// A handheld, a clock, and how often a key was pressed.
pub struct Crew<'m> {
    pub handheld: Handheld<'m>,
    now: u64,
    pub presses: usize,
    /// How many of them were held, and for how many milliseconds in all.
    pub holds: usize,
    pub held: u64,
    /// Cautions are left on the screen; else the crew hears them and goes on.
    pub hears: bool,
    /// What it did, where that is wanted, and the job after the last of it.
    pub strokes: Option<Vec<Stroke>>,
    last: Box<Job>,
}

/// Milliseconds a tap lasts, and between two of them.
const TAP: u64 = 60;
const REST: u64 = 340;

impl<'m> Crew<'m> {
    pub fn new(memory: &'m mut Memory) -> Crew<'m> {
        Crew {
            handheld: Handheld::new(memory),
            now: 1000,
            presses: 0,
            holds: 0,
            held: 0,
            hears: false,
            strokes: None,
            last: Box::new(Job::new(Units::Imperial)),
        }
    }

    /// From now on its strokes are kept.
    pub fn is_watched(&mut self) {
        (*self.last).clone_from(self.handheld.job());
        self.strokes = Some(Vec::new());
    }

    fn stroke(&mut self, key: Key, is_down: bool) {
        let now = Millis(self.now);
        match is_down {
            true => self.handheld.press(key, now),
            false => self.handheld.release(key, now),
        }
        if let Some(strokes) = &mut self.strokes {
            let changed = *self.last != *self.handheld.job();
            if changed {
                (*self.last).clone_from(self.handheld.job());
            }
            strokes.push(Stroke {
                key,
                is_down,
                at: self.now,
                shown: self.handheld.view(),
                changed,
            });
        }
    }

    pub fn tap(&mut self, key: Key) {
        self.strike(key);
        if !self.hears && self.view().screen == "caution" {
            self.rest(1000);
            self.strike(Key::Ok);
        }
    }

    fn strike(&mut self, key: Key) {
        self.presses += 1;
        self.stroke(key, true);
        self.now += TAP;
        self.stroke(key, false);
        self.now += REST;
    }

    pub fn taps(&mut self, key: Key, times: usize) {
        (0..times).for_each(|_| self.tap(key));
    }

    /// Holds a key until it has acted so many times.
    pub fn hold(&mut self, key: Key, times: usize) {
        self.presses += 1;
        self.holds += 1;
        let from = self.now;
        self.stroke(key, true);
        let mut acted = 0;
        let mut before = self.handheld.view();
        for _ in 0..2000 {
            self.now += 5;
            self.handheld.tick(Millis(self.now));
            let after = self.handheld.view();
            if after != before {
                acted += 1;
                before = after;
            }
            if acted == times {
                break;
            }
        }
        self.stroke(key, false);
        self.held += self.now - from;
        self.now += REST + 100;
        assert_eq!(acted, times, "held {key:?}: {:?}", self.view());
    }

    /// Keeps a key down, whatever comes of it.
    pub fn keep_down(&mut self, key: Key, milliseconds: u64) {
        self.presses += 1;
        self.stroke(key, true);
        let until = self.now + milliseconds;
        while self.now < until {
            self.now += 50;
            self.handheld.tick(Millis(self.now));
        }
        self.stroke(key, false);
        self.now += REST;
    }

    /// Nothing is pressed for a while.
    pub fn rest(&mut self, milliseconds: u64) {
        self.now += milliseconds;
    }

    pub fn view(&self) -> View {
        self.handheld.view()
    }

    pub fn job(&self) -> &Job {
        self.handheld.job()
    }

    /// Goes down a list to the line of this name.
    pub fn to(&mut self, name: &str) {
        for _ in 0..64 {
            let view = self.view();
            let chosen = view.selected.map(usize::from).unwrap_or(0);
            if view.lines.get(chosen).is_some_and(|line| line.left == name) {
                return;
            }
            self.tap(Key::Down);
        }
        panic!("no line {name}: {:?}", self.view());
    }

    /// Opens the line of this name.
    pub fn open(&mut self, name: &str) {
        self.to(name);
        self.tap(Key::Ok);
    }

    /// Starts a run; where end A is, and whether both sides hang on one line, may be
    /// asked first.
    pub fn start(&mut self) {
        self.open("START");
        if self.view().screen == "stand" {
            self.tap(Key::Left);
        }
        if self.view().screen == "line" {
            self.tap(Key::Ok);
        }
    }

    /// The things to do here, down to the one of this name.
    pub fn sheet(&mut self, name: &str) {
        self.hold(Key::Ok, 1);
        self.open(name);
    }
}
