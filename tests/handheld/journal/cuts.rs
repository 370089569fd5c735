//! Power goes at every block that a session writes, and again while the card is
//! being repaired: the crew finds the job before that key or after it.

use super::card::{Card, Quirk, Spoiled, groups, torn};
use super::crew::{Keepable, Ledger, Moment, Step, found, is_either, moments};
use super::sessions;
use boltbay_core::Job;
use boltbay_core::words::Units;

impl Keepable for Job {
    fn new() -> Self {
        Job::new(Units::Imperial)
    }
}

/// How thoroughly: every so many bytes of a torn block, and every so many writes.
#[derive(Clone, Copy)]
pub struct Care {
    pub tear: usize,
    pub skip: usize,
}

/// Each block is torn in a few places; with the long tests, at every byte.
const CARE: Care = match cfg!(feature = "soak") {
    true => Care { tear: 1, skip: 1 },
    false => Care { tear: 170, skip: 1 },
};

/// A card on which the write of this moment went so.
fn spoil<K>(moment: &Moment<K>, quirk: Quirk, spoiled: &Spoiled) -> Card {
    let mut card = Card::of(moment.written.before.clone());
    card.quirk = quirk;
    for at in card.written_with(moment.written.at) {
        spoiled.apply(&mut card.blocks, at);
    }
    card
}

/// Every way in which this write may go.
fn ways<K>(moment: &Moment<K>, turn: usize, care: Care) -> Vec<Spoiled> {
    let old = moment.written.before.get(moment.written.at);
    let mut ways = torn(&old, &moment.written.new, care.tear, turn as u64);
    ways.extend(groups(turn as u64));
    ways
}

/// Every cut of a session; the first after which a crew finds what it never saw.
pub fn cut_everywhere<K: Keepable>(
    quirk: Quirk,
    steps: &[Step],
    care: Care,
) -> Result<usize, String> {
    let card = Card {
        quirk,
        ..Card::default()
    };
    let moments = moments::<K>(card, steps).map_err(|fault| format!("{fault:?}"))?;
    let mut cuts = 0;
    for (turn, moment) in moments.iter().enumerate().step_by(care.skip) {
        for spoiled in ways(moment, turn, care) {
            let card = spoil(moment, quirk, &spoiled);
            let (world, _) = found::<K>(&card)?;
            is_either(&world, [&moment.before, &moment.after])
                .map_err(|how| format!("write {turn}: {how}"))?;
            cuts += 1;
        }
    }
    Ok(cuts)
}

#[test]
fn the_ledger_survives_any_cut() {
    let cuts = cut_everywhere::<Ledger>(Quirk::None, &sessions::ledger(), CARE).unwrap();
    assert!(cuts > 5_000, "{cuts} cuts");
}

#[test]
fn a_day_of_work_survives_any_cut() {
    let cuts = cut_everywhere::<Job>(Quirk::None, &sessions::day(), CARE).unwrap();
    assert!(cuts > 1_500, "{cuts} cuts");
}

/// A second cut at every write of the repair, and a third opening after it.
fn cut_twice<K: Keepable>(steps: &[Step], care: Care) -> usize {
    let moments = moments::<K>(Card::default(), steps).unwrap();
    let mut cuts = 0;
    for (turn, moment) in moments.iter().enumerate().step_by(care.skip) {
        let mut first = groups(turn as u64);
        first.push(Spoiled::Unreadable);
        for spoiled in first {
            let card = spoil(moment, Quirk::None, &spoiled);
            let (_, repair) = found::<K>(&card).unwrap();
            for (nth, written) in repair.into_iter().enumerate() {
                let seed = (turn * 31 + nth) as u64;
                let old = written.before.get(written.at);
                let mut ways = torn(&old, &written.new, care.tear, seed);
                ways.extend(groups(seed));
                let pick = nth % ways.len();
                // One way a write by turns, and the worst always.
                for way in [pick, ways.len() - 1, ways.len() - 4] {
                    let mut card = Card::of(written.before.clone());
                    ways[way].apply(&mut card.blocks, written.at);
                    let (world, _) = found::<K>(&card).unwrap_or_else(|how| {
                        panic!(
                            "write {turn} at {}, repair {nth} at {}, way {way}: {how}",
                            moment.written.at, written.at
                        )
                    });
                    is_either(&world, [&moment.before, &moment.after])
                        .unwrap_or_else(|how| panic!("write {turn}, repair {nth}: {how}"));
                    cuts += 1;
                }
            }
        }
    }
    cuts
}

#[test]
fn a_second_cut_during_the_repair_is_survived() {
    let care = Care {
        tear: 128,
        skip: if cfg!(feature = "soak") { 1 } else { 9 },
    };
    assert!(cut_twice::<Ledger>(&sessions::ledger(), care) > 1_000);
    assert!(cut_twice::<Job>(&sessions::day(), care) > 500);
}
