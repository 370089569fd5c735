//! Which load hangs where, worked by hand.

use super::near;
use boltbay_core::checks::share::{Hangers, Hung};
use boltbay_core::force::{Force, LineLoad};
use boltbay_core::joists::Joist;
use boltbay_core::length::Length;
use boltbay_core::words::Side;
use proptest::prelude::*;

fn joist(centre: i32) -> Joist {
    Joist {
        from: Length::from_sixteenths(16 * centre - 12),
        to: Length::from_sixteenths(16 * centre + 12),
        metal: Length::ZERO,
        side: Side::N,
        number: 1,
        reading: 0,
    }
}

fn inches(inches: i32) -> Length {
    Length::from_inches(inches)
}

fn plf(n: f64, s: f64) -> [LineLoad; 2] {
    [n, s].map(LineLoad::from_pounds_per_foot)
}

/// 14 ft joists at 16 in under 50 psf: half a joist on the beam makes 350 plf
/// and 466.7 lb a hanger. Source: tributary areas, by hand.
#[test]
fn a_hanger_takes_half_way_to_its_neighbours() {
    let mut hung = Hung::new();
    assert!(hung.add_spread(inches(4), inches(84), plf(350.0, 100.0)));
    let joists = [joist(12), joist(28), joist(44), joist(60), joist(76)];
    let hangers = Hangers {
        hung: &hung,
        joists: &joists,
        side: Side::N,
    };
    near(hangers.load(1).as_pounds(), 466.667, 0.001, "inside");
    // From 4 to half-way, 20.
    near(hangers.load(0).as_pounds(), 466.667, 0.001, "first");
    near(hangers.load(4).as_pounds(), 466.667, 0.001, "last");
    near(hangers.load(5).as_pounds(), 0.0, 0.0, "none there");
    near(
        hangers
            .nearest(inches(20), None, Some(inches(36)))
            .as_pounds(),
        933.333,
        0.001,
        "mark",
    );
    // 28 is half-way between 20 and 36: it goes toward A.
    near(
        hangers
            .nearest(inches(36), Some(inches(20)), None)
            .as_pounds(),
        1400.0,
        0.001,
        "mark",
    );
    let south = Hangers {
        joists: &[],
        side: Side::S,
        ..hangers
    };
    near(
        south
            .nearest(inches(20), None, Some(inches(36)))
            .as_pounds(),
        200.0,
        1e-9,
        "24 in",
    );
}

#[test]
fn point_loads_go_to_one_hanger() {
    let mut hung = Hung::new();
    assert!(hung.add_point(inches(30), [Force::from_pounds(1400.0), Force::ZERO]));
    let joists = [joist(12), joist(28), joist(44)];
    let hangers = Hangers {
        hung: &hung,
        joists: &joists,
        side: Side::N,
    };
    let loads = [0, 1, 2].map(|joist| hangers.load(joist).as_pounds());
    assert_eq!(loads, [0.0, 1400.0, 0.0]);
    let other = Hangers {
        side: Side::S,
        ..hangers
    };
    assert_eq!(other.load(1), Force::ZERO);
}

#[test]
fn lines_add_up_where_they_overlap() {
    let mut hung = Hung::new();
    assert!(hung.add_spread(inches(0), inches(100), plf(100.0, 50.0)));
    assert!(hung.add_spread(inches(40), inches(60), plf(0.0, 300.0)));
    assert_eq!(hung.line_at(inches(39)), plf(100.0, 50.0));
    assert_eq!(hung.line_at(inches(40)), plf(100.0, 350.0));
    assert_eq!(hung.line_at(inches(60)), plf(100.0, 50.0));
    assert_eq!(hung.line_at(inches(100)), plf(0.0, 0.0));
    assert_eq!(
        hung.beginnings().collect::<Vec<_>>(),
        [inches(0), inches(40)]
    );
    for _ in 2..32 {
        assert!(hung.add_spread(inches(0), inches(1), plf(1.0, 1.0)));
    }
    assert!(!hung.add_spread(inches(0), inches(1), plf(1.0, 1.0)));
}

