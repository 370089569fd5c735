//! Rows about bolts: `seated standoff bolt washer nut gap lattice play pattern rows
//! spacing ends near marked drilled abandoned`.

use super::entry::Entry;
use super::notes::Twice;
use super::word::{Answer, Bolts};
use super::{Kind, Wrong};
use crate::job::{
    Bolt, Ends, HOLES, Hole, HoleState, NEARS, Near, Nut, PatternRows, Spacing, Washer,
};
use crate::limits::{
    Amounts, COARSEST_STEP, FINEST_STEP, LONG, MEDIUM, SMALL, STRONGEST, Span, THICKEST_BOLT,
};
use crate::words::{Side, Sides};

/// `seated,yes|no`
pub(super) fn seated(entry: &mut Entry) {
    let answer: Answer = entry.word("YES OR NO");
    entry.job.seated = Some(answer == Answer::Yes);
}

/// `standoff,GAP`
pub(super) fn standoff(entry: &mut Entry) {
    entry.job.standoff = Some(entry.length("GAP", Span::from_zero(SMALL)));
}

/// `bolt,DIAMETER[,WEB HOLE,WOOD HOLE,FYB]`
pub(super) fn bolt(entry: &mut Entry) {
    let diameter = entry.length("DIAMETER", Span::above_zero(THICKEST_BOLT));
    let mut hole = |field| {
        let hole = entry.maybe_length(field, Span::above_zero(SMALL));
        if hole.is_some_and(|hole| hole < diameter) {
            entry.refuse(field, Wrong::HoleBelowBolt { bolt: diameter });
        }
        hole
    };
    let (web_hole, wood_hole) = (hole("WEB HOLE"), hole("WOOD HOLE"));
    entry.job.bolt = Some(Bolt {
        diameter,
        web_hole,
        wood_hole,
        fyb: entry.maybe_decimal("FYB", Amounts::above_zero(STRONGEST)),
    });
}

/// `washer,SIDE|both,SIZE,round|square|turns[,THICKNESS]`
pub(super) fn washer(entry: &mut Entry) {
    let sides = entry.sides("SIDE", false);
    for side in Side::BOTH {
        if sides == Sides::Both || sides == Sides::One(side) {
            entry.once_a_side(Twice::Washer, side);
        }
    }
    let washer = Washer {
        size: entry.length("SIZE", Span::above_zero(SMALL)),
        shape: entry.word("SHAPE"),
        thickness: entry.maybe_length("THICKNESS", Span::above_zero(SMALL)),
    };
    for (side, slot) in Side::BOTH.into_iter().zip(&mut entry.job.washers) {
        if sides.holds(side) {
            *slot = Some(washer);
        }
    }
}

/// `nut,THICKNESS[,ACROSS CORNERS]`
pub(super) fn nut(entry: &mut Entry) {
    entry.job.nut = Some(Nut {
        thickness: entry.length("THICKNESS", Span::above_zero(SMALL)),
        across_corners: entry.maybe_length("ACROSS CORNERS", Span::above_zero(SMALL)),
    });
}

/// `gap,CLEAR`
pub(super) fn gap(entry: &mut Entry) {
    entry.job.gap = Some(entry.length("CLEAR", Span::from_zero(SMALL)));
}

/// `lattice,STEP`
pub(super) fn lattice(entry: &mut Entry) {
    let span = Span::between(FINEST_STEP, COARSEST_STEP);
    entry.job.lattice = Some(entry.length("STEP", span));
}

/// `play,WANTED`
pub(super) fn play(entry: &mut Entry) {
    entry.job.play = Some(entry.length("WANTED", Span::from_zero(MEDIUM)));
}

/// `pattern,single|staggered|paired`
pub(super) fn pattern(entry: &mut Entry) {
    entry.job.pattern = Some(entry.word("PATTERN"));
}

/// `rows,TOP,BOT`
pub(super) fn rows(entry: &mut Entry) {
    let top = entry.length("TOP", Span::above_zero(MEDIUM));
    let bot = entry.length("BOT", Span::from_zero(MEDIUM));
    if top <= bot {
        entry.refuse_at("TOP", "", Wrong::RowsCrossed);
    }
    entry.job.rows = Some(PatternRows { top, bot });
}

/// `spacing,S,every|row[,HOLD BACK,MINIMUM]`
pub(super) fn spacing(entry: &mut Entry) {
    entry.job.spacing = Some(Spacing {
        spacing: entry.length("S", Span::above_zero(LONG)),
        basis: entry.word("EVERY OR ROW"),
        hold_back: entry.maybe_length("HOLD BACK", Span::from_zero(LONG)),
        minimum: entry.maybe_length("MINIMUM", Span::above_zero(LONG)),
    });
}

/// `ends,E_MIN,E_MAX[,single|paired]`
pub(super) fn ends(entry: &mut Entry) {
    let least = entry.length("E_MIN", Span::from_zero(LONG));
    let most = entry.length("E_MAX", Span::above_zero(LONG));
    if least > most {
        entry.refuse("E_MAX", Wrong::EndsCrossed { least, most });
    }
    let bolts: Option<Bolts> = entry.maybe_word("SINGLE OR PAIRED");
    let paired = bolts.map(|bolts| bolts == Bolts::Paired);
    entry.job.ends = Some(Ends {
        least,
        most,
        paired,
    });
}

/// `near,AT,WITHIN,one|each,single|paired[,NAME]`
pub(super) fn near(entry: &mut Entry) {
    let at = entry.position("AT");
    let within = entry.length("WITHIN", Span::from_zero(LONG));
    let reach = entry.word("ONE OR EACH");
    let bolts: Bolts = entry.word("SINGLE OR PAIRED");
    let near = Near {
        at,
        within,
        reach,
        paired: bolts == Bolts::Paired,
        name: entry.maybe_name("NAME"),
    };
    let _ = entry.notes.nears.push(entry.line);
    let pushed = entry.job.nears.push(near);
    entry.fits(pushed, NEARS, "rows near");
}

/// `marked,AT,top|bot`, `drilled,AT,top|bot`, `abandoned,AT,top|bot`
pub(super) fn hole(entry: &mut Entry) {
    let state = match entry.kind {
        Kind::Marked => HoleState::Marked,
        Kind::Drilled => HoleState::Drilled,
        _ => HoleState::Abandoned,
    };
    let hole = Hole::new(entry.position("AT"), entry.word("ROW"), state);
    let _ = entry.notes.holes.push(entry.line);
    let pushed = entry.job.holes.push(hole);
    entry.fits(pushed, HOLES, "holes");
}
