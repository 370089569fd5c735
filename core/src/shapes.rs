//! Sections: what a beam's designation, or its own row, says about its shape.
//!
//! In: a designation (US or metric, any case) or a job. Out: a [`Section`] with
//! exact dimensions and, where known, the properties that statics needs.
//! Rule: k detailing, k1 and T decide what fits; k design goes into strength
//! only. Source: AISC Shapes Database v16.0; the columns' meaning is that of
//! the AISC Manual, part 1.
//!
//! ```text
//!   ___________   -- d
//!  |___     ___|  -- d - tf
//!      \   /      -- d - k      flat of the web, T, between the two k lines;
//!       | |                     clear height d - 2 tf between the flanges
//!      /   \      -- k
//!   ---     ---   -- tf
//!  |___________|  -- 0          web to flange tip (bf - tw) / 2
//! ```

mod table;

use crate::job::{Job, Shape};
use crate::length::{Length, Rounding};
use crate::words::Units;
use core::fmt;
use table::{Row, SHAPES};

/// Shapes in the built-in table.
pub const COUNT: usize = SHAPES.len();

/// kg/m in one lb/ft: the pound over the foot.
/// Source: NIST SP 811, Appendix B.8 (1 lb = 0.453 592 37 kg, 1 ft = 0.3048 m, exact).
const KG_M_IN_LB_FT: f64 = 0.453_592_37 / 0.3048;
/// mm in one inch. Source: NIST SP 811, Appendix B.8, exact.
const MM_IN_INCH: f64 = 25.4;

/// The shape of a beam.
///
/// Dimensions are exact lengths; properties are in inch units (in2, in3, in4)
/// whatever the job's units, and `None` where a `custom` shape does not say.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Section {
    label: Label,
    depth: Length,
    width: Length,
    web: Length,
    flange: Length,
    k_design: Length,
    k_detail: Length,
    k1: Length,
    flat: Length,
    weight: f64,
    properties: Properties,
}

/// What a section is called.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
enum Label {
    /// Nominal depth, then weight in tenths: US first, metric second.
    Table([(u16, u16); 2]),
    /// Row `shape`.
    Custom,
}

/// Section properties in inch units.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
struct Properties {
    area: Option<f64>,
    ix: Option<f64>,
    sx: Option<f64>,
    zx: Option<f64>,
    iy: Option<f64>,
    rts: Option<f64>,
    j: Option<f64>,
    ho: Option<f64>,
    ry: Option<f64>,
}

/// The shape of this designation: `W10x33` or `W250X49.1`, any case, spaces
/// ignored. `None` when the table does not hold it.
///
/// ```
/// use boltbay_core::{Length, shapes};
/// let section = shapes::find("w10x33").expect("in the table");
/// assert_eq!(section.depth(), Length::from_thousandths(9_730));
/// assert_eq!(shapes::find("W250X49.1"), Some(section));
/// assert_eq!(shapes::find("W10X34"), None);
/// ```
pub fn find(designation: &str) -> Option<Section> {
    let wanted = parse(designation)?;
    all().find(|section| match section.label {
        Label::Table(labels) => labels.contains(&wanted),
        Label::Custom => false,
    })
}

/// All shapes of the table, by nominal depth, then weight.
pub fn all() -> impl Iterator<Item = Section> + Clone {
    SHAPES.iter().map(Section::from_row)
}

/// The nominal depths of the table in inches, each once, shallow first: the
/// first choice of a picker.
pub fn nominal_depths() -> impl Iterator<Item = u16> + Clone {
    let mut last = 0;
    SHAPES.iter().filter_map(move |&[depth, ..]| {
        let new = depth != last;
        last = depth;
        new.then_some(depth)
    })
}

/// The shapes of one nominal depth in inches, light first: the second choice
/// of a picker.
pub fn of_depth(nominal: u16) -> impl Iterator<Item = Section> + Clone {
    SHAPES
        .iter()
        .filter(move |&&[depth, ..]| depth == nominal)
        .map(Section::from_row)
}

