//! The list of checks: the edge between passing and not, what is not made, a
//! list that is full, and the words of every kind.

use boltbay_core::check::{
    CHECKS, Check, Checklist, Checks, Kind, Lack, Place, Question, Tally, Unit,
};
use boltbay_core::length::Length;

/// One kind after another: a new kind does not compile until it stands here.
#[rustfmt::skip]
fn next(kind: Kind) -> Option<Kind> {
    Some(match kind {
        Kind::RoomToEnter => Kind::PocketDepth,
        Kind::PocketDepth => Kind::PocketHeight,
        Kind::PocketHeight => Kind::PocketWidth,
        Kind::PocketWidth => Kind::PackingInPocket,
        Kind::PackingInPocket => Kind::BearingLeast,
        Kind::BearingLeast => Kind::BearingUsual,
        Kind::BearingUsual => Kind::OnConcrete,
        Kind::OnConcrete => Kind::OnMasonry,
        Kind::OnMasonry => Kind::OnWood,
        Kind::OnWood => Kind::OnSteel,
        Kind::OnSteel => Kind::OnKeyed,
        Kind::OnKeyed => Kind::FlangeOverBearing,
        Kind::FlangeOverBearing => Kind::WebYielding,
        Kind::WebYielding => Kind::WebCrippling,
        Kind::WebCrippling => Kind::Post,
        Kind::Post => Kind::Footing,
        Kind::Footing => Kind::MomentDown,
        Kind::MomentDown => Kind::MomentUp,
        Kind::MomentUp => Kind::WebShear,
        Kind::WebShear => Kind::NetWebShear,
        Kind::NetWebShear => Kind::LiveDeflection,
        Kind::LiveDeflection => Kind::TotalDeflection,
        Kind::TotalDeflection => Kind::FlangeUnderPacking,
        Kind::FlangeUnderPacking => Kind::PackingOnFlange,
        Kind::PackingOnFlange => Kind::BoltNearest,
        Kind::BoltNearest => Kind::BoltAverage,
        Kind::BoltAverage => Kind::BoltsAlone,
        Kind::BoltsAlone => Kind::RodTension,
        Kind::RodTension => Kind::WasherBearing,
        Kind::WasherBearing => Kind::BoltEnd,
        Kind::BoltEnd => Kind::LoadedEdge,
        Kind::LoadedEdge => Kind::FreeEdge,
        Kind::FreeEdge => Kind::Torque,
        Kind::Torque => Kind::HangerLoad,
        Kind::HangerLoad => Kind::LowNails,
        Kind::LowNails => Kind::HighNails,
        Kind::HighNails => Kind::NailDepth,
        Kind::NailDepth => Kind::NailHold,
        Kind::NailHold => Kind::LayerNailDepth,
        Kind::LayerNailDepth => Kind::LayerNailHold,
        Kind::LayerNailHold => Kind::SteelBelowJoists,
        Kind::SteelBelowJoists => Kind::JoistShrinkage,
        Kind::JoistShrinkage => return None,
    })
}

pub fn kinds() -> impl Iterator<Item = Kind> {
    std::iter::successors(Some(Kind::RoomToEnter), |kind| next(*kind))
}

/// What a crew may not read.
const FORBIDDEN: [&str; 9] = [
    "safe",
    "station",
    "window",
    "chain",
    "cover",
    "outstand",
    "misclosure",
    "approved",
    "ok",
];

#[test]
fn a_demand_equal_to_its_capacity_passes_and_one_unit_more_fails() {
    for (capacity, unit) in [(5000.0, 0.01), (4.0, 1.0 / 64.0), (1.0e6, 1.0), (0.1, 1e-6)] {
        let check = |demand| Check::new(Kind::Post, Place::Support(0), demand, capacity);
        assert_eq!(check(capacity).ok(), Some(true));
        assert_eq!(check(capacity + unit).ok(), Some(false));
        assert_eq!(check(capacity - unit).ok(), Some(true));
        // A sum that ought to be the capacity and misses it in its last bits.
        assert_eq!(check(capacity * (1.0 + 3e-16)).ok(), Some(true));
        assert_eq!(check(capacity).ratio(), Some(1.0));
    }
}

#[test]
fn nothing_there_to_carry_fails_without_a_ratio() {
    for capacity in [0.0, -1.0] {
        let check = Check::new(Kind::PocketDepth, Place::Beam, 1.0, capacity);
        assert_eq!((check.ok(), check.ratio()), (Some(false), None));
    }
    let only = Check::demand_only(Kind::Torque, Place::Beam, 1070.0);
    assert_eq!(
        (only.capacity(), only.ok(), only.ratio()),
        (None, None, None)
    );
}

