//! Edits: each field keeps what is keyed into it, each edit survives its bytes,
//! and what is deleted comes back whole.

use boltbay_core::decimal::Decimal;
use boltbay_core::job::{
    Check, CheckKind, Edge, HangerRef, Hole, HoleState, Hook, Job, JoistReading, Position, Run,
    RunHook,
};
use boltbay_core::length::Length;
use boltbay_core::words::{End, Row, Side, Units};
use boltbay_handheld::edit::{BYTES, Edit, Refused, apply};
use boltbay_handheld::field::{Field, Kind, List, Sort, Value};

fn run() -> Run {
    Run {
        side: Side::S,
        hook: RunHook::Mark(
            Position {
                reading: Length::from_inches(40),
                hook: Hook::WallB,
            },
            End::A,
        ),
        edge: Edge::Far,
        burn: Some(Length::from_inches(1)),
        thickness: Some(Length::from_sixteenths(28)),
        read_to: Some(Length::from_sixteenths(2)),
        overridden: true,
    }
}

fn joist(run: u8, inches: i32) -> JoistReading {
    JoistReading {
        reading: Length::from_inches(inches),
        thickness: Some(Length::from_inches(3)),
        hanger: HangerRef::Row(3),
        run,
        guessed: true,
    }
}

/// A job with one entry in each list, and what other fields stand on.
fn full() -> Job {
    let mut job = Job::new(Units::Imperial);
    let mut edits: Vec<Edit> = List::ALL
        .into_iter()
        .filter(|list| !matches!(list, List::Runs | List::Joists | List::Checks))
        .map(|list| Edit::Insert(list, 0))
        .collect();
    edits.push(Edit::Run(run()));
    edits.push(Edit::Joist(0, joist(0, 20)));
    edits.push(Edit::Check(Check {
        kind: CheckKind::Close,
        reading: Length::from_inches(9),
        point: Position::default(),
        run: 0,
        guessed: false,
    }));
    let length = |kind| Edit::Set(Field::of(kind), Value::Length(Length::from_inches(2)));
    edits.extend(
        [
            Kind::Bolt,
            Kind::Spacing,
            Kind::EndLeast,
            Kind::WasherSize,
            Kind::NutThickness,
            Kind::PocketDepth,
            Kind::JoistDepth,
            Kind::Braced,
        ]
        .map(length),
    );
    edits.push(Edit::Set(
        Field::of(Kind::SupportName),
        Value::of_words("A"),
    ));
    let number = |kind| Edit::Set(Field::of(kind), Value::Number(Decimal::whole(50)));
    edits.extend([Kind::Fy, Kind::PostAllowable].map(number));
    for edit in &edits {
        assert_eq!(apply(&mut job, edit), Ok(()), "{edit:?}");
    }
    job
}

/// Values that a field of this sort must keep.
fn values(kind: Kind) -> Vec<Value> {
    match kind.about().sort {
        Sort::Length | Sort::Fine | Sort::Decimal => {
            vec![Value::Length(Length::from_sixty_fourths(123))]
        }
        Sort::Number(..) => vec![Value::Number(Decimal::new(123, 2))],
        Sort::Count => vec![Value::Count(7)],
        Sort::Choice(words) => (0..words.len())
            .map(|choice| Value::Choice(u8::try_from(choice).unwrap()))
            .collect(),
        Sort::Words(1) => vec![Value::of_words("E")],
        Sort::Words(most) => vec![Value::of_words(
            &"BEAM 7/B.-A AND MORE OF IT"[..usize::from(most)],
        )],
        Sort::At => vec![Value::At(Position {
            reading: Length::from_inches(77),
            hook: Hook::WallB,
        })],
        Sort::Shape => vec![Value::of_words("W10X26")],
    }
}

/// A load's fields depend on its kind.
fn prepare(job: &mut Job, kind: Kind) {
    let choice = match kind {
        Kind::LoadAt => 2,
        _ => 0,
    };
    let kind = Field::of(Kind::LoadKind);
    apply(job, &Edit::Set(kind, Value::Choice(choice))).unwrap();
}

#[test]
fn every_field_keeps_what_is_keyed() {
    for kind in Kind::ALL {
        for value in values(*kind) {
            let mut job = full();
            prepare(&mut job, *kind);
            let field = Field::of(*kind);
            let edit = Edit::Set(field, value.clone());
            assert_eq!(apply(&mut job, &edit), Ok(()), "{edit:?}");
            assert_eq!(field.get(&job), value, "{kind:?}");
        }
    }
}

#[test]
fn a_value_of_another_sort_changes_nothing() {
    let strangers = [
        Value::Length(Length::from_inches(5)),
        Value::Number(Decimal::whole(5)),
        Value::Count(5),
        Value::Choice(99),
        Value::of_words("TOO LONG FOR ANY FIELD"),
        Value::At(Position::default()),
    ];
    let mut refused = 0;
    for kind in Kind::ALL {
        for stranger in &strangers {
            let mut job = full();
            prepare(&mut job, *kind);
            let before = job.clone();
            if apply(&mut job, &Edit::Set(Field::of(*kind), stranger.clone())).is_err() {
                assert_eq!(job, before, "{kind:?} {stranger:?}");
                refused += 1;
            }
        }
    }
    assert!(refused > 500, "only {refused} were refused");
}

