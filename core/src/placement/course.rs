//! The course: what a chain of stations has to run through at one shift and
//! one greatest spacing. Windows, gates, bare stretches, old holes.
//!
//! A course can be mirrored end for end, so that the one sweep that asks "what
//! does the rest cost from here?" also answers "how far does a chain get?".

use super::gates::{Ask, Gate, Gates, Seen, gates};
use super::ground::{FAR, Ground};
use super::old::{Group, Olds, STOPS, Stop, stop};
use super::windows::bare_stretches;
use super::{PlaceError, Run, Runs};
use crate::job::Pattern;
use crate::words::Row;
use heapless::Vec;

/// A stretch that a chain may step across though it is wider than s_max: from
/// at most `p` to at least `q`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Step {
    pub p: i32,
    pub q: i32,
    /// Allowed by the engineer for this one stretch only: from p to q exactly.
    pub asked: bool,
}

/// Lattice indices at which something changes for the stations beside them.
type Cuts = Vec<u16, 160, u8>;

/// See the module.
pub(super) struct Course<'a> {
    pub ground: &'a Ground<'a>,
    pub olds: &'a Olds,
    pub runs: &'a [Runs; 2],
    pub gates: Gates,
    pub steps: Vec<Step, 12, u8>,
    pub cuts: Cuts,
    pub pattern: Pattern,
    /// Nothing tells the rows apart, so turns bind nobody: a new station finds
    /// either row legal. Rows are told at the end.
    pub alike: bool,
    /// A bare stretch longer than this waives the greatest spacing.
    bare_limit: i64,
    /// Lattice step, counts.
    pub step: i32,
    pub s_min: i32,
    pub s_max: i32,
    /// The same in lattice steps: up, and down.
    pub least: i32,
    pub most: i32,
    /// Last lattice index on the steel.
    pub last: i32,
    pub mirrored: bool,
    /// No station before this can end the chain.
    pub end_from: i32,
    /// No station beyond this can begin it.
    pub start_to: i32,
}

