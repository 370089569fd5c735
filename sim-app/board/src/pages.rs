//! Pages that the board has besides the handheld's screens: what went wrong before,
//! what is wrong with the card, and those of the self-test. Plain data in, a view out:
//! nothing here knows a board, and the tests paint the same pages on a desktop.

use crate::debounce;
use boltbay_core::length::Length;
use boltbay_core::words::{Row, Units};
use boltbay_handheld::view::{Dot, Drawn, Figure, Map, Scale, Strip, Touch, Wrapped, text};
use boltbay_handheld::{Key, View, text};

/// A page with a title and small lines.
#[inline(always)]
fn page(title: &str, hint: &'static str) -> View {
    let mut view = View::default();
    titled(&mut view, title, hint);
    view
}

/// The same of a view that is blank.
fn titled(view: &mut View, title: &str, hint: &'static str) {
    view.named("board", hint);
    view.small = true;
    view.status.left = text(title);
}

/// Words of a crash, as many as fit.
#[inline(never)]
pub fn crashed(words: &str) -> View {
    let mut view = page("IT STOPPED", "");
    view.alarm = true;
    for line in Wrapped::of(words).take(4) {
        view.line(line, "");
    }
    view.line("OK: GO ON", "");
    view
}

/// Something is wrong with the card.
#[inline(never)]
pub fn card_trouble(words: [&str; 2], choice: &str) -> View {
    let mut view = View::default();
    nothing_kept(&mut view, words, choice);
    view
}

/// The same, into a view that is blank.
pub fn nothing_kept(view: &mut View, words: [&str; 2], choice: &str) {
    titled(view, "NOTHING IS KEPT", "");
    view.alarm = true;
    for line in words {
        view.line(line, "");
    }
    view.line("", "");
    view.line(choice, "");
}

/// What a key does there, where entries go on in memory.
pub const GO_ON: &str = "OK: GO ON WITHOUT";

/// On the first screen, as long as there is no card.
pub const NOTHING_KEPT: &str = "NOTHING IS KEPT";

/// On the first screen, until the card is back.
pub const CARD_AWAY: &str = "CARD OUT, NOT KEPT";

/// On the first screen, when the plan could not be written to the card.
pub const PLAN_IS_OLD: &str = "PLAN ON CARD OLD";

/// The same, where a folder has the plan's name.
pub const PLAN_IS_FOLDER: &str = "FOLDER BLOCKS PLAN";

/// Puts a warning over a view, in place of its title.
pub fn warn(view: &mut View, words: &str) {
    view.alarm = true;
    view.status.left = text(words);
    view.status.tab.clear();
    view.status.right.clear();
}

/// The card must be read anew: a part of it could not be written.
pub fn must_be_read(view: &mut View) {
    titled(view, "NOT KEPT", "");
    view.alarm = true;
    for line in [
        "CARD WANTS MENDING",
        "OK: READ IT ANEW,",
        "LAST ENTRY IS GONE",
    ] {
        view.line(line, "");
    }
}

/// Job cards to choose from; five in sight.
#[inline(never)]
pub fn cards<N: core::ops::Deref<Target = str>>(names: &[N], selected: usize) -> View {
    let mut view = page("WHICH JOB?", "");
    view.status.right = text!("{}", names.len());
    let from = selected.saturating_sub(4);
    for name in names.iter().skip(from).take(5) {
        view.line(name, "");
    }
    view.selected = u8::try_from(selected - from).ok();
    view
}

/// A card that is no job, and why; what does not fit the screen is left out.
#[inline(never)]
pub fn card_refused(name: &str, why: &str) -> View {
    let mut view = page(name, "");
    view.alarm = true;
    for line in Wrapped::of(why).take(5) {
        view.line(line, "");
    }
    view
}

/// The journal's file is being made.
#[inline(never)]
pub fn setting_up() -> View {
    let mut view = page("NEW CARD", "");
    view.line("SETTING IT UP", "");
    view.line("LEAVE IT IN", "");
    view
}

/// The job in memory is put on a card that came late.
#[inline(never)]
pub fn taking_in() -> View {
    let mut view = page("CARD IS IN", "");
    view.line("PUTTING THE JOB ON IT", "");
    view.line("LEAVE IT IN", "");
    view
}

/// What the self-test can do.
pub const MENU: [&str; 5] = ["PICTURES", "KEYS", "CARD", "JOURNAL", "CRASH"];

