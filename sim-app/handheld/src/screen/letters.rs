//! Keying a name letter by letter.

use super::{Go, LIST, Look, Reply, Screen, sheet};
use crate::edit::Edit;
use crate::field::{Field, Sort, Value, Words};
use crate::key::{Gesture, Holding, Holdings, Key};
use crate::view::{View, text};
use crate::words::{HOLD_OK_LEAVES, hint};
use crate::{ladder, text};
use boltbay_core::Job;

/// Letters in the order in which UP goes through them.
const LETTERS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZ 0123456789-/.,:;+&'()#%*=\"!?<>_@$";

/// A name in the making: what is keyed, and the letter that is turned.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Letters {
    field: Field,
    words: Words,
    letter: u8,
}

impl Letters {
    /// Starts behind what is keyed.
    pub fn of(field: Field, job: &Job) -> Letters {
        let words = match field.get(job) {
            Value::Words(words) => words,
            _ => Words::new(),
        };
        Letters {
            field,
            words,
            letter: 0,
        }
    }

    /// UP and DOWN run through the letters.
    pub fn holdings(&self, _: Look) -> Holdings {
        Holdings {
            vertical: Some(Holding::again(ladder::HOLD, 120)),
            ..LIST
        }
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    fn most(&self) -> usize {
        match self.field.kind.about().sort {
            Sort::Words(most) => usize::from(most),
            _ => 0,
        }
    }

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, _look: Look) -> Reply {
        let last = u8::try_from(LETTERS.len()).unwrap_or(1) - 1;
        match gesture {
            Gesture::Tap(Key::Up) | Gesture::Hold(Key::Up) => {
                self.letter = if self.letter == last {
                    0
                } else {
                    self.letter + 1
                };
            }
            Gesture::Tap(Key::Down) | Gesture::Hold(Key::Down) => {
                self.letter = if self.letter == 0 {
                    last
                } else {
                    self.letter - 1
                };
            }
            Gesture::Tap(Key::Right) => self.take(),
            Gesture::Tap(Key::Digit(digit)) => self.push(char::from(b'0' + digit % 10)),
            Gesture::Tap(Key::Left) => match self.words.pop() {
                Some(_) => {}
                None => return Reply::back(),
            },
            Gesture::Tap(Key::Ok) => return self.keep(),
            Gesture::Hold(Key::Ok) => {
                let sheet = sheet::Sheet::of(sheet::Of::Field(self.field));
                return Reply::open(Screen::Sheet(sheet));
            }
            _ => {}
        }
        Reply::stay()
    }

    fn take(&mut self) {
        if let Some(letter) = LETTERS.get(usize::from(self.letter)) {
            self.push(char::from(*letter));
        }
    }

    fn push(&mut self, letter: char) {
        // One letter alone is replaced: it is what the crew painted.
        if self.most() == 1 {
            self.words.clear();
        }
        if self.words.len() < self.most() {
            let _ = self.words.push(letter);
        }
    }

    fn keep(&self) -> Reply {
        let value = Value::of_words(self.words.trim());
        Reply::edit(Edit::Set(self.field, value), Go::BACK).deaf(300)
    }

    /// What is shown.
    pub fn view(&self, look: Look, view: &mut View) {
        view.named("letters", hint::LETTERS);
        view.status.left = text(self.field.kind.about().label);
        view.status.right = super::form::which(self.field, look.job);
        let (head, tail) = self.words.split_at_checked(12).unwrap_or((&self.words, ""));
        view.line(head, "");
        view.line(tail, "");
        let letter = LETTERS
            .get(usize::from(self.letter))
            .copied()
            .unwrap_or(b' ');
        let shown = match letter {
            b' ' => text("SPACE"),
            letter => text!("{}", char::from(letter)),
        };
        view.line("NEXT LETTER", &shown);
        view.line(HOLD_OK_LEAVES, "");
        view.selected = Some(2);
    }
}
