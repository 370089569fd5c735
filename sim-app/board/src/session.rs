//! The handheld on a board: its job, its journal on the card, and what it does where
//! there is no card.
//!
//! ```text
//!   card in the slot? --no, full, not formatted--> said once, then on in memory alone
//!        | yes
//!   journal opened, or set up; nothing keyed yet? --> job cards to choose from
//!        |
//!   the handheld where it was; each key kept before it is shown
//! ```

mod choose;
mod keeping;

pub use choose::choose;
pub use keeping::Keeping;

use crate::app::App;
use crate::board::Board;
use crate::card::{CardBlocks, Files, Name};
use crate::debounce::Edge;
use crate::{crash, log, pages, stack};
use boltbay_core::Job;
use boltbay_handheld::journal::Outcome;
use boltbay_handheld::{Handheld, Key, Memory, Millis, View, text};

/// Crashes in a row after which another job is offered.
const ENOUGH: u32 = 2;

/// A handheld that runs.
pub struct Session<C: CardBlocks + 'static> {
    handheld: Handheld<'static>,
    keeping: Keeping<C>,
    files: &'static Files<C>,
    /// The job has changed since its plan was written to the card.
    is_news: bool,
    /// Gestures that have been seen to act.
    acted: u32,
}

/// Nothing that a card or a key put there.
fn is_blank(job: &Job) -> bool {
    job.name.is_empty() && job.beam.is_none() && job.runs.is_empty() && job.walls == [None; 2]
}

impl<C: CardBlocks> Session<C> {
    /// A handheld on the job in `memory`. Inlined, so that it is made where it stays.
    #[inline(always)]
    pub fn new(
        memory: &'static mut Memory,
        keeping: Keeping<C>,
        files: &'static Files<C>,
    ) -> Session<C> {
        Session {
            handheld: Handheld::new(memory),
            keeping,
            files,
            is_news: true,
            acted: 0,
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

    /// Keeps what the last call changed, before anything is painted.
    fn keep(&mut self) -> bool {
        let was_blank = is_blank(self.handheld.job());
        match self.keeping.keep(&mut self.handheld) {
            Outcome::Reopen => crash::restart(),
            Outcome::Kept | Outcome::Waits => {}
        }
        let has_acted = self.handheld.acted() != self.acted;
        if has_acted {
            self.acted = self.handheld.acted();
            self.is_news = true;
            crash::forget();
            self.write_plan();
        }
        // A new job: perhaps the card has one.
        if !was_blank && is_blank(self.handheld.job()) {
            crash::restart();
        }
        has_acted
    }

    /// Back on the first screen, the plan goes to the card, for a laptop.
    #[inline(never)]
    fn write_plan(&mut self) {
        if !self.is_news || !self.is_home() {
            return;
        }
        let Some(number) = self.keeping.job() else {
            return;
        };
        self.is_news = false;
        let handheld = &mut self.handheld;
        let text: Name = short(&text!("PLAN{:02}.TXT", number + 1));
        let wrote = self.files.write(&text, |out| handheld.write_text(out));
        let csv: Name = short(&text!("PLAN{:02}.CSV", number + 1));
        let wrote = wrote.and_then(|()| self.files.write(&csv, |out| handheld.write_csv(out)));
        match wrote {
            Ok(()) => log!("plan {}, stack so far {}", number + 1, stack::deepest()),
            // The journal has the job; the plan is written again with the next change.
            Err(fault) => log!("no plan: {}", fault.on_screen()[0]),
        }
    }

    /// On the first screen. Not inlined: a view is large, and a plan is written next.
    #[inline(never)]
    fn is_home(&self) -> bool {
        self.handheld.view().screen == "home"
    }

    /// A key while the card does not keep the entry: OK tries again, LEFT goes on
    /// without the card.
    fn answer_trouble(&mut self, edge: Edge) -> bool {
        match (edge.is_down, edge.key) {
            (true, _) => false,
            (false, Key::Left) => {
                self.keeping.give_up();
                true
            }
            (false, _) => {
                if self.keeping.again(&self.handheld) == Outcome::Reopen {
                    crash::restart();
                }
                true
            }
        }
    }
}

/// A file's name of a text that fits one.
fn short(text: &str) -> Name {
    Name::try_from(text).unwrap_or_default()
}

impl<B: Board> App<B> for Session<B::Card> {
    fn edge(&mut self, edge: Edge, _: &mut B) -> bool {
        if self.keeping.waits() {
            return self.answer_trouble(edge);
        }
        match edge.is_down {
            true => self.handheld.press(edge.key, edge.at),
            false => self.handheld.release(edge.key, edge.at),
        }
        self.keep()
    }

    fn tick(&mut self, now: Millis, _: &mut B) -> bool {
        if self.keeping.waits() {
            return false;
        }
        self.handheld.tick(now);
        self.keep()
    }

    fn view(&self) -> View {
        let mut view = self.keeping.view(&self.handheld);
        if self.keeping.is_in_memory_only() && view.screen == "home" {
            view.hint = pages::NOTHING_KEPT;
        }
        view
    }
}
