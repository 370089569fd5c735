//! Packing: which layers fill the pocket between web and flange tips.
//!
//! In: measured outstands and the layers on hand. Out: for each side the stack
//! from web to face, its error now and after drying, and rip heights.
//!
//! Rule: at most four layers, the outer one solid and thick enough to take the
//! hanger's nails. A total should lie in the window d - shy .. d + proud of
//! every measured outstand d; *miss* is the greatest distance from these
//! windows. In this order: least miss now, least miss when dry, total nearest
//! the aim, fewest layers, thicker outer layer, lower total, remaining layers
//! thickest first, card order. Counts are shared by both sides: then the two
//! stacks are chosen together, least sum at each step.
//! Practice: order and limits are the trade's, no published source.
//!
//! ```text
//!   web |thin|  thicker  |   outer   | face, hangers nail here
//!       0                          total
//! ```

mod order;
mod ripping;
mod search;

pub use ripping::{Space, rip};

use crate::caution::{self, Caution, Cautions};
use crate::decimal::Decimal;
use crate::defaults;
use crate::job::{Job, Layer, Moisture};
use crate::length::{Length, Rounding};
use crate::shapes::Section;
use crate::shrinkage::ONE;
use crate::words::{Side, Units};
use heapless::Vec;
use order::Candidate;
use search::Stock;

/// Most layers in a stack.
pub const LAYERS_IN_STACK: usize = 4;

/// One layer of a stack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct StackLayer {
    /// Index into [`crate::Job::layers`].
    pub layer: u8,
    /// As measured.
    pub thickness: Length,
    /// Height to rip to, exact: a list shows it rounded [`Rounding::Down`] to
    /// what a tape shows. `None` where the shape is not known.
    pub rip: Option<Length>,
    /// Reaches the bottom flange; not so where ripped to the flat of the web.
    pub seats: bool,
    /// The inside arris is chamfered for the fillet.
    pub chamfered: bool,
}

/// The packing of one side.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Stack {
    /// Aim: middle of least and greatest outstand plus the keyed aim; half a
    /// count is rounded down (less proud).
    pub target: Length,
    /// The total misses no window.
    pub feasible: bool,
    /// Web to face; empty where the stock makes no stack at all.
    pub layers: Vec<StackLayer, LAYERS_IN_STACK, u8>,
    /// Sum of the layers.
    pub total: Length,
    /// Greatest distance of the total from the windows; 0 = feasible.
    pub miss: Length,
    /// Total less aim.
    pub error: Length,
    /// The same after drying to service moisture, to the nearest count.
    pub error_dry: Length,
}

/// What a choice of packing needs to know. Fill it from a job with
/// [`PackingInput::of`], or by hand.
#[derive(Clone, Copy, Debug)]
pub struct PackingInput<'a> {
    /// Measured outstands by side; an empty side gets no stack.
    pub outstands: [&'a [Length]; 2],
    /// Layers on hand, in card order.
    pub layers: &'a [Layer],
    /// The face may stand this far inside the flange tips.
    pub shy: Length,
    /// The face may stand this far outside them.
    pub proud: Length,
    /// Aim beyond the middle of least and greatest outstand.
    pub aim: Length,
    /// Moisture that the wood will come to, percent.
    pub service: Decimal,
    /// Units of the job: they pick the least outer layer.
    pub units: Units,
    /// The pocket's height and fillet; `None` = no rip heights.
    pub space: Option<Space>,
}

impl<'a> PackingInput<'a> {
    /// From a job, with its defaults. `packed`: the sides that packing stands on.
    pub fn of(job: &'a Job, section: Option<&Section>, packed: [bool; 2]) -> Self {
        let [n, s] = &job.outstands;
        let [on_n, on_s] = packed;
        PackingInput {
            outstands: [
                if on_n { n.as_slice() } else { &[] },
                if on_s { s.as_slice() } else { &[] },
            ],
            layers: &job.layers,
            shy: defaults::shy(job),
            proud: defaults::proud(job),
            aim: defaults::aim(job),
            service: defaults::service(job),
            units: job.units,
            space: section.map(|section| Space::of(section, job.units)),
        }
    }

    /// Whether a side that packing stands on was not measured: then the row kind
    /// `outstand` is missing and no stack is chosen. The table's figure never
    /// stands in: mill tolerance alone is +-5/16 in.
    pub fn outstand_missing(job: &Job, packed: [bool; 2]) -> bool {
        let mut sides = packed.into_iter().zip(&job.outstands);
        sides.any(|(packed, measured)| packed && measured.is_empty())
    }
}

/// Least thickness of an outer layer, as measured: 1 7/16 in, 36 mm.
/// Practice: a 2x board measures a little under 1 1/2 in.
pub const fn outer_least(units: Units) -> Length {
    match units {
        Units::Imperial => Length::from_sixteenths(23),
        Units::Metric => Length::from_millimetres(36),
    }
}

