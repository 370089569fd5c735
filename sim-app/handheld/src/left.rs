//! What is left to do of a gesture whose frame comes first.
//!
//! In: what a gesture changed. Out: the view in place of a screen for which something is
//! still to be worked out.

use crate::edit::Edit;
use crate::field::Value;
use crate::text;
use crate::view::{Figure, Touch, View};
use boltbay_core::length::Length;
use boltbay_core::words::Units;

/// What is left to do of a gesture.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Left {
    /// The job is another one: plan it.
    pub plans: bool,
    /// The screen on top has come there.
    pub arrives: bool,
    /// What was keyed last, if that is a length.
    pub keyed: Option<Length>,
}

/// What was keyed, where that is a length.
pub(crate) fn keyed(edit: &Edit) -> Option<Length> {
    match edit {
        Edit::Joist(_, joist) => Some(joist.reading),
        Edit::Check(check) => Some(check.reading),
        Edit::Set(_, Value::Length(length)) => Some(*length),
        _ => None,
    }
}

impl Left {
    /// In place of a screen for which something is still to be worked out: what was
    /// keyed, as it was taken. Anything more would be read off the plan before.
    pub fn view(&self, units: Units, view: &mut View) {
        let (name, words) = match self.plans {
            true => ("planning", "PLANNING"),
            false => ("working", "WORKING IT OUT"),
        };
        view.named(name, "");
        view.status.left = text!("{words}");
        match self.keyed {
            Some(length) => view.figure = Some(Figure::length(length, units, Touch::Keyed)),
            None if self.plans => view.line("ENTERED", ""),
            None => {}
        }
    }
}