#[test]
fn figures_that_are_no_numbers_are_not_made_and_not_lost() {
    let mut checks = Checks::new();
    for (demand, capacity) in [
        (f64::NAN, 1.0),
        (1.0, f64::NAN),
        (f64::INFINITY, 1.0),
        (1.0, f64::INFINITY),
    ] {
        checks.add(Check::new(Kind::WebShear, Place::Beam, demand, capacity));
    }
    checks.add(Check::demand_only(Kind::Torque, Place::Beam, f64::NAN));
    checks.add_or_lack(Kind::MomentUp, Place::Beam, Err(Lack::Row("steel")));
    assert!(checks.made().is_empty());
    assert_eq!(checks.not_made().len(), 6);
    assert_eq!(checks.not_made()[5].lack, Lack::Row("steel"));
    assert_eq!(checks.left_out(), 0);
}

#[test]
fn a_full_list_keeps_what_fails_and_counts_the_rest() {
    let mut checks = Checks::new();
    let at = |n: usize| Place::At(Length::from_inches(n as i32));
    for n in 0..CHECKS {
        checks.add(Check::new(Kind::WebShear, at(n), 1.0, 2.0));
    }
    checks.add(Check::new(Kind::WebShear, at(900), 1.0, 2.0));
    assert!(checks.all_pass());
    checks.add(Check::new(Kind::WebShear, at(901), 3.0, 2.0));
    assert!(!checks.all_pass());
    assert_eq!(checks.made().len(), CHECKS);
    assert_eq!(checks.left_out(), 2);
    let failing = checks.made().iter().filter(|c| c.ok() == Some(false));
    assert_eq!(failing.map(|c| c.place()).collect::<Vec<_>>(), [at(901)]);
}

#[test]
fn a_count_counts_what_a_list_would_fail() {
    let mut tally = Tally::default();
    let mut checks = Checks::new();
    for demand in [0.0, 1.0, 2.0, 3.0, f64::NAN, f64::INFINITY] {
        let check = Check::new(Kind::WebShear, Place::Beam, demand, 2.0);
        tally.add(check);
        checks.add(check);
    }
    tally.add(Check::demand_only(Kind::Torque, Place::Beam, 9.0));
    tally.lack(Kind::MomentUp, Place::Beam, Lack::Row("steel"));
    let failing = checks.made().iter().filter(|c| c.ok() == Some(false));
    assert_eq!(usize::from(tally.over), failing.count());
    assert_eq!(tally.over, 1);
}

#[test]
fn sorting_puts_the_foremans_order_and_keeps_equals() {
    let mut checks = Checks::new();
    for (kind, support) in [
        (Kind::NailDepth, 0),
        (Kind::WebYielding, 0),
        (Kind::RoomToEnter, 0),
        (Kind::WebYielding, 1),
        (Kind::BoltNearest, 0),
        (Kind::OnWood, 1),
        (Kind::WebYielding, 2),
    ] {
        checks.add(Check::new(kind, Place::Support(support), 1.0, 2.0));
    }
    checks.sort();
    let order: Vec<_> = checks
        .made()
        .iter()
        .map(|c| (c.kind(), c.place()))
        .collect();
    assert_eq!(
        order,
        [
            (Kind::RoomToEnter, Place::Support(0)),
            (Kind::OnWood, Place::Support(1)),
            (Kind::WebYielding, Place::Support(0)),
            (Kind::WebYielding, Place::Support(1)),
            (Kind::WebYielding, Place::Support(2)),
            (Kind::BoltNearest, Place::Support(0)),
            (Kind::NailDepth, Place::Support(0)),
        ]
    );
}

#[test]
fn every_kind_has_words_of_its_own_and_no_word_of_approval() {
    let mut names = std::collections::BTreeSet::new();
    let mut previous = None;
    for kind in kinds() {
        assert!(Some(kind) > previous, "{kind:?} out of order");
        previous = Some(kind);
        assert!(
            names.insert(kind.name()),
            "two kinds are called {}",
            kind.name()
        );
        assert!(
            kind.source().len() > 10 && kind.covers().len() > 10,
            "{kind:?}"
        );
        for text in [
            kind.name(),
            kind.source(),
            kind.covers(),
            kind.question().words(),
        ] {
            for word in text.to_lowercase().split(|c: char| !c.is_alphabetic()) {
                assert!(
                    !FORBIDDEN.contains(&word.trim_end_matches('s')),
                    "{word} in {text}"
                );
            }
        }
    }
    assert_eq!(names.len(), 43);
}

#[test]
fn questions_come_in_the_order_of_the_issue() {
    // Going in, ends, (lift: statics), steel, packing, bolts, nails.
    let asked: Vec<Question> = kinds().map(Kind::question).collect();
    let first = |question| asked.iter().position(|q| *q == question).unwrap();
    let order = [
        Question::GoesIn,
        Question::EndsSit,
        Question::SteelHolds,
        Question::PackingHolds,
        Question::BoltsHold,
        Question::NailsReach,
        Question::Flush,
    ];
    assert!(order.windows(2).all(|two| first(two[0]) < first(two[1])));
    assert_eq!(Kind::OnWood.unit(), Unit::PoundsPerSquareInch);
    assert_eq!(Kind::OnWood.unit().word(), "psi");
}

#[test]
fn a_list_of_checks_stays_small() {
    assert!(size_of::<Check>() <= 40, "{}", size_of::<Check>());
    assert!(size_of::<Checks>() <= 6144, "{}", size_of::<Checks>());
}