/// The best stacks, by side. `None` where no outstand is given. Where the stock
/// makes no stack for a side its layers are empty and it is not feasible.
pub fn choose(input: &PackingInput) -> [Option<Stack>; 2] {
    let stock = Stock::of(input);
    let [n, s] = input.outstands.map(Window::of);
    match (n, s) {
        (Some(n), Some(s)) => {
            let [n_best, s_best] = search::both(&stock, &n, &s);
            [
                Some(stack(input, &stock, &n, &n_best)),
                Some(stack(input, &stock, &s, &s_best)),
            ]
        }
        _ => [n, s].map(|window| {
            let window = window?;
            let best = search::one(&stock, &window);
            Some(stack(input, &stock, &window, &best))
        }),
    }
}

/// Least and greatest outstand of a side.
#[derive(Clone, Copy, Debug)]
struct Window {
    least: i64,
    greatest: i64,
}

impl Window {
    /// `None` without an outstand.
    fn of(outstands: &[Length]) -> Option<Window> {
        let counts = || outstands.iter().map(|d| i64::from(d.counts()));
        Some(Window {
            least: counts().min()?,
            greatest: counts().max()?,
        })
    }
}

/// A candidate as a stack with heights.
fn stack(input: &PackingInput, stock: &Stock, window: &Window, best: &Candidate) -> Stack {
    let target = length((window.least + window.greatest).div_euclid(2) + stock.aim);
    let total = length(best.total);
    let dried = (best.dried + ONE / 2).div_euclid(ONE);
    let mut layers = Vec::new();
    let mut start = Length::ZERO;
    for board in best.picks().rev().filter_map(|at| stock.boards.get(at)) {
        let thickness = length(board.thickness);
        let ripped = input.space.map(|space| rip(&space, start, thickness));
        let _ = layers.push(StackLayer {
            layer: board.index,
            thickness,
            rip: ripped.map(|r| r.height),
            seats: ripped.is_none_or(|r| r.seats),
            chamfered: ripped.is_some_and(|r| r.chamfered),
        });
        start = start.saturating_add(thickness);
    }
    let miss = stock.miss(window, best.total);
    Stack {
        target,
        feasible: miss == 0 && !layers.is_empty(),
        layers,
        total,
        miss: length(miss),
        error: total.saturating_sub(target),
        error_dry: length(dried).saturating_sub(target),
    }
}

/// Counts as a length, held at the ends of the range.
fn length(counts: i64) -> Length {
    let held = counts.clamp(i64::from(i32::MIN), i64::from(i32::MAX));
    Length::from_counts(i32::try_from(held).unwrap_or_default())
}

/// What the crew must look at: outstands that spread by more than 1/8 in (3 mm),
/// a stack that goes shy when dry, a layer that does not seat, wet wood.
pub fn cautions(input: &PackingInput, stacks: &[Option<Stack>; 2], cautions: &mut Cautions) {
    let limit = match input.units {
        Units::Imperial => Length::from_sixteenths(2),
        Units::Metric => Length::from_millimetres(3),
    };
    for side in Side::BOTH {
        let (Some(Some(stack)), Some(outstands)) =
            (stacks.get(side.index()), input.outstands.get(side.index()))
        else {
            continue;
        };
        let Some(window) = Window::of(outstands) else {
            continue;
        };
        let spread = length(window.greatest - window.least);
        if spread > limit {
            caution::add(cautions, Caution::OutstandSpread { side, spread });
        }
        stack_cautions(input, side, &window, stack, cautions);
    }
    if stacks.iter().flatten().any(|stack| is_wet(input, stack)) {
        caution::add(cautions, Caution::SnugAgain);
    }
}

/// Cautions of one stack.
fn stack_cautions(
    input: &PackingInput,
    side: Side,
    window: &Window,
    stack: &Stack,
    cautions: &mut Cautions,
) {
    let dry = stack.target.saturating_add(stack.error_dry);
    let shy_limit = length(window.greatest).saturating_sub(input.shy);
    if !stack.layers.is_empty() && stack.error_dry < stack.error && dry < shy_limit {
        let error_dry = stack.error_dry;
        caution::add(cautions, Caution::StackGoesShy { side, error_dry });
    }
    for (layer, _) in (0_u8..).zip(&stack.layers).filter(|(_, l)| !l.seats) {
        caution::add(cautions, Caution::LayerDoesNotSeat { side, layer });
    }
}

/// Whether a layer of the stack is wetter than it will be.
fn is_wet(input: &PackingInput, stack: &Stack) -> bool {
    let chosen = stack.layers.iter();
    chosen
        .filter_map(|layer| input.layers.get(usize::from(layer.layer))?.moisture)
        .any(|moisture| match moisture {
            Moisture::Green => true,
            Moisture::Percent(percent) => percent.millionths() > input.service.millionths(),
        })
}

impl Stack {
    /// Thickness of packing as it measures, for the rods; `None` without layers.
    pub fn thickness(&self) -> Option<Length> {
        (!self.layers.is_empty()).then_some(self.total)
    }
}

/// Packing thickness of a side where there is no stack: the greatest measured
/// outstand (rods round up).
pub fn greatest_outstand(job: &Job, side: Side) -> Option<Length> {
    job.outstands.get(side.index())?.iter().copied().max()
}

/// How a rip height is shown: down to 1/16 in or 1 mm, so that the board goes in.
pub fn rip_shown(rip: Length, units: Units) -> Length {
    let step = match units {
        Units::Imperial => Length::from_sixteenths(1),
        Units::Metric => Length::from_millimetres(1),
    };
    rip.to_multiple(step, Rounding::Down)
}
