//! The board by a script: keys from `BOLTBAY_KEYS`, a PNG a key into the folder of
//! `BOLTBAY_PICTURES`; without them a short script of its own, into nowhere.

use super::firmware;
use super::qemu::{Qemu, write_png};
use std::time::Duration;
use std::{env, path::PathBuf};

/// Longer than any hold that means something once.
const HOLD: Duration = Duration::from_millis(1100);
/// A key has been answered.
const ANSWERED: Duration = Duration::from_millis(300);

#[test]
fn keys_in_pictures_out() {
    let keys = env::var("BOLTBAY_KEYS").unwrap_or_else(|_| "ok right left hold:ok".to_owned());
    let beside = tempfile::tempdir().unwrap();
    let folder = env::var_os("BOLTBAY_PICTURES").map(PathBuf::from);
    let folder = folder.unwrap_or_else(|| beside.path().to_owned());
    let mut board = Qemu::ready(firmware::selftest(), None);
    for (number, name) in keys.split_whitespace().enumerate() {
        match name.strip_prefix("hold:") {
            Some(held) => board.hold(held, HOLD),
            None => board.tap(name),
        }
        std::thread::sleep(ANSWERED);
        let path = folder.join(format!("{:03}-{}.png", number + 1, name.replace(':', "-")));
        write_png(&path, &board.glass());
        assert!(path.metadata().unwrap().len() > 0);
    }
}
