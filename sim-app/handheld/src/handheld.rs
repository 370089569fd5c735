//! The handheld itself: keys and time in, a view and edits out.
//!
//! ```text
//!   host: press, release, tick --> Handheld --> take_edits --> the journal
//!                                     |
//!                                     '--> view --> paint --> pixels
//! ```
//!
//! After every call the host takes the edits, writes them to the journal and
//! only then paints the view: what the screen shows is already safe.
//!
//! A plan takes a small machine longer than a finger waits. A host of that kind has it
//! made later ([`Handheld::works_later`]): after a key that changed the job the view says
//! that it is being planned, and [`Handheld::finish`] does that once it is shown.

use crate::edit::{Edit, Edits, Refused, apply};
use crate::guess::{Guess, guess};
use crate::journal::Place;
use crate::key::{Buttons, Gesture, Key, Millis};
use crate::left::{Left, keyed};
use crate::screen::caution::Caution;
use crate::screen::home::Home;
use crate::screen::jobs::{JobList, Jobs, Wish};
use crate::screen::place;
use crate::screen::reading::Reading;
use crate::screen::sheet::{self, Sheet};
use crate::screen::{Go, Look, Reply, Screen};
use crate::text;
use crate::view::{Status, View};
use boltbay_core::Job;
use boltbay_core::job::Run;
use boltbay_core::list::Listed;
use boltbay_core::plan::{Plan, Scratch};
use boltbay_core::report::Report;
use boltbay_core::words::Units;
use core::fmt::{self, Write};
use heapless::Vec;

/// Screens on top of each other, at most.
pub const DEEP: usize = 8;

/// Everything large: a static on the board, a box on a host. It is borrowed and
/// filled in place, and never crosses the stack.
pub struct Memory {
    /// The job as keyed.
    pub job: Job,
    /// What follows from it.
    pub plan: Plan,
    /// Room for working that out. All checks are listed in it while a page of them
    /// is open; where bolts may stand, while the map is.
    pub scratch: Scratch,
    /// The jobs of the card; filled while their list is open.
    pub jobs: JobList,
}

impl Memory {
    /// Nothing on it yet.
    pub const fn new() -> Memory {
        Memory {
            job: Job::new(Units::Imperial),
            plan: Plan::new(),
            scratch: Scratch::new(),
            jobs: JobList::new(),
        }
    }
}

impl Default for Memory {
    fn default() -> Self {
        Memory::new()
    }
}

/// The handheld, for as long as it holds its memory.
pub struct Handheld<'m> {
    memory: &'m mut Memory,
    stack: Vec<Screen, DEEP, u8>,
    buttons: Buttons,
    edits: Edits,
    /// What brings back what was deleted last.
    undo: Edits,
    refused: Option<Refused>,
    wish: Option<Wish>,
    /// Gestures that reached a screen.
    acted: u32,
    /// What takes long is done when the host asks for it.
    works_later: bool,
    /// What is left of the last gesture.
    left: Left,
    /// What is listed for one kind of screen, while that holds.
    listed: Option<Extra>,
    /// The guess for the next reading of a run, while that holds.
    guessed: Guessed,
}

/// The guess for the next reading of a run, if one was made; nothing is known of a run
/// that is gone.
type Guessed = Option<(u8, Option<Guess>)>;

/// What only one kind of screen shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Extra {
    /// All checks.
    Checks,
    /// Where bolts may stand.
    Free,
}

/// What is to be worked out for a screen.
enum Lacking {
    /// A list.
    List(Extra),
    /// The guess for the next reading of this run.
    Guess(u8),
}

/// What screens may look at.
fn look<'a>(memory: &'a Memory, undo: &'a Edits, guessed: &'a Guessed) -> Look<'a> {
    Look {
        guess: guessed.as_ref().and_then(|(_, guess)| guess.as_ref()),
        job: &memory.job,
        plan: &memory.plan,
        checks: memory.scratch.listed(),
        free: memory.scratch.free(),
        jobs: &memory.jobs,
        undo,
    }
}

