//! Screens: what is shown now, what a gesture does, what the view is.
//!
//! A screen holds a cursor and half-typed digits; whatever is worth keeping
//! lives in the job. Handling a gesture changes nothing but the screen itself
//! and says what to do next: which edits to make, where to go. One place
//! (`handheld.rs`) makes the edits and moves the stack.

mod home;

pub use home::Home;

use crate::edit::{Edit, Edits};
use crate::key::{Gesture, Holding, Holdings};
use crate::view::View;
use boltbay_core::Job;
use boltbay_core::plan::Plan;

/// What a screen may look at.
#[derive(Clone, Copy)]
pub struct Look<'a> {
    /// The job.
    pub job: &'a Job,
    /// What follows from it.
    pub plan: &'a Plan,
}

/// Where to go next.
#[derive(Clone, Debug, PartialEq)]
pub enum Go {
    /// Nowhere.
    Stay,
    /// To a screen on top of this one.
    Open(Screen),
    /// To a screen in place of this one.
    Instead(Screen),
    /// To the screen below.
    Back,
    /// To the first screen.
    Home,
}

/// What a gesture comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Reply {
    /// Changes of the job; all or none are made.
    pub edits: Edits,
    /// Where to go once they are made.
    pub go: Go,
    /// Milliseconds in which no key counts.
    pub deaf: u32,
}

impl Reply {
    /// Nothing but a move.
    pub fn go(go: Go) -> Reply {
        Reply {
            edits: Edits::new(),
            go,
            deaf: 0,
        }
    }

    /// Nothing at all, or something that the screen did to itself.
    pub fn stay() -> Reply {
        Reply::go(Go::Stay)
    }

    /// One change, then a move.
    pub fn edit(edit: Edit, go: Go) -> Reply {
        let mut reply = Reply::go(go);
        let _ = reply.edits.push(edit);
        reply
    }
}

/// How the arrow keys and OK are held on a list.
pub const LIST: Holdings = Holdings {
    vertical: Some(Holding::again(400, 120)),
    left: None,
    right: None,
    ok: Some(Holding::once(600)),
};

/// Every screen there is.
#[derive(Clone, Debug, PartialEq)]
pub enum Screen {
    /// The working day, top to bottom.
    Home(Home),
}

impl Screen {
    /// How keys are held here.
    pub fn holdings(&self) -> Holdings {
        match self {
            Screen::Home(_) => LIST,
        }
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, look: Look) -> Reply {
        match self {
            Screen::Home(home) => home.on(gesture, look),
        }
    }

    /// What is shown.
    pub fn view(&self, look: Look) -> View {
        match self {
            Screen::Home(home) => home.view(look),
        }
    }
}
