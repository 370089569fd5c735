//! Rows about the joists: `stand tape joist check close override count hanger
//! nail`.

use super::entry::Entry;
use super::hook::named_hook;
use super::notes::{OverrideNote, Twice};
use super::word::Hand;
use super::{Kind, Wrong};
use crate::job::{
    CHECKS, Check, CheckKind, HANGERS, Hanger, HangerRef, Hook, JOISTS, JoistReading, NAILS, Nail,
    RUNS_A_SIDE, ReadTo, Run, RunHook, Stand,
};
use crate::length::Length;
use crate::limits::{Amounts, MEDIUM, MILLION, MOST_JOISTS, SMALL, STEEPEST, Span};
use crate::words::{End, Name};

/// The built-in hanger without metal.
pub(super) const NO_HANGER: &str = "none";

/// `stand,SIDE,left|right`
pub(super) fn stand(entry: &mut Entry) {
    let side = entry.side("SIDE");
    let hand: Hand = entry.word("HAND OF END A");
    entry.job.stand = Some(Stand {
        side,
        a_at_left: hand == Hand::Left,
    });
}

/// `tape,SIDE,HOOK,TOWARD,EDGE[,BURN,THICKNESS,READ TO]`
pub(super) fn tape(entry: &mut Entry) {
    let side = entry.side("SIDE");
    let hook = hook(entry);
    let run = Run {
        side,
        hook,
        edge: entry.word("EDGE"),
        burn: entry.maybe_length("BURN", Span::from_zero(SMALL)),
        thickness: entry.maybe_length("THICKNESS", Span::above_zero(SMALL)),
        read_to: read_to(entry),
        overridden: false,
    };
    let runs = entry.job.runs.iter().filter(|run| run.side == side).count();
    let pushed = match runs < RUNS_A_SIDE {
        true => entry.job.runs.push(run),
        false => Err(run),
    };
    entry.fits(pushed, RUNS_A_SIDE, "runs on one side");
    let _ = entry.notes.runs.push(entry.line);
}

/// Hook and direction of a run.
fn hook(entry: &mut Entry) -> RunHook {
    let text = entry.filled("HOOK");
    let named = named_hook(text);
    let mark = match named {
        Some(_) => None,
        None => Some(entry.as_position("HOOK", text)),
    };
    let toward: Option<End> = entry.maybe_word("TOWARD");
    let (hook, away) = match (named, mark, toward) {
        (None, Some(mark), Some(toward)) => return RunHook::Mark(mark, toward),
        (Some(Hook::WallA), ..) => (RunHook::Wall(End::A), End::B),
        (Some(Hook::WallB), ..) => (RunHook::Wall(End::B), End::A),
        (Some(Hook::EndA), ..) => (RunHook::Steel(End::A), End::B),
        (Some(Hook::EndB), ..) => (RunHook::Steel(End::B), End::A),
        (None, ..) => {
            entry.refuse("TOWARD", Wrong::TowardMissing);
            return RunHook::Wall(End::A);
        }
    };
    if toward.is_some_and(|toward| toward != away) {
        entry.refuse("TOWARD", Wrong::TowardOdd);
    }
    hook
}

/// How finely the tape is read.
fn read_to(entry: &mut Entry) -> Option<ReadTo> {
    // Practice: the divisions that crews read to.
    const STEPS: [Length; 5] = [
        Length::from_sixty_fourths(8),
        Length::from_sixty_fourths(4),
        Length::from_sixty_fourths(2),
        Length::from_millimetres(1),
        Length::from_millimetres(5),
    ];
    let step = entry.maybe_length("READ TO", Span::above_zero(SMALL));
    if step.is_some_and(|step| !STEPS.contains(&step)) {
        entry.refuse("READ TO", Wrong::ReadTo);
    }
    step
}

/// The run above a row.
fn run_above(entry: &mut Entry) -> u8 {
    if entry.job.runs.is_empty() {
        entry.refuse_row(Wrong::NoRun);
    }
    // At most 16 runs, so the cast holds.
    entry.job.runs.len().saturating_sub(1) as u8
}

