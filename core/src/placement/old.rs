//! Holes that are there already: marked and drilled ones as stations of any
//! later plan.
//!
//! In: the job's holes on the ground. Out: them in order along the beam, which
//! two of them make one station, and the ways in which such a station can stand
//! in a plan: which marks stay, and whether it gains a partner.

use super::cost::Cost;
use super::gates::Seen;
use super::ground::{FAR, Ground, MOST_SLACK};
use crate::job::{HOLES, HoleState, Pattern};
use crate::list::take_out;
use crate::words::Row;
use heapless::Vec;

/// One marked or drilled hole, packed small: there may be 240.
#[derive(Clone, Copy, Debug)]
pub(super) struct Old {
    pub x: i32,
    hole: u8,
    flags: u8,
    /// Of the hole, and of a partner at its place.
    slack: [Slack; 2],
}

/// A slack of at most 6 in, in three bytes: finding one again is a look at all
/// that is near.
#[derive(Clone, Copy, Debug)]
struct Slack([u8; 3]);

impl Slack {
    fn of(slack: Option<i32>) -> Slack {
        let slack = slack.unwrap_or(0).clamp(0, MOST_SLACK);
        let [low, middle, high, _] = slack.to_le_bytes();
        Slack([low, middle, high])
    }

    const fn counts(self) -> i32 {
        let [low, middle, high] = self.0;
        i32::from_le_bytes([low, middle, high, 0])
    }
}

const BOT: u8 = 1;
const DRILLED: u8 = 2;
/// One station with the next one.
const JOINED: u8 = 4;
/// Legal with the beam on its mark.
const LEGAL: u8 = 8;
/// A partner at the same x in the other row is legal with the beam on its mark.
const MATE: u8 = 16;
/// Still legal at the shift being looked at.
const BEARS: u8 = 32;
/// The partner is still legal at the shift being looked at.
const MATE_BEARS: u8 = 64;

impl Old {
    fn of(ground: &Ground<'_>, hole: &crate::job::Hole, index: u8) -> Old {
        let x = ground.hole_at(hole);
        let own = ground.slack(hole.row, x);
        let mate = if ground.alike {
            own
        } else {
            ground.slack(hole.row.other(), x)
        };
        let mut old = Old {
            x,
            hole: index,
            flags: 0,
            slack: [own, mate].map(Slack::of),
        };
        old.set(BOT, hole.row == Row::Bot);
        old.set(DRILLED, hole.state == HoleState::Drilled);
        old.set(LEGAL, own.is_some());
        old.set(MATE, mate.is_some());
        old
    }

    /// Largest shift at which the hole stays legal; 0 where it is not.
    pub const fn slack(&self) -> i32 {
        let [own, _] = self.slack;
        own.counts()
    }

    const fn set(&mut self, flag: u8, on: bool) {
        if on {
            self.flags |= flag;
        } else {
            self.flags &= !flag;
        }
    }

    const fn is(&self, flag: u8) -> bool {
        self.flags & flag != 0
    }

    pub const fn row(&self) -> Row {
        if self.is(BOT) { Row::Bot } else { Row::Top }
    }

    pub const fn drilled(&self) -> bool {
        self.is(DRILLED)
    }

    /// One station with the next one.
    pub const fn joined(&self) -> bool {
        self.is(JOINED)
    }

    /// Legal with the beam on its mark.
    pub const fn legal(&self) -> bool {
        self.is(LEGAL)
    }

    /// Whether a partner at the same x is legal with the beam on its mark.
    pub const fn mate(&self) -> bool {
        self.is(MATE)
    }

    /// Index into the job's holes.
    pub const fn hole(&self) -> u8 {
        self.hole
    }

    /// Whether it can stand in a plan at the shift looked at: drilled ones
    /// always do.
    const fn stands(&self) -> bool {
        self.is(DRILLED) || self.is(BEARS)
    }
}

