//! A cursor in a list, and the four lines that are in sight.

use crate::key::{Gesture, Holdings, Key};

/// Lines in sight.
pub const LINES: u8 = 4;

/// How keys are held where UP and DOWN leaf through things one by one.
pub const LEAF: Holdings = Holdings {
    right: None,
    ..super::LIST
};

/// Moves a cursor through `count` things, and stops at both ends. `false`: the
/// gesture is none of the cursor's.
pub fn leaf(cursor: &mut u8, count: u8, gesture: Gesture) -> bool {
    *cursor = match gesture {
        Gesture::Tap(Key::Down) | Gesture::Hold(Key::Down) => cursor.saturating_add(1),
        Gesture::Tap(Key::Up) | Gesture::Hold(Key::Up) => cursor.saturating_sub(1),
        _ => return false,
    };
    stay_within(cursor, count);
    true
}

/// The things may be fewer than they were.
pub fn stay_within(cursor: &mut u8, count: u8) {
    *cursor = (*cursor).min(count.saturating_sub(1));
}

/// Moves a cursor among `count` lines; at either end it goes round. `false`:
/// the gesture is none of the cursor's.
pub fn turn(cursor: &mut u8, count: u8, gesture: Gesture) -> bool {
    let last = count.saturating_sub(1);
    *cursor = match gesture {
        Gesture::Tap(Key::Down) if *cursor >= last => 0,
        Gesture::Tap(Key::Up) if *cursor == 0 => last,
        // Held, it stops at the ends.
        Gesture::Tap(Key::Down) | Gesture::Hold(Key::Down) => cursor.saturating_add(1).min(last),
        Gesture::Tap(Key::Up) | Gesture::Hold(Key::Up) => cursor.saturating_sub(1),
        _ => return false,
    };
    true
}

/// The first line in sight: the cursor stands on the second line where it can.
pub fn first(cursor: u8, count: u8) -> u8 {
    let most = count.saturating_sub(LINES);
    cursor.saturating_sub(1).min(most)
}
