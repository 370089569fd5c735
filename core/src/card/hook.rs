//! Positions as text: a length, and behind it the hook that it was read from.
//!
//! In: text, or a position. Out: the hook and the text of the length, or text.
//! Rule: bare is from end A, also where `end A` stands; a hook alone is the
//! place itself.

use crate::job::{Hook, Position};
use crate::length::blank;
use crate::words::Units;
use core::fmt::{self, Display};

/// `50 1/4 wall A`; bare from end A.
pub(super) struct PositionShown(pub(super) Position, pub(super) Units);

impl Display for PositionShown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let PositionShown(position, units) = self;
        position.reading.shown_on_card(*units).fmt(f)?;
        f.write_str(match position.hook {
            Hook::EndA => "",
            Hook::EndB => " end B",
            Hook::WallA => " wall A",
            Hook::WallB => " wall B",
        })
    }
}

/// Splits `50 1/4 wall A` into the length and the hook; bare is from end A.
pub(super) fn split_hook(text: &str) -> (&str, Hook) {
    const HOOKS: [(&str, &str, Hook); 4] = [
        ("wall", "a", Hook::WallA),
        ("wall", "b", Hook::WallB),
        ("end", "a", Hook::EndA),
        ("end", "b", Hook::EndB),
    ];
    for (what, end, hook) in HOOKS {
        let behind = strip_end(text, end).map(|rest| rest.trim_end_matches(blank));
        if let Some(reading) = behind.and_then(|rest| strip_end(rest, what)) {
            return (reading.trim_end_matches(blank), hook);
        }
    }
    (text, Hook::EndA)
}

/// `text` without `end`, in any case.
fn strip_end<'t>(text: &'t str, end: &str) -> Option<&'t str> {
    let at = text.len().checked_sub(end.len())?;
    let (rest, last) = text.split_at_checked(at)?;
    last.eq_ignore_ascii_case(end).then_some(rest)
}

/// What a tape hangs on by name alone: `wall A`, `end B`.
pub(super) fn named_hook(text: &str) -> Option<Hook> {
    let (reading, hook) = split_hook(text);
    (reading.is_empty() && !text.is_empty()).then_some(hook)
}