/// `joist,READING[,THICKNESS,HANGER]`
pub(super) fn joist(entry: &mut Entry) {
    let run = run_above(entry);
    let (reading, guessed) = entry.reading("READING");
    let thickness = entry.maybe_length("THICKNESS", Span::above_zero(SMALL));
    let name = entry.maybe_name("HANGER");
    let joist = JoistReading {
        reading,
        thickness,
        hanger: hanger_ref(entry, &name),
        run,
        guessed,
    };
    let pushed = entry.job.joists.push(joist);
    entry.fits(pushed, JOISTS, "joists");
}

/// A hanger by its name, whose row may come later.
fn hanger_ref(entry: &mut Entry, name: &Name) -> HangerRef {
    if name.is_empty() {
        return HangerRef::Default;
    }
    if name.eq_ignore_ascii_case(NO_HANGER) {
        return HangerRef::None;
    }
    match entry.notes.hanger(name, entry.line) {
        Some(hanger) => HangerRef::Row(hanger),
        None => {
            entry.refuse("HANGER", Wrong::UnknownHanger);
            HangerRef::Default
        }
    }
}

/// `check,READING,POINT` and `close,READING,POINT`
pub(super) fn check(entry: &mut Entry) {
    let run = run_above(entry);
    let (reading, guessed) = entry.reading("READING");
    let check = Check {
        kind: match entry.kind {
            Kind::Close => CheckKind::Close,
            _ => CheckKind::Check,
        },
        reading,
        point: entry.position("POINT"),
        run,
        guessed,
    };
    let _ = entry.notes.checks.push(entry.line);
    let pushed = entry.job.checks.push(check);
    entry.fits(pushed, CHECKS, "checks and closes");
}

/// `override,SIDE,RUN`
pub(super) fn overrides(entry: &mut Entry) {
    let side = entry.side("SIDE");
    let run = entry.count("RUN", 1, RUNS_A_SIDE as u16);
    let earlier = entry.notes.overrides.iter();
    let earlier = earlier
        .filter(|note| note.side == side && note.run == run)
        .map(|note| note.line)
        .next();
    entry.not_twice("RUN", earlier);
    let line = entry.line;
    // Two sides of eight runs: the seventeenth row was caught above.
    let _ = entry.notes.overrides.push(OverrideNote { side, run, line });
}

/// `count,SIDE,JOISTS`
pub(super) fn count(entry: &mut Entry) {
    let side = entry.side("SIDE");
    entry.once_a_side(Twice::Count, side);
    let count = entry.count("JOISTS", 0, MOST_JOISTS);
    if let Some(slot) = entry.job.counts.get_mut(side.index()) {
        *slot = Some(count);
    }
}

/// `hanger,NAME[,METAL BEYOND FACE,HEIGHT,RATED LOAD]`
pub(super) fn hanger(entry: &mut Entry) {
    let name = entry.name("NAME");
    if name.eq_ignore_ascii_case(NO_HANGER) {
        entry.refuse("NAME", Wrong::NameTaken);
    }
    let (row, line) = (entry.job.hangers.len() as u8, entry.line);
    let place = entry.notes.hanger(&name, line);
    let note = place.and_then(|place| entry.notes.hangers.get_mut(usize::from(place)));
    let Some(note) = note else {
        return entry.fits(Err(name), HANGERS, "hangers besides none");
    };
    let earlier = note.row.replace((row, line));
    entry.not_twice("NAME", earlier.map(|(_, line)| line));
    let hanger = Hanger {
        name,
        metal: entry.maybe_length("METAL BEYOND FACE", Span::from_zero(SMALL)),
        height: entry.maybe_length("HEIGHT", Span::above_zero(MEDIUM)),
        rated: entry.maybe_decimal("RATED LOAD", Amounts::above_zero(MILLION)),
    };
    let pushed = entry.job.hangers.push(hanger);
    entry.fits(pushed, HANGERS, "hangers besides none");
}

/// `nail,NAME,LENGTH,DIAMETER[,SLANT]`
pub(super) fn nail(entry: &mut Entry) {
    let nail = Nail {
        name: entry.name("NAME"),
        length: entry.length("LENGTH", Span::above_zero(SMALL)),
        diameter: entry.length("DIAMETER", Span::above_zero(SMALL)),
        slant: entry.maybe_decimal("SLANT", Amounts::from_zero(STEEPEST)),
    };
    let pushed = entry.job.nails.push(nail);
    entry.fits(pushed, NAILS, "nails");
}
