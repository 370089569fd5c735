//! Writes rows about packing stock and rods.

use super::{Kind, Out};
use crate::card::word::Answer;
use crate::job::{Moisture, StickSource};
use core::fmt::{self, Write};

impl<W: Write> Out<'_, W> {
    pub(super) fn stock(&mut self) -> fmt::Result {
        let job = self.job;
        for layer in &job.layers {
            self.kind(Kind::Layer)?;
            self.name(&layer.name)?;
            self.length(layer.thickness)?;
            self.word(Some(layer.kind))?;
            match layer.moisture {
                None => self.none()?,
                Some(Moisture::Green) => self.field(&"green")?,
                Some(Moisture::Percent(percent)) => self.field(&percent)?,
            }
            self.count(layer.count)?;
            self.end()?;
        }
        if let Some(face) = job.face {
            self.kind(Kind::Face)?;
            self.length(face.shy)?;
            self.length(face.proud)?;
            self.maybe_length(face.aim)?;
            self.end()?;
        }
        self.number_row(Kind::Service, job.service)?;
        self.word_row(Kind::Wood, job.wood)
    }

    pub(super) fn rods(&mut self) -> fmt::Result {
        let job = self.job;
        for stick in &job.sticks {
            self.kind(match stick.source {
                StickSource::Rod => Kind::Rod,
                StickSource::Offcut => Kind::Offcut,
            })?;
            self.length(stick.length)?;
            self.count(stick.count)?;
            self.end()?;
        }
        self.length_row(Kind::Kerf, job.kerf)?;
        self.word_row(Kind::Trim, job.trim.map(Answer::from))?;
        self.length_row(Kind::Projection, job.projection)?;
        self.number_row(Kind::Spare, job.spare)?;
        for piece in &job.pieces {
            self.kind(Kind::Piece)?;
            self.length(piece.length)?;
            self.count(Some(piece.count))?;
            self.name(&piece.name)?;
            self.end()?;
        }
        for cut in &job.bars_cut {
            self.kind(Kind::Cut)?;
            self.name(&cut.list)?;
            self.count(Some(cut.bars))?;
            self.end()?;
        }
        Ok(())
    }
}
