//! Computed figures as lists show them: forces, stresses, moments, movements.
//!
//! In: numbers of the statics and the checks. Out: cells. Rule: lb, psi and
//! lb-ft, or kN, MPa and kN m, as the job's units say. A demand is rounded up, a
//! capacity down and a ratio up, so that none looks better than it is; what
//! passes by less than the last place may then look as if it did not.

use super::{Cell, Report, cell};
use crate::check::{Check, Kind, Unit};
use crate::figure::Shown;
use crate::force::{Force, Moment, Sag, Stress};
use crate::length::{Length, Rounding};
use crate::words::Units;

/// Millimetres in an inch. Source: NIST SP 811, exact.
const MILLIMETRES: f64 = 25.4;

impl Report<'_> {
    fn is_metric(&self) -> bool {
        self.job.units == Units::Metric
    }

    /// `4900 lb`, `21.80 kN`.
    pub(super) fn force(&self, force: Force, rounding: Rounding) -> Cell {
        if self.is_metric() {
            let kilonewtons = Shown::new(force.as_kilonewtons(), 2, rounding);
            return cell(format_args!("{kilonewtons} kN"));
        }
        let pounds = Shown::new(force.as_pounds(), 0, rounding);
        cell(format_args!("{pounds} lb"))
    }

    /// `25300 lb-ft`, `34.30 kN m`.
    pub(super) fn moment(&self, moment: Moment, rounding: Rounding) -> Cell {
        let shown = |value, decimals| Shown::new(value, decimals, rounding);
        if self.is_metric() {
            return cell(format_args!(
                "{} kN m",
                shown(moment.as_kilonewton_metres(), 2)
            ));
        }
        cell(format_args!("{} lb-ft", shown(moment.as_pound_feet(), 0)))
    }

    /// `0.317 in`, `8.05 mm`, rounded up.
    pub(super) fn sag(&self, sag: Sag) -> Cell {
        if self.is_metric() {
            let moved = Shown::new(sag.as_millimetres(), 2, Rounding::Up);
            return cell(format_args!("{moved} mm"));
        }
        let moved = Shown::new(sag.as_inches(), 3, Rounding::Up);
        cell(format_args!("{moved} in"))
    }

    /// Demand of a check with its unit.
    pub fn demand(&self, check: &Check) -> Cell {
        self.figure(check.kind(), check.demand(), Rounding::Up)
    }

    /// Capacity of a check with its unit; `None` where the engineer has it.
    pub fn capacity(&self, check: &Check) -> Option<Cell> {
        let capacity = check.capacity()?;
        Some(self.figure(check.kind(), capacity, Rounding::Down))
    }

    /// Demand over capacity; `None` without a capacity above nothing.
    pub fn ratio(&self, check: &Check) -> Option<Cell> {
        let ratio = Shown::new(check.ratio()?, 2, Rounding::Up);
        Some(cell(format_args!("{ratio}")))
    }

    fn figure(&self, kind: Kind, value: f64, rounding: Rounding) -> Cell {
        let with = |value, decimals, unit: &str| {
            let shown = Shown::new(value, decimals, rounding);
            cell(format_args!("{shown} {unit}"))
        };
        let metric = self.is_metric();
        match kind.unit() {
            Unit::Inches => self.inches(kind, value, rounding),
            Unit::Pounds => self.force(Force::from_pounds(value), rounding),
            Unit::PoundsPerSquareInch if metric => {
                with(Stress::from_psi(value).as_megapascals(), 2, "MPa")
            }
            Unit::PoundFeet if metric => {
                let moment = Moment::from_pound_feet(value);
                with(moment.as_kilonewton_metres(), 2, "kN m")
            }
            // A moment for a length is a force.
            Unit::PoundInchesPerInch if metric => {
                with(Force::from_pounds(value).as_kilonewtons(), 2, "kN m/m")
            }
            Unit::PoundFeetPerFoot if metric => {
                with(Force::from_pounds(value).as_newtons(), 0, "N m/m")
            }
            unit @ Unit::PoundFeetPerFoot => with(value, 1, unit.word()),
            unit => with(value, 0, unit.word()),
        }
    }

    /// Inches: a movement or a thickness that no tape shows in decimals, all
    /// else as a tape shows it, to 1/64 in or 0.1 mm.
    fn inches(&self, kind: Kind, value: f64, rounding: Rounding) -> Cell {
        let fine = matches!(
            kind,
            Kind::FlangeOverBearing | Kind::LiveDeflection | Kind::TotalDeflection
        );
        if fine && self.is_metric() {
            let shown = Shown::new(value * MILLIMETRES, 2, rounding);
            return cell(format_args!("{shown} mm"));
        }
        if fine {
            let shown = Shown::new(value, 3, rounding);
            return cell(format_args!("{shown} in"));
        }
        self.length_cell(self.as_read(value, rounding))
    }

    /// Inches as a length in steps of 1/64 in or 0.1 mm.
    fn as_read(&self, inches: f64, rounding: Rounding) -> Length {
        let (a_unit, step) = match self.job.units {
            Units::Imperial => (inches * 64.0, Length::from_sixty_fourths(1)),
            Units::Metric => (
                inches * MILLIMETRES * 10.0,
                Length::from_tenth_millimetres(1),
            ),
        };
        let steps = Shown::new(a_unit, 0, rounding).steps().unwrap_or_default();
        let steps = i32::try_from(steps).unwrap_or(i32::MAX);
        step.checked_mul(steps).unwrap_or(Length::MAX)
    }
}