proptest! {
    /// Nothing is lost or taken twice: the hangers together carry all that
    /// hangs on the side, and the marks all that the hangers carry.
    #[test]
    fn all_of_it_is_shared_out(
        spreads in prop::collection::vec((0..2000_i32, 0..2000_i32, 0.0..900.0_f64), 0..5),
        points in prop::collection::vec((0..2000_i32, 0.0..3000.0_f64), 0..5),
        mut centres in prop::collection::vec(1..2000_i32, 0..40),
        mut marks in prop::collection::vec(1..2000_i32, 1..40),
    ) {
        let mut hung = Hung::new();
        let mut total = 0.0;
        for (one, other, load) in spreads {
            let (from, to) = (one.min(other), one.max(other));
            let _ = hung.add_spread(Length::from_sixteenths(from), Length::from_sixteenths(to), plf(load, 7.0));
            total += load / 12.0 * f64::from(to - from) / 16.0;
        }
        for (at, load) in points {
            let _ = hung.add_point(Length::from_sixteenths(at), [load, 9.0].map(Force::from_pounds));
            total += load;
        }
        centres.sort_unstable();
        let joists: Vec<Joist> = centres
            .iter()
            .map(|&at| Joist { from: Length::from_sixteenths(at), to: Length::from_sixteenths(at + 24), ..joist(0) })
            .collect();
        let hangers = Hangers { hung: &hung, joists: &joists, side: Side::N };
        if !joists.is_empty() {
            let all: f64 = (0..joists.len()).map(|joist| hangers.load(joist).as_pounds()).sum();
            prop_assert!((all - total).abs() < 1e-6, "{} {}", all, total);
        }
        marks.sort_unstable();
        marks.dedup();
        let at = |mark: Option<&i32>| mark.copied().map(Length::from_sixteenths);
        let all: f64 = (0..marks.len())
            .map(|mark| {
                let before = mark.checked_sub(1).and_then(|m| marks.get(m));
                let here = Length::from_sixteenths(marks[mark]);
                hangers.nearest(here, at(before), at(marks.get(mark + 1))).as_pounds()
            })
            .sum();
        prop_assert!((all - total).abs() < 1e-6, "{} {}", all, total);
    }
}

/// Rows `load` of a card: half to each side where none is keyed, what stands on
/// top hangs on none; an area takes its tributary width. Source: by hand:
/// (10 + 40) psf x 13 ft = 650 plf.
#[test]
fn loads_of_a_card_hang_where_it_says() {
    use boltbay_core::decimal::Decimal;
    use boltbay_core::frame::Frame;
    use boltbay_core::job::loads::LoadSide;
    use boltbay_core::job::{Beam, BeamLength, Job, Load, LoadKind, Position};
    use boltbay_core::words::Units;
    let mut job = Job::new(Units::Imperial);
    job.beam = Some(Beam {
        designation: "W8X18".try_into().unwrap(),
        length: inches(172),
        measured: BeamLength::Measured,
    });
    job.walls = [Some(inches(4)), Some(inches(4))];
    let mut load = |kind, dead, live, side| {
        let (dead, live) = (Decimal::whole(dead), Decimal::whole(live));
        job.loads
            .push(Load {
                kind,
                dead,
                live,
                side,
            })
            .unwrap();
    };
    let area = LoadKind::Area {
        tributary: inches(156),
        from: None,
        to: None,
    };
    load(area, 10, 40, LoadSide::Halves);
    let end = Some(Position::from_end_a(inches(60)));
    load(
        LoadKind::Line {
            from: None,
            to: end,
        },
        20,
        30,
        LoadSide::On(Side::S),
    );
    let at = Position::from_end_a(inches(100));
    load(LoadKind::Point { at }, 500, 900, LoadSide::On(Side::N));
    load(LoadKind::Point { at }, 5000, 9000, LoadSide::Top);
    let hung = Hung::of(&job, &Frame::of(&job).unwrap()).unwrap();
    let line = |at: i32| hung.line_at(inches(at)).map(LineLoad::as_pounds_per_foot);
    let close = |found: [f64; 2], wanted: [f64; 2]| {
        for (found, wanted) in found.into_iter().zip(wanted) {
            near(found, wanted, 1e-9, "line load");
        }
    };
    close(line(30), [325.0, 375.0]);
    close(line(60), [325.0, 325.0]);
    close(line(168), [0.0, 0.0]);
    let around =
        [Side::N, Side::S].map(|side| hung.between(side, inches(99), inches(101)).as_pounds());
    close(around, [1400.0 + 325.0 / 6.0, 325.0 / 6.0]);
}
