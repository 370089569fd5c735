//! Debouncing, by the very code of the firmware.

use boltbay_board::debounce::{Contacts, Edge, SETTLE};
use boltbay_handheld::{Key, Millis};

const UP: u8 = 1;
const OK: u8 = 1 << 4;

/// Contacts that have been open once.
fn open() -> Contacts {
    let mut contacts = Contacts::new();
    contacts.look(0, Millis(0), |edge| panic!("{edge:?}"));
    contacts
}

/// Looks at these contacts at these times; what came of it.
fn looked(contacts: &mut Contacts, looks: &[(u64, u8)]) -> Vec<(u64, Key, bool)> {
    let mut edges = Vec::new();
    for (at, closed) in looks {
        contacts.look(*closed, Millis(*at), |Edge { key, is_down, at }| {
            edges.push((at.0, key, is_down));
        });
    }
    edges
}

#[test]
fn a_key_that_was_never_open_is_not_there() {
    let mut contacts = Contacts::new();
    assert_eq!(looked(&mut contacts, &[(0, OK), (100, OK)]), []);
    assert_eq!(
        looked(&mut contacts, &[(200, 0), (300, OK)]),
        [(300, Key::Ok, true)]
    );
}

#[test]
fn the_first_edge_counts_at_once_and_its_bounces_do_not() {
    let bounces = [
        (100, UP),
        (101, 0),
        (102, UP),
        (103, 0),
        (105, UP),
        (130, UP),
    ];
    assert_eq!(looked(&mut open(), &bounces), [(100, Key::Up, true)]);
    // What it has settled on counts, at the first look behind.
    let short = [(100, UP), (101, 0), (102, UP), (103, 0), (110, 0), (120, 0)];
    let edges = [(100, Key::Up, true), (120, Key::Up, false)];
    assert_eq!(looked(&mut open(), &short), edges);
    assert_eq!(SETTLE, 20);
}

#[test]
fn keys_do_not_wait_for_each_other() {
    let both = [(100, UP), (105, UP | OK), (130, OK), (131, 0)];
    let edges = [
        (100, Key::Up, true),
        (105, Key::Ok, true),
        (130, Key::Up, false),
        (131, Key::Ok, false),
    ];
    assert_eq!(looked(&mut open(), &both), edges);
}

#[test]
fn it_is_busy_until_everything_has_settled() {
    let mut contacts = open();
    assert!(!contacts.is_busy(Millis(0)));
    looked(&mut contacts, &[(100, UP)]);
    assert!(contacts.is_busy(Millis(500)));
    looked(&mut contacts, &[(600, 0)]);
    assert!(contacts.is_busy(Millis(619)));
    assert!(!contacts.is_busy(Millis(620)));
}
