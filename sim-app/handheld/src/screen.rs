//! Screens: what is shown now, what a gesture does, what the view is.
//!
//! A screen holds a cursor and half-typed digits; whatever is worth keeping
//! lives in the job. Handling a gesture changes nothing but the screen itself
//! and says what to do next: which edits to make, where to go. One place
//! (`handheld.rs`) makes the edits and moves the stack.

pub mod amount;
pub mod ask;
pub mod begin;
pub mod blind;
pub mod blocked;
pub mod caution;
pub mod chalk;
pub mod choose;
pub mod entry;
pub mod form;
pub mod home;
pub mod hung;
pub mod jobs;
pub mod letters;
mod list;
pub mod map;
pub mod off;
pub mod packing;
pub mod page;
pub mod place;
pub mod proof;
pub mod reading;
pub mod readings;
pub mod rods;
pub mod run;
pub mod shape;
pub mod sheet;
pub mod walk;

use crate::edit::{Edit, Edits};
use crate::guess::Guess;
use crate::key::{Gesture, Holding, Holdings};
use crate::ladder;
use crate::view::View;
use boltbay_core::Job;
use boltbay_core::check::Checks;
use boltbay_core::placement::Windows;
use boltbay_core::plan::Plan;
use jobs::{JobList, Wish};

/// What a screen may look at.
#[derive(Clone, Copy)]
pub struct Look<'a> {
    /// The job.
    pub job: &'a Job,
    /// What follows from it.
    pub plan: &'a Plan,
    /// All checks, while a page of them is open.
    pub checks: Option<&'a Checks>,
    /// Where bolts may stand, by row; filled while the map is open.
    pub free: Option<&'a Windows>,
    /// What the next reading of a run will be; filled while it is read.
    pub guess: Option<&'a Guess>,
    /// What brings back what was deleted last; empty once something else changed.
    pub undo: &'a Edits,
    /// The jobs of the card, as the journal listed them last.
    pub jobs: &'a JobList,
}

/// Where to go next: so many screens down, then one up.
#[derive(Clone, Debug, PartialEq)]
pub struct Go {
    /// Screens that are left; the first one stays in any case.
    pub leave: u8,
    /// The screen that is opened on top of what then remains.
    pub open: Option<Screen>,
}

impl Go {
    /// Nowhere.
    pub const STAY: Go = Go {
        leave: 0,
        open: None,
    };
    /// To the screen below.
    pub const BACK: Go = Go {
        leave: 1,
        open: None,
    };
    /// To the first screen.
    pub const HOME: Go = Go {
        leave: u8::MAX,
        open: None,
    };

    /// To a screen on top of this one.
    pub fn open(screen: Screen) -> Go {
        Go::instead_of(0, screen)
    }

    /// To a screen in place of this one.
    pub fn instead(screen: Screen) -> Go {
        Go::instead_of(1, screen)
    }

    /// To a screen in place of so many.
    pub fn instead_of(leave: u8, screen: Screen) -> Go {
        let open = Some(screen);
        Go { leave, open }
    }
}

/// What a gesture comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Reply {
    /// Changes of the job; all or none are made.
    pub edits: Edits,
    /// Where something is deleted: the edits that bring it back.
    pub undo: Edits,
    /// Where to go once they are made.
    pub go: Go,
    /// Milliseconds in which no key counts.
    pub deaf: u32,
    /// What the journal is to do.
    pub wish: Option<Wish>,
    /// Bits of cautions that were heard now.
    pub heard: u8,
}

impl Reply {
    /// Nothing but a move. Not inlined: most keys end in it.
    #[inline(never)]
    pub fn go(go: Go) -> Reply {
        Reply {
            edits: Edits::new(),
            undo: Edits::new(),
            go,
            deaf: 0,
            wish: None,
            heard: 0,
        }
    }

    /// Something for the journal; the screen stays until that is done.
    pub fn wish(wish: Wish) -> Reply {
        Reply {
            wish: Some(wish),
            ..Reply::stay()
        }
    }

    /// Nothing at all, or something that the screen did to itself.
    pub fn stay() -> Reply {
        Reply::go(Go::STAY)
    }

    /// Whether it is [`Reply::stay`].
    pub fn is_nothing(&self) -> bool {
        self.edits.is_empty()
            && self.undo.is_empty()
            && self.go == Go::STAY
            && self.deaf == 0
            && self.wish.is_none()
            && self.heard == 0
    }

