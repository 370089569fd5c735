//! Ways out: what would open a blocking stretch. Each is tried: the job is
//! planned again with that one change, and only what works is offered.
//!
//! In: the ground and a stretch. Out: at most five ways, single changes before
//! sets of two, nearest end A first within a kind. None is applied.

use super::blocked::{Stretch, blocks_alone, still_blocks};
use super::ground::Ground;
use super::search::{self, Found};
use super::{BlockKind, Blocked, Change, PlaceError, Relaxed, Room, Thing, WayOut};
use crate::hardware::Hardware;
use crate::job::WasherShape;
use crate::joists::Joist;
use crate::length::{Length, Rounding};
use crate::list::Listed;
use crate::words::{Side, Units};
use heapless::Vec;

/// A hanger is never lowered below this part of the joist depth.
/// Practice: the engineer of record and the hanger's schedule rule.
const LEAST_HANGER_PERCENT: i32 = 60;

/// Joists whose hangers may be changed, from end A.
type Hung = Vec<u8, 8, u8>;

/// Tries changes and keeps those that work.
pub(super) fn find(
    ground: &Ground<'_>,
    stretch: &Stretch,
    blocked: &mut Blocked,
    scratch: &mut Room<'_>,
) -> Result<(), PlaceError> {
    let hung = hung(ground, blocked);
    let mut trials = Trials {
        ground,
        stretch,
        blocked,
        scratch,
    };
    for &joist in &hung {
        let plain = [Some(joist), None];
        trials.offer(
            Change::PlainHanger(joist),
            Relaxed {
                plain,
                ..Relaxed::default()
            },
        )?;
    }
    trials.washers()?;
    trials.lower_hangers(&hung)?;
    trials.stretch()?;
    trials.gap()?;
    for (place, &first) in hung.iter().enumerate() {
        for &second in hung.iter().skip(place + 1) {
            let plain = [Some(first), Some(second)];
            trials.offer(
                Change::PlainHangers(first, second),
                Relaxed {
                    plain,
                    ..Relaxed::default()
                },
            )?;
        }
    }
    Ok(())
}

/// The joists of a stretch that have hangers with metal beyond the faces.
fn hung(ground: &Ground<'_>, blocked: &Blocked) -> Hung {
    let mut hung: Hung = blocked
        .by
        .iter()
        .filter_map(|thing| match thing {
            Thing::Joist { joist, .. } => Some(*joist),
            _ => None,
        })
        .filter(|&joist| joist_at(ground, joist).is_some_and(|j| j.metal > Length::ZERO))
        .listed();
    hung.sort_unstable_by_key(|&joist| {
        joist_at(ground, joist).map_or((Length::MAX, Side::S, joist), |j| (j.from, j.side, joist))
    });
    hung
}

fn joist_at<'a>(ground: &Ground<'a>, joist: u8) -> Option<&'a Joist> {
    ground.joists.get(usize::from(joist))
}

/// Trials of one stretch.
struct Trials<'a, 'g, 's> {
    ground: &'a Ground<'g>,
    stretch: &'a Stretch,
    blocked: &'a mut Blocked,
    scratch: &'a mut Room<'s>,
}

/// What a trial came to: stations and play of a plan, or only that this stretch
/// no longer blocks.
type Cured = (Option<u16>, Option<Length>);

