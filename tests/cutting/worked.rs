//! Cuts worked by hand. Pieces from a stick: n = floor((S + kerf) / (L + kerf)),
//! left = S - n (L + kerf); no kerf is cut past the last piece that just fits.

use boltbay_core::Length;
use boltbay_core::cutting::{self, CuttingInput, Scratch, Wanted};
use boltbay_core::job::{Stick, StickSource};
use boltbay_core::rods::{Proof, Rods};

/// Eighths of an inch.
fn eighths(count: i32) -> Length {
    Length::from_sixteenths(2 * count)
}

fn rod(length: Length, count: Option<u16>) -> Stick {
    Stick {
        length,
        count,
        source: StickSource::Rod,
    }
}

fn offcut(length: Length, count: u16) -> Stick {
    Stick {
        length,
        count: Some(count),
        source: StickSource::Offcut,
    }
}

fn wanted(pieces: &[(Length, u32)]) -> Vec<Wanted> {
    let each = pieces.iter();
    each.map(|&(length, count)| Wanted { length, count })
        .collect()
}

fn cut(pieces: &[(Length, u32)], sticks: &[Stick], kerf: Length, trim: bool) -> Rods {
    let pieces = wanted(pieces);
    let input = CuttingInput {
        pieces: &pieces,
        sticks,
        kerf,
        trim,
    };
    let mut rods = Rods::new();
    cutting::cut(&input, &mut Scratch::new(), &mut rods);
    rods
}

/// One stick filled with one length: how many, and what is left.
/// Hand-worked: 36: 5 x 6-3/4 = 33-3/4, 5 kerfs 5/8, left 1-5/8. 72: 7 x 9-1/2 =
/// 66-1/2, 7/8, left 4-5/8. 36: 6 x 5-1/4 = 31-1/2, 6/8, left 3-3/4. 120: 14 x
/// 8-1/8 = 113-3/4, 14/8, left 4-1/2.
#[test]
fn pieces_from_one_stick() {
    let rows = [
        (288, 54, 5, 13),
        (576, 76, 7, 37),
        (288, 42, 6, 30),
        (960, 65, 14, 36),
    ];
    for (stock, length, count, left) in rows {
        let stick = [rod(eighths(stock), Some(1))];
        let exact = cut(&[(eighths(length), count)], &stick, eighths(1), false);
        assert!(exact.feasible);
        assert_eq!(exact.sticks.len(), 1);
        assert_eq!(u32::from(exact.sticks[0].cuts[0]), count);
        assert_eq!(exact.sticks[0].left, eighths(left));
        let more = cut(&[(eighths(length), count + 1)], &stick, eighths(1), false);
        assert!(!more.feasible && more.too_long.is_empty());
        assert_eq!(more.uncut[..], [(eighths(length), 1)]);
        assert_ne!(
            more.proof,
            Proof::NotProved,
            "that it does not suffice is proved"
        );
    }
}

/// Metric, hand-worked: 216 mm from 1 m: 4 x 216 + 4 x 3 = 876, left 124; from
/// 3 m: 13 x 216 + 13 x 3 = 2,847, left 153, and a 14th needs 3,024.
#[test]
fn pieces_from_one_metric_stick() {
    let mm = Length::from_millimetres;
    for (stock, count, left) in [(1_000, 4, 124), (3_000, 13, 153)] {
        let rods = cut(&[(mm(216), count)], &[rod(mm(stock), None)], mm(3), false);
        assert_eq!(rods.bought_sticks, 1);
        assert_eq!(rods.sticks[0].left, mm(left));
        let more = cut(
            &[(mm(216), count + 1)],
            &[rod(mm(stock), None)],
            mm(3),
            false,
        );
        assert_eq!(more.bought_sticks, 2);
    }
}

/// 21 rods of 216 mm: six sticks of 1 m (4 each), or two of 3 m (13 each); one of
/// 3 m and two of 1 m yield 13 + 8 = 21 and buy 5 m, less than either.
#[test]
fn two_stock_lengths_mix() {
    let mm = Length::from_millimetres;
    let metre = [rod(mm(1_000), None)];
    assert_eq!(cut(&[(mm(216), 21)], &metre, mm(3), false).bought_sticks, 6);
    let three = [rod(mm(3_000), None)];
    assert_eq!(cut(&[(mm(216), 21)], &three, mm(3), false).bought_sticks, 2);
    let both = [metre[0], three[0]];
    let rods = cut(&[(mm(216), 21)], &both, mm(3), false);
    assert_eq!(rods.bought_counts, 5_000 * 40_000);
    assert_eq!(rods.bought_sticks, 3);
}

/// The last piece may end where the stick ends: 3 x 12 in from 36 in with no
/// kerf, 3 x 11-7/8 with 1/8 (35-5/8 + 2/8 = 35-7/8). Trimmed: one kerf more.
#[test]
fn a_kerf_is_not_cut_past_the_end() {
    let stick = [rod(eighths(288), Some(1))];
    assert!(cut(&[(eighths(96), 3)], &stick, Length::ZERO, false).feasible);
    assert!(!cut(&[(eighths(96), 3)], &stick, eighths(1), false).feasible);
    let tight = cut(&[(eighths(95), 3)], &stick, eighths(1), false);
    assert!(tight.feasible);
    assert_eq!(tight.sticks[0].left, Length::ZERO);
    // 35-5/8 + 3/8 = 36: just fits with the end trimmed; with two more eighths not.
    assert!(cut(&[(eighths(95), 3)], &stick, eighths(1), true).feasible);
    assert!(
        !cut(
            &[(eighths(96), 2), (eighths(94), 1)],
            &stick,
            eighths(1),
            true
        )
        .feasible
    );
    // One piece as long as its stick needs no cut; trimmed it does not fit.
    let whole = cut(&[(eighths(288), 1)], &stick, eighths(1), false);
    assert!(whole.feasible);
    assert_eq!(whole.sticks[0].left, Length::ZERO);
    let trimmed = cut(&[(eighths(288), 1)], &stick, eighths(1), true);
    assert_eq!(trimmed.too_long[..], [eighths(288)]);
}