impl<'m> Handheld<'m> {
    /// Starts on the first screen of the job in `memory`.
    pub fn new(memory: &'m mut Memory) -> Handheld<'m> {
        memory.plan.make(&memory.job, &mut memory.scratch);
        let mut stack = Vec::new();
        let _ = stack.push(Screen::Home(Home::default()));
        Handheld {
            memory,
            stack,
            buttons: Buttons::default(),
            edits: Edits::new(),
            undo: Edits::new(),
            refused: None,
            wish: None,
            acted: 0,
            works_later: false,
            left: Left::default(),
            listed: None,
            guessed: None,
        }
    }

    /// From now on what takes long is left to [`Handheld::finish`]: the plan after a key
    /// that changed the job, the checks or the free stretches of a screen that opens.
    pub fn works_later(&mut self) {
        self.works_later = true;
    }

    /// Whether something is left of the last gesture; the view says so.
    pub fn is_unfinished(&self) -> bool {
        self.left.plans || self.left.arrives
    }

    /// Does what is left of the last gesture: plans, and works out what the screen shows.
    /// What moves then is to be kept like any key's doing.
    pub fn finish(&mut self) {
        let Left { plans, arrives, .. } = core::mem::take(&mut self.left);
        if plans {
            self.plan_anew();
        }
        if arrives {
            self.arrive(plans);
        }
    }

    /// Plans; whatever was worked out beside the plan before is void.
    fn plan_anew(&mut self) {
        let Memory {
            job, plan, scratch, ..
        } = &mut *self.memory;
        plan.make(job, scratch);
        self.listed = None;
        self.guessed = None;
    }

    /// Begins a new tape run and shows its reading screen.
    ///
    /// # Errors
    /// `Full` where that side has all the runs that it can have.
    pub fn start_run(&mut self, run: Run) -> Result<(), Refused> {
        let number = u8::try_from(self.memory.job.runs.len()).unwrap_or(u8::MAX);
        let reading = Screen::Reading(Reading::of(number));
        self.answer(Reply::edit(Edit::Run(run), Go::open(reading)), Millis(0));
        self.finish();
        self.refused.map_or(Ok(()), Err)
    }

    /// How many taps and holds have acted so far, repeats counted.
    pub fn acted(&self) -> u32 {
        self.acted
    }

    /// A key goes down.
    pub fn press(&mut self, key: Key, now: Millis) {
        self.tick(now);
        let holdings = self.holdings();
        self.buttons.press(key, now, &holdings);
    }

    /// A key goes up.
    pub fn release(&mut self, key: Key, now: Millis) {
        self.tick(now);
        if let Some(gesture) = self.buttons.release(key, now) {
            self.act(gesture, now);
        }
    }

    /// Time passes: a host calls it at least every 50 ms.
    pub fn tick(&mut self, now: Millis) {
        self.finish();
        if !self.buttons.is_due(now) {
            return;
        }
        let holdings = self.holdings();
        // A host that slept through many repeats gets a few, not all.
        for _ in 0..16 {
            match self.buttons.tick(now, &holdings) {
                Some(gesture) => self.act(gesture, now),
                None => return,
            }
            // A frame comes first: the rest of the hold waits for it.
            if self.is_unfinished() {
                return;
            }
        }
    }

    /// What the last call changed in the job, in order: the host writes it to the
    /// journal before it paints. What is not taken is forgotten with the next key.
    pub fn take_edits(&mut self) -> Edits {
        core::mem::take(&mut self.edits)
    }

    /// What the last call wants of the journal; nothing else has then changed.
    /// Whoever keeps no journal may leave it.
    pub fn take_wish(&mut self) -> Option<Wish> {
        self.wish.take()
    }

    /// Opens the list of jobs, on top of where the user is: whoever comes back from
    /// trouble picks another job there.
    pub fn open_jobs(&mut self) {
        let _ = self.stack.push(Screen::Jobs(Jobs::default()));
        self.wish = Some(Wish::List);
    }

    /// The list that was wished for, to be filled.
    pub fn jobs(&mut self) -> &mut JobList {
        &mut self.memory.jobs
    }

    /// The job, for the journal to read another one into; [`Handheld::anew`] must
    /// follow.
    pub(crate) fn job_to_fill(&mut self) -> &mut Job {
        &mut self.memory.job
    }

    /// Starts on the first screen of another job; a new one leads on from there.
    pub(crate) fn anew(&mut self, led: bool) {
        self.plan_anew();
        self.left = Left::default();
        self.undo.clear();
        self.go_home(led);
        self.buttons.forget();
    }

    /// Nothing but the first screen, or what it leads on to.
    #[inline(never)]
    fn go_home(&mut self, led: bool) {
        let mut home = Home::default();
        home.led = led;
        let next = home.follow(led, look(self.memory, &self.undo, &self.guessed));
        self.stack = core::iter::once(Screen::Home(home)).chain(next).listed();
    }

    /// Why the last edit was refused, if it was.
    pub fn refused(&self) -> Option<Refused> {
        self.refused
    }

    /// Where the user is, for the journal to keep beside an edit.
    pub fn place(&self) -> Place {
        place::write(self.stack.iter())
    }

    /// Goes back to where the user was, after the job was read back into the
    /// memory; bytes that say nothing give the first screen.
    pub fn resume(&mut self, bytes: &[u8]) {
        if !self.go_back_to(bytes) {
            return;
        }
        for at in 0..self.stack.len() {
            self.fill(at);
            let look = look(self.memory, &self.undo, &self.guessed);
            if let Some(screen) = self.stack.get_mut(at) {
                screen.enter(look);
            }
        }
    }

    /// Lays the screens there again; whether the bytes say anything.
    #[inline(never)]
    fn go_back_to(&mut self, bytes: &[u8]) -> bool {
        let mut stack: Vec<Screen, DEEP, u8> = Vec::new();
        let seen = look(self.memory, &self.undo, &self.guessed);
        place::read(bytes, seen, |screen| {
            let _ = stack.push(screen);
        });
        let says = matches!(stack.first(), Some(Screen::Home(_)));
        if says {
            self.stack = stack;
        }
        says
    }

    /// What a screen of the stack lacks that is to be worked out for it.
    fn lacks(&self, at: usize) -> Option<Lacking> {
        match self.stack.get(at)? {
            Screen::Page(page) if page.lists_checks() => Some(Lacking::List(Extra::Checks)),
            Screen::Map(_) => Some(Lacking::List(Extra::Free)),
            Screen::Reading(reading) if reading.is_next() => Some(Lacking::Guess(reading.run())),
            _ => None,
        }
        .filter(|lacking| match lacking {
            Lacking::List(list) => self.listed != Some(*list),
            Lacking::Guess(run) => self.guessed.as_ref().is_none_or(|(of, _)| of != run),
        })
    }

    /// Works out what only this screen of the stack shows.
    fn fill(&mut self, at: usize) {
        let lacking = self.lacks(at);
        let Memory {
            job, plan, scratch, ..
        } = &mut *self.memory;
        match lacking {
            Some(Lacking::List(list)) => {
                match list {
                    Extra::Checks => {
                        plan.checks(job, scratch);
                    }
                    Extra::Free => {
                        plan.free_stretches(job, scratch);
                    }
                }
                self.listed = Some(list);
            }
            Some(Lacking::Guess(run)) => {
                let guess = guess(job, &plan.joists, run, usize::MAX);
                self.guessed = Some((run, guess));
            }
            None => {}
        }
    }

    /// The place of the screen on top.
    fn top(&self) -> usize {
        self.stack.len().saturating_sub(1)
    }

    /// What is on the screen.
    pub fn view(&self) -> View {
        let mut view = View::default();
        self.view_into(&mut view);
        view
    }

    /// The same into a view that is blank: for a small stack, on which one view is
    /// large enough.
    pub fn view_into(&self, view: &mut View) {
        if self.is_unfinished() {
            return self.left.view(self.memory.job.units, view);
        }
        self.see(view);
        // A key that could do nothing says why.
        if let Some(Refused::Full(_, most)) = self.refused {
            view.alarm = true;
            view.status = Status {
                left: text!("FULL: {most} IS ALL"),
                ..Status::default()
            };
        }
    }

    /// What the screen on top shows.
    fn see(&self, view: &mut View) {
        if let Some(screen) = self.stack.last() {
            screen.view(look(self.memory, &self.undo, &self.guessed), view);
        }
    }

    /// What the screen on top says of its keys. Not inlined: the view is given back.
    #[inline(never)]
    fn hint(&self) -> &'static str {
        let mut view = View::default();
        self.see(&mut view);
        view.hint
    }