/// Legal at rest, and at the shift looked at: the hole itself, a partner.
const WAYS: [(u8, u8); 2] = [(LEGAL, BEARS), (MATE, MATE_BEARS)];

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

    /// Notes which holes and partners are still legal at shift `t`. The
    /// greatest shift at which the same holds.
    pub fn bear(&mut self, t: i32) -> i32 {
        let mut same_to = i32::MAX;
        for old in self.standing_mut() {
            for ((legal, bears), slack) in WAYS.into_iter().zip(old.slack) {
                let holds = old.is(legal) && slack.counts() >= t;
                old.set(bears, holds);
                if holds {
                    same_to = same_to.min(slack.counts());
                }
            }
        }
        same_to
    }

    /// The greatest shift that so many marks bear.
    pub fn borne_by(&self, marks: i32) -> i32 {
        let bear = |t: i32| {
            let bears = |old: &&Old| !old.drilled() && old.legal() && old.slack() >= t;
            self.iter().filter(bears).count()
        };
        let enough = |t: i32| i32::try_from(bear(t)).is_ok_and(|count| count >= marks);
        last_below(MOST_SLACK + 1, enough)
    }

    /// Whether all stand in a plan that keeps so many marks.
    pub fn all_stand(&self, kept: i32) -> bool {
        self.marks() == kept
    }

    /// How many are marked only.
    pub fn marks(&self) -> i32 {
        let marks = self.iter().filter(|old| !old.drilled()).count();
        i32::try_from(marks).unwrap_or(i32::MAX)
    }

    /// What a plan costs in which all stand and nothing else.
    pub fn cost(&self) -> Cost {
        let stations = (0..self.len()).filter(|i| !self.joined_before(*i)).count();
        let count = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
        let marks = u32::try_from(self.marks()).unwrap_or(0);
        Cost::of(marks, count(stations), count(self.len()))
    }

    /// The smallest greatest spacing of a plan of so many stations in which all
    /// of these stand, by the gaps between them.
    pub fn least_spacing(&self, stations: u32) -> Option<i32> {
        let groups = || (0..self.len()).filter(|i| !self.joined_before(*i));
        let places = || groups().filter_map(|i| self.get(i)).map(|old| old.x);
        let new = usize::try_from(stations)
            .ok()?
            .checked_sub(groups().count())?;
        let gaps = || places().zip(places().skip(1)).map(|(p, q)| q - p);
        let widest = gaps().max()?;
        let needs = |spacing: i32| -> usize {
            let between = gaps().map(|gap| (gap - 1).max(0).div_euclid(spacing));
            between
                .map(|count| usize::try_from(count).unwrap_or(0))
                .sum()
        };
        Some(last_below(widest, |spacing| needs(spacing) > new) + 1)
    }

    /// Whether a hole is the second of a station.
    fn joined_before(&self, index: usize) -> bool {
        let before = index.checked_sub(1).and_then(|before| self.get(before));
        before.is_some_and(Old::joined)
    }

    /// Whether all that stand are legal with the beam on its mark.
    pub fn all_legal(&self) -> bool {
        self.iter().all(Old::legal)
    }

    /// Whether all that stand lie on the lattice.
    pub fn on_lattice(&self, step: i32) -> bool {
        self.iter().all(|old| old.x.rem_euclid(step) == 0)
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

/// The last number below `end` that `holds`, by bisection: it holds at 0, and
/// nowhere beyond where it does not.
fn last_below(end: i32, holds: impl Fn(i32) -> bool) -> i32 {
    let (mut low, mut high) = (0, end);
    while high - low > 1 {
        let next = low + (high - low) / 2;
        if holds(next) {
            low = next;
        } else {
            high = next;
        }
    }
    low
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
        let answered = answered(ground, olds, x, row);
        if answered.is_some_and(|at| take_out(&mut olds.list, at).is_some()) {
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
            old.set(LEGAL, old.legal() && !own);
            old.set(MATE, old.mate() && !other);
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
            first.set(JOINED, true);
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

/// Ways in which a group can stand in a plan, by number: both holes; the first
/// alone, and with a partner gained; the second alone, and with one.
pub(super) const STOPS: u8 = 5;

/// The way of this number at the shift looked at, if the group can stand so.
pub(super) fn stop(ground: &Ground<'_>, group: &Group, option: u8) -> Option<Stop> {
    let (place, gains) = match option {
        0 => return both(&group.first, &group.second?),
        1 | 2 => (0, option == 2),
        3 | 4 => (1, option == 4),
        _ => return None,
    };
    let (hole, other) = if place == 0 {
        (group.first, group.second)
    } else {
        (group.second?, Some(group.first))
    };
    if other.is_some_and(|other| other.drilled()) || !hole.stands() {
        return None;
    }
    if gains {
        with_partner(ground, &hole, place)
    } else {
        alone(ground, &hole, place)
    }
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
    hole.drilled() && !hole.mate()
}

/// Both holes stand: a pair. Of one legal and one illegal hole covers see the
/// legal one, as if it stood alone.
fn both(first: &Old, second: &Old) -> Option<Stop> {
    if !first.stands() || !second.stands() {
        return None;
    }
    let legal = Old::legal;
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
    Some(Stop {
        lo: first.x,
        hi: second.x,
        free_lo: free.iter().flatten().copied().min().unwrap_or(FAR),
        free_hi: free.iter().flatten().copied().max().unwrap_or(-FAR),
        seen,
        single: None,
        partner: None,
        keeps: [true; 2],
        own: Cost::of(kept(first) + kept(second), 1, 2),
    })
}

/// One hole of a group, whatever stands beside it.
fn one(hole: &Old, place: usize) -> Stop {
    Stop {
        lo: hole.x,
        hi: hole.x,
        free_lo: if hole.drilled() { FAR } else { hole.x },
        free_hi: if hole.drilled() { -FAR } else { hole.x },
        seen: hole.legal().then_some(seen_alone(hole)),
        single: Some(hole.row()),
        partner: None,
        keeps: [place == 0, place == 1],
        own: Cost::of(kept(hole), 1, 1),
    }
}

/// One hole stands alone. Where every station is a pair it does so only if it
/// is drilled and no partner is legal.
fn alone(ground: &Ground<'_>, hole: &Old, place: usize) -> Option<Stop> {
    let may = ground.rule.pattern != Pattern::Paired || lone(hole);
    may.then(|| one(hole, place))
}

/// One hole stands with a partner at its place. Of an illegal hole and its
/// legal partner covers see the partner.
fn with_partner(ground: &Ground<'_>, hole: &Old, place: usize) -> Option<Stop> {
    let pattern = ground.rule.pattern;
    let asked = hole.legal() || pattern == Pattern::Paired;
    let may = pattern != Pattern::Single && asked && hole.is(MATE_BEARS);
    may.then(|| Stop {
        seen: Some(Seen::at(hole.x, hole.legal())),
        single: None,
        partner: Some((hole.row().other(), hole.x)),
        own: Cost::of(kept(hole), 1, 2),
        ..one(hole, place)
    })
}

impl Stop {
    /// Whether `self` may stand next before `next`, by the least spacing. It is
    /// waived between two drilled holes.
    pub fn clears(&self, next: &Stop, s_min: i32) -> bool {
        next.lo.saturating_sub(self.free_hi) >= s_min
            && next.free_lo.saturating_sub(self.hi) >= s_min
    }
}
