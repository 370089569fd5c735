//! Source: AISC Shapes Database v16.0, `tests/data/w_shapes.csv`; every row and
//! column, then the geometry as a second opinion.

use boltbay_core::Job;
use boltbay_core::decimal::Decimal;
use boltbay_core::job::{Beam, BeamLength, Shape};
use boltbay_core::length::Length;
use boltbay_core::shapes::{self, Section};
use boltbay_core::words::Units;
use std::collections::HashMap;

const SHAPES: &str = include_str!("../data/w_shapes.csv");
const POCKETS: &str = include_str!("../data/w_pockets.csv");
const TABLE: &str = include_str!("../../core/src/shapes/table.rs");

/// Rows of a CSV file without quotes, by column name.
fn rows(text: &str) -> Vec<HashMap<&str, &str>> {
    let mut lines = text.lines();
    let names: Vec<&str> = lines.next().unwrap().split(',').collect();
    lines
        .map(|line| names.iter().copied().zip(line.split(',')).collect())
        .collect()
}

fn number(row: &HashMap<&str, &str>, column: &str) -> f64 {
    row[column]
        .parse()
        .unwrap_or_else(|_| panic!("{}: {column} is no number", row["label"]))
}

/// A published inch figure as the exact length that it stands for.
fn inches(row: &HashMap<&str, &str>, column: &str) -> Length {
    let ten_thousandths = number(row, column) * 10_000.0;
    assert!((ten_thousandths - ten_thousandths.round()).abs() < 1e-6);
    // 0.0001 in is no whole count, but five times it is: 508 counts.
    let counts = ten_thousandths.round() as i64 * 508;
    assert_eq!(counts % 5, 0, "{} {column}", row["label"]);
    Length::from_counts((counts / 5) as i32)
}

fn find(row: &HashMap<&str, &str>) -> Section {
    shapes::find(row["label"]).unwrap_or_else(|| panic!("{} not found", row["label"]))
}

#[test]
fn every_row_and_column_is_the_published_one() {
    let rows = rows(SHAPES);
    assert_eq!(rows.len(), shapes::COUNT);
    for row in &rows {
        let section = find(row);
        let label = row["label"];
        for (found, column) in [
            (section.depth(), "d"),
            (section.width(), "bf"),
            (section.web(), "tw"),
            (section.flange(), "tf"),
            (section.k_design(), "k_des"),
            (section.k_detail(), "k_det"),
            (section.k1(), "k1"),
            (section.flat(), "T"),
        ] {
            assert_eq!(found, inches(row, column), "{label} {column}");
        }
        for (found, column) in [
            (Some(section.weight()), "W_lbft"),
            (section.area(), "A_in2"),
            (section.ix(), "Ix"),
            (section.sx(), "Sx"),
            (section.zx(), "Zx"),
            (section.iy(), "Iy"),
            (section.rts(), "rts"),
            (section.j(), "J"),
            (section.ho(), "ho"),
            (section.ry(), "ry"),
        ] {
            assert_eq!(found, Some(number(row, column)), "{label} {column}");
        }
    }
}

#[test]
fn both_designations_find_the_shape_in_any_case() {
    for row in rows(SHAPES) {
        let section = find(&row);
        for label in [row["label"], row["label_SI"]] {
            assert_eq!(shapes::find(label), Some(section), "{label}");
            assert_eq!(
                shapes::find(&label.to_lowercase()),
                Some(section),
                "{label}"
            );
        }
        assert_eq!(
            section.designation(Units::Imperial).to_string(),
            row["label"]
        );
        assert_eq!(
            section.designation(Units::Metric).to_string(),
            row["label_SI"]
        );
    }
}

#[test]
fn what_the_table_does_not_hold_is_not_found() {
    for nonsense in [
        "",
        "W",
        "X",
        "WX",
        "W10",
        "W10X",
        "10X33",
        "W10X34",
        "W10X33X",
        "W10X33.05",
        "W10X-33",
        "HP10X42",
        "W10X33.",
        "W99999X1",
        "W10X99999",
        "W10X33é",
        "custom",
        "W4X19.3",
    ] {
        assert_eq!(shapes::find(nonsense), None, "{nonsense:?}");
    }
}

