//! Holes that are there already: marked and drilled ones as stations of any
//! later plan.
//!
//! In: the job's holes on the ground. Out: them in order along the beam, which
//! two of them make one station, and the ways in which such a station can stand
//! in a plan: which marks stay, and whether it gains a partner.

use super::cost::Cost;
use super::gates::Seen;
use super::ground::{FAR, Ground};
use crate::job::{HOLES, HoleState, Pattern};
use crate::words::Row;
use heapless::Vec;

/// One marked or drilled hole, packed small: there may be 240.
#[derive(Clone, Copy, Debug)]
pub(super) struct Old {
    pub x: i32,
    /// Slack plus one in the low bits (0: never legal), then the flags.
    own: u32,
    /// The same of a partner, then the index of the hole.
    other: u32,
}

/// Bits of a slack: up to 6 in.
const SLACK: u32 = (1 << 24) - 1;
const BOT: u32 = 1 << 31;
const DRILLED: u32 = 1 << 30;
const JOINED: u32 = 1 << 29;

/// Slack plus one, 0 for never.
fn packed(slack: Option<i32>) -> u32 {
    slack
        .and_then(|s| u32::try_from(s).ok())
        .map_or(0, |s| (s + 1) & SLACK)
}

/// The slack; negative for never.
fn unpacked(word: u32) -> i32 {
    i32::try_from(word & SLACK).unwrap_or(0) - 1
}

impl Old {
    fn of(ground: &Ground<'_>, hole: &crate::job::Hole, index: u8) -> Old {
        let x = ground.hole_at(hole);
        let bot = if hole.row == Row::Bot { BOT } else { 0 };
        let drilled = if hole.state == HoleState::Drilled {
            DRILLED
        } else {
            0
        };
        Old {
            x,
            own: packed(ground.slack(hole.row, x)) | bot | drilled,
            other: packed(ground.slack(hole.row.other(), x)) | u32::from(index) << 24,
        }
    }

    /// Slack of the hole; negative where it is not legal with the beam on its mark.
    pub fn slack(&self) -> i32 {
        unpacked(self.own)
    }

    /// Slack of a partner at the same x in the other row; negative: not legal.
    pub fn mate(&self) -> i32 {
        unpacked(self.other)
    }

    pub const fn row(&self) -> Row {
        if self.own & BOT == 0 {
            Row::Top
        } else {
            Row::Bot
        }
    }

    pub const fn drilled(&self) -> bool {
        self.own & DRILLED != 0
    }

    /// One station with the next one.
    pub const fn joined(&self) -> bool {
        self.own & JOINED != 0
    }

    /// Index into the job's holes.
    pub const fn hole(&self) -> u8 {
        (self.other >> 24) as u8
    }

    const fn never(&mut self) {
        self.own &= !SLACK;
    }

    const fn no_mate(&mut self) {
        self.other &= !SLACK;
    }
}

/// The marked and drilled holes by x, top first; behind them, out of sight of
/// all that walks the list, the abandoned ones by x.
pub(super) struct Olds {
    list: Vec<Old, HOLES, u8>,
    standing: usize,
}

impl Olds {
    pub const fn new() -> Self {
        Olds {
            list: Vec::new(),
            standing: 0,
        }
    }

    /// The abandoned holes, by x.
    pub fn abandoned(&self) -> &[Old] {
        self.list.get(self.standing..).unwrap_or(&[])
    }

    fn standing_mut(&mut self) -> &mut [Old] {
        self.list.get_mut(..self.standing).unwrap_or(&mut [])
    }
}

impl core::ops::Deref for Olds {
    type Target = [Old];

    fn deref(&self) -> &[Old] {
        self.list.get(..self.standing).unwrap_or(&[])
    }
}

/// Collects the holes that stand: of a mark that a drilled hole answers only
/// the drilled hole is left on the card.
pub(super) fn collect(ground: &Ground<'_>, olds: &mut Olds) {
    let is_abandoned = |state: HoleState| state == HoleState::Abandoned;
    olds.list.clear();
    for abandoned in [false, true] {
        let before = olds.list.len();
        for (hole, index) in ground.job.holes.iter().zip(0_u8..) {
            if is_abandoned(hole.state) == abandoned {
                let _ = olds.list.push(Old::of(ground, hole, index));
            }
        }
        if let Some(added) = olds.list.get_mut(before..) {
            added.sort_unstable_by_key(|old| (old.x, old.row(), old.hole()));
        }
        if !abandoned {
            olds.standing = olds.list.len();
        }
    }
    drop_answered(ground, olds);
    keep_apart(ground, olds);
    join(ground, olds);
}