impl<'a> Course<'a> {
    /// Compiles the part that no shift or spacing changes, for what runs through it:
    /// it is more than a kilobyte, and is made in the one place where it stays.
    pub fn with<T>(
        ground: &'a Ground<'a>,
        olds: &'a Olds,
        runs: &'a [Runs; 2],
        then: impl FnOnce(&mut Course<'a>) -> Result<T, PlaceError>,
    ) -> Result<T, PlaceError> {
        let mut course = Course {
            ground,
            olds,
            runs,
            gates: Gates::new(),
            steps: Vec::new(),
            cuts: Vec::new(),
            pattern: ground.rule.pattern,
            alike: ground.alike,
            bare_limit: 0,
            step: ground.rule.step.counts(),
            s_min: ground.rule.s_min.counts(),
            s_max: 0,
            least: 0,
            most: 0,
            last: 0,
            mirrored: false,
            end_from: 0,
            start_to: 0,
        };
        course.lay()?;
        then(&mut course)
    }

    #[inline(never)]
    fn lay(&mut self) -> Result<(), PlaceError> {
        gates(self.ground, &mut self.gates)?;
        self.last = self.down(self.ground.length);
        self.least = self.up(self.s_min);
        self.allow(self.ground.rule.s_max.counts());
        self.lay_steps();
        self.finish();
        Ok(())
    }

    /// The same course seen from end B.
    pub fn mirror(&mut self) {
        self.mirrored = !self.mirrored;
        let flip = self.last * self.step;
        for gate in &mut self.gates {
            let (min, max) = (flip - gate.max, flip - gate.min);
            *gate = Gate {
                cut: flip - gate.cut + 1,
                min,
                max,
                at: flip - gate.at,
                ask: match gate.ask {
                    Ask::Land => Ask::Leave,
                    Ask::Leave => Ask::Land,
                    Ask::Nearest => Ask::NearestBack,
                    Ask::NearestBack => Ask::Nearest,
                    Ask::Either => Ask::Either,
                },
                ..*gate
            };
        }
        self.gates.sort_unstable();
        for step in &mut self.steps {
            (step.p, step.q) = (flip - step.q, flip - step.p);
        }
        self.finish();
    }

    /// Sets the greatest spacing.
    pub fn allow(&mut self, s_max: i32) {
        self.s_max = s_max;
        self.most = s_max.div_euclid(self.step);
    }

    /// First lattice index at or beyond `x`.
    pub fn up(&self, x: i32) -> i32 {
        x.div_euclid(self.step) + i32::from(x.rem_euclid(self.step) > 0)
    }

    /// Last lattice index at or before `x`.
    pub fn down(&self, x: i32) -> i32 {
        x.div_euclid(self.step)
    }

    /// Bare stretches wide enough that the greatest spacing does not count.
    fn lay_steps(&mut self) {
        self.bare_limit = self.ground.bare_limit();
        let ends = self.olds.first().zip(self.olds.last());
        for (p, q) in bare_stretches(self.ground) {
            // Beyond the packing only holes that are there already stand.
            let p = if p > -FAR {
                p
            } else {
                ends.map_or(FAR, |(first, _)| first.x)
            };
            let q = if q < FAR {
                q
            } else {
                ends.map_or(-FAR, |(_, last)| last.x)
            };
            if i64::from(q) - i64::from(p) > self.bare_limit {
                let _ = self.steps.push(Step { p, q, asked: false });
            }
        }
        if let Some((p, q)) = self.ground.relaxed.stretch {
            let (p, q) = (p.counts(), q.counts());
            let _ = self.steps.push(Step { p, q, asked: true });
        }
    }

    /// Cuts and the last place to end, once gates and steps stand.
    fn finish(&mut self) {
        self.cuts.clear();
        self.end_from = -FAR;
        self.start_to = FAR;
        for index in 0..self.gates.len() {
            let Some(&gate) = self.gates.get(index) else {
                continue;
            };
            for place in [gate.cut, gate.min, gate.max.saturating_add(1), gate.at] {
                self.cut(self.up(place));
            }
            self.end_from = self.end_from.max(match gate.ask {
                Ask::Land => gate.cut,
                _ => gate.min,
            });
            self.start_to = self.start_to.min(match gate.ask {
                Ask::Leave => gate.cut - 1,
                _ => gate.max,
            });
        }
        for index in 0..self.steps.len() {
            let Some(&step) = self.steps.get(index) else {
                continue;
            };
            self.cut(self.down(step.p) + 1);
            self.cut(self.up(step.p));
            self.cut(self.up(step.q));
        }
        self.cuts.sort_unstable_by(|a, b| b.cmp(a));
    }

    fn cut(&mut self, index: i32) {
        if let (Ok(cut), true) = (u16::try_from(index), index <= self.last) {
            let _ = self.cuts.push(cut);
        }
    }

    /// The run of `row` that is the `nth` from the far end.
    pub fn run(&self, row: Row, nth: usize) -> Option<(i32, i32)> {
        let [top, bot] = self.runs;
        let runs = if row == Row::Top { top } else { bot };
        let both_ways = |run: &Run| (i32::from(run.from), i32::from(run.to));
        if self.mirrored {
            let (from, to) = both_ways(runs.get(nth)?);
            return Some((self.last - to, self.last - from));
        }
        let nth = runs.len().checked_sub(nth + 1)?;
        runs.get(nth).map(both_ways)
    }

    /// The group that is next toward the near end, `done` holes in.
    pub fn group(&self, done: usize) -> Option<Group> {
        if self.mirrored {
            let first = *self.olds.get(done)?;
            let second = if first.joined() {
                self.olds.get(done + 1).copied()
            } else {
                None
            };
            return Some(Group { first, second });
        }
        Group::ending_at(self.olds, self.olds.len().checked_sub(done + 1)?)
    }

    /// Index of the first hole of a group among the olds, `done` holes in.
    pub fn index_of(&self, group: &Group, done: usize) -> u8 {
        let index = if self.mirrored {
            done
        } else {
            self.olds.len().saturating_sub(done + group.len())
        };
        u8::try_from(index).unwrap_or(u8::MAX)
    }

    /// Whether a drilled hole is among those toward the near end, `done` in.
    pub fn olds_left(&self, done: usize) -> bool {
        let left = self.olds.len().saturating_sub(done);
        let skipped = if self.mirrored { done } else { 0 };
        self.olds
            .iter()
            .skip(skipped)
            .take(left)
            .any(|old| old.drilled())
    }

    /// The group whose station has this hole of the olds first.
    pub fn group_of(&self, index: u8) -> Option<Group> {
        let first = *self.olds.get(usize::from(index))?;
        let second = if first.joined() {
            self.olds.get(usize::from(index) + 1).copied()
        } else {
            None
        };
        Some(Group { first, second })
    }

    /// Where the station that begins with this old hole begins, if every plan
    /// must hold it. On a course that is not mirrored.
    pub fn bound_at(&self, index: usize) -> Option<i32> {
        let joined_before = index.checked_sub(1).and_then(|i| self.olds.get(i));
        if joined_before.is_some_and(|old| old.joined()) {
            return None;
        }
        let group = self.group_of(u8::try_from(index).ok()?)?;
        group.bound().then_some(group.lo())
    }

    /// Where a group begins, as seen on this course.
    pub fn group_lo(&self, group: &Group) -> i32 {
        if self.mirrored {
            self.last * self.step - group.second.map_or(group.first.x, |s| s.x)
        } else {
            group.lo()
        }
    }

    /// The way of this number in which a group can stand, as seen on this course.
    pub fn stop(&self, group: &Group, option: u8) -> Option<Stop> {
        let stop = stop(self.ground, group, option)?;
        Some(if self.mirrored {
            mirrored_stop(&stop, self.last * self.step)
        } else {
            stop
        })
    }

    /// All ways in which a group can stand, with their numbers.
    pub fn stops(&self, group: &Group) -> impl Iterator<Item = (u8, Stop)> {
        (0..STOPS).filter_map(|option| Some((option, self.stop(group, option)?)))
    }

    /// Those that a plan may hold: where rows take turns a hole gains a partner
    /// only where a gate asks for a pair.
    pub fn stops_of_use(&self, group: &Group) -> impl Iterator<Item = (u8, Stop)> {
        let staggered = self.pattern == Pattern::Staggered;
        self.stops(group).filter(move |(_, stop)| {
            let gained = stop.partner.is_some() && staggered;
            !gained || self.wants_pair(stop.lo)
        })
    }

    /// Whether a pair standing here can serve a gate.
    pub fn wants_pair(&self, x: i32) -> bool {
        self.gates.iter().any(|gate| gate.wants_pair_at(x))
    }

    /// Whether rows take turns.
    pub fn turns(&self) -> bool {
        self.pattern == Pattern::Staggered && !self.alike
    }

    /// The farthest place after y that no greatest spacing forbids, where it is
    /// waived between y and z.
    pub fn waiver(&self, y: i32, z: i32) -> Option<i32> {
        let waives = |step: &&Step| {
            let bare = i64::from(z.min(step.q)) - i64::from(y.max(step.p));
            if step.asked {
                y == step.p && z == step.q
            } else {
                bare > self.bare_limit
            }
        };
        let step = self.steps.iter().find(waives)?;
        Some(if step.asked { step.q } else { FAR })
    }

    /// Whether two neighbouring legal stations satisfy every gate between them.
    pub fn lets(&self, before: Seen, beyond: Seen) -> bool {
        self.gates
            .iter()
            .filter(|gate| gate.crosses(before, beyond))
            .all(|gate| gate.lets(before, beyond))
    }
}

/// A stop seen from the other end.
fn mirrored_stop(stop: &Stop, flip: i32) -> Stop {
    let turned = |x: i32| if x.abs() >= FAR { -x } else { flip - x };
    Stop {
        lo: flip - stop.hi,
        hi: flip - stop.lo,
        free_lo: turned(stop.free_hi),
        free_hi: turned(stop.free_lo),
        seen: stop.seen.map(|seen| Seen {
            lo: flip - seen.hi,
            hi: flip - seen.lo,
            ..seen
        }),
        ..*stop
    }
}
