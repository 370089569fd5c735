//! The handheld on a board: its job, its journal on the card, and what it does where
//! there is no card.
//!
//! ```text
//!   card in the slot? --no, full, not formatted--> said once, then on in memory alone
//!        | yes
//!   journal opened, or set up; nothing keyed yet? --> job cards to choose from
//!        |
//!   the handheld where it was; each key kept before it is shown
//!        | not kept: said, then tried again, or on in memory alone
//!   card back in the slot? --yes--> the job whole, and on as before
//!   a card where there was none at the start? --yes--> the job on it as one of its own,
//!                                                      and all anew, as if it had been there
//! ```

mod choose;
mod keeping;
mod start;

pub use choose::choose;
pub use keeping::Keeping;
pub use start::{NotKept, find_journal, new_number, open};

use crate::app::{App, Work};
use crate::board::Board;
use crate::card::{CardBlocks, CardFault, Files, Name};
use crate::count::Phase;
use crate::debounce::Edge;
use crate::{count, crash, log, pages, stack};
use boltbay_core::Job;
use boltbay_handheld::{Handheld, Key, Memory, Millis, View, text};
use core::fmt::{self, Write};

/// Crashes in a row after which another job is offered.
const ENOUGH: u32 = 2;

/// A handheld that runs.
pub struct Session<'a, C: CardBlocks> {
    handheld: Handheld<'a>,
    keeping: Keeping<'a, C>,
    files: &'a Files<C>,
    /// Job and count of its edits when its plan was last written, or tried to.
    written: Option<(u8, u32)>,
    /// Why the plan on the card is not that of the job.
    no_plan: Option<CardFault>,
    /// Gestures that have been seen to act.
    acted: u32,
    /// Some of them since the first screen was looked after last.
    has_acted: bool,
    /// When a key was last let go or pressed.
    touched: Millis,
}

/// Milliseconds without a key after which the plan is written: whoever only passes the
/// first screen does not wait for it.
const REST: u32 = 500;

/// Nothing that a card or a key put there.
fn is_blank(job: &Job) -> bool {
    job.name.is_empty() && job.beam.is_none() && job.runs.is_empty() && job.walls == [None; 2]
}

impl<'a, C: CardBlocks> Session<'a, C> {
    /// A handheld on the job in `memory`. Inlined, so that it is made where it stays.
    #[inline(always)]
    pub fn new(memory: &'a mut Memory, keeping: Keeping<'a, C>, files: &'a Files<C>) -> Self {
        let mut handheld = Handheld::new(memory);
        handheld.works_later();
        Session {
            handheld,
            keeping,
            files,
            written: None,
            no_plan: None,
            acted: 0,
            has_acted: false,
            touched: Millis(0),
        }
    }

    /// Goes on where it was; after too many crashes, with the list of jobs.
    pub fn resume(&mut self) {
        self.keeping.resume(&mut self.handheld);
        if crash::count() >= ENOUGH {
            self.handheld.open_jobs();
            self.keeping.keep(&mut self.handheld);
        }
    }

    /// The job as it is in memory.
    pub fn job(&self) -> &Job {
        self.handheld.job()
    }

    /// Calls the handheld and keeps what that changed, before anything is painted.
    /// Whether the view may have changed.
    fn call(&mut self, call: impl FnOnce(&mut Handheld)) -> bool {
        let was_unfinished = self.handheld.is_unfinished();
        call(&mut self.handheld);
        count::done(Phase::Act);
        let has_acted = self.handheld.acted() != self.acted;
        if !has_acted && !was_unfinished {
            return false;
        }
        self.keep();
        if has_acted {
            self.acted = self.handheld.acted();
            self.has_acted = true;
            crash::forget();
        }
        count::done(Phase::Keep);
        true
    }

    fn keep(&mut self) {
        let was_blank = is_blank(self.handheld.job());
        self.keeping.keep(&mut self.handheld);
        // A new job: perhaps the card has one.
        if !was_blank && is_blank(self.handheld.job()) {
            crash::restart();
        }
    }