/// The self-test's first page.
#[inline(never)]
pub fn menu(selected: u8) -> View {
    let mut view = page("SELFTEST", "");
    for line in MENU {
        view.line(line, "");
    }
    view.selected = Some(selected);
    view
}

/// How many pictures there are.
pub const PICTURES: u8 = 4;

/// A picture that uses what the painter can do.
#[inline(never)]
pub fn picture(number: u8) -> View {
    match number % PICTURES {
        0 => reading(),
        1 => mark(),
        2 => map(),
        _ => list(),
    }
}

/// 14' 3 5/16".
fn some_length() -> Length {
    Length::from_sixteenths(171 * 16 + 5)
}

#[inline(never)]
fn reading() -> View {
    let mut view = View::of("reading", "OK: TAKE IT");
    view.status.left = text("N12");
    view.status.tab = text("FROM END A");
    view.status.right = text("12");
    view.figure = Some(Figure::length(
        some_length(),
        Units::Imperial,
        Touch::Suggested,
    ));
    view.scale = Some(Scale {
        at: some_length(),
        units: Units::Imperial,
    });
    view
}

#[inline(never)]
fn mark() -> View {
    let mut view = View::of("mark", "");
    view.status.left = text("TOP");
    view.status.right = text("3/12");
    view.figure = Some(Figure::length(some_length(), Units::Metric, Touch::Keyed));
    view.flange = Some(Row::Top);
    view.strip = Some(Strip {
        left: text("N3 1 1/4"),
        right: text("2 5/8 S4"),
    });
    view
}

#[inline(never)]
fn map() -> View {
    let mut view = View::of("map", "");
    view.status.left = text("HOLE 2");
    view.alarm = true;
    let mut map = Map {
        cursor: Some(64),
        sides: *b"NS",
        ends: *b"AB",
        ..Map::default()
    };
    for at in [10, 40, 70, 100] {
        map.joists[0].set(at, at + 3);
        map.joists[1].set(at + 12, at + 15);
        map.metal[0].set(at - 2, at + 5);
    }
    for (at, dot) in [(25, Dot::Drilled), (64, Dot::Planned), (92, Dot::Marked)] {
        let row = Row::Bot;
        let _ = map.drawn.push(Drawn::Hole { row, at, dot });
    }
    view.map = Some(map);
    view
}

#[inline(never)]
fn list() -> View {
    let mut view = View::of("list", "LEFT: BACK");
    view.status.left = text("LIST");
    view.line("FIRST LINE", "1");
    view.line("SECOND", "2 1/2");
    view.line("THIRD", "");
    view.selected = Some(1);
    view
}

/// The keys, in the order of their counts, which is that of their bits.
const KEYS: [&str; 5] = ["UP", "DOWN", "LEFT", "RIGHT", "OK"];

/// What a key is called.
pub fn key_name(key: Key) -> &'static str {
    let named = debounce::KEYS.into_iter().zip(KEYS);
    let mut named = named.filter(|(known, _)| *known == key);
    named.next().map_or("", |(_, name)| name)
}

/// How often each key was tapped, and how often a hold of it has acted.
#[inline(never)]
pub fn keys(taps: &[u16; 5], holds: &[u16; 5]) -> View {
    let mut view = page("KEYS", "");
    for ((key, taps), holds) in KEYS.iter().zip(taps).zip(holds) {
        view.line(key, &text!("{taps}  HELD {holds}"));
    }
    view
}

/// Job cards on the memory card, and what came of reading and writing.
#[inline(never)]
pub fn card(cards: &[(&str, u32)], says: [&str; 2]) -> View {
    let mut view = page("CARD", "");
    for (name, size) in cards.iter().take(3) {
        view.line(name, &text!("{size}"));
    }
    for words in says {
        view.line(words, "");
    }
    view
}

/// The journal: what it has counted, and where it was.
#[inline(never)]
pub fn journal(count: u32, place: u8) -> View {
    let mut view = page("JOURNAL", "");
    view.line("COUNTED", &text!("{count}"));
    view.line("PLACE", &text!("{place}"));
    view
}

/// Ways to crash.
#[inline(never)]
pub fn crash() -> View {
    let mut view = page("CRASH", "");
    for (key, what) in [
        ("UP", "PANIC"),
        ("DOWN", "STACK OVERFLOW"),
        ("RIGHT", "HANG"),
        ("OK", "FAULT"),
        ("LEFT", "BACK"),
    ] {
        view.line(key, what);
    }
    view
}