#[test]
fn an_entry_that_is_not_there_takes_nothing() {
    for kind in Kind::ALL {
        for value in values(*kind) {
            let mut job = Job::new(Units::Imperial);
            let before = job.clone();
            let edit = Edit::Set(Field::at(*kind, 200), value);
            if apply(&mut job, &edit).is_err() {
                assert_eq!(job, before, "{edit:?}");
            }
        }
    }
}

/// Every kind of edit.
fn edits() -> Vec<Edit> {
    let mut edits = vec![
        Edit::New(Units::Metric),
        Edit::Run(run()),
        Edit::StrikeMarks,
    ];
    for kind in Kind::ALL {
        let field = Field::at(*kind, 3);
        edits.extend(
            values(*kind)
                .into_iter()
                .map(|value| Edit::Set(field, value)),
        );
        edits.push(Edit::Set(field, Value::Nothing));
    }
    for list in List::ALL {
        edits.extend([Edit::Insert(list, 9), Edit::Remove(list, 2)]);
    }
    edits.push(Edit::Joist(159, joist(15, 400)));
    edits.push(Edit::Check(Check {
        kind: CheckKind::Check,
        reading: Length::from_millimetres(-12),
        point: Position {
            reading: Length::ZERO,
            hook: Hook::EndB,
        },
        run: 3,
        guessed: true,
    }));
    let at = Position::from_end_a(Length::from_sixteenths(777));
    for (row, state) in Row::BOTH
        .into_iter()
        .zip([HoleState::Drilled, HoleState::Abandoned])
    {
        edits.push(Edit::Hole(5, Hole::new(at, row, state)));
    }
    edits
}

#[test]
fn every_edit_survives_its_bytes() {
    for edit in edits() {
        let mut bytes = [0xEE; BYTES];
        let length = edit
            .write(&mut bytes)
            .unwrap_or_else(|| panic!("{edit:?} is too long"));
        assert_eq!(Edit::read(&bytes), Ok((edit.clone(), length)));
        // One byte less is another edit in no case.
        for short in 0..length {
            assert!(
                Edit::read(&bytes[..short]).is_err(),
                "{edit:?} cut to {short}"
            );
        }
        assert_eq!(edit.write(&mut bytes[..length - 1]), None);
    }
}

#[test]
fn damaged_bytes_are_refused_or_another_whole_edit() {
    for edit in edits() {
        let mut bytes = [0; BYTES];
        let length = edit.write(&mut bytes).unwrap();
        for at in 0..length {
            for bit in 0..8 {
                let mut damaged = bytes;
                damaged[at] ^= 1 << bit;
                if let Ok((other, _)) = Edit::read(&damaged) {
                    let mut again = [0; BYTES];
                    let length = other.write(&mut again).unwrap();
                    assert_eq!(Edit::read(&again[..length]).unwrap().0, other);
                }
            }
        }
    }
}

#[test]
fn numbers_of_kinds_are_each_their_own() {
    let mut numbers: Vec<u8> = Kind::ALL.iter().map(|kind| *kind as u8).collect();
    numbers.sort_unstable();
    numbers.dedup();
    assert_eq!(numbers.len(), Kind::ALL.len());
}

#[test]
fn a_full_list_is_named() {
    let mut job = Job::new(Units::Imperial);
    for _ in 0..5 {
        apply(&mut job, &Edit::Insert(List::Supports, 0)).unwrap();
    }
    assert_eq!(
        apply(&mut job, &Edit::Insert(List::Supports, 0)),
        Err(Refused::Full(List::Supports, 5))
    );
    for _ in 0..8 {
        apply(&mut job, &Edit::Run(run())).unwrap();
    }
    let before = job.clone();
    assert_eq!(
        apply(&mut job, &Edit::Run(run())),
        Err(Refused::Full(List::Runs, 8))
    );
    assert_eq!(job, before);
}

#[test]
fn a_run_takes_its_readings_along_and_later_runs_move_down() {
    let mut job = Job::new(Units::Imperial);
    for number in 0..3 {
        apply(&mut job, &Edit::Run(run())).unwrap();
        apply(&mut job, &Edit::Joist(255, joist(number, 10))).unwrap();
    }
    apply(&mut job, &Edit::Remove(List::Runs, 1)).unwrap();
    let runs: Vec<u8> = job.joists.iter().map(|joist| joist.run).collect();
    assert_eq!(runs, [0, 1]);
    assert_eq!(
        apply(&mut job, &Edit::Joist(0, joist(2, 10))),
        Err(Refused::Unfit)
    );
}
