//! Limits of what is keyed: the handheld takes what a card may say, and no more; and
//! whatever it takes is planned.

use super::crew::Crew;
use super::walk::demo;
use boltbay_core::Job;
use boltbay_core::card::{self, Wrong};
use boltbay_core::decimal::Decimal;
use boltbay_core::job::Position;
use boltbay_core::length::Length;
use boltbay_core::words::Units;
use boltbay_handheld::field::{Field, Kind, Sort, Value};
use boltbay_handheld::{Key, Memory};
use std::collections::BTreeSet;
use std::fs;

/// The least length of all.
const HAIR: Length = Length::from_counts(1);

/// The least, the greatest, nothing, and what lies just beyond the limits.
fn candidates(kind: Kind) -> Vec<Value> {
    let span = kind.span();
    let beyond = [
        span.least.saturating_sub(HAIR),
        span.most.saturating_add(HAIR),
    ];
    let lengths = [&[span.least, span.most, Length::ZERO][..], &beyond].concat();
    let most = kind.amounts().most;
    let numbers = [-1, 0, 1, most, most.saturating_add(1)].map(Decimal::whole);
    let (few, many) = kind.counts();
    let counts = [few, many, few.saturating_sub(1), many.saturating_add(1)];
    match kind.about().sort {
        Sort::Length | Sort::Fine | Sort::Decimal => {
            lengths.into_iter().map(Value::Length).collect()
        }
        Sort::At => {
            let positions = lengths.into_iter().map(Position::from_end_a);
            positions.map(Value::At).collect()
        }
        Sort::Number(..) => numbers.map(Value::Number).to_vec(),
        Sort::Count => counts.map(Value::Count).to_vec(),
        _ => Vec::new(),
    }
}

/// Whether a card refuses a figure for its size.
fn is_of_size(wrong: &Wrong) -> bool {
    matches!(
        wrong,
        Wrong::Negative
            | Wrong::Zero
            | Wrong::LengthAbove { .. }
            | Wrong::LengthBelow { .. }
            | Wrong::NumberAbove { .. }
            | Wrong::Count { .. }
    )
}

/// Reads back what the job says as a card.
fn refused(job: &Job) -> Option<Wrong> {
    let mut text = String::new();
    card::write(job, &mut text).unwrap();
    let read = card::read(text.as_bytes(), &mut Job::new(Units::Imperial));
    read.err().map(|error| error.wrong)
}

/// Begins what no demo card has, so that its other fields are there.
fn begin_rare(job: &mut Job) {
    let inch = Value::Length(Length::from_inches(1));
    let strong = Value::Number(Decimal::whole(1000));
    for (kind, value) in [
        (Kind::Braced, inch.clone()),
        (Kind::NutThickness, inch),
        (Kind::PostAllowable, strong),
        (Kind::LoadKind, Value::Choice(2)),
        (Kind::RunHook, Value::Choice(4)),
    ] {
        // Not every card has a support, a load or a run.
        Field::of(kind).set(job, &value);
    }
}

#[test]
fn the_extremes_of_every_field_stand_on_a_card_and_are_planned() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo-data");
    let mut memory = Box::new(Memory::new());
    let [mut taken, mut left, mut written] = [(); 3].map(|()| BTreeSet::new());
    for file in fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().path())
    {
        if file.extension().is_none_or(|extension| extension != "csv") {
            continue;
        }
        let mut job = Job::new(Units::Imperial);
        card::read(&fs::read(&file).unwrap(), &mut job).unwrap();
        let plain = job.clone();
        begin_rare(&mut job);
        for (job, kind, index) in [plain, job]
            .iter()
            .flat_map(|job| Kind::ALL.iter().map(move |kind| (job, *kind)))
            .flat_map(|(job, kind)| [(job, kind, 0), (job, kind, 2)])
        {
            let field = Field::at(kind, index);
            for value in candidates(kind) {
                memory.job.clone_from(job);
                if !field.set(&mut memory.job, &value) {
                    assert_eq!(memory.job, *job, "{kind:?}: refused, but changed");
                    left.insert(format!("{kind:?}"));
                    continue;
                }
                taken.insert(format!("{kind:?}"));
                // An entry just begun lacks other fields, which a card refuses.
                if field.get(job) != Value::Nothing {
                    let wrong = refused(&memory.job).filter(is_of_size);
                    assert_eq!(wrong, None, "{kind:?} {value:?} in {file:?}");
                    written.insert(format!("{kind:?}"));
                }
                let Memory {
                    job, plan, scratch, ..
                } = &mut *memory;
                plan.make(job, scratch);
            }
        }
    }
    assert!(written.len() > 45, "{} kinds on cards", written.len());
    let figures = Kind::ALL
        .iter()
        .filter(|kind| !candidates(**kind).is_empty());
    let mut figures: BTreeSet<String> = figures.map(|kind| format!("{kind:?}")).collect();
    assert_eq!(&figures - &taken, BTreeSet::new(), "never taken");
    // A hanger's number is judged by the hangers that there are.
    figures.remove("JoistHanger");
    assert_eq!(&figures - &left, BTreeSet::new(), "never refused");
}

/// Opens the field of this label on the form in sight.
fn open(crew: &mut Crew, label: &str) {
    for _ in 0..40 {
        let view = crew.view();
        let at = view.selected.map_or(0, usize::from);
        if view.lines.get(at).is_some_and(|line| line.left == label) {
            crew.tap(Key::Ok);
            return;
        }
        crew.tap(Key::Down);
    }
    panic!("no {label}: {:?}", crew.view());
}

#[test]
fn what_no_card_may_say_is_not_taken_and_the_limit_is_said() {
    let mut memory = demo("02-squall-lapped-joists.csv");
    let mut crew = Crew::new(&mut memory);
    crew.hears = true;
    open(&mut crew, "PLAN");
    open(&mut crew, "USUAL VALUES");
    open(&mut crew, "MARKS EVERY");
    for (digits, says, limit) in [("000000", "AT LEAST", "1/32"), ("020000", "AT MOST", "1'0")] {
        for digit in digits.bytes() {
            crew.tap(Key::Digit(digit - b'0'));
        }
        let view = crew.view();
        assert_eq!(view.lines[0].left, says, "{view:?}");
        assert!(view.lines[0].right.contains(limit), "{view:?}");
        crew.tap(Key::Ok);
        assert_eq!(crew.view().screen, "length", "still asked");
    }
    assert_eq!(crew.handheld.job().lattice, None);
}