    /// Back on the first screen: a card that was away may be there again, and the plan
    /// goes to it, for a laptop.
    fn at_home(&mut self) {
        self.has_acted = false;
        self.keeping.come_back(&self.handheld);
        self.write_plan();
    }

    #[inline(never)]
    fn write_plan(&mut self) {
        let Some(keeper) = self.keeping.keeper() else {
            return;
        };
        let journal = keeper.journal();
        let (job, edits) = (journal.job().get(), journal.edits());
        // Whose card it is, is asked anew: it may have been changed between two keys.
        if self.written == Some((job, edits)) || journal.is_here().is_err() {
            return;
        }
        self.written = Some((job, edits));
        let text: Name = short(&text!("PLAN{:02}.TXT", job + 1));
        let csv: Name = short(&text!("PLAN{:02}.CSV", job + 1));
        let wrote = self
            .write(&text, |handheld, out| handheld.write_text(out))
            .and_then(|()| self.write(&csv, |handheld, out| handheld.write_csv(out)));
        self.no_plan = wrote.err();
        match wrote {
            Ok(()) => log!("plan {}, stack so far {}", job + 1, stack::deepest()),
            // The journal has the job; the plan is written again with the next change.
            Err(fault) => log!("no plan: {}", fault.on_screen()[0]),
        }
    }

    /// Writes a file. Not inlined, so that two files take no more of the stack than one.
    #[inline(never)]
    fn write(
        &mut self,
        name: &Name,
        what: fn(&mut Handheld<'_>, &mut dyn Write) -> fmt::Result,
    ) -> Result<(), CardFault> {
        let handheld = &mut self.handheld;
        self.files.write(name, |out| what(handheld, out))
    }

    /// A key while something must be heard: LEFT goes on without the card where that is
    /// a choice, any other tries again.
    fn answer_trouble(&mut self, edge: Edge) -> bool {
        if edge.is_down {
            return false;
        }
        if edge.key == Key::Left && self.keeping.can_go_without() {
            self.keeping.give_up();
        } else if self.keeping.again(&self.handheld) {
            crash::restart();
        }
        true
    }

    /// What the first screen says in place of its title.
    fn warns(&self) -> Option<&'static str> {
        let plan = self.no_plan.map(|fault| match fault {
            CardFault::IsFolder => pages::PLAN_IS_FOLDER,
            _ => pages::PLAN_IS_OLD,
        });
        self.keeping.warns().or(plan)
    }
}

/// A file's name of a text that fits one.
fn short(text: &str) -> Name {
    Name::try_from(text).unwrap_or_default()
}

impl<B: Board> App<B> for Session<'_, B::Card> {
    fn edge(&mut self, edge: Edge, _: &mut B) -> bool {
        self.touched = edge.at;
        if self.keeping.waits() {
            return self.answer_trouble(edge);
        }
        self.call(|handheld| match edge.is_down {
            true => handheld.press(edge.key, edge.at),
            false => {
                log!("key {}", pages::key_name(edge.key));
                handheld.release(edge.key, edge.at);
            }
        })
    }

    fn tick(&mut self, now: Millis, _: &mut B) -> bool {
        if self.keeping.waits() {
            return false;
        }
        self.call(|handheld| handheld.tick(now))
    }

    fn work(&mut self, now: Millis, board: &mut B) -> Work {
        if self.keeping.waits() {
            return Work::None;
        }
        if self.handheld.is_unfinished() {
            self.call(|handheld| handheld.finish());
            return Work::Shows;
        }
        if self.keeping.must_look() {
            if self.keeping.look(board, self.files, &self.handheld) {
                crash::restart();
            }
            return Work::Shows;
        }
        if self.has_acted && self.handheld.is_home() && now > self.touched.after(REST) {
            let before = self.warns();
            self.at_home();
            return match self.warns() == before {
                true => Work::Done,
                false => Work::Shows,
            };
        }
        Work::None
    }

    fn view_into(&self, view: &mut View) {
        self.keeping.view_into(&self.handheld, view);
        if let Some(warning) = self.warns().filter(|_| view.screen == "home") {
            pages::warn(view, warning);
        }
    }
}