impl Trials<'_, '_, '_> {
    /// Offers a change if it works.
    fn offer(&mut self, change: Change, relaxed: Relaxed) -> Result<(), PlaceError> {
        if self.blocked.ways_out.is_full() {
            return Ok(());
        }
        if let Some((stations, play)) = self.cured(relaxed)? {
            let _ = self.blocked.ways_out.push(WayOut {
                change,
                stations,
                play,
            });
        }
        Ok(())
    }

    /// Plans again with the change.
    #[inline(never)]
    fn cured(&mut self, relaxed: Relaxed) -> Result<Option<Cured>, PlaceError> {
        let ground = self.ground;
        let (job, joists, rule) = (ground.job, ground.joists, ground.rule);
        Ground::with(job, joists, rule, relaxed, |trial| self.tried(trial))
    }

    /// What a trial comes to.
    fn tried(&mut self, trial: &Ground<'_>) -> Result<Option<Cured>, PlaceError> {
        if blocks_alone(trial, self.stretch, self.scratch)? {
            return Ok(None);
        }
        match search::trial(trial, self.scratch)? {
            Found::Plan(best) => {
                let stations = u16::try_from(best.cost.stations()).ok();
                let play = search::play_of(trial, best.t, self.scratch);
                Ok(Some((stations, Some(Length::from_counts(play)))))
            }
            Found::Nothing { too_many: true } => Ok(None),
            Found::Nothing { too_many: false } => {
                let blocks = still_blocks(trial, self.stretch, self.scratch)?;
                Ok((!blocks).then_some((None, None)))
            }
        }
    }

    /// The next smaller washer of the table, and a square one kept square.
    fn washers(&mut self) -> Result<(), PlaceError> {
        let Some(hardware) = Hardware::of(self.ground.job) else {
            return Ok(());
        };
        let largest = hardware
            .washers
            .iter()
            .map(|w| w.size)
            .max()
            .unwrap_or(Length::ZERO);
        if let Some(size) = hardware.smaller_washers(largest).next() {
            let washer = Some((size, WasherShape::Round));
            self.offer(
                Change::Washer(size),
                Relaxed {
                    washer,
                    ..Relaxed::default()
                },
            )?;
        }
        if hardware
            .washers
            .iter()
            .any(|w| w.shape == WasherShape::Turns)
        {
            let washer = Some((largest, WasherShape::Square));
            self.offer(
                Change::KeptSquare,
                Relaxed {
                    washer,
                    ..Relaxed::default()
                },
            )?;
        }
        Ok(())
    }

    /// Hangers low enough for the washers of the top row to pass above them.
    fn lower_hangers(&mut self, hung: &Hung) -> Result<(), PlaceError> {
        let Some(height) = self.low_enough(hung) else {
            return Ok(());
        };
        let relaxed = Relaxed {
            hanger_height: Some(height),
            ..Relaxed::default()
        };
        self.offer(Change::HangerHeight(height), relaxed)
    }

    fn low_enough(&self, hung: &Hung) -> Option<Length> {
        let ([top, _], steel_top) = self.ground.heights?;
        let mark = match self.ground.job.units {
            Units::Imperial => Length::from_sixteenths(1),
            Units::Metric => Length::from_millimetres(1),
        };
        let mut lowest: Option<Length> = None;
        let mut lowers = false;
        for &joist in hung {
            let joist = joist_at(self.ground, joist)?;
            let height = joist.hanger_height(self.ground.job)?;
            let floor = *self.ground.job.floors.get(joist.side.index())?;
            let floor = floor?;
            let seat = self.ground.seat(&floor, steel_top);
            let room = Length::from_counts(top - self.ground.reach_of(joist.side) - seat);
            let room = room.to_multiple(mark, Rounding::Down);
            let least = i64::from(floor.joist_depth.counts()) * i64::from(LEAST_HANGER_PERCENT);
            if i64::from(room.counts()) * 100 < least {
                return None;
            }
            lowers |= room < height;
            lowest = Some(lowest.map_or(room, |l| l.min(room)));
        }
        lowest.filter(|_| lowers)
    }

    /// The engineer allows this one stretch, or this one end, to be as wide as
    /// it is.
    fn stretch(&mut self) -> Result<(), PlaceError> {
        let (p, q) = (self.stretch.p, self.stretch.q);
        let wide = Length::from_counts(q - p);
        let relaxed = match (self.stretch.kind, self.stretch.end) {
            (BlockKind::Reach, _) => Relaxed {
                stretch: Some((Length::from_counts(p), Length::from_counts(q))),
                ..Relaxed::default()
            },
            (BlockKind::Start | BlockKind::End, Some(end)) => Relaxed {
                end: Some((end, wide)),
                ..Relaxed::default()
            },
            _ => return Ok(()),
        };
        self.offer(Change::Stretch(wide), relaxed)
    }

    /// The greatest clear gap in whole marks that works: legality only grows as
    /// the gap shrinks, so halving finds it.
    fn gap(&mut self) -> Result<(), PlaceError> {
        if self.blocked.ways_out.is_full() {
            return Ok(());
        }
        let mark = match self.ground.job.units {
            Units::Imperial => Length::from_sixteenths(1),
            Units::Metric => Length::from_millimetres(1),
        };
        let relaxed = |marks: i32| Relaxed {
            gap: mark.checked_mul(marks),
            ..Relaxed::default()
        };
        let marks = (self.ground.gap - 1).div_euclid(mark.counts());
        if marks < 0 || self.cured(relaxed(0))?.is_none() {
            return Ok(());
        }
        let (mut works, mut fails) = (0, marks + 1);
        while fails - works > 1 {
            let next = works + (fails - works) / 2;
            if self.cured(relaxed(next))?.is_some() {
                works = next;
            } else {
                fails = next;
            }
        }
        match mark.checked_mul(works) {
            Some(gap) => self.offer(Change::Gap(gap), relaxed(works)),
            None => Ok(()),
        }
    }
}
