//! The firmware's own loop on this machine: a board without a glass, a crew that presses
//! its keys, and what of a job a card then holds.

use super::fat::{Card, Format};
use super::handheld::{HAZEL, key};
use super::slot::Slot;
use boltbay_board::app::{App, Work};
use boltbay_board::board::Board;
use boltbay_board::card::{Files, JournalFile};
use boltbay_board::crash;
use boltbay_board::debounce::Edge;
use boltbay_board::frame::Frame;
use boltbay_board::session::{self, Keeping, NotKept, Session};
use boltbay_core::Job;
use boltbay_core::words::Units;
use boltbay_handheld::journal::Keeper;
use boltbay_handheld::{Handheld, Key, Memory, Millis, View};
use std::collections::VecDeque;
use std::panic::{AssertUnwindSafe, catch_unwind};

/// A board without a glass.
pub struct Bench {
    frame: Frame,
    keys: VecDeque<Key>,
    now: u64,
    slot: Option<Slot>,
    /// Different for every start.
    chance: u64,
}

impl Board for Bench {
    type Card = Slot;

    fn frame(&mut self) -> &mut Frame {
        &mut self.frame
    }

    fn show(&mut self) {}

    fn edge(&mut self) -> Option<Edge> {
        let key = self.keys.pop_front().expect("nobody asked for a key");
        Some(Edge {
            key,
            is_down: false,
            at: Millis(self.now),
        })
    }

    fn now(&self) -> Millis {
        Millis(self.now)
    }

    fn idle(&mut self) {}

    fn chance(&self) -> u64 {
        self.chance
    }

    fn card(&mut self) -> Option<Slot> {
        self.slot.take()
    }
}

/// How a run of the program ended.
#[derive(Debug, PartialEq, Eq)]
pub enum Ended {
    Off,
    Restarts,
    NotKept(NotKept),
}

/// A session that runs, and whoever presses its keys.
pub struct Crew<'r, 'a> {
    pub session: &'r mut Session<'a, Slot>,
    board: &'r mut Bench,
}

impl Crew<'_, '_> {
    fn edge(&mut self, key: Key, is_down: bool) {
        let at = Millis(self.board.now);
        let edge = Edge { key, is_down, at };
        self.session.edge(edge, self.board);
    }

    pub fn press(&mut self, (key, time): Press) {
        self.edge(key, true);
        self.board.now += time;
        self.tick();
        self.edge(key, false);
        self.board.now += 1100;
        self.tick();
    }

    pub fn tick(&mut self) {
        let now = Millis(self.board.now);
        self.session.tick(now, self.board);
        while self.session.work(now, self.board) != Work::None {}
    }

    pub fn tap(&mut self, key: Key) {
        self.press((key, TAP));
    }

    pub fn view(&self) -> View {
        let mut view = View::default();
        App::<Bench>::view_into(self.session, &mut view);
        view
    }

    /// Everything that is written on the screen.
    pub fn words(&self) -> String {
        words(&self.view())
    }

    /// Whether the screen is about the card.
    pub fn is_told(&self) -> bool {
        matches!(self.view().screen, "card" | "board")
    }
}

pub fn words(view: &View) -> String {
    let lines = view.lines.iter();
    let lines: Vec<_> = lines.map(|line| line.left.as_str()).collect();
    format!(
        "{} | {} | {}",
        view.status.left,
        lines.join(" | "),
        view.hint
    )
}

/// Switches on with this card, and works.
pub fn switched_on(slot: &Slot, first: &[Key], work: impl FnOnce(&mut Crew<'_, '_>)) -> Ended {
    switched_on_at(7, slot, first, work)
}

