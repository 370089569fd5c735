//! Places: on the steel, in order, not two in one.

use super::{Findings, Kind, RowAt, Wrong};
use crate::job::{Hook, KeepoutKind, LoadKind, Position, RunHook};
use crate::length::Length;
use crate::words::{Side, Sides};

/// From and to of something; `None` = its default.
type Stretch = (Option<Position>, Option<Position>);

impl Findings<'_> {
    /// Every position of the card.
    pub(super) fn places(&mut self) {
        self.tapes();
        self.keepouts();
        self.packing();
        self.nears();
        self.supports();
        self.loads();
        self.holes();
    }

    /// Struck marks and known points of the runs.
    fn tapes(&mut self) {
        for place in 0..self.job.runs.len() {
            let hook = self.job.runs.get(place).map(|run| run.hook);
            if let Some(RunHook::Mark(mark, _)) = hook {
                let line = line_of(&self.notes.runs, place);
                self.beside((line, Kind::Tape), "HOOK", mark);
            }
        }
        for place in 0..self.job.checks.len() {
            let check = self.job.checks.get(place);
            if let Some((point, kind)) = check.map(|check| (check.point, check.kind)) {
                let line = line_of(&self.notes.checks, place);
                let kind = match kind {
                    crate::job::CheckKind::Check => Kind::Check,
                    crate::job::CheckKind::Close => Kind::Close,
                };
                self.beside((line, kind), "POINT", point);
            }
        }
    }

    fn keepouts(&mut self) {
        for place in 0..self.job.keepouts.len() {
            let Some(keepout) = self.job.keepouts.get(place) else {
                continue;
            };
            let kind = match keepout.kind {
                KeepoutKind::Zone => Kind::Zone,
                KeepoutKind::Solid | KeepoutKind::Access => Kind::Obstacle,
            };
            let stretch = (Some(keepout.from), Some(keepout.to));
            let line = line_of(&self.notes.keepouts, place);
            self.stretch((line, kind), stretch);
        }
    }

    /// Pieces, and what two of them share on one side.
    fn packing(&mut self) {
        let mut earlier: [Option<(Length, Length, Sides, u16)>; crate::job::PACKING_PIECES] =
            [None; crate::job::PACKING_PIECES];
        for place in 0..self.job.packing.len() {
            let Some(piece) = self.job.packing.get(place).copied() else {
                continue;
            };
            let line = line_of(&self.notes.packing, place);
            let row = (line, Kind::Packing);
            let Some((from, to)) = self.stretch(row, (Some(piece.from), Some(piece.to))) else {
                continue;
            };
            let other = earlier.iter().flatten().find(|(start, end, sides, _)| {
                share_a_side(*sides, piece.sides) && *start < to && from < *end
            });
            if let Some((.., other)) = other {
                let other = u32::from(*other);
                self.note(row, "FROM", "", Wrong::Overlap { other });
            }
            if let Some(slot) = earlier.get_mut(place) {
                *slot = Some((from, to, piece.sides, line));
            }
        }
    }

    fn nears(&mut self) {
        for place in 0..self.job.nears.len() {
            if let Some(at) = self.job.nears.get(place).map(|near| near.at) {
                let line = line_of(&self.notes.nears, place);
                self.station((line, Kind::Near), "AT", at);
            }
        }
    }

    /// Centres, and two supports in one place: the beam would be held twice.
    fn supports(&mut self) {
        let mut earlier: [Option<(Length, u16)>; crate::job::SUPPORTS] =
            [None; crate::job::SUPPORTS];
        for place in 0..self.job.supports.len() {
            let centre = self
                .job
                .supports
                .get(place)
                .and_then(|support| support.centre);
            let Some(centre) = centre else { continue };
            let line = line_of(&self.notes.supports, place);
            let row = (line, Kind::Support);
            let Some(station) = self.station(row, "CENTRE", centre) else {
                continue;
            };
            let other = earlier.iter().flatten().find(|(at, _)| *at == station);
            if let Some((_, other)) = other {
                let other = u32::from(*other);
                self.note_position(row, "CENTRE", centre, Wrong::SamePlace { other });
            }
            if let Some(slot) = earlier.get_mut(place) {
                *slot = Some((station, line));
            }
        }
    }

    fn loads(&mut self) {
        for place in 0..self.job.loads.len() {
            let Some(kind) = self.job.loads.get(place).map(|load| load.kind) else {
                continue;
            };
            let row = (line_of(&self.notes.loads, place), Kind::Load);
            match kind {
                LoadKind::Area { from, to, .. } | LoadKind::Line { from, to } => {
                    self.stretch(row, (from, to));
                }
                LoadKind::Point { at } => {
                    self.station(row, "AT", at);
                }
            }
        }
    }

    /// Holes on the steel, and two at one place in one row.
    fn holes(&mut self) {
        for place in 0..self.job.holes.len() {
            let Some(hole) = self.job.holes.get(place).copied() else {
                continue;
            };
            let line = line_of(&self.notes.holes, place);
            let kind = match hole.state {
                crate::job::HoleState::Marked => Kind::Marked,
                crate::job::HoleState::Drilled => Kind::Drilled,
                crate::job::HoleState::Abandoned => Kind::Abandoned,
            };
            let station = self.station((line, kind), "AT", hole.at());
            let same = |other: &crate::job::Hole| {
                other.row == hole.row
                    && (other.at() == hole.at()
                        || (station.is_some()
                            && self.frame.and_then(|frame| frame.station(other.at()).ok())
                                == station))
            };
            let earlier = self.job.holes.iter().take(place).position(same);
            if let Some(earlier) = earlier {
                let other = u32::from(line_of(&self.notes.holes, earlier));
                self.note_position((line, kind), "AT", hole.at(), Wrong::SamePlace { other });
            }
        }
    }

    /// From before to, both on the steel. Without a frame only two places of
    /// one hook can be compared.
    fn stretch(&mut self, row: RowAt, (from, to): Stretch) -> Option<(Length, Length)> {
        let start = from.and_then(|from| self.station(row, "FROM", from));
        let end = to.and_then(|to| self.station(row, "TO", to));
        let (from, to) = (from?, to?);
        let order = match (start, end) {
            (Some(start), Some(end)) => start.cmp(&end),
            _ if from.hook == to.hook => match from.hook {
                Hook::EndA | Hook::WallA => from.reading.cmp(&to.reading),
                Hook::EndB | Hook::WallB => to.reading.cmp(&from.reading),
            },
            _ => return None,
        };
        match order {
            core::cmp::Ordering::Less => {}
            core::cmp::Ordering::Equal => self.note_position(row, "TO", to, Wrong::NoExtent),
            core::cmp::Ordering::Greater => {
                self.note_position(row, "FROM", from, Wrong::FromBeyondTo);
            }
        }
        start.zip(end)
    }
}

/// Line of the row that stands at this place of a list.
fn line_of(lines: &[u16], place: usize) -> u16 {
    lines.get(place).copied().unwrap_or(0)
}

/// Whether two pieces have a side in common.
fn share_a_side(one: Sides, other: Sides) -> bool {
    Side::BOTH
        .into_iter()
        .any(|side| one.holds(side) && other.holds(side))
}