/// Reads `W`, a nominal depth, `X`, and a weight with at most one decimal into
/// depth and tenths.
fn parse(designation: &str) -> Option<(u16, u16)> {
    let mut text = designation.chars().filter(|c| !c.is_whitespace());
    if !matches!(text.next(), Some('W' | 'w')) {
        return None;
    }
    let mut depth = 0_u16;
    loop {
        match text.next()? {
            'X' | 'x' => break,
            digit => depth = append(depth, digit)?,
        }
    }
    let mut weight = 0_u16;
    loop {
        match text.next() {
            None => return Some((depth, weight.checked_mul(10)?)),
            Some('.') => break,
            Some(digit) => weight = append(weight, digit)?,
        }
    }
    let tenths = append(weight, text.next()?)?;
    text.next().is_none().then_some((depth, tenths))
}

/// The number with one more digit; `None` for anything else.
fn append(number: u16, digit: char) -> Option<u16> {
    let digit = u16::try_from(digit.to_digit(10)?).ok()?;
    number.checked_mul(10)?.checked_add(digit)
}

impl Section {
    /// The section of a job's beam: of the table, or of its row `shape` where
    /// the beam is `custom`. `None` without a row `beam`, for a designation
    /// that the table does not hold, and for `custom` without `shape`.
    pub fn of(job: &Job) -> Option<Section> {
        let beam = job.beam.as_ref()?;
        if beam.designation.eq_ignore_ascii_case("custom") {
            return job
                .shape
                .as_ref()
                .map(|shape| Section::custom(shape, job.units));
        }
        find(&beam.designation)
    }

    /// A row of the table, unscaled.
    fn from_row(row: &Row) -> Section {
        #[rustfmt::skip]
        let &[
            us_depth, us_weight, si_depth, si_mass, d, bf, tw, tf, k_design, k_detail, k1, flat,
            area, ix, sx, zx, iy, rts, j, ho, ry,
        ] = row;
        let thousandths = |figure: u16| Length::from_thousandths(i32::from(figure));
        let sixteenths = |figure: u16| Length::from_sixteenths(i32::from(figure));
        let scaled = |figure: u16, scale: f64| Some(f64::from(figure) / scale);
        Section {
            label: Label::Table([(us_depth, us_weight), (si_depth, si_mass)]),
            depth: thousandths(d),
            width: thousandths(bf),
            web: thousandths(tw),
            flange: thousandths(tf),
            k_design: thousandths(k_design),
            k_detail: sixteenths(k_detail),
            k1: sixteenths(k1),
            flat: sixteenths(flat),
            weight: f64::from(us_weight) / 10.0,
            properties: Properties {
                area: scaled(area, 100.0),
                ix: scaled(ix, 10.0),
                sx: scaled(sx, 100.0),
                zx: scaled(zx, 100.0),
                iy: scaled(iy, 100.0),
                rts: scaled(rts, 1000.0),
                j: scaled(j, 10_000.0),
                ho: scaled(ho, 100.0),
                ry: scaled(ry, 1000.0),
            },
        }
    }

    /// A shape off the card. T is d less twice k detailing, as it is no field.
    fn custom(shape: &Shape, units: Units) -> Section {
        let metric = units == Units::Metric;
        let cube = MM_IN_INCH * MM_IN_INCH * MM_IN_INCH;
        let (per_foot, in4, in3) = if metric {
            (1.0 / KG_M_IN_LB_FT, 1e6 / (cube * MM_IN_INCH), 1e3 / cube)
        } else {
            (1.0, 1.0, 1.0)
        };
        Section {
            label: Label::Custom,
            depth: shape.depth,
            width: shape.width,
            web: shape.web,
            flange: shape.flange,
            k_design: shape.k_design,
            k_detail: shape.k_detail,
            k1: shape.k1,
            flat: less_twice(shape.depth, shape.k_detail),
            weight: shape.weight.value() * per_foot,
            properties: Properties {
                ix: shape.ix.map(|ix| ix.value() * in4),
                sx: shape.sx.map(|sx| sx.value() * in3),
                zx: shape.zx.map(|zx| zx.value() * in3),
                ..Properties::default()
            },
        }
    }

    /// The designation as people of these units write it; `custom` for a shape
    /// off the card.
    pub const fn designation(&self, units: Units) -> Called {
        Called(self.label, units)
    }