    /// Whether the first screen is the one on top.
    pub fn is_home(&self) -> bool {
        matches!(self.stack.last(), Some(Screen::Home(_)))
    }

    /// The job as it is.
    pub fn job(&self) -> &Job {
        &self.memory.job
    }

    /// What follows from it.
    pub fn plan(&self) -> &Plan {
        &self.memory.plan
    }

    /// Writes the plan as text.
    ///
    /// # Errors
    /// Those of `out`.
    pub fn write_text(&mut self, out: &mut dyn Write) -> fmt::Result {
        // It needs the room where they are listed.
        self.listed = None;
        let Memory {
            job, plan, scratch, ..
        } = &mut *self.memory;
        Report { job, plan }.text(scratch, out)
    }

    /// Writes the holes of the plan as CSV.
    ///
    /// # Errors
    /// Those of `out`.
    pub fn write_csv(&self, out: &mut dyn Write) -> fmt::Result {
        let Memory { job, plan, .. } = &*self.memory;
        Report { job, plan }.csv(out)
    }

    fn holdings(&self) -> crate::key::Holdings {
        let look = look(self.memory, &self.undo, &self.guessed);
        let top = self.stack.last();
        top.map(|top| top.holdings(look)).unwrap_or_default()
    }

    /// One gesture on the top screen.
    fn act(&mut self, gesture: Gesture, now: Millis) {
        self.acted = self.acted.wrapping_add(1);
        self.edits.clear();
        self.refused = None;
        let reply = match gesture {
            Gesture::Hold(Key::Ok) => self.hold_ok(),
            gesture => self.on(gesture),
        };
        self.answer(reply, now);
    }

