//! Cautions in words: a stable number, a screen text, a sentence for sheets.
//!
//! In: a caution and the job (painted letters, units). Out: text through
//! `core::fmt`. A screen text has lines of at most 21 characters, the first in
//! capitals; the full text is one or two sentences that say what was found and
//! what to do. A new variant does not compile before it has a number and a
//! theme here, and the test of this file does not pass before it has words.
//! Lengths in cautions are shown to the nearest 1/64 in or 0.1 mm: they inform,
//! nobody marks steel by them.

use super::Caution;
use crate::job::Job;
use crate::length::{Length, Rounding, Shown};
use crate::words::{End, Row, Units};
use core::fmt::{self, Write};

mod bolting;
mod house;
mod loads;
mod packing;
mod survey;
mod work;

/// Lines of at most 21 characters, for a small screen.
#[derive(Clone, Copy, Debug)]
pub struct OnScreen<'a>(&'a Caution, &'a Job);

/// Sentences for the plan and the sheet.
#[derive(Clone, Copy, Debug)]
pub struct InFull<'a>(&'a Caution, &'a Job);

/// Which of the two texts is wanted.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    Screen,
    Full,
}

/// Which file holds the words.
enum Theme {
    Survey,
    House,
    Bolting,
    Packing,
    Loads,
    Work,
}

impl Caution {
    /// A number that stays with this kind of caution for good, so that a crew
    /// can read it out over the phone. Numbers are never used again.
    pub const fn number(&self) -> u8 {
        self.entry().0
    }

    /// Number and theme. Append new variants with the next free number.
    const fn entry(&self) -> (u8, Theme) {
        match self {
            Caution::RunNotProved { .. } => (1, Theme::Survey),
            Caution::RunOverridden { .. } => (2, Theme::Survey),
            Caution::PairOutlier { .. } => (3, Theme::Survey),
            Caution::SideOffByBurn { .. } => (4, Theme::Survey),
            Caution::JoistsOverlap { .. } => (5, Theme::Survey),
            Caution::JoistMissed { .. } => (6, Theme::Survey),
            Caution::CountDiffers { .. } => (7, Theme::Survey),
            Caution::Guessed { .. } => (8, Theme::Survey),
            Caution::JoistOffSpan { .. } => (9, Theme::Survey),
            Caution::ClearNotMeasured => (10, Theme::House),
            Caution::BearingDiffers { .. } => (11, Theme::House),
            Caution::LengthOrdered => (12, Theme::House),
            Caution::OutstandFromTable { .. } => (13, Theme::Packing),
            Caution::OutstandSpread { .. } => (14, Theme::Packing),
            Caution::EndDistanceShort { .. } => (15, Theme::Bolting),
            Caution::SpacingShort { .. } => (16, Theme::Bolting),
            Caution::EdgeDistanceShort { .. } => (17, Theme::Bolting),
            Caution::RowsFarApart { .. } => (18, Theme::Bolting),
            Caution::WebHoleLarge { .. } => (19, Theme::Bolting),
            Caution::WasherCoversShort { .. } => (20, Theme::Bolting),
            Caution::WoodHoleLarger { .. } => (21, Theme::Bolting),
            Caution::NeighboursInOneRow { .. } => (22, Theme::Bolting),
            Caution::StackGoesShy { .. } => (23, Theme::Packing),
            Caution::LayerDoesNotSeat { .. } => (24, Theme::Packing),
            Caution::SpeciesAssumed => (25, Theme::Packing),
            Caution::RodFromOutstand { .. } => (26, Theme::Packing),
            Caution::OneSided { .. } => (27, Theme::Bolting),
            Caution::SnugAgain => (28, Theme::Packing),
            Caution::BeforeDrilling => (29, Theme::House),
            Caution::ShoresFirst => (30, Theme::House),
            Caution::AndMore => (31, Theme::House),
            Caution::SteelShort { .. } => (32, Theme::House),
            Caution::WoodHoleLarge { .. } => (33, Theme::Bolting),
            Caution::WasherThicknessAssumed { .. } => (34, Theme::Bolting),
            Caution::RowInFillet { .. } => (35, Theme::Bolting),
            Caution::RowsClose { .. } => (36, Theme::Bolting),
            Caution::CountedFromWallA => (37, Theme::House),
            Caution::NotIncreasing { .. } => (38, Theme::Survey),
            Caution::ReadingSlip { .. } => (39, Theme::Survey),
            Caution::Lift { .. } => (40, Theme::Loads),
            Caution::NearLift { .. } => (41, Theme::Loads),
            Caution::OverhangLong { .. } => (42, Theme::Loads),
            Caution::LoadPastSteel { .. } => (43, Theme::Loads),
            Caution::LoadHalved => (44, Theme::Loads),
            Caution::PackingNotWeighed => (45, Theme::Loads),
            Caution::HolesNearBearing { .. } => (46, Theme::Work),
            Caution::EndMayRollOver { .. } => (47, Theme::Work),
            Caution::FillBlock { .. } => (48, Theme::Work),
            Caution::WoodOffMasonry => (49, Theme::Work),
            Caution::TreatedWood => (50, Theme::Work),
            Caution::HotWork => (51, Theme::Work),
            Caution::NailKeepsLess { .. } => (52, Theme::Work),
        }
    }

    /// The text for a small screen.
    pub const fn on_screen<'a>(&'a self, job: &'a Job) -> OnScreen<'a> {
        OnScreen(self, job)
    }

    /// The text for the plan and the sheet.
    pub const fn in_full<'a>(&'a self, job: &'a Job) -> InFull<'a> {
        InFull(self, job)
    }

    fn write(&self, form: Form, job: &Job, out: &mut dyn Write) -> fmt::Result {
        let words = match self.entry().1 {
            Theme::Survey => survey::write,
            Theme::House => house::write,
            Theme::Bolting => bolting::write,
            Theme::Packing => packing::write,
            Theme::Loads => loads::write,
            Theme::Work => work::write,
        };
        words(self, form, job, out)
    }
}

impl fmt::Display for OnScreen<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.write(Form::Screen, self.1, f)
    }
}

impl fmt::Display for InFull<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.write(Form::Full, self.1, f)
    }
}

/// A length as a caution shows it.
fn shown(length: Length, job: &Job) -> Shown {
    let step = match job.units {
        Units::Imperial => Length::from_sixty_fourths(1),
        Units::Metric => Length::from_tenth_millimetres(1),
    };
    length.to_multiple(step, Rounding::Nearest).shown(job.units)
}

/// The end as painted.
const fn end_letter(end: End) -> char {
    match end {
        End::A => 'A',
        End::B => 'B',
    }
}

/// The row as painted on the flange it is nearest to.
const fn row_word(row: Row) -> &'static str {
    match row {
        Row::Top => "TOP",
        Row::Bot => "BOT",
    }
}
