//! The beam cut into steps on which every load is constant.
//!
//! In: supports and loads as they lie. Out: nodes from end A, each with the
//! load of the step after it and the point load on it, dead and live apart.
//! Rule: a step belongs to one segment, so a loading is no more than "how much
//! of the dead load, live on which segments". A point load over a support
//! belongs to the segment toward B (the last one where there is none).

use super::loads::{Laid, lay};
use super::supports::{Bearings, lacks_wall, stand};
use super::{Apart, Lacking, OwnWeight, Pattern, Refusal, Segment, Statics, settled_by};
use crate::float;
use crate::force::{Force, LineLoad, Stress};
use crate::frame::Frame;
use crate::job::{Job, LOADS, SUPPORTS};
use crate::length::Length;
use crate::list::put_in;
use crate::shapes::Section;
use heapless::Vec;

/// Two ends a load, the supports, the ends of the steel.
const NODES: usize = 2 * LOADS + SUPPORTS + 2;

/// Young's modulus of steel, 29,000 ksi. Source: AISC 360-22, Symbols, E.
fn elasticity() -> Stress {
    Stress::from_ksi(29_000.0)
}

/// A place where something about the load changes, and the step after it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Node {
    at: Length,
    /// Position of the step's segment from end A.
    segment: u8,
    /// lb/in on the step.
    dead: f64,
    live: f64,
    /// lb on the node.
    point_dead: f64,
    point_live: f64,
}

/// A beam with its supports and loads, ready to be solved under any loading.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    nodes: Vec<Node, NODES, u8>,
    pub(super) bearings: Bearings,
    pub(super) length: Length,
    pub(super) weight: OwnWeight,
    /// EI in lb in2.
    pub(super) stiffness: Option<f64>,
    /// Segments with live load.
    pub(super) live: Pattern,
    /// Segments with any keyed load.
    pub(super) carries: Pattern,
    /// How far a support is let down to show what settlement does.
    pub(super) settled_by: Length,
}

/// A loading: how much of what stands on which segments.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Case {
    /// Part of the keyed dead load.
    pub keyed: f64,
    /// Part of the self-weight.
    pub own: f64,
    /// Segments that these two count on.
    pub on: Pattern,
    /// Segments with live load on.
    pub live: Pattern,
}

/// A stretch of constant load, measured from the left end of its segment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Step {
    /// Where it starts, in.
    pub from: f64,
    /// Where it ends, in.
    pub to: f64,
    /// lb/in on it.
    pub load: f64,
    /// lb at its start.
    pub point: f64,
}

/// All segments.
pub(super) const EVERYWHERE: Pattern = Pattern(u8::MAX);

impl Case {
    /// Dead load and self-weight, with live load on some segments.
    pub fn dead_and(live: Pattern) -> Case {
        Case {
            keyed: 1.0,
            own: 1.0,
            on: EVERYWHERE,
            live,
        }
    }

    /// Live load alone.
    pub fn live(live: Pattern) -> Case {
        Case {
            keyed: 0.0,
            own: 0.0,
            on: EVERYWHERE,
            live,
        }
    }
}

impl Model {
    /// A beam without anything.
    pub const fn new() -> Model {
        Model {
            nodes: Vec::new(),
            bearings: Bearings::new(),
            length: Length::ZERO,
            weight: OwnWeight {
                steel: LineLoad::ZERO,
                packing: None,
            },
            stiffness: None,
            live: Pattern(0),
            carries: Pattern(0),
            settled_by: Length::ZERO,
        }
    }

    /// The beam of a job; `thickness` as for [`super::solve`].
    ///
    /// # Errors
    /// As [`super::solve`].
    pub fn of(job: &Job, thickness: [Option<Length>; 2]) -> Result<Model, Refusal> {
        let mut model = Model::new();
        model.fill(job, thickness)?;
        Ok(model)
    }

    /// Becomes the beam of a job, in place: 3 KiB that need not cross the stack.
    ///
    /// # Errors
    /// As [`super::solve`]; the model is then none.
    #[inline(never)]
    pub fn fill(&mut self, job: &Job, thickness: [Option<Length>; 2]) -> Result<(), Refusal> {
        let frame = Frame::of(job);
        let missing = missing(job, frame.as_ref().ok());
        if !missing.is_empty() {
            return Err(Refusal::Missing(missing));
        }
        let frame = frame?;
        self.bearings = stand(job, &frame)?;
        let Some(section) = Section::of(job) else {
            return Err(Refusal::Missing(missing));
        };
        let inertia = section.ix().filter(|inertia| *inertia > 0.0);
        self.nodes.clear();
        self.length = frame.length;
        self.weight = OwnWeight::of(job, &frame, &section, thickness);
        self.stiffness = inertia.map(|inertia| inertia * elasticity().as_psi());
        self.live = Pattern::default();
        self.carries = Pattern::default();
        self.settled_by = settled_by(job.units);
        self.cut(job, &frame)?;
        self.load(job, &frame)
    }

    /// Cuts the steel at supports and at the ends of loads.
    fn cut(&mut self, job: &Job, frame: &Frame) -> Result<(), Refusal> {
        self.mark(Length::ZERO);
        self.mark(self.length);
        let bearings = self.bearings.clone();
        for bearing in &bearings {
            self.mark(bearing.at);
        }
        for (row, load) in (0_u8..).zip(&job.loads) {
            match lay(job, frame, row, load)? {
                Some(Laid::Spread { from, to, .. }) => {
                    self.mark(from);
                    self.mark(to);
                }
                Some(Laid::Point { at, .. }) => self.mark(at),
                None => {}
            }
        }
        let last = bearings.last().map(|bearing| bearing.at);
        let overhang_b = last.is_some_and(|last| last < self.length);
        for node in &mut self.nodes {
            let passed = bearings.iter().filter(|b| b.at <= node.at).count();
            let beyond = passed == bearings.len() && !overhang_b;
            // At most SUPPORTS.
            node.segment = passed.saturating_sub(usize::from(beyond)) as u8;
        }
        Ok(())
    }