    /// To a screen on top of this one.
    pub fn open(screen: Screen) -> Reply {
        Reply::go(Go::open(screen))
    }

    /// To the screen below.
    pub fn back() -> Reply {
        Reply::go(Go::BACK)
    }

    /// One change, then a move.
    pub fn edit(edit: Edit, go: Go) -> Reply {
        let mut reply = Reply::go(go);
        let _ = reply.edits.push(edit);
        reply
    }

    /// The same, deaf for a while.
    pub fn deaf(self, milliseconds: u32) -> Reply {
        Reply {
            deaf: milliseconds,
            ..self
        }
    }
}

/// How the arrow keys and OK are held on a list; RIGHT held a second deletes.
pub const LIST: Holdings = Holdings {
    vertical: Some(Holding::again(ladder::HOLD, 150)),
    left: None,
    right: Some(Holding::once(1000)),
    ok: Some(Holding::once(ladder::HOLD_OK)),
};

/// What one screen does, in a frame of the stack of its own: two dozen in one would
/// take at once what each takes in turn.
#[inline(never)]
fn apart<T>(what: impl FnOnce() -> T) -> T {
    what()
}

macro_rules! screens {
    ($($(#[$doc:meta])* $screen:ident($inner:ty),)*) => {
        /// Every screen there is.
        #[derive(Clone, Debug, PartialEq)]
        pub enum Screen {
            $($(#[$doc])* $screen($inner),)*
        }

        impl Screen {
            /// How keys are held here.
            pub fn holdings(&self, look: Look) -> Holdings {
                match self {
                    $(Screen::$screen(screen) => screen.holdings(look),)*
                }
            }

            /// It has come to the top: what it shows may have changed since.
            pub fn enter(&mut self, look: Look) {
                match self {
                    $(Screen::$screen(screen) => screen.enter(look),)*
                }
            }

            /// What a gesture comes to.
            pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
                match self {
                    $(Screen::$screen(screen) => apart(|| screen.on(gesture, look)),)*
                }
            }

            /// What is shown, into a view that is blank. Filled where it lies: with a
            /// view among its variables a screen had them all beyond the reach of
            /// short instructions.
            pub fn view(&self, look: Look, view: &mut View) {
                match self {
                    $(Screen::$screen(screen) => apart(|| screen.view(look, view)),)*
                }
            }
        }
    };
}

screens! {
    /// The working day, top to bottom.
    Home(home::Home),
    /// Fields and lists under one heading.
    Form(form::FormScreen),
    /// A length or a position.
    Entry(entry::Entry),
    /// A number.
    Amount(amount::Amount),
    /// One of several words.
    Choose(choose::Choose),
    /// A name.
    Letters(letters::Letters),
    /// The steel, by depth then weight.
    Shape(shape::Shape),
    /// A tape run before it starts.
    Run(run::RunSetup),
    /// Joist after joist.
    Reading(reading::Reading),
    /// The readings of a run, to correct one.
    Readings(readings::Readings),
    /// A reading that proves a run, then what comes of it.
    Proof(proof::Proof),
    /// A question with two answers.
    Ask(ask::Ask),
    /// Before a walk: length, how the beam lies, the painted face.
    Begin(begin::Begin),
    /// Marking and drilling, hole after hole.
    Walk(walk::Walk),
    /// A mark read from the other end, unseen.
    Blind(blind::Blind),
    /// A hole that is not where its mark is.
    Off(off::Off),
    /// Where nothing fits, and what would open it; or the plan that there is.
    NoPlan(blocked::NoPlan),
    /// What must be heard before a step.
    Caution(caution::Caution),
    /// What the tape hangs on in a walk.
    Hook(hung::Rehook),
    /// The jobs of the card.
    Jobs(jobs::Jobs),
    /// The beam from above.
    Map(map::MapScreen),
    /// The list to chalk from.
    Chalk(chalk::Chalk),
    /// A page to read close by.
    Page(page::Page),
    /// Layers of packing.
    Packing(packing::PackingScreen),
    /// Rods, sticks, what to buy.
    Rods(rods::RodsScreen),
    /// Things to do here.
    Sheet(sheet::Sheet),
}
