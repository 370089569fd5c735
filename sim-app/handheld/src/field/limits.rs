//! How small and how great a field's value may be: what a card may say, and no more.

use super::{Kind, Value};
use boltbay_core::limits::{
    Amounts, COARSEST_STEP, FINEST_STEP, HEAVIEST, HEAVIEST_SHAPE, LONG, LONGEST_DURATION, MANY,
    MEDIUM, MILLION, MOST_JOISTS, SMALL, STEEPEST, STRONGEST, Span, TAPE, THICKEST_BOLT, WETTEST,
};

impl Kind {
    /// Limits of a length, and of the reading of a position.
    pub const fn span(self) -> Span {
        match self {
            Kind::Lattice => Span::between(FINEST_STEP, COARSEST_STEP),
            Kind::Bolt => Span::above_zero(THICKEST_BOLT),
            Kind::OwnWeb | Kind::OwnFlange | Kind::OwnKDesign | Kind::OwnKDetail | Kind::OwnK1 => {
                Span::above_zero(SMALL)
            }
            Kind::RunThickness | Kind::JoistThickness | Kind::NailLength | Kind::NailDiameter => {
                Span::above_zero(SMALL)
            }
            Kind::WebHole | Kind::WoodHole | Kind::WasherSize | Kind::WasherThickness => {
                Span::above_zero(SMALL)
            }
            Kind::NutThickness | Kind::NutCorners | Kind::LayerThickness => Span::above_zero(SMALL),
            Kind::Subfloor | Kind::RunBurn | Kind::HangerMetal | Kind::Standoff | Kind::Gap => {
                Span::from_zero(SMALL)
            }
            Kind::Shy | Kind::Proud | Kind::Kerf | Kind::Projection => Span::from_zero(SMALL),
            Kind::Aim => Span::signed(SMALL),
            Kind::OwnDepth | Kind::OwnWidth | Kind::Outstand | Kind::JoistDepth | Kind::RowTop => {
                Span::above_zero(MEDIUM)
            }
            Kind::PocketDepth | Kind::PocketHeight | Kind::PocketWidth | Kind::HangerHeight => {
                Span::above_zero(MEDIUM)
            }
            Kind::SupportLength | Kind::SupportWidth => Span::above_zero(MEDIUM),
            Kind::Play | Kind::RowBot => Span::from_zero(MEDIUM),
            Kind::Square | Kind::JoistOffset | Kind::Placed => Span::signed(MEDIUM),
            Kind::Length | Kind::Bearing | Kind::Clear | Kind::LoadTributary | Kind::Spacing => {
                Span::above_zero(LONG)
            }
            Kind::LeastSpacing | Kind::EndMost | Kind::StickLength | Kind::OtherLength => {
                Span::above_zero(LONG)
            }
            Kind::HoldBack | Kind::EndLeast | Kind::NearWithin => Span::from_zero(LONG),
            Kind::Braced | Kind::BracedBottom => Span::from_zero(LONG),
            _ => Span::from_zero(TAPE),
        }
    }

    /// Limits of a number.
    pub const fn amounts(self) -> Amounts {
        match self {
            Kind::Fy | Kind::Fu | Kind::Fyb => Amounts::above_zero(STRONGEST),
            Kind::OwnWeight => Amounts::above_zero(HEAVIEST_SHAPE),
            Kind::OwnIx | Kind::OwnSx | Kind::OwnZx | Kind::HangerRated => {
                Amounts::above_zero(MILLION)
            }
            Kind::Duration => Amounts::above_zero(LONGEST_DURATION),
            Kind::NailSlant => Amounts::from_zero(STEEPEST),
            Kind::LayerMoisture | Kind::Service => Amounts::from_zero(WETTEST),
            Kind::LoadDead | Kind::LoadLive => Amounts::from_zero(HEAVIEST),
            _ => Amounts::above_zero(HEAVIEST),
        }
    }

    /// The least and the greatest count.
    pub const fn counts(self) -> (u16, u16) {
        match self {
            Kind::CountedJoists => (0, MOST_JOISTS),
            Kind::OtherCount => (1, MANY),
            Kind::LayerCount | Kind::StickCount | Kind::Spare => (0, MANY),
            _ => (0, u16::MAX),
        }
    }

    /// Whether a value is within the limits; what is no figure is.
    pub fn holds(self, value: &Value) -> bool {
        match value {
            Value::Length(length) => self.span().holds(*length),
            Value::At(position) => self.span().holds(position.reading),
            Value::Number(number) => self.amounts().holds(*number),
            Value::Count(count) => {
                let (least, most) = self.counts();
                (least..=most).contains(count)
            }
            _ => true,
        }
    }
}