/// Regenerates the table: when this fails, the rows that it prints are the ones
/// to paste into `core/src/shapes/table.rs`.
#[test]
fn the_table_is_the_published_file() {
    let mut wanted = String::new();
    for row in rows(SHAPES) {
        let mut figures = Vec::new();
        for column in ["label", "label_SI"] {
            let (depth, weight) = row[column][1..].split_once('X').unwrap();
            figures.push(depth.parse::<f64>().unwrap());
            figures.push(weight.parse::<f64>().unwrap() * 10.0);
        }
        for (scale, columns) in [
            (1000.0, &["d", "bf", "tw", "tf", "k_des"][..]),
            (16.0, &["k_det", "k1", "T"]),
            (100.0, &["A_in2"]),
            (10.0, &["Ix"]),
            (100.0, &["Sx", "Zx", "Iy"]),
            (1000.0, &["rts"]),
            (10_000.0, &["J"]),
            (100.0, &["ho"]),
            (1000.0, &["ry"]),
        ] {
            figures.extend(columns.iter().map(|column| number(&row, column) * scale));
        }
        let figures: Vec<String> = figures
            .iter()
            .map(|figure| format!("{}", figure.round()))
            .collect();
        wanted.push_str(&format!("    [{}],\n", figures.join(", ")));
    }
    assert!(TABLE.contains(&wanted), "the rows should read\n{wanted}");
}

/// Area and Ix rebuilt from three plates and four fillets of r = k design - tf.
///
/// A fillet of radius r fills a corner with r2 (1 - pi/4); its centroid lies
/// r (10 - 3 pi) / (12 - 3 pi) from the corner.
#[test]
fn area_and_ix_follow_from_plates_and_fillets() {
    let pi = std::f64::consts::PI;
    for row in rows(SHAPES) {
        let section = find(&row);
        let [d, b, w, t, k] = [
            section.depth(),
            section.width(),
            section.web(),
            section.flange(),
            section.k_design(),
        ]
        .map(Length::as_inches);
        let r = k - t;
        let h = d - 2.0 * t;
        let fillet = r * r * (1.0 - pi / 4.0);
        let arm = h / 2.0 - r * (10.0 - 3.0 * pi) / (12.0 - 3.0 * pi);
        let area = 2.0 * b * t + h * w + 4.0 * fillet;
        let ix = b * d.powi(3) / 12.0 - (b - w) * h.powi(3) / 12.0 + 4.0 * fillet * arm * arm;
        let off = |computed: f64, listed: f64| (computed / listed - 1.0).abs();
        assert!(
            off(area, section.area().unwrap()) < 0.005,
            "{} A {area}",
            row["label"]
        );
        assert!(
            off(ix, section.ix().unwrap()) < 0.010,
            "{} Ix {ix}",
            row["label"]
        );
    }
}

#[test]
fn pockets_are_the_published_geometry() {
    let rows = rows(POCKETS);
    assert_eq!(rows.len(), shapes::COUNT);
    for row in &rows {
        let section = find(row);
        for (found, column) in [
            (section.outstand(), "pocket_depth_each_side=(bf-tw)/2"),
            (section.clear_height(), "clear_between_flanges=d-2tf"),
            (section.flat(), "T"),
            (section.fillet_height(), "fillet_leg_up_web_det=kdet-tf"),
            (section.fillet_reach(), "fillet_leg_along_flange=k1-tw/2"),
        ] {
            let wanted = number(row, column);
            let close = (found.as_inches() - wanted).abs() < 1e-9;
            assert!(
                close,
                "{} {column}: {} {wanted}",
                row["label"],
                found.as_inches()
            );
        }
    }
}

/// Source: AISC Shapes Database v16.0; computed from it: web to flange tip
/// 2.510, clear 7.480, fillet .4825 by .4475 for the W8X18.
#[test]
fn two_shapes_as_the_manual_prints_them() {
    let w10x33 = shapes::find("W10X33").unwrap();
    let thousandths = Length::from_thousandths;
    assert_eq!(w10x33.depth(), thousandths(9_730));
    assert_eq!(w10x33.width(), thousandths(7_960));
    assert_eq!(w10x33.web(), thousandths(290));
    assert_eq!(w10x33.flange(), thousandths(435));
    assert_eq!(w10x33.k_design(), thousandths(935));
    assert_eq!(w10x33.k_detail(), thousandths(1_125));
    assert_eq!(w10x33.k1(), thousandths(750));
    assert_eq!(w10x33.flat(), thousandths(7_500));
    assert_eq!(w10x33.area(), Some(9.71));
    assert_eq!(w10x33.ix(), Some(171.0));
    assert_eq!(w10x33.zx(), Some(38.8));
    assert_eq!(w10x33.designation(Units::Metric).to_string(), "W250X49.1");
    let w8x18 = shapes::find("W8X18").unwrap();
    assert_eq!(w8x18.outstand(), thousandths(2_510));
    assert_eq!(w8x18.clear_height(), thousandths(7_480));
    assert_eq!(w8x18.fillet_height().as_inches(), 0.4825);
    assert_eq!(w8x18.fillet_reach().as_inches(), 0.4475);
}