/// Offcuts are free: 6 pieces of 8 in from two offcuts of 17 in (2 each: 16-1/8)
/// and rods of 36 in (4 each): one rod, not two. Only what is needed is opened.
#[test]
fn offcuts_save_rods() {
    let sticks = [rod(eighths(288), None), offcut(eighths(136), 2)];
    let six = cut(&[(eighths(64), 6)], &sticks, eighths(1), false);
    assert_eq!((six.bought_sticks, six.offcut_counts), (1, 17 * 1_016_000));
    let eight = cut(&[(eighths(64), 8)], &sticks, eighths(1), false);
    assert_eq!(
        (eight.bought_sticks, eight.offcut_counts),
        (1, 34 * 1_016_000)
    );
    let four = cut(&[(eighths(64), 4)], &sticks, eighths(1), false);
    assert_eq!(
        (four.bought_sticks, four.offcut_counts),
        (0, 34 * 1_016_000)
    );
}

/// Equal bought length: fewer sticks. 8 pieces of 8-1/2 in: two 36 in sticks
/// yield 4 each, one 72 in stick yields 8 (68 + 7/8); both buy 72 in.
#[test]
fn fewer_sticks_where_the_length_is_equal() {
    let sticks = [rod(eighths(288), None), rod(eighths(576), None)];
    let rods = cut(&[(eighths(68), 8)], &sticks, eighths(1), false);
    assert_eq!(rods.bought_counts, 72 * 1_016_000);
    assert_eq!(rods.bought_sticks, 1);
}

/// A counted rod is bought, too, and limited.
#[test]
fn counted_rods_run_out() {
    let sticks = [rod(eighths(576), Some(1)), rod(eighths(288), None)];
    let rods = cut(&[(eighths(68), 12)], &sticks, eighths(1), false);
    assert_eq!(rods.bought_counts, (72 + 36) * 1_016_000);
    assert!(rods.feasible);
}

/// Too long for every stick: listed once, the rest is cut.
#[test]
fn too_long_is_said_and_the_rest_is_cut() {
    let sticks = [rod(eighths(288), None), offcut(eighths(100), 1)];
    let pieces = [(eighths(289), 2), (eighths(64), 3), (eighths(289), 1)];
    let rods = cut(&pieces, &sticks, eighths(1), false);
    assert!(!rods.feasible);
    assert_eq!(rods.too_long[..], [eighths(289)]);
    assert_eq!(rods.lengths[..], [eighths(64)]);
    assert!(rods.uncut.is_empty());
    assert_eq!(rods.bought_sticks, 1);
    assert_eq!(rods.proof, Proof::BoundMet);
}

/// Nothing to cut, or nothing to cut from.
#[test]
fn empty_lists() {
    let nothing = cut(&[], &[rod(eighths(288), None)], eighths(1), false);
    assert!(nothing.feasible && nothing.sticks.is_empty());
    let no_stick = cut(&[(eighths(64), 3)], &[], eighths(1), false);
    assert!(!no_stick.feasible);
    assert_eq!(no_stick.too_long[..], [eighths(64)]);
}

/// Where weight alone would allow fewer sticks: 10 pieces of 19 in and 10 of 11 in
/// from 36 in. 300 in weigh 9 sticks, but no stick holds two of 19.
#[test]
fn patterns_decide_not_weight() {
    let pieces = [(eighths(152), 10), (eighths(88), 10)];
    let rods = cut(&pieces, &[rod(eighths(288), None)], Length::ZERO, false);
    assert_eq!(rods.bought_sticks, 10);
    assert_eq!(rods.proof, Proof::BoundMet);
}

/// Hand-worked, 12 in sticks without kerf. 6 + 4 + 3 weigh 13: two sticks. Five of
/// 6, five of 4 and one of 3 weigh 53, five sticks by weight: 6+6, 6+6, 6+4, 4+4+4,
/// 4+3 holds them. 6 and 7 do not share a stick: 7, 6+6, 6 are three, 7, 7, 6+6 are
/// three, 7, 7, 7, 6 are four (27 in, three by weight).
#[test]
fn small_sets_by_hand() {
    let inch = |count: i32| eighths(8 * count);
    let sticks = |set: &[(i32, u32)]| {
        let set: Vec<_> = set
            .iter()
            .map(|&(length, count)| (inch(length), count))
            .collect();
        cut(&set, &[rod(inch(12), None)], Length::ZERO, false).bought_sticks
    };
    assert_eq!(sticks(&[(6, 1), (4, 1), (3, 1)]), 2);
    assert_eq!(sticks(&[(6, 5), (4, 5), (3, 1)]), 5);
    assert_eq!(sticks(&[(7, 1), (6, 3)]), 3);
    assert_eq!(sticks(&[(7, 2), (6, 2)]), 3);
    assert_eq!(sticks(&[(7, 3), (6, 1)]), 4);
}
