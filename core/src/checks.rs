//! The checks: formulas of the standards, one noun of the trade a file.
//!
//! In: figures in inches, pounds and psi. Out: the standards' own figures, and
//! [`crate::check::Check`]s made of them; `beam` takes the figures of a job and
//! its plan to all of them. Rule: allowable strength (ASD) all
//! through, each safety factor a named constant beside its formula. What a rule
//! does not reach is said, never guessed.

pub mod beam;
pub mod bearing;
pub mod bolt;
pub mod dowel;
pub mod flange;
pub mod flush;
pub mod hanger;
pub mod hole;
pub mod insertion;
pub mod nail;
pub mod profile;
pub mod rod;
pub mod share;
pub mod steel;
pub mod wood;
pub mod work;
