//! Kind: how a station stands, in one byte.

use crate::words::Row;

/// How a station stands: which turn, one hole or two, new or old.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Kind(u8);

impl Kind {
    const BOT: u8 = 1;
    const PAIR: u8 = 2;
    const NEEDS: u8 = 4;
    const STOP: u8 = 8;
    const VIA: u8 = 16;
    /// Where the number of an old station's stop begins.
    const OPTION: u32 = 5;

    pub const fn new(row: Row, pair: bool) -> Kind {
        let turn = match row {
            Row::Top => 0,
            Row::Bot => Self::BOT,
        };
        Kind(turn | if pair { Self::PAIR } else { 0 })
    }

    /// An old station in the way of this number: its turn row, or the row of a
    /// single, which no turn binds.
    pub const fn stop(turn: Row, single: bool, option: u8) -> Kind {
        Kind(Kind::new(turn, !single).0 | Self::STOP | option << Self::OPTION)
    }

    /// Which of an old station's stops.
    pub const fn option(self) -> u8 {
        self.0 >> Self::OPTION
    }

    pub const fn via(self) -> Kind {
        Kind(self.0 | Self::VIA)
    }

    /// The turn row.
    pub const fn turn(self) -> Row {
        if self.0 & Self::BOT == 0 {
            Row::Top
        } else {
            Row::Bot
        }
    }

    pub const fn pair(self) -> bool {
        self.0 & Self::PAIR != 0
    }

    /// No turn binds it: an old single.
    pub const fn free(self) -> bool {
        self.is_stop() && !self.pair()
    }

    /// The same, where the gate that asks for the pair must lie before it.
    pub const fn needing(self) -> Kind {
        Kind(self.0 | Self::NEEDS)
    }

    /// A pair that a hole gained and that no gate beyond asks for: only one
    /// before it can.
    pub const fn needs(self) -> bool {
        self.0 & Self::NEEDS != 0
    }

    pub const fn is_stop(self) -> bool {
        self.0 & Self::STOP != 0
    }

    /// An illegal drilled station, on the way to what it links to.
    pub const fn is_via(self) -> bool {
        self.0 & Self::VIA != 0
    }
}