/// Drilling answers and removes the nearest mark of its row within half the
/// least spacing, in card order, tie toward A.
fn drop_answered(ground: &Ground<'_>, olds: &mut Olds) {
    for index in 0..ground.job.holes.len() {
        let drilled = olds
            .iter()
            .find(|o| usize::from(o.hole()) == index && o.drilled());
        let Some((x, row)) = drilled.map(|o| (o.x, o.row())) else {
            continue;
        };
        if let Some(answered) = answered(ground, olds, x, row) {
            olds.list.remove(answered);
            olds.standing -= 1;
        }
    }
}

/// The mark that a hole drilled at `x` answers.
fn answered(ground: &Ground<'_>, olds: &Olds, x: i32, row: Row) -> Option<usize> {
    let reach = i64::from(ground.rule.s_min.counts());
    olds.iter()
        .enumerate()
        .filter(|(_, o)| !o.drilled() && o.row() == row)
        .filter(|(_, o)| 2 * i64::from((o.x - x).abs()) <= reach)
        .min_by_key(|(_, o)| ((o.x - x).abs(), o.x))
        .map(|(at, _)| at)
}

/// A drilled hole nearer than the least spacing to another drilled one of its
/// row is not legal, and no partner is legal beside one.
fn keep_apart(ground: &Ground<'_>, olds: &mut Olds) {
    let s_min = ground.rule.s_min.counts();
    for index in 0..olds.len() {
        let Some(&old) = olds.get(index) else {
            continue;
        };
        let crowded = |row: Row| {
            olds.iter().any(|o| {
                o.drilled()
                    && o.hole() != old.hole()
                    && o.row() == row
                    && (o.x - old.x).abs() < s_min
            })
        };
        let (own, other) = (
            old.drilled() && crowded(old.row()),
            crowded(old.row().other()),
        );
        if let Some(old) = olds.standing_mut().get_mut(index) {
            if own {
                old.never();
            }
            if other {
                old.no_mate();
            }
        }
    }
}

/// Two neighbours of different rows at most D apart are one station.
fn join(ground: &Ground<'_>, olds: &mut Olds) {
    let diameter = ground.rule.diameter.counts();
    let mut index = 0;
    while let (Some(&first), Some(&second)) = (olds.get(index), olds.get(index + 1)) {
        let one = first.row() != second.row() && second.x - first.x <= diameter;
        if let (true, Some(first)) = (one, olds.standing_mut().get_mut(index)) {
            first.own |= JOINED;
        }
        index += if one { 2 } else { 1 };
    }
}

/// The holes of one station: one, or two that are joined.
#[derive(Clone, Copy, Debug)]
pub(super) struct Group {
    pub first: Old,
    pub second: Option<Old>,
}

impl Group {
    /// The station whose last hole is the one of this index.
    pub fn ending_at(olds: &Olds, index: usize) -> Option<Group> {
        let last = *olds.get(index)?;
        let before = index.checked_sub(1).and_then(|i| olds.get(i)).copied();
        Some(match before {
            Some(first) if first.joined() => Group {
                first,
                second: Some(last),
            },
            _ => Group {
                first: last,
                second: None,
            },
        })
    }

    /// How many holes it has.
    pub fn len(&self) -> usize {
        1 + usize::from(self.second.is_some())
    }

    /// Its first hole's place.
    pub fn lo(&self) -> i32 {
        self.first.x
    }

    /// Whether every plan must hold it.
    pub fn bound(&self) -> bool {
        self.first.drilled() || self.second.is_some_and(|s| s.drilled())
    }
}

/// One way in which old holes stand in a plan.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stop {
    /// Span of all its holes.
    pub lo: i32,
    pub hi: i32,
    /// Span of the holes that are not drilled, partners at a drilled hole's
    /// place left out: these keep the least spacing, drilled ones broke it.
    pub free_lo: i32,
    pub free_hi: i32,
    /// As covers see it; `None`: an illegal hole satisfies none.
    pub seen: Option<Seen>,
    /// Row of a single; `None` for a pair, which takes the next turn.
    pub single: Option<Row>,
    /// Row of a partner to be added, at the place of the hole kept.
    pub partner: Option<(Row, i32)>,
    /// Which of the two holes stand.
    pub keeps: [bool; 2],
    pub own: Cost,
}

