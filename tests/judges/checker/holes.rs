//! Holes: every hole of the plan is one of the job, or new and legal.
//!
//! In: the case. Out: faults. Rule: all drilled holes are there, each mark is
//! kept or struck out, new ones stand on the lattice or beside a hole that is
//! there, all that is not drilled is legal, no more than 240 in all.

use super::{Case, Placed, inches};
use boltbay_core::job::HoleState;
use boltbay_core::placement::State;

/// Runs the tests.
pub(crate) fn test(case: &mut Case) {
    accounted_for(case);
    legal(case);
    stations(case);
    let abandoned = |h: &&crate::judges::facts::HoleFact| h.state == HoleState::Abandoned;
    let in_all = case.plan.holes.len() + case.facts.holes.iter().filter(abandoned).count();
    case.must(in_all <= 240, || format!("{in_all} holes"));
}

/// Drilled holes all there; marks kept or struck out, never both.
fn accounted_for(case: &mut Case) {
    for hole in case.facts.holes.clone() {
        let of = |p: &&Placed| p.index == Some(hole.index);
        let times = case.stations.iter().flatten().filter(of).count();
        let struck = case
            .plan
            .struck_out
            .iter()
            .filter(|s| usize::from(**s) == hole.index)
            .count();
        let right = match hole.state {
            HoleState::Drilled => times == 1 && struck == 0,
            HoleState::Marked => times + struck == 1,
            HoleState::Abandoned => times == 0 && struck == 0,
        };
        case.must(right, || {
            format!(
                "hole {} is {times} times in, {struck} times struck out",
                hole.index
            )
        });
    }
    let known: Vec<usize> = case.facts.holes.iter().map(|h| h.index).collect();
    for struck in &case.plan.struck_out {
        let struck = usize::from(*struck);
        if !known.contains(&struck) {
            case.faults
                .push(format!("struck out an answered mark {struck}"));
        }
    }
}

/// New and marked holes legal; new ones on the lattice or beside a hole.
fn legal(case: &mut Case) {
    let mut faults = Vec::new();
    for station in &case.stations {
        for hole in station {
            let there = hole.state != State::Planned;
            if there != hole.index.is_some() {
                faults.push(format!("no such hole at {}", inches(hole.at)));
            }
            if hole.state != State::Drilled && !hole.legal {
                let why = super::why_not(&case.facts, hole.row, hole.at, 0, hole.index);
                faults.push(format!("{:?} at {}: {why:?}", hole.row, inches(hole.at)));
            }
            let beside_one = station
                .iter()
                .any(|other| other.state != State::Planned && other.at == hole.at);
            if !there && hole.at % case.facts.step != 0 && !beside_one {
                faults.push(format!("{} is off the lattice", inches(hole.at)));
            }
        }
    }
    case.faults.append(&mut faults);
}

/// One hole, or two of different rows; new pairs at one place, others at most
/// D apart; numbered from 1.
fn stations(case: &mut Case) {
    let mut faults = Vec::new();
    for (n, station) in case.stations.iter().enumerate() {
        let number = usize::from(station.first().map_or(0, |h| h.said.station));
        if number != n + 1 {
            faults.push(format!("station {} is numbered {number}", n + 1));
        }
        match station.as_slice() {
            [_] => {}
            [one, two] => {
                let both_there = [one, two].iter().all(|h| h.state != State::Planned);
                let most = if both_there { case.facts.diameter } else { 0 };
                if one.row == two.row || (one.at - two.at).abs() > most {
                    faults.push(format!("no pair at {}", inches(one.at)));
                }
            }
            _ => faults.push(format!("{} holes in one station", station.len())),
        }
    }
    case.faults.append(&mut faults);
}
