//! Rows about what surrounds the beam: `wall clear square pocket outstand
//! obstacle zone packing placed`.

use super::entry::Entry;
use super::notes::Twice;
use super::word::InTheWay;
use crate::job::{KEEPOUTS, Keepout, KeepoutKind, PACKING_PIECES, PackingPiece, Pocket, Square};
use crate::limits::{LONG, MEDIUM, Span};
use crate::words::{End, Sides};

/// `wall,A|B,BEARING`
pub(super) fn wall(entry: &mut Entry) {
    let end: End = entry.word("END");
    entry.once_an_end(Twice::Wall, end);
    let bearing = entry.length("BEARING", Span::above_zero(LONG));
    if let Some(wall) = entry.job.walls.get_mut(end.index()) {
        *wall = Some(bearing);
    }
}

/// `clear,LENGTH`
pub(super) fn clear(entry: &mut Entry) {
    entry.job.clear = Some(entry.length("LENGTH", Span::above_zero(LONG)));
}

/// `square,SIDE,A|B,OFFSET`
pub(super) fn square(entry: &mut Entry) {
    let side = entry.side("SIDE");
    let end: End = entry.word("END");
    let earlier = entry.job.squares.iter().zip(&entry.notes.squares);
    let earlier = earlier
        .filter(|(square, _)| square.side == side && square.end == end)
        .map(|(_, line)| *line)
        .next();
    entry.not_twice("SIDE", earlier);
    let offset = entry.length("OFFSET", Span::signed(MEDIUM));
    // Two sides and two ends: the fifth row was caught above.
    let _ = entry.job.squares.push(Square { side, end, offset });
    let _ = entry.notes.squares.push(entry.line);
}

/// `pocket,A|B,DEPTH[,HEIGHT,WIDTH]`
pub(super) fn pocket(entry: &mut Entry) {
    let end: End = entry.word("END");
    entry.once_an_end(Twice::Pocket, end);
    let pocket = Pocket {
        depth: entry.length("DEPTH", Span::above_zero(MEDIUM)),
        height: entry.maybe_length("HEIGHT", Span::above_zero(MEDIUM)),
        width: entry.maybe_length("WIDTH", Span::above_zero(MEDIUM)),
    };
    if let Some(slot) = entry.job.pockets.get_mut(end.index()) {
        *slot = Some(pocket);
    }
}

/// `outstand,SIDE,D[,D,D]`
pub(super) fn outstand(entry: &mut Entry) {
    let side = entry.side("SIDE");
    entry.once_a_side(Twice::Outstand, side);
    let span = Span::above_zero(MEDIUM);
    let measured = [
        Some(entry.length("D", span)),
        entry.maybe_length("SECOND D", span),
        entry.maybe_length("THIRD D", span),
    ];
    if let Some(slot) = entry.job.outstands.get_mut(side.index()) {
        for length in measured.into_iter().flatten() {
            // Three places for three fields.
            let _ = slot.push(length);
        }
    }
}

/// `obstacle,SIDE|both,FROM,TO,solid|access,stays|rides[,NAME]`
pub(super) fn obstacle(entry: &mut Entry) {
    let sides = entry.sides("SIDE", false);
    let from = entry.position("FROM");
    let to = entry.position("TO");
    let kind = match entry.word("SOLID OR ACCESS") {
        InTheWay::Solid => KeepoutKind::Solid,
        InTheWay::Access => KeepoutKind::Access,
    };
    let keepout = Keepout {
        sides,
        from,
        to,
        kind,
        stays: entry.word("STAYS OR RIDES"),
        name: entry.maybe_name("NAME"),
    };
    push_keepout(entry, keepout)
}

/// `zone,FROM,TO,stays|rides[,NAME]`
pub(super) fn zone(entry: &mut Entry) {
    let keepout = Keepout {
        sides: Sides::Both,
        from: entry.position("FROM"),
        to: entry.position("TO"),
        kind: KeepoutKind::Zone,
        stays: entry.word("STAYS OR RIDES"),
        name: entry.maybe_name("NAME"),
    };
    push_keepout(entry, keepout)
}

fn push_keepout(entry: &mut Entry, keepout: Keepout) {
    let _ = entry.notes.keepouts.push(entry.line);
    let pushed = entry.job.keepouts.push(keepout);
    entry.fits(pushed, KEEPOUTS, "obstacles and zones");
}

/// `packing,FROM,TO[,both|SIDE]`
pub(super) fn packing(entry: &mut Entry) {
    let piece = PackingPiece {
        from: entry.position("FROM"),
        to: entry.position("TO"),
        sides: entry.sides("SIDE", true),
    };
    let _ = entry.notes.packing.push(entry.line);
    let pushed = entry.job.packing.push(piece);
    entry.fits(pushed, PACKING_PIECES, "packing pieces");
}

/// `placed,SHIFT`
pub(super) fn placed(entry: &mut Entry) {
    entry.job.placed = Some(entry.length("SHIFT", Span::signed(MEDIUM)));
}
