//! Needle: windows of one lattice point, the greatest spacing exactly attained.
//!
//! In: dice and a job with a note. Out: solid things that leave single lattice
//! points, most of them exactly the greatest spacing apart. Rule: a thing's end
//! plus washer plus clear gap falls exactly on the point.

use super::Dice;
use super::house::length;
use crate::judges::facts::Facts;
use boltbay_core::Length;
use boltbay_core::job::{Job, Keepout, KeepoutKind, Position, Stays};
use boltbay_core::words::Sides;

/// Fills the steel with solid things but for single points.
pub(crate) fn needles(dice: &mut Dice, job: &mut Job) {
    if let Some(spacing) = &mut job.spacing {
        spacing.hold_back = Some(Length::ZERO);
    }
    let facts = Facts::new(job, &[]);
    let off = facts.reach[0].max(facts.reach[1]) + facts.gap;
    let step = facts.step;
    let start = facts.pieces.first().map_or(0, |p| p.from) + facts.e_min;
    let mut point = (start + step - 1) / step * step;
    let wide = dice.pick(&[0, 0, 0, step, -1]);
    for _ in 0..30 {
        let apart = facts.s_max / step * step - dice.pick(&[0, 0, 0, 0, 1]) * step;
        let next = point + apart.max(2 * off + step);
        let (from, to) = (point + wide + off, next - off);
        if to > length(job) || from >= to || job.keepouts.is_full() {
            return;
        }
        let at = |x: i64| Position::from_end_a(Length::from_counts(x as i32));
        let _ = job.keepouts.push(Keepout {
            sides: Sides::Both,
            from: at(from),
            to: at(to),
            kind: KeepoutKind::Solid,
            stays: dice.pick(&[Stays::Stays, Stays::Rides]),
            name: "pipe".try_into().expect("short"),
        });
        point = next;
    }
}