/// The same at another moment, which is where a new journal's number comes from.
pub fn switched_on_at(
    chance: u64,
    slot: &Slot,
    first: &[Key],
    work: impl FnOnce(&mut Crew<'_, '_>),
) -> Ended {
    let mut ended = Ended::Off;
    let run = AssertUnwindSafe(|| {
        let mut memory = Box::new(Memory::new());
        let mut board = Bench {
            frame: Frame::new(),
            keys: first.iter().copied().collect(),
            now: 1000,
            slot: Some(slot.clone()),
            chance,
        };
        let files = Files::on(board.card().unwrap());
        let mut keeper = Keeper::new(JournalFile::nowhere(&files));
        let opened = session::open(&mut board, &files, &mut keeper, &mut memory.job);
        if let Err(why) = opened {
            ended = Ended::NotKept(why);
        }
        let keeping = Keeping::from_start(&mut keeper, opened);
        let mut session = Session::new(&mut memory, keeping, &files);
        session.resume();
        work(&mut Crew {
            session: &mut session,
            board: &mut board,
        });
    });
    if let Err(panic) = catch_unwind(run) {
        let words = panic.downcast_ref::<String>().map(String::as_str);
        let words = words.or(panic.downcast_ref::<&str>().copied());
        if words != Some(crash::RESTART) {
            std::panic::resume_unwind(panic);
        }
        return Ended::Restarts;
    }
    ended
}

/// From the first screen to the next hole, all drilled, and back to the first screen.
pub const DRILLED: &str = "down down down down ok left ok ok ok ok ok ok ok ok ok ok ok";

/// A key, and how many milliseconds it is down.
pub type Press = (Key, u64);
pub const TAP: u64 = 60;
pub const HOLD: u64 = 1000;

pub fn presses(names: &str) -> Vec<Press> {
    let press = |name: &str| match name.strip_prefix("hold:") {
        Some(name) => (key(name), HOLD),
        None => (key(name), TAP),
    };
    names.split_whitespace().map(press).collect()
}

pub fn empty_job() -> Box<Job> {
    Box::new(Job::new(Units::Imperial))
}

/// The job after each key of a script, on a handheld that has no card; the first is the
/// one before any key.
pub fn jobs_of(card: &[u8], script: &[Press]) -> Vec<Box<Job>> {
    let mut job = empty_job();
    boltbay_core::card::read(card, &mut job).unwrap();
    jobs_from(&job, script)
}

/// The same, from this job on.
pub fn jobs_from(job: &Job, script: &[Press]) -> Vec<Box<Job>> {
    let mut memory = Box::new(Memory::new());
    memory.job.clone_from(job);
    let mut handheld = Handheld::new(&mut memory);
    let mut jobs = vec![Box::new(handheld.job().clone())];
    let mut now = 1000;
    for (key, time) in script {
        handheld.press(*key, Millis(now));
        now += time;
        handheld.tick(Millis(now));
        handheld.release(*key, Millis(now));
        now += 1100;
        handheld.tick(Millis(now));
        jobs.push(Box::new(handheld.job().clone()));
    }
    jobs
}

/// A card with a job card on it.
pub fn with_hazel(format: Format) -> Card {
    let mut card = Card::formatted(format);
    let first = if format.bits == 16 { 2 } else { 3 };
    let clusters = HAZEL.len().div_ceil(format.blocks_a_cluster as usize * 512);
    let clusters: Vec<u32> = (first..).take(clusters).collect();
    card.put_file(b"HAZEL   CSV", HAZEL, &clusters);
    card.count();
    card.check(true);
    card
}

/// The same, set up, its job chosen.
pub fn in_work(format: Format) -> Card {
    let slot = Slot::with(&with_hazel(format));
    assert_eq!(switched_on(&slot, &[Key::Ok], |_| {}), Ended::Off);
    let card = slot.ours();
    assert_eq!(card.check(true), 0);
    card
}

/// The job that a card has, read without mishaps; `None` if it has no journal.
pub fn kept_on(card: &Card) -> Option<Box<Job>> {
    let slot = Slot::with(card);
    let mut job = empty_job();
    // Where nothing is keyed yet, cards are listed: none of them.
    let ended = switched_on(&slot, &[Key::Left], |crew| {
        *job = crew.session.job().clone();
    });
    assert_eq!(ended, Ended::Off);
    Some(job)
}
