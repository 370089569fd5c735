//! The rule said back in the crew's words, one sentence, so that a misread note
//! is found before anything is marked.
//!
//! In: a rule and its job. Out: text, in the job's units. Rule: nothing that
//! the planner obeys is left out; a figure taken from a default says so.

use super::Rule;
use crate::defaults;
use crate::job::{Hook, Job, Near, Pattern, Position, Reach, SpacingBasis};
use crate::length::{Length, Rounding};
use crate::words::Units;
use core::fmt;

/// A rule, ready to be written.
#[derive(Clone, Copy, Debug)]
pub struct Said<'a> {
    rule: &'a Rule,
    job: &'a Job,
}

impl<'a> Said<'a> {
    pub(super) const fn new(rule: &'a Rule, job: &'a Job) -> Self {
        Said { rule, job }
    }

    /// A length in plain inches or millimetres.
    const fn plain(&self, length: Length) -> Plain {
        Plain(length, self.job.units)
    }

    /// `a bolt every 16 in or less, rows take turns`.
    fn spacing(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Some(spacing) = self.job.spacing else {
            return Ok(());
        };
        let noted = self.plain(spacing.spacing);
        match (self.rule.pattern, spacing.basis) {
            (Pattern::Staggered, SpacingBasis::Every) => {
                write!(f, "a bolt every {noted} or less, rows take turns")
            }
            (Pattern::Staggered, SpacingBasis::Row) => {
                let half = self.plain(spacing.spacing.half(Rounding::Down));
                write!(
                    f,
                    "each row every {noted} or less, rows take turns: a bolt every {half} or less"
                )
            }
            (Pattern::Single, _) => write!(f, "a bolt every {noted} or less, all in row TOP"),
            (Pattern::Paired, _) => {
                write!(f, "a pair, one in each row, every {noted} or less")
            }
        }
    }

    /// What is laid out, hold back taken off; nothing where none is kept.
    fn hold_back(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let kept = defaults::hold_back(self.job);
        if kept == Length::ZERO {
            return Ok(());
        }
        write!(
            f,
            ", laid out at {} or less to keep {} in hand",
            self.plain(self.rule.s_max),
            self.plain(kept)
        )
    }

    /// `a pair first and last, 2 in to 9 in from each packing end`.
    fn ends(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let paired = self.rule.ends_paired || self.rule.pattern == Pattern::Paired;
        write!(
            f,
            "; {} first and last, {} to {} from the packing ends",
            bolt_or_pair(paired),
            self.plain(self.rule.e_min),
            self.plain(self.rule.e_max)
        )
    }

    /// `a pair within 12 in of POST on each side`.
    fn near(&self, f: &mut fmt::Formatter<'_>, near: &Near) -> fmt::Result {
        let paired = near.paired || self.rule.pattern == Pattern::Paired;
        let within = self.plain(near.within);
        write!(f, "; {} within {within} of ", bolt_or_pair(paired))?;
        if !near.name.is_empty() {
            write!(f, "{}, ", near.name)?;
        }
        self.position(f, near.at)?;
        match near.reach {
            Reach::One => Ok(()),
            Reach::Each => f.write_str(", on each side of it"),
        }
    }

    /// `100 1/4 in from wall A`.
    fn position(&self, f: &mut fmt::Formatter<'_>, at: Position) -> fmt::Result {
        let from = match at.hook {
            Hook::EndA => "end A",
            Hook::EndB => "end B",
            Hook::WallA => "wall A",
            Hook::WallB => "wall B",
        };
        write!(f, "{} from {from}", at.reading.shown(self.job.units))
    }

    /// ` (usual)` behind a figure that is not on the card.
    fn usual(f: &mut fmt::Formatter<'_>, defaulted: bool) -> fmt::Result {
        f.write_str(if defaulted { " (usual)" } else { "" })
    }
}

impl fmt::Display for Said<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.spacing(f)?;
        self.hold_back(f)?;
        write!(f, "; never closer than {}", self.plain(self.rule.s_min))?;
        let minimum = self.job.spacing.and_then(|spacing| spacing.minimum);
        Self::usual(f, minimum.is_none())?;
        self.ends(f)?;
        for near in &self.job.nears {
            self.near(f, near)?;
        }
        write!(f, "; washers clear by {}", self.plain(self.rule.gap))?;
        Self::usual(f, self.job.gap.is_none())
    }
}

const fn bolt_or_pair(paired: bool) -> &'static str {
    if paired { "a pair" } else { "a bolt" }
}

/// A length of the note in plain inches, `16 in`, `15 7/8 in`, as notes have
/// it, or in millimetres; what no tape shows is written exactly as lists do.
#[derive(Clone, Copy)]
struct Plain(Length, Units);

impl fmt::Display for Plain {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let counts = self.0.counts();
        let step = Length::from_sixty_fourths(1).counts();
        if self.1 == Units::Metric || counts < 0 || counts % step != 0 {
            return write!(f, "{}", self.0.shown(self.1));
        }
        let (whole, rest) = (counts / step / 64, counts / step % 64);
        let shift = rest.trailing_zeros();
        match (whole, rest) {
            (_, 0) => write!(f, "{whole} in"),
            (0, _) => write!(f, "{}/{} in", rest >> shift, 64 >> shift),
            _ => write!(f, "{whole} {}/{} in", rest >> shift, 64 >> shift),
        }
    }
}
