//! Two sessions: one that reaches every corner of the journal, with the simplest
//! thing to keep; and a crew's day with a real job.

use super::crew::Step;
use boltbay_core::Length;
use boltbay_core::job::{Edge, HangerRef, Hole, HoleState, JoistReading, Position, Run, RunHook};
use boltbay_core::words::{End, Row, Side, Units};
use boltbay_handheld::edit::{Edit, Edits};
use boltbay_handheld::field::{Field, Kind, Value};
use boltbay_handheld::journal::edits_as_bytes;

fn key(edits: Vec<u8>, turn: usize) -> Step {
    let place = format!("screen {turn}").into_bytes();
    Step::Key { edits, place }
}

/// `count` keys of a ledger: long edits and short ones, and some that only move
/// the screens.
fn ledger_keys(count: usize, from: usize) -> impl Iterator<Item = Step> {
    (from..from + count).map(|turn| match turn % 5 {
        0 => key(Vec::new(), turn),
        1 if turn % 15 == 1 => key(vec![turn as u8; 200], turn),
        2 => key(vec![turn as u8], turn),
        _ => key(format!("reading {turn}").into_bytes(), turn),
    })
}

/// More keys than both rings hold, four jobs, one of them removed and brought
/// back, one removed.
pub fn ledger() -> Vec<Step> {
    let mut steps: Vec<Step> = ledger_keys(150, 0).collect();
    steps.push(Step::Make(b"job one".to_vec()));
    steps.extend(ledger_keys(12, 200));
    steps.push(Step::Make(b"job two".to_vec()));
    steps.push(Step::Open(1));
    steps.extend(ledger_keys(5, 300));
    steps.push(Step::Remove(2));
    steps.push(Step::Open(0));
    steps.push(Step::Restore(2));
    steps.extend(ledger_keys(160, 400));
    steps.push(Step::Make(b"job three".to_vec()));
    steps.push(Step::Remove(1));
    steps.extend(ledger_keys(10, 600));
    steps
}

/// The bytes of what one key changes.
pub fn bytes(edits: &[Edit]) -> Vec<u8> {
    let edits: Edits = edits.iter().cloned().collect();
    edits_as_bytes(&edits).unwrap().to_vec()
}

fn inches(sixteenths: i32) -> Length {
    Length::from_sixteenths(sixteenths)
}

/// A run of joists every 16 in on one side, as read from wall A.
fn run(side: Side, number: u8, from: u8) -> Vec<Vec<Edit>> {
    let run = Run {
        side,
        hook: RunHook::Wall(End::A),
        edge: Edge::Near,
        burn: Some(inches(16)),
        thickness: None,
        read_to: None,
        overridden: false,
    };
    let mut keys = vec![vec![Edit::Run(run)]];
    for nth in 0..14 {
        let reading = JoistReading {
            reading: inches(160 + 256 * i32::from(nth) + i32::from(nth % 3)),
            thickness: (nth % 4 == 0).then_some(inches(26)),
            hanger: HangerRef::Default,
            run: number,
            guessed: nth % 2 == 0,
        };
        keys.push(vec![Edit::Joist(from + nth, reading)]);
    }
    keys
}

/// A beam measured, joists read on both sides, some corrected, holes marked and
/// drilled; a second job begun in between and left.
pub fn day() -> Vec<Step> {
    let set = |kind, value| Edit::Set(Field::of(kind), value);
    let words = |text: &str| Value::of_words(text);
    let mut keys = vec![
        vec![Edit::New(Units::Imperial)],
        vec![set(Kind::JobName, words("Stoop"))],
        vec![set(Kind::Shape, words("W8X28"))],
        vec![set(Kind::Length, Value::Length(inches(20 * 192)))],
        vec![Edit::Set(
            Field::at(Kind::Bearing, 0),
            Value::Length(inches(64)),
        )],
    ];
    keys.extend(run(Side::N, 0, 0));
    keys.extend(run(Side::S, 1, 14));
    for nth in 0..6 {
        let reading = Value::Length(inches(150 + 256 * nth));
        keys.push(vec![Edit::Set(
            Field::at(Kind::Reading, nth as u8),
            reading,
        )]);
    }
    for nth in 0..24 {
        let at = Position::from_end_a(inches(128 + 150 * nth));
        let mark = Hole::new(at, Row::Top, HoleState::Marked);
        let drilled = Hole::new(at, Row::Top, HoleState::Drilled);
        keys.push(vec![Edit::Hole(nth as u8, mark)]);
        if nth % 3 == 0 {
            let gone = Edit::Remove(boltbay_handheld::field::List::Holes, nth as u8);
            keys.push(vec![gone, Edit::Hole(nth as u8, drilled)]);
        }
    }
    let key = |(turn, edits): (usize, Vec<Edit>)| key(bytes(&edits), turn);
    let mut steps: Vec<Step> = keys.clone().into_iter().enumerate().map(key).collect();
    steps.push(Step::Make(bytes(&[Edit::New(Units::Metric)])));
    steps.extend(keys.into_iter().enumerate().skip(1).take(8).map(key));
    steps.push(Step::Open(0));
    steps
}