/// Ways in which a station can stand: at most two holes kept, partners added.
pub(super) type Stops = Vec<Stop, 6, u8>;

/// All ways in which a group can stand in a plan at shift `t`.
pub(super) fn stops(ground: &Ground<'_>, group: &Group, t: i32) -> Stops {
    let mut stops = Stops::new();
    if let Some(second) = group.second
        && stands(&group.first, t)
        && stands(&second, t)
    {
        let _ = stops.push(both(&group.first, &second));
    }
    let holes = [Some(group.first), group.second];
    for (place, hole) in holes.into_iter().enumerate() {
        let Some(hole) = hole else { continue };
        let other = if place == 0 {
            group.second
        } else {
            Some(group.first)
        };
        if other.is_some_and(|o| o.drilled()) || !stands(&hole, t) {
            continue;
        }
        alone(ground, &hole, t, place, &mut stops);
    }
    stops
}

/// Whether a hole can stand in a plan: drilled ones always do.
fn stands(old: &Old, t: i32) -> bool {
    old.drilled() || old.slack() >= t
}

fn kept(old: &Old) -> u32 {
    u32::from(!old.drilled())
}

/// A hole by itself as covers see it: a drilled one without a legal partner
/// counts as the pair.
fn seen_alone(hole: &Old) -> Seen {
    Seen {
        lone: lone(hole),
        ..Seen::at(hole.x, lone(hole))
    }
}

/// Drilled, and no partner is legal.
fn lone(hole: &Old) -> bool {
    hole.drilled() && hole.mate() < 0
}

/// Both holes stand: a pair. Of one legal and one illegal hole covers see the
/// legal one, as if it stood alone.
fn both(first: &Old, second: &Old) -> Stop {
    let legal = |old: &Old| old.slack() >= 0;
    let seen = match (legal(first), legal(second)) {
        (true, true) => Some(Seen {
            lo: first.x,
            hi: second.x,
            pair: true,
            lone: lone(first) || lone(second),
        }),
        (true, false) => Some(seen_alone(first)),
        (false, true) => Some(seen_alone(second)),
        (false, false) => None,
    };
    let free = [first, second].map(|o| (!o.drilled()).then_some(o.x));
    Stop {
        lo: first.x,
        hi: second.x,
        free_lo: free.iter().flatten().copied().min().unwrap_or(FAR),
        free_hi: free.iter().flatten().copied().max().unwrap_or(-FAR),
        seen,
        single: None,
        partner: None,
        keeps: [true; 2],
        own: Cost::of(kept(first) + kept(second), 1, 2),
    }
}

/// One hole stands: alone, or with a partner at its place.
fn alone(ground: &Ground<'_>, hole: &Old, t: i32, place: usize, stops: &mut Stops) {
    let pattern = ground.rule.pattern;
    let legal = hole.slack() >= 0;
    let mate_never = hole.mate() < 0;
    let one = Stop {
        lo: hole.x,
        hi: hole.x,
        free_lo: if hole.drilled() { FAR } else { hole.x },
        free_hi: if hole.drilled() { -FAR } else { hole.x },
        seen: legal.then_some(seen_alone(hole)),
        single: Some(hole.row()),
        partner: None,
        keeps: [place == 0, place == 1],
        own: Cost::of(kept(hole), 1, 1),
    };
    // Where every station is a pair a hole stands alone only if it is drilled
    // and no partner is legal.
    if pattern != Pattern::Paired || (hole.drilled() && mate_never) {
        let _ = stops.push(one);
    }
    let asked = legal || pattern == Pattern::Paired;
    if pattern != Pattern::Single && asked && hole.mate() >= t && !mate_never {
        let _ = stops.push(Stop {
            // Of an illegal hole and its legal partner covers see the partner.
            seen: Some(Seen::at(hole.x, legal)),
            single: None,
            partner: Some((hole.row().other(), hole.x)),
            own: Cost::of(kept(hole), 1, 2),
            ..one
        });
    }
}

impl Stop {
    /// Whether `self` may stand next before `next`, by the least spacing. It is
    /// waived between two drilled holes.
    pub fn clears(&self, next: &Stop, s_min: i32) -> bool {
        next.lo.saturating_sub(self.free_hi) >= s_min
            && next.free_lo.saturating_sub(self.hi) >= s_min
    }
}