    /// What a gesture on the top screen comes to.
    fn on(&mut self, gesture: Gesture) -> Reply {
        let look = look(self.memory, &self.undo, &self.guessed);
        match self.stack.last_mut() {
            Some(screen) => screen.on(gesture, look),
            None => Reply::stay(),
        }
    }

    /// The same of OK held: where that does nothing, it says what the keys do.
    #[inline(never)]
    fn hold_ok(&mut self) -> Reply {
        let before = self.stack.last().cloned();
        let mut reply = self.on(Gesture::Hold(Key::Ok));
        if before.as_ref() == self.stack.last() && reply.is_nothing() {
            reply.go = Go::open(Screen::Sheet(Sheet::of(sheet::Of::Leave)));
        }
        reply
    }

    /// Makes the edits, then moves the stack: the only place that does either. Not
    /// inlined: a reply as it is made would lie beside it.
    #[inline(never)]
    fn answer(&mut self, reply: Reply, now: Millis) {
        for edit in &reply.edits {
            if let Err(refused) = apply(&mut self.memory.job, edit) {
                self.refused = Some(refused);
                break;
            }
            let _ = self.edits.push(edit.clone());
        }
        self.left = Left {
            plans: !reply.edits.is_empty(),
            arrives: self.refused.is_none(),
            keyed: reply.edits.first().and_then(keyed),
        };
        if self.left.plans {
            self.undo = reply.undo;
        }
        if self.left.arrives {
            self.wish = reply.wish;
            self.buttons.deaf(now, reply.deaf);
            self.go(reply.go, reply.heard);
        }
        let takes_long = self.left.plans || self.lacks(self.top()).is_some();
        if !(takes_long && self.works_later) {
            self.finish();
        }
    }

    /// Moves the stack.
    fn go(&mut self, go: Go, heard: u8) {
        if go.leave > 0 || go.open.is_some() {
            self.buttons.forget();
        }
        let deep = self.stack.len().saturating_sub(usize::from(go.leave));
        self.stack.truncate(deep.max(1));
        if let Some(mut screen) = go.open {
            // The sheet's blank line carries the hint of the screen below it.
            if let Screen::Sheet(sheet) = &mut screen {
                sheet.hint = self.hint();
            }
            if let Screen::Jobs(_) = &screen {
                self.wish = Some(Wish::List);
            }
            self.push(screen);
        }
        if let Some(Screen::Home(home)) = self.stack.first_mut() {
            home.heard |= heard;
        }
    }

    /// The screen on top has come there, perhaps after a change of the job.
    fn arrive(&mut self, edited: bool) {
        self.fill(self.top());
        let look = look(self.memory, &self.undo, &self.guessed);
        let Some(top) = self.stack.last_mut() else {
            return;
        };
        top.enter(look);
        if let Screen::Home(home) = top
            && let Some(mut next) = home.follow(edited, look)
        {
            next.enter(look);
            self.push(next);
        }
    }

    /// A screen, and on top of it what must be heard before it.
    fn push(&mut self, screen: Screen) {
        let caution = Caution::before(&screen);
        let _ = self.stack.push(screen);
        let heard = match self.stack.first() {
            Some(Screen::Home(home)) => home.heard,
            _ => 0,
        };
        if let Some(caution) = caution.filter(|caution| caution.bit() & heard == 0) {
            let _ = self.stack.push(Screen::Caution(caution));
        }
    }
}
