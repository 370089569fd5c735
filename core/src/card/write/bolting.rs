//! Writes rows about supports, loads, hardware, the engineer's rules and holes.

use super::{Kind, Out};
use crate::card::word::{Answer, Bolts, LoadForm};
use crate::job::loads::LoadSide;
use crate::job::{HoleState, Load, LoadKind, Washer};
use crate::words::{Side, Sides};
use core::fmt::{self, Write};

impl<W: Write> Out<'_, W> {
    pub(super) fn loads(&mut self) -> fmt::Result {
        let job = self.job;
        for support in &job.supports {
            self.kind(Kind::Support)?;
            self.name(&support.name)?;
            self.maybe_position(support.centre)?;
            self.maybe_length(support.length)?;
            self.maybe_length(support.width)?;
            self.word(Some(support.material))?;
            self.decimal(support.allowable)?;
            self.end()?;
        }
        for post in &job.posts {
            self.kind(Kind::Post)?;
            self.name(&post.support)?;
            self.decimal(Some(post.allowable))?;
            self.decimal(post.footing)?;
            self.end()?;
        }
        for load in &job.loads {
            self.load(load)?;
        }
        self.number_row(Kind::Duration, job.duration)
    }

    fn load(&mut self, load: &Load) -> fmt::Result {
        self.kind(Kind::Load)?;
        match load.kind {
            LoadKind::Area { .. } => self.word(Some(LoadForm::Area))?,
            LoadKind::Line { .. } => self.word(Some(LoadForm::Line))?,
            LoadKind::Point { at } => {
                self.word(Some(LoadForm::Point))?;
                self.position(at)?;
            }
        }
        self.decimal(Some(load.dead))?;
        self.decimal(Some(load.live))?;
        if let LoadKind::Area { tributary, .. } = load.kind {
            self.length(tributary)?;
        }
        if let LoadKind::Area { from, to, .. } | LoadKind::Line { from, to } = load.kind {
            self.maybe_position(from)?;
            self.maybe_position(to)?;
        }
        match load.side {
            LoadSide::Halves => {}
            LoadSide::On(side) => self.side(side)?,
            LoadSide::Top => self.field(&"top")?,
        }
        self.end()
    }

    pub(super) fn hardware(&mut self) -> fmt::Result {
        let job = self.job;
        self.word_row(Kind::Seated, job.seated.map(Answer::from))?;
        self.length_row(Kind::Standoff, job.standoff)?;
        if let Some(bolt) = job.bolt {
            self.kind(Kind::Bolt)?;
            self.length(bolt.diameter)?;
            self.maybe_length(bolt.web_hole)?;
            self.maybe_length(bolt.wood_hole)?;
            self.decimal(bolt.fyb)?;
            self.end()?;
        }
        match job.washers {
            [Some(one), Some(other)] if one == other => self.washer(Sides::Both, one)?,
            washers => {
                for (side, washer) in Side::BOTH.into_iter().zip(washers) {
                    if let Some(washer) = washer {
                        self.washer(Sides::One(side), washer)?;
                    }
                }
            }
        }
        if let Some(nut) = job.nut {
            self.kind(Kind::Nut)?;
            self.length(nut.thickness)?;
            self.maybe_length(nut.across_corners)?;
            self.end()?;
        }
        Ok(())
    }

    fn washer(&mut self, sides: Sides, washer: Washer) -> fmt::Result {
        self.kind(Kind::Washer)?;
        self.sides(sides)?;
        self.length(washer.size)?;
        self.word(Some(washer.shape))?;
        self.maybe_length(washer.thickness)?;
        self.end()
    }

    pub(super) fn rules(&mut self) -> fmt::Result {
        let job = self.job;
        self.length_row(Kind::Gap, job.gap)?;
        self.length_row(Kind::Lattice, job.lattice)?;
        self.length_row(Kind::Play, job.play)?;
        self.word_row(Kind::Pattern, job.pattern)?;
        if let Some(rows) = job.rows {
            self.kind(Kind::Rows)?;
            self.length(rows.top)?;
            self.length(rows.bot)?;
            self.end()?;
        }
        if let Some(spacing) = job.spacing {
            self.kind(Kind::Spacing)?;
            self.length(spacing.spacing)?;
            self.word(Some(spacing.basis))?;
            self.maybe_length(spacing.hold_back)?;
            self.maybe_length(spacing.minimum)?;
            self.end()?;
        }
        if let Some(ends) = job.ends {
            self.kind(Kind::Ends)?;
            self.length(ends.least)?;
            self.length(ends.most)?;
            self.word(ends.paired.map(Bolts::from))?;
            self.end()?;
        }
        for near in &job.nears {
            self.kind(Kind::Near)?;
            self.position(near.at)?;
            self.length(near.within)?;
            self.word(Some(near.reach))?;
            self.word(Some(Bolts::from(near.paired)))?;
            self.name(&near.name)?;
            self.end()?;
        }
        Ok(())
    }

    pub(super) fn holes(&mut self) -> fmt::Result {
        let job = self.job;
        for hole in &job.holes {
            self.kind(match hole.state {
                HoleState::Marked => Kind::Marked,
                HoleState::Drilled => Kind::Drilled,
                HoleState::Abandoned => Kind::Abandoned,
            })?;
            self.position(hole.at())?;
            self.word(Some(hole.row))?;
            self.end()?;
        }
        Ok(())
    }
}