#[test]
fn a_picker_finds_each_shape_once() {
    let depths: Vec<u16> = shapes::nominal_depths().collect();
    assert_eq!(depths, [4, 5, 6, 8, 10, 12, 14, 16]);
    let mut picked = Vec::new();
    for depth in depths {
        let shapes: Vec<Section> = shapes::of_depth(depth).collect();
        assert!(
            shapes
                .windows(2)
                .all(|two| two[0].weight() < two[1].weight())
        );
        picked.extend(shapes);
    }
    assert_eq!(picked, shapes::all().collect::<Vec<_>>());
    assert_eq!(shapes::of_depth(7).count(), 0);
}

fn job(designation: &str, units: Units) -> Job {
    let mut job = Job::new(units);
    job.beam = Some(Beam {
        designation: designation.try_into().unwrap(),
        length: Length::from_inches(200),
        measured: BeamLength::Measured,
    });
    job
}

#[test]
fn a_job_finds_its_section() {
    assert_eq!(Section::of(&Job::new(Units::Imperial)), None);
    assert_eq!(Section::of(&job("W10X34", Units::Imperial)), None);
    assert_eq!(Section::of(&job("CUSTOM", Units::Imperial)), None);
    let table = Section::of(&job("W10X33", Units::Imperial)).unwrap();
    assert_eq!(Some(table), shapes::find("W250X49.1"));
    assert!(table.in_table());
}

/// The W200X26.6 keyed as a metric shape gives the W8X18 within the rounding of
/// the metric columns. Source: AISC Shapes Database v16.0, both unit systems.
#[test]
fn a_metric_shape_is_converted() {
    let mut job = job("custom", Units::Metric);
    let tenths = Length::from_tenth_millimetres;
    job.shape = Some(Shape {
        depth: tenths(2070),
        width: tenths(1330),
        web: Length::from_counts(584 * 400),
        flange: Length::from_counts(838 * 400),
        k_design: tenths(160),
        k_detail: tenths(206),
        k1: tenths(143),
        weight: Decimal::new(266, 1),
        ix: Some(Decimal::new(258, 1)),
        sx: Some(Decimal::whole(249)),
        zx: Some(Decimal::whole(279)),
    });
    let custom = Section::of(&job).unwrap();
    assert!(!custom.in_table());
    assert_eq!(custom.designation(Units::Metric).to_string(), "custom");
    let near = |found: Option<f64>, wanted: f64| (found.unwrap() / wanted - 1.0).abs() < 0.02;
    assert!(near(Some(custom.weight()), 18.0));
    assert!(near(custom.ix(), 61.9));
    assert!(near(custom.sx(), 15.2));
    assert!(near(custom.zx(), 17.0));
    assert_eq!(custom.area(), None);
    assert_eq!(custom.iy(), None);
    assert_eq!(
        custom.clear_height(),
        Length::from_counts((20_700 - 2 * 838) * 400)
    );
    assert_eq!(custom.flat(), tenths(2070 - 2 * 206));
}

/// Trap: T is no difference of rounded dimensions, k design is not k detailing.
/// Source: AISC Shapes Database v16.0, columns d, k_det, k_des, T.
#[test]
fn flat_and_fillets_are_looked_up_and_never_mixed() {
    let off = |row: &HashMap<&str, &str>| {
        let section = find(row);
        let twice = section.k_detail().checked_mul(2).unwrap();
        let between = section.depth().saturating_sub(twice);
        between.saturating_sub(section.flat()).abs()
    };
    let rows = rows(SHAPES);
    let most = rows.iter().map(off).max().unwrap();
    assert!(most > Length::from_sixteenths(1), "T may not be worked out");
    assert!(most <= Length::from_thousandths(126), "{most:?}");
    for row in &rows {
        let section = find(row);
        assert!(section.k_detail() > section.k_design(), "{}", row["label"]);
    }
}