    /// Whether the shape stands in the built-in table.
    pub const fn in_table(&self) -> bool {
        matches!(self.label, Label::Table(_))
    }

    /// Overall depth d.
    pub const fn depth(&self) -> Length {
        self.depth
    }

    /// Flange width bf.
    pub const fn width(&self) -> Length {
        self.width
    }

    /// Web thickness tw.
    pub const fn web(&self) -> Length {
        self.web
    }

    /// Flange thickness tf.
    pub const fn flange(&self) -> Length {
        self.flange
    }

    /// Outer flange face to web toe of the fillet, smallest made: strength only.
    pub const fn k_design(&self) -> Length {
        self.k_design
    }

    /// The same, greatest made: what fits.
    pub const fn k_detail(&self) -> Length {
        self.k_detail
    }

    /// Web centre line to flange toe of the fillet, for detailing.
    pub const fn k1(&self) -> Length {
        self.k1
    }

    /// T: the flat of the web between the fillets. The table's figure is
    /// rounded as published; a `custom` shape has d less twice k detailing.
    pub const fn flat(&self) -> Length {
        self.flat
    }

    /// Clear height between the flanges, d - 2 tf. Row heights count from 0 to
    /// this.
    pub const fn clear_height(&self) -> Length {
        less_twice(self.depth, self.flange)
    }

    /// Nominal web to flange tip, (bf - tw) / 2, rounded down: the safe way for
    /// what has to fit inside. Mill tolerance alone is +-5/16 in.
    pub const fn outstand(&self) -> Length {
        self.width.saturating_sub(self.web).half(Rounding::Down)
    }

    /// How far the fillet climbs the web above the flange, k detailing - tf.
    pub const fn fillet_height(&self) -> Length {
        self.k_detail.saturating_sub(self.flange)
    }

    /// How far the fillet runs out along the flange, k1 - tw / 2, rounded up:
    /// the safe way for what has to clear it.
    pub const fn fillet_reach(&self) -> Length {
        self.k1.saturating_sub(self.web.half(Rounding::Down))
    }

    /// Weight in lb/ft.
    pub const fn weight(&self) -> f64 {
        self.weight
    }

    /// Cross-section A in in2.
    pub const fn area(&self) -> Option<f64> {
        self.properties.area
    }

    /// Moment of inertia Ix about the strong axis in in4.
    pub const fn ix(&self) -> Option<f64> {
        self.properties.ix
    }

    /// Elastic modulus Sx about the strong axis in in3.
    pub const fn sx(&self) -> Option<f64> {
        self.properties.sx
    }

    /// Plastic modulus Zx about the strong axis in in3.
    pub const fn zx(&self) -> Option<f64> {
        self.properties.zx
    }

    /// Moment of inertia Iy about the weak axis in in4.
    pub const fn iy(&self) -> Option<f64> {
        self.properties.iy
    }

    /// Effective radius of gyration rts in in.
    pub const fn rts(&self) -> Option<f64> {
        self.properties.rts
    }

    /// Torsional constant J in in4.
    pub const fn j(&self) -> Option<f64> {
        self.properties.j
    }

    /// Distance ho between the flange centroids in in.
    pub const fn ho(&self) -> Option<f64> {
        self.properties.ho
    }

    /// Radius of gyration ry about the weak axis in in.
    pub const fn ry(&self) -> Option<f64> {
        self.properties.ry
    }
}

/// `whole` less twice `part`, held at the ends of the range.
const fn less_twice(whole: Length, part: Length) -> Length {
    whole.saturating_sub(part).saturating_sub(part)
}

/// A section's designation, ready to be written.
#[derive(Clone, Copy, Debug)]
pub struct Called(Label, Units);

impl fmt::Display for Called {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Label::Table([us, metric]) = self.0 else {
            return f.write_str("custom");
        };
        let (depth, tenths) = match self.1 {
            Units::Imperial => us,
            Units::Metric => metric,
        };
        write!(f, "W{depth}X{}", tenths / 10)?;
        match tenths % 10 {
            0 => Ok(()),
            tenth => write!(f, ".{tenth}"),
        }
    }
}