    /// Puts a node at a station, once.
    fn mark(&mut self, at: Length) {
        let place = self.nodes.iter().position(|node| node.at >= at);
        let place = place.unwrap_or(self.nodes.len());
        if self.nodes.get(place).is_none_or(|node| node.at != at) {
            let node = Node {
                at,
                ..Node::default()
            };
            // NODES has room for both ends of every load.
            let _ = put_in(&mut self.nodes, place, node);
        }
    }

    /// Puts the loads on the steps.
    fn load(&mut self, job: &Job, frame: &Frame) -> Result<(), Refusal> {
        for (row, load) in (0_u8..).zip(&job.loads) {
            let laid = lay(job, frame, row, load)?;
            for node in &mut self.nodes {
                let (dead, live) = node.take(laid);
                let segment = usize::from(node.segment);
                if live != 0.0 {
                    self.live = self.live.with(segment);
                }
                if live != 0.0 || dead != 0.0 {
                    self.carries = self.carries.with(segment);
                }
            }
        }
        Ok(())
    }

    /// How many supports.
    pub(super) fn supports(&self) -> usize {
        self.bearings.len()
    }

    /// Ends of a segment by position from end A, in from end A.
    pub(super) fn bounds(&self, segment: usize) -> (f64, f64) {
        let left = segment.checked_sub(1).and_then(|at| self.bearings.get(at));
        let right = self.bearings.get(segment);
        (
            left.map_or(0.0, |bearing| bearing.at.as_inches()),
            right.map_or(self.length, |bearing| bearing.at).as_inches(),
        )
    }

    /// The same as stations.
    pub(super) fn stations(&self, segment: usize) -> (Length, Length) {
        let left = segment.checked_sub(1).and_then(|at| self.bearings.get(at));
        let right = self.bearings.get(segment);
        (
            left.map_or(Length::ZERO, |bearing| bearing.at),
            right.map_or(self.length, |bearing| bearing.at),
        )
    }

    /// The steps of a segment from its left end, under a loading.
    pub(super) fn steps(&self, segment: usize, case: Case) -> impl Iterator<Item = Step> + '_ {
        let (start, _) = self.bounds(segment);
        let ends = self.nodes.iter().skip(1).map(|node| node.at);
        let ends = ends.chain([self.length]);
        let steps = self.nodes.iter().zip(ends);
        let mine = steps.filter(move |(node, _)| usize::from(node.segment) == segment);
        let dead = if case.on.has(segment) { 1.0 } else { 0.0 };
        let live = if case.live.has(segment) { 1.0 } else { 0.0 };
        let own = self.weight.total().as_pounds_per_inch() * case.own * dead;
        let keyed = case.keyed * dead;
        mine.map(move |(node, end)| Step {
            from: node.at.as_inches() - start,
            to: end.as_inches() - start,
            load: keyed * node.dead + own + live * node.live,
            point: keyed * node.point_dead + live * node.point_live,
        })
    }

    /// All that stands on the beam, without sign: what dust is measured by.
    pub(super) fn total(&self) -> f64 {
        let case = Case::dead_and(EVERYWHERE);
        (0..=self.supports())
            .flat_map(|segment| self.steps(segment, case))
            .map(|step| float::abs(step.load) * (step.to - step.from) + float::abs(step.point))
            .sum()
    }

    /// All loads together, dead and live on all segments.
    pub fn weight_of_all(&self) -> Force {
        Force::from_pounds(self.total())
    }

    /// All results, in the room of `apart`.
    pub fn statics(&self, apart: &mut Apart) -> Statics {
        super::patterns::statics(self, apart)
    }

    /// A segment by its position from end A.
    pub(super) fn segment(&self, index: usize) -> Segment {
        Segment::at(index, self.supports())
    }
}

impl Default for Model {
    fn default() -> Self {
        Model::new()
    }
}

impl Node {
    /// Adds what a load puts on this node and its step; says how much.
    fn take(&mut self, laid: Option<Laid>) -> (f64, f64) {
        match laid {
            Some(Laid::Spread {
                from,
                to,
                dead,
                live,
            }) if from <= self.at && self.at < to => {
                let (dead, live) = (dead.as_pounds_per_inch(), live.as_pounds_per_inch());
                self.dead += dead;
                self.live += live;
                (dead, live)
            }
            Some(Laid::Point { at, dead, live }) if at == self.at => {
                let (dead, live) = (dead.as_pounds(), live.as_pounds());
                self.point_dead += dead;
                self.point_live += live;
                (dead, live)
            }
            _ => (0.0, 0.0),
        }
    }
}

/// Kinds of rows that statics lack.
fn missing(job: &Job, frame: Option<&Frame>) -> Lacking {
    Lacking {
        beam: job.beam.is_none(),
        shape: job.beam.is_some() && Section::of(job).is_none(),
        support: job.supports.len() < 2,
        wall: frame.is_some_and(|frame| lacks_wall(job, frame)),
        load: job.loads.is_empty(),
    }
}
