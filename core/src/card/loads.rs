//! Rows about what bears and what weighs: `support post load duration`.

use super::entry::Entry;
use super::word::LoadForm;
use crate::decimal::Decimal;
use crate::job::loads::LoadSide;
use crate::job::{LOADS, Load, LoadKind, Post, SUPPORTS, Support};
use crate::limits::{Amounts, HEAVIEST, LONG, LONGEST_DURATION, MEDIUM, Span};
use crate::words::Name;

/// `support,NAME,CENTRE,LENGTH,WIDTH,MATERIAL[,ALLOWABLE]`
pub(super) fn support(entry: &mut Entry) {
    let name = support_name(entry);
    let earlier = entry.job.supports.iter().zip(&entry.notes.supports);
    let earlier = earlier
        .filter(|(support, _)| support.name.eq_ignore_ascii_case(&name))
        .map(|(_, line)| *line)
        .next();
    entry.not_twice("NAME", earlier);
    let from_wall = name == "A" || name == "B";
    let size = Span::above_zero(MEDIUM);
    let centre = entry.maybe_position("CENTRE");
    entry.required("CENTRE", from_wall || centre.is_some());
    let length = entry.maybe_length("LENGTH", Span::above_zero(LONG));
    entry.required("LENGTH", from_wall || length.is_some());
    let width = entry.maybe_length("WIDTH", size);
    entry.required("WIDTH", from_wall || width.is_some());
    let support = Support {
        name,
        centre,
        length,
        width,
        material: entry.word("MATERIAL"),
        allowable: entry.maybe_decimal("ALLOWABLE", Amounts::above_zero(HEAVIEST)),
    };
    let _ = entry.notes.supports.push(entry.line);
    let pushed = entry.job.supports.push(support);
    entry.fits(pushed, SUPPORTS, "supports");
}

/// A support's name; those of the walls are capital letters.
fn support_name(entry: &mut Entry) -> Name {
    let mut name = entry.name("NAME");
    if name.eq_ignore_ascii_case("a") || name.eq_ignore_ascii_case("b") {
        name.make_ascii_uppercase();
    }
    name
}

/// `post,SUPPORT NAME,ALLOWABLE[,FOOTING]`
pub(super) fn post(entry: &mut Entry) {
    let support = support_name(entry);
    let earlier = entry.job.posts.iter().zip(&entry.notes.posts);
    let earlier = earlier
        .filter(|(post, _)| post.support.eq_ignore_ascii_case(&support))
        .map(|(_, line)| *line)
        .next();
    entry.not_twice("SUPPORT NAME", earlier);
    let post = Post {
        support,
        allowable: entry.decimal("ALLOWABLE", Amounts::above_zero(HEAVIEST)),
        footing: entry.maybe_decimal("FOOTING", Amounts::above_zero(HEAVIEST)),
    };
    let _ = entry.notes.posts.push(entry.line);
    let pushed = entry.job.posts.push(post);
    entry.fits(pushed, SUPPORTS, "posts");
}

/// `load,area,DEAD,LIVE,TRIBUTARY[,FROM,TO,SIDE]`,
/// `load,line,DEAD,LIVE[,FROM,TO,SIDE]`, `load,point,AT,DEAD,LIVE[,SIDE|top]`
pub(super) fn load(entry: &mut Entry) {
    let load = match entry.word("AREA, LINE OR POINT") {
        LoadForm::Point => point(entry),
        form => spread(entry, form == LoadForm::Area),
    };
    let _ = entry.notes.loads.push(entry.line);
    let pushed = entry.job.loads.push(load);
    entry.fits(pushed, LOADS, "loads");
}

/// Dead and live part.
fn parts(entry: &mut Entry) -> (Decimal, Decimal) {
    let dead = entry.decimal("DEAD", Amounts::from_zero(HEAVIEST));
    let live = entry.decimal("LIVE", Amounts::from_zero(HEAVIEST));
    (dead, live)
}

fn point(entry: &mut Entry) -> Load {
    let at = entry.position("AT");
    let (dead, live) = parts(entry);
    let side = match entry.text() {
        "" => LoadSide::Halves,
        text if text.eq_ignore_ascii_case("top") => LoadSide::Top,
        text => LoadSide::On(entry.as_side("SIDE", text)),
    };
    Load {
        kind: LoadKind::Point { at },
        dead,
        live,
        side,
    }
}

fn spread(entry: &mut Entry, area: bool) -> Load {
    let (dead, live) = parts(entry);
    let tributary = match area {
        true => Some(entry.length("TRIBUTARY", Span::above_zero(LONG))),
        false => None,
    };
    let from = entry.maybe_position("FROM");
    let to = entry.maybe_position("TO");
    let side = match entry.text() {
        "" => LoadSide::Halves,
        text => LoadSide::On(entry.as_side("SIDE", text)),
    };
    let kind = match tributary {
        Some(tributary) => LoadKind::Area {
            tributary,
            from,
            to,
        },
        None => LoadKind::Line { from, to },
    };
    Load {
        kind,
        dead,
        live,
        side,
    }
}

/// `duration,CD`
pub(super) fn duration(entry: &mut Entry) {
    // Source: NDS 2018 Table 2.3.2: 0.9 (permanent) to 2.0 (impact).
    entry.job.duration = Some(entry.decimal("CD", Amounts::above_zero(LONGEST_DURATION)));
}
