//! Rows about what is on hand: `layer face service wood rod offcut kerf trim
//! projection spare piece cut`.

use super::Kind;
use super::entry::Entry;
use super::word::Answer;
use crate::decimal::Decimal;
use crate::job::{
    BARS_CUT, BarsCut, Face, LAYERS, Layer, Moisture, OTHER_PIECES, OtherPiece, STICKS, Stick,
    StickSource,
};
use crate::limits::{Amounts, LONG, MANY, SMALL, Span, WETTEST};

/// `layer,NAME,THICKNESS,solid|sheet[,MOISTURE,COUNT]`
pub(super) fn layer(entry: &mut Entry) {
    let layer = Layer {
        name: entry.name("NAME"),
        thickness: entry.length("THICKNESS", Span::above_zero(SMALL)),
        kind: entry.word("SOLID OR SHEET"),
        moisture: moisture(entry),
        count: entry.maybe_count("COUNT", 0, MANY),
    };
    let pushed = entry.job.layers.push(layer);
    entry.fits(pushed, LAYERS, "layers");
}

/// `green` or percent, with or without its sign.
fn moisture(entry: &mut Entry) -> Option<Moisture> {
    match entry.text() {
        "" => None,
        text if text.eq_ignore_ascii_case("green") => Some(Moisture::Green),
        text => Some(Moisture::Percent(percent(entry, text))),
    }
}

/// Percent, with or without its sign.
fn percent(entry: &mut Entry, text: &str) -> Decimal {
    let percent = text.strip_suffix('%').unwrap_or(text);
    entry.as_decimal("MOISTURE", percent, Amounts::from_zero(WETTEST))
}

/// `face,SHY,PROUD[,AIM]`
pub(super) fn face(entry: &mut Entry) {
    entry.job.face = Some(Face {
        shy: entry.length("SHY", Span::from_zero(SMALL)),
        proud: entry.length("PROUD", Span::from_zero(SMALL)),
        aim: entry.maybe_length("AIM", Span::signed(SMALL)),
    });
}

/// `service,MOISTURE`
pub(super) fn service(entry: &mut Entry) {
    let text = entry.filled("MOISTURE");
    entry.job.service = Some(percent(entry, text));
}

/// `wood,SPECIES`
pub(super) fn wood(entry: &mut Entry) {
    entry.job.wood = Some(entry.word("SPECIES"));
}

/// `rod,LENGTH[,COUNT]` and `offcut,LENGTH,COUNT`
pub(super) fn stick(entry: &mut Entry) {
    let length = entry.length("LENGTH", Span::above_zero(LONG));
    let (count, source) = match entry.kind {
        Kind::Rod => (entry.maybe_count("COUNT", 0, MANY), StickSource::Rod),
        _ => (Some(entry.count("COUNT", 0, MANY)), StickSource::Offcut),
    };
    let stick = Stick {
        length,
        count,
        source,
    };
    let pushed = entry.job.sticks.push(stick);
    entry.fits(pushed, STICKS, "rods and offcuts");
}

/// `kerf,WIDTH`
pub(super) fn kerf(entry: &mut Entry) {
    entry.job.kerf = Some(entry.length("WIDTH", Span::from_zero(SMALL)));
}

/// `trim,yes|no`
pub(super) fn trim(entry: &mut Entry) {
    let answer: Answer = entry.word("YES OR NO");
    entry.job.trim = Some(answer == Answer::Yes);
}

/// `projection,LENGTH`
pub(super) fn projection(entry: &mut Entry) {
    entry.job.projection = Some(entry.length("LENGTH", Span::from_zero(SMALL)));
}

/// `spare,COUNT`
pub(super) fn spare(entry: &mut Entry) {
    entry.job.spare = Some(entry.count("COUNT", 0, MANY));
}

/// `piece,LENGTH,COUNT[,NAME]`
pub(super) fn piece(entry: &mut Entry) {
    let piece = OtherPiece {
        length: entry.length("LENGTH", Span::above_zero(LONG)),
        count: entry.count("COUNT", 1, MANY),
        name: entry.maybe_name("NAME"),
    };
    let pushed = entry.job.pieces.push(piece);
    entry.fits(pushed, OTHER_PIECES, "other pieces");
}

/// `cut,LIST,BARS`
pub(super) fn cut(entry: &mut Entry) {
    let list = entry.name("LIST");
    let same = |cut: &BarsCut| cut.list.eq_ignore_ascii_case(&list);
    let place = entry.job.bars_cut.iter().position(same);
    let earlier = place.and_then(|place| entry.notes.cuts.get(place).copied());
    entry.not_twice("LIST", earlier);
    let bars = entry.count("BARS", 1, MANY);
    let pushed = entry.job.bars_cut.push(BarsCut { list, bars });
    entry.fits(pushed, BARS_CUT, "cut lists");
    // One line a row of the job: there is room.
    let _ = entry.notes.cuts.push(entry.line);
}
